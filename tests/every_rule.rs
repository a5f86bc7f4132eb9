//! Walks all rules and names each one that lacks something: a source, the error case of a
//! limit, an edit that is followed, a job that makes it.
//!
//! The rules are those of every job that is edited in a workbook and compared with a fresh
//! run: the very edits of those tests are worked out here by our own engine, and a rule
//! counts as followed where such an edit changes what it comes to. A limit, which seldom
//! breaks, counts as followed where an edit reaches it. What rests on no cell that flows,
//! such as the number of a row, needs no edit; words that decide which lines there are do not
//! flow, but ask for a new run.
//!
//! What is known to be lacking is listed in `gaps`. A list can only shrink: a rule on it
//! that lacks nothing fails the test as well.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::sync::OnceLock;

use groundsheet::diagnostic::Severity;
use groundsheet::estimate::Estimate;
use groundsheet::graph::{Breach, ColumnId, Kind, Results};
use groundsheet::job::columns::Fill;
use groundsheet::sources::{self, Source};

use crate::support::agreement::{Edit, Viewer, Written};
use crate::{agree, built, labour, lining, orders, quick, stone};

mod gaps;
mod written;

/// Everything that shows jobs with the edits that their workbooks follow.
const SHOWN: &[fn(Viewer<'_>)] = &[
    agree::show_edits,
    built::agreement::show_edits,
    labour::agreement::show_choices,
    labour::agreement::show_edits,
    labour::edits::show_edits,
    lining::live::show_edits,
    orders::show_edits,
    quick::show_edits,
    stone::agreement::show_edits,
];

/// The name of a rule, as `table, column`.
type Name = String;

/// What is known of a rule from all jobs.
#[derive(Default)]
struct Known {
    is: BTreeSet<Is>,
    /// How a limit is told, where it is one.
    told: Option<Told>,
}

/// How a limit is told.
struct Told {
    /// What the line of a text begins with.
    heading: String,
    /// The message in it.
    message: &'static str,
    /// The table that the line below it names.
    table: &'static str,
}

#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Is {
    /// It says something of its own, and so needs a source.
    Said,
    /// It has a source that the workbook lists.
    Sourced,
    /// It rests on a cell that flows, and so needs an edit.
    Flowing,
    /// An edit that the workbook follows changes it.
    Followed,
}

impl Known {
    fn set(&mut self, what: Is, whether: bool) {
        if whether {
            self.is.insert(what);
        }
    }

    fn is_only(&self, one: &Is, other: &Is) -> bool {
        self.is.contains(one) && !self.is.contains(other)
    }
}

/// The rules of all jobs.
#[derive(Default)]
struct Walk {
    rules: BTreeMap<Name, Known>,
    /// Where rules are written: file and line.
    written: BTreeSet<(String, u32)>,
}

/// The rules of all jobs, walked once.
fn walk() -> &'static Walk {
    static WALK: OnceLock<Walk> = OnceLock::new();
    WALK.get_or_init(|| {
        let mut walk = Walk::default();
        for show in SHOWN {
            show(&mut |written, batches| walk.see(written, &batches));
        }
        walk
    })
}

impl Walk {
    fn see(&mut self, written: &Written<'_>, batches: &[Vec<Edit>]) {
        self.name_rules(written.estimate);
        for edits in batches {
            if edits.iter().all(|edit| edit.needs_run.is_empty()) {
                let (typed, after) = written.worked_out_after(edits);
                self.follow(written.estimate, &typed, &after);
            }
        }
    }

    fn name_rules(&mut self, estimate: &Estimate) {
        let graph = &estimate.graph;
        let flows = |column: &ColumnId| match graph.column(*column).kind {
            Kind::Measured(_) => true,
            // Words that the program brings along stand still.
            Kind::Words { watched, .. } => {
                let written_by_a_person = graph.written_at(*column).is_none();
                !watched && written_by_a_person && !decides_lines(estimate, *column)
            }
            _ => false,
        };
        let live: Vec<ColumnId> = graph.columns().filter(flows).collect();
        for (column, reached) in graph.columns().zip(graph.reach(&live)) {
            let info = graph.column(column);
            if let Some(at) = graph.written_at(column) {
                self.written.insert((at.file().to_owned(), at.line()));
            }
            let known = self.rules.entry(name(estimate, column)).or_default();
            let says = matches!(
                info.kind,
                Kind::Step(_) | Kind::Brought(_) | Kind::Solved(_)
            );
            known.set(Is::Said, says);
            known.set(Is::Sourced, info.source.is_some_and(is_listed));
            known.set(Is::Flowing, reached && info.is_computed());
            if let Kind::Limit(_, breach) = &info.kind {
                let table = graph.column(breach.at).table;
                known.told = Some(Told {
                    heading: heading(breach),
                    message: breach.message,
                    table: graph.table(table).name,
                });
            }
        }
    }

