//! Tasks: a line of the take-off, or a share of it, done by one partner in one scenario.
//!
//! Always true: what the crew would have taken is displaced in proportion to the share; the
//! partner takes the crew's hours, person for person, divided by its pace. The cost of a
//! task is rounded once; its kinds add up to it.

mod displaced;
mod limits;
mod used;

use super::materials::{MaterialColumns, of_task};
use super::sharing::Sharing;
use super::terms::Terms;
use super::{first_alike, rows_meant};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Cell, Column, ColumnId, Graph, Link, Piece, Rules, Text, highest, when,
};
use crate::job::tables::{Partners, ProductionRates as Works, Scenarios, SharedWork, YES_NO};
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::line::fixed;
use crate::units::{H, MONEY, ONE, PERCENT, Unit};
use displaced::{displaced, partner_hours};
use limits::limits;
use used::used;

use super::activities::ActivityColumns;
use crate::tables::{Compared, Lines, Parties, ScenarioMaterials, Tasks};

/// What each task takes and costs.
#[derive(Clone, Debug)]
pub struct TaskColumns {
    /// Its name: scenario, line, partner.
    pub name: Text<Tasks>,
    /// Name of its scenario.
    pub scenario_name: Text<Tasks>,
    /// Name of its line.
    pub line_name: Text<Tasks>,
    /// Name of its partner.
    pub partner_name: Text<Tasks>,
    /// The scenario.
    pub scenario: Link<Tasks, Compared>,
    /// The line.
    pub line: Link<Tasks, Lines>,
    /// The partner in the scenario.
    pub party: Link<Tasks, Parties>,
    /// The partner.
    pub partner: Link<Tasks, Partners>,
    /// The row of `Shared work` that says so.
    pub shared: Link<Tasks, SharedWork>,
    /// Share of the line.
    pub share: Column<Tasks>,
    /// Pace against the crew.
    pub pace: Column<Tasks>,
    /// Hours of the crew that are displaced.
    pub crew_hours: Column<Tasks>,
    /// The same, counted by person.
    pub person_hours: Column<Tasks>,
    /// Hours of one person that its partner has to do at the crew's pace.
    pub to_do: Column<Tasks>,
    /// Labor of the crew that is displaced.
    pub labor_displaced: Column<Tasks>,
    /// Hours of our machine that are displaced.
    pub machine_hours: Column<Tasks>,
    /// Equipment of ours that is displaced.
    pub equipment_displaced: Column<Tasks>,
    /// Hours by which our work on the line is shorter.
    pub shorter: Column<Tasks>,
    /// Hours of the partner's people.
    pub partner_hours: Column<Tasks>,
    /// Sessions that those hours use.
    pub sessions: Column<Tasks>,
    /// Labor that is added: lead, set-up, work done again.
    pub labor: Column<Tasks>,
    /// Equipment that is added.
    pub equipment: Column<Tasks>,
    /// What is paid and bought.
    pub bought: Column<Tasks>,
    /// The row of its material in its scenario.
    pub order: Link<Tasks, ScenarioMaterials>,
    /// Material that is bought beyond the line's.
    pub extra: Column<Tasks>,
    /// Its cost at the price of the material.
    pub material: Column<Tasks>,
    /// Work done again, and extra material, whatever the pace; not rounded.
    pub whatever_pace: Column<Tasks>,
    /// Hours of work before the first task of each party, one line after the other.
    pub first_of_party: Vec<Option<Cell>>,
}

/// Where each task comes from.
struct Rows {
    scenario: Link<Tasks, Compared>,
    line: Link<Tasks, Lines>,
    party: Link<Tasks, Parties>,
    partner: Link<Tasks, Partners>,
    shared: Link<Tasks, SharedWork>,
    alike: Link<Tasks, Tasks>,
}

/// What is given of a line: its share, that of all tasks of the line down to it, and whether
/// a machine comes along.
#[derive(Clone, Copy)]
struct Given {
    share: Column<Tasks>,
    so_far: Column<Tasks>,
    machine: Column<Tasks>,
}

/// What the cells of `Shared work` come to: share, pace, whether a machine comes along.
struct Said {
    share: ColumnId,
    pace: ColumnId,
    machine: ColumnId,
}

