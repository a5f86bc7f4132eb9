//! What a column says: small trees over columns, without types.
//!
//! Rules do not write these by hand: they build them from [`Term`](super::Term)s. A tree
//! is first as a rule says it ([`Said`]): its columns are names, and a unit is one of
//! either system. The unit check makes of it what the graph holds ([`Made`]): its columns
//! are there, its units are those of the job, and every change of unit is explicit.

mod walk;

use std::fmt::Debug;

use super::ColumnId;
use super::key::{In, Key};
use crate::units::{Ratio, Unit};

/// How far an expression has come.
pub trait Stage: Clone + Debug + PartialEq {
    /// What stands for a column.
    type Column: Clone + Debug + PartialEq;
    /// What stands for a unit.
    type Unit: Clone + Debug + PartialEq;
}

/// As a rule says it: columns by name, units of either system.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {}

impl Stage for Said {
    type Column = Key;
    type Unit = In;
}

/// As the graph holds it: columns that are there, units of the job.
#[derive(Clone, Debug, PartialEq)]
pub enum Made {}

impl Stage for Made {
    type Column = ColumnId;
    type Unit = Unit;
}

/// Arithmetic between two numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Op {
    /// Sum.
    Add,
    /// Difference.
    Subtract,
    /// Product.
    Multiply,
    /// Quotient; a rule guards against a zero divisor with [`when`](super::when).
    Divide,
}

/// A function that both the engine and spreadsheet programs know.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Function {
    /// The smallest.
    Lowest,
    /// The largest.
    Highest,
    /// Half away from zero at a number of decimals.
    Round(i32),
    /// Up to a whole number, after rounding to six decimals.
    RoundUp,
    /// Down to a whole number, after rounding to six decimals.
    RoundDown,
    /// Square root of a pure number; of less than zero it cannot be worked out.
    Root,
    /// Cube root of the square of a pure number, as weir formulas have it; of less than
    /// zero it cannot be worked out.
    TwoThirds,
    /// The first to the power of the second, both pure numbers; the first above zero.
    Power,
    /// How often a pure number doubles from one: its logarithm to the base of two.
    Doublings,
}

/// How the numbers of several rows are gathered into one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fold {
    /// The smallest.
    Lowest,
    /// The largest.
    Highest,
    /// All together.
    Sum,
}

impl Fold {
    /// The numbers gathered, from the first on; `None` where there are none.
    pub(super) fn of(self, numbers: impl Iterator<Item = f64>) -> Option<f64> {
        match self {
            Fold::Lowest => numbers.reduce(f64::min),
            Fold::Highest => numbers.reduce(f64::max),
            // Nothing but zeros is zero, never less than nothing.
            Fold::Sum => numbers.reduce(|sum, next| sum + next).map(|sum| sum + 0.0),
        }
    }
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
pub enum Expr<S: Stage = Made> {
    /// A pure number: geometry, never a value from the world.
    Literal(f64),
    /// The ratio of a circle to its diameter.
    Pi,
    /// One of a unit, such as one foot: the measure of a side that is not there.
    OneOf(S::Unit),
    /// The bare number that an expression has in a unit.
    NumberIn(Box<Expr<S>>, S::Unit),
    /// A bare number taken as a number of a unit.
    CountedIn(Box<Expr<S>>, S::Unit),
    /// This row of a column; blank counts as zero.
    Here(S::Column),
    /// The first row of a table, often the only one.
    Only(S::Column),
    /// This row of a measured column, or something else where it is blank.
    OrElse(S::Column, Box<Expr<S>>),
    /// The row of another table that a look-up found; zero where it found none.
    Linked(S::Column, S::Column),
    /// The row above in the same group, or the first value where a group begins.
    RowAbove {
        /// The column read one row up; often the column being made.
        column: S::Column,
        /// The look-up whose value makes rows one group; `None` is the whole table.
        group: Option<S::Column>,
        /// The value at the start of a group.
        first: Box<Expr<S>>,
    },
    /// The row below in the same group, or the last value where a group ends.
    RowBelow {
        /// The column read one row down; often the column being made.
        column: S::Column,
        /// The look-up whose value makes rows one group; `None` is the whole table.
        group: Option<S::Column>,
        /// The value at the end of a group.
        last: Box<Expr<S>>,
    },
    /// The first row of the group that this row belongs to.
    FirstOf {
        /// The column read.
        column: S::Column,
        /// The look-up whose value makes rows one group.
        group: S::Column,
    },
    /// The row of this very table that a look-up found, where that stands above this row;
    /// so a column may read itself where each row names one before it.
    NamedAbove {
        /// The column read; often the column being made.
        column: S::Column,
        /// The look-up, in this table for this table.
        link: S::Column,
        /// The value where no row above was found.
        none: Box<Expr<S>>,
    },
    /// The rows below this one whose look-up found it, gathered into one number; so a
    /// column may read itself from the last row up.
    NamingBelow {
        /// How they are gathered.
        fold: Fold,
        /// The column read; often the column being made.
        column: S::Column,
        /// The look-up, in this table for this table.
        link: S::Column,
        /// The value where no row below found this one.
        none: Box<Expr<S>>,
    },
    /// The rows of another table whose look-up found this row, gathered into one number;
    /// zero where none did. The smallest and the largest leave blanks out.
    Naming {
        /// How they are gathered.
        fold: Fold,
        /// The column gathered.
        column: S::Column,
        /// The look-up in the same table as `column`.
        link: S::Column,
    },
    /// All rows of a column, gathered into one number; zero where there are none. The
    /// smallest and the largest leave blanks out.
    All(Fold, S::Column),
    /// Arithmetic.
    Binary(Op, Box<Expr<S>>, Box<Expr<S>>),
    /// A function.
    Call(Function, Vec<Expr<S>>),
    /// One of two values.
    When(Box<Condition<S>>, Box<Expr<S>>, Box<Expr<S>>),
    /// A change of unit, put in by the unit check.
    Convert(Box<Expr<S>>, Ratio),
}

/// Something that is so or not, for one row.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition<S: Stage = Made> {
    /// Two numbers compared.
    Compare(Comparison, Expr<S>, Expr<S>),
    /// A measured cell, or a cell of words, is empty.
    Blank(S::Column),
    /// The words of this row are these, ignoring case.
    Is(S::Column, String),
    /// All hold.
    All(Vec<Condition<S>>),
    /// At least one holds.
    Any(Vec<Condition<S>>),
    /// It does not hold.
    Not(Box<Condition<S>>),
}

/// Words for one row of a table.
#[derive(Clone, Debug, PartialEq)]
pub enum TextExpr<S: Stage = Made> {
    /// Words as they are.
    Fixed(String),
    /// This row of a column of words.
    Here(S::Column),
    /// The only row of a table that has one.
    Only(S::Column),
    /// The row of another table that a look-up found; empty where it found none.
    Linked(S::Column, S::Column),
    /// One of two.
    When(Box<Condition<S>>, Box<TextExpr<S>>, Box<TextExpr<S>>),
}

impl<S: Stage> Condition<S> {
    /// Both conditions hold.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
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
    pub fn or(self, other: Self) -> Self {
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
    pub fn negate(self) -> Self {
        Condition::Not(Box::new(self))
    }
}
