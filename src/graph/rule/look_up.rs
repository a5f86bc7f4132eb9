//! Rules that find rows of other tables.

use std::marker::PhantomData;
use std::panic::Location;

use crate::graph::any_rule::{Rule, Title};
use crate::graph::key::Key;

use crate::graph::reads::{Looks, Numbers};
use crate::graph::{Cell, ColumnId, Graph, Solve, Table, Term, Text};
use crate::sources::{self, Source};
use crate::units::ONE;

/// A look-up of each row's words among the names of the table `P`.
#[derive(Debug)]
pub struct LookUp<C, P> {
    name: &'static str,
    finds: Finding<C>,
    must_find: bool,
    among: Option<fn() -> Key>,
    written: &'static Location<'static>,
    tables: PhantomData<fn() -> (C, P)>,
}

impl<C> Clone for Finding<C> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<C> Copy for Finding<C> {}

/// How a look-up finds its rows.
#[derive(Debug)]
enum Finding<C> {
    /// By the words of a column.
    Words(fn() -> Key),
    /// By the number of the row, from one; zero for none.
    Number(&'static Source, fn() -> Term<C>),
    /// The same, where the rule rests on what is in the graph.
    Counted(&'static Source, fn(&Graph) -> Term<C>),
    /// One cell of another look-up a row.
    Cells(fn(&mut Graph) -> Vec<Option<Cell>>),
    /// By what decides the rows when the job is read.
    Solved(fn(&mut Graph) -> Solve),
}

impl<C, P> LookUp<C, P> {
    #[track_caller]
    const fn by(name: &'static str, finds: Finding<C>) -> Self {
        Self {
            name,
            finds,
            must_find: false,
            among: None,
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

    /// The number of the row, from one; zero for none.
    #[must_use]
    #[track_caller]
    pub const fn by_number(
        name: &'static str,
        source: &'static Source,
        number: fn() -> Term<C>,
    ) -> Self {
        Self::by(name, Finding::Number(source, number))
    }

    /// The number of the row as in [`LookUp::by_number`], by a rule that counts rows.
    #[must_use]
    #[track_caller]
    pub const fn counted(
        name: &'static str,
        source: &'static Source,
        number: fn(&Graph) -> Term<C>,
    ) -> Self {
        Self::by(name, Finding::Counted(source, number))
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

    /// Says which rule names the rows that are looked up, where a rule does.
    #[must_use]
    pub const fn among(mut self, names: fn() -> Key) -> Self {
        self.among = Some(names);
        self
    }
}

impl<C: Table, P: Table> Rule for LookUp<C, P> {
    fn title(&self) -> Title {
        Title::of::<C>(self.name, self.written)
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        if let Some(names) = self.among {
            graph.reached(&names());
        }
        match self.finds {
            Finding::Number(source, number) => {
                graph.rules::<C>().step(self.name, ONE, source, number()).id
            }
            Finding::Counted(source, number) => {
                let number = number(graph);
                graph.rules::<C>().step(self.name, ONE, source, number).id
            }
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

/// The number of the row that was found, from one; zero where none was.
impl<C: Table, P: Table> Numbers<C> for LookUp<C, P> {}
