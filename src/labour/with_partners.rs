//! Figures that partners change: what they are in the scenario in use.

use std::sync::Arc;

use super::compared::scenarios;
use crate::graph::any_rule::Title;
use crate::graph::key::Key;
use crate::graph::prelude::*;
use crate::graph::{ColumnId, Graph, Table};

/// A figure as it is in the scenario in use; where the job has no scenarios, as the crew does
/// all of the work. Both rules give it one name.
#[derive(Debug)]
pub struct InUse<T> {
    by_the_crew: Step<T>,
    with_partners: Step<T>,
}

impl<T: Table> InUse<T> {
    /// The figure as the crew does all of the work, and as it is in the scenario in use.
    #[must_use]
    pub const fn of(by_the_crew: Step<T>, with_partners: Step<T>) -> Self {
        Self {
            by_the_crew,
            with_partners,
        }
    }

    fn rule(&self, graph: &Graph) -> Step<T> {
        match scenarios(graph) {
            0 => self.by_the_crew,
            _ => self.with_partners,
        }
    }
}

impl<T: Table> Rule for InUse<T> {
    fn title(&self) -> Title {
        self.with_partners.title()
    }

    fn title_in(&self, graph: &Graph) -> Title {
        self.rule(graph).title_in(graph)
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        self.rule(graph).add(graph)
    }
}

impl<T> Clone for InUse<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for InUse<T> {}

impl<T: Table> Reads<T> for InUse<T> {
    fn key(self) -> Key {
        Key::By(Arc::new(self))
    }
}

impl<T: Table> Numbers<T> for InUse<T> {}

impl<T: Table> From<InUse<T>> for Term<T> {
    fn from(figure: InUse<T>) -> Self {
        figure.here()
    }
}

crate::graph::arithmetic!(InUse<T>, T, T: Table);
