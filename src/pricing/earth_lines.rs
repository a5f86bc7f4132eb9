//! Lines of earthwork: basin by basin, then the job's balance.
//!
//! Always true: a line exists only where the measure that it arises from was filled in.

use std::sync::Arc;

use super::lines::Parts;
use crate::graph::{Cell, ColumnId, Graph, Kind, Piece, Table};
use crate::job::tables::Basins;
use crate::money;
use crate::takeoff::balance::Earthwork;
use crate::takeoff::works::is_listed;

/// Where one line comes from.
pub(super) struct Line {
    pub(super) table: &'static str,
    pub(super) name: Vec<Piece>,
    pub(super) section: Vec<Piece>,
    pub(super) description: Vec<Piece>,
    pub(super) unit: Vec<Piece>,
    pub(super) quantity: Cell,
    pub(super) waste: Option<Cell>,
    pub(super) material: Option<Cell>,
    pub(super) work: Option<Cell>,
    pub(super) price: Option<Cell>,
}

/// Words as they are.
pub(super) fn fixed(words: impl Into<Arc<str>>) -> Piece {
    Piece::Fixed(words.into())
}

/// The measure of a basin without which a kind of work does not arise.
///
/// A line exists only where its measure was filled in, so that a bid is not full of
/// zeros; the workbook watches how many are, and asks for a new run when that changes.
pub const ARISES_FROM: [(&str, Basins); 5] = [
    ("Pump out", Basins::StandingWater),
    ("Strip topsoil", Basins::Topsoil),
    ("Remove sediment", Basins::SedimentArea),
    ("Build berm", Basins::BermHeight),
    ("Backfill", Basins::Entered),
];

/// Whether a kind of work arises in a basin, or in any where `row` is `None`.
fn arises(graph: &Graph, parts: &Parts<'_>, work: &str, row: Option<usize>) -> bool {
    let Some((_, field)) = ARISES_FROM.iter().find(|(known, _)| *known == work) else {
        return true;
    };
    let filled: Vec<bool> = match &graph.column(parts.inputs.number(*field).id).kind {
        Kind::Measured(values) => values.iter().map(|value| !value.is_nan()).collect(),
        Kind::Words { values, .. } => values.iter().map(|word| &**word == "yes").collect(),
        _ => Vec::new(),
    };
    row.map_or(filled.contains(&true), |row| {
        filled.get(row).copied().unwrap_or(false)
    })
}

/// Every line of earthwork, in building order.
pub(super) fn earth_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let table = graph.table_of::<Basins>();
    let basins = table.map_or(0, |table| graph.table(table).rows);
    let mut lines = Vec::new();
    for row in 0..basins {
        lines.extend(basin_lines(graph, parts, row));
    }
    if basins > 0 {
        lines.extend(job_lines(graph, parts));
    }
    lines
}

/// Lines of one basin: work, section, what is said of it after the basin's name, quantity.
fn basin_lines(graph: &Graph, parts: &Parts<'_>, row: usize) -> Vec<Line> {
    let (water, earth) = ("Water", "Earthwork");
    let (dug, pumping) = (parts.dug, parts.pumping.id);
    let backfill = ": backfill room and lay-back";
    let all = [
        ("Pump out", water, ": pump out standing water", pumping),
        (
            "Strip topsoil",
            earth,
            ": strip topsoil to stockpile",
            dug.topsoil.id,
        ),
        (
            "Remove sediment",
            earth,
            ": remove old sediment",
            dug.sediment.id,
        ),
        ("Dig", earth, ": dig to the dug surface", dug.dig.id),
        ("Build berm", earth, ": build berm", dug.berm.id),
        ("Backfill", earth, backfill, dug.backfill.id),
    ];
    let basin = parts.inputs.words(Basins::Basin).id.at(row);
    let arising = all
        .into_iter()
        .filter(|(work, ..)| arises(graph, parts, work, Some(row)));
    let line = |(work, section, said, quantity): (&str, &str, &'static str, ColumnId)| Line {
        name: vec![fixed(format!("{work}: ")), Piece::Cell(basin)],
        description: vec![Piece::Cell(basin), fixed(said)],
        ..earth_line(parts, work, section, quantity.at(row))
    };
    arising.map(line).collect()
}

/// One line of earthwork that its work prices.
fn earth_line(parts: &Parts<'_>, work: &str, section: &str, quantity: Cell) -> Line {
    Line {
        table: Earthwork::NAME,
        name: vec![fixed(work)],
        section: vec![fixed(section)],
        description: Vec::new(),
        unit: vec![fixed(parts.works.unit(work))],
        quantity,
        waste: None,
        material: None,
        work: Some(parts.works.link.id.at(parts.works.row(work))),
        price: None,
    }
}

/// Lines of the job's balance: hauling, fill brought in, topsoil.
fn job_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let arises = |work: &str| arises(graph, parts, work, None);
    let balance = parts.balance;
    let mut lines = Vec::new();
    if arises("Remove sediment") {
        let said = "Haul sediment to the tip, with tip fee";
        lines.push(Line {
            price: Some(parts.purchase.sediment_fee.id.at(0)),
            ..job_line(parts, "Haul sediment", said, balance.sediment_loads.id)
        });
    }
    let said = "Haul surplus earth to the tip, with tip fee";
    lines.push(Line {
        price: Some(parts.purchase.tip_fee.id.at(0)),
        ..job_line(parts, "Haul away", said, balance.surplus_loads.id)
    });
    if fill_is_brought(parts) {
        let hauled = is_listed(graph, parts.inputs, "Bring fill");
        lines.extend(
            fill_lines(parts)
                .into_iter()
                .take(if hauled { 2 } else { 1 }),
        );
    }
    if arises("Strip topsoil") {
        let spread = balance.topsoil_spread.id;
        lines.push(job_line(
            parts,
            "Spread topsoil",
            "Spread topsoil again",
            spread,
        ));
    }
    lines
}

/// Whether the dig gives too little fill, to a millionth of the unit. The workbook watches it.
fn fill_is_brought(parts: &Parts<'_>) -> bool {
    money::round(parts.so_far.at(parts.balance.brought, 0), 6) > 0.0
}

/// One line of the job's balance.
fn job_line(parts: &Parts<'_>, work: &str, said: &str, quantity: ColumnId) -> Line {
    Line {
        description: vec![fixed(said)],
        ..earth_line(parts, work, "Earthwork", quantity.at(0))
    }
}

/// Imported fill: the material, counted loose as topsoil is, and its haul to the site, which
/// is priced only where the job has that work: else the material's price is delivered.
fn fill_lines(parts: &Parts<'_>) -> [Line; 2] {
    let (loose, loads) = (
        parts.balance.brought_loose.id,
        parts.balance.brought_loads.id,
    );
    let material = Line {
        name: vec![fixed("Imported fill")],
        unit: vec![fixed(parts.works.unit("Spread topsoil"))],
        material: Some(parts.purchase.fill.id.at(0)),
        waste: Some(parts.purchase.fill_waste.id.at(0)),
        work: None,
        ..job_line(parts, "Bring fill", "Imported fill, loose", loose)
    };
    let haul = "Haul imported fill to the site";
    [material, job_line(parts, "Bring fill", haul, loads)]
}
