//! Text files, alone and as a folder.

use super::*;

fn contents(bytes: &[u8]) -> Vec<(u32, u32, Content)> {
    let source = source("Basins.csv", bytes);
    let all = cells(&source, 0).into_iter();
    all.map(|(row, cell)| (row, cell.column, cell.content.clone()))
        .collect()
}

#[test]
fn rows_keep_the_line_on_which_they_begin() {
    let bytes = b"name,depth\r\n\r\n , \r\n\"two\r\nlines\",3\r\n\r\n\r\nlast,4,extra";
    let expected = [
        (0, 0, text("name")),
        (0, 1, text("depth")),
        (3, 0, text("two\nlines")),
        (3, 1, Content::Number(3.0)),
        (7, 0, text("last")),
        (7, 1, Content::Number(4.0)),
        (7, 2, text("extra")),
    ];
    assert_eq!(contents(bytes), expected);
    assert_eq!(
        contents(b"\n\n1\r2")[..],
        [(2, 0, Content::Number(1.0)), (3, 0, Content::Number(2.0))]
    );
}

#[test]
fn a_text_file_is_a_sheet_whose_places_are_lines() {
    let source = source("Basins.csv", b"a,1");
    assert_eq!(source.sheets[0].name, "Basins");
    assert_eq!(
        source.sheets[0].place.at(3, 4).to_string(),
        "Basins.csv, line 4, column 5"
    );
}

#[test]
fn text_of_every_usual_encoding_survives() {
    let expected = [(0, 0, text("½ ’ ″")), (0, 1, Content::Number(2.0))];
    let plain = "½ ’ ″,2";
    assert_eq!(contents(plain.as_bytes()), expected);
    assert_eq!(contents(format!("\u{FEFF}{plain}").as_bytes()), expected);
    let wide: Vec<u8> = "\u{FEFF}½ ’ ″,2"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    assert_eq!(contents(&wide), expected);
    // Before UTF-8 there was no double prime; the right double quote stood for it.
    assert_eq!(contents(b"\xBD \x92 \x94,2")[0], (0, 0, text("½ ’ ”")));
}

#[test]
fn numbers_are_read_as_the_file_writes_them() {
    let comma = [
        (1, 0, text("a")),
        (1, 1, Content::Number(3.5)),
        (1, 2, Content::Number(1234.0)),
    ];
    assert_eq!(contents(b"name;depth;x\na;3,5;1.234")[3..], comma);
    let point = [
        (1, 0, text("a")),
        (1, 1, Content::Number(3.5)),
        (1, 2, Content::Number(1.234)),
    ];
    assert_eq!(contents(b"name;depth;x\na;3.5;1.234")[3..], point);
    let tab = [(1, 0, Content::Number(1234.5)), (1, 1, text("2026-05-01"))];
    assert_eq!(contents(b"a\tb\n\"1,234.5\"\t2026-05-01")[2..], tab);
}

#[test]
fn far_lines_and_fields_are_far_cells() {
    let wide = format!("a{}b", ",".repeat(600));
    let far = error("a.csv", wide.as_bytes());
    assert_eq!(far.code, Code::FarCell);
    assert_eq!(far.place.unwrap().to_string(), "a.csv, line 1, column 601");
    let long = format!("a{}b", "\n".repeat(300_000));
    assert_eq!(
        error("a.csv", long.as_bytes()).place.unwrap().cell,
        Some((300_000, 0))
    );
    assert_eq!(error("a.csv", b"a\0b").code, Code::NotReadable);
}

#[test]
fn a_folder_is_one_source_with_a_sheet_for_each_file() {
    let folder = TempDir::new().unwrap();
    let job: PathBuf = folder.path().join("job");
    std::fs::create_dir(&job).unwrap();
    for (name, content) in [
        ("Liner.CSV", "a"),
        ("Basins.csv", "b"),
        ("notes.txt", "c"),
        ("._x.csv", "d"),
    ] {
        std::fs::write(job.join(name), content).unwrap();
    }
    let (source, _) = open(&job).unwrap();
    assert_eq!(source.name, "job");
    let names: Vec<_> = source
        .sheets
        .iter()
        .map(|sheet| sheet.name.as_str())
        .collect();
    assert_eq!(names, ["Basins", "Liner"]);
    assert_eq!(source.sheets[0].place.file.as_ref(), "Basins.csv");

    std::fs::write(job.join("Stone.csv"), "a\0b").unwrap();
    let findings = open(&job).expect_err("one file is not text");
    assert_eq!(findings[0].place.clone().unwrap().to_string(), "Stone.csv");

    let empty = TempDir::new().unwrap();
    let findings = open(empty.path()).expect_err("there is no file");
    assert_eq!(findings[0].code, Code::CannotOpen);
}
