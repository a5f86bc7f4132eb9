//! The opening that water enters a structure by, and how fast it does.

use crate::graph::prelude::*;
use crate::job::tables::Structures;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// The velocity in each opening is not above the factor; flow and opening come together.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Structures>::warning(
        "water enters too fast",
        Code::FastOpening,
        Structures::OpeningWidth.at(),
        || VELOCITY.above(Factor::ApproachVelocity),
        "water enters the opening faster than it should",
        "make the opening larger, add another, or let less water in",
    ),
    &Limit::<Structures>::open(
        "flow without an opening",
        Code::MissingValue,
        Structures::OpeningWidth.at(),
        || {
            let closed = AREA.above(0.0).negate();
            Structures::OpeningFlow.above(0.0).and(closed)
        },
        "water flows in, and the opening that it enters by is not measured",
        "write Opening width and Opening height, or clear Flow",
    ),
    &Limit::<Structures>::warning(
        "opening without a flow",
        Code::MissingValue,
        Structures::OpeningFlow.at(),
        || {
            let wide = Structures::OpeningWidth.filled();
            let some = wide.or(Structures::OpeningHeight.filled());
            some.and(Structures::OpeningFlow.blank())
        },
        "an opening is measured and no flow, so its velocity is not checked",
        "write Flow",
    ),
];

/// Width × height of the opening.
const AREA: Step<Structures> = Step::geometry("area of the opening", System::area, || {
    Structures::OpeningWidth * Structures::OpeningHeight
});

/// Flow ÷ area.
const VELOCITY: Step<Structures> = Step::new(
    "approach velocity",
    System::velocity,
    &sources::CONTINUITY,
    || when(AREA.above(0.0), Structures::OpeningFlow / AREA, 0.0),
);
