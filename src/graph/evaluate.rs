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
    let mut work = Work {
        graph,
        results: Results {
            columns: Vec::new(),
        },
        sums: BTreeMap::new(),
        totals: BTreeMap::new(),
    };
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
        let results = results.clone();
        Self(Work {
            graph,
            results,
            sums: BTreeMap::new(),
            totals: BTreeMap::new(),
        })
    }

    /// Whether a condition holds in one row.
    pub fn holds(&mut self, condition: &Condition, row: usize, rows: usize) -> bool {
        condition.walk(&mut |part| self.0.prepare(part, rows));
        self.0.holds(condition, row)
    }
}

#[derive(Debug)]
struct Work<'g> {
    graph: &'g Graph,
    results: Results,
    sums: BTreeMap<(ColumnId, ColumnId), Vec<f64>>,
    totals: BTreeMap<ColumnId, f64>,
}

impl Work<'_> {
    fn column(&mut self, id: ColumnId) {
        let graph = self.graph;
        let rows = graph.rows(id);
        match &graph.column(id).kind {
            Kind::Measured(values) | Kind::Given(values) | Kind::Surveyed(values, _) => {
                self.results.columns.push(Values::Numbers(values.clone()));
            }
            Kind::Step(expr) => {
                expr.walk(&mut |part| self.prepare(part, rows));
                self.fill(rows, |work, row| work.number(expr, row));
            }
            Kind::Limit(condition, _) => {
                condition.walk(&mut |part| self.prepare(part, rows));
                self.fill(rows, |work, row| {
                    f64::from(u8::from(work.holds(condition, row)))
                });
            }
            Kind::Lookup { key, parent } => self.look_up(*key, graph.table(*parent).label),
            Kind::Gathered(cells) => {
                self.fill(rows, |work, row| {
                    cells
                        .get(row)
                        .copied()
                        .flatten()
                        .map_or(0.0, |cell| work.results.number(cell))
                });
            }
            Kind::Words { values, .. } => self.results.columns.push(Values::Words(values.clone())),
            Kind::WordStep(text) => {
                let words = (0..rows).map(|row| self.words(text, row)).collect();
                self.results.columns.push(Values::Words(words));
            }
            Kind::GatheredWords(pieces) => {
                let words = pieces.iter().map(|row| self.joined(row)).collect();
                self.results.columns.push(Values::Words(words));
            }
        }
    }

    fn fill(&mut self, rows: usize, value: impl Fn(&Self, usize) -> f64) {
        let at = self.results.columns.len();
        self.results
            .columns
            .push(Values::Numbers(Vec::with_capacity(rows)));
        for row in 0..rows {
            let number = value(self, row);
            if let Values::Numbers(numbers) = &mut self.results.columns[at] {
                numbers.push(number);
            }
        }
    }

    fn look_up(&mut self, key: ColumnId, label: Option<ColumnId>) {
        let mut rows_of: BTreeMap<String, usize> = BTreeMap::new();
        if let Some(Values::Words(names)) = label.map(|label| &self.results.columns[label.0]) {
            for (row, name) in names.iter().enumerate().rev() {
                rows_of.insert(name.to_lowercase(), row + 1);
            }
        }
        let found = match &self.results.columns[key.0] {
            Values::Words(keys) => {
                #[allow(clippy::cast_precision_loss)] // a row number is far below 2^53
                keys.iter()
                    .map(|key| {
                        rows_of
                            .get(&key.to_lowercase())
                            .map_or(0.0, |row| *row as f64)
                    })
                    .collect()
            }
            Values::Numbers(_) => Vec::new(),
        };
        self.results.columns.push(Values::Numbers(found));
    }

    fn words(&self, text: &TextExpr, row: usize) -> Arc<str> {
        match text {
            TextExpr::Fixed(words) => words.as_str().into(),
            TextExpr::Here(column) => self.word(Cell {
                column: *column,
                row,
            }),
            TextExpr::Only(column) => self.word(Cell {
                column: *column,
                row: 0,
            }),
            TextExpr::Linked(link, column) => match self.linked_row(*link, row) {
                Some(row) => self.word(Cell {
                    column: *column,
                    row,
                }),
                None => "".into(),
            },
            TextExpr::When(condition, yes, no) => {
                self.words(if self.holds(condition, row) { yes } else { no }, row)
            }
        }
    }

    fn word(&self, cell: Cell) -> Arc<str> {
        match &self.results.columns[cell.column.0] {
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

    fn linked_row(&self, link: ColumnId, row: usize) -> Option<usize> {
        let found = self.results.number(Cell { column: link, row });
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        // made by `look_up`, or compared by it
        (found >= 1.0).then(|| found as usize - 1)
    }

    /// Sums over children and totals are worked out once a column, not once a row.
    fn prepare(&mut self, part: &Expr, rows: usize) {
        match part {
            Expr::SumOf { child, link } if !self.sums.contains_key(&(*child, *link)) => {
                let sums = self.summed(*child, *link, rows);
                self.sums.insert((*child, *link), sums);
            }
            Expr::Total(column) if !self.totals.contains_key(column) => {
                let rows = 0..self.graph.rows(*column);
                let total = rows
                    .map(|row| {
                        self.results.number(Cell {
                            column: *column,
                            row,
                        })
                    })
                    .sum();
                self.totals.insert(*column, total);
            }
            _ => {}
        }
    }

    /// The sums for each of the parent's rows.
    fn summed(&self, child: ColumnId, link: ColumnId, parents: usize) -> Vec<f64> {
        let mut sums = vec![0.0; parents];
        for row in 0..self.graph.rows(child) {
            if let Some(sum) = self
                .linked_row(link, row)
                .and_then(|parent| sums.get_mut(parent))
            {
                *sum += self.results.number(Cell { column: child, row });
            }
        }
        sums
    }
}

impl Work<'_> {
    fn number(&self, expr: &Expr, row: usize) -> f64 {
        let here = |column: &ColumnId| {
            self.results.number(Cell {
                column: *column,
                row,
            })
        };
        match expr {
            Expr::Literal(number) => *number,
            Expr::Pi => std::f64::consts::PI,
            Expr::OneOf(_) => 1.0,
            Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => self.number(inner, row),
            Expr::Here(column) => here(column),
            Expr::Only(column) => self.results.number(Cell {
                column: *column,
                row: 0,
            }),
            Expr::Given(column, otherwise) => self
                .results
                .measured(Cell {
                    column: *column,
                    row,
                })
                .unwrap_or_else(|| self.number(otherwise, row)),
            Expr::Linked(link, column) => self.linked_row(*link, row).map_or(0.0, |row| {
                self.results.number(Cell {
                    column: *column,
                    row,
                })
            }),
            Expr::Above {
                column,
                group,
                first,
            } => {
                let same_group = |group: &ColumnId| {
                    row > 0
                        && here(group)
                            == self.results.number(Cell {
                                column: *group,
                                row: row - 1,
                            })
                };
                match group {
                    Some(group) if !same_group(group) => self.number(first, row),
                    None if row == 0 => self.number(first, row),
                    _ => self.results.number(Cell {
                        column: *column,
                        row: row.saturating_sub(1),
                    }),
                }
            }
            Expr::SumOf { child, link } => self
                .sums
                .get(&(*child, *link))
                .and_then(|sums| sums.get(row))
                .copied()
                .unwrap_or(0.0),
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

    fn call(&self, function: Function, arguments: &[Expr], row: usize) -> f64 {
        let mut numbers = arguments.iter().map(|argument| self.number(argument, row));
        let first = numbers.next().unwrap_or(0.0);
        match function {
            Function::Lowest => numbers.fold(first, f64::min),
            Function::Highest => numbers.fold(first, f64::max),
            Function::Root => first.sqrt(),
            Function::Round(places) => money::round(first, places),
            Function::RoundUp => money::round_up(first, 0),
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
            Condition::Blank(column) => {
                let cell = Cell {
                    column: *column,
                    row,
                };
                if self.graph.column(*column).is_text() {
                    self.results.words(cell).is_empty()
                } else {
                    self.results.measured(cell).is_none()
                }
            }
            Condition::Is(column, words) => self
                .results
                .words(Cell {
                    column: *column,
                    row,
                })
                .eq_ignore_ascii_case(words),
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
