//! What every column comes to: numbers and words, by column and row.

use std::sync::Arc;

use super::{Cell, Column, ColumnId, Graph, Kind, Text, Whole};

/// Every value of a graph. A copy shares the columns that are the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Results {
    pub(super) columns: Vec<Arc<Values>>,
}

/// The values of one column.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Values {
    Numbers(Vec<f64>),
    Words(Vec<Arc<str>>),
}

impl Results {
    /// A number; zero where the cell is blank or is not there.
    #[must_use]
    pub fn number(&self, cell: Cell) -> f64 {
        let value = self.raw(cell.column, cell.row);
        if value.is_nan() { 0.0 } else { value }
    }

    /// A measured number, or `None` where the cell is blank.
    #[must_use]
    pub fn measured(&self, cell: Cell) -> Option<f64> {
        Some(self.raw(cell.column, cell.row)).filter(|value| !value.is_nan())
    }

    fn raw(&self, column: ColumnId, row: usize) -> f64 {
        match self.columns[column.0].as_ref() {
            Values::Numbers(numbers) => numbers.get(row).copied().unwrap_or(f64::NAN),
            Values::Words(_) => f64::NAN,
        }
    }

    /// The numbers of a column, blank as NaN; empty for a column of words.
    #[must_use]
    pub fn numbers(&self, column: ColumnId) -> &[f64] {
        match self.columns[column.0].as_ref() {
            Values::Numbers(numbers) => numbers,
            Values::Words(_) => &[],
        }
    }

    /// The words of a cell; empty where blank or where the column holds numbers.
    #[must_use]
    pub fn words(&self, cell: Cell) -> &str {
        match self.columns[cell.column.0].as_ref() {
            Values::Words(words) => words.get(cell.row).map_or("", |text| text),
            Values::Numbers(_) => "",
        }
    }

    /// A value of a column by its typed key.
    #[must_use]
    pub fn at<T>(&self, column: Column<T>, row: usize) -> f64 {
        self.number(column.id.at(row))
    }

    /// Words of a column by its typed key.
    #[must_use]
    pub fn text<T>(&self, column: Text<T>, row: usize) -> &str {
        self.words(column.id.at(row))
    }

    /// The words of a column; empty for a column of numbers.
    pub(super) fn texts(&self, column: ColumnId) -> &[Arc<str>] {
        match self.columns[column.0].as_ref() {
            Values::Words(words) => words,
            Values::Numbers(_) => &[],
        }
    }

    /// A whole column, as a solver reads it.
    pub(super) fn whole(&self, column: ColumnId) -> Whole<'_> {
        match self.columns[column.0].as_ref() {
            Values::Numbers(numbers) => Whole::Numbers(numbers),
            Values::Words(words) => Whole::Words(words),
        }
    }

    /// The row that a cell of a look-up found.
    #[must_use]
    pub fn row_found(&self, look_up: Cell) -> Option<usize> {
        self.linked_row(look_up.column, look_up.row)
    }

    /// The row that a look-up found for one of its own rows.
    pub(super) fn linked_row(&self, link: ColumnId, row: usize) -> Option<usize> {
        linked_row(self.numbers(link), row)
    }

    /// The row above in the same group, where there is one; without a group, in the table.
    pub(super) fn row_above(&self, group: Option<ColumnId>, row: usize) -> Option<usize> {
        row_above(group.map(|group| self.numbers(group)), row)
    }

    /// The row below in the same group, where there is one; without a group, in the table.
    pub(super) fn row_below(
        &self,
        group: Option<ColumnId>,
        row: usize,
        rows: usize,
    ) -> Option<usize> {
        row_below(group.map(|group| self.numbers(group)), row, rows)
    }

    /// The first row whose look-up found the same as in a row.
    pub(super) fn first_of(&self, group: ColumnId, row: usize) -> Option<usize> {
        first_of(self.numbers(group), row)
    }

    /// The row of the same table that a look-up found, where it stands above.
    pub(super) fn linked_above(&self, link: ColumnId, row: usize) -> Option<usize> {
        linked_above(self.numbers(link), row)
    }

    /// The rows below whose look-up found a row, from the top.
    pub(super) fn linked_below(&self, link: ColumnId, row: usize) -> impl Iterator<Item = usize> {
        linked_below(self.numbers(link), row)
    }

    /// Computed and solved cells whose number is not finite, in the order of work.
    #[must_use]
    pub fn unworkable(&self, graph: &Graph) -> Vec<Cell> {
        let mut found = Vec::new();
        for column in graph.columns() {
            let info = graph.column(column);
            if info.is_computed() || matches!(info.kind, Kind::Solved(_)) {
                let numbers = self.numbers(column).iter().enumerate();
                let bad = numbers.filter(|(_, number)| !number.is_finite());
                found.extend(bad.map(|(row, _)| column.at(row)));
            }
        }
        found
    }
}

/// The row that a look-up found for one of its own rows, from the look-up's numbers.
pub(super) fn linked_row(link: &[f64], row: usize) -> Option<usize> {
    let found = link.get(row).copied()?;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a look-up holds row numbers from one, or zero where it found none"
    )]
    (found >= 1.0).then(|| found as usize - 1)
}

/// The first row whose look-up found the same as in a row.
pub(super) fn first_of(group: &[f64], row: usize) -> Option<usize> {
    let own = group.get(row)?;
    group
        .iter()
        .position(|other| other.to_bits() == own.to_bits())
}

/// The row of the same table that a look-up found, where it stands above.
pub(super) fn linked_above(link: &[f64], row: usize) -> Option<usize> {
    linked_row(link, row).filter(|found| *found < row)
}

/// The rows below whose look-up found a row, from the top.
pub(super) fn linked_below(link: &[f64], row: usize) -> impl Iterator<Item = usize> {
    (row + 1..link.len()).filter(move |below| linked_row(link, *below) == Some(row))
}

/// The row above where a look-up, if there is one, found the same.
pub(super) fn row_above(group: Option<&[f64]>, row: usize) -> Option<usize> {
    let above = row.checked_sub(1)?;
    let same = group.is_none_or(|group| linked_row(group, row) == linked_row(group, above));
    same.then_some(above)
}

/// The row below where a look-up, if there is one, found the same.
pub(super) fn row_below(group: Option<&[f64]>, row: usize, rows: usize) -> Option<usize> {
    let below = Some(row + 1).filter(|below| *below < rows)?;
    let same = group.is_none_or(|group| linked_row(group, row) == linked_row(group, below));
    same.then_some(below)
}
