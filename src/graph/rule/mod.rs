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

use std::sync::Arc;

pub use derived::Derived;
pub use limit::{At, Limit};
pub use look_up::LookUp;
pub use roster::Roster;
pub(crate) use roster::whole;
pub use step::Step;
pub use wording::Wording;

use super::Table;
use super::key::Key;
use super::reads::Reads;

/// Makes a kind of rule readable.
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
