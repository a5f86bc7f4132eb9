//! One input table, cell by cell, from its sheet.
//!
//! Always true: a value that cannot be read gives a finding and stays blank; every
//! other cell of the sheet is read all the same, so that all faults come together.

mod heading_row;
mod rods;
mod upright;
mod written;

use std::sync::Arc;

use super::cells::{self, Habits, Value};
use super::columns::{Fields, Fill, Holds, InputTable};
use super::headings::{StandsFor, plain};
use super::tables::{QuickMeasure, Scenarios};
use super::{Entries, Extra, Places, TableData};
use crate::diagnostic::{Code, Diagnostic};
use crate::graph::Table;
use crate::place::{Place, cell_name};
use crate::read::{Cell, Content, Row, Sheet};
use crate::units::Unit;
use rods::Measured;
use written::{meant, says};

/// Reads one table from its sheet.
pub(super) fn read_table(
    table: &'static InputTable,
    sheet: &Sheet,
    habits: &Habits,
    findings: &mut Vec<Diagnostic>,
) -> TableData {
    let mut reader = Reader {
        table,
        sheet,
        habits,
        findings,
        data: TableData::empty(table, habits.system, sheet.place.clone()),
        formulas: 0,
        beside: false,
        extras: Vec::new(),
    };
    reader.merged();
    if table.upright {
        reader.upright();
    } else {
        reader.in_rows();
    }
    if reader.formulas > 0 {
        let count = reader.formulas;
        let (formulas, values) = if count == 1 {
            ("formula", "its value is carried, not the formula")
        } else {
            ("formulas", "their values are carried, not the formulas")
        };
        let what = format!(
            "{count} {formulas} in input cells of {}: {values}",
            table.name
        );
        reader.findings.push(Diagnostic::warning(
            Code::NotCarried,
            sheet.place.clone(),
            what,
        ));
    }
    reader.data.extras = reader.extras.into_iter().map(|(_, extra)| extra).collect();
    reader.data
}

struct Reader<'s> {
    table: &'static InputTable,
    sheet: &'s Sheet,
    habits: &'s Habits,
    findings: &'s mut Vec<Diagnostic>,
    data: TableData,
    formulas: usize,
    /// Whether words beside the values of an upright table were reported.
    beside: bool,
    /// Columns that are not ours, with where they stand.
    extras: Vec<(u32, Extra)>,
}

