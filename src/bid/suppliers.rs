//! Orders by supplier: what is ordered from whom, in how many loads, for how much.
//!
//! Always true: every material stands once on the order list, under its supplier or under
//! [`NOT_NAMED`]; suppliers come in the order in which the materials first name them.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::orders::Orders;
use crate::graph::prelude::*;
use crate::graph::{Cell, Column, ColumnId, Graph, Kind, Link, Piece, Text, TextExpr, either};
use crate::job::tables::Materials;
use crate::pricing::cents;
use crate::tables::{OrderList, Suppliers, UnitBook};
use crate::takeoff::basis::Basis;
use crate::takeoff::bill::fixed;
use crate::units::{DATE, MONEY, ONE};

/// Where a material stands whose supplier is not written yet.
pub const NOT_NAMED: &str = "not named yet";

/// What comes from each supplier.
#[derive(Clone, Copy, Debug)]
pub struct SupplierColumns {
    /// The supplier.
    pub name: Text<Suppliers>,
    /// Deliveries.
    pub loads: Column<Suppliers>,
    /// Cost of the orders.
    pub cost: Column<Suppliers>,
    /// Freight of the deliveries.
    pub freight: Column<Suppliers>,
    /// Orders and freight.
    pub all: Column<Suppliers>,
}

/// The order list: the same as the orders, those of one supplier together.
#[derive(Clone, Copy, Debug)]
pub struct OrderColumns {
    /// Who it is ordered from.
    pub supplier: Text<OrderList>,
    /// What is ordered.
    pub material: Text<OrderList>,
    /// The unit it is sold in, as people write it.
    pub unit: Text<OrderList>,
    /// Needed.
    pub needed: Column<OrderList>,
    /// Ordered.
    pub ordered: Column<OrderList>,
    /// Deliveries.
    pub loads: Column<OrderList>,
    /// Price in use.
    pub price: Column<OrderList>,
    /// Cost of the order.
    pub cost: Column<OrderList>,
    /// Freight of the deliveries.
    pub freight: Column<OrderList>,
    /// Number of the quote.
    pub quote: Text<OrderList>,
    /// Last day of the quote.
    pub valid_until: Column<OrderList>,
}

/// Adds the suppliers with the sums over the orders from each, and the order list.
pub(super) fn by_supplier(
    graph: &mut Graph,
    basis: &Basis<'_>,
    orders: &Orders,
) -> (SupplierColumns, OrderColumns) {
    let own = basis.inputs.words(Materials::Supplier);
    let not_named = TextExpr::Fixed(NOT_NAMED.to_owned());
    let from = either(own.blank(), not_named, own.words());
    let from = graph.rules::<Materials>().word_step("ordered from", from);
    let (names, rows) = in_order_of_naming(graph, own);
    (
        suppliers(graph, from, names, orders),
        order_list(graph, basis, orders, (from, &rows)),
    )
}

/// Adds the suppliers of the given names. `from` is who each material is ordered from.
fn suppliers(
    graph: &mut Graph,
    from: Text<Materials>,
    names: Vec<Vec<Piece>>,
    orders: &Orders,
) -> SupplierColumns {
    graph.add_table::<Suppliers>(names.len());
    let mut rules = graph.rules::<Suppliers>();
    let name = rules.gathered_words("supplier", names);
    rules.labelled_by(name);
    let mut rules = graph.rules::<Materials>();
    let link: Link<Materials, Suppliers> = rules.link("supplier row", from);
    let mut rules = graph.rules::<Suppliers>();
    let mut sum =
        |name: &str, of: Column<Materials>| rules.arithmetic(name, MONEY, cents(link.sum(of)));
    let cost = sum("order cost", orders.cost);
    let freight = sum("freight", orders.freight);
    let all = rules.arithmetic("orders and freight", MONEY, cents(cost + freight));
    SupplierColumns {
        name,
        loads: rules.arithmetic("loads", ONE, link.sum(orders.loads)),
        cost,
        freight,
        all,
    }
}

/// The pieces that name each supplier, in the order in which the materials first name them,
/// and the rows of the materials, those of one supplier together.
fn in_order_of_naming(graph: &Graph, own: Text<Materials>) -> (Vec<Vec<Piece>>, Vec<usize>) {
    let written: &[Arc<str>] = match &graph.column(own.id).kind {
        Kind::Words { values, .. } => values,
        _ => &[],
    };
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    let mut names = Vec::new();
    let mut rows: Vec<(usize, usize)> = Vec::new();
    for (row, words) in written.iter().enumerate() {
        let (name, piece) = if words.is_empty() {
            (NOT_NAMED.to_lowercase(), fixed(NOT_NAMED))
        } else {
            (words.to_lowercase(), Piece::Cell(own.id.at(row)))
        };
        let at = *known.entry(name).or_insert_with(|| {
            names.push(vec![piece]);
            names.len() - 1
        });
        rows.push((at, row));
    }
    rows.sort_unstable();
    (names, rows.into_iter().map(|(_, row)| row).collect())
}

/// Adds the order list: cell by cell from the materials, those of one supplier together.
fn order_list(
    graph: &mut Graph,
    basis: &Basis<'_>,
    orders: &Orders,
    (from, rows): (Text<Materials>, &[usize]),
) -> OrderColumns {
    let inputs = basis.inputs;
    graph.add_table::<OrderList>(rows.len());
    let mut rules = graph.rules::<OrderList>();
    let mut words = |name: &str, of: ColumnId| {
        let pieces = rows.iter().map(|row| vec![Piece::Cell(of.at(*row))]);
        rules.gathered_words(name, pieces.collect())
    };
    let supplier = words("supplier", from.id);
    let material = words("material", inputs.id(Materials::Material));
    let symbol = words("unit as written", inputs.id(Materials::MaterialUnit));
    let quote = words("quote", inputs.id(Materials::Quote));
    rules.labelled_by(material);
    let unit: Link<OrderList, UnitBook> = rules.link("unit row", symbol);
    let unit = rules.word_step("unit", unit.words_of(basis.units.shown));
    let mut number = |name: &str, unit, of: Column<Materials>| {
        let cells = rows.iter().map(|row| Some(of.id.at(*row)));
        rules.gathered(name, unit, cells.collect::<Vec<Option<Cell>>>())
    };
    OrderColumns {
        supplier,
        material,
        unit,
        needed: number("needed", ONE, orders.needed),
        ordered: number("ordered", ONE, orders.ordered),
        loads: number("loads", ONE, orders.loads),
        price: number("price", MONEY, basis.production.material_price),
        cost: number("order cost", MONEY, orders.cost),
        freight: number("freight", MONEY, orders.freight),
        quote,
        valid_until: number("valid until", DATE, inputs.number(Materials::ValidUntil)),
    }
}
