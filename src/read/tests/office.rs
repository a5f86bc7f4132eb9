//! Workbooks of the office formats with XML and binary parts.

use super::*;

pub(super) fn written(fill: impl FnOnce(&mut Workbook) -> Result<(), XlsxError>) -> Vec<u8> {
    let mut workbook = Workbook::new();
    fill(&mut workbook).unwrap();
    workbook.save_to_buffer().unwrap()
}

#[test]
fn every_kind_of_cell_is_read_with_its_place() {
    let bytes = written(|workbook| {
        let sheet = workbook.add_worksheet().set_name("Basins")?;
        sheet.write(0, 0, " pond ½ ″ & <more> ")?;
        sheet.write(3, 4, 1.25)?;
        sheet.write(3, 5, true)?;
        let date = ExcelDateTime::from_ymd(2026, 5, 1)?;
        sheet.write_with_format(4, 0, &date, &Format::new().set_num_format("yyyy-mm-dd"))?;
        sheet.write_with_format(4, 1, 0.5, &Format::new().set_num_format("[h]:mm"))?;
        sheet.write(5, 0, Formula::new("1+1").set_result("2"))?;
        sheet.write(5, 1, Formula::new("A1&\"x\"").set_result("pond x"))?;
        sheet.write(5, 2, Formula::new("1/0").set_result("#DIV/0!"))?;
        sheet.merge_range(6, 1, 7, 2, "merged", &Format::new())?;
        workbook.add_worksheet().set_name("Empty")?;
        Ok(())
    });
    let source = source("garden.xlsx", &bytes);
    assert_eq!(source.name, "garden.xlsx");
    let rows = [
        (0, 0, text(" pond ½ ″ & <more> "), false),
        (3, 4, Content::Number(1.25), false),
        (3, 5, Content::Truth(true), false),
        (4, 0, Content::Date(46_143.0), false),
        (4, 1, Content::Duration(0.5), false),
        (5, 0, Content::Number(2.0), true),
        (5, 1, text("pond x"), true),
        (5, 2, Content::Error("#DIV/0!".to_owned()), true),
        (6, 1, text("merged"), false),
    ];
    for (row, column, content, formula) in rows {
        assert_eq!(
            at(&source, 0, row, column),
            Some((content, formula)),
            "{row} {column}"
        );
    }
    assert_eq!(source.sheets[0].merged, [(6, 1, 7, 2)]);
    let place = source.sheets[0].place.at(3, 4).to_string();
    assert_eq!(place, "garden.xlsx, sheet Basins, cell E4");
    assert_eq!(
        (source.sheets[1].name.as_str(), source.sheets[1].rows.len()),
        ("Empty", 0)
    );
}

#[test]
fn a_formula_without_stored_value_is_not_calculated() {
    let rows = "<row r=\"2\"><c r=\"B2\"><f>1+1</f></c><c r=\"C2\"><f>1</f><v/></c>\
        <c r=\"D2\" t=\"str\"><f>2</f></c><c r=\"E2\" t=\"str\"><f>2</f><v></v></c>\
        <c r=\"F2\"><f t=\"shared\" si=\"0\"/><v>7</v></c></row>";
    let source = source("a.xlsx", &sheet_xml(&sheet_of(rows), &[]));
    for column in 1..=3 {
        assert_eq!(
            at(&source, 0, 1, column),
            Some((Content::NotCalculated, true)),
            "{column}"
        );
    }
    assert_eq!(at(&source, 0, 1, 4), None);
    assert_eq!(at(&source, 0, 1, 5), Some((Content::Number(7.0), true)));
    assert_eq!(source.sheets[0].name, "Dig & fill");
}

#[test]
fn shared_rich_and_inline_texts_are_plain_text() {
    let texts = "<sst uniqueCount=\"99999999999\"><si><t>a</t></si><si><r><t xml:space=\"preserve\">b </t>\
        </r><r><t>c</t></r><rPh><t>z</t></rPh></si><si><t>x_x000D_y_x00_&#xBD;&amp;</t></si>\
        <si><t>_x005F_x000D_ _xD83D__xDE00__xD83D_ _x+00D_ _xé000_</t></si></sst>";
    let rows = "<row><c t=\"s\"><v>1</v></c><c t=\"s\"><v>2</v></c><c t=\"inlineStr\"><is><t>in</t>\
        <rPh><t>z</t></rPh></is></c><c t=\"inlineStr\"><is><t/></is></c></row><row><c><v>3</v></c><c t=\"s\"><v>3</v></c></row>";
    let more = [("xl/sharedStrings.xml", texts.as_bytes())];
    let source = source("a.xlsx", &sheet_xml(&sheet_of(rows), &more));
    assert_eq!(at(&source, 0, 0, 0), Some((text("b c"), false)));
    assert_eq!(at(&source, 0, 0, 1), Some((text("x\ry_x00_½&"), false)));
    assert_eq!(at(&source, 0, 0, 2), Some((text("in"), false)));
    assert_eq!(at(&source, 0, 0, 3), None);
    assert_eq!(at(&source, 0, 1, 0), Some((Content::Number(3.0), false)));
    let escaped = text("_x000D_ \u{1F600}\u{FFFD} _x+00D_ _xé000_");
    assert_eq!(at(&source, 0, 1, 1), Some((escaped, false)));
}

