//! Kinds of rock: what a solid volume of each weighs.

use crate::graph::{Column, Graph};
use crate::job::tables::ROCKS;
use crate::parameters::Factor;
use crate::tables::Rocks;
use crate::takeoff::inputs::{AllInputs, fixed_words};
use crate::units::System;

/// The factor of each rock's solid weight, in the order of the rocks.
const WEIGHT_OF: [Factor; 6] = [
    Factor::WeightGranite,
    Factor::WeightGneiss,
    Factor::WeightLimestone,
    Factor::WeightSandstone,
    Factor::WeightQuartzite,
    Factor::WeightBasalt,
];

/// Adds the table of rocks: the solid weight of each, from the factors in use.
pub(super) fn rocks(graph: &mut Graph, inputs: &AllInputs, system: System) -> Column<Rocks> {
    fixed_words::<Rocks>(graph, "Rock", ROCKS);
    let cells = WEIGHT_OF.map(|factor| Some(inputs.factors.of(factor).id.at(0)));
    let mut rules = graph.rules::<Rocks>();
    rules.gathered("solid weight", system.density(), cells.to_vec())
}
