//! What the client must not see stands in every cell that may hold it, and never in the copy.

use std::collections::BTreeSet;
use std::fs;

use groundsheet::diagnostic;
use groundsheet::estimate::{Estimate, estimate};
use groundsheet::job::tables::TABLES;
use groundsheet::job::{self, Holds, InputColumn, InputTable, Measure};
use groundsheet::read::{self, Cell, Content, JobFile, Row, Sheet};
use tempfile::TempDir;

use super::proved;
use crate::errors::parts_of;
use crate::support::{sample_job, workbook_of};

/// Stands in every text that must not be seen.
const SECRET: &str = "Zqx";
/// Columns of words that a client may see, or that name what is built.
const SHOWN: &[(&str, &str)] = &[
    ("Job", "Name"),
    ("Job", "Client"),
    ("Job", "Site"),
    ("Job", "Prepared by"),
    ("Job", "Currency"),
    ("Quick measure", "Pool"),
    ("Other items", "Section"),
    ("Other items", "Description"),
    ("Shared work", "Zone"),
    ("Shared work", "Line"),
    ("Client items", "Client's item number"),
    ("Client items", "Client's wording"),
    ("Bid terms", "Words"),
];
/// Tables whose names are ours alone.
const OURS: &[&str] = &["Crews", "Equipment", "Mark-ups"];
/// The same, where lines look for some of the names by themselves.
const LOOKED_FOR: &[&str] = &["Materials", "Production rates"];

/// A job with every table, as its priced workbook holds it: with every column.
fn source() -> JobFile {
    let bytes = workbook_of(&sample_job("school-pond"));
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("job.xlsx");
    fs::write(&path, bytes).unwrap();
    let (mut source, _) =
        read::open(&path).unwrap_or_else(|all| panic!("{}", diagnostic::text(&all)));
    let mut sheet = |name: &str| {
        let mut sheets = source.sheets.iter_mut();
        sheets.position(|sheet| sheet.name == name).unwrap()
    };
    let (set, job) = (sheet("Set quantities"), sheet("Job"));
    let cells = vec![
        cell(0, Content::Text("Dig: Main pool".to_owned())),
        cell(1, Content::Number(365.0)),
        cell(2, Content::Text("why".to_owned())),
    ];
    source.sheets[set].rows.push(Row { index: 2, cells });
    let mut keys = source.sheets[job].rows.iter_mut();
    let scenario = keys.find(|row| text(row, 0) == Some("Scenario")).unwrap();
    put(
        scenario,
        1,
        Content::Text("Families and grounds".to_owned()),
    );
    source
}

fn cell(column: u32, content: Content) -> Cell {
    Cell {
        column,
        content,
        formula: false,
    }
}

fn put(row: &mut Row, column: u32, content: Content) {
    row.cells.retain(|cell| cell.column != column);
    row.cells.push(cell(column, content));
    row.cells.sort_by_key(|cell| cell.column);
}

fn text(row: &Row, column: u32) -> Option<&str> {
    let mut cells = row.cells.iter();
    match &cells.find(|cell| cell.column == column)?.content {
        Content::Text(text) => Some(text),
        _ => None,
    }
}

/// The column of ours that a heading is.
fn column_of<'t>(table: &'t InputTable, heading: &str) -> Option<&'t InputColumn> {
    let plain = heading.split(" (").next()?;
    let mut columns = table.columns.iter();
    columns.find(|column| column.heading == heading || column.heading == plain)
}

/// What must not be seen, put where it may stand; tells which columns took it.
struct Secrets {
    renamed: Vec<&'static str>,
    filled: BTreeSet<(&'static str, &'static str)>,
}

impl Secrets {
    fn hide(&mut self, source: &mut JobFile) {
        for sheet in &mut source.sheets {
            let table = TABLES.iter().find(|table| table.name == sheet.name);
            match table {
                Some(table) if table.upright => self.hide_upright(table, sheet),
                Some(table) => self.hide_rows(table, sheet),
                None if sheet.name == "Factors" => {
                    let row = &mut sheet.rows[1];
                    put(row, 3, Content::Number(2.0));
                    put(row, 4, Content::Text(SECRET.to_owned()));
                }
                None => {}
            }
        }
    }

    fn hide_upright(&mut self, table: &'static InputTable, sheet: &mut Sheet) {
        for row in sheet.rows.iter_mut().skip(1) {
            let column = text(row, 0).and_then(|key| column_of(table, key));
            if let Some(column) = column {
                self.fill(table, column, row, 1);
            }
        }
    }

