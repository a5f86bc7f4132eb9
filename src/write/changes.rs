//! What an edit in the workbook cannot follow, watched cell by cell.
//!
//! One row a watched thing: what it was when the workbook was written, what it is now,
//! and whether the two differ. Any difference raises `run_again`.

use std::collections::BTreeSet;

use super::fact::Fact;
use super::headings::sentence;
use super::inputs::ROOM;
use super::layout::BookLayout;
use crate::estimate::Estimate;
use crate::graph::home::Layout;
use crate::graph::{Cell, ColumnId, Kind, reference};
use crate::job::columns::{Fill, Holds, InputColumn, Role};
use crate::job::tables::{JobKeys, QuickMeasure, TABLES};
use crate::job::{Fields, Job};
use crate::parameters::{DefaultOf, Factor};
use crate::place::cell_name;

/// One watched thing.
#[derive(Clone, Debug)]
pub(super) struct Watch {
    /// What it is, for people.
    pub(super) what: String,
    /// What it was.
    pub(super) then: Fact<'static>,
    /// The formula of what it is now.
    pub(super) now: String,
}

/// Joins the cells of one row; no name of ours holds it.
const JOINT: &str = " | ";
/// What is said of a row made from the quick page that is as it was made.
const FOLLOWS: &str = "follows Quick measure";
/// What is said of the job's scenario where it is that of the bid page.
const FOLLOWS_PAGE: &str = "follows the bid page";
/// What is said of a measure that is filled in, and of one that is not.
const FILLED: &str = "filled in";
const EMPTY: &str = "-";

/// Everything that the workbook of an estimate watches.
pub(super) fn watched(estimate: &Estimate, layout: &BookLayout) -> Vec<Watch> {
    let mut all = Vec::new();
    for at in 0..TABLES.len() {
        headings(&estimate.job, layout, at, &mut all);
        structural(estimate, layout, at, &mut all);
        typed_over(estimate, layout, at, &mut all);
        row_count(&estimate.job, layout, at, &mut all);
        words_for_numbers(estimate, layout, at, &mut all);
    }
    unread(estimate, layout, &mut all);
    checks(estimate, layout, &mut all);
    scenario(estimate, layout, &mut all);
    defaults(estimate, layout, &mut all);
    solved(estimate, layout, &mut all);
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
        .map(|column| table.columns[column].heading_in(data.unit(column), job.system()))
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
        then: Fact::words(written.join(JOINT)),
        now: cells.collect::<Vec<_>>().join(&format!("&\"{JOINT}\"&")),
    });
}

/// Names, units and sections, and which measures that lines arise from are filled in: one
/// row of the table a row.
fn structural(estimate: &Estimate, layout: &BookLayout, at: usize, all: &mut Vec<Watch>) {
    let table = &TABLES[at];
    let columns = table.columns_in(&estimate.graph);
    let watched: Vec<(&InputColumn, ColumnId)> = table
        .columns
        .iter()
        .zip(columns.iter().copied())
        .filter(|(column, _)| column.is_structural() || column.fill == Fill::Arises)
        .collect();
    if watched.is_empty() {
        return;
    }
    let sheet = sheet_name(layout, at);
    for row in 0..estimate.job.tables()[at].rows {
        let mut then = Vec::new();
        let mut now = Vec::new();
        for (column, id) in &watched {
            let home = layout.home(*id);
            let cell = id.at(row);
            let at = home.row + u32::try_from(row).unwrap_or(0);
            let address = format!("{sheet}!{}", cell_name(at, home.column));
            let is_number = matches!(column.holds, Holds::Number(..));
            if is_number && column.role == Role::Decides {
                let number = estimate.results.measured(cell);
                then.push(number.map_or(EMPTY.to_owned(), |number| number.to_string()));
                now.push(format!("IF({address}=\"\",\"{EMPTY}\",{address})"));
            } else if is_number {
                let filled = estimate.results.measured(cell).is_some();
                then.push(if filled { FILLED } else { EMPTY }.to_owned());
                now.push(format!("IF({address}=\"\",\"{EMPTY}\",\"{FILLED}\")"));
            } else {
                then.push(estimate.results.words(cell).to_owned());
                now.push(address);
            }
        }
        let name = if table.upright {
            "keys that decide what there is".to_owned()
        } else {
            format!("row {}", row + 2)
        };
        all.push(Watch {
            what: format!("{}: {name}", table.name),
            then: Fact::words(then.join(JOINT)),
            now: if now.len() == 1 {
                format!("{}&\"\"", now[0])
            } else {
                now.join(&format!("&\"{JOINT}\"&"))
            },
        });
    }
}

