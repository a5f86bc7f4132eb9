//! Lines of earthwork: basin by basin, the cuts beside them, then the job's balance.

use super::purchase::{FILL, FILL_WASTE, SEDIMENT_FEE, TIP_FEE};
use crate::graph::prelude::*;
use crate::graph::{Graph, Table};
use crate::job::tables::Basins;
use crate::tables::{Cuts, Earthwork};
use crate::takeoff::bill::{BidLine, Columns, Counted, GivesLines, Part, RowByRow};
use crate::takeoff::grades::SHARED_GRADE;
use crate::takeoff::works::{Earthmoving, fill_is_hauled};
use crate::takeoff::written::{filled, says, some_filled};
use crate::takeoff::{balance, cuts, excavation, pumping};
use crate::units::System;

const BASIN: Part = Part::Of(|| Basins::Basin.key());
const CUT: Part = Part::Of(|| cuts::NAME.key());
const EARTHWORK: Part = Part::Fixed("Earthwork");

/// Lines of earthwork.
pub(super) const LINES: [&dyn GivesLines; 3] = [&OF_BASINS, &OF_CUTS, &OF_THE_JOB];

/// Lines of each basin.
const OF_BASINS: RowByRow<Basins> = RowByRow {
    table: Earthwork::NAME,
    kinds: &[
        &BidLine {
            section: Part::Fixed("Water"),
            ..of_basin(
                |graph, row| filled(graph, Basins::StandingWater, row),
                &[Part::Fixed("Pump out: "), BASIN],
                &[BASIN, Part::Fixed(": pump out standing water")],
                Counted::Earth(Earthmoving::PumpOut, || pumping::PUMPING.key()),
            )
        },
        &of_basin(
            |graph, row| filled(graph, Basins::Topsoil, row),
            &[Part::Fixed("Strip topsoil: "), BASIN],
            &[BASIN, Part::Fixed(": strip topsoil to stockpile")],
            Counted::Earth(Earthmoving::StripTopsoil, || excavation::TOPSOIL.key()),
        ),
        &of_basin(
            |graph, row| filled(graph, Basins::SedimentArea, row),
            &[Part::Fixed("Remove sediment: "), BASIN],
            &[BASIN, Part::Fixed(": remove old sediment")],
            Counted::Earth(Earthmoving::RemoveSediment, || excavation::SEDIMENT.key()),
        ),
        &of_basin(
            |_, _| true,
            &[Part::Fixed("Dig: "), BASIN],
            &[BASIN, Part::Fixed(": dig to the dug surface")],
            Counted::Earth(Earthmoving::Dig, || excavation::DIG.key()),
        ),
        &of_basin(
            |graph, row| filled(graph, Basins::BermHeight, row),
            &[Part::Fixed("Build berm: "), BASIN],
            &[BASIN, Part::Fixed(": build berm")],
            Counted::Earth(Earthmoving::BuildBerm, || excavation::BERM.key()),
        ),
        &of_basin(
            |graph, row| says(graph, Basins::Entered, row, "yes"),
            &[Part::Fixed("Backfill: "), BASIN],
            &[BASIN, Part::Fixed(": backfill room and lay-back")],
            Counted::Earth(Earthmoving::Backfill, || excavation::BACKFILL.key()),
        ),
    ],
};

/// A line of a basin's earthwork: when it arises, its name, what it is, what it counts.
const fn of_basin(
    arises: fn(&Graph, usize) -> bool,
    name: &'static [Part],
    says: &'static [Part],
    counted: Counted<Basins>,
) -> BidLine<Basins> {
    BidLine {
        arises,
        section: EARTHWORK,
        zone: Some(BASIN),
        ..BidLine::of_each_row(name, says, counted)
    }
}

/// Lines of the cuts beside the basins' own: dig, and backfill where there is any.
const OF_CUTS: RowByRow<Cuts> = RowByRow {
    table: Earthwork::NAME,
    kinds: &[
        &of_cut(
            |_, _| true,
            &[Part::Fixed("Dig: "), CUT],
            &[CUT, Part::Fixed(": dig")],
            Counted::Earth(Earthmoving::Dig, || cuts::DIG.key()),
        ),
        &of_cut(
            is_filled_again,
            &[Part::Fixed("Backfill: "), CUT],
            &[CUT, Part::Fixed(": backfill")],
            Counted::Earth(Earthmoving::Backfill, || cuts::BACKFILL.key()),
        ),
    ],
};

