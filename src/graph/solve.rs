//! Solved columns: what a pure function makes of whole columns.
//!
//! Geometry of many points, a network of pipes, the order of rows: figures that no formula
//! down a column can carry. The workbook holds them as values and watches what they were
//! made from; a limit over them stays live, so that a residual shows at once.

use std::fmt;
use std::sync::Arc;

use super::{ColumnId, Results};

/// Makes a column of whole ones.
type Solver = dyn Fn(&[Whole<'_>]) -> Vec<f64> + Send + Sync;

/// A pure function of whole columns, and the columns it reads.
#[derive(Clone)]
pub struct Solve {
    pub(super) inputs: Vec<ColumnId>,
    by: Arc<Solver>,
}

/// A whole column, as a solver reads it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Whole<'r> {
    /// Numbers; blank is NaN.
    Numbers(&'r [f64]),
    /// Words; blank is empty.
    Words(&'r [Arc<str>]),
}

impl<'r> Whole<'r> {
    /// The numbers of a column; empty for a column of words.
    #[must_use]
    pub fn numbers(self) -> &'r [f64] {
        match self {
            Whole::Numbers(numbers) => numbers,
            Whole::Words(_) => &[],
        }
    }

    /// The words of a column; empty for a column of numbers.
    #[must_use]
    pub fn words(self) -> &'r [Arc<str>] {
        match self {
            Whole::Numbers(_) => &[],
            Whole::Words(words) => words,
        }
    }
}

impl fmt::Debug for Solve {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_struct("Solve")
            .field("inputs", &self.inputs)
            .finish_non_exhaustive()
    }
}

impl Solve {
    /// A function of the columns given, which it reads in their order. It gives one number
    /// for each row of its own table; what is missing counts as zero, and one that is not
    /// finite blocks the bid: it could not be worked out.
    pub fn new(
        inputs: Vec<ColumnId>,
        by: impl Fn(&[Whole<'_>]) -> Vec<f64> + Send + Sync + 'static,
    ) -> Self {
        let by = Arc::new(by);
        Self { inputs, by }
    }

    /// Numbers that were decided when the job was read; an edit of the columns given needs a
    /// new run.
    #[must_use]
    pub fn fixed(inputs: Vec<ColumnId>, numbers: Vec<f64>) -> Self {
        Self::new(inputs, move |_| numbers.clone())
    }

    /// The columns that are read.
    #[must_use]
    pub fn inputs(&self) -> &[ColumnId] {
        &self.inputs
    }

    /// What the function makes of the columns as they are.
    pub(super) fn solved(&self, results: &Results, rows: usize) -> Vec<f64> {
        let whole: Vec<Whole<'_>> = self.inputs.iter().map(|id| results.whole(*id)).collect();
        let mut numbers = (self.by)(&whole);
        numbers.resize(rows, 0.0);
        numbers
    }
}
