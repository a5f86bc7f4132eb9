//! The heading row of a table: which column of the sheet is which of ours.

use super::{Reader, lower_first, same_column};
use crate::diagnostic::{Code, Diagnostic};
use crate::job::columns::Fill;
use crate::job::headings::{self, StandsFor};
use crate::job::{Extra, Places, cells, natural_unit};
use crate::read::{Cell, Row};
use crate::shown::shown;

impl Reader<'_> {
    /// What each cell of the heading row stands for, with its column on the sheet.
    pub(super) fn headings(&mut self, heading: &Row) -> Vec<(u32, StandsFor)> {
        let there: Vec<String> = heading
            .cells
            .iter()
            .map(|cell| cells::text_of(&cell.content))
            .collect();
        let there = headings::plain_names(there.iter().map(String::as_str));
        let mut meanings: Vec<(u32, StandsFor)> = Vec::new();
        for cell in &heading.cells {
            let place = self.sheet.place.at(heading.index, cell.column);
            let text = cells::text_of(&cell.content);
            let (meaning, finding) =
                headings::meaning(self.table, self.habits.system, &text, &there, &place);
            self.findings.extend(finding);
            let twin = meanings
                .iter()
                .find(|(_, other)| same_column(other, &meaning));
            if let (Some((first, _)), StandsFor::Column(..)) = (twin, &meaning) {
                let what = format!(
                    "the heading \"{}\" stands twice; the other is at {}",
                    shown(&text),
                    self.sheet.place.at(heading.index, *first)
                );
                self.findings.push(
                    Diagnostic::error(Code::DuplicateHeading, place, what)
                        .hint("keep one of the two columns"),
                );
                continue;
            }
            self.take_heading(cell, &text, &meaning);
            meanings.push((cell.column, meaning));
        }
        self.extras_without_heading(&meanings);
        self.missing_headings(heading);
        meanings
    }

    fn take_heading(&mut self, cell: &Cell, text: &str, meaning: &StandsFor) {
        match meaning {
            StandsFor::Column(position, unit) => {
                self.data.units[*position] = *unit;
                if let Places::Rows { columns, .. } = &mut self.data.places {
                    columns[*position] = Some(cell.column);
                }
            }
            StandsFor::Extra => self.extras.push((
                cell.column,
                Extra {
                    heading: text.trim().to_owned(),
                    values: Vec::new(),
                },
            )),
            StandsFor::AsMeasured | StandsFor::RowFrom => {}
        }
    }

    /// A column that holds something under a blank heading is carried too.
    fn extras_without_heading(&mut self, meanings: &[(u32, StandsFor)]) {
        let mut found: Vec<u32> = self
            .sheet
            .rows
            .iter()
            .skip(1)
            .flat_map(|row| row.cells.iter().map(|cell| cell.column))
            .collect();
        found.sort_unstable();
        found.dedup();
        for column in found {
            let known = meanings.iter().any(|(at, _)| *at == column);
            if !known
                && !self.sheet.rows[0]
                    .cells
                    .iter()
                    .any(|cell| cell.column == column)
            {
                self.extras.push((
                    column,
                    Extra {
                        heading: String::new(),
                        values: Vec::new(),
                    },
                ));
            }
        }
        self.extras.sort_by_key(|(column, _)| *column);
    }

    fn missing_headings(&mut self, heading: &Row) {
        let Places::Rows { columns, .. } = &self.data.places else {
            return;
        };
        for (column, place) in self.table.columns.iter().zip(columns) {
            if column.fill == Fill::Needed && place.is_none() {
                let wanted = column.heading_with(natural_unit(column, self.habits.system));
                // A slip in this very heading has been reported already.
                let slip = format!("did you mean \"{wanted}\"?");
                if self.findings.iter().any(|finding| {
                    finding.blocks()
                        && finding.code == Code::UnknownHeading
                        && finding.hint.as_ref() == Some(&slip)
                        && finding.place.as_ref().is_some_and(|place| {
                            (&place.file, &place.sheet)
                                == (&self.sheet.place.file, &self.sheet.place.sheet)
                        })
                }) {
                    continue;
                }
                let what = format!("{} has no column \"{}\"", self.table.name, column.heading);
                let place = self.sheet.place.at(heading.index, 0);
                let hint = format!(
                    "add the column \"{wanted}\": {}",
                    lower_first(column.guidance)
                );
                self.findings
                    .push(Diagnostic::error(Code::MissingHeading, place, what).hint(hint));
            }
        }
    }
}
