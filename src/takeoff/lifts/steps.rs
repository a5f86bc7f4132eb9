//! Each lift against each row of the charts: what its own machine gives at the radius
//! that applies, and the smallest machine of the book that would do.

use super::Loaded;
use super::charts::Charts;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Rules, Solve, Term, when};
use crate::job::tables::{Equipment, LiftChart};
use crate::sources;
use crate::tables::{LiftSteps, Lifts};
use crate::takeoff::basis::Basis;
use crate::units::{ONE, System};

/// Which lift and which row of the charts a step is about.
#[derive(Clone, Copy)]
struct About {
    lift: Link<LiftSteps, Lifts>,
    chart: Link<LiftSteps, LiftChart>,
}

/// Adds the steps; returns what the chart of a lift's own machine gives at its radius, and
/// the smallest machine that would do: the one that lifts least at its nearest radius.
pub(super) fn steps(
    graph: &mut Graph,
    basis: &Basis<'_>,
    charts: &Charts,
    loaded: &Loaded,
) -> (Column<Lifts>, Link<Lifts, Equipment>) {
    let rows = graph.rows(charts.capacity.id);
    let lifts = graph.rows(loaded.weight.id);
    let about = about(graph, (lifts, rows), charts);
    let mut rules = graph.rules::<LiftSteps>();
    let own = applied(&mut rules, about, charts, loaded);
    let unit = basis.system.piece_weight();
    let of_own = when(own.1.above(0.0), about.chart.of(charts.capacity), 0.0);
    let of_own = rules.step("its chart gives", unit, &sources::LIFT_CHART, of_own);
    let machine = would_do(&mut rules, about, charts, (loaded, own.0), basis.system);
    let ends = (1..=lifts).map(|lift| whole(lift * rows)).collect();
    let mut rules = graph.rules::<Lifts>();
    let capacity = about.lift.sum(of_own);
    let capacity = rules.step(
        "capacity at the radius",
        unit,
        &sources::LIFT_CHART,
        capacity,
    );
    let last = rules.given("row of its last step", ONE, &sources::JOB, ends);
    let last: Link<Lifts, LiftSteps> = Link::new(last.id);
    let found = when(last.found_none(), 0.0, last.of(machine));
    let found = rules.from_job("row of the smallest machine", ONE, found);
    (capacity, Link::new(found.id))
}

/// A row number as the graph holds it.
fn whole(row: usize) -> f64 {
    f64::from(u32::try_from(row).unwrap_or(u32::MAX))
}

/// Every lift beside every row of the charts. It rests on the order of the charts: an edit
/// that breaks it needs a new run.
fn about(graph: &mut Graph, (lifts, rows): (usize, usize), charts: &Charts) -> About {
    graph.add_table::<LiftSteps>(lifts * rows);
    let mut rules = graph.rules::<LiftSteps>();
    let each_lift = (1..=lifts).flat_map(|lift| std::iter::repeat_n(whole(lift), rows));
    let lift = rules.given("lift row", ONE, &sources::JOB, each_lift.collect());
    let each_row = (0..lifts).flat_map(|_| (1..=rows).map(whole)).collect();
    let from = vec![charts.out_of_order.id];
    let chart = rules.solved(
        "chart row",
        ONE,
        &sources::JOB,
        Solve::fixed(from, each_row),
    );
    About {
        lift: Link::new(lift.id),
        chart: Link::new(chart.id),
    }
}

/// 1 where a row of a chart is the next larger radius for a lift, and the same for the
/// lift's own machine alone. None applies where the radius is not known.
fn applied(
    rules: &mut Rules<'_, LiftSteps>,
    about: About,
    charts: &Charts,
    loaded: &Loaded,
) -> (Column<LiftSteps>, Term<LiftSteps>) {
    let radius = || about.lift.of(loaded.radius);
    let reaches = about.chart.of(charts.radius).at_least(radius());
    let is_next = about.chart.of(charts.before).below(radius());
    let applies = radius().above(0.0).and(reaches).and(is_next);
    let applies = when(applies, 1.0, 0.0);
    let applies = rules.step("next larger radius", ONE, &sources::LIFT_CHART, applies);
    let whose = about.chart.of(Column::new(charts.machine.id));
    let own = whose.same_as(about.lift.of(Column::new(loaded.machine.id)));
    (applies, when(own, applies, 0.0))
}

/// The machine that would do and lifts least, among the steps of a lift so far; zero as
/// long as none would do.
fn would_do(
    rules: &mut Rules<'_, LiftSteps>,
    about: About,
    charts: &Charts,
    (loaded, applies): (&Loaded, Column<LiftSteps>),
    system: System,
) -> Column<LiftSteps> {
    let (lift, chart, unit) = (about.lift, about.chart, system.weight());
    let machine = Column::<LiftChart>::new(charts.machine.id);
    let at_ease = chart.of(charts.at_ease).at_least(lift.of(loaded.weight));
    let does = applies.here().above(0.0).and(at_ease);
    let greatest = when(does, chart.of(charts.of_machine), 0.0);
    let greatest = rules.step(
        "machine that would do lifts",
        unit,
        &sources::LIFT_NEAR,
        greatest,
    );
    let smaller = |so_far: Term<LiftSteps>| {
        let first = so_far.clone().same_as(0.0);
        let less = first.or(greatest.here().below(so_far));
        greatest.here().above(0.0).and(less)
    };
    let least = rules.running("least that would do", unit, &sources::LIFT_NEAR, |own| {
        let so_far = own.row_above(lift, 0.0);
        when(smaller(so_far.clone()), greatest, so_far)
    });
    let better = smaller(least.row_above(lift, 0.0));
    rules.running("machine that would do", ONE, &sources::LIFT_NEAR, |own| {
        when(better.clone(), chart.of(machine), own.row_above(lift, 0.0))
    })
}
