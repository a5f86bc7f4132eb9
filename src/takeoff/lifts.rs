//! Lifts: the heaviest pieces against the charts of the machines that set them.
//!
//! Always true: a lift is checked at the next larger radius of the machine's own chart,
//! with the weight of the rigging; what cannot be checked is an open point. A chart is
//! derated only where it gives a tipping load. Nothing here takes the place of a lift plan.

mod charts;
mod steps;

use super::basis::Basis;
use super::book::factor;
use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Cell, Column, ColumnId, Condition, Graph, Link, Piece, Rules, Text, when,
};
use crate::job::tables::Equipment;
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Lifts;
use crate::units::{ONE, PERCENT};
use charts::{Charts, charts};
use steps::steps;

/// One thing that a machine lifts.
#[derive(Clone, Debug)]
pub struct Lifted {
    /// What is lifted.
    pub name: Vec<Piece>,
    /// Its weight: a column in the job's unit for heavy weights.
    pub weight: Cell,
    /// Row of the machine: the cell of a look-up.
    pub machine: Cell,
    /// How far the machine reaches to it: a column in the job's unit of length.
    pub radius: Cell,
    /// The measured column that a person would change.
    pub at: ColumnId,
}

/// Columns of the lifts.
#[derive(Clone, Copy, Debug)]
pub struct LiftColumns {
    /// What is lifted.
    pub name: Text<Lifts>,
    /// Its weight.
    pub weight: Column<Lifts>,
    /// The machine that lifts it; none where none is named.
    pub machine: Link<Lifts, Equipment>,
    /// That machine's name.
    pub machine_name: Text<Lifts>,
    /// How far it reaches.
    pub radius: Column<Lifts>,
    /// The rigging that hangs on its hook too.
    pub rigging: Column<Lifts>,
    /// What hangs on its hook: piece and rigging.
    pub load: Column<Lifts>,
    /// What its chart gives at the next larger radius; zero where it gives nothing.
    pub capacity: Column<Lifts>,
    /// What of that is left beside the rigging.
    pub left: Column<Lifts>,
    /// The load up to which no machine is needed.
    pub by_hand: Column<Lifts>,
    /// How much of the chart load and rigging take.
    pub share: Column<Lifts>,
    /// The smallest machine in the book that would do; empty where none would.
    pub smallest: Text<Lifts>,
}

/// Adds the check of every lift.
pub fn lifts(graph: &mut Graph, basis: &Basis<'_>, lifted: &[Lifted]) -> LiftColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let charts = charts(graph, basis);
    graph.add_table::<Lifts>(lifted.len());
    let mut rules = graph.rules::<Lifts>();
    let names = lifted.iter().map(|lift| lift.name.clone()).collect();
    let name = rules.gathered_words("lift", names);
    rules.labelled_by(name);
    let cells = |of: fn(&Lifted) -> Cell| lifted.iter().map(|lift| Some(of(lift))).collect();
    let weight = rules.gathered("weight", system.weight(), cells(|lift| lift.weight));
    let machine = rules.gathered("machine row", ONE, cells(|lift| lift.machine));
    let radius = rules.gathered("radius", system.length(), cells(|lift| lift.radius));
    let machine: Link<Lifts, Equipment> = Link::new(machine.id);
    let machine_name = machine.words_of(inputs.words(Equipment::Machine));
    let machine_name = rules.word_step("machine", machine_name);
    let loaded = Loaded {
        weight,
        machine,
        radius,
    };
    let (capacity, smallest) = steps(graph, basis, &charts, &loaded);
    let mut rules = graph.rules::<Lifts>();
    let unit = system.piece_weight();
    let rigging = machine.of(charts.rigging);
    let rigging = rules.step("rigging on the hook", unit, &sources::RIGGING, rigging);
    let load = rules.step(
        "load on the hook",
        unit,
        &sources::LIFT_CHART,
        weight + rigging,
    );
    let by_hand = factor(inputs, Factor::SetByHand);
    let by_hand = rules.step("set by hand up to", unit, &sources::SET_BY_HAND, by_hand);
    let on_chart = || capacity.here().above(0.0);
    let left = when(on_chart(), capacity - rigging, 0.0);
    let left = rules.step("left for the load", unit, &sources::LIFT_CHART, left);
    let share = when(on_chart(), load / capacity, 0.0);
    let share = rules.step("share of the chart", PERCENT, &sources::LIFT_CHART, share);
    let smallest = smallest.words_of(inputs.words(Equipment::Machine));
    let smallest = rules.word_step("smallest machine that would do", smallest);
    let columns = LiftColumns {
        name,
        weight,
        machine,
        machine_name,
        radius,
        rigging,
        load,
        capacity,
        left,
        by_hand,
        share,
        smallest,
    };
    limits(graph, inputs, lifted, (&columns, &charts));
    columns
}

/// What is lifted, by which machine, how far out.
#[derive(Clone, Copy)]
struct Loaded {
    weight: Column<Lifts>,
    machine: Link<Lifts, Equipment>,
    radius: Column<Lifts>,
}

