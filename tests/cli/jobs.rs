//! What a job may be on the command line: not there, from standard input, one of several.

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Output, Stdio};

use tempfile::TempDir;

use super::{bad_job, code, printed, program, run, said, sample};

#[test]
fn a_job_that_is_not_there_is_no_problem_of_a_job() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("out");
    let (empty, book) = (folder.path().join("empty"), out.with_extension("xlsx"));
    fs::create_dir(&empty).unwrap();
    let (out, book) = (out.to_str().unwrap(), book.to_str().unwrap());
    for job in [
        "no-such-job.xlsx",
        "no-such-folder/job",
        empty.to_str().unwrap(),
    ] {
        let ends: [&[&str]; 6] = [
            &["check", job],
            &["takeoff", job],
            &["bid", job, "-o", book],
            &["compare", job],
            &["explain", job, "bid"],
            &["export", job, "-o", out],
        ];
        for arguments in ends {
            let output = run(arguments);
            assert_eq!(code(&output), 2, "{arguments:?}");
            let both = format!("{}{}", printed(&output), said(&output));
            assert!(
                both.contains("error[cannot-open]: "),
                "{arguments:?}: {both}"
            );
        }
    }
    let json = run(&["check", "no-such-job.xlsx", "--format", "json"]);
    assert_eq!(code(&json), 2);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(value[0]["code"], "cannot-open");
    let text = run(&["check", "no-such-job.xlsx"]);
    assert!(printed(&text).contains("--> no-such-job.xlsx"));
    // What is there and is no job has a problem.
    let other = folder.path().join("letter.xlsx");
    fs::write(&other, "a letter").unwrap();
    assert_eq!(code(&run(&["check", other.to_str().unwrap()])), 1);
}

#[test]
fn open_points_count_where_a_job_is_to_be_complete() {
    for (job, end) in [("school-pond", 1), ("lily-tank", 0)] {
        let job = sample(job);
        assert_eq!(code(&run(&["check", &job])), 0);
        for format in ["text", "json", "csv"] {
            let output = run(&["check", &job, "--complete", "--format", format]);
            assert_eq!(code(&output), end, "{job} {format}");
        }
    }
    assert_eq!(code(&run(&["check", "no-such-job", "--complete"])), 2);
}

fn fed(input: &[u8], arguments: &[&str]) -> Output {
    let mut command = program();
    command.args(arguments).stdin(Stdio::piped());
    let pipes = command.stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = pipes.spawn().unwrap();
    // Who reads nothing closes its end.
    let _ = child.stdin.take().unwrap().write_all(input);
    child.wait_with_output().unwrap()
}

#[test]
fn a_workbook_of_any_format_comes_from_standard_input() {
    let folder = TempDir::new().unwrap();
    let [out, same, results] = ["out.xlsx", "same.xlsx", "results"]
        .map(|name| folder.path().join(name).to_str().unwrap().to_owned());
    for job in ["school-pond", "lily-tank"].map(sample) {
        let bytes = fs::read(&job).unwrap();
        let commands: [&[&str]; 4] = [
            &["check", "JOB"],
            &["takeoff", "JOB"],
            &["compare", "JOB"],
            &["explain", "JOB", "bid"],
        ];
        for command in commands {
            let with = |name: &str| -> Vec<String> {
                command
                    .iter()
                    .map(|word| word.replace("JOB", name))
                    .collect()
            };
            let dash = with("-");
            let dash: Vec<&str> = dash.iter().map(String::as_str).collect();
            let (piped, named) = (fed(&bytes, &dash), run(&with(&job)));
            assert_eq!(code(&piped), 0, "{command:?}");
            let file = Path::new(&job).file_name().unwrap().to_str().unwrap();
            let renamed = printed(&named).replace(file, "standard input");
            assert_eq!(printed(&piped), renamed, "{command:?}");
        }
        assert_eq!(code(&fed(&bytes, &["bid", "-", "-o", &out])), 0);
        assert_eq!(code(&run(&["bid", &job, "-o", &same])), 0);
        assert!(fs::read(&out).unwrap() == fs::read(&same).unwrap());
        assert_eq!(code(&fed(&bytes, &["export", "-", "-o", &results])), 0);
    }
}

#[test]
fn what_is_no_workbook_is_refused_from_standard_input() {
    let table = b"Key,Value\nName,Duck pond\n";
    let output = fed(table, &["check", "-"]);
    assert_eq!(code(&output), 1);
    let text = printed(&output);
    assert!(
        text.contains("error[not-readable]: this is not a workbook"),
        "{text}"
    );
    assert!(text.contains("--> standard input"), "{text}");
    assert!(
        text.contains("name the folder of a job in CSV files"),
        "{text}"
    );
    let empty = fed(b"", &["check", "-"]);
    assert_eq!(code(&empty), 1);
    assert!(printed(&empty).contains("error[empty-file]"));
}

#[test]
fn several_jobs_are_checked_at_once_with_a_table_at_the_end() {
    let (reed, bad) = (sample("reed-bank"), bad_job());
    let output = run(&["check", &reed, &bad]);
    assert_eq!(code(&output), 1);
    let text = printed(&output);
    assert!(
        text.contains("error[out-of-range]: Depth is -5 ft"),
        "{text}"
    );
    let mut last = text.lines().rev();
    let (of_bad, of_reed, heading) = (
        last.next().unwrap(),
        last.next().unwrap(),
        last.next().unwrap(),
    );
    assert!(heading.starts_with("Job "), "{text}");
    for word in ["Errors", "Open", "Warnings", "Cautions", "Bid"] {
        assert!(heading.contains(word), "{heading}");
    }
    // The bid of the reed bank, worked out by hand in `tests/jobs/reed_bank.rs`.
    assert!(of_reed.ends_with("$7,304.64"), "{of_reed}");
    assert!(of_bad.ends_with("blocked"), "{of_bad}");
    for line in [heading, of_reed, of_bad] {
        assert!(line.chars().count() <= 100, "{line}");
    }

    let json = run(&["check", &reed, &bad, "--format", "json"]);
    assert_eq!(code(&json), 1);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(value[0]["job"], *reed);
    assert_eq!(value[0]["bid"], "7304.64");
    assert_eq!(value[0]["errors"], 0);
    assert!(value[1]["bid"].is_null());
    assert_eq!(value[1]["errors"], 1);
    assert_eq!(value[1]["findings"][0]["code"], "out-of-range");

    let csv = run(&["check", &reed, &bad, "--format", "csv"]);
    let mut reader = csv::Reader::from_reader(csv.stdout.as_slice());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 2);
    assert_eq!(&rows[0][5], "7304.64");
    assert_eq!(&rows[1][5], "");
}

#[test]
fn the_worst_of_several_jobs_decides_how_the_check_ends() {
    let (good, bad) = (sample("lily-tank"), bad_job());
    let draft = sample("school-pond");
    let ends: [(&[&str], i32); 5] = [
        (&[&good, &draft], 0),
        (&[&good, &draft, "--complete"], 1),
        (&[&bad, &good], 1),
        (&[&good, "no-such-job", &bad], 2),
        (&["no-such-job", &good, "--complete"], 2),
    ];
    for (jobs, end) in ends {
        let output = run(&[&["check"], jobs].concat());
        assert_eq!(code(&output), end, "{jobs:?}");
    }
}
