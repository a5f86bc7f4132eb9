//! Loose stone, green wood, plants, openings and confined spaces.

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::units::{FT_S, FT2, FT3, LB, LB_FT3, ONE, PERCENT, TON, YD3};

use crate::support::{US, estimate_of, exactly, figure, within};

/// A job that buys nothing of what it measures, with one more thing to be measured at all.
fn measured(tables: &[(&str, &str)]) -> Estimate {
    let items = "Item,Section,Description,Times,Unit,Price\nSign,Site,Site sign,1,ea,50\n";
    let job = [("Job", US), ("Other items", items)];
    estimate_of(&[&job, tables].concat())
}

/// A factor in use.
fn factor(job: &Estimate, name: &str, unit: groundsheet::units::Unit) -> f64 {
    figure(job, ("Factors", "", name), unit)
}

/// A bed of 27 ft³, with its voids as written.
fn cubic_yard(porosity: &str) -> Estimate {
    let table = format!("Bed,Area (ft2),Thickness (ft),Porosity (%)\nBed,27,1,{porosity}\n");
    measured(&[("Gravel and loose stone", &table)])
}

#[test]
fn gravel_weighs_its_solid_weight_less_its_voids() {
    let source = "EX-52, R1: Gillette and Hill, Concrete Construction (1908), p. 32: 165 lb/ft³ \
                  solid with 40 % voids makes 99 lb/ft³";
    let bed = cubic_yard("40");
    let at = |name, unit| figure(&bed, ("Gravel and loose stone", "Bed", name), unit);
    let solid_lb = at("solid volume", FT3) * factor(&bed, "Solid weight, granite", LB_FT3);
    exactly(source, solid_lb / at("net volume", FT3), 99.0);
}

#[test]
fn rocks_lie_inside_their_printed_bands_of_gravity() {
    let source = "EX-53, R1: Gillette and Hill, Concrete Construction (1908), p. 32-33, tables VI \
                  and VII";
    let job = measured(&[]);
    let water = factor(&job, "Weight of water", LB_FT3);
    for (rock, least, most) in [
        ("granite", 2.55, 2.86),
        ("gneiss", 2.62, 2.92),
        ("limestone", 2.35, 2.87),
        ("sandstone", 2.0, 2.78),
        ("quartzite", 2.6, 2.7),
        // One figure is printed: half a unit of its last place on either side.
        ("basalt", 3.005, 3.015),
    ] {
        let name = format!("Solid weight, {rock}");
        let gravity = factor(&job, &name, LB_FT3) / water;
        let middle = f64::midpoint(least, most);
        within(source, gravity, middle, most - middle);
    }
}

#[test]
fn voids_of_loose_stone_lie_inside_the_printed_bands() {
    let source = "EX-54, R1: Gillette and Hill, Concrete Construction (1908), p. 30-31, table V: \
                  single sizes of pebbles 38.8-41.7 %, three sizes 35.5 %; gravel seldom under 30 \
                  or over 45 %";
    let bed = cubic_yard("");
    let at = ("Gravel and loose stone", "Bed", "voids in use");
    let voids = figure(&bed, at, PERCENT);
    within(
        source,
        voids,
        f64::midpoint(38.8, 41.7),
        f64::midpoint(41.7, -38.8),
    );
    // A default for broken stone is not kept: it is written in the row, and taken as written.
    let broken = cubic_yard("52.5");
    exactly(source, figure(&broken, at, PERCENT), 52.5);
    let solid = ("Gravel and loose stone", "Bed", "solid volume");
    exactly(source, figure(&broken, solid, FT3), 27.0 * 0.475);
}

