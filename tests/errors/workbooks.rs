//! Workbooks that are bad in ways that only a file can be, made as their programs make them.

use std::io::{Cursor, Write};

use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook, Worksheet};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// The case, the name of its file, and what makes the file.
pub(crate) type Made = (&'static str, &'static str, fn() -> Vec<u8>);

/// Every case whose file is made.
pub(crate) const MADE: &[Made] = &[
    ("cells-merged", "pond.xlsx", cells_merged),
    ("comments", "pond.xlsx", comments),
    ("date-for-a-number", "pond.xlsx", date_for_a_number),
    ("dates-as-text-in-a-workbook", "pond.xlsx", dates_as_text),
    ("error-value", "pond.xlsx", error_value),
    ("expands-a-thousandfold", "pond.xlsx", expands),
    ("far-corner", "pond.xlsx", far_corner),
    ("file-empty", "pond.xlsx", Vec::new),
    ("file-without-cells", "pond.xlsx", without_cells),
    ("formula-never-calculated", "pond.xlsx", never_calculated),
    ("formulas-in-input", "pond.xlsx", formulas_in_input),
    ("not-a-workbook", "pond.xlsx", not_a_workbook),
    ("other-archive", "pond.xlsx", other_archive),
    ("slope-as-a-time", "pond.xlsx", slope_as_a_time),
    ("texts-in-two-readings", "pond.xlsx", texts_in_two_readings),
    ("times-for-numbers", "pond.xlsx", times_for_numbers),
    ("read-differently", "pond.xlsx", two_values_in_a_cell),
    ("truth-for-a-number", "pond.xlsx", truth_for_a_number),
    ("workbook-cut-short", "pond.xlsx", cut_short),
];

const BASINS: [&str; 6] = [
    "Basin",
    "Shape",
    "Length (ft)",
    "Width (ft)",
    "Depth (ft)",
    "Side slope",
];

/// A sound job of one basin, changed before it is saved: first its sheet of the basins,
/// whose only row is row 2, then its sheet of the job, whose row 5 is free.
fn pond(change: impl Fn(&mut Worksheet, &mut Worksheet)) -> Vec<u8> {
    let mut job = Worksheet::new();
    job.set_name("Job").unwrap();
    let keys = [
        ("Key", "Value"),
        ("Name", "Duck pond"),
        ("Units", "US customary"),
        ("Soil", "loam"),
    ];
    for (row, (key, value)) in (0..).zip(keys) {
        job.write(row, 0, key).unwrap();
        job.write(row, 1, value).unwrap();
    }
    let mut basins = Worksheet::new();
    basins.set_name("Basins").unwrap();
    for (column, heading) in (0..).zip(BASINS) {
        basins.write(0, column, heading).unwrap();
    }
    basins.write(1, 0, "Main pool").unwrap();
    basins.write(1, 1, "rectangle").unwrap();
    for (column, number) in (2..).zip([60.0, 40.0, 5.0, 2.0]) {
        basins.write(1, column, number).unwrap();
    }
    change(&mut basins, &mut job);
    let mut book = Workbook::new();
    book.push_worksheet(job);
    book.push_worksheet(basins);
    book.save_to_buffer().unwrap()
}

fn cells_merged() -> Vec<u8> {
    pond(|basins, _| {
        let format = Format::new();
        basins.merge_range(1, 2, 3, 2, "", &format).unwrap();
        basins.write(1, 2, 60.0).unwrap();
        for (row, name) in (2..).zip(["Filter", "Intake"]) {
            basins.write(row, 0, name).unwrap();
            basins.write(row, 1, "rectangle").unwrap();
            for (column, number) in (3..).zip([20.0, 3.0, 1.0]) {
                basins.write(row, column, number).unwrap();
            }
        }
    })
}

fn comments() -> Vec<u8> {
    pond(|basins, _| {
        let note = rust_xlsxwriter::Note::new("taped twice");
        basins.insert_note(1, 2, &note).unwrap();
    })
}

fn date_for_a_number() -> Vec<u8> {
    pond(|basins, _| {
        let format = Format::new().set_num_format("yyyy-mm-dd");
        let day = ExcelDateTime::from_ymd(2026, 11, 20).unwrap();
        basins.write_with_format(1, 2, &day, &format).unwrap();
    })
}

/// What a spreadsheet makes of `2:1`, `50%` and `1/2`: a time of day, shown as such or as a
/// number, hundredths, and a day. Midnight and 121 minutes are 121 of 1,440.
fn slope_as_a_time() -> Vec<u8> {
    pond(|basins, _| {
        let [time, percent, day] =
            ["h:mm", "0%", "d. mmm"].map(|pattern| Format::new().set_num_format(pattern));
        for (row, name) in (1..).zip(["Shown", "Plain", "Grade", "Day"]) {
            basins.write(row, 0, name).unwrap();
            basins.write(row, 1, "rectangle").unwrap();
            for (column, number) in (2..).zip([60.0, 40.0, 5.0]) {
                basins.write(row, column, number).unwrap();
            }
        }
        basins
            .write_with_format(1, 5, 121.0 / 1440.0, &time)
            .unwrap();
        basins.write(2, 5, 121.0 / 1440.0).unwrap();
        basins.write_with_format(3, 5, 0.5, &percent).unwrap();
        let second = ExcelDateTime::from_ymd(2026, 1, 2).unwrap();
        basins.write_with_format(4, 5, &second, &day).unwrap();
    })
}

