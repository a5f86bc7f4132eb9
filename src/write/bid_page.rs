//! The bid page: who and what, the status line, sections, total, open points.

use rust_xlsxwriter::{DataValidation, Formula};

use super::changes::entered;
use super::error::WriteError;
use super::fixed_tables::{broken_rows, first_broken, listed};
use super::head;
use super::heights::PLAIN;
use super::painter::{Painter, Value};
use super::sheets::{Block, DATA, Fixed, SCENARIO};
use super::styles::{DAY_OR_NONE, Role, Styles};
use crate::bid;
use crate::bid::lines::DIRECT_COST;
use crate::diagnostic::Severity;
use crate::graph::reference::{self, quoted};
use crate::graph::{Cell, Table};
use crate::job::Fields;
use crate::job::tables::{JobKeys, OtherItems, TABLES};
use crate::labour::compared;
use crate::pricing::lines;
use crate::tables::Lines;

/// How many open points the page lists before it refers to the checks.
const LISTED: u32 = 8;
/// Widths of the two columns of the page.
const WIDTHS: [f64; 2] = [40.0, 52.0];

const FAULTY: &str = "FAULTS: mend them before this goes out";
const DRAFT: &str = "DRAFT: open points are priced by a plug or excluded";
const COMPLETE: &str = "COMPLETE";

