//! The tree of one figure, down to cells and sources: as records, and as text made of them.
//!
//! Always true: each computed cell is followed once; where it comes again it is only named.

use std::fmt::Write;

use schemars::JsonSchema;
use serde::Serialize;

use super::names;
use super::pages::{self, Value, ValueKind};
use crate::estimate::{Estimate, place_of};
use crate::graph::evaluate::Answers;
use crate::graph::{Cell, Kind, Results, trace, words};

/// How many parts of one figure are shown.
const MOST_PARTS: usize = 12;

/// One figure, and the figures that it was made from.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Explained")]
pub struct ExplainedRecord {
    /// The table it stands in.
    pub table: &'static str,
    /// Its column.
    pub name: String,
    /// The name of its row; null where the table names none.
    pub row: Option<String>,
    /// What its value is.
    pub kind: ValueKind,
    /// The unit of a number; of a rate of money, what it is for.
    pub unit: Option<String>,
    /// The value.
    pub value: Value,
    /// The measured cell that it is; null where it was worked out.
    pub place: Option<String>,
    /// How it was worked out, with the numbers.
    pub working: Option<String>,
    /// Where the rule is published, or what it rests on.
    pub source: Option<&'static str>,
    /// Whether it came before in this tree, where its parts are.
    pub shown_above: bool,
    /// Whether it has parts that lie deeper than was asked for.
    pub cut_short: bool,
    /// How many more parts it has than are listed, for their number.
    pub left_out: usize,
    /// What it was made from.
    pub parts: Vec<ExplainedRecord>,
    #[serde(skip)]
    shown: String,
}

/// The trees of a name down to cells and sources: one for a figure, three for a line
/// (quantity, direct cost, amount); `None` if nothing has that name.
///
/// `depth` is how far they are followed. A name is that of a line (`Dig: Main pool`), of a
/// figure of the job (`bid`, `surplus`), or a table, a column and a row with slashes
/// (`Basins/finished volume/Main pool`).
#[must_use]
pub fn explained(estimate: &Estimate, name: &str, depth: usize) -> Option<Vec<ExplainedRecord>> {
    let cells = names::named(estimate, name);
    let mut tree = Tree {
        estimate,
        deepest: depth,
        answers: Answers::new(&estimate.graph, &estimate.results),
        shown: Vec::new(),
    };
    let trees: Vec<_> = cells.into_iter().map(|cell| tree.branch(cell, 0)).collect();
    Some(trees).filter(|trees| !trees.is_empty())
}

/// The same as text for people.
#[must_use]
pub fn explain(estimate: &Estimate, name: &str, depth: usize) -> Option<String> {
    let trees = explained(estimate, name, depth)?;
    let mut out = String::new();
    for tree in &trees {
        tell(tree, 0, &mut out);
    }
    Some(out)
}

struct Tree<'e> {
    estimate: &'e Estimate,
    deepest: usize,
    answers: Answers<'e>,
    shown: Vec<Cell>,
}

impl<'e> Tree<'e> {
    fn results(&self) -> &'e Results {
        &self.estimate.results
    }

    fn branch(&mut self, cell: Cell, depth: usize) -> ExplainedRecord {
        let graph = &self.estimate.graph;
        let mut record = self.bare(cell);
        let place = place_of(&self.estimate.job, graph, cell);
        if let Some(place) = place {
            record.place = Some(place.to_string());
            let followed = graph.followed(cell).into_iter();
            record.parts = followed.map(|from| self.branch(from, depth + 1)).collect();
            return record;
        }
        if self.shown.contains(&cell) {
            record.shown_above = true;
            return record;
        }
        self.shown.push(cell);
        let info = graph.column(cell.column);
        if let Kind::Step(expr) = &info.kind {
            let (results, currency) = (self.results(), self.estimate.currency());
            record.working = Some(words::filled(graph, results, expr, cell.row, currency));
        }
        record.source = info.source.map(|source| source.text);
        self.parts(cell, depth, &mut record);
        record
    }

    /// What a cell is, without what it was made from.
    fn bare(&self, cell: Cell) -> ExplainedRecord {
        let graph = &self.estimate.graph;
        let info = graph.column(cell.column);
        let shown = if info.is_text() {
            format!("\"{}\"", self.results().words(cell))
        } else {
            let currency = self.estimate.currency();
            let told = |value| words::quantity_in(value, info.unit, currency);
            let measured = self.results().measured(cell);
            measured.map_or("blank".to_owned(), told)
        };
        let table = graph.table(info.table);
        let label = table.label.filter(|label| *label != cell.column);
        let row = label.map(|label| self.results().words(label.at(cell.row)).to_owned());
        let column = pages::column(graph, cell.column);
        ExplainedRecord {
            table: table.name,
            name: info.name.clone(),
            row: row.filter(|row| !row.is_empty()),
            kind: column.kind,
            unit: column.unit,
            value: pages::value(self.estimate, cell),
            place: None,
            working: None,
            source: None,
            shown_above: false,
            cut_short: false,
            left_out: 0,
            parts: Vec::new(),
            shown,
        }
    }

    fn parts(&mut self, cell: Cell, depth: usize, record: &mut ExplainedRecord) {
        let (graph, results) = (&self.estimate.graph, self.results());
        let parts = trace::parts(graph, results, &mut self.answers, cell);
        if depth >= self.deepest && !parts.is_empty() {
            record.cut_short = true;
            return;
        }
        let worth = |part: &Cell| {
            let is_text = graph.column(part.column).is_text();
            is_text || results.number(*part) != 0.0 || parts.len() <= MOST_PARTS
        };
        let shown: Vec<Cell> = parts.iter().copied().filter(worth).collect();
        record.left_out = shown.len().saturating_sub(MOST_PARTS);
        let first = shown.into_iter().take(MOST_PARTS);
        record.parts = first.map(|part| self.branch(part, depth + 1)).collect();
    }
}

/// Writes one figure and its parts, each step further in.
fn tell(record: &ExplainedRecord, depth: usize, out: &mut String) {
    let [indent, deeper] = [depth, depth + 1].map(|depth| "  ".repeat(depth));
    let of = record.row.as_ref().map(|row| format!(" of {row}"));
    let of = of.unwrap_or_default();
    let _ = write!(out, "{indent}{}{of} = {}", record.name, record.shown);
    if let Some(place) = &record.place {
        let _ = write!(out, "   [{place}]");
    }
    if record.shown_above {
        let _ = write!(out, "   (shown above)");
    }
    let _ = writeln!(out);
    if let Some(working) = &record.working {
        let _ = writeln!(out, "{indent}  = {working}");
    }
    if let Some(source) = record.source {
        let _ = writeln!(out, "{indent}  source: {source}");
    }
    if record.cut_short {
        let _ = writeln!(out, "{deeper}(and so on: --depth goes further)");
    }
    for part in &record.parts {
        tell(part, depth + 1, out);
    }
    if record.left_out > 0 {
        let _ = writeln!(out, "{deeper}and {} more", record.left_out);
    }
}
