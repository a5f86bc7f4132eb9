//! Rules: what a column is called, in which unit it is, where it is published and what it
//! says, in one place.
//!
//! A rule is a constant. Other rules read it by its name, and its column is made when it is
//! first read: nothing is handed on, and the order in which rules stand needs no care.
//!
//! Always true: a column is made once; two rules of one name in a table, and a rule that
//! reads itself in a circle, are rule faults.
//!
//! ```
//! use groundsheet::graph::prelude::*;
//! use groundsheet::graph::{Graph, Table, evaluate};
//! use groundsheet::sources;
//! use groundsheet::units::System;
//!
//! #[derive(Debug)]
//! enum Trenches {}
//!
//! impl Table for Trenches {
//!     const NAME: &'static str = "Trenches";
//!     const ROW: &'static str = "trench";
//! }
//!
//! const DEPTH: Step<Trenches> = Step::brought("depth", System::length, &sources::JOB, |_| vec![3.0, 4.0]);
//! const LENGTH: Step<Trenches> = Step::brought("length", System::length, &sources::JOB, |_| vec![9.0, 9.0]);
//! const FACE: Step<Trenches> = Step::geometry("face", System::area, || 2.0 * LENGTH * DEPTH);
//!
//! let mut graph = Graph::new(System::Us);
//! graph.add_table::<Trenches>(2);
//! let face = graph.make(&FACE);
//! assert_eq!(evaluate(&graph).numbers(face), [54.0, 72.0]);
//! ```

mod derived;
mod limit;
mod look_up;
mod roster;
mod step;
mod wording;

use std::borrow::Cow;
use std::fmt;
use std::panic::Location;
use std::sync::Arc;

pub use derived::Derived;
pub use limit::{At, Limit};
pub use look_up::LookUp;
pub use roster::Roster;
pub(crate) use roster::whole;
pub use step::Step;
pub use wording::Wording;

use super::key::{Key, Reads};
use super::{ColumnId, Graph, Table};

/// What a rule is called, and where it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Title {
    /// The name of its table.
    pub table: &'static str,
    /// The name of its column, unique in the table.
    pub name: Cow<'static, str>,
    /// Where the rule is written.
    pub written: &'static Location<'static>,
}

impl Title {
    fn of<T: Table>(name: &'static str, written: &'static Location<'static>) -> Self {
        Self {
            table: T::NAME,
            name: Cow::Borrowed(name),
            written,
        }
    }
}

impl fmt::Display for Title {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}, {}", self.table, self.name)
    }
}

/// A rule that makes a column when it is first read.
pub trait Rule: Send + Sync {
    /// What it is called, and where it is written.
    fn title(&self) -> Title;
    /// What it is called in a graph, where that rests on what is there.
    fn title_in(&self, _graph: &Graph) -> Title {
        self.title()
    }
    /// Whether a list that has it makes it in a graph.
    fn is_for(&self, _graph: &Graph) -> bool {
        true
    }
    /// Adds its column; called once for a graph.
    fn add(&self, graph: &mut Graph) -> ColumnId;
}

/// Gives a kind of rule its name and place, and makes it readable.
macro_rules! rule {
    ($kind:ident<$first:ident $(, $second:ident)?>) => {
        impl<$first $(, $second)?> Clone for $kind<$first $(, $second)?> {
            fn clone(&self) -> Self {
                *self
            }
        }
        impl<$first $(, $second)?> Copy for $kind<$first $(, $second)?> {}
        impl<$first: Table $(, $second: Table)?> Reads<$first> for $kind<$first $(, $second)?> {
            fn key(self) -> Key {
                Key::By(Arc::new(self))
            }
        }
    };
}

rule!(Step<T>);
rule!(Wording<T>);
rule!(LookUp<C, P>);
