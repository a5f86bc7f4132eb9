//! Reads `.xlsb`: records of a type, a length and a body, in one pass over each sheet.
//!
//! Records of other kinds than those named here are passed over. A formula of this
//! format always has a stored value.

use std::io::{ErrorKind, Read};

use super::Content;
use super::bytes::{error_of, f64_at, packed_at, size_at, u8_at, u16_at, u32_at, wide_text};
use super::dates::Formats;
use super::gather::Gather;
use super::limits::PART_BYTES;
use super::package::{Main, Package};
use super::stop::Stop;

// Types of the records that are read.
const ROW: u16 = 0;
const FIRST_FILLED_CELL: u16 = 2;
const FIRST_FORMULA: u16 = 8;
const LAST_CELL: u16 = 11;
const SHARED_TEXT: u16 = 0x13;
const NUMBER_FORMAT: u16 = 0x2C;
const STYLE: u16 = 0x2F;
const WORKBOOK_PROPERTIES: u16 = 0x99;
const SHEET: u16 = 0x9C;
const MERGED: u16 = 0xB0;
const NAME: u16 = 0x27;
const CELL_STYLES_BEGIN: u16 = 0x269;
const CELL_STYLES_END: u16 = 0x26A;

/// Bytes of all names together that another reader may put into words, which takes it
/// longer than the names grow.
const NAMES: usize = 256 << 10;

/// Reads all worksheets of the package.
pub(super) fn read(package: &mut Package<'_>, gather: &mut Gather) -> Result<(), Stop> {
    let main = package.main()?;
    let mut formats = Formats::default();
    if let Some(part) = main.first("styles") {
        read_styles(&mut Records::new(package.part(part)?), &mut formats)?;
    }
    let mut texts = Vec::new();
    if let Some(part) = main.first("sharedStrings") {
        let mut records = Records::new(package.part(part)?);
        while let Some(kind) = records.next()? {
            if kind == SHARED_TEXT {
                texts.push(records.need(text_at(&records.body, 1))?.0);
            }
        }
    }
    let workbook = Records::new(package.part(&main.part)?);
    let sheets = read_workbook(workbook, &main, &mut formats, gather)?;
    let usual = main.part == "xl/workbook.bin"
        && main.is_usual("styles", "styles.bin", package)
        && main.is_usual("sharedStrings", "sharedStrings.bin", package);
    if !usual {
        gather.prospect().doubt();
    }
    for (name, part) in sheets {
        gather.start_sheet(&name)?;
        let mut records = Records::new(package.part(&part)?);
        read_sheet(&mut records, &texts, &formats, gather)?;
    }
    Ok(())
}

/// A part of the workbook as a series of records.
struct Records<R> {
    part: R,
    body: Vec<u8>,
}

impl<R: Read> Records<R> {
    fn new(part: R) -> Self {
        Self {
            part,
            body: Vec::new(),
        }
    }

    /// Moves to the next record and gives its type; `None` at the end of the part.
    fn next(&mut self) -> Result<Option<u16>, Stop> {
        let Some(first) = self.byte()? else {
            return Ok(None);
        };
        let mut kind = u16::from(first & 0x7F);
        if first & 0x80 != 0 {
            kind |= u16::from(self.needed_byte()? & 0x7F) << 7;
        }
        let mut length: u64 = 0;
        for shift in [0, 7, 14, 21] {
            let byte = self.needed_byte()?;
            length |= u64::from(byte & 0x7F) << shift;
            if byte & 0x80 == 0 {
                break;
            }
        }
        self.body.clear();
        // The body grows with what is there, not with what the length says.
        let read = self
            .part
            .by_ref()
            .take(length.min(PART_BYTES))
            .read_to_end(&mut self.body);
        if read.map_err(Stop::damaged)? as u64 != length {
            return Err(Stop::damaged("a record breaks off"));
        }
        Ok(Some(kind))
    }

    fn byte(&mut self) -> Result<Option<u8>, Stop> {
        let mut byte = [0];
        match self.part.read_exact(&mut byte) {
            Ok(()) => Ok(Some(byte[0])),
            Err(error) if error.kind() == ErrorKind::UnexpectedEof => Ok(None),
            Err(error) => Err(Stop::damaged(error)),
        }
    }