    fn follow(&mut self, estimate: &Estimate, typed: &[ColumnId], after: &Results) {
        let graph = &estimate.graph;
        for (column, reached) in graph.columns().zip(graph.reach(typed)) {
            let followed = match graph.column(column).kind {
                Kind::Limit(..) => reached,
                _ => differs(estimate, column, after),
            };
            if let Some(known) = self.rules.get_mut(&name(estimate, column)) {
                known.set(Is::Followed, followed);
            }
        }
    }

    /// The names of the rules that lack something.
    fn lacking(&self, lacks: impl Fn(&Known) -> bool) -> Vec<&str> {
        let rules = self.rules.iter().filter(|(_, known)| lacks(known));
        rules.map(|(name, _)| &**name).collect()
    }
}

fn name(estimate: &Estimate, column: ColumnId) -> Name {
    let info = estimate.graph.column(column);
    let table = estimate.graph.table(info.table).name;
    format!("{table}, {}", info.name)
}

/// Whether words decide which lines there are, so that any other words there need a run.
fn decides_lines(estimate: &Estimate, column: ColumnId) -> bool {
    let name = name(estimate, column);
    let mut tables = estimate.job.tables().iter();
    tables.any(|data| {
        let mut columns = data.table.columns.iter();
        columns.any(|input| {
            input.fill == Fill::Arises && name == format!("{}, {}", data.table.name, input.heading)
        })
    })
}

fn is_listed(source: &Source) -> bool {
    sources::ALL
        .iter()
        .any(|known| std::ptr::eq(*known, source))
}

fn heading(breach: &Breach) -> String {
    let severity = match breach.severity {
        Severity::Error => "error",
        Severity::Open => "open",
        Severity::Warning => "warning",
        Severity::Caution => "caution",
    };
    format!("{severity}[{}]: ", breach.code.name())
}

fn differs(estimate: &Estimate, column: ColumnId, after: &Results) -> bool {
    let before = &estimate.results;
    (0..estimate.graph.rows(column)).any(|row| {
        let cell = column.at(row);
        before.measured(cell) != after.measured(cell) || before.words(cell) != after.words(cell)
    })
}

/// What lacks something is what is known to.
#[track_caller]
fn only_known(what: &str, lacking: &[&str], known: &[&str]) {
    let new: Vec<_> = lacking
        .iter()
        .filter(|name| !known.contains(name))
        .collect();
    assert!(new.is_empty(), "{what}: {new:#?}");
    let closed: Vec<_> = known
        .iter()
        .filter(|name| !lacking.contains(name))
        .collect();
    assert!(
        closed.is_empty(),
        "no longer a gap, so take it off the list ({what}): {closed:#?}"
    );
}

#[test]
fn every_rule_has_a_source() {
    let walk = walk();
    assert!(walk.rules.len() > 1400, "{} rules", walk.rules.len());
    let lacking = walk.lacking(|known| known.is_only(&Is::Said, &Is::Sourced));
    only_known("no source", &lacking, &[]);
}

#[test]
fn every_limit_has_an_error_case() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/errors");
    let cases = fs::read_dir(folder)
        .unwrap()
        .map(|case| case.unwrap().path());
    let texts: String = cases
        .filter_map(|case| fs::read_to_string(case.join("expected.txt")).ok())
        .collect();
    let lines: Vec<&str> = texts.lines().collect();
    let untold = |told: &Told| {
        // A name that is not there is refused when the job is read, in other words; the
        // limit is what a workbook says of it.
        let message = told
            .message
            .replace("this names a row that is not there", "");
        let is_told = |line: &[&str]| {
            line[0].starts_with(&told.heading)
                && line[0].contains(&message)
                && line[1].contains(told.table)
        };
        !lines.windows(2).any(is_told)
    };
    let lacking = walk().lacking(|known| known.told.as_ref().is_some_and(untold));
    only_known("no case in tests/errors", &lacking, &[]);
}

#[test]
fn every_rule_is_followed_through_an_edit() {
    let lacking = walk().lacking(|known| known.is_only(&Is::Flowing, &Is::Followed));
    only_known("no edit changes it", &lacking, gaps::WITHOUT_AN_EDIT);
}

#[test]
fn every_rule_that_is_written_is_made_in_some_job() {
    let made = &walk().written;
    let written = written::rules();
    assert!(written.len() > 800, "{} rules are written", written.len());
    let lacking: Vec<String> = written
        .into_iter()
        .filter(|rule| !made.contains(&(rule.file.clone(), rule.line)))
        .map(|rule| format!("{}, {}", rule.file, rule.name))
        .collect();
    let lacking: Vec<&str> = lacking.iter().map(|rule| &**rule).collect();
    only_known("no edited job makes it", &lacking, &[]);
}
