//! Rules with the columns that they read at hand, to be worked out row by row.
//!
//! A rule is bound once for a whole column, and then asked for each row: what is the same
//! in every row has been looked up, and the columns are plain slices.
//!
//! Always true: a bound rule gives, to the last bit, what its formula says, each operation
//! done in the formula's order. A blank number counts as zero; rows that are not there too.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::expr::{Comparison, Condition, Expr, Fold, Function, Op, TextExpr};
use super::results::{
    Results, first_of, linked_above, linked_below, linked_row, row_above, row_below,
};
use super::{Cell, ColumnId, Graph};
use crate::money;

/// What is gathered for each row of a parent, by the column gathered and its look-up.
pub(super) type Gathered = BTreeMap<(Fold, ColumnId, ColumnId), Vec<f64>>;
/// What is gathered of whole columns.
pub(super) type Totals = BTreeMap<(Fold, ColumnId), f64>;

/// The rule of a column of numbers.
pub(super) enum Rule<'r> {
    /// A step.
    Step(Number<'r>),
    /// A limit: 1 where it is broken.
    Limit(Test<'r>),
    /// Cells of other columns.
    Gathered(&'r [Option<Cell>], &'r Results),
}

impl Rule<'_> {
    /// The numbers of all rows, from the first down; or where the column reads itself from
    /// below, from the last up.
    pub(super) fn all(&self, rows: usize, up: bool) -> Vec<f64> {
        if up {
            let mut numbers = vec![0.0; rows];
            for row in (0..rows).rev() {
                numbers[row] = self.at(row, &numbers);
            }
            return numbers;
        }
        let mut numbers = Vec::with_capacity(rows);
        for row in 0..rows {
            numbers.push(self.at(row, &numbers));
        }
        numbers
    }

    /// The number of one row; `own` is the column itself as far as it is there.
    pub(super) fn at(&self, row: usize, own: &[f64]) -> f64 {
        match self {
            Rule::Step(number) => number.at(row, own),
            Rule::Limit(broken) => f64::from(u8::from(broken.holds(row, own))),
            Rule::Gathered(cells, results) => {
                let cell = cells.get(row).copied().flatten();
                cell.map_or(0.0, |cell| results.number(cell))
            }
        }
    }
}

