//! No file is replaced unseen: what was typed into an output since it was written is told,
//! and kept.

use std::fs;
use std::io::{Cursor, Read, Write};
use std::path::{Path, PathBuf};
use std::process::Output;

use tempfile::TempDir;
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

use super::{bid, code, names_in, run, said, sample};
use crate::errors::parts_of;
use crate::support::recalculate::{self, Entry, edit, office_program};

/// A folder with the bid of a sample job in it.
pub(super) fn with_bid_of(job: &str) -> (TempDir, PathBuf) {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("bid.xlsx");
    assert_eq!(code(&bid(&sample(job), &out)), 0);
    (folder, out)
}

/// Types into cells of a workbook, as an office program would.
pub(super) fn type_into(file: &Path, entries: &[(&str, &str, Entry)]) -> Vec<u8> {
    let edited = edit(&fs::read(file).unwrap(), entries);
    fs::write(file, &edited).unwrap();
    edited
}

fn with_replace(job: &str, output: &Path) -> Output {
    run(&["bid", job, "-o", output.to_str().unwrap(), "--replace"])
}

/// The output is refused with these words, and the file stays.
#[track_caller]
fn refused(output: &Output, file: &Path, content: &[u8], words: &[&str]) {
    let text = said(output);
    assert_eq!(code(output), 2, "{text}");
    assert!(text.contains("error[not-replaced]: "), "{text}");
    for word in words {
        assert!(text.contains(word), "{word}: {text}");
    }
    assert!(fs::read(file).unwrap() == content);
}

fn text(words: &str) -> Entry {
    Entry::Text(words.to_owned())
}

#[test]
fn a_bid_that_nobody_touched_is_replaced_without_a_word() {
    let (folder, out) = with_bid_of("field-notes");
    let first = fs::read(&out).unwrap();
    for job in ["quick-pond", "reed-bank", "school-pond", "field-notes"] {
        let output = bid(&sample(job), &out);
        assert_eq!(code(&output), 0, "{job}: {}", said(&output));
        assert!(!said(&output).contains("kept as"), "{job}");
    }
    assert!(fs::read(&out).unwrap() == first, "same job, same bytes");
    assert_eq!(names_in(folder.path()), ["bid.xlsx"]);
}

#[test]
fn an_edited_bid_stays_and_what_would_be_lost_is_told() {
    let (folder, out) = with_bid_of("field-notes");
    let long = "a note of more than forty letters, which the message cuts";
    let entries = [
        ("Basins", "E2", Entry::Number(61.5)),
        ("Materials", "C2", Entry::Blank),
        ("Factors", "D2", Entry::Number(4.0)),
        ("Job", "B3", text(long)),
    ];
    let edited = type_into(&out, &entries);
    let words = [
        "this workbook was edited since groundsheet wrote it, and that would be lost: ",
        "sheet Basins (E2 holds \"61.5\")",
        "sheet Factors (D2 holds \"4\")",
        "sheet Job (B3 holds \"a note of more than forty letters, which…\")",
        "sheet Materials (C2 is blank)",
        "add --replace: this file is then kept as bid.before-1.xlsx",
        "--> ",
    ];
    refused(&bid(&sample("field-notes"), &out), &out, &edited, &words);
    assert_eq!(names_in(folder.path()), ["bid.xlsx"]);
}

#[test]
fn what_is_replaced_on_demand_is_kept_and_never_overwrites_an_earlier_copy() {
    let (folder, out) = with_bid_of("field-notes");
    let fresh = fs::read(&out).unwrap();
    let mine = folder.path().join("bid.before-7.xlsx");
    fs::write(&mine, "mine").unwrap();
    for number in 8..10 {
        let edited = type_into(&out, &[("Basins", "E2", Entry::Number(f64::from(number)))]);
        let output = with_replace(&sample("field-notes"), &out);
        assert_eq!(code(&output), 0, "{}", said(&output));
        let name = format!("bid.before-{number}.xlsx");
        assert!(said(&output).contains(&name), "{}", said(&output));
        assert!(fs::read(folder.path().join(name)).unwrap() == edited);
        assert!(fs::read(&out).unwrap() == fresh);
    }
    // What nobody touched is not kept.
    assert_eq!(code(&with_replace(&sample("quick-pond"), &out)), 0);
    assert_eq!(fs::read(&mine).unwrap(), b"mine");
    assert_eq!(names_in(folder.path()).len(), 4);
}

