//! Who does what in each scenario, line by line: what the rows of `Shared work` come to,
//! those of the scenarios that a scenario is like included.
//!
//! Always true: a scenario's own rows about a line replace those that it takes over; tasks
//! stand by scenario, then in building order, so that the shares of one line stand together.
//!
//! Not here: what it costs. What is decided here is decided by names, so that a change of a
//! name needs a new run.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::graph::prelude::*;
use crate::graph::{Graph, Piece, Results, evaluate_only};
use crate::job::tables::{Materials, Partners, ProductionRates, Scenarios, SharedWork};
use crate::job::{Fields, Job};
use crate::tables::{Gifts, Parties, Tasks};
use crate::takeoff::bill::Line;

/// What is given of the lines, in the order of scenarios, then of lines.
pub const TASKS: Roster<Tasks, Task> = Roster::decided_later();

/// What is brought, in the order of scenarios, then of materials.
pub const GIFTS: Roster<Gifts, Gift> = Roster::decided_later();

/// Each scenario with each partner that works or brings something in it, in that order.
pub const PARTIES: Roster<Parties, Party> = Roster::decided_later();

/// One line of the take-off, or part of it, given to one partner in one scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Task {
    /// Row of the scenario.
    pub scenario: usize,
    /// The line, by its position.
    pub line: usize,
    /// Row of the partner.
    pub partner: usize,
    /// Row of `Shared work` that says so.
    pub shared: usize,
}

impl Task {
    /// Whether it is a party's.
    pub(super) fn is_of(&self, party: Party) -> bool {
        (self.scenario, self.partner) == (party.scenario, party.partner)
    }
}

/// A material that a partner brings in one scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Gift {
    /// Row of the scenario.
    pub scenario: usize,
    /// Row of the material.
    pub material: usize,
    /// Row of the partner.
    pub partner: usize,
    /// Row of `Shared work` that says so.
    pub shared: usize,
}

/// One partner in one scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Party {
    /// Row of the scenario.
    pub scenario: usize,
    /// Row of the partner.
    pub partner: usize,
}

/// The row of the party of a scenario and a partner.
pub(super) fn party_of(parties: &[Party], scenario: usize, partner: usize) -> usize {
    let party = Party { scenario, partner };
    parties.binary_search(&party).unwrap_or(0)
}

/// Decides who does what. `lines` are those of the take-off in building order.
pub fn share_out(graph: &mut Graph, job: &Job, lines: &[Line]) {
    let (tasks, gifts) = shared_out(graph, job, lines);
    let at_work = tasks.iter().map(|task| (task.scenario, task.partner));
    let bringing = gifts.iter().map(|gift| (gift.scenario, gift.partner));
    let parties = at_work.chain(bringing);
    let mut parties: Vec<Party> = parties
        .map(|(scenario, partner)| Party { scenario, partner })
        .collect();
    parties.sort_unstable();
    parties.dedup();
    TASKS.decide(graph, tasks);
    GIFTS.decide(graph, gifts);
    PARTIES.decide(graph, parties);
}

/// What is given and brought, each in its order.
fn shared_out(graph: &Graph, job: &Job, lines: &[Line]) -> (Vec<Task>, Vec<Gift>) {
    let shared = Shared::of(job);
    let scenarios = job.table::<Scenarios>().rows;
    let known = known(graph, job, lines);
    let (mut tasks, mut gifts) = (Vec::new(), Vec::new());
    for scenario in 0..scenarios {
        let chain = shared.chain(scenario);
        for (line, known) in known.iter().enumerate() {
            let given = shared.deciding(&chain, |row| row.gives(known));
            tasks.extend(given.iter().map(|(shared, partner)| Task {
                scenario,
                line,
                partner: *partner,
                shared: *shared,
            }));
        }
        for (material, name) in shared.materials.iter().enumerate() {
            let brought = shared.deciding(&chain, |row| &row.material == name);
            gifts.extend(brought.iter().map(|(shared, partner)| Gift {
                scenario,
                material,
                partner: *partner,
                shared: *shared,
            }));
        }
    }
    tasks.sort_unstable();
    gifts.sort_unstable();
    (tasks, gifts)
}

/// What is known of a line by names, in lower case.
struct Known {
    name: String,
    work: String,
    zone: String,
    has_crew: bool,
}

/// What is known of the lines by names: nothing else of the job is worked out for it.
fn known(graph: &Graph, job: &Job, lines: &[Line]) -> Vec<Known> {
    let of_words = lines
        .iter()
        .flat_map(|line| line.name.iter().chain(&line.zone));
    let cells = of_words.filter_map(|piece| match piece {
        Piece::Cell(cell) => Some(cell.column),
        Piece::Fixed(_) => None,
    });
    let works = lines
        .iter()
        .filter_map(|line| Some(line.taken.work?.column));
    let names = evaluate_only(graph, &cells.chain(works).collect::<Vec<_>>());
    let of_line = |line: &Line| Known::of(job, &names, line);
    lines.iter().map(of_line).collect()
}

