//! What every part of the take-off builds on.

use super::book::UnitColumns;
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
    /// Figures of the job as a whole.
    pub wide: &'b JobWide,
    /// Crews, machines, works, materials.
    pub production: &'b Production,
    /// The job's units.
    pub system: System,
}
