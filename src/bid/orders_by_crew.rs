//! What is ordered of each material as the crew does all the work: whole sale units, minimum
//! orders, deliveries.
//!
//! Always true: where something is ordered and one delivery costs freight, at least one
//! delivery is paid for.

use crate::graph::prelude::*;
use crate::job::tables::Materials;
use crate::pricing::lines::{MATERIAL, by_whom};
use crate::pricing::{cents, costs};
use crate::sources;
use crate::takeoff::production::MATERIAL_PRICE;
use crate::units::{ONE, System};

/// Needed, in the unit it is sold in.
pub(super) const NEEDED: Step<Materials> = Step::arithmetic("needed", System::number, || {
    MATERIAL.sum(costs::BOUGHT).round_in(ONE, 3)
})
.said_after(by_whom);

/// Ordered: whole multiples, at least the minimum.
pub(super) const ORDERED: Step<Materials> = Step::from_job("ordered", System::number, || {
    ordered(NEEDED, Materials::SoldIn, Materials::Minimum)
})
.said_after(by_whom);

/// Cost of the order, without freight.
pub(super) const COST: Step<Materials> = Step::from_job("order cost", System::money, || {
    cents(ORDERED * MATERIAL_PRICE)
})
.said_after(by_whom);

/// Deliveries; none where neither their size nor their freight is known.
pub(super) const LOADS: Step<Materials> =
    Step::new("loads", System::number, &sources::WHOLE_LOADS, || {
        loads(ORDERED, Materials::Load, Materials::Freight)
    })
    .said_after(by_whom);

/// What the deliveries cost on top of the price.
pub(super) const FREIGHT: Step<Materials> = Step::from_job("freight", System::money, || {
    cents(LOADS * Materials::Freight)
})
.said_after(by_whom);

/// What the order costs beyond its lines.
pub(super) const BEYOND: Step<Materials> =
    Step::arithmetic("beyond its lines", System::money, || {
        cents(COST - MATERIAL.sum(costs::MATERIAL_COST))
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
