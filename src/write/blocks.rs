//! Writes blocks: tables of computed columns, one formula down each column.

use rust_xlsxwriter::{Formula, Worksheet};

use super::layout::{Block, BookLayout, DATA, Show};
use super::stored::{self, Mistaken};
use super::styles::{Role, Styles};
use super::workbook::WriteError;
use crate::estimate::Estimate;
use crate::graph::formula::{self, Layout, Template};
use crate::graph::{Cell, ColumnId, ColumnInfo, Kind, words};
use crate::place::cell_name;
use crate::units::ONE;

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
}

/// How the cells of one column of a block are made.
enum Maker {
    /// One formula down the column, and whether it gives words.
    Formula(ColumnId, Template),
    /// A reference or fixed words, cell by cell.
    Each(ColumnId),
    /// A column shown by reference.
    Copy(ColumnId),
    /// Numbers or words that the program brings along.
    Brought(ColumnId),
    /// Words about where the line comes from.
    About(Show),
}

impl Painter<'_> {
    fn info(&self, column: ColumnId) -> &ColumnInfo {
        self.estimate.graph.column(column)
    }

    /// A formula with its stored result.
    pub(super) fn formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        value: &Value,
        look: &Look<'_>,
    ) -> Result<(), WriteError> {
        let format = match look {
            Look::Number(info, role) => self.styles.number(info, *role),
            Look::Words(role) => self.styles.words(*role),
            Look::Title => &self.styles.title,
        };
        let result = match value {
            Value::Number(number) => number.to_string(),
            Value::Words(words) => {
                if stored::is_mistaken(words) {
                    let words = words.clone();
                    self.mistaken.push(Mistaken {
                        sheet: self.at,
                        row,
                        column: column.into(),
                        words,
                    });
                }
                words.clone()
            }
        };
        let formula = Formula::new(formula).set_result(result);
        self.sheet
            .write_formula_with_format(row, column, formula, format)?;
        Ok(())
    }

    pub(super) fn value(&self, cell: Cell) -> Value {
        if self.info(cell.column).is_text() {
            Value::Words(self.estimate.results.words(cell).to_owned())
        } else {
            Value::Number(self.estimate.results.number(cell))
        }
    }

    /// Writes a block, with its heading, units, data and totals.
    pub(super) fn block(&mut self, block: &Block) -> Result<(), WriteError> {
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

    fn upright(&mut self, block: &Block) -> Result<(), WriteError> {
        for (column, heading) in
            (0u16..).zip(["Figure", "Value", "Unit", "How it is worked out", "Source"])
        {
            self.sheet
                .write_with_format(block.heading, column, heading, &self.styles.heading)?;
        }
        for (position, show) in (1u32..).zip(&block.columns) {
            let Show::Home(id) = show else { continue };
            let row = block.heading + position;
            let info = self.info(*id).clone();
            self.sheet
                .write_with_format(row, 0, &*sentence(&info.name), &self.styles.wrapped)?;
            let maker = self.maker(show);
            self.cell(&maker, row, 1, 0, &mut String::new())?;
            let unit = info.unit.to_string();
            self.sheet
                .write_with_format(row, 2, &*unit, &self.styles.wrapped)?;
            let working = words::of_column(&self.estimate.graph, *id);
            self.sheet
                .write_with_format(row, 3, &*working, &self.styles.small)?;
            let source = info.source.map_or("", |source| source.text);
            self.sheet
                .write_with_format(row, 4, source, &self.styles.small)?;
        }
        Ok(())
    }

    fn in_rows(&mut self, block: &Block) -> Result<(), WriteError> {
        for (column, show) in (0u16..).zip(&block.columns) {
            let (heading, unit) = self.heading(show);
            self.sheet
                .write_with_format(block.heading, column, heading, &self.styles.heading)?;
            self.sheet
                .write_with_format(block.heading + 1, column, unit, &self.styles.unit)?;
        }
        let makers: Vec<Maker> = block.columns.iter().map(|show| self.maker(show)).collect();
        let rows = self.estimate.graph.table(block.table).rows;
        let mut text = String::new();
        for row in 0..u32::try_from(rows).unwrap_or(u32::MAX) {
            for (column, maker) in (0u16..).zip(&makers) {
                self.cell(maker, block.heading + DATA + row, column, row, &mut text)?;
            }
        }
        self.totals(block, u32::try_from(rows).unwrap_or(u32::MAX))
    }

    /// The heading and unit above a column.
    fn heading(&self, show: &Show) -> (String, String) {
        match show {
            Show::Home(id) | Show::Copy(id) => {
                let info = self.info(*id);
                let unit = if info.unit == ONE {
                    String::new()
                } else {
                    info.unit.to_string()
                };
                (sentence(&info.name), unit)
            }
            Show::Working => ("How it is worked out".to_owned(), String::new()),
            Show::Source => ("Source".to_owned(), String::new()),
            Show::From => ("From".to_owned(), String::new()),
        }
    }

    fn maker(&self, show: &Show) -> Maker {
        match show {
            Show::Home(id) => match formula::template(&self.estimate.graph, self.layout, *id) {
                Some(template) => Maker::Formula(*id, template),
                None if self.info(*id).is_computed() => Maker::Each(*id),
                None => Maker::Brought(*id),
            },
            Show::Copy(id) => Maker::Copy(*id),
            about => Maker::About(*about),
        }
    }

    fn cell(
        &mut self,
        maker: &Maker,
        row: u32,
        column: u16,
        table_row: u32,
        text: &mut String,
    ) -> Result<(), WriteError> {
        let at = |id: ColumnId| Cell {
            column: id,
            row: table_row as usize,
        };
        match maker {
            Maker::Formula(id, template) => {
                text.clear();
                template.splice(table_row, text);
                self.show(at(*id), row, column, text)
            }
            Maker::Each(id) => {
                match formula::gathered(&self.estimate.graph, self.layout, *id, table_row as usize)
                {
                    Some(formula) => self.show(at(*id), row, column, &formula),
                    None => self.fixed(at(*id), row, column),
                }
            }
            Maker::Copy(id) => {
                let formula =
                    formula::reference(&self.estimate.graph, self.layout, self.at, at(*id));
                self.show(at(*id), row, column, &formula)
            }
            Maker::Brought(id) => {
                let cell = at(*id);
                match self.value(cell) {
                    Value::Words(_) => self.fixed(cell, row, column),
                    Value::Number(number) => {
                        self.show(cell, row, column, &formula::literal(number))
                    }
                }
            }
            Maker::About(show) => {
                let words = self.about(*show, table_row as usize);
                self.sheet
                    .write_with_format(row, column, words, &self.styles.small)?;
                Ok(())
            }
        }
    }

    fn show(&mut self, cell: Cell, row: u32, column: u16, formula: &str) -> Result<(), WriteError> {
        let estimate = self.estimate;
        let info = estimate.graph.column(cell.column);
        let value = self.value(cell);
        let look = if info.is_text() {
            Look::Words(Role::Computed)
        } else {
            Look::Number(info, Role::Computed)
        };
        self.formula(row, column, formula, &value, &look)
    }

    /// Words that are not made of other cells; nothing where there are none.
    fn fixed(&mut self, cell: Cell, row: u32, column: u16) -> Result<(), WriteError> {
        let words = self.estimate.results.words(cell).to_owned();
        let format = self.styles.words(Role::Computed);
        if words.is_empty() {
            self.sheet.write_blank(row, column, format)?;
        } else {
            self.sheet
                .write_string_with_format(row, column, words, format)?;
        }
        Ok(())
    }

    fn about(&self, show: Show, row: usize) -> String {
        let graph = &self.estimate.graph;
        let taken_off = self.estimate.columns.lines.taken_off.id;
        let Kind::Gathered(cells) = &graph.column(taken_off).kind else {
            return String::new();
        };
        let Some(cell) = cells.get(row).copied().flatten() else {
            return String::new();
        };
        match show {
            Show::Working => words::of_column(graph, cell.column),
            Show::Source => graph
                .column(cell.column)
                .source
                .map_or(String::new(), |source| source.text.to_owned()),
            _ => {
                let home = self.layout.home(cell.column);
                let row = home.row + u32::try_from(cell.row).unwrap_or(0);
                format!(
                    "{}, {}",
                    self.layout.sheets[home.sheet].name,
                    cell_name(row, home.column)
                )
            }
        }
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
            let sum: f64 = numbers.iter().filter(|number| number.is_finite()).sum();
            let estimate = self.estimate;
            let info = estimate.graph.column(shown);
            self.formula(
                row,
                column,
                &range,
                &Value::Number(sum),
                &Look::Number(info, Role::Total),
            )?;
        }
        Ok(())
    }
}

/// The stored result of a formula.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value {
    Number(f64),
    Words(String),
}

/// The look of a computed cell.
pub(super) enum Look<'i> {
    Number(&'i ColumnInfo, Role),
    Words(Role),
    Title,
}

/// A column's name as a heading: with a capital letter.
pub(super) fn sentence(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}
