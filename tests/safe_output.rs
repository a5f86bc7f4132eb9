//! What the input says stays words: it never becomes a formula, a number, a truth or
//! broken XML, whatever it looks like.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "test code: what should be there and is not is a failed test"
)]

use std::collections::BTreeMap;
use std::fs;
use std::process::Command;

use groundsheet::diagnostic;
use groundsheet::estimate::estimate;
use groundsheet::job::{self, Job};
use groundsheet::read::{self, Content, JobFile};
use rust_xlsxwriter::Workbook;
use tempfile::TempDir;

use crate::errors::parts_of;
use crate::support::workbook_of;

/// Stands in every hostile text, so that it can be found again.
const MARK: &str = "MARKED";

/// A cell of an input: sheet, row, column, text.
type Cells = Vec<(&'static str, u32, u16, String)>;

/// A job: `$1` stands for the first free text, `@1` for the first name.
const TABLES: &[(&str, &[&str])] = &[
    (
        "Job",
        &[
            "Key|Value",
            "Name|$1",
            "Client|$2",
            "Site|$3",
            "Prepared by|$4",
            "Note|$5",
            "Units|US customary",
            "Soil|loam",
            "$6|$7", // a key that is not ours is carried too
        ],
    ),
    (
        "Basins",
        &[
            "Basin|Shape|Length (ft)|Depth (ft)|Side slope|Note|$8",
            "@1|circle|60 ft|5 ft|2:1|$9|$10",
        ],
    ),
    (
        "Shelves",
        &[
            "Basin|Shelf|Depth (ft)|Width (ft)|Note",
            "@1|$11|1 ft|3 ft|$12",
        ],
    ),
    (
        "Other items",
        &[
            "Item|Section|Description|Unit|Times|Material|Work|Note",
            "@2|$13|$14|ea|4|@3|@4|$15",
        ],
    ),
    (
        "Materials",
        &[
            "Material|Unit|Price|Supplier|Quote|Note",
            "@3|ea|80|$16|$17|$18",
        ],
    ),
    (
        "Production rates",
        &["Work|Unit|Crew|Crew output|Note", "@4|ea|@5|2|$19"],
    ),
    ("Crews", &["Crew|People|Wage per hour|Note", "@5|2|30|$20"]),
    (
        "Mark-ups",
        &["Mark-up|On|Rate (%)|Note", "@6|direct cost|10|$21"],
    ),
    ("Factors", &["Factor|Override|Reason", "Waste|4|$22"]),
    ("Set quantities", &["Line|Quantity|Reason", "@2|5|$23"]),
];

/// The job with the texts and names given: `text(n)` is the n-th of them.
fn job_with(text: &dyn Fn(usize) -> String, name: &dyn Fn(usize) -> String) -> Cells {
    let filled = |cell: &str| match (cell.strip_prefix('$'), cell.strip_prefix('@')) {
        (Some(number), _) => text(number.parse().unwrap()),
        (_, Some(number)) => name(number.parse().unwrap()),
        _ => cell.to_owned(),
    };
    let mut cells = Cells::new();
    for (sheet, rows) in TABLES {
        for (row, texts) in (0..).zip(*rows) {
            for (column, cell) in (0..).zip(texts.split('|')) {
                cells.push((sheet, row, column, filled(cell)));
            }
        }
    }
    cells
}

/// The cells as a workbook in which every one is text.
fn workbook(cells: &Cells) -> Vec<u8> {
    let mut book = Workbook::new();
    let mut sheets: Vec<&str> = cells.iter().map(|(sheet, ..)| *sheet).collect();
    sheets.dedup();
    for name in sheets {
        let sheet = book.add_worksheet();
        sheet.set_name(name).unwrap();
        for (_, row, column, text) in cells.iter().filter(|(own, ..)| *own == name) {
            sheet.write_string(*row, *column, text).unwrap();
        }
    }
    book.save_to_buffer().unwrap()
}

fn source_of(bytes: &[u8]) -> JobFile {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("job.xlsx");
    fs::write(&path, bytes).unwrap();
    let opened = read::open(&path);
    opened
        .unwrap_or_else(|found| panic!("{}", diagnostic::text(&found)))
        .0
}

fn job_of(bytes: &[u8]) -> Job {
    let checked = job::from_file(&source_of(bytes));
    checked
        .job
        .unwrap_or_else(|| panic!("{}", diagnostic::text(&checked.findings)))
}

/// The written workbook of a job; that it is valid, keeps every word of the job and can
/// be written again as the same bytes, is proved on the way.
fn written(bytes: &[u8]) -> Vec<u8> {
    let job = job_of(bytes);
    let first = workbook_of(&estimate(job.clone()));
    for (part, content) in parts_of(&first) {
        let text = String::from_utf8(content).unwrap();
        let bad = |letter: char| matches!(letter, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
        assert!(!text.contains(bad), "{part} is not XML");
    }
    let again = job_of(&first);
    for (ours, theirs) in job.tables().iter().zip(again.tables()) {
        assert!(
            ours.same_as(theirs),
            "{}: {ours:?} {theirs:?}",
            ours.table.name
        );
    }
    assert!(job.same_as(&again));
    assert!(workbook_of(&estimate(again)) == first);
    first
}

/// The type and the stored result of every formula cell.
fn stored_results(bytes: &[u8]) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for (part, content) in parts_of(bytes) {
        if !part.starts_with("xl/worksheets/sheet") {
            continue;
        }
        let text = String::from_utf8(content).unwrap();
        for cell in text.split("<c ").skip(1) {
            let cell = cell.split("</c>").next().unwrap();
            let Some((start, rest)) = cell.split_once("<f") else {
                continue;
            };
            let after = |text: &str, start: &str, end: &str| {
                let found = text
                    .split_once(start)
                    .and_then(|(_, rest)| rest.split_once(end));
                found.map_or(String::new(), |(inside, _)| inside.to_owned())
            };
            found.push((after(start, "t=\"", "\""), after(rest, "<v>", "</v>")));
        }
    }
    found
}

/// Every formula of every part, unescaped.
fn formulas(bytes: &[u8]) -> Vec<String> {
    let mut found = Vec::new();
    for (_, content) in parts_of(bytes) {
        let text = String::from_utf8(content).unwrap();
        for tag in [
            "<f>",
            "<f ",
            "<formula1>",
            "<formula2>",
            "<definedName ",
            "<c:f>",
        ] {
            for piece in text.split(tag).skip(1) {
                let piece = piece.split("</").next().unwrap();
                found.push(
                    piece
                        .replace("&quot;", "\"")
                        .replace("&lt;", "<")
                        .replace("&gt;", ">")
                        .replace("&amp;", "&"),
                );
            }
        }
    }
    assert!(found.len() > 100);
    found
}

/// A formula without the words between its quotes.
fn without_words(formula: &str) -> String {
    let mut inside = false;
    let outside = formula.chars().filter(|letter| {
        inside ^= *letter == '"';
        !inside
    });
    outside.collect()
}

const STARTS: [&str; 6] = ["=", "+", "-", "@", "\t=", "\r="];

fn like_a_formula(number: usize) -> String {
    let start = STARTS[number % STARTS.len()];
    format!("{start}HYPERLINK(\"x\",\"{MARK}{number}\")&A1")
}

/// Names lose the blanks around them, so they begin with the sign itself.
fn name_like_a_formula(number: usize) -> String {
    let start = STARTS[number % 4];
    format!("{start}SUM(A1)&{MARK}{number}")
}

#[test]
fn words_like_formulas_stay_words_in_the_workbook() {
    let bytes = written(&workbook(&job_with(&like_a_formula, &name_like_a_formula)));
    for formula in formulas(&bytes) {
        let outside = without_words(&formula);
        assert!(!outside.contains(MARK), "{formula}");
    }
    let source = source_of(&bytes);
    let mut kept = 0;
    for sheet in &source.sheets {
        for cell in sheet.rows.iter().flat_map(|row| &row.cells) {
            if let Content::Text(text) = &cell.content {
                kept += usize::from(text.contains(MARK));
            }
        }
    }
    assert!(kept >= 30, "{kept}");
}

#[test]
fn words_like_formulas_are_led_by_an_apostrophe_in_csv() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("job.xlsx");
    let cells = job_with(&like_a_formula, &name_like_a_formula);
    fs::write(&path, workbook(&cells)).unwrap();
    // The same job with a fault, whose message repeats a hostile word.
    let faulty: Cells = cells
        .iter()
        .cloned()
        .map(|(sheet, row, column, text)| {
            let is_material = sheet == "Other items" && row == 1 && column == 5;
            let text = if is_material {
                "=nothing".to_owned()
            } else {
                text
            };
            (sheet, row, column, text)
        })
        .collect();
    let fault = folder.path().join("=fault.xlsx");
    fs::write(&fault, workbook(&faulty)).unwrap();
    let out = folder.path().join("bid.xlsx");
    let out = out.to_str().unwrap();
    let (job, fault) = (path.to_str().unwrap(), fault.to_str().unwrap());
    let commands: [&[&str]; 4] = [
        &["takeoff", job],
        &["bid", job, "-o", out],
        &["check", job],
        &["check", fault],
    ];
    let mut led = 0;
    for command in commands {
        let output = Command::new(env!("CARGO_BIN_EXE_groundsheet"))
            .args(command)
            .args(["--format", "csv"])
            .output()
            .unwrap();
        let mut reader = csv::Reader::from_reader(output.stdout.as_slice());
        for field in reader.records().flat_map(|row| {
            let row = row.unwrap();
            row.iter().map(str::to_owned).collect::<Vec<_>>()
        }) {
            let is_number = field.parse::<f64>().is_ok();
            let begins = field.starts_with(['=', '+', '-', '@', '\t', '\r']);
            assert!(!begins || is_number, "{command:?}: {field}");
            led += usize::from(field.starts_with('\''));
        }
    }
    assert!(led >= 6, "{led}");
}

