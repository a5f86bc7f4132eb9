//! The cells of a workbook as a flat list on disk, and that list written again.
//!
//! The list is made of small records in the order of the file: the name of a sheet, a
//! column's width, a row's height, or a cell with its format.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{BufReader, BufWriter, Read, Write};
use std::path::Path;

use quick_xml::Reader;
use quick_xml::escape::{resolve_predefined_entity, unescape};
use quick_xml::events::{BytesStart, Event};
use rust_xlsxwriter::{Color, Format, Formula, Workbook};
use zip::ZipArchive;

use crate::Outcome;

const SHEET: u8 = b'S';
const WIDTH: u8 = b'W';
const HEIGHT: u8 = b'H';
const WORDS: u8 = b's';
const NUMBER: u8 = b'n';
const TRUTH: u8 = b't';
const FORMULA: u8 = b'f';
const BLANK: u8 = b'b';
const END: u8 = b'E';

/// Makes the list of a workbook's cells.
pub(crate) fn prepare(workbook: &Path, list: &Path) -> Outcome<()> {
    let mut archive = ZipArchive::new(BufReader::new(File::open(workbook)?))?;
    let mut part = |name: &str| -> Outcome<String> {
        let mut text = String::new();
        archive.by_name(name)?.read_to_string(&mut text)?;
        Ok(text)
    };
    let texts = shared_texts(&part("xl/sharedStrings.xml")?)?;
    let looks = looks(&part("xl/styles.xml")?)?;
    let mut out = List(BufWriter::new(File::create(list)?));
    out.number(u32::try_from(looks.len())?)?;
    for look in &looks {
        out.words(&look.pattern)?;
        out.bytes(&[u8::from(look.bold), u8::from(look.wrapped), look.size])?;
    }
    for (position, name) in (1..).zip(sheet_names(&part("xl/workbook.xml")?)?) {
        out.bytes(&[SHEET])?;
        out.words(&name)?;
        let xml = part(&format!("xl/worksheets/sheet{position}.xml"))?;
        sheet(&xml, &texts, &mut out)?;
    }
    out.bytes(&[END])?;
    out.0.flush()?;
    Ok(())
}

/// Writes the cells of a list as a workbook.
pub(crate) fn write(list: &Path, output: &Path) -> Outcome<()> {
    let mut list = List(BufReader::with_capacity(64 << 10, File::open(list)?));
    let mut formats = Vec::new();
    for at in 0..list.take_number()? {
        let mut format = Format::new().set_num_format(list.take_words()?);
        let [bold, wrapped, size] = list.take_bytes()?;
        if bold == 1 {
            format = format.set_bold();
        }
        if wrapped == 1 {
            format = format.set_text_wrap();
        }
        // A colour of its own keeps looks apart that differ in what is not replayed.
        format = format.set_font_size(size).set_font_color(Color::RGB(at));
        formats.push(format);
    }
    let mut book = Workbook::new();
    let [mut tag] = list.take_bytes()?;
    while tag == SHEET {
        let sheet = book.add_worksheet();
        sheet.set_name(list.take_words()?)?;
        sheet.set_formula_result_default("");
        loop {
            [tag] = list.take_bytes()?;
            if tag == SHEET || tag == END {
                break;
            }
            let (row, column) = (list.take_number()?, u16::try_from(list.take_number()?)?);
            let format = &formats[list.take_number()? as usize];
            match tag {
                WIDTH => sheet.set_column_width(column, list.take_float()?)?,
                HEIGHT => sheet.set_row_height(row, list.take_float()?)?,
                NUMBER => {
                    sheet.write_number_with_format(row, column, list.take_float()?, format)?
                }
                WORDS => sheet.write_string_with_format(row, column, list.take_words()?, format)?,
                TRUTH => sheet.write_boolean_with_format(
                    row,
                    column,
                    list.take_float()? > 0.0,
                    format,
                )?,
                FORMULA => {
                    let formula = Formula::new(list.take_words()?).set_result(list.take_words()?);
                    sheet.write_formula_with_format(row, column, formula, format)?
                }
                _ => sheet.write_blank(row, column, format)?,
            };
        }
    }
    book.save(output)?;
    Ok(())
}

/// A file of records, written or read.
struct List<F>(F);

impl<W: Write> List<W> {
    fn bytes(&mut self, bytes: &[u8]) -> Outcome<()> {
        Ok(self.0.write_all(bytes)?)
    }

    fn number(&mut self, number: u32) -> Outcome<()> {
        self.bytes(&number.to_le_bytes())
    }

