//! Small whole jobs, worked out with pencil and paper in the comments.
//!
//! Always true: no expected figure was printed by this crate; each stands at the end of
//! the arithmetic above it.

use std::f64::consts::PI;

use groundsheet::diagnostic::{Code, Diagnostic, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::units::{
    FT, FT3, GAL, H, LOAD, M, M3, MONEY, ONE, TON, Unit, YD3, YD3_BANK, YD3_COMPACTED, YD3_LOOSE,
};

use crate::support::{METRIC, US, estimate_of, exactly, figure, findings_of, within};

fn basin(job: &Estimate, name: &str, unit: Unit) -> f64 {
    figure(job, ("Basins", "Pool", name), unit)
}

fn earthwork(job: &Estimate, name: &str, unit: Unit) -> f64 {
    figure(job, ("Earthwork", "", name), unit)
}

fn bid(job: &Estimate, name: &str) -> f64 {
    figure(job, ("Bid", "", name), MONEY)
}

/// A rectangle of 40 × 24 ft, 4 ft deep, sides 1 to 1, with a shelf 2 ft wide at 1 ft.
fn shelved_pool(freeboard_in: &str) -> Estimate {
    estimate_of(&[
        ("Job", US),
        (
            "Basins",
            &format!(
                "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Build-up (in),\
                 Freeboard (in)\nPool,rectangle,40,24,4,1,6,{freeboard_in}\n"
            ),
        ),
        (
            "Shelves",
            "Basin,Shelf,Depth (ft),Width (ft)\nPool,Planting,1,2\n",
        ),
    ])
}

#[test]
fn a_shelved_pool_is_two_frustums_one_below_the_other() {
    // Rim to shelf, 1 ft: top 40 × 24 = 960; foot 38 × 22 = 836; middle 39 × 23 = 897.
    //   (960 + 4 × 897 + 836) × 1 / 6 = 5,384 / 6 ft³
    // The shelf takes 2 ft all round: 34 × 18. Shelf to floor, 3 ft: top 34 × 18 = 612;
    // foot 28 × 12 = 336; middle 31 × 15 = 465.
    //   (612 + 1,860 + 336) × 3 / 6 = 1,404 ft³
    let pool = shelved_pool("6");
    exactly("floor", basin(&pool, "floor length", FT), 28.0);
    exactly("floor", basin(&pool, "floor width", FT), 12.0);
    let finished_ft3 = 5384.0 / 6.0 + 1404.0;
    exactly("volume", basin(&pool, "finished volume", FT3), finished_ft3);
    // Dug 6 in lower, and the slope at the rim runs on: top 41 × 25 = 1,025, foot 960,
    // middle 40.5 × 24.5 = 992.25: (1,025 + 3,969 + 960) × 0.5 / 6 = 496 1/6 ft³ more,
    // which makes 2,797.5.
    exactly("dug", basin(&pool, "dug volume", FT3), 2797.5);
    exactly("dig", basin(&pool, "dig", YD3_BANK), 2797.5 / 27.0);
}

#[test]
fn water_is_counted_from_its_surface_above_and_below_the_shelf() {
    // At 6 in below the rim: top 39 × 23 = 897, foot 836, middle 38.5 × 22.5 = 866.25:
    //   (897 + 3,465 + 836) × 0.5 / 6 = 5,198 / 12 above the shelf, and 1,404 below.
    // At 12 in the surface is the shelf: 1,404. At 24 in: top 32 × 16 = 512, foot 336,
    // middle 30 × 14 = 420: (512 + 1,680 + 336) × 2 / 6 = 2,528 / 3. At 48 in: none.
    let rows = [
        ("6", 5198.0 / 12.0 + 1404.0),
        ("12", 1404.0),
        ("24", 2528.0 / 3.0),
        ("48", 0.0),
    ];
    for (freeboard_in, water_ft3) in rows {
        let pool = shelved_pool(freeboard_in);
        let ours_ft3 = basin(&pool, "water volume", FT3);
        within(freeboard_in, ours_ft3, water_ft3, 1e-9 * 2000.0);
        // A cubic foot is 1,728 in³ and a gallon 231.
        let gallons = water_ft3 * 1728.0 / 231.0;
        within(
            freeboard_in,
            basin(&pool, "water volume", GAL),
            gallons,
            1e-5,
        );
    }
}

#[test]
fn a_pit_that_people_enter_is_laid_back_from_exactly_five_feet() {
    // A floor of 10 × 8 ft with upright sides, and 2 ft of room: 14 × 12 ft.
    // At 5.00 ft in loam 1½ to 1: 14 + 15 = 29 by 12 + 15 = 27 at the ground.
    //   (29 × 27 + (29 + 14)(27 + 12) + 14 × 12) × 5 / 6 = (783 + 1,677 + 168) × 5 / 6 = 2,190
    //   of which 10 × 8 × 5 = 400 is the pool and 1,790 is filled again.
    // At 4.99 ft upright: 14 × 12 × 4.99 = 838.32; the pool 399.2; 439.12 filled again.
    // At 4 ft 6 in with a build-up of 6 in the cut is 5 ft deep: 2,190 again.
    let rows = [
        ("5.00", "0", 2190.0, 1790.0),
        ("4.99", "0", 838.32, 439.12),
        ("4' 6\"\"", "6", 2190.0, 1790.0),
    ];
    for (depth, build_up_in, cut_ft3, backfill_ft3) in rows {
        let pit = estimate_of(&[
            ("Job", US),
            (
                "Basins",
                &format!(
                    "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Build-up (in),\
                     Entered\nPool,rectangle,10,8,\"{depth}\",0,{build_up_in},yes\n"
                ),
            ),
        ]);
        exactly(depth, basin(&pit, "cut volume", FT3), cut_ft3);
        let backfill_yd3 = basin(&pit, "backfill", YD3_COMPACTED);
        exactly(depth, backfill_yd3, backfill_ft3 / 27.0);
    }
}

#[test]
fn a_metric_ellipse_shrinks_on_both_axes() {
    // Axes 8 × 5 m, 1.2 m deep, sides 1 to 1: the floor's axes are 5.6 × 2.6 m.
    //   π/4 × (8 × 5 + (8 + 5.6)(5 + 2.6) + 5.6 × 2.6) × 1.2 / 6
    //   = π/4 × (40 + 103.36 + 14.56) × 0.2 = π × 7.896 m³
    // Water 0.2 m lower: axes 7.6 × 4.6 m: π/4 × (34.96 + 13.2 × 7.2 + 14.56) × 1.0 / 6
    //   = π/4 × 144.56 / 6 = π × 6.02333…
    let pool = estimate_of(&[
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope,Freeboard (mm)\n\
             Pool,ellipse,8,5,1.2,1,200\n",
        ),
    ]);
    exactly("floor", basin(&pool, "floor length", M), 5.6);
    exactly("volume", basin(&pool, "finished volume", M3), PI * 7.896);
    exactly(
        "water",
        basin(&pool, "water volume", M3),
        PI * 144.56 / 24.0,
    );
    // Loam is loose at 1.25 and weighs 1,760 kg/m³ in the bank.
    let tonnes = basin(&pool, "dig, weight", TON) * 0.907_184_74;
    exactly("weight", tonnes, PI * 7.896 * 1.76);
}

