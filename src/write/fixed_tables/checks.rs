//! Checks and changes: what is broken, and what an edit cannot follow.

use super::Look::{Count, Either, Flag, Words};
use super::{Entry, Form, column};
use crate::diagnostic::Severity;
use crate::estimate::Estimate;
use crate::graph::ColumnId;
use crate::graph::rule::whole;
use crate::write::changes::Watch;
use crate::write::fact::Fact;
use crate::write::layout::BookLayout;
use crate::write::sheets::ROWS;

pub(super) const CHECKS: Form = Form {
    title: "Checks",
    columns: &[
        column("Check", 34.0, Words),
        column("Kind", 10.0, Words),
        column("What it means", 60.0, Words).fitted(58.0),
        column("Rows", 8.0, Count),
        column("First", 26.0, Words),
        column("Listed as", 10.0, Count),
        column("What to do", 60.0, Words).fitted(58.0),
    ],
    exported: &[0, 1, 2, 3, 4, 6],
};

pub(super) const CHANGES: Form = Form {
    title: "Changes",
    columns: &[
        column("Watched", 44.0, Words),
        column("Then", 60.0, Either).fitted(58.0),
        column("Now", 60.0, Either),
        column("Changed", 10.0, Flag),
    ],
    exported: &[],
};

/// How many rows break a limit of this severity.
pub(in crate::write) fn broken_rows(estimate: &Estimate, severity: Severity) -> f64 {
    let limits = estimate.graph.limits();
    limits
        .filter(|(_, breach)| breach.severity == severity)
        .fold(0.0, |rows, (id, _)| rows + rows_that_break(estimate, id))
}

/// How many rows break a limit: none, and not less than nothing, where there are no rows.
fn rows_that_break(estimate: &Estimate, limit: ColumnId) -> f64 {
    let numbers = estimate.results.numbers(limit).iter();
    whole(numbers.filter(|number| **number > 0.5).count())
}

/// The name of the first row that breaks a limit, if any does; empty where rows have none.
pub(in crate::write) fn first_broken(estimate: &Estimate, limit: ColumnId) -> Option<&str> {
    let numbers = estimate.results.numbers(limit);
    let row = numbers.iter().position(|number| *number > 0.5)?;
    let table = estimate.graph.column(limit).table;
    let label = estimate.graph.table(table).label;
    Some(label.map_or("", |label| estimate.results.words(label.at(row))))
}

/// Whether the bid page lists a limit of this severity.
pub(in crate::write) fn listed(severity: Severity) -> bool {
    matches!(severity, Severity::Error | Severity::Open)
}

fn kind(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "fault",
        Severity::Open => "open",
        Severity::Warning => "warning",
        Severity::Caution => "caution",
    }
}

/// Every limit: what it means, how many rows break it, and the first of them.
pub(super) fn checks<'e>(
    estimate: &'e Estimate,
    layout: &BookLayout,
    at: usize,
) -> Vec<Vec<Entry<'e>>> {
    let graph = &estimate.graph;
    let mut listed_so_far = 0.0;
    let row = |(row, (id, breach)): (u32, (ColumnId, &'e crate::graph::Breach))| {
        let table = graph.table(graph.column(id).table);
        let range = layout.range(at, id, table.rows);
        let first = first_broken(estimate, id);
        let named = table.label.map_or("\"\"".to_owned(), |label| {
            let labels = layout.range(at, label, table.rows);
            format!("IFERROR(INDEX({labels},MATCH(1,{range},0))&\"\",\"\")")
        });
        let counts = listed(breach.severity) && first.is_some();
        listed_so_far += f64::from(u8::from(counts));
        let broken = rows_that_break(estimate, id);
        vec![
            Entry::words(format!("{}: {}", table.name, graph.column(id).name)),
            Entry::words(kind(breach.severity)),
            Entry::words(breach.message),
            Entry::Live(format!("SUM({range})"), Fact::Number(broken)),
            Entry::Live(named, Fact::words(first.unwrap_or_default())),
            listed_as(row, if counts { listed_so_far } else { 0.0 }),
            Entry::words(breach.hint),
        ]
    };
    (ROWS..).zip(graph.limits()).map(row).collect()
}

/// The number under which the bid page lists a broken limit: 1, 2, 3 down the sheet.
fn listed_as<'e>(row: u32, number: f64) -> Entry<'e> {
    let first = ROWS + 1;
    let above = if row == ROWS {
        "0".to_owned()
    } else {
        format!("MAX(F${first}:F{row})")
    };
    let at = row + 1;
    let formula = format!("IF(AND(D{at}>0,OR(B{at}=\"fault\",B{at}=\"open\")),{above}+1,0)");
    Entry::Live(formula, Fact::Number(number))
}

/// What is watched: then, now, changed.
pub(super) fn changes(watched: Vec<Watch>) -> Vec<Vec<Entry<'static>>> {
    let row = |(row, watch): (u32, Watch)| {
        let at = row + 1;
        let differ = match watch.then {
            Fact::Number(_) => {
                format!("IF(AND(ISNUMBER(C{at}),ROUND(B{at}-N(C{at}),9)=0),0,1)")
            }
            Fact::Words(_) => format!("IF(EXACT(B{at},C{at}),0,1)"),
        };
        vec![
            Entry::words(watch.what),
            Entry::Set(watch.then.clone()),
            Entry::Live(watch.now, watch.then),
            Entry::Live(differ, Fact::Number(0.0)),
        ]
    };
    (ROWS..).zip(watched).map(row).collect()
}
