//! Shelves: each step of a basin's profile, from the rim down.
//!
//! Always true: shelves go down and in, or a limit is broken and the job is refused.

use super::levels::{DEPTH, SURFACE};
use super::outline;
use super::slices::Slice;
use super::written::says;
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::units::System;

/// The volumes of the steps, and where shelves may lie.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Shelves>::fault(
        "shelf below its basin",
        Code::ShapeImpossible,
        Shelves::ShelfDepth.at(),
        || TO.at_least(BASIN.of(DEPTH)),
        "the shelf is as deep as its basin or deeper",
        "a shelf lies above the floor: check both depths and their units",
    ),
    &Limit::<Shelves>::fault(
        "shelf above the one before",
        Code::ShapeImpossible,
        Shelves::ShelfDepth.at(),
        || DROP.above(0.0).negate(),
        "the shelf is not below the step before it",
        "list the shelves of a basin from the rim down",
    ),
    &Limit::<Shelves>::fault(
        "shelves meet",
        Code::ShapeImpossible,
        Shelves::ShelfWidth.at(),
        || INNER_LENGTH.below(0.0).or(INNER_WIDTH.below(0.0)),
        "the slopes and shelves meet before this step is complete",
        "make the shelf narrower, the slope steeper or the basin larger",
    ),
];

/// The basin of each shelf.
pub const BASIN: LookUp<Shelves, Basins> = LookUp::new("basin row", || Shelves::ShelfBasin.key());

/// The rows of the shelves of a basin.
pub(super) fn of_basin(graph: &Graph, basin: usize) -> Vec<usize> {
    let name = graph.written(graph.id(Basins::Basin).at(basin));
    let rows = 0..graph.rows(graph.id(Shelves::ShelfBasin));
    rows.filter(|row| says(graph, Shelves::ShelfBasin, *row, name))
        .collect()
}

/// From the rim down to the shelf.
const TO: Step<Shelves> = Step::from_job("depth to shelf", System::length, || {
    Shelves::ShelfDepth.here()
});

/// From the rim down to the step above; zero of a basin's first step.
const FROM: Step<Shelves> = Step::from_job("depth to step above", System::length, || {
    TO.row_above(BASIN, 0.0)
});

/// From the step above down to the shelf.
pub const DROP: Step<Shelves> = Step::geometry("drop", System::length, || TO - FROM);

/// Slope of the sides above the shelf; where blank, the basin's.
pub const SIDE: Step<Shelves> = Step::from_job("side slope above", System::slope, || {
    Shelves::SlopeAbove.or(BASIN.of(outline::SIDE))
});

/// Slope of the ramp end above the shelf; where blank, the basin's.
pub const RAMP: Step<Shelves> = Step::from_job("ramp slope above", System::slope, || {
    Shelves::SlopeAbove.or(BASIN.of(outline::RAMP))
});

/// Slope of the sides of a basin's first step, for the basin to sum; zero below it.
pub(super) const RIM_SIDE: Step<Shelves> =
    Step::from_job("side slope at the rim", System::slope, || {
        when(FROM.same_as(0.0), SIDE, 0.0)
    });

/// Slope of the ramp end of a basin's first step, for the basin to sum; zero below it.
pub(super) const RIM_RAMP: Step<Shelves> =
    Step::from_job("ramp slope at the rim", System::slope, || {
        when(FROM.same_as(0.0), RAMP, 0.0)
    });

/// How far a step leads in at both ends: the run of its slopes, and twice its width.
pub(super) const LENGTH_RUN: Step<Shelves> =
    Step::geometry("run along the length", System::length, || {
        DROP * (SIDE + RAMP) + 2.0 * Shelves::ShelfWidth
    });

/// How far a step leads in at both sides.
pub(super) const WIDTH_RUN: Step<Shelves> =
    Step::geometry("run across the width", System::length, || {
        DROP * SIDE * 2.0 + 2.0 * Shelves::ShelfWidth
    });

/// Length left inside each shelf: that of the step above less the run.
const INNER_LENGTH: Step<Shelves> = Step::running(
    "length inside the shelf",
    System::length,
    &sources::GEOMETRY,
    |own| own.row_above(BASIN, BASIN.of(outline::LENGTH)) - LENGTH_RUN,
);

/// Width left inside each shelf: that of the step above less the run.
pub const INNER_WIDTH: Step<Shelves> = Step::running(
    "width inside the shelf",
    System::length,
    &sources::GEOMETRY,
    |own| own.row_above(BASIN, BASIN.of(outline::WIDTH)) - WIDTH_RUN,
);

/// Length where the slopes above a shelf begin.
pub const LENGTH: Step<Shelves> =
    Step::geometry("length at the step above", System::length, || {
        INNER_LENGTH + LENGTH_RUN
    });

/// Width where the slopes above a shelf begin.
pub const WIDTH: Step<Shelves> = Step::geometry("width at the step above", System::length, || {
    INNER_WIDTH + WIDTH_RUN
});

/// The slice from the step above down to the shelf.
const SLICE: Slice<Shelves> = Slice {
    area_factor: || BASIN.of(outline::AREA_FACTOR),
    length: LENGTH,
    width: WIDTH,
    from: FROM,
    to: TO,
    side: SIDE,
    ramp: RAMP,
};

const FOOT_LENGTH: Step<Shelves> =
    Step::geometry("foot length down to the shelf", System::length, || {
        SLICE.length_at(TO)
    });

const FOOT_WIDTH: Step<Shelves> =
    Step::geometry("foot width down to the shelf", System::length, || {
        SLICE.width_at(TO)
    });

/// Volume from the step above down to the shelf.
pub(super) const VOLUME: Step<Shelves> = Step::new(
    "volume down to the shelf",
    System::volume,
    &sources::PRISMOIDAL,
    || SLICE.solid((LENGTH, WIDTH), FROM, (FOOT_LENGTH, FOOT_WIDTH)),
);

/// Where the water's surface stands in the step: at its top or its foot where not inside.
const WET_FROM: Step<Shelves> = Step::geometry("level under water", System::length, || {
    lowest(TO, highest(FROM, BASIN.of(SURFACE)))
});

const WET_LENGTH: Step<Shelves> =
    Step::geometry("length at level under water", System::length, || {
        SLICE.length_at(WET_FROM)
    });

const WET_WIDTH: Step<Shelves> =
    Step::geometry("width at level under water", System::length, || {
        SLICE.width_at(WET_FROM)
    });

/// Water in the step.
pub(super) const WATER: Step<Shelves> = Step::new(
    "volume under water",
    System::water,
    &sources::PRISMOIDAL,
    || {
        let surface = (WET_LENGTH, WET_WIDTH);
        SLICE.solid(surface, WET_FROM, (FOOT_LENGTH, FOOT_WIDTH))
    },
);
