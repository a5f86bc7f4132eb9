//! The pages of checks and of changes: what is broken, and what an edit cannot follow.

use rust_xlsxwriter::Formula;

use super::blocks::Painter;
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

    /// Every limit: what it means, how many rows break it, and the first of them.
    pub(super) fn checks(&mut self) -> Result<(), WriteError> {
        for (column, (heading, width)) in (0u16..).zip([
            ("Check", 34.0),
            ("Kind", 10.0),
            ("What it means", 60.0),
            ("Rows", 8.0),
            ("First", 26.0),
            ("Listed as", 10.0),
            ("What to do", 60.0),
        ]) {
            self.sheet
                .write_with_format(ROWS - 1, column, heading, &self.styles.heading)?;
            self.sheet.set_column_width(column, width)?;
        }
        let estimate = self.estimate;
        let mut listed_so_far = 0.0;
        for (row, (id, breach)) in (ROWS..).zip(estimate.graph.limits()) {
            let table = estimate.graph.column(id).table;
            let count: f64 = estimate.results.numbers(id).iter().sum();
            let range = self.range(id);
            self.text(
                row,
                0,
                &format!(
                    "{}: {}",
                    estimate.graph.table(table).name,
                    estimate.graph.column(id).name
                ),
                Role::Computed,
            )?;
            self.text(row, 1, kind(breach.severity), Role::Computed)?;
            self.fit(row, &[(breach.message, 58.0), (breach.hint, 58.0)], PLAIN)?;
            self.text(row, 2, breach.message, Role::Computed)?;
            self.number_formula(row, 3, &format!("SUM({range})"), count)?;
            let first = self
                .estimate
                .results
                .numbers(id)
                .iter()
                .position(|number| *number > 0.5);
            let words = first.map_or(String::new(), |first| self.row_label(table, first));
            let formula = match estimate.graph.table(table).label {
                Some(label) => format!(
                    "IFERROR(INDEX({},MATCH(1,{range},0))&\"\",\"\")",
                    self.range(label)
                ),
                None => "\"\"".to_owned(),
            };
            self.word_formula(row, 4, &formula, &words)?;
            let listed = listed(breach.severity) && count > 0.0;
            listed_so_far += f64::from(u8::from(listed));
            let above = if row == ROWS {
                "0".to_owned()
            } else {
                format!("MAX(F${}:F{row})", ROWS + 1)
            };
            let formula = format!(
                "IF(AND(D{0}>0,OR(B{0}=\"fault\",B{0}=\"open\")),{above}+1,0)",
                row + 1
            );
            self.number_formula(row, 5, &formula, if listed { listed_so_far } else { 0.0 })?;
            self.text(row, 6, breach.hint, Role::Computed)?;
        }
        Ok(())
    }

    fn range(&self, column: ColumnId) -> String {
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
        let last = ROWS + u32::try_from(watched.len()).unwrap_or(u32::MAX);
        self.text(1, 0, "First change", Role::Computed)?;
        let first = format!(
            "IFERROR(INDEX($A${0}:$A${last},MATCH(1,$D${0}:$D${last},0))&\"\",\"\")",
            ROWS + 1
        );
        self.word_formula(1, 1, &first, "")?;
        self.text(2, 0, "Run again", Role::Computed)?;
        let format = self.styles.words(Role::Computed);
        let any = Formula::new(format!("SUM($D${}:$D${last})>0", ROWS + 1)).set_result("FALSE");
        self.sheet.write_formula_with_format(2, 1, any, format)?;
        for (column, (heading, width)) in (0u16..).zip([
            ("Watched", 44.0),
            ("Then", 60.0),
            ("Now", 60.0),
            ("Changed", 10.0),
        ]) {
            self.sheet
                .write_with_format(ROWS - 1, column, heading, &self.styles.heading)?;
            self.sheet.set_column_width(column, width)?;
        }
        let flag = self
            .styles
            .pattern_format(
                "[=0]\"same\";[=1]\"CHANGED\";General".to_owned(),
                Role::Computed,
            )
            .clone();
        let general = self
            .styles
            .pattern_format("General".to_owned(), Role::Computed)
            .clone();
        let words = self.styles.words(Role::Computed).clone();
        for (row, watch) in (ROWS..).zip(watched) {
            if let Then::Words(words) = &watch.then {
                self.fit(row, &[(words, 58.0)], PLAIN)?;
            }
            self.sheet
                .write_string_with_format(row, 0, &*watch.what, &words)?;
            let at = row + 1;
            let (format, differ, result) = match &watch.then {
                Then::Number(number) => {
                    self.sheet
                        .write_number_with_format(row, 1, *number, &general)?;
                    (
                        &general,
                        format!("IF(ROUND(B{at}-N(C{at}),9)=0,0,1)"),
                        number.to_string(),
                    )
                }
                Then::Words(then) => {
                    self.sheet.write_string_with_format(row, 1, then, &words)?;
                    (&words, format!("IF(EXACT(B{at},C{at}),0,1)"), then.clone())
                }
            };
            self.sheet.write_formula_with_format(
                row,
                2,
                Formula::new(&*watch.now).set_result(result),
                format,
            )?;
            self.sheet.write_formula_with_format(
                row,
                3,
                Formula::new(differ).set_result("0"),
                &flag,
            )?;
        }
        Ok(())
    }
}

/// Whether the bid page lists a limit of this severity.
pub(super) fn listed(severity: Severity) -> bool {
    matches!(severity, Severity::Error | Severity::Open)
}

fn kind(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "fault",
        Severity::Open => "open",
        Severity::Warning => "warning",
        Severity::Caution => "caution",
    }
}
