//! Volumes between sections and between contours, stood upright as basins.
//!
//! A stretch between two sections is a basin whose rim is the one and whose floor the other.
//! A basin is at most 60 ft deep, so that a stretch is made shorter and its sections larger
//! by the same number, which leaves its volume.

use std::f64::consts::PI;
use std::fmt::Write;

use groundsheet::estimate::Estimate;
use groundsheet::units::{M, M2, M3, M3_BANK, M3_COMPACTED};

use crate::support::{METRIC, estimate_of, exactly, figure, within};

/// Length and width of a section.
type Sides = (f64, f64);

/// A row of a basin that runs straight from one rectangle down to another.
///
/// Both sides of the width slope alike; one end of the length takes what is left.
fn stretch(name: &str, (rim, floor): (Sides, Sides), depth_m: f64) -> String {
    let side = (rim.1 - floor.1) / 2.0 / depth_m;
    let ramp = (rim.0 - floor.0) / depth_m - side;
    format!(
        "{name},rectangle,{},{},{depth_m},{side},{ramp}",
        rim.0, rim.1
    )
}

/// A metric job of stretches, each perhaps with a berm; earth is as large filled as dug.
fn earth(rows: &[String]) -> Estimate {
    let basins = format!(
        "Basin,Shape,Length (m),Width (m),Depth (m),Side slope,Ramp slope,\
         Berm length (m),Berm height (m),Berm top (m),Berm slope\n{}\n",
        rows.join("\n")
    );
    let factors = "Factor,Override\nBerm settlement,0\n\"Compacted per bank, loam\",1\n";
    estimate_of(&[("Job", METRIC), ("Basins", &basins), ("Factors", factors)])
}

fn of_job(job: &Estimate, name: &str) -> f64 {
    figure(job, ("Earthwork", "", name), M3_BANK)
}

/// Area of a stretch at its rim and at its floor.
fn ends_m2(job: &Estimate, name: &str) -> (f64, f64) {
    let of = |column, unit| figure(job, ("Basins", name, column), unit);
    (
        of("area of the cut at the ground", M2),
        of("floor length", M) * of("floor width", M),
    )
}

#[test]
fn a_reservoir_fills_by_the_shape_between_its_contours() {
    let source = "EX-03, R2: N. N. Basak, Surveying and Levelling (1994), p. 245, problem 4, \
                  read in a textbook companion";
    let derived = "EX-03, D: conic slices h/3 (A1 + A2 + √(A1 A2)) on the same contours";
    // From the top contour down, 5 m apart.
    let contours_m2 = [31_500.0, 24_600.0, 16_300.0, 8400.0, 2050.0];

    // One end slopes and the width stays 40 m, so that the area runs evenly: trapezoids.
    let mut rows = Vec::new();
    for (index, pair) in contours_m2.windows(2).enumerate() {
        let ends = ((pair[0] / 40.0, 40.0), (pair[1] / 40.0, 40.0));
        rows.push(stretch(&format!("Slice {index}"), ends, 5.0) + ",,,,");
    }
    let trapezoids_m3 = of_job(&earth(&rows), "dug");
    exactly(source, trapezoids_m3, 330_375.0);

    // Circles of the same areas: two ponds of two slices each, the upper slice a shelf that
    // has no width.
    let across = contours_m2.map(|area: f64| (4.0 * area / PI).sqrt());
    let slope = |at: usize| (across[at] - across[at + 1]) / 2.0 / 5.0;
    let mut basins = "Basin,Shape,Length (m),Depth (m),Side slope\n".to_owned();
    let mut shelves = "Basin,Depth (m),Width (m),Slope above\n".to_owned();
    for (name, at) in [("Upper", 0), ("Lower", 2)] {
        let _ = writeln!(basins, "{name},circle,{},10,{}", across[at], slope(at + 1));
        let _ = writeln!(shelves, "{name},5,0,{}", slope(at));
    }
    let tables = [("Job", METRIC), ("Basins", &*basins), ("Shelves", &shelves)];
    let cones_m3 = of_job(&estimate_of(&tables), "dug");
    within(derived, cones_m3, 326_437.5, 0.05);
    // Simpson's rule over pairs of slices lies between the two: 330,250 m³ in the book.
    assert!(
        cones_m3 < 330_250.0 && 330_250.0 < trapezoids_m3,
        "{source}"
    );
}

