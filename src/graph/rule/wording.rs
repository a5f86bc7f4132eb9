//! Rules that give words.

use std::marker::PhantomData;
use std::panic::Location;
use std::sync::Arc;

use crate::graph::any_rule::{Rule, Title};
use crate::graph::reads::Words;
use crate::graph::{ColumnId, Graph, Piece, Table, TextExpr};
use crate::units::System;

/// A column of words.
#[derive(Debug)]
pub struct Wording<T> {
    name: &'static str,
    says: Worded,
    names_rows: bool,
    written: &'static Location<'static>,
    table: PhantomData<fn() -> T>,
}

/// What a column of words says.
#[derive(Clone, Copy, Debug)]
enum Worded {
    /// Words by rule.
    Text(fn() -> TextExpr),
    /// Words that the program brings along, one a row of their table.
    Brought(fn(System) -> Vec<&'static str>),
    /// The same of words that are spelled out first.
    Spelled(fn(System) -> Vec<String>),
    /// Words by rule that say a unit of the job.
    InUnits(fn(System) -> TextExpr),
    /// Words joined, row by row, from fixed pieces and other cells.
    Pieces(fn(&mut Graph) -> Vec<Vec<Piece>>),
}

impl<T> Wording<T> {
    #[track_caller]
    const fn of(name: &'static str, says: Worded) -> Self {
        Self {
            name,
            says,
            names_rows: false,
            written: Location::caller(),
            table: PhantomData,
        }
    }

    /// Words by rule.
    #[must_use]
    #[track_caller]
    pub const fn new(name: &'static str, says: fn() -> TextExpr) -> Self {
        Self::of(name, Worded::Text(says))
    }

    /// Words that the program brings along, one a row: they make the rows of their table.
    #[must_use]
    #[track_caller]
    pub const fn brought(name: &'static str, words: fn(System) -> Vec<&'static str>) -> Self {
        Self::of(name, Worded::Brought(words))
    }

    /// The same as [`Wording::brought`], of words that are spelled out first.
    #[must_use]
    #[track_caller]
    pub const fn spelled(name: &'static str, words: fn(System) -> Vec<String>) -> Self {
        Self::of(name, Worded::Spelled(words))
    }

    /// Words by rule that say a unit of the job.
    #[must_use]
    #[track_caller]
    pub const fn in_units(name: &'static str, says: fn(System) -> TextExpr) -> Self {
        Self::of(name, Worded::InUnits(says))
    }

    /// Words joined, row by row, from fixed pieces and other cells.
    #[must_use]
    #[track_caller]
    pub const fn gathered(name: &'static str, pieces: fn(&mut Graph) -> Vec<Vec<Piece>>) -> Self {
        Self::of(name, Worded::Pieces(pieces))
    }

    /// Says that the words name the rows of their table.
    #[must_use]
    pub const fn naming_rows(mut self) -> Self {
        self.names_rows = true;
        self
    }
}

impl<T: Table> Rule for Wording<T> {
    fn title(&self) -> Title {
        Title::of::<T>(self.name, self.written)
    }

    fn add(&self, graph: &mut Graph) -> ColumnId {
        let words = match self.says {
            Worded::Text(says) => graph.rules::<T>().word_step(self.name, says()),
            Worded::InUnits(says) => {
                let says = says(graph.system());
                graph.rules::<T>().word_step(self.name, says)
            }
            Worded::Brought(words) => {
                let words = words(graph.system()).into_iter().map(Arc::from).collect();
                graph.brought::<T>(self.name, words)
            }
            Worded::Spelled(words) => {
                let words = words(graph.system()).into_iter().map(Arc::from).collect();
                graph.brought::<T>(self.name, words)
            }
            Worded::Pieces(pieces) => {
                let pieces = pieces(graph);
                graph.rules::<T>().gathered_words(self.name, pieces)
            }
        };
        if self.names_rows {
            graph.rules::<T>().labelled_by(words);
        }
        words.id
    }
}

impl<T: Table> Words<T> for Wording<T> {}
