//! Names that `explain` knows: of lines, of figures of the job, and of cells by their table,
//! column and row.
//!
//! Always true: a name that is written exactly as a line or a figure is that one; a slash
//! parts table, column and row wherever the parts are there, for names may hold slashes too.

use crate::bid::amounts::AMOUNT;
use crate::bid::lines::DIRECT_COST;
use crate::estimate::Estimate;
use crate::graph::{Cell, ColumnId, Table};
use crate::job::tables::JobKeys;
use crate::pricing::costs::QUANTITY;
use crate::pricing::lines::NAME;
use crate::tables::{Bid, Earthwork, Factors, Lines};

/// Names that `explain` knows, for a suggestion.
pub fn names(estimate: &Estimate) -> impl Iterator<Item = String> {
    let of_lines = 0..estimate.rows::<Lines>();
    let of_lines = of_lines.map(|row| estimate.words(NAME, row).to_owned());
    let figures = estimate
        .graph
        .columns()
        .filter(|id| is_figure(estimate, *id));
    of_lines.chain(figures.map(|id| estimate.graph.column(id).name.clone()))
}

fn is_figure(estimate: &Estimate, id: ColumnId) -> bool {
    let table = estimate.graph.column(id).table;
    [Bid::NAME, Earthwork::NAME, Factors::NAME, JobKeys::NAME]
        .contains(&estimate.graph.table(table).name)
}

/// The cells that a name stands for; none where it is unknown.
pub(super) fn named(estimate: &Estimate, name: &str) -> Vec<Cell> {
    let name = name.trim();
    let found = of_line(estimate, name);
    if !found.is_empty() {
        return found;
    }
    let figure = estimate.graph.columns().find(|id| {
        is_figure(estimate, *id) && estimate.graph.column(*id).name.eq_ignore_ascii_case(name)
    });
    let cell = figure.map(|column| column.at(0));
    cell.or_else(|| by_parts(estimate, name))
        .into_iter()
        .collect()
}

/// Quantity, direct cost and amount of a line.
fn of_line(estimate: &Estimate, name: &str) -> Vec<Cell> {
    let is_named = |row: &usize| estimate.words(NAME, *row).eq_ignore_ascii_case(name);
    let row = (0..estimate.rows::<Lines>()).find(is_named);
    let graph = &estimate.graph;
    let columns = [graph.id(QUANTITY), graph.id(DIRECT_COST), graph.id(AMOUNT)];
    row.map_or(Vec::new(), |row| {
        columns.map(|column| column.at(row)).to_vec()
    })
}

/// A name in two parts, each as people write it.
fn splits(name: &str) -> impl Iterator<Item = (&str, &str)> {
    name.match_indices('/')
        .map(|(at, slash)| (name[..at].trim(), name[at + slash.len()..].trim()))
}

/// A table and a column, or a table, a column and a row.
fn by_parts(estimate: &Estimate, name: &str) -> Option<Cell> {
    let graph = &estimate.graph;
    let whole = splits(name).find_map(|(table, column)| graph.find(table, column));
    if let Some(column) = whole {
        return (graph.rows(column) > 0).then(|| column.at(0));
    }
    splits(name).find_map(|(table, rest)| {
        splits(rest).find_map(|(column, row)| {
            let column = graph.find(table, column)?;
            let label = graph.table(graph.column(column).table).label?;
            let is_row = |at: &usize| {
                estimate
                    .results
                    .words(label.at(*at))
                    .eq_ignore_ascii_case(row)
            };
            (0..graph.rows(column))
                .find(is_row)
                .map(|row| column.at(row))
        })
    })
}
