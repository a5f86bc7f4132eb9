//! Lift charts: what each machine may lift at each radius of its own chart.

use crate::graph::prelude::*;
use crate::job::tables::{Equipment, LiftChart};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// What the charts give, and the limits that hold them in order: a radius stands once in a
/// chart, and a machine lifts less the further it reaches.
pub(super) const RULES: &[&dyn Rule] = &[
    &RIGGING,
    &MACHINE,
    &RADIUS,
    &BEFORE,
    &OUT_OF_ORDER,
    &CAPACITY,
    &AT_EASE,
    &Limit::<LiftChart>::fault(
        "radius twice in a chart",
        Code::OrderOfRows,
        LiftChart::ChartRadius.at(),
        || RADIUS.same_as(BEFORE),
        "a radius stands twice in this machine's chart",
        "keep one row a radius: the one over the weaker side",
    ),
    &Limit::<LiftChart>::warning(
        "chart that grows with the radius",
        Code::ConflictingValues,
        LiftChart::Capacity.at(),
        || RADIUS.above(BEFORE).and(CAPACITY.above(NEARER)),
        "the chart gives more here than nearer to the machine",
        "check Radius and Capacity against the machine's own chart",
    ),
    &GREATEST,
    &OF_MACHINE,
];

/// Rigging of each machine.
pub(super) const RIGGING: Step<Equipment> =
    Step::new("rigging in use", System::weight, &sources::RIGGING, || {
        Equipment::Rigging.or(Factor::RiggingWeight)
    });

/// The machine of each row.
pub(super) const MACHINE: LookUp<LiftChart, Equipment> =
    LookUp::new("machine row", || LiftChart::ChartMachine.key());

/// Radius of each row.
pub(super) const RADIUS: Step<LiftChart> = Step::from_job("radius in use", System::length, || {
    LiftChart::ChartRadius.here()
});

/// Radius of the row before it in the same chart; zero in the first.
pub(super) const BEFORE: Step<LiftChart> =
    Step::from_job("radius before it", System::length, || {
        RADIUS.row_above(MACHINE, 0.0)
    });

/// 1 where a row has a smaller radius than the one before: zero in every job as read.
pub(super) const OUT_OF_ORDER: Step<LiftChart> =
    Step::from_job("out of order", System::number, || {
        when(RADIUS.below(BEFORE), 1.0, 0.0)
    });

/// What may be lifted there, rigging included: a rated capacity is never derated, a tipping
/// load is, once.
pub(super) const CAPACITY: Step<LiftChart> =
    Step::new("capacity in use", System::weight, &sources::TIPPING, || {
        let derated = LiftChart::Capacity * Factor::TippingShare;
        let tipping = LiftChart::ChartOf.is("tipping load");
        when(tipping, derated, LiftChart::Capacity)
    });

/// What may be lifted there beside the rigging before the lift comes near the chart.
pub(super) const AT_EASE: Step<LiftChart> = Step::new(
    "lifted at ease",
    System::weight,
    &sources::LIFT_NEAR,
    || CAPACITY * Factor::LiftNear - MACHINE.of(RIGGING),
);

/// What may be lifted one radius nearer.
const NEARER: Step<LiftChart> =
    Step::from_job("capacity one radius nearer", System::weight, || {
        CAPACITY.row_above(MACHINE, CAPACITY)
    });

/// What the first row of each chart gives.
const NEAREST: Step<LiftChart> =
    Step::from_job("capacity at the nearest radius", System::weight, || {
        when(BEFORE.same_as(0.0), CAPACITY, 0.0)
    });

/// What a machine lifts at the nearest radius of its chart; zero without a chart.
pub(super) const GREATEST: Step<Equipment> =
    Step::from_job("greatest capacity on its chart", System::weight, || {
        MACHINE.sum(NEAREST)
    });

/// The same, for each row of its chart.
pub(super) const OF_MACHINE: Step<LiftChart> =
    Step::from_job("greatest capacity of its machine", System::weight, || {
        MACHINE.of(GREATEST)
    });