impl Known {
    fn of(job: &Job, names: &Results, line: &Line) -> Self {
        let words = |pieces: &[Piece]| -> String {
            let pieces = pieces.iter().map(|piece| match piece {
                Piece::Fixed(words) => words.to_lowercase(),
                Piece::Cell(cell) => names.words(*cell).to_lowercase(),
            });
            pieces.collect()
        };
        let row = line.taken.work.and_then(|cell| names.row_found(cell));
        let rates = job.table::<ProductionRates>();
        let of_work = |field: ProductionRates| {
            let words = rates.words(field.index());
            row.and_then(|row| words.get(row))
                .cloned()
                .unwrap_or_default()
        };
        Self {
            name: words(&line.name),
            zone: words(line.zone.as_slice()),
            work: of_work(ProductionRates::Work).to_lowercase(),
            has_crew: !of_work(ProductionRates::WorkCrew).is_empty(),
        }
    }
}

/// One row of `Shared work`, in lower case; the partner is `None` where the crew does it.
struct Row {
    scenario: Option<usize>,
    work: String,
    zone: String,
    line: String,
    material: String,
    partner: Option<usize>,
}

impl Row {
    /// Whether the row is about a line: all that it names fits. A zone alone is about the
    /// work that a crew does there.
    fn gives(&self, line: &Known) -> bool {
        let fits = |own: &str, of: &str| own.is_empty() || own == of;
        let names_some = [&self.work, &self.zone, &self.line]
            .iter()
            .any(|own| !own.is_empty());
        let zone_alone = self.work.is_empty() && self.line.is_empty();
        names_some
            && !line.work.is_empty()
            && (line.has_crew || !zone_alone)
            && fits(&self.work, &line.work)
            && fits(&self.zone, &line.zone)
            && fits(&self.line, &line.name)
    }
}

/// The rows of `Shared work`, and what each scenario is like.
struct Shared {
    rows: Vec<Row>,
    like: Vec<Option<usize>>,
    materials: Vec<String>,
}

impl Shared {
    fn of(job: &Job) -> Self {
        let plain = |words: &[Arc<str>]| -> Vec<String> {
            words.iter().map(|word| word.to_lowercase()).collect()
        };
        let scenarios = job.table::<Scenarios>();
        let names = rows_by_name(&plain(scenarios.words(Scenarios::Scenario.index())));
        let like = plain(scenarios.words(Scenarios::Like.index()));
        let partners = job.table::<Partners>();
        let partners = rows_by_name(&plain(partners.words(Partners::Partner.index())));
        let shared = job.table::<SharedWork>();
        let cells = |field: SharedWork| plain(shared.words(field.index()));
        let (of, zone, one_line) = (
            cells(SharedWork::SharedOf),
            cells(SharedWork::SharedZone),
            cells(SharedWork::SharedLine),
        );
        let (material, by) = (
            cells(SharedWork::SharedMaterial),
            cells(SharedWork::SharedBy),
        );
        let of_scenario = cells(SharedWork::SharedIn);
        let row = |at: usize| Row {
            scenario: names.get(&of_scenario[at]).copied(),
            work: of[at].clone(),
            zone: zone[at].clone(),
            line: one_line[at].clone(),
            material: material[at].clone(),
            partner: partners.get(&by[at]).copied(),
        };
        let materials = job.table::<Materials>();
        Self {
            rows: (0..shared.rows).map(row).collect(),
            like: like.iter().map(|name| names.get(name).copied()).collect(),
            materials: plain(materials.words(Materials::Material.index())),
        }
    }

    /// A scenario, the one that it is like, and so on; each once.
    fn chain(&self, scenario: usize) -> Vec<usize> {
        let mut chain = vec![scenario];
        while let Some(next) = chain.last().and_then(|last| self.like[*last]) {
            if chain.contains(&next) {
                break;
            }
            chain.push(next);
        }
        chain
    }

    /// The rows that fit, of the first scenario of a chain that has any, with their partner;
    /// those that give it back to the crew are left out.
    fn deciding(&self, chain: &[usize], fits: impl Fn(&Row) -> bool) -> Vec<(usize, usize)> {
        for scenario in chain {
            let rows = self.rows.iter().enumerate();
            let own = rows.filter(|(_, row)| row.scenario == Some(*scenario) && fits(row));
            let own: Vec<(usize, Option<usize>)> = own.map(|(at, row)| (at, row.partner)).collect();
            if !own.is_empty() {
                let given = own.into_iter();
                return given
                    .filter_map(|(at, partner)| Some((at, partner?)))
                    .collect();
            }
        }
        Vec::new()
    }
}

fn rows_by_name(names: &[String]) -> BTreeMap<String, usize> {
    let rows = names.iter().enumerate().rev();
    rows.map(|(row, name)| (name.clone(), row)).collect()
}
