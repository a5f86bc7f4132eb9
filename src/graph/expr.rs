//! What a column says: expressions over columns, and the operators that build them.
//!
//! An [`Expr`] is a small tree without types; a [`Term`] is one that belongs to the
//! table `T`, so that the compiler refuses a rule that mixes rows of two tables. Rules
//! write terms with `+ − × ÷` and the functions below; nothing else makes an [`Expr`].

use std::marker::PhantomData;
use std::ops::{Add, Div, Mul, Sub};

use super::{Column, ColumnId, Link, Table, Text};
use crate::units::{Ratio, Unit};

/// Arithmetic between two numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Op {
    /// Sum.
    Add,
    /// Difference.
    Subtract,
    /// Product.
    Multiply,
    /// Quotient; a rule guards against a zero divisor with [`when`].
    Divide,
}

/// A function that both the engine and spreadsheet programs know.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Function {
    /// The smallest.
    Lowest,
    /// The largest.
    Highest,
    /// Square root of a number that is not negative.
    Root,
    /// Half away from zero at a number of decimals.
    Round(i32),
    /// Up to a whole number, after rounding to six decimals.
    RoundUp,
}

/// How two numbers compare, after rounding their difference to nine decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// Less than.
    Below,
    /// More than.
    Above,
    /// Not less than.
    AtLeast,
    /// The same.
    Same,
    /// Not the same.
    Different,
}

/// An expression for one row of a table.
#[derive(Clone, Debug, PartialEq)]
pub enum Expr {
    /// A pure number: geometry, never a value from the world.
    Literal(f64),
    /// The ratio of a circle to its diameter.
    Pi,
    /// One of a unit, such as one foot: the measure of a side that is not there.
    OneOf(Unit),
    /// The bare number that an expression has in a unit.
    NumberIn(Box<Expr>, Unit),
    /// A bare number taken as a number of a unit.
    CountedIn(Box<Expr>, Unit),
    /// This row of a column; blank counts as zero.
    Here(ColumnId),
    /// The only row of a table that has one.
    Only(ColumnId),
    /// This row of a measured column, or something else where it is blank.
    Given(ColumnId, Box<Expr>),
    /// The row of another table that a look-up found; zero where it found none.
    Linked(ColumnId, ColumnId),
    /// The row above in the same group, or the first value where a group begins.
    Above {
        /// The column read one row up; often the column being made.
        column: ColumnId,
        /// The look-up whose value makes rows one group; `None` is the whole table.
        group: Option<ColumnId>,
        /// The value at the start of a group.
        first: Box<Expr>,
    },
    /// The sum over the rows of another table whose look-up found this row.
    SumOf {
        /// The column added up.
        child: ColumnId,
        /// The look-up in the same table as `child`.
        link: ColumnId,
    },
    /// The sum over all rows of a column.
    Total(ColumnId),
    /// Arithmetic.
    Binary(Op, Box<Expr>, Box<Expr>),
    /// A function.
    Call(Function, Vec<Expr>),
    /// One of two values.
    When(Box<Condition>, Box<Expr>, Box<Expr>),
    /// A change of unit, put in by the unit check.
    Convert(Box<Expr>, Ratio),
}

/// Something that is so or not, for one row.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition {
    /// Two numbers compared.
    Compare(Comparison, Expr, Expr),
    /// A measured cell, or a cell of words, is empty.
    Blank(ColumnId),
    /// The words of this row are these, ignoring case.
    Is(ColumnId, String),
    /// All hold.
    All(Vec<Condition>),
    /// At least one holds.
    Any(Vec<Condition>),
    /// It does not hold.
    Not(Box<Condition>),
}

/// Words for one row of a table.
#[derive(Clone, Debug, PartialEq)]
pub enum TextExpr {
    /// Words as they are.
    Fixed(String),
    /// This row of a column of words.
    Here(ColumnId),
    /// The only row of a table that has one.
    Only(ColumnId),
    /// The row of another table that a look-up found; empty where it found none.
    Linked(ColumnId, ColumnId),
    /// One of two.
    When(Box<Condition>, Box<TextExpr>, Box<TextExpr>),
}

