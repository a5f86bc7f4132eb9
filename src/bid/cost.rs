//! Direct cost by kind: the sum of the lines, and for material what whole orders cost beyond
//! them and what their deliveries cost.

use super::{lines, orders, orders_by_crew};
use crate::graph::prelude::*;
use crate::labour::with_partners::InUse;
use crate::pricing::cents;
use crate::pricing::costs;
use crate::pricing::lines::by_whom;
use crate::tables::Bid;
use crate::units::System;

/// Of the material: what whole units and minimum orders cost beyond the lines.
pub const WHOLE_ORDERS: InUse<Bid> = InUse::of(
    WHOLE_ORDERS_BY_CREW,
    Step::arithmetic("whole units and minimum orders", System::money, || {
        cents(total(orders::BEYOND))
    }),
);

/// Of the material: freight of its deliveries.
pub const FREIGHT: InUse<Bid> = InUse::of(
    FREIGHT_BY_CREW,
    Step::arithmetic("freight", System::money, || cents(total(orders::FREIGHT))),
);

/// Material, with whole orders and freight.
pub const MATERIAL: InUse<Bid> = InUse::of(
    MATERIAL_BY_CREW,
    Step::arithmetic("material", System::money, || {
        cents(total::<Bid, _>(lines::MATERIAL_COST) + WHOLE_ORDERS + FREIGHT)
    }),
);

/// Labor.
pub const LABOR: InUse<Bid> = InUse::of(
    LABOR_BY_CREW,
    Step::arithmetic("labor", System::money, || cents(total(lines::LABOR_COST))),
);

/// Equipment.
pub const EQUIPMENT: InUse<Bid> = InUse::of(
    EQUIPMENT_BY_CREW,
    Step::arithmetic("equipment", System::money, || {
        cents(total(lines::EQUIPMENT_COST))
    }),
);

/// Subcontracts.
pub const SUBCONTRACT: InUse<Bid> = InUse::of(
    SUBCONTRACT_BY_CREW,
    Step::arithmetic("subcontract", System::money, || {
        cents(total(lines::SUBCONTRACT_COST))
    }),
);

/// Direct cost.
pub const DIRECT: InUse<Bid> = InUse::of(
    DIRECT_BY_CREW,
    Step::arithmetic("direct cost", System::money, || {
        cents(MATERIAL + LABOR + EQUIPMENT + SUBCONTRACT)
    }),
);

const WHOLE_ORDERS_BY_CREW: Step<Bid> =
    Step::arithmetic("whole units and minimum orders", System::money, || {
        cents(total(orders_by_crew::BEYOND))
    })
    .said_after(by_whom);

const FREIGHT_BY_CREW: Step<Bid> = Step::arithmetic("freight", System::money, || {
    cents(total(orders_by_crew::FREIGHT))
})
.said_after(by_whom);

pub(super) const MATERIAL_BY_CREW: Step<Bid> = Step::arithmetic("material", System::money, || {
    cents(total::<Bid, _>(costs::MATERIAL_COST) + WHOLE_ORDERS_BY_CREW + FREIGHT_BY_CREW)
})
.said_after(by_whom);

pub(super) const LABOR_BY_CREW: Step<Bid> =
    Step::arithmetic("labor", System::money, || cents(total(costs::LABOR_COST)))
        .said_after(by_whom);

pub(super) const EQUIPMENT_BY_CREW: Step<Bid> =
    Step::arithmetic("equipment", System::money, || {
        cents(total(costs::EQUIPMENT_COST))
    })
    .said_after(by_whom);

pub(super) const SUBCONTRACT_BY_CREW: Step<Bid> =
    Step::arithmetic("subcontract", System::money, || {
        cents(total(costs::SUBCONTRACT_COST))
    })
    .said_after(by_whom);

pub(super) const DIRECT_BY_CREW: Step<Bid> = Step::arithmetic("direct cost", System::money, || {
    cents(MATERIAL_BY_CREW + LABOR_BY_CREW + EQUIPMENT_BY_CREW + SUBCONTRACT_BY_CREW)
})
.said_after(by_whom);
