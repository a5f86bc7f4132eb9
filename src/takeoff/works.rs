//! The kinds of work that earthwork is priced with, found by name in the production rates.

use super::book::UnitColumns;
use super::inputs::{AllInputs, fixed_words};
use super::production::Production;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Kind, Link, Rules};
use crate::job::tables::ProductionRates as Works;
use crate::sources;
use crate::tables::{EarthWorks, UnitBook};
use crate::units::{ONE, System};

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

/// The rows of the table of earthworks.
#[derive(Clone, Copy, Debug)]
pub struct WorkRows {
    names: [(&'static str, &'static str); 10],
    /// The work's row in the production rates.
    pub link: Link<EarthWorks, Works>,
    /// What its machine carries.
    pub carries: Column<EarthWorks>,
    /// What its machine may carry by weight.
    pub payload: Column<EarthWorks>,
    /// Its machine's pump flow.
    pub pump_flow: Column<EarthWorks>,
}

impl WorkRows {
    /// The row of a work, by its name.
    #[must_use]
    pub fn row(&self, name: &str) -> usize {
        self.names
            .iter()
            .position(|(known, _)| *known == name)
            .unwrap_or(0)
    }

    /// The unit a work is counted in.
    #[must_use]
    pub fn unit(&self, name: &str) -> &'static str {
        self.names[self.row(name)].1
    }
}

/// Adds the table of earthworks: for each the row in the production rates that has its
/// name, and what its machine carries and pumps.
pub fn earthworks(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    production: &Production,
    system: System,
) -> WorkRows {
    let names = names(system);
    let label = fixed_words::<EarthWorks>(graph, "Work", &names.map(|(name, _)| name));
    let mut rules = graph.rules::<EarthWorks>();
    let unit = names.iter().map(|(_, unit)| (*unit).into()).collect();
    let unit = rules.words("unit", false, unit);
    let link: Link<EarthWorks, Works> = rules.link("production row", label);
    let unit: Link<EarthWorks, UnitBook> = rules.link("unit row", unit);
    let kind = rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind));
    unit_limit(&mut rules, inputs, (link, kind), production.work_kind);
    let carries = link.of(production.carries);
    let payload = link.of(production.payload);
    let pump_flow = link.of(production.pump_flow);
    WorkRows {
        names,
        link,
        carries: rules.from_job("machine carries", system.loose(), carries),
        payload: rules.from_job("machine payload", system.weight(), payload),
        pump_flow: rules.from_job("pump flow", system.flow(), pump_flow),
    }
}

/// Limit: a work that is found by name is counted in the earthwork's kind of unit.
fn unit_limit(
    rules: &mut Rules<'_, EarthWorks>,
    inputs: &AllInputs,
    (link, kind): (Link<EarthWorks, Works>, Column<EarthWorks>),
    work_kind: Column<Works>,
) {
    let found = link.found_none().negate();
    rules.limit(
        "unit against the work's",
        found.and(kind.here().differs_from(link.of(work_kind))),
        Breach::fault(
            Code::DimensionMismatch,
            inputs.words(Works::WorkUnit).id,
            "the work of this name is counted in another kind of unit than the earthwork",
            "count Dig and Strip topsoil in the bank, Build berm and Backfill compacted, Spread topsoil loose, hauling in loads, Pump out in hours, Remove sediment in plain volume",
        ),
    );
}

/// Whether the production rates have a row for a work, by its name.
#[must_use]
pub fn is_listed(graph: &Graph, inputs: &AllInputs, work: &str) -> bool {
    match &graph.column(inputs.words(Works::Work).id).kind {
        Kind::Words { values, .. } => values.iter().any(|name| name.eq_ignore_ascii_case(work)),
        _ => false,
    }
}
