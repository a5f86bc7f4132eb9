//! Parties: one partner in one scenario, with the sessions it takes and what they cost.
//!
//! Always true: sessions cost by the hours that are used of them; what is paid once is paid
//! where the partner works at all; what is given is never part of a cost.

use super::compared::ROW_IN_USE;
use super::sharing::{PARTIES, TASKS};
use super::{tasks, terms};
use crate::graph::prelude::*;
use crate::graph::{Piece, Solve};
use crate::job::tables::{JobKeys, PARTNER_KINDS, Partners, Scenarios, YES_NO};
use crate::pricing::cents;
use crate::sources;
use crate::tables::{Compared, Parties};
use crate::takeoff::bill::fixed;
use crate::takeoff::job_wide::{BY_CALENDAR, HOURS_A_DAY};
use crate::units::System;

/// What each partner gives, takes and costs in each scenario, and what is open about it: the
/// sessions hold the work; minors and values are thought of.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &DECIDE_BY,
    &EQUIPMENT,
    &ONCE,
    &NOBODY_COMES,
    &Limit::<Parties>::fault(
        "hours overdrawn",
        Code::HoursOverdrawn,
        Partners::Sessions.at(),
        || HOURS.above(CAPACITY),
        "this partner is given more work than its sessions hold",
        "give it less, more people or more sessions",
    ),
    &Limit::<Parties>::caution(
        "minors at work",
        Code::LabourLaw,
        Partners::Minors.at(),
        || MINORS.is(YES_NO[0]).and(HOURS.above(0.0)),
        "minors are among them",
        "see what local law lets minors do, for how long and under whose eyes, and ask their guardians and the insurer",
    ),
    &Limit::<Parties>::open(
        "given hours without a value",
        Code::MissingPrice,
        Partners::InKindRate.at(),
        || {
            let wanted = only::<Parties, JobKeys>(JobKeys::MatchingShare).above(0.0);
            DONATED.above(0.0).and(RATE.same_as(0.0)).and(wanted)
        },
        "a match is wanted, and the hours that they give have no value",
        "write the in-kind rate and the rule that it comes from",
    ),
];

/// Its name: scenario and partner.
pub const NAME: Wording<Parties> = Wording::gathered("partner in a scenario", |graph| {
    let (scenarios, partners) = (graph.id(Scenarios::Scenario), graph.id(Partners::Partner));
    PARTIES.words(graph, |party| {
        let scenario = Piece::Cell(scenarios.at(party.scenario));
        let partner = Piece::Cell(partners.at(party.partner));
        vec![scenario, fixed(" / "), partner]
    })
})
.naming_rows();

/// The scenario.
pub const SCENARIO: LookUp<Parties, Compared> = LookUp::solved("scenario row", |graph| {
    PARTIES.meaning(graph, Vec::new(), |party| party.scenario + 1)
});

/// The partner.
pub const PARTNER: LookUp<Parties, Partners> = LookUp::solved("partner row", |graph| {
    PARTIES.meaning(graph, Vec::new(), |party| party.partner)
});

/// 1 where its scenario is in use.
pub const IN_USE: Step<Parties> = Step::from_job("in use", System::number, || {
    when(SCENARIO.number().same_as(only(ROW_IN_USE)), 1.0, 0.0)
});

/// 1 for a party that does not only bring something.
const IS_GIVEN_WORK: Step<Parties> =
    Step::solved("is given work", System::number, &sources::JOB, |graph| {
        let tasks = TASKS.rows(graph);
        let works = PARTIES.numbers(graph, |party| {
            let at_work = tasks.iter().any(|task| task.is_of(*party));
            usize::from(at_work)
        });
        Solve::fixed(Vec::new(), works)
    });

/// 1 where its scenario is in use, and the partner is given work in it.
const AT_WORK: Step<Parties> = Step::from_job("at work", System::number, || IN_USE * IS_GIVEN_WORK);

/// 1 for a partner who works in the scenario in use.
pub const PARTNER_AT_WORK: Step<Partners> =
    Step::from_job("at work in this bid", System::number, || {
        when(PARTNER.sum(AT_WORK).above(0.0), 1.0, 0.0)
    });

