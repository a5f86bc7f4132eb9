//! The input tables: what a measurement workbook holds.
//!
//! Each table is an enum of its columns, and serves as the type of its rows in the
//! graph. Ranges are in the US customary unit of the measure.

mod book;
mod choices;
mod client;
mod partners;
mod site;
mod works;

pub use super::columns::EachTable;
use super::columns::{Fields, InputTable, in_order};
pub use book::{Crews, Equipment, LiftChart, MarkUps, Materials, ProductionRates, SetQuantities};
pub use choices::*;
pub use client::{BidTerms, ClientItems};
pub use partners::{Partners, Scenarios, SharedWork};
pub use site::{Basins, Edges, JobKeys, QuickMeasure, Shelves};
pub use works::{Courses, Falls, Layers, Loose, OtherItems, Planting, Structures, Timber};

/// Sheets that the program writes itself, and passes over when it reads them back.
pub const PAGES: &[&str] = &[
    "Bid",
    "Bid schedule",
    "Take-off",
    "Cost",
    "Summary",
    "Mark-ups priced",
    "Who does what",
    "Scenarios in detail",
    "Activities",
    "Certainty",
    "Earthwork",
    "Sections",
    "Dig sheet",
    "Sheets to order",
    "Stone by course",
    "Falls drawn",
    "Structures built",
    "Lift checks",
    "Loose stone and plants",
    "Hours",
    "Order list",
    "Cautions",
    "Basins working",
    "Shelves working",
    "Structures working",
    "Lining working",
    "Stone working",
    "Planting working",
    "Items working",
    "Lines working",
    "Scenarios working",
    "Price book",
    "Small tables",
    "Checks",
    "Typed cells",
    "Changes",
    "Sources",
    "Guide",
];

in_order![
    JobKeys,
    QuickMeasure,
    Basins,
    Shelves,
    Edges,
    Structures,
    Layers,
    Falls,
    Courses,
    Loose,
    Timber,
    Planting,
    OtherItems,
    Materials,
    Crews,
    Equipment,
    LiftChart,
    ProductionRates,
    Partners,
    Scenarios,
    SharedWork,
    MarkUps,
    SetQuantities,
    ClientItems,
    BidTerms,
];
