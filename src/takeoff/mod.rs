//! The take-off: every quantity of a job, in building order, as columns of one graph.
//!
//! A rule is a constant beside those it belongs to, reads like the formula in the book, and
//! knows nothing of sheets. What must be there though no other rule reads it stands in the
//! `RULES` of its file; [`estimate`](mod@crate::estimate) makes those lists. What of it is priced
//! is said by the lists of [`lines`].

pub mod balance;
pub mod basins;
pub mod bill;
pub mod book;
pub mod built;
pub mod cut;
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
pub mod lifted;
pub mod lifts;
pub mod lines;
pub mod lining;
pub mod loose;
pub mod measured_area;
pub mod outline;
pub mod planting;
pub mod production;
pub mod pumping;
pub mod quick;
pub mod sections;
pub mod shelves;
pub mod slices;
pub mod soils;
pub mod structures;
pub mod timber;
pub mod uplift;
pub mod usual;
pub mod water;
pub mod works;
mod written;
