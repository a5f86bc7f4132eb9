//! Pumping basins out before the dig.

use super::works::{self, Earthmoving};
use crate::graph::prelude::*;
use crate::job::tables::{Basins, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Earthwork;
use crate::units::System;

/// Hours of pumping, and what the pump must do.
pub const RULES: &[&dyn Rule] = &[
    &NET_FLOW,
    &Limit::<Basins>::fault(
        "pump smaller than the inflow",
        Code::PumpTooSmall,
        Basins::Inflow.at(),
        || {
            let floods = Basins::Inflow.at_least(pumped());
            flow().above(0.0).and(is_wet()).and(floods)
        },
        "as much water runs in as the pump takes out, or more",
        "choose a larger pump for the work Pump out, or lead the water around",
    ),
    &Limit::<Basins>::open(
        "pump not known",
        Code::MissingRate,
        Works::WorkMachine.at(),
        || is_wet().and(flow().same_as(0.0)),
        "there is water to pump out, and the work Pump out has no machine with a pump flow",
        "name a pump for the work Pump out, and write its Pump flow in Equipment",
    ),
    &Limit::<Basins>::caution(
        "pumps in water",
        Code::WaterAndPower,
        Basins::StandingWater.at(),
        is_wet,
        "electric pumps work in water here",
        "ground-fault protection and isolation; wiring is licensed work (29 CFR 1926.404)",
    ),
    &PUMPING,
];

/// The flow of the pump.
const PUMP_FLOW: Step<Earthwork> = Step::gathered("pump flow", System::flow, |graph| {
    Earthmoving::PumpOut.of(graph, works::PUMP_FLOW)
});

fn flow() -> Term<Basins> {
    only::<Basins, Earthwork>(PUMP_FLOW)
}

/// What the pump takes out.
fn pumped() -> Term<Basins> {
    flow() * Factor::PumpShare
}

fn is_wet() -> Condition {
    Basins::StandingWater.above(0.0)
}

/// What the pump takes out less what runs in.
const NET_FLOW: Step<Basins> = Step::new(
    "pumped less inflow",
    System::flow,
    &sources::PUMP_SHARE,
    || pumped() - Basins::Inflow,
);

/// Hours of pumping: standing water over what the pump takes out less what runs in.
///
/// Zero where no water stands, or where the pump does not keep up (see the limits).
pub const PUMPING: Step<Basins> = Step::new(
    "pumping before the dig",
    System::hours,
    &sources::PUMP_SHARE,
    || {
        let keeps_up = is_wet().and(NET_FLOW.above(0.0));
        when(keeps_up, Basins::StandingWater / NET_FLOW, 0.0)
    },
);
