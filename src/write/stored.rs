//! Stored results that are words but look like something else.
//!
//! The workbook writer takes the stored result `81`, `TRUE` or `nan` of a formula for a
//! number, a truth or an error, even where the formula gives words: a quote's number, a
//! client's name. Such cells are rare; here their type is put right in the finished file.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::parts;
use crate::place::cell_name;

/// Whether the workbook writer would take these words for something else.
pub(super) fn is_mistaken(words: &str) -> bool {
    const NOT_WORDS: &[&str] = &[
        "TRUE",
        "FALSE",
        "#DIV/0!",
        "#N/A",
        "#NAME?",
        "#NULL!",
        "#NUM!",
        "#REF!",
        "#VALUE!",
        "#GETTING_DATA",
    ];
    let begins_a_number = |first: char| "+-.0123456789inIN".contains(first);
    NOT_WORDS.contains(&words) || words.starts_with(begins_a_number) && words.parse::<f64>().is_ok()
}

/// A cell whose stored words look like something else.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Mistaken {
    /// Which sheet, from zero.
    pub(super) sheet: usize,
    /// Row and column, from zero.
    pub(super) row: u32,
    /// See `row`.
    pub(super) column: u32,
    /// The words.
    pub(super) words: String,
}

/// The file with the given cells' results stored as words.
pub(super) fn as_words(
    bytes: Vec<u8>,
    mut cells: Vec<Mistaken>,
) -> Result<Vec<u8>, zip::result::ZipError> {
    if cells.is_empty() {
        return Ok(bytes);
    }
    let mut by_part: BTreeMap<String, Vec<Mistaken>> = BTreeMap::new();
    cells.sort_unstable();
    for cell in cells {
        by_part
            .entry(format!("xl/worksheets/sheet{}.xml", cell.sheet + 1))
            .or_default()
            .push(cell);
    }
    let change = |part: &str, xml: &str| {
        let cells = by_part.get(part).map_or(&[][..], Vec::as_slice);
        mended(xml, cells)
    };
    parts::changed(bytes, &|part| by_part.contains_key(part), &change)
}

fn mended(xml: &str, cells: &[Mistaken]) -> String {
    let mut out = String::with_capacity(xml.len() + 64 * cells.len());
    let mut rest = xml;
    for cell in cells {
        let address = cell_name(cell.row, cell.column);
        let Some(start) = rest.find(&format!("<c r=\"{address}\"")) else {
            continue;
        };
        let Some(end) = rest[start..].find("</c>").map(|end| start + end) else {
            continue;
        };
        let Some((opening, inside)) = rest[start..end].split_once('>') else {
            continue;
        };
        let opening = opening.split(" t=\"").next().unwrap_or(opening);
        let formula = inside.split("<v>").next().unwrap_or(inside);
        out.push_str(&rest[..start]);
        let _ = write!(out, "{opening} t=\"str\">{formula}<v>{}</v>", cell.words);
        rest = &rest[end..];
    }
    out.push_str(rest);
    out
}
