//! What a line takes and costs: the quantity used, material bought, hours, four kinds of cost.

use super::cents;
use super::lines::{Lines, Parts};
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Link, Rules, Text, when};
use crate::job::tables::{Materials, ProductionRates as Works, SetQuantities};
use crate::sources;
use crate::takeoff::book::{self, UnitBook};
use crate::units::{H, MONEY, ONE};

/// The quantity used: as taken off, or set by hand with a reason.
pub(super) fn quantity(
    graph: &mut Graph,
    parts: &Parts<'_>,
    name: Text<Lines>,
    taken_off: Column<Lines>,
) -> (Column<Lines>, Text<Lines>) {
    let set = &parts.inputs.set;
    let line = set.words(SetQuantities::SetLine);
    let mut rules = graph.rules::<SetQuantities>();
    let link: Link<SetQuantities, Lines> = rules.link("line row", line);
    rules.limit(
        "line that is not there",
        link.found_none(),
        Breach::fault(
            Code::UnknownReference,
            line.id,
            "no line of the take-off has this name",
            "copy the name from the sheet Take-off, such as Dig: Main pool",
        ),
    );
    let mut rules = graph.rules::<Lines>();
    let set_row: Link<Lines, SetQuantities> = rules.link("set row", name);
    let in_use = when(
        set_row.found_none(),
        taken_off,
        set_row.of(set.number(SetQuantities::SetQuantity)),
    );
    let quantity = rules.step("quantity", ONE, &sources::JOB, in_use.round_in(ONE, 3));
    let reason = rules.word_step(
        "set by hand because",
        set_row.words_of(set.words(SetQuantities::Reason)),
    );
    (quantity, reason)
}

/// What a line's cost is worked out from.
#[derive(Clone, Copy)]
pub(super) struct Taken {
    pub(super) unit: Text<Lines>,
    pub(super) quantity: Column<Lines>,
    pub(super) waste: Column<Lines>,
    pub(super) material: Link<Lines, Materials>,
    pub(super) work: Link<Lines, Works>,
    pub(super) price: Column<Lines>,
}

/// What a line takes and costs.
pub(super) struct Costs {
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
    let (quantity, material, work) = (taken.quantity, taken.material, taken.work);
    let unit: Link<Lines, UnitBook> = rules.link("unit row", taken.unit);
    let size = rules.step("unit size", ONE, &sources::UNITS, unit.of(parts.book.size));
    let kind = unit.of(parts.book.kind);
    let volume = kind
        .clone()
        .same_as(book::VOLUME)
        .or(kind.same_as(book::LOOSE));
    let by_weight = volume.and(material.of(production.material_kind).same_as(book::WEIGHT));
    let weighed = when(by_weight, material.of(production.material_weight), 1.0);
    let needed =
        quantity * size * weighed / material.of(production.material_size) * (1.0 + taken.waste);
    let bought = rules.step(
        "bought",
        ONE,
        &sources::WASTE,
        when(material.found_none(), 0.0, needed.round_in(ONE, 3)),
    );
    let hours = |rate: Column<Works>| {
        let rate = work.of(rate);
        let output = rate.clone() * work.of(production.work_size);
        when(
            work.found_none(),
            0.0,
            when(
                rate.above(0.0),
                (quantity * size / output).round_in(H, 2),
                0.0,
            ),
        )
    };
    let crew_hours = rules.step(
        "crew hours",
        H,
        &sources::MAN_HOURS,
        hours(production.crew_output),
    );
    let machine_hours = rules.step(
        "machine hours",
        H,
        &sources::MAN_HOURS,
        hours(production.machine_output),
    );
    let cost = cents::<Lines>;
    let material_cost = rules.step(
        "material cost",
        MONEY,
        &sources::JOB,
        cost(bought * material.of(production.material_price)),
    );
    let labor = rules.step(
        "labor cost",
        MONEY,
        &sources::JOB,
        cost(crew_hours * work.of(production.work_crew_rate)),
    );
    let equipment = rules.step(
        "equipment cost",
        MONEY,
        &sources::JOB,
        cost(machine_hours * work.of(production.work_machine_rate)),
    );
    let subcontract = rules.step(
        "subcontract cost",
        MONEY,
        &sources::JOB,
        cost(quantity * taken.price),
    );
    let direct = cost(material_cost + labor + equipment + subcontract);
    let direct = rules.step("direct cost", MONEY, &sources::ARITHMETIC, direct);
    Costs {
        bought,
        crew_hours,
        machine_hours,
        material: material_cost,
        labor,
        equipment,
        subcontract,
        direct,
    }
}
