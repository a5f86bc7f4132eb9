//! Rosters: the rows of tables that nobody writes.

use std::marker::PhantomData;
use std::sync::Arc;

use crate::graph::{Cell, Graph, Piece, Table};

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

    /// The rows; the table has as many.
    pub fn rows(&self, graph: &mut Graph) -> Arc<Vec<R>> {
        if let Some(kept) = graph.roster::<T, R>() {
            return kept;
        }
        let rows = Arc::new((self.rows)(graph));
        graph.keep_roster::<T, R>(Arc::clone(&rows));
        rows
    }

    /// One cell a row.
    pub fn cells(&self, graph: &mut Graph, cell: fn(&R) -> Option<Cell>) -> Vec<Option<Cell>> {
        self.rows(graph).iter().map(cell).collect()
    }

    /// The words of each row.
    pub fn words(&self, graph: &mut Graph, words: fn(&R) -> Vec<Piece>) -> Vec<Vec<Piece>> {
        self.rows(graph).iter().map(words).collect()
    }
}
