//! Other items: the plain dimension sheet.
//!
//! Times × length × width × depth, in the unit asked for, less what is deducted. A unit
//! of length takes one measure, of area two, of volume three; an item without measures
//! has its quantity under Times.

use super::book::{LOOSE, UnitColumns, VOLUME, WEIGHT, base_volume};
use super::grades::grade_in_use;
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use super::production::Production;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Graph, Link, Rules, Term, Text, one, when};
use crate::job::tables::{Materials, OtherItems as Items, ProductionRates as Works};
use crate::sources;
use crate::tables::UnitBook;
use crate::units::{MONEY, ONE, PERCENT, System};

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
    /// How its measures were come by.
    pub grade: Text<Items>,
}

/// Adds the quantity of every item, what prices it, and its limits.
pub fn items(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    production: &Production,
    wide: &JobWide,
    system: System,
) -> ItemColumns {
    let mut rules = graph.rules::<Items>();
    let unit = rules.link("unit row", inputs.words(Items::ItemUnit));
    let measures = measures_given(&mut rules, inputs);
    let quantity = quantity(&mut rules, inputs, (measures, unit), book, system);
    measure_limits(&mut rules, inputs, measures, unit.of(book.lengths));
    deduct_limit(&mut rules, inputs, quantity);
    nothing_measured(&mut rules, inputs, measures);
    let material = rules.link("material row", inputs.words(Items::ItemMaterial));
    let work = rules.link("work row", inputs.words(Items::ItemWork));
    rules.must_find(inputs.words(Items::ItemMaterial), material);
    rules.must_find(inputs.words(Items::ItemWork), work);
    let waste = inputs.number(Items::Waste);
    let waste = waste.or(material.of(production.material_waste));
    let waste = rules.step("waste in use", PERCENT, &sources::WASTE, waste);
    let price = price(&mut rules, inputs, (material, work));
    let kind = rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind));
    material_limit(&mut rules, inputs, production, kind, material);
    work_limit(&mut rules, inputs, production, kind, work);
    let grade = grade_in_use(&mut rules, inputs, wide.usual_grade, Items::ItemGrade);
    ItemColumns {
        quantity,
        waste,
        price,
        material,
        work,
        grade,
    }
}

/// Length, width and depth of the items.
fn sides(inputs: &AllInputs) -> [Column<Items>; 3] {
    [Items::ItemLength, Items::ItemWidth, Items::ItemDepth].map(|side| inputs.number(side))
}

/// How many of length, width and depth are given.
fn measures_given(rules: &mut Rules<'_, Items>, inputs: &AllInputs) -> Column<Items> {
    let [length, width, depth] = sides(inputs);
    let filled = |side: Column<Items>| when(side.blank(), 0.0, 1.0);
    let measures = filled(length) + filled(width) + filled(depth);
    rules.arithmetic("measures given", ONE, measures)
}

/// Times × length × width × depth in the item's unit, less what is deducted.
///
/// A side that is not given counts as one; without any, Times is the quantity.
fn quantity(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    (measures, unit): (Column<Items>, Link<Items, UnitBook>),
    book: &UnitColumns,
    system: System,
) -> Column<Items> {
    let times = inputs.number(Items::Times);
    let deduct = inputs.number(Items::Deduct);
    let [length, width, depth] = sides(inputs).map(|side| side.or(one(system.length())));
    let solid = (length * width * depth).number_in(base_volume(system));
    let product = times.or(1.0) * solid / unit.of(book.size);
    let none = measures.here().same_as(0.0);
    let once = when(is_lump_sum(inputs), 1.0, 0.0);
    let quantity = when(none, times.or(once), product) - deduct;
    rules.geometry("item quantity", ONE, quantity)
}

/// A lump sum is one where nothing else is said.
fn is_lump_sum(inputs: &AllInputs) -> Condition {
    inputs.words(Items::ItemUnit).is("ls")
}

