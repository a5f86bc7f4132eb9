//! Reads `.xls` as programs have written it since 1997: one stream of records.
//!
//! Older files are refused with a hint. Comments are noticed but not read. A formula
//! of this format always has a stored value.

use super::Content;
use super::bytes::{error_of, f64_at, packed_at, size_at, u8_at, u16_at};
use super::compound::Compound;
use super::dates::Formats;
use super::gather::Gather;
use super::packed_text::{plain_text, shared_texts, short_text};
use super::stop::Stop;

// Types of the records that are read.
pub(super) const FORMULA: u16 = 0x06;
pub(super) const END: u16 = 0x0A;
const NOTE: u16 = 0x1C;
const DATE_SYSTEM: u16 = 0x22;
const PASSWORD: u16 = 0x2F;
const CONTINUE: u16 = 0x3C;
pub(super) const SHEET: u16 = 0x85;
pub(super) const PACKED_NUMBERS: u16 = 0xBD;
pub(super) const RICH_TEXT: u16 = 0xD6;
const STYLE: u16 = 0xE0;
const MERGED: u16 = 0xE5;
pub(super) const SHARED_TEXTS: u16 = 0xFC;
pub(super) const SHARED_TEXT: u16 = 0xFD;
pub(super) const NUMBER: u16 = 0x203;
pub(super) const TEXT: u16 = 0x204;
pub(super) const TRUTH_OR_ERROR: u16 = 0x205;
const FORMULA_TEXT: u16 = 0x207;
pub(super) const PACKED_NUMBER: u16 = 0x27E;
const NUMBER_FORMAT: u16 = 0x41E;
pub(super) const BEGIN: u16 = 0x809;

/// The version that `BEGIN` of every file since 1997 names.
const VERSION: u16 = 0x600;

/// Reads all worksheets of the file.
pub(super) fn read(bytes: &[u8], gather: &mut Gather) -> Result<(), Stop> {
    let stream = stream_of(&Compound::open(bytes)?)?;
    let book = Book::read(&stream)?;
    for (name, start) in &book.sheets {
        gather.start_sheet(name)?;
        let mut records = Records {
            stream: &stream,
            at: *start,
        };
        read_sheet(&mut records, &book, gather)?;
    }
    Ok(())
}

/// The stream of records.
pub(super) fn stream_of(file: &Compound<'_>) -> Result<Vec<u8>, Stop> {
    if file.has("EncryptedPackage") {
        return Err(Stop::password());
    }
    if !file.has("Workbook") && file.has("Book") {
        return Err(old_version());
    }
    file.stream("Workbook")
}

fn old_version() -> Stop {
    Stop::foreign("the workbook is in a format from before 1997")
}

/// Records of the stream, one after the other.
pub(super) struct Records<'a> {
    pub(super) stream: &'a [u8],
    /// Where the next record begins.
    pub(super) at: usize,
}

impl<'a> Records<'a> {
    /// Type and body of the next record; `None` at the end of the stream.
    pub(super) fn next(&mut self) -> Option<(u16, &'a [u8])> {
        let kind = u16_at(self.stream, self.at)?;
        let length = usize::from(u16_at(self.stream, self.at.checked_add(2)?)?);
        let start = self.at.checked_add(4)?;
        let end = start.checked_add(length)?;
        let body = self.stream.get(start..end)?;
        self.at = end;
        Some((kind, body))
    }

    /// The body with those of the records that continue it.
    pub(super) fn continued(&mut self, body: &'a [u8]) -> Vec<&'a [u8]> {
        let mut bodies = vec![body];
        while u16_at(self.stream, self.at) == Some(CONTINUE) {
            match self.next() {
                Some((_, more)) => bodies.push(more),
                None => break,
            }
        }
        bodies
    }
}

/// What all sheets of a workbook share.
#[derive(Default)]
struct Book {
    texts: Vec<String>,
    formats: Formats,
    /// Name of each worksheet, and where it begins in the stream.
    sheets: Vec<(String, usize)>,
}

impl Book {
    fn read(stream: &[u8]) -> Result<Self, Stop> {
        let mut book = Self::default();
        let mut records = Records { stream, at: 0 };
        loop {
            let Some((kind, body)) = records.next() else {
                return Err(Stop::damaged("the workbook breaks off"));
            };
            match kind {
                BEGIN if u16_at(body, 0) != Some(VERSION) => return Err(old_version()),
                PASSWORD => return Err(Stop::password()),
                END => return Ok(book),
                SHARED_TEXTS => {
                    let texts = shared_texts(&records.continued(body));
                    book.texts = texts.ok_or_else(|| Stop::damaged("its texts break off"))?;
                }
                _ => book.add(kind, body).ok_or_else(too_short)?,
            }
        }
    }

