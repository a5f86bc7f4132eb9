//! References and constants as formulas write them.

use super::formula::Layout;
use super::{Cell, ColumnId, Graph, Kind, Piece};
use crate::place::column_letters;

/// The formula that shows a cell elsewhere: a bare reference, with blank words kept blank.
#[must_use]
pub fn reference(graph: &Graph, layout: &dyn Layout, from: usize, cell: Cell) -> String {
    let mut formula = address(layout, from, cell);
    if graph.column(cell.column).is_text() {
        formula.push_str("&\"\"");
    }
    formula
}

/// The formula of one cell of a gathered column; `None` where the cell is empty or fixed words.
#[must_use]
pub fn gathered(
    graph: &Graph,
    layout: &dyn Layout,
    column: ColumnId,
    row: usize,
) -> Option<String> {
    let from = layout.home(column).sheet;
    match &graph.column(column).kind {
        Kind::Gathered(cells) => Some(address(layout, from, cells.get(row).copied().flatten()?)),
        Kind::GatheredWords(rows) => {
            let pieces = rows.get(row)?;
            let parts: Vec<String> = pieces
                .iter()
                .map(|piece| match piece {
                    Piece::Fixed(words) => quoted(words),
                    Piece::Cell(cell) => address(layout, from, *cell),
                })
                .collect();
            match pieces.as_slice() {
                [] | [Piece::Fixed(_)] => None,
                [Piece::Cell(_)] => Some(format!("{}&\"\"", parts.concat())),
                _ => Some(parts.join("&")),
            }
        }
        _ => None,
    }
}

/// The address of a cell, as a formula on the sheet `from` writes it.
#[must_use]
pub fn address(layout: &dyn Layout, from: usize, cell: Cell) -> String {
    let home = layout.home(cell.column);
    let letters = column_letters(home.column);
    let row = u64::from(home.row) + cell.row as u64 + 1;
    if home.sheet == from {
        format!("{letters}{row}")
    } else {
        format!("{}!{letters}{row}", layout.sheet(home.sheet))
    }
}

/// Words inside a formula.
#[must_use]
pub fn quoted(words: &str) -> String {
    format!("\"{}\"", words.replace('"', "\"\""))
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
