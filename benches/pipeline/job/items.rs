//! Items of the dimension sheet.

use super::entry::Entry;

pub(super) const ITEMS: &str = "Item|Section|Description|Times|Length (ft)|Width (ft)|Depth (in)|Deduct|\
                     Unit|Material|Work|Price|Grade|Note";

/// What is bought for items, its unit, and how it is done.
pub(super) const KINDS: [(&str, &str, &str); 4] = [
    ("Gravel", "yd3", "Place gravel"),
    ("Fleece", "ft2", "Lay fleece"),
    ("Pipe", "ft", "Lay pipe"),
    ("Sedge", "ea", "Plant"),
];

/// Every fifth item is a subcontract; the others are bought and built.
pub(super) fn item(at: u32, items: u32) -> Vec<Entry> {
    let section = format!("Section {}", u64::from(at) * 12 / u64::from(items) + 1);
    let name = format!("R{:06}", at + 1);
    let note = if at.is_multiple_of(7) {
        "Measured twice"
    } else {
        ""
    };
    let quarter = |of: u32| f64::from(at % of) / 4.0;
    let (length, width, depth) = (6.0 + quarter(97), 2.0 + quarter(31), 4.0 + quarter(20));
    let Some((material, unit, work)) = KINDS.get(at as usize % 5) else {
        let what = format!("Coping along wall {}", at + 1);
        return row![
            name,
            section,
            what,
            (),
            length,
            (),
            (),
            0.5,
            "ft",
            (),
            (),
            11.5,
            "quoted",
            note
        ];
    };
    let measures: [Entry; 4] = match *unit {
        "yd3" => [().into(), length.into(), width.into(), depth.into()],
        "ft2" => [().into(), length.into(), width.into(), ().into()],
        "ft" => [2.0.into(), length.into(), ().into(), ().into()],
        _ => [
            f64::from(1 + at % 40).into(),
            ().into(),
            ().into(),
            ().into(),
        ],
    };
    let what = format!("{material} at station {}", at + 1);
    let material = format!("{material} {}", at / 5 % 5 + 1);
    let work = format!("{work} {}", at / 5 % 2 + 1);
    let mut row = row![name, section, what];
    row.extend(measures);
    let grade = ["measured", "paced", ""][at as usize % 3];
    row.extend(row![(), *unit, material, work, (), grade, note]);
    row
}
