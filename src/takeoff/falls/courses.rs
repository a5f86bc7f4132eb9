//! The stone of each course: its size, how many pieces, what they weigh.
//!
//! Two ways lead to the tons of a course: its volume less the voids, and pieces times the
//! weight of one. Both are worked out, one is used, and a limit looks at how far apart
//! they are.

use super::order::FALL;
use super::rocks::{ROCK, SOLID_WEIGHT};
use crate::graph::prelude::*;
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Rocks;
use crate::units::System;

/// Size, pieces and tons of every course, and their limits.
pub(super) const RULES: &[&dyn Rule] = &[
    &HEIGHT,
    &Limit::<Courses>::fault(
        "neither height nor size range",
        Code::MissingValue,
        Courses::StoneHeight.at(),
        || by_range().and(Courses::Smallest.blank()),
        "the stone has neither a height nor a size range",
        "write Height, or both Smallest and Largest",
    ),
    &Limit::<Courses>::fault(
        "size range the wrong way round",
        Code::ConflictingValues,
        Courses::Largest.at(),
        || {
            let wrong_way = Courses::Smallest.above(Courses::Largest);
            Courses::Smallest.filled().and(wrong_way)
        },
        "the largest stone is missing, or smaller than the smallest",
        "write the size of the largest stone, or clear Smallest",
    ),
    &DEPTH,
    &LENGTH,
    &RUN,
    &VOLUME,
    &SOLID,
    &VOIDS,
    &PIECES,
    &PIECE,
    &HEAVIEST,
    &HEAVIEST_SO_FAR,
    &TONS,
    &Limit::<Courses>::warning(
        "two ways to the tons far apart",
        Code::ConflictingValues,
        Courses::TonsBy.at(),
        || {
            let most = highest::<Courses>(TONS_BY_COURSE, TONS_BY_PIECE);
            let least = lowest(TONS_BY_COURSE, TONS_BY_PIECE);
            most.above(least * (1.0 + Term::from(Factor::TonsApart)))
        },
        "the tons by volume less voids and by pieces are far apart",
        "check the size of the stone, its shape and the porosity; Tons by says which of the two is used",
    ),
    &WASTE,
];

/// Height of its stone: as given, or the mean of the size range.
pub const HEIGHT: Step<Courses> = Step::from_job("height in use", System::thickness, || {
    let half = Courses::Smallest.blank().or(Courses::Largest.blank());
    let mean = (Courses::Smallest + Courses::Largest) / 2.0;
    Courses::StoneHeight.or(when(half, 0.0, mean))
});

/// Whether the stone comes by a size range: no height is given.
fn by_range() -> Condition {
    Courses::StoneHeight.blank()
}

/// Depth of its stone, front to back.
pub const DEPTH: Step<Courses> = Step::from_job("depth in use", System::thickness, || {
    Courses::StoneDepth.or(HEIGHT)
});

/// Length of its stone along the face.
pub const LENGTH: Step<Courses> = Step::new(
    "stone length in use",
    System::thickness,
    &sources::STONE_LENGTH,
    || {
        let usual = when(by_range(), HEIGHT, HEIGHT * Factor::StoneLength);
        Courses::StoneLength.or(usual)
    },
);

/// Length of the course, returns included.
pub const RUN: Step<Courses> =
    Step::geometry("run", System::length, || Courses::Face + Courses::Returns);

/// Volume of the course, voids included.
pub const VOLUME: Step<Courses> =
    Step::geometry("course volume", System::volume, || RUN * HEIGHT * DEPTH);

const ROCK_OF_FALL: LookUp<Falls, Rocks> =
    LookUp::new("rock row", || Falls::FallRock.key()).among(|| ROCK.key());

/// Solid weight of the rock of each fall: granite where none is named.
const SOLID_OF_FALL: Step<Falls> = Step::new(
    "solid weight in use",
    System::density,
    &sources::ROCK_GRAVITY,
    || {
        let named = ROCK_OF_FALL.of(SOLID_WEIGHT);
        when(ROCK_OF_FALL.found_none(), Factor::WeightGranite, named)
    },
);

const ROCK_OF_COURSE: LookUp<Courses, Rocks> =
    LookUp::new("rock row", || Courses::CourseRock.key()).among(|| ROCK.key());

/// Solid weight of its rock.
pub const SOLID: Step<Courses> = Step::new(
    "solid weight in use",
    System::density,
    &sources::ROCK_GRAVITY,
    || {
        let named = ROCK_OF_COURSE.of(SOLID_WEIGHT);
        when(ROCK_OF_COURSE.found_none(), FALL.of(SOLID_OF_FALL), named)
    },
);

/// What of its volume is voids.
pub const VOIDS: Step<Courses> = Step::new("voids", System::volume, &sources::COURSE_VOIDS, || {
    VOLUME * Courses::Porosity.or(Factor::CourseVoids)
});

/// How many pieces it takes.
pub const PIECES: Step<Courses> = Step::geometry("pieces", System::each, || {
    when(LENGTH.above(0.0), (RUN / LENGTH).round_up(), 0.0)
});

/// How much of its box a stone fills: by its shape; where none is named, rough stone has
/// a height and rounded stone a size range.
const SHARE_OF_BOX: Step<Courses> = Step::new(
    "share of its box",
    System::percent,
    &sources::STONE_ROUGH,
    || {
        let shape = Courses::StoneShape;
        let rounded = shape.is("rounded").or(shape.blank().and(by_range()));
        let other = when(rounded, Factor::FillsRounded, Factor::FillsRough);
        when(shape.is("block"), Factor::FillsBlock, other)
    },
);

/// Weight of a usual piece.
pub const PIECE: Step<Courses> = Step::new(
    "weight of a piece",
    System::piece_weight,
    &sources::STONE_SIZE,
    || LENGTH * HEIGHT * DEPTH * SHARE_OF_BOX * SOLID,
);

/// Weight of its heaviest piece: one as large as the largest of the size range all round,
/// if that is more than the usual piece.
pub const HEAVIEST: Step<Courses> = Step::new(
    "heaviest piece",
    System::piece_weight,
    &sources::STONE_SIZE,
    || {
        let box_of = Courses::Largest * Courses::Largest * Courses::Largest;
        highest(PIECE, box_of * SHARE_OF_BOX * SOLID)
    },
);

/// Weight of the heaviest piece of its fall up to it.
pub const HEAVIEST_SO_FAR: Step<Courses> = Step::running(
    "heaviest piece so far",
    System::piece_weight,
    &sources::ARITHMETIC,
    |own| highest(own.row_above(FALL, 0.0), HEAVIEST),
);

const TONS_BY_COURSE: Step<Courses> = Step::new(
    "tons by course",
    System::weight,
    &sources::STONE_VOLUME,
    || (VOLUME - VOIDS) * SOLID,
);

const TONS_BY_PIECE: Step<Courses> = Step::new(
    "tons by piece",
    System::weight,
    &sources::STONE_SIZE,
    || PIECES * PIECE,
);

/// Tons of stone set.
pub const TONS: Step<Courses> = Step::from_job("tons in use", System::weight, || {
    when(Courses::TonsBy.is("piece"), TONS_BY_PIECE, TONS_BY_COURSE)
});

/// What is bought beyond them: what fits nowhere, and what the quarry's scale leaves open.
pub const WASTE: Step<Courses> =
    Step::new("waste in use", System::percent, &sources::REJECT, || {
        Courses::Reject.or(Factor::Reject) + Factor::Tolerance
    });
