//! Lift charts: what each machine may lift at each radius of its own chart.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, when};
use crate::job::tables::{Equipment, LiftChart};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::ONE;

/// Columns of the charts, and of the machines that have one.
#[derive(Clone, Copy, Debug)]
pub(super) struct Charts {
    /// The machine of each row.
    pub(super) machine: Link<LiftChart, Equipment>,
    /// Radius of each row.
    pub(super) radius: Column<LiftChart>,
    /// Radius of the row before it in the same chart; zero in the first.
    pub(super) before: Column<LiftChart>,
    /// What may be lifted there, rigging included.
    pub(super) capacity: Column<LiftChart>,
    /// What may be lifted there beside the rigging before the lift comes near the chart.
    pub(super) at_ease: Column<LiftChart>,
    /// 1 where a row has a smaller radius than the one before: zero in every job as read.
    pub(super) out_of_order: Column<LiftChart>,
    /// Rigging of each machine.
    pub(super) rigging: Column<Equipment>,
    /// What a machine lifts at the nearest radius of its chart; zero without a chart.
    pub(super) greatest: Column<Equipment>,
    /// The same, for each row of its chart.
    pub(super) of_machine: Column<LiftChart>,
}

/// Adds what the charts give. A rated capacity is never derated; a tipping load is, once.
pub(super) fn charts(graph: &mut Graph, basis: &Basis<'_>) -> Charts {
    let (inputs, weight) = (basis.inputs, basis.system.weight());
    let usual = factor(inputs, Factor::RiggingWeight);
    let rigging = inputs.number(Equipment::Rigging).or(usual);
    let mut rules = graph.rules::<Equipment>();
    let rigging = rules.step("rigging in use", weight, &sources::RIGGING, rigging);
    let mut rules = graph.rules::<LiftChart>();
    let machine = rules.link("machine row", inputs.words(LiftChart::ChartMachine));
    let radius = inputs.number(LiftChart::ChartRadius);
    let radius = rules.from_job("radius in use", basis.system.length(), radius);
    let before = radius.row_above(machine, 0.0);
    let before = rules.from_job("radius before it", basis.system.length(), before);
    let out_of_order = when(radius.here().below(before), 1.0, 0.0);
    let out_of_order = rules.from_job("out of order", ONE, out_of_order);
    let given = inputs.number(LiftChart::Capacity);
    let tipping = inputs.words(LiftChart::ChartOf).is("tipping load");
    let derated = given * factor(inputs, Factor::TippingShare);
    let capacity = when(tipping, derated, given);
    let capacity = rules.step("capacity in use", weight, &sources::TIPPING, capacity);
    let at_ease = capacity * factor(inputs, Factor::LiftNear) - machine.of(rigging);
    let at_ease = rules.step("lifted at ease", weight, &sources::LIFT_NEAR, at_ease);
    let nearest = when(before.here().same_as(0.0), capacity, 0.0);
    let nearest = rules.from_job("capacity at the nearest radius", weight, nearest);
    limits(&mut rules, basis, machine, (radius, before, capacity));
    let greatest = machine.sum(nearest);
    let mut rules = graph.rules::<Equipment>();
    let greatest = rules.from_job("greatest capacity on its chart", weight, greatest);
    let of_machine = machine.of(greatest);
    let mut rules = graph.rules::<LiftChart>();
    let of_machine = rules.from_job("greatest capacity of its machine", weight, of_machine);
    Charts {
        machine,
        radius,
        before,
        capacity,
        at_ease,
        out_of_order,
        rigging,
        greatest,
        of_machine,
    }
}

/// Limits: a radius stands once in a chart, and a machine lifts less the further it reaches.
fn limits(
    rules: &mut Rules<'_, LiftChart>,
    basis: &Basis<'_>,
    machine: Link<LiftChart, Equipment>,
    (radius, before, capacity): (Column<LiftChart>, Column<LiftChart>, Column<LiftChart>),
) {
    let (inputs, weight) = (basis.inputs, basis.system.weight());
    let at = inputs.number(LiftChart::ChartRadius).id;
    rules.limit(
        "radius twice in a chart",
        radius.here().same_as(before),
        Breach::fault(
            Code::OrderOfRows,
            at,
            "a radius stands twice in this machine's chart",
            "keep one row a radius: the one over the weaker side",
        ),
    );
    let at = inputs.number(LiftChart::Capacity).id;
    let nearer = capacity.row_above(machine, capacity);
    let nearer = rules.from_job("capacity one radius nearer", weight, nearer);
    let further = radius.here().above(before);
    rules.limit(
        "chart that grows with the radius",
        further.and(capacity.here().above(nearer)),
        Breach::warning(
            Code::ConflictingValues,
            at,
            "the chart gives more here than nearer to the machine",
            "check Radius and Capacity against the machine's own chart",
        ),
    );
}
