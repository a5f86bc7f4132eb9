//! The outline of basins: their shape, their size at the rim, and how their sides slope.

use super::book::{self, SHAPE};
use crate::graph::prelude::*;
use crate::job::tables::Basins;
use crate::tables::Shapes;
use crate::units::System;

/// The outline of every basin.
pub const RULES: &[&dyn Rule] = &[
    &AREA_FACTOR,
    &LENGTH,
    &WIDTH,
    &SIDE,
    &RAMP,
    &Limit::<Basins>::fault(
        "circle with two widths",
        Code::ConflictingValues,
        Basins::BasinWidth.at(),
        || Basins::Shape.is("circle").and(LENGTH.differs_from(WIDTH)),
        "a circle has one diameter",
        "leave Width blank, or make it an ellipse",
    ),
];

/// The shape of each basin.
const SHAPE_ROW: LookUp<Basins, Shapes> =
    LookUp::new("shape row", || Basins::Shape.key()).among(|| SHAPE.key());

/// Area of the outline as a share of length × width.
pub const AREA_FACTOR: Step<Basins> = Step::geometry("area factor", System::number, || {
    SHAPE_ROW.of(book::AREA_FACTOR)
});

/// Length along the rim.
pub const LENGTH: Step<Basins> =
    Step::from_job("rim length", System::length, || Basins::BasinLength.here());

/// Width across the rim; where blank, the length.
pub const WIDTH: Step<Basins> = Step::from_job("rim width", System::length, || {
    Basins::BasinWidth.or(Basins::BasinLength)
});

/// Slope of the sides below the last shelf.
pub const SIDE: Step<Basins> = Step::from_job("side slope in use", System::slope, || {
    Basins::SideSlope.here()
});

/// Slope of the ramp end below the last shelf; where blank, that of the sides.
pub const RAMP: Step<Basins> = Step::from_job("ramp slope in use", System::slope, || {
    Basins::RampSlope.or(SIDE)
});
