//! What is built into and around basins.

use super::entry::Entry;

pub(super) const STRUCTURES: &str = "Structure|Kind|Basin|Stands in|Length (ft)|Width (ft)|\
                                     Height (ft)|Cut depth (ft)|Entered|Bedding (in)|\
                                     Weight (ton)|Cover (in)|Groundwater (ft)|\
                                     Opening width (ft)|Opening height (ft)|Flow (gpm)|\
                                     Lifted by|Radius (ft)|Crate length (in)|\
                                     Crate width (in)|Crate height (in)|Material|Price|Grade";
pub(super) const LAYERS: &str = "Layer|Basin|Fall|Material|Edge|Edge width (ft)|Ordered as|\
                                 Strips run|Roll width (ft)|Roll length (ft)|Seam|Boots|\
                                 Pick subgrade|Leak test|Grade";
pub(super) const FALLS: &str = "Fall|Kind|Basin|Foot (ft)|Flow (gpm)|Reach length (ft)|\
                                Reach width (ft)|Reach depth (ft)|Rock|Lifted by|Radius (ft)|\
                                Grade|Note";
pub(super) const COURSES: &str = "Course|Fall|Number|Face (ft)|Returns (ft)|Height (in)|\
                                  Depth (in)|Largest (in)|Setback (ft)|As set top (ft)|\
                                  Spill width (ft)|Reject (%)|Grade|Note";
pub(super) const BEDS: &str = "Bed|Basin|Length (ft)|Width (ft)|Thickness (in)|Deduct (yd3)|\
                               Porosity (%)|Material|Grade|Note";
pub(super) const TIMBER: &str = "Log|Basin|Times|Length (ft)|Diameter (in)|Species|Lifted by|\
                                 Radius (ft)|Grade";
pub(super) const PLANTING: &str = "Planting|Basin|Length (ft)|Width (ft)|Slope|\
                                   Soil depth (in)|Spacing (in)|Pattern|Grade";

/// A quarter of a unit, and another one for each of so many rows.
fn quarter(at: u32, of: u32) -> f64 {
    f64::from(at % of) / 4.0
}

/// Every second word of two.
fn either(at: u32, words: [&'static str; 2]) -> &'static str {
    words[at as usize % 2]
}

/// A vault with a pit of its own, or crates in a bed of gravel.
pub(super) fn structure(at: u32) -> Vec<Entry> {
    let name = format!("Structure {}", at + 1);
    if at % 2 == 1 {
        let mut row = row![name, "void crates", "Basin 1", format!("Bed {}", at + 1)];
        row.extend(row![
            8.0,
            4.0,
            1.5,
            (),
            (),
            (),
            (),
            (),
            (),
            (),
            (),
            (),
            (),
            ()
        ]);
        row.extend(row![30.0, 20.0, 18.0, "Void crate", (), "measured"]);
        return row;
    }
    let mut row = row![name, "vault", (), (), 6.0, 5.0 + quarter(at, 8), 6.0];
    row.extend(row![5.5, "yes", 6.0, 8.0, 12.0, 4.0, 6.0, 1.0, 900.0]);
    row.extend(row!["Excavator", 12.0, (), (), (), (), 4200.0, "quoted"]);
    row
}

pub(super) fn basin_layer(at: u32) -> Vec<Entry> {
    let mut row = row![format!("Liner {}", at + 1), format!("Basin {}", at + 1), ()];
    row.extend(row![
        "Liner",
        "up and over",
        3.0,
        either(at, ["strips", "rolls"])
    ]);
    row.extend(row![
        "along the length",
        20.0,
        110.0,
        "welded",
        2.0,
        "yes",
        "yes",
        "measured"
    ]);
    row
}

pub(super) fn fall_layer(at: u32) -> Vec<Entry> {
    let mut row = row![format!("Fabric {}", at + 1), (), format!("Fall {}", at + 1)];
    row.extend(row![
        "Fabric",
        (),
        (),
        (),
        (),
        (),
        (),
        (),
        (),
        (),
        (),
        "paced"
    ]);
    row
}

pub(super) fn fall(at: u32) -> Vec<Entry> {
    let mut row = row![
        format!("Fall {}", at + 1),
        "waterfall",
        "Basin 1",
        92.0,
        500.0
    ];
    row.extend(row![20.0 + quarter(at, 30), 3.0, 1.5]);
    row.extend(row![either(at, ["granite", "gneiss"]), "Excavator", 14.0]);
    row.extend(row![
        "measured",
        if at.is_multiple_of(7) {
            "Taped twice"
        } else {
            ""
        }
    ]);
    row
}

/// One course of a fall, both counted from zero; every third lowest course has been set.
pub(super) fn course(fall: u32, at: u32) -> Vec<Entry> {
    let height = f64::from(14 + (fall + at) % 9);
    let (name, number) = (format!("C{}-{}", fall + 1, at + 1), f64::from(at + 1));
    let mut row = row![name, format!("Fall {}", fall + 1), number];
    row.extend(row![6.0 + quarter(at, 13), 2.0, height, height + 4.0, 30.0]);
    row.extend(row![if at == 0 { Entry::Blank } else { 1.25.into() }]);
    let set = at == 0 && fall.is_multiple_of(3);
    let top = 92.1 + height / 12.0;
    row.extend(row![if set {
        Entry::Number(top)
    } else {
        Entry::Blank
    }]);
    row.extend(row![3.0, 10.0, either(at, ["measured", "paced"]), ()]);
    row
}

pub(super) fn bed(at: u32) -> Vec<Entry> {
    let mut row = row![
        format!("Bed {}", at + 1),
        "Basin 1",
        20.0 + quarter(at, 40),
        12.0
    ];
    row.extend(row![18.0, 0.5, 40.0, "Gravel 2", "measured", ()]);
    row
}

pub(super) fn log(at: u32) -> Vec<Entry> {
    let mut row = row![
        format!("Log {}", at + 1),
        "Basin 1",
        2.0,
        10.0 + quarter(at, 9)
    ];
    row.extend(row![14.0, "white oak", "Excavator", 14.0, "measured"]);
    row
}

pub(super) fn planting(at: u32) -> Vec<Entry> {
    let mut row = row![
        format!("Bank {}", at + 1),
        "Basin 1",
        30.0 + quarter(at, 50),
        6.0
    ];
    row.extend(row![
        2.5,
        4.0,
        12.0,
        either(at, ["square", "triangle"]),
        "paced"
    ]);
    row
}
