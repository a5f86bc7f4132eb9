//! The heart: tables of columns, each column one rule.
//!
//! The graph is an arena of *columns*, not of cells. A rule adds one column to a
//! table; a single figure is a column of a table with one row; a cell is a column at
//! a row. What a column says is built once and read three ways: the engine evaluates it
//! ([`mod@evaluate`]), the workbook carries it as one formula down the whole column
//! ([`formula`]), and people read it in words ([`words`]).
//!
//! # From a rule to its three readings
//!
//! 1. A [`rule`] is a constant: a [`Step`](rule::Step) gives numbers, a
//!    [`Wording`](rule::Wording) words, a [`LookUp`](rule::LookUp) finds rows of other tables,
//!    a [`Limit`](rule::Limit) holds a table to what is possible.
//! 2. It names what it reads by [`key`]: an input by its heading, another rule, or the column
//!    that it makes itself. `+ − × ÷` and the methods of [`Numbers`](reads::Numbers),
//!    [`Words`](reads::Words) and [`Looks`](reads::Looks) make [`Term`]s of keys. A term belongs to
//!    one table, and the compiler refuses to mix rows of two.
//! 3. A term is an expression as it is *said* ([`expr::Said`]): keys, and units of either
//!    system. When its column is first read, what it reads is made before it, its units are
//!    checked, and it becomes an expression as it is *made* ([`expr::Made`]): columns that are
//!    there, units of the job, and every change of unit in its place.
//! 4. [`evaluate()`] works all columns out in their order, and [`evaluate_with`] again, after a
//!    change of inputs, only what rests on them.
//!
//! # Kinds of columns
//!
//! Each is a [`Kind`]. Inputs: *measured* numbers, *words*, and what the program brings along
//! (*brought*). By rule: *steps*, *word steps*, *limits*, *look-ups*, and cells of other columns
//! *gathered* one by one. *Solved*: what a pure function makes of whole columns
//! ([`Solve`]), where no formula can say it.
//!
//! Beside its own row a step reads the row that a look-up finds (`of`), the rows that find
//! this one (`sum`, `lowest`, `highest`), all rows (`total`, `lowest_of_all`,
//! `highest_of_all`), the row above or below, and the first of a group. It may read its own
//! column where the order of work is known: in rows above (`row_above`, `earlier`), or in rows
//! below (`row_below`, `lowest_below` and its like), never both. The [`examples`] show what
//! that is good for.
//!
//! # Always true
//!
//! - a column refers only to columns made before it, so their order is the order of work;
//! - units are checked when a column is made, and so are words asked of columns of choices
//!   and that no two columns of a table have one name; a fault there is a mistake in a rule
//!   and is kept in [`Graph::rule_faults`], which is empty for every released rule;
//! - the graph knows nothing of sheets, cells or files.
//!
//! Not here: the rules (`takeoff`, `pricing`), the layout (`write::layout`).

mod again;
pub mod any_rule;
mod bound;
mod build;
mod check;
mod choices;
mod column;
pub mod evaluate;
pub mod examples;
pub mod expr;
pub mod formula;
pub mod home;
pub mod key;
mod making;
mod reach;
pub mod reads;
pub mod reference;
mod results;
pub mod rule;
mod solve;
mod term;
pub mod trace;
mod typed;
pub mod words;

use std::collections::BTreeMap;

pub use again::{Again, Change, evaluate_with};
pub use build::{Breach, Rules};
pub use column::{ColumnInfo, Kind, Piece, TableInfo};
pub use evaluate::{evaluate, evaluate_only};
pub use results::Results;
pub use solve::{Solve, Whole};
pub(crate) use term::arithmetic;
pub use term::{
    Term, either, first, highest, highest_of_all, lowest, lowest_of_all, one, only, pi, total, when,
};
pub use typed::{Column, Link, Text};

use making::Making;

use crate::units::System;

/// A condition as a rule says it.
pub type Condition = expr::Condition<expr::Said>;
/// Words as a rule says them.
pub type TextExpr = expr::TextExpr<expr::Said>;