#[test]
fn a_file_of_another_program_stays() {
    let (_folder, out) = with_bid_of("field-notes");
    let mut book = rust_xlsxwriter::Workbook::new();
    book.add_worksheet().write(0, 0, "My sums").unwrap();
    let others = [
        b"the bid of yesterday".to_vec(),
        Vec::new(),
        book.save_to_buffer().unwrap(),
    ];
    for other in others {
        fs::write(&out, &other).unwrap();
        let words = ["this file was not written by groundsheet, or has lost its mark\n"];
        refused(&bid(&sample("field-notes"), &out), &out, &other, &words);
    }
}

#[test]
fn a_scenario_chosen_on_the_bid_page_counts_and_the_rest_of_the_page_does_not() {
    let (_folder, out) = with_bid_of("reed-bank");
    type_into(&out, &[("Bid", "A1", text("shown anew"))]);
    type_into(&out, &[("Summary", "B5", Entry::Number(1.0))]);
    assert_eq!(code(&bid(&sample("reed-bank"), &out)), 0);
    let edited = type_into(&out, &[("Bid", "B9", text("Crew only"))]);
    let words = ["sheet Bid (B9 holds \"Crew only\")"];
    refused(&bid(&sample("reed-bank"), &out), &out, &edited, &words);
}

/// The workbook with one more sheet.
fn with_sheet(bytes: &[u8], name: &str) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let mut put = |part: &str, content: &[u8]| {
        zip.start_file(part, SimpleFileOptions::default()).unwrap();
        zip.write_all(content).unwrap();
    };
    for (part, content) in parts_of(bytes) {
        let text = String::from_utf8(content).unwrap();
        let sheet = format!(r#"<sheet name="{name}" sheetId="999" r:id="added"/></sheets>"#);
        let relation = r#"<Relationship Id="added" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/added.xml"/></Relationships>"#;
        let text = match &*part {
            "xl/workbook.xml" => text.replace("</sheets>", &sheet),
            "xl/_rels/workbook.xml.rels" => text.replace("</Relationships>", relation),
            _ => text,
        };
        put(&part, text.as_bytes());
    }
    let cells = r#"<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="3"><c r="B3" t="str"><v>call the quarry</v></c></row></sheetData></worksheet>"#;
    put("xl/worksheets/added.xml", cells.as_bytes());
    zip.finish().unwrap().into_inner()
}

#[test]
fn a_sheet_that_somebody_added_counts() {
    let (_folder, out) = with_bid_of("field-notes");
    let edited = with_sheet(&fs::read(&out).unwrap(), "My notes");
    fs::write(&out, &edited).unwrap();
    let words = ["be lost: sheet My notes (B3 holds \"call the quarry\")\n"];
    refused(&bid(&sample("field-notes"), &out), &out, &edited, &words);
}

#[test]
fn numbers_stored_with_fifteen_digits_are_the_same_numbers() {
    // 12 ft 6.5 in are 12 + 6.5/12 = 12.541666… ft; office programs store 15 digits of it.
    let folder = TempDir::new().unwrap();
    let job = folder.path().join("job");
    fs::create_dir(&job).unwrap();
    fs::write(job.join("Job.csv"), crate::support::US).unwrap();
    let items =
        "Item,Section,Description,Unit,Length (ft),Price\nA-1,Stone,Kerb,ft,12 ft 6.5 in,3\n";
    fs::write(job.join("Other items.csv"), items).unwrap();
    let out = folder.path().join("bid.xlsx");
    let job = job.to_str().unwrap();
    assert_eq!(code(&bid(job, &out)), 0);
    let cells = recalculate::stored(&fs::read(&out).unwrap());
    let mut lengths = cells.iter().filter(|((sheet, row, _), value)| {
        let is_length =
            matches!(value, recalculate::Value::Number(number) if *number > 12.5 && *number < 12.6);
        sheet == "Other items" && *row == 1 && is_length
    });
    let ((_, row, column), _) = lengths.next().unwrap();
    let letter = char::from(b'A' + u8::try_from(*column).unwrap());
    let cell = format!("{letter}{}", row + 1);
    type_into(
        &out,
        &[("Other items", &cell, Entry::Number(12.541_666_666_666_7))],
    );
    assert_eq!(code(&bid(job, &out)), 0);
    let edited = type_into(&out, &[("Other items", &cell, Entry::Number(12.541_67))]);
    refused(&bid(job, &out), &out, &edited, &["sheet Other items"]);
}

