//! Our reader against an independent one, cell by cell.

use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::Path;

use calamine::{Data, Reader, open_workbook_auto_from_rs};
use groundsheet::read::{self, Content};

use crate::support::{SAMPLE_JOBS, sample_job, sample_path, workbook_of};

type Cells = BTreeMap<(String, u32, u32), String>;

/// What a cell says, so that two readers can be compared: numbers by their bits.
fn number(value: f64) -> String {
    format!("{:x}", value.to_bits())
}

fn ours(path: &Path) -> Cells {
    let (source, _) = read::open(path).unwrap();
    let mut cells = Cells::new();
    for sheet in &source.sheets {
        for (row, cell) in sheet
            .rows
            .iter()
            .flat_map(|row| row.cells.iter().map(move |cell| (row.index, cell)))
        {
            let says = match &cell.content {
                Content::Number(value) | Content::Date(value) => number(*value),
                Content::Text(text) | Content::Error(text) => text.clone(),
                Content::Truth(truth) => truth.to_string(),
                Content::NotCalculated => "not calculated".to_owned(),
            };
            cells.insert((sheet.name.clone(), row, cell.column), says);
        }
    }
    cells
}

fn theirs(bytes: Vec<u8>) -> Cells {
    let mut book = open_workbook_auto_from_rs(Cursor::new(bytes)).unwrap();
    let mut cells = Cells::new();
    for (name, range) in book.worksheets() {
        let (first_row, first_column) = range.start().unwrap_or((0, 0));
        for (row, column, data) in range.used_cells() {
            let says = match data {
                Data::Float(value) => number(*value),
                Data::Int(value) => number(f64::from(i32::try_from(*value).unwrap())),
                Data::DateTime(date) => number(date.as_f64()),
                Data::DateTimeIso(date) => {
                    let day = date.split('T').next().unwrap();
                    number(serial(day))
                }
                Data::Bool(truth) => truth.to_string(),
                Data::String(text) if text.is_empty() => continue,
                Data::String(text) => text.clone(),
                other => format!("{other}"),
            };
            let (row, column) = (u32::try_from(row).unwrap(), u32::try_from(column).unwrap());
            cells.insert((name.clone(), first_row + row, first_column + column), says);
        }
    }
    cells
}

/// Days since 30 December 1899, counted one by one.
fn serial(day: &str) -> f64 {
    let parts: Vec<u32> = day.split('-').map(|part| part.parse().unwrap()).collect();
    let leap = |year: u32| {
        year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
    };
    let months = |year: u32| {
        [
            31,
            if leap(year) { 29 } else { 28 },
            31,
            30,
            31,
            30,
            31,
            31,
            30,
            31,
            30,
            31,
        ]
    };
    let years: u32 = (1900..parts[0])
        .map(|year| if leap(year) { 366 } else { 365 })
        .sum();
    let in_year: u32 = months(parts[0]).iter().take(parts[1] as usize - 1).sum();
    f64::from(years + in_year + parts[2] + 1)
}

#[test]
fn workbooks_are_read_as_an_independent_reader_reads_them() {
    for name in SAMPLE_JOBS {
        let path = sample_path(name);
        if path.is_file() {
            let expected = theirs(std::fs::read(&path).unwrap());
            assert!(expected.len() > 100 && ours(&path) == expected, "{name}");
        }
        let bytes = workbook_of(&sample_job(name));
        let file = tempfile::Builder::new().suffix(".xlsx").tempfile().unwrap();
        std::fs::write(file.path(), &bytes).unwrap();
        let (ours, theirs) = (ours(file.path()), theirs(bytes));
        for (spot, says) in &theirs {
            assert_eq!(ours.get(spot), Some(says), "{name}, {spot:?}");
        }
        assert_eq!(ours.len(), theirs.len(), "{name}");
    }
}
