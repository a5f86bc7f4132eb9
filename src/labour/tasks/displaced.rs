//! What a task displaces of the crew's work, and the hours that its partner takes for it.

use super::{FIRST_ALIKE, LINE, PACE, PARTNER, SHARE, SHARE_SO_FAR, THEIR_MACHINE};
use crate::graph::prelude::*;
use crate::labour::{activities, terms};
use crate::pricing::costs;
use crate::sources;
use crate::tables::{Lines, Tasks};
use crate::units::{H, MONEY, System, Unit};

/// Hours of the crew that are displaced.
pub const CREW_HOURS: Step<Tasks> = Step::from_job("crew hours displaced", System::hours, || {
    part(costs::CREW_HOURS, H)
});

/// The same, counted by person.
pub const PERSON_HOURS: Step<Tasks> = Step::from_job("the same by person", System::hours, || {
    LINE.of(costs::CREW_HOURS) * SHARE * LINE.of(activities::PEOPLE)
});

/// Labor of the crew that is displaced.
pub const LABOR: Step<Tasks> = Step::from_job("labor displaced", System::money, || {
    part(costs::LABOR_COST, MONEY)
});

/// Hours of our machine that are displaced, where theirs comes along.
pub const MACHINE_HOURS: Step<Tasks> =
    Step::from_job("machine hours displaced", System::hours, || {
        when(THEIR_MACHINE.above(0.0), part(costs::MACHINE_HOURS, H), 0.0)
    });

/// Equipment of ours that is displaced.
pub const EQUIPMENT: Step<Tasks> = Step::from_job("equipment displaced", System::money, || {
    let all = part(costs::EQUIPMENT_COST, MONEY);
    when(THEIR_MACHINE.above(0.0), all, 0.0)
});

/// Hours of one person that its partner has to do at the crew's pace. With a machine of
/// theirs somebody has to run it: there is to do at least what it runs.
pub const TO_DO: Step<Tasks> =
    Step::from_job("hours to do at the crew's pace", System::hours, || {
        highest(PERSON_HOURS, MACHINE_HOURS)
    });

/// What the crew would have taken for the share: of hours and cost what all tasks of the line
/// down to it displace, rounded, less what those before it do, so that they add up.
fn part(all: Step<Lines>, unit: Unit) -> Term<Tasks> {
    let upto = (LINE.of(all) * SHARE_SO_FAR).round_in(unit, 2);
    let before = (LINE.of(all) * (SHARE_SO_FAR - SHARE)).round_in(unit, 2);
    (upto - before).round_in(unit, 2)
}

/// Hours of the crew that are left of the line after the task.
const CREW_LEFT: Step<Tasks> = Step::running(
    "crew hours left",
    System::hours,
    &sources::ARITHMETIC,
    |own| own.row_above(FIRST_ALIKE, LINE.of(costs::CREW_HOURS)) - CREW_HOURS,
);

/// Hours of the machine that are left of the line after the task.
const MACHINE_LEFT: Step<Tasks> = Step::running(
    "machine hours left",
    System::hours,
    &sources::ARITHMETIC,
    |own| own.row_above(FIRST_ALIKE, LINE.of(costs::MACHINE_HOURS)) - MACHINE_HOURS,
);

/// Hours by which our work on the line is shorter: the longer of crew and machine before the
/// task, less the longer after it.
pub const SHORTER: Step<Tasks> = Step::arithmetic("hours shorter", System::hours, || {
    let before = highest(CREW_LEFT + CREW_HOURS, MACHINE_LEFT + MACHINE_HOURS);
    before - highest(CREW_LEFT, MACHINE_LEFT)
});

/// Hours of the partner's people if they never became faster.
const AT_FIRST_PACE: Step<Tasks> =
    Step::from_job("hours at their first pace", System::hours, || {
        when(PACE.above(0.0), TO_DO / PACE, 0.0)
    });

/// The work counted in first sessions.
const FIRST_SESSIONS: Step<Tasks> =
    Step::arithmetic("sessions at their first pace", System::number, || {
        let session = PARTNER.of(terms::WORK_OF_SESSION);
        when(session.clone().above(0.0), AT_FIRST_PACE / session, 0.0)
    });

/// Hours that the partner's people take: those of the crew by person ÷ pace, and where they
/// learn, × the work counted in first sessions to the power of learning, from one on.
pub const PARTNER_HOURS: Step<Tasks> = Step::new(
    "hours of the partner",
    System::hours,
    &sources::LEARNING,
    || {
        let faster = FIRST_SESSIONS.here().to_the(PARTNER.of(terms::LEARNING));
        AT_FIRST_PACE * when(FIRST_SESSIONS.above(1.0), faster, 1.0)
    },
);
