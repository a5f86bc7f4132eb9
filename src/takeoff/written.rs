//! What is written in the cells of inputs: whether they are filled in, and what they say.

use crate::graph::Graph;
use crate::job::Fields;

/// Whether a cell of an input is filled in.
pub(super) fn filled<F: Fields>(graph: &Graph, field: F, row: usize) -> bool {
    graph.is_filled(graph.id(field).at(row))
}

/// The rows in which an input is filled in.
pub(super) fn filled_rows<F: Fields>(graph: &Graph, field: F) -> impl Iterator<Item = usize> {
    let rows = 0..graph.rows(graph.id(field));
    rows.filter(move |row| filled(graph, field, *row))
}

/// Whether an input is filled in for any row.
pub(super) fn some_filled<F: Fields>(graph: &Graph, field: F) -> bool {
    filled_rows(graph, field).next().is_some()
}

/// Whether a cell of an input says a word.
pub(super) fn says<F: Fields>(graph: &Graph, field: F, row: usize, word: &str) -> bool {
    let cell = graph.id(field).at(row);
    graph.written(cell).eq_ignore_ascii_case(word)
}
