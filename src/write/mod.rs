//! From an estimate to files: the priced workbook, the blank template, text, JSON, CSV.
//!
//! Always true: every cell comes from the job, from the graph, or is fixed text; the
//! same estimate gives the same bytes.

mod bid_page;
mod block_columns;
mod blocks;
mod certainty_page;
mod changes;
mod charts;
mod client_copy;
mod comparison;
mod error;
mod explain;
mod fact;
pub mod fingerprint;
mod fixed_tables;
mod head;
mod headings;
mod heights;
mod inputs;
mod layout;
mod line_sources;
mod listed_pages;
mod names;
pub mod pages;
mod painter;
mod parts;
mod plan;
pub mod records;
mod scenario_page;
mod schema;
mod sheets;
mod stored;
mod styles;
mod template;
mod text;
mod typed_cells;
mod validations;
mod workbook;

pub use client_copy::{
    ClientCopy, ClientItem, ClientList, ClientRow, Extent, client_copy, client_workbook,
};
pub use comparison::{Comparison, comparison, comparison_csv, comparison_text};
pub use error::WriteError;
pub use explain::{ExplainedRecord, explain, explained};
pub use layout::BookLayout;
pub use names::names;
pub use schema::schema;
pub use sheets::{Below, Block, Body, Fixed, SheetPlan, Show};
pub use template::template;
pub use text::{summary, take_off};
pub use workbook::workbook;
