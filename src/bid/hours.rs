//! Hours of each work, crew and machine, and what is open about their rates.

use super::lines;
use crate::graph::prelude::*;
use crate::graph::rule::At;
use crate::job::tables::{Crews, Equipment, Partners, ProductionRates as Works, QuickMeasure};
use crate::labour::with_partners::InUse;
use crate::labour::{parties, terms};
use crate::pricing::{costs, lines as taken};
use crate::sources;
use crate::tables::Parties;
use crate::takeoff::production::{CREW_OF, CREW_OUTPUT, MACHINE_OF, MACHINE_OUTPUT};
use crate::units::System;

/// Hours, and what is open about them: a work that lines use has a crew or a machine, each
/// that is named has an output, and what has hours has a rate that is more than a plug; a
/// machine passes the gate.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Works>::open(
        "work without crew or machine",
        Code::MissingRate,
        Works::CrewOutput.at(),
        || {
            let nobody = CREW_OF.found_none().and(MACHINE_OF.found_none());
            OF_LINES.above(0.0).and(nobody)
        },
        "nobody does this work: it names no crew and no machine",
        "write a crew with its output, or a machine with its output or its cycle",
    ),
    &Limit::<Works>::open(
        "crew without an output",
        Code::MissingRate,
        Works::CrewOutput.at(),
        || {
            let none = CREW_OUTPUT.above(0.0).negate();
            OF_LINES.above(0.0).and(CREW_OF.found()).and(none)
        },
        "a crew is named, and not how much it does in an hour, so it costs nothing",
        "write its Crew output, or leave Crew blank",
    ),
    &Limit::<Works>::open(
        "output without a crew or machine",
        Code::MissingRate,
        Works::CrewOutput.at(),
        || {
            let crewless = CREW_OF.found_none().and(Works::CrewOutput.filled());
            let machineless = MACHINE_OF.found_none().and(Works::MachineOutput.filled());
            OF_LINES.above(0.0).and(crewless.or(machineless))
        },
        "an output is written, and not who or what gives it, so it costs nothing",
        "name the Crew of a Crew output, and the Machine of a Machine output",
    ),
    &Limit::<Works>::open(
        "machine without an output",
        Code::MissingRate,
        Works::MachineOutput.at(),
        || {
            let none = MACHINE_OUTPUT.above(0.0).negate();
            OF_LINES.above(0.0).and(MACHINE_OF.found()).and(none)
        },
        "a machine is named, and neither its output nor its cycle gives one, so it costs nothing",
        "write its Machine output, or what it Carries and its Cycle; or leave Machine blank",
    ),
    &on_a_plug::<Crews>(Crews::Wage.at(), || {
        let plug = Crews::Wage.blank().and(Crews::PlugWage.filled());
        plug.and(OF_CREW.above(0.0))
    }),
    &no_rate::<Crews>(Crews::Wage.at(), || {
        let none = Crews::Wage.blank().and(Crews::PlugWage.blank());
        none.and(OF_CREW.above(0.0))
    }),
    &on_a_plug::<Equipment>(Equipment::Rate.at(), || {
        let plug = Equipment::Rate.blank().and(Equipment::PlugRate.filled());
        plug.and(OF_MACHINE.above(0.0))
    }),
    &no_rate::<Equipment>(Equipment::Rate.at(), || {
        let none = Equipment::Rate.blank().and(Equipment::PlugRate.blank());
        none.and(OF_MACHINE.above(0.0))
    }),
    &Limit::<Equipment>::open(
        "machine wider than the gate",
        Code::GateTooNarrow,
        Equipment::MachineWidth.at(),
        || {
            let gate: Term<Equipment> = only(QuickMeasure::QuickGate);
            let known = Equipment::MachineWidth
                .filled()
                .and(gate.clone().above(0.0));
            let wider = Equipment::MachineWidth.above(gate);
            OF_MACHINE.above(0.0).and(known).and(wider)
        },
        "this machine is wider than the gate",
        "choose a narrower machine, or price another way in",
    ),
];

/// Limit: what has hours has more than a plug rate.
const fn on_a_plug<T>(rate: At, broken: fn() -> Condition) -> Limit<T> {
    Limit::open(
        "rate on a plug",
        Code::MissingPrice,
        rate,
        broken,
        "this rate is a plug",
        "write the rate when it is known; until then the bid is a draft",
    )
    .meaning(Meaning::StandsIn)
}

/// Limit: what has hours has a rate.
const fn no_rate<T>(rate: At, broken: fn() -> Condition) -> Limit<T> {
    Limit::open(
        "no rate",
        Code::MissingPrice,
        rate,
        broken,
        "this has hours and no rate, so it is excluded",
        "write a rate, or a plug rate to stand in",
    )
}

/// Hours of the crew on each work.
pub const OF_CREW_ON_WORK: Step<Works> = Step::new(
    "hours of the crew",
    System::hours,
    &sources::MAN_HOURS,
    || taken::WORK.sum(lines::CREW_HOURS),
);

/// Hours of the machine on each work.
pub const OF_MACHINE_ON_WORK: Step<Works> = Step::new(
    "hours of the machine",
    System::hours,
    &sources::MAN_HOURS,
    || taken::WORK.sum(lines::MACHINE_HOURS),
);

/// What lines come to of each work.
const OF_LINES: Step<Works> = Step::arithmetic("lines of this work", System::number, || {
    taken::WORK.sum(costs::QUANTITY)
});

/// Hours of each crew.
pub const OF_CREW: InUse<Crews> = InUse::of(
    Step::arithmetic("hours", System::hours, || CREW_OF.sum(OF_CREW_ON_WORK)),
    Step::arithmetic("hours", System::hours, || {
        CREW_OF.sum(OF_CREW_ON_WORK) + BESIDE_PARTNERS
    }),
);

/// Hours of each machine.
pub const OF_MACHINE: Step<Equipment> = Step::arithmetic("hours", System::hours, || {
    MACHINE_OF.sum(OF_MACHINE_ON_WORK)
});

/// Hours that leads of each crew stand beside partners and set up for them in this bid,
/// counted as those of the whole crew.
const BESIDE_PARTNERS: Step<Crews> =
    Step::arithmetic("hours beside partners", System::hours, || {
        terms::LEAD.sum(OF_LEADS_CREW)
    });

const OF_LEADS_CREW: Step<Partners> = Step::arithmetic(
    "hours of the lead's crew in this bid",
    System::hours,
    || {
        let of_crew = parties::PARTNER.sum(OF_LEAD) / terms::LEAD_PEOPLE;
        when(terms::LEAD_PEOPLE.above(0.0), of_crew, 0.0)
    },
);

const OF_LEAD: Step<Parties> =
    Step::arithmetic("hours of lead and set-up in use", System::hours, || {
        let set_up = parties::SESSIONS * parties::PARTNER.of(terms::SET_UP);
        when(
            parties::IN_USE.above(0.0),
            parties::LEAD_HOURS + set_up,
            0.0,
        )
    });
