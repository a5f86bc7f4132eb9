//! How much of the bid rests on measures that were assumed, paced, measured, quoted or set.
//!
//! Always true: every line has one grade, so that the amounts add up to the bid.

use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Text, only, when};
use crate::job::tables::GRADES;
use crate::pricing::cents;
use crate::tables::{Bid, Grades, Lines};
use crate::takeoff::inputs::fixed_words;
use crate::units::{MONEY, PERCENT};

/// The bid by grade.
#[derive(Clone, Copy, Debug)]
pub struct GradeColumns {
    /// The grade.
    pub grade: Text<Grades>,
    /// What lines of this grade amount to in the bid.
    pub amount: Column<Grades>,
    /// The same as a share of the bid; zero where there is no bid.
    pub share: Column<Grades>,
}

/// Adds the amounts of the lines by their grade, the least certain first.
pub(super) fn by_grade(
    graph: &mut Graph,
    line_grade: Text<Lines>,
    line_amount: Column<Lines>,
    bid: Column<Bid>,
) -> GradeColumns {
    let grade = fixed_words::<Grades>(graph, "grade", GRADES);
    let mut rules = graph.rules::<Lines>();
    let link: Link<Lines, Grades> = rules.link("grade row", line_grade);
    let mut rules = graph.rules::<Grades>();
    let amount = cents(link.sum(line_amount));
    let amount = rules.arithmetic("amount in the bid", MONEY, amount);
    let bid = only::<Grades, Bid>(bid);
    let share = when(bid.clone().above(0.0), amount / bid, 0.0);
    GradeColumns {
        grade,
        amount,
        share: rules.arithmetic("share of the bid", PERCENT, share),
    }
}
