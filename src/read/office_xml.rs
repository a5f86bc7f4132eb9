//! Reads `.xlsx` and `.xlsm`: cell by cell, in one pass over each sheet.
//!
//! The widely used reader crate is not used here, because it reserves memory for as
//! many texts as the file claims to have, which ends the program, and refuses a whole
//! workbook for one `#SPILL!`. It serves the cross-check, where that is safe.

use std::borrow::Cow;
use std::io::BufRead;

use super::Content;
use super::dates::{Formats, serial_of_iso};
use super::gather::Gather;
use super::package::Package;
use super::stop::Stop;
use super::xml::{Step, Tag, Xml, bare};

/// Reads all worksheets of the package.
pub(super) fn read(package: &mut Package<'_>, gather: &mut Gather) -> Result<(), Stop> {
    let main = package.main()?;
    let mut formats = Formats::default();
    if let Some(part) = main.first("styles") {
        read_styles(&mut Xml::new(package.part(part)?), &mut formats)?;
    }
    let mut texts = Vec::new();
    if let Some(part) = main.first("sharedStrings") {
        let declared;
        (texts, declared) = read_texts(&mut Xml::new(package.part(part)?))?;
        if declared > texts.len() {
            gather.prospect().doubt();
        }
    }
    for (kind, file) in [
        ("styles", "styles.xml"),
        ("sharedStrings", "sharedStrings.xml"),
    ] {
        if !main.is_usual(kind, file, package) {
            gather.prospect().doubt();
        }
    }
    let sheets = read_workbook(&mut Xml::new(package.part(&main.part)?), &mut formats)?;
    for (name, id) in sheets {
        if !gather.wants(&name) {
            continue;
        }
        let Some(part) = main.worksheet(&id)? else {
            continue;
        };
        gather.start_sheet(&name)?;
        let book = Book {
            texts: &texts,
            formats: &formats,
        };
        read_sheet(&mut Xml::new(package.part(part)?), &book, gather)?;
    }
    Ok(())
}

/// What all sheets of a workbook share.
struct Book<'a> {
    texts: &'a [String],
    formats: &'a Formats,
}

/// A cell while it is being read.
#[derive(Default)]
struct Pending {
    row: u32,
    column: u32,
    style: usize,
    kind: Kind,
    value: String,
    has_value: bool,
    formula: bool,
}

/// What the value of a cell is, as its `t` says.
#[derive(Default, Clone, Copy, PartialEq, Eq)]
enum Kind {
    #[default]
    Number,
    Shared,
    Text,
    Truth,
    Error,
    Date,
}

/// Names and relation identifiers of the sheets, in their order.
fn read_workbook<R: BufRead>(
    xml: &mut Xml<R>,
    formats: &mut Formats,
) -> Result<Vec<(String, String)>, Stop> {
    let mut sheets = Vec::new();
    loop {
        match xml.step()? {
            Step::Open(tag) if tag.local() == b"sheet" => {
                let name = tag.attribute("name")?.unwrap_or_default().into_owned();
                let id = tag.attribute("id")?.unwrap_or_default().into_owned();
                sheets.push((name, id));
            }
            Step::Open(tag) if tag.local() == b"workbookPr" => {
                if let Some(choice) = tag.attribute("date1904")? {
                    formats.from_1904 = is_true(&choice);
                }
            }
            Step::End => return Ok(sheets),
            _ => {}
        }
    }
}

fn read_styles<R: BufRead>(xml: &mut Xml<R>, formats: &mut Formats) -> Result<(), Stop> {
    let mut in_cell_styles = false;
    loop {
        match xml.step()? {
            Step::Open(tag) => match tag.local() {
                b"numFmt" => {
                    let id = number_of(tag.attribute("numFmtId")?);
                    let pattern = tag.attribute("formatCode")?.unwrap_or_default();
                    formats.add_pattern(id, &pattern);
                }
                b"cellXfs" => in_cell_styles = true,
                b"xf" if in_cell_styles => formats.add_style(number_of(tag.attribute("numFmtId")?)),
                _ => {}
            },
            Step::Close(tag) if tag.local() == b"cellXfs" => in_cell_styles = false,
            Step::End => return Ok(()),
            _ => {}
        }
    }
}

