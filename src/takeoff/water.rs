//! Water: what the whole system holds, with the voids of gravel and crates.
//!
//! Counted is the water of all basins, less what is solid in it, and what beds and crates
//! outside their water hold. What is taken for granted:
//! - a bed of a basin lies in its water by the share under water; the stone of that share
//!   takes the place of water, and its voids are part of the basin's water;
//! - a bed of no basin holds water in the voids of its share under water;
//! - a structure stands on the floor of its basin, or in a pit of its own whose depth
//!   counts from the rim; the basin is its own, or that of its bed;
//! - in the basin's water a vault or a weir box takes its whole outside volume, crates
//!   their plastic only; below its floor crates hold what they store;
//! - crates of no basin are full; those of a bed of no basin to the bed's share;
//! - pipes, logs, set stone, water in vaults and what is deducted from a bed by hand are
//!   not counted.

use super::levels::{DEPTH, SURFACE};
use super::structures::{BED, HEIGHT, OUTSIDE, STORED};
use super::{basins, loose};
use crate::graph::prelude::*;
use crate::job::tables::{Basins, Loose, Structures};
use crate::sources;
use crate::tables::SystemWater;
use crate::units::System;

/// The water of the whole system.
pub const RULES: &[&dyn Rule] = &[
    &STONE,
    &HELD_IN_BEDS,
    &SOLID,
    &HELD_IN_CRATES,
    &OF_BASINS,
    &TAKEN,
    &HELD,
    &TOTAL,
    &Limit::<SystemWater>::warning(
        "more stands in the water than there is",
        Code::OutOfRange,
        Loose::UnderWater.at(),
        || TAKEN.above(OF_BASINS),
        "more stone and structures stand in the water than there is of it",
        "write the share of beds that is Under water, and check which basin they stand in",
    ),
];

/// Water of all basins, as if they held nothing else.
pub const OF_BASINS: Step<SystemWater> = Step::new(
    "water of all basins",
    System::water,
    &sources::WATER_HELD,
    || total::<_, Basins>(basins::WATER),
);

/// What stone, crates and structures in them take of it.
pub const TAKEN: Step<SystemWater> = Step::new(
    "taken by what stands in it",
    System::water,
    &sources::WATER_HELD,
    || total::<_, Loose>(STONE) + total(SOLID),
);

/// What beds and crates outside it hold.
pub const HELD: Step<SystemWater> = Step::new(
    "held by beds and crates",
    System::water,
    &sources::WATER_HELD,
    || total::<_, Loose>(HELD_IN_BEDS) + total(HELD_IN_CRATES),
);

/// All of it.
pub const TOTAL: Step<SystemWater> = Step::new(
    "water of the system",
    System::water,
    &sources::WATER_HELD,
    || OF_BASINS - TAKEN + HELD,
);

/// Stone of each bed in the water of a basin.
const STONE: Step<Loose> = Step::new(
    "stone in a basin's water",
    System::water,
    &sources::WATER_HELD,
    || {
        let stone = loose::SOLID * loose::UNDER_WATER;
        when(Loose::LooseBasin.blank(), 0.0, stone)
    },
);

/// Water that each bed of no basin holds.
const HELD_IN_BEDS: Step<Loose> = Step::new(
    "water held beside basins",
    System::water,
    &sources::WATER_HELD,
    || {
        let held = loose::HELD * loose::UNDER_WATER;
        when(Loose::LooseBasin.blank(), held, 0.0)
    },
);

/// The basin that a structure stands in: its own, or that of its bed.
const BASIN_IN_USE: Wording<Structures> = Wording::new("basin in use", || {
    let own = Structures::StructureBasin;
    either(own.blank(), BED.words_of(Loose::LooseBasin), own.words())
});

const HOME: LookUp<Structures, Basins> = LookUp::new("basin row", || BASIN_IN_USE.key());

/// Depth of the floor in the basin of a structure.
const FLOOR: Step<Structures> =
    Step::from_job("floor of its basin", System::length, || HOME.of(DEPTH));

/// Depth of the water's surface there.
const WATER: Step<Structures> =
    Step::from_job("water of its basin", System::length, || HOME.of(SURFACE));

const UNDERSIDE: Step<Structures> =
    Step::geometry("underside below the rim", System::length, || {
        Structures::CutDepth.or(FLOOR)
    });

const TOP: Step<Structures> =
    Step::geometry("top below the rim", System::length, || UNDERSIDE - HEIGHT);

/// How much of a structure's height lies in the water of its basin; zero without a basin.
const IN_WATER: Step<Structures> =
    Step::geometry("share in its basin's water", System::percent, || {
        share(lowest(UNDERSIDE, FLOOR) - highest(TOP, WATER))
    });

/// How much lies below its basin's floor; zero without a basin.
const BELOW_FLOOR: Step<Structures> =
    Step::geometry("share below its basin's floor", System::percent, || {
        share(UNDERSIDE - highest(TOP, FLOOR))
    });

/// The share that a part of a structure's height is, where it has a height and a basin.
fn share(part: Term<Structures>) -> Term<Structures> {
    let known = HEIGHT.above(0.0).and(HOME.found());
    when(known, highest(0.0, part) / HEIGHT, 0.0)
}

/// What each structure takes of the water of its basin.
const SOLID: Step<Structures> = Step::new(
    "taken of its basin's water",
    System::water,
    &sources::WATER_HELD,
    || {
        let is_wall = Structures::StructureKind.is("wall kept");
        when(is_wall, 0.0, (OUTSIDE - STORED) * IN_WATER)
    },
);

/// The share of its crates that lies outside the water of basins.
const COUNTED: Step<Structures> = Step::new(
    "share of its crates that counts",
    System::percent,
    &sources::WATER_HELD,
    || {
        let of_bed = when(BED.found_none(), 1.0, BED.of(loose::UNDER_WATER));
        when(HOME.found_none(), of_bed, BELOW_FLOOR)
    },
);

/// What crates hold outside the water of basins.
const HELD_IN_CRATES: Step<Structures> = Step::new(
    "water held in crates outside",
    System::water,
    &sources::WATER_HELD,
    || STORED * COUNTED,
);
