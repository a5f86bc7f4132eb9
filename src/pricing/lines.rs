//! The lines of the take-off: quantity, what it takes, what it costs.
//!
//! Earthwork comes first, basin by basin, then the job's balance, then the other items
//! in their order. Always true: each line's quantity is either taken off or set by
//! hand with a reason; cost is the sum of four kinds, each rounded to the cent once.

use std::sync::Arc;

use super::costs::{Taken, costs, quantity};
use crate::diagnostic::Code;
use crate::graph::{Breach, Cell, Column, ColumnId, Graph, Kind, Link, Piece, Rules, Table, Text};
use crate::job::tables::{
    Basins, JobKeys, Materials, OtherItems as Items, ProductionRates as Works,
};
use crate::takeoff::balance::{Balance, Earthwork};
use crate::takeoff::book::UnitColumns;
use crate::takeoff::excavation::Dug;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::items::ItemColumns;
use crate::takeoff::production::Production;
use crate::takeoff::works::WorkRows;
use crate::units::{MONEY, ONE, PERCENT};

/// One priced thing.
#[derive(Debug)]
pub enum Lines {}

impl Table for Lines {
    const NAME: &'static str = "Lines";
    const ROW: &'static str = "line";
}

/// What lines are made from.
#[derive(Clone, Copy, Debug)]
pub struct Parts<'p> {
    /// The job's tables.
    pub inputs: &'p AllInputs,
    /// Units.
    pub book: &'p UnitColumns,
    /// Crews, machines, works, materials.
    pub production: &'p Production,
    /// Kinds of earthwork.
    pub works: &'p WorkRows,
    /// Earthwork of basins.
    pub dug: &'p Dug,
    /// Hours of pumping.
    pub pumping: Column<Basins>,
    /// The balance.
    pub balance: &'p Balance,
    /// Other items.
    pub items: &'p ItemColumns,
    /// Fees and the imported fill, as figures of the job.
    pub purchase: &'p Purchase,
}

/// What the job says of tips and of imported fill.
#[derive(Clone, Copy, Debug)]
pub struct Purchase {
    /// What the tip charges for a load of earth.
    pub tip_fee: Column<JobKeys>,
    /// What the tip charges for a load of sediment.
    pub sediment_fee: Column<JobKeys>,
    /// Row of the imported fill among the materials.
    pub fill: Link<JobKeys, Materials>,
}

/// Columns of the lines that bids are made from.
#[derive(Clone, Copy, Debug)]
pub struct LineColumns {
    /// Name of the line, unique.
    pub name: Text<Lines>,
    /// Section of the bid.
    pub section: Text<Lines>,
    /// What it is.
    pub description: Text<Lines>,
    /// Unit of the quantity.
    pub unit: Text<Lines>,
    /// Quantity as taken off.
    pub taken_off: Column<Lines>,
    /// Quantity used, rounded to thousandths.
    pub quantity: Column<Lines>,
    /// Row of the material.
    pub material: Link<Lines, Materials>,
    /// What is bought, in the material's unit.
    pub bought: Column<Lines>,
    /// Row of the work.
    pub work: Link<Lines, Works>,
    /// Hours of the crew.
    pub crew_hours: Column<Lines>,
    /// Hours of the machine.
    pub machine_hours: Column<Lines>,
    /// Cost of material.
    pub material_cost: Column<Lines>,
    /// Cost of labor.
    pub labor_cost: Column<Lines>,
    /// Cost of equipment.
    pub equipment_cost: Column<Lines>,
    /// Cost of subcontracts.
    pub subcontract_cost: Column<Lines>,
    /// Direct cost.
    pub direct: Column<Lines>,
    /// Why the quantity was set by hand.
    pub reason: Text<Lines>,
    /// Name of the material.
    pub material_name: Text<Lines>,
    /// Name of the work.
    pub work_name: Text<Lines>,
}

/// Where one line comes from.
struct Line {
    table: &'static str,
    name: Vec<Piece>,
    section: Vec<Piece>,
    description: Vec<Piece>,
    unit: Vec<Piece>,
    quantity: Cell,
    waste: Option<Cell>,
    material: Option<Cell>,
    work: Option<Cell>,
    price: Option<Cell>,
}