#[test]
fn a_template_that_is_filled_in_stays_and_a_blank_one_is_replaced() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("m.xlsx");
    let template = |more: &[&str]| {
        let all = [&["template", "-o", out.to_str().unwrap()], more].concat();
        run(&all)
    };
    for units in ["us", "metric", "us"] {
        assert_eq!(code(&template(&["--units", units])), 0);
    }
    let entries = [
        ("Job", "B2", text("Duck pond")),
        ("Basins", "A2", text("Pond")),
        ("Basins", "C2", Entry::Number(40.0)),
        ("Basins", "A3", text("Bog")),
        ("Materials", "C4", Entry::Number(9.5)),
    ];
    let edited = type_into(&out, &entries);
    let words = [
        "this workbook is filled in, and that would be lost: 2 rows of Basins, 1 row of Job, 1 row of Materials\n",
        "add --replace: this file is then kept as m.before-1.xlsx",
    ];
    refused(&template(&[]), &out, &edited, &words);
    refused(&template(&["--units", "metric"]), &out, &edited, &words);
    assert_eq!(code(&template(&["--replace"])), 0);
    assert!(fs::read(folder.path().join("m.before-1.xlsx")).unwrap() == edited);
    assert_eq!(code(&template(&[])), 0);
    assert_eq!(names_in(folder.path()), ["m.before-1.xlsx", "m.xlsx"]);
}

#[test]
fn an_edited_client_copy_stays_and_so_does_the_bid() {
    let folder = TempDir::new().unwrap();
    let [out, client] = ["bid.xlsx", "client.xlsx"].map(|name| folder.path().join(name));
    let both = |job: &str, more: &[&str]| {
        let job = sample(job);
        let names = [
            "bid",
            &job,
            "-o",
            out.to_str().unwrap(),
            "--client",
            client.to_str().unwrap(),
        ];
        run(&[&names, more].concat())
    };
    for job in ["field-notes", "reed-bank", "field-notes"] {
        assert_eq!(code(&both(job, &[])), 0, "{job}");
    }
    let before = fs::read(&out).unwrap();
    let edited = type_into(&client, &[("Bid", "A1", text("Our offer"))]);
    let words = [
        "sheet Bid (A1 holds \"Our offer\", ",
        "kept as client.before-1.xlsx",
    ];
    refused(&both("reed-bank", &[]), &client, &edited, &words);
    assert!(fs::read(&out).unwrap() == before, "both or none");
    assert_eq!(names_in(folder.path()), ["bid.xlsx", "client.xlsx"]);
    assert_eq!(code(&both("reed-bank", &["--replace"])), 0);
    assert!(fs::read(folder.path().join("client.before-1.xlsx")).unwrap() == edited);
}

/// The properties of a workbook as text.
fn properties(file: &Path) -> String {
    let mut zip = ZipArchive::new(Cursor::new(fs::read(file).unwrap())).unwrap();
    let mut xml = String::new();
    let mut part = zip.by_name("docProps/custom.xml").unwrap();
    part.read_to_string(&mut xml).unwrap();
    xml
}

#[test]
fn the_mark_of_a_client_copy_is_one_hash_of_its_own_sheet() {
    let folder = TempDir::new().unwrap();
    let [out, client] = ["bid.xlsx", "client.xlsx"].map(|name| folder.path().join(name));
    let names = [
        "-o",
        out.to_str().unwrap(),
        "--client",
        client.to_str().unwrap(),
    ];
    let marks = ["field-notes", "field-notes", "reed-bank"].map(|job| {
        assert_eq!(
            code(&run(&[&["bid", &sample(job)], &names[..]].concat())),
            0
        );
        let xml = properties(&client);
        let held: Vec<&str> = xml.split(" name=\"").skip(1).collect();
        assert_eq!(held.len(), 2, "{xml}");
        assert!(
            held[0].starts_with("groundsheet\"><vt:lpwstr>everything</vt:lpwstr>"),
            "{xml}"
        );
        let hash = held[1]
            .strip_prefix("groundsheet: Bid\"><vt:lpwstr>")
            .unwrap();
        let (hash, _) = hash.split_once("</vt:lpwstr>").unwrap();
        assert_eq!(hash.len(), 16, "{xml}");
        assert!(hash.bytes().all(|digit| digit.is_ascii_hexdigit()), "{xml}");
        hash.to_owned()
    });
    assert_eq!(marks[0], marks[1]);
    assert_ne!(marks[0], marks[2]);
    assert!(properties(&out).contains("\"groundsheet: Basins\""));
}

