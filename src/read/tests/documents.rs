//! Open documents, and workbooks of 1997 made by hand.

use super::*;

pub(super) fn document(table: &str) -> Vec<u8> {
    let content = format!(
        "<office:document-content><office:body><office:spreadsheet>{table}</office:spreadsheet>\
         </office:body></office:document-content>"
    );
    archive(&[
        (
            "mimetype",
            b"application/vnd.oasis.opendocument.spreadsheet",
        ),
        ("content.xml", content.as_bytes()),
    ])
}

pub(super) fn table(rows: &str) -> String {
    format!("<table:table table:name=\"Dig\">{rows}</table:table>")
}

#[test]
fn open_documents_are_read_alike() {
    let rows = "<table:table-row table:number-rows-repeated=\"3\"><table:table-cell/></table:table-row>\
        <table:table-row>\
        <table:table-cell office:value-type=\"float\" office:value=\"1.5\" table:number-columns-repeated=\"2\"/>\
        <table:table-cell table:number-columns-repeated=\"2\"/>\
        <table:table-cell office:value-type=\"string\"><text:p>a<text:s text:c=\"2\"/>&amp;<text:span>b</text:span></text:p><text:p>c</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"date\" office:date-value=\"2026-05-01\"><text:p>1.5.26</text:p></table:table-cell>\
        <table:table-cell office:value-type=\"boolean\" office:boolean-value=\"true\"/>\
        <table:table-cell office:value-type=\"time\" office:time-value=\"PT12H00M00S\"/>\
        </table:table-row><table:table-row>\
        <table:table-cell table:formula=\"of:=1+1\" office:value-type=\"float\" office:value=\"2\"/>\
        <table:table-cell table:formula=\"of:=1+1\"/>\
        <table:table-cell table:formula=\"of:=X\" office:value-type=\"string\" office:string-value=\"\" calcext:value-type=\"error\"><text:p>#REF!</text:p></table:table-cell>\
        <table:table-cell table:formula=\"of:=X\" office:value-type=\"string\"><text:p>#N/A</text:p></table:table-cell>\
        <table:table-cell table:number-columns-spanned=\"2\" table:number-rows-spanned=\"2\" office:value-type=\"string\"><text:p>#1!</text:p></table:table-cell>\
        <table:covered-table-cell/></table:table-row>\
        <table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell table:number-columns-repeated=\"16384\"/></table:table-row>";
    let source = source("a.ods", &document(&table(rows)));
    let rows = [
        (3, 0, Content::Number(1.5), false),
        (3, 1, Content::Number(1.5), false),
        (3, 4, text("a  &b\nc"), false),
        (3, 5, Content::Date(46_143.0), false),
        (3, 6, Content::Truth(true), false),
        (3, 7, Content::Duration(0.5), false),
        (4, 0, Content::Number(2.0), true),
        (4, 1, Content::NotCalculated, true),
        (4, 2, Content::Error("#REF!".to_owned()), true),
        (4, 3, Content::Error("#N/A".to_owned()), true),
        (4, 4, text("#1!"), false),
    ];
    assert_eq!(cells(&source, 0).len(), rows.len());
    for (row, column, content, formula) in rows {
        assert_eq!(
            at(&source, 0, row, column),
            Some((content, formula)),
            "{row} {column}"
        );
    }
    assert_eq!(source.sheets[0].merged, [(4, 4, 5, 5)]);
}

#[test]
fn comments_and_shapes_are_not_cell_text() {
    let rows = "<table:shapes><draw:frame><text:p>shape</text:p></draw:frame></table:shapes>\
        <table:table-row><table:table-cell office:value-type=\"string\">\
        <office:annotation><text:p>look</text:p></office:annotation>\
        <draw:frame><text:p>drawn</text:p></draw:frame><text:p>pond</text:p></table:table-cell></table:table-row>";
    let (source, warnings) = read("a.ods", &document(&table(rows))).unwrap();
    assert_eq!(at(&source, 0, 0, 0), Some((text("pond"), false)));
    assert_eq!(
        warnings
            .iter()
            .map(|warning| warning.code)
            .collect::<Vec<_>>(),
        [Code::NotCarried]
    );
}