#[test]
fn cut_and_fill_end_in_pyramids_where_an_area_runs_out() {
    let source = "EX-08, R1: Wikibooks, Fundamentals of Transportation, Earthwork, Solution";
    // Fill: 60, 50, 25, 5 and 0 m² over 50, 25, 25 and 15 m; in tenths, fifths, fifths, sixths.
    let fills = [
        stretch("Fill 1", ((30.0, 20.0), (25.0, 20.0)), 5.0),
        stretch("Fill 2", ((25.0, 10.0), (12.5, 10.0)), 5.0),
        stretch("Fill 3", ((12.5, 10.0), (2.5, 10.0)), 5.0),
        stretch("Fill 4", ((10.0, 3.0), (0.0, 0.0)), 2.5),
    ];
    let fill_m3 = of_job(&earth(&fills.map(|row| row + ",,,,")), "dug");
    within(source, fill_m3, 4087.5, 0.05);
    // Cut: 0, 10, 15 and 30 m² over 25, 15 and 35 m; in fifths, fifths, sevenths. The fill of
    // above goes into a berm of 30 m².
    let cuts = [
        stretch("Cut 1", ((10.0, 5.0), (0.0, 0.0)), 5.0) + &format!(",{},3,10,0", fill_m3 / 30.0),
        stretch("Cut 2", ((7.5, 10.0), (5.0, 10.0)), 3.0) + ",,,,",
        stretch("Cut 3", ((21.0, 10.0), (10.5, 10.0)), 5.0) + ",,,,",
    ];
    let job = earth(&cuts);
    within(source, of_job(&job, "dug"), 1058.3, 0.05);
    within(source, of_job(&job, "filled"), 4087.5, 0.05);
    within(source, of_job(&job, "brought in"), 3029.2, 0.05);
    // The mean of the ends would make 125 m³ of the first cut, not 83.3.
    let first = figure(&job, ("Basins", "Cut 1", "finished volume"), M3);
    within(source, first, 10.0 * 25.0 / 3.0, 0.05);
}

/// Seven embankment sections, each standing for a length of the bank, in m.
fn embankment(lengths_m: [f64; 7]) -> Estimate {
    let heights_m = [0.90, 1.25, 2.15, 2.50, 1.85, 1.35, 0.85];
    let row = |(index, (length, height)): (usize, (f64, f64))| {
        format!("Section {index},rectangle,1,1,1,0,0,{length},{height},10,1.5")
    };
    let rows: Vec<String> = lengths_m
        .into_iter()
        .zip(heights_m)
        .enumerate()
        .map(row)
        .collect();
    earth(&rows)
}

#[test]
fn seven_embankment_sections_make_the_printed_bank() {
    let source = "EX-09, R2: N. N. Basak, Surveying and Levelling (1994), p. 241, problem 1, \
                  read in a textbook companion";
    // A metre of each has as many cubic metres as the section has square metres.
    let areas_m2 = [
        10.215, 14.843_75, 28.433_75, 34.375, 23.633_75, 16.233_75, 9.583_75,
    ];
    let metre = embankment([1.0; 7]);
    for (index, area_m2) in areas_m2.into_iter().enumerate() {
        let row = format!("Section {index}");
        let at = ("Basins", &*row, "berm volume as built");
        exactly(source, figure(&metre, at, M3_COMPACTED), area_m2);
    }
    // 40 m apart: each stands for half of the stretch on either side.
    let trapezoids = embankment([20.0, 40.0, 40.0, 40.0, 40.0, 40.0, 20.0]);
    exactly(source, of_job(&trapezoids, "filled"), 5096.775);
    // Prismoidal over pairs of stretches: once, four times and twice a third of 40 m.
    let simpson = [1.0, 4.0, 2.0, 4.0, 2.0, 4.0, 1.0].map(|times| times * 40.0 / 3.0);
    exactly(source, of_job(&embankment(simpson), "filled"), 5143.25);
}

