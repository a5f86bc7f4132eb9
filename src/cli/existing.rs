//! What stands where an output goes: whether anything in it would be lost, and what.
//!
//! Always true: a file is replaced without a word only where groundsheet has written it and
//! nobody has typed into it since.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::place::cell_name;
use crate::write::fingerprint::{self, Typed};

/// Sheets, and cells of each, that a message names.
const SHEETS: usize = 6;
const CELLS: usize = 3;
/// Letters of a cell that a message repeats.
const LETTERS: usize = 40;

/// How the loss of what is typed is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Loss {
    /// The cells that differ, for a bid or a copy of it.
    Cells,
    /// How many rows are filled in, for a blank template.
    Rows,
}

/// What would be lost where a new workbook replaces an old file; nothing where it is of
/// groundsheet and untouched.
pub(super) fn lost(old: &[u8], new: &[u8], loss: Loss) -> Option<String> {
    let edited = fingerprint::edited_since(old);
    if edited.as_ref().is_some_and(Vec::is_empty) {
        return None;
    }
    let (before, after) = (fingerprint::typed(old), fingerprint::typed(new));
    let rows = filled_in(&before, &after);
    Some(match (edited, loss) {
        (Some(_), Loss::Rows) if !rows.is_empty() => {
            format!("this workbook is filled in, and that would be lost: {rows}")
        }
        (Some(edited), _) => {
            let cells = in_sheets(&edited, &before, &after);
            format!(
                "this workbook was edited since groundsheet wrote it, and that would be lost: {cells}"
            )
        }
        (None, Loss::Rows) if !rows.is_empty() => format!(
            "this file was not written by groundsheet, or has lost its mark, and it is filled in: {rows}"
        ),
        (None, _) => "this file was not written by groundsheet, or has lost its mark".to_owned(),
    })
}

/// The edited sheets, each with the first cells that differ from the new workbook.
fn in_sheets(
    edited: &[String],
    old: &BTreeMap<String, Typed>,
    new: &BTreeMap<String, Typed>,
) -> String {
    let none = Typed::new();
    let told = edited.iter().take(SHEETS).map(|sheet| {
        let [before, after] = [old, new].map(|all| all.get(sheet).unwrap_or(&none));
        match differing(before, after) {
            _ if before.is_empty() => format!("sheet {sheet} (emptied or taken out)"),
            cells if cells.is_empty() => format!("sheet {sheet}"),
            cells => format!("sheet {sheet} ({cells})"),
        }
    });
    let mut told: Vec<String> = told.collect();
    if let Some(more) = edited.len().checked_sub(SHEETS).filter(|more| *more > 0) {
        told.push(format!("{more} more"));
    }
    told.join(", ")
}

/// The first cells that differ, with what they hold now.
fn differing(before: &Typed, after: &Typed) -> String {
    let all = before.keys().chain(after.keys());
    let differs = |at: &&(u32, u32)| before.get(*at) != after.get(*at);
    let mut places: Vec<(u32, u32)> = all.filter(differs).copied().collect();
    places.sort_unstable();
    places.dedup();
    let told = places.iter().take(CELLS).map(|(row, column)| {
        let name = cell_name(*row, *column);
        match before.get(&(*row, *column)) {
            Some(value) => format!("{name} holds {}", shortened(value)),
            None => format!("{name} is blank"),
        }
    });
    let mut told: Vec<String> = told.collect();
    if let Some(more) = places.len().checked_sub(CELLS).filter(|more| *more > 0) {
        told.push(format!("and {more} more"));
    }
    told.join(", ")
}

/// A value on one line, as far as it can be known again.
fn shortened(value: &str) -> String {
    let mut letters = value.chars().map(|c| if c.is_control() { ' ' } else { c });
    let first: String = letters.by_ref().take(LETTERS).collect();
    let rest = if letters.next().is_some() { "…" } else { "" };
    format!("\"{first}{rest}\"")
}

/// How many rows of which tables hold something where the new workbook holds nothing.
fn filled_in(old: &BTreeMap<String, Typed>, new: &BTreeMap<String, Typed>) -> String {
    let none = Typed::new();
    let told = old.iter().filter_map(|(sheet, cells)| {
        let blank = new.get(sheet).unwrap_or(&none);
        let filled = cells.keys().filter(|at| !blank.contains_key(at));
        let mut rows: Vec<u32> = filled.map(|(row, _)| *row).filter(|row| *row > 0).collect();
        rows.dedup();
        match rows.len() {
            0 => None,
            1 => Some(format!("1 row of {sheet}")),
            count => Some(format!("{count} rows of {sheet}")),
        }
    });
    told.collect::<Vec<_>>().join(", ")
}

/// The lock that an office program has put beside a file which it has open.
pub(super) fn office_lock(file: &Path) -> Option<PathBuf> {
    let name = file.file_name()?.to_string_lossy();
    let locks = [format!(".~lock.{name}#"), format!("~${name}")];
    let beside = locks.map(|lock| file.with_file_name(lock));
    beside.into_iter().find(|lock| lock.exists())
}
