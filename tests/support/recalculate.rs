//! What other programs make of a workbook that this crate has written.
//!
//! A stored result proves nothing about the formula beside it. Here the formulas
//! are worked out again by engines that know nothing of this crate: always by
//! the `ironcalc` crate, and by an office program where `GROUNDSHEET_OFFICE` names one.
//!
//! Always true: an engine is only ever given a copy in which every stored result
//! is wrong, and an answer that still holds a wrong result is a failure. So no
//! engine can pass by repeating what it was told.
//!
//! Two engines give the same number to about 15 digits, not to the last bit: the
//! office program writes only 15, and takes a difference that is nearly nothing
//! for nothing. Compare with [`Value::agrees_with`].

mod book;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::process::Command;
use std::{env, fs};

use ironcalc::base::Model;
use ironcalc::base::types::{Cell as EngineCell, FormulaValue};
use ironcalc::import::load_from_xlsx_bytes;

pub(crate) use book::position;
use book::{Book, address};

/// The wrong results that [`poison`] stores.
pub(crate) const WRONG_NUMBER: f64 = 987_654_321.125;
/// See [`WRONG_NUMBER`].
pub(crate) const WRONG_TEXT: &str = "poisoned";

/// What a cell holds or shows.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Value {
    Number(f64),
    Text(String),
    Truth(bool),
    /// As it is shown, such as `#N/A`.
    Error(String),
    /// Nothing at all: not even an empty text.
    Empty,
}

impl Value {
    /// Equal; for numbers, to 12 digits or to a billionth. Which error is shown
    /// for one mistake is a matter of taste, so one error agrees with another.
    pub(crate) fn agrees_with(&self, other: &Value) -> bool {
        match (self, other) {
            (Value::Number(one), Value::Number(two)) => {
                let off = (one - two).abs();
                off <= 1e-9 || off <= 1e-12 * one.abs().max(two.abs())
            }
            (Value::Error(_), Value::Error(_)) => true,
            _ => self == other,
        }
    }
}

/// Sheet, row and column; both count from zero.
pub(crate) type Spot = (String, u32, u32);

/// Values by place.
pub(crate) type Cells = BTreeMap<Spot, Value>;

/// What [`edit`] types into a cell.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Entry {
    Number(f64),
    Text(String),
    /// Clears the cell. Its style stays.
    Blank,
}

/// Every cell that holds a formula: the formula text, without `=`, and the
/// result stored beside it. Straight from the file's XML.
pub(crate) fn formula_cells(xlsx: &[u8]) -> BTreeMap<Spot, (String, Value)> {
    let book = Book::read(xlsx);
    let formulas = book.cells().filter_map(|(spot, cell)| {
        let formula = cell.formula.clone()?;
        Some((spot, (formula, book.value(cell))))
    });
    formulas.collect()
}

/// The value stored for every cell that has one, formula or not.
pub(crate) fn stored(xlsx: &[u8]) -> Cells {
    let book = Book::read(xlsx);
    let values = book.cells().map(|(spot, cell)| (spot, book.value(cell)));
    values.filter(|(_, value)| *value != Value::Empty).collect()
}

/// A copy in which the stored result of every formula is wrong.
pub(crate) fn poison(xlsx: &[u8]) -> Vec<u8> {
    poisoned(Book::read(xlsx))
}

fn poisoned(mut book: Book) -> Vec<u8> {
    let rows = book.sheets.iter_mut().flat_map(|s| s.rows.values_mut());
    for cell in rows.flat_map(|row| row.cells.values_mut()) {
        if cell.formula.is_none() {
            continue;
        }
        if matches!(cell.kind.as_str(), "str" | "s" | "inlineStr") {
            "str".clone_into(&mut cell.kind);
            cell.content = Some(WRONG_TEXT.to_owned());
        } else {
            cell.kind.clear();
            cell.content = Some(WRONG_NUMBER.to_string());
        }
    }
    book.write()
}

/// A copy with other entries, as an estimator would type them. Stored results
/// stay as they were. A formula that is typed over is gone.
pub(crate) fn edit(xlsx: &[u8], changes: &[(&str, &str, Entry)]) -> Vec<u8> {
    let mut book = Book::read(xlsx);
    for (sheet, place, entry) in changes {
        let sheet = book.sheet_mut(sheet);
        let (row, column) = position(place);
        let line = sheet.rows.entry(row).or_default();
        let cell = line.cells.entry(column).or_default();
        cell.formula = None;
        let (kind, content) = match entry {
            Entry::Number(number) => ("", Some(number.to_string())),
            Entry::Text(text) => ("inlineStr", Some(text.clone())),
            Entry::Blank => ("", None),
        };
        kind.clone_into(&mut cell.kind);
        cell.content = content;
        if cell.content.is_none() && cell.attributes.is_empty() {
            line.cells.remove(&column);
        }
        sheet.refresh_dimension();
    }
    book.write()
}

/// What the engine of this run makes of the formulas: its name, and its answers in the order
/// of the files. It is the office program where one is named, so that a check which runs both
/// ways asks each once.
pub(crate) fn by_the_engine(files: &[Vec<u8>]) -> (String, Vec<Cells>) {
    if let Some(name) = office_program() {
        return (name, by_office(files));
    }
    let answers = files.iter().map(|xlsx| by_ironcalc(xlsx));
    ("ironcalc".to_owned(), answers.collect())
}

