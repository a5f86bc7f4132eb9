//! What an input column is, and the macro that declares a table of them.
//!
//! One declaration feeds the reader, the template, the workbook and the docs: heading,
//! kind, unit, range, drop-down and guidance.

use crate::graph::key::Key;
use crate::graph::reads::{Numbers, Reads, Words};
use crate::graph::{ColumnId, Graph, Table};
pub use crate::parameters::Measure;
use crate::units::{System, Unit};

/// What the cells of an input column hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holds {
    /// The name of the row, unique in its table; other rows refer to it.
    Name,
    /// Free words.
    Words,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// The name of a row of another table: a live choice.
    RowOf(&'static str),
    /// The name of the row of another table that this row is a part of. Rows of one whole
    /// stand together, so that an edit needs a new run.
    PartOf(&'static str),
    /// A unit of measure, by its symbol.
    UnitName,
    /// A number between two limits; the limits are in the measure's first unit.
    Number(Measure, f64, f64),
    /// A day.
    Date,
}

/// Whether a cell of a column must be filled in, and what follows from that.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Every row must fill it in.
    Needed,
    /// It may be left blank.
    Free,
    /// It may be left blank, and there are lines in the take-off, or levels on the dig
    /// sheet, only where it is filled in: which cells are is watched.
    Arises,
}

/// What a column is to its table, beyond what its cells hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Nothing beyond it.
    Plain,
    /// What it says decides which lines there are, or how they are named, grouped or
    /// measured.
    Decides,
    /// Its words tell rows apart that have no name of their own.
    Calls,
    /// Its words are sentences, which want room.
    Prose,
    /// Rod readings of the elevations in the column at this position.
    ReadingOf(usize),
}

/// One column of an input table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InputColumn {
    /// Its heading, without the unit.
    pub heading: &'static str,
    /// What its cells hold.
    pub holds: Holds,
    /// Whether a row must fill it in, and what follows from it.
    pub fill: Fill,
    /// What to write here, for the person filling it in.
    pub guidance: &'static str,
    /// What it is to its table.
    pub role: Role,
}

impl InputColumn {
    /// A column that is nothing to its table beyond what its cells hold.
    #[must_use]
    pub const fn new(
        heading: &'static str,
        holds: Holds,
        fill: Fill,
        guidance: &'static str,
    ) -> Self {
        Self {
            heading,
            holds,
            fill,
            guidance,
            role: Role::Plain,
        }
    }

    /// The same column with a role in its table.
    #[must_use]
    pub const fn with(self, role: Role) -> Self {
        Self { role, ..self }
    }

    /// Whether an edit of a cell in the workbook needs a new run: it changes which lines
    /// there are, or how they are named, grouped or measured.
    #[must_use]
    pub fn is_structural(&self) -> bool {
        matches!(self.holds, Holds::Name | Holds::UnitName | Holds::PartOf(_))
            || self.role == Role::Decides
    }

    /// Whether its words are what a row is called by.
    #[must_use]
    pub fn calls_rows(&self) -> bool {
        self.holds == Holds::Name || self.role == Role::Calls
    }

    /// Whether its numbers are rod readings.
    #[must_use]
    pub fn is_rod(&self) -> bool {
        matches!(self.holds, Holds::Number(Measure::RodReading, ..))
    }

    /// The least and the greatest number that it takes, in a unit of its kind; none where
    /// it holds something else.
    #[must_use]
    pub fn limits_in(&self, unit: Unit) -> Option<(f64, f64)> {
        let Holds::Number(measure, low, high) = self.holds else {
            return None;
        };
        let ratio = measure.unit(System::Us).to(unit)?;
        Some((ratio.apply(low), ratio.apply(high)))
    }

    /// The heading as the template writes it.
    #[must_use]
    pub fn heading_with(&self, unit: Unit) -> String {
        self.headed(unit.symbol())
    }

    /// The heading as a workbook in one system writes it.
    #[must_use]
    pub fn heading_in(&self, unit: Unit, system: System) -> String {
        self.headed(unit.symbol_in(system))
    }

