//! Water over courses: its depth on each spill, from flow and width.
//!
//! The Francis formula without end contractions: flow = coefficient × width × head to the
//! power of 3/2. Its coefficient is a bare number for feet and cubic feet a second, or for
//! metres and cubic metres a second.

use super::elevations::TOP;
use super::order::{FALL, LAST};
use crate::graph::prelude::*;
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::book::base_volume;
use crate::units::{S, System, Unit};

/// The head on every spill, the elevation of the water over every course, and their limits:
/// water that runs over courses has a spill, a spill has a flow, and its head is one that
/// the formula holds for.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Falls>::open(
        "flow without a spill",
        Code::MissingValue,
        Falls::FallFlow.at(),
        || {
            let runs = LAST.found().and(Falls::FallFlow.above(0.0));
            runs.and(FALL.sum(Courses::SpillWidth).same_as(0.0))
        },
        "water runs over it, and none of its courses has a spill width",
        "write Spill width at the courses that water runs over",
    ),
    &Limit::<Falls>::caution(
        "water pumped over it",
        Code::WaterAndPower,
        Falls::FallFlow.at(),
        || Falls::FallFlow.above(0.0),
        "where a pump drives this water, electricity is close to water",
        "ground-fault protection and isolation; wiring is licensed work (29 CFR 1926.404)",
    ),
    &HEAD,
    &WATER,
    &Limit::<Courses>::open(
        "spill without a flow",
        Code::MissingValue,
        Courses::SpillWidth.at(),
        || {
            let flows = FALL.of(Falls::FallFlow).above(0.0);
            Courses::SpillWidth.above(0.0).and(flows.negate())
        },
        "the course has a spill, and no water runs over its fall",
        "write Flow of the fall, or clear Spill width",
    ),
    &Limit::<Courses>::warning(
        "head too high for the formula",
        Code::BeyondFormula,
        Courses::SpillWidth.at(),
        || HEAD.above(Factor::SpillMost * Courses::SpillWidth.here()),
        "the water is too deep for the width of its spill, so its depth is only rough",
        "make the spill wider, or take the depth with care",
    ),
    &Limit::<Courses>::warning(
        "head too low for the formula",
        Code::BeyondFormula,
        Courses::SpillWidth.at(),
        || HEAD.above(0.0).and(HEAD.below(Factor::SpillLeast)),
        "the water is so shallow that it may cling to the stone: its depth is only rough",
        "make the spill narrower or the flow larger, or take the depth with care",
    ),
];

/// Depth of the water that runs over a course; zero without a spill.
pub const HEAD: Step<Courses> =
    Step::new("head of the spill", System::length, &sources::SPILL, || {
        let width = Courses::SpillWidth.here().number_in(System::length);
        let flow = FALL.of(Falls::FallFlow).number_in(a_second);
        let head = (flow / (Factor::SpillCoefficient * width)).two_thirds();
        let head = head.counted_in(System::length);
        when(Courses::SpillWidth.above(0.0), head, 0.0)
    });

/// The unit of flow that the coefficient is for.
fn a_second(system: System) -> Unit {
    let volume = base_volume(system);
    volume.per(S).unwrap_or(volume)
}

/// Elevation of the water over a course: its top where none runs.
pub const WATER: Step<Courses> = Step::geometry("water elevation", System::length, || TOP + HEAD);
