//! The cross-check: what is no difference, what is one, and what is not read again.

use super::*;
use crate::read::cross_check::compare;
use crate::read::open_and_compare;
use crate::read::prospect::Prospect;
use documents::{cell as old_cell, document, old_workbook, record as old_record, table};
use office::{binary, binary_cell, record, replaced, wide, written};

/// The places and messages of all cells that two readings of a file differ in.
fn differences(name: &str, bytes: &[u8]) -> Vec<String> {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).unwrap();
    let (_, found) = open_and_compare(&path, &|_| true).unwrap();
    let found = found
        .into_iter()
        .filter(|it| it.code == Code::ReadDifferently);
    found
        .map(|it| {
            assert_eq!(it.severity, Severity::Error);
            format!("{}: {}", it.place.unwrap(), it.message)
        })
        .collect()
}

/// How many sheets of a file are cross-checked: those of which our reading is made false
/// in one cell, and that is told.
pub(super) fn sheets_read_again(name: &str, bytes: &[u8]) -> usize {
    let mut gather = crate::read::gather::Gather::new(name);
    crate::read::workbook::read(bytes, &mut gather).unwrap();
    let prospect: Prospect = std::mem::take(gather.prospect());
    let (mut source, _) = gather.finish().unwrap();
    for sheet in &mut source.sheets {
        sheet.rows.truncate(1);
        sheet.rows.iter_mut().for_each(|row| row.cells.truncate(1));
        for cell in sheet.rows.iter_mut().flat_map(|row| &mut row.cells) {
            cell.content = Content::Error("#FALSE!".to_owned());
        }
    }
    let found = compare(bytes, &source, &prospect, &|_| true);
    let places = found
        .iter()
        .filter_map(|it| Some(it.place.as_ref()?.sheet.clone()));
    places.collect::<std::collections::BTreeSet<_>>().len()
}

/// A true file is read twice, all its sheets, and nothing differs.
fn assert_agreed(name: &str, bytes: &[u8], sheets: usize) {
    assert_eq!(differences(name, bytes), [""; 0], "{name}");
    assert_eq!(sheets_read_again(name, bytes), sheets, "{name}");
}

#[test]
fn what_every_kind_of_cell_holds_is_read_alike() {
    let bytes = written(|workbook| {
        let sheet = workbook.add_worksheet().set_name("Basins")?;
        sheet.write(0, 0, " pond ½ ″ & <more>\r\nbelow ")?;
        sheet.write(0, 1, "_x000D_ as written")?;
        sheet.write(0, 3, "escaped _xD83D__xDE00_ \u{1F600} \u{1}")?;
        let (bold, plain) = (Format::new().set_bold(), Format::new());
        sheet.write_rich_string(0, 2, &[(&bold, "rich "), (&plain, "text")])?;
        for (column, number) in (0..).zip([1.25, 0.1 + 0.2, 1e300, -0.0, 1_234_567.891]) {
            sheet.write(3, column, number)?;
        }
        sheet.write(3, 5, true)?;
        for (column, pattern) in (0..).zip(["yyyy-mm-dd", "h:mm", "[h]:mm", "0 %", "0.0%", "0\\d"])
        {
            let format = Format::new().set_num_format(pattern);
            sheet.write_with_format(4, column, 0.15, &format)?;
            sheet.write_with_format(5, column, 46_143.25, &format)?;
        }
        sheet.write(6, 0, Formula::new("1+1").set_result("2"))?;
        sheet.write(6, 1, Formula::new("A1&\"x\"").set_result("pond x"))?;
        sheet.write(6, 2, Formula::new("1/0").set_result("#DIV/0!"))?;
        sheet.write(6, 3, Formula::new("\"\"").set_result(""))?;
        sheet.merge_range(7, 1, 8, 2, "merged", &plain)?;
        sheet.write_blank(9, 1, &bold)?;
        sheet.write(10, 0, "   ")?;
        let far = workbook.add_worksheet().set_name("Far")?;
        far.write(249_999, 511, "last")?;
        workbook.add_worksheet().set_name("Empty")?;
        Ok(())
    });
    assert_agreed("garden.xlsx", &bytes, 2);
}

