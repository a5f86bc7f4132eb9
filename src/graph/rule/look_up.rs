//! Rules that find rows of other tables.

use std::marker::PhantomData;
use std::panic::Location;

use super::Rule;
use crate::graph::key::{Key, Looks};
use crate::graph::{Cell, ColumnId, Graph, Solve, Table, Text};
use crate::sources;
use crate::units::ONE;

/// A look-up of each row's words among the names of the table `P`.
#[derive(Debug)]
pub struct LookUp<C, P> {
    name: &'static str,
    finds: Finding,
    must_find: bool,
    written: &'static Location<'static>,
    tables: PhantomData<fn() -> (C, P)>,
}

/// How a look-up finds its rows.
#[derive(Clone, Copy, Debug)]
enum Finding {
    /// By the words of a column.
    Words(fn() -> Key),
    /// One cell of another look-up a row.
    Cells(fn(&mut Graph) -> Vec<Option<Cell>>),
    /// By what decides the rows when the job is read.
    Solved(fn(&mut Graph) -> Solve),
}

impl<C, P> LookUp<C, P> {
    #[track_caller]
    const fn by(name: &'static str, finds: Finding) -> Self {
        Self {
            name,
            finds,
            must_find: false,
            written: Location::caller(),
            tables: PhantomData,
        }
    }

    /// A look-up of the words of a column.
    #[must_use]
    #[track_caller]
    pub const fn new(name: &'static str, words: fn() -> Key) -> Self {
        Self::by(name, Finding::Words(words))
    }

    /// One cell of another look-up a row.
    #[must_use]
    #[track_caller]
    pub const fn gathered(name: &'static str, cells: fn(&mut Graph) -> Vec<Option<Cell>>) -> Self {
        Self::by(name, Finding::Cells(cells))
    }

    /// Row numbers from one, zero for none, that are decided when the job is read.
    #[must_use]
    #[track_caller]
    pub const fn solved(name: &'static str, solve: fn(&mut Graph) -> Solve) -> Self {
        Self::by(name, Finding::Solved(solve))
    }

    /// Says that words which name a row must find one: a limit is broken where they do not.
    #[must_use]
    pub const fn that_must_find(mut self) -> Self {
        self.must_find = true;
        self
    }
}

impl<C: Table, P: Table> Rule for LookUp<C, P> {
    fn table(&self) -> &'static str {
        C::NAME
    }

    fn name(&self) -> &'static str {
        self.name
    }

    fn written(&self) -> &'static Location<'static> {
        self.written
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        match self.finds {
            Finding::Words(words) => {
                let key = Text::new(graph.reached(&words()));
                let link = graph.rules::<C>().link::<P>(self.name, key);
                if self.must_find {
                    graph.rules::<C>().must_find(key, link);
                }
                link.id
            }
            Finding::Cells(cells) => {
                let cells = cells(graph);
                graph.rules::<C>().gathered(self.name, ONE, cells).id
            }
            Finding::Solved(solve) => {
                let solve = solve(graph);
                let source = &sources::JOB;
                graph.rules::<C>().solved(self.name, ONE, source, solve).id
            }
        }
    }
}

impl<C: Table, P: Table> Looks<C, P> for LookUp<C, P> {}
