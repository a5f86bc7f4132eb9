//! Break-even: what each task saves, and the pace at which it would save nothing.
//!
//! Always true: a task bears its share of what its partner costs once, in proportion to the
//! labor and equipment that it displaces; the pace of break-even, put back, saves nothing to
//! the cent.

use super::{parties, tasks, terms};
use crate::graph::prelude::*;
use crate::pricing::cents;
use crate::sources;
use crate::tables::Tasks;
use crate::units::System;

/// What each task saves, and when it would save nothing.
pub const RULES: &[&dyn Rule] = &[&ONCE, &SAVING, &PACE, &SAID];

/// Its share of what the partner costs once.
pub const ONCE: Step<Tasks> = Step::arithmetic("share of what is paid once", System::money, || {
    let of_all =
        tasks::PARTY.of(parties::DISPLACED) + tasks::PARTY.of(parties::EQUIPMENT_DISPLACED);
    let once = tasks::PARTY.of(parties::ONCE);
    let share = cents(once * displaced() / of_all.clone());
    when(of_all.above(0.0), share, 0.0)
});

/// What it saves of direct cost.
pub const SAVING: Step<Tasks> = Step::arithmetic("saving", System::money, || {
    let cost = tasks::LABOR + tasks::EQUIPMENT + tasks::BOUGHT + tasks::MATERIAL;
    cents(gained() - cost)
});

/// What a session costs.
const SESSION: Step<Tasks> = Step::from_job("cost of a session", System::money, || {
    tasks::PARTNER.of(terms::LABOR)
        + tasks::PARTNER.of(terms::EQUIPMENT)
        + tasks::PARTNER.of(terms::BOUGHT)
});

/// What sessions may cost so that nothing is saved: what it displaces less what it costs at
/// any pace.
const LEFT: Step<Tasks> = Step::arithmetic("left for sessions", System::money, || {
    gained() - tasks::WHATEVER_PACE
});

/// Hours of so many sessions.
const HOURS: Step<Tasks> = Step::arithmetic("hours at break-even", System::hours, || {
    let work = tasks::PARTNER.of(terms::WORK_OF_SESSION);
    when(SESSION.above(0.0), LEFT / SESSION * work, 0.0)
});

/// Pace at which it saves nothing; zero where there is none.
///
/// With learning, hours = (work ÷ pace) × sessions at first pace to the power of learning,
/// which is turned over for the pace: in first sessions, the work of the task is its hours
/// over those of a session; the pace follows from (work ÷ pace) to the power of one and the
/// learning.
pub const PACE: Step<Tasks> = Step::new(
    "pace of break-even",
    System::percent,
    &sources::LEARNING,
    || {
        let plain = when(has_pace(), tasks::TO_DO / HOURS, 0.0);
        let work = tasks::PARTNER.of(terms::WORK_OF_SESSION);
        let sessions = when(work.clone().above(0.0), HOURS / work, 0.0);
        let power = tasks::PARTNER.of(terms::LEARNING);
        let many = sessions.clone().above(1.0);
        let turned = sessions.to_the(power.clone() / (1.0 + power)) * plain.clone();
        when(has_pace().and(many), turned, plain)
    },
);

/// What is to be said of that pace. Sessions that cost nothing save at any pace, if the rest
/// costs less than is displaced.
pub const SAID: Wording<Tasks> = Wording::new("what that means", || {
    let costs_nothing = SESSION.same_as(0.0).and(LEFT.above(0.0));
    let no_pace = either(costs_nothing, "saves at any pace", "saves at no pace");
    either(has_pace(), "saves above this pace", no_pace)
});

fn displaced() -> Term<Tasks> {
    tasks::LABOR_DISPLACED + tasks::EQUIPMENT_DISPLACED
}

fn gained() -> Term<Tasks> {
    displaced() - ONCE
}

fn has_pace() -> Condition {
    HOURS.above(0.0).and(tasks::TO_DO.above(0.0))
}
