//! Rosters: the rows of tables that nobody writes.

use std::marker::PhantomData;
use std::sync::Arc;

use crate::graph::reads::Reads;
use crate::graph::{Cell, ColumnId, Graph, Piece, Solve, Table};

/// The rows of a table that are not written by anybody: what each is made from.
///
/// The rows are gathered when the first column of the table is read, and kept.
#[derive(Debug)]
pub struct Roster<T, R: 'static> {
    rows: fn(&mut Graph) -> Vec<R>,
    table: PhantomData<fn() -> T>,
}

impl<T: Table, R: Send + Sync> Roster<T, R> {
    /// A roster of the rows that a function gathers.
    #[must_use]
    pub const fn new(rows: fn(&mut Graph) -> Vec<R>) -> Self {
        Self {
            rows,
            table: PhantomData,
        }
    }

    /// A roster that another part of the program decides; without any rows until then.
    #[must_use]
    pub const fn decided_later() -> Self {
        Self::new(|_| Vec::new())
    }

    /// The rows; the table has as many.
    pub fn rows(&self, graph: &mut Graph) -> Arc<Vec<R>> {
        if let Some(kept) = graph.roster::<T, R>() {
            return kept;
        }
        let rows = Arc::new((self.rows)(graph));
        graph.keep_roster::<T, R>(Arc::clone(&rows));
        rows
    }

    /// The rows as they were gathered, for those who read a finished graph.
    #[must_use]
    pub fn gathered(&self, graph: &Graph) -> Arc<Vec<R>> {
        graph.roster::<T, R>().unwrap_or_default()
    }

    /// Says the rows of a roster that is [decided later](Self::decided_later), by what is
    /// not in the graph.
    pub fn decide(&self, graph: &mut Graph, rows: Vec<R>) {
        graph.keep_roster::<T, R>(Arc::new(rows));
    }

    /// One cell a row.
    pub fn cells(&self, graph: &mut Graph, cell: impl Fn(&R) -> Option<Cell>) -> Vec<Option<Cell>> {
        self.rows(graph).iter().map(cell).collect()
    }

    /// One cell a row of another table's column, from the row that is told.
    pub fn cells_of<P>(
        &self,
        graph: &mut Graph,
        column: impl Reads<P>,
        row: impl Fn(&R) -> usize,
    ) -> Vec<Option<Cell>> {
        let column = graph.read(column);
        self.cells(graph, |own| Some(column.at(row(own))))
    }

    /// The words of each row.
    pub fn words(&self, graph: &mut Graph, words: impl Fn(&R) -> Vec<Piece>) -> Vec<Vec<Piece>> {
        self.rows(graph).iter().map(words).collect()
    }

    /// The words of each row in another table's column, in the row that is told.
    pub fn words_of<P>(
        &self,
        graph: &mut Graph,
        column: impl Reads<P>,
        row: impl Fn(&R) -> usize,
    ) -> Vec<Vec<Piece>> {
        let column = graph.read(column);
        self.words(graph, |own| vec![Piece::Cell(column.at(row(own)))])
    }

    /// The row of another table that each row means, as a look-up holds it; an edit of the
    /// columns given needs a new run.
    pub fn meaning(
        &self,
        graph: &mut Graph,
        watched: Vec<ColumnId>,
        row: impl Fn(&R) -> usize,
    ) -> Solve {
        Solve::fixed(watched, self.numbers(graph, |own| row(own) + 1))
    }

    /// A whole number a row.
    pub fn numbers(&self, graph: &mut Graph, number: impl Fn(&R) -> usize) -> Vec<f64> {
        let rows = self.rows(graph);
        rows.iter().map(|row| whole(number(row))).collect()
    }
}

/// A count as a rule holds it.
pub(crate) fn whole(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}
