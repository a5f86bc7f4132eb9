//! Reads `.csv` files, alone or as a folder, and texts in memory: each is one sheet.
//!
//! Always true: a row keeps the number of the line on which it begins, blank lines
//! counted; what is not plainly a number stays text, so that no part number turns
//! into a quantity.

use std::borrow::Cow;
use std::fs;
use std::path::{Path, PathBuf};

use ::csv::{ReaderBuilder, StringRecord};

use super::gather::{Gather, Outcome};
use super::stop::Stop;
use super::{Content, bytes_of, name_of};
use crate::diagnostic::{Code, Diagnostic};
use crate::place::{Grid, Place};

/// Reads one file.
pub(super) fn read_file(path: &Path, bytes: &[u8], gather: &mut Gather) -> Result<(), Stop> {
    let file = name_of(path);
    let sheet = path
        .file_stem()
        .map_or_else(|| file.clone(), |stem| stem.to_string_lossy().into());
    let place = Place {
        grid: Grid::Lines,
        ..Place::file(&file)
    };
    gather.start_sheet_at(&sheet, place)?;
    read_text(&text_of(bytes)?, gather)
}

/// Reads all `.csv` files of a folder, in the order of their names.
pub(super) fn read_folder(folder: &Path) -> Outcome {
    let mut gather = Gather::new(&name_of(folder));
    match files_of(folder) {
        Ok(files) => {
            for path in files {
                let read = bytes_of(&path).and_then(|bytes| read_file(&path, &bytes, &mut gather));
                if let Err(stop) = read {
                    gather.note(stop.about(&name_of(&path)));
                }
            }
        }
        Err(stop) => gather.note(stop.about(&name_of(folder))),
    }
    gather.finish()
}

/// Reads tables from texts in memory, in the order given.
pub(super) fn read_texts(name: &str, tables: &[(&str, &str)]) -> Outcome {
    let mut gather = Gather::new(name);
    for (table, text) in tables {
        let place = Place {
            grid: Grid::Lines,
            ..Place::sheet(name, table)
        };
        let read = gather
            .start_sheet_at(table, place)
            .and_then(|()| read_text(&text_of(text.as_bytes())?, &mut gather));
        if let Err(stop) = read {
            gather.note(stop.about(table));
        }
    }
    gather.finish()
}

fn files_of(folder: &Path) -> Result<Vec<PathBuf>, Stop> {
    let unreadable = |error: std::io::Error| {
        let message = format!("the folder cannot be read: {error}");
        Stop::cannot_open(message, "check that you may read it")
    };
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path();
        let is_csv = path
            .extension()
            .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
        // Some systems keep notes about a file in a hidden file with the same ending.
        if is_csv && !name_of(&path).starts_with(['.', '~']) {
            files.push(path);
        }
    }
    if files.is_empty() {
        let message = "the folder holds no .csv file".to_owned();
        return Err(Stop::cannot_open(
            message,
            "name a folder with one .csv file for each table",
        ));
    }
    files.sort();
    Ok(files)
}

/// The text of a file. Spreadsheet programs write UTF-8, or what Windows used before it.
fn text_of(bytes: &[u8]) -> Result<String, Stop> {
    let text = match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => decoded(rest),
        [0xFF, 0xFE, rest @ ..] => Cow::Owned(super::bytes::wide_text(rest)),
        _ => decoded(bytes),
    };
    if text.contains('\0') {
        return Err(Stop::foreign("the file is not text"));
    }
    // One kind of line end, so that lines can be counted.
    Ok(text.replace("\r\n", "\n").replace('\r', "\n"))
}

fn decoded(bytes: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => Cow::Owned(bytes.iter().map(|&byte| windows_1252(byte)).collect()),
    }
}

/// A character of Windows-1252: Latin-1 but for the bytes from 0x80 to 0x9F.
fn windows_1252(byte: u8) -> char {
    const UPPER: [char; 32] = [
        '€', '\u{81}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{8D}', 'Ž',
        '\u{8F}', '\u{90}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{9D}',
        'ž', 'Ÿ',
    ];
    match byte {
        0x80..=0x9F => UPPER[usize::from(byte - 0x80)],
        _ => char::from(byte),
    }
}