impl Reader<'_> {
    fn merged(&mut self) {
        for (row, column, last_row, last_column) in &self.sheet.merged {
            let what = format!(
                "the cells {}:{} of {} are merged",
                cell_name(*row, *column),
                cell_name(*last_row, *last_column),
                self.table.name
            );
            self.findings.push(
                Diagnostic::error(Code::MergedCells, self.sheet.place.at(*row, *column), what)
                    .hint("unmerge them and fill in each row, so that every row stands for itself"),
            );
        }
    }

    fn in_rows(&mut self) {
        let Some((heading, rows)) = self.sheet.rows.split_first() else {
            return;
        };
        let meanings = self.headings(heading);
        for row in rows {
            self.row(row, &meanings);
        }
    }

    fn row(&mut self, row: &Row, meanings: &[(u32, StandsFor)]) {
        let meaning_of = |cell: &Cell| {
            meanings
                .iter()
                .find(|(column, _)| *column == cell.column)
                .map(|(_, meaning)| meaning)
        };
        let ours = |cell: &&Cell| matches!(meaning_of(cell), Some(StandsFor::Column(..)));
        if !row
            .cells
            .iter()
            .any(|cell| ours(&cell) && !is_blank(&cell.content))
        {
            if let Some(cell) = row.cells.iter().find(|cell| !is_blank(&cell.content)) {
                let what = format!(
                    "this row of {} holds nothing under our headings; it is not carried",
                    self.table.name
                );
                self.findings.push(Diagnostic::warning(
                    Code::NotCarried,
                    self.sheet.place.at(row.index, cell.column),
                    what,
                ));
            }
            return;
        }
        let from = row
            .cells
            .iter()
            .find(|cell| meaning_of(cell) == Some(&StandsFor::RowFrom));
        if from.is_some_and(|cell| is_quick_page(&cells::text_of(&cell.content))) {
            return; // made anew from the quick page
        }
        self.start_row(row.index);
        let mut written = vec![None; self.table.columns.len()];
        let filled = || row.cells.iter().filter(|cell| !is_blank(&cell.content));
        for cell in filled().filter(|cell| meaning_of(cell) == Some(&StandsFor::AsMeasured)) {
            self.as_measured(&cells::text_of(&cell.content), &mut written);
        }
        for cell in filled() {
            match meaning_of(cell) {
                Some(StandsFor::Column(position, unit)) => {
                    self.cell(cell, row.index, *position, *unit, &mut written);
                }
                Some(StandsFor::AsMeasured | StandsFor::RowFrom) => {}
                _ => self.extra(cell),
            }
        }
        self.finish_row(&written);
    }

    fn start_row(&mut self, index: u32) {
        self.data.blank_row(Some(index));
        self.extras
            .iter_mut()
            .for_each(|(_, extra)| extra.values.push(None));
    }

    fn cell(
        &mut self,
        cell: &Cell,
        row: u32,
        position: usize,
        unit: Unit,
        written: &mut [Option<String>],
    ) {
        let column = &self.table.columns[position];
        let place = self.sheet.place.at(row, cell.column);
        match cells::value(column, unit, self.habits, &cell.content, &place) {
            Ok(value) => {
                // The scenario of a written workbook follows its bid page, and will again.
                let ours = column.holds == Holds::RowOf(Scenarios::TABLE.name);
                self.formulas += usize::from(cell.formula && !ours);
                let doubt = cells::nearly_upright(column, &value, &place);
                self.findings.extend(doubt);
                self.value(value, position, unit, &place, written);
            }
            Err(finding) if meant(&finding, &cell.content, unit, written[position].as_ref()) => {
                let text = written[position].clone();
                if let Content::Number(number) = cell.content {
                    let value = Value::Number {
                        number,
                        written: text,
                        rod: false,
                    };
                    self.value(value, position, unit, &place, written);
                }
            }
            Err(finding) => {
                // Rows that refer to a name which cannot be used are not at fault themselves.
                if finding.code == Code::BadKey {
                    self.word(position, cells::text_of(&cell.content).trim().into());
                }
                self.findings.push(finding);
            }
        }
    }

    fn value(
        &mut self,
        value: Value,
        position: usize,
        unit: Unit,
        place: &Place,
        written: &mut [Option<String>],
    ) {
        match value {
            Value::Number {
                number,
                written: text,
                rod,
            } => {
                let measure = Measured {
                    position,
                    unit,
                    number,
                    text,
                    rod,
                };
                self.number(measure, place, written);
            }
            Value::Word(word) => self.word(position, word),
        }
    }

    fn word(&mut self, position: usize, word: Arc<str>) {
        if let Entries::Words(words) = &mut self.data.columns[position]
            && let Some(last) = words.last_mut()
        {
            *last = word;
        }
    }

    /// Field notation kept beside the number stays as long as both agree.
    fn as_measured(&mut self, text: &str, written: &mut [Option<String>]) {
        for part in text.split("; ") {
            let Some((heading, measure)) = part.split_once(": ") else {
                continue;
            };
            let position = self
                .table
                .columns
                .iter()
                .position(|column| column.heading == heading);
            if let Some(position) = position
                && written[position].is_none()
            {
                written[position] = Some(measure.to_owned());
            }
        }
    }

    fn extra(&mut self, cell: &Cell) {
        let extra = self
            .extras
            .iter_mut()
            .find(|(column, _)| *column == cell.column);
        if let Some(last) = extra.and_then(|(_, extra)| extra.values.last_mut()) {
            *last = Some(cell.content.clone());
        }
    }

    fn finish_row(&mut self, written: &[Option<String>]) {
        let row = self.data.rows - 1;
        let mut kept = Vec::new();
        for (position, text) in written.iter().enumerate() {
            let Some(text) = text else { continue };
            let number = self
                .data
                .numbers(position)
                .get(row)
                .copied()
                .unwrap_or(f64::NAN);
            if says(text, self.data.units[position], number) {
                kept.push(format!("{}: {text}", self.table.columns[position].heading));
            }
        }
        if let Some(last) = self.data.as_measured.last_mut() {
            *last = kept.join("; ");
        }
        self.missing_values(row);
    }

    fn missing_values(&mut self, row: usize) {
        for (position, column) in self.table.columns.iter().enumerate() {
            let blank = match &self.data.columns[position] {
                Entries::Numbers(numbers) => numbers.get(row).is_none_or(|number| number.is_nan()),
                Entries::Words(words) => words.get(row).is_none_or(|word| word.is_empty()),
            };
            if column.fill != Fill::Needed || !blank {
                continue;
            }
            let place = self.data.place(position, row);
            let reported =
                |finding: &Diagnostic| finding.blocks() && finding.place.as_ref() == Some(&place);
            if self.has_column(position)
                && !self.is_merged(&place)
                && !self.findings.iter().rev().take(40).any(reported)
            {
                let (what, todo) = if place.cell.is_some() {
                    let row = self.row_word();
                    let what = format!("{} is empty, and every {row} needs it", column.heading);
                    (what, String::new())
                } else {
                    let what = format!("{} has no key \"{}\"", self.table.name, column.heading);
                    (what, "add a row for it: ".to_owned())
                };
                let hint = format!("{todo}{}", lower_first(column.guidance));
                self.findings
                    .push(Diagnostic::error(Code::MissingValue, place, what).hint(hint));
            }
        }
    }

    /// Whether a cell is hidden in a merged region, which has been reported.
    fn is_merged(&self, place: &Place) -> bool {
        let inside = |(row, column): (u32, u32)| {
            self.sheet.merged.iter().any(|(top, left, bottom, right)| {
                (*top..=*bottom).contains(&row) && (*left..=*right).contains(&column)
            })
        };
        place.cell.is_some_and(inside)
    }

    fn has_column(&self, position: usize) -> bool {
        match &self.data.places {
            Places::Rows { columns, .. } => columns[position].is_some(),
            Places::Keys { .. } => true,
        }
    }

    fn row_word(&self) -> &'static str {
        if self.table.upright { "job" } else { "row" }
    }
}

/// Whether a row says that it was made from the quick page.
fn is_quick_page(text: &str) -> bool {
    plain(text) == plain(QuickMeasure::NAME)
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

fn same_column(a: &StandsFor, b: &StandsFor) -> bool {
    match (a, b) {
        (StandsFor::Column(a, _), StandsFor::Column(b, _)) => a == b,
        _ => false,
    }
}

fn is_blank(content: &Content) -> bool {
    matches!(content, Content::Text(text) if text.trim().is_empty())
}
