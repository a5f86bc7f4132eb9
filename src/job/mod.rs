//! A job: the input tables, checked, with units and places, no text left to parse.
//!
//! Always true of a [`Job`]: every number is finite and inside its column's range,
//! every reference names a row that is there, names are unique, and every value still
//! knows its place. Blank optional numbers are NaN, blank words are empty.
//!
//! Not here: what follows from the measures (`takeoff`), and reading files (`read`).

mod build;
mod cells;
pub mod columns;
mod factors;
mod headings;
pub mod quick;
mod references;
mod rows;
mod scenarios;
pub mod tables;

use std::sync::Arc;

pub use build::{Checked, from_file, is_table};
pub use columns::{Fields, Holds, InputColumn, InputTable, Measure, Role};

pub(crate) use cells::nearest;
pub(crate) use headings::{AS_MEASURED, ROW_FROM};

use quick::Follows;

use crate::parameters::Factor;
use crate::place::Place;
use crate::read::Content;
use crate::units::{System, Unit};

/// Everything a bid starts from.
#[derive(Clone, Debug)]
pub struct Job {
    system: System,
    tables: Vec<TableData>,
    overrides: Vec<Override>,
    beside: Vec<&'static str>,
}

/// A factor's override: the value, blank as NaN, and why.
#[derive(Clone, Debug)]
pub struct Override {
    /// The value in the factor's unit, NaN where there is none.
    pub value: f64,
    /// Why it was overridden.
    pub reason: Arc<str>,
    /// Where it was read.
    pub place: Option<Place>,
}

impl Override {
    const NONE: fn() -> Override = || Override {
        value: f64::NAN,
        reason: "".into(),
        place: None,
    };
}

/// One input column's cells.
#[derive(Clone, Debug)]
pub enum Entries {
    /// Numbers in the column's unit; NaN is blank. Days are serial numbers.
    Numbers(Vec<f64>),
    /// Words; empty is blank.
    Words(Vec<Arc<str>>),
}

/// A column that is not ours, carried through.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// Its heading as written; may be blank.
    pub heading: String,
    /// One content a row, `None` where blank.
    pub values: Vec<Option<Content>>,
}

/// One input table of a job.
#[derive(Clone, Debug)]
pub struct TableData {
    /// What the table is.
    pub table: &'static InputTable,
    /// How many rows were filled in; one for an upright table.
    pub rows: usize,
    columns: Vec<Entries>,
    units: Vec<Unit>,
    places: Places,
    /// Columns that are not ours.
    pub extras: Vec<Extra>,
    /// What the cells of a row follow, by column; empty for a row of the job's own.
    pub follows: Vec<Vec<(usize, Follows)>>,
    /// What was written in field notation, row by row: `Length: 12' 6"; Depth: 18 in`.
    pub as_measured: Vec<String>,
}

#[derive(Clone, Debug)]
enum Places {
    /// A table in rows: its sheet, the row of each row that stands on it, the column of
    /// each column.
    Rows {
        sheet: Place,
        rows: Vec<Option<u32>>,
        columns: Vec<Option<u32>>,
    },
    /// An upright table: its sheet, and the cell of each key.
    Keys {
        sheet: Place,
        cells: Vec<Option<Place>>,
    },
}

impl TableData {
    fn empty(table: &'static InputTable, system: System, sheet: Place) -> Self {
        let rows = usize::from(table.upright);
        let width = table.columns.len();
        let columns = table.columns.iter().map(|column| match column.holds {
            Holds::Number(..) | Holds::Date => Entries::Numbers(vec![f64::NAN; rows]),
            _ => Entries::Words(vec!["".into(); rows]),
        });
        let places = if table.upright {
            Places::Keys {
                sheet,
                cells: vec![None; width],
            }
        } else {
            Places::Rows {
                sheet,
                rows: Vec::new(),
                columns: vec![None; width],
            }
        };
        Self {
            table,
            rows,
            columns: columns.collect(),
            units: table
                .columns
                .iter()
                .map(|column| natural_unit(column, system))
                .collect(),
            places,
            extras: Vec::new(),
            follows: vec![Vec::new(); rows],
            as_measured: vec![String::new(); rows],
        }
    }

    /// Adds an empty row that stands at a row of its sheet, if it stands on it at all.
    fn blank_row(&mut self, at: Option<u32>) {
        self.rows += 1;
        if let Places::Rows { rows, .. } = &mut self.places {
            rows.push(at);
        }
        for entries in &mut self.columns {
            match entries {
                Entries::Numbers(numbers) => numbers.push(f64::NAN),
                Entries::Words(words) => words.push("".into()),
            }
        }
        self.follows.push(Vec::new());
        self.as_measured.push(String::new());
        for extra in &mut self.extras {
            extra.values.push(None);
        }
    }

    /// Whether a row was made from the quick page.
    #[must_use]
    pub fn is_quick(&self, row: usize) -> bool {
        self.follows.get(row).is_some_and(|cells| !cells.is_empty())
    }

