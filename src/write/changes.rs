//! What an edit in the workbook cannot follow, watched cell by cell.
//!
//! One row a watched thing: what it was when the workbook was written, what it is now,
//! and whether the two differ. Any difference raises `run_again`.

use super::blocks::sentence;
use super::inputs::ROOM;
use super::layout::BookLayout;
use crate::estimate::Estimate;
use crate::graph::formula::Layout;
use crate::graph::{ColumnId, Kind};
use crate::job::Job;
use crate::job::columns::Holds;
use crate::job::tables::{Basins, TABLES};
use crate::money;
use crate::place::{cell_name, column_letters};
use crate::pricing::earth_lines::ARISES_FROM;

/// One watched thing.
#[derive(Clone, Debug)]
pub(super) struct Watch {
    /// What it is, for people.
    pub(super) what: String,
    /// What it was.
    pub(super) then: Then,
    /// The formula of what it is now.
    pub(super) now: String,
}

/// What a watched thing was.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Then {
    /// A number or a count.
    Number(f64),
    /// Words, several cells joined.
    Words(String),
}

/// Joins the cells of one row; no name of ours holds it.
const JOINT: &str = " | ";

/// Everything that the workbook of an estimate watches.
pub(super) fn watched(estimate: &Estimate, layout: &BookLayout) -> Vec<Watch> {
    let mut all = Vec::new();
    for at in 0..TABLES.len() {
        headings(&estimate.job, layout, at, &mut all);
        structural(estimate, layout, at, &mut all);
        row_count(&estimate.job, layout, at, &mut all);
    }
    arising(&estimate.job, layout, &mut all);
    fill_brought(estimate, layout, &mut all);
    defaults(estimate, layout, &mut all);
    surveyed(estimate, layout, &mut all);
    all
}

fn sheet_name(layout: &BookLayout, table: usize) -> &str {
    layout.sheet(layout.input_sheet(table))
}

/// Headings carry units: changing one changes what its numbers mean.
fn headings(job: &Job, layout: &BookLayout, at: usize, all: &mut Vec<Watch>) {
    let data = &job.tables()[at];
    let (table, sheet) = (&TABLES[at], sheet_name(layout, at));
    let written: Vec<String> = (0..table.columns.len())
        .map(|column| table.columns[column].heading_with(data.unit(column)))
        .collect();
    let cells = (0u32..).zip(&written).map(|(position, _)| {
        let name = if table.upright {
            cell_name(1 + position, 0)
        } else {
            cell_name(0, position)
        };
        format!("{sheet}!{name}")
    });
    all.push(Watch {
        what: format!("{}: headings and their units", table.name),
        then: Then::Words(written.join(JOINT)),
        now: cells.collect::<Vec<_>>().join(&format!("&\"{JOINT}\"&")),
    });
}

/// Names, units and sections: one row of the table a row.
fn structural(estimate: &Estimate, layout: &BookLayout, at: usize, all: &mut Vec<Watch>) {
    let table = &TABLES[at];
    let columns = estimate.columns.inputs.by_name(table.name);
    let watched: Vec<ColumnId> = table
        .columns
        .iter()
        .zip(columns)
        .filter(|(column, _)| column.is_structural())
        .map(|(_, id)| *id)
        .collect();
    if watched.is_empty() {
        return;
    }
    let sheet = sheet_name(layout, at);
    let data = &estimate.job.tables()[at];
    for row in 0..data.rows {
        let mut then = Vec::new();
        let mut now = Vec::new();
        for id in &watched {
            let home = layout.home(*id);
            then.push(
                estimate
                    .results
                    .words(crate::graph::Cell { column: *id, row })
                    .to_owned(),
            );
            now.push(format!(
                "{sheet}!{}",
                cell_name(home.row + u32::try_from(row).unwrap_or(0), home.column)
            ));
        }
        let name = if table.upright {
            "units and currency".to_owned()
        } else {
            format!("row {}", row + 2)
        };
        all.push(Watch {
            what: format!("{}: {name}", table.name),
            then: Then::Words(then.join(JOINT)),
            now: if now.len() == 1 {
                format!("{}&\"\"", now[0])
            } else {
                now.join(&format!("&\"{JOINT}\"&"))
            },
        });
    }
}

