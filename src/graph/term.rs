//! Terms: expressions that belong to a table, and the operators that build them.
//!
//! Rules write terms with `+ − × ÷` and the functions below; nothing else makes an
//! [`Expr`]. The compiler refuses a rule that mixes rows of two tables.

use std::marker::PhantomData;

use super::expr::{self, Comparison, Fold, Function, Op, Said};
use super::key::{In, Key};

use super::reads::{Looks, Numbers};
use super::rule::Step;
use super::{Column, Condition, Table, TextExpr};
use crate::units::ONE;

/// An expression as a rule says it.
type Expr = expr::Expr<Said>;

/// An expression that belongs to the table `T`.
#[derive(Debug)]
pub struct Term<T> {
    pub(crate) expr: Expr,
    table: PhantomData<fn() -> T>,
}

impl<T> Clone for Term<T> {
    fn clone(&self) -> Self {
        Self::new(self.expr.clone())
    }
}

impl<T> Term<T> {
    pub(crate) fn new(expr: Expr) -> Self {
        Self {
            expr,
            table: PhantomData,
        }
    }

    /// This row of a column.
    pub(crate) fn of_row(column: Key) -> Self {
        Self::new(Expr::Here(column))
    }

    /// The only row of a column, for use in any table.
    pub(crate) fn of_only_row(column: Key) -> Self {
        Self::new(Expr::Only(column))
    }

    pub(super) fn row_above(column: Key, group: Option<Key>, first: Term<T>) -> Self {
        Self::new(Expr::RowAbove {
            column,
            group,
            first: Box::new(first.expr),
        })
    }

    pub(super) fn row_below(column: Key, group: Option<Key>, last: Term<T>) -> Self {
        Self::new(Expr::RowBelow {
            column,
            group,
            last: Box::new(last.expr),
        })
    }

    pub(super) fn gathered(fold: Fold, column: Key, link: Key) -> Self {
        Self::new(Expr::Naming { fold, column, link })
    }

    pub(super) fn naming_below(
        fold: Fold,
        column: Key,
        link: impl Looks<T, T>,
        none: impl Into<Term<T>>,
    ) -> Self {
        Self::new(Expr::NamingBelow {
            fold,
            column,
            link: link.key(),
            none: Box::new(none.into().expr),
        })
    }

    pub(crate) fn binary(self, op: Op, right: impl Into<Term<T>>) -> Self {
        Self::new(Expr::Binary(
            op,
            Box::new(self.expr),
            Box::new(right.into().expr),
        ))
    }

    fn call(function: Function, arguments: Vec<Expr>) -> Self {
        Self::new(Expr::Call(function, arguments))
    }

    /// Half away from zero, at a number of decimals of a unit. The unit is named because
    /// a product may be in another: money times per cent counts in hundredths of a cent.
    #[must_use]
    pub fn round_in(self, unit: impl Into<In>, places: i32) -> Self {
        let unit = unit.into();
        let number = self.number_in(unit).expr;
        Self::call(Function::Round(places), vec![number]).counted_in(unit)
    }

    /// Up to the next whole number, of a pure number.
    #[must_use]
    pub fn round_up(self) -> Self {
        let number = self.number_in(ONE).expr;
        Self::call(Function::RoundUp, vec![number])
    }

    /// Down to a whole number, of a pure number.
    #[must_use]
    pub fn round_down(self) -> Self {
        let number = self.number_in(ONE).expr;
        Self::call(Function::RoundDown, vec![number])
    }

    /// Square root, of a pure number.
    #[must_use]
    pub fn root(self) -> Self {
        let number = self.number_in(ONE).expr;
        Self::call(Function::Root, vec![number])
    }

    /// To the power of two thirds, of a pure number.
    #[must_use]
    pub fn two_thirds(self) -> Self {
        let number = self.number_in(ONE).expr;
        Self::call(Function::TwoThirds, vec![number])
    }

    /// To a power; both are pure numbers, and this is above zero.
    #[must_use]
    pub fn to_the(self, power: impl Into<Term<T>>) -> Self {
        let base = self.number_in(ONE).expr;
        let power = power.into().number_in(ONE).expr;
        Self::call(Function::Power, vec![base, power])
    }

    /// How often a pure number doubles from one.
    #[must_use]
    pub fn doublings(self) -> Self {
        let number = self.number_in(ONE).expr;
        Self::call(Function::Doublings, vec![number])
    }

    /// The bare number that this has in a unit, where a rule counts in each row's own unit.
    #[must_use]
    pub fn number_in(self, unit: impl Into<In>) -> Self {
        Self::new(Expr::NumberIn(Box::new(self.expr), unit.into()))
    }

    /// This bare number, taken as a number of a unit.
    #[must_use]
    pub fn counted_in(self, unit: impl Into<In>) -> Self {
        Self::new(Expr::CountedIn(Box::new(self.expr), unit.into()))
    }

    fn compare(self, comparison: Comparison, other: impl Into<Term<T>>) -> Condition {
        expr::Condition::Compare(comparison, self.expr, other.into().expr)
    }

    /// Whether this is less than the other.
    pub fn below(self, other: impl Into<Term<T>>) -> Condition {
        self.compare(Comparison::Below, other)
    }

    /// Whether this is more than the other.
    pub fn above(self, other: impl Into<Term<T>>) -> Condition {
        self.compare(Comparison::Above, other)
    }