/// What rules are written with.
pub mod prelude {
    pub use super::any_rule::Rule;
    pub use super::reads::{Looks, Named, Numbers, Reads, Words, named};
    pub use super::rule::{Limit, LookUp, Roster, Step, Wording};
    pub use super::term::{
        either, first, highest, highest_of_all, lowest, lowest_of_all, one, only, pi, total, when,
    };
    pub use super::{Condition, Term, TextExpr};
    pub use crate::diagnostic::{Code, Meaning};
}

/// A kind of table: what one row of it is.
pub trait Table: 'static {
    /// The table's name in words, such as `Basins`.
    const NAME: &'static str;
    /// What one row is called inside a sentence, such as `basin`.
    const ROW: &'static str;
    /// How many rows it always has: one in a table of the whole job.
    const ROWS: usize = 0;
}

/// Which table; made by [`Graph::add_table`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TableId(pub(crate) usize);

/// Which column; made by the rules that add it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ColumnId(pub(crate) usize);

impl ColumnId {
    /// The cell of the column at a row, counted from zero.
    #[must_use]
    pub fn at(self, row: usize) -> Cell {
        Cell { column: self, row }
    }
}

/// One cell: a column at a row, counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cell {
    /// The column.
    pub column: ColumnId,
    /// The row of its table, from zero.
    pub row: usize,
}

/// The arena of columns and tables.
#[derive(Clone, Debug)]
pub struct Graph {
    system: System,
    tables: Vec<TableInfo>,
    columns: Vec<ColumnInfo>,
    /// Columns by table and name, in lower case.
    names: BTreeMap<(TableId, String), ColumnId>,
    follows: BTreeMap<Cell, Cell>,
    making: Making,
    rule_faults: Vec<String>,
}

impl Graph {
    /// An empty graph, in a system of units.
    #[must_use]
    pub fn new(system: System) -> Self {
        let mut graph = Self {
            system,
            tables: Vec::new(),
            columns: Vec::new(),
            names: BTreeMap::new(),
            follows: BTreeMap::new(),
            making: Making::default(),
            rule_faults: Vec::new(),
        };
        making::nothing(&mut graph);
        graph
    }

    /// The system of units that rules count in.
    #[must_use]
    pub fn system(&self) -> System {
        self.system
    }

    /// Adds the table `T` with a number of rows, or finds it if it is there.
    pub fn add_table<T: Table>(&mut self, rows: usize) -> TableId {
        if let Some(found) = self.table_of::<T>() {
            return found;
        }
        self.tables.push(TableInfo {
            name: T::NAME,
            row: T::ROW,
            rows: rows.max(T::ROWS),
            label: None,
        });
        TableId(self.tables.len() - 1)
    }

    /// The table `T`, if it has been added.
    #[must_use]
    pub fn table_of<T: Table>(&self) -> Option<TableId> {
        self.tables
            .iter()
            .position(|table| table.name == T::NAME)
            .map(TableId)
    }

    /// Whether a table is `T`.
    #[must_use]
    pub fn is<T: Table>(&self, table: TableId) -> bool {
        self.table(table).name == T::NAME
    }

