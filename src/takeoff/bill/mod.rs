//! Lines of the bid: how a line is made of a row of whatever table it is taken off in.
//!
//! Each kind of line says when it arises, under which heading, where it stands, its words,
//! what is bought and worked for it, and how its measures were come by. It stands beside
//! the rules of its table.
//!
//! Always true: which lines there are is decided by what is written in the job, never by a
//! figure that is worked out; a line that comes to nothing is a line of zero.
//!
//! Not here: which kinds there are, and in which order (`takeoff::lines`).

mod amount;
mod line;
mod supply;

pub use amount::Amount;
pub(crate) use line::fixed;
pub use line::{BidLine, Columns, Counted, Line, Part, Taken};
pub use supply::{Buying, Waste, Working, named_or_usual};

use crate::graph::{Graph, Table};

/// Some lines of the bid.
pub trait GivesLines: Sync {
    /// The lines, in their order.
    fn lines(&self, graph: &mut Graph) -> Vec<Line>;
}

/// Several lists, one after the other.
impl<const N: usize> GivesLines for [&dyn GivesLines; N] {
    fn lines(&self, graph: &mut Graph) -> Vec<Line> {
        self.iter().flat_map(|list| list.lines(graph)).collect()
    }
}

/// The lines of each row of a table, row by row.
#[derive(Debug)]
pub struct RowByRow<T: 'static> {
    /// The table that they are told under.
    pub table: &'static str,
    /// The kinds of line of one row, in their order.
    pub kinds: &'static [&'static BidLine<T>],
}

impl<T: Table> RowByRow<T> {
    /// Lines that are told under their own table.
    #[must_use]
    pub const fn new(kinds: &'static [&'static BidLine<T>]) -> Self {
        let table = T::NAME;
        Self { table, kinds }
    }

    /// The lines of some rows.
    pub fn of_rows(&self, graph: &mut Graph, rows: impl IntoIterator<Item = usize>) -> Vec<Line> {
        let mut lines = Vec::new();
        for row in rows {
            for kind in self.kinds {
                if (kind.arises)(graph, row) {
                    lines.push(kind.of_row(graph, self.table, row));
                }
            }
        }
        lines
    }

    /// Makes what the lines read, with its limits, also where there is no row.
    pub(super) fn make(&self, graph: &mut Graph) {
        for kind in self.kinds {
            kind.of_row(graph, self.table, 0);
        }
    }
}

impl<T: Table> GivesLines for RowByRow<T> {
    fn lines(&self, graph: &mut Graph) -> Vec<Line> {
        let table = graph.add_table::<T>(0);
        let rows = 0..graph.table(table).rows;
        self.make(graph);
        self.of_rows(graph, rows)
    }
}
