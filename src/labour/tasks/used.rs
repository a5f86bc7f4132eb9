//! What a task uses of its partner's sessions, and what that costs by kind.
//!
//! Always true: each kind is the sum down to it, rounded, less the sum before it, so that the
//! kinds add up to the cost of the task.

use super::{LABOR_DISPLACED, LINE, PARTNER, PARTNER_HOURS, SHARE};
use crate::graph::prelude::*;
use crate::job::tables::Partners;
use crate::labour::{materials, terms};
use crate::pricing::{cents, costs, lines};
use crate::tables::{Lines, Tasks};
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::{ONE, System};

/// Sessions that its hours use.
pub const SESSIONS: Step<Tasks> = Step::from_job("sessions", System::number, || {
    let session = PARTNER.of(terms::WORK_OF_SESSION);
    when(session.clone().above(0.0), PARTNER_HOURS / session, 0.0)
});

/// Work that the crew does again.
const REWORK: Step<Tasks> = Step::from_job("done again by the crew", System::money, || {
    LABOR_DISPLACED * PARTNER.of(Partners::Rework)
});

/// Material that is bought beyond the line's.
pub const EXTRA: Step<Tasks> = Step::from_job("bought beyond", System::number, || {
    let extra = PARTNER.of(Partners::ExtraWaste);
    (LINE.of(costs::BOUGHT) * SHARE * extra).round_in(ONE, 3)
});

/// Its cost at the price of the material.
const EXTRA_COST: Step<Tasks> =
    Step::from_job("extra material at its price", System::money, || {
        EXTRA * LINE.of(PRICE) * PAID_FOR
    });

/// What the material of a line costs.
const PRICE: Step<Lines> = Step::from_job("price of its material", System::money, || {
    lines::MATERIAL.of(MATERIAL_PRICE)
});

/// The share of the material that nobody brings.
const PAID_FOR: Step<Tasks> = Step::from_job(
    "share of its material that is paid for",
    System::percent,
    || 1.0 - materials::OF_TASK.of(materials::BROUGHT),
);

/// Labor that is added: lead, set-up, work done again.
pub const LABOR: Step<Tasks> = Step::from_job("labor added", System::money, || cents(labor()));

/// With machines that stand.
const WITH_EQUIPMENT: Step<Tasks> =
    Step::from_job("with machines that stand", System::money, || {
        cents(with_equipment())
    });

/// With what is paid and bought.
const WITH_BOUGHT: Step<Tasks> =
    Step::from_job("with what is paid and bought", System::money, || {
        cents(with_bought())
    });

/// All of it.
const COST: Step<Tasks> = Step::from_job("cost of the task", System::money, || {
    cents(with_bought() + EXTRA_COST)
});

/// Equipment that is added.
pub const EQUIPMENT: Step<Tasks> = Step::arithmetic("equipment added", System::money, || {
    cents(WITH_EQUIPMENT - LABOR)
});

/// What is paid and bought.
pub const BOUGHT: Step<Tasks> = Step::arithmetic("paid and bought", System::money, || {
    cents(WITH_BOUGHT - WITH_EQUIPMENT)
});

/// Material that is bought beyond the line's, at its price.
pub const MATERIAL: Step<Tasks> = Step::arithmetic("extra material", System::money, || {
    cents(COST - WITH_BOUGHT)
});

/// Work done again, and extra material, whatever the pace; not rounded.
pub const WHATEVER_PACE: Step<Tasks> =
    Step::arithmetic("cost at any pace", System::money, || REWORK + EXTRA_COST);

fn labor() -> Term<Tasks> {
    SESSIONS * PARTNER.of(terms::LABOR) + REWORK
}

fn with_equipment() -> Term<Tasks> {
    labor() + SESSIONS * PARTNER.of(terms::EQUIPMENT)
}

fn with_bought() -> Term<Tasks> {
    with_equipment() + SESSIONS * PARTNER.of(terms::BOUGHT)
}
