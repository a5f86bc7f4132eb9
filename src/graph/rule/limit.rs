//! Rules that hold a table to what is possible and what is finished.

use std::marker::PhantomData;
use std::panic::Location;

use crate::diagnostic::{Code, Meaning, Severity};
use crate::graph::any_rule::{Rule, Title};
use crate::graph::{Breach, ColumnId, Condition, Graph, Table};

/// The column that a person would change, by the name of its table and its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct At {
    /// The name of the table.
    pub table: &'static str,
    /// The name of the column.
    pub column: &'static str,
}

/// A limit: broken where its condition holds.
#[derive(Debug)]
pub struct Limit<T> {
    name: &'static str,
    severity: Severity,
    code: Code,
    at: At,
    broken: fn() -> Condition,
    message: &'static str,
    hint: &'static str,
    meaning: Meaning,
    only_where: Option<fn(&Graph) -> bool>,
    written: &'static Location<'static>,
    table: PhantomData<fn() -> T>,
}

/// One way to make a limit, for each severity.
macro_rules! limits {
    ($($(#[doc = $doc:literal])+ $name:ident $severity:ident;)+) => {
        impl<T> Limit<T> {
            $(
                $(#[doc = $doc])+
                #[must_use]
                #[track_caller]
                pub const fn $name(
                    name: &'static str,
                    code: Code,
                    at: At,
                    broken: fn() -> Condition,
                    message: &'static str,
                    hint: &'static str,
                ) -> Self {
                    Self {
                        name,
                        severity: Severity::$severity,
                        code,
                        at,
                        broken,
                        message,
                        hint,
                        meaning: Meaning::Plain,
                        only_where: None,
                        written: Location::caller(),
                        table: PhantomData,
                    }
                }
            )+
        }
    };
}

limits! {
    /// A limit that blocks the bid where it is broken: its name, the kind of finding, the
    /// column that a person would change, the condition that breaks it, what is wrong
    /// (without values), what to do next.
    fault Error;
    /// A limit that leaves the bid a draft where it is broken; otherwise as [`Limit::fault`].
    open Open;
    /// A limit to look at where it is broken; otherwise as [`Limit::fault`].
    warning Warning;
    /// A caution about work that can hurt someone; otherwise as [`Limit::fault`].
    caution Caution;
}

impl<T> Limit<T> {
    /// The same limit with a meaning beyond its code.
    #[must_use]
    pub const fn meaning(self, meaning: Meaning) -> Self {
        Self { meaning, ..self }
    }

    /// The same limit, in those jobs only where something is so.
    #[must_use]
    pub const fn only_where(self, is_so: fn(&Graph) -> bool) -> Self {
        Self {
            only_where: Some(is_so),
            ..self
        }
    }
}

impl<T: Table> Rule for Limit<T> {
    fn title(&self) -> Title {
        Title::of::<T>(self.name, self.written)
    }

    fn is_for(&self, graph: &Graph) -> bool {
        self.only_where.is_none_or(|is_so| is_so(graph))
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        let at = graph.cell_to_change(self.at);
        let breach = Breach {
            severity: self.severity,
            code: self.code,
            at,
            message: self.message,
            hint: self.hint,
            meaning: self.meaning,
        };
        let broken = (self.broken)();
        graph.rules::<T>().limit(self.name, broken, breach).id
    }
}
