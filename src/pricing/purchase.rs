//! What the job says of tips and of imported fill, as figures that lines are made from.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, only};
use crate::job::tables::{JobKeys, Materials, QuickMeasure};
use crate::sources;
use crate::tables::Earthwork;
use crate::takeoff::balance::Balance;
use crate::takeoff::book;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::production::Production;
use crate::units::{MONEY, PERCENT};

/// What the job says of tips and of imported fill.
#[derive(Clone, Copy, Debug)]
pub struct Purchase {
    /// What the tip charges for a load of earth.
    pub tip_fee: Column<JobKeys>,
    /// What the tip charges for a load of sediment.
    pub sediment_fee: Column<JobKeys>,
    /// Row of the imported fill among the materials.
    pub fill: Link<JobKeys, Materials>,
    /// Waste of the imported fill.
    pub fill_waste: Column<JobKeys>,
}

/// Adds tip fees and the imported fill.
///
/// Limits: fill is sold in a unit that a loose volume can be turned into; where there are
/// loads to tip, a fee is written.
pub fn purchase(
    graph: &mut Graph,
    inputs: &AllInputs,
    production: &Production,
    balance: &Balance,
) -> Purchase {
    let mut rules = graph.rules::<JobKeys>();
    let material = inputs.words(JobKeys::FillMaterial);
    let fill: Link<JobKeys, Materials> = rules.link("imported fill row", material);
    rules.must_find(material, fill);
    let sold = |kind: f64| fill.of(production.material_kind).same_as(kind);
    let by_weight = sold(book::WEIGHT).and(fill.of(production.material_weight).above(0.0));
    let fits = sold(book::LOOSE).or(sold(book::VOLUME)).or(by_weight);
    rules.limit(
        "imported fill sold in another kind of unit",
        fill.found_none().negate().and(fits.negate()),
        Breach::fault(
            Code::DimensionMismatch,
            material.id,
            "imported fill is sold neither by loose volume nor by a weight that can be worked out",
            "sell it in yd3 loose or m3 loose; by weight it needs the material's Weight",
        ),
    );
    let waste = fill.of(production.material_waste);
    let fill_waste = rules.step("imported fill waste", PERCENT, &sources::WASTE, waste);
    let quick = inputs.number(QuickMeasure::QuickTip);
    let mut fee = |name: &str, key: JobKeys, loads: Column<Earthwork>| {
        let fee = inputs.number(key);
        rules.limit(
            &format!("{name} not known"),
            fee.blank()
                .and(quick.blank())
                .and(only::<JobKeys, Earthwork>(loads).above(0.0)),
            Breach::open(
                Code::MissingPrice,
                fee.id,
                "there are loads to tip, and no fee is written for them",
                "write what the tip charges for a load; 0 where it is free",
            ),
        );
        rules.from_job(&format!("{name} in use"), MONEY, fee.or(only(quick)))
    };
    Purchase {
        tip_fee: fee("tip fee", JobKeys::TipFee, balance.surplus_loads),
        sediment_fee: fee("sediment fee", JobKeys::SedimentFee, balance.sediment_loads),
        fill,
        fill_waste,
    }
}
