//! References and constants as formulas write them.

use super::home::Layout;
use super::{Cell, ColumnId, Graph, Kind, Piece};
use crate::place::{push_letters, push_whole};

/// The formula that shows a cell elsewhere: a bare reference, with blank words kept blank.
#[must_use]
pub fn reference(graph: &Graph, layout: &dyn Layout, from: usize, cell: Cell) -> String {
    let mut formula = String::new();
    push_reference(graph, layout, from, cell, &mut formula);
    formula
}

/// The formula of a cell that follows another: its words, or its number, which is zero
/// where the other is blank. A bare reference to a blank cell would itself be taken for
/// blank by some programs, and not by others.
#[must_use]
pub fn following(graph: &Graph, layout: &dyn Layout, from: usize, source: Cell) -> String {
    let reference = reference(graph, layout, from, source);
    if graph.column(source.column).is_text() {
        reference
    } else {
        format!("N({reference})")
    }
}

/// Appends [`reference()`].
pub fn push_reference(
    graph: &Graph,
    layout: &dyn Layout,
    from: usize,
    cell: Cell,
    out: &mut String,
) {
    push_address(layout, from, cell, out);
    if graph.column(cell.column).is_text() {
        out.push_str("&\"\"");
    }
}

/// Appends the formula of one cell of a gathered column; false where the cell is empty or
/// fixed words, and has none.
pub fn push_gathered(
    graph: &Graph,
    layout: &dyn Layout,
    column: ColumnId,
    row: usize,
    out: &mut String,
) -> bool {
    let from = layout.home(column).sheet;
    let pieces: &[Piece] = match &graph.column(column).kind {
        Kind::Gathered(cells) => {
            let Some(cell) = cells.get(row).copied().flatten() else {
                return false;
            };
            push_address(layout, from, cell, out);
            return true;
        }
        Kind::GatheredWords(rows) => rows.get(row).map_or(&[], Vec::as_slice),
        _ => &[],
    };
    match pieces {
        [] | [Piece::Fixed(_)] => return false,
        [Piece::Cell(cell)] => push_reference(graph, layout, from, *cell, out),
        several => {
            for (position, piece) in several.iter().enumerate() {
                if position > 0 {
                    out.push('&');
                }
                match piece {
                    Piece::Fixed(words) => out.push_str(&quoted(words)),
                    Piece::Cell(cell) => push_address(layout, from, *cell, out),
                }
            }
        }
    }
    true
}

/// The address of a cell, as a formula on the sheet `from` writes it.
#[must_use]
pub fn address(layout: &dyn Layout, from: usize, cell: Cell) -> String {
    let mut address = String::new();
    push_address(layout, from, cell, &mut address);
    address
}

/// Appends [`address`].
fn push_address(layout: &dyn Layout, from: usize, cell: Cell, out: &mut String) {
    let home = layout.home(cell.column);
    if home.sheet != from {
        out.push_str(layout.sheet(home.sheet));
        out.push('!');
    }
    push_letters(home.column, out);
    push_whole(u64::from(home.row) + cell.row as u64 + 1, out);
}

/// Words inside a formula.
#[must_use]
pub fn quoted(words: &str) -> String {
    format!("\"{}\"", words.replace('"', "\"\""))
}

/// A sheet's name as formulas write it.
#[must_use]
pub fn quoted_name(name: &str) -> String {
    if name.chars().all(char::is_alphanumeric) {
        name.to_owned()
    } else {
        format!("'{}'", name.replace('\'', "''"))
    }
}

/// A number inside a formula: the shortest digits that read back the same.
#[must_use]
pub fn literal(number: f64) -> String {
    if number < 0.0 {
        format!("({number})")
    } else {
        format!("{number}")
    }
}
