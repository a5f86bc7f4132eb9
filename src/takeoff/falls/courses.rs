//! The stone of each course: its size, how many pieces, what they weigh.
//!
//! Two ways lead to the tons of a course: its volume less the voids, and pieces times the
//! weight of one. Both are worked out, one is used, and a limit looks at how far apart
//! they are.

use super::order::Order;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Graph, Link, Rules, Term, highest, lowest, when};
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Rocks;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::takeoff::inputs::AllInputs;
use crate::units::{EACH, PERCENT, System};

/// Size of the stone of a course, and the course's own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sizes {
    pub(super) height: Column<Courses>,
    pub(super) depth: Column<Courses>,
    pub(super) length: Column<Courses>,
    pub(super) run: Column<Courses>,
    pub(super) volume: Column<Courses>,
}

/// Pieces and tons of a course.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stone {
    pub(super) solid: Column<Courses>,
    pub(super) voids: Column<Courses>,
    pub(super) pieces: Column<Courses>,
    pub(super) piece: Column<Courses>,
    pub(super) heaviest: Column<Courses>,
    pub(super) heaviest_so_far: Column<Courses>,
    pub(super) tons: Column<Courses>,
    pub(super) waste: Column<Courses>,
}

/// Adds the size of every course and of its stone.
pub(super) fn sizes(rules: &mut Rules<'_, Courses>, basis: &Basis<'_>) -> Sizes {
    let (inputs, system) = (basis.inputs, basis.system);
    let unit = system.thickness();
    let height = height(rules, inputs, system);
    let depth = inputs.number(Courses::StoneDepth).or(height);
    let depth = rules.from_job("depth in use", unit, depth);
    let usual = height * factor(inputs, Factor::StoneLength);
    let usual = when(by_range(inputs), height, usual);
    let length = inputs.number(Courses::StoneLength).or(usual);
    let length = rules.step("stone length in use", unit, &sources::STONE_LENGTH, length);
    let run = inputs.number(Courses::Face) + inputs.number(Courses::Returns);
    let run = rules.geometry("run", system.length(), run);
    let volume = run * height * depth;
    Sizes {
        height,
        depth,
        length,
        run,
        volume: rules.geometry("course volume", system.volume(), volume),
    }
}

/// Whether the stone comes by a size range: no height is given.
fn by_range(inputs: &AllInputs) -> Condition {
    inputs.number(Courses::StoneHeight).blank()
}

/// The height of the stone: as given, or the mean of the size range.
///
/// Limits: one of the two is there; a size range runs from the smaller to the larger.
fn height(rules: &mut Rules<'_, Courses>, inputs: &AllInputs, system: System) -> Column<Courses> {
    let nominal = inputs.number(Courses::StoneHeight);
    let smallest = inputs.number(Courses::Smallest);
    let largest = inputs.number(Courses::Largest);
    let half = smallest.blank().or(largest.blank());
    let height = nominal.or(when(half, 0.0, (smallest + largest) / 2.0));
    let height = rules.from_job("height in use", system.thickness(), height);
    rules.limit(
        "neither height nor size range",
        nominal.blank().and(smallest.blank()),
        Breach::fault(
            Code::MissingValue,
            nominal.id,
            "the stone has neither a height nor a size range",
            "write Height, or both Smallest and Largest",
        ),
    );
    let wrong_way = smallest.here().above(largest);
    rules.limit(
        "size range the wrong way round",
        smallest.filled().and(wrong_way),
        Breach::fault(
            Code::ConflictingValues,
            largest.id,
            "the largest stone is missing, or smaller than the smallest",
            "write the size of the largest stone, or clear Smallest",
        ),
    );
    height
}

/// Adds pieces and tons of every course.
pub(super) fn stone(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (order, sizes): (&Order, &Sizes),
    rock: Column<Rocks>,
) -> Stone {
    let (inputs, system) = (basis.inputs, basis.system);
    let of_fall = rock_of_fall(graph, basis, rock);
    let mut rules = graph.rules::<Courses>();
    let own: Link<Courses, Rocks> = rules.link("rock row", inputs.words(Courses::CourseRock));
    let solid = when(own.found_none(), order.fall.of(of_fall), own.of(rock));
    let unit = system.density();
    let solid = rules.step("solid weight in use", unit, &sources::ROCK_GRAVITY, solid);
    let porosity = inputs.number(Courses::Porosity);
    let voids = sizes.volume * porosity.or(factor(inputs, Factor::CourseVoids));
    let unit = system.volume();
    let voids = rules.step("voids", unit, &sources::COURSE_VOIDS, voids);
    let (pieces, piece, heaviest) = pieces(&mut rules, basis, sizes, solid);
    let so_far = rules.running(
        "heaviest piece so far",
        system.piece_weight(),
        &sources::ARITHMETIC,
        |own| highest(own.row_above(order.fall, 0.0), heaviest),
    );
    let by_course = (sizes.volume - voids) * solid;
    let tons = tons(&mut rules, basis, by_course, pieces * piece);
    let reject = inputs.number(Courses::Reject);
    let waste = reject.or(factor(inputs, Factor::Reject)) + factor(inputs, Factor::Tolerance);
    Stone {
        solid,
        voids,
        pieces,
        piece,
        heaviest,
        heaviest_so_far: so_far,
        tons,
        waste: rules.step("waste in use", PERCENT, &sources::REJECT, waste),
    }
}

