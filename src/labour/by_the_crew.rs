//! The lines as the crew does all of them.

use crate::graph::prelude::*;
use crate::tables::Lines;

pub(super) const BOUGHT: Named<Lines> = named("bought, all by the crew");
pub(super) const CREW_HOURS: Named<Lines> = named("crew hours, all by the crew");
pub(super) const MACHINE_HOURS: Named<Lines> = named("machine hours, all by the crew");
pub(super) const LABOR_COST: Named<Lines> = named("labor cost, all by the crew");
pub(super) const EQUIPMENT_COST: Named<Lines> = named("equipment cost, all by the crew");
pub(super) const SUBCONTRACT_COST: Named<Lines> = named("subcontract cost, all by the crew");
