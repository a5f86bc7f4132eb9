//! Groundwater under the liner of a basin: whether its ballast holds it down.
//!
//! The worst case is taken: the pond is empty, and groundwater stands at its highest under
//! the deepest place of the liner. The ballast lies dry on the liner, so its whole weight
//! counts; the liner's own weight is left out.

use super::basis::Basis;
use super::book::factor;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, highest, when};
use crate::job::tables::Basins;
use crate::parameters::Factor;
use crate::sources;
use crate::units::ONE;

/// Uplift under liners.
#[derive(Clone, Copy, Debug)]
pub struct UpliftColumns {
    /// Height of groundwater above the underside of the build-up.
    pub head: Column<Basins>,
    /// Its pressure under the liner.
    pub pressure: Column<Basins>,
    /// What the ballast weighs on the liner.
    pub ballast: Column<Basins>,
    /// Ballast for one of uplift; zero where nothing lifts.
    pub safety: Column<Basins>,
}

/// Adds the head under each liner, its uplift, the ballast and the factor of safety.
///
/// Limits: where groundwater stands above the underside, the factor of safety is not below
/// the one asked for; ballast is not measured where groundwater is unknown.
pub fn uplift(graph: &mut Graph, basis: &Basis<'_>) -> UpliftColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let mut rules = graph.rules::<Basins>();
    let groundwater = inputs.number(Basins::Groundwater);
    let underside = basis.finished.depth + inputs.number(Basins::BuildUp);
    let head = highest(0.0, underside - groundwater);
    let head = when(groundwater.filled(), head, 0.0);
    let head = rules.geometry("head under the liner", system.length(), head);
    let unit = system.area_weight();
    let pressure = factor(inputs, Factor::WaterWeight) * head;
    let pressure = rules.step("uplift on the liner", unit, &sources::BUOYANCY, pressure);
    let ballast = inputs.number(Basins::Ballast);
    let weight = factor(inputs, Factor::BallastWeight) * ballast;
    let weight = rules.step(
        "weight of the ballast",
        unit,
        &sources::BALLAST_WEIGHT,
        weight,
    );
    let lifts = pressure.here().above(0.0);
    let safety = when(lifts.clone(), weight / pressure, 0.0);
    let safety = rules.arithmetic("factor of safety of the liner", ONE, safety);
    let asked = factor(inputs, Factor::FloatSafety);
    rules.limit(
        "groundwater may lift the liner",
        lifts.and(safety.here().below(asked)),
        Breach::open(
            Code::MayFloat,
            ballast.id,
            "groundwater may lift the liner while the basin is empty",
            "have an engineer decide: an underdrain, vents, more ballast, or keep water in the basin while groundwater is high",
        ),
    );
    rules.limit(
        "ballast and no groundwater",
        ballast.here().above(0.0).and(groundwater.blank()),
        Breach::warning(
            Code::MissingValue,
            groundwater.id,
            "ballast is measured and no groundwater, so that lifting is not checked",
            "write Groundwater, from the rim down to its highest",
        ),
    );
    UpliftColumns {
        head,
        pressure,
        ballast: weight,
        safety,
    }
}
