//! What is known about a column and about a table.

use std::sync::Arc;

use super::{Breach, Cell, ColumnId, Solve, TableId, expr};
use crate::sources::Source;
use crate::units::Unit;

/// What a column is made of.
#[derive(Clone, Debug)]
pub enum Kind {
    /// Numbers the user measured; blank is NaN. Live: an edit in the workbook flows.
    Measured(Vec<f64>),
    /// Numbers that the program brings along, such as a factor's default. Watched.
    Brought(Vec<f64>),
    /// Numbers that a pure function makes of whole columns, such as geometry of many points.
    /// An edit to one of those needs a new run.
    Solved(Solve),
    /// A rule.
    Step(expr::Expr),
    /// A check: 1 where it is broken, else 0. Live in the workbook too.
    Limit(expr::Condition, Breach),
    /// The row of another table that a key names, counted from one; 0 where
    /// the key is blank or names none.
    Lookup {
        /// The words to look up.
        key: ColumnId,
        /// The table looked in.
        parent: TableId,
    },
    /// One cell a row, from other columns; `None` is an empty cell that counts as zero.
    Gathered(Vec<Option<Cell>>),
    /// Words the user wrote.
    Words {
        /// One text a row; empty is blank.
        values: Vec<Arc<str>>,
        /// Whether an edit needs a new run: names, units.
        watched: bool,
        /// The words that it may hold, where they are chosen from a list.
        choices: Option<&'static [&'static str]>,
    },
    /// Words by rule.
    WordStep(expr::TextExpr),
    /// One piece of text a row, joined from fixed words and other cells.
    GatheredWords(Vec<Vec<Piece>>),
}

/// A part of a gathered text.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Words as they are.
    Fixed(Arc<str>),
    /// The words of another cell.
    Cell(Cell),
}

/// Everything known about a column.
#[derive(Clone, Debug)]
pub struct ColumnInfo {
    /// The table it belongs to.
    pub table: TableId,
    /// Its name, unique in its table.
    pub name: String,
    /// The unit of its numbers; [`crate::units::ONE`] for words.
    pub unit: Unit,
    /// What it is made of.
    pub kind: Kind,
    /// Where the rule is published; `None` for inputs and plain arithmetic.
    pub source: Option<&'static Source>,
}

impl ColumnInfo {
    /// Whether the column holds words rather than numbers.
    #[must_use]
    pub fn is_text(&self) -> bool {
        matches!(
            self.kind,
            Kind::Words { .. } | Kind::WordStep(_) | Kind::GatheredWords(_)
        )
    }

    /// Whether the column is computed, so that the workbook holds a formula for it.
    #[must_use]
    pub fn is_computed(&self) -> bool {
        !matches!(
            self.kind,
            Kind::Measured(_) | Kind::Brought(_) | Kind::Solved(_) | Kind::Words { .. }
        )
    }
}

/// Everything known about a table.
#[derive(Clone, Debug)]
pub struct TableInfo {
    /// Its name.
    pub name: &'static str,
    /// What one row is called.
    pub row: &'static str,
    /// How many rows it has.
    pub rows: usize,
    /// The column whose words name a row, once there is one.
    pub label: Option<ColumnId>,
}
