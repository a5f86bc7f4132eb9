//! The surface that a sheet covers in a basin: its length and width measured along the
//! profile from rim to rim, its area, and the way round the rim.
//!
//! Always true: through slopes the way along the surface is at least the way across, and
//! at most the way across and twice the depth, which it is where walls are upright.

use crate::graph::Table;
use crate::graph::prelude::*;
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::takeoff::basins::{
    self, FLOOR_LENGTH, FLOOR_WIDTH, INSIDE_LENGTH, INSIDE_WIDTH, LAST_SHELF,
};
use crate::takeoff::levels::DEPTH;
use crate::takeoff::outline::{self, AREA_FACTOR};
use crate::takeoff::shelves::{self, BASIN, DROP};
use crate::units::System;

/// The developed surface of every basin, and its rim.
pub(super) const RULES: &[&dyn Rule] = &[&LENGTH, &WIDTH, &SURFACE, &RIM];

/// From rim to rim along the length, through shelves and slopes; of an ellipse along its
/// axis.
pub(super) const LENGTH: Step<Basins> = Step::new(
    "developed length",
    System::length,
    &sources::DEVELOPED,
    || {
        let slopes = FLOOR_LENGTH + SIDE_DOWN + RAMP_DOWN;
        slopes + BASIN.sum(ALONG) + SIDE_BELOW + RAMP_BELOW
    },
);

/// The same across the width.
pub(super) const WIDTH: Step<Basins> = Step::new(
    "developed width",
    System::length,
    &sources::DEVELOPED,
    || FLOOR_WIDTH + 2.0 * SIDE_DOWN + BASIN.sum(ACROSS) + 2.0 * SIDE_BELOW,
);

/// The surface itself, without edges: floor, slopes and treads of shelves.
pub(super) const SURFACE: Step<Basins> = Step::new(
    "lined surface",
    System::area,
    &sources::LINED_SURFACE,
    || {
        let floor = AREA_FACTOR * FLOOR_LENGTH * FLOOR_WIDTH;
        floor + TO_THE_FLOOR + BASIN.sum(STEP_SURFACE)
    },
);

/// The way round the rim.
const RIM: Step<Basins> = Step::new("lined rim", System::length, &sources::ELLIPSE, || {
    let straight = 2.0 * (outline::LENGTH + outline::WIDTH);
    when(
        is_straight(),
        straight,
        ellipse(outline::LENGTH, outline::WIDTH),
    )
});

/// 1 where the rim is a rectangle.
const STRAIGHT: Step<Basins> = Step::from_job("straight sides", System::number, || {
    when(Basins::Shape.is("rectangle"), 1.0, 0.0)
});

fn is_straight() -> Condition {
    STRAIGHT.same_as(1.0)
}

/// The way round a line beside the rim, at a distance out from it: longer than the rim by
/// eight times that distance round a rectangle, by a full turn of it round a curve.
pub(super) fn beside_the_rim<T>(link: impl Looks<T, Basins>, out: Term<T>) -> Term<T> {
    let is_straight = link.of(STRAIGHT).same_as(1.0);
    link.of(RIM) + when(is_straight, 8.0 * out.clone(), 2.0 * pi() * out)
}

/// How much longer a side is below the stone that lies on the sheet than on the finished
/// surface: the slope of the rim runs on up to the rim's level.
const SIDE_BELOW: Step<Basins> = Step::new(
    "side longer below the ballast",
    System::length,
    &sources::DEVELOPED,
    || down_the_slope(Basins::Ballast.here(), basins::RIM_SIDE),
);

/// The same of the ramp end.
const RAMP_BELOW: Step<Basins> = Step::new(
    "ramp longer below the ballast",
    System::length,
    &sources::DEVELOPED,
    || down_the_slope(Basins::Ballast.here(), basins::RIM_RAMP),
);

/// The side from the last shelf, or from the rim, down to the floor.
const SIDE_DOWN: Step<Basins> = Step::new(
    "side down to the floor",
    System::length,
    &sources::DEVELOPED,
    || down_the_slope(DEPTH - LAST_SHELF, outline::SIDE),
);

/// The same of the ramp end.
const RAMP_DOWN: Step<Basins> = Step::new(
    "ramp down to the floor",
    System::length,
    &sources::DEVELOPED,
    || down_the_slope(DEPTH - LAST_SHELF, outline::RAMP),
);

const TO_THE_FLOOR: Step<Basins> = Step::new(
    "lined slope to the floor",
    System::area,
    &sources::LINED_SURFACE,
    || {
        slope_area(
            is_straight(),
            AREA_FACTOR.here(),
            DEPTH - LAST_SHELF,
            [INSIDE_LENGTH, INSIDE_WIDTH],
            [FLOOR_LENGTH, FLOOR_WIDTH],
            [SIDE_DOWN, RAMP_DOWN],
        )
    },
);