    fn headed(&self, symbol: &str) -> String {
        match self.holds {
            Holds::Number(measure, ..) if measure.shows_unit() => {
                format!("{} ({symbol})", self.heading)
            }
            _ => self.heading.to_owned(),
        }
    }
}

/// An input table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InputTable {
    /// The sheet's name.
    pub name: &'static str,
    /// Whether a column of the table stands as a row on the sheet: a key and its value.
    pub upright: bool,
    /// What one row is, for the person filling it in.
    pub guidance: &'static str,
    /// Its columns.
    pub columns: &'static [InputColumn],
}

impl InputTable {
    /// The column of rod readings of the elevations in a column.
    #[must_use]
    pub fn rod_of(&self, level: usize) -> Option<usize> {
        let mut columns = self.columns.iter();
        columns.position(|column| column.role == Role::ReadingOf(level))
    }

    /// Its columns in the graph of a job, in their order.
    #[must_use]
    pub fn columns_in(&self, graph: &Graph) -> Vec<ColumnId> {
        let find = |column: &InputColumn| graph.find(self.name, column.heading);
        self.columns.iter().filter_map(find).collect()
    }
}

/// The columns of the input table of the same name, as an enum.
pub trait Fields: Table + Copy {
    /// The table.
    const TABLE: InputTable;
    /// Position of this column in [`InputTable::columns`].
    fn index(self) -> usize;
}

/// An input is read by its heading.
impl<F: Fields> Reads<F> for F {
    fn key(self) -> Key {
        Key::Called(F::NAME, F::TABLE.columns[self.index()].heading)
    }
}

impl<F: Fields> Numbers<F> for F {}

impl<F: Fields> Words<F> for F {}

/// Something done with every input table, by the table's type.
pub trait EachTable {
    /// What is done with one table.
    fn table<T: Fields>(&mut self);
}

macro_rules! input_tables {
    ($(
        $(#[doc = $doc:literal])+
        $table:ident $name:literal, $row:literal, $upright:literal, $guidance:literal {
            $($column:ident $heading:literal $holds:expr, $fill:ident, $help:literal $(, $role:expr)?;)+
        }
    )+) => {
        $(
            $(#[doc = $doc])+
            #[derive(Clone, Copy, Debug, PartialEq, Eq)]
            pub enum $table {
                $(#[doc = $help] $column,)+
            }

            impl Table for $table {
                const NAME: &'static str = $name;
                const ROW: &'static str = $row;
            }

            impl Fields for $table {
                const TABLE: InputTable = InputTable {
                    name: $name,
                    upright: $upright,
                    guidance: $guidance,
                    columns: &[
                        $(InputColumn::new($heading, $holds, Fill::$fill, $help)$(.with($role))?,)+
                    ],
                };

                fn index(self) -> usize {
                    self as usize
                }
            }

            impl $table {
                /// The column as the one that a person would change.
                #[must_use]
                pub const fn at(self) -> $crate::graph::rule::At {
                    $crate::graph::rule::At {
                        table: <$table as Table>::NAME,
                        column: <$table as Fields>::TABLE.columns[self as usize].heading,
                    }
                }
            }

            impl From<$table> for $crate::graph::Term<$table> {
                fn from(field: $table) -> Self {
                    $crate::graph::reads::Numbers::here(field)
                }
            }

            $crate::graph::arithmetic!($table, $table);
        )+
    };
}

/// Puts the input tables in the order of the workbook.
macro_rules! in_order {
    ($($table:ident),+ $(,)?) => {
        /// Every input table in the order of the workbook.
        pub const TABLES: &[InputTable] = &[$(<$table as Fields>::TABLE,)+];

        /// Calls something with every input table, in the order of the workbook.
        pub fn each_table(call: &mut impl EachTable) {
            $(call.table::<$table>();)+
        }
    };
}

pub(crate) use in_order;
pub(crate) use input_tables;
