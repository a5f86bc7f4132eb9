//! How a sheet is made up: one panel, strips side by side, or whole rolls; its seams.

use super::sheet::Sheet;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Rules, Term, highest, when};
use crate::job::tables::Layers;
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::EACH;

/// Strips, rolls and seams of each layer.
#[derive(Clone, Copy, Debug)]
pub struct Strips {
    /// Strips of all times that it is laid; zero for a panel.
    pub count: Column<Layers>,
    /// How long one is.
    pub length: Column<Layers>,
    /// Rolls that the strips take; zero where it is not ordered in rolls.
    pub rolls: Column<Layers>,
    /// Area of one roll.
    pub roll: Column<Layers>,
    /// Area left of rolls, in pieces of full width and whole aprons long.
    pub left: Column<Layers>,
    /// Length of all seams.
    pub seams: Column<Layers>,
}

/// Whether the words under Ordered as are these.
pub(super) fn is_ordered_as(basis: &Basis<'_>, words: &str) -> Condition {
    basis.inputs.words(Layers::OrderedAs).is(words)
}

/// What is joined, and by how much.
struct Joint {
    lap: Column<Layers>,
    roll_width: Column<Layers>,
    roll_length: Column<Layers>,
}

/// Adds strips, rolls and seams.
pub(super) fn strips(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>, sheet: &Sheet) -> Strips {
    let unit = basis.system.length();
    let joint = joint(rules, basis);
    roll_limits(rules, basis, &joint);
    let is_across = basis.inputs.words(Layers::StripsRun);
    let is_across = is_across.is("across the width");
    let length = when(is_across.clone(), sheet.width, sheet.length);
    let length = rules.geometry("strip length", unit, length);
    let across = when(is_across, sheet.length, sheet.width);
    let across = rules.geometry("across the strips", unit, across);
    let side_by_side = side_by_side(rules, basis, &joint, across);
    let count = rules.arithmetic("strips in all", EACH, side_by_side * sheet.times);
    strip_longer_than_roll(rules, basis, &joint, length);
    let rolls = rolls(rules, basis, &joint, (count, length));
    let between = sheet.times * (side_by_side - 1.0) * length;
    let seams = between + rolls.splices * joint.roll_width;
    let seams = when(count.here().above(0.0), seams, 0.0);
    Strips {
        count,
        length,
        rolls: rolls.count,
        roll: rolls.area,
        left: rolls.left,
        seams: rules.step("seam length", unit, &sources::STRIPS, seams),
    }
}

/// The lap in use by the kind of seam, and the size of a roll.
fn joint(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>) -> Joint {
    let (inputs, unit) = (basis.inputs, basis.system.length());
    let seam = inputs.words(Layers::Seam);
    let of = |which: Factor| factor::<Layers>(inputs, which);
    let usual = when(seam.is("taped"), of(Factor::LapTaped), of(Factor::LapLoose));
    let usual = when(seam.is("welded"), of(Factor::LapWelded), usual);
    let lap = inputs.number(Layers::Lap).or(usual);
    let mut roll = |name: &str, field: Layers| {
        let measured = inputs.number(field);
        rules.from_job(name, unit, measured)
    };
    let roll_width = roll("roll width in use", Layers::RollWidth);
    let roll_length = roll("roll length in use", Layers::RollLength);
    Joint {
        lap: rules.from_job("lap in use", unit, lap),
        roll_width,
        roll_length,
    }
}

/// Pieces of a length that lie one after the other, each lapping the one before, over a
/// whole length: (whole − lap) ÷ (piece − lap), up to a whole number and at least one.
/// Zero where a piece is no longer than the lap.
fn lapping(whole: Term<Layers>, piece: Column<Layers>, lap: Column<Layers>) -> Term<Layers> {
    let pieces = ((whole - lap) / (piece - lap)).round_up();
    when(piece.here().above(lap), highest(1.0, pieces), 0.0)
}

/// Strips side by side in one sheet; zero for a panel, and where there is nothing to cover.
fn side_by_side(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    joint: &Joint,
    across: Column<Layers>,
) -> Column<Layers> {
    let in_strips = is_ordered_as(basis, "strips").or(is_ordered_as(basis, "rolls"));
    let strips = lapping(across.into(), joint.roll_width, joint.lap);
    let strips = when(in_strips.and(across.here().above(0.0)), strips, 0.0);
    rules.step("strips side by side", EACH, &sources::STRIPS, strips)
}

/// Whole rolls.
struct Rolls {
    count: Column<Layers>,
    area: Column<Layers>,
    splices: Column<Layers>,
    left: Column<Layers>,
}

