//! Groundwater under the liner of a basin: whether its ballast holds it down.
//!
//! The liner lies at the underside of the build-up. Uplift is taken over the floor, where
//! the deepest place of the liner. The ballast lies dry on the liner, so its whole weight
//! counts; the liner's own weight is left out.

use super::levels::DEPTH;
use crate::graph::prelude::*;
use crate::job::tables::Basins;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Head under each liner, its uplift, the ballast, the factor of safety, and their limits.
pub const RULES: &[&dyn Rule] = &[
    &HEAD,
    &PRESSURE,
    &BALLAST,
    &SAFETY,
    &Limit::<Basins>::open(
        "groundwater may lift the liner",
        Code::MayFloat,
        Basins::Ballast.at(),
        || PRESSURE.above(0.0).and(SAFETY.below(Factor::FloatSafety)),
        "groundwater may lift the liner while the basin is empty",
        "have an engineer decide: an underdrain, vents, more ballast, or keep water in the basin while groundwater is high",
    ),
    &Limit::<Basins>::warning(
        "ballast and no groundwater",
        Code::MissingValue,
        Basins::Groundwater.at(),
        || Basins::Ballast.above(0.0).and(Basins::Groundwater.blank()),
        "ballast is measured and no groundwater, so that lifting is not checked",
        "write Groundwater, from the rim down to its highest",
    ),
];

/// Height of groundwater above the underside of the build-up.
pub const HEAD: Step<Basins> = Step::geometry("head under the liner", System::length, || {
    let underside = DEPTH + Basins::BuildUp;
    let head = highest(0.0, underside - Basins::Groundwater);
    when(Basins::Groundwater.filled(), head, 0.0)
});

/// Its pressure under the liner.
pub const PRESSURE: Step<Basins> = Step::new(
    "uplift on the liner",
    System::area_weight,
    &sources::BUOYANCY,
    || Factor::WaterWeight * HEAD,
);

/// What the ballast weighs on the liner.
pub const BALLAST: Step<Basins> = Step::new(
    "weight of the ballast",
    System::area_weight,
    &sources::BALLAST_WEIGHT,
    || Factor::BallastWeight * Basins::Ballast.here(),
);

/// Ballast for one of uplift; zero where nothing lifts.
pub const SAFETY: Step<Basins> =
    Step::arithmetic("factor of safety of the liner", System::number, || {
        when(PRESSURE.above(0.0), BALLAST / PRESSURE, 0.0)
    });
