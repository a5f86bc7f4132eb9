//! Collects cells into sheets, and is the one place where limits on cells are kept.
//!
//! Always true: rows and columns of a gathered sheet ascend, no two cells share a
//! place, no text is empty and no number is infinite, whatever order and content a
//! file has.

use super::limits::{CELL_TEXT, CELLS, COLUMNS, ROWS, SHEETS, TEXT_BYTES};
use super::notation::{Marks, MarksSeen};
use super::prospect::Prospect;
use super::stop::Stop;
use super::{Cell, Content, JobFile, Row, Sheet};
use crate::diagnostic::{Code, Diagnostic};
use crate::money;
use crate::place::{Place, column_letters};

/// Sheets while they are being read.
pub(super) struct Gather {
    file: String,
    sheets: Vec<Sheet>,
    findings: Vec<Diagnostic>,
    cells: usize,
    text_bytes: usize,
    commented: bool,
    far_reported: bool,
    in_order: bool,
    marks: MarksSeen,
    prospect: Prospect,
    wanted: fn(&str) -> bool,
}

/// What reading gives: the source with warnings, or everything that is wrong.
pub(super) type Outcome = Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>>;

impl Gather {
    /// Nothing read yet from the file or folder of this name.
    pub(super) fn new(file: &str) -> Self {
        Self {
            file: file.to_owned(),
            sheets: Vec::new(),
            findings: Vec::new(),
            cells: 0,
            text_bytes: 0,
            commented: false,
            far_reported: false,
            in_order: true,
            marks: MarksSeen::default(),
            prospect: Prospect::default(),
            wanted: |_| true,
        }
    }

    /// Nothing read yet of a file of which only some sheets are wanted, by their names.
    pub(super) fn of(wanted: fn(&str) -> bool) -> Self {
        Self {
            wanted,
            ..Self::new("")
        }
    }

    /// Whether a sheet of this name is to be read.
    pub(super) fn wants(&self, sheet: &str) -> bool {
        (self.wanted)(sheet)
    }

    /// Begins the next sheet of a workbook.
    pub(super) fn start_sheet(&mut self, name: &str) -> Result<(), Stop> {
        let place = Place::sheet(&self.file, name);
        self.start_sheet_at(name, place)
    }

    /// Begins the next sheet, whose place is not a sheet of a workbook.
    pub(super) fn start_sheet_at(&mut self, name: &str, place: Place) -> Result<(), Stop> {
        self.end_sheet();
        if self.sheets.len() == SHEETS {
            return Err(Stop::too_large(format!(
                "there are more than {SHEETS} sheets"
            )));
        }
        let name = name.to_owned();
        self.sheets.push(Sheet {
            name,
            place,
            rows: Vec::new(),
            merged: Vec::new(),
        });
        Ok(())
    }

    /// Puts a cell into the sheet begun last.
    pub(super) fn put(
        &mut self,
        row: u32,
        column: u32,
        content: Content,
        formula: bool,
    ) -> Result<(), Stop> {
        if let Content::Text(text) = &content {
            if text.is_empty() {
                return Ok(());
            }
            self.text_bytes += text.len();
            if self.text_bytes > TEXT_BYTES {
                let megabytes = TEXT_BYTES >> 20;
                let what = format!("the cells hold more than {megabytes} MB of text");
                return Err(Stop::too_large(what));
            }
            if text.len() > CELL_TEXT {
                self.report_long(row, column, text.encode_utf16().count());
            }
        }
        if row >= ROWS || column >= COLUMNS {
            self.report_far(row, column);
            return Ok(());
        }
        self.cells += 1;
        if self.cells > CELLS {
            return Err(Stop::too_large(format!(
                "more than {CELLS} cells are filled"
            )));
        }
        self.store(
            row,
            Cell {
                column,
                content: finite(content),
                formula,
            },
        );
        Ok(())
    }

    /// Notes a merged region of the sheet begun last: first row, first column, last row, last column.
    pub(super) fn merge(&mut self, region: (u32, u32, u32, u32)) {
        let several = region.0 < region.2 || region.1 < region.3;
        if let Some(sheet) = self.sheets.last_mut().filter(|_| several) {
            sheet.merged.push(region);
        }
    }

    /// Notes that fields of a text file are parted by semicolons.
    pub(super) fn note_semicolons(&mut self) {
        self.marks.semicolons = true;
    }

    /// Reads every text again, now that all numbers have shown what they can of their marks.
    pub(super) fn read_texts_again(&mut self, read: impl Fn(&str, Marks) -> Option<Content>) {
        self.end_sheet();
        for sheet in &self.sheets {
            sheet.note_marks(&mut self.marks);
        }
        let marks = self.marks.marks();
        let rows = self.sheets.iter_mut().flat_map(|sheet| &mut sheet.rows);
        for cell in rows.flat_map(|row| &mut row.cells) {
            if let Content::Text(text) = &cell.content
                && let Some(content) = read(text, marks)
            {
                cell.content = content;
            }
        }
    }

