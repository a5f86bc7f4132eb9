//! Lines of earthwork: basin by basin, then the job's balance.
//!
//! Always true: a line exists only where the measure that it arises from was filled in.

use std::sync::Arc;

use super::lines::Parts;
use crate::graph::{Cell, ColumnId, Graph, Kind, Piece, Table};
use crate::job::tables::Basins;
use crate::takeoff::balance::Earthwork;

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
    let filled: Vec<bool> = match &graph.column(parts.inputs.basins.number(*field).id).kind {
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
    let mut lines = Vec::new();
    let basins = graph
        .table_of::<Basins>()
        .map_or(0, |table| graph.table(table).rows);
    let of_basin: [(&str, &str, &str, ColumnId); 6] = [
        (
            "Pump out",
            "Water",
            ": pump out standing water",
            parts.pumping.id,
        ),
        (
            "Strip topsoil",
            "Earthwork",
            ": strip topsoil to stockpile",
            parts.dug.topsoil.id,
        ),
        (
            "Remove sediment",
            "Earthwork",
            ": remove old sediment",
            parts.dug.sediment.id,
        ),
        (
            "Dig",
            "Earthwork",
            ": dig to the dug surface",
            parts.dug.dig.id,
        ),
        ("Build berm", "Earthwork", ": build berm", parts.dug.berm.id),
        (
            "Backfill",
            "Earthwork",
            ": backfill room and lay-back",
            parts.dug.backfill.id,
        ),
    ];
    for row in 0..basins {
        let basin = Cell {
            column: parts.inputs.basins.words(Basins::Basin).id,
            row,
        };
        for (work, section, description, column) in of_basin {
            if !arises(graph, parts, work, Some(row)) {
                continue;
            }
            lines.push(Line {
                name: vec![fixed(format!("{work}: ")), Piece::Cell(basin)],
                description: vec![Piece::Cell(basin), fixed(description)],
                ..earth_line(parts, work, section, Cell { column, row })
            });
        }
    }
    if basins > 0 {
        lines.extend(job_lines(graph, parts));
    }
    lines
}

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
        work: Some(Cell {
            column: parts.works.link.id,
            row: parts.works.row(work),
        }),
        price: None,
    }
}

/// Lines of the job's balance: hauling, fill brought in, topsoil.
fn job_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let balance = parts.balance;
    let only = |column: ColumnId| Cell { column, row: 0 };
    let line = |work: &str, description: &str, quantity: ColumnId| Line {
        description: vec![fixed(description)],
        ..earth_line(parts, work, "Earthwork", only(quantity))
    };
    let loose = parts.works.unit("Spread topsoil");
    let mut lines = Vec::new();
    if arises(graph, parts, "Remove sediment", None) {
        let fee = Some(only(parts.purchase.sediment_fee.id));
        let haul = line(
            "Haul sediment",
            "Haul sediment to the tip, with tip fee",
            balance.sediment_loads.id,
        );
        lines.push(Line { price: fee, ..haul });
    }
    let fee = Some(only(parts.purchase.tip_fee.id));
    let haul = line(
        "Haul away",
        "Haul surplus earth to the tip, with tip fee",
        balance.surplus_loads.id,
    );
    lines.push(Line { price: fee, ..haul });
    if arises(graph, parts, "Build berm", None) || arises(graph, parts, "Backfill", None) {
        lines.push(Line {
            name: vec![fixed("Imported fill")],
            unit: vec![fixed(loose)],
            material: Some(only(parts.purchase.fill.id)),
            work: None,
            ..line(
                "Bring fill",
                "Imported fill, loose",
                balance.brought_loose.id,
            )
        });
        lines.push(line(
            "Bring fill",
            "Haul imported fill to the site",
            balance.brought_loads.id,
        ));
    }
    if arises(graph, parts, "Strip topsoil", None) {
        lines.push(line(
            "Spread topsoil",
            "Spread topsoil again",
            balance.topsoil_spread.id,
        ));
    }
    lines
}