#[test]
fn phonetic_and_inline_texts_and_cells_without_values_are_no_differences() {
    let texts = "<sst uniqueCount=\"2\"><si><t>a</t></si><si><r><t xml:space=\"preserve\">b </t>\
        </r><r><t>c</t></r><rPh><t>z</t></rPh></si></sst>";
    let rows = "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>1</v></c><c r=\"B1\" t=\"s\"><v>0</v></c>\
        <c r=\"C1\" t=\"inlineStr\"><is><t>in</t><rPh><t>z</t></rPh></is></c>\
        <c r=\"D1\" t=\"inlineStr\"><is><t/></is></c><c r=\"E1\"><f>1+1</f></c>\
        <c r=\"F1\" t=\"str\"><f>2</f><v></v></c><c r=\"G1\" t=\"d\"><v>2026-05-01</v></c>\
        <c r=\"H1\"><v>1e999</v></c></row>";
    let more = [("xl/sharedStrings.xml", texts.as_bytes())];
    assert_agreed("a.xlsx", &sheet_xml(&sheet_of(rows), &more), 1);
}

#[test]
fn days_counted_from_1904_are_the_same_days() {
    let styles = "<styleSheet><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"46\"/>\
        </cellXfs></styleSheet>";
    let rows = "<row r=\"1\"><c r=\"A1\" s=\"1\"><v>44681</v></c><c r=\"B1\"><v>5</v></c>\
        <c r=\"C1\" s=\"2\"><v>0.5</v></c></row>";
    let sheets = b"<workbook><workbookPr date1904=\"1\"/><sheets><sheet name=\"S\" r:id=\"r0\"/></sheets></workbook>";
    let more = [("xl/styles.xml", styles.as_bytes())];
    let package = replaced(
        &sheet_xml(&sheet_of(rows), &more),
        "xl/workbook.xml",
        sheets,
    );
    assert_agreed("a.xlsx", &package, 1);
}

#[test]
fn open_documents_are_read_alike_twice() {
    let rows = "<table:table-row table:number-rows-repeated=\"3\"><table:table-cell/></table:table-row>\
        <table:table-row table:number-rows-repeated=\"2\"><table:table-cell table:number-columns-repeated=\"2\"/>\
        <table:table-cell office:value-type=\"float\" office:value=\"1.5\" table:number-columns-repeated=\"2\"/>\
        <table:table-cell office:value-type=\"percentage\" office:value=\"0.15\"/>\
        <table:table-cell office:value-type=\"currency\" office:value=\"3.2\"/>\
        <table:table-cell office:value-type=\"string\"><office:annotation><text:p>look</text:p></office:annotation>\
        <text:p>a<text:s text:c=\"2\"/>&amp;<text:span>b</text:span></text:p><text:p>c</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"date\" office:date-value=\"2026-05-01T06:00:00\"/>\
        <table:table-cell office:value-type=\"boolean\" office:boolean-value=\"true\"/>\
        <table:table-cell office:value-type=\"time\" office:time-value=\"PT12H00M00S\"/>\
        <table:table-cell><text:p>says no type</text:p></table:table-cell>\
        </table:table-row><table:table-row>\
        <table:table-cell table:formula=\"of:=1+1\" office:value-type=\"float\" office:value=\"2\"/>\
        <table:table-cell table:formula=\"of:=1+1\"/>\
        <table:table-cell table:formula=\"of:=X\" office:value-type=\"string\" office:string-value=\"\" calcext:value-type=\"error\"><text:p>#REF!</text:p></table:table-cell>\
        <table:table-cell table:formula=\"of:=X\" office:value-type=\"float\" office:value=\"0\" calcext:value-type=\"error\"><text:p>Err:502</text:p></table:table-cell>\
        <table:table-cell table:number-columns-spanned=\"2\" office:value-type=\"string\" office:string-value=\"  kept \"><text:p>kept</text:p></table:table-cell>\
        <table:covered-table-cell office:value-type=\"string\"><text:p>below</text:p></table:covered-table-cell></table:table-row>\
        <table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell table:number-columns-repeated=\"16384\"/></table:table-row>";
    let whole = whole_document(&table(rows));
    assert_agreed("a.ods", &whole, 1);
    // Without the parts that every program writes the other reader refuses the file.
    assert_eq!(sheets_read_again("a.ods", &document(&table(rows))), 0);
}

