//! The lines of the bid: one list of what is priced, whatever table it is taken off in.
//!
//! Not here: how a line is made (`takeoff::bill`); the kinds of line of each table, which stand
//! beside its rules.

mod earth;
pub mod purchase;

use super::bill::{GivesLines, Line};
use super::{edges, falls, items, lining, loose, planting, structures, timber};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::tables::Lines;

/// Every line of the bid but those of partners, in building order.
pub const LISTS: &[&dyn GivesLines] = &[
    &earth::LINES,
    &structures::supply::LINES,
    &lining::lines::LINES,
    &falls::taken::FallByFall,
    &loose::LINES,
    &timber::LINES,
    &planting::LINES,
    &edges::LINES,
    &items::BySection,
];

/// Every line of the bid; those of partners, who are known only when it is decided who does
/// what, stand last.
pub const LINES: Roster<Lines, Line> = Roster::new(of_the_job);

/// The lines of the job without those of partners.
pub fn of_the_job(graph: &mut Graph) -> Vec<Line> {
    LISTS.iter().flat_map(|list| list.lines(graph)).collect()
}
