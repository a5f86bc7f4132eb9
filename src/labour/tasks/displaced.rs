//! What a task displaces of the crew's work, and the hours that its partner takes for it.

use super::{Given, Rows};
use crate::graph::prelude::*;
use crate::graph::{Column, Rules, highest, when};
use crate::labour::activities::ActivityColumns;
use crate::labour::terms::Terms;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Lines, Tasks};
use crate::units::{H, MONEY, ONE};

/// What is displaced by a task.
#[derive(Clone, Copy)]
pub(super) struct Displaced {
    pub(super) share: Column<Tasks>,
    pub(super) crew_hours: Column<Tasks>,
    pub(super) person_hours: Column<Tasks>,
    pub(super) to_do: Column<Tasks>,
    pub(super) labor: Column<Tasks>,
    pub(super) machine_hours: Column<Tasks>,
    pub(super) equipment: Column<Tasks>,
    pub(super) shorter: Column<Tasks>,
}

/// What the crew would have taken for the share: of hours and cost what all tasks of the line
/// down to it displace, rounded, less what those before it do, so that they add up.
///
/// With a machine of theirs somebody has to run it: there is to do at least what it runs.
pub(super) fn displaced(
    rules: &mut Rules<'_, Tasks>,
    rows: &Rows,
    (lines, activities): (&LineColumns, &ActivityColumns),
    given: Given,
) -> Displaced {
    let line = rows.line;
    let part = |all: Column<Lines>, unit| {
        let upto = (line.of(all) * given.so_far).round_in(unit, 2);
        let before = (line.of(all) * (given.so_far - given.share)).round_in(unit, 2);
        (upto - before).round_in(unit, 2)
    };
    let crew_hours = part(lines.crew_hours, H);
    let crew_hours = rules.from_job("crew hours displaced", H, crew_hours);
    let by_person = line.of(lines.crew_hours) * given.share * line.of(activities.people);
    let by_person = rules.from_job("the same by person", H, by_person);
    let theirs = given.machine.here().above(0.0);
    let labor = rules.from_job("labor displaced", MONEY, part(lines.labor_cost, MONEY));
    let machine_hours = when(theirs.clone(), part(lines.machine_hours, H), 0.0);
    let machine_hours = rules.from_job("machine hours displaced", H, machine_hours);
    let equipment = when(theirs, part(lines.equipment_cost, MONEY), 0.0);
    let to_do = highest(by_person, machine_hours);
    Displaced {
        share: given.share,
        crew_hours,
        person_hours: by_person,
        to_do: rules.from_job("hours to do at the crew's pace", H, to_do),
        labor,
        machine_hours,
        equipment: rules.from_job("equipment displaced", MONEY, equipment),
        shorter: shorter(rules, rows, lines, (crew_hours, machine_hours)),
    }
}

/// Hours by which our work on a line is shorter: the longer of crew and machine before the
/// task, less the longer after it.
fn shorter(
    rules: &mut Rules<'_, Tasks>,
    rows: &Rows,
    lines: &LineColumns,
    (crew, machine): (Column<Tasks>, Column<Tasks>),
) -> Column<Tasks> {
    let mut left = |name: &str, all: Column<Lines>, displaced: Column<Tasks>| {
        rules.running(name, H, &sources::ARITHMETIC, |own| {
            own.row_above(rows.alike, rows.line.of(all)) - displaced
        })
    };
    let crew_left = left("crew hours left", lines.crew_hours, crew);
    let machine_left = left("machine hours left", lines.machine_hours, machine);
    let before = highest(crew_left + crew, machine_left + machine);
    let after = highest(crew_left, machine_left);
    rules.arithmetic("hours shorter", H, before - after)
}

/// Hours that the partner's people take: those of the crew by person ÷ pace, and where they
/// learn, × the work counted in first sessions to the power of learning, from one on.
pub(super) fn partner_hours(
    rules: &mut Rules<'_, Tasks>,
    rows: &Rows,
    terms: &Terms,
    (pace, crew): (Column<Tasks>, Column<Tasks>),
) -> Column<Tasks> {
    let plain = when(pace.here().above(0.0), crew / pace, 0.0);
    let plain = rules.from_job("hours at their first pace", H, plain);
    let session = rows.partner.of(terms.work_of_session);
    let first = when(session.clone().above(0.0), plain / session, 0.0);
    let first = rules.arithmetic("sessions at their first pace", ONE, first);
    let faster = first.here().to_the(rows.partner.of(terms.learning));
    let faster = when(first.here().above(1.0), faster, 1.0);
    rules.step(
        "hours of the partner",
        H,
        &sources::LEARNING,
        plain * faster,
    )
}
