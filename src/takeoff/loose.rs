//! Gravel and loose stone, by area and thickness, net of what stands in it.
//!
//! Always true: what a bed holds is stone and voids, and nothing else; what stands in it
//! is neither bought nor counted as stone.

use super::bill::{Amount, BidLine, Buying, Counted, Part, RowByRow, Working, named_or_usual};
use super::measured_area::Spread;
use super::structures::{BED, TAKEN_OF_BED};
use crate::graph::prelude::*;
use crate::job::tables::Loose;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Volume, voids and water of beds, and their limits.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Loose>::open(
        "bed without a thickness",
        Code::MissingValue,
        Loose::LooseThickness.at(),
        || Loose::LooseThickness.above(0.0).negate(),
        "the bed has no thickness, so nothing is taken off",
        "write the mean thickness",
    ),
    &Limit::<Loose>::fault(
        "more stands in the bed than it holds",
        Code::OutOfRange,
        Loose::LooseDeduct.at(),
        || GROSS.below(IN_THE_WAY),
        "more stands in the bed than it holds",
        "check Deduct, the bed's measures and the structures that stand in it",
    ),
    &SOLID,
    &HELD,
    &UNDER_WATER,
];

const AREA: Step<Loose> = Loose::AREA_IN_USE;

const GROSS: Step<Loose> = Step::geometry("gross volume", System::volume, || {
    AREA * Loose::LooseThickness
});

const STANDING: Step<Loose> =
    Step::geometry("structures in it", System::volume, || BED.sum(TAKEN_OF_BED));

const IN_THE_WAY: Step<Loose> = Step::geometry("stands in the bed", System::volume, || {
    STANDING + Loose::LooseDeduct
});

/// Volume of the bed, less the structures that stand in it and what else is deducted: what
/// is bought, loose.
pub const NET: Step<Loose> = Step::geometry("net volume", System::volume, || GROSS - IN_THE_WAY);

/// Voids in use.
pub const VOIDS: Step<Loose> = Step::new(
    "voids in use",
    System::percent,
    &sources::LOOSE_VOIDS,
    || Loose::LoosePorosity.or(Factor::LooseVoids),
);

/// Volume of the stone itself.
pub const SOLID: Step<Loose> = Step::new(
    "solid volume",
    System::volume,
    &sources::STONE_VOLUME,
    || NET * (1.0 - VOIDS.here()),
);

/// Water that all of its voids hold.
pub const HELD: Step<Loose> = Step::new(
    "water in the voids",
    System::water,
    &sources::WATER_HELD,
    || NET * VOIDS,
);

/// The share of a bed that is under water: as written, or all of one that stands in a
/// basin and nothing of any other.
pub const UNDER_WATER: Step<Loose> = Step::from_job("share under water", System::percent, || {
    let usual = when(Loose::LooseBasin.blank(), 0.0, 1.0);
    Loose::UnderWater.or(usual)
});

const AMOUNTS: &[Amount] = &[Amount::new(System::volume, || NET.key())];

const GRAVEL: Buying<Loose> = Buying::new(
    "gravel",
    || named_or_usual(Loose::LooseMaterial, "Gravel"),
    Loose::LooseMaterial.at(),
    AMOUNTS,
)
.missing("the stone of this bed is not in Materials, so it has no price");

const PLACING: Working<Loose> = Working::new(
    "placing",
    || named_or_usual(Loose::LooseWork, "Place gravel"),
    Loose::LooseWork.at(),
    AMOUNTS,
)
.missing("the work that places this stone is not in Production rates");

const NAME: Part = Part::Of(|| Loose::LooseBed.key());

/// Lines, in the order of the rows.
pub(super) const LINES: RowByRow<Loose> = RowByRow::new(&[&BidLine {
    zone: Some(Part::Of(|| Loose::LooseBasin.key())),
    ..BidLine::of_each_row(
        &[Part::Fixed("Gravel: "), NAME],
        &[NAME, Part::Fixed(": gravel or loose stone")],
        Counted::Bought(&GRAVEL, Some(&PLACING)),
    )
}]);
