//! Where the quantity of a line comes from: its rule, the source of the rule, and its cell.

use super::layout::BookLayout;
use super::sheets::Show;
use crate::estimate::Estimate;
use crate::graph::home::Layout;
use crate::graph::{Cell, Kind, words};
use crate::place::cell_name;
use crate::pricing::lines::AMOUNT;
use crate::tables::Lines;

/// The cell that a line's quantity is worked out in: a cell that only shows another leads
/// to that one.
pub(super) fn taken_off(estimate: &Estimate, row: usize) -> Option<Cell> {
    let mut cell = estimate.graph.id(AMOUNT).at(row);
    while let Kind::Gathered(cells) = &estimate.graph.column(cell.column).kind {
        cell = cells.get(cell.row).copied().flatten()?;
    }
    Some(cell)
}

/// The same of every line.
pub(super) fn all_taken_off(estimate: &Estimate) -> impl Iterator<Item = Cell> {
    (0..estimate.rows::<Lines>()).filter_map(|row| taken_off(estimate, row))
}

/// What a column of words says about the line of a row.
pub(super) fn about(estimate: &Estimate, layout: &BookLayout, show: Show, row: usize) -> String {
    let graph = &estimate.graph;
    let Some(cell) = taken_off(estimate, row) else {
        return String::new();
    };
    match show {
        Show::Working => words::of_column(graph, cell.column),
        Show::Source => {
            let source = graph.column(cell.column).source;
            source.map_or(String::new(), |source| source.text.to_owned())
        }
        _ => {
            let home = layout.home(cell.column);
            let row = home.row + u32::try_from(cell.row).unwrap_or(0);
            let sheet = layout.sheets[home.sheet].name;
            format!("{sheet}, {}", cell_name(row, home.column))
        }
    }
}
