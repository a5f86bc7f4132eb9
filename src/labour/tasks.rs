//! Tasks: a line of the take-off, or a share of it, done by one partner in one scenario.
//!
//! Always true: what the crew would have taken is displaced in proportion to the share; the
//! partner takes the crew's hours, person for person, divided by its pace. The cost of a
//! task is rounded once; its kinds add up to it.

mod displaced;
mod limits;
mod used;

pub use displaced::{
    CREW_HOURS, EQUIPMENT as EQUIPMENT_DISPLACED, LABOR as LABOR_DISPLACED, MACHINE_HOURS,
    PARTNER_HOURS, PERSON_HOURS, SHORTER, TO_DO,
};
pub use limits::RULES as LIMITS;
pub use used::{BOUGHT, EQUIPMENT, EXTRA, LABOR, MATERIAL, SESSIONS, WHATEVER_PACE};

use super::sharing::{PARTIES, TASKS, party_of};
use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::{Partners, ProductionRates as Works, Scenarios, SharedWork, YES_NO};
use crate::pricing::{costs, lines};
use crate::sources;
use crate::tables::{Compared, Lines, Parties, Tasks};
use crate::takeoff::bill::fixed;
use crate::takeoff::production::CREW_OF;
use crate::units::System;

/// What each task is called, displaces, takes and costs.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &SCENARIO_NAME,
    &LINE_NAME,
    &PARTNER_NAME,
    &SCENARIO,
    &SHORTER,
    &SESSIONS,
    &MATERIAL,
    &WHATEVER_PACE,
];

/// Its name: scenario, line, partner.
pub const NAME: Wording<Tasks> = Wording::gathered("task", |graph| {
    let [scenarios, partners] = [graph.id(Scenarios::Scenario), graph.id(Partners::Partner)];
    let names = graph.read(lines::NAME);
    TASKS.words(graph, |task| {
        let scenario = Piece::Cell(scenarios.at(task.scenario));
        let line = Piece::Cell(names.at(task.line));
        let partner = Piece::Cell(partners.at(task.partner));
        vec![scenario, fixed(" / "), line, fixed(" / "), partner]
    })
})
.naming_rows();

/// Name of its scenario.
pub const SCENARIO_NAME: Wording<Tasks> = Wording::gathered("scenario", |graph| {
    TASKS.words_of(graph, Scenarios::Scenario, |task| task.scenario)
});

/// Name of its line.
pub const LINE_NAME: Wording<Tasks> = Wording::gathered("line", |graph| {
    TASKS.words_of(graph, lines::NAME, |task| task.line)
});

/// Name of its partner.
pub const PARTNER_NAME: Wording<Tasks> = Wording::gathered("partner", |graph| {
    TASKS.words_of(graph, Partners::Partner, |task| task.partner)
});

/// The scenario.
pub const SCENARIO: LookUp<Tasks, Compared> = LookUp::solved("scenario row", |graph| {
    TASKS.meaning(graph, Vec::new(), |task| task.scenario + 1)
});

/// The line. Beside names it rests on the work of each line and on whether that has a crew:
/// a change of it in the workbook needs a new run.
pub const LINE: LookUp<Tasks, Lines> = LookUp::solved("line row", |graph| {
    let watched = vec![graph.read(WHICH_WORK), graph.read(WHICH_HAS_A_CREW)];
    TASKS.meaning(graph, watched, |task| task.line)
});

/// The partner in the scenario.
pub const PARTY: LookUp<Tasks, Parties> = LookUp::solved("party row", |graph| {
    let parties = PARTIES.rows(graph);
    TASKS.meaning(graph, Vec::new(), |task| {
        party_of(&parties, task.scenario, task.partner)
    })
});

/// The partner.
pub const PARTNER: LookUp<Tasks, Partners> = LookUp::solved("partner row", |graph| {
    TASKS.meaning(graph, Vec::new(), |task| task.partner)
});

/// The row of `Shared work` that says so.
pub const SHARED: LookUp<Tasks, SharedWork> = LookUp::solved("shared row", |graph| {
    TASKS.meaning(graph, Vec::new(), |task| task.shared)
});

