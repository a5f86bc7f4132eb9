//! The pages that are not tables of the graph: bid, cautions, checks, changes, sources,
//! factors.

use rust_xlsxwriter::Formula;

use super::blocks::{Look, Painter, Value};
use super::changes::{Then, Watch, entered};
use super::layout::{Block, Body, DATA, factor_row};
use super::styles::{DAY, Role};
use super::workbook::WriteError;
use crate::diagnostic::Severity;
use crate::graph::formula::{self, Layout, quoted};
use crate::graph::{Cell, Column, ColumnId, TableId};
use crate::job::Fields;
use crate::job::tables::{JobKeys, TABLES};
use crate::parameters::Factor;
use crate::place::column_letters;
use crate::pricing::bid::Bid;
use crate::sources;

/// How many open points the bid page lists before it refers to the checks.
const LISTED: u32 = 8;
/// First row of the checks and of the changes.
const ROWS: u32 = 4;

/// The usual cautions, with what each defers to.
const CAUTIONS: &[(&str, &str)] = &[
    (
        "Cuts",
        "Cuts that people enter need protection from cave-in at 5 ft (1.5 m) and deeper, and shallower where a competent person sees danger; a way out within 25 ft in trenches of 4 ft and deeper; spoil kept 2 ft from the edge (29 CFR 1926 Subpart P). Local codes and the competent person on site decide.",
    ),
    (
        "Buried lines",
        "Have buried pipes and cables located and marked before any digging.",
    ),
    (
        "Lifting",
        "Plan lifts with the machine's own rated chart and a competent person; nobody stands under a load.",
    ),
    (
        "Machines and people",
        "Keep people on foot out of the reach of machines and of trucks that back up.",
    ),
    (
        "Water and electricity",
        "Pumps and tools beside water need ground-fault protection (29 CFR 1926.404) and isolation before anyone touches them; wiring is licensed work.",
    ),
    (
        "Confined spaces",
        "Vaults, sumps and deep basins can be confined spaces: entry follows the permit rules (29 CFR 1910.146, 1926 Subpart AA) and local law.",
    ),
    (
        "Open water and open pits",
        "An open pool or pit can drown a child: fence it, sign it and keep a way out while it is open.",
    ),
    (
        "Old sediment",
        "Old pond mud may be soft beyond a person's depth and may be contaminated: probe from a safe place and ask for a test before it is tipped or spread.",
    ),
];