fn read_text(text: &str, gather: &mut Gather) -> Result<(), Stop> {
    let delimiter = delimiter_of(text);
    let reader = || {
        let mut builder = ReaderBuilder::new();
        builder
            .has_headers(false)
            .flexible(true)
            .delimiter(delimiter);
        builder.from_reader(text.as_bytes())
    };
    let comma = delimiter == b';'
        && reader()
            .records()
            .flatten()
            .any(|row| has_decimal_comma(&row));
    let marks = if comma {
        Marks {
            decimal: b',',
            group: b'.',
        }
    } else {
        Marks::POINT
    };
    let width = reader()
        .records()
        .flatten()
        .next()
        .map_or(0, |row| row.len());
    let mut lines = Lines::new(text);
    let mut record = StringRecord::new();
    let mut rows = reader();
    while rows.read_record(&mut record).map_err(Stop::damaged)? {
        let row = lines.line_of(record.position().map_or(0, ::csv::Position::byte));
        for (column, field) in (0..).zip(record.iter()) {
            if swallows_rows(field, delimiter, width) {
                gather.note(unclosed(gather.place_at(row, column)));
            }
            gather.put(row, column, content_of(field.trim(), marks), false)?;
        }
    }
    Ok(())
}

/// Whether a field holds what looks like whole rows: line ends, and as many separators as
/// a row has. Then a quotation mark was opened and never closed.
fn swallows_rows(field: &str, delimiter: u8, width: usize) -> bool {
    let separators = field.bytes().filter(|byte| *byte == delimiter).count();
    field.contains('\n') && width > 1 && separators + 1 >= width
}

fn unclosed(place: Place) -> Diagnostic {
    let what = "this cell swallows the rows after it: a quotation mark in it is not closed";
    Diagnostic::error(Code::NotReadable, place, what)
        .hint("close the quotation mark, or write inches as in: 18 in")
}

/// Counts lines up to the beginning of each record.
struct Lines<'a> {
    text: &'a str,
    counted: usize,
    line: u32,
}

impl<'a> Lines<'a> {
    fn new(text: &'a str) -> Self {
        Self {
            text,
            counted: 0,
            line: 0,
        }
    }

    /// The line from zero of the record that begins at or after this byte, behind blank lines.
    fn line_of(&mut self, byte: u64) -> u32 {
        let start = usize::try_from(byte)
            .unwrap_or(usize::MAX)
            .min(self.text.len());
        let rest = self.text.get(start..).unwrap_or_default();
        let end = self.text.len() - rest.trim_start_matches('\n').len();
        let passed = self.text.get(self.counted..end).unwrap_or_default();
        let lines = passed.matches('\n').count();
        self.line = self
            .line
            .saturating_add(u32::try_from(lines).unwrap_or(u32::MAX));
        self.counted = self.counted.max(end);
        self.line
    }
}

/// The delimiter that the heading line has most often outside quotes.
fn delimiter_of(text: &str) -> u8 {
    let heading = text
        .lines()
        .find(|line| !line.trim().is_empty())
        .unwrap_or_default();
    let mut best = (b',', 0);
    for candidate in [b'\t', b';', b','] {
        let mut quoted = false;
        let mut count = 0;
        for byte in heading.bytes() {
            quoted ^= byte == b'"';
            count += usize::from(byte == candidate && !quoted);
        }
        if count > best.1 {
            best = (candidate, count);
        }
    }
    best.0
}

/// The signs inside a number.
#[derive(Clone, Copy)]
struct Marks {
    decimal: u8,
    group: u8,
}

impl Marks {
    const POINT: Self = Self {
        decimal: b'.',
        group: b',',
    };
}

