//! Of an `.xls` what the other reader needs, and nothing that could harm it.
//!
//! The other reader takes the whole file apart at once: it reserves memory for the
//! dimensions that a sheet declares, puts formulas and names into words, and follows
//! chains of sectors however long. So it is given the stream of records in a plain
//! container of our own, with the records that it does not need made void.
//!
//! Always true: what is given ends, lies in the rectangles that its cells span, and
//! holds no formula, no name and no declared size.

use super::CELL_BYTES;
use crate::read::bytes::{size_at, u8_at, u16_at};
use crate::read::limits::{CROSS_CHECK_BYTES, SHEETS};
use crate::read::office_97::{
    BEGIN, END, FORMULA, NUMBER, PACKED_NUMBER, PACKED_NUMBERS, RICH_TEXT, Records, SHARED_TEXT,
    SHARED_TEXTS, SHEET, TEXT, TRUTH_OR_ERROR,
};

// Records that are made void.
const OTHER_SHEETS: u16 = 0x17;
const NAME: u16 = 0x18;
const DIMENSIONS: u16 = 0x200;

/// A type that no reader looks for.
const VOID: [u8; 2] = [0, 0];

/// Records over which one table of texts may be spread: 80 MB.
const CONTINUATIONS: usize = 10_000;

/// A file with nothing but the stream; `None` where it is better not read again.
pub(super) fn harmless(mut stream: Vec<u8>) -> Option<Vec<u8>> {
    if stream.len() as u64 > CROSS_CHECK_BYTES / 4 {
        return None;
    }
    let void = Void::find(&stream)?;
    for at in void.records {
        stream.get_mut(at..at + 2)?.copy_from_slice(&VOID);
    }
    for at in void.formulas {
        // Its length becomes zero.
        stream.get_mut(at..at + 2)?.copy_from_slice(&[0, 0]);
    }
    // Where records overlap, what was made void in one may have changed another.
    let left = Void::find(&stream)?;
    let nothing = left.records.is_empty() && left.formulas.is_empty();
    nothing.then(|| container(&stream))
}

/// What is to be made void: where records begin, and where lengths of formulas stand.
#[derive(Default)]
struct Void {
    records: Vec<usize>,
    formulas: Vec<usize>,
}

impl Void {
    /// Walks as the other reader does: the records of the workbook, then each sheet's.
    fn find(stream: &[u8]) -> Option<Self> {
        let mut void = Self::default();
        let mut sheets = Vec::new();
        let mut records = Records { stream, at: 0 };
        loop {
            let at = records.at;
            let (kind, body) = records.next()?;
            match kind {
                END => break,
                NAME | OTHER_SHEETS => void.records.push(at),
                SHEET if u8_at(body, 5)? != 0 => void.records.push(at),
                SHEET => sheets.push(size_at(body, 0)?),
                SHARED_TEXTS if records.continued(body).len() > CONTINUATIONS => return None,
                _ => {}
            }
        }
        let (mut walked, mut reserved) = (0, 0_u64);
        for start in &sheets {
            let mut records = Records { stream, at: *start };
            let (rows, columns) = void.find_in_sheet(&mut records)?;
            walked += records.at - start;
            reserved = reserved.saturating_add(rows * columns * CELL_BYTES);
        }
        let sound =
            sheets.len() <= SHEETS && walked <= stream.len() && reserved <= CROSS_CHECK_BYTES;
        sound.then_some(void)
    }

    /// Walks through a sheet; gives the rows and columns that its cells span.
    fn find_in_sheet(&mut self, records: &mut Records<'_>) -> Option<(u64, u64)> {
        let mut span = Span::default();
        let (mut begun, mut depth) = (false, 0_usize);
        loop {
            let at = records.at;
            let (kind, body) = records.next()?;
            match kind {
                END if depth == 0 => return Some(span.size()),
                END => depth -= 1,
                BEGIN if begun => depth += 1,
                BEGIN => begun = true,
                _ if depth > 0 => {}
                DIMENSIONS => self.records.push(at),
                FORMULA => {
                    let length_at = 20;
                    if u16_at(body, length_at)? != 0 {
                        self.formulas.push(at + 4 + length_at);
                    }
                    span.hold(body, 1)?;
                }
                PACKED_NUMBERS => span.hold(body, body.len() / 6)?,
                NUMBER | TEXT | RICH_TEXT | TRUTH_OR_ERROR | SHARED_TEXT | PACKED_NUMBER => {
                    span.hold(body, 1)?;
                }
                _ => {}
            }
        }
    }
}