    fn words(&mut self, words: &str) -> Outcome<()> {
        self.number(u32::try_from(words.len())?)?;
        self.bytes(words.as_bytes())
    }

    fn record(&mut self, tag: u8, row: u32, column: u32, format: u32) -> Outcome<()> {
        self.bytes(&[tag])?;
        [row, column, format]
            .into_iter()
            .try_for_each(|number| self.number(number))
    }
}

impl<R: Read> List<R> {
    fn take_bytes<const COUNT: usize>(&mut self) -> Outcome<[u8; COUNT]> {
        let mut bytes = [0; COUNT];
        self.0.read_exact(&mut bytes)?;
        Ok(bytes)
    }

    fn take_number(&mut self) -> Outcome<u32> {
        Ok(u32::from_le_bytes(self.take_bytes()?))
    }

    fn take_float(&mut self) -> Outcome<f64> {
        Ok(f64::from_le_bytes(self.take_bytes()?))
    }

    fn take_words(&mut self) -> Outcome<String> {
        let mut bytes = vec![0; self.take_number()? as usize];
        self.0.read_exact(&mut bytes)?;
        Ok(String::from_utf8(bytes)?)
    }
}

/// What is replayed of a format.
struct Look {
    pattern: String,
    bold: bool,
    wrapped: bool,
    size: u8,
}

fn attribute(tag: &BytesStart<'_>, name: &str) -> Outcome<Option<String>> {
    let Some(found) = tag.try_get_attribute(name)? else {
        return Ok(None);
    };
    let text = std::str::from_utf8(&found.value)?;
    Ok(Some(unescape(text)?.into_owned()))
}

fn number<N: std::str::FromStr>(tag: &BytesStart<'_>, name: &str) -> Outcome<Option<N>> {
    Ok(attribute(tag, name)?.and_then(|text| text.parse().ok()))
}

fn sheet_names(xml: &str) -> Outcome<Vec<String>> {
    let mut names = Vec::new();
    let mut reader = Reader::from_str(xml);
    loop {
        match reader.read_event()? {
            Event::Empty(tag) if tag.name().as_ref() == b"sheet" => {
                names.extend(attribute(&tag, "name")?);
            }
            Event::Eof => return Ok(names),
            _ => {}
        }
    }
}

/// The formats of cells by their position.
fn looks(xml: &str) -> Outcome<Vec<Look>> {
    let mut patterns: BTreeMap<u32, String> = BTreeMap::new();
    let mut fonts: Vec<(bool, u8)> = Vec::new();
    let mut looks = Vec::new();
    let mut in_cells = false;
    let mut reader = Reader::from_str(xml);
    loop {
        match reader.read_event()? {
            Event::Start(tag) | Event::Empty(tag) => match tag.name().as_ref() {
                b"numFmt" => {
                    let id = number(&tag, "numFmtId")?.unwrap_or(0);
                    let pattern = attribute(&tag, "formatCode")?.unwrap_or_default();
                    patterns.insert(id, pattern);
                }
                b"font" => fonts.push((false, 11)),
                b"b" => fonts
                    .iter_mut()
                    .last()
                    .into_iter()
                    .for_each(|font| font.0 = true),
                b"sz" => {
                    let size = number(&tag, "val")?.unwrap_or(11);
                    fonts
                        .iter_mut()
                        .last()
                        .into_iter()
                        .for_each(|font| font.1 = size);
                }
                b"cellXfs" => in_cells = true,
                b"xf" if in_cells => {
                    let id: u32 = number(&tag, "numFmtId")?.unwrap_or(0);
                    let font: usize = number(&tag, "fontId")?.unwrap_or(0);
                    let (bold, size) = fonts.get(font).copied().unwrap_or((false, 11));
                    let pattern = patterns.get(&id).cloned().unwrap_or("General".to_owned());
                    looks.push(Look {
                        pattern,
                        bold,
                        wrapped: false,
                        size,
                    });
                }
                b"alignment" if in_cells => {
                    if let Some(look) = looks.last_mut() {
                        look.wrapped = attribute(&tag, "wrapText")?.is_some();
                    }
                }
                _ => {}
            },
            Event::End(tag) if tag.name().as_ref() == b"cellXfs" => return Ok(looks),
            Event::Eof => return Ok(looks),
            _ => {}
        }
    }
}

