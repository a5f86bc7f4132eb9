//! Orders in every scenario: what is ordered of each material where partners lay more of it
//! than the crew would, or bring some of it.
//!
//! Always true: with the crew alone, orders are those of the job; the rows are every
//! material in every scenario, in that order.

use super::orders_by_crew::{self as by_crew, loads, ordered};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::graph::rule::whole;
use crate::job::tables::{JobKeys, Materials, SharedWork};
use crate::labour::compared::ROW_IN_USE;
use crate::labour::materials::{BROUGHT, MATERIAL, OF_GIFT, OF_TASK, materials};
use crate::labour::{gifts, materials as in_scenario, tasks};
use crate::pricing::cents;
use crate::sources;
use crate::tables::{Compared, Gifts, ScenarioMaterials};
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::{ONE, System};

/// Orders in every scenario; a line uses what is brought.
pub const RULES: &[&dyn Rule] = &[
    &in_scenario::NAME,
    &CHANGE,
    &Limit::<Gifts>::warning(
        "brought for nothing",
        Code::GivesNothing,
        SharedWork::SharedMaterial.at(),
        || QUANTITY_BROUGHT.same_as(0.0).and(gifts::SHARE.above(0.0)),
        "no line uses this material, so that bringing it saves nothing",
        "name the material that the lines are bought as",
    ),
    &BROUGHT_VALUE,
];

/// What is laid.
const LAID: Step<ScenarioMaterials> = Step::arithmetic("laid", System::number, || {
    MATERIAL.of(by_crew::NEEDED) + OF_TASK.sum(tasks::EXTRA)
});

/// What is needed of it beside what is brought.
const NEEDED: Step<ScenarioMaterials> = Step::arithmetic("needed", System::number, || {
    (LAID * (1.0 - BROUGHT.here())).round_in(ONE, 3)
});

const ORDERED: Step<ScenarioMaterials> = Step::from_job("ordered", System::number, || {
    let (sold_in, minimum) = (Materials::SoldIn, Materials::Minimum);
    ordered(NEEDED, MATERIAL.of(sold_in), MATERIAL.of(minimum))
});

const COST: Step<ScenarioMaterials> = Step::from_job("order cost", System::money, || {
    cents(ORDERED * MATERIAL.of(MATERIAL_PRICE))
});

const LOADS: Step<ScenarioMaterials> =
    Step::new("loads", System::number, &sources::WHOLE_LOADS, || {
        let (load, freight) = (Materials::Load, Materials::Freight);
        loads(ORDERED, MATERIAL.of(load), MATERIAL.of(freight))
    });

const FREIGHT: Step<ScenarioMaterials> = Step::from_job("freight", System::money, || {
    cents(LOADS * MATERIAL.of(Materials::Freight))
});

/// What order and freight cost more than with the crew alone.
pub const CHANGE: Step<ScenarioMaterials> =
    Step::arithmetic("more than with the crew alone", System::money, || {
        let before = MATERIAL.of(by_crew::COST) + MATERIAL.of(by_crew::FREIGHT);
        cents(COST + FREIGHT - before)
    });

/// How much of a material is brought.
const QUANTITY_BROUGHT: Step<Gifts> = Step::arithmetic("quantity brought", System::number, || {
    (OF_GIFT.of(LAID) * gifts::SHARE).round_in(ONE, 3)
});

/// What it is worth.
const VALUE: Step<Gifts> = Step::new(
    "value of what is brought",
    System::money,
    &sources::IN_KIND,
    || cents(QUANTITY_BROUGHT * gifts::VALUE_EACH),
);

/// What brought materials are worth in each scenario.
pub const BROUGHT_VALUE: Step<Compared> =
    Step::arithmetic("value of materials brought", System::money, || {
        cents(gifts::SCENARIO.sum(VALUE))
    });

pub(super) const NEEDED_IN_USE: Step<Materials> =
    Step::arithmetic("needed", System::number, || in_use(by_crew::NEEDED, NEEDED));

pub(super) const ORDERED_IN_USE: Step<Materials> =
    Step::arithmetic("ordered", System::number, || {
        in_use(by_crew::ORDERED, ORDERED)
    });

pub(super) const COST_IN_USE: Step<Materials> =
    Step::arithmetic("order cost", System::money, || in_use(by_crew::COST, COST));

pub(super) const LOADS_IN_USE: Step<Materials> =
    Step::arithmetic("loads", System::number, || in_use(by_crew::LOADS, LOADS));

pub(super) const FREIGHT_IN_USE: Step<Materials> =
    Step::arithmetic("freight", System::money, || {
        in_use(by_crew::FREIGHT, FREIGHT)
    });

/// A figure of the order in the scenario in use: of its row there, or with the crew alone.
fn in_use(alone: Step<Materials>, there: Step<ScenarioMaterials>) -> Term<Materials> {
    when(ROW.found_none(), alone, ROW.of(there))
}

/// The row of each material in the scenario in use; none where the crew does all the work.
const ROW: LookUp<Materials, ScenarioMaterials> = LookUp::counted(
    "row of its order in this bid",
    &sources::ARITHMETIC,
    |graph: &Graph| {
        let before = only::<Materials, JobKeys>(ROW_IN_USE) - 2.0;
        let row = before.clone() * whole(materials(graph)) + NUMBER;
        when(before.below(0.0), 0.0, row)
    },
);

const NUMBER: Step<Materials> = Step::numbered("number of the material");
