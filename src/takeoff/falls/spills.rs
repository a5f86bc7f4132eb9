//! Water over courses: its depth on each spill, from flow and width.
//!
//! The Francis formula without end contractions: flow = coefficient × width × head to the
//! power of 3/2. Its coefficient is a bare number for feet and cubic feet a second, or for
//! metres and cubic metres a second.

use super::order::Order;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Rules, Term, when};
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::{base_volume, factor};
use crate::takeoff::inputs::AllInputs;
use crate::units::S;

/// Water on each course.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spills {
    pub(super) head: Column<Courses>,
    pub(super) water: Column<Courses>,
}

/// Adds the head on every spill and the elevation of the water over every course: its top
/// where none runs.
pub(super) fn spills(
    graph: &mut Graph,
    basis: &Basis<'_>,
    order: &Order,
    top: Column<Courses>,
) -> Spills {
    let (inputs, system) = (basis.inputs, basis.system);
    spill_missing(graph, inputs, order);
    caution_pumped(&mut graph.rules(), inputs.number(Falls::FallFlow));
    let (width, unit) = (inputs.number(Courses::SpillWidth), system.length());
    let flow = order.fall.of(inputs.number(Falls::FallFlow));
    let volume = base_volume(system);
    let a_second = volume.per(S).unwrap_or(volume);
    let crest = factor(inputs, Factor::SpillCoefficient) * width.here().number_in(unit);
    let head = (flow.clone().number_in(a_second) / crest).two_thirds();
    let head = when(width.here().above(0.0), head.counted_in(unit), 0.0);
    let mut rules = graph.rules::<Courses>();
    let head = rules.step("head of the spill", unit, &sources::SPILL, head);
    let water = rules.geometry("water elevation", unit, top + head);
    limits(&mut rules, inputs, head, flow);
    Spills { head, water }
}

/// Limit: water that runs over courses has a spill.
fn spill_missing(graph: &mut Graph, inputs: &AllInputs, order: &Order) {
    let flow = inputs.number(Falls::FallFlow);
    let widths = order.fall.sum(inputs.number(Courses::SpillWidth));
    let has_courses = order.last.found_none().negate();
    graph.rules::<Falls>().limit(
        "flow without a spill",
        has_courses
            .and(flow.here().above(0.0))
            .and(widths.same_as(0.0)),
        Breach::open(
            Code::MissingValue,
            flow.id,
            "water runs over it, and none of its courses has a spill width",
            "write Spill width at the courses that water runs over",
        ),
    );
}

/// Limit: water that is pumped over a fall is a caution.
fn caution_pumped(rules: &mut Rules<'_, Falls>, flow: Column<Falls>) {
    rules.limit(
        "water pumped over it",
        flow.here().above(0.0),
        Breach::caution(
            Code::WaterAndPower,
            flow.id,
            "where a pump drives this water, electricity is close to water",
            "ground-fault protection and isolation; wiring is licensed work (29 CFR 1926.404)",
        ),
    );
}

/// Limits: a spill has a flow, and its head is one that the formula holds for.
fn limits(
    rules: &mut Rules<'_, Courses>,
    inputs: &AllInputs,
    head: Column<Courses>,
    flow: Term<Courses>,
) {
    let width = inputs.number(Courses::SpillWidth);
    rules.limit(
        "spill without a flow",
        width.here().above(0.0).and(flow.above(0.0).negate()),
        Breach::open(
            Code::MissingValue,
            width.id,
            "the course has a spill, and no water runs over its fall",
            "write Flow of the fall, or clear Spill width",
        ),
    );
    let most = factor(inputs, Factor::SpillMost) * width;
    rules.limit(
        "head too high for the formula",
        head.here().above(most),
        Breach::warning(
            Code::BeyondFormula,
            width.id,
            "the water is too deep for the width of its spill, so its depth is only rough",
            "make the spill wider, or take the depth with care",
        ),
    );
    let least = factor(inputs, Factor::SpillLeast);
    let wet = head.here().above(0.0);
    rules.limit(
        "head too low for the formula",
        wet.and(head.here().below(least)),
        Breach::warning(
            Code::BeyondFormula,
            width.id,
            "the water is so shallow that it may cling to the stone: its depth is only rough",
            "make the spill narrower or the flow larger, or take the depth with care",
        ),
    );
}
