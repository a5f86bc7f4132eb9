//! A thing that a machine lifts, as those who have it set tell of it.

use crate::graph::{Cell, ColumnId, Piece};

/// One thing that a machine lifts.
#[derive(Clone, Debug)]
pub struct Lifted {
    /// What is lifted.
    pub name: Vec<Piece>,
    /// Its weight: a column in the job's unit for heavy weights.
    pub weight: Cell,
    /// Row of the machine: the cell of a look-up.
    pub machine: Cell,
    /// How far the machine reaches to it: a column in the job's unit of length.
    pub radius: Cell,
    /// The measured column that a person would change.
    pub at: ColumnId,
}
