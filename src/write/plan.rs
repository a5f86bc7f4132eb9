//! Which column stands on which sheet: the pages people read, and working sheets for
//! all the rest.
//!
//! Always true: every computed column is given a home once; a column that no page asks
//! for stands on the working sheet of its table, at most [`WIDEST`] side by side.

use super::sheets::{Block, Body, DATA, FIRST, SheetPlan, Show};
use crate::estimate::Estimate;
use crate::graph::{ColumnId, Graph, Kind, Table, TableId};
use crate::job::tables::TABLES;
use crate::tables::Factors;

/// Most columns side by side, so that a page fits the width of paper.
const WIDEST: usize = 11;

/// Sheets that show every step: name, what it is, tables.
const WORKING: [(&str, &str, &[&str]); 11] = [
    ("Basins working", "Each basin, step by step.", &["Basins"]),
    ("Shelves working", "Each step of a profile.", &["Shelves"]),
    (
        "Structures working",
        "Each structure, lift and cut beside the basins' own.",
        &["Structures", "Lifts", "Lift steps", "Lift chart", "Cuts"],
    ),
    (
        "Lining working",
        "Each layer of liner and fabric.",
        &["Liner and fabric"],
    ),
    (
        "Stone working",
        "Each fall and each course of stone.",
        &["Waterfalls and streams", "Courses", "Rocks"],
    ),
    (
        "Planting working",
        "Each bed, log, planting and part of a rim.",
        &["Gravel and loose stone", "Timber", "Planting", "Edges"],
    ),
    ("Items working", "Each other item.", &["Other items"]),
    (
        "Lines working",
        "How each line finds its unit, material and work.",
        &["Lines"],
    ),
    (
        "Scenarios working",
        "Who does what, step by step.",
        &[
            "Partners",
            "Shared work",
            "Tasks",
            "Partners by scenario",
            "Materials brought",
            "Orders by scenario",
            "Mark-ups by scenario",
            "Scenarios compared",
            "If they do not turn up",
        ],
    ),
    (
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
            "Client items",
        ],
    ),
    (
        "Small tables",
        "Soils, shapes, units and kinds of earthwork.",
        &["Soils", "Shapes", "Earthworks", "Bid sections", "Units"],
    ),
];

const CAUTIONS: &str =
    "Work that can hurt people. Quantities here are estimates for bidding, not a design.";
const CHECKS: &str = "Every limit: how many rows break it. A fault must be mended; an open point leaves the bid a draft.";
const CHANGES: &str = "What an edit in this workbook cannot follow: when a line here says changed, run groundsheet on this file again.";
const SOURCES: &str = "Where rules and defaults are published, or what they rest on.";

fn page(name: &'static str, about: &'static str, body: Body) -> SheetPlan {
    SheetPlan { name, about, body }
}

/// Whether a sheet is one of those that show every step.
pub(super) fn is_working(sheet: &str) -> bool {
    WORKING.iter().any(|(name, ..)| *name == sheet)
}

/// The sheets of an estimate's workbook, in order.
pub(super) fn sheets(estimate: &Estimate) -> Vec<SheetPlan> {
    let taken = vec![false; estimate.graph.columns().count()];
    Planner { estimate, taken }.sheets()
}

/// Gives columns their sheets, one after the other.
pub(super) struct Planner<'e> {
    pub(super) estimate: &'e Estimate,
    taken: Vec<bool>,
}

impl Planner<'_> {
    pub(super) fn graph(&self) -> &Graph {
        &self.estimate.graph
    }

    fn table(&self, name: &str) -> Option<TableId> {
        self.graph()
            .tables()
            .find(|id| self.graph().table(*id).name == name)
    }

    /// Whether a column has a home already.
    pub(super) fn is_taken(&self, id: ColumnId) -> bool {
        self.taken[id.0]
    }

    pub(super) fn homes(&mut self, columns: &[ColumnId]) -> Vec<Show> {
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
            let own_numbers = matches!(column.kind, Kind::Given(_) | Kind::Solved(_))
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

    pub(super) fn upright(&mut self, table: &str, blocks: &mut Vec<Block>) {
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
    pub(super) fn place(&self, blocks: &mut Vec<Block>, mut block: Block) {
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
        let bid = Body::Bid(self.bid());
        let mut sheets = vec![
            page("Bid", "", bid),
            self.schedule(),
            self.take_off(),
            self.cost(),
            self.summary(),
            self.mark_ups(),
        ];
        sheets.extend(self.scenarios());
        sheets.extend([
            self.certainty(),
            self.earthwork(),
            self.sections(),
            self.dig_sheet(),
        ]);
        sheets.extend(self.built());
        sheets.extend(self.activities());
        sheets.extend([
            self.hours(),
            self.orders(),
            page("Cautions", CAUTIONS, Body::Cautions),
        ]);
        let inputs = (0..).zip(TABLES);
        sheets.extend(inputs.map(|(at, table)| page(table.name, table.guidance, Body::Input(at))));
        sheets.push(page("Factors", "", Body::Factors));
        for (name, about, tables) in WORKING {
            sheets.push(self.working(name, about, tables));
        }
        sheets.push(page("Checks", CHECKS, Body::Checks));
        sheets.push(page("Changes", CHANGES, Body::Changes));
        sheets.push(page("Sources", SOURCES, Body::Sources));
        sheets
    }

    /// A sheet of the steps of some tables; the last takes those of every other table too.
    fn working(&mut self, name: &'static str, about: &'static str, tables: &[&str]) -> SheetPlan {
        let mut blocks = Vec::new();
        for table in tables {
            self.rest(table, &mut blocks);
        }
        if WORKING.last().is_some_and(|last| last.0 == name) {
            let every = self.graph().tables().map(|id| self.graph().table(id).name);
            let without_page = every.filter(|name| *name != Factors::NAME);
            for table in without_page.collect::<Vec<_>>() {
                self.rest(table, &mut blocks);
            }
        }
        SheetPlan {
            name,
            about,
            body: Body::Blocks(blocks),
        }
    }
}
