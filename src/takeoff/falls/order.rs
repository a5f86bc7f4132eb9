//! The order of courses: those of one fall stand together, from the bottom up.
//!
//! They were put in that order when the job was read. An edit of a number in the workbook
//! that breaks it cannot be followed there: what rests on the order is surveyed from a
//! flag of its breach, so that such an edit asks for a new run.

use std::collections::BTreeMap;

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, ColumnId, Graph, Kind, Link, Rules, Solve, when};
use crate::job::tables::{Courses, Falls};
use crate::sources;
use crate::takeoff::inputs::AllInputs;
use crate::units::ONE;

/// Which courses make which fall.
#[derive(Clone, Debug)]
pub(super) struct Order {
    /// The fall of each course.
    pub(super) fall: Link<Courses, Falls>,
    /// How many courses of its fall lie above a course.
    pub(super) above: Column<Courses>,
    /// The last course of each fall; none where it has no courses.
    pub(super) last: Link<Falls, Courses>,
    /// First row and number of rows of each fall's courses.
    pub(super) rows_of: Vec<(usize, usize)>,
}

/// Adds the order of courses. Limit: the numbers of one fall run 1, 2, 3 and so on.
pub(super) fn order(graph: &mut Graph, inputs: &AllInputs) -> Order {
    let rows_of = rows_of(graph);
    let mut rules = graph.rules::<Courses>();
    let fall = rules.link("fall row", inputs.words(Courses::CourseFall));
    let breach = out_of_order(&mut rules, inputs, fall);
    numbers_run(&mut rules, inputs, fall);
    let counts = rows_of.iter().flat_map(|(_, count)| (0..*count).rev());
    let above = counts.map(whole).collect();
    let from = vec![breach.id];
    let above = rules.solved(
        "courses above it",
        ONE,
        &sources::JOB,
        Solve::fixed(from.clone(), above),
    );
    let last = rows_of.iter().map(|(first, count)| match count {
        0 => 0.0,
        count => whole(first + count),
    });
    let last = last.collect();
    let mut rules = graph.rules::<Falls>();
    let last = rules.solved(
        "row of its last course",
        ONE,
        &sources::JOB,
        Solve::fixed(from, last),
    );
    Order {
        fall,
        above,
        last: Link::new(last.id),
        rows_of,
    }
}

/// A count as the graph holds it.
fn whole(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// Where the courses of each fall stand.
fn rows_of(graph: &Graph) -> Vec<(usize, usize)> {
    let falls = words(graph, graph.id(Falls::Fall));
    let named = words(graph, graph.id(Courses::CourseFall));
    let mut found: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (row, fall) in named.iter().enumerate() {
        found.entry(fall).or_insert((row, 0)).1 += 1;
    }
    let of = |fall: &&str| found.get(fall).copied().unwrap_or((0, 0));
    falls.iter().map(of).collect()
}

/// The rows of the falls that have courses.
pub(super) fn with_courses(graph: &Graph) -> impl Iterator<Item = usize> {
    let rows = rows_of(graph).into_iter().enumerate();
    rows.filter(|(_, (_, count))| *count > 0)
        .map(|(row, _)| row)
}

/// The words of a column that the user wrote.
fn words(graph: &Graph, column: ColumnId) -> Vec<&str> {
    match &graph.column(column).kind {
        Kind::Words { values, .. } => values.iter().map(|word| &**word).collect(),
        _ => Vec::new(),
    }
}

/// 1 where a course stands below one of a smaller number; zero in every job as read.
fn out_of_order(
    rules: &mut Rules<'_, Courses>,
    inputs: &AllInputs,
    fall: Link<Courses, Falls>,
) -> Column<Courses> {
    let number = inputs.number(Courses::CourseNumber);
    let smaller = number.here().below(number.row_above(fall, 0.0));
    rules.from_job("out of order", ONE, when(smaller, 1.0, 0.0))
}

/// Limit: the courses of a fall are numbered without a gap, and none twice.
fn numbers_run(rules: &mut Rules<'_, Courses>, inputs: &AllInputs, fall: Link<Courses, Falls>) {
    let number = inputs.number(Courses::CourseNumber);
    let before = number.row_above(fall, 0.0);
    let before = rules.from_job("number of the course below", ONE, before);
    rules.limit(
        "numbers that do not run",
        number.here().differs_from(before + 1.0),
        Breach::fault(
            Code::OrderOfRows,
            number.id,
            "the numbers of this fall's courses have a gap, or one stands twice",
            "number the courses of a fall 1, 2, 3 … from the bottom",
        ),
    );
}
