//! From one cell to the cells it was made from, for `explain`.
//!
//! Only the branch that was taken is followed, so that the trace of a blank slope leads
//! to its default and not to the blank cell.

use super::evaluate::Answers;
use super::expr::{Condition, Expr, TextExpr};
use super::{Cell, ColumnId, Graph, Kind, Piece, Results};

/// The cells that a cell was made from, in the order of its rule, each once.
#[must_use]
pub fn parts(graph: &Graph, results: &Results, answers: &mut Answers<'_>, cell: Cell) -> Vec<Cell> {
    let mut trace = Trace {
        graph,
        results,
        answers,
        row: cell.row,
        rows: graph.rows(cell.column),
        found: Vec::new(),
    };
    match &graph.column(cell.column).kind {
        Kind::Step(expr) => trace.expr(expr),
        Kind::Limit(condition, _) => trace.condition(condition),
        Kind::Lookup { key, .. } => trace.add(*key, cell.row),
        Kind::Gathered(cells) => trace.found.extend(cells.get(cell.row).copied().flatten()),
        Kind::WordStep(text) => trace.words(text),
        Kind::GatheredWords(rows) => {
            let pieces = rows.get(cell.row).map_or(&[] as &[Piece], |row| row);
            trace.found.extend(pieces.iter().filter_map(|piece| {
                if let Piece::Cell(cell) = piece {
                    Some(*cell)
                } else {
                    None
                }
            }));
        }
        Kind::Surveyed(_, inputs) => inputs.iter().for_each(|input| trace.all(*input)),
        Kind::Measured(_) | Kind::Given(_) | Kind::Words { .. } => {}
    }
    trace.found.retain(|part| *part != cell);
    trace.found
}

struct Trace<'t, 'g> {
    graph: &'t Graph,
    results: &'t Results,
    answers: &'t mut Answers<'g>,
    row: usize,
    rows: usize,
    found: Vec<Cell>,
}

impl Trace<'_, '_> {
    fn add(&mut self, column: ColumnId, row: usize) {
        let cell = Cell { column, row };
        if !self.found.contains(&cell) {
            self.found.push(cell);
        }
    }

    fn all(&mut self, column: ColumnId) {
        (0..self.graph.rows(column)).for_each(|row| self.add(column, row));
    }

    fn linked_row(&self, link: ColumnId, row: usize) -> Option<usize> {
        let found = self.results.number(Cell { column: link, row });
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a row number
        (found >= 1.0).then(|| found as usize - 1)
    }

    fn expr(&mut self, expr: &Expr) {
        match expr {
            Expr::Literal(_) | Expr::Pi | Expr::OneOf(_) => {}
            Expr::Here(column) => self.add(*column, self.row),
            Expr::Only(column) => self.add(*column, 0),
            Expr::Given(column, otherwise) => {
                let cell = Cell {
                    column: *column,
                    row: self.row,
                };
                if self.results.measured(cell).is_some() {
                    self.add(*column, self.row)
                } else {
                    self.expr(otherwise)
                }
            }
            Expr::Linked(link, column) => {
                if let Some(row) = self.linked_row(*link, self.row) {
                    self.add(*column, row);
                }
            }
            Expr::Above {
                column,
                group,
                first,
            } => {
                let same = |group: &ColumnId| {
                    self.row > 0
                        && self.linked_row(*group, self.row)
                            == self.linked_row(*group, self.row - 1)
                };
                let above = group.as_ref().map_or(self.row > 0, same);
                if above {
                    self.add(*column, self.row - 1)
                } else {
                    self.expr(first)
                }
            }
            Expr::SumOf { child, link } => {
                let mine = |row: &usize| self.linked_row(*link, *row) == Some(self.row);
                let rows: Vec<usize> = (0..self.graph.rows(*child)).filter(mine).collect();
                rows.into_iter().for_each(|row| self.add(*child, row));
            }
            Expr::Total(column) => self.all(*column),
            Expr::Binary(_, left, right) => {
                self.expr(left);
                self.expr(right);
            }
            Expr::Call(_, arguments) => arguments.iter().for_each(|argument| self.expr(argument)),
            Expr::When(condition, yes, no) => {
                let taken = if self.answers.holds(condition, self.row, self.rows) {
                    yes
                } else {
                    no
                };
                self.expr(taken);
                self.condition(condition);
            }
            Expr::Convert(inner, _) | Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => {
                self.expr(inner)
            }
        }
    }

    fn condition(&mut self, condition: &Condition) {
        match condition {
            Condition::Compare(_, left, right) => {
                self.expr(left);
                self.expr(right);
            }
            Condition::Blank(column) | Condition::Is(column, _) => self.add(*column, self.row),
            Condition::All(parts) | Condition::Any(parts) => {
                parts.iter().for_each(|part| self.condition(part))
            }
            Condition::Not(inner) => self.condition(inner),
        }
    }

    fn words(&mut self, text: &TextExpr) {
        match text {
            TextExpr::Fixed(_) => {}
            TextExpr::Here(column) => self.add(*column, self.row),
            TextExpr::Only(column) => self.add(*column, 0),
            TextExpr::Linked(link, column) => {
                if let Some(row) = self.linked_row(*link, self.row) {
                    self.add(*column, row);
                }
            }
            TextExpr::When(condition, yes, no) => {
                let taken = if self.answers.holds(condition, self.row, self.rows) {
                    yes
                } else {
                    no
                };
                self.words(taken);
            }
        }
    }
}