/// Adds the tasks. `lines` are as the crew does all of them.
pub(super) fn tasks(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (sharing, terms, materials): (&Sharing, &Terms, &MaterialColumns),
    (lines, activities): (&LineColumns, &ActivityColumns),
) -> TaskColumns {
    let said = said(graph, basis);
    let first_of_party = first_of_party(graph, sharing, lines);
    let watched = watched(graph, basis, lines);
    let price = lines.material.of(basis.production.material_price);
    let mut rules = graph.rules::<Lines>();
    let price = rules.from_job("price of its material", MONEY, price);
    graph.add_table::<Tasks>(sharing.tasks.len());
    let mut rules = graph.rules::<Tasks>();
    let [scenario_name, line_name, partner_name, name] = names(&mut rules, basis, sharing, lines);
    let rows = rows(&mut rules, sharing, &watched);
    let (given, pace) = given(&mut rules, basis, (sharing, &said), &rows);
    let share = given.share;
    let displaced = displaced(&mut rules, &rows, (lines, activities), given);
    let partner_hours = partner_hours(&mut rules, &rows, terms, (pace, displaced.to_do));
    let order = of_task(&mut rules, sharing, rows.line, (lines, materials.count));
    let paid = 1.0 - order.of(materials.brought);
    let paid = rules.from_job("share of its material that is paid for", PERCENT, paid);
    let of_line = (lines.bought, price, paid);
    let displaced_for = (&displaced, partner_hours);
    let used = used(&mut rules, basis, (&rows, terms), of_line, displaced_for);
    limits(&mut rules, basis, (&rows, activities), given);
    gives_some(graph, basis, (&rows, share));
    TaskColumns {
        name,
        scenario_name,
        line_name,
        partner_name,
        scenario: rows.scenario,
        line: rows.line,
        party: rows.party,
        partner: rows.partner,
        shared: rows.shared,
        share,
        pace,
        crew_hours: displaced.crew_hours,
        person_hours: displaced.person_hours,
        to_do: displaced.to_do,
        labor_displaced: displaced.labor,
        machine_hours: displaced.machine_hours,
        equipment_displaced: displaced.equipment,
        shorter: displaced.shorter,
        partner_hours,
        sessions: used.sessions,
        labor: used.labor,
        equipment: used.equipment,
        bought: used.bought,
        order,
        extra: used.extra,
        material: used.material,
        whatever_pace: used.whatever_pace,
        first_of_party,
    }
}

/// What is given of each line, and at what pace it is done.
fn given(
    rules: &mut Rules<'_, Tasks>,
    basis: &Basis<'_>,
    (sharing, said): (&Sharing, &Said),
    rows: &Rows,
) -> (Given, Column<Tasks>) {
    let mut of_shared = |name: &str, unit: Unit, column: ColumnId| {
        let cells = sharing.tasks.iter();
        let cells = cells.map(|task| Some(column.at(task.shared)));
        rules.gathered(name, unit, cells.collect())
    };
    let share: Column<Tasks> = of_shared("share", PERCENT, said.share);
    let own_pace: Column<Tasks> = of_shared("pace at this work", PERCENT, said.pace);
    let machine: Column<Tasks> = of_shared("their machine", ONE, said.machine);
    let usual = rows.partner.of(basis.inputs.number(Partners::Pace));
    let pace = when(own_pace.here().above(0.0), own_pace, usual);
    let pace = rules.from_job("pace", PERCENT, pace);
    let so_far = rules.running("share of the line so far", PERCENT, &sources::JOB, |own| {
        own.row_above(rows.alike, 0.0) + share
    });
    let given = Given {
        share,
        so_far,
        machine,
    };
    (given, pace)
}

/// The share, the pace and the machine that each row of `Shared work` says.
fn said(graph: &mut Graph, basis: &Basis<'_>) -> Said {
    let inputs = basis.inputs;
    let mut rules = graph.rules::<SharedWork>();
    let share = inputs.number(SharedWork::GivenShare).or(1.0);
    let pace = inputs.number(SharedWork::OwnPace).or(0.0);
    let theirs = inputs.words(SharedWork::TheirMachine).is(YES_NO[0]);
    Said {
        share: rules.from_job("share in use", PERCENT, share).id,
        pace: rules.from_job("pace of its own", PERCENT, pace).id,
        machine: rules
            .from_job("with their machine", ONE, when(theirs, 1.0, 0.0))
            .id,
    }
}

/// Limit: a row that gives work away reaches a line of the take-off. A row that gives it
/// back to the crew may reach none.
fn gives_some(graph: &mut Graph, basis: &Basis<'_>, (rows, share): (&Rows, Column<Tasks>)) {
    let inputs = basis.inputs;
    let mut rules = graph.rules::<Tasks>();
    let one = when(share.here().at_least(0.0), 1.0, 0.0);
    let one = rules.arithmetic("one task", ONE, one);
    let mut rules = graph.rules::<SharedWork>();
    let reached = rows.shared.sum(one);
    let reached = rules.arithmetic("tasks of this row", ONE, reached);
    let gives_work = inputs.words(SharedWork::SharedMaterial).blank();
    let to_a_partner = inputs.words(SharedWork::SharedBy).blank().negate();
    let nothing = reached.here().same_as(0.0);
    rules.limit(
        "gives no line",
        gives_work.and(to_a_partner).and(nothing),
        Breach::fault(
            Code::GivesNothing,
            inputs.id(SharedWork::SharedOf),
            "no line of the take-off is given by this row: none has this work, zone and name, or another row takes its place",
            "see the page Activities for the names of works, zones and lines; a zone alone gives only what a crew does there",
        ),
    );
}