/// A document with the list of its parts.
pub(super) fn whole_document(table: &str) -> Vec<u8> {
    let mut parts = parts(&document(table));
    parts.push((
        "META-INF/manifest.xml".to_owned(),
        b"<manifest:manifest/>".to_vec(),
    ));
    archive_of(&parts)
}

/// The parts of an archive.
fn parts(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let each = (0..archive.len()).map(|position| {
        let mut part = archive.by_index(position).unwrap();
        let mut content = Vec::new();
        std::io::Read::read_to_end(&mut part, &mut content).unwrap();
        (part.name().to_owned(), content)
    });
    each.collect()
}

fn archive_of(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let parts: Vec<(&str, &[u8])> = parts
        .iter()
        .map(|(name, bytes)| (name.as_str(), bytes.as_slice()))
        .collect();
    archive(&parts)
}

#[test]
fn workbooks_of_1997_are_read_alike_twice() {
    let formula = |value: &[u8], expression: &[u8]| {
        let length = u16::try_from(expression.len()).unwrap().to_le_bytes();
        [value, &[0; 6], &length, expression].concat()
    };
    let two = 2.0_f64.to_le_bytes();
    let long = "wide ½ ".repeat(1_100);
    let mut text = u16::try_from(long.chars().count())
        .unwrap()
        .to_le_bytes()
        .to_vec();
    text.push(0);
    text.extend(long.chars().map(|c| u8::try_from(u32::from(c)).unwrap()));
    let sheet = [
        // Rows and columns that are declared and not there.
        old_record(
            0x200,
            &[0, 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF, 0, 0, 0xFF, 0xFF, 0, 0],
        ),
        old_cell(0x203, 4, 0, 0, &1.5_f64.to_le_bytes()),
        old_cell(0x27E, 4, 1, 0, &((7_u32 << 2) | 2).to_le_bytes()),
        old_cell(0x27E, 4, 4, 0, &((12_345_u32 << 2) | 3).to_le_bytes()),
        old_cell(0x203, 4, 2, 1, &46_143.0_f64.to_le_bytes()),
        old_cell(0xFD, 4, 3, 0, &0_u32.to_le_bytes()),
        old_cell(0x204, 4, 5, 0, &text),
        // An expression that breaks off.
        old_cell(0x06, 5, 0, 0, &formula(&two, &[0x3A, 1])),
        old_cell(
            0x06,
            5,
            1,
            0,
            &formula(&[0, 0, 0, 0, 0, 0, 0xFF, 0xFF], &[]),
        ),
        old_record(0x207, &[2, 0, 0, b'o', b'k']),
        old_cell(
            0x06,
            5,
            2,
            0,
            &formula(&[2, 0, 0x17, 0, 0, 0, 0xFF, 0xFF], &[]),
        ),
        old_cell(0x205, 5, 3, 0, &[1, 0]),
        old_cell(0xBD, 6, 1, 0, &[14, 0, 0, 0, 0, 0, 0, 0, 0x0C, 0x40, 2, 0]),
        // A chart inside the sheet, with numbers of its own.
        old_record(0x809, &[0, 6, 0x20, 0, 0, 0, 0, 0]),
        old_cell(0x203, 4, 0, 0, &9.0_f64.to_le_bytes()),
        old_record(0x0A, &[]),
    ];
    assert_agreed("a.xls", &old_workbook(&sheet.concat()), 1);
}

