//! Measures of a basin that come in pairs: one without the other counts for nothing.
//!
//! Each is an open point, so that nothing that was measured drops out of a bid in silence.

use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Rules};
use crate::job::tables::Basins;

/// Limits: a measure that needs another has it.
pub(super) fn half_measured(rules: &mut Rules<'_, Basins>, inputs: &AllInputs) {
    let pairs = [
        (
            Basins::BermHeight,
            Basins::BermLength,
            "the berm has a height and no length",
        ),
        (
            Basins::BermLength,
            Basins::BermHeight,
            "the berm has a length and no height",
        ),
        (
            Basins::SedimentArea,
            Basins::SedimentDepth,
            "the sediment has an area and no depth",
        ),
        (
            Basins::SedimentDepth,
            Basins::SedimentArea,
            "the sediment has a depth and no area",
        ),
        (
            Basins::TopsoilArea,
            Basins::Topsoil,
            "the topsoil has an area and no thickness",
        ),
        (
            Basins::Inflow,
            Basins::StandingWater,
            "water runs in, and none stands to be pumped out",
        ),
    ];
    for (one, other, message) in pairs {
        let (one, other) = (inputs.number(one), inputs.number(other));
        let name = format!("half measured: {message}");
        let hint = "write the other measure too, or clear this one";
        let breach = Breach::open(Code::MissingValue, other.id, message, hint);
        rules.limit(&name, one.filled().and(other.blank()), breach);
    }
    let idle = inputs.words(Basins::Entered).is("yes").negate();
    for (field, message) in [
        (
            Basins::WorkingRoom,
            "working room is written, and nobody is said to enter the cut",
        ),
        (
            Basins::LayBack,
            "a lay-back is written, and nobody is said to enter the cut",
        ),
    ] {
        let measure = inputs.number(field);
        let name = format!("half measured: {message}");
        let hint = "write yes under Entered, or clear this measure";
        let at = inputs.words(Basins::Entered).id;
        let breach = Breach::open(Code::MissingValue, at, message, hint);
        rules.limit(&name, measure.filled().and(idle.clone()), breach);
    }
}
