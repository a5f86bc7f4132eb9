//! Reads `.ods`: the sheets of its content, repeated cells and rows only as far as they say something.
//!
//! Always true: an empty cell or row that is repeated a million times costs nothing,
//! and a filled one that is repeated beyond the limits is reported as a far cell.

use std::io::{BufRead, Read};
use std::mem;

use super::Content;
use super::cross_check::Spread;
use super::dates::{days_of_duration, percent, serial_of_iso};
use super::gather::Gather;
use super::limits::{COLUMNS, ROWS, TEXT_BYTES};
use super::package::Package;
use super::stop::Stop;
use super::xml::{Step, Tag, Xml};

/// Blanks that one element may stand for; a cell of a spreadsheet holds no more text.
const BLANKS: usize = 32_767;

/// The part that holds all sheets.
pub(super) const CONTENT: &str = "content.xml";

const MANIFEST: &str = "META-INF/manifest.xml";

/// Reads all sheets of the document.
pub(super) fn read(package: &mut Package<'_>, gather: &mut Gather) -> Result<(), Stop> {
    if is_locked(package)? {
        return Err(Stop::password());
    }
    let mut reader = Sheets::default();
    let mut xml = Xml::new(package.part(CONTENT)?);
    while reader.step(&mut xml, gather)? {}
    Ok(())
}

fn is_locked(package: &mut Package<'_>) -> Result<bool, Stop> {
    if !package.has(MANIFEST) {
        return Ok(false);
    }
    let mut manifest = Xml::new(package.part(MANIFEST)?.take(1 << 20));
    loop {
        match manifest.step() {
            Ok(Step::Open(tag)) if tag.local() == b"encryption-data" => return Ok(true),
            // A broken list of parts does not matter as long as the content is there.
            Ok(Step::End) | Err(_) => return Ok(false),
            Ok(_) => {}
        }
    }
}

/// Where reading stands.
#[derive(Default)]
struct Sheets {
    in_sheet: bool,
    row: u32,
    row_repeat: u32,
    column: u32,
    /// Filled cells of the row: first column, column after the last, content, formula.
    cells: Vec<(u32, u32, Content, bool)>,
    cell: Option<Pending>,
    spread: Spread,
}

/// A cell while it is being read.
#[derive(Default)]
struct Pending {
    repeat: u32,
    kind: String,
    value: Option<String>,
    formula: bool,
    /// Bytes of everything that the cell says about its content.
    written: usize,
    error: bool,
    text: String,
    paragraphs: usize,
    in_paragraph: bool,
}

impl Sheets {
    /// Reads one step further; `false` at the end.
    fn step<R: BufRead>(&mut self, xml: &mut Xml<R>, gather: &mut Gather) -> Result<bool, Stop> {
        let skip = match xml.step()? {
            Step::Open(tag) => self.open(&tag, gather)?,
            Step::Close(tag) => {
                self.close(tag.name(), gather)?;
                false
            }
            Step::Text(text) => {
                if let Some(cell) = self.cell.as_mut().filter(|cell| cell.in_paragraph) {
                    cell.add(&text)?;
                }
                false
            }
            Step::End => return Ok(false),
        };
        if skip {
            xml.skip()?;
        }
        Ok(true)
    }

