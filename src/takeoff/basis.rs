//! What every part of the take-off builds on.

use super::basins::Finished;
use super::book::{SoilColumns, UnitColumns};
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use super::production::Production;
use crate::units::System;

/// What every part of the take-off builds on.
#[derive(Clone, Copy, Debug)]
pub struct Basis<'b> {
    /// The job's tables.
    pub inputs: &'b AllInputs,
    /// Units.
    pub units: &'b UnitColumns,
    /// Soils.
    pub soils: &'b SoilColumns,
    /// Figures of the job as a whole.
    pub wide: &'b JobWide,
    /// Crews, machines, works, materials.
    pub production: &'b Production,
    /// Finished shape of basins.
    pub finished: &'b Finished,
    /// The job's units.
    pub system: System,
}
