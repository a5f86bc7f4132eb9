//! Lifts: the heaviest pieces against the charts of the machines that set them.
//!
//! Always true: a lift is checked at the next larger radius of the machine's own chart,
//! with the weight of the rigging; what cannot be checked is an open point. A chart is
//! derated only where it gives a tipping load. Nothing here takes the place of a lift plan.

mod charts;
mod limits;
mod steps;

use super::lifted::Lifted;
use super::{falls, structures, timber};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::Equipment;
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Lifts;
use crate::units::System;

/// Everything that a machine lifts, in building order.
pub const LIFTED: Roster<Lifts, Lifted> = Roster::new(|graph| {
    [
        falls::lifted(graph),
        structures::lifted(graph),
        timber::lifted(graph),
    ]
    .concat()
});

/// The check of every lift.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &WEIGHT,
    &MACHINE,
    &RADIUS,
    &MACHINE_NAME,
    &CAPACITY,
    &RIGGING,
    &LOAD,
    &BY_HAND,
    &LEFT,
    &SHARE,
    &SMALLEST,
];

/// Adds the check of every lift and its limits.
pub fn lifts(graph: &mut Graph) {
    graph.make_list(charts::RULES);
    graph.make_list(RULES);
    limits::limits(graph);
}

/// What is lifted.
pub const NAME: Wording<Lifts> = Wording::gathered("lift", |graph| {
    LIFTED.words(graph, |lift| lift.name.clone())
})
.naming_rows();

/// Its weight.
pub const WEIGHT: Step<Lifts> = Step::gathered("weight", System::weight, |graph| {
    LIFTED.cells(graph, |lift| Some(lift.weight))
});

/// The machine that lifts it; none where none is named.
pub const MACHINE: LookUp<Lifts, Equipment> = LookUp::gathered("machine row", |graph| {
    LIFTED.cells(graph, |lift| Some(lift.machine))
});

/// How far it reaches.
pub const RADIUS: Step<Lifts> = Step::gathered("radius", System::length, |graph| {
    LIFTED.cells(graph, |lift| Some(lift.radius))
});

/// That machine's name.
pub const MACHINE_NAME: Wording<Lifts> =
    Wording::new("machine", || MACHINE.words_of(Equipment::Machine));

/// What its chart gives at the next larger radius; zero where it gives nothing.
pub const CAPACITY: Step<Lifts> = Step::new(
    "capacity at the radius",
    System::piece_weight,
    &sources::LIFT_CHART,
    || steps::LIFT.sum(steps::OF_OWN),
);

/// The rigging that hangs on its hook too.
pub const RIGGING: Step<Lifts> = Step::new(
    "rigging on the hook",
    System::piece_weight,
    &sources::RIGGING,
    || MACHINE.of(charts::RIGGING),
);

/// What hangs on its hook: piece and rigging.
pub const LOAD: Step<Lifts> = Step::new(
    "load on the hook",
    System::piece_weight,
    &sources::LIFT_CHART,
    || WEIGHT + RIGGING,
);

/// The load up to which no machine is needed.
pub const BY_HAND: Step<Lifts> = Step::new(
    "set by hand up to",
    System::piece_weight,
    &sources::SET_BY_HAND,
    || Factor::SetByHand.into(),
);

/// What the chart leaves beside the rigging.
pub const LEFT: Step<Lifts> = Step::new(
    "left for the load",
    System::piece_weight,
    &sources::LIFT_CHART,
    || when(CAPACITY.above(0.0), CAPACITY - RIGGING, 0.0),
);

/// How much of the chart load and rigging take.
pub const SHARE: Step<Lifts> = Step::new(
    "share of the chart",
    System::percent,
    &sources::LIFT_CHART,
    || when(CAPACITY.above(0.0), LOAD / CAPACITY, 0.0),
);

/// The smallest machine in the book that would do; empty where none would.
pub const SMALLEST: Wording<Lifts> = Wording::new("smallest machine that would do", || {
    steps::SMALLEST_ROW.words_of(Equipment::Machine)
});
