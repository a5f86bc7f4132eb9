//! Whole files through `open`: written by programs, made by hand, and made to hurt.

use std::io::{Cursor, Write};
use std::path::PathBuf;

use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Note, Workbook, XlsxError};
use tempfile::TempDir;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

use super::limits::{COLUMNS, ROWS};
use super::{Cell, Content, JobFile, open};
use crate::diagnostic::{Code, Diagnostic, Severity};

mod cross_check;
mod csv_files;
mod damaged;
mod documents;
mod hostile;
mod office;

/// Writes bytes under a name and reads them back through `open`.
fn read(name: &str, bytes: &[u8]) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    open(&path)
}

fn source(name: &str, bytes: &[u8]) -> JobFile {
    read(name, bytes)
        .unwrap_or_else(|findings| panic!("{findings:?}"))
        .0
}

/// The single error that a file gives.
fn error(name: &str, bytes: &[u8]) -> Diagnostic {
    let findings = read(name, bytes).expect_err("the file should not be read");
    assert_eq!(findings.len(), 1, "{findings:?}");
    assert_eq!(findings[0].severity, Severity::Error);
    findings[0].clone()
}

/// All cells of a sheet with their rows.
fn cells(source: &JobFile, sheet: usize) -> Vec<(u32, &Cell)> {
    let rows = source.sheets[sheet].rows.iter();
    rows.flat_map(|row| row.cells.iter().map(|cell| (row.index, cell)))
        .collect()
}

/// The content of a cell and whether it comes from a formula.
fn at(source: &JobFile, sheet: usize, row: u32, column: u32) -> Option<(Content, bool)> {
    let found = cells(source, sheet).into_iter();
    let mut found = found.filter(|(index, cell)| (*index, cell.column) == (row, column));
    found
        .next()
        .map(|(_, cell)| (cell.content.clone(), cell.formula))
}

fn text(text: &str) -> Content {
    Content::Text(text.to_owned())
}

/// A zip archive of parts.
fn archive(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        zip.start_file(*name, SimpleFileOptions::default()).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// The smallest workbook around the XML of one sheet and the parts given.
fn sheet_xml(sheet: &str, more: &[(&str, &[u8])]) -> Vec<u8> {
    let rels = |targets: &[(&str, &str)]| {
        let each = targets.iter().enumerate().map(|(index, (kind, target))| {
            format!("<Relationship Id=\"r{index}\" Type=\"http://x/relationships/{kind}\" Target=\"{target}\"/>")
        });
        format!(
            "<Relationships>{}</Relationships>",
            each.collect::<String>()
        )
    };
    let root = rels(&[("officeDocument", "xl/workbook.xml")]);
    let book = rels(&[
        ("worksheet", "worksheets/sheet1.xml"),
        ("sharedStrings", "/xl/sharedStrings.xml"),
        ("styles", "../xl/styles.xml"),
    ]);
    let sheets =
        b"<workbook><sheets><sheet name=\"Dig &amp; fill\" r:id=\"r0\"/></sheets></workbook>";
    let mut parts: Vec<(&str, &[u8])> = vec![
        ("_rels/.rels", root.as_bytes()),
        ("xl/workbook.xml", sheets),
        ("xl/_rels/workbook.xml.rels", book.as_bytes()),
        ("xl/worksheets/sheet1.xml", sheet.as_bytes()),
    ];
    for default in [
        ("xl/sharedStrings.xml", &b"<sst/>"[..]),
        ("xl/styles.xml", b"<styleSheet/>"),
    ] {
        if more.iter().all(|(name, _)| *name != default.0) {
            parts.push(default);
        }
    }
    parts.extend_from_slice(more);
    archive(&parts)
}

/// Sheet XML with the given rows.
fn sheet_of(rows: &str) -> String {
    format!("<worksheet><sheetData>{rows}</sheetData></worksheet>")
}
