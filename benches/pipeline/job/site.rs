//! The site and its basins.

use super::entry::{Entry, Rows};

pub(super) const BASINS: &str = "Basin|Shape|Length (ft)|Width (ft)|Depth (ft)|Side slope|\
                                 Build-up (in)|Rim (ft)|Freeboard (in)|Topsoil (in)|Entered|\
                                 Groundwater (ft)|Ballast (in)|Grade";
pub(super) const SHELVES: &str = "Basin|Shelf|Depth (ft)|Width (ft)|Grade";
pub(super) const EDGES: &str = "Edge|Basin|Treatment|Length (ft)|Grade";

pub(super) fn job() -> Rows {
    vec![
        row!["Name", "A long list"],
        row!["Units", "US customary"],
        row!["Soil", "clay"],
        row!["Hours a day", 8.0],
        row!["Benchmark (ft)", 100.0],
        row!["Backsight (ft)", 5.0],
        row!["Tip fee per load", 60.0],
        row!["Imported fill", "Gravel 1"],
        row!["Usual grade", "measured"],
    ]
}

/// A small pool beside those measured in detail, and the ways in.
pub(super) fn quick_measure() -> Rows {
    vec![
        row!["Length (ft)", 20.0],
        row!["Width (ft)", 14.0],
        row!["Depth (ft)", 3.0],
        row!["Carry (ft)", 120.0],
        row!["Ground", "soft"],
        row!["Distance to water (ft)", 80.0],
        row!["Distance to power (ft)", 140.0],
    ]
}

pub(super) fn basin(at: u32) -> Vec<Entry> {
    let size = f64::from(at);
    row![
        format!("Basin {}", at + 1),
        ["rectangle", "ellipse"][at as usize % 2],
        90.0 + size,
        60.0 + size,
        8.0,
        2.0,
        12.0,
        100.0,
        6.0,
        6.0,
        "no",
        7.0,
        12.0,
        ["measured", "paced"][at as usize % 2],
    ]
}

pub(super) fn shelf(at: u32) -> Vec<Entry> {
    let second = at % 2 == 1;
    row![
        format!("Basin {}", at / 2 + 1),
        if second { "Lower" } else { "Upper" },
        if second { 4.0 } else { 1.5 },
        3.0,
        if second { Entry::Blank } else { "paced".into() },
    ]
}

pub(super) fn edge(at: u32) -> Vec<Entry> {
    let second = at % 2 == 1;
    row![
        format!("Edge {}", at + 1),
        format!("Basin {}", at / 2 + 1),
        if second { "beach" } else { "stone" },
        if second { 40.0 } else { 200.0 },
        "paced",
    ]
}
