//! Outside size of structures, in whole crates where they are banks of void crates.

use crate::graph::prelude::*;
use crate::graph::rule::At;
use crate::job::tables::Structures;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Outside size and number of each structure, and what of it must be written.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Structures>::fault(
        "structure without a width",
        Code::MissingValue,
        Structures::StructureWidth.at(),
        || {
            let wall = Structures::StructureKind.is("wall kept");
            wall.negate()
                .and(Structures::StructureWidth.above(0.0).negate())
        },
        "the structure has no width",
        "write its outside width; only a wall that is kept may do without",
    ),
    &Limit::<Structures>::fault(
        "structure without a height",
        Code::OutOfRange,
        Structures::StructureHeight.at(),
        || Structures::StructureHeight.above(0.0).negate(),
        "the structure has no height",
        "write its outside height, from underside to top",
    ),
    &side_of_a_crate(
        "bank of crates: the length of a crate is missing",
        "the length of a crate is missing",
        Structures::UnitLength.at(),
        || bank().and(Structures::UnitLength.blank()),
    ),
    &side_of_a_crate(
        "bank of crates: the width of a crate is missing",
        "the width of a crate is missing",
        Structures::UnitWidth.at(),
        || bank().and(Structures::UnitWidth.blank()),
    ),
    &side_of_a_crate(
        "bank of crates: the height of a crate is missing",
        "the height of a crate is missing",
        Structures::UnitHeight.at(),
        || bank().and(Structures::UnitHeight.blank()),
    ),
    &Limit::<Structures>::warning(
        "size of a crate, and no bank of crates",
        Code::ConflictingValues,
        Structures::UnitLength.at(),
        || {
            let long = Structures::UnitLength.filled();
            let wide = Structures::UnitWidth.filled();
            let high = Structures::UnitHeight.filled();
            bank().negate().and(long.or(wide).or(high))
        },
        "the size of a crate is written, and this is no bank of void crates",
        "write void crates under Kind, or clear the crate's size",
    ),
    &PIECES,
    &OUTSIDE,
    &STORED,
    &WALL_LENGTH,
    &WALL_FACE,
];

/// A bank of crates has the size of its crates: a limit for one side.
#[track_caller]
const fn side_of_a_crate(
    name: &'static str,
    message: &'static str,
    side: At,
    broken: fn() -> Condition,
) -> Limit<Structures> {
    Limit::fault(
        name,
        Code::MissingValue,
        side,
        broken,
        message,
        "write Crate length, Crate width and Crate height: whole crates fill the bank",
    )
}

/// How many there are of each.
pub(super) const TIMES: Step<Structures> =
    Step::from_job("number of structures", System::each, || {
        Structures::StructureTimes.or(1.0)
    });

/// Whether a structure is a bank of void crates.
fn bank() -> Condition {
    Structures::StructureKind.is("void crates")
}

/// Whole crates along one side, up to the next; zero of what is no bank of crates.
fn whole_crates(side: Structures, of_one: Structures) -> Term<Structures> {
    let known = bank().and(of_one.above(0.0));
    when(known, (side / of_one).round_up(), 0.0)
}

/// The side that whole crates make; the side as measured of what is no bank of crates.
fn side_of(crates: Step<Structures>, of_one: Structures, measured: Structures) -> Term<Structures> {
    let known = bank().and(of_one.above(0.0));
    when(known, crates * of_one, measured)
}

const CRATES_LONG: Step<Structures> =
    Step::geometry("crates along its length", System::each, || {
        whole_crates(Structures::StructureLength, Structures::UnitLength)
    });

const CRATES_WIDE: Step<Structures> =
    Step::geometry("crates along its width", System::each, || {
        whole_crates(Structures::StructureWidth, Structures::UnitWidth)
    });

const CRATES_HIGH: Step<Structures> =
    Step::geometry("crates along its height", System::each, || {
        whole_crates(Structures::StructureHeight, Structures::UnitHeight)
    });

/// Length as built.
pub(super) const LENGTH: Step<Structures> =
    Step::geometry("length as built", System::length, || {
        side_of(
            CRATES_LONG,
            Structures::UnitLength,
            Structures::StructureLength,
        )
    });

/// Width as built.
pub(super) const WIDTH: Step<Structures> = Step::geometry("width as built", System::length, || {
    side_of(
        CRATES_WIDE,
        Structures::UnitWidth,
        Structures::StructureWidth,
    )
});

/// Height as built.
pub const HEIGHT: Step<Structures> = Step::geometry("height as built", System::length, || {
    side_of(
        CRATES_HIGH,
        Structures::UnitHeight,
        Structures::StructureHeight,
    )
});

/// Crates in one bank; 1 of what is no bank of crates.
pub(super) const PIECES_OF_ONE: Step<Structures> =
    Step::geometry("pieces of one", System::each, || {
        when(bank(), CRATES_LONG * CRATES_WIDE * CRATES_HIGH, 1.0)
    });

/// Void crates in all, or pieces of what is no bank of crates.
pub(super) const PIECES: Step<Structures> =
    Step::geometry("pieces", System::each, || PIECES_OF_ONE * TIMES);

/// Length × width of one, as built.
pub(super) const FOOTPRINT: Step<Structures> =
    Step::geometry("footprint", System::area, || LENGTH * WIDTH);

/// Outside volume of all.
pub const OUTSIDE: Step<Structures> = Step::geometry("outside volume", System::volume, || {
    FOOTPRINT * HEIGHT * TIMES
});

/// The share of a crate that is void.
const VOID: Step<Structures> = Step::new(
    "void in use",
    System::percent,
    &sources::CRATE_VOIDS,
    || Structures::Void.or(Factor::CrateVoids),
);

/// Water that void crates store when full: their outside volume × void.
pub const STORED: Step<Structures> = Step::new(
    "water stored in crates",
    System::water,
    &sources::WATER_HELD,
    || when(bank(), OUTSIDE * VOID, 0.0),
);

/// Length of walls that are kept; zero of other kinds.
pub(super) const WALL_LENGTH: Step<Structures> =
    Step::geometry("wall kept, length", System::length, || {
        let wall = Structures::StructureKind.is("wall kept");
        when(wall, LENGTH * TIMES, 0.0)
    });

/// Face of walls that are kept; zero of other kinds.
pub(super) const WALL_FACE: Step<Structures> =
    Step::geometry("wall kept, face", System::area, || {
        let wall = Structures::StructureKind.is("wall kept");
        when(wall, LENGTH * HEIGHT * TIMES, 0.0)
    });