impl Expr {
    /// Calls `visit` with this expression and every one inside it, conditions included.
    pub fn walk<'e>(&'e self, visit: &mut dyn FnMut(&'e Expr)) {
        visit(self);
        match self {
            Expr::Given(_, inner)
            | Expr::Above { first: inner, .. }
            | Expr::Convert(inner, _)
            | Expr::NumberIn(inner, _)
            | Expr::CountedIn(inner, _) => {
                inner.walk(visit);
            }
            Expr::Binary(_, left, right) => {
                left.walk(visit);
                right.walk(visit);
            }
            Expr::Call(_, arguments) => arguments.iter().for_each(|argument| argument.walk(visit)),
            Expr::When(condition, yes, no) => {
                condition.walk(visit);
                yes.walk(visit);
                no.walk(visit);
            }
            _ => {}
        }
    }

    /// Calls `each` with every column the expression reads.
    pub fn each_column(&self, each: &mut dyn FnMut(ColumnId)) {
        self.walk(&mut |part| match part {
            Expr::Here(column)
            | Expr::Only(column)
            | Expr::Total(column)
            | Expr::Given(column, _) => each(*column),
            Expr::Linked(link, column)
            | Expr::SumOf {
                link,
                child: column,
            } => {
                each(*link);
                each(*column);
            }
            Expr::Above { column, group, .. } => {
                each(*column);
                group.iter().for_each(|group| each(*group));
            }
            Expr::When(condition, ..) => condition.each_tested(each),
            _ => {}
        });
    }
}

impl Condition {
    /// Calls `visit` with every expression that the condition compares.
    pub fn walk<'e>(&'e self, visit: &mut dyn FnMut(&'e Expr)) {
        match self {
            Condition::Compare(_, left, right) => {
                left.walk(visit);
                right.walk(visit);
            }
            Condition::Blank(_) | Condition::Is(..) => {}
            Condition::All(parts) | Condition::Any(parts) => {
                parts.iter().for_each(|part| part.walk(visit))
            }
            Condition::Not(inner) => inner.walk(visit),
        }
    }

    /// Calls `each` with every column the condition reads.
    pub fn each_column(&self, each: &mut dyn FnMut(ColumnId)) {
        self.each_tested(each);
        match self {
            Condition::Compare(_, left, right) => {
                left.each_column(each);
                right.each_column(each);
            }
            Condition::All(parts) | Condition::Any(parts) => {
                parts.iter().for_each(|part| part.each_column(each))
            }
            Condition::Not(inner) => inner.each_column(each),
            Condition::Blank(_) | Condition::Is(..) => {}
        }
    }

    /// The columns looked at as they are: for blanks and for words.
    fn each_tested(&self, each: &mut dyn FnMut(ColumnId)) {
        match self {
            Condition::Blank(column) | Condition::Is(column, _) => each(*column),
            Condition::All(parts) | Condition::Any(parts) => {
                parts.iter().for_each(|part| part.each_tested(each))
            }
            Condition::Not(inner) => inner.each_tested(each),
            Condition::Compare(..) => {}
        }
    }

    /// Both conditions hold.
    #[must_use]
    pub fn and(self, other: Condition) -> Condition {
        match self {
            Condition::All(mut parts) => {
                parts.push(other);
                Condition::All(parts)
            }
            first => Condition::All(vec![first, other]),
        }
    }

    /// At least one of the two holds.
    #[must_use]
    pub fn or(self, other: Condition) -> Condition {
        match self {
            Condition::Any(mut parts) => {
                parts.push(other);
                Condition::Any(parts)
            }
            first => Condition::Any(vec![first, other]),
        }
    }

    /// The opposite.
    #[must_use]
    pub fn negate(self) -> Condition {
        Condition::Not(Box::new(self))
    }
}

impl TextExpr {
    /// Calls `each` with every column the words are made from.
    pub fn each_column(&self, each: &mut dyn FnMut(ColumnId)) {
        match self {
            TextExpr::Fixed(_) => {}
            TextExpr::Here(column) | TextExpr::Only(column) => each(*column),
            TextExpr::Linked(link, column) => {
                each(*link);
                each(*column);
            }
            TextExpr::When(condition, yes, no) => {
                condition.each_column(each);
                yes.each_column(each);
                no.each_column(each);
            }
        }
    }
}

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

    /// Half away from zero, at a number of decimals of the column's unit.
    #[must_use]
    pub fn round(self, places: i32) -> Self {
        Self::call(Function::Round(places), vec![self.expr])
    }

    /// Up to the next whole number.
    #[must_use]
    pub fn round_up(self) -> Self {
        Self::call(Function::RoundUp, vec![self.expr])
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

    /// The square root.
    #[must_use]
    pub fn root(self) -> Self {
        Self::call(Function::Root, vec![self.expr])
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
