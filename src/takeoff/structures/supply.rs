//! What structures are bought as and set by: crates by the piece, walls by their face.
//!
//! A price for one stands beside a material that is named, as it does for other items;
//! without one it stands for what is bought.

use super::size::{OUTSIDE, PIECES, WALL_FACE, WALL_LENGTH};
use super::{is_kind, pit};
use crate::graph::prelude::*;
use crate::job::tables::Structures;
use crate::sources;
use crate::takeoff::bill::{Amount, BidLine, Buying, Counted, Part, RowByRow, Working};
use crate::takeoff::book::COUNTED;
use crate::takeoff::production::MATERIAL_KIND;
use crate::takeoff::written::filled;
use crate::units::System;

const UNPRICED: &str = "nothing prices this structure, so it is excluded";
const UNSET: &str = "the work that sets this is not in Production rates";

/// Limits: something prices what is bought, its unit is one that this kind makes, and a
/// price for one stands beside a material sold by the piece; the work is in the book, and
/// counted in a unit that this kind makes.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Structures>::fault(
        "structure bought in a unit that its kind does not make",
        Code::DimensionMismatch,
        Structures::StructureMaterial.at(),
        || {
            let some = STRUCTURE.row().found().and(PIECES.above(0.0));
            some.and(STRUCTURE.to_buy().same_as(0.0))
        },
        "the material is sold in a unit that this kind of structure does not make",
        "vaults and weir boxes are bought by the piece, void crates by the piece or by volume, what protects a wall by length, area or the piece",
    ),
    &Limit::<Structures>::fault(
        "price for one beside a material not sold by the piece",
        Code::ConflictingValues,
        Structures::StructurePrice.at(),
        || {
            let by_piece = STRUCTURE.row().of(MATERIAL_KIND).same_as(COUNTED);
            let priced = STRUCTURE.row().found();
            let priced = priced.and(Structures::StructurePrice.filled());
            priced.and(by_piece.negate())
        },
        "a price for one stands beside a material that is not sold by the piece",
        "clear the price or the material, or take one of them off under Other items",
    ),
    &Limit::<Structures>::open(
        "structure that nothing prices",
        Code::MissingPrice,
        Structures::StructureMaterial.at(),
        || unpriced().and(is_kind("wall kept").negate()),
        UNPRICED,
        "name a material that is in Materials, or write a price; void crates take the material Void crate where they name none",
    ),
    &Limit::<Structures>::fault(
        "structure set in a unit that its kind does not make",
        Code::DimensionMismatch,
        Structures::StructureWork.at(),
        || {
            let some = SETTING.row().found().and(PIECES.above(0.0));
            some.and(SETTING.to_do().same_as(0.0))
        },
        "the work is counted in a unit that this kind of structure does not make",
        "count Set structure by the piece, Set crate by the piece or by volume, Protect wall by area or length",
    ),
    &Limit::<Structures>::open(
        "setting: work not in the book",
        Code::MissingRate,
        Structures::StructureWork.at(),
        || not_set().and(is_in_the_price().negate()),
        UNSET,
        "add a row of this name to Production rates, or name a work that is there",
    ),
    &Limit::<Structures>::warning(
        "setting is taken to be in the price",
        Code::MissingRate,
        Structures::StructureWork.at(),
        || not_set().and(is_in_the_price()),
        "the price for one is taken to include the setting",
        "if it does not, add the usual work to Production rates or name one here",
    ),
];

/// Neither a price nor a material.
fn unpriced() -> Condition {
    let no_price = Structures::StructurePrice.blank();
    no_price.and(STRUCTURE.row().found_none())
}

/// Something to set, and no work for it.
fn not_set() -> Condition {
    SETTING.row().found_none().and(PIECES.above(0.0))
}

/// A price for one may include the setting where no work is named.
fn is_in_the_price() -> Condition {
    let priced = Structures::StructurePrice.filled();
    priced.and(Structures::StructureWork.blank())
}

/// Words for crates, for walls, and for all else.
fn by_kind(crates: &str, wall: &str, other: impl Into<TextExpr>) -> TextExpr {
    let wall = either(is_kind("wall kept"), wall, other);
    either(is_kind("void crates"), crates, wall)
}