/// Limit: as many measures are given as the unit has lengths, or none.
fn measure_limits(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    measures: Column<Items>,
    lengths: Term<Items>,
) {
    let some = measures.here().same_as(0.0).negate();
    rules.limit(
        "measures against unit",
        some.and(measures.here().differs_from(lengths)),
        Breach::fault(
            Code::DimensionMismatch,
            inputs.words(Items::ItemUnit).id,
            "the measures do not make this unit",
            "a length takes one measure, an area two, a volume three; a count takes none, only Times",
        ),
    );
}

/// Limit: no more is deducted than was measured.
fn deduct_limit(rules: &mut Rules<'_, Items>, inputs: &AllInputs, quantity: Column<Items>) {
    rules.limit(
        "more deducted than measured",
        quantity.here().below(0.0),
        Breach::fault(
            Code::OutOfRange,
            inputs.number(Items::Deduct).id,
            "more is deducted than was measured",
            "check Deduct and its unit",
        ),
    );
}

/// Limit: an item has Times or a measure; without both it is open.
fn nothing_measured(rules: &mut Rules<'_, Items>, inputs: &AllInputs, measures: Column<Items>) {
    let times = inputs.number(Items::Times);
    rules.limit(
        "nothing measured",
        measures
            .here()
            .same_as(0.0)
            .and(times.blank())
            .and(is_lump_sum(inputs).negate()),
        Breach::open(
            Code::MissingValue,
            times.id,
            "nothing is measured here",
            "write Times, or the measures",
        ),
    );
}

/// The price of a subcontract or quote in use; zero without one.
///
/// Limits: a plug price, and an item that nothing prices, leave the bid a draft.
fn price(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    (material, work): (Link<Items, Materials>, Link<Items, Works>),
) -> Column<Items> {
    let price = inputs.number(Items::Price);
    let plug = inputs.number(Items::PlugPrice);
    let in_use = rules.from_job("price in use", MONEY, price.or(plug.or(0.0)));
    rules.limit(
        "item on a plug price",
        price.blank().and(plug.filled()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "the price is a plug",
            "write the price when it is in; until then the bid is a draft",
        )
        .meaning(Meaning::StandsIn),
    );
    let none = price.blank().and(plug.blank());
    rules.limit(
        "item that nothing prices",
        none.and(material.found_none()).and(work.found_none()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "nothing prices this item, so it is excluded",
            "name a material or a work, or write a price or a plug price",
        )
        .meaning(Meaning::NoPrice),
    );
    in_use
}

/// Limit: a quantity is bought in units of its own kind; only a volume may be bought by
/// weight, where the material's weight is known.
fn material_limit(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    production: &Production,
    kind: Column<Items>,
    material: Link<Items, Materials>,
) {
    let bought = material.of(production.material_kind);
    let volume = kind.here().same_as(VOLUME).or(kind.here().same_as(LOOSE));
    let by_weight = volume
        .and(bought.clone().same_as(WEIGHT))
        .and(material.of(production.material_weight).above(0.0));
    let named = material.found_none().negate();
    rules.limit(
        "unit against the material's",
        named.and(kind.here().differs_from(bought)).and(by_weight.negate()),
        Breach::fault(
            Code::DimensionMismatch,
            inputs.words(Items::ItemMaterial).id,
            "the item's unit cannot be turned into the unit the material is sold in",
            "measure the item in the material's kind of unit; a volume bought by weight needs the material's Weight",
        ),
    );
}

/// Limit: a quantity is worked in units of its own kind.
fn work_limit(
    rules: &mut Rules<'_, Items>,
    inputs: &AllInputs,
    production: &Production,
    kind: Column<Items>,
    work: Link<Items, Works>,
) {
    let worked = work.of(production.work_kind);
    rules.limit(
        "unit against the work's",
        work.found_none()
            .negate()
            .and(kind.here().differs_from(worked)),
        Breach::fault(
            Code::DimensionMismatch,
            inputs.words(Items::ItemWork).id,
            "the item's unit cannot be turned into the unit of the work",
            "measure the item in the work's kind of unit, or name another work",
        ),
    );
}
