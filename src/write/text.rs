//! Text for people: the one-screen summary, and the take-off.

use std::fmt::Write;

use super::head;
use crate::bid::amounts::{SECTION, SECTION_AMOUNT};
use crate::bid::{self, certainty, cost, scenarios};
use crate::estimate::Estimate;
use crate::graph::words;
use crate::labour::compared;
use crate::money;
use crate::pricing::costs::QUANTITY;
use crate::pricing::lines;
use crate::tables::{Earthwork, Grades, Sections};
use crate::takeoff::balance;

/// The scenario in use and what it saves, where a job has scenarios.
fn scenario(estimate: &Estimate) -> String {
    if !estimate.has_scenarios() {
        return String::new();
    }
    let name = estimate.words(compared::NAME_IN_USE, 0);
    let row = estimate.number(compared::ROW_IN_USE, 0) - 1.0;
    if row < 1.0 {
        return format!("  Scenario: {name}\n");
    }
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a row number from one on"
    )]
    let saved = estimate.number(scenarios::SAVING, row.max(0.0) as usize);
    let (sign, amount) = (estimate.currency(), money::show(saved.abs(), 2));
    let said = if saved < 0.0 { "costs" } else { "saves" };
    let more = if saved < 0.0 { "more than" } else { "against" };
    format!("  Scenario: {name}, which {said} {sign}{amount} {more} the crew alone\n")
}

/// The one-screen summary of a bid.
#[must_use]
pub fn summary(estimate: &Estimate) -> String {
    let currency = estimate.currency();
    let mut out = String::new();
    let _ = writeln!(out, "{}", head::title(estimate));
    out.push_str(&scenario(estimate));
    let mut figure = |name: &str, value: f64| {
        let amount = money::show(value, 2);
        let _ = writeln!(out, "  {name:<40} {currency}{amount:>14}");
    };
    for row in 0..estimate.rows::<Sections>() {
        let amount = estimate.number(SECTION_AMOUNT, row);
        figure(estimate.words(SECTION, row), amount);
    }
    figure("BID", estimate.bid());
    figure("of which direct cost", estimate.number(cost::DIRECT, 0));
    figure("of which mark-ups", estimate.number(bid::MARK_UPS, 0));
    let rounding = estimate.number(bid::ROUNDING, 0);
    if rounding != 0.0 {
        figure("of which rounding of unit prices", rounding);
    }
    let _ = write!(out, "{}", certainty(estimate));
    let volume = estimate.job.system().bank();
    let volume = |column| words::quantity(estimate.number::<Earthwork>(column, 0), volume);
    let _ = writeln!(
        out,
        "  Earth: {} dug, {} filled, {} taken away, {} brought in",
        volume(balance::DUG),
        volume(balance::FILLED),
        volume(balance::SURPLUS),
        volume(balance::BROUGHT)
    );
    let _ = writeln!(
        out,
        "  Hours: {} crew, {} machine; {} working days",
        money::show(estimate.number(bid::CREW_HOURS, 0), 1),
        money::show(estimate.number(bid::MACHINE_HOURS, 0), 1),
        money::show(estimate.number(bid::WORKING_DAYS, 0), 0)
    );
    let _ = writeln!(
        out,
        "  Status: {}",
        if estimate.is_draft() {
            "DRAFT, open points above"
        } else {
            "complete"
        }
    );
    out
}

/// The bid by grade of its measures, and the defaults that move it most.
fn certainty(estimate: &Estimate) -> String {
    let currency = estimate.currency();
    let mut out = String::new();
    for row in 0..estimate.rows::<Grades>() {
        let amount = estimate.number(certainty::AMOUNT, row);
        if amount != 0.0 {
            let grade = format!("on what is {}", estimate.words(certainty::GRADE, row));
            let amount = money::show(amount, 2);
            let share = money::show(estimate.number(certainty::SHARE, row), 0);
            let _ = writeln!(out, "  {grade:<40} {currency}{amount:>14} {share:>4} %");
        }
    }
    if !estimate.swings.is_empty() {
        let _ = writeln!(out, "  Defaults that move the bid most:");
    }
    for swing in &estimate.swings {
        let unit = swing.factor.unit(estimate.job.system());
        let [from, to] = [swing.default, swing.tried].map(money::trimmed);
        let (name, change) = (swing.factor.name(), money::show(swing.change, 2));
        let tried = format!("{to} {unit}");
        let tried = tried.trim_end();
        let _ = writeln!(
            out,
            "    {name:<38} {currency}{change:>14}   {from}, tried as {tried}"
        );
    }
    out
}

/// Every quantity, one a line.
#[must_use]
pub fn take_off(estimate: &Estimate) -> String {
    let mut out = String::new();
    let mut section = "";
    for row in estimate.lines_told() {
        let own = estimate.words(lines::SECTION, row);
        if own != section {
            let _ = writeln!(out, "{own}");
            section = own;
        }
        let quantity = money::trimmed(estimate.number(QUANTITY, row));
        let unit = crate::units::Unit::parse(estimate.words(lines::UNIT, row))
            .map_or(String::new(), |unit| unit.to_string());
        let _ = writeln!(
            out,
            "  {:<26} {quantity:>12} {unit:<14} {}",
            estimate.words(lines::NAME, row),
            estimate.words(lines::DESCRIPTION, row)
        );
    }
    out
}
