//! Keys: how a rule names what it reads.
//!
//! A rule says the columns it reads by name: one that is there, an input by its table and
//! heading, or a rule that makes its column when it is first read; and units of either system.

use std::borrow::Cow;
use std::fmt;
use std::sync::Arc;

use super::ColumnId;
use super::any_rule::Rule;
use crate::units::{System, Unit};

/// A column as a rule names it.
#[derive(Clone)]
pub enum Key {
    /// One that is there.
    There(ColumnId),
    /// One that is there by the name of its table and its own, such as an input.
    Called(&'static str, &'static str),
    /// One that a rule makes when it is first read.
    By(Arc<dyn Rule>),
    /// The column that is being made.
    Own,
}

/// Two keys are the same where they name the same column.
impl PartialEq for Key {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Key::There(one), Key::There(two)) => one == two,
            (Key::Own, Key::Own) => true,
            (one, two) => one.called().is_some() && one.called() == two.called(),
        }
    }
}

impl Key {
    /// The names of its table and of itself, where it is known by them.
    fn called(&self) -> Option<(&'static str, Cow<'static, str>)> {
        match self {
            Key::Called(table, name) => Some((table, Cow::Borrowed(name))),
            Key::By(rule) => {
                let title = rule.title();
                Some((title.table, title.name))
            }
            Key::There(_) | Key::Own => None,
        }
    }
}

impl fmt::Debug for Key {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Key::There(id) => write!(out, "{id:?}"),
            Key::Called(table, name) => write!(out, "{table}, {name}"),
            Key::By(rule) => write!(out, "{}", rule.title()),
            Key::Own => write!(out, "itself"),
        }
    }
}

/// A unit as a rule says it: one of each system of units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct In {
    us: Unit,
    metric: Unit,
}

impl In {
    /// The unit in a system of units.
    #[must_use]
    pub fn of(self, system: System) -> Unit {
        if system.is_us() { self.us } else { self.metric }
    }
}

impl From<Unit> for In {
    fn from(unit: Unit) -> Self {
        Self {
            us: unit,
            metric: unit,
        }
    }
}

impl<F: Fn(System) -> Unit> From<F> for In {
    fn from(unit: F) -> Self {
        Self {
            us: unit(System::Us),
            metric: unit(System::Metric),
        }
    }
}
