//! Files, by format, that ended other readers or emptied cells of theirs without a word:
//! the contributors' guide lists them. Each is read twice here, as `check` does.

use super::*;
use crate::read::open_and_compare;
use cross_check::{usual_binary, whole_document};
use documents::{cell as old_cell, document, old_workbook, record as old_record, table};
use office::{binary_cell, record};

/// Reads a file twice; nothing may differ.
fn read_twice(name: &str, bytes: &[u8]) -> Result<JobFile, Vec<Diagnostic>> {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    let (source, found) = open_and_compare(&path, &|_| true)?;
    assert!(found.iter().all(|it| !it.blocks()), "{name}: {found:?}");
    Ok(source)
}

/// The contents of the first row of a file that is read, twice where that is safe.
fn row(name: &str, bytes: &[u8]) -> Vec<Content> {
    let source = read_twice(name, bytes).unwrap_or_else(|found| panic!("{name}: {found:?}"));
    let row = &source.sheets[0].rows[0];
    row.cells.iter().map(|cell| cell.content.clone()).collect()
}

const ONE: &str = "<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>";

#[test]
fn xlsx_texts_declared_without_end() {
    let rows = "<row><c t=\"s\"><v>0</v></c></row>";
    for count in ["4294967295", "99999999999999999999", "many"] {
        let texts = format!("<sst uniqueCount=\"{count}\"><si><t>pond</t></si></sst>");
        let more = [("xl/sharedStrings.xml", texts.as_bytes())];
        assert_eq!(
            row("a.xlsx", &sheet_xml(&sheet_of(rows), &more)),
            [text("pond")]
        );
    }
}

#[test]
fn xlsx_texts_in_two_places() {
    // The workbook names one table of texts; another lies where some readers look.
    let rows = "<row><c t=\"s\"><v>0</v></c></row>";
    let more = [
        (
            "xl/sharedStrings.xml",
            &b"<sst uniqueCount=\"4294967295\"><si><t>wrong</t></si></sst>"[..],
        ),
        ("xl/texts.xml", b"<sst><si><t>right</t></si></sst>"),
    ];
    let bytes = sheet_xml(&sheet_of(rows), &more);
    let rels = "<Relationships><Relationship Id=\"r0\" Type=\"x/relationships/worksheet\" Target=\"worksheets/sheet1.xml\"/>\
        <Relationship Id=\"r1\" Type=\"x/relationships/sharedStrings\" Target=\"texts.xml\"/></Relationships>";
    let bytes = office::replaced(&bytes, "xl/_rels/workbook.xml.rels", rels.as_bytes());
    assert_eq!(row("a.xlsx", &bytes), [text("right")]);
}

#[test]
fn xlsx_dimension_beyond_or_backwards() {
    for dimension in ["A1:XFD1048576", "B9:A1", "A1:ZZZZZZ4294967295", "", "none"] {
        let sheet = sheet_of(ONE).replace(
            "<sheetData>",
            &format!("<dimension ref=\"{dimension}\"/><sheetData>"),
        );
        assert_eq!(
            row("a.xlsx", &sheet_xml(&sheet, &[])),
            [Content::Number(1.0)]
        );
    }
}

#[test]
fn xlsx_one_cell_in_the_last_corner() {
    let rows = format!("{ONE}<row r=\"1048576\"><c r=\"XFD1048576\"><v>1</v></c></row>");
    let found = read_twice("a.xlsx", &sheet_xml(&sheet_of(&rows), &[])).unwrap_err();
    assert_eq!(found[0].code, Code::FarCell);
}

#[test]
fn xlsx_a_newer_error_value() {
    let rows = "<row><c t=\"e\"><v>#SPILL!</v></c><c><v>2</v></c></row>";
    assert_eq!(
        row("a.xlsx", &sheet_xml(&sheet_of(rows), &[])),
        [Content::Error("#SPILL!".to_owned()), Content::Number(2.0)]
    );
}

#[test]
fn xlsx_a_formula_never_calculated() {
    let rows = "<row><c><f>1+1</f></c><c t=\"str\"><f>A1</f></c></row>";
    assert_eq!(
        row("a.xlsx", &sheet_xml(&sheet_of(rows), &[])),
        [Content::NotCalculated, Content::NotCalculated]
    );
}

#[test]
fn xlsx_parts_that_differ_in_case_only() {
    let more = [("xl/worksheets/SHEET1.xml", &b"<worksheet/>"[..])];
    let found = read_twice("a.xlsx", &sheet_xml(&sheet_of(ONE), &more));
    // Which of the two is meant nobody can know: here the last one is, which is empty.
    assert_eq!(found.unwrap_err()[0].code, Code::EmptyFile);
}

