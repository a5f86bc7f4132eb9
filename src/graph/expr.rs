//! What a column says: small trees over columns, without types.
//!
//! Rules do not write these by hand: they build them from [`Term`](super::Term)s.

use super::ColumnId;
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
    /// The first row of a table, often the only one.
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
                if let Some(group) = group {
                    each(*group);
                }
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
                for part in parts {
                    part.walk(visit);
                }
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
                for part in parts {
                    part.each_column(each);
                }
            }
            Condition::Not(inner) => inner.each_column(each),
            Condition::Blank(_) | Condition::Is(..) => {}
        }
    }

    /// The columns looked at as they are: for blanks and for words.
    pub(super) fn each_tested(&self, each: &mut dyn FnMut(ColumnId)) {
        match self {
            Condition::Blank(column) | Condition::Is(column, _) => each(*column),
            Condition::All(parts) | Condition::Any(parts) => {
                for part in parts {
                    part.each_tested(each);
                }
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
    /// Calls `visit` with every expression that decides between texts.
    pub fn walk<'e>(&'e self, visit: &mut dyn FnMut(&'e Expr)) {
        if let TextExpr::When(condition, yes, no) = self {
            condition.walk(visit);
            yes.walk(visit);
            no.walk(visit);
        }
    }

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
