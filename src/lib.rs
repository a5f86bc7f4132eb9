//! groundsheet.
pub mod diagnostic;
pub mod estimate;
pub mod graph;
pub mod job;
pub mod money;
pub mod parameters;
pub mod place;
pub mod pricing;
pub mod read;
pub mod sources;
pub mod takeoff;
pub mod units;
