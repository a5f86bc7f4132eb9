//! From an estimate to files: the priced workbook, the blank template, text, JSON, CSV.
//!
//! Always true: every cell comes from the job, from the graph, or is fixed text; the
//! same estimate gives the same bytes.

mod bid_page;
mod blocks;
mod changes;
mod charts;
mod checks;
mod inputs;
mod layout;
mod pages;
mod plan;
pub mod records;
mod stored;
mod styles;
mod template;
mod text;
mod workbook;

pub use layout::{Block, BookLayout, SheetPlan, Show};
pub use template::template;
pub use text::{explain, names, summary, take_off};
pub use workbook::{WriteError, workbook};