    /// The rules of the table `T`, which is added with the rows it always has if it is not there.
    pub fn rules<T: Table>(&mut self) -> Rules<'_, T> {
        let table = self.add_table::<T>(0);
        Rules::new(self, table)
    }

    /// What is known about a table.
    #[must_use]
    pub fn table(&self, id: TableId) -> &TableInfo {
        &self.tables[id.0]
    }

    /// What is known about a column.
    #[must_use]
    pub fn column(&self, id: ColumnId) -> &ColumnInfo {
        &self.columns[id.0]
    }

    /// How many rows a column has.
    #[must_use]
    pub fn rows(&self, id: ColumnId) -> usize {
        self.table(self.column(id).table).rows
    }

    /// Every table in the order of adding, but for the one that stands in for those that are
    /// not there.
    pub fn tables(&self) -> impl Iterator<Item = TableId> {
        (1..self.tables.len()).map(TableId)
    }

    /// Every column in the order of work.
    pub fn columns(&self) -> impl DoubleEndedIterator<Item = ColumnId> + use<> {
        (0..self.columns.len()).map(ColumnId)
    }

    /// The columns of one table in the order of work.
    pub fn columns_of(&self, table: TableId) -> impl Iterator<Item = ColumnId> {
        self.columns()
            .filter(move |id| self.column(*id).table == table)
    }

    /// A column by the names of its table and itself, ignoring case.
    #[must_use]
    pub fn find(&self, table: &str, name: &str) -> Option<ColumnId> {
        let mut tables = self.tables.iter();
        let table = tables.position(|known| known.name.eq_ignore_ascii_case(table))?;
        let key = (TableId(table), name.to_lowercase());
        self.names.get(&key).copied()
    }

    /// Mistakes in rules found while they were added, such as units that do not fit. Empty for
    /// every released rule; a test holds that for both systems of units.
    #[must_use]
    pub fn rule_faults(&self) -> &[String] {
        &self.rule_faults
    }

    /// Makes an input cell follow a cell made before it, in the same unit: it is an ordinary
    /// cell of its column, and holds a reference in the workbook.
    pub fn follow(&mut self, cell: Cell, source: Cell) {
        self.follows.insert(cell, source);
    }

    /// The cell that an input cell follows.
    #[must_use]
    pub fn followed(&self, cell: Cell) -> Option<Cell> {
        self.follows.get(&cell).copied()
    }

    /// Every cell of an input column that follows another, with that other.
    pub fn following(&self, column: ColumnId) -> impl Iterator<Item = (usize, Cell)> {
        self.follows
            .range(column.at(0)..=column.at(usize::MAX))
            .map(|(cell, source)| (cell.row, *source))
    }

    /// The cell that a gathered cell shows.
    #[must_use]
    pub fn gathered(&self, cell: Cell) -> Option<Cell> {
        match &self.column(cell.column).kind {
            Kind::Gathered(cells) => cells.get(cell.row).copied().flatten(),
            _ => None,
        }
    }

    /// Whether the user filled an input cell in, or it follows another.
    #[must_use]
    pub fn is_filled(&self, cell: Cell) -> bool {
        if self.followed(cell).is_some() {
            return true;
        }
        match &self.column(cell.column).kind {
            Kind::Measured(values) => values.get(cell.row).is_some_and(|value| !value.is_nan()),
            Kind::Words { values, .. } => values.get(cell.row).is_some_and(|word| !word.is_empty()),
            _ => false,
        }
    }

    /// The words that the user wrote in an input cell, or in the cell that it follows; empty
    /// where there are none.
    #[must_use]
    pub fn written(&self, cell: Cell) -> &str {
        let cell = self.followed(cell).unwrap_or(cell);
        match &self.column(cell.column).kind {
            Kind::Words { values, .. } => values.get(cell.row).map_or("", |word| word),
            _ => "",
        }
    }

    /// Every limit, with what its breach means.
    pub fn limits(&self) -> impl Iterator<Item = (ColumnId, &Breach)> {
        self.columns().filter_map(|id| match &self.column(id).kind {
            Kind::Limit(_, breach) => Some((id, breach)),
            _ => None,
        })
    }

    fn push(&mut self, column: ColumnInfo) -> ColumnId {
        let id = ColumnId(self.columns.len());
        let key = (column.table, column.name.to_lowercase());
        if self.names.insert(key, id).is_some() {
            let table = self.table(column.table).name;
            self.rule_fault(table, &column.name, "two columns have this name");
        }
        if let Some(other) = self.of_another_table(&column) {
            let what = format!("it reads a row of {other} as its own");
            self.rule_fault(self.table(column.table).name, &column.name, &what);
        }
        self.columns.push(column);
        id
    }

    fn rule_fault(&mut self, table: &str, name: &str, what: &str) {
        self.rule_faults.push(format!("{table}, {name}: {what}"));
    }
}
