//! Measures of a basin that come in pairs: one without the other counts for nothing.
//!
//! Each is an open point, so that nothing that was measured drops out of a bid in silence.

use crate::graph::prelude::*;
use crate::graph::rule::At;
use crate::job::tables::Basins;

/// A measure that needs another has it, and one that is for cuts that people enter stands
/// only there.
pub const RULES: &[&dyn Rule] = &[
    &half(
        "half measured: the berm has a height and no length",
        "the berm has a height and no length",
        Basins::BermLength.at(),
        || alone(Basins::BermHeight, Basins::BermLength),
    ),
    &half(
        "half measured: the berm has a length and no height",
        "the berm has a length and no height",
        Basins::BermHeight.at(),
        || alone(Basins::BermLength, Basins::BermHeight),
    ),
    &half(
        "half measured: the sediment has an area and no depth",
        "the sediment has an area and no depth",
        Basins::SedimentDepth.at(),
        || alone(Basins::SedimentArea, Basins::SedimentDepth),
    ),
    &half(
        "half measured: the sediment has a depth and no area",
        "the sediment has a depth and no area",
        Basins::SedimentArea.at(),
        || alone(Basins::SedimentDepth, Basins::SedimentArea),
    ),
    &half(
        "half measured: the topsoil has an area and no thickness",
        "the topsoil has an area and no thickness",
        Basins::Topsoil.at(),
        || alone(Basins::TopsoilArea, Basins::Topsoil),
    ),
    &half(
        "half measured: water runs in, and none stands to be pumped out",
        "water runs in, and none stands to be pumped out",
        Basins::StandingWater.at(),
        || alone(Basins::Inflow, Basins::StandingWater),
    ),
    &idle(
        "half measured: working room is written, and nobody is said to enter the cut",
        "working room is written, and nobody is said to enter the cut",
        || is_idle(Basins::WorkingRoom),
    ),
    &idle(
        "half measured: a lay-back is written, and nobody is said to enter the cut",
        "a lay-back is written, and nobody is said to enter the cut",
        || is_idle(Basins::LayBack),
    ),
];

#[track_caller]
const fn half(
    name: &'static str,
    message: &'static str,
    missing: At,
    broken: fn() -> Condition,
) -> Limit<Basins> {
    let hint = "write the other measure too, or clear this one";
    Limit::open(name, Code::MissingValue, missing, broken, message, hint)
}

fn alone(one: Basins, other: Basins) -> Condition {
    one.filled().and(other.blank())
}

#[track_caller]
const fn idle(
    name: &'static str,
    message: &'static str,
    broken: fn() -> Condition,
) -> Limit<Basins> {
    let (missing, hint) = (
        Basins::Entered.at(),
        "write yes under Entered, or clear this measure",
    );
    Limit::open(name, Code::MissingValue, missing, broken, message, hint)
}

fn is_idle(measure: Basins) -> Condition {
    measure.filled().and(Basins::Entered.is("yes").negate())
}
