//! The long section of every fall as points: what the workbook draws, over live cells.
//!
//! Three points a course, from the bottom up: its bed and its top at the face, and its
//! top where the next face stands, or at the back of the last. Joined in their order they
//! draw the stone as steps; their beds and the water over them, each with the same
//! distances, are two more lines.

use super::elevations::{self, BACK, TOP};
use super::order;
use super::spills;
use crate::graph::prelude::*;
use crate::graph::{Cell, Graph, Piece};
use crate::job::tables::Falls;
use crate::tables::FallPoints;
use crate::units::System;

/// The points of every fall.
pub(super) const RULES: &[&dyn Rule] = &[&FALL, &DISTANCE, &STONE, &BED, &WATER];

/// Where one point comes from.
struct Point {
    fall: Cell,
    distance: Cell,
    stone: Cell,
    bed: Cell,
    water: Cell,
}

/// How many points a course has.
const OF_A_COURSE: usize = 3;

/// The points of all courses, fall by fall.
const POINTS: Roster<FallPoints, Point> = Roster::new(|graph| {
    let name = graph.read(Falls::Fall);
    let (face, back) = (graph.read(elevations::DISTANCE), graph.read(BACK));
    let (bed, top) = (graph.read(elevations::BED), graph.read(TOP));
    let water = graph.read(spills::WATER);
    let mut points = Vec::new();
    for (fall, (first, count)) in order::rows_of(graph).into_iter().enumerate() {
        for row in first..first + count {
            let is_last = row + 1 == first + count;
            let end = if is_last {
                back.at(row)
            } else {
                face.at(row + 1)
            };
            let outline = [(face.at(row), bed), (face.at(row), top), (end, top)];
            points.extend(outline.map(|(distance, stone)| Point {
                fall: name.at(fall),
                distance,
                stone: stone.at(row),
                bed: bed.at(row),
                water: water.at(row),
            }));
        }
    }
    points
});

/// First row and number of rows of each fall's points.
#[must_use]
pub fn rows_of(graph: &Graph) -> Vec<(usize, usize)> {
    let courses = order::rows_of(graph).into_iter();
    courses
        .map(|(first, count)| (OF_A_COURSE * first, OF_A_COURSE * count))
        .collect()
}

/// The fall's name.
pub const FALL: Wording<FallPoints> = Wording::gathered("fall", |graph| {
    POINTS.words(graph, |point| vec![Piece::Cell(point.fall)])
})
.naming_rows();

/// Distance back from the face of the first course.
pub const DISTANCE: Step<FallPoints> = Step::gathered("distance", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.distance))
});

/// Elevation of the stone's outline.
pub const STONE: Step<FallPoints> = Step::gathered("stone", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.stone))
});

/// Elevation of the bed of the point's course.
pub const BED: Step<FallPoints> = Step::gathered("bed", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.bed))
});

/// Elevation of the water over the point's course; its top where none runs.
pub const WATER: Step<FallPoints> = Step::gathered("water", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.water))
});