/// The shared texts, and how many the part says there are; runs of rich text are joined
/// and phonetic readings left out.
fn read_texts<R: BufRead>(xml: &mut Xml<R>) -> Result<(Vec<String>, usize), Stop> {
    let mut texts = Vec::new();
    let mut declared = 0;
    let mut text = String::new();
    let mut inside = Inside::Nothing;
    loop {
        match xml.step()? {
            Step::Open(tag) => match tag.local() {
                b"sst" => declared = declared_texts(&tag)?.max(declared),
                b"si" => text.clear(),
                b"rPh" => inside = Inside::Phonetic,
                b"t" if inside != Inside::Phonetic => inside = Inside::Value,
                _ => {}
            },
            Step::Text(piece) if inside == Inside::Value => text.push_str(&piece),
            Step::Close(tag) => match tag.local() {
                b"si" => texts.push(without_escapes(&text).into_owned()),
                b"rPh" => inside = Inside::Nothing,
                b"t" if inside == Inside::Value => inside = Inside::Nothing,
                _ => {}
            },
            Step::End => return Ok((texts, declared)),
            Step::Text(_) => {}
        }
    }
}

/// How many texts there are to be; what is no number counts as too many.
fn declared_texts(tag: &Tag<'_>) -> Result<usize, Stop> {
    let count = tag.attribute("uniqueCount")?;
    Ok(count.map_or(0, |count| count.trim().parse().unwrap_or(usize::MAX)))
}

/// Which characters of a sheet are being read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Inside {
    Nothing,
    Value,
    Phonetic,
}

fn read_sheet<R: BufRead>(
    xml: &mut Xml<R>,
    book: &Book<'_>,
    gather: &mut Gather,
) -> Result<(), Stop> {
    let mut cell = Pending::default();
    let mut inside = Inside::Nothing;
    loop {
        match xml.step()? {
            Step::Open(tag) => match tag.local() {
                b"row" => cell.begin_row(&tag)?,
                b"c" => cell.begin(&tag)?,
                b"f" => cell.formula = true,
                b"v" => {
                    cell.has_value = true;
                    inside = Inside::Value;
                }
                b"t" if inside != Inside::Phonetic => inside = Inside::Value,
                b"rPh" => inside = Inside::Phonetic,
                _ => {}
            },
            Step::Text(piece) if inside == Inside::Value => cell.value.push_str(&piece),
            Step::Close(tag) => match tag.local() {
                b"c" => {
                    if let Some(content) = cell.content(book)? {
                        gather.put(cell.row, cell.column, content, cell.formula)?;
                    }
                    cell.column = cell.column.saturating_add(1);
                }
                b"row" => cell.row = cell.row.saturating_add(1),
                b"t" if inside == Inside::Phonetic => {}
                b"v" | b"t" | b"rPh" => inside = Inside::Nothing,
                b"sheetData" => break,
                _ => {}
            },
            Step::End => break,
            Step::Text(_) => {}
        }
    }
    read_merged(xml, gather)
}

fn read_merged<R: BufRead>(xml: &mut Xml<R>, gather: &mut Gather) -> Result<(), Stop> {
    loop {
        match xml.step()? {
            Step::Open(tag) if tag.local() == b"mergeCell" => {
                let region = tag.attribute("ref")?.unwrap_or_default();
                let corners = region.split_once(':');
                let first = corners.and_then(|(first, _)| position(&first.replace('$', "")));
                let last = corners.and_then(|(_, last)| position(&last.replace('$', "")));
                if let (Some(first), Some(last)) = (first, last) {
                    gather.merge((first.0, first.1, last.0, last.1));
                }
            }
            Step::End => return Ok(()),
            _ => {}
        }
    }
}

impl Pending {
    /// A row says its number, or follows the row before.
    fn begin_row(&mut self, tag: &Tag<'_>) -> Result<(), Stop> {
        self.column = 0;
        if let Some(number) = tag.attribute("r")? {
            let index = number
                .parse::<u32>()
                .ok()
                .and_then(|number| number.checked_sub(1));
            self.row = index.ok_or_else(|| Stop::damaged("a row has no valid number"))?;
        }
        Ok(())
    }

