//! The first reading: what every column comes to.
//!
//! Columns are worked out in their order; each operation is done in the same order as
//! in the formula, so that the two agree to the last few bits.
//!
//! Always true: nothing panics; a number that cannot be worked out (a zero divisor) is
//! not finite, is listed by [`Results::unworkable`], and blocks the bid.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::expr::{Comparison, Condition, Expr, Function, Op, TextExpr};
use super::results::{Results, Values};
use super::{Cell, ColumnId, Graph, Kind, Piece};
use crate::money;

/// Works out every column.
#[must_use]
pub fn evaluate(graph: &Graph) -> Results {
    let columns = Vec::new();
    let mut work = Work::new(graph, Results { columns });
    for id in graph.columns() {
        work.column(id);
    }
    work.results
}

/// Asks conditions about finished results: which branch of a rule was taken.
#[derive(Debug)]
pub struct Answers<'g>(Work<'g>);

impl<'g> Answers<'g> {
    /// Answers from finished results.
    #[must_use]
    pub fn new(graph: &'g Graph, results: &Results) -> Self {
        Self(Work::new(graph, results.clone()))
    }

    /// Whether a condition holds in one row.
    pub fn holds(&mut self, condition: &Condition, row: usize, rows: usize) -> bool {
        condition.walk(&mut |part| self.0.prepare(part, rows));
        self.0.holds(condition, row)
    }
}

#[derive(Debug)]
pub(super) struct Work<'g> {
    graph: &'g Graph,
    pub(super) results: Results,
    sums: BTreeMap<(ColumnId, ColumnId), Vec<f64>>,
    totals: BTreeMap<ColumnId, f64>,
}

impl<'g> Work<'g> {
    pub(super) fn new(graph: &'g Graph, results: Results) -> Self {
        Self {
            graph,
            results,
            sums: BTreeMap::new(),
            totals: BTreeMap::new(),
        }
    }
}