impl Painter<'_> {
    fn text(&mut self, row: u32, column: u16, text: &str, role: Role) -> Result<(), WriteError> {
        let format = self.styles.words(role);
        self.sheet.write_with_format(row, column, text, format)?;
        Ok(())
    }

    fn number_formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        number: f64,
    ) -> Result<(), WriteError> {
        let format = self
            .styles
            .pattern_format("#,##0".to_owned(), Role::Computed);
        self.sheet.write_formula_with_format(
            row,
            column,
            Formula::new(formula).set_result(number.to_string()),
            format,
        )?;
        Ok(())
    }

    fn word_formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        words: &str,
    ) -> Result<(), WriteError> {
        self.formula(
            row,
            column,
            formula,
            &Value::Words(words.to_owned()),
            &Look::Words(Role::Computed),
        )
    }

    fn job_cell(&self, key: JobKeys) -> Cell {
        Cell {
            column: self.estimate.columns.inputs.job.columns[key.index()],
            row: 0,
        }
    }

    /// The bid page: who and what, the status, sections, total, open points.
    pub(super) fn bid(&mut self, block: &Block) -> Result<(), WriteError> {
        let name = self.job_cell(JobKeys::JobName);
        let reference = formula::reference(&self.estimate.graph, self.layout, self.at, name);
        let words = self.estimate.results.words(name).to_owned();
        self.formula(0, 0, &reference, &Value::Words(words), &Look::Title)?;
        self.sheet
            .write_with_format(1, 0, "Bid", &self.styles.block)?;
        let keys = [
            JobKeys::Client,
            JobKeys::Site,
            JobKeys::PreparedBy,
            JobKeys::BidDate,
            JobKeys::ValidDays,
            JobKeys::BidKind,
        ];
        for (row, key) in (2u32..).zip(keys) {
            self.job_row(row, key)?;
        }
        self.status(9)?;
        self.block(block)?;
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
        let reference = formula::reference(&self.estimate.graph, self.layout, self.at, cell);
        match self.value(cell) {
            Value::Words(words) => self.word_formula(row, 1, &reference, &words),
            Value::Number(number) => {
                let pattern = if key == JobKeys::BidDate {
                    format!("{DAY};;")
                } else {
                    "0;;".to_owned()
                };
                let format = self.styles.pattern_format(pattern, Role::Computed);
                self.sheet.write_formula_with_format(
                    row,
                    1,
                    Formula::new(reference).set_result(number.to_string()),
                    format,
                )?;
                Ok(())
            }
        }
    }

    fn named_sheet(&self, body: fn(&Body) -> bool) -> String {
        let at = self
            .layout
            .sheets
            .iter()
            .position(|sheet| body(&sheet.body))
            .unwrap_or(0);
        self.layout.sheet(at).to_owned()
    }

    /// Status: run again, faults, open points, rows entered against rows worked out.
    fn status(&mut self, row: u32) -> Result<(), WriteError> {
        let checks = self.named_sheet(|body| matches!(body, Body::Checks));
        let changes = self.named_sheet(|body| matches!(body, Body::Changes));
        let open = self.broken_rows(Severity::Open);
        let faults = self.broken_rows(Severity::Error);
        let words = if faults > 0.0 {
            FAULTY
        } else if open > 0.0 {
            DRAFT
        } else {
            COMPLETE
        };
        let status = format!(
            "IF(run_again,\"RUN AGAIN: \"&{changes}!$B$2,IF(B{}>0,{},IF(B{}>0,{},{})))",
            row + 2,
            quoted(FAULTY),
            row + 3,
            quoted(DRAFT),
            quoted(COMPLETE)
        );
        self.sheet
            .write_with_format(row, 0, "Status", &self.styles.block)?;
        self.sheet.write_formula_with_format(
            row,
            1,
            Formula::new(status).set_result(words),
            &self.styles.status,
        )?;
        for (at, label, kind, count) in [
            (row + 1, "Faults", "fault", faults),
            (row + 2, "Open points", "open", open),
        ] {
            self.text(at, 0, label, Role::Computed)?;
            let last = ROWS + u32::try_from(self.estimate.graph.limits().count()).unwrap_or(0);
            let formula = format!(
                "SUMIFS({checks}!$D${}:$D${last},{checks}!$B${}:$B${last},\"{kind}\")",
                ROWS + 1,
                ROWS + 1
            );
            self.number_formula(at, 1, &formula, count)?;
        }
        self.text(row + 3, 0, "Rows entered", Role::Computed)?;
        let (counted, rows) = self.entered();
        self.number_formula(row + 3, 1, &counted, rows)?;
        self.text(row + 4, 0, "Rows worked out", Role::Computed)?;
        let (counted, rows) = self.worked_out();
        self.number_formula(row + 4, 1, &counted, rows)
    }

    fn broken_rows(&self, severity: Severity) -> f64 {
        let broken = |id: ColumnId| self.estimate.results.numbers(id).iter().sum::<f64>();
        self.estimate
            .graph
            .limits()
            .filter(|(_, breach)| breach.severity == severity)
            .map(|(id, _)| broken(id))
            .sum()
    }

    fn measured_tables(&self) -> Vec<(usize, TableId)> {
        let named = |name: &str| {
            let at = TABLES.iter().position(|table| table.name == name)?;
            Some((
                at,
                self.estimate
                    .graph
                    .tables()
                    .find(|id| self.estimate.graph.table(*id).name == name)?,
            ))
        };
        ["Basins", "Shelves", "Other items"]
            .into_iter()
            .filter_map(named)
            .collect()
    }

    fn entered(&self) -> (String, f64) {
        let tables = self.measured_tables();
        let counts = tables
            .iter()
            .map(|(at, table)| entered(self.layout, *at, self.estimate.graph.table(*table).rows));
        (counts.collect::<Vec<_>>().join("+"), self.rows_in(&tables))
    }

    fn rows_in(&self, tables: &[(usize, TableId)]) -> f64 {
        let rows = tables
            .iter()
            .map(|(_, table)| u32::try_from(self.estimate.graph.table(*table).rows).unwrap_or(0));
        f64::from(rows.sum::<u32>())
    }

    /// Rows that the working sheets hold, counted where their first step stands.
    fn worked_out(&self) -> (String, f64) {
        let tables = self.measured_tables();
        let mut parts = Vec::new();
        for (_, table) in &tables {
            let first = self
                .estimate
                .graph
                .columns_of(*table)
                .find(|id| self.estimate.graph.column(*id).is_computed());
            let rows = u32::try_from(self.estimate.graph.table(*table).rows).unwrap_or(0);
            if let Some(first) = first {
                let home = self.layout.home(first);
                let letters = column_letters(home.column);
                parts.push(format!(
                    "COUNTA({}!{letters}{}:{letters}{})",
                    self.layout.sheet(home.sheet),
                    home.row + 1,
                    home.row + rows.max(1)
                ));
            }
        }
        (parts.join("+"), self.rows_in(&tables))
    }

    fn figures(&mut self, row: u32) -> Result<(), WriteError> {
        let bid = self.estimate.columns.priced.bid;
        let cell = |column: Column<Bid>| Cell {
            column: column.id,
            row: 0,
        };
        let reference = |painter: &Self, column: Column<Bid>| {
            formula::reference(
                &painter.estimate.graph,
                painter.layout,
                painter.at,
                cell(column),
            )
        };
        self.sheet
            .write_with_format(row, 0, "Bid total", &self.styles.grand)?;
        let formula = Formula::new(reference(self, bid.total))
            .set_result(self.estimate.results.at(bid.total, 0).to_string());
        self.sheet
            .write_formula_with_format(row, 1, formula, &self.styles.grand)?;
        let days = [
            ("Working days, one line after the other", bid.working_days),
            ("Working days with weather", bid.days_with_weather),
            ("Calendar days", bid.calendar_days),
        ];
        for (row, (label, column)) in (row + 1..).zip(days) {
            self.text(row, 0, label, Role::Computed)?;
            let formula = reference(self, column);
            self.number_formula(row, 1, &formula, self.estimate.results.at(column, 0))?;
        }
        self.job_row(row + 5, JobKeys::JobNote)
    }

    /// The first few broken checks, with the first row that breaks each.
    fn open_points(&mut self, row: u32) -> Result<(), WriteError> {
        self.sheet
            .write_with_format(row, 0, "Open points", &self.styles.block)?;
        let checks = self.named_sheet(|body| matches!(body, Body::Checks));
        let last = ROWS + u32::try_from(self.estimate.graph.limits().count()).unwrap_or(0);
        let range = |letter: char| format!("{checks}!${letter}${}:${letter}${last}", ROWS + 1);
        let broken = self.listed();
        for position in 1..=LISTED {
            let found = format!("MATCH({position},{},0)", range('F'));
            let at = usize::try_from(position - 1).unwrap_or(0);
            let (first, message) = broken.get(at).cloned().unwrap_or_default();
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

    /// Broken checks that the bid page lists: the first row that breaks each, and what it means.
    fn listed(&self) -> Vec<(String, String)> {
        let graph = &self.estimate.graph;
        let mut found = Vec::new();
        for (id, breach) in graph.limits().filter(|(_, breach)| listed(breach.severity)) {
            let numbers = self.estimate.results.numbers(id);
            if let Some(row) = numbers.iter().position(|number| *number > 0.5) {
                found.push((
                    self.row_label(graph.column(id).table, row),
                    breach.message.to_owned(),
                ));
            }
        }
        found
    }

    fn row_label(&self, table: TableId, row: usize) -> String {
        let label = self.estimate.graph.table(table).label;
        label.map_or(String::new(), |label| {
            self.estimate
                .results
                .words(Cell { column: label, row })
                .to_owned()
        })
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

    /// The usual cautions.
    pub(super) fn cautions(&mut self) -> Result<(), WriteError> {
        self.sheet
            .set_column_width(0, 26)?
            .set_column_width(1, 100)?;
        for (row, (what, words)) in (3u32..).zip(CAUTIONS) {
            self.sheet
                .write_with_format(row, 0, *what, &self.styles.block)?;
            self.sheet
                .write_with_format(row, 1, *words, &self.styles.wrapped)?;
        }
        Ok(())
    }

    /// Every source that rules and defaults name.
    pub(super) fn sources(&mut self) -> Result<(), WriteError> {
        self.sheet
            .set_column_width(0, 16)?
            .set_column_width(1, 120)?;
        for (row, source) in (3u32..).zip(sources::ALL) {
            self.text(row, 0, source.standing.words(), Role::Computed)?;
            self.sheet
                .write_with_format(row, 1, source.text, &self.styles.wrapped)?;
        }
        Ok(())
    }

    /// The factors: default, unit, override, reason, in use, source.
    pub(super) fn factors(&mut self) -> Result<(), WriteError> {
        let estimate = self.estimate;
        super::workbook::factor_headings(self.sheet, self.styles)?;
        for factor in Factor::ALL {
            let row = factor_row(*factor);
            let own = estimate.job.factor(*factor);
            let value = Some(own.value).filter(|value| !value.is_nan());
            super::workbook::factor_row(
                self.sheet,
                self.styles,
                *factor,
                estimate.job.system(),
                (value, &own.reason),
            )?;
            let in_use = estimate.columns.inputs.factors.of(*factor);
            let mut formula = String::new();
            if let Some(template) = formula::template(&estimate.graph, self.layout, in_use.id) {
                template.splice(0, &mut formula);
            }
            let value = Value::Number(estimate.results.at(in_use, 0));
            let info = estimate.graph.column(in_use.id);
            self.formula(
                row,
                5,
                &formula,
                &value,
                &Look::Number(info, Role::Computed),
            )?;
        }
        Ok(())
    }
}

const FAULTY: &str = "FAULTS: mend them before this goes out";
const DRAFT: &str = "DRAFT: open points are priced by a plug or excluded";
const COMPLETE: &str = "COMPLETE";

fn listed(severity: Severity) -> bool {
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