    fn needed_byte(&mut self) -> Result<u8, Stop> {
        let byte = self.byte()?;
        self.need(byte)
    }

    /// A field that the record must have.
    fn need<T>(&self, field: Option<T>) -> Result<T, Stop> {
        field.ok_or_else(|| {
            let length = self.body.len();
            Stop::damaged(format_args!("a record of {length} bytes is too short"))
        })
    }
}

/// A text with its length before it, and the position after it.
fn text_at(body: &[u8], at: usize) -> Option<(String, usize)> {
    let length = size_at(body, at)?.checked_mul(2)?;
    let start = at + 4;
    let end = start.checked_add(length)?;
    Some((wide_text(body.get(start..end)?), end))
}

fn read_styles<R: Read>(records: &mut Records<R>, formats: &mut Formats) -> Result<(), Stop> {
    let mut in_cell_styles = false;
    while let Some(kind) = records.next()? {
        match kind {
            NUMBER_FORMAT => {
                let id = records.need(u16_at(&records.body, 0))?;
                let pattern = records.need(text_at(&records.body, 2))?.0;
                formats.add_pattern(u32::from(id), &pattern);
            }
            CELL_STYLES_BEGIN => in_cell_styles = true,
            CELL_STYLES_END => in_cell_styles = false,
            STYLE if in_cell_styles => {
                let id = records.need(u16_at(&records.body, 2))?;
                formats.add_style(u32::from(id));
            }
            _ => {}
        }
    }
    Ok(())
}

/// Names and parts of the worksheets, in their order.
fn read_workbook<R: Read>(
    mut records: Records<R>,
    main: &Main,
    formats: &mut Formats,
    gather: &mut Gather,
) -> Result<Vec<(String, String)>, Stop> {
    let mut sheets = Vec::new();
    let mut name_bytes = 0;
    while let Some(kind) = records.next()? {
        match kind {
            WORKBOOK_PROPERTIES => {
                formats.from_1904 = u8_at(&records.body, 0).is_some_and(|flags| flags & 1 == 1);
            }
            NAME => name_bytes += records.body.len(),
            SHEET => {
                let (id, end) = records.need(text_at(&records.body, 8))?;
                let (name, _) = records.need(text_at(&records.body, end))?;
                if let Some(part) = main.worksheet(&id)? {
                    sheets.push((name, part.to_owned()));
                }
            }
            _ => {}
        }
    }
    if name_bytes > NAMES {
        gather.prospect().doubt();
    }
    Ok(sheets)
}

fn read_sheet<R: Read>(
    records: &mut Records<R>,
    texts: &[String],
    formats: &Formats,
    gather: &mut Gather,
) -> Result<(), Stop> {
    let mut row = 0;
    while let Some(kind) = records.next()? {
        let body = &records.body;
        match kind {
            ROW => row = records.need(u32_at(body, 0))?,
            FIRST_FILLED_CELL..=LAST_CELL => {
                let column = records.need(u32_at(body, 0))?;
                let content = records.need(content_of(kind, body, texts, formats))?;
                gather.put(row, column, content, kind >= FIRST_FORMULA)?;
            }
            MERGED => {
                let corner = |at| records.need(u32_at(body, at));
                gather.merge((corner(0)?, corner(8)?, corner(4)?, corner(12)?));
            }
            _ => {}
        }
    }
    Ok(())
}

/// What a cell record holds; `None` if it is damaged.
fn content_of(kind: u16, body: &[u8], texts: &[String], formats: &Formats) -> Option<Content> {
    let style = usize::try_from(u32_at(body, 4)? & 0x00FF_FFFF).ok()?;
    let content = match kind {
        2 => formats.number(packed_at(body, 8)?, style),
        3 | 11 => error_of(u8_at(body, 8)?),
        4 | 10 => Content::Truth(u8_at(body, 8)? != 0),
        5 | 9 => formats.number(f64_at(body, 8)?, style),
        7 => Content::Text(texts.get(size_at(body, 8)?)?.clone()),
        _ => Content::Text(text_at(body, 8)?.0),
    };
    Some(content)
}
