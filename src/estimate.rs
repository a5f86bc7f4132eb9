//! An estimate: a job with its graph of rules and every value worked out.
//!
//! This is the library's whole engine in one place: inputs, take-off, hours, prices,
//! and the findings that limits give. It does no input or output.

mod findings;
pub mod sensitivity;

pub use findings::place_of;

use self::sensitivity::Swing;
use crate::bid;
use crate::diagnostic::{Diagnostic, Severity};
use crate::graph::prelude::*;
use crate::graph::{Graph, Results, Table, evaluate};
use crate::job::Job;
use crate::job::tables::{JobKeys, Scenarios};
use crate::labour::sharing::share_out;
use crate::labour::{self, activities};
use crate::pricing::costs;
use crate::pricing::lines;
use crate::tables::Lines;
use crate::takeoff::balance;
use crate::takeoff::basins;
use crate::takeoff::built;
use crate::takeoff::dig_sheet;
use crate::takeoff::excavation;
use crate::takeoff::grades::SHARED_GRADE;
use crate::takeoff::half_measured;
use crate::takeoff::inputs;
use crate::takeoff::items;
use crate::takeoff::job_wide;
use crate::takeoff::levels;
use crate::takeoff::lines::{LINES, of_the_job, purchase};
use crate::takeoff::outline;
use crate::takeoff::production;
use crate::takeoff::pumping;
use crate::takeoff::quick;
use crate::takeoff::sections;
use crate::takeoff::shelves;
use crate::takeoff::works;

/// A job worked out.
#[derive(Debug)]
pub struct Estimate {
    /// The job.
    pub job: Job,
    /// The rules.
    pub graph: Graph,
    /// The values.
    pub results: Results,
    /// What the limits found: faults, open points, warnings.
    pub findings: Vec<Diagnostic>,
    /// The defaults that move the bid most, the one that moves it most first; none where
    /// something blocks the bid.
    pub swings: Vec<Swing>,
}

impl Estimate {
    /// Whether points are open, so that the bid is a draft.
    #[must_use]
    pub fn is_draft(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.severity == Severity::Open)
    }

    /// Whether something is broken, so that no bid may be written.
    #[must_use]
    pub fn is_blocked(&self) -> bool {
        self.findings.iter().any(Diagnostic::blocks)
    }

    /// The bid.
    #[must_use]
    pub fn bid(&self) -> f64 {
        self.number(bid::TOTAL, 0)
    }

    /// Whether the job has scenarios, so that others than the crew may work.
    #[must_use]
    pub fn has_scenarios(&self) -> bool {
        self.job.table::<Scenarios>().rows > 0
    }

    /// How many rows a table has; none where it is not there.
    #[must_use]
    pub fn rows<T: Table>(&self) -> usize {
        let table = self.graph.table_of::<T>();
        table.map_or(0, |table| self.graph.table(table).rows)
    }

    /// A number of an input or of a rule; zero where the cell is blank or is not there.
    #[must_use]
    pub fn number<T>(&self, column: impl Numbers<T>, row: usize) -> f64 {
        let column = self.graph.if_there(column);
        column.map_or(0.0, |column| self.results.number(column.at(row)))
    }

    /// Words of an input or of a rule; empty where the cell is blank or is not there.
    #[must_use]
    pub fn words<T>(&self, column: impl Words<T>, row: usize) -> &str {
        let column = self.graph.if_there(column);
        column.map_or("", |column| self.results.words(column.at(row)))
    }

    /// The row that a look-up found for one of its own rows.
    #[must_use]
    pub fn row_found<C, P>(&self, look_up: impl Looks<C, P>, row: usize) -> Option<usize> {
        let look_up = self.graph.if_there(look_up)?;
        self.results.row_found(look_up.at(row))
    }

    /// The rows of the lines that are told of: all but those that come only where there is
    /// too little of something, come to nothing and are not set by hand.
    pub fn lines_told(&self) -> impl Iterator<Item = usize> {
        let lines = LINES.gathered(&self.graph);
        let told = move |row: &usize| {
            let some = self.number(costs::QUANTITY, *row) > 0.0;
            some || !lines[*row].only_where_some || self.row_found(costs::SET, *row).is_some()
        };
        (0..self.rows::<Lines>()).filter(told)
    }

    /// The sign of the job's money.
    #[must_use]
    pub fn currency(&self) -> &str {
        match self.job.word(JobKeys::Currency) {
            "" => "$",
            sign => sign.split_whitespace().next().unwrap_or("$"),
        }
    }
}

/// Works a job out. Faults found by limits are in [`Estimate::findings`]; the values
/// stand all the same, for whoever wants to look.
#[must_use]
pub fn estimate(job: Job) -> Estimate {
    let mut estimate = worked_out(job);
    if !estimate.is_blocked() {
        estimate.swings = sensitivity::swings(&estimate);
    }
    estimate
}

/// Works a job out, apart from what its defaults do to the bid.
fn worked_out(job: Job) -> Estimate {
    let mut graph = Graph::new(job.system());
    make_rules(&mut graph, &job);
    let results = evaluate(&graph);
    let mut findings = findings::findings(&job, &graph, &results);
    findings.extend(findings::usual_cautions(&graph));
    Estimate {
        job,
        graph,
        results,
        findings,
        swings: Vec::new(),
    }
}

/// Adds the job's tables and every rule, in the order of the working pages.
fn make_rules(graph: &mut Graph, job: &Job) {
    inputs::load(graph, job);
    graph.make_lists(GROUND);
    built::built(graph);
    graph.make_lists(OF_THE_JOB);
    share_out_lines(graph, job);
    graph.make_lists(PRICES);
    if job.table::<Scenarios>().rows > 0 {
        graph.make_lists(labour::RULES);
    }
    graph.make_lists(PAPERS);
    bid::bid(graph);
}

/// What the job's tables say, and the basins.
const GROUND: &[&[&dyn Rule]] = &[
    quick::RULES,
    job_wide::RULES,
    production::RULES,
    works::RULES,
    outline::RULES,
    levels::RULES,
    shelves::RULES,
    basins::RULES,
    excavation::CUT,
    half_measured::RULES,
    excavation::RULES,
    &[&SHARED_GRADE],
];

/// What all basins share, and what is neither earthwork nor built.
const OF_THE_JOB: &[&[&dyn Rule]] = &[
    pumping::RULES,
    balance::RULES,
    items::RULES,
    purchase::RULES,
];

/// The lines, what they cost and what is done when.
const PRICES: &[&[&dyn Rule]] = &[lines::RULES, costs::RULES, activities::RULES];

/// What goes to the site on paper.
const PAPERS: &[&[&dyn Rule]] = &[sections::RULES, dig_sheet::RULES];

/// Decides which lines there are, and where the job has scenarios who works in which, with
/// the lines of those who do.
fn share_out_lines(graph: &mut Graph, job: &Job) {
    if job.table::<Scenarios>().rows > 0 {
        let mut lines = of_the_job(graph);
        share_out(graph, job, &lines);
        lines.extend(labour::lines(graph));
        LINES.decide(graph, lines);
    }
}
