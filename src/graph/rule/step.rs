//! Rules that give numbers.

use std::borrow::Cow;
use std::panic::Location;

use crate::graph::any_rule::{Rule, Title};
use crate::graph::reads::{Numbers, Own};
use crate::graph::{Cell, ColumnId, Graph, Solve, Table, Term};
use crate::sources::{self, Source};
use crate::units::{ONE, System, Unit};

/// A column of numbers.
#[derive(Debug)]
pub struct Step<T> {
    name: &'static str,
    unit: fn(System) -> Unit,
    source: Option<&'static Source>,
    says: Numbering<T>,
    said_after: Option<fn(&Graph) -> &'static str>,
    written: &'static Location<'static>,
}

/// What a column of numbers says.
#[derive(Debug)]
enum Numbering<T> {
    /// A term.
    Term(fn() -> Term<T>),
    /// A term that reads the column itself, in rows that are worked out before.
    Running(fn(Own<T>) -> Term<T>),
    /// One cell a row, from other columns.
    Cells(fn(&mut Graph) -> Vec<Option<Cell>>),
    /// Numbers that the program brings along.
    Brought(fn(System) -> Vec<f64>),
    /// Numbers that the rows of the table come with.
    Told(fn(&mut Graph) -> Vec<f64>),
    /// What a pure function makes of whole columns.
    Solved(fn(&mut Graph) -> Solve),
}

impl<T> Clone for Numbering<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Numbering<T> {}

impl<T> Step<T> {
    #[track_caller]
    const fn of(
        name: &'static str,
        unit: fn(System) -> Unit,
        source: Option<&'static Source>,
        says: Numbering<T>,
    ) -> Self {
        Self {
            name,
            unit,
            source,
            says,
            said_after: None,
            written: Location::caller(),
        }
    }

    /// Says something after the name, where what is in the graph asks for it.
    #[must_use]
    pub const fn said_after(mut self, said: fn(&Graph) -> &'static str) -> Self {
        self.said_after = Some(said);
        self
    }

    /// A step with its source.
    #[must_use]
    #[track_caller]
    pub const fn new(
        name: &'static str,
        unit: fn(System) -> Unit,
        source: &'static Source,
        says: fn() -> Term<T>,
    ) -> Self {
        Self::of(name, unit, Some(source), Numbering::Term(says))
    }

    /// A step by plane or solid geometry alone.
    #[must_use]
    #[track_caller]
    pub const fn geometry(
        name: &'static str,
        unit: fn(System) -> Unit,
        says: fn() -> Term<T>,
    ) -> Self {
        Self::new(name, unit, &sources::GEOMETRY, says)
    }

    /// A step by plain arithmetic alone.
    #[must_use]
    #[track_caller]
    pub const fn arithmetic(
        name: &'static str,
        unit: fn(System) -> Unit,
        says: fn() -> Term<T>,
    ) -> Self {
        Self::new(name, unit, &sources::ARITHMETIC, says)
    }

    /// A step that rests on what the job's own tables say.
    #[must_use]
    #[track_caller]
    pub const fn from_job(
        name: &'static str,
        unit: fn(System) -> Unit,
        says: fn() -> Term<T>,
    ) -> Self {
        Self::new(name, unit, &sources::JOB, says)
    }

    /// A step that reads itself in rows that are worked out before.
    #[must_use]
    #[track_caller]
    pub const fn running(
        name: &'static str,
        unit: fn(System) -> Unit,
        source: &'static Source,
        says: fn(Own<T>) -> Term<T>,
    ) -> Self {
        Self::of(name, unit, Some(source), Numbering::Running(says))
    }

    /// The number of each row, from one.
    #[must_use]
    #[track_caller]
    pub const fn numbered(name: &'static str) -> Self {
        Self::running(
            name,
            |_| ONE,
            &sources::ARITHMETIC,
            |own| own.row_above_or(0.0) + 1.0,
        )
    }

    /// One cell a row, from other columns; all must be in the unit given.
    #[must_use]
    #[track_caller]
    pub const fn gathered(
        name: &'static str,
        unit: fn(System) -> Unit,
        cells: fn(&mut Graph) -> Vec<Option<Cell>>,
    ) -> Self {
        Self::of(name, unit, None, Numbering::Cells(cells))
    }

    /// Numbers that the program brings along, such as defaults.
    #[must_use]
    #[track_caller]
    pub const fn brought(
        name: &'static str,
        unit: fn(System) -> Unit,
        source: &'static Source,
        numbers: fn(System) -> Vec<f64>,
    ) -> Self {
        Self::of(name, unit, Some(source), Numbering::Brought(numbers))
    }

    /// Numbers that the rows of the table come with, as its roster says.
    #[must_use]
    #[track_caller]
    pub const fn told(
        name: &'static str,
        unit: fn(System) -> Unit,
        source: &'static Source,
        numbers: fn(&mut Graph) -> Vec<f64>,
    ) -> Self {
        Self::of(name, unit, Some(source), Numbering::Told(numbers))
    }

    /// What a pure function makes of whole columns. An edit of one of those in the workbook
    /// needs a new run; a limit over the column can stay live and hold it to its inputs.
    #[must_use]
    #[track_caller]
    pub const fn solved(
        name: &'static str,
        unit: fn(System) -> Unit,
        source: &'static Source,
        solve: fn(&mut Graph) -> Solve,
    ) -> Self {
        Self::of(name, unit, Some(source), Numbering::Solved(solve))
    }
}

impl<T: Table> Rule for Step<T> {
    fn title(&self) -> Title {
        Title::of::<T>(self.name, self.written)
    }

    fn title_in(&self, graph: &Graph) -> Title {
        let title = self.title();
        match self.said_after.map_or("", |said| said(graph)) {
            "" => title,
            said => Title {
                name: Cow::Owned(format!("{}{said}", self.name)),
                ..title
            },
        }
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        let system = graph.system();
        let unit = (self.unit)(system);
        let source = self.source.unwrap_or(&sources::JOB);
        let Title { name, .. } = self.title_in(graph);
        match self.says {
            Numbering::Term(says) => graph.rules::<T>().step(&name, unit, source, says()).id,
            Numbering::Running(says) => graph.rules::<T>().running(&name, unit, source, says).id,
            Numbering::Cells(cells) => {
                let cells = cells(graph);
                graph.rules::<T>().gathered(&name, unit, cells).id
            }
            Numbering::Brought(numbers) => {
                let numbers = numbers(system);
                graph.rules::<T>().brought(&name, unit, source, numbers).id
            }
            Numbering::Told(numbers) => {
                let numbers = numbers(graph);
                graph.rules::<T>().brought(&name, unit, source, numbers).id
            }
            Numbering::Solved(solve) => {
                let solve = solve(graph);
                graph.rules::<T>().solved(&name, unit, source, solve).id
            }
        }
    }
}

impl<T: Table> Numbers<T> for Step<T> {}
