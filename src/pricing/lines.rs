//! The lines of the take-off: quantity, what it takes, what it costs.
//!
//! Earthwork comes first, basin by basin, then the job's balance, then the other items
//! in their order. Always true: each line's quantity is either taken off or set by
//! hand with a reason; cost is the sum of four kinds, each rounded to the cent once.

use super::costs::{Taken, costs, quantity};
use super::earth_lines::{Line, earth_lines, fixed};
use crate::diagnostic::Code;
use crate::graph::{Breach, Cell, Column, Graph, Kind, Link, Piece, Rules, Table, Text};
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
            "nothing prices this earthwork, so it is excluded",
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
