//! Orders by supplier: what is ordered from whom, in how many loads, for how much.
//!
//! Always true: every material stands once on the order list, under its supplier or under
//! [`NOT_NAMED`]; suppliers come in the order in which the materials first name them.

use std::collections::BTreeMap;

use super::orders;
use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::Materials;
use crate::pricing::cents;
use crate::tables::{OrderList, Suppliers, UnitBook};
use crate::takeoff::bill::fixed;
use crate::takeoff::book;
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::System;

/// Where a material stands whose supplier is not written yet.
pub const NOT_NAMED: &str = "not named yet";

/// What comes from each supplier, and the order list: the same as the orders, those of one
/// supplier together.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &ALL,
    &LOADS,
    &MATERIAL,
    &SUPPLIER,
    &QUOTE,
    &UNIT,
    &NEEDED,
    &ORDERED,
    &LOADS_OF_ORDER,
    &PRICE,
    &COST_OF_ORDER,
    &FREIGHT_OF_ORDER,
    &VALID_UNTIL,
];

/// Each supplier: the row of the material that first names it.
pub const SUPPLIERS: Roster<Suppliers, usize> = Roster::new(|graph| {
    let first = first_of_supplier(graph);
    let is_first = |row: &usize| first[*row] == *row;
    (0..first.len()).filter(is_first).collect()
});

/// The rows of the materials, those of one supplier together.
pub const ORDERS: Roster<OrderList, usize> = Roster::new(|graph| {
    let first = first_of_supplier(graph);
    let mut rows: Vec<usize> = (0..first.len()).collect();
    rows.sort_by_key(|row| first[*row]);
    rows
});

/// For each material the first of the same supplier.
fn first_of_supplier(graph: &Graph) -> Vec<usize> {
    let written = graph.id(Materials::Supplier);
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let rows = 0..graph.rows(written);
    rows.map(|row| {
        let name = match graph.written(written.at(row)) {
            "" => NOT_NAMED,
            name => name,
        };
        *first.entry(name.to_lowercase()).or_insert(row)
    })
    .collect()
}

/// The supplier.
pub const NAME: Wording<Suppliers> = Wording::gathered("supplier", |graph| {
    let written = graph.id(Materials::Supplier);
    let rows = SUPPLIERS.rows(graph);
    let name = |row: &usize| match graph.written(written.at(*row)) {
        "" => vec![fixed(NOT_NAMED)],
        _ => vec![Piece::Cell(written.at(*row))],
    };
    rows.iter().map(name).collect()
})
.naming_rows();

/// Who each material is ordered from.
const FROM: Wording<Materials> = Wording::new("ordered from", || {
    let written = Materials::Supplier;
    either(written.blank(), NOT_NAMED, written.words())
});

/// The supplier of each material.
const SUPPLIER_OF: LookUp<Materials, Suppliers> =
    LookUp::new("supplier row", || FROM.key()).among(|| NAME.key());

/// Cost of the orders.
pub const COST: Step<Suppliers> = Step::arithmetic("order cost", System::money, || {
    cents(SUPPLIER_OF.sum(orders::COST))
});

/// Freight of the deliveries.
pub const FREIGHT: Step<Suppliers> = Step::arithmetic("freight", System::money, || {
    cents(SUPPLIER_OF.sum(orders::FREIGHT))
});

/// Orders and freight.
pub const ALL: Step<Suppliers> = Step::arithmetic("orders and freight", System::money, || {
    cents(COST + FREIGHT)
});

/// Deliveries.
pub const LOADS: Step<Suppliers> =
    Step::arithmetic("loads", System::number, || SUPPLIER_OF.sum(orders::LOADS));

/// What is ordered.
pub const MATERIAL: Wording<OrderList> = Wording::gathered("material", |graph| {
    ORDERS.words_of(graph, Materials::Material, |row| *row)
})
.naming_rows();

/// Who it is ordered from.
pub const SUPPLIER: Wording<OrderList> =
    Wording::gathered("supplier", |graph| ORDERS.words_of(graph, FROM, |row| *row));

/// Number of the quote.
pub const QUOTE: Wording<OrderList> = Wording::gathered("quote", |graph| {
    ORDERS.words_of(graph, Materials::Quote, |row| *row)
});

/// The unit it is sold in, by its symbol.
const SYMBOL: Wording<OrderList> = Wording::gathered("unit as written", |graph| {
    ORDERS.words_of(graph, Materials::MaterialUnit, |row| *row)
});

const UNIT_ROW: LookUp<OrderList, UnitBook> =
    LookUp::new("unit row", || SYMBOL.key()).among(|| book::UNIT.key());

/// The unit it is sold in, as people write it.
pub const UNIT: Wording<OrderList> = Wording::new("unit", || UNIT_ROW.words_of(book::SHOWN));

/// Needed.
pub const NEEDED: Step<OrderList> = Step::gathered("needed", System::number, |graph| {
    ORDERS.cells_of(graph, orders::NEEDED, |row| *row)
});

/// Ordered.
pub const ORDERED: Step<OrderList> = Step::gathered("ordered", System::number, |graph| {
    ORDERS.cells_of(graph, orders::ORDERED, |row| *row)
});

/// Deliveries.
pub const LOADS_OF_ORDER: Step<OrderList> = Step::gathered("loads", System::number, |graph| {
    ORDERS.cells_of(graph, orders::LOADS, |row| *row)
});

/// Price in use.
pub const PRICE: Step<OrderList> = Step::gathered("price", System::money, |graph| {
    ORDERS.cells_of(graph, MATERIAL_PRICE, |row| *row)
});

/// Cost of the order.
pub const COST_OF_ORDER: Step<OrderList> = Step::gathered("order cost", System::money, |graph| {
    ORDERS.cells_of(graph, orders::COST, |row| *row)
});

/// Freight of the deliveries.
pub const FREIGHT_OF_ORDER: Step<OrderList> = Step::gathered("freight", System::money, |graph| {
    ORDERS.cells_of(graph, orders::FREIGHT, |row| *row)
});

/// Last day of the quote.
pub const VALID_UNTIL: Step<OrderList> = Step::gathered("valid until", System::date, |graph| {
    ORDERS.cells_of(graph, Materials::ValidUntil, |row| *row)
});
