//! The second reading: one formula for a whole column.
//!
//! A column's formula is compiled once into a [`Template`]; only row numbers are
//! spliced in for each row. Written are only operators and functions on which
//! spreadsheet programs agree, and no text in arithmetic.
//!
//! Not here: where columns stand. A [`Layout`] says that.

mod elsewhere;
mod sheets;

use std::fmt::Write;

pub use sheets::Sheets;

use super::expr::{Comparison, Condition, Expr, Fold, Function, Op, TextExpr};
use super::home::{Home, Layout};
use super::reference::{literal, quoted};
use super::{ColumnId, Graph, Kind};
use crate::place::{column_letters, push_whole};
use crate::units::Ratio;

/// A formula with gaps for row numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Template {
    pieces: Vec<(String, Option<u32>)>,
}

impl Template {
    /// The formula in one row, counted from zero within the table.
    pub fn splice(&self, row: u32, out: &mut String) {
        for (text, base) in &self.pieces {
            out.push_str(text);
            if let Some(base) = base {
                push_whole(u64::from(base + row) + 1, out);
            }
        }
    }
}

/// The formula of a computed column, or `None` for a column of inputs.
///
/// Gathered columns have one reference a row instead: see [`push_gathered`](super::reference::push_gathered).
#[must_use]
pub fn template(graph: &Graph, layout: &dyn Layout, column: ColumnId) -> Option<Template> {
    let mut writer = Writer {
        graph,
        layout,
        home: layout.home(column),
        done: Vec::new(),
        text: String::new(),
    };
    match &graph.column(column).kind {
        Kind::Step(expr) => writer.expr(expr, Strength::Any),
        Kind::Limit(condition, _) => {
            writer.text.push_str("IF(");
            writer.condition(condition);
            writer.text.push_str(",1,0)");
        }
        Kind::Lookup { key, parent } => writer.look_up(*key, graph.table(*parent).label),
        Kind::WordStep(text) => writer.words(text),
        _ => return None,
    }
    writer.done.push((writer.text, None));
    Some(Template {
        pieces: writer.done,
    })
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Strength {
    Any,
    Sum,
    Product,
    Divisor,
}

struct Writer<'g> {
    graph: &'g Graph,
    layout: &'g dyn Layout,
    home: Home,
    done: Vec<(String, Option<u32>)>,
    text: String,
}