/// The first task of the same line in the same scenario.
const FIRST_ALIKE: LookUp<Tasks, Tasks> = LookUp::solved("first task of the line", |graph| {
    let tasks = TASKS.rows(graph);
    TASKS.meaning(graph, Vec::new(), |task| {
        let own = (task.scenario, task.line);
        tasks.partition_point(|other| (other.scenario, other.line) < own)
    })
});

/// Which work each line is, said so that any change of it shows.
const WHICH_WORK: Step<Lines> =
    Step::arithmetic("which work, line by line", System::number, || {
        lines::WORK.number() * NUMBER_OF_LINE
    });

/// Which works have a crew, said so that any change of it shows.
const WHICH_HAS_A_CREW: Step<Works> = Step::arithmetic(
    "whether it has a crew, work by work",
    System::number,
    || when(CREW_OF.found_none(), 0.0, NUMBER_OF_WORK),
);

const NUMBER_OF_LINE: Step<Lines> = Step::numbered("number of the line");

const NUMBER_OF_WORK: Step<Works> = Step::numbered("number of the work");

/// The share that each row of `Shared work` says.
const SHARED_SHARE: Step<SharedWork> = Step::from_job("share in use", System::percent, || {
    SharedWork::GivenShare.or(1.0)
});

/// The pace that each row of `Shared work` says; zero where it says none.
const SHARED_PACE: Step<SharedWork> = Step::from_job("pace of its own", System::percent, || {
    SharedWork::OwnPace.or(0.0)
});

/// 1 for a row of `Shared work` with a machine of theirs.
const SHARED_MACHINE: Step<SharedWork> =
    Step::from_job("with their machine", System::number, || {
        when(SharedWork::TheirMachine.is(YES_NO[0]), 1.0, 0.0)
    });

/// Share of the line.
pub const SHARE: Step<Tasks> = Step::gathered("share", System::percent, |graph| {
    TASKS.cells_of(graph, SHARED_SHARE, |task| task.shared)
});

/// The share of all tasks of the line down to this one.
const SHARE_SO_FAR: Step<Tasks> = Step::running(
    "share of the line so far",
    System::percent,
    &sources::JOB,
    |own| own.row_above(FIRST_ALIKE, 0.0) + SHARE,
);

/// 1 where a machine of theirs comes along.
const THEIR_MACHINE: Step<Tasks> = Step::gathered("their machine", System::number, |graph| {
    TASKS.cells_of(graph, SHARED_MACHINE, |task| task.shared)
});

/// Pace at this work; zero where none is said.
const OWN_PACE: Step<Tasks> = Step::gathered("pace at this work", System::percent, |graph| {
    TASKS.cells_of(graph, SHARED_PACE, |task| task.shared)
});

/// Pace against the crew.
pub const PACE: Step<Tasks> = Step::from_job("pace", System::percent, || {
    when(OWN_PACE.above(0.0), OWN_PACE, PARTNER.of(Partners::Pace))
});

/// Hours that a line takes if the crew does all of it.
const HOURS_OF_LINE: Step<Lines> =
    Step::arithmetic("hours if all by the crew", System::hours, || {
        highest(costs::CREW_HOURS, costs::MACHINE_HOURS)
    });

/// The same of all lines down to it.
const HOURS_DOWN_TO_LINE: Step<Lines> = Step::running(
    "hours down to it",
    System::hours,
    &sources::ARITHMETIC,
    |own| own.row_above_or(0.0) + HOURS_OF_LINE,
);

/// Hours of work before a line, one line after the other.
pub const HOURS_BEFORE_LINE: Step<Lines> =
    Step::arithmetic("hours before it", System::hours, || {
        HOURS_DOWN_TO_LINE - HOURS_OF_LINE
    });

/// The partners that have a task, by row.
pub(super) fn partners_at_work(graph: &mut Graph) -> Vec<usize> {
    let tasks = TASKS.rows(graph);
    let mut partners: Vec<usize> = tasks.iter().map(|task| task.partner).collect();
    partners.sort_unstable();
    partners.dedup();
    partners
}
