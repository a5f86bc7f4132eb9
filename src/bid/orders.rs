//! What is ordered of each material: whole sale units, minimum orders, deliveries, prices
//! and quotes.
//!
//! Always true: where something is ordered and one delivery costs freight, at least one
//! delivery is paid for.

use super::lines;
use super::scenario_orders as in_scenario;
use crate::graph::prelude::*;
use crate::job::tables::{JobKeys, Materials};
use crate::labour::with_partners::InUse;
use crate::pricing::cents;
use crate::pricing::lines::by_whom;
use crate::pricing::{costs, lines as taken};
use crate::sources;
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::{ONE, System};

/// What is open about orders: what is ordered has a price and a quote that holds, and its
/// deliveries a size.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Materials>::open(
        "material on a plug price",
        Code::MissingPrice,
        Materials::MaterialPrice.at(),
        || {
            let on_a_plug = Materials::MaterialPrice
                .blank()
                .and(Materials::MaterialPlug.filled());
            on_a_plug.and(NEEDED.above(0.0))
        },
        "the price of this material is a plug",
        "write the price when it is in; until then the bid is a draft",
    )
    .meaning(Meaning::StandsIn),
    &Limit::<Materials>::open(
        "material without a price",
        Code::MissingPrice,
        Materials::MaterialPrice.at(),
        || {
            let no_price = Materials::MaterialPrice
                .blank()
                .and(Materials::MaterialPlug.blank());
            no_price.and(NEEDED.above(0.0))
        },
        "this material has no price, so it is excluded",
        "write a price, or a plug price to stand in",
    ),
    &Limit::<Materials>::open(
        "quote run out",
        Code::QuoteExpired,
        Materials::ValidUntil.at(),
        || {
            let run_out = Materials::ValidUntil.below(only(JobKeys::BidDate));
            Materials::ValidUntil
                .filled()
                .and(NEEDED.above(0.0))
                .and(run_out)
        },
        "the quote has run out on the day of the bid",
        "ask for it again, and write the new price and day",
    ),
    &Limit::<Materials>::warning(
        "freight of one load",
        Code::MissingValue,
        Materials::Load.at(),
        || {
            let paid = ORDERED.above(0.0).and(Materials::Freight.above(0.0));
            paid.and(Materials::Load.above(0.0).negate())
        },
        "freight is paid for one delivery, because it is not known how much one brings",
        "write in Load how many sale units one delivery brings",
    ),
];

/// Needed, in the unit it is sold in.
pub const NEEDED: InUse<Materials> = InUse::of(NEEDED_BY_CREW, in_scenario::NEEDED_IN_USE);

/// Ordered: whole multiples, at least the minimum.
pub const ORDERED: InUse<Materials> = InUse::of(ORDERED_BY_CREW, in_scenario::ORDERED_IN_USE);

/// Cost of the order, without freight.
pub const COST: InUse<Materials> = InUse::of(COST_BY_CREW, in_scenario::COST_IN_USE);

/// Deliveries; none where neither their size nor their freight is known.
pub const LOADS: InUse<Materials> = InUse::of(LOADS_BY_CREW, in_scenario::LOADS_IN_USE);

/// What the deliveries cost on top of the price.
pub const FREIGHT: InUse<Materials> = InUse::of(FREIGHT_BY_CREW, in_scenario::FREIGHT_IN_USE);

/// What the order costs beyond its lines.
pub const BEYOND: InUse<Materials> = InUse::of(
    BEYOND_BY_CREW,
    Step::arithmetic("beyond its lines", System::money, || {
        cents(COST - taken::MATERIAL.sum(lines::MATERIAL_COST))
    }),
);

pub(super) const NEEDED_BY_CREW: Step<Materials> =
    Step::arithmetic("needed", System::number, || {
        taken::MATERIAL.sum(costs::BOUGHT).round_in(ONE, 3)
    })
    .said_after(by_whom);

pub(super) const ORDERED_BY_CREW: Step<Materials> =
    Step::from_job("ordered", System::number, || {
        ordered(NEEDED_BY_CREW, Materials::SoldIn, Materials::Minimum)
    })
    .said_after(by_whom);

pub(super) const COST_BY_CREW: Step<Materials> =
    Step::from_job("order cost", System::money, || {
        cents(ORDERED_BY_CREW * MATERIAL_PRICE)
    })
    .said_after(by_whom);

pub(super) const LOADS_BY_CREW: Step<Materials> =
    Step::new("loads", System::number, &sources::WHOLE_LOADS, || {
        loads(ORDERED_BY_CREW, Materials::Load, Materials::Freight)
    })
    .said_after(by_whom);

pub(super) const FREIGHT_BY_CREW: Step<Materials> =
    Step::from_job("freight", System::money, || {
        cents(LOADS_BY_CREW * Materials::Freight)
    })
    .said_after(by_whom);

pub(super) const BEYOND_BY_CREW: Step<Materials> =
    Step::arithmetic("beyond its lines", System::money, || {
        cents(COST_BY_CREW - taken::MATERIAL.sum(costs::MATERIAL_COST))
    })
    .said_after(by_whom);

/// What is ordered where something is needed: whole multiples of what it is sold in that make
/// at least the minimum; none where none is needed.
pub(super) fn ordered<T>(
    needed: impl Into<Term<T>>,
    sold_in: impl Into<Term<T>>,
    minimum: impl Into<Term<T>>,
) -> Term<T> {
    let (needed, sold_in) = (needed.into(), sold_in.into());
    let least = highest(needed.clone(), minimum);
    let multiples = (least.clone() / sold_in.clone()).round_up() * sold_in.clone();
    let whole = when(sold_in.above(0.0), multiples, least);
    when(needed.above(0.0), whole.round_in(ONE, 3), 0.0)
}

/// Whole deliveries of what is ordered. Where Load is blank and one delivery costs something,
/// the order comes in one.
pub(super) fn loads<T>(
    ordered: impl Into<Term<T>>,
    load: impl Into<Term<T>>,
    freight: impl Into<Term<T>>,
) -> Term<T> {
    let (ordered, load) = (ordered.into(), load.into());
    let whole = (ordered.clone() / load.clone()).round_up();
    let in_one = when(freight.into().above(0.0), 1.0, 0.0);
    let loads = when(load.above(0.0), whole, in_one);
    when(ordered.above(0.0), loads, 0.0)
}