    /// The numbers of a column by its position; empty for a column of words.
    #[must_use]
    pub fn numbers(&self, column: usize) -> &[f64] {
        match &self.columns[column] {
            Entries::Numbers(numbers) => numbers,
            Entries::Words(_) => &[],
        }
    }

    /// The words of a column by its position; empty for a column of numbers.
    #[must_use]
    pub fn words(&self, column: usize) -> &[Arc<str>] {
        match &self.columns[column] {
            Entries::Words(words) => words,
            Entries::Numbers(_) => &[],
        }
    }

    /// The cells of a column by its position.
    #[must_use]
    pub fn entries(&self, column: usize) -> &Entries {
        &self.columns[column]
    }

    /// The unit of a column: the one in its heading, or the system's own.
    #[must_use]
    pub fn unit(&self, column: usize) -> Unit {
        self.units[column]
    }

    /// The place of a cell. Where the column is not there, the place of its rod readings or
    /// of what they are readings of; else the first cell of the row; else the sheet.
    #[must_use]
    pub fn place(&self, column: usize, row: usize) -> Place {
        match &self.places {
            Places::Rows {
                sheet,
                rows,
                columns,
            } => match rows.get(row).copied().flatten() {
                Some(row) => {
                    let own = columns.get(column).copied().flatten();
                    let twin = || columns.get(self.rod_twin(column)?).copied().flatten();
                    let first = || columns.iter().flatten().copied().min();
                    let at = own.or_else(twin).or_else(first);
                    sheet.at(row, at.unwrap_or(0))
                }
                None => sheet.clone(),
            },
            Places::Keys { sheet, cells } => cells
                .get(column)
                .cloned()
                .flatten()
                .unwrap_or_else(|| sheet.clone()),
        }
    }

    /// The column of rod readings of a column of elevations, or the other way round.
    fn rod_twin(&self, column: usize) -> Option<usize> {
        match self.table.columns.get(column)?.role {
            Role::ReadingOf(level) => Some(level),
            _ => self.table.rod_of(column),
        }
    }

    /// Whether two tables hold the same, wherever it was read.
    #[must_use]
    pub fn same_as(&self, other: &TableData) -> bool {
        let same = |(ours, theirs): (&Entries, &Entries)| match (ours, theirs) {
            (Entries::Numbers(a), Entries::Numbers(b)) => a
                .iter()
                .map(|n| n.to_bits())
                .eq(b.iter().map(|n| n.to_bits())),
            (Entries::Words(a), Entries::Words(b)) => a == b,
            _ => false,
        };
        self.rows == other.rows
            && self.units == other.units
            && self.extras == other.extras
            && self.as_measured == other.as_measured
            && self.follows == other.follows
            && self.columns.iter().zip(&other.columns).all(same)
    }
}

fn natural_unit(column: &InputColumn, system: System) -> Unit {
    match column.holds {
        Holds::Number(measure, ..) => measure.unit(system),
        Holds::Date => crate::units::DATE,
        _ => crate::units::ONE,
    }
}

impl Job {
    /// The units that the take-off is shown in.
    #[must_use]
    pub fn system(&self) -> System {
        self.system
    }

    /// Every table, in the order of the workbook.
    #[must_use]
    pub fn tables(&self) -> &[TableData] {
        &self.tables
    }

    /// The table whose columns are `F`.
    #[must_use]
    pub fn table<F: Fields>(&self) -> &TableData {
        let position = tables::TABLES
            .iter()
            .position(|table| table.name == F::TABLE.name);
        &self.tables[position.unwrap_or(0)]
    }

    /// The same job with another value of a factor.
    #[must_use]
    pub fn with_factor(&self, factor: Factor, value: f64) -> Self {
        let mut job = self.clone();
        job.overrides[factor as usize].value = value;
        job
    }

    /// The override of a factor.
    #[must_use]
    pub fn factor(&self, factor: Factor) -> &Override {
        &self.overrides[factor as usize]
    }

    /// The words of an upright table's key, or of the first row.
    #[must_use]
    pub fn word<F: Fields>(&self, field: F) -> &str {
        self.table::<F>()
            .words(field.index())
            .first()
            .map_or("", |words| words)
    }

    /// The number of an upright table's key, if it is filled in.
    #[must_use]
    pub fn number<F: Fields>(&self, field: F) -> Option<f64> {
        self.table::<F>()
            .numbers(field.index())
            .first()
            .copied()
            .filter(|number| !number.is_nan())
    }

    /// The tables in which rows of the quick page stand beside rows that may say the same.
    #[must_use]
    pub fn quick_beside(&self) -> &[&'static str] {
        &self.beside
    }

    /// Whether two jobs hold the same, wherever they were read.
    #[must_use]
    pub fn same_as(&self, other: &Job) -> bool {
        let factors = |(a, b): (&Override, &Override)| {
            a.value.to_bits() == b.value.to_bits() && a.reason == b.reason
        };
        self.system == other.system
            && self
                .tables
                .iter()
                .zip(&other.tables)
                .all(|(a, b)| a.same_as(b))
            && self.overrides.iter().zip(&other.overrides).all(factors)
    }
}