#[test]
fn a_cubic_yard_of_loose_stone_weighs_what_was_carted() {
    let source = "EX-55, R1, D for tons a cubic yard: Gillette and Hill, Concrete Construction \
                  (1908), p. 20: loose stone 84-103 lb/ft³, 1.14-1.38 short tons/yd³";
    let bed = cubic_yard("");
    let at = |name| figure(&bed, ("Gravel and loose stone", "Bed", name), YD3);
    let solid_lb_ft3 = factor(&bed, "Solid weight, granite", LB_FT3);
    let loose_lb_ft3 = solid_lb_ft3 * at("solid volume") / at("net volume");
    within(
        source,
        loose_lb_ft3,
        f64::midpoint(84.3, 102.5),
        f64::midpoint(102.5, -84.3),
    );
    let tons_yd3 = loose_lb_ft3 * 27.0 / 2000.0;
    within(
        source,
        tons_yd3,
        f64::midpoint(1.14, 1.38),
        f64::midpoint(1.38, -1.14),
    );
    let ballast = factor(&bed, "Weight of ballast, stone or soil", LB_FT3);
    within(source, ballast, f64::midpoint(84.0, 103.0), 9.5);
}

/// A vault that water enters by an opening.
fn opening(width_ft: &str, flow_gpm: &str) -> Estimate {
    let table = format!(
        "Structure,Kind,Length (ft),Width (ft),Height (ft),Opening width (ft),\
         Opening height (ft),Flow (gpm)\nIntake,vault,8,6,5,{width_ft},1,{flow_gpm}\n"
    );
    measured(&[("Structures", &table)])
}

#[test]
fn five_hundred_gallons_a_minute_need_2_228_square_feet() {
    let source = "EX-73, R1, D for the area: 40 CFR 125.84(b)(2): greatest design velocity 0.5 \
                  ft/s at an intake screen; 500 gpm needs 2.228 ft²";
    let intake = opening("2.228", "500");
    let of = |name, unit| figure(&intake, ("Structures", "Intake", name), unit);
    // The printed area has four digits.
    within(source, of("approach velocity", FT_S), 0.5, 0.000_15);
    let most = factor(&intake, "Greatest approach velocity", FT_S);
    exactly(source, most, 0.5);
    let needed_ft2 = of("approach velocity", FT_S) * of("area of the opening", FT2) / most;
    within(source, needed_ft2, 2.228, 0.0005);
    let fast = |width_ft| {
        let found = opening(width_ft, "500").findings;
        found.iter().any(|found| found.code == Code::FastOpening)
    };
    assert!(fast("2.22") && !fast("2.24"));
}

#[test]
fn green_logs_weigh_what_the_handbook_says() {
    let source = "EX-89, R2 and D: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 \
                  (2021), tables 4-1 and 5-3a, eq. 4-14, read in a digitisation";
    // White oak heartwood weighs 61.4 lb/ft³, its sapwood 66.6; a log is taken by the heavier.
    let log = |factors: &str| {
        measured(&[
            ("Timber", "Log,Length (ft),Diameter (in)\nLog,16,18\n"),
            ("Factors", factors),
        ])
    };
    let heart = log("Factor,Override\n\"Green weight, white oak\",61.4\n");
    let of = |name, unit| figure(&heart, ("Timber", "Log", name), unit);
    within(source, of("volume of one", FT3), 28.274, 0.0005);
    within(source, of("green weight of one", LB), 1736.0, 1.736);
    within(source, of("green weight of one", TON), 0.868, 0.000_868);
    let usual = log("Factor,Override\n");
    for (wood, pounds) in [
        ("white oak", 66.6),
        ("red oak", 62.9),
        // 62.4 × 0.40 × 2.06.
        ("yellow-poplar", 51.4),
    ] {
        let name = format!("Green weight, {wood}");
        within(source, factor(&usual, &name, LB_FT3), pounds, 0.05);
    }
    // Softwoods: sapwood at 110 and 115 % on green gravities from memory, check: 0.47 and 0.45.
    let memory = "EX-89, R2 for the moisture, M for the gravity, from memory, check";
    for (wood, gravity, moisture) in [("loblolly pine", 0.47, 1.10), ("Douglas-fir", 0.45, 1.15)] {
        let name = format!("Green weight, {wood}");
        let pounds = 62.4 * gravity * (1.0 + moisture);
        within(memory, factor(&usual, &name, LB_FT3), pounds, 0.05);
    }
}

