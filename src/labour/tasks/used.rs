//! What a task uses of its partner's sessions, and what that costs by kind.

use super::Rows;
use super::displaced::Displaced;
use crate::graph::prelude::*;
use crate::graph::{Column, Rules, when};
use crate::job::tables::Partners;
use crate::labour::terms::Terms;
use crate::pricing::cents;
use crate::tables::{Lines, Tasks};
use crate::takeoff::basis::Basis;
use crate::units::{MONEY, ONE};

/// What the sessions of a task cost.
pub(super) struct Used {
    pub(super) sessions: Column<Tasks>,
    pub(super) labor: Column<Tasks>,
    pub(super) equipment: Column<Tasks>,
    pub(super) bought: Column<Tasks>,
    pub(super) extra: Column<Tasks>,
    pub(super) material: Column<Tasks>,
    pub(super) whatever_pace: Column<Tasks>,
}

/// What a task uses of sessions, by kind of cost: each kind is the sum down to it, rounded,
/// less the sum before it.
pub(super) fn used(
    rules: &mut Rules<'_, Tasks>,
    basis: &Basis<'_>,
    (rows, terms): (&Rows, &Terms),
    (bought, price, paid): (Column<Lines>, Column<Lines>, Column<Tasks>),
    (displaced, hours): (&Displaced, Column<Tasks>),
) -> Used {
    let (inputs, partner) = (basis.inputs, rows.partner);
    let session = partner.of(terms.work_of_session);
    let sessions = when(session.clone().above(0.0), hours / session, 0.0);
    let sessions = rules.from_job("sessions", ONE, sessions);
    let rework = displaced.labor * partner.of(inputs.number(Partners::Rework));
    let rework = rules.from_job("done again by the crew", MONEY, rework);
    let extra = partner.of(inputs.number(Partners::ExtraWaste));
    let extra = rows.line.of(bought) * displaced.share * extra;
    let extra = rules.from_job("bought beyond", ONE, extra.round_in(ONE, 3));
    let waste = rules.from_job(
        "extra material at its price",
        MONEY,
        extra * rows.line.of(price) * paid,
    );
    let labor = sessions * partner.of(terms.labor) + rework;
    let with_equipment = labor.clone() + sessions * partner.of(terms.equipment);
    let with_bought = with_equipment.clone() + sessions * partner.of(terms.bought);
    let all = with_bought.clone() + waste;
    let labor = rules.from_job("labor added", MONEY, cents(labor));
    let equipment = rules.from_job("with machines that stand", MONEY, cents(with_equipment));
    let bought = rules.from_job("with what is paid and bought", MONEY, cents(with_bought));
    let all = rules.from_job("cost of the task", MONEY, cents(all));
    let mut part = |name: &str, upto: Column<Tasks>, before: Column<Tasks>| {
        rules.arithmetic(name, MONEY, cents(upto - before))
    };
    let parts = [
        part("equipment added", equipment, labor),
        part("paid and bought", bought, equipment),
        part("extra material", all, bought),
    ];
    let whatever = rules.arithmetic("cost at any pace", MONEY, rework + waste);
    Used {
        sessions,
        labor,
        equipment: parts[0],
        bought: parts[1],
        extra,
        material: parts[2],
        whatever_pace: whatever,
    }
}
