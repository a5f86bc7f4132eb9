//! Terms of partners: what a session of each brings and costs, whatever they do in it.
//!
//! Always true: nothing here rests on a scenario. Hours of people are hours of one person.

use crate::graph::prelude::*;
use crate::job::tables::{Crews, Equipment, PARTNER_KINDS, Partners};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::production::{CREW_RATE, MACHINE_RATE};
use crate::units::System;

/// What a session of a partner brings and costs, and what is open about it.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Partners>::fault(
        "briefing as long as the session",
        Code::OutOfRange,
        Partners::Briefing.at(),
        || LEFT.above(0.0).negate(),
        "the briefing takes the whole session, so that nothing is done in it",
        "write a briefing shorter than the session",
    ),
    &LEAD,
    &Limit::<Partners>::open(
        "nobody leads them",
        Code::MissingValue,
        Partners::LeadCrew.at(),
        || LEAD.found_none(),
        "nobody of the crew stands beside them, so their work is led at no cost",
        "name the crew that the lead is one of",
    ),
    &Limit::<Partners>::open(
        "staff without a wage",
        Code::MissingPrice,
        Partners::PartnerWage.at(),
        || is_staff().and(Partners::PartnerWage.blank()),
        "the client's own staff are paid, and their wage is not written",
        "write their wage: paid staff are not free",
    ),
    &IDLE_MACHINE,
    &ON_SITE,
    &CAPACITY,
    &LEARNING,
    &LABOR,
    &STANDBY,
    &EQUIPMENT,
    &BOUGHT,
    &LABOR_ONCE,
    &BOUGHT_ONCE,
    &WAGES,
    &WAGES_ONCE,
    &GIVES_TIME,
];

/// How many are there, taken over all sessions.
pub const PRESENT: Step<Partners> = Step::new(
    "there in a session",
    System::number,
    &sources::ATTENDANCE,
    || Partners::PartnerPeople * Partners::Attendance.or(Factor::Attendance),
);

/// Hours of a session that the briefing leaves.
const LEFT: Step<Partners> = Step::from_job("hours left after briefing", System::number, || {
    Partners::SessionHours - Partners::Briefing.or(0.0)
});

/// Hours of work in a session, of all who are there.
pub const WORK_OF_SESSION: Step<Partners> =
    Step::from_job("hours of work in a session", System::hours, || {
        (PRESENT * LEFT).counted_in(System::hours)
    });

/// Hours on site for one of work: what the briefing adds.
pub const ON_SITE: Step<Partners> =
    Step::from_job("hours on site for one of work", System::number, || {
        when(LEFT.above(0.0), Partners::SessionHours / LEFT, 1.0)
    });

/// Hours of work that all their sessions hold.
pub const CAPACITY: Step<Partners> =
    Step::from_job("hours of work in all sessions", System::hours, || {
        WORK_OF_SESSION * Partners::Sessions
    });

/// The power that the work done, counted in first sessions, is raised to for the mean hours
/// of a unit: the doublings of the ratio, zero or less.
pub const LEARNING: Step<Partners> = Step::new(
    "power of learning",
    System::number,
    &sources::LEARNING,
    || Partners::Learning.or(ALL_OF_IT).doublings(),
);

/// All of it, for a percentage that is left blank.
const ALL_OF_IT: f64 = 1.0;

/// The crew that the lead is one of.
pub const LEAD: LookUp<Partners, Crews> =
    LookUp::new("lead row", || Partners::LeadCrew.key()).that_must_find();

/// People in that crew.
pub const LEAD_PEOPLE: Step<Partners> =
    Step::from_job("people in the lead's crew", System::number, || {
        LEAD.of(Crews::People)
    });

/// Cost of an hour of the lead.
const LEAD_RATE: Step<Partners> =
    Step::from_job("cost of an hour of the lead", System::money_an_hour, || {
        let of_crew = LEAD.of(CREW_RATE);
        when(LEAD_PEOPLE.above(0.0), of_crew / LEAD_PEOPLE, 0.0)
    });

/// Hours of the lead in a session.
pub const LEAD_HOURS: Step<Partners> =
    Step::from_job("hours of the lead in a session", System::hours, || {
        let least = Partners::LeadHours.or(Partners::SessionHours);
        let per_head = Partners::LeadPerHead.or(0.0) * PRESENT;
        let hours = when(LEAD.found_none(), 0.0, highest(least, per_head));
        hours.counted_in(System::hours)
    });

