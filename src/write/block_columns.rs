//! The columns of a block: heading, unit, width, look, and how cells are made.

use std::collections::BTreeMap;

use rust_xlsxwriter::Format;

use super::headings::{sentence, unit_words};
use super::line_sources::all_taken_off;
use super::painter::Painter;
use super::sheets::Show;
use super::styles::Role;
use crate::graph::formula::{self, Template};
use crate::graph::{ColumnId, words};

/// One column of a block: how its cells are made, how they look, how wide it is.
pub(super) struct ShownColumn {
    pub(super) maker: CellsBy,
    pub(super) format: Format,
    pub(super) width: f64,
}

/// How the cells of one column of a block are made.
pub(super) enum CellsBy {
    /// One formula down the column.
    Formula(ColumnId, Template),
    /// A reference or fixed words, cell by cell.
    Each(ColumnId),
    /// A column shown by reference.
    Copy(ColumnId),
    /// Numbers or words that the program brings along.
    Brought(ColumnId),
    /// The rule of the line's quantity, in words: made once for each column that lines come from.
    Working(BTreeMap<ColumnId, String>),
    /// Words about where the line comes from.
    About(Show),
}

impl Painter<'_> {
    /// The heading and unit above a column, and whether it holds numbers.
    pub(super) fn heading(&self, show: &Show) -> (String, String, bool) {
        match show {
            Show::Home(id) | Show::Copy(id) => {
                let info = self.estimate.graph.column(*id);
                (sentence(&info.name), unit_words(info.unit), !info.is_text())
            }
            said => (said.heading().to_owned(), String::new(), false),
        }
    }

    pub(super) fn shown(&mut self, show: &Show) -> ShownColumn {
        let estimate = self.estimate;
        let (maker, format) = match show {
            Show::Home(id) | Show::Copy(id) => {
                let info = estimate.graph.column(*id);
                let maker = self.maker(show, *id);
                let format = if info.is_text() {
                    self.styles.words(Role::Computed)
                } else {
                    self.styles.number(info, Role::Computed)
                };
                (maker, format.clone())
            }
            Show::Working => (CellsBy::Working(self.workings()), self.styles.small.clone()),
            about => (CellsBy::About(*about), self.styles.small.clone()),
        };
        ShownColumn {
            maker,
            format,
            width: self.width(show),
        }
    }

    fn workings(&self) -> BTreeMap<ColumnId, String> {
        let graph = &self.estimate.graph;
        let mut workings = BTreeMap::new();
        for cell in all_taken_off(self.estimate) {
            workings
                .entry(cell.column)
                .or_insert_with(|| words::of_column(graph, cell.column));
        }
        workings
    }

    fn maker(&self, show: &Show, id: ColumnId) -> CellsBy {
        if matches!(show, Show::Copy(_)) {
            return CellsBy::Copy(id);
        }
        match formula::template(&self.estimate.graph, self.layout, id) {
            Some(template) => CellsBy::Formula(id, template),
            None if self.estimate.graph.column(id).is_computed() => CellsBy::Each(id),
            None => CellsBy::Brought(id),
        }
    }

    fn width(&self, show: &Show) -> f64 {
        let (Show::Home(id) | Show::Copy(id)) = show else {
            return if matches!(show, Show::From) {
                20.0
            } else {
                36.0
            };
        };
        let info = self.estimate.graph.column(*id);
        match info.name.to_lowercase().as_str() {
            "description" | "level" => 40.0,
            "unit" | "measured in" => 14.0,
            "set by hand because" => 18.0,
            "on" => 16.0,
            "line"
            | "scenario"
            | "delivery"
            | "partner in a scenario"
            | "material brought"
            | "mark-up in a scenario" => 30.0,
            "task" => 44.0,
            "remark" => 46.0,
            "section" | "material" | "work" | "supplier" => 24.0,
            _ if info.is_text() => 20.0,
            _ => 12.5,
        }
    }
}
