//! Earth in the bank, loose and compacted; what it weighs.

use groundsheet::estimate::Estimate;
use groundsheet::units::{FT3, LB, ONE, TON, YD3_BANK, YD3_COMPACTED, YD3_LOOSE};

use crate::support::{US, estimate_of, exactly, figure, within};

/// A berm with upright ends of a volume as measured, 9 ft wide and 3 ft high.
fn berm(volume_yd3: f64) -> String {
    format!("{},3,9,0", volume_yd3 * 27.0 / (9.0 * 3.0))
}

const CUT: &str = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Soil,\
                   Berm length (ft),Berm height (ft),Berm top (ft),Berm slope\n";

fn cuts(rows: &str, factors: &str) -> Estimate {
    let basins = format!("{CUT}{rows}");
    let factors = format!("Factor,Override\nBerm settlement,0\n{factors}");
    estimate_of(&[("Job", US), ("Basins", &basins), ("Factors", &factors)])
}

fn of_job(estimate: &Estimate, name: &str) -> f64 {
    figure(estimate, ("Earthwork", "", name), YD3_BANK)
}

#[test]
fn a_fill_needs_borrow_by_the_ratio_of_unit_weights() {
    let source = "EX-17, R2 and D: UFC 3-220-20, Foundations and Earth Structures (16 Jan 2025), \
                  §3-4.3.2, eq. 3-8 to 3-10, read in a digitisation";
    // 10,000 yd³ of fill at 110 lb/ft³ from borrow at 100 lb/ft³, no waste.
    let job = cuts(
        &format!("Dam,rectangle,3,3,3,0,loam,{}\n", berm(10_000.0)),
        "\"Compacted per bank, loam\",0.909090909090909\n",
    );
    within(source, of_job(&job, "filled"), 11_000.0, 1e-6);

    // With no data, 10 to 15 % of the fill is lost to shrinkage; rock fill swells by 10 to 50 %.
    let bank_for_one = |soil: &str| {
        let job = cuts(
            &format!("Dam,rectangle,3,3,3,0,{soil},{}\n", berm(1000.0)),
            "",
        );
        of_job(&job, "filled") / 1000.0
    };
    within(source, bank_for_one("loam") - 1.0, 0.125, 0.025);
    within(source, bank_for_one("clay") - 1.0, 0.125, 0.025);
    within(source, bank_for_one("rock") - 1.0, -0.30, 0.20);
}

#[test]
fn two_unit_weights_give_the_swell() {
    let source = "EX-18, R2: worked civil-engineering solution, expertsmind.com question 30170401";
    // 3,400 lb/yd³ in the bank and 2,700 lb/yd³ loose.
    let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Loose per bank\n\
                  Cut,rectangle,30,15,6,0,1.259259259259259\n";
    let factors = "Factor,Override\n\"Weight in the bank, loam\",125.9259259259259\n";
    let job = estimate_of(&[("Job", US), ("Basins", basins), ("Factors", factors)]);
    let of = |name, unit| figure(&job, ("Basins", "Cut", name), unit);
    let tons = of("dig, weight", TON);
    within(source, of("dig", YD3_BANK) / tons, 0.59, 0.005);
    within(source, of("dig, loose", YD3_LOOSE) / tons, 0.74, 0.005);
    let swell = of("dig, loose", YD3_LOOSE) / of("dig", YD3_BANK) - 1.0;
    within(source, swell, 0.26, 0.005);
}

#[test]
fn sand_goes_from_100_in_place_to_111_loose_and_95_compacted() {
    let source = "EX-19, R1: US Navy, Engineering Aid 1, table 10-1, as quoted";
    let memory = "EX-19, M, from memory, check: US Army FM 5-434 (15 Jun 2000), table 1-1";
    // 100 yd³ in place, and a berm of what it comes to when rolled: nothing is left or short.
    let rows = [
        (source, "sand", 1.11, 0.95),
        (memory, "loam", 1.25, 0.90),
        (memory, "rock", 1.50, 1.30),
    ];
    for (source, soil, loose, compacted) in rows {
        let job = cuts(
            &format!(
                "Cut,rectangle,30,15,6,0,{soil},{}\n",
                berm(100.0 * compacted)
            ),
            "",
        );
        let of = |name, unit| figure(&job, ("Basins", "Cut", name), unit);
        exactly(source, of("dig", YD3_BANK), 100.0);
        exactly(source, of("dig, loose", YD3_LOOSE), 100.0 * loose);
        exactly(
            source,
            of("berm volume as built", YD3_COMPACTED),
            100.0 * compacted,
        );
        exactly(source, of_job(&job, "filled"), 100.0);
        within(source, of_job(&job, "surplus"), 0.0, 1e-9);
        within(source, of_job(&job, "brought in"), 0.0, 1e-9);
    }
}

