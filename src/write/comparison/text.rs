//! Scenarios side by side as text for people, and as CSV.

use std::fmt::Write;

use rust_decimal::Decimal;

use super::{Comparison, ScenarioRecord};
use crate::graph::words;
use crate::money;
use crate::units::PERCENT;
use crate::write::records;

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

/// One line a scenario.
fn side_by_side(out: &mut String, comparison: &Comparison) {
    let sign = &comparison.currency;
    let heading = "Scenario";
    let _ = writeln!(
        out,
        "{heading:<28}{:>15}{:>14}{:>15}{:>9}{:>14}{:>6}",
        "bid", "saving", "client's cost", "h given", "in kind", "days"
    );
    for of in &comparison.scenarios {
        let name = if of.scenario.chars().count() > 27 {
            let _ = writeln!(out, "{}", of.scenario);
            ""
        } else {
            &of.scenario
        };
        let amount = |amount: Decimal| format!("{sign}{}", grouped(amount));
        let _ = writeln!(
            out,
            "{name:<28}{:>15}{:>14}{:>15}{:>9}{:>14}{:>6}",
            amount(of.bid),
            amount(of.saving),
            amount(of.client_whole_cost),
            money::show(of.hours_given, 1),
            amount(of.in_kind),
            money::show(of.working_days, 0)
        );
    }
    out.push('\n');
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
        let line: String = task.line.chars().take(30).collect();
        let _ = writeln!(
            out,
            "  {line:<30} {:<18} {}; {} {}",
            task.partner,
            saved(sign, task.saving),
            task.meaning,
            pace(task.break_even_pace)
        );
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
