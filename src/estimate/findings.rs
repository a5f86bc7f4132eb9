//! What the limits of the rules found, as findings with names, numbers and places.
//!
//! Always true: a finding about a row says the row's name, the numbers that matter and
//! the cell that a person would change.

mod shared;
mod units;

use super::Columns;
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::graph::{Breach, Cell, ColumnId, Graph, Kind, Results, Table, TableId, words};
use crate::job::columns::InputColumn;
use crate::job::quick::Follows;
use crate::job::tables::{
    Basins, ClientItems, OtherItems as Items, Partners, ProductionRates, QuickMeasure,
    SetQuantities, SharedWork, Shelves, TABLES,
};
use crate::job::{Fields, Job, nearest};
use crate::place::Place;
use crate::tables::{Gifts, Lifts, Parties, Tasks};
use crate::takeoff::lifts::SMALLEST;
use shared::{Share, Shares};
use units::{sold_or_counted, unit_facts};

/// Every breach of a limit, and a figure that cannot be worked out though no limit is broken.
pub(super) fn findings(
    job: &Job,
    graph: &Graph,
    columns: &Columns,
    results: &Results,
) -> Vec<Diagnostic> {
    let mut shares = Shares::default();
    let shown = Shown {
        job,
        graph,
        columns,
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
    /// One broken limit in one row, with what it shares with others.
    fn shared(&self, limit: ColumnId, breach: &Breach, row: usize) -> Option<(Share, Diagnostic)> {
        let Kind::Limit(condition, _) = &self.graph.column(limit).kind else {
            return None;
        };
        let found = self.breach(limit, breach, row)?;
        let name = words::looked_up_in_vain(self.graph, self.results, condition, row);
        let name = name.or_else(|| self.work_of_line(limit, breach, row));
        if let Some(name) = name.filter(|name| !name.is_empty()) {
            return Some((Share::Name(breach.code, name), found));
        }
        if self.graph.table(self.graph.column(limit).table).name == Tasks::NAME {
            return Some((Share::Cell(breach.code, found.place.clone()), found));
        }
        let is_item = self.graph.table(self.graph.column(limit).table).name == Items::NAME;
        let by_unit = breach.code == Code::DimensionMismatch && !is_item;
        let unit = by_unit
            .then(|| sold_or_counted(self, condition, row))
            .flatten();
        let share = unit.map_or(Share::Nothing, Share::Unit);
        Some((share, found))
    }

    /// The work that a line of earthwork is priced with, which its name begins with.
    fn work_of_line(&self, limit: ColumnId, breach: &Breach, row: usize) -> Option<String> {
        let lines = self.columns.lines.name;
        let is_line = self.graph.column(limit).table == self.graph.column(lines.id).table;
        let line = self.results.text(lines, row);
        let (work, _) = line.split_once(": ")?;
        (is_line && breach.code == Code::MissingRate).then(|| work.to_owned())
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
        let told = self.near_line(cell);
        let told = told.or_else(|| self.machine_that_would_do(table, breach, row));
        let hint = told.unwrap_or_else(|| {
            let by_rule = words::looked_up_in_vain(self.graph, self.results, condition, row);
            if by_rule.is_none() && self.is_quick(cell) {
                self.hint_for_quick(cell, breach)
            } else {
                breach.hint.to_owned()
            }
        });
        Some(Diagnostic {
            severity: breach.severity,
            code: breach.code,
            place: place_of(self.job, self.graph, self.columns, cell),
            message: format!("{label}{}{facts}", breach.message),
            hint: Some(hint),
        })
    }

    /// Whether a cell stands in a row made from the quick page.
    fn is_quick(&self, Cell { column, row }: Cell) -> bool {
        let table = self.graph.table(self.graph.column(column).table).name;
        let mut tables = self.job.tables().iter();
        let data = tables.find(|data| data.table.name == table);
        data.is_some_and(|data| data.is_quick(row))
    }

    /// What may be done about a row made from the quick page: an item of it finds its price
    /// in the book by its name; any row gives way to one of its name.
    fn hint_for_quick(&self, cell: Cell, breach: &Breach) -> String {
        let info = self.graph.table(self.graph.column(cell.column).table);
        let name = info.label.map_or("", |column| {
            let row = cell.row;
            self.results.words(Cell { column, row })
        });
        let table = info.name;
        let hint = if table == Items::NAME && breach.code == Code::MissingPrice {
            format!("add \"{name}\" to Materials or to Production rates")
        } else {
            breach.hint.to_owned()
        };
        if name.is_empty() {
            return hint;
        }
        format!(
            "{hint}; or write the row \"{name}\" in {table}, which replaces this one of Quick measure"
        )
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
        let labour = self.columns.labour.as_ref()?;
        let lines = &self.columns.lines;
        let found = |link: ColumnId, row: usize| self.results.row_found(link.at(row));
        let other = self.graph.table(other).name;
        match (self.graph.table(table).name, other) {
            (Tasks::NAME, SharedWork::NAME) => found(labour.task.shared.id, row),
            (Tasks::NAME, ProductionRates::NAME) => {
                let line = found(labour.task.line.id, row)?;
                found(lines.work.id, line)
            }
            (Gifts::NAME, SharedWork::NAME) => found(labour.gift.shared.id, row),
            (Parties::NAME, Partners::NAME) => found(labour.hands.party.partner.id, row),
            _ => None,
        }
    }

    /// The hint of a lift that its chart does not allow, with the machine that would do.
    fn machine_that_would_do(&self, table: TableId, breach: &Breach, row: usize) -> Option<String> {
        if self.graph.table(table).name != Lifts::NAME || !breach.hint.ends_with(SMALLEST) {
            return None;
        }
        let smallest = self.columns.built.lifts.smallest;
        Some(match self.results.text(smallest, row) {
            "" => format!("{}: no machine with a chart here would do", breach.hint),
            machine => format!("{}: here {machine}", breach.hint),
        })
    }

    /// The line that was probably meant, where something is said of a line that is not
    /// there; a client's item may also name a section.
    fn near_line(&self, cell: Cell) -> Option<String> {
        let (lines, sections) = (self.columns.lines.name, self.columns.priced.section);
        let sections = match self.graph.table(self.graph.column(cell.column).table).name {
            SetQuantities::NAME => 0,
            ClientItems::NAME => self.graph.rows(sections.id),
            _ => return None,
        };
        let sections = (0..sections).map(|row| self.results.text(self.columns.priced.section, row));
        let names = (0..self.graph.rows(lines.id)).map(|row| self.results.text(lines, row));
        let near = nearest(self.results.words(cell), names.chain(sections))?;
        Some(format!("did you mean \"{near}\"?"))
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
    let data = &job.tables()[position];
    if data.is_quick(cell.row) {
        let heading = &data.table.columns[column];
        return Some(quick_place(job, heading, column, &data.follows[cell.row]));
    }
    Some(data.place(column, cell.row))
}

/// The place on the quick page that a cell of a row made from it follows: its own key, the
/// key of the same heading, or the first that is filled in of those that the row follows.
fn quick_place(job: &Job, column: &InputColumn, own: usize, follows: &[(usize, Follows)]) -> Place {
    let page = job.table::<QuickMeasure>();
    let is_filled = |key: &QuickMeasure| {
        let value = page.numbers(key.index()).first();
        value.is_some_and(|value| !value.is_nan())
    };
    let key = |(_, follows): &(usize, Follows)| match follows {
        Follows::Figure(figure) => figure.key(),
        Follows::Words(_) => None,
    };
    let follows_own = follows.iter().find(|(field, _)| *field == own);
    let mut headings = QuickMeasure::TABLE.columns.iter();
    let same = headings.position(|key| key.heading == column.heading && own > 0);
    let at = follows_own
        .and_then(key)
        .filter(is_filled)
        .map(Fields::index);
    let first = || follows.iter().filter_map(key).find(is_filled);
    let at = at.or(same).or_else(|| first().map(Fields::index));
    page.place(at.unwrap_or(QuickMeasure::QuickLength.index()), 0)
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
