//! Where a finding is mended: the input cell in the user's own file.

use crate::graph::{Cell, ColumnId, Graph};
use crate::job::quick::key_of;
use crate::job::tables::{QuickMeasure, TABLES};
use crate::job::{Fields, Job, TableData};
use crate::place::Place;

/// The place of an input cell in the user's own file; `None` for a computed one.
#[must_use]
pub fn place_of(job: &Job, graph: &Graph, cell: Cell) -> Option<Place> {
    let info = graph.column(cell.column);
    let table = graph.table(info.table).name;
    let position = TABLES.iter().position(|known| known.name == table)?;
    let mut columns = TABLES[position].columns.iter();
    let column = columns.position(|column| column.heading == info.name)?;
    let data = &job.tables()[position];
    if data.is_quick(cell.row) {
        return Some(quick_place(job, data, column, cell.row));
    }
    Some(data.place(column, cell.row))
}

/// The place on the quick page that a cell of a row made from it follows: a key of its own,
/// or the first that is filled in of those that the row follows.
fn quick_place(job: &Job, data: &TableData, column: usize, row: usize) -> Place {
    let page = job.table::<QuickMeasure>();
    let is_filled = |key: &QuickMeasure| {
        let value = page.numbers(key.index()).first();
        value.is_some_and(|value| !value.is_nan())
    };
    let follows = &data.follows[row];
    let own = follows.iter().find(|(field, _)| *field == column);
    let own = match own {
        Some((_, follows)) => follows.keys(),
        None => key_of(data.table, column).into_iter().collect(),
    };
    let filled = own.iter().copied().find(is_filled);
    let mut of_row = follows.iter().flat_map(|(_, follows)| follows.keys());
    let key = filled
        .or(own.first().copied())
        .or_else(|| of_row.find(is_filled))
        .unwrap_or(QuickMeasure::QuickLength);
    page.place(key.index(), 0)
}

/// The place of the first input that a computed cell is made from.
pub(super) fn source_of(job: &Job, graph: &Graph, cell: Cell) -> Option<Place> {
    let mut queue: Vec<ColumnId> = vec![cell.column];
    let mut at = 0;
    while let Some(column) = queue.get(at).copied() {
        if let Some(place) = place_of(
            job,
            graph,
            Cell {
                column,
                row: cell.row,
            },
        ) {
            return Some(place);
        }
        queue.extend(
            graph
                .made_from(column)
                .into_iter()
                .filter(|source| *source < column),
        );
        at += 1;
        if at > 1000 {
            break;
        }
    }
    None
}
