//! Other items: the plain dimension sheet.
//!
//! Times × length × width × depth, in the unit asked for, less what is deducted. A unit
//! of length takes one measure, of area two, of volume three; an item without measures
//! has its quantity under Times.

use super::book::{UnitBook, UnitColumns};
use super::inputs::AllInputs;
use super::production::Production;
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Link, Rules, one, when};
use crate::job::tables::{Materials, OtherItems as Items, ProductionRates as Works};
use crate::sources;
use crate::units::{self, MONEY, ONE, PERCENT, System};

/// Columns of the items that lines are made from.
#[derive(Clone, Copy, Debug)]
pub struct ItemColumns {
    /// Quantity in the item's own unit.
    pub quantity: Column<Items>,
    /// Waste in use.
    pub waste: Column<Items>,
    /// Subcontract or quoted price in use.
    pub price: Column<Items>,
    /// Row of the item's material.
    pub material: Link<Items, Materials>,
    /// Row of the item's work.
    pub work: Link<Items, Works>,
}

/// Adds the quantity of every item.
pub fn items(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    production: &Production,
    system: System,
) -> ItemColumns {
    let items = &inputs.items;
    let [length, width, depth] =
        [Items::ItemLength, Items::ItemWidth, Items::ItemDepth].map(|side| items.number(side));
    let mut rules = graph.rules::<Items>();
    let unit: Link<Items, UnitBook> = rules.link("unit row", items.words(Items::ItemUnit));
    let filled = |side: Column<Items>| when(side.blank(), 0.0, 1.0);
    let measures = rules.step(
        "measures given",
        ONE,
        &sources::ARITHMETIC,
        filled(length) + filled(width) + filled(depth),
    );
    let times = items.number(Items::Times);
    let side = |side: Column<Items>| side.or(one(system.length()));
    let base = if system.is_us() {
        units::FT3
    } else {
        units::M3
    };
    let measured = times.or(1.0) * (side(length) * side(width) * side(depth)).number_in(base)
        / unit.of(book.size);
    let none = measures.here().same_as(0.0);
    let deduct = items.number(Items::Deduct);
    let quantity = when(none.clone(), times.here(), measured) - deduct;
    let quantity = rules.step("item quantity", ONE, &sources::GEOMETRY, quantity);
    rules.limit(
        "measures against unit",
        none.clone().negate().and(measures.here().differs_from(unit.of(book.lengths))),
        Breach::fault(
            Code::DimensionMismatch,
            items.words(Items::ItemUnit).id,
            "the measures do not make this unit",
            "a length takes one measure, an area two, a volume three; a count takes none, only Times",
        ),
    );
    rules.limit(
        "more deducted than measured",
        quantity.here().below(0.0),
        Breach::fault(
            Code::OutOfRange,
            deduct.id,
            "more is deducted than was measured",
            "check Deduct and its unit",
        ),
    );
    rules.limit(
        "nothing measured",
        none.and(times.blank()),
        Breach::open(
            Code::MissingValue,
            times.id,
            "nothing is measured here",
            "write Times, or the measures",
        ),
    );
    let (material, work, waste, price) = priced(&mut rules, inputs, production);
    unit_limits(&mut rules, inputs, book, production, (unit, material, work));
    ItemColumns {
        quantity,
        waste,
        price,
        material,
        work,
    }
}

fn priced(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    production: &Production,
) -> (
    Link<Items, Materials>,
    Link<Items, Works>,
    Column<Items>,
    Column<Items>,
) {
    let items = &inputs.items;
    let material: Link<Items, Materials> =
        rules.link("material row", items.words(Items::ItemMaterial));
    let work: Link<Items, Works> = rules.link("work row", items.words(Items::ItemWork));
    let waste = items
        .number(Items::Waste)
        .or(material.of(production.material_waste));
    let waste = rules.step("waste in use", PERCENT, &sources::WASTE, waste);
    let (price, plug) = (items.number(Items::Price), items.number(Items::PlugPrice));
    let in_use = rules.step("price in use", MONEY, &sources::JOB, price.or(plug.or(0.0)));
    rules.limit(
        "item on a plug price",
        price.blank().and(plug.filled()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "the price is a plug",
            "write the price when it is in; until then the bid is a draft",
        ),
    );
    rules.limit(
        "item that nothing prices",
        price
            .blank()
            .and(plug.blank())
            .and(material.found_none())
            .and(work.found_none()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "nothing prices this item, so it is excluded",
            "name a material or a work, or write a price or a plug price",
        ),
    );
    (material, work, waste, in_use)
}

type Links = (
    Link<Items, UnitBook>,
    Link<Items, Materials>,
    Link<Items, Works>,
);

/// A quantity is bought and done in units of its own kind; only a volume may be bought by
/// weight, where the material's weight is known.
fn unit_limits(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    book: &UnitColumns,
    production: &Production,
    links: Links,
) {
    let (unit, material, work) = links;
    let items = &inputs.items;
    let kind = rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind));
    let bought = material.of(production.material_kind);
    let by_weight = kind
        .here()
        .same_as(super::book::VOLUME)
        .and(bought.clone().same_as(super::book::WEIGHT))
        .and(material.of(production.material_weight).above(0.0));
    rules.limit(
        "unit against the material's",
        material.found_none().negate().and(kind.here().differs_from(bought)).and(by_weight.negate()),
        Breach::fault(
            Code::DimensionMismatch,
            items.words(Items::ItemMaterial).id,
            "the item's unit cannot be turned into the unit the material is sold in",
            "measure the item in the material's kind of unit; a volume bought by weight needs the material's Weight",
        ),
    );
    rules.limit(
        "unit against the work's",
        work.found_none()
            .negate()
            .and(kind.here().differs_from(work.of(production.work_kind))),
        Breach::fault(
            Code::DimensionMismatch,
            items.words(Items::ItemWork).id,
            "the item's unit cannot be turned into the unit of the work",
            "measure the item in the work's kind of unit, or name another work",
        ),
    );
}
