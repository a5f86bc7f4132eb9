//! Materials in every scenario: which of them partners bring, and what share of each.
//!
//! Always true: the rows are every material in every scenario, in that order; so that the row
//! of a material in a scenario can be counted.
//!
//! Not here: what is ordered in each scenario (`bid::scenario_orders`).

use super::gifts::GiftColumns;
use super::rows_meant;
use super::sharing::Sharing;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Piece, Rules, Solve, when};
use crate::job::tables::{Materials, Scenarios};
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Compared, Gifts, Lines, ScenarioMaterials, Tasks};
use crate::takeoff::basis::Basis;
use crate::takeoff::line::fixed;
use crate::units::{ONE, PERCENT};

/// What is brought of each material in each scenario.
#[derive(Clone, Copy, Debug)]
pub struct MaterialColumns {
    /// How many materials there are in each scenario.
    pub count: usize,
    /// The scenario.
    pub scenario: Link<ScenarioMaterials, Compared>,
    /// The material.
    pub material: Link<ScenarioMaterials, Materials>,
    /// The row of each gift.
    pub of_gift: Link<Gifts, ScenarioMaterials>,
    /// Share that is brought.
    pub brought: Column<ScenarioMaterials>,
}

/// Adds every material in every scenario, with the share that is brought.
pub(super) fn materials(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (sharing, gift): (&Sharing, &GiftColumns),
) -> MaterialColumns {
    let name = basis.inputs.id(Materials::Material);
    let of_scenario = basis.inputs.id(Scenarios::Scenario);
    let (scenarios, count) = (graph.rows(of_scenario), graph.rows(name));
    let all = || (0..scenarios).flat_map(move |of| (0..count).map(move |row| (of, row)));
    graph.add_table::<ScenarioMaterials>(scenarios * count);
    let mut rules = graph.rules::<ScenarioMaterials>();
    let names = all().map(|(of, row)| {
        let scenario = Piece::Cell(of_scenario.at(of));
        vec![scenario, fixed(" / "), Piece::Cell(name.at(row))]
    });
    let label = rules.gathered_words("material in a scenario", names.collect());
    rules.labelled_by(label);
    let scenario = all().map(|(of, _)| of + 1);
    let scenario = rows_meant(&mut rules, "scenario row", scenario, &[]);
    let material = rows_meant(&mut rules, "material row", all().map(|(_, row)| row), &[]);
    let gifts = sharing.gifts.iter();
    let gifts = gifts.map(|gift| gift.scenario * count + gift.material);
    let mut rules = graph.rules::<Gifts>();
    let of_gift: Link<Gifts, ScenarioMaterials> = rows_meant(&mut rules, "order row", gifts, &[]);
    let mut rules = graph.rules::<ScenarioMaterials>();
    let brought = of_gift.sum(gift.share);
    MaterialColumns {
        count,
        scenario,
        material,
        of_gift,
        brought: rules.arithmetic("share brought", PERCENT, brought),
    }
}

/// The row of the material of each task in its scenario; none where its line has none.
pub(super) fn of_task(
    rules: &mut Rules<'_, Tasks>,
    sharing: &Sharing,
    line: Link<Tasks, Lines>,
    (lines, count): (&LineColumns, usize),
) -> Link<Tasks, ScenarioMaterials> {
    let before = sharing.tasks.iter();
    let before = before.map(|task| whole(task.scenario * count)).collect();
    let name = "materials before its scenario";
    let before = rules.solved(name, ONE, &sources::JOB, Solve::fixed(Vec::new(), before));
    let material = line.of(Column::new(lines.material.id));
    let row = when(material.clone().above(0.0), material + before, 0.0);
    Link::new(rules.arithmetic("order row", ONE, row).id)
}

/// A count as a rule holds it.
pub(crate) fn whole(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}
