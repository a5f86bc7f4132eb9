//! Prices: from quantities to a bid.
//!
//! Every priced thing is one row of `Lines`, whatever table it was taken off in.
//! Money is rounded at named steps only: the cost of a line by kind, a crew's hour, a
//! mark-up's amount, a unit price, an extension.

pub mod bid;
pub mod lines;