#[test]
fn unusual_values_stay_readable() {
    let rows = "<row r=\"1\"><c r=\"A1\" t=\"e\"><v>#SPILL!</v></c><c r=\"B1\"><v>NaN</v></c>\
        <c r=\"C1\"><v>1e999</v></c><c r=\"D1\" t=\"d\"><v>2026-05-01</v></c></row>";
    let source = source("a.xlsx", &sheet_xml(&sheet_of(rows), &[]));
    assert_eq!(
        at(&source, 0, 0, 0),
        Some((Content::Error("#SPILL!".to_owned()), false))
    );
    for column in [1, 2] {
        assert_eq!(
            at(&source, 0, 0, column),
            Some((Content::Error("#NUM!".to_owned()), false))
        );
    }
    assert_eq!(at(&source, 0, 0, 3), Some((Content::Date(46_143.0), false)));
}

#[test]
fn days_counted_from_1904_become_days_of_the_1900_system() {
    let styles =
        "<styleSheet><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/></cellXfs></styleSheet>";
    let rows = "<row><c s=\"1\"><v>0</v></c><c><v>0</v></c></row>";
    let sheets = b"<workbook><workbookPr date1904=\"1\"/><sheets><sheet name=\"S\" r:id=\"r0\"/></sheets></workbook>";
    let more = [("xl/styles.xml", styles.as_bytes())];
    let mut package = sheet_xml(&sheet_of(rows), &more);
    package = replaced(&package, "xl/workbook.xml", sheets);
    let source = source("a.xlsx", &package);
    // 1 January 1904 is day 1462 of the 1900 system.
    assert_eq!(at(&source, 0, 0, 0), Some((Content::Date(1462.0), false)));
    assert_eq!(at(&source, 0, 0, 1), Some((Content::Number(0.0), false)));
}

#[test]
fn cells_in_any_order_are_read_in_theirs() {
    let rows = "<row r=\"3\"><c r=\"C3\"><v>1</v></c><c r=\"A3\"><v>2</v></c></row>\
        <row r=\"1\"><c r=\"A1\"><v>3</v></c></row><row r=\"3\"><c r=\"C3\"><v>4</v></c></row>";
    let source = source("a.xlsx", &sheet_xml(&sheet_of(rows), &[]));
    let order: Vec<_> = cells(&source, 0)
        .into_iter()
        .map(|(row, cell)| (row, cell.column))
        .collect();
    assert_eq!(order, [(0, 0), (2, 0), (2, 2)]);
    assert_eq!(at(&source, 0, 2, 2), Some((Content::Number(4.0), false)));
}

#[test]
fn comments_give_one_warning() {
    let bytes = written(|workbook| {
        for row in 0..2 {
            let sheet = workbook.add_worksheet();
            sheet.write(row, 0, 1)?;
            sheet.insert_note(row, 0, &Note::new("look"))?;
        }
        Ok(())
    });
    let (_, warnings) = read("a.xlsx", &bytes).unwrap();
    assert_eq!(warnings.len(), 1);
    assert_eq!(
        (warnings[0].code, warnings[0].severity),
        (Code::NotCarried, Severity::Warning)
    );
}

/// The archive with one part replaced.
pub(super) fn replaced(bytes: &[u8], name: &str, part: &[u8]) -> Vec<u8> {
    let mut old = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut parts = Vec::new();
    for index in 0..old.len() {
        let mut file = old.by_index(index).unwrap();
        let mut content = Vec::new();
        std::io::Read::read_to_end(&mut file, &mut content).unwrap();
        let own = String::from_utf8(file.name_raw().to_vec()).unwrap();
        parts.push((
            own.clone(),
            if own == name { part.to_vec() } else { content },
        ));
    }
    let parts: Vec<(&str, &[u8])> = parts
        .iter()
        .map(|(name, bytes)| (name.as_str(), bytes.as_slice()))
        .collect();
    archive(&parts)
}

