//! What the job says of tips and of imported fill, as figures that lines are made from.

use crate::graph::prelude::*;
use crate::job::tables::{JobKeys, Materials, QuickMeasure};
use crate::sources;
use crate::tables::Earthwork;
use crate::takeoff::balance::{SEDIMENT_LOADS, SURPLUS_LOADS};
use crate::takeoff::book;
use crate::takeoff::production::{MATERIAL_KIND, MATERIAL_WASTE, MATERIAL_WEIGHT};
use crate::units::System;

/// Fees and the imported fill, and their limits: fill is sold in a unit that a loose volume
/// can be turned into; where there are loads to tip, a fee is written.
pub const RULES: &[&dyn Rule] = &[
    &FILL,
    &Limit::<JobKeys>::fault(
        "imported fill sold in another kind of unit",
        Code::DimensionMismatch,
        JobKeys::FillMaterial.at(),
        || {
            let sold = |kind: f64| FILL.of(MATERIAL_KIND).same_as(kind);
            let by_weight = sold(book::WEIGHT).and(FILL.of(MATERIAL_WEIGHT).above(0.0));
            let fits = sold(book::LOOSE).or(sold(book::VOLUME)).or(by_weight);
            FILL.found().and(fits.negate())
        },
        "imported fill is sold neither by loose volume nor by a weight that can be worked out",
        "sell it in yd3 loose or m3 loose; by weight it needs the material's Weight",
    ),
    &FILL_WASTE,
    &fee_limit("tip fee not known", JobKeys::TipFee, || {
        unknown(JobKeys::TipFee, SURPLUS_LOADS)
    }),
    &TIP_FEE,
    &fee_limit("sediment fee not known", JobKeys::SedimentFee, || {
        unknown(JobKeys::SedimentFee, SEDIMENT_LOADS)
    }),
    &SEDIMENT_FEE,
];

/// Row of the imported fill among the materials.
pub const FILL: LookUp<JobKeys, Materials> =
    LookUp::new("imported fill row", || JobKeys::FillMaterial.key()).that_must_find();

/// Waste of the imported fill.
pub const FILL_WASTE: Step<JobKeys> = Step::new(
    "imported fill waste",
    System::percent,
    &sources::WASTE,
    || FILL.of(MATERIAL_WASTE),
);

/// What the tip charges for a load of earth.
pub const TIP_FEE: Step<JobKeys> = Step::from_job("tip fee in use", System::money, || {
    JobKeys::TipFee.or(only(QuickMeasure::QuickTip))
});

/// What the tip charges for a load of sediment.
pub const SEDIMENT_FEE: Step<JobKeys> =
    Step::from_job("sediment fee in use", System::money, || {
        JobKeys::SedimentFee.or(only(QuickMeasure::QuickTip))
    });

/// There are loads, and no fee.
fn unknown(fee: JobKeys, loads: Step<Earthwork>) -> Condition {
    let blank = fee.blank().and(QuickMeasure::QuickTip.blank());
    blank.and(only::<JobKeys, Earthwork>(loads).above(0.0))
}

const fn fee_limit(name: &'static str, fee: JobKeys, broken: fn() -> Condition) -> Limit<JobKeys> {
    Limit::open(
        name,
        Code::MissingPrice,
        fee.at(),
        broken,
        "there are loads to tip, and no fee is written for them",
        "write what the tip charges for a load; 0 where it is free",
    )
}
