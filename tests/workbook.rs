//! The written workbook as a file: what is a formula, what is protected, what it says of
//! itself.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::io::{Cursor, Read};

use groundsheet::graph::home::Layout;
use groundsheet::graph::{Kind, Table};
use groundsheet::job::tables::{JobKeys, TABLES};
use groundsheet::write::BookLayout;

use crate::support::recalculate::{Value, formula_cells, stored};
use crate::support::{SAMPLE_JOBS, sample_job, workbook_of};

fn parts(bytes: &[u8]) -> BTreeMap<String, String> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut found = BTreeMap::new();
    for position in 0..archive.len() {
        let mut part = archive.by_index(position).unwrap();
        let mut text = String::new();
        if part.read_to_string(&mut text).is_ok() {
            found.insert(part.name().to_owned(), text);
        }
    }
    found
}

fn sheets(bytes: &[u8], layout: &BookLayout) -> Vec<(String, String)> {
    let mut parts = parts(bytes);
    let xml = |at: usize| {
        parts
            .remove(&format!("xl/worksheets/sheet{}.xml", at + 1))
            .unwrap()
    };
    let names = layout.sheets.iter().map(|sheet| sheet.name.to_owned());
    let xmls: Vec<String> = (0..layout.sheets.len()).map(xml).collect();
    names.zip(xmls).collect()
}

fn is_input(sheet: &str) -> bool {
    sheet == "Factors" || TABLES.iter().any(|table| table.name == sheet)
}

#[test]
fn input_sheets_are_open_and_the_rest_is_protected_without_a_password() {
    let estimate = sample_job("school-pond");
    let layout = BookLayout::new(&estimate);
    for (name, xml) in sheets(&workbook_of(&estimate), &layout) {
        assert_eq!(xml.contains("<sheetProtection"), !is_input(&name), "{name}");
        assert!(
            !xml.contains("password=") && !xml.contains("hashValue"),
            "{name}"
        );
    }
}

#[test]
fn every_number_on_a_protected_sheet_is_a_formula_or_is_listed_in_changes() {
    for job in SAMPLE_JOBS {
        let bytes = workbook_of(&sample_job(job));
        let formulas = formula_cells(&bytes);
        for (spot, value) in stored(&bytes) {
            let constant = matches!(value, Value::Number(_)) && !formulas.contains_key(&spot);
            let listed = spot.0 == "Changes" && spot.2 == 1;
            // What defaults do to the bid is said as of the run, and a live cell beside it says
            // whether the bid has changed since.
            let of_the_run = spot.0 == "Certainty" && spot.1 > 13;
            assert!(
                !constant || is_input(&spot.0) || listed || of_the_run,
                "{job}: {spot:?} holds {value:?}"
            );
        }
    }
}

/// A formula with each row number as its distance from the formula's own row; rows that
/// are fixed with `$` stay as they are.
fn relative(formula: &str, row: u32) -> String {
    let letters: Vec<char> = formula.chars().collect();
    let (mut out, mut at, mut quoted) = (String::new(), 0, false);
    while at < letters.len() {
        let letter = letters[at];
        quoted ^= letter == '"';
        let before = at.checked_sub(1).map(|before| letters[before]);
        let row_number =
            letter.is_ascii_digit() && before.is_some_and(|before| before.is_ascii_uppercase());
        if quoted || !row_number {
            out.push(letter);
            at += 1;
            continue;
        }
        let digits: String = letters[at..]
            .iter()
            .take_while(|digit| digit.is_ascii_digit())
            .collect();
        at += digits.len();
        let from_here = digits.parse::<i64>().unwrap() - i64::from(row) - 1;
        let _ = write!(out, "[{from_here}]");
    }
    out
}

#[test]
fn one_rule_is_one_formula_down_its_column() {
    for job in SAMPLE_JOBS {
        let estimate = sample_job(job);
        let layout = BookLayout::new(&estimate);
        let formulas = formula_cells(&workbook_of(&estimate));
        let mut checked = 0;
        for column in estimate.graph.columns() {
            let info = estimate.graph.column(column);
            if !matches!(
                info.kind,
                Kind::Step(_) | Kind::Limit(..) | Kind::Lookup { .. } | Kind::WordStep(_)
            ) {
                continue;
            }
            let home = layout.home(column);
            let sheet = layout.sheets[home.sheet].name;
            let at = |row: usize| {
                let spot = (
                    sheet.to_owned(),
                    home.row + u32::try_from(row).unwrap(),
                    home.column,
                );
                relative(&formulas[&spot].0, spot.1)
            };
            for row in 1..estimate.graph.rows(column) {
                assert_eq!(
                    at(row),
                    at(0),
                    "{job}: {}, {}",
                    estimate.graph.table(info.table).name,
                    info.name
                );
                checked += 1;
            }
        }
        assert!(checked > 200, "{job}: {checked}");
    }
}

#[test]
fn every_computed_column_has_a_home_and_every_rule_fits_its_units() {
    for job in SAMPLE_JOBS {
        let estimate = sample_job(job);
        assert_eq!(estimate.graph.rule_faults(), &[] as &[String], "{job}");
        let layout = BookLayout::new(&estimate);
        let mut names = BTreeSet::new();
        let graph = &estimate.graph;
        for column in graph.tables().flat_map(|table| graph.columns_of(table)) {
            let info = estimate.graph.column(column);
            let table = estimate.graph.table(info.table).name;
            assert!(
                names.insert((table, info.name.to_lowercase())),
                "{job}: {table} has two columns \"{}\"",
                info.name
            );
            assert!(
                layout.has(column),
                "{job}: {}, {}",
                estimate.graph.table(info.table).name,
                info.name
            );
        }
    }
}

#[test]
fn tables_print_with_headings_on_every_page_and_fit_its_width() {
    let estimate = sample_job("lily-tank");
    let layout = BookLayout::new(&estimate);
    let bytes = workbook_of(&estimate);
    let book = &parts(&bytes)["xl/workbook.xml"];
    assert!(book.contains("_xlnm.Print_Titles"));
    assert!(book.contains("<definedName name=\"run_again\">Changes!$B$3</definedName>"));
    for (name, xml) in sheets(&bytes, &layout) {
        assert!(xml.contains("fitToPage=\"1\""), "{name}");
        if TABLES.iter().any(|table| table.name == name) {
            assert!(xml.contains("<dataValidation "), "{name} has no guidance");
            assert!(xml.contains("state=\"frozen\""), "{name}");
        }
    }
}

#[test]
fn a_workbook_says_nothing_of_where_or_when_it_was_made() {
    let estimate = sample_job("field-notes");
    let own = std::env::current_dir()
        .unwrap()
        .to_string_lossy()
        .into_owned();
    for (name, text) in parts(&workbook_of(&estimate)) {
        assert!(
            !text.contains(&own) && !text.contains("field-notes"),
            "{name}"
        );
    }
    assert!(parts(&workbook_of(&estimate))["docProps/core.xml"].contains("2000-01-01"));
    assert_eq!(JobKeys::NAME, "Job");
}