#[test]
fn common_earth_and_tough_clay_have_the_load_factors_of_the_lesson() {
    let source = "EX-20, R2: university tutorial CE417 no. 3, load factors of common earth and of tough clay";
    // The swell of clay is rounded to 1.30, which is 0.769 turned over.
    for (soil, load_factor) in [("loam", 0.80), ("clay", 0.77)] {
        let job = cuts(&format!("Cut,rectangle,30,15,6,0,{soil},,,,\n"), "");
        let of = |name, unit| figure(&job, ("Basins", "Cut", name), unit);
        let ours = of("dig", YD3_BANK) / of("dig, loose", YD3_LOOSE);
        within(source, ours, load_factor, 0.005);
    }
}

#[test]
fn default_soils_weigh_what_the_shoring_manual_prints() {
    let source = "EX-21, R2: Caltrans, Trenching and Shoring Manual (rev. 2, July 2025), tables \
                  3-2 and 3-3, p. 3-5 to 3-7, read in a digitisation";
    // Least and greatest lb/ft³: medium sand; silt; stiff cohesive soil.
    let rows = [
        ("sand", 90.0, 117.0),
        ("loam", 85.0, 120.0),
        ("clay", 115.0, 130.0),
    ];
    for units in ["US customary", "metric"] {
        for (soil, least, greatest) in rows {
            let keys = format!("Key,Value\nName,Test\nUnits,{units}\nSoil,{soil}\n");
            let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
                          Cut,rectangle,30,15,6,0\n";
            let job = estimate_of(&[("Job", &keys), ("Basins", basins)]);
            let of = |name, unit| figure(&job, ("Basins", "Cut", name), unit);
            let pcf = of("dig, weight", LB) / of("left to dig in place", FT3);
            within(
                source,
                pcf,
                f64::midpoint(least, greatest),
                (greatest - least) / 2.0,
            );
        }
    }
}

#[test]
fn default_rock_weighs_what_its_printed_gravities_give() {
    let source = "EX-53, R1: Gillette and Hill, Concrete Construction (1908), tables VI and VII, \
                  p. 32-33; water at 62.355 lb/ft³ as in table VIII";
    let job = cuts("Cut,rectangle,30,15,6,0,rock,,,,\n", "");
    let of = |name, unit| figure(&job, ("Basins", "Cut", name), unit);
    let gravity = of("dig, weight", LB) / of("left to dig in place", FT3) / 62.355;
    // Granite, limestone, sandstone.
    for (least, greatest) in [(2.55, 2.86), (2.35, 2.87), (2.0, 2.78)] {
        within(
            source,
            gravity,
            f64::midpoint(least, greatest),
            (greatest - least) / 2.0,
        );
    }
}

#[test]
fn cut_and_fill_of_a_stretch_leave_what_the_mass_diagram_says() {
    let source = "EX-16, R1: US Navy, Engineering Aid 1 (NAVEDTRA 14070), ch. 10, table 10-2";
    // Cut 65 yd³ and fill 305 yd³: net −240, which is brought in.
    let job = cuts(
        &format!("Stretch,rectangle,13,13.5,10,0,loam,{}\n", berm(305.0)),
        "\"Compacted per bank, loam\",1\n",
    );
    exactly(source, of_job(&job, "dug"), 65.0);
    exactly(source, of_job(&job, "filled"), 305.0);
    exactly(source, of_job(&job, "brought in"), 240.0);
    within(source, of_job(&job, "surplus"), 0.0, 1e-9);
}

