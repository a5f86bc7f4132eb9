//! The pages of checks and of changes: what is broken, and what an edit cannot follow.

use rust_xlsxwriter::{Format, Formula};

use super::blocks::{Painter, Value};
use super::changes::{Then, Watch};
use super::error::WriteError;
use super::heights::PLAIN;
use super::styles::Role;
use crate::diagnostic::Severity;
use crate::graph::formula::Layout;
use crate::graph::{Cell, ColumnId, TableId};
use crate::place::column_letters;

/// First row of the checks and of the changes.
pub(super) const ROWS: u32 = 4;

impl Painter<'_> {
    /// How many rows break a limit of this severity.
    pub(super) fn broken_rows(&self, severity: Severity) -> f64 {
        let broken = |id: ColumnId| self.estimate.results.numbers(id).iter().sum::<f64>();
        self.estimate
            .graph
            .limits()
            .filter(|(_, breach)| breach.severity == severity)
            .map(|(id, _)| broken(id))
            .sum()
    }

    /// The name of a row of a table.
    pub(super) fn row_label(&self, table: TableId, row: usize) -> String {
        let label = self.estimate.graph.table(table).label;
        let words = |label| {
            self.estimate
                .results
                .words(Cell { column: label, row })
                .to_owned()
        };
        label.map(words).unwrap_or_default()
    }

    fn headings(&mut self, headings: &[(&str, f64)]) -> Result<(), WriteError> {
        for (column, (heading, width)) in (0u16..).zip(headings) {
            self.sheet
                .write_with_format(ROWS - 1, column, *heading, &self.styles.heading)?;
            self.sheet.set_column_width(column, *width)?;
        }
        Ok(())
    }

    /// Every limit: what it means, how many rows break it, and the first of them.
    pub(super) fn checks(&mut self) -> Result<(), WriteError> {
        self.headings(&[
            ("Check", 34.0),
            ("Kind", 10.0),
            ("What it means", 60.0),
            ("Rows", 8.0),
            ("First", 26.0),
            ("Listed as", 10.0),
            ("What to do", 60.0),
        ])?;
        let estimate = self.estimate;
        let mut listed_so_far = 0.0;
        for (row, (id, breach)) in (ROWS..).zip(estimate.graph.limits()) {
            let (table, name) = (
                estimate.graph.column(id).table,
                &estimate.graph.column(id).name,
            );
            let name = format!("{}: {name}", estimate.graph.table(table).name);
            self.fit(row, &[(breach.message, 58.0), (breach.hint, 58.0)], PLAIN)?;
            self.text(row, 0, &name, Role::Computed)?;
            self.text(row, 1, kind(breach.severity), Role::Computed)?;
            self.text(row, 2, breach.message, Role::Computed)?;
            let broken = self.broken(row, id)?;
            let counts = listed(breach.severity) && broken;
            listed_so_far += f64::from(u8::from(counts));
            self.listed_as(row, if counts { listed_so_far } else { 0.0 })?;
            self.text(row, 6, breach.hint, Role::Computed)?;
        }
        Ok(())
    }

    /// How many rows break a limit, and the name of the first; whether any does.
    fn broken(&mut self, row: u32, id: ColumnId) -> Result<bool, WriteError> {
        let estimate = self.estimate;
        let (table, numbers) = (
            estimate.graph.column(id).table,
            estimate.results.numbers(id),
        );
        let range = self.range(id);
        self.number_formula(row, 3, &format!("SUM({range})"), numbers.iter().sum())?;
        let first = numbers.iter().position(|number| *number > 0.5);
        let words = first.map_or(String::new(), |first| self.row_label(table, first));
        let formula = match estimate.graph.table(table).label {
            Some(label) => {
                let labels = self.range(label);
                format!("IFERROR(INDEX({labels},MATCH(1,{range},0))&\"\",\"\")")
            }
            None => "\"\"".to_owned(),
        };
        self.word_formula(row, 4, &formula, &words)?;
        Ok(first.is_some())
    }

    /// The number under which the bid page lists a broken limit: 1, 2, 3 down the sheet.
    fn listed_as(&mut self, row: u32, number: f64) -> Result<(), WriteError> {
        let first = ROWS + 1;
        let above = if row == ROWS {
            "0".to_owned()
        } else {
            format!("MAX(F${first}:F{row})")
        };
        let at = row + 1;
        let formula = format!("IF(AND(D{at}>0,OR(B{at}=\"fault\",B{at}=\"open\")),{above}+1,0)");
        self.number_formula(row, 5, &formula, number)
    }

    /// The cells of a column, as a formula on this sheet writes them.
    pub(super) fn range(&self, column: ColumnId) -> String {
        let home = self.layout.home(column);
        let rows = u32::try_from(self.estimate.graph.rows(column))
            .unwrap_or(0)
            .max(1);
        let letters = column_letters(home.column);
        let sheet = if home.sheet == self.at {
            String::new()
        } else {
            format!("{}!", self.layout.sheet(home.sheet))
        };
        format!(
            "{sheet}${letters}${}:${letters}${}",
            home.row + 1,
            home.row + rows
        )
    }

    /// What is watched: then, now, changed.
    pub(super) fn changes(&mut self, watched: &[Watch]) -> Result<(), WriteError> {
        let (first, last) = (
            ROWS + 1,
            ROWS + u32::try_from(watched.len()).unwrap_or(u32::MAX),
        );
        self.text(1, 0, "First change", Role::Computed)?;
        let named = format!(
            "IFERROR(INDEX($A${first}:$A${last},MATCH(1,$D${first}:$D${last},0))&\"\",\"\")"
        );
        self.word_formula(1, 1, &named, "")?;
        self.text(2, 0, "Run again", Role::Computed)?;
        let any = Formula::new(format!("SUM($D${first}:$D${last})>0")).set_result("FALSE");
        self.sheet
            .write_formula_with_format(2, 1, any, self.styles.words(Role::Computed))?;
        self.headings(&[
            ("Watched", 44.0),
            ("Then", 60.0),
            ("Now", 60.0),
            ("Changed", 10.0),
        ])?;
        let flag = "[=0]\"same\";[=1]\"CHANGED\";General".to_owned();
        let looks = Looks {
            flag: self.styles.pattern_format(flag, Role::Computed).clone(),
            number: self
                .styles
                .pattern_format("General".to_owned(), Role::Computed)
                .clone(),
            words: self.styles.words(Role::Computed).clone(),
        };
        for (row, watch) in (ROWS..).zip(watched) {
            self.watch(row, watch, &looks)?;
        }
        Ok(())
    }

    fn watch(&mut self, row: u32, watch: &Watch, looks: &Looks) -> Result<(), WriteError> {
        self.sheet
            .write_string_with_format(row, 0, &*watch.what, &looks.words)?;
        let at = row + 1;
        let differ = match &watch.then {
            Then::Number(number) => {
                self.sheet
                    .write_number_with_format(row, 1, *number, &looks.number)?;
                self.formula(row, 2, &watch.now, Value::Number(*number), &looks.number)?;
                format!("IF(ROUND(B{at}-N(C{at}),9)=0,0,1)")
            }
            Then::Words(words) => {
                self.fit(row, &[(words, 58.0)], PLAIN)?;
                self.sheet
                    .write_string_with_format(row, 1, words, &looks.words)?;
                self.formula(row, 2, &watch.now, Value::Words(words), &looks.words)?;
                format!("IF(EXACT(B{at},C{at}),0,1)")
            }
        };
        self.formula(row, 3, &differ, Value::Number(0.0), &looks.flag)
    }
}

/// The looks of a watched row.
struct Looks {
    flag: Format,
    number: Format,
    words: Format,
}

/// Whether the bid page lists a limit of this severity.
pub(super) fn listed(severity: Severity) -> bool {
    matches!(severity, Severity::Error | Severity::Open)
}

pub(super) fn kind(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "fault",
        Severity::Open => "open",
        Severity::Warning => "warning",
        Severity::Caution => "caution",
    }
}