    /// A cell says its address, or follows the cell before.
    fn begin(&mut self, tag: &Tag<'_>) -> Result<(), Stop> {
        self.style = 0;
        self.kind = Kind::Number;
        self.value.clear();
        self.has_value = false;
        self.formula = false;
        for attribute in tag.attributes() {
            let (key, value) = attribute?;
            match bare(key) {
                b"r" => {
                    let place = position(&value);
                    (self.row, self.column) =
                        place.ok_or_else(|| Stop::damaged("a cell has no valid address"))?;
                }
                b"s" => self.style = value.parse().unwrap_or(0),
                b"t" => self.kind = kind_of(&value)?,
                _ => {}
            }
        }
        Ok(())
    }

    /// What the cell holds; `None` for an empty cell.
    fn content(&self, book: &Book<'_>) -> Result<Option<Content>, Stop> {
        let text = self.value.as_str();
        if self.kind == Kind::Text {
            let stored = self.has_value || !self.formula || !text.is_empty();
            let content = Content::Text(without_escapes(text).into_owned());
            return Ok(Some(if stored {
                content
            } else {
                Content::NotCalculated
            }));
        }
        let text = text.trim();
        if text.is_empty() {
            return Ok(self.formula.then_some(Content::NotCalculated));
        }
        let content = match self.kind {
            Kind::Number => match text.parse::<f64>() {
                Ok(value) => book.formats.number(value, self.style),
                Err(_) => Content::Text(self.value.clone()),
            },
            Kind::Shared => {
                let text = text
                    .parse::<usize>()
                    .ok()
                    .and_then(|index| book.texts.get(index));
                let text = text.ok_or_else(|| Stop::damaged("a text of a cell is missing"))?;
                Content::Text(text.clone())
            }
            Kind::Truth => Content::Truth(is_true(text)),
            Kind::Error => Content::Error(text.to_owned()),
            Kind::Date => {
                serial_of_iso(text).map_or_else(|| Content::Text(text.to_owned()), Content::Date)
            }
            Kind::Text => return Ok(None),
        };
        Ok(Some(content))
    }
}

fn kind_of(word: &str) -> Result<Kind, Stop> {
    match word {
        "n" => Ok(Kind::Number),
        "s" => Ok(Kind::Shared),
        "str" | "inlineStr" => Ok(Kind::Text),
        "b" => Ok(Kind::Truth),
        "e" => Ok(Kind::Error),
        "d" => Ok(Kind::Date),
        _ => Err(Stop::damaged(format_args!(
            "a cell is of the unknown kind {word:?}"
        ))),
    }
}

fn is_true(word: &str) -> bool {
    word == "1" || word.eq_ignore_ascii_case("true")
}

fn number_of(attribute: Option<Cow<'_, str>>) -> u32 {
    attribute.and_then(|value| value.parse().ok()).unwrap_or(0)
}

/// Row and column of an address such as `E4`.
fn position(address: &str) -> Option<(u32, u32)> {
    let digits = address.find(|letter: char| letter.is_ascii_digit())?;
    let mut column: u32 = 0;
    for letter in address.bytes().take(digits) {
        let letter = letter.to_ascii_uppercase();
        let value = u32::from(letter.checked_sub(b'A').filter(|value| *value < 26)?) + 1;
        column = column.checked_mul(26)?.checked_add(value)?;
    }
    let row: u32 = address[digits..].parse().ok()?;
    Some((row.checked_sub(1)?, column.checked_sub(1)?))
}

/// Text with escapes such as `_x000D_`, by which the format writes control characters and
/// halves of characters beyond two bytes, resolved.
fn without_escapes(text: &str) -> Cow<'_, str> {
    if !text.contains("_x") {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find("_x") {
        out.push_str(&rest[..start]);
        rest = &rest[start..];
        let mut units = Vec::new();
        while let Some(unit) = escaped_unit(rest) {
            units.push(unit);
            rest = &rest[7..];
        }
        if units.is_empty() {
            out.push_str("_x");
            rest = &rest[2..];
        }
        let characters = char::decode_utf16(units);
        out.extend(characters.map(|unit| unit.unwrap_or(char::REPLACEMENT_CHARACTER)));
    }
    out.push_str(rest);
    Cow::Owned(out)
}

/// What the escape stands for with which a text begins.
fn escaped_unit(text: &str) -> Option<u16> {
    let digits = text.strip_prefix("_x")?.get(..4)?;
    let closed = text.as_bytes().get(6) == Some(&b'_');
    let plain = digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    u16::from_str_radix(digits, 16)
        .ok()
        .filter(|_| closed && plain)
}