#[test]
fn a_berm_is_brought_in_by_the_loads_that_weight_or_volume_fill() {
    // The pool: 10 × 9 × 3 ft = 270 ft³ = 10 yd³ in the bank.
    // The berm: 3 ft high, top 6 ft, sides 2 to 1, base 18 ft: 36 ft² × 100 ft = 3,600 ft³,
    //   with 5 % for settling 3,780 ft³ = 140 yd³ compacted = 155 5/9 yd³ in the bank (0.9).
    // Brought in: 145 5/9 yd³ bank = 1,310/9; loose × 1.25 = 181.9444 yd³;
    //   weight 1,310/9 × 27 × 110 / 2,000 = 216.15 tons.
    // A truck of 14 yd³ and 12 tons: 12.996 loads by volume, 18.0125 by weight: 19.
    // A truck of 8 yd³ and 20 tons: 22.743 loads by volume, 10.8 by weight: 23.
    for (truck, loads) in [("14,12", 19.0), ("8,20", 23.0)] {
        let job = estimate_of(&[
            ("Job", US),
            (
                "Basins",
                "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Berm length (ft),\
                 Berm height (ft),Berm top (ft),Berm slope\nPool,rectangle,10,9,3,0,100,3,6,2\n",
            ),
            (
                "Equipment",
                &format!("Machine,Carries (yd3),Payload (ton)\nTruck,{truck}\n"),
            ),
            (
                "Production rates",
                "Work,Unit,Machine\nBring fill,load,Truck\n",
            ),
        ]);
        exactly("dug", earthwork(&job, "dug", YD3_BANK), 10.0);
        exactly("filled", earthwork(&job, "filled", YD3_BANK), 1400.0 / 9.0);
        exactly("in", earthwork(&job, "brought in", YD3_BANK), 1310.0 / 9.0);
        let loose_yd3 = earthwork(&job, "brought in, loose", YD3_LOOSE);
        exactly("loose", loose_yd3, 1637.5 / 9.0);
        exactly("weight", earthwork(&job, "brought in, weight", TON), 216.15);
        exactly(truck, earthwork(&job, "loads brought in", LOAD), loads);
        exactly("balance", earthwork(&job, "surplus", YD3_BANK), 0.0);
    }
}

