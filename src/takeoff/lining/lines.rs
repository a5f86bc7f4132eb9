//! Lines of the lining.
//!
//! Always true: every layer has a line for its sheet; all else has one only where its
//! measure was filled in.

use super::LiningColumns;
use super::beside::Beside;
use crate::graph::{ColumnId, Graph, Piece, Table};
use crate::job::tables::Layers;
use crate::takeoff::line::{Line, fixed};

impl LiningColumns {
    /// Lines, in the order of the rows: what is done before a sheet is laid, the sheet, what
    /// goes with it, the test.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        let rows = graph.rows(self.given.layer);
        (0..rows).flat_map(|row| self.row(graph, row)).collect()
    }

    /// The lines of one layer.
    fn row(&self, graph: &Graph, row: usize) -> Vec<Line> {
        let (given, beside) = (&self.given, &self.beside);
        let is_filled = |column: ColumnId| graph.is_filled(column.at(row));
        let says = |column: ColumnId, words: &str| {
            graph.written(column.at(row)).eq_ignore_ascii_case(words)
        };
        let system = self.system;
        let area = system.area().symbol();
        let others = [
            (
                says(given.picking, "yes"),
                ("Pick subgrade", ": pick the ground clean", area),
                &beside.picking,
            ),
            (
                says(given.seam, "taped"),
                ("Seam tape", ": tape the seams", ""),
                &beside.tape,
            ),
            (
                is_filled(given.battens),
                ("Battens", ": battens along walls", ""),
                &beside.battens,
            ),
            (
                is_filled(given.boots),
                ("Boots", ": boots at penetrations", ""),
                &beside.boots,
            ),
            (
                says(given.test, "yes"),
                ("Leak test", ": fill, watch and test before trimming", "ea"),
                &beside.test,
            ),
        ];
        let lines = others.into_iter().filter(|(arises, ..)| *arises);
        let mut lines: Vec<Line> = lines
            .map(|(_, words, beside)| self.line(row, words, beside))
            .collect();
        let first = usize::from(says(given.picking, "yes"));
        lines.insert(first, self.sheet_line(graph, row));
        lines
    }

    /// The line of the sheet itself.
    fn sheet_line(&self, graph: &Graph, row: usize) -> Line {
        let line = self.line(row, ("Sheet", "", ""), &self.sheet);
        let basin = self.given.basin.at(row);
        let lined = if graph.is_filled(basin) {
            basin
        } else {
            self.given.fall.at(row)
        };
        Line {
            description: vec![
                Piece::Cell(self.given.layer.at(row)),
                fixed(": lining of "),
                Piece::Cell(lined),
            ],
            ..line
        }
    }

    /// One line: what it is, what is said of it after the layer's name, and the unit of
    /// what is worked and not bought.
    fn line(
        &self,
        row: usize,
        (what, said, unit): (&str, &'static str, &'static str),
        beside: &Beside,
    ) -> Line {
        let layer = Piece::Cell(self.given.layer.at(row));
        let unit = match beside.unit {
            Some(words) => Piece::Cell(words.id.at(row)),
            None => fixed(unit),
        };
        Line {
            table: Layers::NAME,
            name: vec![fixed(format!("{what}: ")), layer.clone()],
            section: vec![fixed("Liner and fabric")],
            description: vec![layer, fixed(said)],
            unit: vec![unit],
            quantity: beside.quantity.id.at(row),
            amount: beside.amount.map(|amount| amount.id.at(row)),
            waste: beside.waste.map(|waste| waste.id.at(row)),
            material: beside.material.map(|material| material.id.at(row)),
            work: beside.work.map(|(work, _)| work.id.at(row)),
            worked: beside.work.map(|(_, worked)| worked.id.at(row)),
            price: None,
            grade: self.grade.id.at(row),
        }
    }
}