/// What a step of the profile adds along the length: its slopes, and its tread at both ends.
const ALONG: Step<Shelves> = Step::new(
    "developed along the length",
    System::length,
    &sources::DEVELOPED,
    || STEP_SIDE + STEP_RAMP + 2.0 * Shelves::ShelfWidth,
);

/// The same across the width.
const ACROSS: Step<Shelves> = Step::new(
    "developed across the width",
    System::length,
    &sources::DEVELOPED,
    || 2.0 * STEP_SIDE + 2.0 * Shelves::ShelfWidth,
);

const STEP_SIDE: Step<Shelves> = Step::new(
    "side down to the shelf",
    System::length,
    &sources::DEVELOPED,
    || down_the_slope(DROP.here(), shelves::SIDE),
);

const STEP_RAMP: Step<Shelves> = Step::new(
    "ramp down to the shelf",
    System::length,
    &sources::DEVELOPED,
    || down_the_slope(DROP.here(), shelves::RAMP),
);

const TREAD_LENGTH: Step<Shelves> = Step::new(
    "length at the tread",
    System::length,
    &sources::DEVELOPED,
    || shelves::LENGTH - DROP * (shelves::SIDE + shelves::RAMP),
);

const TREAD_WIDTH: Step<Shelves> = Step::new(
    "width at the tread",
    System::length,
    &sources::DEVELOPED,
    || shelves::WIDTH - DROP * shelves::SIDE * 2.0,
);

const TO_THE_SHELF: Step<Shelves> = Step::new(
    "lined slope to the shelf",
    System::area,
    &sources::LINED_SURFACE,
    || {
        slope_area(
            BASIN.of(STRAIGHT).same_as(1.0),
            BASIN.of(AREA_FACTOR),
            DROP.here(),
            [shelves::LENGTH, shelves::WIDTH],
            [TREAD_LENGTH, TREAD_WIDTH],
            [STEP_SIDE, STEP_RAMP],
        )
    },
);

/// The slope and the tread of a step.
const STEP_SURFACE: Step<Shelves> = Step::geometry("lined surface", System::area, || {
    let tread = Shelves::ShelfWidth;
    let inner = (TREAD_LENGTH - 2.0 * tread) * (TREAD_WIDTH - 2.0 * tread);
    let ring = BASIN.of(AREA_FACTOR) * (TREAD_LENGTH * TREAD_WIDTH - inner);
    TO_THE_SHELF + ring
});

/// Length down a slope: drop × √(1 + slope²).
fn down_the_slope<T: Table>(drop: Term<T>, slope: Step<T>) -> Term<T> {
    drop * (slope * slope + 1.0).root()
}

/// Area of a slope all the way round, from an outline at its top to one at its foot, each
/// by its length and width; down it are the lengths of its sides and of its ramp end.
///
/// Straight sides are four trapezoids. Round an ellipse it is the larger of two figures that
/// are both exact for a circle: π/4 of those trapezoids, which is near where one end is a
/// ramp, and √(upright² + plan²), which is near where all sides are alike; upright is the
/// mean perimeter × the drop, plan the ring between the outlines as seen from above.
fn slope_area<T: Table>(
    is_straight: Condition,
    area_factor: Term<T>,
    drop: Term<T>,
    [top_length, top_width]: [Step<T>; 2],
    [foot_length, foot_width]: [Step<T>; 2],
    [side, ramp]: [Step<T>; 2],
) -> Term<T> {
    let long = (top_length + foot_length) * side;
    let ends = (top_width + foot_width) * (side + ramp) / 2.0;
    let trapezoids = long + ends;
    let perimeter = (ellipse(top_length, top_width) + ellipse(foot_length, foot_width)) / 2.0;
    let upright = (perimeter * drop).number_in(System::area);
    let ring = top_length * top_width - foot_length * foot_width;
    let ring = area_factor.clone() * ring;
    let plan = ring.number_in(System::area);
    let even = (upright.clone() * upright + plan.clone() * plan).root();
    let like_straight = area_factor * trapezoids.clone();
    let round = highest(like_straight, even.counted_in(System::area));
    when(is_straight, trapezoids, round)
}

/// Perimeter of an ellipse by its two axes: π/2 × (3 (a + b) − √((3a + b)(a + 3b))).
///
/// An impossible outline, which a limit reports, has no root to take: it counts as zero.
fn ellipse<T: Table>(a: Step<T>, b: Step<T>) -> Term<T> {
    let product = (3.0 * a + b) * (a + 3.0 * b);
    let product = highest(product.number_in(System::area), 0.0);
    let root = product.root().counted_in(System::length);
    pi() / 2.0 * (3.0 * (a + b) - root)
}
