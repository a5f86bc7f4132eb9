//! Direct cost in every scenario, by kind: that of the crew alone, with what partners change.
//!
//! Always true: the scenario without partners costs what the job does as the crew does all the
//! work.

use super::cost;
use super::scenario_orders::CHANGE;
use crate::graph::prelude::*;
use crate::labour::{materials, parties};
use crate::pricing::cents;
use crate::tables::{Bid, Compared};
use crate::units::System;

/// Cost of material: the crew's, with what changes of the orders.
pub const MATERIAL: Step<Compared> = Step::arithmetic("material", System::money, || {
    let by_crew = only::<Compared, Bid>(cost::MATERIAL_BY_CREW);
    cents(by_crew + materials::SCENARIO.sum(CHANGE))
});

/// Cost of labor: the crew's, less what is displaced, with what is added.
pub const LABOR: Step<Compared> = Step::arithmetic("labor", System::money, || {
    let by_crew = only::<Compared, Bid>(cost::LABOR_BY_CREW);
    let kept = by_crew - parties::SCENARIO.sum(parties::DISPLACED);
    cents(kept + parties::SCENARIO.sum(parties::LABOR))
});

/// Cost of equipment: ours, less what is displaced, with what is added.
pub const EQUIPMENT: Step<Compared> = Step::arithmetic("equipment", System::money, || {
    let by_crew = only::<Compared, Bid>(cost::EQUIPMENT_BY_CREW);
    let kept = by_crew - parties::SCENARIO.sum(parties::EQUIPMENT_DISPLACED);
    cents(kept + parties::SCENARIO.sum(parties::EQUIPMENT))
});

/// Cost of subcontracts, with what is paid and bought for partners.
pub const SUBCONTRACT: Step<Compared> = Step::arithmetic("subcontract", System::money, || {
    let by_crew = only::<Compared, Bid>(cost::SUBCONTRACT_BY_CREW);
    cents(by_crew + parties::SCENARIO.sum(parties::BOUGHT))
});

/// Direct cost.
pub const DIRECT: Step<Compared> = Step::arithmetic("direct cost", System::money, || {
    cents(MATERIAL + LABOR + EQUIPMENT + SUBCONTRACT)
});
