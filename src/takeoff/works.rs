//! The kinds of work that earthwork is priced with, found by name in the production rates.

use super::book::{self, UNIT};
use super::production;
use super::written::says;
use crate::graph::prelude::*;
use crate::graph::{Cell, ColumnId, Graph};
use crate::job::tables::ProductionRates as Works;
use crate::sources;
use crate::tables::{EarthWorks, UnitBook};
use crate::units::System;

/// A kind of earthwork: each is priced with the work of its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Earthmoving {
    /// Pumping standing water out.
    PumpOut,
    /// Stripping topsoil to a stockpile.
    StripTopsoil,
    /// Removing old sediment.
    RemoveSediment,
    /// Digging.
    Dig,
    /// Building berms.
    BuildBerm,
    /// Filling again beside what is built.
    Backfill,
    /// Hauling sediment to the tip.
    HaulSediment,
    /// Hauling surplus earth to the tip.
    HaulAway,
    /// Hauling fill to the site.
    BringFill,
    /// Spreading stripped topsoil again.
    SpreadTopsoil,
}

impl Earthmoving {
    /// Every kind, in the order of its rows.
    pub const ALL: [Self; 10] = [
        Self::PumpOut,
        Self::StripTopsoil,
        Self::RemoveSediment,
        Self::Dig,
        Self::BuildBerm,
        Self::Backfill,
        Self::HaulSediment,
        Self::HaulAway,
        Self::BringFill,
        Self::SpreadTopsoil,
    ];

    /// The name of its work in the production rates.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::PumpOut => "Pump out",
            Self::StripTopsoil => "Strip topsoil",
            Self::RemoveSediment => "Remove sediment",
            Self::Dig => "Dig",
            Self::BuildBerm => "Build berm",
            Self::Backfill => "Backfill",
            Self::HaulSediment => "Haul sediment",
            Self::HaulAway => "Haul away",
            Self::BringFill => "Bring fill",
            Self::SpreadTopsoil => "Spread topsoil",
        }
    }

    /// The symbol of the unit that it is counted in.
    #[must_use]
    pub fn unit(self, system: System) -> &'static str {
        match self {
            Self::PumpOut => "h",
            Self::StripTopsoil | Self::Dig => system.bank().symbol(),
            Self::RemoveSediment => system.volume().symbol(),
            Self::BuildBerm | Self::Backfill => system.compacted().symbol(),
            Self::HaulSediment | Self::HaulAway | Self::BringFill => "load",
            Self::SpreadTopsoil => system.loose().symbol(),
        }
    }

    /// Its cell in a column.
    pub(super) fn at(self, column: ColumnId) -> Cell {
        column.at(self as usize)
    }

    /// Its value in a column, as a figure of the whole job.
    pub(super) fn of(self, graph: &mut Graph, column: Step<EarthWorks>) -> Vec<Option<Cell>> {
        vec![Some(self.at(graph.read(column)))]
    }
}

/// What the machine of each kind of earthwork carries and pumps, and the unit of its work.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<EarthWorks>::fault(
        "unit against the work's",
        Code::DimensionMismatch,
        Works::WorkUnit.at(),
        || {
            let work_kind = LINK.of(production::WORK_KIND);
            LINK.found().and(UNIT_KIND.differs_from(work_kind))
        },
        "the work of this name is counted in another kind of unit than the earthwork",
        "count Dig and Strip topsoil in the bank, Build berm and Backfill compacted, Spread topsoil loose, hauling in loads, Pump out in hours, Remove sediment in plain volume",
    ),
    &CARRIES,
    &PAYLOAD,
    &PUMP_FLOW,
];

/// The name of each kind of earthwork.
const WORK: Wording<EarthWorks> =
    Wording::brought("Work", |_| Earthmoving::ALL.map(Earthmoving::name).to_vec()).naming_rows();

/// The unit it is counted in.
const COUNTED_IN: Wording<EarthWorks> = Wording::brought("unit", |system| {
    Earthmoving::ALL.map(|work| work.unit(system)).to_vec()
});

/// Its row in the production rates.
pub const LINK: LookUp<EarthWorks, Works> = LookUp::new("production row", || WORK.key());

const UNIT_ROW: LookUp<EarthWorks, UnitBook> =
    LookUp::new("unit row", || COUNTED_IN.key()).among(|| UNIT.key());

const UNIT_KIND: Step<EarthWorks> = Step::new("unit kind", System::number, &sources::UNITS, || {
    UNIT_ROW.of(book::KIND)
});

/// What its machine carries.
pub const CARRIES: Step<EarthWorks> = Step::from_job("machine carries", System::loose, || {
    LINK.of(production::CARRIES)
});

/// What its machine may carry by weight.
pub const PAYLOAD: Step<EarthWorks> = Step::from_job("machine payload", System::weight, || {
    LINK.of(production::PAYLOAD)
});

/// Its machine's pump flow.
pub const PUMP_FLOW: Step<EarthWorks> =
    Step::from_job("pump flow", System::flow, || LINK.of(production::PUMP_FLOW));

/// Whether the job hauls its fill itself: without the work Bring fill its price is delivered.
#[must_use]
pub fn fill_is_hauled(graph: &Graph) -> bool {
    let mut rows = 0..graph.rows(graph.id(Works::Work));
    rows.any(|row| says(graph, Works::Work, row, Earthmoving::BringFill.name()))
}