    /// Notes that cells have comments, which are not read.
    pub(super) fn note_comments(&mut self) {
        self.commented = true;
    }

    /// The place of a cell of the sheet that is being read.
    pub(super) fn place_at(&self, row: u32, column: u32) -> Place {
        let sheet = self.sheets.last();
        sheet.map_or_else(
            || Place::file(&self.file),
            |sheet| sheet.place.at(row, column),
        )
    }

    /// What there is to say about a cross-check.
    pub(super) fn prospect(&mut self) -> &mut Prospect {
        &mut self.prospect
    }

    /// Notes a finding of a single part, when the other parts are still worth reading.
    pub(super) fn note(&mut self, finding: Diagnostic) {
        self.findings.push(finding);
    }

    /// The sheets as they are, whatever is to be said about them.
    pub(super) fn into_sheets(mut self) -> Vec<Sheet> {
        self.end_sheet();
        self.sheets
    }

    /// The finished source, or everything that is wrong with it.
    pub(super) fn finish(mut self) -> Outcome {
        self.end_sheet();
        if self.cells == 0 && self.findings.is_empty() {
            let what = "no cell of the file has a value";
            let hint = "fill the measurement workbook, save it, and name that file here";
            self.note(Diagnostic::error(Code::EmptyFile, Place::file(&self.file), what).hint(hint));
        }
        if self.commented {
            let what = "cell comments are not carried into the written workbook";
            self.note(Diagnostic::warning(
                Code::NotCarried,
                Place::file(&self.file),
                what,
            ));
        }
        if self.findings.iter().any(Diagnostic::blocks) {
            return Err(self.findings);
        }
        Ok((
            JobFile {
                name: self.file,
                sheets: self.sheets,
                marks: self.marks,
            },
            self.findings,
        ))
    }

    fn report_long(&mut self, row: u32, column: u32, length: usize) {
        let Some(sheet) = self.sheets.last().filter(|_| length > CELL_TEXT) else {
            return;
        };
        #[expect(clippy::cast_precision_loss, reason = "a text in memory")]
        let [length, most] = [length, CELL_TEXT].map(|count| money::show(count as f64, 0));
        let what = format!("this cell holds {length} characters; at most {most} can be carried");
        let finding = Diagnostic::error(Code::TooLarge, sheet.place.at(row, column), what)
            .hint("shorten it, and keep the rest in a document of its own");
        self.findings.push(finding);
    }

    fn report_far(&mut self, row: u32, column: u32) {
        let Some(sheet) = self.sheets.last().filter(|_| !self.far_reported) else {
            return;
        };
        self.far_reported = true;
        let place = sheet.place.at(row, column);
        let (row, column) = (money::show(f64::from(ROWS), 0), column_letters(COLUMNS - 1));
        let what = format!(
            "a filled cell lies beyond row {row} or column {column}, the last that are read"
        );
        let finding = Diagnostic::error(Code::FarCell, place, what)
            .hint("clear it; the tables of a job begin at the top left of a sheet");
        self.findings.push(finding);
    }

    fn store(&mut self, index: u32, cell: Cell) {
        let Some(sheet) = self.sheets.last_mut() else {
            return;
        };
        let width = match sheet.rows.last_mut() {
            Some(row) if row.index == index => {
                self.in_order &= row
                    .cells
                    .last()
                    .is_none_or(|last| last.column < cell.column);
                row.cells.push(cell);
                return;
            }
            Some(row) => {
                self.in_order &= row.index < index;
                row.cells.len()
            }
            None => 1,
        };
        // Rows of a table are equally wide, so the row above tells how much to reserve.
        let mut cells = Vec::with_capacity(width);
        cells.push(cell);
        sheet.rows.push(Row { index, cells });
    }

    fn end_sheet(&mut self) {
        if let Some(sheet) = self.sheets.last_mut().filter(|_| !self.in_order) {
            put_in_order(&mut sheet.rows);
        }
        self.in_order = true;
        self.far_reported = false;
    }
}

/// Numbers that no cell can show become the error that a spreadsheet would show.
fn finite(content: Content) -> Content {
    match content {
        Content::Number(value) | Content::Date(value) | Content::Duration(value)
            if !value.is_finite() =>
        {
            Content::Error("#NUM!".to_owned())
        }
        other => other,
    }
}

/// Sorts rows and cells; of two cells in one place the later one stays, as in a spreadsheet.
fn put_in_order(rows: &mut Vec<Row>) {
    rows.sort_by_key(|row| row.index);
    rows.dedup_by(|later, earlier| {
        let same = later.index == earlier.index;
        if same {
            earlier.cells.append(&mut later.cells);
        }
        same
    });
    for row in rows {
        row.cells.sort_by_key(|cell| cell.column);
        row.cells.dedup_by(|later, earlier| {
            let same = later.column == earlier.column;
            if same {
                std::mem::swap(later, earlier);
            }
            same
        });
    }
}
