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
    for rules in [structures::RULES, falls::RULES, lining::RULES].concat() {
        graph.make_list(rules);
    }
    for rules in [Loose::AREA_RULES, Planting::AREA_RULES] {
        graph.make_list(rules);
    }
    for rules in [loose::RULES, timber::RULES, planting::RULES, edges::RULES] {
        graph.make_list(rules);
    }
    lifts(graph);
    for rules in [cuts::RULES, uplift::RULES, deliveries::RULES, water::RULES] {
        graph.make_list(rules);
    }
}