#[test]
fn filled_cells_repeated_without_end_are_far_cells() {
    let cell = "office:value-type=\"float\" office:value=\"1\"";
    let wide = format!(
        "<table:table-row><table:table-cell {cell} table:number-columns-repeated=\"4000000000\"/></table:table-row>"
    );
    let long = format!(
        "<table:table-row table:number-rows-repeated=\"4000000000\"><table:table-cell {cell}/></table:table-row>"
    );
    let far = error("a.ods", &document(&table(&wide)));
    assert_eq!(
        (far.code, far.place.unwrap().cell),
        (Code::FarCell, Some((0, COLUMNS)))
    );
    let far = error("a.ods", &document(&table(&long)));
    assert_eq!(
        (far.code, far.place.unwrap().cell),
        (Code::FarCell, Some((ROWS, 0)))
    );
    let both = long.replace(
        "/></table:table-row>",
        " table:number-columns-repeated=\"500\"/></table:table-row>",
    );
    assert_eq!(
        error("a.ods", &document(&table(&both))).code,
        Code::TooLarge
    );
}

#[test]
fn a_locked_document_asks_for_a_copy_without_password() {
    let manifest = b"<manifest:manifest><manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>";
    let bytes = archive(&[
        ("content.xml", b"\x01\x02"),
        ("META-INF/manifest.xml", manifest),
    ]);
    let locked = error("a.ods", &bytes);
    assert_eq!(locked.code, Code::NotReadable);
    assert!(locked.message.contains("password"));
}

pub(super) fn record(kind: u16, body: &[u8]) -> Vec<u8> {
    let length = u16::try_from(body.len()).unwrap();
    [&kind.to_le_bytes()[..], &length.to_le_bytes(), body].concat()
}

pub(super) fn cell(kind: u16, row: u16, column: u16, style: u16, value: &[u8]) -> Vec<u8> {
    let place = [row.to_le_bytes(), column.to_le_bytes(), style.to_le_bytes()].concat();
    record(kind, &[&place, value].concat())
}

/// A workbook of 1997 with the given records in its only sheet.
pub(super) fn old_workbook(sheet: &[u8]) -> Vec<u8> {
    let begin = record(0x809, &[0, 6, 5, 0, 0, 0, 0, 0]);
    let before = [
        begin.clone(),
        record(0xE0, &[0, 0, 0, 0]),
        record(0xE0, &[0, 0, 14, 0]),
    ]
    .concat();
    let texts = record(0xFC, &[1, 0, 0, 0, 1, 0, 0, 0, 2, 0, 0, b'h', 0xBD]);
    let length = before.len() + texts.len() + 15 + 4;
    let name = [
        &u32::try_from(length).unwrap().to_le_bytes()[..],
        &[0, 0, 3, 0],
        b"Dig",
    ]
    .concat();
    let globals = [before, texts, record(0x85, &name), record(0x0A, &[])].concat();
    assert_eq!(globals.len(), length);
    compound(&[globals, begin, sheet.to_vec(), record(0x0A, &[])].concat())
}

