//! Whether groundwater may lift a structure that stands empty in it.
//!
//! What is displaced below groundwater lifts by the weight of its water. Its own weight
//! and the cover hold it down; cover that lies under groundwater counts less the weight
//! of as much water, which is on the safe side. Friction at the sides is left out.

use super::size::Size;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Rules, highest, lowest, when};
use crate::job::tables::Structures;
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::ONE;

/// Adds uplift, what holds a structure down, and its factor of safety against lifting.
///
/// Limits: the factor of safety is not below the one asked for; the depth of the underside
/// is known. Both are open points: an engineer decides.
pub(super) fn flotation(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    size: &Size,
    weight: Column<Structures>,
) {
    let (inputs, unit) = (basis.inputs, basis.system.weight());
    let groundwater = inputs.number(Structures::StructureGroundwater);
    let depth = inputs.number(Structures::CutDepth);
    let water = factor(inputs, Factor::WaterWeight);
    let under = highest(0.0, lowest(size.height, depth - groundwater));
    let under = when(groundwater.filled(), under, 0.0);
    let length = basis.system.length();
    let under = rules.geometry("height in groundwater", length, under);
    let uplift = water * size.footprint * under;
    let uplift = rules.step("uplift", unit, &sources::BUOYANCY, uplift);
    let cover = cover(rules, basis, size);
    let holding = rules.arithmetic("held down by", unit, weight * size.pieces_of_one + cover);
    let lifts = uplift.here().above(0.0);
    let safety = when(lifts.clone(), holding / uplift, 0.0);
    let safety = rules.arithmetic("factor of safety against lifting", ONE, safety);
    let asked = factor(inputs, Factor::FloatSafety);
    rules.limit(
        "groundwater may lift it",
        lifts.and(safety.here().below(asked)),
        Breach::open(
            Code::MayFloat,
            inputs.id(Structures::OwnWeight),
            "groundwater may lift the structure while it is empty",
            "have an engineer decide: more weight or cover, a wider base, an underdrain, or keep the water down until it is filled",
        ),
    );
    rules.limit(
        "groundwater and no depth of the underside",
        groundwater.filled().and(depth.blank()),
        Breach::open(
            Code::MissingValue,
            depth.id,
            "groundwater is measured and no depth of the underside, so that lifting is not checked",
            "write Cut depth, from the ground to the underside",
        ),
    );
}

/// Weight of the cover of one structure, less that of water for what of it lies in
/// groundwater.
fn cover(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>, size: &Size) -> Column<Structures> {
    let inputs = basis.inputs;
    let groundwater = inputs.number(Structures::StructureGroundwater);
    let cover = inputs.number(Structures::Cover);
    let top = inputs.number(Structures::CutDepth) - size.height;
    let wet = highest(0.0, lowest(cover, top - groundwater));
    let wet = when(groundwater.filled(), wet, 0.0);
    let length = basis.system.length();
    let wet = rules.geometry("cover in groundwater", length, wet);
    let stone = factor(inputs, Factor::BallastWeight) * cover;
    let water = factor(inputs, Factor::WaterWeight) * wet;
    let weight = size.footprint * (stone - water);
    let source = &sources::BALLAST_WEIGHT;
    rules.step("weight of the cover", basis.system.weight(), source, weight)
}
