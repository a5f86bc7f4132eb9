//! Liner and fabric by hand: developed lengths, laps, strips, rolls, pieces of falls.
//!
//! Always true: no expected figure was printed by this crate; each stands at the end of
//! the arithmetic above it.

mod faults;
pub(crate) mod live;
mod surface;

use std::f64::consts::PI;

use groundsheet::diagnostic::Code;
use groundsheet::estimate::Estimate;
use groundsheet::takeoff::cuts;
use groundsheet::takeoff::lines::LINES;
use groundsheet::units::{FT, FT2, LB, M, M2, M3_BANK, MONEY, ONE, Unit, YD3_BANK, YD3_COMPACTED};

use crate::support::{METRIC, US, estimate_of, exactly, figure};

/// One figure of a layer.
fn layer(job: &Estimate, row: &str, name: &str, unit: Unit) -> f64 {
    figure(job, ("Liner and fabric", row, name), unit)
}

/// One figure of a line.
fn line(job: &Estimate, row: &str, name: &str) -> f64 {
    figure(job, ("Lines", row, name), ONE)
}

/// A pool with a shelf and a ramp, whose slopes come out even: √(1 + 0.75²) = 1.25 and
/// √(1 + 2.4²) = 2.6.
const SHELVED: &str = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Ramp slope\n\
                       Pool,rectangle,40,24,4,0.75,2.4\n";
const SHELF: &str = "Basin,Shelf,Depth (ft),Width (ft)\nPool,Planting,1,2\n";

/// What a pool, its layers and a few prices make.
fn shelved(layers: &str) -> Estimate {
    estimate_of(&[
        ("Job", US),
        ("Basins", SHELVED),
        ("Shelves", SHELF),
        ("Liner and fabric", layers),
        (
            "Materials",
            "Material,Unit,Price,Area weight (lb/ft2)\nFabric,ft2,0.25,\nLiner,ft2,1,0.25\n\
             Roll,ea,400,\nSeam tape,ft,2,\nBatten,ft,5,\nBoot,ea,60,\n",
        ),
        ("Crews", "Crew,People,Wage per hour\nCrew,1,50\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nLay sheet,ft2,Crew,100\nFix batten,ft,Crew,10\n\
             Fit boot,ea,Crew,1\nPick subgrade,ft2,Crew,1000\nTest liner,ea,Crew,0.125\n",
        ),
    ])
}

#[test]
fn a_sheet_follows_shelf_slopes_and_ramp_in_both_directions() {
    // Rim to shelf, 1 ft: sides 1.25 ft, ramp 2.6 ft down the slope; 0.75 and 2.4 ft in.
    //   Along: 1.25 + 2.6 + 2 × 2 = 7.85. Across: 2 × 1.25 + 4 = 6.5.
    //   At the tread 40 − 3.15 = 36.85 by 24 − 1.5 = 22.5; inside it 32.85 by 18.5.
    // Shelf to floor, 3 ft: sides 3.75, ramp 7.8; 2.25 and 7.2 in: floor 23.4 by 14.
    //   Length 23.4 + 3.75 + 7.8 + 7.85 = 42.8; width 14 + 2 × 3.75 + 6.5 = 28.
    let job = shelved("Layer,Basin,Slack (%),Edge width (ft)\nSheet,Pool,2.5,1.5\n");
    let of = |name, unit| figure(&job, ("Basins", "Pool", name), unit);
    exactly("length", of("developed length", FT), 42.8);
    exactly("width", of("developed width", FT), 28.0);
    // Rim to shelf: long sides (40 + 36.85) × 1.25 = 96.0625, ends (24 + 22.5) × (1.25 + 2.6)
    // ÷ 2 = 89.5125. Tread 36.85 × 22.5 − 32.85 × 18.5 = 221.4. Shelf to floor: long sides
    // (32.85 + 23.4) × 3.75 = 210.9375, ends 32.5 × 5.775 = 187.6875. Floor 23.4 × 14 = 327.6.
    //   96.0625 + 89.5125 + 221.4 + 210.9375 + 187.6875 + 327.6 = 1,133.2
    exactly("surface", of("lined surface", FT2), 1133.2);
    // With 2.5 % of slack 43.87 by 28.7; with 1.5 ft on every side 46.87 by 31.7.
    exactly(
        "sheet",
        layer(&job, "Sheet", "length of one sheet", FT),
        46.87,
    );
    exactly(
        "sheet",
        layer(&job, "Sheet", "width of one sheet", FT),
        31.7,
    );
    exactly(
        "bought",
        line(&job, "Sheet: Sheet", "taken off"),
        46.87 * 31.7,
    );
}