/// The characters of an event, if it has any.
fn characters(event: &Event<'_>) -> Outcome<Option<String>> {
    Ok(match event {
        Event::Text(text) => Some(text.decode()?.into_owned()),
        Event::GeneralRef(entity) => match entity.resolve_char_ref()? {
            Some(character) => Some(character.to_string()),
            None => resolve_predefined_entity(&entity.decode()?).map(str::to_owned),
        },
        _ => None,
    })
}

fn shared_texts(xml: &str) -> Outcome<Vec<String>> {
    let mut texts: Vec<String> = Vec::new();
    let mut reader = Reader::from_str(xml);
    loop {
        match reader.read_event()? {
            Event::Start(tag) if tag.name().as_ref() == b"si" => texts.push(String::new()),
            Event::Eof => return Ok(texts),
            event => {
                if let (Some(last), Some(piece)) = (texts.last_mut(), characters(&event)?) {
                    last.push_str(&piece);
                }
            }
        }
    }
}

/// A cell while it is read.
#[derive(Default)]
struct Pending {
    row: u32,
    column: u32,
    format: u32,
    kind: String,
    formula: String,
    value: String,
    in_formula: bool,
}

impl Pending {
    fn begin(&mut self, tag: &BytesStart<'_>) -> Outcome<()> {
        let address = attribute(tag, "r")?.unwrap_or_default();
        let letters = address.trim_end_matches(|c: char| c.is_ascii_digit());
        let column = letters
            .bytes()
            .fold(0, |sum, letter| sum * 26 + u32::from(letter - b'A') + 1);
        *self = Self {
            row: address[letters.len()..].parse::<u32>()?.saturating_sub(1),
            column: column.saturating_sub(1),
            format: number(tag, "s")?.unwrap_or(0),
            kind: attribute(tag, "t")?.unwrap_or_default(),
            ..Self::default()
        };
        Ok(())
    }

    fn put<W: Write>(&self, texts: &[String], out: &mut List<W>) -> Outcome<()> {
        let mut record = |tag| out.record(tag, self.row, self.column, self.format);
        if !self.formula.is_empty() {
            record(FORMULA)?;
            out.words(&self.formula)?;
            return out.words(&self.value);
        }
        match self.kind.as_str() {
            "s" => {
                record(WORDS)?;
                out.words(&texts[self.value.parse::<usize>()?])
            }
            _ if self.value.is_empty() => record(BLANK),
            kind => {
                record(if kind == "b" { TRUTH } else { NUMBER })?;
                out.bytes(&self.value.parse::<f64>()?.to_le_bytes())
            }
        }
    }
}

fn sheet<W: Write>(xml: &str, texts: &[String], out: &mut List<W>) -> Outcome<()> {
    let mut cell = Pending::default();
    let mut reader = Reader::from_str(xml);
    loop {
        match reader.read_event()? {
            Event::Empty(tag) if tag.name().as_ref() == b"col" => {
                let width: f64 = number(&tag, "width")?.unwrap_or(9.0);
                let first: u32 = number(&tag, "min")?.unwrap_or(1);
                let last: u32 = number(&tag, "max")?.unwrap_or(first);
                for column in first - 1..last {
                    out.record(WIDTH, 0, column, 0)?;
                    out.bytes(&width.to_le_bytes())?;
                }
            }
            Event::Start(tag) if tag.name().as_ref() == b"row" => {
                if let (Some(row), Some(height)) =
                    (number::<u32>(&tag, "r")?, number::<f64>(&tag, "ht")?)
                {
                    out.record(HEIGHT, row.saturating_sub(1), 0, 0)?;
                    out.bytes(&height.to_le_bytes())?;
                }
            }
            Event::Empty(tag) if tag.name().as_ref() == b"c" => {
                cell.begin(&tag)?;
                cell.put(texts, out)?;
            }
            Event::Start(tag) if tag.name().as_ref() == b"c" => cell.begin(&tag)?,
            Event::Start(tag) if tag.name().as_ref() == b"f" => cell.in_formula = true,
            Event::End(tag) if tag.name().as_ref() == b"f" => cell.in_formula = false,
            Event::End(tag) if tag.name().as_ref() == b"c" => cell.put(texts, out)?,
            Event::End(tag) if tag.name().as_ref() == b"sheetData" => return Ok(()),
            Event::Eof => return Ok(()),
            event => {
                if let Some(piece) = characters(&event)? {
                    let target = if cell.in_formula {
                        &mut cell.formula
                    } else {
                        &mut cell.value
                    };
                    target.push_str(&piece);
                }
            }
        }
    }
}
