//! A workbook file as its own XML states it: parts, sheets, rows, cells.
//!
//! Always true: a book that is read and written again without a change says the
//! same to any spreadsheet program; everything outside the cells is copied as it is.
//!
//! Not here: what a formula means. Shared formulas are not resolved, because
//! neither this crate nor the office program of the check writes them.
//!
//! Nothing of the crate under test is used, so a mistake of its own reader or
//! writer cannot hide here.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::{Cursor, Read as _, Write as _};
use std::ops::Range;

use quick_xml::Reader;
use quick_xml::escape::{escape, resolve_predefined_entity, unescape};
use quick_xml::events::{BytesStart, Event};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use super::Value;

/// The name and the content of a file inside the workbook file.
type Part = (String, Vec<u8>);

/// All parts of the file, with those that hold cells taken apart.
pub(super) struct Book {
    parts: Vec<Part>,
    pub(super) sheets: Vec<Sheet>,
    shared_texts: Vec<String>,
}

/// One worksheet; rows and columns count from zero.
pub(super) struct Sheet {
    pub(super) name: String,
    part: usize,
    before: String,
    pub(super) rows: BTreeMap<u32, Row>,
    after: String,
}

/// One row element: its height and style attributes, and its cells.
#[derive(Default)]
pub(super) struct Row {
    attributes: String,
    pub(super) cells: BTreeMap<u32, Cell>,
}

/// One cell element. `kind` is its `t` attribute, empty when there is none.
#[derive(Default)]
pub(super) struct Cell {
    pub(super) attributes: String,
    pub(super) kind: String,
    formula_attributes: String,
    pub(super) formula: Option<String>,
    pub(super) content: Option<String>,
}

impl Book {
    pub(super) fn read(xlsx: &[u8]) -> Book {
        let parts = unzip(xlsx);
        let part_named = |name: &str| parts.iter().position(|(part, _)| part == name);
        let shared_texts = part_named("xl/sharedStrings.xml")
            .map(|part| texts_of_items(xml_of(&parts[part])))
            .unwrap_or_default();
        let targets: BTreeMap<String, String> =
            attributes_of_each(&parts, "xl/_rels/workbook.xml.rels", "Relationship")
                .into_iter()
                .map(|relation| (relation["Id"].clone(), relation["Target"].clone()))
                .collect();
        let mut sheets = Vec::new();
        for entry in attributes_of_each(&parts, "xl/workbook.xml", "sheet") {
            let target = &targets[&entry["r:id"]];
            let path = match target.strip_prefix('/') {
                Some(absolute) => absolute.to_owned(),
                None => format!("xl/{target}"),
            };
            let part = part_named(&path).unwrap_or_else(|| panic!("the file has no part {path}"));
            sheets.push(Sheet::read(&entry["name"], part, xml_of(&parts[part])));
        }
        Book {
            parts,
            sheets,
            shared_texts,
        }
    }

    pub(super) fn write(mut self) -> Vec<u8> {
        for sheet in &self.sheets {
            self.parts[sheet.part].1 = sheet.xml().into_bytes();
        }
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        // The copy is read once and thrown away: packing it would only take time.
        let plain = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
        for (name, content) in &self.parts {
            zip.start_file(name, plain).unwrap();
            zip.write_all(content).unwrap();
        }
        zip.finish().unwrap().into_inner()
    }

    pub(super) fn sheet_mut(&mut self, name: &str) -> &mut Sheet {
        let found = self.sheets.iter_mut().find(|sheet| sheet.name == name);
        found.unwrap_or_else(|| panic!("the workbook has no sheet {name:?}"))
    }

    /// Each cell with its sheet, row and column, sheet by sheet from the top.
    pub(super) fn cells(&self) -> impl Iterator<Item = ((String, u32, u32), &Cell)> {
        self.sheets.iter().flat_map(|sheet| {
            sheet.rows.iter().flat_map(move |(&row, line)| {
                let place = move |column| (sheet.name.clone(), row, column);
                line.cells.iter().map(move |(&at, cell)| (place(at), cell))
            })
        })
    }

    pub(super) fn value(&self, cell: &Cell) -> Value {
        let content = cell.content.as_deref().unwrap_or_default();
        match (cell.kind.as_str(), content) {
            ("s", index) => Value::Text(self.shared_texts[index.parse::<usize>().unwrap()].clone()),
            ("str" | "inlineStr", text) => Value::Text(without_escapes(text)),
            ("b", truth) => Value::Truth(truth == "1" || truth == "true"),
            ("e", error) => Value::Error(error.to_owned()),
            ("" | "n", "") => Value::Empty,
            ("" | "n", number) => {
                let number: f64 = number.parse().unwrap();
                assert!(number.is_finite(), "{number} is no number in a workbook");
                Value::Number(number)
            }
            (kind, _) => panic!("cells of type {kind:?} are not expected"),
        }
    }
}

