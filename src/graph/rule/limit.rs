//! Rules that hold a table to what is possible and what is finished.

use std::marker::PhantomData;
use std::panic::Location;

use super::Rule;
use crate::graph::key::Key;
use crate::graph::{Breach, ColumnId, Condition, Graph, Table};

/// A limit: broken where its condition holds.
#[derive(Debug)]
pub struct Limit<T> {
    name: &'static str,
    broken: fn() -> Condition,
    means: fn() -> Breach<Key>,
    written: &'static Location<'static>,
    table: PhantomData<fn() -> T>,
}

impl<T> Limit<T> {
    /// A limit, with the condition that breaks it and what that means.
    #[must_use]
    #[track_caller]
    pub const fn new(
        name: &'static str,
        broken: fn() -> Condition,
        means: fn() -> Breach<Key>,
    ) -> Self {
        Self {
            name,
            broken,
            means,
            written: Location::caller(),
            table: PhantomData,
        }
    }
}

impl<T: Table> Rule for Limit<T> {
    fn table(&self) -> &'static str {
        T::NAME
    }

    fn name(&self) -> &'static str {
        self.name
    }

    fn written(&self) -> &'static Location<'static> {
        self.written
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        let means = (self.means)();
        let at = graph.reached(&means.at);
        let broken = (self.broken)();
        graph.rules::<T>().limit(self.name, broken, means.at(at)).id
    }
}