impl Writer<'_> {
    fn sheet_of(&mut self, home: Home) {
        if home.sheet != self.home.sheet {
            let _ = write!(self.text, "{}!", self.layout.sheet(home.sheet));
        }
    }

    fn here(&mut self, column: ColumnId) {
        let home = self.layout.home(column);
        self.row_at(home, home.row);
    }

    fn row_at(&mut self, home: Home, row: u32) {
        self.sheet_of(home);
        self.text.push_str(&column_letters(home.column));
        self.done.push((std::mem::take(&mut self.text), Some(row)));
    }

    fn fixed(&mut self, column: ColumnId) {
        let home = self.layout.home(column);
        self.sheet_of(home);
        let _ = write!(
            self.text,
            "${}${}",
            column_letters(home.column),
            u64::from(home.row) + 1
        );
    }

    fn range(&mut self, column: ColumnId) {
        let home = self.layout.home(column);
        let rows = u64::try_from(self.graph.rows(column)).unwrap_or(1).max(1);
        self.sheet_of(home);
        let letters = column_letters(home.column);
        let first = u64::from(home.row) + 1;
        let _ = write!(
            self.text,
            "${letters}${first}:${letters}${}",
            first + rows - 1
        );
    }

    fn expr(&mut self, expr: &Expr, around: Strength) {
        match expr {
            Expr::Literal(number) => self.text.push_str(&literal(*number)),
            Expr::Pi => self.text.push_str("PI()"),
            Expr::OneOf(_) => self.text.push('1'),
            Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => self.expr(inner, around),
            Expr::Here(column) => self.here(*column),
            Expr::Only(column) => self.fixed(*column),
            Expr::OrElse(column, otherwise) => {
                self.text.push_str("IF(");
                self.here(*column);
                self.text.push_str("=\"\",");
                self.expr(otherwise, Strength::Any);
                self.text.push(',');
                self.here(*column);
                self.text.push(')');
            }
            Expr::Linked(link, column) => self.linked(*link, *column, "0", false),
            Expr::RowAbove {
                column,
                group,
                first,
            } => self.row_above(*column, *group, first),
            Expr::RowBelow {
                column,
                group,
                last,
            } => self.row_below(*column, *group, last),
            Expr::FirstOf { column, group } => self.first_of(*column, *group),
            Expr::NamedAbove { column, link, none } => self.named_above(*column, *link, none),
            Expr::NamingBelow {
                fold,
                column,
                link,
                none,
            } => self.naming_below(*fold, (*column, *link), none),
            Expr::Naming { fold, column, link } => self.naming(*fold, *column, *link),
            Expr::All(fold, column) => {
                self.text.push_str(match fold {
                    Fold::Lowest => "MIN(",
                    Fold::Highest => "MAX(",
                    Fold::Sum => "SUM(",
                });
                self.range(*column);
                self.text.push(')');
            }
            Expr::Binary(op, left, right) => self.binary(*op, left, right, around),
            Expr::Call(function, arguments) => self.call(*function, arguments),
            Expr::When(condition, yes, no) => {
                self.text.push_str("IF(");
                self.condition(condition);
                self.text.push(',');
                self.expr(yes, Strength::Any);
                self.text.push(',');
                self.expr(no, Strength::Any);
                self.text.push(')');
            }
            Expr::Convert(inner, ratio) => self.convert(inner, *ratio, around),
        }
    }

    fn binary(&mut self, op: Op, left: &Expr, right: &Expr, around: Strength) {
        let (sign, own, left_side, right_side) = match op {
            Op::Add => ('+', Strength::Sum, Strength::Any, Strength::Any),
            Op::Subtract => ('-', Strength::Sum, Strength::Any, Strength::Product),
            Op::Multiply => ('*', Strength::Product, Strength::Product, Strength::Divisor),
            Op::Divide => ('/', Strength::Product, Strength::Product, Strength::Divisor),
        };
        self.bracketed(own, around, |writer| {
            writer.expr(left, left_side);
            writer.text.push(sign);
            writer.expr(right, right_side);
        });
    }

    fn bracketed(&mut self, own: Strength, around: Strength, inside: impl FnOnce(&mut Self)) {
        let needs = match own {
            Strength::Sum => around > Strength::Sum,
            Strength::Product => around > Strength::Product,
            _ => false,
        };
        if needs {
            self.text.push('(');
        }
        inside(self);
        if needs {
            self.text.push(')');
        }
    }

    fn convert(&mut self, inner: &Expr, ratio: Ratio, around: Strength) {
        let (over, under) = ratio.whole_numbers().unwrap_or((1.0, 1.0));
        self.bracketed(Strength::Product, around, |writer| {
            writer.expr(inner, Strength::Product);
            if ratio.numerator != 1 {
                let _ = write!(writer.text, "*{over}");
            }
            if ratio.denominator != 1 {
                let _ = write!(writer.text, "/{under}");
            }
        });
    }

    fn call(&mut self, function: Function, arguments: &[Expr]) {
        let (open, close) = match function {
            Function::Lowest => ("MIN(", ")".to_owned()),
            Function::Highest => ("MAX(", ")".to_owned()),
            Function::Round(places) => ("ROUND(", format!(",{places})")),
            Function::RoundUp => ("ROUNDUP(ROUND(", ",6),0)".to_owned()),
            Function::RoundDown => ("ROUNDDOWN(ROUND(", ",6),0)".to_owned()),
            Function::Root => ("SQRT(", ")".to_owned()),
            Function::TwoThirds => ("POWER(", ",2/3)".to_owned()),
            Function::Power => ("POWER(", ")".to_owned()),
            Function::Doublings => ("LOG(", ",2)".to_owned()),
        };
        self.text.push_str(open);
        for (position, argument) in arguments.iter().enumerate() {
            if position > 0 {
                self.text.push(',');
            }
            self.expr(argument, Strength::Any);
            // A spreadsheet leaves a blank cell out of the smaller and the larger of two.
            if matches!(function, Function::Lowest | Function::Highest)
                && self.may_be_blank(argument)
            {
                self.text.push_str("+0");
            }
        }
        self.text.push_str(&close);
    }

    /// Whether an argument is written as the bare reference of a cell that may be blank.
    fn may_be_blank(&self, argument: &Expr) -> bool {
        let is_input = |column: ColumnId| !self.graph.column(column).is_computed();
        match argument {
            Expr::Here(column)
            | Expr::Only(column)
            | Expr::Linked(_, column)
            | Expr::FirstOf { column, .. } => is_input(*column),
            Expr::RowAbove {
                column,
                first: edge,
                ..
            }
            | Expr::RowBelow {
                column, last: edge, ..
            }
            | Expr::NamedAbove {
                column, none: edge, ..
            } => is_input(*column) || self.may_be_blank(edge),
            Expr::NamingBelow { none, .. } => self.may_be_blank(none),
            Expr::OrElse(_, otherwise) => self.may_be_blank(otherwise),
            Expr::When(_, yes, no) => self.may_be_blank(yes) || self.may_be_blank(no),
            Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => self.may_be_blank(inner),
            Expr::Convert(inner, ratio) => {
                ratio.numerator == ratio.denominator && self.may_be_blank(inner)
            }
            _ => false,
        }
    }

    fn condition(&mut self, condition: &Condition) {
        match condition {
            Condition::Compare(comparison, left, right) => {
                let sign = match comparison {
                    Comparison::Below => "<",
                    Comparison::Above => ">",
                    Comparison::AtLeast => ">=",
                    Comparison::Same => "=",
                    Comparison::Different => "<>",
                };
                self.text.push_str("ROUND(");
                self.expr(left, Strength::Any);
                if *right != Expr::Literal(0.0) {
                    self.text.push('-');
                    self.expr(right, Strength::Product);
                }
                let _ = write!(self.text, ",9){sign}0");
            }
            Condition::Blank(column) => {
                self.here(*column);
                self.text.push_str("=\"\"");
            }
            Condition::Is(column, words) => {
                self.here(*column);
                let _ = write!(self.text, "={}", quoted(words));
            }
            Condition::All(parts) => self.several("AND(", parts),
            Condition::Any(parts) => self.several("OR(", parts),
            Condition::Not(inner) => self.several("NOT(", std::slice::from_ref(inner)),
        }
    }

    fn several(&mut self, open: &str, parts: &[Condition]) {
        self.text.push_str(open);
        for (position, part) in parts.iter().enumerate() {
            if position > 0 {
                self.text.push(',');
            }
            self.condition(part);
        }
        self.text.push(')');
    }

    fn words(&mut self, text: &TextExpr) {
        match text {
            TextExpr::Fixed(words) => self.text.push_str(&quoted(words)),
            TextExpr::Here(column) => {
                self.here(*column);
                self.text.push_str("&\"\"");
            }
            TextExpr::Only(column) => {
                self.fixed(*column);
                self.text.push_str("&\"\"");
            }
            TextExpr::Linked(link, column) => self.linked(*link, *column, "\"\"", true),
            TextExpr::When(condition, yes, no) => {
                self.text.push_str("IF(");
                self.condition(condition);
                self.text.push(',');
                self.words(yes);
                self.text.push(',');
                self.words(no);
                self.text.push(')');
            }
        }
    }
}
