//! One input table, cell by cell, from its sheet.
//!
//! Always true: a value that cannot be read gives a finding and stays blank; every
//! other cell of the sheet is read all the same, so that all faults come together.

use super::cells::{self, Value};
use super::columns::InputTable;
use super::headings::{self, Meaning, plain};
use super::{Entries, Extra, Places, TableData, natural_unit};
use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;
use crate::read::{Cell, Content, Row, Sheet, notation};
use crate::units::{System, Unit};

/// Reads one table from its sheet.
pub(super) fn read_table(
    table: &'static InputTable,
    sheet: &Sheet,
    system: System,
    findings: &mut Vec<Diagnostic>,
) -> TableData {
    let mut reader = Reader {
        table,
        sheet,
        system,
        findings,
        data: TableData::empty(table, system, sheet.place.clone()),
        formulas: 0,
        beside: false,
        extras: Vec::new(),
    };
    reader.merged();
    if table.upright {
        reader.upright()
    } else {
        reader.in_rows()
    }
    if reader.formulas > 0 {
        let what = format!(
            "{} formulas in input cells of {}: their values are carried, not the formulas",
            reader.formulas, table.name
        );
        reader.findings.push(Diagnostic::warning(
            Code::NotCarried,
            sheet.place.clone(),
            what,
        ));
    }
    reader.data.extras = reader.extras.into_iter().map(|(_, extra)| extra).collect();
    reader.data
}

struct Reader<'s> {
    table: &'static InputTable,
    sheet: &'s Sheet,
    system: System,
    findings: &'s mut Vec<Diagnostic>,
    data: TableData,
    formulas: usize,
    /// Whether words beside the values of an upright table were reported.
    beside: bool,
    /// Columns that are not ours, with where they stand.
    extras: Vec<(u32, Extra)>,
}

