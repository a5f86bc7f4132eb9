//! Everything that is built into and around basins, in building order.
//!
//! One place says in which order limits and working columns stand; what a rule reads is made
//! when it is first read, so that the order of work needs no care.

use super::basis::Basis;
use super::lifts::lifts;
use super::measured_area::measured_area;
use super::{
    cuts, deliveries, edges, falls, lining, loose, planting, structures, timber, uplift, water,
};
use crate::graph::Graph;
use crate::job::tables::{Loose, Planting};

/// Adds everything that is built.
pub fn built(graph: &mut Graph, basis: &Basis<'_>) {
    for rules in [structures::RULES, falls::RULES, lining::RULES].concat() {
        graph.make_list(rules);
    }
    measured_areas(graph, basis);
    for rules in [loose::RULES, timber::RULES, planting::RULES, edges::RULES] {
        graph.make_list(rules);
    }
    lifts(graph);
    for rules in [cuts::RULES, uplift::RULES, deliveries::RULES, water::RULES] {
        graph.make_list(rules);
    }
}

/// Adds the areas that are measured as such, or by length and width.
fn measured_areas(graph: &mut Graph, basis: &Basis<'_>) {
    let (inputs, system) = (basis.inputs, basis.system);
    let sides = [Loose::LooseArea, Loose::LooseLength, Loose::LooseWidth];
    measured_area(&mut graph.rules(), inputs, sides, system);
    let sides = [
        Planting::PlantingArea,
        Planting::PlantingLength,
        Planting::PlantingWidth,
    ];
    measured_area(&mut graph.rules(), inputs, sides, system);
}
