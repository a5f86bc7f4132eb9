//! The units of a finding about units: what is in which, for people.

use std::sync::Arc;

use super::Teller;
use crate::graph::expr::Condition;
use crate::graph::{Cell, words};
use crate::job::tables::{JobKeys, Materials, OtherItems as Items, ProductionRates};
use crate::job::{Fields, TableData};
use crate::units::Unit;

/// The units that do not go together: of a row, and of what it is bought or done by.
pub(super) fn unit_facts(
    shown: &Teller<'_>,
    condition: &Condition,
    Cell { column, row }: Cell,
    at: usize,
) -> String {
    let (job, graph) = (shown.job, shown.graph);
    let symbol = |words: &[Arc<str>], row: Option<usize>| {
        let unit = row.and_then(|row| Unit::parse(words.get(row)?));
        unit.map(|unit| unit.to_string()).unwrap_or_default()
    };
    let items = job.table::<Items>();
    let own = symbol(items.words(Items::ItemUnit.index()), Some(row));
    let materials = job.table::<Materials>();
    let sold = |name: &str| {
        let unit = materials.words(Materials::MaterialUnit.index());
        let unit = symbol(unit, row_named(materials, Materials::Material, name));
        format!("{name} is sold in {unit}")
    };
    let named = |field: Items| {
        let words = items.words(field.index()).get(row);
        words.map_or(String::new(), ToString::to_string)
    };
    let works = job.table::<ProductionRates>();
    let counted = |row: usize| {
        let name = works.words(ProductionRates::Work.index()).get(row);
        let unit = symbol(works.words(ProductionRates::WorkUnit.index()), Some(row));
        name.map_or(String::new(), |name| format!("{name} is counted in {unit}"))
    };
    let table = graph.column(column).table;
    let is = |field: Items| graph.id(field) == column;
    if is(Items::ItemUnit) {
        let sides = [Items::ItemLength, Items::ItemWidth, Items::ItemDepth];
        let given = sides.map(|side| items.numbers(side.index()).get(row).copied());
        let given = given.iter().flatten().filter(|side| !side.is_nan()).count();
        let plural = if given == 1 { "" } else { "s" };
        format!("{given} measure{plural}, and the unit {own}")
    } else if is(Items::ItemMaterial) {
        let material = sold(&named(Items::ItemMaterial));
        format!("the item is in {own}, {material}")
    } else if is(Items::ItemWork) {
        let work = row_named(works, ProductionRates::Work, &named(Items::ItemWork));
        let work = counted(work.unwrap_or(usize::MAX));
        format!("the item is in {own}, {work}")
    } else if graph.is::<ProductionRates>(table) {
        counted(row)
    } else if graph.is::<JobKeys>(table) {
        sold(job.word(JobKeys::FillMaterial))
    } else {
        sold_or_counted(shown, condition, at).unwrap_or_default()
    }
}

/// The row of a name, which look-ups find in any case of its letters.
fn row_named<F: Fields>(table: &TableData, field: F, name: &str) -> Option<usize> {
    let mut names = table.words(field.index()).iter();
    names.position(|known| known.eq_ignore_ascii_case(name))
}

/// The unit of the material or the work that a broken limit looks up.
pub(super) fn sold_or_counted(
    shown: &Teller<'_>,
    condition: &Condition,
    row: usize,
) -> Option<String> {
    let (table, row) = words::looked_up(shown.graph, shown.results, condition, row)?;
    let materials = shown.job.table::<Materials>();
    let works = shown.job.table::<ProductionRates>();
    let told = |data: &TableData, (name, unit): (usize, usize), is: &str| {
        let name = data.words(name).get(row)?;
        let unit = Unit::parse(data.words(unit).get(row)?)?;
        Some(format!("{name} is {is} in {unit}"))
    };
    if shown.graph.is::<Materials>(table) {
        let at = (Materials::Material.index(), Materials::MaterialUnit.index());
        told(materials, at, "sold")
    } else if shown.graph.is::<ProductionRates>(table) {
        let (name, unit) = (ProductionRates::Work, ProductionRates::WorkUnit);
        told(works, (name.index(), unit.index()), "counted")
    } else {
        None
    }
}
