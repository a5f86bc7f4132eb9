//! Gifts: materials that a partner brings in a scenario.
//!
//! Always true: what is brought keeps its quantity and its handling, and loses its price; its
//! value stands beside the cost.

use super::parties;
use super::sharing::{GIFTS, PARTIES, party_of};
use crate::graph::Piece;
use crate::graph::prelude::*;
use crate::job::tables::{Materials, Scenarios, SharedWork};
use crate::sources;
use crate::tables::{Compared, Gifts, Parties};
use crate::takeoff::bill::fixed;
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::System;

/// What is brought; no more than the whole of a material.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &SCENARIO,
    &SHARED,
    &VALUE_EACH,
    &Limit::<Gifts>::fault(
        "brought more than once",
        Code::ShareOverWhole,
        SharedWork::GivenShare.at(),
        || BROUGHT_SO_FAR.above(1.0),
        "more than the whole of this material is brought in this scenario",
        "write shares that add up to 100, or take one of the rows out",
    ),
    &MATERIAL_IN_USE,
];

/// Its name: scenario and material.
pub const NAME: Wording<Gifts> = Wording::gathered("material brought", |graph| {
    let (scenarios, materials) = (graph.id(Scenarios::Scenario), graph.id(Materials::Material));
    GIFTS.words(graph, |gift| {
        let scenario = Piece::Cell(scenarios.at(gift.scenario));
        let material = Piece::Cell(materials.at(gift.material));
        vec![scenario, fixed(" / "), material]
    })
})
.naming_rows();

/// The scenario.
pub const SCENARIO: LookUp<Gifts, Compared> = LookUp::solved("scenario row", |graph| {
    GIFTS.meaning(graph, Vec::new(), |gift| gift.scenario + 1)
});

/// The material.
pub const MATERIAL: LookUp<Gifts, Materials> = LookUp::solved("material row", |graph| {
    GIFTS.meaning(graph, Vec::new(), |gift| gift.material)
});

/// The row of `Shared work` that says so.
pub const SHARED: LookUp<Gifts, SharedWork> = LookUp::solved("shared row", |graph| {
    GIFTS.meaning(graph, Vec::new(), |gift| gift.shared)
});

/// The partner in the scenario.
pub const PARTY: LookUp<Gifts, Parties> = LookUp::solved("party row", |graph| {
    let parties = PARTIES.rows(graph);
    GIFTS.meaning(graph, Vec::new(), |gift| {
        party_of(&parties, gift.scenario, gift.partner)
    })
});

/// Fair value of one unit, as each row of `Shared work` says it, or its price.
const SHARED_VALUE: Step<SharedWork> = Step::new(
    "value each in use",
    System::money,
    &sources::IN_KIND,
    || SharedWork::ValueEach.or(SHARED_MATERIAL.of(MATERIAL_PRICE)),
);

/// The material that each row of `Shared work` is about.
const SHARED_MATERIAL: LookUp<SharedWork, Materials> =
    LookUp::new("material row", || SharedWork::SharedMaterial.key());

/// The share that each row of `Shared work` says.
const SHARED_SHARE: Step<SharedWork> = Step::from_job("share brought", System::percent, || {
    lowest(SharedWork::GivenShare.or(1.0), 1.0)
});

/// Share of what the job needs.
pub const SHARE: Step<Gifts> = Step::gathered("share", System::percent, |graph| {
    GIFTS.cells_of(graph, SHARED_SHARE, |gift| gift.shared)
});

/// Fair value of one unit.
pub const VALUE_EACH: Step<Gifts> = Step::gathered("value each", System::money, |graph| {
    GIFTS.cells_of(graph, SHARED_VALUE, |gift| gift.shared)
});

/// The first gift of the same material in the same scenario.
const FIRST_ALIKE: LookUp<Gifts, Gifts> = LookUp::solved("first gift of the material", |graph| {
    let gifts = GIFTS.rows(graph);
    GIFTS.meaning(graph, Vec::new(), |gift| {
        let own = (gift.scenario, gift.material);
        gifts.partition_point(|other| (other.scenario, other.material) < own)
    })
});

/// What is brought of a material in a scenario by all gifts down to this one.
const BROUGHT_SO_FAR: Step<Gifts> = Step::running(
    "share of the material so far",
    System::percent,
    &sources::JOB,
    |own| own.row_above(FIRST_ALIKE, 0.0) + SHARE,
);

/// Share that is brought in the scenario in use.
const IN_USE: Step<Gifts> = Step::from_job("share in use", System::percent, || {
    when(PARTY.of(parties::IN_USE).above(0.0), SHARE, 0.0)
});

/// Share of each material that is brought in the scenario in use.
pub const MATERIAL_IN_USE: Step<Materials> =
    Step::from_job("share brought in this bid", System::percent, || {
        MATERIAL.sum(IN_USE)
    });
