//! Outside size of structures, in whole crates where they are banks of void crates.

use super::is_kind;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Rules, Term, when};
use crate::job::tables::Structures;
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::{EACH, PERCENT};

/// Outside size and number of each structure.
pub(super) struct Size {
    /// How many there are.
    pub(super) times: Column<Structures>,
    /// Crates in one bank; 1 of what is no bank of crates.
    pub(super) pieces_of_one: Column<Structures>,
    /// The same in all.
    pub(super) pieces: Column<Structures>,
    /// Length, width and height as built.
    pub(super) length: Column<Structures>,
    pub(super) width: Column<Structures>,
    pub(super) height: Column<Structures>,
    /// Length × width of one.
    pub(super) footprint: Column<Structures>,
    /// Outside volume of all.
    pub(super) outside: Column<Structures>,
    /// Water that crates store.
    pub(super) stored: Column<Structures>,
    /// Length and face of walls that are kept; zero of other kinds.
    pub(super) wall_length: Column<Structures>,
    pub(super) wall_area: Column<Structures>,
}

/// Adds number and outside size of each structure.
pub(super) fn size(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) -> Size {
    let (inputs, system) = (basis.inputs, basis.system);
    size_limits(rules, basis);
    crate_size_limits(rules, basis);
    let times = inputs.number(Structures::StructureTimes).or(1.0);
    let times = rules.from_job("number of structures", EACH, times);
    let [length, width, height] = [
        (
            "length",
            Structures::StructureLength,
            Structures::UnitLength,
        ),
        ("width", Structures::StructureWidth, Structures::UnitWidth),
        (
            "height",
            Structures::StructureHeight,
            Structures::UnitHeight,
        ),
    ]
    .map(|side| as_built(rules, basis, side));
    let crates = length.crates * width.crates * height.crates;
    let of_one = when(is_kind(basis, "void crates"), crates, 1.0);
    let of_one = rules.geometry("pieces of one", EACH, of_one);
    let pieces = rules.geometry("pieces", EACH, of_one * times);
    let [length, width, height] = [length.built, width.built, height.built];
    let footprint = rules.geometry("footprint", system.area(), length * width);
    let outside = footprint * height * times;
    let outside = rules.geometry("outside volume", system.volume(), outside);
    let wall = |term: Term<Structures>| when(is_kind(basis, "wall kept"), term, 0.0);
    let (long, face) = (wall(length * times), wall(length * height * times));
    Size {
        times,
        pieces_of_one: of_one,
        pieces,
        length,
        width,
        height,
        footprint,
        outside,
        stored: stored(rules, basis, outside),
        wall_length: rules.geometry("wall kept, length", system.length(), long),
        wall_area: rules.geometry("wall kept, face", system.area(), face),
    }
}

/// One side of a structure: whole crates along it, and its length as built.
struct Side {
    crates: Column<Structures>,
    built: Column<Structures>,
}

/// Whole crates along one side, up to the next, and the side that they make; the side as
/// measured of what is no bank of crates.
fn as_built(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    (what, side, unit): (&str, Structures, Structures),
) -> Side {
    let (side, unit) = (basis.inputs.number(side), basis.inputs.number(unit));
    let bank = is_kind(basis, "void crates");
    let known = bank.and(unit.here().above(0.0));
    let crates = when(known.clone(), (side / unit).round_up(), 0.0);
    let crates = rules.geometry(&format!("crates along its {what}"), EACH, crates);
    let built = when(known, crates * unit, side);
    let name = format!("{what} as built");
    Side {
        crates,
        built: rules.geometry(&name, basis.system.length(), built),
    }
}

/// Limits: a bank of crates has the size of its crates, which is told at each side that is
/// missing, and nothing else has.
fn crate_size_limits(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) {
    let sides = [
        (Structures::UnitLength, "the length of a crate is missing"),
        (Structures::UnitWidth, "the width of a crate is missing"),
        (Structures::UnitHeight, "the height of a crate is missing"),
    ];
    let sides = sides.map(|(side, missing)| (basis.inputs.number(side), missing));
    for (side, missing) in sides {
        rules.limit(
            &format!("bank of crates: {missing}"),
            is_kind(basis, "void crates").and(side.blank()),
            Breach::fault(
                Code::MissingValue,
                side.id,
                missing,
                "write Crate length, Crate width and Crate height: whole crates fill the bank",
            ),
        );
    }
    let [(length, _), (width, _), (height, _)] = sides;
    let some = length.filled().or(width.filled()).or(height.filled());
    rules.limit(
        "size of a crate, and no bank of crates",
        is_kind(basis, "void crates").negate().and(some),
        Breach::warning(
            Code::ConflictingValues,
            length.id,
            "the size of a crate is written, and this is no bank of void crates",
            "write void crates under Kind, or clear the crate's size",
        ),
    );
}

/// Limits: a structure has a height, and a width unless it is a wall that is kept.
fn size_limits(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) {
    let none = |size: Column<Structures>| size.here().above(0.0).negate();
    let width = basis.inputs.number(Structures::StructureWidth);
    let wall = is_kind(basis, "wall kept");
    rules.limit(
        "structure without a width",
        wall.negate().and(none(width)),
        Breach::fault(
            Code::MissingValue,
            width.id,
            "the structure has no width",
            "write its outside width; only a wall that is kept may do without",
        ),
    );
    let height = basis.inputs.number(Structures::StructureHeight);
    rules.limit(
        "structure without a height",
        none(height),
        Breach::fault(
            Code::OutOfRange,
            height.id,
            "the structure has no height",
            "write its outside height, from underside to top",
        ),
    );
}

/// Water that void crates store: their outside volume × void.
fn stored(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    outside: Column<Structures>,
) -> Column<Structures> {
    let usual = factor(basis.inputs, Factor::CrateVoids);
    let void = basis.inputs.number(Structures::Void).or(usual);
    let void = rules.step("void in use", PERCENT, &sources::CRATE_VOIDS, void);
    let stored = when(is_kind(basis, "void crates"), outside * void, 0.0);
    let unit = basis.system.water();
    rules.step("water stored in crates", unit, &sources::WATER_HELD, stored)
}