#[test]
fn words_that_look_like_something_else_stay_words() {
    let looks = [
        "81",
        "1e5",
        "1/2",
        "TRUE",
        "false",
        "nan",
        "NaN",
        "inf",
        "#N/A",
        "#REF!",
        "2026-11-20",
        "12:30",
        "0x10",
        "1,250",
        "50%",
        "007",
        "-5",
        "+3",
        ".5",
        "infinity",
        "TRUE()",
        "'81",
    ];
    let text = |number: usize| looks[number % looks.len()].to_owned();
    let name = |number: usize| format!("{} {number}", ["TRUE", "#N/A", "nan"][number % 3]);
    let bytes = written(&workbook(&job_with(&text, &name)));
    // Where a page repeats them by formula, the stored result is words as well.
    let repeated = stored_results(&bytes);
    let looked_at = repeated
        .iter()
        .filter(|(_, words)| looks.contains(&words.as_str()));
    // A number that a formula gives may look the same; only quotes and the like are words.
    let words = ["81", "1e5", "TRUE", "nan", "#N/A", "inf", "007", "1/2"];
    let mut seen = 0;
    for (kind, word) in looked_at.filter(|(_, word)| words.contains(&word.as_str())) {
        assert_eq!(kind, "str", "{word}");
        seen += 1;
    }
    assert!(seen >= 3, "{seen} on the pages");
}