/// What stands before a structure's name in its line.
const BEGINS: Wording<Structures> = Wording::new("line begins with", || {
    by_kind("Crates: ", "Wall: ", "Structure: ")
});

/// What stands after it in words.
const SAYS: Wording<Structures> = Wording::new("line says", || {
    let other = either(is_kind("vault"), ": vault", ": weir box");
    by_kind(": void crates", ": keep and protect wall", other)
});

const CRATES: Step<Structures> = Step::geometry("volume of crates", System::volume, || {
    when(is_kind("void crates"), OUTSIDE, 0.0)
});

const AMOUNTS: &[Amount] = &[
    Amount::new(System::each, || PIECES.key()),
    Amount::new(System::length, || WALL_LENGTH.key()),
    Amount::new(System::area, || WALL_FACE.key()),
    Amount::new(System::volume, || CRATES.key()),
];

/// What is bought: the material that is named; for crates that have no price, the usual one.
const STRUCTURE: Buying<Structures> = Buying::new(
    "structure",
    || {
        let usual = is_kind("void crates").and(Structures::StructurePrice.blank());
        let usual = either(usual, "Void crate", "");
        let own = Structures::StructureMaterial;
        either(own.blank(), usual, own.words())
    },
    Structures::StructureMaterial.at(),
    AMOUNTS,
)
.that_must_be_found();

/// The work that sets it.
const SETTING: Working<Structures> = Working::new(
    "setting",
    || {
        let own = Structures::StructureWork;
        let usual = by_kind("Set crate", "Protect wall", "Set structure");
        either(own.blank(), usual, own.words())
    },
    Structures::StructureWork.at(),
    AMOUNTS,
)
.that_must_be_found();

/// A wall that is kept, with neither a price nor a material, is counted by its face.
fn by_face() -> Condition {
    is_kind("wall kept").and(unpriced())
}

const QUANTITY: Step<Structures> = Step::new(
    "quantity of its line",
    System::number,
    &sources::UNITS,
    || {
        let face = WALL_FACE.here().number_in(System::area);
        when(by_face(), face, STRUCTURE.to_buy())
    },
);

const UNIT: Wording<Structures> = Wording::in_units("unit of its line", |system| {
    either(
        by_face(),
        system.area().symbol(),
        STRUCTURE.bought_in().words(),
    )
});

const PRICE: Step<Structures> = Step::from_job("price in use", System::money, || {
    Structures::StructurePrice.or(0.0)
});

const BEDDING_AMOUNTS: &[Amount] = &[Amount::new(System::volume, || pit::BEDDING.key())];

const BEDDING: Buying<Structures> = Buying::new(
    "bedding",
    || "Bedding".into(),
    Structures::StructureBedding.at(),
    BEDDING_AMOUNTS,
)
.missing("the material Bedding is not in Materials, so it has no price");

const PLACING: Working<Structures> = Working::new(
    "bedding to place",
    || "Place gravel".into(),
    Structures::StructureBedding.at(),
    BEDDING_AMOUNTS,
)
.missing("the work that places bedding, Place gravel, is not in Production rates");

const NAME: Part = Part::Of(|| Structures::Structure.key());
const ZONE: Option<Part> = Some(Part::Of(|| Structures::StructureBasin.key()));

/// Lines, in the order of the rows: the structure, then its bedding.
pub(in crate::takeoff) const LINES: RowByRow<Structures> = RowByRow::new(&[
    &BidLine {
        zone: ZONE,
        price: Some(|| PRICE.key()),
        ..BidLine::of_each_row(
            &[Part::Of(|| BEGINS.key()), NAME],
            &[NAME, Part::Of(|| SAYS.key())],
            Counted::BoughtAs {
                bought: &STRUCTURE,
                worked: &SETTING,
                quantity: QUANTITY,
                unit: UNIT,
            },
        )
    },
    &BidLine {
        arises: |graph, row| {
            filled(graph, Structures::CutDepth, row)
                || filled(graph, Structures::StructureBedding, row)
        },
        zone: ZONE,
        ..BidLine::of_each_row(
            &[Part::Fixed("Bedding under: "), NAME],
            &[NAME, Part::Fixed(": bedding under it")],
            Counted::Bought(&BEDDING, Some(&PLACING)),
        )
    },
]);
