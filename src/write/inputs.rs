//! Writes the input tables: the same sheets in the template and in a priced workbook.
//!
//! They are not protected, so that rows can be added. Headings carry the job's own
//! units; drop-downs come from the tables they refer to.

use rust_xlsxwriter::{Format, Formula, Worksheet};

use super::error::WriteError;
use super::heights::LINE;
use super::painter::Value;
use super::styles::{DAY, LENGTH_OF_TIME, MEASURE, Role, Styles};
use super::validations::validation;
use crate::graph::Table;
use crate::job::columns::{self, Holds, InputColumn, InputTable, Measure};
use crate::job::tables::QuickMeasure;
use crate::job::{AS_MEASURED, Entries, ROW_FROM, TableData};
use crate::place::cell_name;
use crate::read::Content;
use crate::units::{System, Unit};

/// Rows below the last that drop-downs and counts still see.
pub(super) const ROOM: u32 = 1000;

/// What stands in an input table: a job's data, or nothing but headings in some units.
pub(super) struct Filled<'j> {
    pub(super) table: &'static InputTable,
    pub(super) units: Vec<Unit>,
    pub(super) system: System,
    pub(super) data: Option<&'j TableData>,
    /// Cells that follow others: row, column, formula and result.
    pub(super) followed: Vec<Followed<'j>>,
}

/// An input cell that follows another: the reference, and what it comes to.
pub(super) struct Followed<'j> {
    pub(super) row: usize,
    pub(super) column: usize,
    pub(super) formula: String,
    pub(super) value: Value<'j>,
}

impl Filled<'_> {
    pub(super) fn rows(&self) -> u32 {
        self.data
            .map_or(0, |data| u32::try_from(data.rows).unwrap_or(u32::MAX))
    }

    pub(super) fn heading(&self, column: usize) -> String {
        self.table.columns[column].heading_in(self.units[column], self.system)
    }
}

/// Writes one input table. `rows_of` tells how many rows another table has.
pub(super) fn write(
    sheet: &mut Worksheet,
    styles: &mut Styles,
    filled: &Filled<'_>,
    rows_of: &dyn Fn(&str) -> u32,
) -> Result<(), WriteError> {
    if filled.table.upright {
        upright(sheet, styles, filled, rows_of)
    } else {
        in_rows(sheet, styles, filled, rows_of)
    }
}

fn in_rows(
    sheet: &mut Worksheet,
    styles: &mut Styles,
    filled: &Filled<'_>,
    rows_of: &dyn Fn(&str) -> u32,
) -> Result<(), WriteError> {
    let last = filled.rows() + ROOM;
    sheet.set_row_height(0, 2.0 * LINE)?;
    for (at, column) in (0u16..).zip(filled.table.columns) {
        sheet.write_with_format(0, at, filled.heading(at.into()), &styles.heading)?;
        sheet.set_column_width(at, width(column))?;
        if let Some(validation) = validation(
            column,
            (&filled.heading(at.into()), filled.units[usize::from(at)]),
            rows_of,
            &cell_name(1, at.into()),
        ) {
            sheet.add_data_validation(1, at, last, at, &validation)?;
        }
    }
    let Some(data) = filled.data else {
        return Ok(());
    };
    let formats = filled.table.columns.iter();
    let formats: Vec<Format> = formats
        .map(|column| format(styles, column).clone())
        .collect();
    for row in 0..data.rows {
        let place = u32::try_from(row).unwrap_or(u32::MAX) + 1;
        for (at, format) in (0u16..).zip(&formats) {
            value(sheet, (place, at), entry(data, at.into(), row), format)?;
        }
    }
    for cell in &filled.followed {
        let row = u32::try_from(cell.row).unwrap_or(u32::MAX) + 1;
        let at = u16::try_from(cell.column).unwrap_or(u16::MAX);
        let column = &filled.table.columns[cell.column];
        follow(sheet, styles, column, (row, at), cell)?;
    }
    carried(sheet, styles, data)
}

/// One cell that follows another.
fn follow(
    sheet: &mut Worksheet,
    styles: &mut Styles,
    column: &InputColumn,
    (row, at): (u32, u16),
    cell: &Followed<'_>,
) -> Result<(), WriteError> {
    let result = match cell.value {
        Value::Number(number) => number.to_string(),
        Value::Words(words) => words.to_owned(),
    };
    let formula = Formula::new(&cell.formula).set_result(result);
    sheet.write_formula_with_format(row, at, formula, format(styles, column))?;
    Ok(())
}

/// Field notation and columns that are not ours, to the right of the table.
fn carried(sheet: &mut Worksheet, styles: &mut Styles, data: &TableData) -> Result<(), WriteError> {
    let mut at = u16::try_from(data.table.columns.len()).unwrap_or(u16::MAX);
    if data.as_measured.iter().any(|text| !text.is_empty()) {
        sheet.write_with_format(0, at, AS_MEASURED, &styles.heading)?;
        sheet.set_column_width(at, 28)?;
        for (row, text) in (1u32..)
            .zip(&data.as_measured)
            .filter(|(_, text)| !text.is_empty())
        {
            sheet.write_string_with_format(row, at, text, styles.words(Role::Input))?;
        }
        at += 1;
    }
    if (0..data.rows).any(|row| data.is_quick(row)) {
        sheet.write_with_format(0, at, ROW_FROM, &styles.heading)?;
        sheet.set_column_width(at, 16)?;
        for (row, _) in (1u32..).zip(&data.follows).filter(|(row, _)| {
            let row = usize::try_from(*row - 1).unwrap_or(usize::MAX);
            data.is_quick(row)
        }) {
            sheet.write_with_format(row, at, QuickMeasure::NAME, styles.words(Role::Input))?;
        }
        at += 1;
    }
    for extra in &data.extras {
        if !extra.heading.is_empty() {
            sheet.write_with_format(0, at, &*extra.heading, &styles.heading)?;
        }
        for (row, content) in (1u32..).zip(&extra.values) {
            if let Some(content) = content {
                carried_cell(sheet, styles, row, at, content)?;
            }
        }
        at += 1;
    }
    Ok(())
}