#[test]
fn xlsx_a_part_larger_than_it_says() {
    // A part that only another reader opens, made of one letter; it says it has four bytes.
    let theme = vec![b'a'; 5_000_000];
    let mut bytes = sheet_xml(&sheet_of(ONE), &[("xl/theme/theme1.xml", &theme)]);
    let size = u32::try_from(theme.len()).unwrap().to_le_bytes();
    let places: Vec<usize> = (0..bytes.len() - 4)
        .filter(|&at| bytes[at..at + 4] == size)
        .collect();
    assert!(!places.is_empty());
    for at in places {
        bytes[at..at + 4].copy_from_slice(&4_u32.to_le_bytes());
    }
    assert_eq!(row("a.xlsx", &bytes), [Content::Number(1.0)]);
    assert_eq!(cross_check::sheets_read_again("a.xlsx", &bytes), 0);
}

/// Records of a sheet of `.xlsb` around those of its cells.
fn binary_sheet(cells: &[Vec<u8>]) -> Vec<u8> {
    let begin = [record(0x81, &[]), record(0x94, &[0; 16]), record(0x91, &[])];
    let row = [record(0, &[0; 4])];
    [
        begin.concat(),
        row.concat(),
        cells.concat(),
        record(0x92, &[]),
    ]
    .concat()
}

#[test]
fn xlsb_the_error_of_a_formula() {
    let cells = [
        binary_cell(11, 0, 0, &[0x17]),
        binary_cell(5, 1, 0, &2.0_f64.to_le_bytes()),
    ];
    assert_eq!(
        row("a.xlsb", &usual_binary(&binary_sheet(&cells))),
        [Content::Error("#REF!".to_owned()), Content::Number(2.0)]
    );
}

#[test]
fn xlsb_a_text_that_is_not_there() {
    let cells = [binary_cell(7, 0, 0, &9_u32.to_le_bytes())];
    let found = read_twice("a.xlsb", &usual_binary(&binary_sheet(&cells))).unwrap_err();
    assert_eq!(found[0].code, Code::NotReadable);
}

#[test]
fn xlsb_a_record_shorter_than_its_fields() {
    let cell = binary_cell(5, 0, 0, &2.0_f64.to_le_bytes());
    for short in [record(5, &cell[2..12]), record(0, &[0, 0])] {
        let found = read_twice("a.xlsb", &usual_binary(&binary_sheet(&[short]))).unwrap_err();
        assert_eq!(found[0].code, Code::NotReadable);
    }
    // Too short only for another reader, which needs the declared dimensions.
    let number = binary_cell(5, 0, 0, &2.0_f64.to_le_bytes());
    let sheet = [
        record(0x94, &[0; 3]),
        record(0x91, &[]),
        record(0, &[0; 4]),
        number,
    ]
    .concat();
    assert_eq!(row("a.xlsb", &usual_binary(&sheet)), [Content::Number(2.0)]);
}

#[test]
fn xls_dimensions_beyond_or_backwards() {
    let number = old_cell(0x203, 0, 0, 0, &2.0_f64.to_le_bytes());
    for corners in [[0, u32::MAX], [9, 1], [u32::MAX, u32::MAX]] {
        let rows = corners.map(u32::to_le_bytes).concat();
        let dimensions = old_record(0x200, &[&rows[..], &[0, 0, 0xFF, 0xFF, 0, 0]].concat());
        let bytes = old_workbook(&[dimensions, number.clone()].concat());
        assert_eq!(row("a.xls", &bytes), [Content::Number(2.0)]);
        assert_eq!(cross_check::sheets_read_again("a.xls", &bytes), 1);
    }
}

#[test]
fn xls_cells_in_opposite_corners() {
    let number = |row, column| old_cell(0x203, row, column, 0, &2.0_f64.to_le_bytes());
    let bytes = old_workbook(&[number(0, 0), number(65_535, 255)].concat());
    assert_eq!(row("a.xls", &bytes), [Content::Number(2.0)]);
    // As a rectangle they would take 2 GB.
    assert_eq!(cross_check::sheets_read_again("a.xls", &bytes), 0);
}

#[test]
fn xls_a_directory_in_a_circle() {
    let mut bytes = old_workbook(&old_cell(0x203, 0, 0, 0, &[0; 8]));
    bytes[516..520].copy_from_slice(&1_u32.to_le_bytes());
    let found = read_twice("a.xls", &bytes).unwrap_err();
    assert_eq!(found[0].code, Code::NotReadable);
}

#[test]
fn xls_a_formula_that_breaks_off() {
    let value = [&2.0_f64.to_le_bytes()[..], &[0; 6], &[0xFF, 0xFF, 0x3A]].concat();
    let bytes = old_workbook(&old_cell(0x06, 0, 0, 0, &value));
    assert_eq!(row("a.xls", &bytes), [Content::Number(2.0)]);
    assert_eq!(cross_check::sheets_read_again("a.xls", &bytes), 1);
}