    /// Whether this is the other or more.
    pub fn at_least(self, other: impl Into<Term<T>>) -> Condition {
        self.compare(Comparison::AtLeast, other)
    }

    /// Whether the two are the same to nine decimals.
    pub fn same_as(self, other: impl Into<Term<T>>) -> Condition {
        self.compare(Comparison::Same, other)
    }

    /// Whether the two differ in the first nine decimals.
    pub fn differs_from(self, other: impl Into<Term<T>>) -> Condition {
        self.compare(Comparison::Different, other)
    }
}

impl<T> From<Column<T>> for Term<T> {
    fn from(column: Column<T>) -> Self {
        column.here()
    }
}

impl<T: Table> From<Step<T>> for Term<T> {
    fn from(step: Step<T>) -> Self {
        step.here()
    }
}

impl<T: Table> From<super::reads::Named<T>> for Term<T> {
    fn from(named: super::reads::Named<T>) -> Self {
        named.here()
    }
}

impl<T> From<f64> for Term<T> {
    fn from(number: f64) -> Self {
        Term::new(Expr::Literal(number))
    }
}

/// The sum over all rows of a column, for use in any table.
#[must_use]
pub fn total<T, U>(column: impl Numbers<U>) -> Term<T> {
    Term::new(Expr::All(Fold::Sum, column.key()))
}

/// The smallest number of a column, for use in any table; zero where it has none.
#[must_use]
pub fn lowest_of_all<T, U>(column: impl Numbers<U>) -> Term<T> {
    Term::new(Expr::All(Fold::Lowest, column.key()))
}

/// The largest number of a column, for use in any table; zero where it has none.
#[must_use]
pub fn highest_of_all<T, U>(column: impl Numbers<U>) -> Term<T> {
    Term::new(Expr::All(Fold::Highest, column.key()))
}

/// The only row of a table that has one, for use in any table.
#[must_use]
pub fn only<T, One: Table>(column: impl Numbers<One>) -> Term<T> {
    Term::of_only_row(column.key())
}

/// The first row of a column, for use in any table.
#[must_use]
pub fn first<T, U>(column: impl Numbers<U>) -> Term<T> {
    Term::of_only_row(column.key())
}

/// One of two values.
pub fn when<T>(condition: Condition, yes: impl Into<Term<T>>, no: impl Into<Term<T>>) -> Term<T> {
    Term::new(Expr::When(
        Box::new(condition),
        Box::new(yes.into().expr),
        Box::new(no.into().expr),
    ))
}

/// One of two texts.
#[must_use]
pub fn either(condition: Condition, yes: impl Into<TextExpr>, no: impl Into<TextExpr>) -> TextExpr {
    TextExpr::When(
        Box::new(condition),
        Box::new(yes.into()),
        Box::new(no.into()),
    )
}

impl From<&str> for TextExpr {
    fn from(words: &str) -> Self {
        TextExpr::Fixed(words.to_owned())
    }
}

/// The smaller of two.
pub fn lowest<T>(a: impl Into<Term<T>>, b: impl Into<Term<T>>) -> Term<T> {
    Term::call(Function::Lowest, vec![a.into().expr, b.into().expr])
}

/// The larger of two.
pub fn highest<T>(a: impl Into<Term<T>>, b: impl Into<Term<T>>) -> Term<T> {
    Term::call(Function::Highest, vec![a.into().expr, b.into().expr])
}

/// One of a unit: the measure of a side that is not there.
#[must_use]
pub fn one<T>(unit: impl Into<In>) -> Term<T> {
    Term::new(Expr::OneOf(unit.into()))
}

/// The ratio of a circle's edge to its diameter.
#[must_use]
pub fn pi<T>() -> Term<T> {
    Term::new(Expr::Pi)
}

/// Arithmetic with something on the left that stands for a term of the table `$table`.
macro_rules! arithmetic {
    ($left:ty, $table:ty $(, $letter:ident: $bound:path)?) => {
        $crate::graph::arithmetic!(@each $left, $table, [$($letter: $bound)?],
            Add add Add, Sub sub Subtract, Mul mul Multiply, Div div Divide);
    };
    (@each $left:ty, $table:ty, $letter:tt, $($trait:ident $method:ident $op:ident),+) => {
        $($crate::graph::arithmetic!(@one $left, $table, $letter, $trait $method $op);)+
    };
    (@one $left:ty, $table:ty, [$($letter:ident: $bound:path)?], $trait:ident $method:ident $op:ident) => {
        impl<$($letter: $bound,)? R: Into<$crate::graph::Term<$table>>> std::ops::$trait<R> for $left {
            type Output = $crate::graph::Term<$table>;
            fn $method(self, right: R) -> Self::Output {
                $crate::graph::Term::from(self).binary($crate::graph::expr::Op::$op, right)
            }
        }
        impl<$($letter: $bound)?> std::ops::$trait<$left> for f64 {
            type Output = $crate::graph::Term<$table>;
            fn $method(self, right: $left) -> Self::Output {
                $crate::graph::Term::from(self).binary($crate::graph::expr::Op::$op, right)
            }
        }
    };
}

pub(crate) use arithmetic;

/// Any type may be that of a table's rows.
trait Any {}
impl<T> Any for T {}

arithmetic!(Term<T>, T, T: Any);
arithmetic!(Column<T>, T, T: Any);
arithmetic!(Step<T>, T, T: Table);
arithmetic!(super::reads::Named<T>, T, T: Table);
