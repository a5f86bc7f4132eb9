//! What the limits of the rules found, as findings with names, numbers and places.
//!
//! Always true: a finding about a row says the row's name, the numbers that matter and
//! the cell that a person would change.

use std::sync::Arc;

use super::Columns;
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::graph::{Breach, Cell, ColumnId, Graph, Kind, Results, Table, TableId, words};
use crate::job::tables::{
    Basins, JobKeys, Materials, OtherItems as Items, ProductionRates, SetQuantities, Shelves,
    TABLES,
};
use crate::job::{Fields, Job, nearest};
use crate::place::Place;
use crate::units::Unit;

/// Every breach of a limit, and a figure that cannot be worked out though no limit is broken.
pub(super) fn findings(
    job: &Job,
    graph: &Graph,
    columns: &Columns,
    results: &Results,
) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let shown = Shown {
        job,
        graph,
        columns,
        results,
    };
    for (limit, breach) in graph.limits() {
        let broken = results.numbers(limit).iter().enumerate();
        let broken = broken.filter(|(_, value)| **value >= 0.5);
        found.extend(broken.filter_map(|(row, _)| shown.breach(limit, breach, row)));
    }
    for cell in results.unworkable(graph).into_iter().take(1) {
        if found.iter().any(Diagnostic::blocks) {
            break;
        }
        let label = label(
            job,
            graph,
            results,
            graph.column(cell.column).table,
            cell.row,
        );
        let what = format!(
            "{label}{} cannot be worked out",
            graph.column(cell.column).name
        );
        let place = source_of(job, graph, columns, cell);
        found.push(
            Diagnostic::new(Severity::Error, Code::OutOfRange, place, what)
                .hint("check the numbers it is made from: one is far too large or too small"),
        );
    }
    found
}

struct Shown<'e> {
    job: &'e Job,
    graph: &'e Graph,
    columns: &'e Columns,
    results: &'e Results,
}

impl Shown<'_> {
    /// One broken limit in one row.
    fn breach(&self, limit: ColumnId, breach: &Breach, row: usize) -> Option<Diagnostic> {
        let Kind::Limit(condition, _) = &self.graph.column(limit).kind else {
            return None;
        };
        let table = self.graph.column(limit).table;
        let cell = Cell {
            column: breach.at,
            row: self.row_at(table, breach.at, row),
        };
        let facts = if breach.code == Code::DimensionMismatch {
            unit_facts(self.job, self.graph, cell)
        } else {
            words::facts(self.graph, self.results, condition, row)
        };
        let facts = if facts.is_empty() {
            facts
        } else {
            format!(" ({facts})")
        };
        let label = label(self.job, self.graph, self.results, table, row);
        Some(Diagnostic {
            severity: breach.severity,
            code: breach.code,
            place: place_of(self.job, self.graph, self.columns, cell),
            message: format!("{label}{}{facts}", breach.message),
            hint: Some(
                self.near_line(cell)
                    .unwrap_or_else(|| breach.hint.to_owned()),
            ),
        })
    }

    /// The row of the cell to change: the limit's own row, or in another table the row
    /// of the same name; beyond the last row, where there is none.
    fn row_at(&self, table: TableId, at: ColumnId, row: usize) -> usize {
        let other = self.graph.column(at).table;
        let name = |table: TableId, row: usize| {
            let column = self.graph.table(table).label?;
            Some(self.results.words(Cell { column, row }).to_lowercase())
        };
        if other == table {
            return row;
        }
        let own = name(table, row);
        let rows = 0..self.graph.table(other).rows;
        let same = |at: &usize| own.is_some() && name(other, *at) == own;
        rows.into_iter().find(same).unwrap_or(usize::MAX)
    }

    /// The line that was probably meant, where a quantity is set for a line that is not there.
    fn near_line(&self, cell: Cell) -> Option<String> {
        if self.graph.table(self.graph.column(cell.column).table).name != SetQuantities::NAME {
            return None;
        }
        let lines = self.columns.lines.name;
        let names = (0..self.graph.rows(lines.id)).map(|row| self.results.text(lines, row));
        let near = nearest(self.results.words(cell), names)?;
        Some(format!("did you mean \"{near}\"?"))
    }
}

/// The cautions of every job with a dig, whatever its measures.
pub(super) fn usual_cautions(graph: &Graph) -> Vec<Diagnostic> {
    let dig = graph
        .table_of::<Basins>()
        .is_some_and(|table| graph.table(table).rows > 0);
    let caution =
        |code, what, hint: &str| Diagnostic::new(Severity::Caution, code, None, what).hint(hint);
    if !dig {
        return Vec::new();
    }
    vec![
        caution(
            Code::BuriedLines,
            "buried pipes and cables may cross the dig",
            "have them located and marked before any digging",
        ),
        caution(
            Code::MachinesAndPeople,
            "machines work near people on foot",
            "keep people out of their reach, and out of the way of trucks that back up",
        ),
        caution(
            Code::OpenWater,
            "an open pit or pool can drown someone",
            "fence it, sign it, and keep a way out while it is open",
        ),
    ]
}

/// The name of the row that a finding is about; a shelf is named with its basin.
fn label(job: &Job, graph: &Graph, results: &Results, table: TableId, row: usize) -> String {
    let of_shelf = || {
        let shelves = job.table::<Shelves>();
        let word = |field: Shelves| shelves.words(field.index()).get(row).map(|word| &**word);
        let (basin, shelf) = (word(Shelves::ShelfBasin)?, word(Shelves::Shelf)?);
        let words = [basin, shelf].into_iter().filter(|word| !word.is_empty());
        Some(words.collect::<Vec<_>>().join(", "))
    };
    let label = if graph.table(table).name == Shelves::NAME {
        of_shelf()
    } else {
        let column = graph.table(table).label;
        column.map(|column| results.words(Cell { column, row }).to_owned())
    };
    label
        .filter(|label| !label.is_empty())
        .map_or(String::new(), |label| format!("{label}: "))
}

/// The units that do not go together: of an item, and of what it is bought or done by.
fn unit_facts(job: &Job, graph: &Graph, Cell { column, row }: Cell) -> String {
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
        _ => String::new(),
    }
}

/// The place of an input cell in the user's own file; `None` for a computed one.
#[must_use]
pub fn place_of(job: &Job, graph: &Graph, columns: &Columns, cell: Cell) -> Option<Place> {
    let table = graph.table(graph.column(cell.column).table).name;
    let position = TABLES.iter().position(|known| known.name == table)?;
    let column = columns
        .inputs
        .by_name(table)
        .iter()
        .position(|id| *id == cell.column)?;
    Some(job.tables()[position].place(column, cell.row))
}

/// The place of the first input that a computed cell is made from.
fn source_of(job: &Job, graph: &Graph, columns: &Columns, cell: Cell) -> Option<Place> {
    let mut queue: Vec<ColumnId> = vec![cell.column];
    let mut at = 0;
    while let Some(column) = queue.get(at).copied() {
        if let Some(place) = place_of(
            job,
            graph,
            columns,
            Cell {
                column,
                row: cell.row,
            },
        ) {
            return Some(place);
        }
        queue.extend(
            graph
                .made_from(column)
                .into_iter()
                .filter(|source| *source < column),
        );
        at += 1;
        if at > 1000 {
            break;
        }
    }
    None
}
