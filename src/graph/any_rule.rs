//! What every rule is, of whatever kind: it has a title, and adds its column to a graph.

use std::borrow::Cow;
use std::fmt;
use std::panic::Location;

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
    pub(super) fn of<T: Table>(name: &'static str, written: &'static Location<'static>) -> Self {
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