#[test]
fn topsoil_sediment_and_the_old_hollow_are_not_dug_twice() {
    // 20 × 13.5 × 4 ft = 1,080 ft³ = 40 yd³. Topsoil 6 in over 270 ft² = 135 ft³ = 5 yd³;
    // sediment 100 ft² × 16.2 in = 135 ft³ = 5 yd³; already open 10 yd³; left 20 yd³.
    // The sediment weighs 135 ft³ × 85 lb/ft³ = 11,475 lb = 5.7375 tons, and does not swell.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Topsoil (in),\
             Sediment area (ft2),Sediment depth (in),Already open (yd3)\n\
             Pool,rectangle,20,13.5,4,0,6,100,16.2,10\n",
        ),
    ]);
    exactly("cut", basin(&job, "cut volume", YD3), 40.0);
    exactly("topsoil", basin(&job, "topsoil stripped", YD3_BANK), 5.0);
    exactly("sediment", basin(&job, "sediment", YD3), 5.0);
    exactly("dig", basin(&job, "dig", YD3_BANK), 20.0);
    exactly("mud", earthwork(&job, "sediment, all", YD3_LOOSE), 5.0);
    exactly("mud", earthwork(&job, "sediment, weight", TON), 5.7375);
    let spread_yd3 = earthwork(&job, "topsoil spread again", YD3_LOOSE);
    exactly("topsoil again", spread_yd3, 6.25);
}

#[test]
fn rod_readings_give_depth_and_freeboard_from_the_lowest_rim() {
    // Benchmark 100.00 and backsight 5.00: line of sight 105.00. Rim rod 4.00: 101.00; floor
    // rod 9.50: 95.50, so 5.50 deep. Lowest rim 100.75, water 100.25: freeboard 0.50 ft.
    // Water: 20 × 10 × (100.25 − 95.50) = 950 ft³.
    let job = estimate_of(&[
        (
            "Job",
            &format!("{US}Benchmark (ft),100\nBacksight (ft),5\n"),
        ),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Side slope,Rim (ft),Floor rod (ft),\
             Lowest rim (ft),Water level (ft)\n\
             Pool,rectangle,20,10,0,rod 4.00,9.50,rod 4.25,100.25\n",
        ),
    ]);
    exactly("depth", basin(&job, "depth to floor", FT), 5.5);
    exactly("free", basin(&job, "freeboard at lowest rim", FT), 0.5);
    exactly("water", basin(&job, "water volume", FT3), 950.0);
}

