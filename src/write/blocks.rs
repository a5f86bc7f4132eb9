//! Writes blocks: tables of computed columns, one formula down each column.

use super::block_columns::{CellsBy, ShownColumn};
use super::error::WriteError;
use super::headings::{sentence, unit_words};
use super::heights::{BOLD, LINE, PLAIN, SMALL, lines};
use super::line_sources;
use super::painter::{Painter, Value};
use super::sheets::{Block, DATA, Show, UPRIGHT};
use super::styles::Role;
use crate::graph::reference;
use crate::graph::{Cell, ColumnId, words};
use crate::place::cell_name;

impl Painter<'_> {
    /// Writes a block, with its heading, units, data and totals; gives the widths it wants.
    pub(super) fn block(&mut self, block: &Block) -> Result<Vec<f64>, WriteError> {
        if !block.title.is_empty() && block.heading > 0 {
            self.sheet.write_with_format(
                block.heading - 1,
                0,
                &*block.title,
                &self.styles.block,
            )?;
        }
        if block.upright {
            self.upright(block)
        } else {
            self.in_rows(block)
        }
    }

    fn upright(&mut self, block: &Block) -> Result<Vec<f64>, WriteError> {
        for (column, (heading, _)) in (0u16..).zip(UPRIGHT) {
            self.sheet
                .write_with_format(block.heading, column, heading, &self.styles.heading)?;
        }
        for (position, show) in (1u32..).zip(&block.columns) {
            let Show::Home(id) = show else { continue };
            let row = block.heading + position;
            let estimate = self.estimate;
            let info = estimate.graph.column(*id);
            self.sheet
                .write_with_format(row, 0, sentence(&info.name), &self.styles.wrapped)?;
            let shown = self.shown(show);
            self.cell(&shown, row, 1, 0, &mut String::new())?;
            self.sheet
                .write_with_format(row, 2, unit_words(info.unit), &self.styles.wrapped)?;
            let working = words::of_column(&estimate.graph, *id);
            let source = info.source.map_or("", |source| source.text);
            self.fit(
                row,
                &[(&working, UPRIGHT[3].1), (source, UPRIGHT[4].1)],
                SMALL,
            )?;
            self.sheet
                .write_with_format(row, 3, working, &self.styles.small)?;
            self.sheet
                .write_with_format(row, 4, source, &self.styles.small)?;
        }
        Ok(UPRIGHT.map(|(_, width)| width).to_vec())
    }

    /// A block as it stands on a page, without its title.
    pub(super) fn in_rows(&mut self, block: &Block) -> Result<Vec<f64>, WriteError> {
        for (column, show) in (0u16..).zip(&block.columns) {
            let (heading, unit, number) = self.heading(show);
            let [top, below] = if number {
                [&self.styles.heading_number, &self.styles.unit_number]
            } else {
                [&self.styles.heading, &self.styles.unit]
            };
            self.sheet
                .write_with_format(block.heading, column, heading, top)?;
            self.sheet
                .write_with_format(block.heading + 1, column, unit, below)?;
        }
        let columns: Vec<ShownColumn> = block.columns.iter().map(|show| self.shown(show)).collect();
        self.heading_height(block, &columns)?;
        let rows = u32::try_from(self.estimate.graph.table(block.table).rows).unwrap_or(u32::MAX);
        let mut text = String::new();
        for row in 0..rows {
            let at = block.heading + DATA + row;
            let mut lines = 1.0_f64;
            for (column, shown) in (0u16..).zip(&columns) {
                lines = lines.max(self.cell(shown, at, column, row, &mut text)?);
            }
            if lines > 1.0 {
                self.sheet.set_row_height(at, lines * LINE)?;
            }
        }
        self.totals(block, rows)?;
        Ok(columns.iter().map(|shown| shown.width).collect())
    }

    /// The headings of a block take as many lines as the longest needs.
    fn heading_height(&mut self, block: &Block, columns: &[ShownColumn]) -> Result<(), WriteError> {
        let most = block
            .columns
            .iter()
            .zip(columns)
            .map(|(show, shown)| lines(&self.heading(show).0, shown.width, BOLD))
            .fold(1.0, f64::max);
        if most > 1.0 {
            self.sheet.set_row_height(block.heading, most * LINE)?;
        }
        Ok(())
    }

    /// Writes one cell; gives how many lines its words take.
    fn cell(
        &mut self,
        shown: &ShownColumn,
        row: u32,
        column: u16,
        table_row: u32,
        text: &mut String,
    ) -> Result<f64, WriteError> {
        let at = |id: ColumnId| Cell {
            column: id,
            row: table_row as usize,
        };
        match &shown.maker {
            CellsBy::Formula(id, template) => {
                text.clear();
                template.splice(table_row, text);
                self.show(at(*id), row, column, text, shown)
            }
            CellsBy::Each(id) => {
                text.clear();
                let graph = &self.estimate.graph;
                if reference::push_gathered(graph, self.layout, *id, table_row as usize, text) {
                    self.show(at(*id), row, column, text, shown)
                } else {
                    self.fixed(at(*id), row, column, shown)
                }
            }
            CellsBy::Copy(id) => {
                text.clear();
                let graph = &self.estimate.graph;
                reference::push_reference(graph, self.layout, self.at, at(*id), text);
                self.show(at(*id), row, column, text, shown)
            }
            CellsBy::Brought(id) => match self.value(at(*id)) {
                Value::Words(_) => self.fixed(at(*id), row, column, shown),
                Value::Number(number) => {
                    self.show(at(*id), row, column, &reference::literal(number), shown)
                }
            },
            CellsBy::Working(workings) => {
                let words = self
                    .taken_off(table_row as usize)
                    .map_or("", |cell| &workings[&cell.column]);
                self.small(row, column, words, shown)
            }
            CellsBy::About(show) => {
                let words = self.about(*show, table_row as usize);
                self.small(row, column, &words, shown)
            }
        }
    }

    fn show(
        &mut self,
        cell: Cell,
        row: u32,
        column: u16,
        formula: &str,
        shown: &ShownColumn,
    ) -> Result<f64, WriteError> {
        let value = self.value(cell);
        self.formula(row, column, formula, value, &shown.format)?;
        Ok(match value {
            Value::Words(words) => lines(words, shown.width, PLAIN),
            Value::Number(_) => 1.0,
        })
    }

    /// Words that are not made of other cells; nothing where there are none.
    fn fixed(
        &mut self,
        cell: Cell,
        row: u32,
        column: u16,
        shown: &ShownColumn,
    ) -> Result<f64, WriteError> {
        let words = self.estimate.results.words(cell);
        if words.is_empty() {
            self.sheet.write_blank(row, column, &shown.format)?;
        } else {
            self.sheet
                .write_string_with_format(row, column, words, &shown.format)?;
        }
        Ok(lines(words, shown.width, PLAIN))
    }

    /// Small words, such as a working.
    fn small(
        &mut self,
        row: u32,
        column: u16,
        words: &str,
        shown: &ShownColumn,
    ) -> Result<f64, WriteError> {
        self.sheet
            .write_with_format(row, column, words, &shown.format)?;
        Ok(lines(words, shown.width, SMALL) * SMALL / PLAIN)
    }

    fn taken_off(&self, row: usize) -> Option<Cell> {
        line_sources::taken_off(self.estimate, row)
    }

    fn about(&self, show: Show, row: usize) -> String {
        line_sources::about(self.estimate, self.layout, show, row)
    }

    fn totals(&mut self, block: &Block, rows: u32) -> Result<(), WriteError> {
        if block.totals.is_empty() {
            return Ok(());
        }
        let (first, last) = (block.heading + DATA, block.heading + DATA + rows.max(1) - 1);
        let row = last + 1;
        for (column, show) in (0u16..).zip(&block.columns) {
            let shown = match show {
                Show::Home(id) | Show::Copy(id) if block.totals.contains(id) => *id,
                _ => {
                    let word = if column == 0 { "Total" } else { "" };
                    let format = self.styles.words(Role::Total);
                    self.sheet.write_with_format(row, column, word, format)?;
                    continue;
                }
            };
            let range = format!(
                "SUM({}:{})",
                cell_name(first, column.into()),
                cell_name(last, column.into())
            );
            let numbers = self.estimate.results.numbers(shown);
            let finite = numbers.iter().filter(|number| number.is_finite());
            let sum = finite.fold(0.0, |sum, number| sum + number); // of none: 0, not −0
            let format = self
                .styles
                .number(self.estimate.graph.column(shown), Role::Total)
                .clone();
            self.formula(row, column, &range, Value::Number(sum), &format)?;
        }
        Ok(())
    }
}
