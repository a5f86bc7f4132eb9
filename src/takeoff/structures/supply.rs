//! What structures are bought as and set by: crates by the piece, walls by their face.
//!
//! A price for one stands beside a material that is named, as it does for other items;
//! without one it stands for what is bought.

use super::is_kind;
use super::size::Size;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Link, Rules, Text, TextExpr, either, when};
use crate::job::tables::{Materials, ProductionRates as Works, Structures};
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::COUNTED;
use crate::takeoff::supplied::{Found, Supplied, supplied, waste_of};
use crate::takeoff::supply::{Amounts, Bought, Needed, Wanted, done, sold};
use crate::units::{EACH, MONEY, ONE};

const UNPRICED: &str = "nothing prices this structure, so it is excluded";
const UNSET: &str = "the work that sets this is not in Production rates";

/// Adds what stands before a structure's name in its line, and after it in words.
pub(super) fn words(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
) -> (Text<Structures>, Text<Structures>) {
    let before = by_kind(basis, ["Crates: ", "Wall: ", "Structure: "]);
    let before = rules.word_step("line begins with", before);
    let rest = either(
        is_kind(basis, "vault"),
        words_as_they_are(": vault"),
        words_as_they_are(": weir box"),
    );
    let said = either(
        is_kind(basis, "void crates"),
        words_as_they_are(": void crates"),
        either(
            is_kind(basis, "wall kept"),
            words_as_they_are(": keep and protect wall"),
            rest,
        ),
    );
    (before, rules.word_step("line says", said))
}

fn words_as_they_are(words: &str) -> TextExpr {
    TextExpr::Fixed(words.to_owned())
}

/// Words for crates, for walls, and for all else.
fn by_kind(basis: &Basis<'_>, [crates, wall, other]: [&str; 3]) -> TextExpr {
    let wall = either(
        is_kind(basis, "wall kept"),
        words_as_they_are(wall),
        words_as_they_are(other),
    );
    let bank = is_kind(basis, "void crates");
    either(bank, words_as_they_are(crates), wall)
}

/// What is bought and worked of each structure.
pub(super) fn supplied_structure(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    size: &Size,
    grade: Text<Structures>,
) -> Supplied<Structures> {
    let price = basis.inputs.number(Structures::StructurePrice);
    let in_crates = when(is_kind(basis, "void crates"), size.outside, 0.0);
    let unit = basis.system.volume();
    let in_crates = rules.geometry("volume of crates", unit, in_crates);
    let amounts = Amounts {
        each: Some(size.pieces),
        length: Some(size.wall_length),
        area: Some(size.wall_area),
        volume: Some(in_crates),
        weight: None,
    };
    let bought = bought(rules, basis, (size, &amounts), price);
    let (work, worked) = worked(rules, basis, (size, &amounts), price);
    let waste = waste_of(rules, basis, "structure", bought.material);
    let price = rules.from_job("price in use", MONEY, price.or(0.0));
    Supplied {
        bought,
        waste,
        work,
        worked,
        price: Some(price),
        grade,
    }
}

/// The material of each structure: its own; for crates that have no price, the usual one.
fn material_row(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    price: Column<Structures>,
) -> Link<Structures, Materials> {
    let own = basis.inputs.words(Structures::StructureMaterial);
    let usual = is_kind(basis, "void crates").and(price.blank());
    let usual = either(
        usual,
        words_as_they_are("Void crate"),
        words_as_they_are(""),
    );
    let words = rules.word_step("material in use", either(own.blank(), usual, own.words()));
    let row = rules.link("material row", words);
    rules.must_find(own, row);
    row
}

/// What is bought: in the unit of its material; without one, by the piece where it has a
/// price and no wall is kept, and by the face of the wall where one is.
fn bought(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    (size, amounts): (&Size, &Amounts<Structures>),
    price: Column<Structures>,
) -> Bought<Structures> {
    let material = material_row(rules, basis, price);
    let wanted = Wanted {
        what: "structure",
        material,
        at: basis.inputs.id(Structures::StructureMaterial),
        missing: UNPRICED,
        natural: (EACH, size.pieces),
    };
    let bought = sold(rules, basis, &wanted, amounts);
    material_limits(rules, basis, (size, &bought), price);
    let unit = basis.system.area();
    let face = is_kind(basis, "wall kept").and(price.blank());
    let face = face.and(material.found_none());
    let area = size.wall_area.here().number_in(unit);
    let quantity = when(face.clone(), area, bought.quantity);
    let symbol = words_as_they_are(unit.symbol());
    let symbol = either(face, symbol, bought.unit.words());
    Bought {
        amount: size.pieces,
        quantity: rules.step("quantity of its line", ONE, &sources::UNITS, quantity),
        unit: rules.word_step("unit of its line", symbol),
        material,
    }
}

