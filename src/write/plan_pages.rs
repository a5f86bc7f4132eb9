//! The pages people read: which columns each shows.

use super::plan::Planner;
use super::sheets::{BID_SECTIONS, Block, Body, SheetPlan, Show};
use crate::job::tables::{Crews, Equipment, MarkUps, ProductionRates};

impl Planner<'_> {
    pub(super) fn bid(&mut self) -> Block {
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

    pub(super) fn single(
        &self,
        name: &'static str,
        about: &'static str,
        block: Block,
    ) -> SheetPlan {
        let mut blocks = Vec::new();
        self.place(&mut blocks, block);
        SheetPlan {
            name,
            about,
            body: Body::Blocks(blocks),
        }
    }

    pub(super) fn schedule(&mut self) -> SheetPlan {
        let (lines, priced) = (&self.estimate.columns.lines, &self.estimate.columns.priced);
        let (price, amount) = (priced.unit_price.id, priced.amount.id);
        let section = lines.section.id;
        let copied = [lines.name.id, lines.description.id, lines.quantity.id];
        let table = self.graph().column(section).table;
        let mut columns = self.homes(&[section]);
        columns.extend(copied.map(Show::Copy));
        columns.extend(self.homes(&[lines.unit_shown.id, price, amount]));
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
            "Every line with its price, mark-ups included. In a lump sum the amounts add up to the bid, and unit prices are rounded.",
            block,
        )
    }

    pub(super) fn take_off(&mut self) -> SheetPlan {
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

    pub(super) fn cost(&mut self) -> SheetPlan {
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
            Show::Copy(lines.unit_shown.id),
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

    pub(super) fn summary(&mut self) -> SheetPlan {
        let mut blocks = Vec::new();
        self.upright("Bid", &mut blocks);
        SheetPlan {
            name: "Summary",
            about: "From direct cost to the bid.",
            body: Body::Blocks(blocks),
        }
    }

    pub(super) fn mark_ups(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns;
        let own = [
            columns.priced.mark_ups.base.id,
            columns.priced.mark_ups.amount.id,
        ];
        let table = self.graph().column(own[0]).table;
        let inputs = &columns.inputs;
        let copied = [MarkUps::MarkUp, MarkUps::On, MarkUps::Share];
        let mut shown: Vec<Show> = copied.map(|field| Show::Copy(inputs.id(field))).to_vec();
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

    pub(super) fn earthwork(&mut self) -> SheetPlan {
        let mut blocks = Vec::new();
        self.upright("Earthwork", &mut blocks);
        SheetPlan {
            name: "Earthwork",
            about: "What is dug, filled, brought in and taken away.",
            body: Body::Blocks(blocks),
        }
    }

    pub(super) fn sections(&mut self) -> SheetPlan {
        let points = &self.estimate.columns.points;
        let own = [
            points.basin.id,
            points.across.id,
            points.finished.id,
            points.dug_across.id,
            points.dug.id,
            points.water_across.id,
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

    pub(super) fn hours(&mut self) -> SheetPlan {
        let columns = &self.estimate.columns;
        let (hours, inputs) = (&columns.priced.hours, &columns.inputs);
        let kinds = [
            (
                "Hours by work",
                inputs.id(ProductionRates::Work),
                vec![
                    inputs.id(ProductionRates::WorkCrew),
                    inputs.id(ProductionRates::WorkMachine),
                ],
                vec![hours.work_crew.id, hours.work_machine.id],
            ),
            (
                "Hours by crew",
                inputs.id(Crews::Crew),
                Vec::new(),
                vec![hours.crews.id],
            ),
            (
                "Hours by machine",
                inputs.id(Equipment::Machine),
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
}