    fn add(&mut self, kind: u16, body: &[u8]) -> Option<()> {
        match kind {
            DATE_SYSTEM => self.formats.from_1904 = u16_at(body, 0)? == 1,
            NUMBER_FORMAT => {
                let id = u32::from(u16_at(body, 0)?);
                self.formats
                    .add_pattern(id, &plain_text(&[body.get(2..)?])?);
            }
            STYLE => self.formats.add_style(u32::from(u16_at(body, 2)?)),
            // Only worksheets, which are of type 0, have cells.
            SHEET if u8_at(body, 5)? == 0 => {
                self.sheets
                    .push((short_text(body.get(6..)?)?, size_at(body, 0)?));
            }
            _ => {}
        }
        Some(())
    }
}

fn too_short() -> Stop {
    Stop::damaged("a record is too short")
}

fn read_sheet(records: &mut Records<'_>, book: &Book, gather: &mut Gather) -> Result<(), Stop> {
    // Charts inside a sheet are nested between a begin and an end of their own.
    let mut depth = 0_usize;
    let mut last_formula = None;
    loop {
        let Some((kind, body)) = records.next() else {
            return Err(Stop::damaged("a sheet breaks off"));
        };
        match kind {
            BEGIN => depth += 1,
            END if depth <= 1 => return Ok(()),
            END => depth -= 1,
            _ if depth > 1 => {}
            NOTE => gather.note_comments(),
            MERGED => merge(body, gather),
            PACKED_NUMBERS => put_packed_numbers(body, book, gather)?,
            FORMULA_TEXT => {
                if let Some((row, column)) = last_formula.take() {
                    let text = plain_text(&records.continued(body)).ok_or_else(too_short)?;
                    gather.put(row, column, Content::Text(text), true)?;
                }
            }
            FORMULA | SHARED_TEXT | NUMBER | TEXT | RICH_TEXT | TRUTH_OR_ERROR | PACKED_NUMBER => {
                let (row, column) = place_of(body).ok_or_else(too_short)?;
                let content = content_of(kind, body, book).ok_or_else(too_short)?;
                gather.put(row, column, content, kind == FORMULA)?;
                last_formula = (kind == FORMULA).then_some((row, column)).or(last_formula);
            }
            _ => {}
        }
    }
}

fn place_of(body: &[u8]) -> Option<(u32, u32)> {
    Some((u32::from(u16_at(body, 0)?), u32::from(u16_at(body, 2)?)))
}

/// What a cell record holds; `None` if it is damaged.
fn content_of(kind: u16, body: &[u8], book: &Book) -> Option<Content> {
    let style = usize::from(u16_at(body, 4)?);
    let content = match kind {
        NUMBER => book.formats.number(f64_at(body, 6)?, style),
        PACKED_NUMBER => book.formats.number(packed_at(body, 6)?, style),
        SHARED_TEXT => Content::Text(book.texts.get(size_at(body, 6)?)?.clone()),
        TEXT | RICH_TEXT => Content::Text(plain_text(&[body.get(6..)?])?),
        TRUTH_OR_ERROR => truth_or_error(u8_at(body, 6)?, u8_at(body, 7)? != 0),
        // A formula marks results other than numbers by two bytes of ones.
        _ if u16_at(body, 12)? == 0xFFFF => match u8_at(body, 6)? {
            1 => truth_or_error(u8_at(body, 8)?, false),
            2 => truth_or_error(u8_at(body, 8)?, true),
            // A text follows in a record of its own.
            _ => Content::Text(String::new()),
        },
        _ => book.formats.number(f64_at(body, 6)?, style),
    };
    Some(content)
}

fn truth_or_error(value: u8, is_error: bool) -> Content {
    if is_error {
        error_of(value)
    } else {
        Content::Truth(value != 0)
    }
}

/// Several packed numbers side by side: the row, the first column, then style and number of each.
fn put_packed_numbers(body: &[u8], book: &Book, gather: &mut Gather) -> Result<(), Stop> {
    let (row, first) = place_of(body).ok_or_else(too_short)?;
    let end = body.len().saturating_sub(2);
    let cells = body.get(4..end).unwrap_or_default().chunks_exact(6);
    for (column, cell) in (first..).zip(cells) {
        let style = usize::from(u16_at(cell, 0).unwrap_or(0));
        let value = packed_at(cell, 2).ok_or_else(too_short)?;
        gather.put(row, column, book.formats.number(value, style), false)?;
    }
    Ok(())
}

fn merge(body: &[u8], gather: &mut Gather) {
    for region in body.get(2..).unwrap_or_default().chunks_exact(8) {
        let side = |at| u16_at(region, at).map_or(0, u32::from);
        gather.merge((side(0), side(4), side(2), side(6)));
    }
}
