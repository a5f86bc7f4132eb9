//! The plainest layout: each table is a sheet of its own name, each column stands in the
//! order of work with its heading in the first row.
//!
//! For rules by themselves, in the examples and in tests; a job's workbook is laid out by
//! `write::layout`.

use super::template;
use crate::graph::home::{Home, Layout};
use crate::graph::reference::{following, push_gathered, quoted_name};
use crate::graph::{Cell, ColumnId, ColumnInfo, Graph};

/// Where the columns of a graph stand when each table is a sheet.
#[derive(Clone, Debug)]
pub struct Sheets {
    names: Vec<String>,
    homes: Vec<Home>,
}

impl Layout for Sheets {
    fn home(&self, column: ColumnId) -> Home {
        self.homes[column.0]
    }

    fn sheet(&self, sheet: usize) -> &str {
        &self.names[sheet]
    }
}

impl Sheets {
    /// Lays a graph out.
    #[must_use]
    pub fn new(graph: &Graph) -> Self {
        let mut used = vec![0; graph.tables.len()];
        let home = |info: &ColumnInfo| {
            let column = used[info.table.0];
            used[info.table.0] += 1;
            Home {
                sheet: info.table.0,
                row: 1,
                column,
            }
        };
        Self {
            homes: graph.columns.iter().map(home).collect(),
            names: graph.tables.iter().map(|t| quoted_name(t.name)).collect(),
        }
    }

    /// The formula of a cell, as it stands behind the equals sign; `None` where the cell
    /// holds a value.
    #[must_use]
    pub fn formula(&self, graph: &Graph, cell: Cell) -> Option<String> {
        if let Some(source) = graph.followed(cell) {
            let from = self.home(cell.column).sheet;
            return Some(following(graph, self, from, source));
        }
        let mut formula = String::new();
        if let Some(template) = template(graph, self, cell.column) {
            template.splice(u32::try_from(cell.row).unwrap_or(u32::MAX), &mut formula);
            return Some(formula);
        }
        push_gathered(graph, self, cell.column, cell.row, &mut formula).then_some(formula)
    }
}
