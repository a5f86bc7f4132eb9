//! Lines of earthwork: basin by basin, then the job's balance.
//!
//! Always true: a line exists only where the measure that it arises from was filled in.

use super::lines::Parts;
use crate::graph::{Cell, ColumnId, Graph, Piece, Results, Table};
use crate::job::tables::Basins;
use crate::money;
use crate::tables::Earthwork;
use crate::takeoff::balance::Balance;
use crate::takeoff::cuts;
use crate::takeoff::line::{Line, fixed};
use crate::takeoff::works::is_listed;

/// The measure of a basin without which a kind of work does not arise.
///
/// A line exists only where its measure was filled in, so that a bid is not full of
/// zeros; each is declared as one that lines arise from, so that the workbook watches it.
const ARISES_FROM: [(&str, Basins); 5] = [
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
    let column = parts.inputs.id(*field);
    let says = |row: usize| {
        let cell = column.at(row);
        graph.is_filled(cell) && parts.so_far.words(cell) != "no"
    };
    match row {
        Some(row) => says(row),
        None => (0..graph.rows(column)).any(says),
    }
}

/// Whether the dig gives too little fill, to a millionth of the unit, so that there are
/// lines of imported fill. The workbook watches it.
#[must_use]
pub fn brings_fill(results: &Results, balance: &Balance) -> bool {
    money::round(results.at(balance.brought, 0), 6) > 0.0
}

/// Every line of earthwork, in building order.
pub(super) fn earth_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let table = graph.table_of::<Basins>();
    let basins = table.map_or(0, |table| graph.table(table).rows);
    let mut lines = Vec::new();
    for row in 0..basins {
        lines.extend(basin_lines(graph, parts, row));
    }
    lines.extend(cut_lines(graph, parts));
    if !lines.is_empty() {
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
        grade: parts.grades.basin.id.at(row),
        ..earth_line(parts, work, section, quantity.at(row))
    };
    arising.map(line).collect()
}

/// Lines of the cuts beside the basins' own: dig, and backfill where there is any.
fn cut_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let (dig, backfill) = (graph.id(cuts::DIG), graph.id(cuts::BACKFILL));
    let line = |work: &str, row: usize, said: &str, quantity: ColumnId| {
        let cut = &parts.cuts[row];
        let name = [vec![fixed(format!("{work}: "))], cut.name.clone()].concat();
        Line {
            name,
            description: [cut.name.clone(), vec![fixed(said)]].concat(),
            grade: cut.grade,
            ..earth_line(parts, work, "Earthwork", quantity.at(row))
        }
    };
    let mut lines = Vec::new();
    for (row, cut) in parts.cuts.iter().enumerate() {
        lines.push(line("Dig", row, ": dig", dig));
        if cut.backfill.is_some() {
            lines.push(line("Backfill", row, ": backfill", backfill));
        }
    }
    lines
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
        amount: None,
        waste: None,
        material: None,
        work: Some(parts.works.link.id.at(parts.works.row(work))),
        worked: None,
        price: None,
        grade: parts.grades.shared.id.at(0),
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
    if brings_fill(parts.so_far, parts.balance) {
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