/// Whole rolls that the strips take: by strips cut from a roll, or, where a strip is longer
/// than a roll, roll after roll with a lap at each roll's end.
fn rolls(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    joint: &Joint,
    (strips, length): (Column<Layers>, Column<Layers>),
) -> Rolls {
    let system = basis.system;
    let in_rolls = is_ordered_as(basis, "rolls").and(strips.here().above(0.0));
    let in_rolls = in_rolls.and(length.here().above(0.0));
    let from_one = (joint.roll_length / length).round_down();
    let from_one = when(in_rolls.clone(), from_one, 0.0);
    let from_one = rules.step("strips from a roll", EACH, &sources::STRIPS, from_one);
    let is_cut = from_one.here().at_least(1.0);
    let cut = (strips / from_one).round_up();
    let in_a_row = lapping(strips * length, joint.roll_length, joint.lap);
    let count = when(in_rolls, when(is_cut.clone(), cut, in_a_row), 0.0);
    let count = rules.step("rolls for the strips", EACH, &sources::STRIPS, count);
    let splices = when(is_cut, 0.0, highest(count - 1.0, 0.0));
    let splices = rules.step("splices", EACH, &sources::STRIPS, splices);
    let area = joint.roll_length * joint.roll_width;
    let area = when(is_ordered_as(basis, "rolls"), area, 0.0);
    let area = rules.geometry("area of a roll", system.area(), area);
    let made = (count, splices, from_one);
    Rolls {
        count,
        area,
        splices,
        left: left(rules, basis, joint, (strips, length), made),
    }
}

/// What is left of the rolls in pieces as wide as the roll, counted in whole aprons: of
/// each roll that is cut into strips, and of the last.
fn left(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    joint: &Joint,
    (strips, length): (Column<Layers>, Column<Layers>),
    (rolls, splices, from_one): (Column<Layers>, Column<Layers>, Column<Layers>),
) -> Column<Layers> {
    let system = basis.system;
    let unit = system.length();
    let is_cut = from_one.here().at_least(1.0);
    let full = joint.roll_length - from_one * length;
    let full = when(is_cut.clone(), full, 0.0);
    let full = rules.geometry("left of a full roll", unit, full);
    let in_the_last = strips - from_one * (rolls - 1.0);
    let cut = joint.roll_length - in_the_last * length;
    let in_a_row = rolls * joint.roll_length - strips * length - splices * joint.lap;
    let last = when(rolls.here().above(0.0), when(is_cut, cut, in_a_row), 0.0);
    let last = rules.geometry("left of the last roll", unit, last);
    let apron = factor::<Layers>(basis.inputs, Factor::ApronLength);
    let whole = |left: Column<Layers>| (left / apron.clone()).round_down() * apron.clone();
    let all = (highest(rolls - 1.0, 0.0) * whole(full) + whole(last)) * joint.roll_width;
    let all = when(apron.above(0.0), all, 0.0);
    rules.step("left of rolls", system.area(), &sources::FALL_LINER, all)
}

/// Limits: strips have a roll width and rolls a length, both more than the lap; a roll is
/// not described where the sheet is one panel.
fn roll_limits(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>, joint: &Joint) {
    let inputs = basis.inputs;
    let (width, length) = (
        inputs.number(Layers::RollWidth),
        inputs.number(Layers::RollLength),
    );
    let in_rolls = is_ordered_as(basis, "rolls");
    let in_strips = is_ordered_as(basis, "strips").or(in_rolls.clone());
    let mut missing = |name: &str, broken: Condition, at, message, hint| {
        rules.limit(
            name,
            broken,
            Breach::fault(Code::MissingValue, at, message, hint),
        );
    };
    missing(
        "strips without a roll width",
        in_strips.clone().and(width.blank()),
        width.id,
        "strips and rolls need a roll width",
        "write the width of a roll, or order one panel",
    );
    missing(
        "rolls without a length",
        in_rolls.clone().and(length.blank()),
        length.id,
        "rolls need a roll length",
        "write the length of a roll, or order strips",
    );
    let no_more = |size: Column<Layers>| size.filled().and(joint.lap.here().at_least(size));
    let mut too_small = |name: &str, broken: Condition, at| {
        let message = "a roll is no larger than the lap";
        let hint = "check the roll's size, the lap and their units";
        rules.limit(
            name,
            broken,
            Breach::fault(Code::SheetTooSmall, at, message, hint),
        );
    };
    too_small(
        "roll no wider than its lap",
        in_strips.clone().and(no_more(width)),
        width.id,
    );
    too_small(
        "roll no longer than its lap",
        in_rolls.and(no_more(length)),
        length.id,
    );
    rules.limit(
        "roll that is not used",
        in_strips.negate().and(width.filled().or(length.filled())),
        Breach::warning(
            Code::ConflictingValues,
            inputs.id(Layers::OrderedAs),
            "a roll is described, and one panel is ordered",
            "write strips or rolls under Ordered as, or leave the roll's size blank",
        ),
    );
}

/// Limit: strips are no longer than the roll that they are cut from, where it is known.
fn strip_longer_than_roll(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    joint: &Joint,
    length: Column<Layers>,
) {
    let roll = basis.inputs.number(Layers::RollLength);
    let long = length.here().above(joint.roll_length);
    rules.limit(
        "strip longer than a roll",
        is_ordered_as(basis, "strips").and(roll.filled()).and(long),
        Breach::warning(
            Code::SheetTooSmall,
            roll.id,
            "a strip is longer than the roll that is written here",
            "order rolls, which counts the laps at their ends, or let the strips run the other way",
        ),
    );
}