fn carried_cell(
    sheet: &mut Worksheet,
    styles: &mut Styles,
    row: u32,
    column: u16,
    content: &Content,
) -> Result<(), WriteError> {
    match content {
        Content::Number(number) => sheet.write_number_with_format(
            row,
            column,
            *number,
            styles.pattern_format("General", Role::Input),
        )?,
        Content::Date(day) => sheet.write_number_with_format(
            row,
            column,
            *day,
            styles.pattern_format(DAY, Role::Input),
        )?,
        Content::Duration(days) => sheet.write_number_with_format(
            row,
            column,
            *days,
            styles.pattern_format(LENGTH_OF_TIME, Role::Input),
        )?,
        Content::Truth(truth) => {
            sheet.write_boolean_with_format(row, column, *truth, styles.words(Role::Input))?
        }
        Content::Text(text) | Content::Error(text) => {
            sheet.write_string_with_format(row, column, text, styles.words(Role::Input))?
        }
        Content::NotCalculated => sheet,
    };
    Ok(())
}

/// One input cell: a number, words, or an empty cell to fill in.
fn value(
    sheet: &mut Worksheet,
    (row, at): (u32, u16),
    entry: Option<Entry<'_>>,
    format: &Format,
) -> Result<(), WriteError> {
    match entry {
        Some(Entry::Number(number)) => {
            sheet.write_number_with_format(row, at, number, format)?;
        }
        Some(Entry::Words(words)) => {
            sheet.write_string_with_format(row, at, words, format)?;
        }
        None => {
            sheet.write_blank(row, at, format)?;
        }
    }
    Ok(())
}

/// What an input cell holds.
#[derive(Clone, Copy)]
enum Entry<'j> {
    Number(f64),
    Words(&'j str),
}

/// The entry of a table at a row; `None` where it is blank.
fn entry(data: &TableData, position: usize, row: usize) -> Option<Entry<'_>> {
    match data.entries(position) {
        Entries::Numbers(numbers) => numbers
            .get(row)
            .filter(|number| !number.is_nan())
            .map(|number| Entry::Number(*number)),
        Entries::Words(words) => words
            .get(row)
            .filter(|word| !word.is_empty())
            .map(|word| Entry::Words(word)),
    }
}

/// The look of a column's cells, filled in or not.
fn format<'s>(styles: &'s mut Styles, column: &InputColumn) -> &'s Format {
    match column.holds {
        Holds::Date => styles.pattern_format(DAY, Role::Input),
        Holds::Number(Measure::Money | Measure::MoneyAnHour, ..) => styles.money(Role::Input),
        Holds::Number(..) => styles.pattern_format(MEASURE, Role::Input),
        _ => styles.words(Role::Input),
    }
}

fn upright(
    sheet: &mut Worksheet,
    styles: &mut Styles,
    filled: &Filled<'_>,
    rows_of: &dyn Fn(&str) -> u32,
) -> Result<(), WriteError> {
    for (at, heading) in (0u16..).zip(["Key", "Value", "Guidance"]) {
        sheet.write_with_format(0, at, heading, &styles.heading)?;
    }
    for (at, width) in [(0u16, 24.0), (1, 36.0), (2, 70.0)] {
        sheet.set_column_width(at, width)?;
    }
    for (row, (position, column)) in (1u32..).zip(filled.table.columns.iter().enumerate()) {
        sheet.write_with_format(
            row,
            0,
            filled.heading(position),
            styles.words(Role::Computed),
        )?;
        sheet.write_with_format(row, 2, column.guidance, &styles.about)?;
        if let Some(validation) = validation(
            column,
            (&filled.heading(position), filled.units[position]),
            rows_of,
            &cell_name(row, 1),
        ) {
            sheet.add_data_validation(row, 1, row, 1, &validation)?;
        }
        let entry = filled.data.and_then(|data| entry(data, position, 0));
        value(sheet, (row, 1), entry, format(styles, column))?;
        let mut followed = filled.followed.iter();
        if let Some(cell) = followed.find(|cell| cell.column == position) {
            follow(sheet, styles, column, (row, 1), cell)?;
        }
    }
    let Some(data) = filled.data else {
        return Ok(());
    };
    let mut row = u32::try_from(filled.table.columns.len()).unwrap_or(u32::MAX) + 1;
    if let Some(text) = data.as_measured.first().filter(|text| !text.is_empty()) {
        sheet.write_with_format(row, 0, AS_MEASURED, styles.words(Role::Computed))?;
        sheet.write_string_with_format(row, 1, text, styles.words(Role::Input))?;
        row += 1;
    }
    for extra in &data.extras {
        sheet.write_with_format(row, 0, &*extra.heading, styles.words(Role::Computed))?;
        if let Some(Some(content)) = extra.values.first() {
            carried_cell(sheet, styles, row, 1, content)?;
        }
        row += 1;
    }
    Ok(())
}

fn width(column: &InputColumn) -> f64 {
    match column.holds {
        Holds::Words if column.role == columns::Role::Prose => 40.0,
        Holds::Words | Holds::Name | Holds::RowOf(_) | Holds::PartOf(_) => 18.0,
        _ => 11.5,
    }
}
