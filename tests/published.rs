//! Figures that were printed without us: each check names where it was read.
//!
//! Always true:
//! - every figure comes from a public function of the crate, nearly always from a whole
//!   small job through the engine;
//! - the reading class stands beside the source: R1 read in the source itself, R2 in a
//!   second-hand copy, D derived from such figures, M from memory;
//! - a figure of class M never stands alone;
//! - the number of entries and of checks only grows.
//!
//! Not here: figures worked out by ourselves (`by_hand`).

mod built;
mod dimension_sheet;
mod earth_states;
mod flow;
mod labour;
mod production;
mod safety;
mod sections;
mod sheets;
mod stone;
mod time_and_price;
mod units_and_money;
mod volumes;

use std::collections::BTreeSet;

use crate::support::{US, estimate_of};
use groundsheet::estimate::Estimate;

/// How many entries of the collection of published figures are held.
const ENTRIES: usize = 77;

/// How many figures are compared, a row of a table counting once.
const CHECKS: usize = 220;

const TEXTS: [&str; 13] = [
    include_str!("published/built.rs"),
    include_str!("published/dimension_sheet.rs"),
    include_str!("published/earth_states.rs"),
    include_str!("published/flow.rs"),
    include_str!("published/labour.rs"),
    include_str!("published/production.rs"),
    include_str!("published/safety.rs"),
    include_str!("published/sections.rs"),
    include_str!("published/sheets.rs"),
    include_str!("published/stone.rs"),
    include_str!("published/time_and_price.rs"),
    include_str!("published/units_and_money.rs"),
    include_str!("published/volumes.rs"),
];

#[test]
#[allow(
    clippy::print_stdout,
    reason = "the count is part of the test's report"
)]
fn the_number_of_published_figures_only_grows() {
    let entries: BTreeSet<&str> = TEXTS
        .iter()
        .flat_map(|text| text.split("\"EX-").skip(1))
        .filter_map(|rest| rest.get(..2))
        .collect();
    let checks: usize = TEXTS
        .iter()
        .map(|text| text.matches("exactly(").count() + text.matches("within(").count())
        .sum();
    println!("{} published entries, {checks} checks", entries.len());
    assert!(entries.len() >= ENTRIES, "{} entries", entries.len());
    assert!(checks >= CHECKS, "{checks} checks");
}

/// A US customary job of basins alone, in loam.
fn basins(table: &str) -> Estimate {
    estimate_of(&[("Job", US), ("Basins", table)])
}
