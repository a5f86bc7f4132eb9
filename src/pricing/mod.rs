//! Prices: from quantities to lines with their hours and their direct cost.
//!
//! Every priced thing is one row of `Lines`, whatever table it was taken off in.
//! Money is rounded at named steps only: the cost of a line by kind, a crew's hour, a
//! mark-up's amount, a unit price, an extension.

pub mod costs;
pub mod lines;

use crate::graph::Term;
use crate::units::MONEY;

/// An amount of money, rounded to the cent: each use is a named step.
pub(crate) fn cents<T>(amount: Term<T>) -> Term<T> {
    amount.round_in(MONEY, 2)
}
