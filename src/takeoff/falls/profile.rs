//! The long section of every fall as points: what the workbook draws, over live cells.
//!
//! Three points a course, from the bottom up: its bed and its top at the face, and its
//! top where the next face stands, or at the back of the last. Joined in their order they
//! draw the stone as steps; their beds and the water over them, each with the same
//! distances, are two more lines.

use super::order::Order;
use crate::graph::{Cell, Column, ColumnId, Graph, Piece, Text};
use crate::job::tables::{Courses, Falls};
use crate::tables::FallPoints;
use crate::takeoff::inputs::AllInputs;
use crate::units::System;

/// Columns of the points, and which rows belong to which fall.
#[derive(Clone, Debug)]
pub struct FallPointColumns {
    /// The fall's name.
    pub fall: Text<FallPoints>,
    /// Distance back from the face of the first course.
    pub distance: Column<FallPoints>,
    /// Elevation of the stone's outline.
    pub stone: Column<FallPoints>,
    /// Elevation of the bed of the point's course.
    pub bed: Column<FallPoints>,
    /// Elevation of the water over the point's course; its top where none runs.
    pub water: Column<FallPoints>,
    /// First row and number of rows of each fall.
    pub rows_of: Vec<(usize, usize)>,
}

/// The columns of the courses that points are made from.
pub(super) struct Outline {
    pub(super) distance: Column<Courses>,
    pub(super) back: Column<Courses>,
    pub(super) bed: Column<Courses>,
    pub(super) top: Column<Courses>,
    pub(super) water: Column<Courses>,
}

/// How many points a course has.
const POINTS: usize = 3;

/// Adds the points of every fall.
pub(super) fn points(
    graph: &mut Graph,
    inputs: &AllInputs,
    order: &Order,
    from: &Outline,
    system: System,
) -> FallPointColumns {
    let courses: usize = order.rows_of.iter().map(|(_, count)| count).sum();
    let name = inputs.words(Falls::Fall).id;
    let names = order
        .rows_of
        .iter()
        .enumerate()
        .flat_map(|(row, (_, count))| {
            std::iter::repeat_n(vec![Piece::Cell(name.at(row))], POINTS * count)
        });
    graph.add_table::<FallPoints>(POINTS * courses);
    let mut rules = graph.rules::<FallPoints>();
    let fall = rules.gathered_words("fall", names.collect());
    rules.labelled_by(fall);
    let distances = distances(order, from);
    let distance = rules.gathered("distance", system.length(), distances);
    let mut line = |name: &str, of: [ColumnId; POINTS]| {
        rules.gathered(name, system.length(), of_each_course(order, of))
    };
    FallPointColumns {
        fall,
        distance,
        stone: line("stone", [from.bed.id, from.top.id, from.top.id]),
        bed: line("bed", [from.bed.id; POINTS]),
        water: line("water", [from.water.id; POINTS]),
        rows_of: rows_of(order),
    }
}

/// How far back the points of all courses are, fall by fall.
fn distances(order: &Order, from: &Outline) -> Vec<Option<Cell>> {
    let (face, back) = (from.distance.id, from.back.id);
    let mut cells = Vec::new();
    for (first, count) in &order.rows_of {
        let end_of_fall = first + count;
        for row in *first..end_of_fall {
            let is_last = row + 1 == end_of_fall;
            let end = if is_last {
                back.at(row)
            } else {
                face.at(row + 1)
            };
            cells.extend([face.at(row), face.at(row), end].map(Some));
        }
    }
    cells
}

/// The cells of the points of all courses, fall by fall.
fn of_each_course(order: &Order, of: [ColumnId; POINTS]) -> Vec<Option<Cell>> {
    let rows = order
        .rows_of
        .iter()
        .flat_map(|(first, count)| *first..first + count);
    rows.flat_map(|row| of.map(|column| Some(column.at(row))))
        .collect()
}

/// Where the points of each fall stand.
fn rows_of(order: &Order) -> Vec<(usize, usize)> {
    let mut next = 0;
    let counts = order.rows_of.iter().map(|(_, count)| POINTS * count);
    counts
        .map(|count| {
            let first = next;
            next += count;
            (first, count)
        })
        .collect()
}
