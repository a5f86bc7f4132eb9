//! Where every column stands in the workbook. Decided here, after the rules.
//!
//! Each column has one home; elsewhere it is shown by reference. Columns that no page
//! asks for go to the working sheet of their table, at most [`WIDEST`] side by side.

use crate::estimate::Estimate;
use crate::graph::formula::{Home, Layout};
use crate::graph::{ColumnId, Graph, Kind, TableId};
use crate::job::tables::TABLES;
use crate::parameters::Factor;

/// Most columns side by side, so that a page fits the width of paper.
const WIDEST: usize = 11;

/// What one column of a block shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Show {
    /// A column that lives here.
    Home(ColumnId),
    /// A column that lives elsewhere, by reference.
    Copy(ColumnId),
    /// The rule of the line's quantity, in words.
    Working,
    /// Where that rule is published.
    Source,
    /// The cell that the line's quantity comes from.
    From,
}

/// A table, or part of one, on a sheet.
#[derive(Clone, Debug)]
pub struct Block {
    /// The table.
    pub table: TableId,
    /// What stands above it.
    pub title: String,
    /// Row of the headings, from zero; units stand below it, data below them. In an
    /// upright block, the row above the first figure.
    pub heading: u32,
    /// Its columns, or its rows where it stands upright.
    pub columns: Vec<Show>,
    /// Whether the table's one row stands upright: name, value, unit, working, source.
    pub upright: bool,
    /// Columns whose totals stand below.
    pub totals: Vec<ColumnId>,
}

/// What a sheet holds.
#[derive(Clone, Debug)]
pub enum Body {
    /// An input table, by its position in [`TABLES`].
    Input(usize),
    /// The factors.
    Factors,
    /// Blocks, one below the other.
    Blocks(Vec<Block>),
    /// The bid page: the block of sections, and fixed cells around it.
    Bid(Block),
    /// Cautions.
    Cautions,
    /// Every limit.
    Checks,
    /// What is watched.
    Changes,
    /// Sources.
    Sources,
}

/// One sheet.
#[derive(Clone, Debug)]
pub struct SheetPlan {
    /// Its name.
    pub name: &'static str,
    /// One line below the title.
    pub about: &'static str,
    /// What it holds.
    pub body: Body,
}

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

/// The first row of data below a block's headings and units.
pub(super) const DATA: u32 = 2;
/// The row of the first block's headings: title, description, blank above it.
const FIRST: u32 = 3;
/// The row of the headings of the sections on the bid page.
const BID_SECTIONS: u32 = 17;

impl BookLayout {
    /// Lays an estimate out.
    #[must_use]
    pub fn new(estimate: &Estimate) -> Self {
        let mut plan = Planner {
            estimate,
            taken: vec![false; estimate.graph.columns().count()],
        };
        let sheets = plan.sheets();
        let names = sheets.iter().map(|sheet| quoted_name(sheet.name)).collect();
        let mut layout = Self {
            sheets,
            names,
            homes: vec![None; plan.taken.len()],
        };
        layout.settle(estimate);
        layout
    }

    /// Whether a column has a home: true of every column of a finished layout.
    #[must_use]
    pub fn has(&self, column: ColumnId) -> bool {
        self.homes[column.0].is_some()
    }

    /// The sheet on which an input table stands.
    #[must_use]
    pub fn input_sheet(&self, table: usize) -> usize {
        self.sheets
            .iter()
            .position(|sheet| matches!(sheet.body, Body::Input(at) if at == table))
            .unwrap_or(0)
    }