/// The rectangle of all cells of a sheet.
#[derive(Default)]
struct Span {
    rows: Option<(u16, u16)>,
    columns: Option<(u16, u16)>,
}

impl Span {
    /// Holds so many cells of a record side by side.
    fn hold(&mut self, body: &[u8], count: usize) -> Option<()> {
        let (row, first) = (u16_at(body, 0)?, u16_at(body, 2)?);
        let last = u16::try_from(count.saturating_sub(1))
            .ok()?
            .checked_add(first)?;
        let (top, bottom) = self.rows.unwrap_or((row, row));
        self.rows = Some((top.min(row), bottom.max(row)));
        let (left, right) = self.columns.unwrap_or((first, last));
        self.columns = Some((left.min(first), right.max(last)));
        Some(())
    }

    fn size(&self) -> (u64, u64) {
        let length =
            |side: Option<(u16, u16)>| side.map_or(0, |(first, last)| u64::from(last - first) + 1);
        (length(self.rows), length(self.columns))
    }
}

const SECTOR: usize = 4096;
/// Entries of the table of sectors in one sector.
const ENTRIES: usize = SECTOR / 4;
const END_OF_CHAIN: u32 = 0xFFFF_FFFE;
const TABLE_SECTOR: u32 = 0xFFFF_FFFD;
const FREE: u32 = 0xFFFF_FFFF;

/// A compound file with one stream, padded so that it needs no mini sectors: the table of
/// sectors, the directory, the stream.
fn container(stream: &[u8]) -> Vec<u8> {
    let sectors = stream.len().div_ceil(SECTOR).max(1);
    let mut tables = 1;
    while tables * ENTRIES < tables + 1 + sectors {
        tables += 1;
    }
    let number = |of: usize| u32::try_from(of).unwrap_or(FREE);
    let mut next = vec![TABLE_SECTOR; tables];
    next.push(END_OF_CHAIN);
    let first = tables + 1;
    next.extend((first + 1..first + sectors).map(number));
    next.push(END_OF_CHAIN);
    next.resize(tables * ENTRIES, FREE);
    let mut file = header(tables, number(tables));
    file.extend(next.iter().flat_map(|sector| sector.to_le_bytes()));
    let begin = file.len();
    file.extend(entry("Root Entry", 5, 0, 0));
    file.extend(entry("Workbook", 2, number(first), sectors * SECTOR));
    file.resize(begin + SECTOR, 0);
    file.extend_from_slice(stream);
    file.resize(SECTOR * (1 + first + sectors), 0);
    file
}

/// The header, which fills a sector: sizes, where the directory is, and where the table is.
fn header(tables: usize, directory: u32) -> Vec<u8> {
    let mut header = crate::read::compound::MAGIC.to_vec();
    header.resize(24, 0);
    // Version 4, the order of bytes, the sizes of sectors and mini sectors as powers of two.
    header.extend([0x3E, 0, 4, 0, 0xFE, 0xFF, 12, 0, 6, 0]);
    header.resize(44, 0);
    let count = u32::try_from(tables).unwrap_or(FREE);
    for field in [count, directory, 0, 4096, END_OF_CHAIN, 0, END_OF_CHAIN, 0] {
        header.extend(field.to_le_bytes());
    }
    let places = (0..count).chain(std::iter::repeat(FREE)).take(109);
    header.extend(places.flat_map(u32::to_le_bytes));
    header.resize(SECTOR, 0);
    header
}

fn entry(name: &str, kind: u8, start: u32, size: usize) -> Vec<u8> {
    let mut entry: Vec<u8> = name.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let length = u16::try_from(entry.len() + 2).unwrap_or(0);
    entry.resize(64, 0);
    entry.extend(length.to_le_bytes());
    entry.extend([kind, 1]);
    entry.resize(116, 0);
    entry.extend(start.to_le_bytes());
    entry.extend((size as u64).to_le_bytes());
    entry
}
