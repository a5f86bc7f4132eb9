//! Limits of tasks: nothing is given twice, nor work that can hurt the untrained to people
//! who state no qualification for it.

use super::{Given, Rows};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, ColumnId, Rules, Text, TextExpr, either};
use crate::job::tables::{HAZARDS, Partners, ProductionRates as Works, SharedWork};
use crate::labour::activities::{ActivityColumns, NOT_STATED};
use crate::tables::Tasks;
use crate::takeoff::basis::Basis;

/// Limits: nothing is given twice, nor work that can hurt the untrained without the ticket.
pub(super) fn limits(
    rules: &mut Rules<'_, Tasks>,
    basis: &Basis<'_>,
    (rows, activities): (&Rows, &ActivityColumns),
    of_line: Given,
) {
    let inputs = basis.inputs;
    rules.limit(
        "given more than once",
        of_line.so_far.here().above(1.0),
        Breach::fault(
            Code::ShareOverWhole,
            inputs.id(SharedWork::GivenShare),
            "more than the whole of this line is given away in this scenario",
            "write shares that add up to 100, or take one of the rows out",
        ),
    );
    let hazard = rows.line.words_of(activities.hazard);
    let hazard = rules.word_step("hazard", hazard);
    rules.limit(
        "hazard not stated",
        hazard.is(NOT_STATED),
        Breach::fault(
            Code::HazardNotStated,
            inputs.id(Works::Hazard),
            "this work is given to a partner, and it is not written what can hurt the untrained in it",
            "write its Hazard in Production rates, by hand where there is none",
        ),
    );
    let ticket = ticket(basis, rows, hazard);
    let ticket = rules.word_step("ticket", ticket);
    let by_hand = hazard.is(HAZARDS[0]).or(hazard.is(NOT_STATED));
    let given = of_line.share.here().above(0.0);
    rules.limit(
        "work that can hurt the untrained",
        given.clone().and(by_hand.negate()).and(ticket.blank()),
        refused(inputs.id(SharedWork::SharedBy)),
    );
    let machine_ticket = rows.partner.words_of(inputs.words(Partners::MachineTicket));
    let machine_ticket = rules.word_step("machine ticket", machine_ticket);
    rules.limit(
        "their machine without a ticket",
        given
            .and(of_line.machine.here().above(0.0))
            .and(machine_ticket.blank()),
        refused(inputs.id(SharedWork::TheirMachine)),
    );
}

/// What is said where work that can hurt the untrained is given to them.
fn refused(at: ColumnId) -> Breach {
    Breach::fault(
        Code::QualificationMissing,
        at,
        "this work can hurt the untrained (machines, lifting, deep cuts, confined spaces, electrical), and the partner states no qualification for it",
        "keep it with the crew, or write the qualification in Partners; local law on volunteers, minors and wages, and licensed practice, come first",
    )
}

/// The ticket that the partner states for a hazard.
fn ticket(basis: &Basis<'_>, rows: &Rows, hazard: Text<Tasks>) -> TextExpr {
    let tickets = [
        Partners::MachineTicket,
        Partners::LiftingTicket,
        Partners::DeepCutTicket,
        Partners::ConfinedTicket,
        Partners::ElectricalTicket,
    ];
    let mut found = TextExpr::Fixed(String::new());
    for (class, ticket) in HAZARDS.iter().skip(1).zip(tickets) {
        let stated = rows.partner.words_of(basis.inputs.words(ticket));
        found = either(hazard.is(class), stated, found);
    }
    found
}
