//! The lists people take along: what to order from whom, what to dig to, and how certain
//! the bid is.

use super::plan::Planner;
use super::sheets::{Block, Body, CERTAINTY, SheetPlan};
use crate::graph::ColumnId;

impl Planner<'_> {
    /// A block whose columns all live on it.
    fn list(&mut self, title: &str, columns: &[ColumnId], totals: &[ColumnId]) -> Block {
        Block {
            table: self.graph().column(columns[0]).table,
            title: title.to_owned(),
            heading: 0,
            columns: self.homes(columns),
            upright: false,
            totals: totals.to_vec(),
        }
    }

    pub(super) fn orders(&mut self) -> SheetPlan {
        let priced = &self.estimate.columns.priced;
        let (list, of) = (&priced.order_list, &priced.suppliers);
        let orders = [
            list.supplier.id,
            list.material.id,
            list.unit.id,
            list.needed.id,
            list.ordered.id,
            list.loads.id,
            list.price.id,
            list.cost.id,
            list.freight.id,
            list.quote.id,
            list.valid_until.id,
        ];
        let suppliers = [
            of.name.id,
            of.loads.id,
            of.cost.id,
            of.freight.id,
            of.all.id,
        ];
        let mut blocks = Vec::new();
        let by_material = self.list("Orders", &orders, &[orders[7], orders[8]]);
        self.place(&mut blocks, by_material);
        let by_supplier = self.list("By supplier", &suppliers, &suppliers[1..]);
        self.place(&mut blocks, by_supplier);
        let stone = &self.estimate.columns.built.deliveries;
        let deliveries = [
            stone.material.id,
            stone.course.id,
            stone.unit.id,
            stone.delivered.id,
            stone.so_far.id,
            stone.first_load.id,
            stone.last_load.id,
        ];
        if self.graph().rows(deliveries[0]) > 0 {
            let title = "Deliveries of stone in sequence, the bottom course first";
            let stone = self.list(title, &deliveries, &[]);
            self.place(&mut blocks, stone);
        }
        SheetPlan {
            name: "Order list",
            about: "What to order from whom: whole sale units, minimum orders, whole loads and their freight.",
            body: Body::Blocks(blocks),
        }
    }

    pub(super) fn certainty(&mut self) -> SheetPlan {
        let grades = &self.estimate.columns.priced.grades;
        let own = [grades.grade.id, grades.amount.id, grades.share.id];
        let block = self.list("The bid by grade of its measures", &own, &own[1..]);
        self.single(
            CERTAINTY,
            "How the measures behind the bid were come by, and which defaults move it most.",
            block,
        )
    }

    pub(super) fn dig_sheet(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns.dig_sheet;
        let own = [
            columns.name.id,
            columns.below_rim.id,
            columns.elevation.id,
            columns.rod.id,
            columns.remark.id,
        ];
        let block = self.list("Levels", &own, &[]);
        self.single(
            "Dig sheet",
            "What the rod reads at every level. Elevations need the elevation or the rod of a rim, readings the benchmark and the backsight too.",
            block,
        )
    }
}
