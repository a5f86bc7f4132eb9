//! A made-up job of any size: mostly items of the dimension sheet, a few basins.

use std::path::Path;

use rust_xlsxwriter::{Workbook, Worksheet, XlsxError};

/// A cell of the job's tables.
#[derive(Clone)]
enum Entry {
    Blank,
    Number(f64),
    Words(String),
}

impl From<&str> for Entry {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

impl From<String> for Entry {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<f64> for Entry {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl From<()> for Entry {
    fn from((): ()) -> Self {
        Self::Blank
    }
}

macro_rules! row {
    ($($entry:expr),* $(,)?) => { vec![$(Entry::from($entry)),*] };
}

const BASINS: &str = "Basin|Shape|Length (ft)|Width (ft)|Depth (ft)|Side slope|Build-up (in)|\
                      Topsoil (in)|Entered";
const SHELVES: &str = "Basin|Shelf|Depth (ft)|Width (ft)";
const ITEMS: &str = "Item|Section|Description|Times|Length (ft)|Width (ft)|Depth (in)|Deduct|\
                     Unit|Material|Work|Price|Note";
const MATERIALS: &str = "Material|Unit|Price|Sold in|Weight (lb/ft3)|Waste (%)|Supplier|Quote";
const CREWS: &str = "Crew|People|Wage per hour|Burden (%)";
const EQUIPMENT: &str = "Machine|Rate per hour|Carries (yd3)|Payload (ton)|Cycle (s)|\
                         Pump flow (gpm)";
const WORKS: &str = "Work|Unit|Crew|Crew output|Machine|Machine output";
const MARK_UPS: &str = "Mark-up|On|Rate (%)";

type Rows = Vec<Vec<Entry>>;

/// Writes a job of so many measured rows.
pub(crate) fn write(rows: u32, path: &Path) -> Result<(), XlsxError> {
    let basins = (rows / 25).clamp(1, 12);
    let shelves = basins * 2;
    let items = rows.saturating_sub(basins + shelves);
    let tables: [(&str, &str, Rows); 9] = [
        ("Job", "Key|Value", job()),
        ("Basins", BASINS, (0..basins).map(basin).collect()),
        ("Shelves", SHELVES, (0..shelves).map(shelf).collect()),
        (
            "Other items",
            ITEMS,
            (0..items).map(|at| item(at, items)).collect(),
        ),
        ("Materials", MATERIALS, materials()),
        ("Crews", CREWS, crews()),
        ("Equipment", EQUIPMENT, machines()),
        ("Production rates", WORKS, works()),
        ("Mark-ups", MARK_UPS, mark_ups()),
    ];
    let mut book = Workbook::new();
    for (name, headings, entries) in tables {
        let sheet = book.add_worksheet();
        sheet.set_name(name)?;
        table(sheet, headings, &entries)?;
    }
    book.save(path)
}

fn table(sheet: &mut Worksheet, headings: &str, rows: &[Vec<Entry>]) -> Result<(), XlsxError> {
    for (column, heading) in (0u16..).zip(headings.split('|')) {
        sheet.write_string(0, column, heading)?;
    }
    for (row, entries) in (1u32..).zip(rows) {
        for (column, entry) in (0u16..).zip(entries) {
            match entry {
                Entry::Blank => {}
                Entry::Number(number) => {
                    sheet.write_number(row, column, *number)?;
                }
                Entry::Words(words) => {
                    // Nothing is written for blank words.
                    sheet.write_string(row, column, words)?;
                }
            }
        }
    }
    Ok(())
}

fn job() -> Vec<Vec<Entry>> {
    vec![
        row!["Name", "A long list"],
        row!["Units", "US customary"],
        row!["Soil", "clay"],
        row!["Hours a day", 8.0],
        row!["Tip fee per load", 60.0],
        row!["Imported fill", "Gravel 1"],
    ]
}

fn basin(at: u32) -> Vec<Entry> {
    let size = f64::from(at);
    row![
        format!("Basin {}", at + 1),
        ["rectangle", "ellipse"][at as usize % 2],
        90.0 + size,
        60.0 + size,
        8.0,
        2.0,
        12.0,
        6.0,
        "no",
    ]
}

fn shelf(at: u32) -> Vec<Entry> {
    let second = at % 2 == 1;
    row![
        format!("Basin {}", at / 2 + 1),
        if second { "Lower" } else { "Upper" },
        if second { 4.0 } else { 1.5 },
        3.0,
    ]
}

const KINDS: [(&str, &str, &str); 4] = [
    ("Gravel", "yd3", "Place gravel"),
    ("Fleece", "ft2", "Lay fleece"),
    ("Pipe", "ft", "Lay pipe"),
    ("Sedge", "ea", "Plant"),
];

/// Every fifth item is a subcontract; the others are bought and built.
fn item(at: u32, items: u32) -> Vec<Entry> {
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
    row.extend(row![(), *unit, material, work, (), note]);
    row
}

fn materials() -> Vec<Vec<Entry>> {
    let mut rows = Vec::new();
    for (kind, unit, _) in KINDS {
        for size in 1..=5u32 {
            let price = 1.25 + f64::from(size);
            let by_weight = unit == "yd3";
            let sold = if by_weight { "ton" } else { unit };
            let weight = if by_weight {
                Entry::Number(96.0)
            } else {
                Entry::Blank
            };
            // A quote's number looks like a number, and must stay words.
            let quote = format!("{}", 80 + size);
            let name = format!("{kind} {size}");
            rows.push(row![
                name,
                sold,
                price,
                1.0,
                weight,
                5.0,
                "Supply yard",
                quote
            ]);
        }
    }
    rows
}

fn crews() -> Vec<Vec<Entry>> {
    vec![
        row!["Pond crew", 3.0, 26.5, 38.0],
        row!["Stone crew", 4.0, 29.0, 38.0],
        row!["Pipe crew", 2.0, 31.0, 40.0],
        row!["Planters", 5.0, 22.0, 35.0],
    ]
}

fn machines() -> Vec<Vec<Entry>> {
    vec![
        row!["Excavator", 150.0, 1.5, (), 25.0, ()],
        row!["Loader", 95.0, 0.7, (), 60.0, ()],
        row!["Roller", 55.0, (), (), (), ()],
        row!["Dump truck", 98.0, 12.0, 14.0, 2100.0, ()],
        row!["Pump", 12.0, (), (), (), 240.0],
    ]
}

fn works() -> Vec<Vec<Entry>> {
    let mut rows = vec![
        row!["Pump out", "h", "Pond crew", 8.0, "Pump", 1.0],
        row!["Strip topsoil", "yd3 bank", (), (), "Loader", 60.0],
        row!["Remove sediment", "yd3", (), (), "Excavator", 40.0],
        row!["Dig", "yd3 bank", "Pond crew", 90.0, "Excavator", 90.0],
        row!["Build berm", "yd3 compacted", (), (), "Roller", 40.0],
        row!["Backfill", "yd3 compacted", (), (), "Roller", 30.0],
        row!["Haul sediment", "load", (), (), "Dump truck", ()],
        row!["Haul away", "load", (), (), "Dump truck", ()],
        row!["Bring fill", "load", (), (), "Dump truck", ()],
        row!["Spread topsoil", "yd3 loose", (), (), "Loader", 50.0],
    ];
    for (position, (_, unit, work)) in KINDS.iter().enumerate() {
        let crew = ["Stone crew", "Pond crew", "Pipe crew", "Planters"][position];
        rows.push(row![format!("{work} 1"), *unit, crew, 20.0, (), ()]);
        rows.push(row![format!("{work} 2"), *unit, crew, 25.0, "Loader", 50.0]);
    }
    rows
}

fn mark_ups() -> Vec<Vec<Entry>> {
    vec![
        row!["Overhead", "direct cost", 12.0],
        row!["Contingency", "direct cost", 5.0],
        row!["Profit", "running total", 10.0],
        row!["Bond", "bid", 1.5],
    ]
}