/// Solid weight of the rock of each fall: granite where none is named.
fn rock_of_fall(graph: &mut Graph, basis: &Basis<'_>, rock: Column<Rocks>) -> Column<Falls> {
    let inputs = basis.inputs;
    let mut rules = graph.rules::<Falls>();
    let link: Link<Falls, Rocks> = rules.link("rock row", inputs.words(Falls::FallRock));
    let granite = factor(inputs, Factor::WeightGranite);
    let solid = when(link.found_none(), granite, link.of(rock));
    let unit = basis.system.density();
    rules.step("solid weight in use", unit, &sources::ROCK_GRAVITY, solid)
}

/// How many pieces a course takes, the weight of a usual one and of the heaviest.
///
/// The heaviest is one as large as the largest of the size range all round, if that is
/// more than the usual piece.
fn pieces(
    rules: &mut Rules<'_, Courses>,
    basis: &Basis<'_>,
    sizes: &Sizes,
    solid: Column<Courses>,
) -> (Column<Courses>, Column<Courses>, Column<Courses>) {
    let (inputs, unit) = (basis.inputs, basis.system.piece_weight());
    let count = (sizes.run / sizes.length).round_up();
    let count = when(sizes.length.here().above(0.0), count, 0.0);
    let count = rules.geometry("pieces", EACH, count);
    let share = share_of_box(inputs);
    let share = rules.step("share of its box", PERCENT, &sources::STONE_ROUGH, share);
    let weigh = |box_of: Term<Courses>| box_of * share * solid;
    let piece = weigh(sizes.length * sizes.height * sizes.depth);
    let piece = rules.step("weight of a piece", unit, &sources::STONE_SIZE, piece);
    let largest = inputs.number(Courses::Largest);
    let largest = weigh(largest * largest * largest);
    let heaviest = highest(piece, largest);
    let heaviest = rules.step("heaviest piece", unit, &sources::STONE_SIZE, heaviest);
    (count, piece, heaviest)
}

/// How much of its box a stone fills: by its shape; where none is named, rough stone has
/// a height and rounded stone a size range.
fn share_of_box(inputs: &AllInputs) -> Term<Courses> {
    let shape = inputs.words(Courses::StoneShape);
    let rounded = shape.blank().and(by_range(inputs));
    let rounded = shape.is("rounded").or(rounded);
    let rough = factor(inputs, Factor::FillsRough);
    let other = when(rounded, factor(inputs, Factor::FillsRounded), rough);
    when(shape.is("block"), factor(inputs, Factor::FillsBlock), other)
}

/// The tons in use. Limit: the two ways to them are not far apart.
fn tons(
    rules: &mut Rules<'_, Courses>,
    basis: &Basis<'_>,
    by_course: Term<Courses>,
    by_piece: Term<Courses>,
) -> Column<Courses> {
    let (inputs, unit) = (basis.inputs, basis.system.weight());
    let by_course = rules.step("tons by course", unit, &sources::STONE_VOLUME, by_course);
    let by_piece = rules.step("tons by piece", unit, &sources::STONE_SIZE, by_piece);
    let chosen = inputs.words(Courses::TonsBy);
    let tons = when(chosen.is("piece"), by_piece, by_course);
    let tons = rules.from_job("tons in use", unit, tons);
    let allowed = 1.0 + factor(inputs, Factor::TonsApart);
    let apart = highest(by_course, by_piece).above(lowest(by_course, by_piece) * allowed);
    rules.limit(
        "two ways to the tons far apart",
        apart,
        Breach::warning(
            Code::ConflictingValues,
            chosen.id,
            "the tons by volume less voids and by pieces are far apart",
            "check the size of the stone, its shape and the porosity; Tons by says which of the two is used",
        ),
    );
    tons
}