/// The values of all formula cells, worked out by the `ironcalc` crate.
pub(crate) fn by_ironcalc(xlsx: &[u8]) -> Cells {
    let book = Book::read(xlsx);
    let formulas = formulas_of(&book);
    let workbook = load_from_xlsx_bytes(&poisoned(book), "poisoned", "en", "UTC").unwrap();
    let mut model = Model::from_workbook(workbook, "en").unwrap();
    model.evaluate();
    let sheets = &model.workbook.worksheets;
    let value_at = |(name, row, column): &Spot| {
        let sheet = sheets.iter().find(|sheet| sheet.name == *name).unwrap();
        let row = i32::try_from(row + 1).unwrap();
        let cell = sheet.cell(row, i32::try_from(column + 1).unwrap());
        let cell = cell.expect("the engine dropped a formula");
        match cell.into_owned() {
            EngineCell::CellFormula { v, .. } | EngineCell::ArrayFormula { v, .. } => v,
            other => panic!("the engine reads a formula as {other:?}"),
        }
    };
    let values = formulas.into_iter().map(|spot| {
        let value = match value_at(&spot) {
            FormulaValue::Number(number) => Value::Number(number),
            FormulaValue::Text(text) => Value::Text(text),
            FormulaValue::Boolean(truth) => Value::Truth(truth),
            FormulaValue::Error { ei, .. } => Value::Error(ei.to_string()),
            FormulaValue::Unevaluated => panic!("the engine skipped a formula"),
        };
        (spot, value)
    });
    without_poison(values.collect())
}

/// The values of all formula cells, worked out by the office program that
/// `GROUNDSHEET_OFFICE` names, in one run and a profile of its own.
pub(crate) fn by_office(files: &[Vec<u8>]) -> Vec<Cells> {
    let poisoned: Vec<Vec<u8>> = files.iter().map(|xlsx| poison(xlsx)).collect();
    let answers = saved_by_office(&poisoned);
    let answers = answers.iter().zip(files);
    answers
        .map(|(answer, xlsx)| read_answers(answer, xlsx))
        .collect()
}

/// The files as the office program saves them after it has worked everything out.
pub(crate) fn saved_by_office(files: &[Vec<u8>]) -> Vec<Vec<u8>> {
    let program = office_program().expect("GROUNDSHEET_OFFICE should name an office program");
    let home = tempfile::tempdir().unwrap();
    let profile = home.path().join("profile");
    let recalculated = home.path().join("recalculated");
    fs::create_dir_all(profile.join("user")).unwrap();
    fs::write(profile.join("user/registrymodifications.xcu"), PROFILE).unwrap();
    let names: Vec<String> = (0..files.len()).map(|n| format!("book{n}.xlsx")).collect();
    for (name, xlsx) in names.iter().zip(files) {
        fs::write(home.path().join(name), xlsx).unwrap();
    }
    // A program that hangs must not hang the check.
    let ran = Command::new("timeout")
        .args(["900", &program])
        .arg(format!(
            "-env:UserInstallation=file://{}",
            profile.display()
        ))
        .args(["--headless", "--calc", "--convert-to"])
        .args(["xlsx:Calc MS Excel 2007 XML", "--outdir", "recalculated"])
        .args(&names)
        .current_dir(home.path())
        .output()
        .expect("the office program should start");
    assert!(ran.status.success(), "the office program failed: {ran:?}");
    let saved = names.iter().map(|name| fs::read(recalculated.join(name)));
    saved
        .map(|saved| saved.expect("the office program should write each file"))
        .collect()
}

/// Whether this run has an office program to ask, and which.
pub(crate) fn office_program() -> Option<String> {
    env::var("GROUNDSHEET_OFFICE")
        .ok()
        .filter(|p| !p.is_empty())
}

/// Never trust stored results; and count, compare and spell as in English.
const PROFILE: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>en-US</value></prop></item>
</oor:items>
"#;

fn read_answers(answer: &[u8], asked: &[u8]) -> Cells {
    let mut known = stored(answer);
    let formulas = formula_cells(answer);
    let values = formulas_of(&Book::read(asked)).into_iter().map(|spot| {
        let kept = formulas.contains_key(&spot);
        assert!(kept, "the office program lost the formula at {spot:?}");
        let value = known.remove(&spot).unwrap_or(Value::Empty);
        (spot, value)
    });
    without_poison(values.collect())
}

fn formulas_of(book: &Book) -> Vec<Spot> {
    let formulas = book.cells().filter(|(_, cell)| cell.formula.is_some());
    formulas.map(|(spot, _)| spot).collect()
}

/// The guard: an engine must have replaced every wrong result.
fn without_poison(values: Cells) -> Cells {
    for ((sheet, row, column), value) in &values {
        let wrong = match value {
            Value::Number(number) => (number - WRONG_NUMBER).abs() < 1e-3,
            Value::Text(text) => text == WRONG_TEXT,
            _ => false,
        };
        let place = address(*row, *column);
        assert!(!wrong, "{sheet}!{place} was not recalculated");
    }
    values
}
