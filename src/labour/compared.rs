//! The scenarios by name, the crew alone first, and which of them is in use.

use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::{CREW_ONLY, JobKeys, Scenarios};
use crate::tables::Compared;
use crate::takeoff::bill::fixed;
use crate::units::System;

/// The scenarios by name, and which of them is in use.
pub const RULES: &[&dyn Rule] = &[&NAME, &ROW_IN_USE, &NAME_IN_USE];

/// The crew alone, then each scenario of the job: its place among them.
pub const COMPARED: Roster<Compared, usize> = Roster::new(|graph| (0..=scenarios(graph)).collect());

/// How many scenarios the job has.
#[must_use]
pub fn scenarios(graph: &Graph) -> usize {
    graph.rows(graph.id(Scenarios::Scenario))
}

/// Name of each scenario.
pub const NAME: Wording<Compared> = Wording::gathered("scenario", |graph| {
    of_scenarios(graph, Scenarios::Scenario, CREW_ONLY)
})
.naming_rows();

/// What every scenario says in a column, and what the crew alone says there.
pub(crate) fn of_scenarios(
    graph: &mut Graph,
    column: Scenarios,
    crew_alone: &'static str,
) -> Vec<Vec<Piece>> {
    let said = graph.id(column);
    COMPARED.words(graph, |place| match place.checked_sub(1) {
        None => vec![fixed(crew_alone)],
        Some(row) => vec![Piece::Cell(said.at(row))],
    })
}

/// The scenario that the job names.
const NAMED: LookUp<JobKeys, Compared> = LookUp::new("scenario row", || JobKeys::Scenario.key())
    .among(|| NAME.key())
    .that_must_find();

/// Row of the scenario in use: the crew alone where the job names none.
pub const ROW_IN_USE: Step<JobKeys> =
    Step::from_job("scenario in use, row", System::number, || {
        highest(NAMED.number(), 1.0)
    });

/// What it is called.
pub const NAME_IN_USE: Wording<JobKeys> = Wording::new("scenario in use", || {
    either(JobKeys::Scenario.blank(), CREW_ONLY, NAMED.words_of(NAME))
});
