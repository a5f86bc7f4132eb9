//! A graph by itself as a workbook: what stands in its cells is worked out again by engines
//! that know nothing of this crate.

use groundsheet::graph::formula::Sheets;
use groundsheet::graph::home::Layout;
use groundsheet::graph::{Cell, ColumnId, Graph, Results};
use rust_xlsxwriter::{Formula, Workbook};

use crate::support::recalculate::{Cells, Value, by_the_engine};

/// The workbook of a graph, with the values of its inputs as they are in some results.
pub(super) fn written(graph: &Graph, results: &Results) -> Vec<u8> {
    let sheets = Sheets::new(graph);
    let mut book = Workbook::new();
    for table in graph.tables() {
        let sheet = book.add_worksheet();
        sheet.set_name(graph.table(table).name).unwrap();
        for (column, id) in (0..).zip(graph.columns_of(table)) {
            sheet.write(0, column, &graph.column(id).name).unwrap();
            for row in 0..graph.rows(id) {
                let at = u32::try_from(row + 1).unwrap();
                let cell = id.at(row);
                if let Some(formula) = sheets.formula(graph, cell) {
                    sheet.write(at, column, Formula::new(formula)).unwrap();
                } else if !results.words(cell).is_empty() {
                    sheet.write(at, column, results.words(cell)).unwrap();
                } else if let Some(number) = results.measured(cell) {
                    sheet.write(at, column, number).unwrap();
                }
            }
        }
    }
    book.save_to_buffer().unwrap()
}

/// Where a cell stands: its sheet, row and column from zero.
fn spot(graph: &Graph, cell: Cell) -> (String, u32, u32) {
    let info = graph.column(cell.column);
    let home = Sheets::new(graph).home(cell.column);
    let row = home.row + u32::try_from(cell.row).unwrap();
    (graph.table(info.table).name.to_owned(), row, home.column)
}

/// What an engine makes of a column that holds formulas.
pub(super) fn column(graph: &Graph, cells: &Cells, id: ColumnId) -> Vec<Value> {
    let rows = 0..graph.rows(id);
    rows.map(|row| cells[&spot(graph, id.at(row))].clone())
        .collect()
}

/// Asserts that every formula of a graph comes to what our own engine gives, by every
/// engine; a number that cannot be worked out is an error there. Gives what they come to by
/// the first of them.
#[track_caller]
pub(super) fn recalculates(graph: &Graph, results: &Results) -> Cells {
    let sheets = Sheets::new(graph);
    let engines = [by_the_engine(&[written(graph, results)])];
    for (engine, all) in &engines {
        for id in graph.columns() {
            for cell in (0..graph.rows(id)).map(|row| id.at(row)) {
                let Some(formula) = sheets.formula(graph, cell) else {
                    continue;
                };
                let info = graph.column(id);
                let ours = match results.numbers(id).get(cell.row) {
                    None => Value::Text(results.words(cell).to_owned()),
                    Some(number) if number.is_finite() || !info.is_computed() => {
                        Value::Number(results.number(cell))
                    }
                    Some(_) => Value::Error(String::new()),
                };
                let theirs = &all[0][&spot(graph, cell)];
                assert!(
                    ours.agrees_with(theirs),
                    "{engine}, {}, {}, row {}: ={formula} is {theirs:?}, ours {ours:?}",
                    graph.table(info.table).name,
                    info.name,
                    cell.row
                );
            }
        }
    }
    engines.into_iter().next().unwrap().1.remove(0)
}
