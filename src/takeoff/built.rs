//! Everything that is built into and around basins, in building order.
//!
//! One place says in which order limits and working columns stand; what a rule reads is made
//! when it is first read, so that the order of work needs no care.

use super::lifts::lifts;
use super::measured_area::Spread;
use super::{
    cuts, deliveries, edges, falls, lining, loose, planting, structures, timber, uplift, water,
};
use crate::graph::Graph;
use crate::job::tables::{Loose, Planting};

/// Adds everything that is built.
pub fn built(graph: &mut Graph) {
    for lists in [structures::RULES, falls::RULES, lining::RULES] {
        graph.make_lists(lists);
    }
    graph.make_lists(&[
        Loose::AREA_RULES,
        Planting::AREA_RULES,
        loose::RULES,
        timber::RULES,
        planting::RULES,
        edges::RULES,
    ]);
    lifts(graph);
    graph.make_lists(&[cuts::RULES, uplift::RULES, deliveries::RULES, water::RULES]);
}
