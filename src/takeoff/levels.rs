//! Levels of a basin: depth, freeboard and the water's surface, from measures, elevations
//! or rod readings.
//!
//! Always true: where two cells say one thing twice, they agree to the hundredth, or a
//! limit is broken.

use super::book::factor;
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Rules, Term, only, when};
use crate::job::Fields;
use crate::job::tables::{Basins, JobKeys};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// The rim's elevation, zero where it is not known, and depths below it.
#[derive(Clone, Copy)]
pub(super) struct Levels {
    pub(super) rim: Column<Basins>,
    pub(super) depth: Column<Basins>,
    pub(super) freeboard: Column<Basins>,
    pub(super) water: Column<Basins>,
}

/// Depth, freeboard and the depth of the water's surface, from measures, elevations or
/// rod readings.
pub(super) fn levels(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    wide: &JobWide,
    system: System,
) -> Levels {
    let mut elevation =
        |name: &str, at: (Basins, Basins)| elevation(rules, inputs, wide, name, at, system);
    let rim = elevation("rim elevation", (Basins::Rim, Basins::RimRod));
    let floor = elevation("floor elevation", (Basins::FloorLevel, Basins::FloorRod));
    let low = elevation(
        "lowest rim elevation",
        (Basins::LowestRim, Basins::LowestRimRod),
    );
    let water = elevation(
        "water elevation",
        (Basins::WaterLevel, Basins::WaterLevelRod),
    );
    let depth = depth(rules, inputs, &rim, &floor, system);
    let dip = dip(rules, inputs, &rim, &low, system);
    let surface = surface(rules, inputs, &rim, &water, dip, system);
    let freeboard = freeboard(rules, inputs, surface, dip, system);
    dry(rules, inputs, surface, depth);
    Levels {
        rim: rim.height,
        depth,
        freeboard,
        water: surface,
    }
}

/// An elevation in use, and whether the job gives one.
pub(super) struct Elevation<T> {
    pub(super) height: Column<T>,
    pub(super) known: Condition,
}

/// An elevation, given as such or as a rod reading. `at` are the two columns.
///
/// Limits: a reading needs benchmark and backsight; where both are written, they agree
/// to the hundredth.
pub(super) fn elevation<T: Fields>(
    rules: &mut Rules<'_, T>,
    inputs: &AllInputs,
    wide: &JobWide,
    name: &str,
    at: (T, T),
    system: System,
) -> Elevation<T> {
    let (level, rod) = (inputs.number(at.0), inputs.number(at.1));
    let by_rod = only(wide.instrument) - rod;
    rules.limit(
        &format!("{name} rod without benchmark"),
        rod.filled()
            .and(only::<T, JobKeys>(wide.levelled).same_as(0.0)),
        Breach::fault(
            Code::MissingValue,
            rod.id,
            "a rod reading needs the benchmark and the backsight",
            "write Benchmark and Backsight in Job",
        ),
    );
    let apart = differs(level - by_rod.clone(), system);
    rules.limit(
        &format!("{name} against rod"),
        level.filled().and(rod.filled()).and(apart),
        Breach::fault(
            Code::ConflictingValues,
            level.id,
            "the elevation and its rod reading disagree",
            "keep one of the two",
        ),
    );
    let height = level.or(when(rod.blank(), 0.0, by_rod));
    Elevation {
        height: rules.from_job(name, system.length(), height),
        known: level.filled().or(rod.filled()),
    }
}

/// Whether a difference of two measures is more than half a hundredth of a foot or metre.
fn differs<T>(difference: Term<T>, system: System) -> Condition {
    difference.round_in(system.length(), 2).differs_from(0.0)
}

/// From the rim to the floor: as measured, or by the two elevations.
///
/// Limits: it is there and above zero; where both ways are written, they agree.
fn depth(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    rim: &Elevation<Basins>,
    floor: &Elevation<Basins>,
    system: System,
) -> Column<Basins> {
    let measured = inputs.number(Basins::Depth);
    let both = rim.known.clone().and(floor.known.clone());
    let by_level = rim.height - floor.height;
    let depth = measured.or(when(both.clone(), by_level.clone(), 0.0));
    let depth = rules.from_job("depth to floor", system.length(), depth);
    rules.limit(
        "depth not known",
        depth.here().above(0.0).negate(),
        Breach::fault(
            Code::MissingValue,
            measured.id,
            "the basin has no depth",
            "write Depth, or the elevations of Rim and Floor, rim above floor",
        ),
    );
    let apart = differs(depth - by_level, system);
    rules.limit(
        "depth against elevations",
        measured.filled().and(both).and(apart),
        Breach::fault(
            Code::ConflictingValues,
            measured.id,
            "the depth and the elevations of rim and floor disagree",
            "keep one of the two",
        ),
    );
    depth
}