    /// Begins an element; `true` if it is to be left out with all it holds.
    fn open(&mut self, tag: &Tag<'_>, gather: &mut Gather) -> Result<bool, Stop> {
        match tag.name() {
            b"table:table" if self.cell.is_none() => {
                gather.start_sheet(&tag.attribute("name")?.unwrap_or_default())?;
                self.in_sheet = true;
                self.row = 0;
            }
            // Tables inside cells, shapes and earlier versions are not cells of the sheet.
            b"table:table" | b"table:shapes" | b"table:tracked-changes" => {
                self.doubt_in_cell(gather);
                return Ok(true);
            }
            b"office:annotation" => {
                gather.note_comments();
                return Ok(true);
            }
            b"table:table-row" => {
                self.row_repeat = repeat_of(tag, "number-rows-repeated")?;
                self.column = 0;
            }
            b"table:table-cell" | b"table:covered-table-cell" if self.in_sheet => {
                let cell = Pending::begin(tag)?;
                self.merge(tag, gather)?;
                self.cell = Some(cell);
            }
            name if name.starts_with(b"draw:") => {
                self.doubt_in_cell(gather);
                return Ok(true);
            }
            name => {
                if name == b"text:s" && blanks_of(tag)? > BLANKS {
                    gather.prospect().doubt();
                }
                if let Some(cell) = &mut self.cell {
                    cell.open(name, tag)?;
                }
            }
        }
        Ok(false)
    }

    /// Another reader takes words of a shape in a cell of text for the cell's own.
    fn doubt_in_cell(&self, gather: &mut Gather) {
        let in_text = |cell: &Pending| cell.kind == "string" && cell.value.is_none();
        if self.cell.as_ref().is_some_and(in_text) {
            gather.prospect().doubt();
        }
    }

    fn close(&mut self, name: &[u8], gather: &mut Gather) -> Result<(), Stop> {
        match name {
            b"table:table" => {
                self.in_sheet = false;
                gather
                    .prospect()
                    .reserve(mem::take(&mut self.spread).whole());
            }
            b"table:table-row" => self.end_row(gather)?,
            b"table:table-cell" | b"table:covered-table-cell" => self.end_cell(),
            b"text:p" => {
                if let Some(cell) = &mut self.cell {
                    cell.in_paragraph = false;
                }
            }
            _ => {}
        }
        Ok(())
    }

    fn merge(&self, tag: &Tag<'_>, gather: &mut Gather) -> Result<(), Stop> {
        let rows = repeat_of(tag, "number-rows-spanned")?;
        let columns = repeat_of(tag, "number-columns-spanned")?;
        let last_row = self.row.saturating_add(rows - 1);
        let last_column = self.column.saturating_add(columns - 1);
        gather.merge((self.row, self.column, last_row, last_column));
        Ok(())
    }

    fn end_cell(&mut self) {
        let Some(cell) = self.cell.take() else {
            return;
        };
        let (repeat, formula) = (cell.repeat, cell.formula);
        let after = self.column.saturating_add(repeat);
        if cell.written > 0 {
            let written = cell.written + cell.text.len();
            self.spread.cell(written, repeat, after);
        }
        if let Some(content) = cell.content() {
            self.cells.push((
                self.column,
                within(self.column, after, COLUMNS),
                content,
                formula,
            ));
        }
        self.column = after;
    }

    fn end_row(&mut self, gather: &mut Gather) -> Result<(), Stop> {
        let after = self.row.saturating_add(self.row_repeat);
        if !self.cells.is_empty() {
            for row in self.row..within(self.row, after, ROWS) {
                for (first, end, content, formula) in &self.cells {
                    for column in *first..*end {
                        gather.put(row, column, content.clone(), *formula)?;
                    }
                }
            }
        }
        self.cells.clear();
        self.spread.row(self.row, after);
        self.row = after;
        Ok(())
    }
}

impl Pending {
    fn begin(tag: &Tag<'_>) -> Result<Self, Stop> {
        let mut cell = Self {
            repeat: 1,
            ..Self::default()
        };
        for attribute in tag.attributes() {
            let (key, value) = attribute?;
            if key == b"table:formula" || key.starts_with(b"office:") {
                cell.written += key.len() + value.len();
            }
            match key {
                b"table:number-columns-repeated" => cell.repeat = repeat(&value)?,
                b"office:value-type" => cell.kind = value.into_owned(),
                b"calcext:value-type" => cell.error = value == "error",
                b"table:formula" => cell.formula = true,
                b"office:value"
                | b"office:string-value"
                | b"office:date-value"
                | b"office:time-value"
                | b"office:boolean-value" => {
                    cell.value = Some(value.into_owned());
                }
                _ => {}
            }
        }
        Ok(cell)
    }

