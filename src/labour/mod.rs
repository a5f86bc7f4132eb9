//! Labour: the same quantities in other hands.
//!
//! A partner of the client's does whole lines of the take-off, or shares of them, in a
//! scenario. What the crew would have done is displaced; what the partner's sessions cost is
//! added: a lead, training, set-up, gear, machines that stand, work done again. Nothing is
//! counted twice, and what is given is valued beside the cost, never within it.
//!
//! Always true: scenarios are rows; a line's hours and costs in use are those of the scenario
//! that the job names; without scenarios nothing is added to the graph but the columns of
//! the input tables.
//!
//! Not here: orders, mark-ups and the bid in each scenario (`bid::scenarios`).

pub mod activities;
pub mod break_even;
pub mod gifts;
pub mod in_use;
pub mod materials;
pub mod parties;
pub mod sharing;
pub mod tasks;
pub mod terms;

use crate::graph::TextExpr;
use crate::graph::prelude::*;
use crate::graph::{
    Column, ColumnId, Graph, Link, Piece, Rules, Solve, Table, Text, either, highest, when,
};
use crate::job::tables::{CREW_ONLY, JobKeys, Partners, Scenarios};
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::Compared;
use crate::takeoff::basis::Basis;
use crate::takeoff::line::{Line, fixed};
use crate::units::ONE;
use activities::ActivityColumns;
use break_even::BreakEvenColumns;
use gifts::GiftColumns;
use materials::MaterialColumns;
use parties::{Party, PartyColumns};
use sharing::Sharing;
use tasks::TaskColumns;
use terms::{Terms, terms};

/// Which scenario is in use, and who works in which.
#[derive(Clone, Debug)]
pub struct Hands {
    /// Who does what.
    pub sharing: Sharing,
    /// Name of each scenario, the crew alone first.
    pub scenario: Text<Compared>,
    /// Row of the scenario in use among those compared.
    pub in_use: Column<JobKeys>,
    /// What it is called.
    pub in_use_name: Text<JobKeys>,
    /// Terms of the partners.
    pub terms: Terms,
    /// Each partner in each scenario.
    pub party: Party,
    /// 1 for a partner who works in the scenario in use.
    pub at_work: Column<Partners>,
    /// The partners that have a line in the bid, by row.
    pub with_line: Vec<usize>,
}

/// Adds what is known before there are lines: scenarios, terms, who works in which.
pub fn hands(graph: &mut Graph, basis: &Basis<'_>, sharing: Sharing) -> Hands {
    let scenario = compared(graph, basis);
    let (in_use, in_use_name) = in_use(graph, basis, scenario);
    let terms = terms(graph, basis);
    let party = parties::party(graph, basis, &sharing, in_use);
    let mut rules = graph.rules::<Partners>();
    let at_work = when(party.partner.sum(party.at_work).above(0.0), 1.0, 0.0);
    let at_work = rules.from_job("at work in this bid", ONE, at_work);
    let mut with_line: Vec<usize> = sharing.tasks.iter().map(|task| task.partner).collect();
    with_line.sort_unstable();
    with_line.dedup();
    Hands {
        sharing,
        scenario,
        in_use,
        in_use_name,
        terms,
        party,
        at_work,
        with_line,
    }
}

/// The scenarios by name, the crew alone first.
fn compared(graph: &mut Graph, basis: &Basis<'_>) -> Text<Compared> {
    let named = basis.inputs.words(Scenarios::Scenario);
    let count = graph.rows(named.id);
    graph.add_table::<Compared>(count + 1);
    let own = (0..count).map(|row| vec![Piece::Cell(named.id.at(row))]);
    let all = std::iter::once(vec![fixed(CREW_ONLY)]).chain(own).collect();
    let mut rules = graph.rules::<Compared>();
    let scenario = rules.gathered_words("scenario", all);
    rules.labelled_by(scenario);
    scenario
}