#[test]
fn fabric_comes_in_rolls_and_liner_in_strips_with_their_own_laps() {
    // Sheet 46.87 by 31.7 as above.
    // Fabric in rolls of 12.5 by 100 ft, loose, 12 in of lap: (31.7 − 1) ÷ 11.5 = 2.67: 3
    //   strips; two from a roll: 2 rolls, 2,500 ft². Seams 2 × 46.87 = 93.74.
    // Liner in strips of 10 ft, welded, 4 in: 31.3667 ÷ 9.6667 = 3.24: 4 strips, 1,874.8 ft²;
    //   seams 3 × 46.87 = 140.61; a strip of 468.7 ft² weighs 117.175 lb.
    // The same across: strips of 31.7 ft, (46.87 − 1/3) ÷ 9.6667 = 4.81: 5 strips, 1,585 ft².
    // Rolls bought by the piece: 2 at $400.
    let job = shelved(
        "Layer,Basin,Material,Slack (%),Edge width (ft),Ordered as,Strips run,Roll width (ft),\
         Roll length (ft),Seam\n\
         Below,Pool,Fabric,2.5,1.5,rolls,,12.5,100,\n\
         Liner,Pool,,2.5,1.5,strips,,10,,welded\n\
         Turned,Pool,,2.5,1.5,strips,across the width,10,,welded\n\
         Pieces,Pool,Roll,2.5,1.5,rolls,along the length,12.5,100,loose\n",
    );
    let rows = [
        ("Below", 3.0, 46.87, 2.0, 2500.0, 93.74),
        ("Liner", 4.0, 46.87, 0.0, 1874.8, 140.61),
        ("Turned", 5.0, 31.7, 0.0, 1585.0, 4.0 * 31.7),
        ("Pieces", 3.0, 46.87, 2.0, 2500.0, 93.74),
    ];
    for (row, strips, length_ft, rolls, area_ft2, seams_ft) in rows {
        exactly(row, layer(&job, row, "strips in all", ONE), strips);
        exactly(row, layer(&job, row, "strip length", FT), length_ft);
        exactly(row, layer(&job, row, "rolls", ONE), rolls);
        exactly(row, layer(&job, row, "area ordered", FT2), area_ft2);
        exactly(row, layer(&job, row, "seam length", FT), seams_ft);
        // What is laid is the sheet, however it is made up.
        exactly(row, layer(&job, row, "area laid", FT2), 46.87 * 31.7);
    }
    exactly("strip", layer(&job, "Liner", "heaviest piece", LB), 117.175);
    exactly("pieces", line(&job, "Sheet: Pieces", "taken off"), 2.0);
    let cost = |row| figure(&job, ("Lines", row, "material cost"), MONEY);
    exactly("by area", cost("Sheet: Below"), 625.0);
    exactly("by the piece", cost("Sheet: Pieces"), 800.0);
}

