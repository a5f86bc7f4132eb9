//! Materials in every scenario: which of them partners bring, and what share of each.
//!
//! Always true: the rows are every material in every scenario, in that order; so that the row
//! of a material in a scenario can be counted.
//!
//! Not here: what is ordered in each scenario (`bid::scenario_orders`).

use super::compared::scenarios;
use super::sharing::{GIFTS, TASKS};
use super::{gifts, tasks};
use crate::graph::prelude::*;
use crate::graph::{Graph, Piece, Solve};
use crate::job::tables::{Materials, Scenarios};
use crate::pricing::lines;
use crate::sources;
use crate::tables::{Compared, Gifts, ScenarioMaterials, Tasks};
use crate::takeoff::bill::fixed;
use crate::units::System;

/// One material in one scenario.
#[derive(Clone, Copy, Debug)]
pub struct Ordered {
    /// Row of the scenario.
    pub scenario: usize,
    /// Row of the material.
    pub material: usize,
}

/// Every material in every scenario.
pub const ORDERED: Roster<ScenarioMaterials, Ordered> = Roster::new(|graph| {
    let (scenarios, materials) = (scenarios(graph), materials(graph));
    let all = (0..scenarios * materials).map(|row| Ordered {
        scenario: row / materials,
        material: row % materials,
    });
    all.collect()
});

/// How many materials there are in each scenario.
#[must_use]
pub fn materials(graph: &Graph) -> usize {
    graph.rows(graph.id(Materials::Material))
}

/// Its name: scenario and material.
pub const NAME: Wording<ScenarioMaterials> = Wording::gathered("material in a scenario", |graph| {
    let (scenarios, materials) = (graph.id(Scenarios::Scenario), graph.id(Materials::Material));
    ORDERED.words(graph, |own| {
        let scenario = Piece::Cell(scenarios.at(own.scenario));
        let material = Piece::Cell(materials.at(own.material));
        vec![scenario, fixed(" / "), material]
    })
})
.naming_rows();

/// The scenario.
pub const SCENARIO: LookUp<ScenarioMaterials, Compared> = LookUp::solved("scenario row", |graph| {
    ORDERED.meaning(graph, Vec::new(), |own| own.scenario + 1)
});

/// The material.
pub const MATERIAL: LookUp<ScenarioMaterials, Materials> =
    LookUp::solved("material row", |graph| {
        ORDERED.meaning(graph, Vec::new(), |own| own.material)
    });

/// The row of each gift.
pub const OF_GIFT: LookUp<Gifts, ScenarioMaterials> = LookUp::solved("order row", |graph| {
    let materials = materials(graph);
    GIFTS.meaning(graph, Vec::new(), |gift| {
        gift.scenario * materials + gift.material
    })
});

/// Share that is brought.
pub const BROUGHT: Step<ScenarioMaterials> =
    Step::arithmetic("share brought", System::percent, || {
        OF_GIFT.sum(gifts::SHARE)
    });

/// The row of the material of each task in its scenario; none where its line has none.
pub const OF_TASK: LookUp<Tasks, ScenarioMaterials> =
    LookUp::by_number("order row", &sources::ARITHMETIC, || {
        let material = tasks::LINE.number_of(lines::MATERIAL);
        when(material.clone().above(0.0), material + BEFORE_TASK, 0.0)
    });

/// How many materials stand before those of the scenario of a task.
const BEFORE_TASK: Step<Tasks> = Step::solved(
    "materials before its scenario",
    System::number,
    &sources::JOB,
    |graph| {
        let materials = materials(graph);
        let before = TASKS.numbers(graph, |task| task.scenario * materials);
        Solve::fixed(Vec::new(), before)
    },
);