impl Painter<'_> {
    fn job_cell(&self, key: JobKeys) -> Cell {
        Cell {
            column: self.estimate.graph.id(key),
            row: 0,
        }
    }

    /// The bid page: who and what, the status, sections, total, open points.
    pub(super) fn bid(&mut self, block: &Block) -> Result<(), WriteError> {
        let name = self.job_cell(head::TITLE);
        let reference = reference::reference(&self.estimate.graph, self.layout, self.at, name);
        let title = self.styles.title.clone();
        self.formula(0, 0, &reference, self.value(name), &title)?;
        self.sheet.set_row_height(0, 24)?;
        for (column, width) in (0u16..).zip(WIDTHS) {
            self.sheet.set_column_width(column, width)?;
        }
        self.sheet
            .write_with_format(1, 0, "Bid", &self.styles.block)?;
        for (row, key) in (2u32..).zip(head::FACTS) {
            self.job_row(row, key)?;
        }
        self.scenario()?;
        self.status(9)?;
        self.in_rows(block)?;
        let sections = u32::try_from(self.estimate.graph.table(block.table).rows)
            .unwrap_or(0)
            .max(1);
        let total = block.heading + DATA + sections;
        self.figures(total + 2)?;
        self.open_points(total + 10)
    }

    fn job_row(&mut self, row: u32, key: JobKeys) -> Result<(), WriteError> {
        self.text(
            row,
            0,
            JobKeys::TABLE.columns[key.index()].heading,
            Role::Computed,
        )?;
        let cell = self.job_cell(key);
        let reference = reference::reference(&self.estimate.graph, self.layout, self.at, cell);
        match self.value(cell) {
            Value::Words(words) => {
                self.fit(row, &[(words, WIDTHS[1])], PLAIN)?;
                self.word_formula(row, 1, &reference, words)
            }
            Value::Number(number) => {
                let pattern = if key == JobKeys::BidDate {
                    DAY_OR_NONE
                } else {
                    "0;;"
                };
                let format = Styles::left(pattern);
                self.formula(row, 1, &reference, Value::Number(number), &format)
            }
        }
    }

    /// The scenario in use, chosen here from those that the job has: the one cell of the page
    /// that may be edited. The cell of the job's own table follows it.
    fn scenario(&mut self) -> Result<(), WriteError> {
        if !self.estimate.has_scenarios() {
            return Ok(());
        }
        let name = self.estimate.words(compared::NAME_IN_USE, 0);
        let names = self.range(self.estimate.graph.id(compared::NAME));
        self.text(SCENARIO.0, 0, "Scenario", Role::Computed)?;
        let format = self.styles.words(Role::Input).clone();
        let format = format.set_indent(1).set_unlocked();
        let (row, column) = SCENARIO;
        self.sheet
            .write_string_with_format(row, column, name, &format)?;
        let list = DataValidation::new()
            .allow_list_formula(Formula::new(format!("={names}")))
            .set_input_title("Scenario")?
            .set_input_message("Who does the work in this bid: the whole workbook follows.")?;
        self.sheet
            .add_data_validation(row, column, row, column, &list)?;
        Ok(())
    }

    /// Status: run again, faults, open points, rows entered against rows worked out.
    fn status(&mut self, row: u32) -> Result<(), WriteError> {
        let changes = self.layout.fixed(Fixed::Changes);
        let open = broken_rows(self.estimate, Severity::Open);
        let faults = broken_rows(self.estimate, Severity::Error);
        let words = if faults > 0.0 {
            FAULTY
        } else if open > 0.0 {
            DRAFT
        } else {
            COMPLETE
        };
        let status = format!(
            "IFERROR(IF(run_again,\"RUN AGAIN: \"&{changes}!$B$2,IF(B{}>0,{},IF(B{}>0,{},{}))),\"RUN AGAIN: a cell cannot be read\")",
            row + 2,
            quoted(FAULTY),
            row + 3,
            quoted(DRAFT),
            quoted(COMPLETE)
        );
        self.sheet
            .write_with_format(row, 0, "Status", &self.styles.block)?;
        let format = self.styles.status.clone();
        self.formula(row, 1, &status, Value::Words(words), &format)?;
        self.sheet.set_row_height(row, 20)?;
        let broken = |kind: &str| {
            let (rows, kinds) = (
                self.layout.of_checks(self.estimate, 'D'),
                self.layout.of_checks(self.estimate, 'B'),
            );
            format!("SUMIFS({rows},{kinds},\"{kind}\")")
        };
        let refused = self.layout.of_typed(self.estimate, 'C');
        for (at, label, formula, count) in [
            (
                row + 1,
                "Faults",
                format!("{}+SUM({refused})", broken("fault")),
                faults,
            ),
            (row + 2, "Open points", broken("open"), open),
        ] {
            self.text(at, 0, label, Role::Computed)?;
            self.number_formula(at, 1, &format!("IFERROR({formula},1)"), count)?;
        }
        self.text(row + 3, 0, "Other items entered", Role::Computed)?;
        let (counted, rows) = self.entered();
        self.number_formula(row + 3, 1, &counted, rows)?;
        self.text(row + 4, 0, "Other items priced", Role::Computed)?;
        let (counted, rows) = self.priced();
        self.number_formula(row + 4, 1, &counted, rows)
    }

    /// Other items on their sheet, with room for rows added below.
    fn entered(&self) -> (String, f64) {
        let at = TABLES
            .iter()
            .position(|table| table.name == OtherItems::NAME);
        let rows = self.estimate.job.table::<OtherItems>().rows;
        (entered(self.layout, at.unwrap_or(0), rows), count(rows))
    }

    /// Lines of other items that cost something.
    fn priced(&self) -> (String, f64) {
        let (estimate, graph) = (self.estimate, &self.estimate.graph);
        let priced = |row: &usize| {
            estimate.words(lines::TABLE, *row) == OtherItems::NAME
                && estimate.number(DIRECT_COST, *row) > 0.0
        };
        let rows = (0..estimate.rows::<Lines>()).filter(priced).count();
        let (table, direct) = (graph.id(lines::TABLE), graph.id(DIRECT_COST));
        let (table, direct) = (self.range(table), self.range(direct));
        let formula = format!(
            "COUNTIFS({table},{},{direct},\">0\")",
            quoted(OtherItems::NAME)
        );
        (formula, count(rows))
    }

    fn figures(&mut self, row: u32) -> Result<(), WriteError> {
        let graph = &self.estimate.graph;
        let reference =
            |painter: &Self, cell| reference::reference(graph, painter.layout, painter.at, cell);
        self.sheet
            .write_with_format(row, 0, "Bid total", &self.styles.grand)?;
        let (formula, format) = (
            reference(self, graph.id(bid::TOTAL).at(0)),
            self.styles.grand.clone(),
        );
        let total = Value::Number(self.estimate.bid());
        self.formula(row, 1, &formula, total, &format)?;
        self.sheet.set_row_height(row, 22)?;
        let days = [
            (
                "Working days, one line after the other",
                graph.id(bid::WORKING_DAYS),
            ),
            (
                "Working days with weather",
                graph.id(bid::DAYS_WITH_WEATHER),
            ),
            ("Calendar days", graph.id(bid::CALENDAR_DAYS)),
        ];
        for (row, (label, column)) in (row + 1..).zip(days) {
            self.text(row, 0, label, Role::Computed)?;
            let formula = reference(self, column.at(0));
            let value = self.estimate.results.number(column.at(0));
            self.number_formula(row, 1, &formula, value)?;
        }
        self.job_row(row + 5, head::NOTE)
    }

    /// The first few broken checks, with the first row that breaks each.
    fn open_points(&mut self, row: u32) -> Result<(), WriteError> {
        self.sheet
            .write_with_format(row, 0, "Open points", &self.styles.block)?;
        self.first_refused(row)?;
        let range = |letter: char| self.layout.of_checks(self.estimate, letter);
        let broken = self.listed();
        for position in 1..=LISTED {
            let found = format!("MATCH({position},{},0)", range('F'));
            let at = usize::try_from(position - 1).unwrap_or(0);
            let (first, message) = broken.get(at).cloned().unwrap_or_default();
            let words = [(&*first, WIDTHS[0]), (&*message, WIDTHS[1])];
            self.fit(row + position, &words, PLAIN)?;
            self.word_formula(
                row + position,
                0,
                &format!("IFERROR(INDEX({},{found})&\"\",\"\")", range('E')),
                &first,
            )?;
            self.word_formula(
                row + position,
                1,
                &format!("IFERROR(INDEX({},{found})&\"\",\"\")", range('C')),
                &message,
            )?;
        }
        let more = format!(
            "IF(MAX({})>{LISTED},\"and more: see Checks\",\"\")",
            range('F')
        );
        let words = if broken.len() > LISTED as usize {
            "and more: see Checks"
        } else {
            ""
        };
        self.word_formula(row + LISTED + 1, 1, &more, words)
    }

    /// The first cells that a run would refuse, and what it takes there.
    fn first_refused(&mut self, row: u32) -> Result<(), WriteError> {
        let range = |letter: char| self.layout.of_typed(self.estimate, letter);
        let found = format!("MATCH(1,{},0)", range('D'));
        let (name, takes) = (range('A'), range('B'));
        let formula = format!(
            "IFERROR(\"A run would refuse \"&INDEX({name},{found})&\", which takes \"&INDEX({takes},{found}),\"\")"
        );
        self.word_formula(row, 1, &formula, "")
    }

    /// Broken checks that the bid page lists: the first row that breaks each, and what it means.
    fn listed(&self) -> Vec<(String, String)> {
        let limits = self.estimate.graph.limits();
        let listed = limits.filter(|(_, breach)| listed(breach.severity));
        let broken = listed.filter_map(|(id, breach)| {
            let first = first_broken(self.estimate, id)?;
            Some((first.to_owned(), breach.message.to_owned()))
        });
        broken.collect()
    }
}

/// A number of rows as a cell holds it.
fn count(rows: usize) -> f64 {
    f64::from(u32::try_from(rows).unwrap_or(u32::MAX))
}
