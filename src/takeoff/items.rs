//! Other items: the plain dimension sheet.
//!
//! Times × length × width × depth, in the unit asked for, less what is deducted. A unit
//! of length takes one measure, of area two, of volume three; an item without measures
//! has its quantity under Times.

use std::collections::BTreeMap;

use super::bill::{BidLine, Columns, Counted, GivesLines, Line, Part, RowByRow};
use super::book::{self, LOOSE, VOLUME, WEIGHT, base_volume};
use super::production::{MATERIAL_KIND, MATERIAL_WASTE, MATERIAL_WEIGHT, WORK_KIND};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::{Materials, OtherItems as Items, ProductionRates as Works};
use crate::sources;
use crate::tables::UnitBook;
use crate::units::System;

/// The quantity of every item, what prices it, and its limits.
pub const RULES: &[&dyn Rule] = &[
    &QUANTITY,
    &Limit::<Items>::fault(
        "measures against unit",
        Code::DimensionMismatch,
        Items::ItemUnit.at(),
        || {
            let some = MEASURES.same_as(0.0).negate();
            some.and(MEASURES.differs_from(UNIT.of(book::LENGTHS)))
        },
        "the measures do not make this unit",
        "a length takes one measure, an area two, a volume three; a count takes none, only Times",
    ),
    &Limit::<Items>::fault(
        "more deducted than measured",
        Code::OutOfRange,
        Items::Deduct.at(),
        || QUANTITY.below(0.0),
        "more is deducted than was measured",
        "check Deduct and its unit",
    ),
    &Limit::<Items>::open(
        "nothing measured",
        Code::MissingValue,
        Items::Times.at(),
        || {
            let none = MEASURES.same_as(0.0).and(Items::Times.blank());
            none.and(is_lump_sum().negate())
        },
        "nothing is measured here",
        "write Times, or the measures",
    ),
    &MATERIAL,
    &WORK,
    &WASTE,
    &Limit::<Items>::open(
        "item on a plug price",
        Code::MissingPrice,
        Items::Price.at(),
        || Items::Price.blank().and(Items::PlugPrice.filled()),
        "the price is a plug",
        "write the price when it is in; until then the bid is a draft",
    )
    .meaning(Meaning::StandsIn),
    &Limit::<Items>::open(
        "item that nothing prices",
        Code::MissingPrice,
        Items::Price.at(),
        || {
            let none = Items::Price.blank().and(Items::PlugPrice.blank());
            none.and(MATERIAL.found_none()).and(WORK.found_none())
        },
        "nothing prices this item, so it is excluded",
        "name a material or a work, or write a price or a plug price",
    )
    .meaning(Meaning::NoPrice),
    &Limit::<Items>::fault(
        "unit against the material's",
        Code::DimensionMismatch,
        Items::ItemMaterial.at(),
        || {
            let sold_in = MATERIAL.of(MATERIAL_KIND);
            let volume = KIND.same_as(VOLUME).or(KIND.same_as(LOOSE));
            let by_weight = volume
                .and(sold_in.clone().same_as(WEIGHT))
                .and(MATERIAL.of(MATERIAL_WEIGHT).above(0.0));
            let other = MATERIAL.found().and(KIND.differs_from(sold_in));
            other.and(by_weight.negate())
        },
        "the item's unit cannot be turned into the unit the material is sold in",
        "measure the item in the material's kind of unit; a volume bought by weight needs the material's Weight",
    ),
    &Limit::<Items>::fault(
        "unit against the work's",
        Code::DimensionMismatch,
        Items::ItemWork.at(),
        || WORK.found().and(KIND.differs_from(WORK.of(WORK_KIND))),
        "the item's unit cannot be turned into the unit of the work",
        "measure the item in the work's kind of unit, or name another work",
    ),
];

const UNIT: LookUp<Items, UnitBook> =
    LookUp::new("unit row", || Items::ItemUnit.key()).among(|| book::UNIT.key());
const MATERIAL: LookUp<Items, Materials> =
    LookUp::new("material row", || Items::ItemMaterial.key()).that_must_find();
const WORK: LookUp<Items, Works> =
    LookUp::new("work row", || Items::ItemWork.key()).that_must_find();

/// How many of length, width and depth are given.
const MEASURES: Step<Items> = Step::arithmetic("measures given", System::number, || {
    let given = |side: Items| when(side.blank(), 0.0, 1.0);
    given(Items::ItemLength) + given(Items::ItemWidth) + given(Items::ItemDepth)
});

/// A lump sum is one where nothing else is said.
fn is_lump_sum() -> Condition {
    Items::ItemUnit.is("ls")
}

/// Times × length × width × depth in the item's unit, less what is deducted.
///
/// A side that is not given counts as one; without any, Times is the quantity.
const QUANTITY: Step<Items> = Step::geometry("item quantity", System::number, || {
    let side = |side: Items| side.or(one(System::length));
    let solid = side(Items::ItemLength) * side(Items::ItemWidth) * side(Items::ItemDepth);
    let times = Items::Times.or(1.0);
    let product = times * solid.number_in(base_volume) / UNIT.of(book::SIZE);
    let once = when(is_lump_sum(), 1.0, 0.0);
    when(MEASURES.same_as(0.0), Items::Times.or(once), product) - Items::Deduct
});

/// The kind of the item's unit.
const KIND: Step<Items> = Step::new("unit kind", System::number, &sources::UNITS, || {
    UNIT.of(book::KIND)
});

/// Waste in use.
const WASTE: Step<Items> = Step::new("waste in use", System::percent, &sources::WASTE, || {
    Items::Waste.or(MATERIAL.of(MATERIAL_WASTE))
});

/// The price of a subcontract or quote in use; zero without one.
const PRICE: Step<Items> = Step::from_job("price in use", System::money, || {
    Items::Price.or(Items::PlugPrice.or(0.0))
});

const ITEM: BidLine<Items> = BidLine {
    section: Part::Of(|| Items::Section.key()),
    zone: Some(Part::Of(|| Items::ItemZone.key())),
    price: Some(|| PRICE.key()),
    ..BidLine::of_each_row(
        &[Part::Of(|| Items::Item.key())],
        &[Part::Of(|| Items::Description.key())],
        Counted::ByColumns(Columns {
            quantity: || QUANTITY.key(),
            unit: Part::Of(|| Items::ItemUnit.key()),
            waste: Some(|| WASTE.key()),
            material: Some(|| MATERIAL.key()),
            work: Some(|| WORK.key()),
        }),
    )
};

/// The lines of the items: those of one section together, in the order in which the
/// sections first appear.
#[derive(Debug)]
pub(super) struct BySection;

impl GivesLines for BySection {
    fn lines(&self, graph: &mut Graph) -> Vec<Line> {
        let rows = by_section(graph);
        RowByRow::new(&[&ITEM]).of_rows(graph, rows)
    }
}

/// The rows of the items in the order of their lines.
fn by_section(graph: &Graph) -> Vec<usize> {
    let section = graph.id(Items::Section);
    let name = |row: usize| graph.written(section.at(row)).to_lowercase();
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    for row in 0..graph.rows(section) {
        first.entry(name(row)).or_insert(row);
    }
    let mut order: Vec<usize> = (0..graph.rows(section)).collect();
    order.sort_by_key(|row| first.get(&name(*row)).copied());
    order
}