#[test]
fn xls_a_long_text_of_a_formula() {
    let value = [&[0, 0, 0, 0, 0, 0, 0xFF, 0xFF][..], &[0; 8]].concat();
    let long = "stone by course ".repeat(600);
    let (first, rest) = long.as_bytes().split_at(8_000);
    let length = u16::try_from(long.len()).unwrap().to_le_bytes();
    let records = [
        old_cell(0x06, 0, 0, 0, &value),
        old_record(0x207, &[&length[..], &[0], first].concat()),
        old_record(0x3C, &[&[0], rest].concat()),
    ];
    let bytes = old_workbook(&records.concat());
    assert_eq!(row("a.xls", &bytes), [text(&long)]);
    assert_eq!(cross_check::sheets_read_again("a.xls", &bytes), 1);
}

/// A row of one cell with these attributes and this inside.
fn open_row(attributes: &str, inside: &str) -> Vec<u8> {
    whole_document(&table(&format!(
        "<table:table-row><table:table-cell {attributes}>{inside}</table:table-cell>\
         <table:table-cell office:value-type=\"float\" office:value=\"2\"/></table:table-row>"
    )))
}

#[test]
fn ods_cells_that_say_they_are_empty_without_end() {
    let cell = "<table:table-cell office:value-type=\"string\" office:string-value=\"\" \
        table:number-columns-repeated=\"16384\"/>";
    let rows = format!(
        "<table:table-row><table:table-cell office:value-type=\"float\" office:value=\"2\"/></table:table-row>\
         <table:table-row table:number-rows-repeated=\"1048000\">{cell}</table:table-row>"
    );
    let bytes = whole_document(&table(&rows));
    assert_eq!(row("a.ods", &bytes), [Content::Number(2.0)]);
    assert_eq!(cross_check::sheets_read_again("a.ods", &bytes), 0);
}

#[test]
fn ods_filled_cells_without_end() {
    let rows = "<table:table-row table:number-rows-repeated=\"4000000000\"><table:table-cell \
        office:value-type=\"float\" office:value=\"2\"/></table:table-row>";
    let found = read_twice("a.ods", &whole_document(&table(rows))).unwrap_err();
    assert_eq!(found[0].code, Code::FarCell);
}

#[test]
fn ods_a_long_formula_repeated() {
    let formula = format!("table:formula=\"of:={}1\"", "1+".repeat(100_000));
    let cell = format!("<table:table-cell {formula} table:number-columns-repeated=\"500\"/>");
    let rows = format!(
        "<table:table-row><table:table-cell office:value-type=\"float\" office:value=\"2\"/></table:table-row>\
         <table:table-row table:number-rows-repeated=\"1000\">{cell}</table:table-row>"
    );
    let bytes = whole_document(&table(&rows));
    assert_eq!(row("a.ods", &bytes), [Content::Number(2.0)]);
    assert_eq!(cross_check::sheets_read_again("a.ods", &bytes), 0);
}

#[test]
fn ods_blanks_without_end() {
    let inside = "<text:p>a<text:s text:c=\"4000000000\"/></text:p>";
    let bytes = open_row("office:value-type=\"string\"", inside);
    let found = read_twice("a.ods", &bytes).unwrap_err();
    assert_eq!(found[0].code, Code::TooLarge);
    let inside = "<text:p>a</text:p><text:s text:c=\"4000000000\"/>";
    let bytes = open_row("office:value-type=\"string\"", inside);
    assert_eq!(row("a.ods", &bytes), [text("a"), Content::Number(2.0)]);
    assert_eq!(cross_check::sheets_read_again("a.ods", &bytes), 0);
}

#[test]
fn ods_a_text_that_says_no_type() {
    let bytes = open_row("", "<text:p>pond</text:p>");
    assert_eq!(row("a.ods", &bytes), [text("pond"), Content::Number(2.0)]);
}

#[test]
fn ods_words_of_a_shape_in_a_cell() {
    let inside = "<draw:frame><draw:text-box><text:p>drawn</text:p></draw:text-box></draw:frame>\
        <text:p>pond</text:p>";
    let bytes = open_row("office:value-type=\"string\"", inside);
    assert_eq!(row("a.ods", &bytes), [text("pond"), Content::Number(2.0)]);
}

#[test]
fn ods_without_a_list_of_parts_or_with_blanks_between_cells() {
    let cell = "<table:table-cell office:value-type=\"float\" office:value=\"2\"/>";
    let rows = format!("<table:table-row>\n  {cell}\n</table:table-row>");
    for bytes in [document(&table(&rows)), whole_document(&table(&rows))] {
        assert_eq!(row("a.ods", &bytes), [Content::Number(2.0)]);
    }
}
