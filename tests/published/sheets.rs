//! Sheets: anchor trenches, laps, layers, and the surface that a sheet covers.

use groundsheet::parameters::Factor;
use groundsheet::units::{FT, FT2, IN, System};

use super::basins;
use crate::support::{US, estimate_of, exactly, figure, within};

#[test]
fn a_sheet_in_an_anchor_trench_runs_48_in_beyond_the_berm_edge() {
    let source = "EX-42, R1 for the trench, D for the sum: USDA NRCS Arizona, Conservation \
                  Practice Specification 521A (January 2008), §2";
    let rows = [
        (Factor::TrenchDepth, 12.0),
        (Factor::TrenchWidth, 12.0),
        (Factor::SetBack, 24.0),
    ];
    for (factor, printed_in) in rows {
        exactly(source, factor.default(System::Us) * 12.0, printed_in);
    }
    let pond = estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
             Pond,rectangle,100,70,12,2\n",
        ),
        (
            "Liner and fabric",
            "Layer,Basin,Slack (%),Edge\nLiner,Pond,0,anchor trench\n",
        ),
    ]);
    let sheet = |name| figure(&pond, ("Liner and fabric", "Liner", name), IN);
    let surface = |name| figure(&pond, ("Basins", "Pond", name), IN);
    let beyond_in = sheet("length of one sheet") - surface("developed length");
    exactly(source, beyond_in / 2.0, 48.0);
    exactly(source, sheet("edge in use"), 48.0);
}

#[test]
fn usual_laps_lie_inside_the_printed_bands() {
    let fabric = "EX-44, R2: FHWA-NHI-10-024 (GEC 11) §5.3.3: adjoining filter fabric laps \
                  12-18 in (300-450 mm)";
    // Bands as their middle and half of their breadth.
    within(fabric, Factor::LapLoose.default(System::Us), 15.0, 3.0);
    within(
        fabric,
        Factor::LapLoose.default(System::Metric),
        375.0,
        75.0,
    );
    let welded = "EX-46, R1: City of Nashua (NH) landfill specification §3.4: laps at least 4 in";
    let lap_in = Factor::LapWelded.default(System::Us);
    exactly(welded, lap_in.min(4.0), 4.0);
}

#[test]
fn twelve_layers_of_sixteen_feet_take_192_square_feet_a_foot() {
    let source = "EX-48, R2: FHWA-NHI-10-024 (GEC 11) §9.4, and D with 10-15 % added for laps";
    // One foot of slope, laid twelve times; then 100 ft of it in strips of 12.5 ft with laps
    // of 15 in, the middle of the band of EX-44: (100 − 1.25) ÷ 11.25 = 8.8: 9 strips.
    let wall = estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
             Wall,rectangle,100,16,1,0\n",
        ),
        (
            "Liner and fabric",
            "Layer,Basin,Times,Slack (%),Edge width (ft),Sheet length (ft),Sheet width (ft),\
             Ordered as,Strips run,Roll width (ft),Lap (in)\n\
             Bare,Wall,12,0,0,1,16,one panel,,,\n\
             Lapped,Wall,12,0,0,100,16,strips,across the width,12.5,15\n",
        ),
    ]);
    let ordered = |row| figure(&wall, ("Liner and fabric", row, "area ordered"), FT2);
    exactly(source, ordered("Bare"), 192.0);
    let a_foot_ft2 = ordered("Lapped") / 100.0;
    within(source, a_foot_ft2, f64::midpoint(211.0, 221.0), 5.0);
    exactly(source, a_foot_ft2, 12.0 * 16.0 * 9.0 * 12.5 / 100.0);
}

#[test]
fn a_sheet_through_the_slopes_is_shorter_than_the_shop_rule() {
    let source = "EX-49, D: slope length 12 √5 ft in the pond of EX-01; shop rule from memory: \
                  length + 2 × depth";
    let pond = basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
         Pond,rectangle,100,70,12,2\nWalls,rectangle,100,70,12,0\n",
    );
    let of = |row, name, unit| figure(&pond, ("Basins", row, name), unit);
    within(source, of("Pond", "developed length", FT), 105.6656, 5e-5);
    within(source, of("Pond", "developed width", FT), 75.6656, 5e-5);
    within(source, of("Pond", "lined surface", FT2), 7691.207, 5e-4);
    exactly(source, of("Walls", "developed length", FT), 124.0);
    exactly(source, of("Walls", "developed width", FT), 94.0);
    assert!(of("Pond", "developed length", FT) < 124.0, "{source}");
    assert!(of("Pond", "developed width", FT) < 94.0, "{source}");
}