/// A bound expression.
pub(super) enum Number<'r> {
    /// The same in every row.
    Same(f64),
    /// This row of a column.
    Here(&'r [f64]),
    /// This row of a measured column, or something else where it is blank.
    OrElse(&'r [f64], Box<Number<'r>>),
    /// The row of a column that a look-up found.
    Linked(&'r [f64], &'r [f64]),
    /// The row above of a column (of the own one, where there is none), in the same group.
    RowAbove(Option<&'r [f64]>, Option<&'r [f64]>, Box<Number<'r>>),
    /// The row below of a column (of the own one, where there is none), in the same group.
    RowBelow(Option<&'r [f64]>, Option<&'r [f64]>, Box<Number<'r>>),
    /// The first row of a column in the group that a look-up makes.
    FirstOf(&'r [f64], &'r [f64]),
    /// The row above of a column (of the own one, where there is none) that a look-up found.
    NamedAbove(Option<&'r [f64]>, &'r [f64], Box<Number<'r>>),
    /// The rows below of a column (of the own one, where there is none) whose look-up found
    /// this row.
    NamingBelow(Fold, Option<&'r [f64]>, &'r [f64], Box<Number<'r>>),
    /// This row of what has been gathered.
    Gathered(&'r [f64]),
    Binary(Op, Box<[Number<'r>; 2]>),
    Call(Function, Vec<Number<'r>>),
    When(Box<(Test<'r>, Number<'r>, Number<'r>)>),
    /// Multiplied by the first and divided by the second.
    Convert(Box<Number<'r>>, f64, f64),
}

impl Number<'_> {
    fn at(&self, row: usize, own: &[f64]) -> f64 {
        match self {
            Number::Same(number) => *number,
            Number::Here(column) => number(column, row),
            Number::OrElse(column, otherwise) => match column.get(row) {
                Some(measured) if !measured.is_nan() => *measured,
                _ => otherwise.at(row, own),
            },
            Number::Linked(link, column) => {
                linked_row(link, row).map_or(0.0, |row| number(column, row))
            }
            Number::RowAbove(column, group, first) => match row_above(*group, row) {
                Some(above) => number(column.unwrap_or(own), above),
                None => first.at(row, own),
            },
            Number::RowBelow(column, group, last) => {
                let column = column.unwrap_or(own);
                match row_below(*group, row, column.len()) {
                    Some(below) => number(column, below),
                    None => last.at(row, own),
                }
            }
            Number::FirstOf(column, group) => {
                first_of(group, row).map_or(0.0, |first| number(column, first))
            }
            Number::NamedAbove(column, link, none) => match linked_above(link, row) {
                Some(above) => number(column.unwrap_or(own), above),
                None => none.at(row, own),
            },
            Number::NamingBelow(fold, column, link, none) => {
                let column = column.unwrap_or(own);
                let below = linked_below(link, row).map(|below| number(column, below));
                fold.of(below).unwrap_or_else(|| none.at(row, own))
            }
            Number::Gathered(numbers) => numbers.get(row).copied().unwrap_or(0.0),
            Number::Binary(op, sides) => {
                let [left, right] = &**sides;
                let (left, right) = (left.at(row, own), right.at(row, own));
                match op {
                    Op::Add => left + right,
                    Op::Subtract => left - right,
                    Op::Multiply => left * right,
                    Op::Divide => left / right,
                }
            }
            Number::Call(function, arguments) => call(*function, arguments, row, own),
            Number::When(parts) => {
                let (test, yes, no) = &**parts;
                if test.holds(row, own) { yes } else { no }.at(row, own)
            }
            Number::Convert(inner, over, under) => inner.at(row, own) * over / under,
        }
    }
}

fn call(function: Function, arguments: &[Number<'_>], row: usize, own: &[f64]) -> f64 {
    let mut numbers = arguments.iter().map(|argument| argument.at(row, own));
    let first = numbers.next().unwrap_or(0.0);
    match function {
        Function::Lowest => numbers.fold(first, f64::min),
        Function::Highest => numbers.fold(first, f64::max),
        Function::Round(places) => money::round(first, places),
        Function::RoundUp => money::round_up(first, 0),
        Function::RoundDown => money::round_down(first, 0),
        Function::Root => first.sqrt(),
        Function::TwoThirds => libm::pow(first, 2.0 / 3.0),
        Function::Power => libm::pow(first, numbers.next().unwrap_or(0.0)),
        Function::Doublings => libm::log2(first),
    }
}

/// A bound condition.
pub(super) enum Test<'r> {
    Compare(Comparison, Box<[Number<'r>; 2]>),
    NoNumber(&'r [f64]),
    NoWords(&'r [Arc<str>]),
    Is(&'r [Arc<str>], &'r str),
    All(Vec<Test<'r>>),
    Any(Vec<Test<'r>>),
    Not(Box<Test<'r>>),
}

impl Test<'_> {
    pub(super) fn holds(&self, row: usize, own: &[f64]) -> bool {
        match self {
            Test::Compare(comparison, sides) => {
                let [left, right] = &**sides;
                compare(*comparison, left.at(row, own) - right.at(row, own))
            }
            Test::NoNumber(column) => column.get(row).is_none_or(|number| number.is_nan()),
            Test::NoWords(column) => word(column, row).is_empty(),
            Test::Is(column, words) => word(column, row).eq_ignore_ascii_case(words),
            Test::All(parts) => parts.iter().all(|part| part.holds(row, own)),
            Test::Any(parts) => parts.iter().any(|part| part.holds(row, own)),
            Test::Not(inner) => !inner.holds(row, own),
        }
    }
}

/// Whether a difference, rounded to nine decimals, lies as it should from zero.
fn compare(comparison: Comparison, apart: f64) -> bool {
    // Nothing but dust changes its sign by rounding.
    let apart = if apart != 0.0 && apart.abs() < 1e-8 {
        money::round(apart, 9)
    } else {
        apart
    };
    match comparison {
        Comparison::Below => apart < 0.0,
        Comparison::Above => apart > 0.0,
        Comparison::AtLeast => apart >= 0.0,
        Comparison::Same => apart == 0.0,
        Comparison::Different => apart != 0.0,
    }
}

/// Bound words.
pub(super) enum Wording<'r> {
    Same(Arc<str>),
    Here(&'r [Arc<str>]),
    Linked(&'r [f64], &'r [Arc<str>]),
    When(Box<(Test<'r>, Wording<'r>, Wording<'r>)>),
}

impl Wording<'_> {
    pub(super) fn at(&self, row: usize) -> Arc<str> {
        let word = |words: &[Arc<str>], row: usize| words.get(row).cloned();
        let found = match self {
            Wording::Same(words) => Some(words.clone()),
            Wording::Here(column) => word(column, row),
            Wording::Linked(link, column) => {
                linked_row(link, row).and_then(|row| word(column, row))
            }
            Wording::When(parts) => {
                let (test, yes, no) = &**parts;
                return if test.holds(row, &[]) { yes } else { no }.at(row);
            }
        };
        found.unwrap_or_default()
    }
}

/// Binds rules to the values that stand in the columns now; the sums and totals that they
/// read have been worked out.
pub(super) struct Binder<'r> {
    pub(super) graph: &'r Graph,
    pub(super) results: &'r Results,
    pub(super) gathered: &'r Gathered,
    pub(super) totals: &'r Totals,
    /// The column that is being worked out, which its own rule may read above.
    pub(super) own: Option<ColumnId>,
}

impl<'r> Binder<'r> {
    pub(super) fn number(&self, expr: &'r Expr) -> Number<'r> {
        let numbers = |column: ColumnId| self.results.numbers(column);
        let boxed = |inner: &'r Expr| Box::new(self.number(inner));
        let other = |column: ColumnId| (Some(column) != self.own).then(|| numbers(column));
        match expr {
            Expr::Literal(number) => Number::Same(*number),
            Expr::Pi => Number::Same(std::f64::consts::PI),
            Expr::OneOf(_) => Number::Same(1.0),
            Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => self.number(inner),
            Expr::Here(column) => Number::Here(numbers(*column)),
            Expr::Only(column) => Number::Same(self.results.number(column.at(0))),
            Expr::OrElse(column, otherwise) => Number::OrElse(numbers(*column), boxed(otherwise)),
            Expr::Linked(link, column) => Number::Linked(numbers(*link), numbers(*column)),
            Expr::RowAbove {
                column,
                group,
                first,
            } => Number::RowAbove(other(*column), group.map(numbers), boxed(first)),
            Expr::RowBelow {
                column,
                group,
                last,
            } => Number::RowBelow(other(*column), group.map(numbers), boxed(last)),
            Expr::FirstOf { column, group } => Number::FirstOf(numbers(*column), numbers(*group)),
            Expr::NamedAbove { column, link, none } => {
                Number::NamedAbove(other(*column), numbers(*link), boxed(none))
            }
            Expr::NamingBelow {
                fold,
                column,
                link,
                none,
            } => Number::NamingBelow(*fold, other(*column), numbers(*link), boxed(none)),
            Expr::Naming { fold, column, link } => {
                let gathered = self.gathered.get(&(*fold, *column, *link));
                Number::Gathered(gathered.map_or(&[], Vec::as_slice))
            }
            Expr::All(fold, column) => {
                let gathered = self.totals.get(&(*fold, *column));
                Number::Same(gathered.copied().unwrap_or(0.0))
            }
            Expr::Binary(op, left, right) => {
                Number::Binary(*op, Box::new([self.number(left), self.number(right)]))
            }
            Expr::Call(function, arguments) => {
                let arguments = arguments.iter().map(|argument| self.number(argument));
                Number::Call(*function, arguments.collect())
            }
            Expr::When(condition, yes, no) => {
                let sides = (self.test(condition), self.number(yes), self.number(no));
                Number::When(Box::new(sides))
            }
            Expr::Convert(inner, ratio) => {
                let (over, under) = ratio.factors();
                Number::Convert(boxed(inner), over, under)
            }
        }
    }

    pub(super) fn test(&self, condition: &'r Condition) -> Test<'r> {
        let several = |parts: &'r [Condition]| parts.iter().map(|part| self.test(part)).collect();
        match condition {
            Condition::Compare(comparison, left, right) => Test::Compare(
                *comparison,
                Box::new([self.number(left), self.number(right)]),
            ),
            Condition::Blank(column) if self.graph.column(*column).is_text() => {
                Test::NoWords(self.results.texts(*column))
            }
            Condition::Blank(column) => Test::NoNumber(self.results.numbers(*column)),
            Condition::Is(column, words) => Test::Is(self.results.texts(*column), words),
            Condition::All(parts) => Test::All(several(parts)),
            Condition::Any(parts) => Test::Any(several(parts)),
            Condition::Not(inner) => Test::Not(Box::new(self.test(inner))),
        }
    }

    pub(super) fn wording(&self, text: &'r TextExpr) -> Wording<'r> {
        match text {
            TextExpr::Fixed(words) => Wording::Same(words.as_str().into()),
            TextExpr::Here(column) => Wording::Here(self.results.texts(*column)),
            TextExpr::Only(column) => Wording::Same(self.results.words(column.at(0)).into()),
            TextExpr::Linked(link, column) => {
                Wording::Linked(self.results.numbers(*link), self.results.texts(*column))
            }
            TextExpr::When(condition, yes, no) => {
                let sides = (self.test(condition), self.wording(yes), self.wording(no));
                Wording::When(Box::new(sides))
            }
        }
    }
}

/// A number of a column; zero where it is blank or not there.
fn number(column: &[f64], row: usize) -> f64 {
    match column.get(row) {
        Some(number) if !number.is_nan() => *number,
        _ => 0.0,
    }
}

fn word(column: &[Arc<str>], row: usize) -> &str {
    column.get(row).map_or("", |word| word)
}