/// A pool of standing water with a pump of 100 gpm, of which 70 % is counted on.
fn pumped(inflow_gpm: &str) -> [(&'static str, String); 4] {
    [
        ("Job", US.to_owned()),
        (
            "Basins",
            format!(
                "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Standing water (gal),\
                 Inflow (gpm)\nPool,rectangle,40,20,4,0,12600,{inflow_gpm}\n"
            ),
        ),
        (
            "Equipment",
            "Machine,Pump flow (gpm)\nPump,100\n".to_owned(),
        ),
        (
            "Production rates",
            "Work,Unit,Machine,Machine output\nPump out,h,Pump,1\n".to_owned(),
        ),
    ]
}

#[test]
fn pumping_is_standing_water_over_what_the_pump_gains() {
    // 70 − 10 = 60 gpm: 12,600 gal take 210 min = 3.5 h. As much inflow as 70 is a fault.
    let tables = pumped("10");
    let tables = tables.each_ref().map(|(name, text)| (*name, text.as_str()));
    let job = estimate_of(&tables);
    exactly("pumping", basin(&job, "pumping before the dig", H), 3.5);
    let hours = figure(&job, ("Lines", "Pump out: Pool", "machine hours"), H);
    exactly("machine", hours, 3.5);
    for (inflow_gpm, is_too_much) in [("69.99", false), ("70", true), ("80", true)] {
        let tables = pumped(inflow_gpm);
        let tables = tables.each_ref().map(|(name, text)| (*name, text.as_str()));
        let found = findings_of(&tables);
        let too_small = |finding: &Diagnostic| finding.code == Code::PumpTooSmall;
        assert_eq!(found.iter().any(too_small), is_too_much, "{inflow_gpm}");
        assert_eq!(found.iter().any(Diagnostic::blocks), is_too_much);
    }
}

#[test]
fn a_bond_of_two_per_cent_of_the_bid_closes_to_the_cent() {
    // Direct 10,000.00; overhead 10 % = 1,000.00; profit 5 % on 11,000.00 = 550.00: 11,550.00.
    // Bid 11,550 / 0.98 = 11,785.714… = 11,785.71; bond 2 % of it = 235.7142 = 235.71;
    // 11,550.00 + 235.71 = 11,785.71.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Price\nPool,Work,The pool,1,ls,10000\n",
        ),
        (
            "Mark-ups",
            "Mark-up,On,Rate (%)\nOverhead,direct cost,10\nProfit,running total,5\nBond,bid,2\n",
        ),
    ]);
    exactly("direct", bid(&job, "direct cost"), 10_000.0);
    let rows = [("Overhead", 1000.0), ("Profit", 550.0), ("Bond", 235.71)];
    for (name, amount) in rows {
        exactly(
            name,
            figure(&job, ("Mark-ups", name, "amount"), MONEY),
            amount,
        );
    }
    exactly("bid", bid(&job, "bid"), 11_785.71);
}

/// A job of one priced item with some mark-ups.
fn marked_up(price: &str, mark_ups: &str) -> Estimate {
    let items = format!("Item,Section,Description,Times,Unit,Price\nPool,Work,Pool,1,ls,{price}\n");
    let mark_ups = format!("Mark-up,On,Rate (%)\n{mark_ups}");
    estimate_of(&[
        ("Job", US),
        ("Other items", &items),
        ("Mark-ups", &mark_ups),
    ])
}

#[test]
fn two_shares_of_the_bid_close_to_the_cent_together() {
    // 10.00 / (1 − 0.015 − 0.02) = 10.3627 → 10.36. Bond 1.5 % = 0.1554 → 0.16; both 3.5 % =
    // 0.3626 → 0.36, which leaves 0.20 for the second: 10.00 + 0.16 + 0.20 = 10.36.
    let job = marked_up("10", "Bond,bid,1.5\nTax,bid,2\n");
    exactly("bid", bid(&job, "bid"), 10.36);
    for (name, amount) in [("Bond", 0.16), ("Tax", 0.20)] {
        exactly(
            name,
            figure(&job, ("Mark-ups", name, "amount"), MONEY),
            amount,
        );
    }
    exactly("mark-ups", bid(&job, "mark-ups"), 0.36);
}

#[test]
fn a_mark_up_is_rounded_to_the_cent_once() {
    // 5.03 % of 333.30 is 16.76499, which is 16.76; rounded twice it would be 16.77.
    let job = marked_up("333.30", "Overhead,direct cost,5.03\n");
    exactly("bid", bid(&job, "bid"), 350.06);
}