impl Work<'_> {
    /// Works a column out: the next one, or again one that is there.
    pub(super) fn column(&mut self, id: ColumnId) {
        let graph = self.graph;
        let rows = graph.rows(id);
        match &graph.column(id).kind {
            Kind::Measured(values) | Kind::Given(values) | Kind::Surveyed(values, _) => {
                let mut values = values.clone();
                for (row, source) in graph.following(id) {
                    if let Some(value) = values.get_mut(row) {
                        *value = self.results.number(source);
                    }
                }
                self.set(id, Values::Numbers(values));
            }
            Kind::Step(expr) => {
                expr.walk(&mut |part| self.prepare(part, rows));
                self.fill(id, |work, row| work.number(expr, row));
            }
            Kind::Limit(condition, _) => {
                condition.walk(&mut |part| self.prepare(part, rows));
                self.fill(id, |work, row| work.flag(condition, row));
            }
            Kind::Lookup { key, parent } => {
                let found = self.look_up(*key, graph.table(*parent).label);
                self.set(id, Values::Numbers(found));
            }
            Kind::Gathered(cells) => self.fill(id, |work, row| work.gathered(cells, row)),
            Kind::Words { values, .. } => {
                let mut values = values.clone();
                for (row, source) in graph.following(id) {
                    let word = self.word(source);
                    if let Some(value) = values.get_mut(row) {
                        *value = word;
                    }
                }
                self.set(id, Values::Words(values));
            }
            Kind::WordStep(text) => {
                text.walk(&mut |part| self.prepare(part, rows));
                let words = (0..rows).map(|row| self.words(text, row)).collect();
                self.set(id, Values::Words(words));
            }
            Kind::GatheredWords(pieces) => {
                let words = pieces.iter().map(|row| self.joined(row)).collect();
                self.set(id, Values::Words(words));
            }
        }
    }

    fn set(&mut self, id: ColumnId, values: Values) {
        let values = Arc::new(values);
        match self.results.columns.get_mut(id.0) {
            Some(own) => *own = values,
            None => self.results.columns.push(values),
        }
    }

    /// Fills a column row by row; a row may read those above it.
    fn fill(&mut self, id: ColumnId, value: impl Fn(&Self, usize) -> f64) {
        let rows = self.graph.rows(id);
        self.set(id, Values::Numbers(Vec::with_capacity(rows)));
        for row in 0..rows {
            let number = value(self, row);
            if let Values::Numbers(numbers) = Arc::make_mut(&mut self.results.columns[id.0]) {
                numbers.push(number);
            }
        }
    }

    fn gathered(&self, cells: &[Option<Cell>], row: usize) -> f64 {
        let cell = cells.get(row).copied().flatten();
        cell.map_or(0.0, |cell| self.results.number(cell))
    }

    fn flag(&self, condition: &Condition, row: usize) -> f64 {
        f64::from(u8::from(self.holds(condition, row)))
    }

    /// One cell of a column of numbers by rule, from what stands in the others now; sums
    /// and totals that it reads have been prepared.
    pub(super) fn cell(&self, id: ColumnId, row: usize) -> f64 {
        match &self.graph.column(id).kind {
            Kind::Step(expr) => self.number(expr, row),
            Kind::Limit(condition, _) => self.flag(condition, row),
            Kind::Gathered(cells) => self.gathered(cells, row),
            _ => self.results.number(id.at(row)),
        }
    }

    fn look_up(&self, key: ColumnId, label: Option<ColumnId>) -> Vec<f64> {
        let mut rows_of: BTreeMap<String, usize> = BTreeMap::new();
        let named = label.map(|label| self.results.columns[label.0].as_ref());
        if let Some(Values::Words(names)) = named {
            for (row, name) in names.iter().enumerate().rev() {
                rows_of.insert(name.to_lowercase(), row + 1);
            }
        }
        match self.results.columns[key.0].as_ref() {
            Values::Words(keys) => {
                let row = |key: &Arc<str>| rows_of.get(&key.to_lowercase());
                #[allow(clippy::cast_precision_loss, reason = "a row number is far below 2^53")]
                let number = |key: &Arc<str>| row(key).map_or(0.0, |row| *row as f64);
                keys.iter().map(number).collect()
            }
            Values::Numbers(_) => Vec::new(),
        }
    }

    fn words(&self, text: &TextExpr, row: usize) -> Arc<str> {
        match text {
            TextExpr::Fixed(words) => words.as_str().into(),
            TextExpr::Here(column) => self.word(column.at(row)),
            TextExpr::Only(column) => self.word(column.at(0)),
            TextExpr::Linked(link, column) => match self.results.linked_row(*link, row) {
                Some(row) => self.word(column.at(row)),
                None => "".into(),
            },
            TextExpr::When(condition, yes, no) => {
                self.words(if self.holds(condition, row) { yes } else { no }, row)
            }
        }
    }

    fn word(&self, cell: Cell) -> Arc<str> {
        match self.results.columns[cell.column.0].as_ref() {
            Values::Words(words) => words.get(cell.row).cloned().unwrap_or_else(|| "".into()),
            Values::Numbers(_) => "".into(),
        }
    }

    fn joined(&self, pieces: &[Piece]) -> Arc<str> {
        match pieces {
            [Piece::Fixed(words)] => words.clone(),
            [Piece::Cell(cell)] => self.word(*cell),
            _ => {
                let parts = pieces.iter().map(|piece| match piece {
                    Piece::Fixed(words) => words.clone(),
                    Piece::Cell(cell) => self.word(*cell),
                });
                parts.collect::<Vec<_>>().concat().into()
            }
        }
    }

    /// Sums over children and totals are worked out once a column, not once a row.
    pub(super) fn prepare(&mut self, part: &Expr, rows: usize) {
        match part {
            Expr::SumOf { child, link } if !self.sums.contains_key(&(*child, *link)) => {
                let sums = self.summed(*child, *link, rows);
                self.sums.insert((*child, *link), sums);
            }
            Expr::Total(column) if !self.totals.contains_key(column) => {
                let rows = 0..self.graph.rows(*column);
                let total = rows.map(|row| self.results.number(column.at(row))).sum();
                self.totals.insert(*column, total);
            }
            _ => {}
        }
    }

    /// The sums for each of the parent's rows.
    fn summed(&self, child: ColumnId, link: ColumnId, parents: usize) -> Vec<f64> {
        let mut sums = vec![0.0; parents];
        for row in 0..self.graph.rows(child) {
            let parent = self.results.linked_row(link, row);
            if let Some(sum) = parent.and_then(|parent| sums.get_mut(parent)) {
                *sum += self.results.number(child.at(row));
            }
        }
        sums
    }
}

