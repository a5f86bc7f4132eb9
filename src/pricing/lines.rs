//! The lines of the take-off: quantity, what it takes, what it costs.
//!
//! Always true: each line's quantity is either taken off or set by hand with a reason; cost
//! is the sum of four kinds, each rounded to the cent once.
//!
//! Not here: which lines there are, and in which order (`takeoff::lines`).

use std::collections::BTreeSet;

use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::{Materials, ProductionRates as Works, Scenarios};
use crate::tables::Lines;
use crate::takeoff::bill::fixed;
use crate::takeoff::lines::LINES;
use crate::units::System;

/// The words of lines, and what they are made from.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &ZONE,
    &TABLE,
    &SECTION,
    &DESCRIPTION,
    &UNIT,
    &GRADE,
    &TAKEN_OFF,
    &AMOUNT,
    &MATERIAL_NAME,
    &WORK_NAME,
];

/// What is said of the hours and costs of lines whose work others may share: that they are
/// as the crew does all of it.
#[must_use]
pub fn by_whom(graph: &Graph) -> &'static str {
    match graph.rows(graph.id(Scenarios::Scenario)) {
        0 => "",
        _ => BY_THE_CREW,
    }
}

/// What is said of the hours and costs of lines whose work others may share.
pub const BY_THE_CREW: &str = ", all by the crew";

/// Name of the line, unique.
pub const NAME: Wording<Lines> =
    Wording::gathered("line", |graph| LINES.words(graph, |line| line.name.clone())).naming_rows();

/// The basin, fall or part of the site that it stands in.
pub const ZONE: Wording<Lines> = Wording::gathered("zone", |graph| {
    LINES.words(graph, |line| line.zone.iter().cloned().collect())
});

/// The table that the line was taken off in.
pub const TABLE: Wording<Lines> = Wording::gathered("taken off in", |graph| {
    LINES.words(graph, |line| vec![fixed(line.table)])
});

/// Section of the bid.
pub const SECTION: Wording<Lines> = Wording::gathered("section", |graph| {
    LINES.words(graph, |line| line.section.clone())
});

/// What it is.
pub const DESCRIPTION: Wording<Lines> = Wording::gathered("description", |graph| {
    LINES.words(graph, |line| line.description.clone())
});

/// Unit of the quantity.
pub const UNIT: Wording<Lines> = Wording::gathered("unit", |graph| {
    LINES.words(graph, |line| line.taken.unit.clone())
});

/// How the measures behind the quantity were come by.
pub const GRADE: Wording<Lines> = Wording::gathered("grade", |graph| {
    LINES.words(graph, |line| vec![Piece::Cell(line.grade)])
});

/// Quantity as taken off.
pub const TAKEN_OFF: Step<Lines> = Step::gathered("taken off", System::number, |graph| {
    LINES.cells(graph, |line| Some(line.taken.quantity))
});

/// What the quantity was worked out as, before it was counted in the unit it is sold in.
pub const AMOUNT: Step<Lines> = Step::gathered("amount measured", System::number, |graph| {
    LINES.cells(graph, |line| {
        line.taken.amount.or(Some(line.taken.quantity))
    })
});

/// What is bought beyond it.
pub const WASTE: Step<Lines> = Step::gathered("waste", System::percent, |graph| {
    LINES.cells(graph, |line| line.taken.waste)
});

/// What is worked for it, in the unit of the work; nothing where that is the quantity.
pub const WORKED: Step<Lines> = Step::gathered("worked in its own unit", System::number, |graph| {
    LINES.cells(graph, |line| line.taken.worked)
});

/// Price of one by a subcontractor or a quote.
pub const PRICE: Step<Lines> = Step::gathered("subcontract price", System::money, |graph| {
    LINES.cells(graph, |line| line.price)
});

/// Row of the material.
pub const MATERIAL: LookUp<Lines, Materials> = LookUp::gathered("material row", |graph| {
    LINES.cells(graph, |line| line.taken.material)
});

/// Row of the work.
pub const WORK: LookUp<Lines, Works> = LookUp::gathered("work row", |graph| {
    LINES.cells(graph, |line| line.taken.work)
});

/// Name of the material.
pub const MATERIAL_NAME: Wording<Lines> =
    Wording::new("material", || MATERIAL.words_of(Materials::Material));

/// Name of the work.
pub const WORK_NAME: Wording<Lines> = Wording::new("work", || WORK.words_of(Works::Work));

/// The names of the sections in the order of the lines, each at the first line that has it.
#[must_use]
pub fn section_names(graph: &mut Graph) -> Vec<Vec<Piece>> {
    let lines = LINES.rows(graph);
    let mut seen = BTreeSet::new();
    let is_new = |section: &&Vec<Piece>| {
        let words = section.iter().map(|piece| match piece {
            Piece::Fixed(words) => words.to_lowercase(),
            Piece::Cell(cell) => graph.written(*cell).to_lowercase(),
        });
        seen.insert(words.collect::<String>())
    };
    let sections = lines.iter().map(|line| &line.section);
    sections.filter(is_new).cloned().collect()
}
