//! What is ordered of each material: whole sale units, minimum orders, deliveries, prices
//! and quotes.
//!
//! Always true: where something is ordered and one delivery costs freight, at least one
//! delivery is paid for.

use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Condition, Graph, Rules, highest, only, when};
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

/// Adds orders: whole sale units and minimum orders, with what is open about prices.
pub(super) fn orders(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) -> Orders {
    let mut rules = graph.rules::<Materials>();
    let needed = lines.material.sum(lines.bought).round_in(ONE, 3);
    let needed = rules.arithmetic("needed", ONE, needed);
    let ordered = ordered(&mut rules, inputs, needed);
    let cost = cents(ordered * production.material_price);
    let cost = rules.from_job("order cost", MONEY, cost);
    let beyond = cents(cost - lines.material.sum(lines.material_cost));
    let beyond = rules.arithmetic("beyond its lines", MONEY, beyond);
    let (loads, freight) = deliveries(&mut rules, inputs, ordered);
    let used = needed.here().above(0.0);
    price_limits(&mut rules, inputs, &used);
    quote_limit(&mut rules, inputs, used);
    Orders {
        needed,
        ordered,
        cost,
        beyond,
        loads,
        freight,
    }
}

/// Whole multiples of what it is sold in that make at least the minimum; none where none is needed.
fn ordered(
    rules: &mut Rules<'_, Materials>,
    inputs: &AllInputs,
    needed: Column<Materials>,
) -> Column<Materials> {
    let sold_in = inputs.number(Materials::SoldIn);
    let least = highest(needed, inputs.number(Materials::Minimum));
    let multiples = (least.clone() / sold_in).round_up() * sold_in;
    let whole = when(sold_in.here().above(0.0), multiples, least);
    let ordered = when(needed.here().above(0.0), whole.round_in(ONE, 3), 0.0);
    rules.from_job("ordered", ONE, ordered)
}

/// Whole deliveries of an order, and their freight. Where Load is blank and one delivery
/// costs something, the order comes in one.
///
/// Limit: that one delivery is looked at.
fn deliveries(
    rules: &mut Rules<'_, Materials>,
    inputs: &AllInputs,
    ordered: Column<Materials>,
) -> (Column<Materials>, Column<Materials>) {
    let load = inputs.number(Materials::Load);
    let each = inputs.number(Materials::Freight);
    let sized = load.here().above(0.0);
    let paid = each.here().above(0.0);
    let some = ordered.here().above(0.0);
    let whole = (ordered / load).round_up();
    let loads = when(sized.clone(), whole, when(paid.clone(), 1.0, 0.0));
    let loads = when(some.clone(), loads, 0.0);
    let loads = rules.step("loads", ONE, &sources::WHOLE_LOADS, loads);
    rules.limit(
        "freight of one load",
        some.and(paid).and(sized.negate()),
        Breach::warning(
            Code::MissingValue,
            load.id,
            "freight is paid for one delivery, because it is not known how much one brings",
            "write in Load how many sale units one delivery brings",
        ),
    );
    let freight = cents(loads * each);
    (loads, rules.from_job("freight", MONEY, freight))
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
        ),
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