/// A line of a cut: when it arises, its name, what it is, what it counts.
const fn of_cut(
    arises: fn(&Graph, usize) -> bool,
    name: &'static [Part],
    says: &'static [Part],
    counted: Counted<Cuts>,
) -> BidLine<Cuts> {
    BidLine {
        arises,
        section: EARTHWORK,
        zone: Some(CUT),
        name,
        says,
        counted,
        price: None,
        grade: || cuts::GRADE.key(),
        only_where_some: false,
    }
}

/// Whether anything is filled again in a cut.
fn is_filled_again(graph: &Graph, row: usize) -> bool {
    let backfill = graph.id(cuts::BACKFILL);
    graph.gathered(backfill.at(row)).is_some()
}

/// Lines of what all earthwork of the job shares: hauling, fill brought in, topsoil.
const OF_THE_JOB: RowByRow<Earthwork> = RowByRow::new(&[
    &BidLine {
        price: Some(|| SEDIMENT_FEE.key()),
        ..of_job(
            |graph, _| some_filled(graph, Basins::SedimentArea),
            &[Part::Fixed("Haul sediment")],
            &[Part::Fixed("Haul sediment to the tip, with tip fee")],
            Counted::Earth(Earthmoving::HaulSediment, || balance::SEDIMENT_LOADS.key()),
        )
    },
    &BidLine {
        price: Some(|| TIP_FEE.key()),
        ..of_job(
            |graph, _| is_dug(graph),
            &[Part::Fixed("Haul away")],
            &[Part::Fixed("Haul surplus earth to the tip, with tip fee")],
            Counted::Earth(Earthmoving::HaulAway, || balance::SURPLUS_LOADS.key()),
        )
    },
    // The material is counted loose, as topsoil is.
    &of_fill(
        |graph, _| is_dug(graph),
        &[Part::Fixed("Imported fill")],
        &[Part::Fixed("Imported fill, loose")],
        Counted::ByColumns(Columns {
            quantity: || balance::BROUGHT_LOOSE.key(),
            unit: Part::Symbol(System::loose),
            waste: Some(|| FILL_WASTE.key()),
            material: Some(|| FILL.key()),
            work: None,
        }),
    ),
    &of_fill(
        |graph, _| is_dug(graph) && fill_is_hauled(graph),
        &[Part::Fixed("Bring fill")],
        &[Part::Fixed("Haul imported fill to the site")],
        Counted::Earth(Earthmoving::BringFill, || balance::BROUGHT_LOADS.key()),
    ),
    &of_job(
        |graph, _| some_filled(graph, Basins::Topsoil),
        &[Part::Fixed("Spread topsoil")],
        &[Part::Fixed("Spread topsoil again")],
        Counted::Earth(Earthmoving::SpreadTopsoil, || balance::TOPSOIL_SPREAD.key()),
    ),
]);

/// A line of the job's earthwork: when it arises, its name, what it is, what it counts.
const fn of_job(
    arises: fn(&Graph, usize) -> bool,
    name: &'static [Part],
    says: &'static [Part],
    counted: Counted<Earthwork>,
) -> BidLine<Earthwork> {
    BidLine {
        arises,
        section: EARTHWORK,
        zone: None,
        name,
        says,
        counted,
        price: None,
        grade: || SHARED_GRADE.key(),
        only_where_some: false,
    }
}

/// A line of imported fill: there is some only where the dig gives too little.
const fn of_fill(
    arises: fn(&Graph, usize) -> bool,
    name: &'static [Part],
    says: &'static [Part],
    counted: Counted<Earthwork>,
) -> BidLine<Earthwork> {
    BidLine {
        only_where_some: true,
        ..of_job(arises, name, says, counted)
    }
}

/// Whether anything is dug.
fn is_dug(graph: &Graph) -> bool {
    let basins = graph.rows(graph.id(Basins::Basin));
    basins + graph.rows(graph.id(cuts::NAME)) > 0
}