#[test]
fn a_layer_is_doubled_and_laid_twice_and_what_goes_with_it_is_priced() {
    // Taped sheet of 44 by 29 ft, no slack, 1 ft up a wall: 46 by 31 = 1,426 ft²; twice, and
    // 120 ft² double: 2,972 ft². In strips of 8 ft, taped, 6 in of lap: 30.5 ÷ 7.5 = 4.07: 5
    // strips of 46 ft; twice 4 seams of 46 ft = 368 ft of tape; 10 × 368 + 120 = 3,800 ft².
    let job = shelved(
        "Layer,Basin,Times,Slack (%),Edge,Ordered as,Roll width (ft),Seam,Sheet length (ft),\
         Sheet width (ft),Doubled area (ft2),Battens (ft),Boots,Pick subgrade,Leak test\n\
         Panel,Pool,2,0,wall,one panel,,,44,29,120,,,no,no\n\
         Strips,Pool,2,0,wall,strips,8,taped,44,29,120,30,3,yes,yes\n",
    );
    exactly("panel", layer(&job, "Panel", "area ordered", FT2), 2972.0);
    exactly("laid", layer(&job, "Strips", "area laid", FT2), 2972.0);
    let rows = [
        // What, quantity, material, hours.
        ("Sheet: Panel", 2972.0, 2972.0, 29.72),
        ("Sheet: Strips", 3800.0, 3800.0, 29.72),
        ("Seam tape: Strips", 368.0, 736.0, 0.0),
        ("Battens: Strips", 30.0, 150.0, 3.0),
        ("Boots: Strips", 3.0, 180.0, 3.0),
        // 1,133.2 ft² at 1,000 an hour, to the hundredth of an hour.
        ("Pick subgrade: Strips", 1133.2, 0.0, 1.13),
        ("Leak test: Strips", 1.0, 0.0, 8.0),
    ];
    for (row, quantity, material, hours) in rows {
        exactly(row, line(&job, row, "taken off"), quantity);
        exactly(row, line(&job, row, "waste"), 0.0);
        let cost = figure(&job, ("Lines", row, "material cost"), MONEY);
        exactly(row, cost, material);
        let labor = figure(&job, ("Lines", row, "labor cost"), MONEY);
        exactly(row, labor, hours * 50.0);
    }
    // A layer without tape, battens, boots, picking and test has one line.
    let lines = LINES.gathered(&job.graph);
    let of_layers = lines.iter().filter(|line| line.table == "Liner and fabric");
    assert_eq!(of_layers.count(), 1 + 6);
}

#[test]
fn a_strip_longer_than_its_roll_is_spliced_roll_after_roll() {
    // Upright walls: 96 + 2 by 8 + 2 ft, 1 ft over: 100 by 12 ft. Rolls of 7 by 45 ft, loose:
    //   (12 − 1) ÷ 6 = 1.83: 2 strips, 200 ft in all. Roll after roll, each lapping 1 ft:
    //   (200 − 1) ÷ 44 = 4.52: 5 rolls with 4 laps: 225 − 4 = 221 ft, and 21 ft are left.
    //   Seams 100 + 4 × 7 = 128 ft.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nRace,rectangle,96,8,1,0\n",
        ),
        (
            "Liner and fabric",
            "Layer,Basin,Slack (%),Edge width (ft),Ordered as,Roll width (ft),Roll length (ft)\n\
             Below,Race,0,1,rolls,7,45\n",
        ),
    ]);
    let of = |name, unit| layer(&job, "Below", name, unit);
    exactly("strips", of("strips in all", ONE), 2.0);
    exactly("rolls", of("rolls", ONE), 5.0);
    exactly("left", of("left of the last roll", FT), 21.0);
    exactly("seams", of("seam length", FT), 128.0);
    exactly("ordered", of("area ordered", FT2), 5.0 * 315.0);
}

#[test]
fn what_lies_double_is_cut_from_what_is_left_before_another_roll_is_ordered() {
    // Sheet 100 by 12 ft as above; rolls of 13 by 108 ft: 1 strip, 1 roll, 8 ft left = two
    // aprons of 4 ft, 104 ft². 100 ft² double come from it; 105 ft² take another roll.
    for (doubled_ft2, rolls) in [("", 1.0), ("100", 1.0), ("104", 1.0), ("105", 2.0)] {
        let job = estimate_of(&[
            ("Job", US),
            (
                "Basins",
                "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
                 Race,rectangle,96,8,1,0\n",
            ),
            (
                "Liner and fabric",
                &format!(
                    "Layer,Basin,Slack (%),Edge width (ft),Ordered as,Roll width (ft),\
                     Roll length (ft),Doubled area (ft2)\nBelow,Race,0,1,rolls,13,108,{doubled_ft2}\n"
                ),
            ),
        ]);
        exactly(doubled_ft2, layer(&job, "Below", "rolls", ONE), rolls);
    }
}