/// One record of a binary workbook.
pub(super) fn record(kind: u16, body: &[u8]) -> Vec<u8> {
    let mut bytes = if kind < 0x80 {
        vec![u8::try_from(kind).unwrap()]
    } else {
        vec![
            kind.to_le_bytes()[0] | 0x80,
            u8::try_from(kind >> 7).unwrap(),
        ]
    };
    bytes.push(u8::try_from(body.len()).unwrap());
    bytes.extend_from_slice(body);
    bytes
}

pub(super) fn wide(text: &str) -> Vec<u8> {
    let units: Vec<u16> = text.encode_utf16().collect();
    let mut bytes = u32::try_from(units.len()).unwrap().to_le_bytes().to_vec();
    bytes.extend(units.iter().flat_map(|unit| unit.to_le_bytes()));
    bytes
}

pub(super) fn binary_cell(kind: u16, column: u32, style: u32, value: &[u8]) -> Vec<u8> {
    let body = [&column.to_le_bytes()[..], &style.to_le_bytes(), value].concat();
    record(kind, &body)
}

/// A binary workbook with the given records in its sheet.
pub(super) fn binary(sheet: &[u8]) -> Vec<u8> {
    let names = [&[0; 8][..], &wide("r0"), &wide("Dig")].concat();
    let book = record(0x9C, &names);
    let styles = [
        record(0x2C, &[&[200, 0][..], &wide("yyyy")].concat()),
        record(0x269, &[2, 0, 0, 0]),
        record(0x2F, &[0; 16]),
        record(0x2F, &[0, 0, 200, 0, 0, 0]),
        record(0x26A, &[]),
    ];
    let texts = record(0x13, &[&[0][..], &wide("½ pond")].concat());
    let root = b"<Relationships><Relationship Id=\"a\" Type=\"x/officeDocument\" Target=\"xl/workbook.bin\"/></Relationships>";
    let rels = b"<Relationships><Relationship Id=\"r0\" Type=\"x/worksheet\" Target=\"s.bin\"/>\
        <Relationship Id=\"r1\" Type=\"x/styles\" Target=\"styles.bin\"/>\
        <Relationship Id=\"r2\" Type=\"x/sharedStrings\" Target=\"t.bin\"/></Relationships>";
    archive(&[
        ("_rels/.rels", root),
        ("xl/workbook.bin", &book),
        ("xl/_rels/workbook.bin.rels", rels),
        ("xl/styles.bin", &styles.concat()),
        ("xl/t.bin", &texts),
        ("xl/s.bin", sheet),
    ])
}

#[test]
fn binary_workbooks_are_read_alike() {
    let sheet = [
        record(0, &[3, 0, 0, 0, 9, 9]),
        binary_cell(1, 0, 0, &[]),
        binary_cell(2, 1, 0, &((150_u32 << 2) | 3).to_le_bytes()),
        binary_cell(5, 2, 1, &46_143.0_f64.to_le_bytes()),
        binary_cell(7, 3, 0, &0_u32.to_le_bytes()),
        binary_cell(8, 4, 0, &wide("made")),
        binary_cell(11, 5, 0, &[0x17]),
        binary_cell(4, 6, 0, &[1]),
        record(0xB0, &[1, 0, 0, 0, 2, 0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0]),
    ];
    let source = source("a.xlsb", &binary(&sheet.concat()));
    let rows = [
        (1, Content::Number(1.5), false),
        (2, Content::Date(46_143.0), false),
        (3, text("½ pond"), false),
        (4, text("made"), true),
        (5, Content::Error("#REF!".to_owned()), true),
        (6, Content::Truth(true), false),
    ];
    assert_eq!(cells(&source, 0).len(), rows.len());
    for (column, content, formula) in rows {
        assert_eq!(
            at(&source, 0, 3, column),
            Some((content, formula)),
            "{column}"
        );
    }
    assert_eq!(source.sheets[0].merged, [(1, 3, 2, 4)]);
}

#[test]
fn broken_binary_records_are_an_error() {
    let missing_text = binary_cell(7, 3, 0, &9_u32.to_le_bytes());
    let cut = &binary_cell(8, 4, 0, &wide("made"))[..9];
    for sheet in [&missing_text[..], cut] {
        assert_eq!(error("a.xlsb", &binary(sheet)).code, Code::NotReadable);
    }
}