#[test]
fn orders_are_whole_multiples_and_at_least_the_minimum() {
    // Gravel: 25 tons and the usual 5 % waste = 26.25, sold in loads of 12, least 24: 36 tons
    //   at $30 = $1,080.00; the line has 26.25 × 30 = $787.50, so $292.50 is beyond it.
    // Plants: 4, and no waste because they are counted; the least order is 10: $20.00; the
    //   line has 4 × 2 = $8.00; $12.00 beyond.
    // Blocks: 100 and no waste, sold in 300, least 400: 600 at $1 = $600.00; $500.00 beyond.
    // Rope: measured as nothing, so none is ordered in spite of its minimum.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Material\nBed,Bed,Gravel,25,ton,Gravel\n\
             Reeds,Bed,Plants,4,ea,Plants\nRope,Bed,Rope,0,ea,Rope\n\
             Blocks,Bed,Blocks,100,ea,Blocks\n",
        ),
        (
            "Materials",
            "Material,Unit,Price,Sold in,Minimum\nGravel,ton,30,12,24\nPlants,ea,2,1,10\n\
             Rope,ea,7,1,50\nBlocks,ea,1,300,400\n",
        ),
    ]);
    let rows = [
        ("Gravel", 26.25, 36.0, 1080.0, 292.5),
        ("Plants", 4.0, 10.0, 20.0, 12.0),
        ("Rope", 0.0, 0.0, 0.0, 0.0),
        ("Blocks", 100.0, 600.0, 600.0, 500.0),
    ];
    for (name, needed, ordered, cost, beyond) in rows {
        let of = |column, unit| figure(&job, ("Materials", name, column), unit);
        exactly(name, of("needed", ONE), needed);
        exactly(name, of("ordered", ONE), ordered);
        exactly(name, of("order cost", MONEY), cost);
        exactly(name, of("beyond its lines", MONEY), beyond);
    }
    exactly("material", bid(&job, "material"), 1700.0);
    exactly("beyond", bid(&job, "whole units and minimum orders"), 804.5);
    exactly("bid", bid(&job, "bid"), 1700.0);
}

#[test]
fn rounded_unit_prices_make_the_bid_and_the_difference_is_shown() {
    // A: 3 at 33.35 = 100.05. B: 7 at 14.30 = 100.10. Direct 200.15; overhead 10 % = 20.015,
    // which rounds to 20.02: 220.17. For one of direct cost 220.17 / 200.15 = 1.10002…
    // A: 110.0575 / 3 = 36.6858 → 36.69, extended 110.07. B: 110.1125 / 7 = 15.7304 → 15.73,
    // extended 110.11. Bid 220.18, a cent more than the lump sum.
    let tables = |kind: &str| {
        estimate_of(&[
            ("Job", &format!("{US}Bid kind,{kind}\n")),
            (
                "Other items",
                "Item,Section,Description,Times,Unit,Price\nA,Work,First,3,ea,33.35\n\
                 B,Work,Second,7,ea,14.30\n",
            ),
            ("Mark-ups", "Mark-up,On,Rate (%)\nOverhead,direct cost,10\n"),
        ])
    };
    let job = tables("unit price");
    let of = |line, name| figure(&job, ("Lines", line, name), MONEY);
    exactly("A", of("A", "unit price"), 36.69);
    exactly("A", of("A", "amount"), 110.07);
    exactly("B", of("B", "unit price"), 15.73);
    exactly("B", of("B", "amount"), 110.11);
    exactly("bid", bid(&job, "bid"), 220.18);
    exactly("rounding", bid(&job, "rounding of unit prices"), 0.01);
    // As a lump sum: A 110.0575 → 110.06, and B what is left of 220.17.
    let job = tables("lump sum");
    let of = |line| figure(&job, ("Lines", line, "amount"), MONEY);
    exactly("A", of("A"), 110.06);
    exactly("B", of("B"), 110.11);
    exactly("bid", bid(&job, "bid"), 220.17);
    within("rounding", bid(&job, "rounding of unit prices"), 0.0, 1e-9);
}

