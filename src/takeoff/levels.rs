//! Levels of a basin: depth, freeboard and the water's surface, from measures, elevations
//! or rod readings.
//!
//! Always true: where two cells say one thing twice, they agree to the hundredth, or a
//! limit is broken.

use super::job_wide::{INSTRUMENT, LEVELLED};
use crate::graph::prelude::*;
use crate::graph::rule::At;
use crate::job::Fields;
use crate::job::tables::{Basins, JobKeys};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// The levels of every basin, and what of them must be known and agree.
pub const RULES: &[&dyn Rule] = &[
    &RIM,
    &FLOOR,
    &LOWEST_RIM,
    &WATER,
    &DEPTH,
    &DIP,
    &SURFACE,
    &FREEBOARD,
    &without_benchmark::<Basins>(
        "rim elevation rod without benchmark",
        Basins::RimRod.at(),
        || is_unread(Basins::RimRod),
    ),
    &against_rod::<Basins>("rim elevation against rod", Basins::Rim.at(), || {
        disagree(Basins::Rim, Basins::RimRod)
    }),
    &without_benchmark::<Basins>(
        "floor elevation rod without benchmark",
        Basins::FloorRod.at(),
        || is_unread(Basins::FloorRod),
    ),
    &against_rod::<Basins>(
        "floor elevation against rod",
        Basins::FloorLevel.at(),
        || disagree(Basins::FloorLevel, Basins::FloorRod),
    ),
    &without_benchmark::<Basins>(
        "lowest rim elevation rod without benchmark",
        Basins::LowestRimRod.at(),
        || is_unread(Basins::LowestRimRod),
    ),
    &against_rod::<Basins>(
        "lowest rim elevation against rod",
        Basins::LowestRim.at(),
        || disagree(Basins::LowestRim, Basins::LowestRimRod),
    ),
    &without_benchmark::<Basins>(
        "water elevation rod without benchmark",
        Basins::WaterLevelRod.at(),
        || is_unread(Basins::WaterLevelRod),
    ),
    &against_rod::<Basins>(
        "water elevation against rod",
        Basins::WaterLevel.at(),
        || disagree(Basins::WaterLevel, Basins::WaterLevelRod),
    ),
    &Limit::<Basins>::fault(
        "depth not known",
        Code::MissingValue,
        Basins::Depth.at(),
        || DEPTH.above(0.0).negate(),
        "the basin has no depth",
        "write Depth, or the elevations of Rim and Floor, rim above floor",
    ),
    &Limit::<Basins>::fault(
        "depth against elevations",
        Code::ConflictingValues,
        Basins::Depth.at(),
        || {
            let both = rim_is_known().and(floor_is_known());
            let apart = differs(DEPTH - (RIM - FLOOR));
            Basins::Depth.filled().and(both).and(apart)
        },
        "the depth and the elevations of rim and floor disagree",
        "keep one of the two",
    ),
    &Limit::<Basins>::fault(
        "lowest rim without rim",
        Code::MissingValue,
        Basins::Rim.at(),
        || lowest_rim_is_known().and(rim_is_known().negate()),
        "the lowest rim is known and the rim is not",
        "write the elevation of Rim, which depths start from",
    ),
    &Limit::<Basins>::fault(
        "lowest rim above rim",
        Code::ConflictingValues,
        Basins::LowestRim.at(),
        || DIP.below(0.0),
        "the lowest rim is higher than the rim",
        "measure depths from the higher of the two",
    ),
    &Limit::<Basins>::fault(
        "water level without rim",
        Code::MissingValue,
        Basins::Rim.at(),
        || water_is_known().and(rim_is_known().negate()),
        "the water level is known and the rim is not",
        "write the elevation of Rim, which depths start from; or the Freeboard instead",
    ),
    &Limit::<Basins>::fault(
        "water level and freeboard",
        Code::ConflictingValues,
        Basins::Freeboard.at(),
        || water_is_known().and(Basins::Freeboard.filled()),
        "both the water level and the freeboard are written",
        "keep one of the two",
    ),
    &Limit::<Basins>::fault(
        "water over the lowest rim",
        Code::ConflictingValues,
        Basins::WaterLevel.at(),
        || FREEBOARD.below(0.0),
        "the water stands above the lowest rim",
        "check the water level and the lowest rim",
    ),
    &Limit::<Basins>::warning(
        "water below the floor",
        Code::ConflictingValues,
        Basins::Freeboard.at(),
        || DEPTH.above(0.0).and(SURFACE.at_least(DEPTH)),
        "the water would stand at the floor or below it, so the basin holds none",
        "check the freeboard, the water level and the depth; 0 is no freeboard",
    ),
];

