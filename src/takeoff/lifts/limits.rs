//! Limits of every lift, each told at the cell that a person would change: that of the
//! fall, the structure or the logs that name the machine.

use super::{BY_HAND, CAPACITY, LIFTED, LOAD, MACHINE, RADIUS, SHARE, WEIGHT, charts};
use crate::diagnostic::{Code, Meaning};
use crate::graph::prelude::*;
use crate::graph::{Breach, ColumnId, Graph, Solve};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Lifts;
use crate::units::System;

/// A limit of the lifts that name one column.
struct OfLift {
    name: &'static str,
    code: Code,
    /// What breaks it, beside a lift's being one of them.
    broken: fn(Condition) -> Condition,
    message: &'static str,
    hint: &'static str,
    meaning: Meaning,
}

/// Load and rigging are within the chart, and not near its end; what is lifted by a machine
/// has a chart and a radius on it; what nobody lifts by hand has a machine.
const LIMITS: [OfLift; 6] = [
    OfLift {
        name: "over the chart",
        code: Code::OverChart,
        broken: |own| own.and(CAPACITY.above(0.0)).and(LOAD.above(CAPACITY)),
        message: "the heaviest piece and its rigging are more than the machine's chart gives at this radius",
        hint: "name another machine, bring it nearer, or take smaller stone; see the lift checks for the smallest machine that would do",
        meaning: Meaning::OtherMachine,
    },
    OfLift {
        name: "near the chart",
        code: Code::OverChart,
        broken: |own| {
            let within = own
                .and(CAPACITY.above(0.0))
                .and(LOAD.above(CAPACITY).negate());
            within.and(SHARE.above(Factor::LiftNear))
        },
        message: "the heaviest piece and its rigging come near what the machine's chart gives at this radius",
        hint: "look at the lift on site, or name another machine; see the lift checks for the smallest machine that would do",
        meaning: Meaning::OtherMachine,
    },
    OfLift {
        name: "heavy piece without a machine",
        code: Code::NotOnChart,
        broken: |own| own.and(MACHINE.found_none()).and(LOAD.above(BY_HAND)),
        message: "the heaviest piece is too heavy to be set by hand, and no machine is named",
        hint: "name the machine under Lifted by, and write its radius",
        meaning: Meaning::Plain,
    },
    OfLift {
        name: "machine without a chart",
        code: Code::NotOnChart,
        broken: |own| by_machine(own).and(has_chart().negate()),
        message: "the machine that lifts it has no lift chart, so the lift is not checked",
        hint: "add the machine's own chart to Lift chart, a row a radius",
        meaning: Meaning::Plain,
    },
    OfLift {
        name: "lift without a radius",
        code: Code::NotOnChart,
        broken: |own| by_machine(own).and(has_chart()).and(no_radius()),
        message: "how far the machine reaches is not written, so the lift is not checked",
        hint: "write Radius: from the middle of the machine's turning ring to the stone furthest off",
        meaning: Meaning::Plain,
    },
    OfLift {
        name: "radius beyond the chart",
        code: Code::NotOnChart,
        broken: |own| {
            let known = by_machine(own).and(has_chart()).and(no_radius().negate());
            known.and(CAPACITY.same_as(0.0))
        },
        message: "the radius is beyond the last one of the machine's chart",
        hint: "bring the machine nearer, or name one that reaches further; see the lift checks for the smallest machine that would do",
        meaning: Meaning::OtherMachine,
    },
];

fn by_machine(own: Condition) -> Condition {
    own.and(WEIGHT.above(0.0)).and(MACHINE.found())
}

fn has_chart() -> Condition {
    MACHINE.of(charts::GREATEST).above(0.0)
}

fn no_radius() -> Condition {
    RADIUS.above(0.0).negate()
}

/// Adds the limits of every lift: one set for each column that lifts name, told there.
pub(super) fn limits(graph: &mut Graph) {
    for (number, at) in (0..).zip(named_columns(graph)) {
        let column = graph.column(at);
        let named = format!("{}, {}", graph.table(column.table).name, column.name);
        for limit in &LIMITS {
            let own = KIND.same_as(f64::from(number));
            let breach = Breach::open(limit.code, at, limit.message, limit.hint);
            graph.rules::<Lifts>().limit(
                &format!("{}: {named}", limit.name),
                (limit.broken)(own),
                breach.meaning(limit.meaning),
            );
        }
    }
}

/// Which of the columns that lifts name a lift names, from zero.
const KIND: Step<Lifts> = Step::solved("kind of lift", System::number, &sources::JOB, |graph| {
    let named = named_columns(graph);
    let number = |at: ColumnId| (0..).zip(&named).find(|(_, known)| **known == at);
    let lifted = LIFTED.rows(graph);
    let kinds = lifted
        .iter()
        .map(|lift| number(lift.at).map_or(0.0, |(number, _)| f64::from(number)));
    Solve::fixed(Vec::new(), kinds.collect())
});

/// The columns that lifts name, each once.
fn named_columns(graph: &mut Graph) -> Vec<ColumnId> {
    let mut named = Vec::new();
    for lift in LIFTED.rows(graph).iter() {
        if !named.contains(&lift.at) {
            named.push(lift.at);
        }
    }
    named
}
