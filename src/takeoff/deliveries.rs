//! Deliveries of stone: which load brings which course.
//!
//! Stonework goes up from the bottom course, so that is the sequence of what one quarry or
//! yard delivers: fall by fall, the lowest course first. Always true: within one material
//! the courses share loads in that order; a course may begin in a load and end in the next.

use std::collections::BTreeMap;

use super::basis::Basis;
use super::falls::{FallColumns, USUAL_STONE};
use crate::graph::prelude::*;
use crate::graph::{Cell, Column, ColumnId, Graph, Link, Piece, Text, when};
use crate::job::tables::{Courses, Materials};
use crate::sources;
use crate::tables::Deliveries;
use crate::units::{LOAD, ONE};

/// Columns of the deliveries.
#[derive(Clone, Copy, Debug)]
pub struct DeliveryColumns {
    /// What is delivered.
    pub material: Text<Deliveries>,
    /// The course that it is for.
    pub course: Text<Deliveries>,
    /// How much, in the unit it is sold in: with what fits nowhere and the tolerance.
    pub delivered: Column<Deliveries>,
    /// That unit.
    pub unit: Text<Deliveries>,
    /// The same with all courses before it.
    pub so_far: Column<Deliveries>,
    /// The load that begins it; zero where the size of a load is not known.
    pub first_load: Column<Deliveries>,
    /// The load that ends it.
    pub last_load: Column<Deliveries>,
}

/// Adds the deliveries of the courses: those of one material together, from the bottom up.
pub fn deliveries(graph: &mut Graph, basis: &Basis<'_>, falls: &FallColumns) -> DeliveryColumns {
    let rows = in_sequence(graph, basis);
    let courses = &falls.courses;
    graph.add_table::<Deliveries>(rows.len());
    let mut rules = graph.rules::<Deliveries>();
    let cells =
        |of: ColumnId| -> Vec<Option<Cell>> { rows.iter().map(|row| Some(of.at(*row))).collect() };
    let words = |of: ColumnId| -> Vec<Vec<Piece>> {
        let piece = |row: &usize| vec![Piece::Cell(of.at(*row))];
        rows.iter().map(piece).collect()
    };
    let course = rules.gathered_words("course", words(basis.inputs.id(Courses::Course)));
    rules.labelled_by(course);
    let unit = rules.gathered_words("unit", words(courses.unit.id));
    let delivered = rules.gathered("delivered", ONE, cells(courses.delivered.id));
    let row = rules.gathered("material row", ONE, cells(courses.material.id));
    let link: Link<Deliveries, Materials> = Link::new(row.id);
    let name = link.words_of(basis.inputs.words(Materials::Material));
    let material = rules.word_step("material", name);
    let before = rules.running("delivered so far", ONE, &sources::ARITHMETIC, |own| {
        own.row_above(link, 0.0) + delivered
    });
    let load = link.of(basis.inputs.number(Materials::Load));
    let load = rules.from_job("size of a load", ONE, load);
    let known = load.here().above(0.0);
    let first = ((before - delivered) / load).round_down() + 1.0;
    let first = when(known.clone(), first, 0.0);
    let last = when(known, (before / load).round_up(), 0.0);
    DeliveryColumns {
        material,
        course,
        delivered,
        unit,
        so_far: before,
        first_load: rules.step("from load", LOAD, &sources::WHOLE_LOADS, first),
        last_load: rules.step("to load", LOAD, &sources::WHOLE_LOADS, last),
    }
}

/// The rows of the courses in the sequence of delivery: by the material that they name, or
/// the usual one, in the order in which it first stands, and within it as they stand.
fn in_sequence(graph: &Graph, basis: &Basis<'_>) -> Vec<usize> {
    let stone = basis.inputs.id(Courses::Stone);
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let mut order: Vec<(usize, usize)> = (0..graph.rows(stone))
        .map(|row| {
            let name = match graph.written(stone.at(row)) {
                "" => USUAL_STONE,
                own => own,
            };
            let name = name.to_lowercase();
            (*first.entry(name).or_insert(row), row)
        })
        .collect();
    order.sort_unstable();
    order.into_iter().map(|(_, row)| row).collect()
}
