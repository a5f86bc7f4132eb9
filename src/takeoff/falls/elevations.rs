//! Elevations of courses, from the bottom up: each bed from the top of the course below.
//!
//! Always true: a course whose top is given as set moves everything above it and nothing
//! below. Where the foot has no elevation, all are heights above the foot.

use super::courses::{DEPTH, HEIGHT};
use super::order::{ABOVE, FALL, LAST};
use crate::graph::prelude::*;
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::levels::{
    against_rod, by_level_or_rod, disagree, is_known, is_unread, without_benchmark,
};
use crate::units::System;

/// Elevations of every fall and course, and how far back each course stands. The next course
/// is bedded no higher than the top of a course and above its bed, and all come to what was
/// planned, or a limit is broken.
pub(super) const RULES: &[&dyn Rule] = &[
    &FOOT,
    &without_benchmark::<Falls>(
        "foot elevation rod without benchmark",
        Falls::FootRod.at(),
        || is_unread(Falls::FootRod),
    ),
    &against_rod::<Falls>("foot elevation against rod", Falls::Foot.at(), || {
        disagree(Falls::Foot, Falls::FootRod)
    }),
    &RISE,
    &Limit::<Courses>::warning(
        "rise above the stone",
        Code::ConflictingValues,
        Courses::Rise.at(),
        || ABOVE.above(0.0).and(RISE.above(HEIGHT)),
        "the next course is bedded above the top of this stone, which leaves a gap",
        "check Rise and Height and their units",
    ),
    &Limit::<Courses>::open(
        "course that does not rise",
        Code::MissingValue,
        Courses::Rise.at(),
        || {
            let low = Term::<Courses>::from(Factor::NextBed).at_least(HEIGHT);
            let flat = Courses::Rise.blank().and(HEIGHT.above(0.0)).and(low);
            ABOVE.above(0.0).and(flat)
        },
        "the next course would not rise: this stone is no higher than the next one is usually bedded below its top",
        "write Rise, from this bed up to the next",
    ),
    &TOP,
    &BED,
    &DISTANCE,
    &BACK,
    &TOTAL_RISE,
    &Limit::<Falls>::warning(
        "total rise against plan",
        Code::ConflictingValues,
        Falls::PlannedRise.at(),
        || {
            let (rise, planned) = (TOTAL_RISE, Falls::PlannedRise);
            let off = highest::<Falls>(rise, planned) - lowest(rise, planned);
            let measured = LAST.found().and(planned.filled());
            measured.and(off.above(Factor::RiseApart))
        },
        "the courses do not come to the planned rise",
        "check the rise of each course, or the plan; a course as set moves all above it",
    ),
];

/// A course as set has an elevation, above its bed and near where it was planned.
pub(super) const AS_SET_LIMITS: &[&dyn Rule] = &[
    &without_benchmark::<Courses>(
        "as set elevation rod without benchmark",
        Courses::AsSetRod.at(),
        || is_unread(Courses::AsSetRod),
    ),
    &against_rod::<Courses>("as set elevation against rod", Courses::AsSet.at(), || {
        disagree(Courses::AsSet, Courses::AsSetRod)
    }),
    &Limit::<Courses>::open(
        "as set without elevation",
        Code::MissingValue,
        Courses::AsSet.at(),
        || {
            let marked = Courses::CourseGrade.is("as set");
            marked.and(is_set().negate())
        },
        "the course is marked as set and its top is not measured",
        "write As set top or its rod reading, or another grade",
    ),
    &Limit::<Courses>::fault(
        "as set below its bed",
        Code::ShapeImpossible,
        Courses::AsSet.at(),
        || is_set().and(without_foot().negate()).and(sunk()),
        "the top as set is not above the bed of the course",
        "check the elevation, and those of the courses below it",
    ),
    &Limit::<Courses>::warning(
        "as set far from its plan",
        Code::ConflictingValues,
        Courses::AsSet.at(),
        || {
            let planned = || BED + HEIGHT;
            let off = highest(TOP, planned()) - lowest(TOP, planned());
            let set = is_set().and(without_foot().negate());
            set.and(sunk().negate()).and(off.above(HEIGHT))
        },
        "the top as set is more than the height of its stone from where it was planned",
        "check the elevation, the foot of the fall and the rise of the courses below",
    ),
    &Limit::<Courses>::fault(
        "as set rod without foot",
        Code::MissingValue,
        Courses::AsSetRod.at(),
        without_foot,
        "the top is a rod reading and the foot of the fall has no elevation",
        "write Foot or Foot rod of the fall",
    ),
];

/// Elevation of the foot of a fall: zero where none is given, so that heights count from it.
pub const FOOT: Step<Falls> = Step::from_job("foot elevation", System::length, || {
    by_level_or_rod(Falls::Foot, Falls::FootRod)
});

/// 1 where the job gives it.
const FOOT_KNOWN: Step<Falls> = Step::from_job("foot known", System::number, || {
    when(is_known(Falls::Foot, Falls::FootRod), 1.0, 0.0)
});

/// Elevation of the top of a course as it was set; zero where none is given.
const AS_SET: Step<Courses> = Step::from_job("as set elevation", System::length, || {
    by_level_or_rod(Courses::AsSet, Courses::AsSetRod)
});

/// Whether the top of a course was measured as set.
fn is_set() -> Condition {
    is_known(Courses::AsSet, Courses::AsSetRod)
}

/// Whether the top of a course is a rod reading and its fall has no foot to count from.
fn without_foot() -> Condition {
    let no_foot = FALL.of(FOOT_KNOWN).same_as(0.0);
    Courses::AsSetRod.filled().and(no_foot)
}

/// Whether the top of a course is not above its bed.
fn sunk() -> Condition {
    TOP.above(BED).negate()
}

/// From the bed of a course up to the next: as given, or the height less what the next
/// is bedded below the top.
pub const RISE: Step<Courses> =
    Step::new("rise in use", System::thickness, &sources::NEXT_BED, || {
        Courses::Rise.or(highest(HEIGHT - Factor::NextBed, 0.0))
    });

/// Elevation of its top: where it was set, or the bed plus the height.
pub const TOP: Step<Courses> = Step::running("top", System::length, &sources::NEXT_BED, |own| {
    let bed = own.row_above(FALL, FALL.of(FOOT)) - below_the_top();
    when(is_set(), AS_SET, bed + HEIGHT)
});

/// Elevation of its bed: below the top of the course below by the height of that less its
/// rise; by its embedment below the foot.
pub const BED: Step<Courses> = Step::new("bed", System::length, &sources::NEXT_BED, || {
    TOP.row_above(FALL, FALL.of(FOOT)) - below_the_top()
});

/// How far a bed lies below the top of the course below, or below the foot.
fn below_the_top() -> Term<Courses> {
    HEIGHT.row_above(FALL, Courses::Embedment) - RISE.row_above(FALL, 0.0)
}

/// From the face of the first course back to its own.
pub const DISTANCE: Step<Courses> =
    Step::running("distance back", System::length, &sources::GEOMETRY, |own| {
        own.row_above(FALL, 0.0) + Courses::Setback
    });

/// From the face of the first course to the back of its stone.
pub const BACK: Step<Courses> =
    Step::geometry("back of the stone", System::length, || DISTANCE + DEPTH);

/// From the foot to the top of the last course.
pub const TOTAL_RISE: Step<Falls> = Step::geometry("total rise", System::length, || {
    when(LAST.found_none(), 0.0, LAST.of(TOP) - FOOT)
});
