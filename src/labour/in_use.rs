//! The lines as they are in the scenario in use: hours and cost that are left with the crew,
//! and what goes with the partners' work.
//!
//! Always true: with the crew alone, every line is what it was.

use super::tasks::partners_at_work;
use super::{gifts, parties, tasks};
use crate::graph::prelude::*;
use crate::graph::{Cell, Graph};
use crate::job::tables::Partners;
use crate::pricing::lines::{MATERIAL, NAME};
use crate::pricing::{cents, costs};
use crate::sources;
use crate::tables::{Lines, Parties, Tasks};
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::{H, ONE, System};

/// The lines with what changes in the scenario in use.
pub const RULES: &[&dyn Rule] = &[
    &CREW_HOURS,
    &MACHINE_HOURS,
    &BOUGHT,
    &MATERIAL_COST,
    &LABOR_COST,
    &EQUIPMENT_COST,
    &SUBCONTRACT_COST,
    &DIRECT_COST,
];

/// Hours of the crew.
pub const CREW_HOURS: Step<Lines> = Step::from_job("crew hours", System::hours, || {
    (costs::CREW_HOURS - CREW_HOURS_DISPLACED).round_in(H, 2)
});

/// Hours of the machine.
pub const MACHINE_HOURS: Step<Lines> = Step::from_job("machine hours", System::hours, || {
    (costs::MACHINE_HOURS - MACHINE_HOURS_DISPLACED).round_in(H, 2)
});

/// What is bought, in the material's unit: what partners do not bring.
pub const BOUGHT: Step<Lines> = Step::new("bought", System::number, &sources::WASTE, || {
    let kept = 1.0 - MATERIAL.of(gifts::MATERIAL_IN_USE);
    let bought = (costs::BOUGHT + BOUGHT_BEYOND) * kept;
    when(MATERIAL.found_none(), 0.0, bought.round_in(ONE, 3))
});

/// Cost of material.
pub const MATERIAL_COST: Step<Lines> = Step::from_job("material cost", System::money, || {
    cents(BOUGHT * MATERIAL.of(MATERIAL_PRICE))
});

/// Cost of labor.
pub const LABOR_COST: Step<Lines> = Step::from_job("labor cost", System::money, || {
    cents(costs::LABOR_COST - LABOR_DISPLACED + LABOR_WITH_PARTNERS)
});

/// Cost of equipment.
pub const EQUIPMENT_COST: Step<Lines> = Step::from_job("equipment cost", System::money, || {
    cents(costs::EQUIPMENT_COST - EQUIPMENT_DISPLACED + EQUIPMENT_WITH_PARTNERS)
});

/// Cost of subcontracts.
pub const SUBCONTRACT_COST: Step<Lines> = Step::from_job("subcontract cost", System::money, || {
    cents(costs::SUBCONTRACT_COST + BOUGHT_WITH_PARTNERS)
});

/// Direct cost.
pub const DIRECT_COST: Step<Lines> = Step::arithmetic("direct cost", System::money, || {
    cents(MATERIAL_COST + LABOR_COST + EQUIPMENT_COST + SUBCONTRACT_COST)
});

/// Hours of the crew that are displaced of each line.
const CREW_HOURS_DISPLACED: Step<Lines> =
    Step::arithmetic("crew hours displaced in this bid", System::hours, || {
        tasks::LINE.sum(CREW_HOURS_OF_TASK)
    });

const CREW_HOURS_OF_TASK: Step<Tasks> =
    Step::arithmetic("crew hours displaced, in use", System::hours, || {
        of_task(tasks::CREW_HOURS)
    });

/// Hours of our machine that are displaced of each line.
const MACHINE_HOURS_DISPLACED: Step<Lines> =
    Step::arithmetic("machine hours displaced in this bid", System::hours, || {
        tasks::LINE.sum(MACHINE_HOURS_OF_TASK)
    });

const MACHINE_HOURS_OF_TASK: Step<Tasks> =
    Step::arithmetic("machine hours displaced, in use", System::hours, || {
        of_task(tasks::MACHINE_HOURS)
    });

