//! Writes single cells of an estimate on one sheet: formulas with their stored results, and
//! words.

use std::fmt::Write as _;

use rust_xlsxwriter::{Format, Formula, Worksheet};

use super::error::WriteError;
use super::heights::{LINE, PLAIN, TALLEST, lines};
use super::layout::BookLayout;
use super::stored::{self, Mistaken};
use super::styles::{Role, Styles, WHOLE};
use crate::estimate::Estimate;
use crate::graph::{Cell, ColumnId};

/// Writes cells of an estimate on one sheet.
pub(super) struct Painter<'w> {
    pub(super) estimate: &'w Estimate,
    pub(super) layout: &'w BookLayout,
    pub(super) styles: &'w mut Styles,
    pub(super) sheet: &'w mut Worksheet,
    /// Which sheet this is.
    pub(super) at: usize,
    /// Cells whose stored words look like something else, in the order of writing.
    pub(super) mistaken: &'w mut Vec<Mistaken>,
    /// The text of a number while it is written, kept for the next one.
    pub(super) digits: String,
}

/// The stored result of a formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Value<'v> {
    Number(f64),
    Words(&'v str),
}

impl<'w> Painter<'w> {
    /// A formula with its stored result.
    pub(super) fn formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        value: Value<'_>,
        format: &Format,
    ) -> Result<(), WriteError> {
        let formula = Formula::new(formula);
        let formula = match value {
            Value::Number(number) => {
                self.digits.clear();
                let _ = write!(self.digits, "{number}");
                formula.set_result(self.digits.as_str())
            }
            Value::Words(words) => {
                if stored::is_mistaken(words) {
                    self.mistaken.push(Mistaken {
                        sheet: self.at,
                        row,
                        column: column.into(),
                        words: words.to_owned(),
                    });
                }
                formula.set_result(words)
            }
        };
        self.sheet
            .write_formula_with_format(row, column, formula, format)?;
        Ok(())
    }

    pub(super) fn value(&self, cell: Cell) -> Value<'w> {
        let estimate = self.estimate;
        if estimate.graph.column(cell.column).is_text() {
            Value::Words(estimate.results.words(cell))
        } else {
            Value::Number(estimate.results.number(cell))
        }
    }

    /// The cells of a column, as a formula on this sheet writes them.
    pub(super) fn range(&self, column: ColumnId) -> String {
        let rows = self.estimate.graph.rows(column);
        self.layout.range(self.at, column, rows)
    }

    /// The height that a row of words needs.
    pub(super) fn fit(
        &mut self,
        row: u32,
        words: &[(&str, f64)],
        size: f64,
    ) -> Result<(), WriteError> {
        let most = words
            .iter()
            .map(|(words, width)| lines(words, *width, size))
            .fold(1.0, f64::max);
        if most > 1.0 {
            self.sheet
                .set_row_height(row, (most * LINE * size / PLAIN + 2.0).min(TALLEST))?;
        }
        Ok(())
    }

    pub(super) fn text(
        &mut self,
        row: u32,
        column: u16,
        text: &str,
        role: Role,
    ) -> Result<(), WriteError> {
        let format = self.styles.words(role);
        self.sheet.write_with_format(row, column, text, format)?;
        Ok(())
    }

    pub(super) fn number_formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        number: f64,
    ) -> Result<(), WriteError> {
        let format = self.styles.pattern_format(WHOLE, Role::Computed).clone();
        self.formula(row, column, formula, Value::Number(number), &format)
    }

    pub(super) fn word_formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        words: &str,
    ) -> Result<(), WriteError> {
        let format = self.styles.words(Role::Computed).clone();
        self.formula(row, column, formula, Value::Words(words), &format)
    }
}