    fn settle(&mut self, estimate: &Estimate) {
        for (sheet, plan) in self.sheets.iter().enumerate() {
            match &plan.body {
                Body::Input(table) => {
                    let columns = estimate.columns.inputs.by_name(TABLES[*table].name);
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
                Body::Factors => {
                    for (row, (default, own, in_use)) in
                        (1u32..).zip(&estimate.columns.inputs.factors.rows)
                    {
                        for (column, id) in [(1, default.id), (3, own.id), (5, in_use.id)] {
                            self.homes[id.0] = Some(Home { sheet, row, column });
                        }
                    }
                }
                Body::Blocks(blocks) => blocks
                    .iter()
                    .for_each(|block| settle_block(&mut self.homes, sheet, block)),
                Body::Bid(block) => settle_block(&mut self.homes, sheet, block),
                Body::Cautions | Body::Checks | Body::Changes | Body::Sources => {}
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

/// A sheet's name as formulas write it.
fn quoted_name(name: &str) -> String {
    if name.chars().all(char::is_alphanumeric) {
        name.to_owned()
    } else {
        format!("'{}'", name.replace('\'', "''"))
    }
}

struct Planner<'e> {
    estimate: &'e Estimate,
    taken: Vec<bool>,
}

impl Planner<'_> {
    fn graph(&self) -> &Graph {
        &self.estimate.graph
    }

    fn table(&self, name: &str) -> Option<TableId> {
        self.graph()
            .tables()
            .find(|id| self.graph().table(*id).name == name)
    }

    fn homes(&mut self, columns: &[ColumnId]) -> Vec<Show> {
        let show = |id: &ColumnId| {
            self.taken[id.0] = true;
            Show::Home(*id)
        };
        columns.iter().map(show).collect()
    }

    /// Blocks for all columns of a table that are computed and have no home yet.
    fn rest(&mut self, table: &str, blocks: &mut Vec<Block>) {
        let Some(table) = self.table(table) else {
            return;
        };
        let computed = |id: &ColumnId| {
            let column = self.graph().column(*id);
            let own_words = matches!(column.kind, Kind::Words { .. })
                && !TABLES
                    .iter()
                    .any(|known| known.name == self.graph().table(table).name);
            let own_numbers = matches!(column.kind, Kind::Given(_) | Kind::Surveyed(..))
                && self.graph().table(table).name != "Factors";
            (column.is_computed() || own_words || own_numbers) && !self.taken[id.0]
        };
        let all: Vec<ColumnId> = self.graph().columns_of(table).filter(computed).collect();
        let (checks, steps): (Vec<ColumnId>, Vec<ColumnId>) = all
            .into_iter()
            .partition(|id| matches!(self.graph().column(*id).kind, Kind::Limit(..)));
        let name = self.graph().table(table).name;
        for (what, columns) in [("working", steps), ("checks", checks)] {
            for (part, chunk) in columns.chunks(WIDEST).enumerate() {
                let title = if part == 0 {
                    format!("{name}: {what}")
                } else {
                    format!("{name}: {what}, continued")
                };
                let mut shown = self.label_copy(table, chunk);
                shown.extend(self.homes(chunk));
                self.place(
                    blocks,
                    Block {
                        table,
                        title,
                        heading: 0,
                        columns: shown,
                        upright: false,
                        totals: Vec::new(),
                    },
                );
            }
        }
    }

    /// The column that names a row, by reference, unless it is among those shown.
    fn label_copy(&self, table: TableId, shown: &[ColumnId]) -> Vec<Show> {
        let label = self
            .graph()
            .table(table)
            .label
            .filter(|label| !shown.contains(label));
        label.map(Show::Copy).into_iter().collect()
    }

    fn upright(&mut self, table: &str, blocks: &mut Vec<Block>) {
        let Some(table) = self.table(table) else {
            return;
        };
        let columns: Vec<ColumnId> = self
            .graph()
            .columns_of(table)
            .filter(|id| self.graph().column(*id).is_computed() && !self.taken[id.0])
            .collect();
        let title = format!("{}: figures of the job", self.graph().table(table).name);
        let columns = self.homes(&columns);
        self.place(
            blocks,
            Block {
                table,
                title,
                heading: 0,
                columns,
                upright: true,
                totals: Vec::new(),
            },
        );
    }

    /// Puts a block below those already there.
    fn place(&self, blocks: &mut Vec<Block>, mut block: Block) {
        block.heading = blocks.last().map_or(FIRST, |last| self.end_of(last) + 3);
        blocks.push(block);
    }

    /// The last row that a block uses.
    fn end_of(&self, block: &Block) -> u32 {
        let rows = u32::try_from(self.graph().table(block.table).rows)
            .unwrap_or(u32::MAX)
            .max(1);
        let upright = u32::try_from(block.columns.len()).unwrap_or(u32::MAX);
        if block.upright {
            block.heading + upright
        } else {
            block.heading + DATA + rows - 1 + u32::from(!block.totals.is_empty())
        }
    }

    fn sheets(&mut self) -> Vec<SheetPlan> {
        let bid = self.bid();
        let front = vec![
            SheetPlan {
                name: "Bid",
                about: "",
                body: Body::Bid(bid),
            },
            self.schedule(),
            self.take_off(),
            self.cost(),
            self.summary(),
            self.earthwork(),
            self.sections(),
            self.hours(),
            self.orders(),
            SheetPlan {
                name: "Cautions",
                about: "Work that can hurt people. Quantities here are estimates for bidding, not a design.",
                body: Body::Cautions,
            },
        ];
        let inputs = (0..TABLES.len()).map(|at| SheetPlan {
            name: TABLES[at].name,
            about: TABLES[at].guidance,
            body: Body::Input(at),
        });
        let mut sheets: Vec<SheetPlan> = front.into_iter().chain(inputs).collect();
        sheets.push(SheetPlan {
            name: "Factors",
            about: "",
            body: Body::Factors,
        });
        sheets.push(self.working("Basins working", "Each basin, step by step.", &["Basins"]));
        sheets.push(self.working("Shelves working", "Each step of a profile.", &["Shelves"]));
        sheets.push(self.working("Items working", "Each other item.", &["Other items"]));
        sheets.push(self.working(
            "Lines working",
            "How each line finds its unit, material and work.",
            &["Lines"],
        ));
        sheets.push(self.working(
            "Price book",
            "What hours and materials cost and yield, from the job's tables.",
            &[
                "Job",
                "Crews",
                "Equipment",
                "Production rates",
                "Materials",
                "Mark-ups",
                "Set quantities",
            ],
        ));
        sheets.push(self.working(
            "Small tables",
            "Soils, shapes, units and kinds of earthwork.",
            &["Soils", "Shapes", "Earthworks", "Sections", "Units"],
        ));
        sheets.push(SheetPlan { name: "Checks", about: "Every limit: how many rows break it. A fault must be mended; an open point leaves the bid a draft.", body: Body::Checks });
        sheets.push(SheetPlan { name: "Changes", about: "What an edit in this workbook cannot follow: when a line here says changed, run groundsheet on this file again.", body: Body::Changes });
        sheets.push(SheetPlan {
            name: "Sources",
            about: "Where rules and defaults are published, or what they rest on.",
            body: Body::Sources,
        });
        sheets
    }

    fn bid(&mut self) -> Block {
        let priced = &self.estimate.columns.priced;
        let columns = [priced.section.id, priced.section_amount.id];
        let table = self.graph().column(columns[0]).table;
        let columns = self.homes(&columns);
        Block {
            table,
            title: String::new(),
            heading: BID_SECTIONS,
            columns,
            upright: false,
            totals: vec![priced.section_amount.id],
        }
    }

    fn single(&self, name: &'static str, about: &'static str, block: Block) -> SheetPlan {
        let mut blocks = Vec::new();
        self.place(&mut blocks, block);
        SheetPlan {
            name,
            about,
            body: Body::Blocks(blocks),
        }
    }

    fn schedule(&mut self) -> SheetPlan {
        let (lines, priced) = (&self.estimate.columns.lines, &self.estimate.columns.priced);
        let (price, amount) = (priced.unit_price.id, priced.amount.id);
        let mut columns: Vec<Show> = [
            lines.section.id,
            lines.name.id,
            lines.description.id,
            lines.quantity.id,
            lines.unit.id,
        ]
        .map(Show::Copy)
        .to_vec();
        let table = self.graph().column(lines.name.id).table;
        columns.extend(self.homes(&[price, amount]));
        let block = Block {
            table,
            title: "Bid schedule".to_owned(),
            heading: 0,
            columns,
            upright: false,
            totals: vec![amount],
        };
        self.single(
            "Bid schedule",
            "Every line with its price, mark-ups included.",
            block,
        )
    }

    fn take_off(&mut self) -> SheetPlan {
        let lines = &self.estimate.columns.lines;
        let own = [
            lines.name.id,
            lines.section.id,
            lines.description.id,
            lines.taken_off.id,
            lines.quantity.id,
            lines.unit.id,
            lines.reason.id,
        ];
        let table = self.graph().column(lines.name.id).table;
        let mut columns = self.homes(&own);
        columns.extend([Show::Working, Show::Source, Show::From]);
        let block = Block {
            table,
            title: "Take-off".to_owned(),
            heading: 0,
            columns,
            upright: false,
            totals: Vec::new(),
        };
        self.single(
            "Take-off",
            "Every quantity, how it was worked out, and where.",
            block,
        )
    }

    fn cost(&mut self) -> SheetPlan {
        let lines = &self.estimate.columns.lines;
        let money = [
            lines.material_cost.id,
            lines.labor_cost.id,
            lines.equipment_cost.id,
            lines.subcontract_cost.id,
            lines.direct.id,
        ];
        let own = [
            lines.material_name.id,
            lines.bought.id,
            money[0],
            lines.work_name.id,
            lines.crew_hours.id,
            money[1],
            lines.machine_hours.id,
            money[2],
            money[3],
            money[4],
        ];
        let table = self.graph().column(lines.name.id).table;
        let mut columns = vec![
            Show::Copy(lines.name.id),
            Show::Copy(lines.quantity.id),
            Show::Copy(lines.unit.id),
        ];
        columns.extend(self.homes(&own));
        let totals = [lines.crew_hours.id, lines.machine_hours.id]
            .into_iter()
            .chain(money)
            .collect();
        let block = Block {
            table,
            title: "Direct cost".to_owned(),
            heading: 0,
            columns,
            upright: false,
            totals,
        };
        self.single("Cost", "What each line costs before mark-ups.", block)
    }

    fn summary(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns;
        let (inputs, priced) = (&columns.inputs.mark_ups, &columns.priced);
        let own = [priced.mark_ups.base.id, priced.mark_ups.amount.id];
        let table = self.graph().column(own[0]).table;
        let mut shown: Vec<Show> = inputs.columns[..3]
            .iter()
            .copied()
            .map(Show::Copy)
            .collect();
        shown.extend(self.homes(&own));
        let mut blocks = Vec::new();
        self.upright("Bid", &mut blocks);
        let block = Block {
            table,
            title: "Mark-ups".to_owned(),
            heading: 0,
            columns: shown,
            upright: false,
            totals: vec![own[1]],
        };
        self.place(&mut blocks, block);
        SheetPlan {
            name: "Summary",
            about: "From direct cost to the bid.",
            body: Body::Blocks(blocks),
        }
    }

    fn earthwork(&mut self) -> SheetPlan {
        let mut blocks = Vec::new();
        self.upright("Earthwork", &mut blocks);
        SheetPlan {
            name: "Earthwork",
            about: "What is dug, filled, brought in and taken away.",
            body: Body::Blocks(blocks),
        }
    }

    fn sections(&mut self) -> SheetPlan {
        let points = &self.estimate.columns.points;
        let own = [
            points.basin.id,
            points.across.id,
            points.finished.id,
            points.dug.id,
            points.water.id,
        ];
        let table = self.graph().column(own[0]).table;
        let columns = self.homes(&own);
        let block = Block {
            table,
            title: "Points of the sections".to_owned(),
            heading: 0,
            columns,
            upright: false,
            totals: Vec::new(),
        };
        self.single(
            "Sections",
            "Cross-section of each basin, across its width, seen along its length.",
            block,
        )
    }

    fn hours(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns;
        let (hours, inputs) = (&columns.priced.hours, &columns.inputs);
        let kinds = [
            (
                "Hours by work",
                inputs.works.columns[0],
                vec![inputs.works.columns[2], inputs.works.columns[4]],
                vec![hours.work_crew.id, hours.work_machine.id],
            ),
            (
                "Hours by crew",
                inputs.crews.columns[0],
                Vec::new(),
                vec![hours.crews.id],
            ),
            (
                "Hours by machine",
                inputs.equipment.columns[0],
                Vec::new(),
                vec![hours.machines.id],
            ),
        ];
        let mut blocks = Vec::new();
        for (title, label, copies, own) in kinds {
            let table = self.graph().column(label).table;
            let mut shown = vec![Show::Copy(label)];
            shown.extend(copies.into_iter().map(Show::Copy));
            let totals = own.clone();
            shown.extend(self.homes(&own));
            self.place(
                &mut blocks,
                Block {
                    table,
                    title: title.to_owned(),
                    heading: 0,
                    columns: shown,
                    upright: false,
                    totals,
                },
            );
        }
        SheetPlan {
            name: "Hours",
            about: "Machine and crew hours, from quantities and outputs.",
            body: Body::Blocks(blocks),
        }
    }

    fn orders(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns;
        let (orders, inputs) = (&columns.priced.orders, &columns.inputs.materials);
        let own = [
            orders.needed.id,
            orders.ordered.id,
            orders.cost.id,
            orders.beyond.id,
        ];
        let price = columns.production.material_price.id;
        let copied = |field: usize| Show::Copy(inputs.columns[field]);
        let table = self.graph().column(own[0]).table;
        let mut shown = vec![copied(0), copied(8), copied(1)];
        shown.extend(self.homes(&own[..2]));
        shown.push(Show::Copy(price));
        shown.extend(self.homes(&own[2..]));
        shown.extend([copied(9), copied(10)]);
        let block = Block {
            table,
            title: "Order list".to_owned(),
            heading: 0,
            columns: shown,
            upright: false,
            totals: own[2..].to_vec(),
        };
        self.single(
            "Order list",
            "What to order: whole sale units, and minimum orders.",
            block,
        )
    }

    fn working(&mut self, name: &'static str, about: &'static str, tables: &[&str]) -> SheetPlan {
        let mut blocks = Vec::new();
        for table in tables {
            self.rest(table, &mut blocks);
        }
        SheetPlan {
            name,
            about,
            body: Body::Blocks(blocks),
        }
    }
}

/// The row of a factor on its sheet.
pub(super) fn factor_row(factor: Factor) -> u32 {
    1 + factor as u32
}