/// A round tank of 6 m with upright walls, and a cascade of two courses beside it.
fn tank(times: &str, factors: &str) -> Estimate {
    estimate_of(&[
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Depth (m),Side slope\nTank,circle,6,1.5,0\n",
        ),
        ("Waterfalls and streams", "Fall,Kind\nCascade,waterfall\n"),
        (
            "Courses",
            "Course,Fall,Number,Face (m),Returns (m),Height (mm),Setback (m),Rise (mm),\
             Spill width (m)\nUpper,Cascade,2,2.4,0.5,600,0.5,,2\n\
             Lower,Cascade,1,3,0.5,600,,450,2\n",
        ),
        (
            "Liner and fabric",
            &format!(
                "Layer,Basin,Fall,Material,Times,Slack (%),Edge,Ordered as,Roll width (m),\
                 Roll length (m),Seam,Trench depth (mm)\n\
                 Liner,Tank,,,,,anchor trench,rolls,2,50,taped,300\n\
                 Over,,Cascade,,{times},0,,,,,,\n\
                 Cover,Tank,,Fabric,,,anchor trench,,,,,\n"
            ),
        ),
        (
            "Materials",
            "Material,Unit,Price\nLiner,m2,10\nSeam tape,m,1\nFabric,m2,2\n",
        ),
        ("Factors", &format!("Factor,Override\n{factors}")),
    ])
}

#[test]
fn a_metric_tank_in_rolls_leaves_enough_for_the_aprons_of_its_cascade() {
    // Down the wall, across and up: 1.5 + 6 + 1.5 = 9 m both ways. Surface: floor π/4 × 36
    //   = 9 π, wall π × 6 × 1.5 = 9 π: 18 π m².
    // Anchor trench 0.6 back, 0.3 deep, 0.3 wide: 1.2 m on each side; 2 % of slack:
    //   9.18 + 2.4 = 11.58 m. Rolls of 2 by 50 m, 150 mm of lap: 11.43 ÷ 1.85 = 6.18: 7
    //   strips; 4 from a roll: 2 rolls, 200 m². Seams 6 × 11.58 = 69.48 m of tape.
    let job = tank("", "");
    let of = |name, unit| layer(&job, "Liner", name, unit);
    let surface_m2 = figure(&job, ("Basins", "Tank", "lined surface"), M2);
    exactly("surface", surface_m2, 18.0 * PI);
    exactly("length", of("length of one sheet", M), 11.58);
    exactly("width", of("width of one sheet", M), 11.58);
    exactly("strips", of("strips in all", ONE), 7.0);
    exactly("rolls", of("rolls", ONE), 2.0);
    exactly("ordered", of("area ordered", M2), 200.0);
    exactly("tape", line(&job, "Seam tape: Liner", "taken off"), 69.48);
    // Left: of the full roll 50 − 46.32 = 3.68 m, three aprons of 1.2 m: 3.6 × 2 = 7.2 m²; of
    // the last 50 − 34.74 = 15.26 m, twelve aprons: 14.4 × 2 = 28.8 m²; 36 m² in all.
    exactly("offcuts", of("offcuts", M2), 36.0);
    // Lower piece: tread 0.5, rise 0.45, wrap 0.3, lap 0.3 = 1.55 m by 3.5 + 1.2 = 4.7 m:
    //   7.285 m². Upper piece: a wrap 0.3, rise 0.6 − 0.2 = 0.4, wrap 0.3, lap 0.3 = 1.3 m by
    //   2.9 + 1.2 = 4.1 m: 5.33 m². Together 12.615 m². Aprons 1.2 × (2 + 2) = 4.8 m².
    let piece = |course, name, unit| figure(&job, ("Courses", course, name), unit);
    exactly("lower", piece("Lower", "sheet length", M), 1.55);
    exactly("lower", piece("Lower", "sheet area", M2), 7.285);
    exactly("upper", piece("Upper", "sheet length", M), 1.3);
    exactly("upper", piece("Upper", "sheet width", M), 4.1);
    exactly("over", layer(&job, "Over", "area ordered", M2), 12.615);
    exactly("over", layer(&job, "Over", "area laid", M2), 17.415);
    exactly("over", layer(&job, "Over", "aprons bought", M2), 0.0);
}

#[test]
fn aprons_that_nothing_left_serves_for_are_bought() {
    // Laid ten times: 10 × 4.8 = 48 m² of aprons against 36 m²: 12 m² are bought, and
    // 10 × 12.615 + 12 = 138.15 m² ordered.
    let job = tank("10", "");
    exactly("bought", layer(&job, "Over", "aprons bought", M2), 12.0);
    exactly("ordered", layer(&job, "Over", "area ordered", M2), 138.15);
    // With aprons of 4 m the full roll leaves none and the last three: 12 × 2 = 24 m²; the
    // cascade needs 4 × 4 = 16 m². With aprons of nothing there are none.
    let job = tank("", "Apron under a spill,4\n");
    exactly("offcuts", layer(&job, "Liner", "offcuts", M2), 24.0);
    exactly("aprons", layer(&job, "Over", "aprons", M2), 16.0);
    let job = tank("", "Apron under a spill,0\n");
    exactly("offcuts", layer(&job, "Liner", "offcuts", M2), 0.0);
    exactly("ordered", layer(&job, "Over", "area ordered", M2), 12.615);
}