    fn hide_rows(&mut self, table: &'static InputTable, sheet: &mut Sheet) {
        let Some((headings, rows)) = sheet.rows.split_first_mut() else {
            return;
        };
        let columns: Vec<u32> = headings.cells.iter().map(|cell| cell.column).collect();
        let own = columns.iter().max().unwrap() + 1;
        put(headings, own, Content::Text(format!("{SECRET} heading")));
        for row in rows {
            for at in &columns {
                let column = text(headings, *at).and_then(|heading| column_of(table, heading));
                if let Some(column) = column {
                    self.fill(table, column, row, *at);
                }
            }
            put(row, own, Content::Text(format!("{SECRET} of our own")));
        }
    }

    fn fill(&mut self, table: &'static InputTable, column: &InputColumn, row: &mut Row, at: u32) {
        let renamed = |name: &str| self.renamed.contains(&name);
        let known = TABLES
            .iter()
            .find(|known| known.name == table.name)
            .unwrap();
        let heading = column_of(known, column.heading).unwrap().heading;
        let content = match column.holds {
            Holds::Words if !SHOWN.contains(&(table.name, heading)) => {
                Content::Text(format!("{SECRET} {heading}"))
            }
            Holds::Name if table.name == "Other items" || renamed(table.name) => {
                let Some(name) = text(row, at) else { return };
                Content::Text(format!("{SECRET} {name}"))
            }
            Holds::RowOf(parent) | Holds::PartOf(parent) if renamed(parent) => {
                let Some(name) = text(row, at) else { return };
                Content::Text(format!("{SECRET} {name}"))
            }
            Holds::Number(measure, ..) => {
                let Some(number) = secret_number(table, measure, heading) else {
                    return;
                };
                Content::Number(number)
            }
            _ => return,
        };
        put(row, at, content);
        self.filled.insert((table.name, heading));
    }
}

/// A distinctive number for what is ours to know.
fn secret_number(table: &InputTable, measure: Measure, heading: &str) -> Option<f64> {
    match measure {
        Measure::Money if !heading.contains("Plug") => Some(8317.77),
        Measure::MoneyAnHour if !heading.contains("Plug") => Some(831.77),
        Measure::Percent if ["Burden", "Rate"].contains(&heading) => Some(8.3177),
        Measure::PerHour => Some(83.177),
        Measure::Count if table.name == "Crews" => Some(3.83177),
        _ => None,
    }
}

fn estimated(source: &JobFile) -> Estimate {
    let checked = job::from_file(source);
    let job = checked.job;
    estimate(job.unwrap_or_else(|| panic!("{}", diagnostic::text(&checked.findings))))
}

/// Proves of a job that none of what is hidden in it is in any part of its copy.
fn nothing_leaks(renamed: Vec<&'static str>, kind: &str) {
    let mut source = source();
    let mut secrets = Secrets {
        renamed,
        filled: BTreeSet::new(),
    };
    secrets.hide(&mut source);
    let job = source
        .sheets
        .iter_mut()
        .find(|sheet| sheet.name == "Job")
        .unwrap();
    let mut rows = job.rows.iter_mut();
    let row = rows.find(|row| text(row, 0) == Some("Bid kind")).unwrap();
    put(row, 1, Content::Text(kind.to_owned()));
    let estimate = estimated(&source);
    assert!(
        !estimate.is_blocked(),
        "{}",
        diagnostic::text(&estimate.findings)
    );
    // What is hidden is in the workbook of our own, so that the look-out can find it.
    let hidden = |bytes: &[u8]| {
        let mut found = BTreeSet::new();
        for (part, content) in parts_of(bytes) {
            let text = String::from_utf8(content).unwrap();
            for secret in [SECRET, "8317.77", "831.77", "83.177", "8.3177", "3.83177"] {
                if text.contains(secret) {
                    found.insert((part.clone(), secret));
                }
            }
        }
        found
    };
    let ours: BTreeSet<&str> = hidden(&workbook_of(&estimate))
        .into_iter()
        .map(|(_, secret)| secret)
        .collect();
    assert_eq!(ours.len(), 6, "{ours:?}");
    let (_, bytes) = proved(&estimate);
    assert_eq!(hidden(&bytes), BTreeSet::new());
    for table in TABLES {
        for column in table.columns {
            let shown = SHOWN.contains(&(table.name, column.heading));
            if column.holds == Holds::Words && !shown {
                let key = (table.name, column.heading);
                assert!(secrets.filled.contains(&key), "{key:?} is not tried");
            }
        }
    }
}

#[test]
fn nothing_of_ours_is_in_any_part() {
    for kind in ["lump sum", "unit price"] {
        nothing_leaks(OURS.to_vec(), kind);
    }
}

#[test]
fn names_of_materials_and_works_are_in_no_part() {
    for kind in ["lump sum", "unit price"] {
        nothing_leaks([OURS, LOOKED_FOR].concat(), kind);
    }
}