/// Texts in cells of numbers, which a program has not turned into numbers.
fn texts_in_two_readings() -> Vec<u8> {
    pond(|basins, _| {
        basins.write(1, 2, "1'060").unwrap();
        basins.write(1, 3, "1,040").unwrap();
        basins.write(1, 4, "about 1,005 mm").unwrap();
        basins.write(1, 5, "1:2").unwrap();
    })
}

/// Hours may be shown as a time; measures may not. 450 and 2,190 of the 1,440 minutes of a
/// day are 7:30 and 36:30.
fn times_for_numbers() -> Vec<u8> {
    pond(|basins, job| {
        let [time, length] =
            ["h:mm", "[h]:mm"].map(|pattern| Format::new().set_num_format(pattern));
        basins
            .write_with_format(1, 2, 450.0 / 1440.0, &time)
            .unwrap();
        basins
            .write_with_format(1, 3, 2190.0 / 1440.0, &length)
            .unwrap();
        job.write(4, 0, "Hours a day").unwrap();
        job.write_with_format(4, 1, 450.0 / 1440.0, &time).unwrap();
        job.write(5, 0, "Days a week").unwrap();
        job.write_with_format(5, 1, 2190.0 / 1440.0, &length)
            .unwrap();
    })
}

fn dates_as_text() -> Vec<u8> {
    pond(|_, job| {
        job.write(4, 0, "Bid date").unwrap();
        job.write(4, 1, "20/11/2026").unwrap();
    })
}

fn error_value() -> Vec<u8> {
    pond(|basins, _| {
        let broken = Formula::new("=#REF!*2").set_result("#REF!");
        basins.write_formula(1, 2, broken).unwrap();
        let missing = Formula::new("=VLOOKUP(9,A1:B2,2,FALSE)").set_result("#N/A");
        basins.write_formula(1, 4, missing).unwrap();
    })
}

fn never_calculated() -> Vec<u8> {
    let bytes = pond(|basins, _| {
        let never = Formula::new("=20*3").set_result("NEVER");
        basins.write_formula(1, 2, never).unwrap();
    });
    replaced(&bytes, "xl/worksheets/sheet2.xml", "<v>NEVER</v>", "")
}

/// Cells with two values each: one reader joins them, another takes the last.
fn two_values_in_a_cell() -> Vec<u8> {
    let bytes = pond(|_, _| {});
    let sheet = "xl/worksheets/sheet2.xml";
    let bytes = replaced(&bytes, sheet, "<v>60</v>", "<v>6</v><v>0</v>");
    replaced(&bytes, sheet, "<v>40</v>", "<v>40</v><v></v>")
}

fn formulas_in_input() -> Vec<u8> {
    pond(|basins, _| {
        let sum = Formula::new("=20+40").set_result("60");
        basins.write_formula(1, 2, sum).unwrap();
        let half = Formula::new("=C2*2/3").set_result("40");
        basins.write_formula(1, 3, half).unwrap();
    })
}

fn truth_for_a_number() -> Vec<u8> {
    pond(|basins, _| {
        basins.write(1, 2, true).unwrap();
        basins.write(1, 4, false).unwrap();
    })
}

fn far_corner() -> Vec<u8> {
    pond(|basins, _| {
        basins.write(1_048_575, 16_383, "x").unwrap();
    })
}

fn without_cells() -> Vec<u8> {
    let mut book = Workbook::new();
    book.add_worksheet();
    book.save_to_buffer().unwrap()
}

fn cut_short() -> Vec<u8> {
    let mut bytes = pond(|_, _| {});
    bytes.truncate(bytes.len() / 2);
    bytes
}

fn not_a_workbook() -> Vec<u8> {
    b"%PDF-1.7\n1 0 obj\n<< /Type /Catalog >>\nendobj\n".to_vec()
}

fn other_archive() -> Vec<u8> {
    archive(&[("photos/pond.txt", b"a picture of the pond".to_vec())])
}

/// A sheet that unpacks to a thousand times its size in the file.
fn expands() -> Vec<u8> {
    let bytes = pond(|_, _| {});
    let mut parts = parts_of(&bytes);
    for (name, content) in &mut parts {
        if name == "xl/worksheets/sheet2.xml" {
            let end = content.len() - "</worksheet>".len();
            content.splice(end..end, std::iter::repeat_n(b' ', 64 << 20));
        }
    }
    let parts: Vec<(&str, Vec<u8>)> = parts
        .iter()
        .map(|(name, content)| (name.as_str(), content.clone()))
        .collect();
    archive(&parts)
}

fn archive(parts: &[(&str, Vec<u8>)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in parts {
        zip.start_file(*name, SimpleFileOptions::default()).unwrap();
        zip.write_all(content).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// The parts of a workbook, by their names.
pub(crate) fn parts_of(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let part = |position: usize| {
        let mut part = zip.by_index(position).unwrap();
        let mut content = Vec::new();
        std::io::Read::read_to_end(&mut part, &mut content).unwrap();
        (part.name().to_owned(), content)
    };
    (0..zip::ZipArchive::new(Cursor::new(bytes)).unwrap().len())
        .map(part)
        .collect()
}

/// The same workbook with other words in one part.
fn replaced(bytes: &[u8], part: &str, from: &str, to: &str) -> Vec<u8> {
    let parts = parts_of(bytes);
    let parts: Vec<(&str, Vec<u8>)> = parts
        .iter()
        .map(|(name, content)| {
            let text = String::from_utf8_lossy(content);
            let content = if name == part {
                assert!(text.contains(from), "{part} has no {from}");
                text.replace(from, to).into_bytes()
            } else {
                content.clone()
            };
            (name.as_str(), content)
        })
        .collect();
    archive(&parts)
}
