//! The priced workbook: every sheet of the layout, with formulas and stored results.
//!
//! Always true: the workbook is a job file (its input sheets read back to the same
//! job), holds no path, no file name and no time of day, and is the same bytes each time.

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, Worksheet};

use super::blocks::Painter;
use super::changes;
use super::error::WriteError;
use super::heights::TITLE;
use super::inputs::{self, Filled, Followed};
use super::layout::BookLayout;
use super::sheets::{Below, Block, Body, Fixed};
use super::stored;
use super::styles::{Role, Styles};
use crate::estimate::Estimate;
use crate::graph::Table;
use crate::graph::formula::Layout;
use crate::graph::reference;
use crate::job::Fields;
use crate::job::InputTable;
use crate::job::tables::{JobKeys, TABLES};
use crate::labour::compared;
use crate::parameters::Factor;
use crate::place::column_letters;
use crate::units::System;

/// The priced workbook of an estimate, as the bytes of an xlsx file. `progress` is told
/// how many of how many sheets are done.
///
/// # Errors
///
/// Where the sheets hold more than a workbook can: more rows than a sheet has, or a
/// text longer than a cell holds.
pub fn workbook(
    estimate: &Estimate,
    progress: &mut dyn FnMut(usize, usize),
) -> Result<Vec<u8>, WriteError> {
    let layout = BookLayout::new(estimate);
    let mut styles = Styles::new(estimate.currency());
    let mut mistaken = Vec::new();
    let mut book = new_book()?;
    for (at, plan) in layout.sheets.iter().enumerate() {
        progress(at, layout.sheets.len());
        let sheet = book.add_worksheet();
        sheet.set_name(plan.name)?;
        sheet.set_formula_result_default("");
        let mut painter = Painter {
            estimate,
            layout: &layout,
            styles: &mut styles,
            sheet,
            at,
            mistaken: &mut mistaken,
            digits: String::new(),
        };
        painter.write(&plan.body, plan.about)?;
    }
    let changes = layout
        .sheets
        .iter()
        .position(|sheet| matches!(sheet.body, Body::Fixed(Fixed::Changes)))
        .unwrap_or(0);
    book.define_name("run_again", &format!("={}!$B$3", layout.sheet(changes)))?;
    let bid = layout.home(estimate.columns.priced.bid.total.id);
    let bid = format!(
        "={}!${}${}",
        layout.sheet(bid.sheet),
        column_letters(bid.column),
        bid.row + 1
    );
    book.define_name("bid_total", &bid)?;
    Ok(stored::as_words(book.save_to_buffer()?, mistaken)?)
}

pub(super) fn new_book() -> Result<Workbook, WriteError> {
    let mut book = Workbook::new();
    // One fixed day: the same job gives the same bytes.
    let properties =
        DocProperties::new().set_creation_datetime(&ExcelDateTime::from_ymd(2000, 1, 1)?);
    book.set_properties(&properties);
    Ok(book)
}

impl<'w> Painter<'w> {
    fn write(&mut self, body: &Body, about: &str) -> Result<(), WriteError> {
        page(self.sheet);
        match body {
            Body::Input(table) => return self.input(*table),
            Body::Fixed(Fixed::Factors) => {
                self.factors()?;
                self.sheet.set_freeze_panes(1, 1)?.set_repeat_rows(0, 0)?;
                return Ok(());
            }
            Body::Bid(block) => {
                self.bid(block)?;
                self.sheet.set_portrait();
                self.sheet.protect();
                return Ok(());
            }
            _ => {}
        }
        let name = self.layout.sheets[self.at].name;
        self.sheet.set_row_height(0, TITLE)?;
        self.sheet
            .write_with_format(0, 0, name, &self.styles.title)?;
        self.sheet
            .write_with_format(1, 0, about, &self.styles.about)?;
        match body {
            Body::Blocks(blocks, below) => {
                self.blocks(blocks)?;
                self.below(blocks, *below)?;
            }
            Body::Fixed(Fixed::Cautions) => self.cautions()?,
            Body::Fixed(Fixed::Checks) => {
                self.checks()?;
                self.sheet.set_freeze_panes(4, 1)?.set_repeat_rows(3, 3)?;
            }
            Body::Fixed(Fixed::Changes) => {
                self.changes(&changes::watched(self.estimate, self.layout))?;
                self.sheet.set_freeze_panes(4, 1)?.set_repeat_rows(3, 3)?;
            }
            Body::Fixed(Fixed::Sources) => self.sources()?,
            Body::Input(_) | Body::Fixed(Fixed::Factors) | Body::Bid(_) => {}
        }
        self.sheet.protect();
        Ok(())
    }

    fn input(&mut self, table: usize) -> Result<(), WriteError> {
        let data = &self.estimate.job.tables()[table];
        let units = (0..TABLES[table].columns.len())
            .map(|column| data.unit(column))
            .collect();
        let filled = Filled {
            table: &TABLES[table],
            units,
            data: Some(data),
            followed: self.followed(table),
        };
        let tables = self.estimate.job.tables();
        let rows_of = |name: &str| {
            let found = tables.iter().find(|data| data.table.name == name);
            found.map_or(0, |data| u32::try_from(data.rows).unwrap_or(0))
        };
        inputs::write(self.sheet, self.styles, &filled, &rows_of)?;
        print_wide(self.sheet, &TABLES[table])?;
        self.sheet.set_freeze_panes(1, 1)?.set_repeat_rows(0, 0)?;
        Ok(())
    }