/// Whether a row has a number that only makes sense with a decimal comma.
fn has_decimal_comma(row: &StringRecord) -> bool {
    let marks = Marks {
        decimal: b',',
        group: b'.',
    };
    row.iter()
        .any(|field| field.contains(',') && number_of(field.trim(), marks).is_some())
}

fn content_of(field: &str, marks: Marks) -> Content {
    number_of(field, marks).map_or_else(|| Content::Text(field.to_owned()), Content::Number)
}

/// A plain number: a sign, digits perhaps in groups of three, a fraction, a power of ten.
fn number_of(field: &str, marks: Marks) -> Option<f64> {
    let starts = field.bytes().next()?;
    if !starts.is_ascii_digit() && !b"+-.,".contains(&starts) {
        return None;
    }
    let unsigned = field.strip_prefix(['+', '-']).unwrap_or(field);
    let (mantissa, power) = unsigned.split_once(['e', 'E']).unwrap_or((unsigned, "0"));
    let power_digits = power.strip_prefix(['+', '-']).unwrap_or(power);
    let decimal = char::from(marks.decimal);
    let (whole, fraction) = mantissa.split_once(decimal).unwrap_or((mantissa, ""));
    let plain = is_digits(fraction) && is_digits(power_digits) && !power_digits.is_empty();
    let whole = if is_digits(whole) {
        whole.to_owned()
    } else {
        without_groups(whole, marks.group)?
    };
    if !plain || (whole.is_empty() && fraction.is_empty()) {
        return None;
    }
    let sign = if field.starts_with('-') { "-" } else { "" };
    let value: f64 = format!("{sign}{whole}.{fraction}e{power}").parse().ok()?;
    value.is_finite().then_some(value)
}

fn is_digits(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_digit())
}

/// Digits in groups of three behind a first group of one to three: `1,234,567`.
fn without_groups(whole: &str, group: u8) -> Option<String> {
    let mut groups = whole.split(char::from(group));
    let first = groups.next()?;
    let formed = (1..=3).contains(&first.len()) && is_digits(first);
    let rest = groups.all(|each| each.len() == 3 && is_digits(each));
    (formed && rest).then(|| whole.replace(char::from(group), ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_numbers_are_numbers() {
        let rows = [
            ("12", 12.0),
            ("-3.5", -3.5),
            ("+.5", 0.5),
            ("5.", 5.0),
            ("1,234.5", 1234.5),
            ("1,234,567", 1_234_567.0),
            ("1e5", 100_000.0),
            ("2.5E-3", 0.0025),
        ];
        for (field, value) in rows {
            assert_eq!(number_of(field, Marks::POINT), Some(value), "{field}");
        }
        let others = [
            "",
            "-",
            ".",
            "NaN",
            "inf",
            "1,23",
            "12,34.5",
            ",234",
            "1,234,",
            "1.2.3",
            "0x10",
            "1e",
            "e5",
            "1e999",
            "½",
            "5%",
            "2026-05-01",
            "1 234",
            "--1",
            "1,2345",
            "1.234,5",
        ];
        for field in others {
            assert_eq!(number_of(field, Marks::POINT), None, "{field}");
        }
    }

    #[test]
    fn a_decimal_comma_brings_points_for_groups() {
        let marks = Marks {
            decimal: b',',
            group: b'.',
        };
        assert_eq!(number_of("3,5", marks), Some(3.5));
        assert_eq!(number_of("1.234,5", marks), Some(1234.5));
        // With a decimal comma a lone point is a mistake, not a guess.
        assert_eq!(number_of("2.5", marks), None);
    }

    #[test]
    fn the_heading_line_tells_the_delimiter() {
        assert_eq!(delimiter_of("\n \nname;depth (m)\n1,2,3,4"), b';');
        assert_eq!(delimiter_of("name\tdepth, in m\tnote"), b'\t');
        assert_eq!(delimiter_of("\"a;b;c;d\",name"), b',');
        assert_eq!(delimiter_of("name"), b',');
        assert_eq!(delimiter_of(""), b',');
    }
}
