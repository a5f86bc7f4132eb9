//! What the take-off hands on to pricing: one line a priced thing.

use std::sync::Arc;

use crate::graph::{Cell, Piece};

/// Where one line comes from.
#[derive(Clone, Debug)]
pub struct Line {
    /// The table that it was taken off in.
    pub table: &'static str,
    /// Its name, unique in the job.
    pub name: Vec<Piece>,
    /// Heading of the bid that it belongs under.
    pub section: Vec<Piece>,
    /// What it is, as it reads on the bid.
    pub description: Vec<Piece>,
    /// Unit of its quantity, by its symbol.
    pub unit: Vec<Piece>,
    /// Its quantity.
    pub quantity: Cell,
    /// What it was worked out as, before it was counted in the unit that it is sold in: its
    /// rule is shown beside the line. The quantity itself where there is none.
    pub amount: Option<Cell>,
    /// What is bought beyond it.
    pub waste: Option<Cell>,
    /// Row of the material that it is bought as.
    pub material: Option<Cell>,
    /// Row of the work that it is done by.
    pub work: Option<Cell>,
    /// What is worked, in the work's own unit; the quantity itself where there is none.
    pub worked: Option<Cell>,
    /// Price of one by a subcontractor or a quote.
    pub price: Option<Cell>,
    /// How its measures were come by.
    pub grade: Cell,
}

/// Words as they are.
pub(crate) fn fixed(words: impl Into<Arc<str>>) -> Piece {
    Piece::Fixed(words.into())
}