    /// The cells of an input table that follow others.
    fn followed(&self, table: usize) -> Vec<Followed<'w>> {
        let graph = &self.estimate.graph;
        let columns = self.estimate.columns.inputs.by_name(TABLES[table].name);
        let mut all = Vec::new();
        for (column, id) in columns.iter().enumerate() {
            all.extend(graph.following(*id).map(|(row, source)| Followed {
                row,
                column,
                formula: reference::reference(graph, self.layout, self.at, source),
                value: self.value(id.at(row)),
            }));
        }
        if self.estimate.has_scenarios() && TABLES[table].name == JobKeys::NAME {
            all.push(Followed {
                row: 0,
                column: JobKeys::Scenario.index(),
                formula: self.layout.chosen_scenario(),
                value: self.value(graph.id(compared::NAME_IN_USE).at(0)),
            });
        }
        all
    }

    fn blocks(&mut self, blocks: &[Block]) -> Result<(), WriteError> {
        let mut widest: Vec<f64> = Vec::new();
        for block in blocks {
            for (at, width) in self.block(block)?.into_iter().enumerate() {
                match widest.get_mut(at) {
                    Some(widest) => *widest = widest.max(width),
                    None => widest.push(width),
                }
            }
        }
        for (column, width) in (0u16..).zip(widest) {
            self.sheet.set_column_width(column, width)?;
        }
        if let [only] = blocks
            && !only.upright
        {
            self.sheet.set_freeze_panes(only.heading + 2, 1)?;
            self.sheet.set_repeat_rows(only.heading, only.heading + 1)?;
        }
        Ok(())
    }

    /// What is drawn or said below the blocks of a page, or beside them.
    fn below(&mut self, blocks: &[Block], below: Below) -> Result<(), WriteError> {
        match below {
            Below::Nothing => Ok(()),
            Below::Sections => self.section_charts(),
            Below::Falls => self.fall_charts(),
            Below::Scenarios => self.scenarios_for_a_board(),
            Below::Defaults => self.swings(),
            Below::Balance => {
                let rows = blocks
                    .iter()
                    .map(|block| block.columns.len())
                    .sum::<usize>();
                self.balance_chart(u32::try_from(rows).unwrap_or(0) + 6)
            }
        }
    }
}

/// Paper, margins and footer of every sheet.
pub(super) fn page(sheet: &mut Worksheet) {
    sheet
        .set_landscape()
        .set_paper_size(1)
        .set_print_fit_to_pages(1, 0)
        .set_footer("&L&A&RPage &P of &N");
    sheet.set_margins(0.5, 0.5, 0.6, 0.6, 0.3, 0.3);
}

/// A table too wide for one page goes over several, with the names on each.
pub(super) fn print_wide(sheet: &mut Worksheet, table: &InputTable) -> Result<(), WriteError> {
    let pages = u16::try_from(table.columns.len().div_ceil(12)).unwrap_or(1);
    if pages > 1 && !table.upright {
        sheet
            .set_print_fit_to_pages(pages, 0)
            .set_repeat_columns(0, 0)?;
    }
    Ok(())
}

/// Headings of the sheet of factors.
pub(super) fn factor_headings(sheet: &mut Worksheet, styles: &Styles) -> Result<(), WriteError> {
    let headings = [
        ("Factor", 34.0),
        ("Default", 11.0),
        ("Unit", 18.0),
        ("Override", 11.0),
        ("Reason", 36.0),
        ("In use", 11.0),
        ("Standing", 18.0),
        ("Source", 90.0),
    ];
    for (column, (heading, width)) in (0u16..).zip(headings) {
        sheet.write_with_format(0, column, heading, &styles.heading)?;
        sheet.set_column_width(column, width)?;
    }
    Ok(())
}

/// One factor: its default, its override and reason if there are any, its source.
pub(super) fn factor_row(
    sheet: &mut Worksheet,
    styles: &mut Styles,
    factor: Factor,
    system: System,
    (value, reason): (Option<f64>, &str),
) -> Result<(), WriteError> {
    let row = super::layout::factor_row(factor);
    sheet.write_with_format(row, 0, factor.name(), styles.words(Role::Computed))?;
    let number = "#,##0.####".to_owned();
    sheet.write_number_with_format(
        row,
        1,
        factor.default(system),
        styles.pattern_format(number.clone(), Role::Computed),
    )?;
    let unit = factor.unit(system).to_string();
    sheet.write_with_format(row, 2, &*unit, styles.words(Role::Computed))?;
    let format = styles.pattern_format(number, Role::Input);
    match value {
        Some(value) => sheet.write_number_with_format(row, 3, value, format)?,
        None => sheet.write_blank(row, 3, format)?,
    };
    let format = styles.words(Role::Input);
    if reason.is_empty() {
        sheet.write_blank(row, 4, format)?
    } else {
        sheet.write_string_with_format(row, 4, reason, format)?
    };
    sheet.write_with_format(
        row,
        6,
        factor.source().standing.words(),
        styles.words(Role::Computed),
    )?;
    sheet.write_with_format(row, 7, factor.source().text, &styles.small)?;
    Ok(())
}