/// How far the lowest rim lies below the rim; zero where it is not known.
///
/// Limits: a lowest rim needs the rim's elevation and is not above it.
fn dip(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    rim: &Elevation<Basins>,
    low: &Elevation<Basins>,
    system: System,
) -> Column<Basins> {
    let (rim_known, low_known) = (rim.known.clone(), low.known.clone());
    rules.limit(
        "lowest rim without rim",
        low_known.clone().and(rim_known.clone().negate()),
        Breach::fault(
            Code::MissingValue,
            inputs.number(Basins::Rim).id,
            "the lowest rim is known and the rim is not",
            "write the elevation of Rim, which depths start from",
        ),
    );
    let dip = when(rim_known.and(low_known), rim.height - low.height, 0.0);
    let dip = rules.from_job("dip of the rim", system.length(), dip);
    rules.limit(
        "lowest rim above rim",
        dip.here().below(0.0),
        Breach::fault(
            Code::ConflictingValues,
            inputs.number(Basins::LowestRim).id,
            "the lowest rim is higher than the rim",
            "measure depths from the higher of the two",
        ),
    );
    dip
}

/// From the rim down to the water: by elevations, or the freeboard below the lowest rim.
fn surface(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    rim: &Elevation<Basins>,
    water: &Elevation<Basins>,
    dip: Column<Basins>,
    system: System,
) -> Column<Basins> {
    let by_level = rim.known.clone().and(water.known.clone());
    let usual = factor(inputs, Factor::Freeboard);
    let free = inputs.number(Basins::Freeboard).or(usual);
    let surface = when(by_level, rim.height - water.height, dip + free);
    let unit = system.length();
    let both = inputs.number(Basins::Freeboard).filled();
    surface_limits(rules, inputs, rim, water, both);
    rules.step("rim to water", unit, &sources::FREEBOARD, surface)
}

/// Limits: a water level needs the rim's elevation, and leaves no place for a freeboard.
fn surface_limits(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    rim: &Elevation<Basins>,
    water: &Elevation<Basins>,
    freeboard: Condition,
) {
    rules.limit(
        "water level without rim",
        water.known.clone().and(rim.known.clone().negate()),
        Breach::fault(
            Code::MissingValue,
            inputs.number(Basins::Rim).id,
            "the water level is known and the rim is not",
            "write the elevation of Rim, which depths start from; or the Freeboard instead",
        ),
    );
    rules.limit(
        "water level and freeboard",
        water.known.clone().and(freeboard),
        Breach::fault(
            Code::ConflictingValues,
            inputs.number(Basins::Freeboard).id,
            "both the water level and the freeboard are written",
            "keep one of the two",
        ),
    );
}

/// Limit: a basin that holds no water is looked at.
fn dry(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    surface: Column<Basins>,
    depth: Column<Basins>,
) {
    rules.limit(
        "water below the floor",
        depth.here().above(0.0).and(surface.here().at_least(depth)),
        Breach::warning(
            Code::ConflictingValues,
            inputs.number(Basins::Freeboard).id,
            "the water would stand at the floor or below it, so the basin holds none",
            "check the freeboard, the water level and the depth; 0 is no freeboard",
        ),
    );
}

/// From the water up to the lowest rim. Limit: the water does not stand above it.
fn freeboard(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    surface: Column<Basins>,
    dip: Column<Basins>,
    system: System,
) -> Column<Basins> {
    let freeboard = surface - dip;
    let freeboard = rules.from_job("freeboard at lowest rim", system.length(), freeboard);
    rules.limit(
        "water over the lowest rim",
        freeboard.here().below(0.0),
        Breach::fault(
            Code::ConflictingValues,
            inputs.number(Basins::WaterLevel).id,
            "the water stands above the lowest rim",
            "check the water level and the lowest rim",
        ),
    );
    freeboard
}
