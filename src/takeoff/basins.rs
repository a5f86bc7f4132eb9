//! The finished shape of basins: levels, profile through the shelves, volume and water.
//!
//! A basin's profile is a stack of slices: one for each shelf, and one from the last
//! shelf to the floor. Always true: shelves go down and in; where the measures do not
//! make a solid, a limit is broken and the job is refused.

use super::levels::{DEPTH, SURFACE};
use super::outline::{AREA_FACTOR, LENGTH, RAMP, SIDE, WIDTH};
use super::shelves;
use super::slices::Slice;
use crate::graph::prelude::*;
use crate::job::tables::Basins;
use crate::sources;
use crate::units::System;

/// The finished shape of every basin, and what makes it a solid.
pub const RULES: &[&dyn Rule] = &[
    &LAST_SHELF,
    &INSIDE_LENGTH,
    &INSIDE_WIDTH,
    &RIM_SIDE,
    &RIM_RAMP,
    &TO_FLOOR,
    &WET,
    &FLOOR_LENGTH,
    &FLOOR_WIDTH,
    &Limit::<Basins>::fault(
        "slopes meet above the floor",
        Code::ShapeImpossible,
        Basins::SideSlope.at(),
        || {
            // Shelves that leave no room are reported at the shelf, not here once more.
            let length = INSIDE_LENGTH.below(0.0).negate();
            let inside = length.and(INSIDE_WIDTH.below(0.0).negate());
            inside.and(FLOOR_LENGTH.below(0.0).or(FLOOR_WIDTH.below(0.0)))
        },
        "the slopes meet above the floor",
        "make the sides steeper, the basin shallower or its outline larger",
    ),
    &VOLUME,
    &WATER,
];

/// From the rim to the last shelf; zero where there is none.
pub const LAST_SHELF: Step<Basins> = Step::geometry("depth to last shelf", System::length, || {
    shelves::BASIN.sum(shelves::DROP)
});

/// Length inside the last shelf, or at the rim where there is none.
pub const INSIDE_LENGTH: Step<Basins> =
    Step::geometry("length inside the shelves", System::length, || {
        LENGTH - shelves::BASIN.sum(shelves::LENGTH_RUN)
    });

/// Width inside the last shelf, or at the rim where there is none.
pub const INSIDE_WIDTH: Step<Basins> =
    Step::geometry("width inside the shelves", System::length, || {
        WIDTH - shelves::BASIN.sum(shelves::WIDTH_RUN)
    });

/// Slope of the sides at the rim: that above the first shelf, or the basin's own where there
/// is none.
pub const RIM_SIDE: Step<Basins> = Step::from_job("side slope at the rim", System::slope, || {
    let above_shelf = shelves::BASIN.sum(shelves::RIM_SIDE);
    when(LAST_SHELF.above(0.0), above_shelf, SIDE)
});

/// Slope of the ramp end at the rim: that above the first shelf, or the basin's own.
pub const RIM_RAMP: Step<Basins> = Step::from_job("ramp slope at the rim", System::slope, || {
    let above_shelf = shelves::BASIN.sum(shelves::RIM_RAMP);
    when(LAST_SHELF.above(0.0), above_shelf, RAMP)
});

/// The slice from the last shelf, or from the rim where there is none, to the floor.
const SLICE: Slice<Basins> = Slice {
    area_factor: || AREA_FACTOR.here(),
    length: INSIDE_LENGTH,
    width: INSIDE_WIDTH,
    from: LAST_SHELF,
    to: DEPTH,
    side: SIDE,
    ramp: RAMP,
};

const FOOT_LENGTH: Step<Basins> =
    Step::geometry("foot length to the floor", System::length, || {
        SLICE.length_at(DEPTH)
    });

const FOOT_WIDTH: Step<Basins> = Step::geometry("foot width to the floor", System::length, || {
    SLICE.width_at(DEPTH)
});

/// Length of the floor.
pub const FLOOR_LENGTH: Step<Basins> =
    Step::geometry("floor length", System::length, || SLICE.length_at(DEPTH));

/// Width of the floor.
pub const FLOOR_WIDTH: Step<Basins> =
    Step::geometry("floor width", System::length, || SLICE.width_at(DEPTH));

const TO_FLOOR: Step<Basins> = Step::new(
    "volume to the floor",
    System::volume,
    &sources::PRISMOIDAL,
    || {
        let top = (INSIDE_LENGTH, INSIDE_WIDTH);
        SLICE.solid(top, LAST_SHELF, (FOOT_LENGTH, FOOT_WIDTH))
    },
);

/// Volume from the rim to the finished surface.
pub const VOLUME: Step<Basins> = Step::new(
    "finished volume",
    System::volume,
    &sources::PRISMOIDAL,
    || TO_FLOOR + shelves::BASIN.sum(shelves::VOLUME),
);

/// Where the water's surface stands below the last shelf: at the shelf or the floor where
/// not between them.
const WET_FROM: Step<Basins> = Step::geometry("level under water", System::length, || {
    lowest(DEPTH, highest(LAST_SHELF, SURFACE))
});

const WET_LENGTH: Step<Basins> =
    Step::geometry("length at level under water", System::length, || {
        SLICE.length_at(WET_FROM)
    });

const WET_WIDTH: Step<Basins> =
    Step::geometry("width at level under water", System::length, || {
        SLICE.width_at(WET_FROM)
    });

const WET_FOOT_LENGTH: Step<Basins> =
    Step::geometry("foot length under water", System::length, || {
        SLICE.length_at(DEPTH)
    });

const WET_FOOT_WIDTH: Step<Basins> =
    Step::geometry("foot width under water", System::length, || {
        SLICE.width_at(DEPTH)
    });

const WET: Step<Basins> = Step::new(
    "volume under water",
    System::water,
    &sources::PRISMOIDAL,
    || {
        let surface = (WET_LENGTH, WET_WIDTH);
        SLICE.solid(surface, WET_FROM, (WET_FOOT_LENGTH, WET_FOOT_WIDTH))
    },
);

/// Volume of water.
pub const WATER: Step<Basins> =
    Step::new("water volume", System::water, &sources::PRISMOIDAL, || {
        WET + shelves::BASIN.sum(shelves::WATER)
    });
