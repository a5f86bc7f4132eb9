//! The finished shape of basins: levels, profile through the shelves, volume and water.
//!
//! A basin's profile is a stack of slices: one for each shelf, and one from the last
//! shelf to the floor. Sides slope evenly within a slice, so that the prismoidal
//! formula is exact. Always true: shelves go down and in; where the measures do not
//! make a solid, a limit is broken and the job is refused.
//!
//! For an ellipse the slope is the one on its axes: each level is an ellipse whose axes
//! are shorter by the run at both ends.

use super::book::{self, SHAPE};
use super::levels::{DEPTH, SURFACE};
use super::shelves;
use crate::graph::Table;
use crate::graph::prelude::*;
use crate::job::tables::Basins;
use crate::sources;
use crate::tables::Shapes;
use crate::units::System;

/// The outline of every basin.
pub const OUTLINE: &[&dyn Rule] = &[
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

/// One slice of a profile: its size at the top, and how its sides slope.
pub(super) struct Slice<T> {
    pub(super) area_factor: fn() -> Term<T>,
    pub(super) length: Step<T>,
    pub(super) width: Step<T>,
    pub(super) from: Step<T>,
    pub(super) to: Step<T>,
    pub(super) side: Step<T>,
    pub(super) ramp: Step<T>,
}

impl<T: Table> Slice<T> {
    /// Length at a level inside the slice.
    pub(super) fn length_at(&self, level: Step<T>) -> Term<T> {
        self.length - (level - self.from) * (self.side + self.ramp)
    }

    /// Width at a level inside the slice.
    pub(super) fn width_at(&self, level: Step<T>) -> Term<T> {
        self.width - (level - self.from) * self.side * 2.0
    }

    /// Volume from a level of the slice, with its length and width, to the slice's foot.
    pub(super) fn solid(
        &self,
        top: (Step<T>, Step<T>),
        level: Step<T>,
        foot: (Step<T>, Step<T>),
    ) -> Term<T> {
        frustum((self.area_factor)(), top, foot, self.to - level)
    }
}

/// Volume of a solid whose sides run straight from one outline to another, by the
/// prismoidal formula: height × (top + 4 × middle + foot) ÷ 6.
///
/// The middle section's sides are the means of the two, so four times its area is the
/// product of the sums. Exact where the sides are plane.
pub(super) fn frustum<T: Table>(
    area_factor: Term<T>,
    top: (Step<T>, Step<T>),
    foot: (Step<T>, Step<T>),
    height: Term<T>,
) -> Term<T> {
    let four_middles = (top.0 + foot.0) * (top.1 + foot.1);
    area_factor * (top.0 * top.1 + four_middles + foot.0 * foot.1) * height / 6.0
}