#[test]
fn broken_stone_weighs_what_its_gravity_and_voids_leave() {
    let source = "EX-51, R1: Gillette and Hill, Concrete Construction (1908), p. 33, table VIII; \
                  water at 62.355 lb/ft³";
    let voids = [0.0, 0.30, 0.35, 0.40, 0.45, 0.50];
    let printed_lb = [
        (2.4, [4041.0, 2828.0, 2626.0, 2424.0, 2222.0, 2020.0]),
        (2.5, [4209.0, 2946.0, 2736.0, 2525.0, 2315.0, 2105.0]),
        (2.6, [4377.0, 3064.0, 2845.0, 2626.0, 2408.0, 2189.0]),
        (2.7, [4546.0, 3182.0, 2955.0, 2727.0, 2500.0, 2273.0]),
        (2.8, [4714.0, 3300.0, 3064.0, 2828.0, 2593.0, 2357.0]),
        (3.0, [5051.0, 3536.0, 3283.0, 3030.0, 2778.0, 2526.0]),
    ];
    for (gravity, row_lb) in printed_lb {
        for (share, printed_lb) in voids.into_iter().zip(row_lb) {
            let weight_lb = stone_lb("yd", gravity * 62.355, share);
            within(source, weight_lb, printed_lb, 1.0);
        }
    }
    let source = "EX-52, R1: Gillette and Hill (1908), p. 32: quartz gravel of 165 lb/ft³ solid \
                  with 40 % voids";
    exactly(source, stone_lb("ft", 165.0, 0.40), 99.0);
}

/// Pounds bought for one cubic yard or foot of stone, its voids deducted.
fn stone_lb(side: &str, solid_pcf: f64, voids: f64) -> f64 {
    let items = format!(
        "Item,Section,Description,Length ({side}),Width ({side}),Depth ({side}),Deduct,Unit,\
         Material,Waste (%)\nHeap,Stone,Broken stone,1,1,1,{voids},{side}3,Stone,0\n"
    );
    let materials = format!("Material,Unit,Weight (lb/ft3)\nStone,lb,{solid_pcf}\n");
    let tables = [
        ("Job", US),
        ("Other items", &*items),
        ("Materials", &*materials),
    ];
    figure(&estimate_of(&tables), ("Lines", "Heap", "bought"), ONE)
}

#[test]
fn loose_stone_in_a_cart_makes_the_printed_tons_a_yard() {
    let source = "EX-55, R1 for the weights, D for the tons: Gillette and Hill, Concrete \
                  Construction (1908), p. 20";
    // The lightest and the heaviest cart: trap at 1 in, crushed cobble at ½ in.
    for (loose_pcf, printed_tons) in [(84.3, 1.14), (102.5, 1.38)] {
        let items = "Item,Section,Description,Length (yd),Width (yd),Depth (yd),Unit,Material,\
                     Waste (%)\nCart,Stone,Loose stone,1,1,1,yd3,Stone,0\n";
        let materials = format!("Material,Unit,Weight (lb/ft3)\nStone,ton,{loose_pcf}\n");
        let tables = [
            ("Job", US),
            ("Other items", items),
            ("Materials", &*materials),
        ];
        let tons = figure(&estimate_of(&tables), ("Lines", "Cart", "bought"), ONE);
        within(source, tons, printed_tons, 0.005);
    }
}

#[test]
fn crushed_stone_that_settles_weighs_more_a_yard() {
    let source = "EX-23, R1, D for 2,604.5: Gillette and Hill, Concrete Construction (1908), p. 34, \
                  table IX: 1½ in stone settles by 11.5 %, from 2,305 lb/yd³ to 2,600";
    // 100 yd³ as loaded, and the 88.5 yd³ that they settle to: nothing is left or short.
    let job = cuts(
        &format!("Load,rectangle,30,15,6,0,loam,{}\n", berm(88.5)),
        &format!(
            "\"Weight in the bank, loam\",{}\n\"Compacted per bank, loam\",0.885\n",
            2305.0 / 27.0
        ),
    );
    within(source, of_job(&job, "surplus"), 0.0, 1e-9);
    within(source, of_job(&job, "brought in"), 0.0, 1e-9);
    let of = |name, unit| figure(&job, ("Basins", "Load", name), unit);
    let settled_yd3 = of("berm volume as built", YD3_COMPACTED);
    let weight_lb_yd3 = of("dig, weight", LB) / settled_yd3;
    within(source, weight_lb_yd3, 2604.5, 0.05);
    within(source, weight_lb_yd3, 2600.0, 2600.0 * 0.003);
}
