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
            let pieces = rows.get(cell.row).into_iter().flatten();
            trace.found.extend(pieces.filter_map(|piece| match piece {
                Piece::Cell(cell) => Some(*cell),
                Piece::Fixed(_) => None,
            }));
        }
        Kind::Solved(solve) => solve.inputs.iter().for_each(|input| trace.all(*input)),
        Kind::Measured(_) | Kind::Brought(_) | Kind::Words { .. } => {
            trace.found.extend(graph.followed(cell));
        }
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
        let cell = column.at(row);
        if !self.found.contains(&cell) {
            self.found.push(cell);
        }
    }

    fn here(&mut self, column: ColumnId) {
        self.add(column, self.row);
    }

    fn all(&mut self, column: ColumnId) {
        for row in 0..self.graph.rows(column) {
            self.add(column, row);
        }
    }

    fn linked(&mut self, link: ColumnId, column: ColumnId) {
        if let Some(row) = self.results.linked_row(link, self.row) {
            self.add(column, row);
        }
    }

    fn expr(&mut self, expr: &Expr) {
        match expr {
            Expr::Literal(_) | Expr::Pi | Expr::OneOf(_) => {}
            Expr::Here(column) => self.here(*column),
            Expr::Only(column) => self.add(*column, 0),
            Expr::OrElse(column, otherwise) => self.or_else(*column, otherwise),
            Expr::Linked(link, column) => self.linked(*link, *column),
            Expr::RowAbove {
                column,
                group,
                first,
            } => match self.results.row_above(*group, self.row) {
                Some(above) => self.add(*column, above),
                None => self.expr(first),
            },
            Expr::RowBelow {
                column,
                group,
                last,
            } => match self.results.row_below(*group, self.row, self.rows) {
                Some(below) => self.add(*column, below),
                None => self.expr(last),
            },
            Expr::FirstOf { column, group } => {
                if let Some(first) = self.results.first_of(*group, self.row) {
                    self.add(*column, first);
                }
            }
            Expr::NamedAbove { column, link, none } => {
                match self.results.linked_above(*link, self.row) {
                    Some(above) => self.add(*column, above),
                    None => self.expr(none),
                }
            }
            Expr::NamingBelow {
                column, link, none, ..
            } => {
                let below: Vec<usize> = self.results.linked_below(*link, self.row).collect();
                if below.is_empty() {
                    self.expr(none);
                }
                for row in below {
                    self.add(*column, row);
                }
            }
            Expr::Naming { column, link, .. } => self.naming(*column, *link),
            Expr::All(_, column) => self.all(*column),
            Expr::Binary(_, left, right) => {
                self.expr(left);
                self.expr(right);
            }
            Expr::Call(_, arguments) => arguments.iter().for_each(|argument| self.expr(argument)),
            Expr::When(condition, yes, no) => {
                let taken = if self.holds(condition) { yes } else { no };
                self.expr(taken);
                self.condition(condition);
            }
            Expr::Convert(inner, _) | Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => {
                self.expr(inner);
            }
        }
    }

    /// The measured cell, or what stands in for it where it is blank.
    fn or_else(&mut self, column: ColumnId, otherwise: &Expr) {
        if self.results.measured(column.at(self.row)).is_some() {
            self.here(column);
        } else {
            self.expr(otherwise);
        }
    }

    /// The rows of another table that name this one.
    fn naming(&mut self, column: ColumnId, link: ColumnId) {
        for row in 0..self.graph.rows(column) {
            if self.results.linked_row(link, row) == Some(self.row) {
                self.add(column, row);
            }
        }
    }

    fn holds(&mut self, condition: &Condition) -> bool {
        self.answers.holds(condition, self.row, self.rows)
    }

    fn condition(&mut self, condition: &Condition) {
        match condition {
            Condition::Compare(_, left, right) => {
                self.expr(left);
                self.expr(right);
            }
            Condition::Blank(column) | Condition::Is(column, _) => self.here(*column),
            Condition::All(parts) | Condition::Any(parts) => {
                for part in parts {
                    self.condition(part);
                }
            }
            Condition::Not(inner) => self.condition(inner),
        }
    }

    fn words(&mut self, text: &TextExpr) {
        match text {
            TextExpr::Fixed(_) => {}
            TextExpr::Here(column) => self.here(*column),
            TextExpr::Only(column) => self.add(*column, 0),
            TextExpr::Linked(link, column) => self.linked(*link, *column),
            TextExpr::When(condition, yes, no) => {
                let taken = if self.holds(condition) { yes } else { no };
                self.words(taken);
            }
        }
    }
}