#[test]
fn layers_of_one_basin_lie_in_one_trench() {
    // Along the middle of the trench, 0.6 + 0.15 = 0.75 m beyond the rim: π × 6 + 2 π × 0.75
    //   = 7.5 π m; × 0.3 × 0.3 = 0.675 π m³, once for both layers.
    let job = tank("", "");
    let dig = |name, unit| figure(&job, ("Cuts", "anchor trench, Tank", name), unit);
    exactly("dig", dig("dig", M3_BANK), 0.675 * PI);
    let name = job.graph.id(cuts::NAME);
    let names = (0..job.graph.rows(name)).map(|row| job.results.words(name.at(row)));
    let trenches: Vec<&str> = names.filter(|name| name.starts_with("anchor")).collect();
    assert_eq!(trenches, ["anchor trench, Tank"]);
    // A rectangle of 20 by 10 ft: corners mitred, 2.5 ft out: 60 + 8 × 2.5 = 80 ft × 1 ft² =
    //   80 ft³; the deeper of the two, 2 ft, makes 160 ft³. Both layers name their own basin.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
             A,rectangle,20,10,2,0\nB,rectangle,20,10,2,0\n",
        ),
        (
            "Liner and fabric",
            "Layer,Basin,Edge,Trench depth (ft)\nA1,A,anchor trench,\nB1,B,up and over,\n\
             A2,A,anchor trench,2\nB2,B,anchor trench,\nA3,A,anchor trench,1.5\n",
        ),
    ]);
    let of = |row, name, unit| figure(&job, ("Cuts", row, name), unit);
    let a = "anchor trench, A";
    exactly(a, of(a, "dig", YD3_BANK), 160.0 / 27.0);
    exactly(a, of(a, "backfill", YD3_COMPACTED), 160.0 / 27.0);
    exactly("B", of("anchor trench, B", "dig", YD3_BANK), 80.0 / 27.0);
}

/// A stream of 30 ft, 4 ft across its bed and 1 ft up each side, and a rock edge of three
/// courses of which the middle one is the widest.
fn stream(layers: &str) -> Estimate {
    estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Depth (ft),Side slope\nPool,circle,10,2,1\n",
        ),
        (
            "Waterfalls and streams",
            "Fall,Kind,Reach length (ft),Reach width (ft),Reach depth (ft)\n\
             Brook,stream,30,4,1\nEdge,rock edge,,,\n",
        ),
        (
            "Courses",
            "Course,Fall,Number,Face (ft),Returns (ft),Height (in),Smallest (in),Largest (in),\
             Setback (in)\nLow,Edge,1,10,,20,,,6\nMiddle,Edge,2,14,2,,12,24,12\n\
             High,Edge,3,8,,8,,,24\n",
        ),
        ("Liner and fabric", layers),
        (
            "Materials",
            "Material,Unit,Area weight (lb/ft2)\nLiner,ft2,0.5\n",
        ),
    ])
}

