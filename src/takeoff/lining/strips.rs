//! How a sheet is made up: one panel, strips side by side, or whole rolls; its seams.

use super::sheet;
use crate::graph::prelude::*;
use crate::job::tables::Layers;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Strips have a roll width and rolls a length, both more than the lap; strips are no
/// longer than their roll; a roll is not described where the sheet is one panel.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Layers>::fault(
        "strips without a roll width",
        Code::MissingValue,
        Layers::RollWidth.at(),
        || in_strips_or_rolls().and(Layers::RollWidth.blank()),
        "strips and rolls need a roll width",
        "write the width of a roll, or order one panel",
    ),
    &Limit::<Layers>::fault(
        "rolls without a length",
        Code::MissingValue,
        Layers::RollLength.at(),
        || in_rolls().and(Layers::RollLength.blank()),
        "rolls need a roll length",
        "write the length of a roll, or order strips",
    ),
    &Limit::<Layers>::fault(
        "roll no wider than its lap",
        Code::SheetTooSmall,
        Layers::RollWidth.at(),
        || in_strips_or_rolls().and(no_more_than_lap(Layers::RollWidth)),
        NO_LARGER,
        CHECK_SIZE,
    ),
    &Limit::<Layers>::fault(
        "roll no longer than its lap",
        Code::SheetTooSmall,
        Layers::RollLength.at(),
        || in_rolls().and(no_more_than_lap(Layers::RollLength)),
        NO_LARGER,
        CHECK_SIZE,
    ),
    &Limit::<Layers>::warning(
        "roll that is not used",
        Code::ConflictingValues,
        Layers::OrderedAs.at(),
        || {
            let size = Layers::RollWidth.filled().or(Layers::RollLength.filled());
            in_strips_or_rolls().negate().and(size)
        },
        "a roll is described, and one panel is ordered",
        "write strips or rolls under Ordered as, or leave the roll's size blank",
    ),
    &Limit::<Layers>::warning(
        "strip longer than a roll",
        Code::SheetTooSmall,
        Layers::RollLength.at(),
        || {
            let known = in_strips().and(Layers::RollLength.filled());
            known.and(LENGTH.above(ROLL_LENGTH))
        },
        "a strip is longer than the roll that is written here",
        "order rolls, which counts the laps at their ends, or let the strips run the other way",
    ),
    &SEAMS,
];

const NO_LARGER: &str = "a roll is no larger than the lap";
const CHECK_SIZE: &str = "check the roll's size, the lap and their units";

/// Whether a layer is ordered in strips.
pub(super) fn in_strips() -> Condition {
    Layers::OrderedAs.is("strips")
}

/// Whether a layer is ordered in whole rolls.
pub(super) fn in_rolls() -> Condition {
    Layers::OrderedAs.is("rolls")
}

/// Whether a layer is made up of strips, cut to length or from whole rolls.
pub(super) fn in_strips_or_rolls() -> Condition {
    in_strips().or(in_rolls())
}

/// Whether a size of a roll is written that is no more than the lap.
fn no_more_than_lap(size: Layers) -> Condition {
    size.filled().and(LAP.at_least(size))
}

/// By how much sheets overlap at a seam, by its kind.
const LAP: Step<Layers> = Step::from_job("lap in use", System::length, || {
    let is_taped = Layers::Seam.is("taped");
    let usual = when(is_taped, Factor::LapTaped, Factor::LapLoose);
    let usual = when(Layers::Seam.is("welded"), Factor::LapWelded, usual);
    Layers::Lap.or(usual)
});

const ROLL_WIDTH: Step<Layers> = Step::from_job("roll width in use", System::length, || {
    Layers::RollWidth.here()
});

const ROLL_LENGTH: Step<Layers> = Step::from_job("roll length in use", System::length, || {
    Layers::RollLength.here()
});

/// How long one strip is.
pub(super) const LENGTH: Step<Layers> = Step::geometry("strip length", System::length, || {
    when(run_across(), sheet::WIDTH, sheet::LENGTH)
});

const ACROSS: Step<Layers> = Step::geometry("across the strips", System::length, || {
    when(run_across(), sheet::LENGTH, sheet::WIDTH)
});

/// Whether strips run across the width of the sheet.
fn run_across() -> Condition {
    Layers::StripsRun.is("across the width")
}