/// Hours of set-up for a session.
pub const SET_UP: Step<Partners> =
    Step::from_job("hours of set-up in a session", System::hours, || {
        Partners::SetUp.or(0.0).counted_in(System::hours)
    });

/// Lead and set-up for one session.
pub const LABOR: Step<Partners> =
    Step::from_job("lead and set-up of a session", System::money, || {
        (LEAD_HOURS + SET_UP) * LEAD_RATE
    });

/// What is paid for a session that nobody comes to.
pub const STANDBY: Step<Partners> = Step::from_job("standby for a session", System::money, || {
    let both = (LEAD_HOURS + SET_UP).number_in(System::hours);
    Partners::Standby.or(both).counted_in(System::hours) * LEAD_RATE
});

/// The machine that stands in a session.
const IDLE_MACHINE: LookUp<Partners, Equipment> =
    LookUp::new("idle machine row", || Partners::IdleMachine.key()).that_must_find();

/// What it costs.
pub const EQUIPMENT: Step<Partners> =
    Step::from_job("idle machine in a session", System::money, || {
        let idle = Partners::IdleHours.or(Partners::SessionHours);
        let cost = idle.counted_in(System::hours) * IDLE_MACHINE.of(MACHINE_RATE);
        when(IDLE_MACHINE.found_none(), 0.0, cost)
    });

/// What is paid and bought for a session.
pub const BOUGHT: Step<Partners> =
    Step::from_job("paid and bought for a session", System::money, || {
        let on_site = (PRESENT * Partners::SessionHours).counted_in(System::hours);
        on_site * Partners::Charge.or(0.0) + Partners::Facilities.or(0.0)
    });

/// Hours of the lead for training: it is led as a session is.
pub const TRAINING_LEAD: Step<Partners> =
    Step::from_job("hours of the lead for training", System::hours, || {
        Partners::Training.or(0.0) * (LEAD_HOURS / Partners::SessionHours)
    });

/// Lead for training, once.
pub const LABOR_ONCE: Step<Partners> = Step::from_job("lead for training", System::money, || {
    TRAINING_LEAD * LEAD_RATE
});

/// Hours of training of all of them.
pub const TRAINING: Step<Partners> = Step::from_job("hours of training", System::hours, || {
    (Partners::Training.or(0.0) * PRESENT).counted_in(System::hours)
});

/// Gear for all who signed up, insurance, and training that is paid for where their hours
/// are, once.
pub const BOUGHT_ONCE: Step<Partners> =
    Step::from_job("gear, insurance and paid training", System::money, || {
        let gear = Partners::Gear.or(0.0) * Partners::PartnerPeople;
        gear + Partners::Insurance.or(0.0) + TRAINING * Partners::Charge.or(0.0)
    });

/// What an hour of the client's own staff costs it.
const WAGE: Step<Partners> = Step::from_job("wage with burden", System::money_an_hour, || {
    let hour = Partners::PartnerWage.or(0.0) * (1.0 + Partners::PartnerBurden.or(0.0));
    when(is_staff(), hour, 0.0)
});

/// Hours that they are paid for in a session, with overtime.
const PAID_HOURS: Step<Partners> = Step::new(
    "hours paid for in a session",
    System::hours,
    &sources::OVERTIME,
    || {
        let session = Partners::SessionHours;
        let plain: Term<Partners> = lowest(session, Partners::OvertimeAfter.or(session));
        let more = Partners::OvertimePay.or(Factor::OvertimePay);
        (plain.clone() + (session - plain) * more).counted_in(System::hours)
    },
);

/// What the client pays its own people for a session.
pub const WAGES: Step<Partners> = Step::from_job("wages of a session", System::money, || {
    PRESENT * PAID_HOURS * WAGE
});

/// What the client pays its own people for training.
pub const WAGES_ONCE: Step<Partners> = Step::from_job("wages of training", System::money, || {
    Partners::Training.or(0.0).counted_in(System::hours) * PRESENT * WAGE
});

/// 1 for people who give their time.
pub const GIVES_TIME: Step<Partners> = Step::from_job("give their time", System::number, || {
    when(Partners::PartnerKind.is(PARTNER_KINDS[0]), 1.0, 0.0)
});

/// Whether they are the client's own staff.
fn is_staff() -> Condition {
    Partners::PartnerKind.is(PARTNER_KINDS[1])
}
