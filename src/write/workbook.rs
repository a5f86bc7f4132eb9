//! The priced workbook: every sheet of the layout, with formulas and stored results.
//!
//! Always true: the workbook is a job file (its input sheets read back to the same
//! job), holds no path, no file name and no time of day, and is the same bytes each time.

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Formula, Workbook, Worksheet};

use super::error::WriteError;
use super::fingerprint::{self, Covers};
use super::fixed_tables;
use super::heights::TITLE;
use super::inputs::{self, Filled, Followed};
use super::layout::BookLayout;
use super::painter::Painter;
use super::sheets::{Below, Block, Body, FIRST, Fixed, ROWS, SheetPlan};
use super::stored;
use super::styles::{Role, Styles};
use crate::bid;
use crate::estimate::Estimate;
use crate::graph::Table;
use crate::graph::home::Layout;
use crate::graph::reference;
use crate::job::Fields;
use crate::job::InputTable;
use crate::job::tables::{JobKeys, TABLES};
use crate::labour::compared;
use crate::place::column_letters;

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
    let names = layout.sheets.iter().map(|plan| plan.name);
    let mut book = new_book(Covers::Typed, names)?;
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
        painter.write(plan)?;
    }
    let run_again = format!("={}!$B$3", layout.fixed(Fixed::Changes));
    book.define_name("run_again", &run_again)?;
    let bid = layout.home(estimate.graph.id(bid::TOTAL));
    let bid = format!(
        "={}!${}${}",
        layout.sheet(bid.sheet),
        column_letters(bid.column),
        bid.row + 1
    );
    book.define_name("bid_total", &bid)?;
    let bytes = stored::as_words(book.save_to_buffer()?, mistaken)?;
    fingerprint::sealed(bytes)
}

/// A workbook that will have these sheets, and say of them whether they were edited since.
pub(super) fn new_book<'s>(
    covers: Covers,
    sheets: impl IntoIterator<Item = &'s str>,
) -> Result<Workbook, WriteError> {
    let mut book = Workbook::new();
    // One fixed day: the same job gives the same bytes.
    let properties =
        DocProperties::new().set_creation_datetime(&ExcelDateTime::from_ymd(2000, 1, 1)?);
    book.set_properties(&fingerprint::unsealed(properties, covers, sheets));
    Ok(book)
}

impl<'w> Painter<'w> {
    fn write(&mut self, plan: &SheetPlan) -> Result<(), WriteError> {
        page(self.sheet);
        match &plan.body {
            Body::Input(table) => return self.input(*table),
            Body::Fixed(Fixed::Factors) => return self.fixed_table(Fixed::Factors),
            Body::Bid(block) => {
                self.bid(block)?;
                self.sheet.set_portrait();
            }
            Body::Blocks(blocks, below) => {
                self.title(plan)?;
                self.blocks(blocks)?;
                self.below(blocks, *below)?;
            }
            Body::Fixed(table) => {
                self.title(plan)?;
                self.fixed_table(*table)?;
            }
        }
        self.sheet.protect();
        Ok(())
    }

    fn title(&mut self, plan: &SheetPlan) -> Result<(), WriteError> {
        self.sheet.set_row_height(0, TITLE)?;
        self.sheet
            .write_with_format(0, 0, plan.name, &self.styles.title)?;
        self.sheet
            .write_with_format(1, 0, plan.about, &self.styles.about)?;
        Ok(())
    }

    /// A table that is not of the graph, on a page of its own.
    fn fixed_table(&mut self, which: Fixed) -> Result<(), WriteError> {
        let table = fixed_tables::table(self.estimate, self.layout, self.at, which);
        let headings = match which {
            Fixed::Factors => 0,
            Fixed::Checks | Fixed::Typed | Fixed::Changes => ROWS - 1,
            // Their pages say what they are.
            Fixed::Cautions | Fixed::Sources | Fixed::Defaults => {
                for (at, column) in (0u16..).zip(table.form.columns) {
                    self.sheet.set_column_width(at, column.width)?;
                }
                return self.rows(FIRST, &table);
            }
        };
        if which == Fixed::Changes {
            self.first_change(table.rows.len())?;
        }
        fixed_tables::headings((self.sheet, self.styles), headings, table.form, false)?;
        self.rows(headings + 1, &table)?;
        self.sheet
            .set_freeze_panes(headings + 1, 1)?
            .set_repeat_rows(headings, headings)?;
        Ok(())
    }

    /// What has changed first, and whether anything has: the name `run_again` is that cell.
    fn first_change(&mut self, watched: usize) -> Result<(), WriteError> {
        let first = ROWS + 1;
        let last = ROWS + u32::try_from(watched).unwrap_or(u32::MAX);
        self.text(1, 0, "First change", Role::Computed)?;
        let named = format!(
            "IFERROR(INDEX($A${first}:$A${last},MATCH(1,$D${first}:$D${last},0))&\"\",\"\")"
        );
        self.word_formula(1, 1, &named, "")?;
        self.text(2, 0, "Run again", Role::Computed)?;
        let any =
            Formula::new(format!("IFERROR(SUM($D${first}:$D${last})>0,TRUE)")).set_result("FALSE");
        self.sheet
            .write_formula_with_format(2, 1, any, self.styles.words(Role::Computed))?;
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
            system: self.estimate.job.system(),
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
        let columns = TABLES[table].columns_in(graph);
        let mut all = Vec::new();
        for (column, id) in columns.iter().enumerate() {
            all.extend(graph.following(*id).map(|(row, source)| Followed {
                row,
                column,
                formula: reference::following(graph, self.layout, self.at, source),
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