/// Elevation of the rim; zero where the job does not give it, and so of the others.
pub const RIM: Step<Basins> = Step::from_job("rim elevation", System::length, || {
    by_level_or_rod(Basins::Rim, Basins::RimRod)
});

const FLOOR: Step<Basins> = Step::from_job("floor elevation", System::length, || {
    by_level_or_rod(Basins::FloorLevel, Basins::FloorRod)
});

const LOWEST_RIM: Step<Basins> = Step::from_job("lowest rim elevation", System::length, || {
    by_level_or_rod(Basins::LowestRim, Basins::LowestRimRod)
});

const WATER: Step<Basins> = Step::from_job("water elevation", System::length, || {
    by_level_or_rod(Basins::WaterLevel, Basins::WaterLevelRod)
});

fn rim_is_known() -> Condition {
    is_known(Basins::Rim, Basins::RimRod)
}

fn floor_is_known() -> Condition {
    is_known(Basins::FloorLevel, Basins::FloorRod)
}

fn lowest_rim_is_known() -> Condition {
    is_known(Basins::LowestRim, Basins::LowestRimRod)
}

fn water_is_known() -> Condition {
    is_known(Basins::WaterLevel, Basins::WaterLevelRod)
}

/// From the rim to the floor: as measured, or by the two elevations.
pub const DEPTH: Step<Basins> = Step::from_job("depth to floor", System::length, || {
    let both = rim_is_known().and(floor_is_known());
    Basins::Depth.or(when(both, RIM - FLOOR, 0.0))
});

/// How far the lowest rim lies below the rim; zero where it is not known.
const DIP: Step<Basins> = Step::from_job("dip of the rim", System::length, || {
    let both = rim_is_known().and(lowest_rim_is_known());
    when(both, RIM - LOWEST_RIM, 0.0)
});

/// From the rim down to the water: by elevations, or the freeboard below the lowest rim.
pub const SURFACE: Step<Basins> =
    Step::new("rim to water", System::length, &sources::FREEBOARD, || {
        let by_level = rim_is_known().and(water_is_known());
        let free = Basins::Freeboard.or(Factor::Freeboard);
        when(by_level, RIM - WATER, DIP + free)
    });

/// From the water up to the lowest rim.
pub const FREEBOARD: Step<Basins> =
    Step::from_job("freeboard at lowest rim", System::length, || SURFACE - DIP);

/// An elevation, written as such or as a rod reading; zero where neither is.
pub(super) fn by_level_or_rod<T: Fields>(level: T, rod: T) -> Term<T> {
    level.or(when(rod.blank(), 0.0, by_rod(rod)))
}

/// The elevation that a rod reads.
fn by_rod<T: Fields>(rod: T) -> Term<T> {
    only::<T, JobKeys>(INSTRUMENT) - rod.here()
}

/// Whether an elevation is written, as such or as a rod reading.
pub(super) fn is_known<T: Fields>(level: T, rod: T) -> Condition {
    level.filled().or(rod.filled())
}

/// Whether a rod reading is written that nothing is read from.
pub(super) fn is_unread<T: Fields>(rod: T) -> Condition {
    let unlevelled = only::<T, JobKeys>(LEVELLED).same_as(0.0);
    rod.filled().and(unlevelled)
}

/// Whether an elevation and its rod reading are both written and say two things.
pub(super) fn disagree<T: Fields>(level: T, rod: T) -> Condition {
    let apart = differs(level.here() - by_rod(rod));
    level.filled().and(rod.filled()).and(apart)
}

/// Whether a difference of two measures is more than half a hundredth of a foot or metre.
fn differs<T>(difference: Term<T>) -> Condition {
    difference.round_in(System::length, 2).differs_from(0.0)
}

/// A limit: a rod reading has benchmark and backsight.
#[track_caller]
pub(super) const fn without_benchmark<T>(
    name: &'static str,
    rod: At,
    is_unread: fn() -> Condition,
) -> Limit<T> {
    Limit::fault(
        name,
        Code::MissingValue,
        rod,
        is_unread,
        "a rod reading needs the benchmark and the backsight",
        "write Benchmark and Backsight in Job",
    )
}

/// A limit: an elevation and its rod reading agree to the hundredth.
#[track_caller]
pub(super) const fn against_rod<T>(
    name: &'static str,
    level: At,
    disagree: fn() -> Condition,
) -> Limit<T> {
    Limit::fault(
        name,
        Code::ConflictingValues,
        level,
        disagree,
        "the elevation and its rod reading disagree",
        "keep one of the two",
    )
}