    /// An element inside the cell: a paragraph, or white space that XML would lose.
    fn open(&mut self, name: &[u8], tag: &Tag<'_>) -> Result<(), Stop> {
        match name {
            b"text:p" => {
                self.in_paragraph = true;
                self.paragraphs += 1;
                if self.paragraphs > 1 {
                    self.add("\n")?;
                }
            }
            b"text:s" if self.in_paragraph => {
                self.add(&" ".repeat(BLANKS.min(blanks_of(tag)?)))?;
            }
            b"text:tab" if self.in_paragraph => self.add("\t")?,
            b"text:line-break" if self.in_paragraph => self.add("\n")?,
            _ => {}
        }
        Ok(())
    }

    fn add(&mut self, text: &str) -> Result<(), Stop> {
        if self.text.len() + text.len() > TEXT_BYTES {
            return Err(Stop::too_large("a cell holds too much text".to_owned()));
        }
        self.text.push_str(text);
        Ok(())
    }

    /// What the cell holds; `None` for an empty cell.
    fn content(self) -> Option<Content> {
        let value = self.value.unwrap_or_default();
        if self.error || (self.formula && is_error(&self.text)) {
            let shown = if self.text.is_empty() {
                "#ERROR".to_owned()
            } else {
                self.text
            };
            return Some(Content::Error(shown));
        }
        let text_of = |value: String| {
            if value.is_empty() {
                None
            } else {
                Some(Content::Text(value))
            }
        };
        match self.kind.as_str() {
            "percentage" => match value.trim().parse() {
                Ok(fraction) => Some(percent(fraction)),
                Err(_) => text_of(self.text),
            },
            "float" | "currency" => match value.trim().parse() {
                Ok(number) => Some(Content::Number(number)),
                Err(_) => text_of(self.text),
            },
            "date" => serial_of_iso(&value)
                .map(Content::Date)
                .or_else(|| text_of(value)),
            "time" => days_of_duration(&value)
                .map(Content::Duration)
                .or_else(|| text_of(value)),
            "boolean" => Some(Content::Truth(value.eq_ignore_ascii_case("true"))),
            "string" => text_of(if value.is_empty() { self.text } else { value }),
            _ if self.formula && self.text.is_empty() => Some(Content::NotCalculated),
            _ => text_of(self.text),
        }
    }
}

/// For how many blanks an element stands.
fn blanks_of(tag: &Tag<'_>) -> Result<usize, Stop> {
    let count = tag.attribute("c")?;
    Ok(count.map_or(1, |count| count.parse().unwrap_or(1)))
}

/// The end of a repetition, cut just beyond the limit: one cell there reports all.
fn within(first: u32, end: u32, limit: u32) -> u32 {
    end.min(limit + 1).max(first.saturating_add(1))
}

/// Programs write error values of formulas as text: `#REF!`, `#N/A`, `Err:522`.
fn is_error(text: &str) -> bool {
    let numbered = text.strip_prefix("Err:");
    let numbered = numbered.is_some_and(|code| code.bytes().all(|byte| byte.is_ascii_digit()));
    let named = text.starts_with('#') && (text.ends_with(['!', '?']) || text == "#N/A");
    numbered || (named && !text.contains(' '))
}

fn repeat_of(tag: &Tag<'_>, name: &str) -> Result<u32, Stop> {
    tag.attribute(name)?.map_or(Ok(1), |count| repeat(&count))
}

fn repeat(count: &str) -> Result<u32, Stop> {
    let parsed = count.trim().parse::<u32>();
    let count = parsed.map_err(|_| Stop::damaged("a number of repeated cells is not a number"))?;
    Ok(count.max(1))
}
