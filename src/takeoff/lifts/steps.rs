//! Each lift against each row of the charts: what its own machine gives at the radius
//! that applies, and the smallest machine of the book that would do.

use super::{LIFTED, MACHINE, RADIUS, WEIGHT, charts};
use crate::graph::Solve;
use crate::graph::prelude::*;
use crate::job::tables::{Equipment, LiftChart};
use crate::sources;
use crate::tables::{LiftSteps, Lifts};
use crate::units::System;

/// A lift and a row of the charts.
struct Pair {
    lift: usize,
    chart: usize,
}

/// Every lift beside every row of the charts.
const PAIRS: Roster<LiftSteps, Pair> = Roster::new(|graph| {
    let lifts = LIFTED.rows(graph).len();
    let charts = graph.rows(graph.id(LiftChart::ChartRadius));
    let pairs = |lift| (0..charts).map(move |chart| Pair { lift, chart });
    (0..lifts).flat_map(pairs).collect()
});

/// The lift of each step.
pub(super) const LIFT: LookUp<LiftSteps, Lifts> = LookUp::solved("lift row", |graph| {
    PAIRS.meaning(graph, Vec::new(), |pair| pair.lift)
});

/// The row of the charts of each step. It rests on the order of the charts: an edit that
/// breaks it needs a new run.
const CHART: LookUp<LiftSteps, LiftChart> = LookUp::solved("chart row", |graph| {
    let order = graph.read(charts::OUT_OF_ORDER);
    PAIRS.meaning(graph, vec![order], |pair| pair.chart)
});

/// 1 where a row of a chart is the next larger radius for a lift. None applies where the
/// radius is not known.
const APPLIES: Step<LiftSteps> = Step::new(
    "next larger radius",
    System::number,
    &sources::LIFT_CHART,
    || {
        let radius = || LIFT.of(RADIUS);
        let reaches = CHART.of(charts::RADIUS).at_least(radius());
        let is_next = CHART.of(charts::BEFORE).below(radius());
        when(radius().above(0.0).and(reaches).and(is_next), 1.0, 0.0)
    },
);

/// What the chart of a lift's own machine gives at the radius that applies.
pub(super) const OF_OWN: Step<LiftSteps> = Step::new(
    "its chart gives",
    System::piece_weight,
    &sources::LIFT_CHART,
    || {
        let own = CHART.of(charts::MACHINE).same_as(LIFT.of(MACHINE));
        let applies = when(own, APPLIES, 0.0);
        when(applies.above(0.0), CHART.of(charts::CAPACITY), 0.0)
    },
);

/// How much the machine of a step lifts at its nearest radius, where it would do.
const WOULD_DO: Step<LiftSteps> = Step::new(
    "machine that would do lifts",
    System::weight,
    &sources::LIFT_NEAR,
    || {
        let at_ease = CHART.of(charts::AT_EASE).at_least(LIFT.of(WEIGHT));
        let does = APPLIES.above(0.0).and(at_ease);
        when(does, CHART.of(charts::OF_MACHINE), 0.0)
    },
);

/// Whether the machine of a step would do, and lifts less than the least so far.
fn smaller(so_far: Term<LiftSteps>) -> Condition {
    let first = so_far.clone().same_as(0.0);
    WOULD_DO.above(0.0).and(first.or(WOULD_DO.below(so_far)))
}

/// The least that a machine that would do lifts, among the steps of a lift so far; zero as
/// long as none would do.
const LEAST: Step<LiftSteps> = Step::running(
    "least that would do",
    System::weight,
    &sources::LIFT_NEAR,
    |own| {
        let so_far = own.row_above(LIFT, 0.0);
        when(smaller(so_far.clone()), WOULD_DO, so_far)
    },
);

/// The row of that machine.
const LEAST_MACHINE: Step<LiftSteps> = Step::running(
    "machine that would do",
    System::number,
    &sources::LIFT_NEAR,
    |own| {
        let better = smaller(LEAST.row_above(LIFT, 0.0));
        when(better, CHART.of(charts::MACHINE), own.row_above(LIFT, 0.0))
    },
);

/// The last step of each lift.
const LAST: LookUp<Lifts, LiftSteps> = LookUp::solved("row of its last step", |graph| {
    let charts = graph.rows(graph.id(LiftChart::ChartRadius));
    let ends = (1..=LIFTED.rows(graph).len()).map(|lift| u32::try_from(lift * charts));
    let last = ends.map(|end| f64::from(end.unwrap_or(u32::MAX)));
    Solve::fixed(Vec::new(), last.collect())
});

/// The smallest machine that would do, the one that lifts least at its nearest radius;
/// none where none would.
pub(super) const SMALLEST_ROW: LookUp<Lifts, Equipment> =
    LookUp::by_number("row of the smallest machine", &sources::JOB, || {
        when(LAST.found_none(), 0.0, LAST.of(LEAST_MACHINE))
    });