impl Work<'_> {
    fn number(&self, expr: &Expr, row: usize) -> f64 {
        let results = &self.results;
        match expr {
            Expr::Literal(number) => *number,
            Expr::Pi => std::f64::consts::PI,
            Expr::OneOf(_) => 1.0,
            Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => self.number(inner, row),
            Expr::Here(column) => results.number(column.at(row)),
            Expr::Only(column) => results.number(column.at(0)),
            Expr::Given(column, otherwise) => results
                .measured(column.at(row))
                .unwrap_or_else(|| self.number(otherwise, row)),
            Expr::Linked(link, column) => results
                .linked_row(*link, row)
                .map_or(0.0, |row| results.number(column.at(row))),
            Expr::Above {
                column,
                group,
                first,
            } => match results.row_above(*group, row) {
                Some(above) => results.number(column.at(above)),
                None => self.number(first, row),
            },
            Expr::SumOf { child, link } => self.sum_of(*child, *link, row),
            Expr::Total(column) => self.totals.get(column).copied().unwrap_or(0.0),
            Expr::Binary(op, left, right) => {
                binary(*op, self.number(left, row), self.number(right, row))
            }
            Expr::Call(function, arguments) => self.call(*function, arguments, row),
            Expr::When(condition, yes, no) => {
                self.number(if self.holds(condition, row) { yes } else { no }, row)
            }
            Expr::Convert(inner, ratio) => ratio.apply(self.number(inner, row)),
        }
    }

    /// A sum that [`Work::prepare`] has worked out.
    fn sum_of(&self, child: ColumnId, link: ColumnId, row: usize) -> f64 {
        let sums = self.sums.get(&(child, link));
        sums.and_then(|sums| sums.get(row)).copied().unwrap_or(0.0)
    }

    fn call(&self, function: Function, arguments: &[Expr], row: usize) -> f64 {
        let mut numbers = arguments.iter().map(|argument| self.number(argument, row));
        let first = numbers.next().unwrap_or(0.0);
        match function {
            Function::Lowest => numbers.fold(first, f64::min),
            Function::Highest => numbers.fold(first, f64::max),
            Function::Round(places) => money::round(first, places),
            Function::RoundUp => money::round_up(first, 0),
            Function::RoundDown => money::round_down(first, 0),
            Function::Root => first.sqrt(),
            Function::TwoThirds => libm::pow(first, 2.0 / 3.0),
        }
    }

    fn holds(&self, condition: &Condition, row: usize) -> bool {
        match condition {
            Condition::Compare(comparison, left, right) => {
                let apart = money::round(self.number(left, row) - self.number(right, row), 9);
                match comparison {
                    Comparison::Below => apart < 0.0,
                    Comparison::Above => apart > 0.0,
                    Comparison::AtLeast => apart >= 0.0,
                    Comparison::Same => apart == 0.0,
                    Comparison::Different => apart != 0.0,
                }
            }
            Condition::Blank(column) if self.graph.column(*column).is_text() => {
                self.results.words(column.at(row)).is_empty()
            }
            Condition::Blank(column) => self.results.measured(column.at(row)).is_none(),
            Condition::Is(column, words) => {
                let own = self.results.words(column.at(row));
                own.eq_ignore_ascii_case(words)
            }
            Condition::All(parts) => parts.iter().all(|part| self.holds(part, row)),
            Condition::Any(parts) => parts.iter().any(|part| self.holds(part, row)),
            Condition::Not(inner) => !self.holds(inner, row),
        }
    }
}

fn binary(op: Op, left: f64, right: f64) -> f64 {
    match op {
        Op::Add => left + right,
        Op::Subtract => left - right,
        Op::Multiply => left * right,
        Op::Divide => left / right,
    }
}
