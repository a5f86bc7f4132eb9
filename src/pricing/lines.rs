//! The lines of the take-off: quantity, what it takes, what it costs.
//!
//! Earthwork comes first, basin by basin, then the job's balance; then all that is built,
//! in building order; then the other items by section. Always true: each line's quantity is
//! either taken off or set by hand with a reason; cost is the sum of four kinds, each
//! rounded to the cent once.

use std::collections::{BTreeMap, BTreeSet};

use super::costs::{Taken, costs, quantity};
use super::earth_lines::earth_lines;
use super::purchase::Purchase;
use super::zones::zone;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Cell, Column, ColumnId, Graph, Kind, Link, Piece, Results, Rules, Table, Text,
};
use crate::job::tables::{Basins, Materials, OtherItems as Items, ProductionRates as Works};
use crate::tables::{Earthwork, Lines};
use crate::takeoff::balance::Balance;
use crate::takeoff::book::UnitColumns;
use crate::takeoff::cuts::Cut;
use crate::takeoff::excavation::Dug;
use crate::takeoff::grades::EarthGrades;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::items::ItemColumns;
use crate::takeoff::line::{Line, fixed};
use crate::takeoff::production::Production;
use crate::takeoff::works::WorkRows;
use crate::units::{MONEY, ONE, PERCENT, Unit};

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
    /// Cuts beside the basins' own.
    pub cuts: &'p [Cut],
    /// Grades of earthwork.
    pub grades: EarthGrades,
    /// Lines of what is built: structures, linings, stone, timber, plants, in building order.
    pub built: &'p [Line],
    /// The balance.
    pub balance: &'p Balance,
    /// Other items.
    pub items: &'p ItemColumns,
    /// Fees and the imported fill, as figures of the job.
    pub purchase: &'p Purchase,
    /// Everything worked out so far: which lines there are rests on it.
    pub so_far: &'p Results,
    /// What is said of hours and costs after their names: nothing, or [`BY_THE_CREW`].
    pub by_whom: &'static str,
}

/// What is said of the hours and costs of lines whose work others may share.
pub const BY_THE_CREW: &str = ", all by the crew";

/// Columns of the lines that bids are made from.
#[derive(Clone, Copy, Debug)]
pub struct LineColumns {
    /// Name of the line, unique.
    pub name: Text<Lines>,
    /// The basin, fall or part of the site that it stands in.
    pub zone: Text<Lines>,
    /// Section of the bid.
    pub section: Text<Lines>,
    /// What it is.
    pub description: Text<Lines>,
    /// Unit of the quantity.
    pub unit: Text<Lines>,
    /// The unit as people write it: yd³ for yd3.
    pub unit_shown: Text<Lines>,
    /// The table that the line was taken off in.
    pub table: Text<Lines>,
    /// Quantity as taken off.
    pub taken_off: Column<Lines>,
    /// What the quantity was worked out as, before it was counted in the unit it is sold in.
    pub amount: Column<Lines>,
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
    /// How the measures behind the quantity were come by.
    pub grade: Text<Lines>,
    /// Why the quantity was set by hand.
    pub reason: Text<Lines>,
    /// Name of the material.
    pub material_name: Text<Lines>,
    /// Name of the work.
    pub work_name: Text<Lines>,
}

/// A line, and the words that name its zone.
pub type Placed = (Line, Vec<Piece>);