impl Reader<'_> {
    fn merged(&mut self) {
        for (row, column, _, _) in &self.sheet.merged {
            let what = format!("cells of {} are merged here", self.table.name);
            self.findings.push(
                Diagnostic::error(Code::MergedCells, self.sheet.place.at(*row, *column), what)
                    .hint("unmerge them and fill in each row, so that every row stands for itself"),
            );
        }
    }

    fn in_rows(&mut self) {
        let Some((heading, rows)) = self.sheet.rows.split_first() else {
            return;
        };
        let meanings = self.headings(heading);
        for row in rows {
            self.row(row, &meanings);
        }
    }

    /// What each cell of the heading row stands for, with its column on the sheet.
    fn headings(&mut self, heading: &Row) -> Vec<(u32, Meaning)> {
        let there: Vec<String> = heading
            .cells
            .iter()
            .map(|cell| cells::text_of(&cell.content))
            .collect();
        let there = headings::plain_names(there.iter().map(String::as_str));
        let mut meanings: Vec<(u32, Meaning)> = Vec::new();
        for cell in &heading.cells {
            let place = self.sheet.place.at(heading.index, cell.column);
            let text = cells::text_of(&cell.content);
            let (meaning, finding) =
                headings::meaning(self.table, self.system, &text, &there, &place);
            self.findings.extend(finding);
            let twin = meanings
                .iter()
                .find(|(_, other)| same_column(other, &meaning));
            if let (Some((first, _)), Meaning::Column(..)) = (twin, &meaning) {
                let what = format!(
                    "the heading \"{}\" stands twice; the other is at {}",
                    text.trim(),
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

    fn take_heading(&mut self, cell: &Cell, text: &str, meaning: &Meaning) {
        match meaning {
            Meaning::Column(position, unit) => {
                self.data.units[*position] = *unit;
                if let Places::Rows { columns, .. } = &mut self.data.places {
                    columns[*position] = Some(cell.column);
                }
            }
            Meaning::Extra => self.extras.push((
                cell.column,
                Extra {
                    heading: text.trim().to_owned(),
                    values: Vec::new(),
                },
            )),
            Meaning::AsMeasured => {}
        }
    }

    /// A column that holds something under a blank heading is carried too.
    fn extras_without_heading(&mut self, meanings: &[(u32, Meaning)]) {
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
            if column.required && place.is_none() {
                let wanted = column.heading_with(natural_unit(column, self.system));
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

    fn row(&mut self, row: &Row, meanings: &[(u32, Meaning)]) {
        let meaning_of = |cell: &Cell| {
            meanings
                .iter()
                .find(|(column, _)| *column == cell.column)
                .map(|(_, meaning)| meaning)
        };
        let ours = |cell: &&Cell| matches!(meaning_of(cell), Some(Meaning::Column(..)));
        if !row
            .cells
            .iter()
            .any(|cell| ours(&cell) && !is_blank(&cell.content))
        {
            if let Some(cell) = row.cells.iter().find(|cell| !is_blank(&cell.content)) {
                let what = format!(
                    "this row of {} holds nothing under our headings; it is not carried",
                    self.table.name
                );
                self.findings.push(Diagnostic::warning(
                    Code::NotCarried,
                    self.sheet.place.at(row.index, cell.column),
                    what,
                ));
            }
            return;
        }
        self.start_row(row.index);
        let mut written = vec![None; self.table.columns.len()];
        for cell in row.cells.iter().filter(|cell| !is_blank(&cell.content)) {
            match meaning_of(cell) {
                Some(Meaning::Column(position, unit)) => {
                    self.cell(cell, row.index, *position, *unit, &mut written)
                }
                Some(Meaning::AsMeasured) => {
                    self.as_measured(&cells::text_of(&cell.content), &mut written)
                }
                _ => self.extra(cell),
            }
        }
        self.finish_row(&written);
    }

    fn start_row(&mut self, index: u32) {
        self.data.rows += 1;
        if let Places::Rows { rows, .. } = &mut self.data.places {
            rows.push(index);
        }
        for entries in &mut self.data.columns {
            match entries {
                Entries::Numbers(numbers) => numbers.push(f64::NAN),
                Entries::Words(words) => words.push("".into()),
            }
        }
        self.data.as_measured.push(String::new());
        self.extras
            .iter_mut()
            .for_each(|(_, extra)| extra.values.push(None));
    }

    fn cell(
        &mut self,
        cell: &Cell,
        row: u32,
        position: usize,
        unit: Unit,
        written: &mut [Option<String>],
    ) {
        let column = &self.table.columns[position];
        let place = self.sheet.place.at(row, cell.column);
        self.formulas += usize::from(cell.formula);
        match cells::value(column, unit, &cell.content, &place) {
            Ok(Value::Number {
                number,
                written: text,
                rod,
            }) => self.number(position, unit, number, text, rod, &place, written),
            Ok(Value::Word(word)) => {
                if let Entries::Words(words) = &mut self.data.columns[position]
                    && let Some(last) = words.last_mut()
                {
                    *last = word;
                }
            }
            Err(finding) => {
                // Rows that refer to a name which cannot be used are not at fault themselves.
                if finding.code == Code::BadKey
                    && let Entries::Words(words) = &mut self.data.columns[position]
                    && let Some(last) = words.last_mut()
                {
                    *last = cells::text_of(&cell.content).trim().into();
                }
                self.findings.push(finding);
            }
        }
    }

    /// A rod reading in a column of elevations belongs to the rod column beside it.
    #[allow(clippy::too_many_arguments)] // one measure with all that is known of it
    fn number(
        &mut self,
        position: usize,
        unit: Unit,
        number: f64,
        text: Option<String>,
        rod: bool,
        place: &Place,
        written: &mut [Option<String>],
    ) {
        let heading = self.table.columns[position].heading;
        let is_rod = heading.ends_with("rod") || heading == "Backsight";
        let twin = format!("{heading} rod");
        let twin = self
            .table
            .columns
            .iter()
            .position(|column| column.heading == twin);
        let (target, number) = match (rod, is_rod, twin) {
            (false, ..) | (true, true, _) => (position, number),
            (true, false, Some(twin)) => (
                twin,
                unit.to(self.data.units[twin])
                    .map_or(number, |ratio| ratio.apply(number)),
            ),
            (true, false, None) => {
                let what = format!("{heading} is a rod reading, which cannot stand here");
                self.findings.push(
                    Diagnostic::error(Code::NotANumber, place.clone(), what)
                        .hint("write a measure without the word rod"),
                );
                return;
            }
        };
        if let Entries::Numbers(numbers) = &mut self.data.columns[target]
            && let Some(last) = numbers.last_mut()
        {
            *last = number;
        }
        written[target] = text;
    }

    /// Field notation kept beside the number stays as long as both agree.
    fn as_measured(&mut self, text: &str, written: &mut [Option<String>]) {
        for part in text.split("; ") {
            let Some((heading, measure)) = part.split_once(": ") else {
                continue;
            };
            let position = self
                .table
                .columns
                .iter()
                .position(|column| column.heading == heading);
            if let Some(position) = position
                && written[position].is_none()
            {
                written[position] = Some(measure.to_owned());
            }
        }
    }

    fn extra(&mut self, cell: &Cell) {
        let extra = self
            .extras
            .iter_mut()
            .find(|(column, _)| *column == cell.column);
        if let Some(last) = extra.and_then(|(_, extra)| extra.values.last_mut()) {
            *last = Some(cell.content.clone());
        }
    }

    fn finish_row(&mut self, written: &[Option<String>]) {
        let row = self.data.rows - 1;
        let mut kept = Vec::new();
        for (position, text) in written.iter().enumerate() {
            let Some(text) = text else { continue };
            let number = self
                .data
                .numbers(position)
                .get(row)
                .copied()
                .unwrap_or(f64::NAN);
            if says(text, self.data.units[position], number) {
                kept.push(format!("{}: {text}", self.table.columns[position].heading));
            }
        }
        if let Some(last) = self.data.as_measured.last_mut() {
            *last = kept.join("; ");
        }
        self.missing_values(row);
    }

    fn missing_values(&mut self, row: usize) {
        for (position, column) in self.table.columns.iter().enumerate() {
            let blank = match &self.data.columns[position] {
                Entries::Numbers(numbers) => numbers.get(row).is_none_or(|number| number.is_nan()),
                Entries::Words(words) => words.get(row).is_none_or(|word| word.is_empty()),
            };
            let place = self.data.place(position, row);
            let reported =
                |finding: &Diagnostic| finding.blocks() && finding.place.as_ref() == Some(&place);
            if column.required
                && blank
                && self.has_column(position)
                && !self.findings.iter().rev().take(40).any(reported)
            {
                let what = if place.cell.is_some() {
                    format!(
                        "{} is empty, and every {} needs it",
                        column.heading,
                        self.row_word()
                    )
                } else {
                    format!("{} has no key \"{}\"", self.table.name, column.heading)
                };
                self.findings
                    .push(Diagnostic::error(Code::MissingValue, place, what).hint(column.guidance));
            }
        }
    }

    fn has_column(&self, position: usize) -> bool {
        match &self.data.places {
            Places::Rows { columns, .. } => columns[position].is_some(),
            Places::Keys { .. } => true,
        }
    }

    fn row_word(&self) -> &'static str {
        if self.table.upright { "job" } else { "row" }
    }

    /// A table whose keys stand one below the other: key, value, and room for a note.
    fn upright(&mut self) {
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
                headings::meaning(self.table, self.system, &text, &there, &place);
            self.findings.extend(finding);
            self.beside(row);
            match meaning {
                Meaning::Column(position, unit) => {
                    if let Some((_, first)) = seen.iter().find(|(other, _)| *other == position) {
                        let what = format!(
                            "the key \"{}\" stands twice; the other is at {first}",
                            text.trim()
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
                Meaning::AsMeasured => {
                    let texts = value
                        .map(|cell| cells::text_of(&cell.content))
                        .unwrap_or_default();
                    self.as_measured(&texts, &mut written);
                }
                Meaning::Extra => {
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

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

fn same_column(a: &Meaning, b: &Meaning) -> bool {
    match (a, b) {
        (Meaning::Column(a, _), Meaning::Column(b, _)) => a == b,
        _ => false,
    }
}

fn is_blank(content: &Content) -> bool {
    matches!(content, Content::Text(text) if text.trim().is_empty())
}

/// Whether a text of field notation says the number, in the unit.
fn says(text: &str, unit: Unit, number: f64) -> bool {
    let Ok(written) = notation::parse(text) else {
        return false;
    };
    let value = match &written.unit {
        None => Some(written.value),
        Some(symbol) => Unit::parse(symbol)
            .and_then(|given| given.to(unit))
            .map(|ratio| ratio.apply(written.value)),
    };
    value.is_some_and(|value| (value - number).abs() <= 1e-12 * value.abs().max(1.0))
}
