//! Bad jobs, each with the exact text that `groundsheet check` prints for it.
//!
//! A case is a folder of `tests/errors`: a job as CSV files, or nothing but the text,
//! where [`MADE`] makes the workbook. The text is in `expected.txt`. It is read as an
//! estimator would read it: is the place right, is it clear what was found, what was
//! expected and what to do, is nothing said twice.
//!
//! Texts are never rewritten by themselves. After a change that is meant, run
//! `GROUNDSHEET_ACCEPT=1 cargo test errors` and read every line that changed.
//!
//! Of every case the same test also proves that a job with errors is not bid: `bid`
//! ends with the same code and leaves no file.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "test code: what should be there and is not is a failed test"
)]

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use groundsheet::diagnostic::Code;
use tempfile::TempDir;

mod workbooks;

use workbooks::MADE;
pub(crate) use workbooks::parts_of;

/// Cases there are at least: the runner must not lose any.
const CASES: usize = 206;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/errors")
}

/// The names of all cases, sorted.
fn cases() -> Vec<String> {
    let entries = fs::read_dir(folder()).unwrap().map(Result::unwrap);
    let folders = entries.filter(|entry| entry.path().is_dir());
    let mut names: Vec<String> = folders
        .map(|entry| entry.file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn groundsheet(arguments: &[&Path]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_groundsheet"))
        .args(arguments)
        .output()
        .unwrap()
}

/// The job of a case: its folder, or the file that is made for it.
fn job_of(case: &str, scratch: &Path) -> PathBuf {
    let Some((_, file, make)) = MADE.iter().find(|(name, ..)| *name == case) else {
        return folder().join(case);
    };
    let path = scratch.join(file);
    fs::write(&path, make()).unwrap();
    path
}

/// What the check of a case prints; that `check` and `bid` end as the text says, and
/// that a job with errors leaves no workbook, is proved on the way.
fn checked(case: &str) -> String {
    let scratch = TempDir::new().unwrap();
    let job = job_of(case, scratch.path());
    let check = groundsheet(&[Path::new("check"), &job]);
    let printed = String::from_utf8(check.stdout).unwrap();
    let blocked = printed.contains("error[");
    assert_eq!(check.status.code(), Some(i32::from(blocked)), "{case}");
    assert!(check.stderr.is_empty(), "{case}");
    let out = TempDir::new().unwrap();
    let bid = out.path().join("bid.xlsx");
    let run = groundsheet(&[Path::new("bid"), &job, Path::new("-o"), &bid]);
    assert_eq!(run.status.code(), Some(i32::from(blocked)), "{case}");
    let left = fs::read_dir(out.path()).unwrap().count();
    assert_eq!(left, usize::from(!blocked), "{case}: files after bid");
    printed
}

/// The lines that differ: what was expected with `-`, what was found with `+`.
fn difference(expected: &str, found: &str) -> String {
    let (old, new): (Vec<&str>, Vec<&str>) = (expected.lines().collect(), found.lines().collect());
    let same = |pair: &(&&str, &&str)| pair.0 == pair.1;
    let before = old.iter().zip(&new).take_while(same).count();
    let (old, new) = (&old[before..], &new[before..]);
    let after = old
        .iter()
        .rev()
        .zip(new.iter().rev())
        .take_while(same)
        .count();
    let mut out = String::new();
    for line in &old[..old.len() - after] {
        let _ = writeln!(out, "    - {line}");
    }
    for line in &new[..new.len() - after] {
        let _ = writeln!(out, "    + {line}");
    }
    out
}

#[test]
fn every_bad_job_gives_exactly_the_text_expected() {
    let accept = std::env::var_os("GROUNDSHEET_ACCEPT").is_some_and(|value| value == "1");
    let mut wrong = String::new();
    for case in cases() {
        let found = checked(&case);
        let path = folder().join(&case).join("expected.txt");
        let expected = fs::read_to_string(&path).unwrap_or_default();
        if found == expected {
            continue;
        }
        if accept {
            fs::write(&path, &found).unwrap();
        }
        let _ = writeln!(wrong, "  {case}:\n{}", difference(&expected, &found));
    }
    assert!(
        accept || wrong.is_empty(),
        "texts differ (- expected, + found); if they should, see the top of this file\n{wrong}"
    );
}

#[test]
fn the_cross_check_may_be_left_out_and_other_commands_never_do_it() {
    let scratch = TempDir::new().unwrap();
    let job = job_of("read-differently", scratch.path());
    let out = scratch.path().join("bid.xlsx");
    let [check, takeoff, bid] = ["check", "takeoff", "bid"].map(Path::new);
    let [once, to] = ["--read-once", "-o"].map(Path::new);
    let ends = [
        (&[check, &job][..], 1),
        (&[check, &job, once], 0),
        (&[takeoff, &job], 0),
        (&[bid, &job, to, &out], 1),
        (&[bid, &job, to, &out, once], 0),
    ];
    for (arguments, end) in ends {
        let ended = groundsheet(arguments).status.code();
        assert_eq!(ended, Some(end), "{arguments:?}");
    }
}

#[test]
fn no_case_is_lost() {
    let cases: BTreeSet<String> = cases().into_iter().collect();
    assert!(cases.len() >= CASES, "{} cases", cases.len());
    for (name, ..) in MADE {
        assert!(cases.contains(*name), "{name} has no folder");
    }
}

#[test]
fn every_kind_of_fault_has_a_case() {
    // Of the program, not of a job (`tests/cli.rs`).
    let others = [
        Code::CannotOpen,
        Code::OutputIsInput,
        Code::NotWritable,
        Code::NotReplaced,
        Code::InUse,
        Code::UnknownName,
    ];
    let texts: String = cases()
        .iter()
        .map(|case| fs::read_to_string(folder().join(case).join("expected.txt")).unwrap())
        .collect();
    for code in Code::ALL.iter().filter(|code| !others.contains(code)) {
        let shown = format!("[{}]: ", code.name());
        assert!(texts.contains(&shown), "no case shows {}", code.name());
    }
}

#[test]
fn many_faults_of_many_sheets_come_together() {
    let text = fs::read_to_string(folder().join("many-at-once/expected.txt")).unwrap();
    let errors = text
        .lines()
        .filter(|line| line.starts_with("error["))
        .count();
    let places = text.lines().filter_map(|line| line.strip_prefix("  --> "));
    let sheets: BTreeSet<&str> = places.filter_map(|place| place.split(',').next()).collect();
    assert!(errors >= 12, "{errors} errors");
    assert!(sheets.len() >= 6, "{sheets:?}");
}
