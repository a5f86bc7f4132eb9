//! The take-off: every quantity of a job, in building order, as columns of one graph.
//!
//! [`estimate`](crate::estimate) calls these in turn. Each rule adds one column, reads
//! like the formula in the book, and knows nothing of sheets.

pub mod balance;
pub mod basins;
pub mod bill;
pub mod book;
pub mod built;
pub mod cuts;
pub mod deliveries;
pub mod dig_sheet;
pub mod edges;
pub mod excavation;
pub mod falls;
pub mod grades;
pub mod half_measured;
pub mod inputs;
pub mod items;
pub mod job_wide;
pub mod levels;
pub mod lifts;
pub mod lining;
pub mod loose;
pub mod measured_area;
pub mod planting;
pub mod production;
pub mod pumping;
mod quick;
pub mod sections;
pub mod shelves;
pub mod soils;
pub mod structures;
pub mod timber;
pub mod uplift;
pub mod usual;
pub mod water;
pub mod works;
