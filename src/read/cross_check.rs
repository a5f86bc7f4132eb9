//! The cross-check: an independent reader reads the workbook after ours, and every cell that the two read differently is told.
//!
//! Ours comes first and decides; the other reader, calamine, is given only what ours has
//! accepted within its limits, and only where nothing in the file can make it reserve more
//! than was found, run on without end, or panic where a person would see it: see
//! [`Prospect`], `Package::is_honest` and [`old_workbook`]. A file or a sheet that is not
//! cross-checked is no fault: our reading stands.
//!
//! Not here: which sheets matter; a caller says so by their names.

mod differences;
mod old_workbook;
mod quiet;
mod spread;
mod theirs;

use std::collections::BTreeSet;

use super::package::Package;
use super::prospect::{Format, Prospect};
use super::{JobFile, compound, office_97};
use crate::diagnostic::Diagnostic;
use theirs::Book;

pub(super) use spread::Spread;

/// Bytes that a reader of rectangles keeps for a cell, filled or not.
const CELL_BYTES: u64 = 128;

/// Reads the sheets whose names are wanted a second time, where that is safe; tells every
/// cell that is read differently.
pub(super) fn compare(
    bytes: &[u8],
    job_file: &JobFile,
    prospect: &Prospect,
    wanted: &dyn Fn(&str) -> bool,
) -> Vec<Diagnostic> {
    let Some(format) = prospect.safe() else {
        return Vec::new();
    };
    let Some(handed) = handed(bytes, format) else {
        return Vec::new();
    };
    let Some(mut book) = quiet::caught(|| Book::open(handed, format)).flatten() else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let twice = names_that_stand_twice(job_file);
    for sheet in &job_file.sheets {
        let name = sheet.name.as_str();
        if twice.contains(name) || !wanted(name) {
            continue;
        }
        // What is left of a book after a panic is not read on.
        match quiet::caught(|| book.sheet(name)) {
            Some(Some(theirs)) => found.extend(differences::of(sheet, &theirs, format)),
            Some(None) => {}
            None => break,
        }
    }
    found
}

/// What the other reader is given: the file, or of `.xls` what it needs of it.
fn handed(bytes: &[u8], format: Format) -> Option<theirs::Handed<'_>> {
    if format == Format::Office97 {
        let stream = office_97::stream_of(&compound::Compound::open(bytes).ok()?).ok()?;
        return old_workbook::harmless(stream).map(theirs::Handed::Made);
    }
    let honest = Package::open(bytes).ok()?.is_honest();
    honest.then_some(theirs::Handed::File(bytes))
}

/// The other reader finds sheets by their names.
fn names_that_stand_twice(job_file: &JobFile) -> BTreeSet<&str> {
    let mut once = BTreeSet::new();
    let names = job_file.sheets.iter().map(|sheet| sheet.name.as_str());
    names.filter(|name| !once.insert(*name)).collect()
}
