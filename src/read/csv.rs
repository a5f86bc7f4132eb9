//! Reads `.csv` files, alone or as a folder, and texts in memory: each is one sheet.
//!
//! Always true: a row keeps the number of the line on which it begins, blank lines
//! counted; what is not plainly a number stays text, so that no part number turns
//! into a quantity; all files of a folder have one decimal mark, which is found over all
//! of them before any number with a mark is read.

mod quotes;

use std::borrow::Cow;
use std::fs;
use std::path::{Path, PathBuf};

use ::csv::{ReaderBuilder, StringRecord};

use super::gather::{Gather, Outcome};
use super::notation::{Mark, Marks};
use super::stop::Stop;
use super::{Content, bytes_of, name_of};
use crate::diagnostic::{Code, Diagnostic};
use crate::place::{Grid, Place};

/// Reads one file.
pub(super) fn read_file(path: &Path, bytes: &[u8], gather: &mut Gather) -> Result<(), Stop> {
    sheet_of(path, bytes, gather)?;
    gather.read_texts_again(number_in);
    Ok(())
}

fn sheet_of(path: &Path, bytes: &[u8], gather: &mut Gather) -> Result<(), Stop> {
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
                let read = bytes_of(&path).and_then(|bytes| sheet_of(&path, &bytes, &mut gather));
                if let Err(stop) = read {
                    gather.note(stop.about(&name_of(&path)));
                }
            }
        }
        Err(stop) => gather.note(stop.about(&name_of(folder))),
    }
    gather.read_texts_again(number_in);
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
    gather.read_texts_again(number_in);
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
    if delimiter == b';' {
        gather.note_semicolons();
    }
    for (line, column) in quotes::swallowing(text, delimiter) {
        gather.note(unclosed(gather.place_at(line, column)));
    }
    let mut rows = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    let mut lines = Lines::new(text);
    let mut record = StringRecord::new();
    while rows.read_record(&mut record).map_err(Stop::damaged)? {
        let row = lines.line_of(record.position().map_or(0, ::csv::Position::byte));
        for (column, field) in (0..).zip(record.iter()) {
            gather.put(row, column, content_of(field.trim()), false)?;
        }
    }
    Ok(())
}

fn unclosed(place: Place) -> Diagnostic {
    let what = "a quotation mark opens here and takes in the lines after it";
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

/// A whole number without marks, or text for the time being.
fn content_of(field: &str) -> Content {
    let digits = field.strip_prefix(['+', '-']).unwrap_or(field);
    let whole = is_digits(digits).then(|| number_of(field, Marks::POINT));
    whole
        .flatten()
        .map_or_else(|| Content::Text(field.to_owned()), Content::Number)
}

/// What a text turns out to be, where it is plainly a number.
fn number_in(text: &str, marks: Marks) -> Option<Content> {
    number_of(text, marks).map(Content::Number)
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
    let (decimal, group, is_grouped) = match marks.comma {
        Mark::Decimal => (',', '.', marks.point == Mark::Thousands),
        Mark::Thousands => ('.', ',', true),
        Mark::Unknown => ('.', ',', false),
    };
    let (whole, fraction) = mantissa.split_once(decimal).unwrap_or((mantissa, ""));
    // `1.250` is not plain where the other numbers do not say what its point is.
    let is_doubtful = decimal == '.' && marks.point == Mark::Unknown && fraction.len() == 3;
    if is_doubtful && !whole.starts_with('0') {
        return None;
    }
    let plain = is_digits(fraction) && is_digits(power_digits) && !power_digits.is_empty();
    let whole = if is_digits(whole) {
        whole.to_owned()
    } else if is_grouped {
        without_groups(whole, group)?
    } else {
        return None;
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
fn without_groups(whole: &str, group: char) -> Option<String> {
    let mut groups = whole.split(group);
    let first = groups.next()?;
    let formed = (1..=3).contains(&first.len()) && is_digits(first) && !first.starts_with('0');
    let rest = groups.all(|each| each.len() == 3 && is_digits(each));
    (formed && rest).then(|| whole.replace(group, ""))
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
            "0,125",
            "012,500",
        ];
        for field in others {
            assert_eq!(number_of(field, Marks::POINT), None, "{field}");
        }
    }

    #[test]
    fn a_decimal_comma_brings_points_for_groups() {
        let marks = Marks::COMMA;
        assert_eq!(number_of("3,5", marks), Some(3.5));
        assert_eq!(number_of("1.234,5", marks), Some(1234.5));
        // With a decimal comma a lone point is a mistake, not a guess.
        assert_eq!(number_of("2.5", marks), None);
        assert_eq!(number_of("0.125", marks), None);
        assert_eq!(number_of("0,125", marks), Some(0.125));
    }

    #[test]
    fn a_mark_before_three_digits_is_not_plain_where_nothing_says_what_it_is() {
        let nothing = Marks {
            comma: Mark::Unknown,
            point: Mark::Decimal,
        };
        let both = Marks {
            comma: Mark::Unknown,
            point: Mark::Unknown,
        };
        let semicolons = Marks {
            comma: Mark::Decimal,
            point: Mark::Unknown,
        };
        let rows = [
            ("1,250", nothing, None),
            ("1.250", nothing, Some(1.25)),
            ("1,250", both, None),
            ("1.250", both, None),
            ("0.125", both, Some(0.125)),
            ("2.5", both, Some(2.5)),
            ("1,250", semicolons, Some(1.25)),
            ("1.250", semicolons, None),
        ];
        for (field, marks, value) in rows {
            assert_eq!(number_of(field, marks), value, "{field} {marks:?}");
        }
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
