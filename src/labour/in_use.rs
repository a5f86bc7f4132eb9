//! The lines as they are in the scenario in use: hours and cost that are left with the crew,
//! and what goes with the partners' work.
//!
//! Always true: with the crew alone, every line is what it was.

use super::Hands;
use super::gifts::GiftColumns;
use super::parties::PartyColumns;
use super::tasks::TaskColumns;
use crate::graph::prelude::*;
use crate::graph::{Cell, Column, ColumnId, Graph, when};
use crate::job::tables::Partners;
use crate::pricing::cents;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Lines, Parties, Tasks};
use crate::takeoff::basis::Basis;
use crate::units::{H, MONEY, ONE, Unit};

/// What goes with the work of each partner in the scenario in use.
struct Added {
    labor: Column<Partners>,
    equipment: Column<Partners>,
    bought: Column<Partners>,
}

/// What is displaced of each line in the scenario in use, and what more is bought for it.
struct Left {
    crew_hours: Column<Lines>,
    machine_hours: Column<Lines>,
    labor: Column<Lines>,
    equipment: Column<Lines>,
    extra: Column<Lines>,
}

/// Adds the hours and costs of the lines in the scenario in use. `lines` are as the crew
/// does all of them.
pub(super) fn in_use(
    graph: &mut Graph,
    basis: &Basis<'_>,
    hands: &Hands,
    (task, party, gift): (&TaskColumns, &PartyColumns, &GiftColumns),
    lines: &LineColumns,
) -> LineColumns {
    let added = added(graph, hands, party);
    let left = left(graph, hands, task);
    let count = graph.rows(lines.name.id);
    let mut rules = graph.rules::<Lines>();
    let first = count - hands.with_line.len().min(count);
    let mut of_partner = |name: &str, column: ColumnId| -> Column<Lines> {
        let mut cells: Vec<Option<Cell>> = vec![None; first];
        cells.extend(hands.with_line.iter().map(|row| Some(column.at(*row))));
        rules.gathered(name, MONEY, cells)
    };
    let with_labor = of_partner("labor with partners", added.labor.id);
    let with_equipment = of_partner("equipment with partners", added.equipment.id);
    let with_bought = of_partner("bought with partners", added.bought.id);
    let hours = |all: Column<Lines>, less: Column<Lines>| (all - less).round_in(H, 2);
    let crew_hours = rules.from_job("crew hours", H, hours(lines.crew_hours, left.crew_hours));
    let machine_hours = hours(lines.machine_hours, left.machine_hours);
    let machine_hours = rules.from_job("machine hours", H, machine_hours);
    let kept = 1.0 - lines.material.of(gift.in_use);
    let bought = ((lines.bought + left.extra) * kept).round_in(ONE, 3);
    let bought = when(lines.material.found_none(), 0.0, bought);
    let bought = rules.step("bought", ONE, &sources::WASTE, bought);
    let price = lines.material.of(basis.production.material_price);
    let mut cost = |name: &str, amount| rules.from_job(name, MONEY, cents(amount));
    let material_cost = cost("material cost", bought * price);
    let labor_cost = cost("labor cost", lines.labor_cost - left.labor + with_labor);
    let equipment_cost = lines.equipment_cost - left.equipment + with_equipment;
    let equipment_cost = cost("equipment cost", equipment_cost);
    let subcontract_cost = cost("subcontract cost", lines.subcontract_cost + with_bought);
    let direct = material_cost + labor_cost + equipment_cost + subcontract_cost;
    LineColumns {
        crew_hours,
        machine_hours,
        bought,
        material_cost,
        labor_cost,
        equipment_cost,
        subcontract_cost,
        direct: rules.arithmetic("direct cost", MONEY, cents(direct)),
        ..*lines
    }
}

/// What goes with the work of each partner in the scenario in use.
fn added(graph: &mut Graph, hands: &Hands, party: &PartyColumns) -> Added {
    let mut in_use = |name: &str, amount: Column<Parties>| {
        let used = hands.party.in_use.here().above(0.0);
        let mut rules = graph.rules::<Parties>();
        let amount = when(used, amount, 0.0);
        let amount = rules.arithmetic(&format!("{name} in use"), MONEY, amount);
        let mut rules = graph.rules::<Partners>();
        let sum = cents(hands.party.partner.sum(amount));
        rules.arithmetic(&format!("{name} in this bid"), MONEY, sum)
    };
    Added {
        labor: in_use("labor added", party.labor),
        equipment: in_use("equipment added", party.equipment),
        bought: in_use("paid and bought", party.bought),
    }
}

/// What is displaced of each line in the scenario in use.
fn left(graph: &mut Graph, hands: &Hands, task: &TaskColumns) -> Left {
    let mut in_use = |name: &str, unit: Unit, amount: Column<Tasks>| {
        let mut rules = graph.rules::<Tasks>();
        let used = task.party.of(hands.party.in_use).above(0.0);
        let amount = when(used, amount, 0.0);
        let amount = rules.arithmetic(&format!("{name}, in use"), unit, amount);
        let mut rules = graph.rules::<Lines>();
        rules.arithmetic(&format!("{name} in this bid"), unit, task.line.sum(amount))
    };
    Left {
        crew_hours: in_use("crew hours displaced", H, task.crew_hours),
        machine_hours: in_use("machine hours displaced", H, task.machine_hours),
        labor: in_use("labor displaced", MONEY, task.labor_displaced),
        equipment: in_use("equipment displaced", MONEY, task.equipment_displaced),
        extra: in_use("bought beyond", ONE, task.extra),
    }
}
