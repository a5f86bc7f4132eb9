//! Which column stands on which sheet: the pages people read, and working sheets for
//! all the rest.
//!
//! Always true: every computed column is given a home once; a column that no page asks
//! for stands on the working sheet of its table, at most [`WIDEST`] side by side.

use super::layout::{BID_SECTIONS, Block, Body, DATA, FIRST, SheetPlan, Show};
use crate::estimate::Estimate;
use crate::graph::{ColumnId, Graph, Kind, TableId};
use crate::job::tables::TABLES;

/// Most columns side by side, so that a page fits the width of paper.
const WIDEST: usize = 11;

/// The sheets of an estimate's workbook, in order.
pub(super) fn sheets(estimate: &Estimate) -> Vec<SheetPlan> {
    let taken = vec![false; estimate.graph.columns().count()];
    Planner { estimate, taken }.sheets()
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
            self.mark_ups(),
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
        let section = lines.section.id;
        let copied = [
            lines.name.id,
            lines.description.id,
            lines.quantity.id,
            lines.unit.id,
        ];
        let table = self.graph().column(section).table;
        let mut columns = self.homes(&[section]);
        columns.extend(copied.map(Show::Copy));
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
        let mut blocks = Vec::new();
        self.upright("Bid", &mut blocks);
        SheetPlan {
            name: "Summary",
            about: "From direct cost to the bid.",
            body: Body::Blocks(blocks),
        }
    }

    fn mark_ups(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns;
        let own = [
            columns.priced.mark_ups.base.id,
            columns.priced.mark_ups.amount.id,
        ];
        let table = self.graph().column(own[0]).table;
        let mut shown: Vec<Show> = columns.inputs.mark_ups.columns[..3]
            .iter()
            .copied()
            .map(Show::Copy)
            .collect();
        shown.extend(self.homes(&own));
        let block = Block {
            table,
            title: "Mark-ups".to_owned(),
            heading: 0,
            columns: shown,
            upright: false,
            totals: vec![own[1]],
        };
        self.single(
            "Mark-ups priced",
            "What each mark-up comes to, in the order in which they apply.",
            block,
        )
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
