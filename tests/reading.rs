//! Our reader against an independent one, cell by cell.

use std::collections::BTreeMap;
use std::io::Cursor;
use std::path::{Path, PathBuf};
use std::process::Command;

use calamine::{Data, Reader, open_workbook_auto_from_rs};
use groundsheet::read::{self, Content};

use crate::support::recalculate::office_program;
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
                Content::Number(value) | Content::Date(value) | Content::Duration(value) => {
                    number(*value)
                }
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

/// Every file that the program writes or that comes with it.
fn true_files(folder: &Path) -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let templates = ["measurements-us.xlsx", "measurements-metric.xlsx"];
    let mut files: Vec<PathBuf> = templates
        .iter()
        .map(|name| root.join("templates").join(name))
        .collect();
    files.extend(
        SAMPLE_JOBS
            .iter()
            .map(|name| sample_path(name))
            .filter(|path| path.is_file()),
    );
    let bid = folder.join("bid.xlsx");
    std::fs::write(&bid, workbook_of(&sample_job("quick-pond"))).unwrap();
    files.push(bid);
    files
}

fn assert_read_alike(path: &Path) {
    let (_, found) = read::open_and_compare(path, &|_| true).unwrap();
    let found = groundsheet::diagnostic::text(&found);
    assert!(
        !found.contains("read-differently"),
        "{}: {found}",
        path.display()
    );
}

#[test]
fn no_true_file_is_refused_by_the_cross_check() {
    let folder = tempfile::tempdir().unwrap();
    let files = true_files(folder.path());
    assert!(files.len() > 4);
    for file in &files {
        assert_read_alike(file);
    }
}

#[test]
fn no_file_saved_by_an_office_program_is_refused_by_the_cross_check() {
    let Some(program) = office_program() else {
        return;
    };
    let folder = tempfile::tempdir().unwrap();
    let files = true_files(folder.path());
    for (kind, filter) in [
        ("xlsx", "xlsx:Calc MS Excel 2007 XML"),
        ("xls", "xls:MS Excel 97"),
        ("ods", "ods"),
    ] {
        let saved = folder.path().join(kind);
        let profile = format!("file://{}", folder.path().join("profile").display());
        let ran = Command::new("timeout")
            .args(["900", &program])
            .arg(format!("-env:UserInstallation={profile}"))
            .args(["--headless", "--calc", "--convert-to", filter, "--outdir"])
            .arg(&saved)
            .args(&files)
            .output()
            .unwrap();
        assert!(ran.status.success(), "{ran:?}");
        for file in &files {
            let name = Path::new(file.file_name().unwrap()).with_extension(kind);
            assert_read_alike(&saved.join(name));
        }
    }
}
