//! The take-off: every quantity of a job, in building order, as columns of one graph.
//!
//! [`estimate`](crate::estimate) calls these in turn. Each rule adds one column, reads
//! like the formula in the book, and knows nothing of sheets.

pub mod balance;
pub mod basins;
pub mod book;
pub mod excavation;
mod half_measured;
pub mod inputs;
pub mod items;
pub mod job_wide;
mod levels;
pub mod production;
pub mod sections;
mod shelves;
pub mod works;
