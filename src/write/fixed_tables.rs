//! Tables that are not of the graph: cautions, sources, factors, checks, changes, and the
//! defaults that move the bid most.
//!
//! Each is said once, as columns and entries; the workbook, its template and the records of
//! programs are made of these.

mod checks;
mod paint;
mod rows;
mod typed;

use std::borrow::Cow;

pub(super) use checks::{broken_rows, first_broken, listed};
pub(super) use paint::{constants, headings};
pub(super) use rows::factor;

use super::changes;
use super::fact::Fact;
use super::layout::BookLayout;
use super::sheets::Fixed;
use crate::estimate::Estimate;
use crate::graph::Cell;
use crate::units::Unit;

/// A table of columns and entries.
pub(super) struct FixedTable<'e> {
    pub(super) form: &'static Form,
    pub(super) rows: Vec<Vec<Entry<'e>>>,
}

/// What a table is called, and its columns.
pub(super) struct Form {
    /// What stands above it.
    pub(super) title: &'static str,
    /// Its columns in the workbook.
    pub(super) columns: &'static [FixedColumn],
    /// Which of them programs are given, in their order there; none where the table is of
    /// use in a workbook only.
    pub(super) exported: &'static [usize],
}

/// One column.
#[derive(Clone, Copy)]
pub(super) struct FixedColumn {
    pub(super) heading: &'static str,
    pub(super) width: f64,
    pub(super) look: Look,
    /// The width that rows are made tall for; none where words may be cut.
    pub(super) fit: Option<f64>,
}

/// How the entries of a column look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Look {
    /// Words.
    Words,
    /// Words that stand out.
    Bold,
    /// Long words.
    Long,
    /// Long words in small letters.
    Small,
    /// Words to fill in.
    WordsToFill,
    /// A number.
    Number,
    /// A number to fill in.
    NumberToFill,
    /// A whole number.
    Count,
    /// An amount of money.
    Money,
    /// Whether something has changed.
    Flag,
    /// Words, or a number as it is.
    Either,
}

impl Look {
    /// Whether a column holds numbers.
    pub(super) fn is_number(self) -> bool {
        use Look::{Count, Money, Number, NumberToFill};
        matches!(self, Number | NumberToFill | Count | Money)
    }
}

/// One cell of a table.
pub(super) enum Entry<'e> {
    /// Words or a number that stay as they are.
    Set(Fact<'e>),
    /// A formula, and what it comes to.
    Live(String, Fact<'e>),
    /// A unit: as people write it in the workbook, by its symbol elsewhere.
    Unit(Unit),
    /// A cell of the graph that lives here.
    Cell(Cell),
    /// Room to fill something in.
    Blank,
    /// No cell.
    Nothing,
}

impl<'e> Entry<'e> {
    fn words(words: impl Into<Cow<'e, str>>) -> Self {
        Entry::Set(Fact::words(words))
    }

    fn number(number: f64) -> Self {
        Entry::Set(Fact::Number(number))
    }
}

const fn column(heading: &'static str, width: f64, look: Look) -> FixedColumn {
    FixedColumn {
        heading,
        width,
        look,
        fit: None,
    }
}

impl FixedColumn {
    /// The same column where rows are made tall for its words.
    const fn fitted(self, width: f64) -> Self {
        Self {
            fit: Some(width),
            ..self
        }
    }
}

/// What a table is called, and its columns.
pub(super) fn form(which: Fixed) -> &'static Form {
    match which {
        Fixed::Factors => &rows::FACTORS,
        Fixed::Cautions => &rows::CAUTIONS,
        Fixed::Sources => &rows::SOURCES,
        Fixed::Defaults => &rows::DEFAULTS,
        Fixed::Checks => &checks::CHECKS,
        Fixed::Changes => &checks::CHANGES,
        Fixed::Typed => &typed::TYPED,
    }
}

/// One of the tables, for the sheet at a position of the layout.
pub(super) fn table<'e>(
    estimate: &'e Estimate,
    layout: &BookLayout,
    at: usize,
    which: Fixed,
) -> FixedTable<'e> {
    let rows = match which {
        Fixed::Factors => rows::factors(estimate),
        Fixed::Cautions => rows::cautions(),
        Fixed::Sources => rows::sources(),
        Fixed::Defaults => rows::defaults(estimate),
        Fixed::Checks => checks::checks(estimate, layout, at),
        Fixed::Changes => checks::changes(changes::watched(estimate, layout)),
        Fixed::Typed => typed::typed(estimate, layout, at),
    };
    FixedTable {
        form: form(which),
        rows,
    }
}