/// Rows made from the quick page are made anew: what is typed over them would be lost.
fn typed_over(estimate: &Estimate, layout: &BookLayout, at: usize, all: &mut Vec<Watch>) {
    let table = &TABLES[at];
    let data = &estimate.job.tables()[at];
    let columns = table.columns_in(&estimate.graph);
    let (sheet, from) = (sheet_name(layout, at), layout.input_sheet(at));
    for row in (0..data.rows).filter(|row| data.is_quick(*row)) {
        let mut same = Vec::new();
        let mut filled = 0;
        for id in &columns {
            let cell = id.at(row);
            let own = reference::address(layout, usize::MAX, cell);
            if let Some(source) = estimate.graph.followed(cell) {
                let source = reference::address(layout, usize::MAX, source);
                same.push(format!("{own}={source}"));
            } else if let Some(number) = estimate.results.measured(cell) {
                same.push(format!("{own}={}", reference::literal(number)));
            } else if estimate.graph.is_filled(cell) {
                let words = reference::quoted(estimate.results.words(cell));
                same.push(format!("{own}={words}"));
            }
            filled += usize::from(estimate.graph.is_filled(cell));
        }
        let first = u32::try_from(row).unwrap_or(u32::MAX) + 1;
        let last = u32::try_from(columns.len()).unwrap_or(1) - 1;
        let cells = format!("{}:{}", cell_name(first, 0), cell_name(first, last));
        same.push(format!("COUNTA({sheet}!{cells})={filled}"));
        all.push(Watch {
            what: format!(
                "{}: row {}, made from Quick measure",
                layout.sheets[from].name,
                row + 2
            ),
            then: Fact::words(FOLLOWS),
            now: format!("IF(AND({}),\"{FOLLOWS}\",\"typed over\")", same.join(",")),
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
        then: Fact::Number(f64::from(rows)),
        now: entered(layout, at, data.rows),
    });
    if rows > 0 {
        let own = format!("{}:{}", cell_name(0, 0), cell_name(rows, 0));
        all.push(Watch {
            what: format!("{}: rows from the headings to the last", table.name),
            then: Fact::Number(f64::from(rows + 1)),
            now: format!("ROWS({}!{own})", sheet_name(layout, at)),
        });
    }
    let last = u32::try_from(table.columns.len()).unwrap_or(1) - 1;
    let (first_free, end) = (rows + 1, rows.saturating_add(ROOM));
    let below = format!("{}:{}", cell_name(first_free, 0), cell_name(end, last));
    all.push(Watch {
        what: format!("{}: cells filled below the last row", table.name),
        then: Fact::Number(0.0),
        now: format!("COUNTA({}!{below})", sheet_name(layout, at)),
    });
}

/// Words where a number stands: a run reads `12' 6"`, and refuses what it cannot read; the
/// formulas take it for nothing, or for an error.
fn words_for_numbers(estimate: &Estimate, layout: &BookLayout, at: usize, all: &mut Vec<Watch>) {
    let (table, rows) = (&TABLES[at], estimate.job.tables()[at].rows);
    let of_numbers = |column: &InputColumn| matches!(column.holds, Holds::Number(..) | Holds::Date);
    let columns = table.columns.iter().zip(table.columns_in(&estimate.graph));
    for (column, id) in columns.filter(|(column, _)| rows > 0 && of_numbers(column)) {
        let cells = layout.range(usize::MAX, id, rows);
        all.push(Watch {
            what: format!("{}: {}, words for a number", table.name, column.heading),
            then: Fact::Number(0.0),
            now: format!("COUNTA({cells})-COUNT({cells})"),
        });
    }
}

/// Numbers and choices of the quick page that no formula reads: a run reads them when it
/// makes the page's rows.
fn unread(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    let graph = &estimate.graph;
    let read: BTreeSet<ColumnId> = graph.columns().flat_map(|id| graph.made_from(id)).collect();
    let table = QuickMeasure::TABLE;
    for (column, id) in table.columns.iter().zip(table.columns_in(graph)) {
        let is_told = matches!(column.holds, Holds::Number(..) | Holds::Choice(_));
        let watched = column.is_structural() || column.fill == Fill::Arises;
        if is_told && !watched && !read.contains(&id) {
            all.push(cell(estimate, layout, id.at(0)));
        }
    }
}

/// Checks that cannot be worked out say nothing of the cells that they check.
fn checks(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    let limits = layout.of_checks(estimate, 'D');
    let typed = layout.of_typed(estimate, 'C');
    all.push(Watch {
        what: "Checks: what cannot be worked out".to_owned(),
        then: Fact::Number(0.0),
        now: format!("IF(ISERROR(SUM({limits})+SUM({typed})),1,0)"),
    });
}

/// The formula that counts the rows of an input table, with room for more below.
pub(super) fn entered(layout: &BookLayout, at: usize, rows: usize) -> String {
    let last = u32::try_from(rows).unwrap_or(u32::MAX).saturating_add(ROOM);
    // From the headings down, so that a row put in right below them is seen as well.
    format!("COUNTA({}!A1:A{})-1", sheet_name(layout, at), last + 1)
}

/// The scenario is chosen on the bid page: typed over in the job's table, it would be lost
/// on the page.
fn scenario(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    if !estimate.has_scenarios() {
        return;
    }
    let cell = estimate.graph.id(JobKeys::Scenario).at(0);
    let own = reference::address(layout, usize::MAX, cell);
    let chosen = layout.chosen_scenario();
    all.push(Watch {
        what: "Job: Scenario, chosen on the bid page".to_owned(),
        then: Fact::words(FOLLOWS_PAGE),
        now: format!("IF({own}={chosen},\"{FOLLOWS_PAGE}\",\"typed over\")"),
    });
}

/// Defaults are the program's own: typed over, they would be lost.
fn defaults(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    for factor in Factor::ALL {
        let default = estimate.graph.id(DefaultOf(*factor));
        all.push(Watch {
            what: format!(
                "Factors: {}",
                sentence(&estimate.graph.column(default).name)
            ),
            then: Fact::Number(estimate.results.number(default.at(0))),
            now: reference::address(layout, usize::MAX, default.at(0)),
        });
    }
}

/// What was solved stays as it was until a new run: every cell that it was solved from is
/// watched, but for those that are watched anyway or are solved themselves.
fn solved(estimate: &Estimate, layout: &BookLayout, all: &mut Vec<Watch>) {
    let graph = &estimate.graph;
    let mut inputs = BTreeSet::new();
    for column in graph.columns() {
        if let Kind::Solved(solve) = &graph.column(column).kind {
            inputs.extend(solve.inputs().iter().copied());
        }
    }
    let alone = |id: &ColumnId| {
        let kind = &graph.column(*id).kind;
        !matches!(kind, Kind::Solved(_) | Kind::Words { watched: true, .. })
    };
    for id in inputs.into_iter().filter(alone) {
        let rows = 0..graph.rows(id);
        all.extend(rows.map(|row| cell(estimate, layout, id.at(row))));
    }
}

/// One cell, whatever it holds: a number, words, or nothing.
fn cell(estimate: &Estimate, layout: &BookLayout, cell: Cell) -> Watch {
    let graph = &estimate.graph;
    let info = graph.column(cell.column);
    let row = layout.home(cell.column).row as usize + cell.row + 1;
    let at = reference::address(layout, usize::MAX, cell);
    let (then, now) = if info.is_text() {
        let words = estimate.results.words(cell).to_owned();
        (Fact::words(words), format!("{at}&\"\""))
    } else {
        let then = match estimate.results.measured(cell) {
            Some(number) => Fact::Number(number),
            None => Fact::words(EMPTY),
        };
        (then, format!("IF({at}=\"\",\"{EMPTY}\",{at})"))
    };
    let table = graph.table(info.table).name;
    Watch {
        what: format!("{table}: {}, row {row}", info.name),
        then,
        now,
    }
}
