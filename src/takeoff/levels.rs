//! Levels of a basin: depth, freeboard and the water's surface, from measures, elevations
//! or rod readings.
//!
//! Always true: where two cells say one thing twice, they agree to the hundredth, or a
//! limit is broken.

use super::book::factor;
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Condition, Rules, only, when};
use crate::job::tables::{Basins, JobKeys};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Depths below the rim.
#[derive(Clone, Copy)]
pub(super) struct Levels {
    pub(super) depth: Column<Basins>,
    pub(super) freeboard: Column<Basins>,
    pub(super) water: Column<Basins>,
}

/// Depth, freeboard and the depth of the water's surface, from elevations or rod readings.
pub(super) fn levels(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    wide: &JobWide,
    system: System,
) -> Levels {
    let basins = &inputs.basins;
    let (rim, rim_known) = elevation(
        rules,
        inputs,
        wide,
        "rim elevation",
        Basins::Rim,
        Basins::RimRod,
        system,
    );
    let (floor, floor_known) = elevation(
        rules,
        inputs,
        wide,
        "floor elevation",
        Basins::FloorLevel,
        Basins::FloorRod,
        system,
    );
    let (low, low_known) = elevation(
        rules,
        inputs,
        wide,
        "lowest rim elevation",
        Basins::LowestRim,
        Basins::LowestRimRod,
        system,
    );
    let (water, water_known) = elevation(
        rules,
        inputs,
        wide,
        "water elevation",
        Basins::WaterLevel,
        Basins::WaterLevelRod,
        system,
    );
    let measured = basins.number(Basins::Depth);
    let both = rim_known.clone().and(floor_known);
    let depth = rules.step(
        "depth to floor",
        system.length(),
        &sources::JOB,
        measured.or(when(both.clone(), rim - floor, 0.0)),
    );
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
    rules.limit(
        "depth against elevations",
        measured.filled().and(both).and(
            (depth - (rim - floor))
                .round_in(system.length(), 2)
                .differs_from(0.0),
        ),
        Breach::fault(
            Code::ConflictingValues,
            measured.id,
            "the depth and the elevations of rim and floor disagree",
            "keep one of the two",
        ),
    );
    rules.limit(
        "lowest rim without rim",
        low_known.clone().and(rim_known.clone().negate()),
        Breach::fault(
            Code::MissingValue,
            basins.number(Basins::Rim).id,
            "the lowest rim is known and the rim is not",
            "write the elevation of Rim, which depths start from",
        ),
    );
    let dip = rules.step(
        "dip of the rim",
        system.length(),
        &sources::JOB,
        when(rim_known.clone().and(low_known), rim - low, 0.0),
    );
    rules.limit(
        "lowest rim above rim",
        dip.here().below(0.0),
        Breach::fault(
            Code::ConflictingValues,
            basins.number(Basins::LowestRim).id,
            "the lowest rim is higher than the rim",
            "measure depths from the higher of the two",
        ),
    );
    let by_level = rim_known.and(water_known.clone());
    let free = basins
        .number(Basins::Freeboard)
        .or(factor(inputs, Factor::Freeboard));
    let surface = when(by_level, rim - water, dip + free);
    let surface = rules.step(
        "rim to water",
        system.length(),
        &sources::FREEBOARD,
        surface,
    );
    let freeboard = rules.step(
        "freeboard at lowest rim",
        system.length(),
        &sources::JOB,
        surface - dip,
    );
    rules.limit(
        "water over the lowest rim",
        freeboard.here().below(0.0),
        Breach::fault(
            Code::ConflictingValues,
            basins.number(Basins::WaterLevel).id,
            "the water stands above the lowest rim",
            "check the water level and the lowest rim",
        ),
    );
    Levels {
        depth,
        freeboard,
        water: surface,
    }
}

/// An elevation, given as such or as a rod reading, and whether either is there.
fn elevation(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    wide: &JobWide,
    name: &str,
    level: Basins,
    rod: Basins,
    system: System,
) -> (Column<Basins>, Condition) {
    let (level, rod) = (inputs.basins.number(level), inputs.basins.number(rod));
    let by_rod = only(wide.instrument) - rod;
    rules.limit(
        &format!("{name} rod without benchmark"),
        rod.filled()
            .and(only::<Basins, JobKeys>(wide.levelled).same_as(0.0)),
        Breach::fault(
            Code::MissingValue,
            rod.id,
            "a rod reading needs the benchmark and the backsight",
            "write Benchmark and Backsight in Job",
        ),
    );
    rules.limit(
        &format!("{name} against rod"),
        level.filled().and(rod.filled()).and(
            (level - by_rod.clone())
                .round_in(system.length(), 2)
                .differs_from(0.0),
        ),
        Breach::fault(
            Code::ConflictingValues,
            level.id,
            "the elevation and its rod reading disagree",
            "keep one of the two",
        ),
    );
    let value = level.or(when(rod.blank(), 0.0, by_rod));
    let column = rules.step(name, system.length(), &sources::JOB, value);
    (column, level.filled().or(rod.filled()))
}