/// Labor that is displaced of each line.
const LABOR_DISPLACED: Step<Lines> =
    Step::arithmetic("labor displaced in this bid", System::money, || {
        tasks::LINE.sum(LABOR_OF_TASK)
    });

const LABOR_OF_TASK: Step<Tasks> =
    Step::arithmetic("labor displaced, in use", System::money, || {
        of_task(tasks::LABOR_DISPLACED)
    });

/// Equipment that is displaced of each line.
const EQUIPMENT_DISPLACED: Step<Lines> =
    Step::arithmetic("equipment displaced in this bid", System::money, || {
        tasks::LINE.sum(EQUIPMENT_OF_TASK)
    });

const EQUIPMENT_OF_TASK: Step<Tasks> =
    Step::arithmetic("equipment displaced, in use", System::money, || {
        of_task(tasks::EQUIPMENT_DISPLACED)
    });

/// What more is bought for each line.
const BOUGHT_BEYOND: Step<Lines> =
    Step::arithmetic("bought beyond in this bid", System::number, || {
        tasks::LINE.sum(BOUGHT_BEYOND_OF_TASK)
    });

const BOUGHT_BEYOND_OF_TASK: Step<Tasks> =
    Step::arithmetic("bought beyond, in use", System::number, || {
        of_task(tasks::EXTRA)
    });

/// What a task comes to in the scenario in use.
fn of_task(amount: Step<Tasks>) -> Term<Tasks> {
    let used = tasks::PARTY.of(parties::IN_USE).above(0.0);
    when(used, amount, 0.0)
}

/// Labor that goes with the work of each partner.
const LABOR_WITH_PARTNERS: Step<Lines> =
    Step::gathered("labor with partners", System::money, |graph| {
        of_partners(graph, LABOR_OF_PARTNER)
    });

const LABOR_OF_PARTNER: Step<Partners> =
    Step::arithmetic("labor added in this bid", System::money, || {
        cents(parties::PARTNER.sum(LABOR_OF_PARTY))
    });

const LABOR_OF_PARTY: Step<Parties> = Step::arithmetic("labor added in use", System::money, || {
    of_party(parties::LABOR)
});

/// Machines that stand with the work of each partner.
const EQUIPMENT_WITH_PARTNERS: Step<Lines> =
    Step::gathered("equipment with partners", System::money, |graph| {
        of_partners(graph, EQUIPMENT_OF_PARTNER)
    });

const EQUIPMENT_OF_PARTNER: Step<Partners> =
    Step::arithmetic("equipment added in this bid", System::money, || {
        cents(parties::PARTNER.sum(EQUIPMENT_OF_PARTY))
    });

const EQUIPMENT_OF_PARTY: Step<Parties> =
    Step::arithmetic("equipment added in use", System::money, || {
        of_party(parties::EQUIPMENT)
    });

/// What is paid and bought for the work of each partner.
const BOUGHT_WITH_PARTNERS: Step<Lines> =
    Step::gathered("bought with partners", System::money, |graph| {
        of_partners(graph, BOUGHT_OF_PARTNER)
    });

const BOUGHT_OF_PARTNER: Step<Partners> =
    Step::arithmetic("paid and bought in this bid", System::money, || {
        cents(parties::PARTNER.sum(BOUGHT_OF_PARTY))
    });

const BOUGHT_OF_PARTY: Step<Parties> =
    Step::arithmetic("paid and bought in use", System::money, || {
        of_party(parties::BOUGHT)
    });

/// What a party comes to in the scenario in use.
fn of_party(amount: Step<Parties>) -> Term<Parties> {
    when(parties::IN_USE.above(0.0), amount, 0.0)
}

/// A figure of each partner at work on its line: those of partners are the last.
fn of_partners(graph: &mut Graph, of_partner: Step<Partners>) -> Vec<Option<Cell>> {
    let (column, partners) = (graph.read(of_partner), partners_at_work(graph));
    let lines = graph.rows(graph.id(NAME));
    let mut cells = vec![None; lines.saturating_sub(partners.len())];
    cells.extend(partners.into_iter().map(|row| Some(column.at(row))));
    cells
}
