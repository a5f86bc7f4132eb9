//! Amounts: what a row comes to in each way that it can be counted.

use crate::graph::key::Key;
use crate::graph::prelude::*;
use crate::takeoff::book::{BANK, LOOSE, VOLUME, base_of, kind_of};
use crate::units::{System, Unit};

/// What a row amounts to in one way that it can be counted.
#[derive(Clone, Copy, Debug)]
pub struct Amount {
    pub(super) unit: fn(System) -> Unit,
    pub(super) of: fn() -> Key,
}

impl Amount {
    /// A column and its unit. A volume serves for a loose one and for one in the bank too.
    #[must_use]
    pub const fn new(unit: fn(System) -> Unit, of: fn() -> Key) -> Self {
        Self { unit, of }
    }

    /// The bare number that it has in its own unit.
    pub(super) fn number<T>(&self, system: System) -> Term<T> {
        Term::of_row((self.of)()).number_in((self.unit)(system))
    }

    /// The bare number that it has in the job's base unit, for each kind of unit it serves.
    fn by_kind<T>(&self, system: System) -> Vec<(f64, Term<T>)> {
        let unit = (self.unit)(system);
        let number = Term::of_row((self.of)()).number_in(base_of(unit, system));
        let kinds = match kind_of(unit.without_state()) {
            Some(VOLUME) => vec![VOLUME, LOOSE, BANK],
            kind => kind.into_iter().collect(),
        };
        let of_kind = |kind: f64| (kind, number.clone());
        kinds.into_iter().map(of_kind).collect()
    }
}

/// The amounts as bare numbers in the job's base units, each with a kind of unit it serves.
pub(super) fn by_kind<T>(amounts: &[Amount], system: System) -> Vec<(f64, Term<T>)> {
    let of_one = |amount: &Amount| amount.by_kind(system);
    amounts.iter().flat_map(of_one).collect()
}

/// The amount of the kind asked for, in units of a size; zero where there is none of it.
pub(super) fn of_kind<T>(amounts: Vec<(f64, Term<T>)>, kind: &Term<T>, size: &Term<T>) -> Term<T> {
    let none: Term<T> = 0.0.into();
    amounts.into_iter().rev().fold(none, |rest, (own, number)| {
        when(kind.clone().same_as(own), number / size.clone(), rest)
    })
}

/// Whether a kind of unit is none of those there are.
pub(super) fn of_no_kind<T>(amounts: &[(f64, Term<T>)], kind: &Term<T>) -> Condition {
    let same = amounts.iter().map(|(own, _)| kind.clone().same_as(*own));
    let any = same.reduce(Condition::or);
    any.unwrap_or(Condition::Any(Vec::new())).negate()
}
