//! The opening that water enters a structure by, and how fast it does.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Rules, when};
use crate::job::tables::Structures;
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;

/// Adds the area of each opening and the velocity in it: flow ÷ area.
///
/// Limits: the velocity is not above the factor; flow and opening come together.
pub(super) fn opening(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) {
    let (inputs, system) = (basis.inputs, basis.system);
    let width = inputs.number(Structures::OpeningWidth);
    let height = inputs.number(Structures::OpeningHeight);
    let flow = inputs.number(Structures::OpeningFlow);
    let area = rules.geometry("area of the opening", system.area(), width * height);
    let velocity = when(area.here().above(0.0), flow / area, 0.0);
    let unit = system.velocity();
    let velocity = rules.step("approach velocity", unit, &sources::CONTINUITY, velocity);
    rules.limit(
        "water enters too fast",
        velocity
            .here()
            .above(factor(inputs, Factor::ApproachVelocity)),
        Breach::warning(
            Code::FastOpening,
            width.id,
            "water enters the opening faster than it should",
            "make the opening larger, add another, or let less water in",
        ),
    );
    half_measured(rules, (width, height), (flow, area));
}

/// Limits: a flow has an opening to enter by, and an opening has two sides and a flow.
fn half_measured(
    rules: &mut Rules<'_, Structures>,
    (width, height): (Column<Structures>, Column<Structures>),
    (flow, area): (Column<Structures>, Column<Structures>),
) {
    let closed = area.here().above(0.0).negate();
    rules.limit(
        "flow without an opening",
        flow.here().above(0.0).and(closed),
        Breach::open(
            Code::MissingValue,
            width.id,
            "water flows in, and the opening that it enters by is not measured",
            "write Opening width and Opening height, or clear Flow",
        ),
    );
    let some = width.filled().or(height.filled());
    rules.limit(
        "opening without a flow",
        some.and(flow.blank()),
        Breach::warning(
            Code::MissingValue,
            flow.id,
            "an opening is measured and no flow, so its velocity is not checked",
            "write Flow",
        ),
    );
}
