//! Limits of safety that shape quantities.

use groundsheet::units::{FT, SLOPE};

use super::basins;
use crate::support::{METRIC, estimate_of, exactly, figure};

const PIT: &str =
    "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Entered,Soil,Lay-back\n";

#[test]
fn a_cut_is_laid_back_to_the_greatest_slope_of_its_soil() {
    let source = "EX-36, R2 and D: Caltrans, Trenching and Shoring Manual, §2-3.04, table 2-1, \
                  p. 2-11 (29 CFR 1926 Subpart P, app. B, table B-1), read in a digitisation";
    // An 8 ft cut. Types A, B and C by override; the defaults take C for soil, and stable rock
    // stands upright.
    let rows = [
        ("loam,0.75", 6.0),
        ("loam,1", 8.0),
        ("loam,1.5", 12.0),
        ("sand,", 12.0),
        ("loam,", 12.0),
        ("clay,", 12.0),
        ("rock,", 0.0),
    ];
    for (soil, run_ft) in rows {
        let pit = basins(&format!("{PIT}Pit,rectangle,20,10,8,0,yes,{soil}\n"));
        let of = |name| figure(&pit, ("Basins", "Pit", name), FT);
        let along_ft = (of("pit length at the ground") - of("pit length")) / 2.0;
        let across_ft = (of("pit width at the ground") - of("pit width")) / 2.0;
        exactly(source, along_ft, run_ft);
        exactly(source, across_ft, run_ft);
    }
}

#[test]
fn protection_begins_at_five_feet_and_not_a_hair_before() {
    let source = "EX-38, R1: 29 CFR 1926.652(a)(1): protect from cave-in at 5 ft and deeper";
    for (depth_ft, slope) in [("4.99", 0.0), ("5.00", 1.5), ("5.01", 1.5)] {
        let pit = basins(&format!("{PIT}Pit,rectangle,20,10,{depth_ft},0,yes,,\n"));
        let lay_back = figure(&pit, ("Basins", "Pit", "lay-back in use"), SLOPE);
        exactly(source, lay_back, slope);
    }
    // A cut that nobody enters is not laid back.
    let pit = basins(&format!("{PIT}Pit,rectangle,20,10,8,0,no,,\n"));
    let lay_back = figure(&pit, ("Basins", "Pit", "lay-back in use"), SLOPE);
    exactly(source, lay_back, 0.0);
    // The metric default begins a little earlier, on the safe side: 1.5 m is 4.92 ft.
    for (depth_m, slope) in [("1.49", 0.0), ("1.50", 1.5), ("1.524", 1.5)] {
        let pit = estimate_of(&[
            ("Job", METRIC),
            (
                "Basins",
                &format!(
                    "Basin,Shape,Length (m),Width (m),Depth (m),Side slope,Entered\n\
                     Pit,rectangle,6,3,{depth_m},0,yes\n"
                ),
            ),
        ]);
        let lay_back = figure(&pit, ("Basins", "Pit", "lay-back in use"), SLOPE);
        exactly(source, lay_back, slope);
    }
}
