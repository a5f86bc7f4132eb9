//! What the limits of the rules found, as findings with names, numbers and places.
//!
//! Always true: a finding about a row says the row's name, the numbers that matter and
//! the cell that a person would change.

mod hints;
mod places;
mod shared;
mod units;

use crate::diagnostic::{Code, Diagnostic, Meaning, Severity};
use crate::graph::{Breach, Cell, ColumnId, Graph, Kind, Results, TableId, words};
use crate::job::tables::{
    Basins, OtherItems as Items, Partners, ProductionRates, SharedWork, Shelves,
};
use crate::job::{Fields, Job};
use crate::labour::{gifts, parties, tasks};
use crate::pricing::lines;
use crate::shown::shown;
use crate::tables::{Gifts, Lifts, Parties, Tasks};
pub use places::place_of;
use places::source_of;
use shared::{Share, Shares};
use units::{sold_or_counted, unit_facts};

/// Every breach of a limit, and a figure that cannot be worked out though no limit is broken.
pub(super) fn findings(job: &Job, graph: &Graph, results: &Results) -> Vec<Diagnostic> {
    let mut shares = Shares::default();
    let shown = Teller {
        job,
        graph,
        results,
    };
    for (limit, breach) in graph.limits() {
        let broken = results.numbers(limit).iter().enumerate();
        let broken = broken.filter(|(_, value)| **value >= 0.5);
        for (row, _) in broken {
            if let Some((share, found)) = shown.shared(limit, breach, row) {
                shares.add(share, found, (graph.column(limit).table, row));
            }
        }
    }
    let mut found = shares.into_findings();
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
        let place = source_of(job, graph, cell);
        found.push(
            Diagnostic::new(Severity::Error, Code::OutOfRange, place, what)
                .hint("check the numbers it is made from: one is far too large or too small"),
        );
    }
    found
}

struct Teller<'e> {
    job: &'e Job,
    graph: &'e Graph,
    results: &'e Results,
}

impl Teller<'_> {
    /// One broken limit in one row, with what it shares with others.
    fn shared(&self, limit: ColumnId, breach: &Breach, row: usize) -> Option<(Share, Diagnostic)> {
        let Kind::Limit(condition, _) = &self.graph.column(limit).kind else {
            return None;
        };
        let table = self.graph.column(limit).table;
        let found = self.breach(limit, breach, row)?;
        let name = words::looked_up_in_vain(self.graph, self.results, condition, row);
        let unpriced = breach.meaning == Meaning::NoWork;
        let name = name.or_else(|| unpriced.then(|| self.work_of_line(row)).flatten());
        if let Some(name) = name.filter(|name| !name.is_empty()) {
            return Some((Share::Name(breach.code, name), found));
        }
        if self.graph.is::<Tasks>(table) {
            return Some((Share::Cell(breach.code, found.place.clone()), found));
        }
        let by_unit = breach.code == Code::DimensionMismatch && !self.graph.is::<Items>(table);
        let unit = by_unit
            .then(|| sold_or_counted(self, condition, row))
            .flatten();
        let share = unit.map_or(Share::Nothing, Share::Unit);
        Some((share, found))
    }

    /// The name of the work that a line looks up: it is there whether the book has a row for
    /// it or not.
    fn work_of_line(&self, row: usize) -> Option<String> {
        let work = self.graph.gathered(self.graph.id(lines::WORK).at(row))?;
        let column = self
            .graph
            .table(self.graph.column(work.column).table)
            .label?;
        let row = work.row;
        Some(self.results.words(Cell { column, row }).to_owned())
    }

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
            unit_facts(self, condition, cell, row)
        } else {
            words::facts(self.graph, self.results, condition, row)
        };
        let facts = if facts.is_empty() {
            facts
        } else {
            format!(" ({facts})")
        };
        let label = label(self.job, self.graph, self.results, table, row);
        let hint = self.hint(condition, breach, cell, row);
        let what = format!("{label}{}{facts}", breach.message);
        let place = place_of(self.job, self.graph, cell);
        Some(Diagnostic::new(breach.severity, breach.code, place, what).hint(hint))
    }

    /// The row of the cell to change: the limit's own row, or in another table the row
    /// of the same name; beyond the last row, where there is none.
    fn row_at(&self, table: TableId, at: ColumnId, row: usize) -> usize {
        let other = self.graph.column(at).table;
        if let Some(row) = self.row_of_task(table, other, row) {
            return row;
        }
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

    /// The row of an input table that a task, a party or a gift comes from.
    fn row_of_task(&self, table: TableId, other: TableId, row: usize) -> Option<usize> {
        let found = |link: ColumnId, row: usize| self.results.row_found(link.at(row));
        let graph = self.graph;
        if graph.is::<Tasks>(table) && graph.is::<SharedWork>(other) {
            found(graph.id(tasks::SHARED), row)
        } else if graph.is::<Tasks>(table) && graph.is::<ProductionRates>(other) {
            let line = found(graph.id(tasks::LINE), row)?;
            found(graph.id(lines::WORK), line)
        } else if graph.is::<Gifts>(table) && graph.is::<SharedWork>(other) {
            found(graph.id(gifts::SHARED), row)
        } else if graph.is::<Parties>(table) && graph.is::<Partners>(other) {
            found(graph.id(parties::PARTNER), row)
        } else {
            None
        }
    }
}

/// The cautions of every job with a dig or with lifts, whatever its measures.
pub(super) fn usual_cautions(graph: &Graph) -> Vec<Diagnostic> {
    let has_rows = |table: Option<TableId>| table.is_some_and(|id| graph.table(id).rows > 0);
    let caution =
        |code, what, hint: &str| Diagnostic::new(Severity::Caution, code, None, what).hint(hint);
    let mut cautions = Vec::new();
    if has_rows(graph.table_of::<Lifts>()) {
        cautions.push(caution(
            Code::Lifting,
            "heavy pieces are lifted",
            "lift by a plan, by the machine's own chart, with a competent person in charge and nobody under the load",
        ));
    }
    if has_rows(graph.table_of::<Parties>()) {
        cautions.push(caution(
            Code::LabourLaw,
            "people of the client's work beside the crew",
            "local law on volunteers, minors and wages comes first; ask the insurer, and keep them clear of machines and open water",
        ));
    }
    if !has_rows(graph.table_of::<Basins>()) {
        return cautions;
    }
    cautions.extend([
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
    ]);
    cautions
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
    let label = if graph.is::<Shelves>(table) {
        of_shelf()
    } else {
        let column = graph.table(table).label;
        column.map(|column| results.words(Cell { column, row }).to_owned())
    };
    label
        .filter(|label| !label.is_empty())
        .map_or(String::new(), |label| format!("{}: ", shown(&label)))
}