#[test]
fn a_reach_is_lined_along_its_bed_and_up_its_sides() {
    // (30 + 1) × (4 + 2 × 1 + 2 × 2) = 310 ft². With 3 ft beyond each side instead of 2:
    //   310 + 31 × 2 = 372 ft². With 10 % of slack 310 × 1.21 = 375.1 ft².
    // In strips of 6 ft along it, loose: (10 − 1) ÷ 5 = 1.8: 2 strips of 31 ft, 372 ft².
    // In rolls of 11 by 20 ft: 1 strip, spliced: 30 ÷ 19 = 1.58: 2 rolls.
    // Anchored on both sides: 62 ft × 1 × 1.
    let job = stream(
        "Layer,Fall,Slack (%),Edge,Edge width (ft),Ordered as,Roll width (ft),Roll length (ft),\
         Pick subgrade\n\
         A,Brook,0,,,,,,yes\nB,Brook,0,,3,,,,\nC,Brook,10,,,,,,\nD,Brook,0,,,strips,6,,\n\
         E,Brook,0,,,rolls,11,20,\nF,Brook,0,anchor trench,,,,,\n",
    );
    // To the trench 2 + 1 + 1 = 4 ft beyond each side: 310 + 31 × 4 = 434 ft².
    let rows = [
        ("A", 310.0),
        ("B", 372.0),
        ("C", 375.1),
        ("D", 372.0),
        ("E", 440.0),
        ("F", 434.0),
    ];
    for (row, area_ft2) in rows {
        exactly(row, layer(&job, row, "area ordered", FT2), area_ft2);
    }
    exactly("A", line(&job, "Pick subgrade: A", "taken off"), 310.0);
    exactly("A", layer(&job, "A", "heaviest piece", LB), 155.0);
    exactly("B", layer(&job, "B", "heaviest piece", LB), 186.0);
    let dig_yd3 = figure(&job, ("Cuts", "anchor trench, Brook", "dig"), YD3_BANK);
    exactly("trench", dig_yd3, 62.0 / 27.0);
}

#[test]
fn each_course_has_its_piece_and_strips_cover_the_widest() {
    // Low: its own setback 0.5 and the next one's 1.0 = tread 1.5; rise 20 − 8 = 12 in; wrap
    //   and lap 1 + 1: 4.5 ft by 10 + 4 = 14 ft: 63 ft².
    // Middle: tread 2; mean size 18 in, rise 10 in; 2 more: 4 5/6 ft by 20 ft: 96 2/3 ft².
    // High: a wrap 1; 8 in less 8 in: no rise; 2 more: 3 ft by 12 ft: 36 ft².
    //   195 2/3 ft² in all, 12 1/3 ft downhill, 20 ft at the widest.
    let job = stream(
        "Layer,Fall,Slack (%),Ordered as,Strips run,Roll width (ft)\nA,Edge,0,,,\n\
         B,Edge,0,strips,,8\nC,Edge,0,strips,across the width,8\n",
    );
    let piece = |course, name, unit| figure(&job, ("Courses", course, name), unit);
    exactly("Low", piece("Low", "sheet length", FT), 4.5);
    exactly("Middle", piece("Middle", "sheet length", FT), 29.0 / 6.0);
    exactly("High", piece("High", "sheet length", FT), 3.0);
    exactly("A", layer(&job, "A", "area ordered", FT2), 587.0 / 3.0);
    exactly("A", layer(&job, "A", "heaviest piece", LB), 290.0 / 6.0);
    // Along: (20 − 1) ÷ 7 = 2.7: 3 strips of 12 1/3 ft. Across: (12 1/3 − 1) ÷ 7 = 1.6: 2
    // strips of 20 ft.
    exactly(
        "B",
        layer(&job, "B", "area ordered", FT2),
        24.0 * 37.0 / 3.0,
    );
    exactly("C", layer(&job, "C", "area ordered", FT2), 320.0);
}

#[test]
fn a_layer_without_material_or_work_is_open_and_not_free() {
    // Nothing is in the book: the sheet is counted in square feet, without a price.
    let job = estimate_of(&[
        ("Job", US),
        ("Basins", SHELVED),
        (
            "Liner and fabric",
            "Layer,Basin,Slack (%),Edge width (ft)\nSheet,Pool,0,0\n",
        ),
    ]);
    // The way through the slope of the whole depth: 4 × 1.25 = 5 and 4 × 2.6 = 10.4 ft; in
    // 4 × 0.75 = 3 and 9.6 ft: floor 27.4 by 18; 42.8 by 28 ft.
    exactly(
        "sheet",
        line(&job, "Sheet: Sheet", "taken off"),
        42.8 * 28.0,
    );
    let open = |code: Code| {
        let ours = job.findings.iter().filter(|finding| {
            let place = finding.place.as_ref();
            finding.code == code && place.is_some_and(|at| &*at.sheet == "Liner and fabric")
        });
        ours.count()
    };
    assert_eq!(open(Code::MissingPrice), 1, "{:?}", job.findings);
    assert_eq!(open(Code::MissingRate), 1, "{:?}", job.findings);
    assert!(job.is_draft());
}