/// Labor of the crew that is displaced.
pub const DISPLACED: Step<Parties> = Step::arithmetic("labor displaced", System::money, || {
    tasks::PARTY.sum(tasks::LABOR_DISPLACED)
});

/// Equipment of ours that is displaced.
pub const EQUIPMENT_DISPLACED: Step<Parties> =
    Step::arithmetic("equipment displaced", System::money, || {
        tasks::PARTY.sum(tasks::EQUIPMENT_DISPLACED)
    });

/// Hours of our machines that are displaced.
const MACHINE_HOURS: Step<Parties> =
    Step::arithmetic("machine hours displaced", System::hours, || {
        tasks::PARTY.sum(tasks::MACHINE_HOURS)
    });

/// Hours of work of its people.
pub const HOURS: Step<Parties> = Step::arithmetic("hours of work", System::hours, || {
    tasks::PARTY.sum(tasks::PARTNER_HOURS)
});

/// Labor that its sessions add.
const LABOR_OF_SESSIONS: Step<Parties> =
    Step::arithmetic("labor of sessions", System::money, || {
        tasks::PARTY.sum(tasks::LABOR)
    });

/// Machines that stand in its sessions.
const MACHINES_THAT_STAND: Step<Parties> =
    Step::arithmetic("machines that stand", System::money, || {
        tasks::PARTY.sum(tasks::EQUIPMENT)
    });

/// What is paid and bought for its sessions.
const BOUGHT_FOR_SESSIONS: Step<Parties> =
    Step::arithmetic("paid and bought for sessions", System::money, || {
        tasks::PARTY.sum(tasks::BOUGHT)
    });

/// Material that is laid beyond what the crew would lay.
const EXTRA_MATERIAL: Step<Parties> = Step::arithmetic("extra material", System::money, || {
    tasks::PARTY.sum(tasks::MATERIAL)
});

/// Sessions, as used.
pub const SESSIONS: Step<Parties> = Step::from_job("sessions used", System::number, || {
    let session = PARTNER.of(terms::WORK_OF_SESSION);
    when(session.clone().above(0.0), HOURS / session, 0.0)
});

/// Sessions held: whole ones.
pub const HELD: Step<Parties> = Step::from_job("sessions held", System::number, || {
    SESSIONS.here().round_up()
});

/// Of the hours on site, training.
pub const TRAINING: Step<Parties> =
    Step::from_job("hours of training", System::hours, || once(terms::TRAINING));

/// Hours on site: of work with the briefing, and of training.
pub const ON_SITE: Step<Parties> = Step::from_job("hours on site", System::hours, || {
    HOURS * PARTNER.of(terms::ON_SITE) + TRAINING
});

/// Of those, hours that are given.
pub const DONATED: Step<Parties> = Step::from_job("hours given", System::hours, || {
    when(PARTNER.of(terms::GIVES_TIME).above(0.0), ON_SITE, 0.0)
});

/// What given hours are worth.
pub const DONATED_VALUE: Step<Parties> = Step::new(
    "value of hours given",
    System::money,
    &sources::IN_KIND,
    || cents(DONATED * PARTNER.of(Partners::InKindRate)),
);

/// What kind of partner it is.
const KIND: Wording<Parties> = Wording::new("kind", || PARTNER.words_of(Partners::PartnerKind));

/// Hours that the client pays its own staff for.
pub const STAFF_HOURS: Step<Parties> =
    Step::from_job("hours of the client's staff", System::hours, || {
        when(KIND.is(PARTNER_KINDS[1]), ON_SITE, 0.0)
    });

/// What the client pays its own staff.
pub const STAFF_PAY: Step<Parties> =
    Step::from_job("pay of the client's staff", System::money, || {
        cents(SESSIONS * PARTNER.of(terms::WAGES) + once(terms::WAGES_ONCE))
    });

/// Hours of the lead, training included.
pub const LEAD_HOURS: Step<Parties> = Step::from_job("hours of the lead", System::hours, || {
    SESSIONS * PARTNER.of(terms::LEAD_HOURS) + once(terms::TRAINING_LEAD)
});

/// Fair rent of tools and machines that they bring.
pub const TOOLS_VALUE: Step<Parties> =
    Step::new("value of tools", System::money, &sources::IN_KIND, || {
        let tools = SESSIONS * PARTNER.of(Partners::ToolsValue);
        cents(tools + MACHINE_HOURS * PARTNER.of(Partners::MachineRent))
    });