#[test]
fn imported_fill_bought_by_weight_is_weighed() {
    // The pool gives 10 yd³ and the berm, 90 yd³ compacted with no settling, needs 100 yd³ in
    // the bank: 90 are brought in, 112.5 yd³ loose = 3,037.5 ft³. At 80 lb/ft³ that is
    // 243,000 lb = 121.5 tons, at $10 $1,215.00. If that cannot be done, it is a fault.
    let (job, findings) = crate::support::worked_out(&[
        ("Job", &format!("{US}Imported fill,Fill\n")),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Berm length (ft),\
             Berm height (ft),Berm top (ft),Berm slope\nPool,rectangle,10,9,3,0,90,3,9,0\n",
        ),
        ("Factors", "Factor,Override\nBerm settlement,0\n"),
        (
            "Materials",
            "Material,Unit,Price,Weight (lb/ft3),Waste (%)\nFill,ton,10,80,0\n",
        ),
    ]);
    if findings.iter().any(Diagnostic::blocks) {
        return;
    }
    let job = job.unwrap();
    exactly("in", earthwork(&job, "brought in, loose", YD3_LOOSE), 112.5);
    exactly(
        "tons",
        figure(&job, ("Lines", "Imported fill", "bought"), ONE),
        121.5,
    );
    exactly(
        "cost",
        figure(&job, ("Lines", "Imported fill", "material cost"), MONEY),
        1215.0,
    );
}

#[test]
fn earthwork_done_in_another_kind_of_unit_is_a_fault() {
    // A dig is counted in the bank. An output of loose yards, of square feet or of loads cannot
    // be turned into its hours without a factor that nobody gave; cubic metres in the bank can.
    let rows = [
        ("yd3 bank", false),
        ("m3 bank", false),
        ("yd3 loose", true),
        ("ft2", true),
        ("load", true),
    ];
    for (unit, is_wrong) in rows {
        let found = findings_of(&[
            ("Job", US),
            (
                "Basins",
                "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
                 Pool,rectangle,10,9,3,0\n",
            ),
            ("Equipment", "Machine,Rate per hour\nDigger,100\n"),
            (
                "Production rates",
                &format!("Work,Unit,Machine,Machine output\nDig,{unit},Digger,20\n"),
            ),
        ]);
        let blocks = found.iter().any(Diagnostic::blocks);
        assert_eq!(blocks, is_wrong, "Dig in {unit}: {found:?}");
    }
}

#[test]
fn a_minimum_order_is_never_lost_where_its_line_costs_nothing() {
    // 0.001 ton at $1 makes a line of $0.00; the least order of 10 tons costs $10.00. No line
    // can carry it, so the bid is refused and not written $10.00 short.
    let tables = |times: &str| {
        let items = format!(
            "Item,Section,Description,Times,Unit,Material,Waste (%)\n\
             Dust,Bed,Stone dust,{times},ton,Dust,0\n"
        );
        let materials = "Material,Unit,Price,Minimum\nDust,ton,1,10\n".to_owned();
        [
            ("Job", US.to_owned()),
            ("Other items", items),
            ("Materials", materials),
        ]
    };
    let found = |times: &str| {
        let tables = tables(times);
        let tables = tables.each_ref().map(|(name, text)| (*name, &**text));
        findings_of(&tables)
    };
    assert!(found("0.001").iter().any(Diagnostic::blocks));
    // 2 tons make a line of $2.00; the order is still $10.00, and so is the bid.
    let tables = tables("2");
    let job = estimate_of(&tables.each_ref().map(|(name, text)| (*name, &**text)));
    exactly("direct", bid(&job, "direct cost"), 10.0);
    exactly("bid", bid(&job, "bid"), 10.0);
}

#[test]
fn a_missing_price_leaves_a_draft_and_not_a_fault() {
    // A plug is counted and listed; without one the item counts nothing and is listed.
    let tables = [
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Price,Plug price\n\
             A,Work,Priced,1,ls,100,\nB,Work,Plugged,1,ls,,50\nC,Work,Open,1,ls,,\n",
        ),
    ];
    let found = findings_of(&tables);
    let open = |finding: &&Diagnostic| {
        finding.severity == Severity::Open && finding.code == Code::MissingPrice
    };
    assert_eq!(found.iter().filter(open).count(), 2, "{found:?}");
    exactly("bid", bid(&estimate_of(&tables), "bid"), 150.0);
}