#[test]
fn words_that_are_hard_to_put_in_xml_survive() {
    let hard = [
        "<b>\"Pond\" & 'pool'</b>",
        "]]><!-- &amp; &#65; &lt;",
        "line one\nline two",
        "a\tb",
        "bell \u{7} and escape \u{1b}",
        "_x000D_ and _x0041_ as typed",
        "_x005F_x000D_",
        "🦆 duck, ½ tarp, 水",
        "right \u{202e}to left\u{202c}",
        "not a character \u{fffe}\u{ffff}",
        "two  blanks",
        "&D &P &[File]",
        "quote \"\" twice",
    ];
    let text = |number: usize| hard[number % hard.len()].to_owned();
    let name = |number: usize| format!("<\"{number}\" & '🦆'> _x000D_");
    written(&workbook(&job_with(&text, &name)));
    // Every text once in every place.
    for shift in 1..hard.len() {
        let text = |number: usize| hard[(number + shift) % hard.len()].to_owned();
        written(&workbook(&job_with(&text, &name)));
    }
}

#[test]
fn a_text_too_long_for_a_cell_is_a_fault_of_the_job() {
    for (length, fits) in [(30_000, true), (30_001, false)] {
        let folder = TempDir::new().unwrap();
        let text = "w".repeat(length);
        let tables: BTreeMap<&str, String> = [
            ("Job", "Key,Value\nName,A\nUnits,metric\nSoil,clay\n".to_owned()),
            (
                "Other items",
                format!("Item,Section,Description,Unit,Times,Price,Note\nA-1,Stone,Rock,ea,4,80,{text}\n"),
            ),
        ]
        .into();
        for (name, table) in tables {
            fs::write(folder.path().join(format!("{name}.csv")), table).unwrap();
        }
        let out = folder.path().join("bid.xlsx");
        let output = Command::new(env!("CARGO_BIN_EXE_groundsheet"))
            .args([
                "bid",
                folder.path().to_str().unwrap(),
                "-o",
                out.to_str().unwrap(),
            ])
            .output()
            .unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(out.exists(), fits, "{said}");
        assert_eq!(output.status.code(), Some(i32::from(!fits)), "{said}");
        if !fits {
            assert!(
                said.contains("error[too-large]: this cell holds 30,001 characters"),
                "{said}"
            );
            assert!(said.contains("Other items.csv, line 2, column 7"), "{said}");
        }
    }
}
