//! What a line takes and costs: the quantity used, material bought, hours, four kinds of cost.

use super::cents;
use super::lines::Parts;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, Term, Text, when};
use crate::job::tables::{Materials, ProductionRates as Works, SetQuantities};
use crate::sources;
use crate::tables::{Lines, UnitBook};
use crate::takeoff::book;
use crate::takeoff::production::Production;
use crate::units::{H, MONEY, ONE};

/// The quantity used, to the thousandth: as taken off, or set by hand with a reason.
///
/// Limit: what is set by hand names a line that is there.
pub(super) fn quantity(
    graph: &mut Graph,
    parts: &Parts<'_>,
    name: Text<Lines>,
    taken_off: Column<Lines>,
) -> (Column<Lines>, Text<Lines>) {
    let inputs = parts.inputs;
    let set_line = inputs.words(SetQuantities::SetLine);
    let mut rules = graph.rules::<SetQuantities>();
    let link: Link<SetQuantities, Lines> = rules.link("line row", set_line);
    rules.limit(
        "line that is not there",
        link.found_none(),
        Breach::fault(
            Code::UnknownReference,
            set_line.id,
            "no line of the take-off has this name",
            "copy the name from the sheet Take-off, such as Dig: Main pool",
        )
        .meaning(Meaning::NoLine),
    );
    let mut rules = graph.rules::<Lines>();
    let set_row: Link<Lines, SetQuantities> = rules.link("set row", name);
    let by_hand = set_row.of(inputs.number(SetQuantities::SetQuantity));
    let in_use = when(set_row.found_none(), taken_off, by_hand);
    let quantity = rules.from_job("quantity", ONE, in_use.round_in(ONE, 3));
    let reason = set_row.words_of(inputs.words(SetQuantities::Reason));
    let reason = rules.word_step("set by hand because", reason);
    (quantity, reason)
}

/// What a line's cost is worked out from.
#[derive(Clone, Copy)]
pub(super) struct Taken {
    pub(super) unit: Text<Lines>,
    pub(super) measured: Column<Lines>,
    pub(super) worked: Column<Lines>,
    pub(super) quantity: Column<Lines>,
    pub(super) waste: Column<Lines>,
    pub(super) material: Link<Lines, Materials>,
    pub(super) work: Link<Lines, Works>,
    pub(super) price: Column<Lines>,
}

/// What a line takes and costs.
pub(super) struct Costs {
    pub(super) unit_shown: Text<Lines>,
    pub(super) bought: Column<Lines>,
    pub(super) crew_hours: Column<Lines>,
    pub(super) machine_hours: Column<Lines>,
    pub(super) material: Column<Lines>,
    pub(super) labor: Column<Lines>,
    pub(super) equipment: Column<Lines>,
    pub(super) subcontract: Column<Lines>,
    pub(super) direct: Column<Lines>,
}

/// Adds what each line takes, and its cost by kind, each rounded to the cent once.
pub(super) fn costs(rules: &mut Rules<'_, Lines>, parts: &Parts<'_>, taken: &Taken) -> Costs {
    let production = parts.production;
    let unit: Link<Lines, UnitBook> = rules.link("unit row", taken.unit);
    let unit_shown = rules.word_step("measured in", unit.words_of(parts.book.shown));
    let size = unit.of(parts.book.size);
    let size = rules.step("unit size", ONE, &sources::UNITS, size);
    let bought = bought(rules, parts, taken, (size, unit.of(parts.book.kind)));
    let to_work = to_work(rules, taken, (size, unit.of(parts.book.kind)), production);
    let called = |name: &str| format!("{name}{}", parts.by_whom);
    let mut hours = |name: &str, output: Column<Works>| {
        let hours = hours(taken.work, to_work, output);
        rules.step(&called(name), H, &sources::MAN_HOURS, hours)
    };
    let crew_hours = hours("crew hours", production.crew_output);
    let machine_hours = hours("machine hours", production.machine_output);
    let mut cost =
        |name: &str, amount: Term<Lines>| rules.from_job(&called(name), MONEY, cents(amount));
    let (bought_at, work) = (taken.material.of(production.material_price), taken.work);
    let material = cost("material cost", bought * bought_at);
    let labor = crew_hours * work.of(production.work_crew_rate);
    let labor = cost("labor cost", labor);
    let equipment = machine_hours * work.of(production.work_machine_rate);
    let equipment = cost("equipment cost", equipment);
    let subcontract = cost("subcontract cost", taken.quantity * taken.price);
    let direct = cents(material + labor + equipment + subcontract);
    Costs {
        unit_shown,
        bought,
        crew_hours,
        machine_hours,
        material,
        labor,
        equipment,
        subcontract,
        direct: rules.arithmetic(&called("direct cost"), MONEY, direct),
    }
}

/// What is bought, in the unit the material is sold in: quantity × (1 + waste).
///
/// A volume of a material sold by weight is weighed. Zero without a material.
fn bought(
    rules: &mut Rules<'_, Lines>,
    parts: &Parts<'_>,
    taken: &Taken,
    (size, kind): (Column<Lines>, Term<Lines>),
) -> Column<Lines> {
    let (production, material) = (parts.production, taken.material);
    let volume = kind.clone().same_as(book::VOLUME);
    let volume = volume.or(kind.same_as(book::LOOSE));
    let sold_by = material.of(production.material_kind);
    let by_weight = volume.and(sold_by.same_as(book::WEIGHT));
    let weighed = when(by_weight, material.of(production.material_weight), 1.0);
    let sold_in = material.of(production.material_size);
    let needed = taken.quantity * size * weighed / sold_in * (1.0 + taken.waste);
    let bought = when(material.found_none(), 0.0, needed.round_in(ONE, 3));
    let name = format!("bought{}", parts.by_whom);
    rules.step(&name, ONE, &sources::WASTE, bought)
}

/// What is worked, in the unit of the work: the quantity itself, or what the take-off says
/// is worked for it, in the same proportion where the quantity was set by hand. Zero where
/// the line and its work are counted in different kinds of units.
fn to_work(
    rules: &mut Rules<'_, Lines>,
    taken: &Taken,
    (size, kind): (Column<Lines>, Term<Lines>),
    production: &Production,
) -> Column<Lines> {
    let alike = kind.same_as(taken.work.of(production.work_kind));
    let in_work_units = taken.quantity * size / taken.work.of(production.work_size);
    let in_work_units = when(alike, in_work_units, 0.0);
    let kept = when(
        taken.measured.here().above(0.0),
        taken.quantity / taken.measured,
        0.0,
    );
    let own = taken.worked.here().above(0.0);
    let worked = when(own, taken.worked * kept, in_work_units);
    let worked = when(taken.work.found_none(), 0.0, worked);
    rules.step("to work", ONE, &sources::UNITS, worked)
}

/// Hours of a line: what is worked ÷ output, to the hundredth; zero without a work or an
/// output.
fn hours(work: Link<Lines, Works>, to_work: Column<Lines>, output: Column<Works>) -> Term<Lines> {
    let an_hour = work.of(output);
    let hours = (to_work / an_hour.clone()).round_in(H, 2);
    when(an_hour.above(0.0), hours, 0.0)
}
