//! Factors in rules: a factor stands for its value in use, in any table.

use std::ops::{Add, Div, Mul, Sub};

use super::Factor;
use crate::graph::key::Key;

use crate::graph::reads::{Numbers, Reads};
use crate::graph::rule::Step;
use crate::graph::{Table, Term};
use crate::tables::Factors;

impl Reads<Factors> for Factor {
    fn key(self) -> Key {
        Key::Called(Factors::NAME, self.name())
    }
}

/// The default of a factor, whatever is in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DefaultOf(pub Factor);

impl Reads<Factors> for DefaultOf {
    fn key(self) -> Key {
        let [default, _] = self.0.names_of_both();
        Key::Called(Factors::NAME, default)
    }
}

impl Numbers<Factors> for DefaultOf {}

/// What a job writes in the place of a default; blank where it writes nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OverrideOf(pub Factor);

impl Reads<Factors> for OverrideOf {
    fn key(self) -> Key {
        let [_, own] = self.0.names_of_both();
        Key::Called(Factors::NAME, own)
    }
}

impl Numbers<Factors> for OverrideOf {}

impl<T> From<Factor> for Term<T> {
    fn from(factor: Factor) -> Self {
        Term::of_only_row(factor.key())
    }
}

macro_rules! factor_first {
    ($($trait:ident $method:ident),+) => {$(
        impl<T> $trait<Term<T>> for Factor {
            type Output = Term<T>;
            fn $method(self, right: Term<T>) -> Term<T> {
                Term::from(self).$method(right)
            }
        }
        impl<T: Table> $trait<Step<T>> for Factor {
            type Output = Term<T>;
            fn $method(self, right: Step<T>) -> Term<T> {
                Term::from(self).$method(right)
            }
        }
    )+};
}

factor_first!(Add add, Sub sub, Mul mul, Div div);