/// A compound file with one stream, padded so that it needs no mini sectors.
fn compound(stream: &[u8]) -> Vec<u8> {
    let mut stream = stream.to_vec();
    stream.resize(stream.len().max(4096).next_multiple_of(512), 0);
    let sectors = u32::try_from(stream.len() / 512).unwrap();
    assert!(sectors + 2 <= 128, "one sector of the table must be enough");
    let mut header = vec![0xFF; 512];
    header[..8].copy_from_slice(b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1");
    header[24..34].copy_from_slice(&[0x3E, 0, 3, 0, 0xFE, 0xFF, 9, 0, 6, 0]);
    header[44..52].copy_from_slice(&[1, 0, 0, 0, 1, 0, 0, 0]);
    header[60..64].copy_from_slice(&0xFFFF_FFFE_u32.to_le_bytes());
    header[68..72].copy_from_slice(&0xFFFF_FFFE_u32.to_le_bytes());
    header[76..80].copy_from_slice(&[0; 4]);
    let end = 0xFFFF_FFFE_u32;
    let mut table = vec![0xFFFF_FFFD, end];
    table.extend((3..sectors + 2).chain([end]));
    table.resize(128, u32::MAX);
    let table: Vec<u8> = table.iter().flat_map(|next| next.to_le_bytes()).collect();
    let mut directory = entry("Root Entry", 5, end, 0);
    directory.extend(entry(
        "Workbook",
        2,
        2,
        u32::try_from(stream.len()).unwrap(),
    ));
    directory.resize(512, 0);
    [header, table, directory, stream].concat()
}

fn entry(name: &str, kind: u8, start: u32, size: u32) -> Vec<u8> {
    let mut bytes: Vec<u8> = name.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let length = u8::try_from(bytes.len() + 2).unwrap();
    bytes.resize(128, 0);
    bytes[64] = length;
    bytes[66] = kind;
    bytes[116..120].copy_from_slice(&start.to_le_bytes());
    bytes[120..124].copy_from_slice(&size.to_le_bytes());
    bytes
}

#[test]
fn workbooks_of_1997_are_read_alike() {
    let two = 2.0_f64.to_le_bytes();
    let formula = |value: &[u8]| [value, &[0; 6]].concat();
    let sheet = [
        cell(0x203, 4, 0, 0, &1.5_f64.to_le_bytes()),
        cell(0x27E, 4, 1, 0, &((7_u32 << 2) | 2).to_le_bytes()),
        cell(0x203, 4, 2, 1, &46_143.0_f64.to_le_bytes()),
        cell(0xFD, 4, 3, 0, &0_u32.to_le_bytes()),
        cell(0x06, 5, 0, 0, &formula(&two)),
        cell(0x06, 5, 1, 0, &formula(&[0, 0, 0, 0, 0, 0, 0xFF, 0xFF])),
        record(0x207, &[2, 0, 0, b'o', b'k']),
        cell(0x06, 5, 2, 0, &formula(&[2, 0, 0x17, 0, 0, 0, 0xFF, 0xFF])),
        cell(0xBD, 6, 1, 0, &[14, 0, 0, 0, 0, 0, 0, 0, 0x0C, 0x40, 2, 0]),
        record(0xE5, &[1, 0, 1, 0, 2, 0, 3, 0, 4, 0]),
        record(0x1C, &[0; 8]),
    ];
    let (source, warnings) = read("a.xls", &old_workbook(&sheet.concat())).unwrap();
    let rows = [
        (4, 0, Content::Number(1.5), false),
        (4, 1, Content::Number(7.0), false),
        (4, 2, Content::Date(46_143.0), false),
        (4, 3, text("h½"), false),
        (5, 0, Content::Number(2.0), true),
        (5, 1, text("ok"), true),
        (5, 2, Content::Error("#REF!".to_owned()), true),
    ];
    for (row, column, content, formula) in rows {
        assert_eq!(
            at(&source, 0, row, column),
            Some((content, formula)),
            "{row} {column}"
        );
    }
    assert_eq!(at(&source, 0, 6, 1), Some((Content::Number(3.0), false)));
    assert_eq!(at(&source, 0, 6, 2), Some((Content::Number(3.5), false)));
    assert_eq!(source.sheets[0].merged, [(1, 3, 2, 4)]);
    assert_eq!(warnings.len(), 1);
}

#[test]
fn a_chain_of_sectors_in_a_circle_is_an_error() {
    let mut bytes = old_workbook(&cell(0x203, 0, 0, 0, &[0; 8]));
    assert!(read("a.xls", &bytes).is_ok());
    // The directory, sector 1, leads back to itself.
    bytes[516..520].copy_from_slice(&1_u32.to_le_bytes());
    assert_eq!(error("a.xls", &bytes).code, Code::NotReadable);
}

#[test]
fn workbooks_from_before_1997_are_refused_with_a_reason() {
    let stream = record(0x809, &[0, 5, 5, 0]);
    let refused = error("a.xls", &compound(&stream));
    assert_eq!(refused.code, Code::NotReadable);
    assert!(refused.message.contains("before 1997"));
}