fn fixed(words: impl Into<Arc<str>>) -> Piece {
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

fn earth_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
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

fn item_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let items = &parts.inputs.items;
    let rows = graph
        .table_of::<Items>()
        .map_or(0, |table| graph.table(table).rows);
    let words = |field: Items, row: usize| {
        vec![Piece::Cell(Cell {
            column: items.words(field).id,
            row,
        })]
    };
    let line = |row: usize| Line {
        table: Items::NAME,
        name: words(Items::Item, row),
        section: words(Items::Section, row),
        description: words(Items::Description, row),
        unit: words(Items::ItemUnit, row),
        quantity: Cell {
            column: parts.items.quantity.id,
            row,
        },
        waste: Some(Cell {
            column: parts.items.waste.id,
            row,
        }),
        material: Some(Cell {
            column: parts.items.material.id,
            row,
        }),
        work: Some(Cell {
            column: parts.items.work.id,
            row,
        }),
        price: Some(Cell {
            column: parts.items.price.id,
            row,
        }),
    };
    (0..rows).map(line).collect()
}

/// Adds every line with its quantity, hours and cost.
pub fn lines(graph: &mut Graph, parts: &Parts<'_>) -> LineColumns {
    let mut all = earth_lines(graph, parts);
    all.extend(item_lines(graph, parts));
    graph.add_table::<Lines>(all.len());
    let mut rules = graph.rules::<Lines>();
    let words = |rules: &mut Rules<'_, Lines>, name: &str, of: fn(&Line) -> &Vec<Piece>| {
        rules.gathered_words(name, all.iter().map(|line| of(line).clone()).collect())
    };
    let name = words(&mut rules, "line", |line| &line.name);
    rules.labelled_by(name);
    let table = all.iter().map(|line| vec![fixed(line.table)]).collect();
    let table = rules.gathered_words("taken off in", table);
    let section = words(&mut rules, "section", |line| &line.section);
    let description = words(&mut rules, "description", |line| &line.description);
    let unit = words(&mut rules, "unit", |line| &line.unit);
    let numbers =
        |rules: &mut Rules<'_, Lines>, name: &str, of: fn(&Line) -> Option<Cell>, unit| {
            rules.gathered(name, unit, all.iter().map(of).collect())
        };
    let taken_off = numbers(&mut rules, "taken off", |line| Some(line.quantity), ONE);
    let waste = numbers(&mut rules, "waste", |line| line.waste, PERCENT);
    let material = Link::new(numbers(&mut rules, "material row", |line| line.material, ONE).id);
    let work = Link::new(numbers(&mut rules, "work row", |line| line.work, ONE).id);
    let price = numbers(&mut rules, "subcontract price", |line| line.price, MONEY);
    let (quantity, reason) = quantity(graph, parts, name, taken_off);
    let mut rules = graph.rules::<Lines>();
    let material_name = rules.word_step(
        "material",
        material.words_of(parts.inputs.materials.words(Materials::Material)),
    );
    let work_name = rules.word_step("work", work.words_of(parts.inputs.works.words(Works::Work)));
    let taken = Taken {
        unit,
        quantity,
        waste,
        material,
        work,
        price,
    };
    let costs = costs(&mut rules, parts, &taken);
    let no_work = parts.inputs.works.words(Works::Work).id;
    let unpriced = work
        .found_none()
        .and(material.found_none())
        .and(price.here().same_as(0.0));
    rules.limit(
        "earthwork that nothing prices",
        table.is(Earthwork::NAME).and(quantity.here().above(0.0)).and(unpriced),
        Breach::open(
            Code::MissingRate,
            no_work,
            "nothing prices this earthwork: it is excluded",
            "add a row to Production rates with the name of the work, such as Dig; for imported fill, name the material in Job",
        ),
    );
    LineColumns {
        name,
        section,
        description,
        unit,
        taken_off,
        quantity,
        material,
        work,
        reason,
        material_name,
        work_name,
        bought: costs.bought,
        crew_hours: costs.crew_hours,
        machine_hours: costs.machine_hours,
        material_cost: costs.material,
        labor_cost: costs.labor,
        equipment_cost: costs.equipment,
        subcontract_cost: costs.subcontract,
        direct: costs.direct,
    }
}

/// The names of the sections in the order of the lines, each at the first line that has it.
#[must_use]
pub fn section_names(
    graph: &Graph,
    section: Text<Lines>,
    results: &crate::graph::Results,
) -> Vec<Vec<Piece>> {
    let mut seen: Vec<String> = Vec::new();
    let mut names = Vec::new();
    let Kind::GatheredWords(rows) = &graph.column(section.id).kind else {
        return names;
    };
    for (row, pieces) in rows.iter().enumerate() {
        let words = match pieces.as_slice() {
            [Piece::Fixed(words)] => words.to_lowercase(),
            [Piece::Cell(cell)] => results.words(*cell).to_lowercase(),
            _ => row.to_string(),
        };
        if !seen.contains(&words) {
            seen.push(words);
            names.push(pieces.clone());
        }
    }
    names
}