impl Sheet {
    fn read(name: &str, part: usize, xml: &str) -> Sheet {
        let start = xml.find("<sheetData").unwrap();
        let (end, skip) = match xml.find("</sheetData>") {
            Some(end) => (end, "</sheetData>".len()),
            None => (start, "<sheetData/>".len()),
        };
        Sheet {
            name: name.to_owned(),
            part,
            before: xml[..start].to_owned(),
            rows: read_rows(&xml[start..end]),
            after: xml[end + skip..].to_owned(),
        }
    }

    fn xml(&self) -> String {
        let mut xml = format!("{}<sheetData>", self.before);
        for (row, line) in &self.rows {
            write!(xml, r#"<row r="{}"{}>"#, row + 1, line.attributes).unwrap();
            for (&column, cell) in &line.cells {
                cell.write(&mut xml, *row, column);
            }
            xml.push_str("</row>");
        }
        xml + "</sheetData>" + &self.after
    }

    /// States the used range again, from the cells there are now.
    pub(super) fn refresh_dimension(&mut self) {
        let columns = || self.rows.values().flat_map(|row| row.cells.keys());
        let rows = || self.rows.iter().filter(|(_, row)| !row.cells.is_empty());
        let (Some((top, _)), Some((bottom, _))) = (rows().next(), rows().next_back()) else {
            return;
        };
        let (left, right) = (columns().min().unwrap(), columns().max().unwrap());
        let range = format!("{}:{}", address(*top, *left), address(*bottom, *right));
        if let Some(stated) = self.used_range_at() {
            self.before.replace_range(stated, &range);
        }
    }

    /// The used range as the file states it.
    pub(super) fn used_range(&self) -> Option<&str> {
        self.used_range_at().map(|stated| &self.before[stated])
    }

    fn used_range_at(&self) -> Option<Range<usize>> {
        let opening = r#"<dimension ref=""#;
        let start = self.before.find(opening)? + opening.len();
        let length = self.before[start..].find('"')?;
        Some(start..start + length)
    }
}

impl Cell {
    fn write(&self, xml: &mut String, row: u32, column: u32) {
        let place = address(row, column);
        write!(xml, r#"<c r="{place}"{}"#, self.attributes).unwrap();
        if !self.kind.is_empty() {
            write!(xml, r#" t="{}""#, self.kind).unwrap();
        }
        xml.push('>');
        if let Some(formula) = &self.formula {
            let attributes = &self.formula_attributes;
            write!(xml, "<f{attributes}>{}</f>", escape(formula)).unwrap();
        }
        match (self.kind.as_str(), &self.content) {
            ("inlineStr", Some(text)) => {
                let text = escape(text);
                write!(xml, r#"<is><t xml:space="preserve">{text}</t></is>"#).unwrap();
            }
            (_, Some(content)) => write!(xml, "<v>{}</v>", escape(content)).unwrap(),
            (_, None) => {}
        }
        xml.push_str("</c>");
    }
}

/// `(1, 27)` is `AB2`.
pub(super) fn address(row: u32, column: u32) -> String {
    let mut letters = String::new();
    let mut left = column + 1;
    while left > 0 {
        left -= 1;
        letters.insert(0, char::from(b'A' + u8::try_from(left % 26).unwrap()));
        left /= 26;
    }
    format!("{letters}{}", row + 1)
}

/// `AB2` is `(1, 27)`.
pub(crate) fn position(address: &str) -> (u32, u32) {
    let digits = address.find(|c: char| c.is_ascii_digit()).unwrap();
    let column = address[..digits].bytes().fold(0, |column, letter| {
        assert!(letter.is_ascii_uppercase(), "{address:?} is not a cell");
        column * 26 + u32::from(letter - b'A') + 1
    });
    let row: u32 = address[digits..].parse().unwrap();
    (row - 1, column - 1)
}

fn unzip(xlsx: &[u8]) -> Vec<Part> {
    let mut archive = ZipArchive::new(Cursor::new(xlsx)).unwrap();
    let mut parts = Vec::new();
    for index in 0..archive.len() {
        let mut part = archive.by_index(index).unwrap();
        let mut content = Vec::new();
        part.read_to_end(&mut content).unwrap();
        parts.push((part.name().to_owned(), content));
    }
    parts
}

fn xml_of((name, content): &Part) -> &str {
    str::from_utf8(content).unwrap_or_else(|_| panic!("{name} is not text"))
}

fn read_rows(xml: &str) -> BTreeMap<u32, Row> {
    let mut rows: BTreeMap<u32, Row> = BTreeMap::new();
    let (mut row, mut column) = (0, 0);
    for_each_event(xml, |event, inside, text| {
        match (event, inside) {
            (Event::Start(tag), "row") => {
                let attributes = attributes_of(tag);
                row = attributes["r"].parse::<u32>().unwrap() - 1;
                // The span is only advice to the reader, and an edit may outgrow it.
                rows.entry(row).or_default().attributes = all_but(&["r", "spans"], &attributes);
            }
            (Event::Start(tag), "c") => {
                let attributes = attributes_of(tag);
                (row, column) = position(&attributes["r"]);
                let cell = Cell {
                    kind: attributes.get("t").cloned().unwrap_or_default(),
                    attributes: all_but(&["r", "t"], &attributes),
                    ..Cell::default()
                };
                rows.entry(row).or_default().cells.insert(column, cell);
            }
            (Event::Start(tag), "f") => {
                let cell = rows.get_mut(&row).unwrap().cells.get_mut(&column).unwrap();
                cell.formula_attributes = all_but(&[], &attributes_of(tag));
                cell.formula = Some(String::new());
            }
            (_, "f" | "v" | "t") => {
                let cell = rows.get_mut(&row).unwrap().cells.get_mut(&column).unwrap();
                let piece = match inside {
                    "f" => cell.formula.get_or_insert_default(),
                    _ => cell.content.get_or_insert_default(),
                };
                piece.push_str(text);
            }
            _ => {}
        }
    });
    rows
}

/// The texts of `<si>` elements, each with its runs joined.
fn texts_of_items(xml: &str) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for_each_event(xml, |event, inside, text| match (event, inside) {
        (Event::Start(_), "si") => texts.push(String::new()),
        (_, "t") => texts.last_mut().unwrap().push_str(text),
        _ => {}
    });
    texts.iter().map(|text| without_escapes(text)).collect()
}

fn attributes_of_each(parts: &[Part], part: &str, element: &str) -> Vec<BTreeMap<String, String>> {
    let part = parts.iter().find(|(name, _)| name == part).unwrap();
    let mut found = Vec::new();
    for_each_event(xml_of(part), |event, inside, _| {
        if let (Event::Start(tag), true) = (event, inside == element) {
            found.push(attributes_of(tag));
        }
    });
    found
}

/// Calls `visit` with each start of an element and each piece of text, the
/// name of the element it belongs to, and the text itself.
fn for_each_event(xml: &str, mut visit: impl FnMut(&Event, &str, &str)) {
    let mut reader = Reader::from_str(xml);
    reader.config_mut().expand_empty_elements = true;
    // The cut-out of a sheet has no closing tag of its own.
    reader.config_mut().check_end_names = false;
    let mut open: Vec<String> = Vec::new();
    loop {
        let event = reader.read_event().unwrap();
        let text = match &event {
            Event::Eof => return,
            Event::Start(tag) => {
                let name = tag.local_name();
                open.push(str::from_utf8(name.as_ref()).unwrap().to_owned());
                String::new()
            }
            Event::End(_) => {
                open.pop();
                continue;
            }
            Event::Text(text) => text.xml10_content().unwrap().into_owned(),
            Event::CData(text) => text.xml10_content().unwrap().into_owned(),
            Event::GeneralRef(entity) => match entity.resolve_char_ref().unwrap() {
                Some(character) => character.to_string(),
                None => resolve_predefined_entity(&entity.decode().unwrap())
                    .unwrap()
                    .to_owned(),
            },
            _ => continue,
        };
        visit(&event, open.last().map_or("", String::as_str), &text);
    }
}

fn attributes_of(tag: &BytesStart) -> BTreeMap<String, String> {
    let mut attributes = BTreeMap::new();
    for attribute in tag.attributes() {
        let attribute = attribute.unwrap();
        let name = str::from_utf8(attribute.key.as_ref()).unwrap().to_owned();
        let value = unescape(str::from_utf8(&attribute.value).unwrap()).unwrap();
        attributes.insert(name, value.into_owned());
    }
    attributes
}

fn all_but(dropped: &[&str], attributes: &BTreeMap<String, String>) -> String {
    let mut text = String::new();
    for (name, value) in attributes {
        if !dropped.contains(&name.as_str()) {
            write!(text, r#" {name}="{}""#, escape(value)).unwrap();
        }
    }
    text
}

/// `_x0009_` stands for a tab: characters that XML does not allow, or that a
/// reader would change, are written as their number.
fn without_escapes(text: &str) -> String {
    let mut plain = String::new();
    let mut rest = text;
    while let Some(start) = rest.find("_x") {
        plain.push_str(&rest[..start]);
        let code = rest.get(start + 2..start + 6);
        let closed = rest.get(start + 6..start + 7) == Some("_");
        let character = code
            .filter(|_| closed)
            .and_then(|code| u32::from_str_radix(code, 16).ok())
            .and_then(char::from_u32);
        let skip = if let Some(character) = character {
            plain.push(character);
            7
        } else {
            plain.push_str("_x");
            2
        };
        rest = &rest[start + skip..];
    }
    plain + rest
}
