//! Terms: expressions that belong to a table, and the operators that build them.
//!
//! Rules write terms with `+ − × ÷` and the functions below; nothing else makes an
//! [`Expr`]. The compiler refuses a rule that mixes rows of two tables.

use std::marker::PhantomData;
use std::ops::{Add, Div, Mul, Sub};

use super::expr::{Comparison, Condition, Expr, Function, Op, TextExpr};
use super::{Column, Link, Table, Text};
use crate::units::{ONE, Unit};

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

    fn call(function: Function, arguments: Vec<Expr>) -> Self {
        Self::new(Expr::Call(function, arguments))
    }

    /// Half away from zero, at a number of decimals of a unit. The unit is named because
    /// a product may be in another: money times per cent counts in hundredths of a cent.
    #[must_use]
    pub fn round_in(self, unit: Unit, places: i32) -> Self {
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
    pub fn number_in(self, unit: Unit) -> Self {
        Self::new(Expr::NumberIn(Box::new(self.expr), unit))
    }

    /// This bare number, taken as a number of a unit.
    #[must_use]
    pub fn counted_in(self, unit: Unit) -> Self {
        Self::new(Expr::CountedIn(Box::new(self.expr), unit))
    }

    fn compare(self, comparison: Comparison, other: impl Into<Term<T>>) -> Condition {
        Condition::Compare(comparison, self.expr, other.into().expr)
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
        Term::new(Expr::Here(column.id))
    }
}

impl<T> From<f64> for Term<T> {
    fn from(number: f64) -> Self {
        Term::new(Expr::Literal(number))
    }
}

impl<T> Column<T> {
    /// This row of the column as a term, for a chain of functions.
    #[must_use]
    pub fn here(self) -> Term<T> {
        self.into()
    }

    /// The measured value, or something else where the cell is blank.
    pub fn or(self, otherwise: impl Into<Term<T>>) -> Term<T> {
        Term::new(Expr::Given(self.id, Box::new(otherwise.into().expr)))
    }

    /// Whether the measured cell is blank.
    #[must_use]
    pub fn blank(self) -> Condition {
        Condition::Blank(self.id)
    }

    /// Whether the measured cell holds something.
    #[must_use]
    pub fn filled(self) -> Condition {
        self.blank().negate()
    }

    /// The same column one row up in the group that `group` makes, or `first` where one begins.
    pub fn row_above<P>(self, group: Link<T, P>, first: impl Into<Term<T>>) -> Term<T> {
        Term::new(Expr::Above {
            column: self.id,
            group: Some(group.id),
            first: Box::new(first.into().expr),
        })
    }

    /// The same column one row up, or `first` in the table's first row.
    pub fn row_above_or(self, first: impl Into<Term<T>>) -> Term<T> {
        Term::new(Expr::Above {
            column: self.id,
            group: None,
            first: Box::new(first.into().expr),
        })
    }
}

impl<T> Text<T> {
    /// Whether the words of this row are these, ignoring case.
    #[must_use]
    pub fn is(self, words: &str) -> Condition {
        Condition::Is(self.id, words.to_owned())
    }

    /// Whether the cell is empty.
    #[must_use]
    pub fn blank(self) -> Condition {
        Condition::Blank(self.id)
    }

    /// This row of the column.
    #[must_use]
    pub fn here(self) -> TextExpr {
        TextExpr::Here(self.id)
    }

    /// The only row of the column, for use in any table.
    #[must_use]
    pub fn only(self) -> TextExpr {
        TextExpr::Only(self.id)
    }
}

impl<C, P> Link<C, P> {
    /// The value in the row that was found; zero where none was.
    #[must_use]
    pub fn of(self, column: Column<P>) -> Term<C> {
        Term::new(Expr::Linked(self.id, column.id))
    }

    /// The words in the row that was found; empty where none was.
    #[must_use]
    pub fn words_of(self, column: Text<P>) -> TextExpr {
        TextExpr::Linked(self.id, column.id)
    }

    /// The sum, for a row of the parent, over the rows that name it.
    #[must_use]
    pub fn sum(self, column: Column<C>) -> Term<P> {
        Term::new(Expr::SumOf {
            child: column.id,
            link: self.id,
        })
    }

    /// Whether the row names none.
    #[must_use]
    pub fn found_none(self) -> Condition {
        Condition::Compare(Comparison::Same, Expr::Here(self.id), Expr::Literal(0.0))
    }
}

/// The sum over all rows of a column, for use in any table.
#[must_use]
pub fn total<T, U>(column: Column<U>) -> Term<T> {
    Term::new(Expr::Total(column.id))
}

/// The only row of a table that has one, for use in any table.
#[must_use]
pub fn only<T, One: Table>(column: Column<One>) -> Term<T> {
    Term::new(Expr::Only(column.id))
}

/// The first row of a column, for use in any table.
#[must_use]
pub fn first<T, U>(column: Column<U>) -> Term<T> {
    Term::new(Expr::Only(column.id))
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
pub fn either(condition: Condition, yes: TextExpr, no: TextExpr) -> TextExpr {
    TextExpr::When(Box::new(condition), Box::new(yes), Box::new(no))
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
pub fn one<T>(unit: Unit) -> Term<T> {
    Term::new(Expr::OneOf(unit))
}

/// The ratio of a circle's edge to its diameter.
#[must_use]
pub fn pi<T>() -> Term<T> {
    Term::new(Expr::Pi)
}

macro_rules! operator {
    ($trait:ident $method:ident $op:ident) => {
        impl<T, R: Into<Term<T>>> $trait<R> for Term<T> {
            type Output = Term<T>;
            fn $method(self, right: R) -> Term<T> {
                Term::new(Expr::Binary(
                    Op::$op,
                    Box::new(self.expr),
                    Box::new(right.into().expr),
                ))
            }
        }
        impl<T, R: Into<Term<T>>> $trait<R> for Column<T> {
            type Output = Term<T>;
            fn $method(self, right: R) -> Term<T> {
                Term::from(self).$method(right)
            }
        }
        impl<T> $trait<Column<T>> for f64 {
            type Output = Term<T>;
            fn $method(self, right: Column<T>) -> Term<T> {
                Term::from(self).$method(right)
            }
        }
        impl<T> $trait<Term<T>> for f64 {
            type Output = Term<T>;
            fn $method(self, right: Term<T>) -> Term<T> {
                Term::from(self).$method(right)
            }
        }
    };
}

operator!(Add add Add);
operator!(Sub sub Subtract);
operator!(Mul mul Multiply);
operator!(Div div Divide);