/// Lifts whose findings name one column: that column, and the number that marks them.
struct Marked {
    at: ColumnId,
    number: f64,
    named: String,
}

/// The columns that lifts name, each once.
fn marked(graph: &Graph, lifted: &[Lifted]) -> Vec<Marked> {
    let mut all: Vec<Marked> = Vec::new();
    for at in lifted.iter().map(|lift| lift.at) {
        if all.iter().all(|known| known.at != at) {
            let column = graph.column(at);
            let table = graph.table(column.table).name;
            let number = f64::from(u32::try_from(all.len()).unwrap_or(u32::MAX));
            let named = format!("{table}, {}", column.name);
            all.push(Marked { at, number, named });
        }
    }
    all
}

/// Limits of every lift, at the cell that a person would change: one set for each column
/// that lifts name.
fn limits(
    graph: &mut Graph,
    inputs: &AllInputs,
    lifted: &[Lifted],
    (lifts, charts): (&LiftColumns, &Charts),
) {
    let marked = marked(graph, lifted);
    let number_of = |at: ColumnId| {
        let found = marked.iter().find(|known| known.at == at);
        found.map_or(0.0, |known| known.number)
    };
    let numbers = lifted.iter().map(|lift| number_of(lift.at)).collect();
    let mut rules = graph.rules::<Lifts>();
    let kind = rules.given("kind of lift", ONE, &sources::JOB, numbers);
    for mark in &marked {
        let own = || kind.here().same_as(mark.number);
        over_chart(&mut rules, inputs, lifts, (mark, &own));
        not_on_chart(&mut rules, (lifts, charts), (mark, &own));
    }
}

/// Which lifts a limit is for.
type Own<'m> = (&'m Marked, &'m dyn Fn() -> Condition);

/// Limits: load and rigging are within the chart, and not near its end.
fn over_chart(
    rules: &mut Rules<'_, Lifts>,
    inputs: &AllInputs,
    lifts: &LiftColumns,
    (mark, own): Own<'_>,
) {
    let charted = || own().and(lifts.capacity.here().above(0.0));
    let over = || lifts.load.here().above(lifts.capacity);
    let open = |message, hint| {
        Breach::open(Code::OverChart, mark.at, message, hint).meaning(Meaning::OtherMachine)
    };
    rules.limit(
        &format!("over the chart: {}", mark.named),
        charted().and(over()),
        open(
            "the heaviest piece and its rigging are more than the machine's chart gives at this radius",
            "name another machine, bring it nearer, or take smaller stone; see the lift checks for the smallest machine that would do",
        ),
    );
    let near = lifts.share.here().above(factor(inputs, Factor::LiftNear));
    rules.limit(
        &format!("near the chart: {}", mark.named),
        charted().and(over().negate()).and(near),
        open(
            "the heaviest piece and its rigging come near what the machine's chart gives at this radius",
            "look at the lift on site, or name another machine; see the lift checks for the smallest machine that would do",
        ),
    );
}

/// Limits: what is lifted by a machine has a chart and a radius on it; what nobody lifts
/// by hand has a machine.
fn not_on_chart(
    rules: &mut Rules<'_, Lifts>,
    (lifts, charts): (&LiftColumns, &Charts),
    (mark, own): Own<'_>,
) {
    let machine = lifts.machine;
    let lifted = || {
        let heavy = own().and(lifts.weight.here().above(0.0));
        heavy.and(machine.found_none().negate())
    };
    let has_chart = || machine.of(charts.greatest).above(0.0);
    let no_radius = || lifts.radius.here().above(0.0).negate();
    let open = |message, hint| Breach::open(Code::NotOnChart, mark.at, message, hint);
    let mut limit = |name: &str, broken: Condition, breach: Breach| {
        rules.limit(&format!("{name}: {}", mark.named), broken, breach);
    };
    limit(
        "heavy piece without a machine",
        own()
            .and(machine.found_none())
            .and(lifts.load.here().above(lifts.by_hand)),
        open(
            "the heaviest piece is too heavy to be set by hand, and no machine is named",
            "name the machine under Lifted by, and write its radius",
        ),
    );
    limit(
        "machine without a chart",
        lifted().and(has_chart().negate()),
        open(
            "the machine that lifts it has no lift chart, so the lift is not checked",
            "add the machine's own chart to Lift chart, a row a radius",
        ),
    );
    limit(
        "lift without a radius",
        lifted().and(has_chart()).and(no_radius()),
        open(
            "how far the machine reaches is not written, so the lift is not checked",
            "write Radius: from the middle of the machine's turning ring to the stone furthest off",
        ),
    );
    limit(
        "radius beyond the chart",
        lifted()
            .and(has_chart())
            .and(no_radius().negate())
            .and(lifts.capacity.here().same_as(0.0)),
        open(
        "the radius is beyond the last one of the machine's chart",
        "bring the machine nearer, or name one that reaches further; see the lift checks for the smallest machine that would do",
        )
        .meaning(Meaning::OtherMachine),
    );
}
