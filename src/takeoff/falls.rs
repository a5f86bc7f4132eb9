//! Waterfalls, streams and rock edges, course by course from the bottom up.
//!
//! Always true: rows stand in the order in which courses are set, bottom first; what is
//! measured for a course or a fall is in a line, or a limit says what is missing.

pub mod around;
pub mod courses;
pub mod elevations;
pub mod order;
pub mod profile;
mod rocks;
pub mod spills;
pub(super) mod taken;

use super::bill::fixed;
use super::cut::Cut;
use super::grades::Graded;
use super::lifted::Lifted;
use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::{Equipment, Falls};
use crate::sources;
use crate::units::System;
use order::{FALL, LAST};

/// The stone of courses that name none.
pub(super) const USUAL_STONE: &str = "Boulders";

/// Order, stone, elevations, water, what lies around the stone, and what each fall comes to.
pub const RULES: &[&[&dyn Rule]] = &[
    order::RULES,
    courses::RULES,
    elevations::RULES,
    elevations::AS_SET_LIMITS,
    spills::RULES,
    around::RULES,
    EACH_FALL,
    profile::RULES,
];

const EACH_FALL: &[&dyn Rule] = &[
    &Limit::<Falls>::open(
        "fall without courses or reach",
        Code::MissingValue,
        Falls::FallKind.at(),
        || LAST.found_none().and(Falls::ReachLength.blank()),
        "nothing is measured of it, so it is not in the bid",
        "add its courses of stone to Courses, or write its reach",
    ),
    &TONS,
    &PIECES,
    &HEAVIEST,
    &MACHINE,
    &RADIUS,
];

/// Tons of stone set.
pub const TONS: Step<Falls> =
    Step::arithmetic("tons of stone", System::weight, || FALL.sum(courses::TONS));

/// Pieces of stone set.
pub const PIECES: Step<Falls> = Step::arithmetic("pieces of stone", System::each, || {
    FALL.sum(courses::PIECES)
});

/// Weight of the heaviest piece.
pub const HEAVIEST: Step<Falls> = Step::new(
    "heaviest piece",
    System::weight,
    &sources::STONE_SIZE,
    || {
        let heaviest = LAST.of(courses::HEAVIEST_SO_FAR);
        when(LAST.found_none(), 0.0, heaviest)
    },
);

/// The machine that sets the stone.
pub const MACHINE: LookUp<Falls, Equipment> =
    LookUp::new("machine row", || Falls::FallLifted.key()).that_must_find();

/// How far it reaches.
pub const RADIUS: Step<Falls> = Step::from_job("radius of the lift", System::length, || {
    Falls::FallRadius.here()
});

/// The heaviest piece of each fall that has courses, at the furthest radius.
pub(super) fn lifted(graph: &mut Graph) -> Vec<Lifted> {
    let (name, at) = (graph.read(Falls::Fall), graph.read(Falls::FallLifted));
    let (weight, machine) = (graph.read(HEAVIEST), graph.read(MACHINE));
    let radius = graph.read(RADIUS);
    let lifted = |row: usize| Lifted {
        name: vec![Piece::Cell(name.at(row))],
        weight: weight.at(row),
        machine: machine.at(row),
        radius: radius.at(row),
        at,
    };
    order::with_courses(graph).map(lifted).collect()
}

/// The shelves that are cut for the courses, one cut a fall.
pub(super) fn cuts(graph: &mut Graph) -> Vec<Cut> {
    let (name, dig) = (graph.read(Falls::Fall), graph.read(around::SHELF_CUT));
    let grade = graph.read(Falls::GRADE_IN_USE);
    let cut = |row: usize| Cut {
        name: vec![fixed("Shelves of "), Piece::Cell(name.at(row))],
        dig: dig.at(row),
        backfill: None,
        grade: grade.at(row),
    };
    order::with_courses(graph).map(cut).collect()
}