/// The row of the scenario in use, the crew alone where the job names none, and its name.
fn in_use(
    graph: &mut Graph,
    basis: &Basis<'_>,
    scenario: Text<Compared>,
) -> (Column<JobKeys>, Text<JobKeys>) {
    let named = basis.inputs.words(JobKeys::Scenario);
    let mut rules = graph.rules::<JobKeys>();
    let link: Link<JobKeys, Compared> = rules.link("scenario row", named);
    rules.must_find(named, link);
    let row = highest(Column::new(link.id), 1.0);
    let row = rules.from_job("scenario in use, row", ONE, row);
    let crew = TextExpr::Fixed(CREW_ONLY.to_owned());
    let name = either(named.blank(), crew, link.words_of(scenario));
    (row, rules.word_step("scenario in use", name))
}

/// Everything about who does what.
#[derive(Clone, Debug)]
pub struct Labour {
    /// Scenarios and terms.
    pub hands: Hands,
    /// Each line given to a partner in a scenario.
    pub task: TaskColumns,
    /// Each partner in each scenario.
    pub party: PartyColumns,
    /// Each material that is brought in a scenario.
    pub gift: GiftColumns,
    /// Each material in each scenario.
    pub material: MaterialColumns,
    /// What each task saves, and when it would save nothing.
    pub break_even: BreakEvenColumns,
}

/// Adds who does what, and the lines as they are in the scenario in use. `lines` are as the
/// crew does all of them.
pub fn labour(
    graph: &mut Graph,
    basis: &Basis<'_>,
    hands: Hands,
    (lines, activities): (&LineColumns, &ActivityColumns),
) -> (Labour, LineColumns) {
    let gift = gifts::gifts(graph, basis, &hands);
    let material = materials::materials(graph, basis, (&hands.sharing, &gift));
    let known = (&hands.sharing, &hands.terms, &material);
    let task = tasks::tasks(graph, basis, known, (lines, activities));
    let party = parties::parties(graph, basis, (&hands.party, &hands.terms), &task);
    let break_even = break_even::break_even(graph, &hands.terms, &task, &party);
    let in_use = in_use::in_use(graph, basis, &hands, (&task, &party, &gift), lines);
    let labour = Labour {
        hands,
        task,
        party,
        gift,
        material,
        break_even,
    };
    (labour, in_use)
}

impl Hands {
    /// The lines of the partners: what goes with their work, at the end of the bid.
    #[must_use]
    pub fn lines(&self, basis: &Basis<'_>) -> Vec<Line> {
        let names = basis.inputs.words(Partners::Partner).id;
        let line = |row: &usize| Line {
            table: Partners::NAME,
            name: vec![fixed("Work with "), Piece::Cell(names.at(*row))],
            section: vec![fixed("Work with partners")],
            description: vec![
                fixed("Work with "),
                Piece::Cell(names.at(*row)),
                fixed(": lead, training, gear and what goes with it"),
            ],
            unit: vec![fixed("ls")],
            quantity: self.at_work.id.at(*row),
            amount: None,
            waste: None,
            material: None,
            work: None,
            worked: None,
            price: None,
            grade: basis.wide.usual_grade.id.at(0),
        };
        self.with_line.iter().map(line).collect()
    }
}

/// Row numbers from one, as a look-up holds them: which row is meant is decided by names,
/// and by what is `watched`.
pub(crate) fn rows_meant<C: Table, P>(
    rules: &mut Rules<'_, C>,
    name: &str,
    rows: impl Iterator<Item = usize>,
    watched: &[ColumnId],
) -> Link<C, P> {
    let numbers = rows.map(|row| f64::from(u32::try_from(row + 1).unwrap_or(u32::MAX)));
    let numbers = numbers.collect();
    Link::new(
        rules
            .solved(
                name,
                ONE,
                &sources::JOB,
                Solve::fixed(watched.to_vec(), numbers),
            )
            .id,
    )
}

/// For each row the first of those above it, without a gap, that are alike.
fn first_alike<R>(rows: &[R], alike: impl Fn(&R, &R) -> bool) -> Vec<usize> {
    let mut first: Vec<usize> = Vec::new();
    for (at, row) in rows.iter().enumerate() {
        let above = first.last().copied();
        let same = above.filter(|above| alike(&rows[*above], row));
        first.push(same.unwrap_or(at));
    }
    first
}
