//! A cut beside the basins' own, as those who dig one tell of it.

use crate::graph::{Cell, Piece};

/// Where one cut comes from.
#[derive(Clone, Debug)]
pub struct Cut {
    /// What is cut, such as the structure's name.
    pub name: Vec<Piece>,
    /// What is dug, in the bank.
    pub dig: Cell,
    /// What is filled again, compacted; `None` where nothing is.
    pub backfill: Option<Cell>,
    /// How its measures were come by.
    pub grade: Cell,
}
