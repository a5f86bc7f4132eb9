//! What rules can read: numbers, words, look-ups.
//!
//! What a thing is that can be read, and which table its rows belong to, are known to the
//! compiler, so that a rule cannot mix rows of two tables.

use super::expr;
use super::key::Key;
use super::{Column, Condition, Link, Table, Term, Text, TextExpr};

/// Something in the table `T` that a rule can read: a column there, an input, a rule.
pub trait Reads<T>: Copy {
    /// Its name for the graph.
    fn key(self) -> Key;

    /// Whether the cell is blank.
    fn blank(self) -> Condition {
        expr::Condition::Blank(self.key())
    }

    /// Whether the cell holds something.
    fn filled(self) -> Condition {
        self.blank().negate()
    }
}

/// Numbers in the table `T`.
pub trait Numbers<T>: Reads<T> {
    /// This row of the column.
    fn here(self) -> Term<T> {
        Term::new(expr::Expr::Here(self.key()))
    }

    /// The measured value, or something else where the cell is blank.
    fn or(self, otherwise: impl Into<Term<T>>) -> Term<T> {
        let otherwise = Box::new(otherwise.into().expr);
        Term::new(expr::Expr::OrElse(self.key(), otherwise))
    }

    /// The same column one row up in the group that `group` makes, or `first` where one begins.
    fn row_above<P>(self, group: impl Looks<T, P>, first: impl Into<Term<T>>) -> Term<T> {
        Term::row_above(self.key(), Some(group.key()), first.into())
    }

    /// The same column one row up, or `first` in the table's first row.
    fn row_above_or(self, first: impl Into<Term<T>>) -> Term<T> {
        Term::row_above(self.key(), None, first.into())
    }

    /// The same column one row down in the group that `group` makes, or `last` where one ends.
    fn row_below<P>(self, group: impl Looks<T, P>, last: impl Into<Term<T>>) -> Term<T> {
        Term::row_below(self.key(), Some(group.key()), last.into())
    }

    /// The same column one row down, or `last` in the table's last row.
    fn row_below_or(self, last: impl Into<Term<T>>) -> Term<T> {
        Term::row_below(self.key(), None, last.into())
    }

    /// The same column in the first row of the group that `group` makes.
    fn first_of<P>(self, group: impl Looks<T, P>) -> Term<T> {
        Term::new(expr::Expr::FirstOf {
            column: self.key(),
            group: group.key(),
        })
    }

    /// Whether this row's number is less than the other.
    fn below(self, other: impl Into<Term<T>>) -> Condition {
        self.here().below(other)
    }

    /// Whether this row's number is more than the other.
    fn above(self, other: impl Into<Term<T>>) -> Condition {
        self.here().above(other)
    }

    /// Whether this row's number is the other or more.
    fn at_least(self, other: impl Into<Term<T>>) -> Condition {
        self.here().at_least(other)
    }

    /// Whether the two are the same to nine decimals.
    fn same_as(self, other: impl Into<Term<T>>) -> Condition {
        self.here().same_as(other)
    }

    /// Whether the two differ in the first nine decimals.
    fn differs_from(self, other: impl Into<Term<T>>) -> Condition {
        self.here().differs_from(other)
    }
}

/// Words in the table `T`.
pub trait Words<T>: Reads<T> {
    /// The words of this row.
    fn words(self) -> TextExpr {
        expr::TextExpr::Here(self.key())
    }

    /// The words of the only row, for use in any table.
    fn only_words(self) -> TextExpr {
        expr::TextExpr::Only(self.key())
    }

    /// Whether the words of this row are these, ignoring case.
    fn is(self, words: &str) -> Condition {
        expr::Condition::Is(self.key(), words.to_owned())
    }
}

/// A look-up: for each row of `C` a row of `P`, or none.
pub trait Looks<C, P>: Reads<C> {
    /// The value in the row that was found; zero where none was.
    fn of(self, column: impl Numbers<P>) -> Term<C> {
        Term::new(expr::Expr::Linked(self.key(), column.key()))
    }

    /// The number of the row that another look-up finds for the row that was found; zero
    /// where either found none.
    fn number_of<Q>(self, look_up: impl Looks<P, Q>) -> Term<C> {
        Term::new(expr::Expr::Linked(self.key(), look_up.key()))
    }

