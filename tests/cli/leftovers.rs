//! Hidden files that killed runs have left behind.

use std::fs::{self, File};

use tempfile::TempDir;

use super::{bid, code, names_in, run, sample};

#[test]
fn a_later_run_removes_what_killed_runs_have_left_and_nothing_else() {
    let folder = TempDir::new().unwrap();
    let path = |name: &str| folder.path().join(name);
    fs::write(path(".groundsheet-abc123"), "half a workbook").unwrap();
    fs::create_dir(path(".groundsheet-Folder")).unwrap();
    fs::write(path(".groundsheet-Folder/bid-schedule.csv"), "half a table").unwrap();
    // Not of a run: other names, and files that are held by a run still at work.
    fs::write(path(".groundsheet-notes-of-mine"), "mine").unwrap();
    fs::write(path(".groundsheet-a.b.c."), "mine").unwrap();
    let held = File::create(path(".groundsheet-atwork")).unwrap();
    held.lock().unwrap();
    let out = path("bid.xlsx");
    assert_eq!(code(&bid(&sample("field-notes"), &out)), 0);
    let mut left = vec![
        ".groundsheet-a.b.c.",
        ".groundsheet-atwork",
        ".groundsheet-notes-of-mine",
        "bid.xlsx",
    ];
    if cfg!(not(unix)) {
        left.insert(0, ".groundsheet-Folder");
    }
    assert_eq!(names_in(folder.path()), left);
    drop(held);
    let results = path("results");
    let export = [
        "export",
        &sample("field-notes"),
        "-o",
        results.to_str().unwrap(),
    ];
    assert_eq!(code(&run(&export)), 0);
    assert!(!path(".groundsheet-atwork").exists());
}
