//! Text for people: the one-screen summary, the take-off, the tree of one figure.

use std::fmt::Write;

use super::names;
use crate::estimate::{Estimate, place_of};
use crate::graph::evaluate::Answers;
use crate::graph::{Cell, Kind, Results, trace, words};
use crate::job::tables::JobKeys;
use crate::money;

/// How many parts of one figure are shown.
const MOST_PARTS: usize = 12;

/// The one-screen summary of a bid.
#[must_use]
pub fn summary(estimate: &Estimate) -> String {
    let results = &estimate.results;
    let priced = &estimate.columns.priced;
    let currency = estimate.currency();
    let mut out = String::new();
    let _ = writeln!(out, "{}", estimate.job.word(JobKeys::JobName));
    for row in 0..estimate.graph.rows(priced.section.id) {
        let amount = money::show(results.at(priced.section_amount, row), 2);
        let _ = writeln!(
            out,
            "  {:<40} {currency}{amount:>14}",
            results.text(priced.section, row)
        );
    }
    let bid = &priced.bid;
    let mut figure = |name: &str, value: f64| {
        let amount = money::show(value, 2);
        let _ = writeln!(out, "  {name:<40} {currency}{amount:>14}");
    };
    figure("BID", results.at(bid.total, 0));
    figure("of which direct cost", results.at(bid.direct, 0));
    figure("of which mark-ups", results.at(bid.mark_ups, 0));
    if results.at(bid.rounding, 0) != 0.0 {
        figure(
            "of which rounding of unit prices",
            results.at(bid.rounding, 0),
        );
    }
    let _ = write!(out, "{}", certainty(estimate));
    let balance = &estimate.columns.balance;
    let volume = estimate.job.system().bank();
    let volume = |column| words::quantity(results.at(column, 0), volume);
    let _ = writeln!(
        out,
        "  Earth: {} dug, {} filled, {} taken away, {} brought in",
        volume(balance.dug),
        volume(balance.filled),
        volume(balance.surplus),
        volume(balance.brought)
    );
    let _ = writeln!(
        out,
        "  Hours: {} crew, {} machine; {} working days",
        money::show(results.at(bid.crew_hours, 0), 1),
        money::show(results.at(bid.machine_hours, 0), 1),
        money::show(results.at(bid.working_days, 0), 0)
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
    let grades = &estimate.columns.priced.grades;
    let mut out = String::new();
    for row in 0..estimate.graph.rows(grades.grade.id) {
        let amount = estimate.results.at(grades.amount, row);
        if amount != 0.0 {
            let grade = format!("on what is {}", estimate.results.text(grades.grade, row));
            let amount = money::show(amount, 2);
            let share = money::show(estimate.results.at(grades.share, row), 0);
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
    let lines = &estimate.columns.lines;
    let results = &estimate.results;
    let mut out = String::new();
    let mut section = "";
    for row in 0..estimate.graph.rows(lines.name.id) {
        let own = results.text(lines.section, row);
        if own != section {
            let _ = writeln!(out, "{own}");
            section = own;
        }
        let quantity = money::trimmed(results.at(lines.quantity, row));
        let unit = crate::units::Unit::parse(results.text(lines.unit, row))
            .map_or(String::new(), |unit| unit.to_string());
        let _ = writeln!(
            out,
            "  {:<26} {quantity:>12} {unit:<14} {}",
            results.text(lines.name, row),
            results.text(lines.description, row)
        );
    }
    out
}

/// The tree of one figure down to cells and sources, or `None` if nothing has that name.
///
/// `depth` is how far it is followed. A name is that of a line (`Dig: Main pool`), of a figure of the job (`bid`,
/// `surplus`), or a table, a column and a row with slashes (`Basins/finished volume/Main pool`).
#[must_use]
pub fn explain(estimate: &Estimate, name: &str, depth: usize) -> Option<String> {
    let cells = names::named(estimate, name);
    if cells.is_empty() {
        return None;
    }
    let mut tree = Tree {
        estimate,
        deepest: depth,
        answers: Answers::new(&estimate.graph, &estimate.results),
        out: String::new(),
        shown: Vec::new(),
    };
    for cell in cells {
        tree.branch(cell, 0);
    }
    Some(tree.out)
}

struct Tree<'e> {
    estimate: &'e Estimate,
    deepest: usize,
    answers: Answers<'e>,
    out: String,
    shown: Vec<Cell>,
}

impl<'e> Tree<'e> {
    fn results(&self) -> &'e Results {
        &self.estimate.results
    }

    fn branch(&mut self, cell: Cell, depth: usize) {
        let graph = &self.estimate.graph;
        let info = graph.column(cell.column);
        let indent = "  ".repeat(depth);
        let value = if info.is_text() {
            format!("\"{}\"", self.results().words(cell))
        } else {
            self.results()
                .measured(cell)
                .map_or("blank".to_owned(), |value| {
                    words::quantity_in(value, info.unit, self.estimate.currency())
                })
        };
        let label = graph
            .table(info.table)
            .label
            .filter(|label| *label != cell.column);
        let row = label
            .map(|label| {
                self.results().words(Cell {
                    column: label,
                    row: cell.row,
                })
            })
            .unwrap_or_default();
        let of = if row.is_empty() {
            String::new()
        } else {
            format!(" of {row}")
        };
        let _ = write!(self.out, "{indent}{}{of} = {value}", info.name);
        if let Some(place) = place_of(&self.estimate.job, graph, &self.estimate.columns, cell) {
            let _ = writeln!(self.out, "   [{place}]");
            if let Some(source) = graph.followed(cell) {
                self.branch(source, depth + 1);
            }
            return;
        }
        if self.shown.contains(&cell) {
            let _ = writeln!(self.out, "   (shown above)");
            return;
        }
        self.shown.push(cell);
        let _ = writeln!(self.out);
        if let Kind::Step(expr) = &info.kind {
            let filled = words::filled(
                graph,
                self.results(),
                expr,
                cell.row,
                self.estimate.currency(),
            );
            let _ = writeln!(self.out, "{indent}  = {filled}");
        }
        if let Some(source) = info.source {
            let _ = writeln!(self.out, "{indent}  source: {}", source.text);
        }
        self.parts(cell, depth);
    }

    fn parts(&mut self, cell: Cell, depth: usize) {
        let parts = trace::parts(
            &self.estimate.graph,
            &self.estimate.results,
            &mut self.answers,
            cell,
        );
        if depth >= self.deepest && !parts.is_empty() {
            let _ = writeln!(
                self.out,
                "{}(and so on: --depth goes further)",
                "  ".repeat(depth + 1)
            );
            return;
        }
        let worth = |part: &Cell| {
            let info = self.estimate.graph.column(part.column);
            info.is_text() || self.results().number(*part) != 0.0 || parts.len() <= MOST_PARTS
        };
        let shown: Vec<Cell> = parts.iter().copied().filter(worth).collect();
        for part in shown.iter().take(MOST_PARTS) {
            self.branch(*part, depth + 1);
        }
        if shown.len() > MOST_PARTS {
            let _ = writeln!(
                self.out,
                "{}and {} more",
                "  ".repeat(depth + 1),
                shown.len() - MOST_PARTS
            );
        }
    }
}
