//! The kinds of work that earthwork is priced with, found by name in the production rates.

use super::book::{self, UNIT};
use super::production;
use crate::graph::prelude::*;
use crate::graph::{Cell, Graph};
use crate::job::tables::ProductionRates as Works;
use crate::sources;
use crate::tables::{EarthWorks, UnitBook};
use crate::units::System;

/// The kinds of earthwork by the names looked up, with the unit each is counted in.
#[must_use]
pub fn names(system: System) -> [(&'static str, &'static str); 10] {
    let us = system.is_us();
    let earth = |yards, metres| if us { yards } else { metres };
    [
        ("Pump out", "h"),
        ("Strip topsoil", earth("yd3 bank", "m3 bank")),
        ("Remove sediment", earth("yd3", "m3")),
        ("Dig", earth("yd3 bank", "m3 bank")),
        ("Build berm", earth("yd3 compacted", "m3 compacted")),
        ("Backfill", earth("yd3 compacted", "m3 compacted")),
        ("Haul sediment", "load"),
        ("Haul away", "load"),
        ("Bring fill", "load"),
        ("Spread topsoil", earth("yd3 loose", "m3 loose")),
    ]
}

/// The row of a work, by its name; the same in both systems.
#[must_use]
pub fn row(name: &str) -> usize {
    let mut all = names(System::Us).into_iter();
    all.position(|(known, _)| known == name).unwrap_or(0)
}

/// The value that one kind of earthwork has, as a figure of the whole job.
pub(super) fn of(graph: &mut Graph, work: &str, column: Step<EarthWorks>) -> Vec<Option<Cell>> {
    vec![Some(graph.read(column).at(row(work)))]
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
const WORK: Wording<EarthWorks> = Wording::brought("Work", |system| {
    names(system).map(|(name, _)| name).to_vec()
})
.naming_rows();

/// The unit it is counted in.
const COUNTED_IN: Wording<EarthWorks> = Wording::brought("unit", |system| {
    names(system).map(|(_, unit)| unit).to_vec()
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
    let names = graph.id(Works::Work);
    let mut rows = 0..graph.rows(names);
    rows.any(|row| {
        graph
            .written(names.at(row))
            .eq_ignore_ascii_case("Bring fill")
    })
}