#[test]
fn a_three_level_section_takes_its_prismoidal_correction() {
    let source = "EX-10, R2 and D: N. N. Basak, Surveying and Levelling (1994), p. 248, problem \
                  8, read in a textbook companion; areas and volume again by a geometry library";
    // A section is triangles on its centre height and triangles on half its formation: each
    // pair as a rectangle, so that everything is twice as large. 50 m, in tenths.
    // Centre 1.0 and 1.5 m by 7.5 + 5.25 and 8.1 + 4.75 m; 4.5 m by 2.55 + 0.95 and 2.8 + 1.35 m.
    let exact = earth(&[
        stretch("Centre", ((128.5, 1.5), (127.5, 1.0)), 5.0) + ",,,,",
        stretch("Sides", ((41.5, 4.5), (35.0, 4.5)), 5.0) + ",,,,",
    ]);
    let (centre, sides) = (ends_m2(&exact, "Centre"), ends_m2(&exact, "Sides"));
    exactly(source, (centre.0 + sides.0) / 20.0, 18.975);
    exactly(source, (centre.1 + sides.1) / 20.0, 14.25);
    let corrected_m3 = of_job(&exact, "dug") / 2.0;
    within(source, corrected_m3, 830.416_67, 5e-6);
    // The same areas on an even width change evenly, which is the mean of the ends.
    let even = ((18.975 * 20.0 / 5.0, 5.0), (14.25 * 20.0 / 5.0, 5.0));
    let ends = earth(&[stretch("Ends", even, 5.0) + ",,,,"]);
    let ends_m3 = of_job(&ends, "dug") / 2.0;
    exactly(source, ends_m3, 830.625);
    within(source, ends_m3 - corrected_m3, 0.208_33, 5e-6);
}

#[test]
fn a_side_hill_section_is_cut_on_one_side_and_filled_on_the_other() {
    let source = "EX-11, R2: N. N. Basak, Surveying and Levelling (1994), p. 249, problem 9, \
                  read in a textbook companion";
    // Formation 10 m, ground 1 in 5, centre 0.5 and 0.7 m: the cut is 7.5 and 8.5 m wide, and
    // at 1:1 reaches 1.875 and 2.125 m high; the fill is 2.5 and 1.5 m wide, and at 2:1
    // reaches 0.8333 and 0.5 m. Triangles as rectangles: twice as large. 50 m, in tenths.
    let fill_rim = (25.0, 5.0 / 6.0);
    let fill = earth(&[stretch("Fill", (fill_rim, (15.0, 0.5)), 5.0) + ",,,,"]);
    let fill_m3 = of_job(&fill, "dug");
    let cut_row = stretch("Cut", ((85.0, 2.125), (75.0, 1.875)), 5.0);
    let both = earth(&[cut_row + &format!(",{},1,10,0", fill_m3 / 10.0)]);
    for (ends, area_m2) in [
        (ends_m2(&both, "Cut"), (9.031_25, 7.031_25)),
        (ends_m2(&fill, "Fill"), (1.041_667, 0.375)),
    ] {
        within(source, ends.0 / 20.0, area_m2.0, 5e-7);
        within(source, ends.1 / 20.0, area_m2.1, 5e-7);
    }
    // Both stand in the balance; neither is taken off the other.
    within(source, of_job(&both, "dug") / 2.0, 400.520_83, 5e-6);
    within(source, of_job(&both, "filled") / 2.0, 34.027_78, 5e-6);
    // Areas that change evenly give the volumes before correction.
    for (rim_m2, floor_m2, printed_m3) in [
        (9.031_25, 7.031_25, 401.5625),
        (25.0 / 24.0, 0.375, 35.416_67),
    ] {
        let even = ((rim_m2 * 10.0, 2.0), (floor_m2 * 10.0, 2.0));
        let ends = earth(&[stretch("Ends", even, 5.0) + ",,,,"]);
        within(source, of_job(&ends, "dug") / 2.0, printed_m3, 5e-6);
    }
}