    /// The words in the row that was found; empty where none was.
    fn words_of(self, column: impl Words<P>) -> TextExpr {
        expr::TextExpr::Linked(self.key(), column.key())
    }

    /// The sum, for a row of the parent, over the rows that name it.
    fn sum(self, column: impl Numbers<C>) -> Term<P> {
        Term::gathered(expr::Fold::Sum, column.key(), self.key())
    }

    /// The smallest, for a row of the parent, of the rows that name it, blanks left out; zero
    /// where none is left.
    fn lowest(self, column: impl Numbers<C>) -> Term<P> {
        Term::gathered(expr::Fold::Lowest, column.key(), self.key())
    }

    /// The largest, for a row of the parent, of the rows that name it, blanks left out; zero
    /// where none is left.
    fn highest(self, column: impl Numbers<C>) -> Term<P> {
        Term::gathered(expr::Fold::Highest, column.key(), self.key())
    }

    /// The number of the row that was found, from one; zero where none was.
    fn number(self) -> Term<C> {
        Term::new(expr::Expr::Here(self.key()))
    }

    /// Whether the row names none.
    fn found_none(self) -> Condition {
        self.number().same_as(0.0)
    }

    /// Whether the row names one.
    fn found(self) -> Condition {
        self.found_none().negate()
    }
}

impl<T> Reads<T> for Column<T> {
    fn key(self) -> Key {
        Key::There(self.id)
    }
}

impl<T> Numbers<T> for Column<T> {}

impl<T> Reads<T> for Text<T> {
    fn key(self) -> Key {
        Key::There(self.id)
    }
}

impl<T> Words<T> for Text<T> {}

impl<C, P> Reads<C> for Link<C, P> {
    fn key(self) -> Key {
        Key::There(self.id)
    }
}

impl<C, P> Looks<C, P> for Link<C, P> {}

/// Numbers or words of the table `T`, by the name of a column that is there.
#[derive(Debug)]
pub struct Named<T> {
    name: &'static str,
    table: std::marker::PhantomData<fn() -> T>,
}

/// Numbers or words of the table `T`, by the name of a column that is there.
#[must_use]
pub const fn named<T>(name: &'static str) -> Named<T> {
    Named {
        name,
        table: std::marker::PhantomData,
    }
}

impl<T> Clone for Named<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Named<T> {}

impl<T: Table> Reads<T> for Named<T> {
    fn key(self) -> Key {
        Key::Called(T::NAME, self.name)
    }
}

impl<T: Table> Numbers<T> for Named<T> {}
impl<T: Table> Words<T> for Named<T> {}

/// The column that a rule makes, as its own rule reads it: only in rows that are worked out
/// before.
#[derive(Debug)]
pub struct Own<T>(std::marker::PhantomData<fn() -> T>);

impl<T> Clone for Own<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Own<T> {}

impl<T> Own<T> {
    pub(super) fn new() -> Self {
        Self(std::marker::PhantomData)
    }
}

impl<T> Reads<T> for Own<T> {
    fn key(self) -> Key {
        Key::Own
    }
}

/// Only in other rows: a rule that reads itself in its own row is a rule fault.
impl<T> Numbers<T> for Own<T> {}

impl<T: Table> Own<T> {
    /// The row that a look-up of this very table found, where it stands above, or `none`.
    pub fn earlier(self, link: impl Looks<T, T>, none: impl Into<Term<T>>) -> Term<T> {
        Term::new(expr::Expr::NamedAbove {
            column: Key::Own,
            link: link.key(),
            none: Box::new(none.into().expr),
        })
    }

    /// The smallest of the rows below whose look-up found this one, or `none`.
    pub fn lowest_below(self, link: impl Looks<T, T>, none: impl Into<Term<T>>) -> Term<T> {
        Term::naming_below(expr::Fold::Lowest, Key::Own, link, none)
    }

    /// The largest of the rows below whose look-up found this one, or `none`.
    pub fn highest_below(self, link: impl Looks<T, T>, none: impl Into<Term<T>>) -> Term<T> {
        Term::naming_below(expr::Fold::Highest, Key::Own, link, none)
    }

    /// All rows below together whose look-up found this one; zero where none did.
    pub fn sum_below(self, link: impl Looks<T, T>) -> Term<T> {
        Term::naming_below(expr::Fold::Sum, Key::Own, link, 0.0)
    }
}
