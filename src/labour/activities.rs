//! Activities: each line that is worked, with who and what works it, how fast, and what can
//! hurt the untrained in it.
//!
//! Always true: a hazard that is written counts; else what is usual in a work of a usual
//! name; else a machine makes it work with machines; else it is not known.

use crate::graph::prelude::*;
use crate::job::tables::{Crews, Equipment, HAZARDS, ProductionRates as Works};
use crate::pricing::lines::WORK;
use crate::tables::{Lines, UsualWorks};
use crate::takeoff::production::{self, CREW_OF, MACHINE_OF};
use crate::takeoff::usual;
use crate::units::System;

/// What is said of a work whose hazard nobody stated.
pub const NOT_STATED: &str = "not stated";

/// Who and what works each line, how fast, and what can hurt the untrained in it.
pub const RULES: &[&dyn Rule] = &[
    &CREW,
    &PEOPLE,
    &CREW_OUTPUT,
    &MACHINE,
    &MACHINE_OUTPUT,
    &HAZARD,
];

/// The crew of a line.
pub const CREW: Wording<Lines> = Wording::new("crew", || WORK.words_of(CREW_OF_WORK));

/// People in that crew.
pub const PEOPLE: Step<Lines> = Step::from_job("people in the crew", System::number, || {
    WORK.of(PEOPLE_OF_WORK)
});

/// Units that the crew does in an hour.
pub const CREW_OUTPUT: Step<Lines> = Step::from_job("crew output", System::an_hour, || {
    WORK.of(production::CREW_OUTPUT)
});

/// The machine of a line.
pub const MACHINE: Wording<Lines> = Wording::new("machine", || WORK.words_of(MACHINE_OF_WORK));

/// Units that the machine does in an hour.
pub const MACHINE_OUTPUT: Step<Lines> = Step::from_job("machine output", System::an_hour, || {
    WORK.of(production::MACHINE_OUTPUT)
});

/// What can hurt the untrained in a line.
pub const HAZARD: Wording<Lines> = Wording::new("hazard", || WORK.words_of(HAZARD_OF_WORK));

/// The crew of a work.
const CREW_OF_WORK: Wording<Works> = Wording::new("crew in use", || CREW_OF.words_of(Crews::Crew));

/// The machine of a work.
const MACHINE_OF_WORK: Wording<Works> =
    Wording::new("machine in use", || MACHINE_OF.words_of(Equipment::Machine));

/// People in the crew of a work.
const PEOPLE_OF_WORK: Step<Works> = Step::from_job("people in the crew", System::number, || {
    CREW_OF.of(Crews::People)
});

/// What can hurt the untrained in each work.
const HAZARD_OF_WORK: Wording<Works> = Wording::new("hazard in use", || {
    let [by_hand, machines] = [HAZARDS[0], HAZARDS[1]];
    let otherwise = either(USUAL_HAZARD_OF_WORK.blank(), NOT_STATED, by_hand);
    let otherwise = either(MACHINE_OF.found(), machines, otherwise);
    let none_usual = USUAL_HAZARD_OF_WORK
        .blank()
        .or(USUAL_HAZARD_OF_WORK.is(by_hand));
    let usual = either(none_usual, otherwise, USUAL_HAZARD_OF_WORK.words());
    either(Works::Hazard.filled(), Works::Hazard.words(), usual)
});

/// What can usually hurt the untrained in a work of its name.
const USUAL_HAZARD_OF_WORK: Wording<Works> =
    Wording::new("usual hazard", || USUAL.words_of(USUAL_HAZARD));

/// The usual work of its name.
const USUAL: LookUp<Works, UsualWorks> =
    LookUp::new("usual work row", || Works::Work.key()).among(|| USUAL_WORK.key());

/// The usual works.
const USUAL_WORK: Wording<UsualWorks> = Wording::brought("usual work", |system| {
    usual::hazards(system).map(|(work, _)| work).collect()
})
.naming_rows();

/// What can hurt the untrained in each of them.
const USUAL_HAZARD: Wording<UsualWorks> = Wording::brought("usual hazard", |system| {
    usual::hazards(system).map(|(_, hazard)| hazard).collect()
});