/// Adds every line with its quantity, hours and cost.
pub fn lines(graph: &mut Graph, parts: &Parts<'_>, all: Vec<Placed>) -> LineColumns {
    graph.add_table::<Lines>(all.len());
    let (all, zones): (Vec<Line>, Vec<Vec<Piece>>) = all.into_iter().unzip();
    let mut rules = graph.rules::<Lines>();
    let named = named(&mut rules, &all, zones);
    let quantity_of = |own: &Line| Some(own.quantity);
    let taken_off = number(&mut rules, &all, "taken off", ONE, quantity_of);
    let amount = number(&mut rules, &all, "amount measured", ONE, |line| {
        line.amount.or(Some(line.quantity))
    });
    let waste = number(&mut rules, &all, "waste", PERCENT, |line| line.waste);
    let material = number(&mut rules, &all, "material row", ONE, |line| line.material);
    let work = number(&mut rules, &all, "work row", ONE, |line| line.work);
    let worked = number(&mut rules, &all, "worked in its own unit", ONE, |line| {
        line.worked
    });
    let price = number(&mut rules, &all, "subcontract price", MONEY, |own| {
        own.price
    });
    let (material, work) = (Link::new(material.id), Link::new(work.id));
    let (quantity, reason) = quantity(graph, parts, named.name, taken_off);
    let mut rules = graph.rules::<Lines>();
    let (material_name, work_name) = names_used(&mut rules, parts, material, work);
    let taken = Taken {
        unit: named.unit,
        measured: taken_off,
        worked,
        quantity,
        waste,
        material,
        work,
        price,
    };
    let costs = costs(&mut rules, parts, &taken);
    price_limit(&mut rules, parts, named.table, &taken);
    LineColumns {
        grade: named.grade,
        name: named.name,
        zone: named.zone,
        section: named.section,
        description: named.description,
        unit: named.unit,
        unit_shown: costs.unit_shown,
        table: named.table,
        taken_off,
        amount,
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

/// Every line in its order, with its zone: earthwork, what is built, other items.
#[must_use]
pub fn all_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Placed> {
    let mut all = earth_lines(graph, parts);
    all.extend_from_slice(parts.built);
    all.extend(item_lines(graph, parts));
    let placed = |line: Line| {
        let zone = zone(graph, parts.inputs, &line);
        (line, zone)
    };
    all.into_iter().map(placed).collect()
}

/// One line for each of the other items.
fn item_lines(graph: &Graph, parts: &Parts<'_>) -> Vec<Line> {
    let (inputs, taken_off) = (parts.inputs, parts.items);
    let line = |row: usize| {
        let cell = |column: ColumnId| Cell { column, row };
        let words = |field: Items| vec![Piece::Cell(cell(inputs.words(field).id))];
        Line {
            table: Items::NAME,
            name: words(Items::Item),
            section: words(Items::Section),
            description: words(Items::Description),
            unit: words(Items::ItemUnit),
            quantity: cell(taken_off.quantity.id),
            amount: None,
            waste: Some(cell(taken_off.waste.id)),
            material: Some(cell(taken_off.material.id)),
            work: Some(cell(taken_off.work.id)),
            worked: None,
            grade: cell(taken_off.grade.id),
            price: Some(cell(taken_off.price.id)),
        }
    };
    let table = graph.table_of::<Items>();
    let rows = table.map_or(0, |table| graph.table(table).rows);
    by_section(parts, rows).into_iter().map(line).collect()
}

/// The rows of the items, those of one section together, in the order in which the
/// sections first appear.
fn by_section(parts: &Parts<'_>, rows: usize) -> Vec<usize> {
    let section = parts.inputs.words(Items::Section);
    let name = |row: usize| parts.so_far.text(section, row).to_lowercase();
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    for row in 0..rows {
        first.entry(name(row)).or_insert(row);
    }
    let mut order: Vec<usize> = (0..rows).collect();
    order.sort_by_key(|row| first.get(&name(*row)).copied());
    order
}

/// What a line is called, and where it was taken off.
struct Named {
    name: Text<Lines>,
    table: Text<Lines>,
    zone: Text<Lines>,
    section: Text<Lines>,
    description: Text<Lines>,
    unit: Text<Lines>,
    grade: Text<Lines>,
}

/// Adds the words of every line; its name labels the row.
fn named(rules: &mut Rules<'_, Lines>, all: &[Line], zones: Vec<Vec<Piece>>) -> Named {
    let zone = rules.gathered_words("zone", zones);
    let mut words = |name: &str, of: fn(&Line) -> Vec<Piece>| {
        rules.gathered_words(name, all.iter().map(of).collect())
    };
    let named = Named {
        name: words("line", |line| line.name.clone()),
        zone,
        table: words("taken off in", |line| vec![fixed(line.table)]),
        section: words("section", |line| line.section.clone()),
        description: words("description", |line| line.description.clone()),
        unit: words("unit", |line| line.unit.clone()),
        grade: words("grade", |line| vec![Piece::Cell(line.grade)]),
    };
    rules.labelled_by(named.name);
    named
}

/// A column of one number a line, from where each line comes from.
fn number(
    rules: &mut Rules<'_, Lines>,
    all: &[Line],
    name: &str,
    unit: Unit,
    of: fn(&Line) -> Option<Cell>,
) -> Column<Lines> {
    rules.gathered(name, unit, all.iter().map(of).collect())
}

/// The names of the material and of the work that a line uses.
fn names_used(
    rules: &mut Rules<'_, Lines>,
    parts: &Parts<'_>,
    material: Link<Lines, Materials>,
    work: Link<Lines, Works>,
) -> (Text<Lines>, Text<Lines>) {
    let materials = parts.inputs.words(Materials::Material);
    let works = parts.inputs.words(Works::Work);
    (
        rules.word_step("material", material.words_of(materials)),
        rules.word_step("work", work.words_of(works)),
    )
}

/// Limit: earthwork with a quantity has a work, a material or a price.
fn price_limit(rules: &mut Rules<'_, Lines>, parts: &Parts<'_>, table: Text<Lines>, taken: &Taken) {
    let unpriced = taken
        .work
        .found_none()
        .and(taken.material.found_none())
        .and(taken.price.here().same_as(0.0));
    let dug = table.is(Earthwork::NAME);
    rules.limit(
        "earthwork that nothing prices",
        dug.and(taken.quantity.here().above(0.0)).and(unpriced),
        Breach::open(
            Code::MissingRate,
            parts.inputs.words(Works::Work).id,
            "nothing prices this earthwork, so it is excluded",
            "add a row to Production rates with the name of the work, such as Dig; for imported fill, name the material in Job",
        )
        .meaning(Meaning::NoWork),
    );
}

/// The names of the sections in the order of the lines, each at the first line that has it.
#[must_use]
pub fn section_names(graph: &Graph, section: Text<Lines>, so_far: &Results) -> Vec<Vec<Piece>> {
    let Kind::GatheredWords(rows) = &graph.column(section.id).kind else {
        return Vec::new();
    };
    let mut seen = BTreeSet::new();
    let mut names = Vec::new();
    for pieces in rows {
        let words = pieces.iter().map(|piece| match piece {
            Piece::Fixed(words) => words.to_lowercase(),
            Piece::Cell(cell) => so_far.words(*cell).to_lowercase(),
        });
        if seen.insert(words.collect::<String>()) {
            names.push(pieces.clone());
        }
    }
    names
}
