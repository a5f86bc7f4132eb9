//! What the other reader finds in a sheet, in our words.
//!
//! Always true: cells ascend by row and column, and of two in one place the later stays,
//! as ours do. A sheet that the other reader gives up is `None`, never a part of it.

use std::io::Cursor;

use calamine::{CellErrorType, Data, ExcelDateTime, Ods, Reader, Xls, XlsOptions, Xlsb, Xlsx};

use crate::read::Content;
use crate::read::dates::{DAYS_TO_1904, days_of_duration, serial_of_iso};
use crate::read::limits::{CELLS, TEXT_BYTES};
use crate::read::prospect::Format;

/// Text of `.xls` is of this code page since 1997, whatever the file says.
const WIDE: u16 = 1200;

/// What is read: the file itself, or bytes made from it.
pub(super) enum Handed<'a> {
    File(&'a [u8]),
    Made(Vec<u8>),
}

/// A workbook as the other reader has opened it.
pub(super) enum Book<'a> {
    OfficeXml(Xlsx<Cursor<Handed<'a>>>),
    OfficeBinary(Xlsb<Cursor<Handed<'a>>>),
    Office97(Xls<Cursor<Handed<'a>>>),
    OpenDocument(Ods<Cursor<Handed<'a>>>),
}

/// The cells of a sheet: row and column with what is there.
pub(super) struct Cells {
    pub(super) filled: Vec<((u32, u32), Content)>,
    /// Days that were added to dates, because they are counted from 1904.
    pub(super) shift: f64,
    text_bytes: usize,
}

impl AsRef<[u8]> for Handed<'_> {
    fn as_ref(&self) -> &[u8] {
        match self {
            Self::File(bytes) => bytes,
            Self::Made(bytes) => bytes,
        }
    }
}

impl<'a> Book<'a> {
    /// Opens a workbook; `None` if the other reader does not.
    pub(super) fn open(handed: Handed<'a>, format: Format) -> Option<Self> {
        let bytes = Cursor::new(handed);
        match format {
            Format::OfficeXml => Xlsx::new(bytes).ok().map(Self::OfficeXml),
            Format::OfficeBinary => Xlsb::new(bytes).ok().map(Self::OfficeBinary),
            Format::Office97 => {
                let mut options = XlsOptions::default();
                options.force_codepage = Some(WIDE);
                Xls::new_with_options(bytes, options)
                    .ok()
                    .map(Self::Office97)
            }
            Format::OpenDocument => Ods::new(bytes).ok().map(Self::OpenDocument),
        }
    }

    /// The cells of a sheet; `None` if the other reader has no such sheet or gives it up.
    pub(super) fn sheet(&mut self, name: &str) -> Option<Cells> {
        let from_1904 = match self {
            Self::OfficeXml(book) => book.has_1904_epoch(),
            Self::OfficeBinary(book) => book.has_1904_epoch(),
            Self::Office97(book) => book.has_1904_epoch(),
            Self::OpenDocument(_) => false,
        };
        let mut cells = Cells {
            filled: Vec::new(),
            shift: if from_1904 { DAYS_TO_1904 } else { 0.0 },
            text_bytes: 0,
        };
        match self {
            Self::OfficeXml(book) => {
                let mut sheet = book.worksheet_cells_reader(name).ok()?;
                while let Some(cell) = sheet.next_cell().ok()? {
                    cells.put(cell.get_position(), Data::from(cell.get_value().clone()))?;
                }
            }
            Self::OfficeBinary(book) => {
                let mut sheet = book.worksheet_cells_reader(name).ok()?;
                while let Some(cell) = sheet.next_cell().ok()? {
                    cells.put(cell.get_position(), Data::from(cell.get_value().clone()))?;
                }
            }
            Self::Office97(book) => cells.put_all(book, name)?,
            Self::OpenDocument(book) => cells.put_all(book, name)?,
        }
        cells.put_in_order();
        Some(cells)
    }
}

impl Cells {
    /// Puts all cells of a sheet that is held as a rectangle.
    fn put_all<'a, B: Reader<Cursor<Handed<'a>>>>(
        &mut self,
        book: &mut B,
        name: &str,
    ) -> Option<()> {
        let range = book.worksheet_range(name).ok()?;
        let (first_row, first_column) = range.start().unwrap_or_default();
        for (row, column, data) in range.used_cells() {
            let row = u32::try_from(row).ok()?.checked_add(first_row)?;
            let column = u32::try_from(column).ok()?.checked_add(first_column)?;
            self.put((row, column), data.clone())?;
        }
        Some(())
    }

    /// Puts a cell that holds something; `None` beyond what any reader may keep.
    fn put(&mut self, place: (u32, u32), data: Data) -> Option<()> {
        let Some(content) = self.content(data) else {
            return Some(());
        };
        if let Content::Text(text) = &content {
            self.text_bytes += text.len();
        }
        self.filled.push((place, content));
        (self.filled.len() <= CELLS && self.text_bytes <= TEXT_BYTES).then_some(())
    }

    fn content(&self, data: Data) -> Option<Content> {
        #[expect(
            clippy::cast_precision_loss,
            reason = "packed into 30 bits in the file"
        )]
        let content = match data {
            Data::Empty => return None,
            Data::Int(value) => Content::Number(value as f64),
            Data::Float(value) => Content::Number(value),
            Data::String(text) => Content::Text(text),
            Data::Bool(truth) => Content::Truth(truth),
            Data::DateTime(time) => self.time(time),
            Data::DateTimeIso(text) => {
                serial_of_iso(&text).map_or(Content::Text(text), Content::Date)
            }
            Data::DurationIso(text) => {
                days_of_duration(&text).map_or(Content::Text(text), Content::Number)
            }
            Data::Error(error) => Content::Error(name_of(&error)),
        };
        Some(content)
    }

    /// A duration is a number of days and has no first day to be counted from.
    fn time(&self, time: ExcelDateTime) -> Content {
        if time.is_duration() {
            Content::Number(time.as_f64())
        } else {
            Content::Date(time.as_f64() + self.shift)
        }
    }

    /// Of two cells in one place the later stays.
    fn put_in_order(&mut self) {
        self.filled.sort_by_key(|(place, _)| *place);
        self.filled.dedup_by(|later, earlier| {
            let same = later.0 == earlier.0;
            if same {
                std::mem::swap(later, earlier);
            }
            same
        });
    }
}

/// The name of an error as our readers know it.
fn name_of(error: &CellErrorType) -> String {
    match error {
        CellErrorType::GettingData => "#GETTING_DATA".to_owned(),
        other => other.to_string(),
    }
}
