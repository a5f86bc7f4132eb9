//! A table whose keys stand one below the other, each with its value beside it.

use super::{Reader, is_blank};
use crate::diagnostic::{Code, Diagnostic};
use crate::job::headings::{self, StandsFor, plain};
use crate::job::{Extra, Places, cells};
use crate::place::Place;
use crate::read::{Cell, Row};
use crate::shown::shown;
use crate::units::Unit;

impl Reader<'_> {
    /// A table whose keys stand one below the other: key, value, and room for a note.
    pub(super) fn upright(&mut self) {
        let mut written = vec![None; self.table.columns.len()];
        let mut seen: Vec<(usize, Place)> = Vec::new();
        let sheet = self.sheet;
        let keys = sheet.rows.iter().filter_map(|row| row.cells.first());
        let there: Vec<String> = keys.map(|cell| cells::text_of(&cell.content)).collect();
        let there = headings::plain_names(there.iter().map(String::as_str));
        for row in &sheet.rows {
            let Some(key) = row.cells.first().filter(|cell| cell.column == 0) else {
                continue;
            };
            let place = sheet.place.at(row.index, 0);
            let text = cells::text_of(&key.content);
            let value = row
                .cells
                .iter()
                .find(|cell| cell.column == 1 && !is_blank(&cell.content));
            if plain(&text) == "key" {
                continue;
            }
            let (meaning, finding) =
                headings::meaning(self.table, self.habits.system, &text, &there, &place);
            self.findings.extend(finding);
            self.beside(row);
            match meaning {
                StandsFor::Column(position, unit) => {
                    if let Some((_, first)) = seen.iter().find(|(other, _)| *other == position) {
                        let what = format!(
                            "the key \"{}\" stands twice; the other is at {first}",
                            shown(&text)
                        );
                        self.findings.push(
                            Diagnostic::error(Code::DuplicateHeading, place, what)
                                .hint("keep one of the two rows"),
                        );
                        continue;
                    }
                    seen.push((position, place));
                    self.key(row.index, position, unit, value, &mut written);
                }
                StandsFor::AsMeasured => {
                    let texts = value
                        .map(|cell| cells::text_of(&cell.content))
                        .unwrap_or_default();
                    self.as_measured(&texts, &mut written);
                }
                StandsFor::Extra | StandsFor::RowFrom => {
                    let values = vec![value.map(|cell| cell.content.clone())];
                    self.extras.push((
                        row.index,
                        Extra {
                            heading: text.trim().to_owned(),
                            values,
                        },
                    ));
                }
            }
        }
        self.finish_row(&written);
    }

    /// Only guidance stands beside a key and its value; other words there are not carried.
    fn beside(&mut self, row: &Row) {
        let beside = row
            .cells
            .iter()
            .find(|cell| cell.column >= 2 && !is_blank(&cell.content) && !self.beside);
        let heading = |column: u32| {
            let first = self.sheet.rows.first()?;
            let cell = first.cells.iter().find(|cell| cell.column == column)?;
            Some(plain(&cells::text_of(&cell.content)))
        };
        if let Some(cell) =
            beside.filter(|cell| heading(cell.column).as_deref() != Some("guidance"))
        {
            self.beside = true;
            let what = format!(
                "{} has a key and a value; what stands beside them is not carried",
                self.table.name
            );
            let place = self.sheet.place.at(row.index, cell.column);
            self.findings.push(
                Diagnostic::warning(Code::NotCarried, place, what).hint("give it a row of its own"),
            );
        }
    }

    fn key(
        &mut self,
        row: u32,
        position: usize,
        unit: Unit,
        value: Option<&Cell>,
        written: &mut [Option<String>],
    ) {
        self.data.units[position] = unit;
        if let Places::Keys { cells, .. } = &mut self.data.places {
            cells[position] = Some(self.sheet.place.at(row, 1));
        }
        if let Some(cell) = value {
            self.cell(cell, row, position, unit, written);
        }
    }
}