/// Hours of work before the first task of each party, one line after the other.
fn first_of_party(graph: &mut Graph, sharing: &Sharing, lines: &LineColumns) -> Vec<Option<Cell>> {
    let mut rules = graph.rules::<Lines>();
    let own = highest(lines.crew_hours, lines.machine_hours);
    let own = rules.arithmetic("hours if all by the crew", H, own);
    let upto = rules.running("hours down to it", H, &sources::ARITHMETIC, |upto| {
        upto.row_above_or(0.0) + own
    });
    let before = rules.arithmetic("hours before it", H, upto - own);
    let first = |(scenario, partner): &(usize, usize)| {
        let mut tasks = sharing.tasks.iter();
        let first = tasks.find(|task| task.scenario == *scenario && task.partner == *partner);
        first.map(|task| before.id.at(task.line))
    };
    sharing.parties.iter().map(first).collect()
}

/// What decides which lines a row of `Shared work` is about, beside names: the work of each
/// line and whether it has a crew. A change of it in the workbook needs a new run.
fn watched(graph: &mut Graph, basis: &Basis<'_>, lines: &LineColumns) -> Vec<ColumnId> {
    let mut rules = graph.rules::<Lines>();
    let work = Column::<Lines>::new(lines.work.id);
    let number = rules.running("number of the line", ONE, &sources::ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let work = rules.arithmetic("which work, line by line", ONE, work * number);
    let mut rules = graph.rules::<Works>();
    let number = rules.running("number of the work", ONE, &sources::ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let crewed = when(basis.production.crew_of.found_none(), 0.0, number);
    let crewed = rules.arithmetic("whether it has a crew, work by work", ONE, crewed);
    vec![work.id, crewed.id]
}

/// The names of scenario, line and partner of each task, and the three together.
fn names(
    rules: &mut Rules<'_, Tasks>,
    basis: &Basis<'_>,
    sharing: &Sharing,
    lines: &LineColumns,
) -> [Text<Tasks>; 4] {
    let scenarios = basis.inputs.id(Scenarios::Scenario);
    let partners = basis.inputs.id(Partners::Partner);
    let pieces: Vec<[Piece; 3]> = sharing
        .tasks
        .iter()
        .map(|task| {
            let scenario = Piece::Cell(scenarios.at(task.scenario));
            let line = Piece::Cell(lines.name.id.at(task.line));
            [scenario, line, Piece::Cell(partners.at(task.partner))]
        })
        .collect();
    let mut one = |name: &str, which: usize| {
        let words = pieces.iter().map(|pieces| vec![pieces[which].clone()]);
        rules.gathered_words(name, words.collect())
    };
    let [scenario, line, partner] = [one("scenario", 0), one("line", 1), one("partner", 2)];
    let words = pieces
        .into_iter()
        .map(|[scenario, line, partner]| vec![scenario, fixed(" / "), line, fixed(" / "), partner]);
    let name = rules.gathered_words("task", words.collect());
    rules.labelled_by(name);
    [scenario, line, partner, name]
}

/// The rows that each task is about; `watched` is what decides them beside names.
fn rows(rules: &mut Rules<'_, Tasks>, sharing: &Sharing, watched: &[ColumnId]) -> Rows {
    let tasks = &sharing.tasks;
    let alike = first_alike(tasks, |one, two| {
        (one.scenario, one.line) == (two.scenario, two.line)
    });
    let lines = tasks.iter().map(|task| task.line);
    let parties = tasks.iter();
    let parties = parties.map(|task| sharing.party(task.scenario, task.partner));
    Rows {
        scenario: rows_meant(
            rules,
            "scenario row",
            tasks.iter().map(|task| task.scenario + 1),
            &[],
        ),
        line: rows_meant(rules, "line row", lines, watched),
        party: rows_meant(rules, "party row", parties, &[]),
        partner: rows_meant(
            rules,
            "partner row",
            tasks.iter().map(|task| task.partner),
            &[],
        ),
        shared: rows_meant(
            rules,
            "shared row",
            tasks.iter().map(|task| task.shared),
            &[],
        ),
        alike: rows_meant(rules, "first task of the line", alike.into_iter(), &[]),
    }
}