/// The lead for its training.
const LABOR_ONCE: Step<Parties> = Step::from_job("lead for training", System::money, || {
    cents(once(terms::LABOR_ONCE))
});

/// Its gear and insurance, and training that is paid for.
const BOUGHT_ONCE: Step<Parties> =
    Step::from_job("gear, insurance and paid training", System::money, || {
        cents(once(terms::BOUGHT_ONCE))
    });

/// Labor that is added: lead, set-up, training, work done again.
pub const LABOR: Step<Parties> = Step::arithmetic("labor added", System::money, || {
    cents(LABOR_OF_SESSIONS + LABOR_ONCE)
});

/// Equipment that is added: machines that stand.
pub const EQUIPMENT: Step<Parties> = Step::arithmetic("equipment added", System::money, || {
    cents(MACHINES_THAT_STAND.here())
});

/// What is paid and bought.
pub const BOUGHT: Step<Parties> = Step::arithmetic("paid and bought", System::money, || {
    cents(BOUGHT_FOR_SESSIONS + BOUGHT_ONCE)
});

/// What is paid once, whatever is done.
pub const ONCE: Step<Parties> = Step::arithmetic("paid once", System::money, || {
    cents(LABOR_ONCE + BOUGHT_ONCE)
});

/// What it costs more where nobody of them comes at all: the crew does the work at a
/// premium, and some of what a session costs is lost.
pub const NOBODY_COMES: Step<Parties> =
    Step::from_job("more if nobody comes", System::money, || {
        let premium = 1.0 + PARTNER.of(Partners::MakeGood);
        let spared = LABOR_OF_SESSIONS + MACHINES_THAT_STAND + BOUGHT_FOR_SESSIONS + EXTRA_MATERIAL;
        cents(
            DISPLACED * premium + EQUIPMENT_DISPLACED - spared
                + SESSIONS * PARTNER.of(terms::STANDBY),
        )
    });

/// Hours of our work before its first task, one line after the other.
const HOURS_BEFORE: Step<Parties> =
    Step::gathered("hours of work before it", System::hours, |graph| {
        let (before, tasks) = (graph.read(tasks::HOURS_BEFORE_LINE), TASKS.rows(graph));
        PARTIES.cells(graph, |party| {
            let first = tasks.iter().find(|task| task.is_of(*party));
            first.map(|task| before.at(task.line))
        })
    });

/// Working days from the start of the job to the first of its work.
pub const FIRST_DAY: Step<Parties> =
    Step::from_job("working days before it", System::number, || {
        let day = only(HOURS_A_DAY);
        (HOURS_BEFORE.here().number_in(System::hours) / day).round_down()
    });

/// Last day to decide whether the crew steps in: that day by the calendar, less the notice;
/// zero where no start is written.
pub const DECIDE_BY: Step<Parties> = Step::new(
    "last day to decide",
    System::date,
    &sources::CALENDAR,
    || {
        let start: Term<Parties> = only(JobKeys::StartDate);
        let a_working_day = only(BY_CALENDAR);
        let by_calendar = (FIRST_DAY * a_working_day).round_down();
        let day = start.clone().number_in(System::date) + by_calendar;
        let day = day - PARTNER.of(Partners::Notice);
        when(start.above(0.0), day.counted_in(System::date), 0.0)
    },
);

/// Hours of work that its sessions hold.
const CAPACITY: Step<Parties> =
    Step::from_job("hours that its sessions hold", System::hours, || {
        PARTNER.of(terms::CAPACITY)
    });

/// Whether minors are among them.
const MINORS: Wording<Parties> = Wording::new("minors", || PARTNER.words_of(Partners::Minors));

/// What an hour of theirs is worth.
const RATE: Step<Parties> = Step::from_job("in-kind rate in use", System::money_an_hour, || {
    PARTNER.of(Partners::InKindRate)
});

/// What comes once, where the partner works at all.
fn once(of_partner: Step<Partners>) -> Term<Parties> {
    when(HOURS.above(0.0), PARTNER.of(of_partner), 0.0)
}
