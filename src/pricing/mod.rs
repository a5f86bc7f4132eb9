//! Prices: from quantities to a bid.
//!
//! Every priced thing is one row of `Lines`, whatever table it was taken off in.
//! Money is rounded at named steps only: the cost of a line by kind, a crew's hour, a
//! mark-up's amount, a unit price, an extension.

pub mod bid;
pub mod certainty;
pub mod client_items;
mod costs;
pub mod earth_lines;
pub mod hours;
pub mod lines;
pub mod mark_ups;
pub mod orders;
pub mod purchase;
pub mod suppliers;

use crate::graph::Term;
use crate::units::MONEY;

/// An amount of money, rounded to the cent: each use is a named step.
fn cents<T>(amount: Term<T>) -> Term<T> {
    amount.round_in(MONEY, 2)
}
