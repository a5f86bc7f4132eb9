//! Scenarios side by side: cost, bid, hours, days, what is given and what the client pays.
//!
//! Always true: the scenario without partners is the plain bid; what is given is valued
//! beside the cost and is never part of a saving; a unit-price bid is compared before its
//! unit prices are rounded.

use super::chain::Chain;
use super::scenario_cost::DIRECT;
use super::scenario_mark_ups;
use super::scenario_orders::BROUGHT_VALUE;
use crate::graph::prelude::*;
use crate::job::tables::JobKeys;
use crate::labour::{parties, tasks};
use crate::pricing::cents;
use crate::pricing::costs;
use crate::tables::{Compared, Lines, ScenarioMarkUps};
use crate::takeoff::job_wide::HOURS_A_DAY;
use crate::units::System;

/// Scenarios side by side; every figure is of a whole scenario.
pub const RULES: &[&dyn Rule] = &[
    &DIRECT,
    &scenario_mark_ups::NAME,
    &MARK_UPS,
    &BID,
    &SAVING,
    &CREW_HOURS,
    &CREW_HOURS_DISPLACED,
    &PERSON_HOURS_DISPLACED,
    &DONATED,
    &LEAD_HOURS,
    &TRAINING,
    &STAFF_HOURS,
    &WORKING_DAYS,
    &DAYS_MORE,
    &MATCH_SHORT,
    &DIFFERENCE,
];

/// Overhead, profit and all other mark-ups.
pub const MARK_UPS: Step<Compared> = Step::arithmetic("mark-ups", System::money, || {
    cents(ScenarioMarkUps::LUMP - DIRECT)
});

/// The bid, before unit prices are rounded.
pub const BID: Step<Compared> =
    Step::arithmetic("bid", System::money, || ScenarioMarkUps::LUMP.here());

/// The bid with the crew alone, less this one.
pub const SAVING: Step<Compared> =
    Step::arithmetic("saving", System::money, || cents(first(BID) - BID));

/// Hours of crews.
pub const CREW_HOURS: Step<Compared> = Step::arithmetic("crew hours", System::hours, || {
    total::<Compared, Lines>(costs::CREW_HOURS) - CREW_HOURS_DISPLACED
});

/// Hours of crews that are displaced.
pub const CREW_HOURS_DISPLACED: Step<Compared> =
    Step::arithmetic("crew hours displaced", System::hours, || {
        tasks::SCENARIO.sum(tasks::CREW_HOURS)
    });

/// The same, counted by person.
pub const PERSON_HOURS_DISPLACED: Step<Compared> =
    Step::arithmetic("hours displaced by person", System::hours, || {
        tasks::SCENARIO.sum(tasks::PERSON_HOURS)
    });

/// Hours that are given: another figure than those displaced.
pub const DONATED: Step<Compared> = Step::arithmetic("hours given", System::hours, || {
    parties::SCENARIO.sum(parties::DONATED)
});

/// Hours of leads.
pub const LEAD_HOURS: Step<Compared> = Step::arithmetic("hours of leads", System::hours, || {
    parties::SCENARIO.sum(parties::LEAD_HOURS)
});

/// Hours of training.
pub const TRAINING: Step<Compared> = Step::arithmetic("hours of training", System::hours, || {
    parties::SCENARIO.sum(parties::TRAINING)
});

/// Hours of the client's staff.
pub const STAFF_HOURS: Step<Compared> =
    Step::arithmetic("hours of the client's staff", System::hours, || {
        parties::SCENARIO.sum(parties::STAFF_HOURS)
    });

/// Sessions held.
pub const SESSIONS: Step<Compared> = Step::arithmetic("sessions held", System::number, || {
    parties::SCENARIO.sum(parties::HELD)
});

/// Hours of our work, one line after the other.
pub const OUR_HOURS: Step<Compared> = Step::arithmetic("hours of our work", System::hours, || {
    total::<Compared, Lines>(costs::HOURS) - tasks::SCENARIO.sum(tasks::SHORTER)
});

/// Working days, one line after the other, a day for a session.
pub const WORKING_DAYS: Step<Compared> = Step::arithmetic("working days", System::number, || {
    let own = OUR_HOURS.here().number_in(System::hours) / only(HOURS_A_DAY);
    (own + SESSIONS).round_up()
});

/// Working days more than with the crew alone.
pub const DAYS_MORE: Step<Compared> = Step::arithmetic("working days more", System::number, || {
    WORKING_DAYS - first(WORKING_DAYS)
});

/// What the client pays its own staff.
pub const STAFF_PAY: Step<Compared> =
    Step::arithmetic("pay of the client's staff", System::money, || {
        cents(parties::SCENARIO.sum(parties::STAFF_PAY))
    });

/// The bid and the pay of the client's staff.
pub const WHOLE_COST: Step<Compared> =
    Step::arithmetic("client's whole cost", System::money, || {
        cents(ScenarioMarkUps::LUMP + STAFF_PAY)
    });

/// What hours given are worth.
pub const DONATED_VALUE: Step<Compared> =
    Step::arithmetic("value of hours given", System::money, || {
        cents(parties::SCENARIO.sum(parties::DONATED_VALUE))
    });

/// What tools and machines that they bring are worth.
pub const TOOLS_VALUE: Step<Compared> =
    Step::arithmetic("value of tools and machines brought", System::money, || {
        cents(parties::SCENARIO.sum(parties::TOOLS_VALUE))
    });

/// All that is given in kind.
pub const IN_KIND: Step<Compared> = Step::arithmetic("given in kind", System::money, || {
    cents(DONATED_VALUE + BROUGHT_VALUE + TOOLS_VALUE)
});

/// What a grant wants matched: a share of the client's whole cost with what is given.
pub const MATCH_WANTED: Step<Compared> = Step::arithmetic("match wanted", System::money, || {
    let share = only::<Compared, JobKeys>(JobKeys::MatchingShare);
    cents((WHOLE_COST + IN_KIND) * share)
});

/// What is short of that.
pub const MATCH_SHORT: Step<Compared> =
    Step::arithmetic("short of the match", System::money, || {
        cents(highest(MATCH_WANTED - IN_KIND, 0.0))
    });

/// Whether anything differs beside who does the work.
pub const DIFFERENCE: Wording<Compared> = Wording::new("what differs", || {
    let same = "same scope, quality and finish";
    let or_sooner = either(DAYS_MORE.below(0.0), "finishes sooner", same);
    either(DAYS_MORE.above(0.0), "finishes later", or_sooner)
});
