//! Gifts: materials that a partner brings in a scenario.
//!
//! Always true: what is brought keeps its quantity and its handling, and loses its price; its
//! value stands beside the cost.

use super::sharing::Sharing;
use super::{Hands, first_alike, rows_meant};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Piece, Rules, Text, lowest, when};
use crate::job::tables::{Materials, Scenarios, SharedWork};
use crate::sources;
use crate::tables::{Compared, Gifts, Parties};
use crate::takeoff::basis::Basis;
use crate::takeoff::line::fixed;
use crate::units::{MONEY, PERCENT};

/// What is brought.
#[derive(Clone, Copy, Debug)]
pub struct GiftColumns {
    /// Its name: scenario and material.
    pub name: Text<Gifts>,
    /// The scenario.
    pub scenario: Link<Gifts, Compared>,
    /// The partner in the scenario.
    pub party: Link<Gifts, Parties>,
    /// The material.
    pub material: Link<Gifts, Materials>,
    /// The row of `Shared work` that says so.
    pub shared: Link<Gifts, SharedWork>,
    /// Share of what the job needs.
    pub share: Column<Gifts>,
    /// Fair value of one unit.
    pub value_each: Column<Gifts>,
    /// Share of each material that is brought in the scenario in use.
    pub in_use: Column<Materials>,
}

/// Adds the materials that are brought.
///
/// Limit: no more than the whole is brought.
pub(super) fn gifts(graph: &mut Graph, basis: &Basis<'_>, hands: &Hands) -> GiftColumns {
    let inputs = basis.inputs;
    let sharing: &Sharing = &hands.sharing;
    let all = &sharing.gifts;
    graph.add_table::<Gifts>(all.len());
    let mut rules = graph.rules::<SharedWork>();
    let value = inputs.number(SharedWork::ValueEach);
    let material: Link<SharedWork, Materials> =
        rules.link("material row", inputs.words(SharedWork::SharedMaterial));
    let value = value.or(material.of(basis.production.material_price));
    let value = rules.step("value each in use", MONEY, &sources::IN_KIND, value);
    let share = lowest(inputs.number(SharedWork::GivenShare).or(1.0), 1.0);
    let share = rules.from_job("share brought", PERCENT, share);
    let mut rules = graph.rules::<Gifts>();
    let name = name(&mut rules, basis, sharing);
    let rows = |rows: fn(&super::sharing::Gift) -> usize| all.iter().map(rows);
    let scenario = rows_meant(
        &mut rules,
        "scenario row",
        rows(|gift| gift.scenario + 1),
        &[],
    );
    let material = rows_meant(&mut rules, "material row", rows(|gift| gift.material), &[]);
    let shared = rows_meant(&mut rules, "shared row", rows(|gift| gift.shared), &[]);
    let party = all
        .iter()
        .map(|gift| sharing.party(gift.scenario, gift.partner));
    let party: Link<Gifts, Parties> = rows_meant(&mut rules, "party row", party, &[]);
    let of_shared = |column: Column<SharedWork>| {
        let cells = all.iter().map(|gift| Some(column.id.at(gift.shared)));
        cells.collect::<Vec<_>>()
    };
    let share = rules.gathered("share", PERCENT, of_shared(share));
    let value_each = rules.gathered("value each", MONEY, of_shared(value));
    whole(&mut rules, basis, sharing, share);
    let in_use = party.of(hands.party.in_use);
    let in_use = rules.from_job("share in use", PERCENT, when(in_use.above(0.0), share, 0.0));
    let mut rules = graph.rules::<Materials>();
    let in_use = rules.from_job("share brought in this bid", PERCENT, material.sum(in_use));
    GiftColumns {
        name,
        scenario,
        party,
        material,
        shared,
        share,
        value_each,
        in_use,
    }
}

/// The name of each gift: scenario and material.
fn name(rules: &mut Rules<'_, Gifts>, basis: &Basis<'_>, sharing: &Sharing) -> Text<Gifts> {
    let scenarios = basis.inputs.id(Scenarios::Scenario);
    let materials = basis.inputs.id(Materials::Material);
    let names = sharing.gifts.iter().map(|gift| {
        let scenario = Piece::Cell(scenarios.at(gift.scenario));
        vec![
            scenario,
            fixed(" / "),
            Piece::Cell(materials.at(gift.material)),
        ]
    });
    let name = rules.gathered_words("material brought", names.collect());
    rules.labelled_by(name);
    name
}

/// Limit: the shares of one material in one scenario are no more than the whole.
fn whole(rules: &mut Rules<'_, Gifts>, basis: &Basis<'_>, sharing: &Sharing, share: Column<Gifts>) {
    let all = &sharing.gifts;
    let alike = first_alike(all, |one, two| {
        (one.scenario, one.material) == (two.scenario, two.material)
    });
    let name = "first gift of the material";
    let alike: Link<Gifts, Gifts> = rows_meant(rules, name, alike.into_iter(), &[]);
    let brought = rules.running(
        "share of the material so far",
        PERCENT,
        &sources::JOB,
        |own| own.row_above(alike, 0.0) + share,
    );
    rules.limit(
        "brought more than once",
        brought.here().above(1.0),
        Breach::fault(
            Code::ShareOverWhole,
            basis.inputs.id(SharedWork::GivenShare),
            "more than the whole of this material is brought in this scenario",
            "write shares that add up to 100, or take one of the rows out",
        ),
    );
}
