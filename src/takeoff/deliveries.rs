//! Deliveries of stone: which load brings which course.
//!
//! Stonework goes up from the bottom course, so that is the sequence of what one quarry or
//! yard delivers: fall by fall, the lowest course first. Always true: within one material
//! the courses share loads in that order; a course may begin in a load and end in the next.

use std::collections::BTreeMap;

use super::falls::{USUAL_STONE, taken};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::{Courses, Materials};
use crate::sources;
use crate::tables::Deliveries;
use crate::units::{LOAD, System};

/// The deliveries of the courses: those of one material together, from the bottom up.
pub const RULES: &[&dyn Rule] = &[
    &COURSE,
    &UNIT,
    &DELIVERED,
    &MATERIAL,
    &SO_FAR,
    &FIRST_LOAD,
    &LAST_LOAD,
];

/// The rows of the courses in the sequence of delivery: by the material that they name, or
/// the usual one, in the order in which it first stands, and within it as they stand.
const SEQUENCE: Roster<Deliveries, usize> = Roster::new(|graph: &mut Graph| {
    let stone = graph.id(Courses::Stone);
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
});

/// The course that it is for.
pub const COURSE: Wording<Deliveries> = Wording::gathered("course", |graph| {
    SEQUENCE.words_of(graph, Courses::Course, |row| *row)
})
.naming_rows();

/// The unit that it is sold in.
pub const UNIT: Wording<Deliveries> = Wording::gathered("unit", |graph| {
    let unit = taken::STONE.bought_in();
    SEQUENCE.words_of(graph, unit, |row| *row)
});

/// How much, in that unit: with what fits nowhere and the tolerance.
pub const DELIVERED: Step<Deliveries> = Step::gathered("delivered", System::number, |graph| {
    let delivered = taken::DELIVERED;
    SEQUENCE.cells_of(graph, delivered, |row| *row)
});

const MATERIAL_ROW: LookUp<Deliveries, Materials> = LookUp::gathered("material row", |graph| {
    let material = taken::STONE.row();
    SEQUENCE.cells_of(graph, material, |row| *row)
});

/// What is delivered.
pub const MATERIAL: Wording<Deliveries> =
    Wording::new("material", || MATERIAL_ROW.words_of(Materials::Material));

/// How much with all courses of its material before it.
pub const SO_FAR: Step<Deliveries> = Step::running(
    "delivered so far",
    System::number,
    &sources::ARITHMETIC,
    |own| own.row_above(MATERIAL_ROW, 0.0) + DELIVERED,
);

/// Zero where the size of a load is not known.
const LOAD_SIZE: Step<Deliveries> = Step::from_job("size of a load", System::number, || {
    MATERIAL_ROW.of(Materials::Load)
});

/// The load that begins it; zero where the size of a load is not known.
pub const FIRST_LOAD: Step<Deliveries> = Step::new(
    "from load",
    |_| LOAD,
    &sources::WHOLE_LOADS,
    || {
        let first = ((SO_FAR - DELIVERED) / LOAD_SIZE).round_down() + 1.0;
        when(LOAD_SIZE.above(0.0), first, 0.0)
    },
);

/// The load that ends it.
pub const LAST_LOAD: Step<Deliveries> = Step::new(
    "to load",
    |_| LOAD,
    &sources::WHOLE_LOADS,
    || when(LOAD_SIZE.above(0.0), (SO_FAR / LOAD_SIZE).round_up(), 0.0),
);
