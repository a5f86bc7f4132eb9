//! The units of a finding about units: what is in which, for people.

use std::sync::Arc;

use super::Shown;
use crate::graph::expr::Condition;
use crate::graph::{Cell, Table, words};
use crate::job::Fields;
use crate::job::tables::{JobKeys, Materials, OtherItems as Items, ProductionRates};
use crate::units::Unit;

/// The units that do not go together: of a row, and of what it is bought or done by.
pub(super) fn unit_facts(
    shown: &Shown<'_>,
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
        let named = materials.words(Materials::Material.index());
        let unit = materials.words(Materials::MaterialUnit.index());
        let unit = symbol(unit, named.iter().position(|known| &**known == name));
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
    let table = graph.table(graph.column(column).table).name;
    match (table, graph.column(column).name.as_str()) {
        (Items::NAME, "Unit") => {
            let sides = [Items::ItemLength, Items::ItemWidth, Items::ItemDepth];
            let given = sides.map(|side| items.numbers(side.index()).get(row).copied());
            let given = given.iter().flatten().filter(|side| !side.is_nan()).count();
            let plural = if given == 1 { "" } else { "s" };
            format!("{given} measure{plural}, and the unit {own}")
        }
        (Items::NAME, "Material") => {
            format!(
                "the item is in {own}, {}",
                sold(&named(Items::ItemMaterial))
            )
        }
        (Items::NAME, "Work") => {
            let work = named(Items::ItemWork);
            let works = works.words(ProductionRates::Work.index());
            let row = works.iter().position(|known| **known == *work);
            format!(
                "the item is in {own}, {}",
                counted(row.unwrap_or(usize::MAX))
            )
        }
        (ProductionRates::NAME, _) => counted(row),
        (JobKeys::NAME, _) => sold(job.word(JobKeys::FillMaterial)),
        _ => sold_or_counted(shown, condition, at).unwrap_or_default(),
    }
}

/// The unit of the material or the work that a broken limit looks up.
pub(super) fn sold_or_counted(
    shown: &Shown<'_>,
    condition: &Condition,
    row: usize,
) -> Option<String> {
    let (table, row) = words::looked_up(shown.graph, shown.results, condition, row)?;
    let materials = shown.job.table::<Materials>();
    let works = shown.job.table::<ProductionRates>();
    let (data, name, unit, is) = match table {
        Materials::NAME => {
            let at = (Materials::Material.index(), Materials::MaterialUnit.index());
            (materials, at.0, at.1, "sold")
        }
        ProductionRates::NAME => {
            let at = (
                ProductionRates::Work.index(),
                ProductionRates::WorkUnit.index(),
            );
            (works, at.0, at.1, "counted")
        }
        _ => return None,
    };
    let name = data.words(name).get(row)?;
    let unit = Unit::parse(data.words(unit).get(row)?)?;
    Some(format!("{name} is {is} in {unit}"))
}
