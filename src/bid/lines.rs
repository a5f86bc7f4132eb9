//! The lines as they are in the scenario in use.

use crate::labour::in_use as with_partners;
use crate::labour::with_partners::InUse;
use crate::pricing::costs;
use crate::tables::Lines;

/// Hours of the crew.
pub const CREW_HOURS: InUse<Lines> = InUse::of(costs::CREW_HOURS, with_partners::CREW_HOURS);

/// Hours of the machine.
pub const MACHINE_HOURS: InUse<Lines> =
    InUse::of(costs::MACHINE_HOURS, with_partners::MACHINE_HOURS);

/// What is bought, in the material's unit.
pub const BOUGHT: InUse<Lines> = InUse::of(costs::BOUGHT, with_partners::BOUGHT);

/// Cost of material.
pub const MATERIAL_COST: InUse<Lines> =
    InUse::of(costs::MATERIAL_COST, with_partners::MATERIAL_COST);

/// Cost of labor.
pub const LABOR_COST: InUse<Lines> = InUse::of(costs::LABOR_COST, with_partners::LABOR_COST);

/// Cost of equipment.
pub const EQUIPMENT_COST: InUse<Lines> =
    InUse::of(costs::EQUIPMENT_COST, with_partners::EQUIPMENT_COST);

/// Cost of subcontracts.
pub const SUBCONTRACT_COST: InUse<Lines> =
    InUse::of(costs::SUBCONTRACT_COST, with_partners::SUBCONTRACT_COST);

/// Direct cost.
pub const DIRECT_COST: InUse<Lines> = InUse::of(costs::DIRECT_COST, with_partners::DIRECT_COST);