#[test]
fn an_output_that_an_office_program_has_open_is_refused() {
    let folder = TempDir::new().unwrap();
    let [out, client] = ["bid.xlsx", "client.xlsx"].map(|name| folder.path().join(name));
    let job = sample("field-notes");
    let [out_text, client_text] = [&out, &client].map(|path| path.to_str().unwrap());
    let ends: [&[&str]; 3] = [
        &["bid", &job, "-o", out_text],
        &["template", "-o", out_text],
        &["bid", &job, "-o", client_text, "--client", out_text],
    ];
    for lock in [".~lock.bid.xlsx#", "~$bid.xlsx"] {
        let lock = folder.path().join(lock);
        fs::write(&lock, ",somebody").unwrap();
        for arguments in ends {
            let output = run(&[arguments, &["--replace"]].concat());
            assert_eq!(code(&output), 2, "{arguments:?}");
            let text = said(&output);
            assert!(
                text.contains("error[in-use]: an office program has this file open"),
                "{text}"
            );
            assert!(text.contains(lock.to_str().unwrap()), "{text}");
        }
        assert_eq!(names_in(folder.path()).len(), 1, "nothing but the lock");
        fs::remove_file(lock).unwrap();
    }
    for arguments in ends {
        assert_eq!(code(&run(arguments)), 0, "{arguments:?}");
    }
}

#[test]
fn an_export_with_an_edited_table_stays_and_is_kept_on_demand() {
    let around = TempDir::new().unwrap();
    let folder = around.path().join("results");
    let export = |more: &[&str]| {
        let job = sample("field-notes");
        let all = ["export", &job, "-o", folder.to_str().unwrap()];
        run(&[&all, more].concat())
    };
    for _ in 0..2 {
        let output = export(&[]);
        assert_eq!(code(&output), 0, "{}", said(&output));
    }
    let table = folder.join("bid-schedule.csv");
    let mut edited = fs::read(&table).unwrap();
    edited.extend(b"checked,by,me\n");
    fs::write(&table, &edited).unwrap();
    let words = [
        "this export was edited since",
        "be lost: bid-schedule.csv\n",
        "results.before-1",
    ];
    refused(&export(&[]), &table, &edited, &words);
    let lock = folder.join(".~lock.bid-schedule.csv#");
    fs::write(&lock, ",somebody").unwrap();
    let open = export(&["--replace"]);
    assert_eq!(code(&open), 2);
    assert!(said(&open).contains("error[in-use]: an office program has bid-schedule.csv open"));
    fs::remove_file(lock).unwrap();
    assert_eq!(code(&export(&["--replace"])), 0);
    let kept = around.path().join("results.before-1/bid-schedule.csv");
    assert!(fs::read(kept).unwrap() == edited);
    assert_eq!(code(&export(&[])), 0);
    assert_eq!(names_in(around.path()), ["results", "results.before-1"]);
    // A folder with something else in it is never replaced, nor moved away.
    fs::write(folder.join("notes.txt"), "mine").unwrap();
    let output = export(&["--replace"]);
    assert_eq!(code(&output), 2);
    assert!(
        said(&output).contains("the folder holds notes.txt"),
        "{}",
        said(&output)
    );
}

/// Where `GROUNDSHEET_OFFICE` names an office program, it saves each workbook as it is, and
/// again after an edit.
#[test]
fn a_workbook_that_an_office_program_saves_unchanged_counts_as_untouched() {
    if office_program().is_none() {
        return;
    }
    let jobs = [
        "field-notes",
        "lily-tank",
        "quick-pond",
        "reed-bank",
        "school-pond",
    ];
    let folder = TempDir::new().unwrap();
    let [out, client, blank] = ["o.xlsx", "c.xlsx", "m.xlsx"].map(|name| folder.path().join(name));
    let [out_text, client_text, blank_text] =
        [&out, &client, &blank].map(|path| path.to_str().unwrap());
    for job in jobs.map(sample) {
        let both = [
            "bid",
            &job,
            "-o",
            out_text,
            "--client",
            client_text,
            "--replace",
        ];
        let template = ["template", "-o", blank_text, "--replace"];
        for arguments in [&both[..], &template] {
            assert_eq!(code(&run(arguments)), 0);
        }
        let files = [&out, &client, &blank];
        let saved = recalculate::saved_by_office(&files.map(|file| fs::read(file).unwrap()));
        for (file, bytes) in files.iter().zip(&saved) {
            assert!(&fs::read(file).unwrap() != bytes);
            fs::write(file, bytes).unwrap();
        }
        for arguments in [&both[..6], &template[..3]] {
            let output = run(arguments);
            assert_eq!(code(&output), 0, "{job}: {}", said(&output));
        }
        let edited = edit(
            &fs::read(&out).unwrap(),
            &[("Materials", "A2", text("Else"))],
        );
        let saved = recalculate::saved_by_office(&[edited]);
        fs::write(&out, &saved[0]).unwrap();
        refused(
            &run(&both[..4]),
            &out,
            &saved[0],
            &["sheet Materials (A2 holds \"Else\""],
        );
    }
}