#[test]
fn a_green_log_sinks_from_the_handbooks_moisture_on() {
    let source = "EX-90, R2 for the formula and the woods: USDA Forest Products Laboratory, Wood \
                  Handbook, FPL-GTR-282 (2021), eq. 4-4, p. 4-3, read in a digitisation";
    // A wood of green gravity G sinks above a moisture of 100 (1 − G) / G.
    let log = |species: &str, factors: &str| {
        let table = format!("Log,Length (ft),Diameter (in),Species\nLog,16,18,{species}\n");
        let factors = format!("Factor,Override\n{factors}");
        let job = measured(&[("Timber", &table), ("Factors", &factors)]);
        let of = |name, unit| figure(&job, ("Timber", "Log", name), unit);
        let water_lb = of("volume of one", FT3) * factor(&job, "Weight of water", LB_FT3);
        of("green weight of one", LB) / water_lb
    };
    let moisture = |of_water: f64, gravity: f64| 100.0 * (of_water / gravity - 1.0);
    // White oak as heavy as water, its heartwood at 61.4 lb/ft³, its sapwood as we have it.
    let even = log("white oak", "\"Green weight, white oak\",62.4\n");
    within(source, moisture(even, 0.60), 66.7, 0.05);
    let heart = log("white oak", "\"Green weight, white oak\",61.4\n");
    within(source, moisture(heart, 0.60), 64.0, 0.15);
    assert!(heart < 1.0, "{source}: heartwood floats");
    let sap = log("white oak", "");
    within(source, moisture(sap, 0.60), 78.0, 0.15);
    assert!(sap > 1.0, "{source}: sapwood sinks");
    // Red oak heartwood: 80 % against 78.6; yellow-poplar sapwood: 106 % against 150.
    assert!(log("red oak", "") > 1.0, "{source}: red oak sinks");
    assert!(log("yellow-poplar", "") < 1.0, "{source}: poplar floats");
}

#[test]
fn plants_over_an_area_follow_the_printed_densities() {
    let source = "EX-91, R1 for squares, D for triangles: Vernon, Irwine, Patton and Chapman, \
                  Rules of thumb: planting distances and densities (abstract)";
    // Over 10,000 ft² a whole plant is a unit of the fourth decimal of plants a square foot.
    for (spacing_in, square, triangle) in [
        (12, 1.0, 1.1547),
        (18, 0.4444, 0.5132),
        (24, 0.25, 0.2887),
        (36, 0.1111, 0.1283),
    ] {
        let table = format!(
            "Planting,Area (ft2),Spacing (in),Pattern\n\
             Square,10000,{spacing_in},square\nTriangle,10000,{spacing_in},triangle\n"
        );
        let bed = measured(&[("Planting", &table)]);
        for (row, printed) in [("Square", square), ("Triangle", triangle)] {
            let plants = figure(&bed, ("Planting", row, "plants"), ONE);
            exactly(source, plants, plants.round());
            // Rounded to four digits in print, and up to a whole plant by us.
            within(source, plants / 10_000.0 - 0.000_05, printed, 0.000_100_1);
        }
    }
    let wide = measured(&[(
        "Planting",
        "Planting,Area (ft2),Slope,Spacing (in)\nFlat,900,,12\nSteep,900,1,12\n",
    )]);
    let plants = |row| figure(&wide, ("Planting", row, "plants"), ONE);
    exactly(source, plants("Flat"), 900.0);
    // On a slope the true surface counts: 900 √2 = 1,272.8.
    exactly(source, plants("Steep"), 1273.0);
}

#[test]
fn a_vault_is_a_confined_space_and_a_wall_is_not() {
    let source = "EX-41, R1: University of Maryland on 29 CFR 1910.146: big enough to enter, \
                  limited ways in and out, not meant to stay in";
    let cautions = |kind: &str| {
        let table = format!("Structure,Kind,Length (ft),Width (ft),Height (ft)\nIt,{kind},8,6,5\n");
        let found = measured(&[("Structures", &table)]).findings;
        let caution = |found: &&groundsheet::diagnostic::Diagnostic| {
            found.code == Code::ConfinedSpace && found.severity == Severity::Caution
        };
        found.iter().filter(caution).count()
    };
    assert_eq!(cautions("vault"), 1, "{source}");
    assert_eq!(cautions("wall kept"), 0, "{source}");
}
