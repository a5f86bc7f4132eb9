//! Where columns stand in a workbook, as formulas are told it.
//!
//! Not here: which column stands where. That is decided after the rules, by `write::layout`.

use super::ColumnId;

/// Where a column stands in a workbook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Home {
    /// Which sheet.
    pub sheet: usize,
    /// The first row of data, counted from zero.
    pub row: u32,
    /// The column, counted from zero.
    pub column: u32,
}

/// Where every column of a graph stands. Made after the rules, by `write::layout`.
pub trait Layout {
    /// The place of a column; every column that a formula reads has one.
    fn home(&self, column: ColumnId) -> Home;
    /// The name of a sheet as a formula writes it, with quotation marks where needed.
    fn sheet(&self, sheet: usize) -> &str;
}
