//! The order of courses: those of one fall stand together, from the bottom up.
//!
//! They were put in that order when the job was read. An edit of a number in the workbook
//! that breaks it cannot be followed there: what rests on the order is solved from a
//! flag of its breach, so that such an edit asks for a new run.

use std::collections::BTreeMap;

use crate::graph::prelude::*;
use crate::graph::rule::whole;
use crate::graph::{Graph, Solve};
use crate::job::tables::{Courses, Falls};
use crate::sources;
use crate::units::System;

/// The order of courses, and the limit that the numbers of one fall run 1, 2, 3 and so on.
pub(super) const RULES: &[&dyn Rule] = &[
    &FALL,
    &OUT_OF_ORDER,
    &Limit::<Courses>::fault(
        "numbers that do not run",
        Code::OrderOfRows,
        Courses::CourseNumber.at(),
        || Courses::CourseNumber.differs_from(NUMBER_BELOW + 1.0),
        "the numbers of this fall's courses have a gap, or one stands twice",
        "number the courses of a fall 1, 2, 3 … from the bottom",
    ),
    &ABOVE,
    &LAST,
];

/// The fall of each course.
pub const FALL: LookUp<Courses, Falls> = LookUp::new("fall row", || Courses::CourseFall.key());

/// 1 where a course stands below one of a smaller number; zero in every job as read.
const OUT_OF_ORDER: Step<Courses> = Step::from_job("out of order", System::number, || {
    let number = Courses::CourseNumber;
    when(number.below(number.row_above(FALL, 0.0)), 1.0, 0.0)
});

const NUMBER_BELOW: Step<Courses> =
    Step::from_job("number of the course below", System::number, || {
        Courses::CourseNumber.row_above(FALL, 0.0)
    });

/// How many courses of its fall lie above a course.
pub const ABOVE: Step<Courses> =
    Step::solved("courses above it", System::number, &sources::JOB, |graph| {
        let rows_of = rows_of(graph);
        let above = rows_of.iter().flat_map(|(_, count)| (0..*count).rev());
        Solve::fixed(vec![graph.read(OUT_OF_ORDER)], above.map(whole).collect())
    });

/// The last course of each fall; none where it has no courses.
pub const LAST: LookUp<Falls, Courses> = LookUp::solved("row of its last course", |graph| {
    let rows_of = rows_of(graph);
    let last = rows_of.iter().map(|(first, count)| match count {
        0 => 0.0,
        count => whole(first + count),
    });
    Solve::fixed(vec![graph.read(OUT_OF_ORDER)], last.collect())
});

/// First row and number of rows of each fall's courses, from the bottom up.
#[must_use]
pub fn rows_of(graph: &Graph) -> Vec<(usize, usize)> {
    let (falls, named) = (graph.id(Falls::Fall), graph.id(Courses::CourseFall));
    let mut found: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for row in 0..graph.rows(named) {
        let fall = graph.written(named.at(row));
        found.entry(fall).or_insert((row, 0)).1 += 1;
    }
    let of = |row: usize| found.get(graph.written(falls.at(row))).copied();
    let rows = 0..graph.rows(falls);
    rows.map(|row| of(row).unwrap_or((0, 0))).collect()
}

/// The rows of the falls that have courses.
pub(super) fn with_courses(graph: &Graph) -> impl Iterator<Item = usize> {
    let rows = rows_of(graph).into_iter().enumerate();
    rows.filter(|(_, (_, count))| *count > 0)
        .map(|(row, _)| row)
}
