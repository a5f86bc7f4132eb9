//! What is ordered of each material in the scenario in use, and what is open about it: prices,
//! quotes, the size of deliveries.

use super::{lines, orders_by_crew as by_crew, scenario_orders as in_scenario};
use crate::graph::prelude::*;
use crate::job::tables::{JobKeys, Materials};
use crate::labour::with_partners::InUse;
use crate::pricing::cents;
use crate::pricing::lines::MATERIAL;
use crate::units::System;

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
pub const NEEDED: InUse<Materials> = InUse::of(by_crew::NEEDED, in_scenario::NEEDED_IN_USE);

/// Ordered: whole multiples, at least the minimum.
pub const ORDERED: InUse<Materials> = InUse::of(by_crew::ORDERED, in_scenario::ORDERED_IN_USE);

/// Cost of the order, without freight.
pub const COST: InUse<Materials> = InUse::of(by_crew::COST, in_scenario::COST_IN_USE);

/// Deliveries; none where neither their size nor their freight is known.
pub const LOADS: InUse<Materials> = InUse::of(by_crew::LOADS, in_scenario::LOADS_IN_USE);

/// What the deliveries cost on top of the price.
pub const FREIGHT: InUse<Materials> = InUse::of(by_crew::FREIGHT, in_scenario::FREIGHT_IN_USE);

/// What the order costs beyond its lines.
pub const BEYOND: InUse<Materials> = InUse::of(
    by_crew::BEYOND,
    Step::arithmetic("beyond its lines", System::money, || {
        cents(COST - MATERIAL.sum(lines::MATERIAL_COST))
    }),
);