/// Limits: something prices what is bought, its unit is one that this kind makes, and a
/// price for one stands beside a material sold by the piece.
fn material_limits(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    (size, bought): (&Size, &Bought<Structures>),
    price: Column<Structures>,
) {
    let at = basis.inputs.id(Structures::StructureMaterial);
    let material = bought.material;
    let named = material.found_none().negate();
    let none = bought.quantity.here().same_as(0.0);
    let some = size.pieces.here().above(0.0);
    rules.limit(
        "structure bought in a unit that its kind does not make",
        named.clone().and(some).and(none),
        Breach::fault(
            Code::DimensionMismatch,
            at,
            "the material is sold in a unit that this kind of structure does not make",
            "vaults and weir boxes are bought by the piece, void crates by the piece or by volume, what protects a wall by length, area or the piece",
        ),
    );
    let by_piece = material.of(basis.production.material_kind).same_as(COUNTED);
    rules.limit(
        "price for one beside a material not sold by the piece",
        named.and(price.filled()).and(by_piece.negate()),
        Breach::fault(
            Code::ConflictingValues,
            price.id,
            "a price for one stands beside a material that is not sold by the piece",
            "clear the price or the material, or take one of them off under Other items",
        ),
    );
    let unpriced = price.blank().and(material.found_none());
    rules.limit(
        "structure that nothing prices",
        unpriced.and(is_kind(basis, "wall kept").negate()),
        Breach::open(
            Code::MissingPrice,
            at,
            UNPRICED,
            "name a material that is in Materials, or write a price; void crates take the material Void crate where they name none",
        ),
    );
}

/// The work that sets each structure, and how much of it.
///
/// Limits: the work is in the book, and counted in a unit that this kind makes. A price
/// for one without a work is taken to include the setting, with a warning.
fn worked(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    (size, amounts): (&Size, &Amounts<Structures>),
    price: Column<Structures>,
) -> (Link<Structures, Works>, Column<Structures>) {
    let own = basis.inputs.words(Structures::StructureWork);
    let usual = by_kind(basis, ["Set crate", "Protect wall", "Set structure"]);
    let words = rules.word_step("work in use", either(own.blank(), usual, own.words()));
    let work: Link<Structures, Works> = rules.link("work row", words);
    rules.must_find(own, work);
    let needed = Needed {
        what: "setting",
        work,
        at: own.id,
        missing: UNSET,
    };
    let worked = done(rules, basis, &needed, amounts);
    let some = size.pieces.here().above(0.0);
    let none = worked.here().same_as(0.0);
    rules.limit(
        "structure set in a unit that its kind does not make",
        work.found_none().negate().and(some.clone()).and(none),
        Breach::fault(
            Code::DimensionMismatch,
            own.id,
            "the work is counted in a unit that this kind of structure does not make",
            "count Set structure by the piece, Set crate by the piece or by volume, Protect wall by area or length",
        ),
    );
    let included = price.filled().and(own.blank());
    work_limits(rules, own, work.found_none().and(some), included);
    (work, worked)
}

/// Limits: a work that is missing is open, or where a price may include it a warning.
fn work_limits(
    rules: &mut Rules<'_, Structures>,
    own: Text<Structures>,
    missing: Condition,
    included: Condition,
) {
    rules.limit(
        "setting: work not in the book",
        missing.clone().and(included.clone().negate()),
        Breach::open(
            Code::MissingRate,
            own.id,
            UNSET,
            "add a row of this name to Production rates, or name a work that is there",
        ),
    );
    rules.limit(
        "setting is taken to be in the price",
        missing.and(included),
        Breach::warning(
            Code::MissingRate,
            own.id,
            "the price for one is taken to include the setting",
            "if it does not, add the usual work to Production rates or name one here",
        ),
    );
}

/// What is bought and placed under structures.
pub(super) fn supplied_bedding(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    bedding: Column<Structures>,
    grade: Text<Structures>,
) -> Supplied<Structures> {
    let at = basis.inputs.id(Structures::StructureBedding);
    let found = |what, usual, missing| Found {
        what,
        own: None,
        usual,
        at,
        missing,
    };
    let material = found(
        "bedding",
        "Bedding",
        "the material Bedding is not in Materials, so it has no price",
    );
    let work = found(
        "bedding to place",
        "Place gravel",
        "the work that places bedding, Place gravel, is not in Production rates",
    );
    let amounts = Amounts {
        volume: Some(bedding),
        ..Amounts::default()
    };
    let natural = (basis.system.volume(), bedding);
    supplied(rules, basis, (&material, &work), (&amounts, natural), grade)
}
