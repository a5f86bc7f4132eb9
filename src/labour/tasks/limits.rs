//! Limits of tasks: nothing is given twice, nor work that can hurt the untrained to people
//! who state no qualification for it; and what is given reaches a line.

use super::{LINE, PARTNER, SHARE, SHARE_SO_FAR, SHARED, THEIR_MACHINE};
use crate::graph::prelude::*;
use crate::job::tables::{HAZARDS, Partners, ProductionRates as Works, SharedWork};
use crate::labour::activities::{self, NOT_STATED};
use crate::pricing::costs::QUANTITY;
use crate::tables::Tasks;
use crate::units::System;

/// What is not right about tasks, and about the rows that give them.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Tasks>::fault(
        "given more than once",
        Code::ShareOverWhole,
        SharedWork::GivenShare.at(),
        || SHARE_SO_FAR.above(1.0),
        "more than the whole of this line is given away in this scenario",
        "write shares that add up to 100, or take one of the rows out",
    ),
    &Limit::<Tasks>::fault(
        "hazard not stated",
        Code::HazardNotStated,
        Works::Hazard.at(),
        || HAZARD.is(NOT_STATED),
        "this work is given to a partner, and it is not written what can hurt the untrained in it",
        "write its Hazard in Production rates, by hand where there is none",
    ),
    &Limit::<Tasks>::fault(
        "work that can hurt the untrained",
        Code::QualificationMissing,
        SharedWork::SharedBy.at(),
        || {
            let by_hand = HAZARD.is(HAZARDS[0]).or(HAZARD.is(NOT_STATED));
            let works = SHARE.above(0.0).and(LINE.of(QUANTITY).above(0.0));
            works.and(by_hand.negate()).and(TICKET.blank())
        },
        REFUSED,
        KEEP_IT,
    ),
    &Limit::<Tasks>::fault(
        "their machine without a ticket",
        Code::QualificationMissing,
        SharedWork::TheirMachine.at(),
        || {
            let works = SHARE.above(0.0).and(LINE.of(QUANTITY).above(0.0));
            let with_machine = works.and(THEIR_MACHINE.above(0.0));
            with_machine.and(MACHINE_TICKET.blank())
        },
        REFUSED,
        KEEP_IT,
    ),
    // A row that gives work back to the crew may reach no line.
    &Limit::<SharedWork>::fault(
        "gives no line",
        Code::GivesNothing,
        SharedWork::SharedOf.at(),
        || {
            let to_a_partner = SharedWork::SharedBy.filled();
            let gives_work = SharedWork::SharedMaterial.blank().and(to_a_partner);
            gives_work.and(TASKS_OF_ROW.same_as(0.0))
        },
        "no line of the take-off is given by this row: none has this work, zone and name, or another row takes its place",
        "see the page Activities for the names of works, zones and lines; a zone alone gives only what a crew does there",
    ),
];

/// What is said where work that can hurt the untrained is given to them.
const REFUSED: &str = "this work can hurt the untrained (machines, lifting, deep cuts, confined spaces, electrical), and the partner states no qualification for it";

/// What to do about it.
const KEEP_IT: &str = "keep it with the crew, or write the qualification in Partners; local law on volunteers, minors and wages, and licensed practice, come first";

/// What can hurt the untrained in it.
const HAZARD: Wording<Tasks> = Wording::new("hazard", || LINE.words_of(activities::HAZARD));

/// The ticket that the partner states for that.
const TICKET: Wording<Tasks> = Wording::new("ticket", || {
    let tickets = [
        Partners::MachineTicket,
        Partners::LiftingTicket,
        Partners::DeepCutTicket,
        Partners::ConfinedTicket,
        Partners::ElectricalTicket,
    ];
    let mut found = TextExpr::from("");
    for (class, ticket) in HAZARDS.iter().skip(1).zip(tickets) {
        found = either(HAZARD.is(class), PARTNER.words_of(ticket), found);
    }
    found
});

/// The ticket that the partner states for machines.
const MACHINE_TICKET: Wording<Tasks> = Wording::new("machine ticket", || {
    PARTNER.words_of(Partners::MachineTicket)
});

/// 1 for each task.
const ONE_TASK: Step<Tasks> = Step::arithmetic("one task", System::number, || {
    when(SHARE.at_least(0.0), 1.0, 0.0)
});

/// How many tasks a row of `Shared work` gives.
const TASKS_OF_ROW: Step<SharedWork> =
    Step::arithmetic("tasks of this row", System::number, || SHARED.sum(ONE_TASK));
