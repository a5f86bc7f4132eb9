//! What is ordered of each material: whole sale units, minimum orders, deliveries, prices
//! and quotes.
//!
//! Always true: where something is ordered and one delivery costs freight, at least one
//! delivery is paid for.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Graph, Rules, Table, Term, highest, only, when};
use crate::job::tables::{JobKeys, Materials};
use crate::pricing::cents;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::production::Production;
use crate::units::{MONEY, ONE};

/// What is ordered of each material.
#[derive(Clone, Copy, Debug)]
pub struct Orders {
    /// Needed, in the unit it is sold in.
    pub needed: Column<Materials>,
    /// Ordered: whole multiples, at least the minimum.
    pub ordered: Column<Materials>,
    /// Cost of the order, without freight.
    pub cost: Column<Materials>,
    /// What the order costs beyond its lines.
    pub beyond: Column<Materials>,
    /// Deliveries; none where neither their size nor their freight is known.
    pub loads: Column<Materials>,
    /// What the deliveries cost on top of the price.
    pub freight: Column<Materials>,
}

/// Adds orders: whole sale units and minimum orders. `by_whom` is said after their names.
pub(super) fn orders(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
    by_whom: &str,
) -> Orders {
    let mut rules = graph.rules::<Materials>();
    let called = |name: &str| format!("{name}{by_whom}");
    let needed = lines.material.sum(lines.bought).round_in(ONE, 3);
    let needed = rules.arithmetic(&called("needed"), ONE, needed);
    let number = |field: Materials| inputs.number(field).here();
    let terms = OrderTerms {
        sold_in: number(Materials::SoldIn),
        minimum: number(Materials::Minimum),
        load: number(Materials::Load),
        freight: number(Materials::Freight),
        price: production.material_price.here(),
    };
    let made = order(&mut rules, needed, terms, by_whom);
    let beyond = cents(made.cost - lines.material.sum(lines.material_cost));
    Orders {
        needed,
        ordered: made.ordered,
        cost: made.cost,
        beyond: rules.arithmetic(&called("beyond its lines"), MONEY, beyond),
        loads: made.loads,
        freight: made.freight,
    }
}

/// How a material is ordered, as read from any table.
pub(super) struct OrderTerms<T> {
    pub(super) sold_in: Term<T>,
    pub(super) minimum: Term<T>,
    pub(super) load: Term<T>,
    pub(super) freight: Term<T>,
    pub(super) price: Term<T>,
}

/// One order: what is ordered, and what it and its deliveries cost.
pub(super) struct Order<T> {
    pub(super) ordered: Column<T>,
    pub(super) cost: Column<T>,
    pub(super) loads: Column<T>,
    pub(super) freight: Column<T>,
}

/// Adds the order of what is needed: whole multiples of what it is sold in that make at
/// least the minimum, none where none is needed; in whole deliveries. Where Load is blank
/// and one delivery costs something, the order comes in one.
pub(super) fn order<T: Table>(
    rules: &mut Rules<'_, T>,
    needed: Column<T>,
    terms: OrderTerms<T>,
    by_whom: &str,
) -> Order<T> {
    let called = |name: &str| format!("{name}{by_whom}");
    let least = highest(needed, terms.minimum);
    let multiples = (least.clone() / terms.sold_in.clone()).round_up() * terms.sold_in.clone();
    let whole = when(terms.sold_in.above(0.0), multiples, least);
    let ordered = when(needed.here().above(0.0), whole.round_in(ONE, 3), 0.0);
    let ordered = rules.from_job(&called("ordered"), ONE, ordered);
    let cost = cents(ordered * terms.price);
    let whole = (ordered / terms.load.clone()).round_up();
    let paid = terms.freight.clone().above(0.0);
    let loads = when(terms.load.above(0.0), whole, when(paid, 1.0, 0.0));
    let loads = when(ordered.here().above(0.0), loads, 0.0);
    let cost = rules.from_job(&called("order cost"), MONEY, cost);
    let loads = rules.step(&called("loads"), ONE, &sources::WHOLE_LOADS, loads);
    let freight = cents(loads * terms.freight);
    Order {
        ordered,
        cost,
        loads,
        freight: rules.from_job(&called("freight"), MONEY, freight),
    }
}

/// Limits: what is ordered has a price and a quote that holds, and its deliveries a size.
pub(super) fn order_limits(graph: &mut Graph, inputs: &AllInputs, orders: &Orders) {
    let mut rules = graph.rules::<Materials>();
    let used = orders.needed.here().above(0.0);
    price_limits(&mut rules, inputs, &used);
    quote_limit(&mut rules, inputs, used);
    let load = inputs.number(Materials::Load);
    let paid = inputs.number(Materials::Freight).here().above(0.0);
    let sized = load.here().above(0.0);
    rules.limit(
        "freight of one load",
        orders
            .ordered
            .here()
            .above(0.0)
            .and(paid)
            .and(sized.negate()),
        Breach::warning(
            Code::MissingValue,
            load.id,
            "freight is paid for one delivery, because it is not known how much one brings",
            "write in Load how many sale units one delivery brings",
        ),
    );
}

/// Limits: a material in use has a price, and not only a plug.
fn price_limits(rules: &mut Rules<'_, Materials>, inputs: &AllInputs, used: &Condition) {
    let price = inputs.number(Materials::MaterialPrice);
    let plug = inputs.number(Materials::MaterialPlug);
    rules.limit(
        "material on a plug price",
        price.blank().and(plug.filled()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "the price of this material is a plug",
            "write the price when it is in; until then the bid is a draft",
        )
        .meaning(Meaning::StandsIn),
    );
    rules.limit(
        "material without a price",
        price.blank().and(plug.blank()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "this material has no price, so it is excluded",
            "write a price, or a plug price to stand in",
        ),
    );
}

/// Limit: the quote of a material in use holds on the day of the bid.
fn quote_limit(rules: &mut Rules<'_, Materials>, inputs: &AllInputs, used: Condition) {
    let until = inputs.number(Materials::ValidUntil);
    let day = only::<Materials, JobKeys>(inputs.number(JobKeys::BidDate));
    rules.limit(
        "quote run out",
        until.filled().and(used).and(until.here().below(day)),
        Breach::open(
            Code::QuoteExpired,
            until.id,
            "the quote has run out on the day of the bid",
            "ask for it again, and write the new price and day",
        ),
    );
}