#[test]
fn binary_workbooks_are_read_alike_twice() {
    let sheet = [
        record(0x81, &[]),
        record(0x94, &[0; 16]),
        record(0x91, &[]),
        record(0, &[3, 0, 0, 0]),
        binary_cell(2, 1, 0, &((150_u32 << 2) | 3).to_le_bytes()),
        binary_cell(5, 2, 1, &46_143.0_f64.to_le_bytes()),
        binary_cell(7, 3, 0, &0_u32.to_le_bytes()),
        binary_cell(8, 4, 0, &wide("made")),
        binary_cell(11, 5, 0, &[0x17]),
        binary_cell(4, 6, 0, &[1]),
        record(0x92, &[]),
    ];
    assert_agreed("a.xlsb", &usual_binary(&sheet.concat()), 1);
    // In other places than usual another reader would look for other parts.
    assert_eq!(sheets_read_again("a.xlsb", &binary(&sheet.concat())), 0);
}

/// A binary workbook with its parts where all readers look for them.
pub(super) fn usual_binary(sheet: &[u8]) -> Vec<u8> {
    let mut parts = parts(&binary(sheet));
    for (name, bytes) in &mut parts {
        match name.as_str() {
            "xl/t.bin" => {
                *name = "xl/sharedStrings.bin".to_owned();
                let begin = record(0x9F, &[1, 0, 0, 0, 1, 0, 0, 0]);
                *bytes = [begin, bytes.clone()].concat();
            }
            "xl/s.bin" => "xl/worksheets/sheet1.bin".clone_into(name),
            "xl/_rels/workbook.bin.rels" => {
                let rels = String::from_utf8(bytes.clone()).unwrap();
                let rels = rels.replace("\"t.bin\"", "\"sharedStrings.bin\"");
                *bytes = rels
                    .replace("\"s.bin\"", "\"worksheets/sheet1.bin\"")
                    .into_bytes();
            }
            "xl/workbook.bin" => {
                let (after, end) = (record(0x90, &[]), record(0x84, &[]));
                *bytes = [bytes.clone(), after, end].concat();
            }
            _ => {}
        }
    }
    archive_of(&parts)
}

#[test]
fn cells_that_are_read_differently_are_told_with_both_values() {
    let rows = "<row r=\"1\"><c r=\"A1\"><v>6</v><v>0</v></c><c r=\"B1\" t=\"str\"><v>po</v><v>nd</v></c>\
        <c r=\"C1\"><v>1</v><f>1</f></c><c r=\"D1\"><v>4</v></c></row>";
    let found = differences("a.xlsx", &sheet_xml(&sheet_of(rows), &[]));
    let place = "a.xlsx, sheet Dig & fill, cell";
    let says = "two independent readings of this cell differ";
    assert_eq!(
        found,
        [
            format!("{place} A1: {says}: 60, and 0"),
            format!("{place} B1: {says}: \"pond\", and \"nd\""),
            format!("{place} C1: {says}: 1, and nothing"),
        ]
    );
}

#[test]
fn a_sheet_that_differs_all_over_is_told_in_a_few_lines() {
    let rows = "<row><c><v>6</v><v>0</v></c></row>".repeat(13);
    let found = differences("a.xlsx", &sheet_xml(&sheet_of(&rows), &[]));
    assert_eq!(found.len(), 11);
    assert_eq!(
        found[10],
        "a.xlsx, sheet Dig & fill: 3 more cells of this sheet are read differently"
    );
}

#[test]
fn only_the_sheets_asked_for_are_read_twice() {
    let rows = "<row r=\"1\"><c r=\"A1\"><v>6</v><v>0</v></c></row>";
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("a.xlsx");
    std::fs::write(&path, sheet_xml(&sheet_of(rows), &[])).unwrap();
    let found = |wanted: &str| {
        open_and_compare(&path, &|name| name == wanted)
            .unwrap()
            .1
            .len()
    };
    assert_eq!((found("Dig & fill"), found("Fill & dig")), (1, 0));
}
