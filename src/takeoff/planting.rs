//! Planting: soil by thickness, plants by spacing.
//!
//! Soil and plants lie on the true surface: on a bank it is larger than it is seen from
//! above.

use super::bill::{Amount, BidLine, Buying, Counted, Part, RowByRow, Working, named_or_usual};
use super::measured_area::Spread;
use super::written::filled;
use crate::graph::prelude::*;
use crate::job::tables::Planting;
use crate::sources;
use crate::units::System;

/// Surface, soil and plants, and their limits.
pub const RULES: &[&dyn Rule] = &[
    &SURFACE,
    &SOIL_VOLUME,
    &PLANTS,
    &Limit::<Planting>::open(
        "neither soil nor plants",
        Code::MissingValue,
        Planting::Spacing.at(),
        || Planting::SoilDepth.blank().and(Planting::Spacing.blank()),
        "neither soil nor plants are measured here, so nothing is taken off",
        "write Soil depth, Spacing or both",
    ),
];

const AREA: Step<Planting> = Planting::AREA_IN_USE;

/// The true surface for one of area on a slope: √(1 + 1 ÷ slope²).
const LONGER: Step<Planting> = Step::new(
    "surface for one of area",
    System::number,
    &sources::DEVELOPED,
    || {
        let slope = Planting::PlantingSlope;
        let longer = (1.0 + 1.0 / (slope * slope)).root();
        when(slope.above(0.0), longer, 1.0)
    },
);

/// The area as it lies, slope counted.
pub const SURFACE: Step<Planting> = Step::geometry("true surface", System::area, || AREA * LONGER);

/// Volume of the soil.
pub const SOIL_VOLUME: Step<Planting> = Step::geometry("soil volume", System::volume, || {
    SURFACE * Planting::SoilDepth
});

/// Plants set out in triangles stand 2 ÷ √3 times as many.
const MORE: Step<Planting> = Step::new(
    "plants for one in squares",
    System::number,
    &sources::PLANT_SPACING,
    || {
        let more = 2.0 / Term::from(3.0).root();
        when(Planting::Pattern.is("triangle"), more, 1.0)
    },
);

/// Whole plants: surface ÷ spacing².
pub const PLANTS: Step<Planting> =
    Step::new("plants", System::each, &sources::PLANT_SPACING, || {
        let spacing = Planting::Spacing;
        let plants = (SURFACE / (spacing * spacing) * MORE).round_up();
        when(spacing.above(0.0), plants, 0.0)
    });

const SOIL_AMOUNTS: &[Amount] = &[Amount::new(System::volume, || SOIL_VOLUME.key())];

const SOIL: Buying<Planting> = Buying::new(
    "planting soil",
    || named_or_usual(Planting::PlantingSoil, "Planting soil"),
    Planting::PlantingSoil.at(),
    SOIL_AMOUNTS,
)
.missing("the soil is not in Materials, so it has no price");

const SPREADING: Working<Planting> = Working::new(
    "spreading",
    || "Spread topsoil".into(),
    Planting::SoilDepth.at(),
    SOIL_AMOUNTS,
)
.missing("the work that spreads soil is not in Production rates");

const PLANT_AMOUNTS: &[Amount] = &[
    Amount::new(System::each, || PLANTS.key()),
    Amount::new(System::area, || SURFACE.key()),
];

const PLANTS_BOUGHT: Buying<Planting> = Buying::new(
    "plants bought",
    || named_or_usual(Planting::Plant, "Plants"),
    Planting::Plant.at(),
    PLANT_AMOUNTS,
)
.missing("these plants are not in Materials, so they have no price");

const SETTING: Working<Planting> = Working::new(
    "setting plants",
    || named_or_usual(Planting::PlantingWork, "Plant"),
    Planting::PlantingWork.at(),
    PLANT_AMOUNTS,
)
.missing("the work that sets these plants is not in Production rates");

const NAME: Part = Part::Of(|| Planting::Planted.key());
const ZONE: Option<Part> = Some(Part::Of(|| Planting::PlantingBasin.key()));

/// Lines, in the order of the rows: soil and plants, each where it is measured.
pub(super) const LINES: RowByRow<Planting> = RowByRow::new(&[
    &BidLine {
        arises: |graph, row| filled(graph, Planting::SoilDepth, row),
        zone: ZONE,
        ..BidLine::of_each_row(
            &[Part::Fixed("Soil: "), NAME],
            &[NAME, Part::Fixed(": planting soil")],
            Counted::Bought(&SOIL, Some(&SPREADING)),
        )
    },
    &BidLine {
        arises: |graph, row| filled(graph, Planting::Spacing, row),
        zone: ZONE,
        ..BidLine::of_each_row(
            &[Part::Fixed("Plants: "), NAME],
            &[NAME, Part::Fixed(": plants")],
            Counted::Bought(&PLANTS_BOUGHT, Some(&SETTING)),
        )
    },
]);