/// Pieces of a length that lie one after the other, each lapping the one before, over a
/// whole length: (whole − lap) ÷ (piece − lap), up to a whole number and at least one.
/// Zero where a piece is no longer than the lap.
fn lapping(whole: Term<Layers>, piece: Step<Layers>) -> Term<Layers> {
    let pieces = ((whole - LAP) / (piece - LAP)).round_up();
    when(piece.above(LAP), highest(1.0, pieces), 0.0)
}

/// Strips side by side in one sheet; zero for a panel, and where there is nothing to cover.
const SIDE_BY_SIDE: Step<Layers> = Step::new(
    "strips side by side",
    System::each,
    &sources::STRIPS,
    || {
        let some = in_strips_or_rolls().and(ACROSS.above(0.0));
        when(some, lapping(ACROSS.here(), ROLL_WIDTH), 0.0)
    },
);

/// Strips of all times that it is laid; zero for a panel.
pub(super) const COUNT: Step<Layers> = Step::arithmetic("strips in all", System::each, || {
    SIDE_BY_SIDE * sheet::TIMES
});

/// Whether strips are taken from rolls.
fn from_rolls() -> Condition {
    in_rolls().and(COUNT.above(0.0)).and(LENGTH.above(0.0))
}

/// Strips that are cut from one roll; zero where one is longer than a roll.
const FROM_ONE: Step<Layers> =
    Step::new("strips from a roll", System::each, &sources::STRIPS, || {
        when(from_rolls(), (ROLL_LENGTH / LENGTH).round_down(), 0.0)
    });

/// Whether rolls are cut into strips, and not laid roll after roll.
fn is_cut() -> Condition {
    FROM_ONE.at_least(1.0)
}

/// Rolls that the strips take: by strips cut from a roll, or, where a strip is longer than
/// a roll, roll after roll with a lap at each roll's end. Zero where it is not ordered in
/// rolls.
pub(super) const ROLLS: Step<Layers> = Step::new(
    "rolls for the strips",
    System::each,
    &sources::STRIPS,
    || {
        let cut = (COUNT / FROM_ONE).round_up();
        let in_a_row = lapping(COUNT * LENGTH, ROLL_LENGTH);
        when(from_rolls(), when(is_cut(), cut, in_a_row), 0.0)
    },
);

const SPLICES: Step<Layers> = Step::new("splices", System::each, &sources::STRIPS, || {
    when(is_cut(), 0.0, highest(ROLLS - 1.0, 0.0))
});

/// Area of one roll.
pub(super) const ROLL: Step<Layers> = Step::geometry("area of a roll", System::area, || {
    when(in_rolls(), ROLL_LENGTH * ROLL_WIDTH, 0.0)
});

const LEFT_OF_FULL: Step<Layers> = Step::geometry("left of a full roll", System::length, || {
    when(is_cut(), ROLL_LENGTH - FROM_ONE * LENGTH, 0.0)
});

const LEFT_OF_LAST: Step<Layers> = Step::geometry("left of the last roll", System::length, || {
    let in_the_last = COUNT - FROM_ONE * (ROLLS - 1.0);
    let cut = ROLL_LENGTH - in_the_last * LENGTH;
    let in_a_row = ROLLS * ROLL_LENGTH - COUNT * LENGTH - SPLICES * LAP;
    when(ROLLS.above(0.0), when(is_cut(), cut, in_a_row), 0.0)
});

/// As many whole aprons as what is left of a roll makes, one after the other.
fn in_aprons(left: Step<Layers>) -> Term<Layers> {
    (left / Factor::ApronLength).round_down() * Factor::ApronLength
}

/// What is left of the rolls in pieces as wide as the roll, counted in whole aprons: of
/// each roll that is cut into strips, and of the last.
pub(super) const LEFT: Step<Layers> =
    Step::new("left of rolls", System::area, &sources::FALL_LINER, || {
        let full = highest(ROLLS - 1.0, 0.0) * in_aprons(LEFT_OF_FULL);
        let all = (full + in_aprons(LEFT_OF_LAST)) * ROLL_WIDTH;
        let apron = Term::<Layers>::from(Factor::ApronLength);
        when(apron.above(0.0), all, 0.0)
    });

/// Length of all seams: between strips, and across them where rolls are spliced.
pub(super) const SEAMS: Step<Layers> =
    Step::new("seam length", System::length, &sources::STRIPS, || {
        let between = sheet::TIMES * (SIDE_BY_SIDE - 1.0) * LENGTH;
        let seams = between + SPLICES * ROLL_WIDTH;
        when(COUNT.above(0.0), seams, 0.0)
    });
