//! Scenarios side by side as text for people, and as CSV.

use std::fmt::Write;

use rust_decimal::Decimal;

use super::{Comparison, ScenarioRecord};
use crate::graph::words;
use crate::money;
use crate::units::PERCENT;
use crate::write::records;

/// How wide a terminal is taken to be.
const WIDE: usize = 100;
const HEADINGS: [&str; 6] = [
    "bid",
    "saving",
    "client's cost",
    "h given",
    "in kind",
    "days",
];

/// The scenarios as CSV, with words that no spreadsheet program takes for a formula.
#[must_use]
pub fn comparison_csv(comparison: &Comparison) -> String {
    let all = comparison.scenarios.iter().map(|scenario| ScenarioRecord {
        scenario: records::harmless(&scenario.scenario),
        ..scenario.clone()
    });
    records::csv(&all.collect::<Vec<_>>()).unwrap_or_default()
}

/// The scenarios as text that fits a terminal.
#[must_use]
pub fn comparison_text(comparison: &Comparison) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "{}", comparison.job);
    let _ = writeln!(out, "This bid is priced with: {}\n", comparison.in_use);
    side_by_side(&mut out, comparison);
    for scenario in comparison.scenarios.iter().skip(1) {
        one_scenario(&mut out, comparison, scenario);
    }
    if comparison.scenarios.len() > 1 {
        let _ = writeln!(
            out,
            "Hours given are valued beside the cost and are no part of a saving. Local law on volunteers,\nminors and wages comes first."
        );
    }
    out
}

/// One line a scenario; a name that is too long for it stands on a line of its own.
fn side_by_side(out: &mut String, comparison: &Comparison) {
    let sign = &comparison.currency;
    let amount = |amount: Decimal| {
        let minus = if amount < Decimal::ZERO { "-" } else { "" };
        format!("{minus}{sign}{}", grouped(amount.abs()))
    };
    let row = |of: &ScenarioRecord| {
        [
            amount(of.bid),
            amount(of.saving),
            amount(of.client_whole_cost),
            money::show(of.hours_given, 1),
            amount(of.in_kind),
            money::show(of.working_days, 0),
        ]
    };
    let rows: Vec<[String; 6]> = comparison.scenarios.iter().map(row).collect();
    let widths: Vec<usize> = (0..HEADINGS.len())
        .map(|at| {
            let all = rows.iter().map(|row| &*row[at]).chain([HEADINGS[at]]);
            all.map(letters).max().unwrap_or(0) + 2
        })
        .collect();
    let room = WIDE.saturating_sub(widths.iter().sum());
    let mut line = |name: &str, cells: &[&str]| {
        let name = if letters(name) > room {
            let _ = writeln!(out, "{name}");
            ""
        } else {
            name
        };
        let _ = write!(out, "{name:<room$}");
        for (cell, width) in cells.iter().zip(&widths) {
            let _ = write!(out, "{cell:>width$}");
        }
        out.push('\n');
    };
    line("Scenario", &HEADINGS);
    for (of, row) in comparison.scenarios.iter().zip(&rows) {
        line(&of.scenario, &row.each_ref().map(|cell| &**cell));
    }
    out.push('\n');
}

fn letters(words: &str) -> usize {
    words.chars().count()
}

/// Writes parts on one line as far as they fit, and on as many as they need.
fn wrapped(out: &mut String, parts: &[String]) {
    let mut line = String::from(" ");
    for part in parts {
        let full = letters(&line) + 1 + letters(part.trim_end()) > WIDE;
        if full && !line.trim().is_empty() {
            let _ = writeln!(out, "{}", line.trim_end());
            line = String::from("     ");
        }
        let _ = write!(line, " {part}");
    }
    let _ = writeln!(out, "{}", line.trim_end());
}

/// What one scenario displaces, and what it comes to if partners do not turn up.
fn one_scenario(out: &mut String, comparison: &Comparison, of: &ScenarioRecord) {
    let sign = &comparison.currency;
    let hours = |hours: f64| money::show(hours, 1);
    let _ = writeln!(out, "{}: {}", of.scenario, of.difference);
    let _ = writeln!(
        out,
        "  {} crew hours displaced ({} by person); {} h of leads, {} h of training; sessions: {}",
        hours(of.crew_hours_displaced),
        hours(of.person_hours_displaced),
        hours(of.lead_hours),
        hours(of.training_hours),
        money::show(of.sessions, 0)
    );
    let own = |scenario: &str| scenario == of.scenario;
    let tasks = comparison.tasks.iter();
    for task in tasks.filter(|task| own(&task.scenario)) {
        let pace = pace(task.break_even_pace);
        let parts = [
            format!("{:<30}", task.line),
            format!("{:<18}", task.partner),
            format!("{};", saved(sign, task.saving)),
            format!("{} {pace}", task.meaning),
        ];
        wrapped(out, &parts);
    }
    let rows = comparison.if_they_do_not_turn_up.iter();
    for row in rows.filter(|row| own(&row.scenario) && row.delivered < 100.0) {
        let _ = writeln!(
            out,
            "  {:>3} % delivered: bid {sign}{}, {}, we bear {sign}{}, {} days",
            row.delivered,
            grouped(row.bid),
            saved(sign, row.saving),
            grouped(row.borne_by_us),
            money::show(row.working_days, 0)
        );
    }
    out.push('\n');
}

/// A saving in words, or what it costs more.
fn saved(sign: &str, amount: Decimal) -> String {
    if amount.is_sign_negative() {
        format!("costs {sign}{} more", grouped(-amount))
    } else {
        format!("saves {sign}{}", grouped(amount))
    }
}

fn pace(percent: f64) -> String {
    if percent > 0.0 {
        format!("({})", words::quantity(percent, PERCENT))
    } else {
        String::new()
    }
}

/// An amount with its thousands set apart.
fn grouped(amount: Decimal) -> String {
    let number: f64 = amount.to_string().parse().unwrap_or_default();
    money::show(number, 2)
}
