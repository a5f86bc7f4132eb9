//! Where every column stands in the workbook. Decided here, after the rules.
//!
//! Each column has one home; elsewhere it is shown by reference. Which sheet a column
//! goes to is planned in `plan`; here its row and column are settled.

use super::plan;
use super::sheets::{Block, Body, DATA, Fixed, ROWS, SCENARIO, SheetPlan, Show};
use super::typed_cells;
use crate::estimate::Estimate;
use crate::graph::ColumnId;
use crate::graph::home::{Home, Layout};
use crate::graph::reference::{quoted, quoted_name};
use crate::job::tables::{CREW_ONLY, TABLES};
use crate::parameters::{DefaultOf, Factor, OverrideOf};
use crate::place::column_letters;

/// The whole workbook's layout.
#[derive(Clone, Debug)]
pub struct BookLayout {
    /// The sheets in order.
    pub sheets: Vec<SheetPlan>,
    names: Vec<String>,
    homes: Vec<Option<Home>>,
}

impl Layout for BookLayout {
    fn home(&self, column: ColumnId) -> Home {
        self.homes[column.0].unwrap_or(Home {
            sheet: 0,
            row: 0,
            column: 0,
        })
    }

    fn sheet(&self, sheet: usize) -> &str {
        &self.names[sheet]
    }
}

impl BookLayout {
    /// Lays an estimate out.
    #[must_use]
    pub fn new(estimate: &Estimate) -> Self {
        let sheets = plan::sheets(estimate);
        let names = sheets.iter().map(|sheet| quoted_name(sheet.name)).collect();
        let mut layout = Self {
            sheets,
            names,
            homes: vec![None; estimate.graph.columns().count()],
        };
        layout.settle(estimate);
        layout
    }

    /// The scenario that is chosen on the bid page, as a formula: the crew alone where the
    /// cell is cleared, which would be zero by itself.
    pub(super) fn chosen_scenario(&self) -> String {
        let bid = self.position(|body| matches!(body, Body::Bid(_)));
        let (row, column) = SCENARIO;
        let (column, row) = (column_letters(column.into()), row + 1);
        let cell = format!("{}!${column}${row}", self.sheet(bid));
        format!("IF({cell}=\"\",{},{cell})", quoted(CREW_ONLY))
    }

    /// Some rows of a column, as a formula on a sheet writes them.
    pub(super) fn range(&self, from: usize, column: ColumnId, rows: usize) -> String {
        let home = self.home(column);
        let rows = u32::try_from(rows).unwrap_or(0).max(1);
        let letters = column_letters(home.column);
        let sheet = if home.sheet == from {
            String::new()
        } else {
            format!("{}!", self.sheet(home.sheet))
        };
        format!(
            "{sheet}${letters}${}:${letters}${}",
            home.row + 1,
            home.row + rows
        )
    }

    /// Whether a column has a home: true of every column of a finished layout.
    #[must_use]
    pub fn has(&self, column: ColumnId) -> bool {
        self.homes[column.0].is_some()
    }

    /// The sheet on which an input table stands.
    #[must_use]
    pub fn input_sheet(&self, table: usize) -> usize {
        self.position(|body| matches!(body, Body::Input(at) if *at == table))
    }

    /// The sheet that a table which is not of the graph stands on, as formulas write it.
    pub(super) fn fixed(&self, table: Fixed) -> &str {
        self.sheet(self.position(|body| matches!(body, Body::Fixed(own) if *own == table)))
    }

    /// A column of the page of limits, as formulas of other pages write it.
    pub(super) fn of_checks(&self, estimate: &Estimate, letter: char) -> String {
        self.rows_of(Fixed::Checks, letter, estimate.graph.limits().count())
    }

    /// A column of the page of typed cells, as formulas of other pages write it.
    pub(super) fn of_typed(&self, estimate: &Estimate, letter: char) -> String {
        self.rows_of(Fixed::Typed, letter, typed_cells::checked(estimate).count())
    }

    fn rows_of(&self, table: Fixed, letter: char, rows: usize) -> String {
        let (first, last) = (ROWS + 1, ROWS + u32::try_from(rows).unwrap_or(0));
        format!("{}!${letter}${first}:${letter}${last}", self.fixed(table))
    }

    fn position(&self, is: impl Fn(&Body) -> bool) -> usize {
        let mut sheets = self.sheets.iter();
        sheets.position(|sheet| is(&sheet.body)).unwrap_or(0)
    }

    fn settle(&mut self, estimate: &Estimate) {
        for (sheet, plan) in self.sheets.iter().enumerate() {
            match &plan.body {
                Body::Input(table) => {
                    let columns = TABLES[*table].columns_in(&estimate.graph);
                    for (position, id) in (0u32..).zip(columns) {
                        let upright = TABLES[*table].upright;
                        let home = if upright {
                            Home {
                                sheet,
                                row: 1 + position,
                                column: 1,
                            }
                        } else {
                            Home {
                                sheet,
                                row: 1,
                                column: position,
                            }
                        };
                        self.homes[id.0] = Some(home);
                    }
                }
                Body::Fixed(Fixed::Factors) => {
                    let graph = &estimate.graph;
                    for (row, factor) in (1u32..).zip(Factor::ALL.iter().copied()) {
                        let default = graph.id(DefaultOf(factor));
                        let own = graph.id(OverrideOf(factor));
                        for (column, id) in [(1, default), (3, own), (5, graph.id(factor))] {
                            self.homes[id.0] = Some(Home { sheet, row, column });
                        }
                    }
                }
                Body::Blocks(blocks, _) => blocks
                    .iter()
                    .for_each(|block| settle_block(&mut self.homes, sheet, block)),
                Body::Bid(block) => settle_block(&mut self.homes, sheet, block),
                Body::Fixed(_) => {}
            }
        }
    }
}

fn settle_block(homes: &mut [Option<Home>], sheet: usize, block: &Block) {
    for (position, show) in (0u32..).zip(&block.columns) {
        let Show::Home(id) = show else { continue };
        homes[id.0] = Some(if block.upright {
            Home {
                sheet,
                row: block.heading + 1 + position,
                column: 1,
            }
        } else {
            Home {
                sheet,
                row: block.heading + DATA,
                column: position,
            }
        });
    }
}

/// The row of a factor on its sheet.
pub(super) fn factor_row(factor: Factor) -> u32 {
    1 + factor as u32
}
