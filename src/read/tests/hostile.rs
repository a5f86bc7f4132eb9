//! Files that are broken, too large, or made to fill the memory.

use super::*;
use std::path::Path;

#[test]
fn a_far_filled_cell_is_reported_once_for_its_sheet_and_an_empty_one_not() {
    let rows = "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row><row r=\"1048576\">\
        <c r=\"XFC1048576\"><v>1</v></c><c r=\"XFD1048576\"><v>1</v></c></row>";
    let far = error("a.xlsx", &sheet_xml(&sheet_of(rows), &[]));
    assert_eq!(far.code, Code::FarCell);
    assert_eq!(
        far.place.unwrap().to_string(),
        "a.xlsx, sheet Dig & fill, cell XFC1048576"
    );
    let empty = "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row><row r=\"1048576\"><c r=\"XFD1048576\" s=\"1\"/></row>";
    assert_eq!(
        cells(&source("a.xlsx", &sheet_xml(&sheet_of(empty), &[])), 0).len(),
        1
    );
}

#[test]
fn the_last_cell_within_the_limits_is_read_and_the_next_is_not() {
    let name = |row, column| crate::place::cell_name(row, column);
    let cell = |row, column| format!("<row><c r=\"{}\"><v>1</v></c></row>", name(row, column));
    let last = source(
        "a.xlsx",
        &sheet_xml(&sheet_of(&cell(ROWS - 1, COLUMNS - 1)), &[]),
    );
    assert!(at(&last, 0, ROWS - 1, COLUMNS - 1).is_some());
    for (row, column) in [(ROWS, 0), (0, COLUMNS)] {
        let far = error("a.xlsx", &sheet_xml(&sheet_of(&cell(row, column)), &[]));
        assert_eq!(far.code, Code::FarCell);
    }
}

#[test]
fn a_part_that_expands_beyond_reason_is_refused() {
    let blank = vec![b' '; 40 << 20];
    let bytes = sheet_xml(
        &sheet_of("<row><c><v>1</v></c></row>"),
        &[("xl/media/x", &blank)],
    );
    assert!(bytes.len() < 100_000);
    assert_eq!(error("a.xlsx", &bytes).code, Code::TooLarge);
}

#[test]
fn a_part_that_lies_about_its_size_is_refused() {
    let rows = "<row><c><v>1</v></c></row>".repeat(2000);
    let sheet = sheet_of(&rows);
    let mut bytes = sheet_xml(&sheet, &[]);
    let size = u32::try_from(sheet.len()).unwrap().to_le_bytes();
    let small = 1000_u32.to_le_bytes();
    let places: Vec<usize> = (0..bytes.len() - 4)
        .filter(|&at| bytes[at..at + 4] == size)
        .collect();
    assert!(!places.is_empty());
    for at in places {
        bytes[at..at + 4].copy_from_slice(&small);
    }
    assert_eq!(error("a.xlsx", &bytes).code, Code::NotReadable);
}

#[test]
fn one_long_text_used_by_many_cells_does_not_fill_the_memory() {
    let texts = format!("<sst><si><t>{}</t></si></sst>", "long ".repeat(6_000));
    let rows = "<row><c t=\"s\"><v>0</v></c></row>".repeat(20_000);
    let more = [("xl/sharedStrings.xml", texts.as_bytes())];
    assert_eq!(
        error("a.xlsx", &sheet_xml(&sheet_of(&rows), &more)).code,
        Code::TooLarge
    );
}

#[test]
fn a_workbook_that_breaks_off_is_not_readable() {
    let bytes = sheet_xml(&sheet_of("<row><c><v>1</v></c></row>"), &[]);
    for length in [4, 30, bytes.len() / 2, bytes.len() - 1] {
        let broken = error("a.xlsx", &bytes[..length]);
        assert_eq!(broken.code, Code::NotReadable);
        assert_eq!(broken.place.unwrap().to_string(), "a.xlsx");
        assert!(broken.hint.is_some());
    }
    let open_end = "<worksheet><sheetData><row><c><v>1</v></c>";
    assert_eq!(
        error("a.xlsx", &sheet_xml(open_end, &[])).code,
        Code::NotReadable
    );
}

#[test]
fn other_files_are_not_readable() {
    let letter = archive(&[("letter.txt", b"hello")]);
    for (name, bytes) in [("a.xlsx", &b"hello"[..]), ("a.zip", &letter), ("a", b"x")] {
        assert_eq!(error(name, bytes).code, Code::NotReadable, "{name}");
    }
    let missing = open(Path::new("/nowhere/garden.xlsx")).expect_err("there is no such file");
    assert_eq!(missing[0].code, Code::CannotOpen);
    assert_eq!(missing[0].place.clone().unwrap().to_string(), "garden.xlsx");
}

#[test]
fn the_content_decides_and_not_the_ending() {
    let bytes = sheet_xml(&sheet_of("<row><c><v>1</v></c></row>"), &[]);
    assert_eq!(cells(&source("wrong.csv", &bytes), 0).len(), 1);
    assert_eq!(cells(&source("wrong.ods", &bytes), 0).len(), 1);
}

#[test]
fn a_file_without_cells_is_empty() {
    let blank = sheet_of("<row r=\"1\"><c r=\"A1\" s=\"1\"/></row>");
    assert_eq!(
        error("a.xlsx", &sheet_xml(&blank, &[])).code,
        Code::EmptyFile
    );
    assert_eq!(error("a.csv", b"\n ,\n").code, Code::EmptyFile);
    assert_eq!(error("a.xls", b"").code, Code::EmptyFile);
}

#[test]
fn entities_do_not_grow() {
    let sheet = format!(
        "<!DOCTYPE x [<!ENTITY a \"aaaaaaaaaa\">]>{}",
        sheet_of("<row><c t=\"str\"><v>&a;</v></c></row>")
    );
    assert_eq!(
        error("a.xlsx", &sheet_xml(&sheet, &[])).code,
        Code::NotReadable
    );
}

#[test]
fn reading_twice_gives_the_same() {
    let bytes = sheet_xml(
        &sheet_of(&"<row><c><v>1</v></c><c><v>2</v></c></row>".repeat(50)),
        &[],
    );
    assert_eq!(source("a.xlsx", &bytes), source("a.xlsx", &bytes));
}