/// A row more or a row less needs a new run, and so does anything written below the last
/// row, even where the row's name is still missing.
fn row_count(job: &Job, layout: &BookLayout, at: usize, all: &mut Vec<Watch>) {
    let table = &TABLES[at];
    if table.upright {
        return;
    }
    let data = &job.tables()[at];
    let rows = u32::try_from(data.rows).unwrap_or(u32::MAX);
    all.push(Watch {
        what: format!("{}: number of rows", table.name),
        then: Then::Number(f64::from(rows)),
        now: entered(layout, at, data.rows),
    });
    let last = u32::try_from(table.columns.len()).unwrap_or(1) - 1;
    let (first_free, end) = (rows + 1, rows.saturating_add(ROOM));
    let below = format!("{}:{}", cell_name(first_free, 0), cell_name(end, last));
    all.push(Watch {
        what: format!("{}: cells filled below the last row", table.name),
        then: Then::Number(0.0),
        now: format!("COUNTA({}!{below})", sheet_name(layout, at)),
    });
}

/// The formula that counts the rows of an input table, with room for more below.
pub(super) fn entered(layout: &BookLayout, at: usize, rows: usize) -> String {
    let last = u32::try_from(rows).unwrap_or(u32::MAX).saturating_add(ROOM);
    format!("COUNTA({}!A2:A{})", sheet_name(layout, at), last + 1)
}

/// Lines exist only where the measure that they arise from was filled in.
fn arising(job: &Job, layout: &BookLayout, all: &mut Vec<Watch>) {
    use crate::job::Fields;
    let at = TABLES
        .iter()
        .position(|table| table.name == Basins::TABLE.name)
        .unwrap_or(0);
    let data = &job.tables()[at];
    let sheet = sheet_name(layout, at);
    for row in 0..data.rows {
        let mut then = Vec::new();
        let mut now = Vec::new();
        for (work, field) in ARISES_FROM {
            let column = field.index();
            let cell = format!(
                "{sheet}!{}",
                cell_name(
                    1 + u32::try_from(row).unwrap_or(0),
                    u32::try_from(column).unwrap_or(0)
                )
            );
            let (filled, test) = if let Holds::Number(..) = Basins::TABLE.columns[column].holds {
                (!data.numbers(column)[row].is_nan(), format!("{cell}<>\"\""))
            } else {
                (
                    &*data.words(column)[row] == "yes",
                    format!("{cell}=\"yes\""),
                )
            };
            then.push(if filled { work } else { "-" });
            now.push(format!("IF({test},\"{work}\",\"-\")"));
        }
        all.push(Watch {
            what: format!("{}: row {}, works that arise", Basins::TABLE.name, row + 2),
            then: Then::Words(then.join(JOINT)),
            now: now.join(&format!("&\"{JOINT}\"&")),
        });
    }
}

/// Lines of imported fill exist only where the dig gives too little.
fn fill_brought(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    let brought = estimate.columns.balance.brought;
    let home = layout.home(brought.id);
    let cell = format!(
        "{}!{}",
        layout.sheet(home.sheet),
        cell_name(home.row, home.column)
    );
    let is_brought = money::round(estimate.results.at(brought, 0), 6) > 0.0;
    all.push(Watch {
        what: "Earthwork: whether fill must be brought in".to_owned(),
        then: Then::Words(if is_brought { "yes" } else { "no" }.to_owned()),
        now: format!("IF(ROUND({cell},6)>0,\"yes\",\"no\")"),
    });
}

/// Defaults are the program's own: typed over, they would be lost.
fn defaults(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    for (default, _, _) in &estimate.columns.inputs.factors.rows {
        let home = layout.home(default.id);
        all.push(Watch {
            what: format!(
                "Factors: {}",
                sentence(&estimate.graph.column(default.id).name)
            ),
            then: Then::Number(estimate.results.at(*default, 0)),
            now: format!(
                "{}!{}",
                layout.sheet(home.sheet),
                cell_name(home.row, home.column)
            ),
        });
    }
}

/// What geometry code computed from many points stays as it was until a new run.
fn surveyed(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    let graph = &estimate.graph;
    for column in graph.columns() {
        let Kind::Surveyed(_, inputs) = &graph.column(column).kind else {
            continue;
        };
        for input in inputs {
            let home = layout.home(*input);
            let rows = u32::try_from(graph.rows(*input)).unwrap_or(u32::MAX).max(1);
            let letters = column_letters(home.column);
            let sum: f64 = estimate
                .results
                .numbers(*input)
                .iter()
                .filter(|number| !number.is_nan())
                .sum();
            all.push(Watch {
                what: format!(
                    "{}: {}",
                    graph.table(graph.column(*input).table).name,
                    graph.column(*input).name
                ),
                then: Then::Number(sum),
                now: format!(
                    "SUM({}!{letters}{}:{letters}{})",
                    layout.sheet(home.sheet),
                    home.row + 1,
                    home.row + rows
                ),
            });
        }
    }
}
