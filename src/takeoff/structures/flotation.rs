//! Whether groundwater may lift a structure that stands empty in it.
//!
//! What is displaced below groundwater lifts by the weight of its water. Its own weight
//! and the cover hold it down; cover that lies under groundwater counts less the weight
//! of as much water, which is on the safe side. Friction at the sides is left out.

use super::WEIGHT;
use super::size::{FOOTPRINT, HEIGHT, PIECES_OF_ONE};
use crate::graph::prelude::*;
use crate::job::tables::Structures;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Uplift, what holds a structure down, and its limits. Both are open points: an engineer
/// decides.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Structures>::open(
        "groundwater may lift it",
        Code::MayFloat,
        Structures::OwnWeight.at(),
        || UPLIFT.above(0.0).and(SAFETY.below(Factor::FloatSafety)),
        "groundwater may lift the structure while it is empty",
        "have an engineer decide: more weight or cover, a wider base, an underdrain, or keep the water down until it is filled",
    ),
    &Limit::<Structures>::open(
        "groundwater and no depth of the underside",
        Code::MissingValue,
        Structures::CutDepth.at(),
        || {
            let groundwater = Structures::StructureGroundwater.filled();
            groundwater.and(Structures::CutDepth.blank())
        },
        "groundwater is measured and no depth of the underside, so that lifting is not checked",
        "write Cut depth, from the ground to the underside",
    ),
];

/// How much of its height lies in groundwater.
const UNDER: Step<Structures> = Step::geometry("height in groundwater", System::length, || {
    let groundwater = Structures::StructureGroundwater;
    let under = lowest(HEIGHT, Structures::CutDepth - groundwater);
    when(groundwater.filled(), highest(0.0, under), 0.0)
});

/// Weight of the water that one displaces.
const UPLIFT: Step<Structures> = Step::new("uplift", System::weight, &sources::BUOYANCY, || {
    Factor::WaterWeight * FOOTPRINT * UNDER
});

/// How much of its cover lies in groundwater.
const WET_COVER: Step<Structures> = Step::geometry("cover in groundwater", System::length, || {
    let groundwater = Structures::StructureGroundwater;
    let top = Structures::CutDepth - HEIGHT;
    let wet = lowest(Structures::Cover, top - groundwater);
    when(groundwater.filled(), highest(0.0, wet), 0.0)
});

/// Weight of the cover of one, less that of water for what of it lies in groundwater.
const COVER: Step<Structures> = Step::new(
    "weight of the cover",
    System::weight,
    &sources::BALLAST_WEIGHT,
    || {
        let stone = Factor::BallastWeight * Structures::Cover.here();
        FOOTPRINT * (stone - Factor::WaterWeight * WET_COVER)
    },
);

/// Weight of one with its cover.
const HOLDING: Step<Structures> = Step::arithmetic("held down by", System::weight, || {
    WEIGHT * PIECES_OF_ONE + COVER
});

/// What holds it down for one of uplift; zero where nothing lifts.
const SAFETY: Step<Structures> =
    Step::arithmetic("factor of safety against lifting", System::number, || {
        when(UPLIFT.above(0.0), HOLDING / UPLIFT, 0.0)
    });
