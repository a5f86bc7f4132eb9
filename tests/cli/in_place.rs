//! The evening loop: a workbook priced again where it is.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Output, Stdio};
use std::thread::sleep;
use std::time::Duration;

use tempfile::TempDir;

use super::replaced::type_into;
use super::{bid, code, half_written, names_in, printed, program, run, said, sample};
use crate::support::recalculate::Entry;

fn in_place(job: &Path, more: &[&str]) -> Output {
    run(&[&["bid", job.to_str().unwrap(), "--in-place"], more].concat())
}

/// A folder with a workbook in it that was priced, and edited since.
fn edited() -> (TempDir, PathBuf, Vec<u8>) {
    let folder = TempDir::new().unwrap();
    let job = folder.path().join("m.xlsx");
    assert_eq!(code(&bid(&sample("field-notes"), &job)), 0);
    let bytes = type_into(&job, &[("Basins", "C2", Entry::Number(58.0))]);
    (folder, job, bytes)
}

/// What pricing these bytes gives.
fn priced(bytes: &[u8]) -> Vec<u8> {
    let folder = TempDir::new().unwrap();
    let [job, out] = ["m.xlsx", "out.xlsx"].map(|name| folder.path().join(name));
    fs::write(&job, bytes).unwrap();
    assert_eq!(code(&bid(job.to_str().unwrap(), &out)), 0);
    fs::read(out).unwrap()
}

/// The copies that are kept beside a workbook.
fn kept(folder: &Path) -> Vec<Vec<u8>> {
    let names = names_in(folder).into_iter();
    let kept = names.filter(|name| name.contains(".before-"));
    kept.map(|name| fs::read(folder.join(name)).unwrap())
        .collect()
}

#[test]
fn a_workbook_is_priced_where_it_is_and_kept_as_it_was() {
    let (folder, job, before) = edited();
    let expected = priced(&before);
    let output = in_place(&job, &[]);
    assert_eq!(code(&output), 0, "{}", said(&output));
    assert!(printed(&output).contains("BID"), "{}", printed(&output));
    assert!(said(&output).contains("as it was before is kept as"));
    assert!(
        said(&output).contains("m.before-1.xlsx"),
        "{}",
        said(&output)
    );
    assert!(fs::read(&job).unwrap() == expected);
    assert!(kept(folder.path()) == [before]);
    // Nothing has changed since: nothing is done, and no copy is made.
    let output = in_place(&job, &[]);
    assert_eq!(code(&output), 0);
    assert!(
        said(&output).contains("nothing has changed"),
        "{}",
        said(&output)
    );
    assert_eq!(names_in(folder.path()), ["m.before-1.xlsx", "m.xlsx"]);
    let again = type_into(&job, &[("Basins", "C2", Entry::Number(59.0))]);
    assert_eq!(code(&in_place(&job, &[])), 0);
    assert!(fs::read(folder.path().join("m.before-2.xlsx")).unwrap() == again);
    // A folder with one workbook is a job, also where copies are kept beside it.
    type_into(&job, &[("Basins", "C2", Entry::Number(60.0))]);
    assert_eq!(code(&in_place(folder.path(), &[])), 0);
    assert_eq!(kept(folder.path()).len(), 3);
}

#[test]
fn results_for_programs_are_all_that_is_printed() {
    let (_folder, job, _) = edited();
    let output = in_place(&job, &["--format", "json"]);
    let value: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert!(value["bid"].is_string());
}

#[cfg(unix)]
#[test]
fn a_workbook_in_place_keeps_its_permissions_and_a_link_stays_a_link() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let (folder, job, before) = edited();
    fs::set_permissions(&job, fs::Permissions::from_mode(0o640)).unwrap();
    let elsewhere = TempDir::new().unwrap();
    let link = elsewhere.path().join("link.xlsx");
    symlink(&job, &link).unwrap();
    assert_eq!(code(&in_place(&link, &[])), 0);
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert!(fs::read(&job).unwrap() == priced(&before));
    assert_eq!(names_in(elsewhere.path()), ["link.xlsx"]);
    for name in ["m.xlsx", "m.before-1.xlsx"] {
        let mode = fs::metadata(folder.path().join(name))
            .unwrap()
            .permissions()
            .mode();
        assert_eq!(mode & 0o777, 0o640, "{name}");
    }
}

#[test]
fn only_a_workbook_of_our_own_format_can_be_priced_in_place() {
    let (folder, job, _) = edited();
    let ods = folder.path().join("tank.ods");
    fs::copy(sample("lily-tank"), &ods).unwrap();
    let tables = sample("field-notes");
    let one = Path::new(&tables).join("Basins.csv");
    for other in [Path::new(&tables), &one, &ods] {
        let output = in_place(other, &[]);
        assert_eq!(code(&output), 2, "{other:?}");
        let text = said(&output);
        assert!(
            text.contains("only an .xlsx workbook can be priced in place"),
            "{text}"
        );
        assert!(text.contains("groundsheet bid JOB -o OUT.xlsx"), "{text}");
    }
    let output = in_place(Path::new("-"), &[]);
    assert_eq!(code(&output), 2);
    assert!(
        said(&output).contains("standard input"),
        "{}",
        said(&output)
    );
    let both = in_place(&job, &["-o", "out.xlsx"]);
    assert_eq!(code(&both), 2);
    assert_eq!(code(&in_place(&folder.path().join("none.xlsx"), &[])), 2);
    assert_eq!(kept(folder.path()).len(), 0);
}

#[test]
fn a_job_that_is_blocked_is_left_as_it_is() {
    let (folder, job, _) = edited();
    let broken = type_into(&job, &[("Basins", "E2", Entry::Number(-5.0))]);
    assert_eq!(code(&in_place(&job, &[])), 1);
    assert!(fs::read(&job).unwrap() == broken);
    assert_eq!(names_in(folder.path()), ["m.xlsx"]);
}

#[test]
fn a_workbook_that_an_office_program_has_open_is_left_as_it_is() {
    let (folder, job, before) = edited();
    for lock in [".~lock.m.xlsx#", "~$m.xlsx"] {
        let lock = folder.path().join(lock);
        fs::write(&lock, ",somebody").unwrap();
        let output = in_place(&job, &["--replace"]);
        assert_eq!(code(&output), 2);
        assert!(said(&output).contains("error[in-use]"), "{}", said(&output));
        assert!(fs::read(&job).unwrap() == before);
        assert!(kept(folder.path()).is_empty());
        fs::remove_file(lock).unwrap();
    }
}

#[test]
fn the_client_copy_and_the_workbook_are_both_replaced_or_neither() {
    let (folder, job, before) = edited();
    let client = folder.path().join("client.xlsx");
    fs::write(&client, "a letter to the client").unwrap();
    let copy = ["--client", client.to_str().unwrap()];
    let output = in_place(&job, &copy);
    assert_eq!(code(&output), 2);
    assert!(
        said(&output).contains("error[not-replaced]"),
        "{}",
        said(&output)
    );
    assert!(fs::read(&job).unwrap() == before);
    assert_eq!(names_in(folder.path()), ["client.xlsx", "m.xlsx"]);
    assert_eq!(code(&in_place(&job, &[copy[0], copy[1], "--replace"])), 0);
    let names = [
        "client.before-1.xlsx",
        "client.xlsx",
        "m.before-1.xlsx",
        "m.xlsx",
    ];
    assert_eq!(names_in(folder.path()), names);
    assert!(fs::read(&job).unwrap() == priced(&before));
    let over_itself = in_place(&job, &["--client", job.to_str().unwrap()]);
    assert_eq!(code(&over_itself), 2);
    assert!(said(&over_itself).contains("error[output-is-input]"));
}

fn start(job: &Path) -> Child {
    let mut command = program();
    command.args(["bid", job.to_str().unwrap(), "--in-place"]);
    command.stdout(Stdio::null()).stderr(Stdio::null());
    command.spawn().unwrap()
}

/// One unit of waiting.
const TICK: Duration = Duration::from_micros(500);

/// Waits until a run is done, at most so long; says for how long.
fn waited(child: &mut Child, most: u32) -> u32 {
    let mut ticks = 0;
    while ticks < most && child.try_wait().unwrap().is_none() {
        sleep(TICK);
        ticks += 1;
    }
    ticks
}

#[test]
fn a_workbook_that_is_saved_meanwhile_is_left_as_it_is() {
    let (folder, job, before) = edited();
    let other = folder.path().join("other.xlsx");
    fs::copy(&job, &other).unwrap();
    let saved = type_into(&other, &[("Basins", "C2", Entry::Number(57.0))]);
    let whole = waited(&mut start(&job), u32::MAX);
    let mut refused = 0;
    // Somebody saves it a little later each time, from the start of a run to its end.
    for part in 1..40 {
        fs::write(&job, &before).unwrap();
        let copies = kept(folder.path()).len();
        let mut child = start(&job);
        waited(&mut child, whole * part / 40);
        fs::copy(&other, folder.path().join("coming.xlsx")).unwrap();
        fs::rename(folder.path().join("coming.xlsx"), &job).unwrap();
        let end = child.wait().unwrap().code();
        let copies = kept(folder.path()).split_off(copies);
        if end == Some(2) {
            refused += 1;
            assert!(fs::read(&job).unwrap() == saved);
            assert!(copies.is_empty());
        } else {
            // It was saved before it was read, or after it was replaced.
            assert_eq!(end, Some(0));
            let now = fs::read(&job).unwrap();
            let read_after = now == priced(&saved) && copies == [&*saved];
            let replaced_before = now == saved && copies == [&*before];
            assert!(read_after || replaced_before);
        }
        if refused >= 3 {
            return;
        }
    }
    panic!("no run met a workbook that was saved meanwhile");
}

/// How often a run is killed: 20 times, or as often as `GROUNDSHEET_KILLS` says.
fn kills() -> u32 {
    let often = std::env::var("GROUNDSHEET_KILLS").ok();
    often.map_or(20, |often| often.parse().unwrap())
}

#[test]
fn a_run_in_place_that_is_killed_leaves_the_old_workbook_or_the_whole_new_one() {
    let (folder, job, before) = edited();
    let after = priced(&before);
    let whole = waited(&mut start(&job), u32::MAX);
    let (mut old, mut new) = (0, 0);
    let mut random: u32 = 2_463_534_242;
    for round in 0..kills() {
        for name in names_in(folder.path()) {
            if name.contains(".before-") {
                fs::remove_file(folder.path().join(name)).unwrap();
            }
        }
        fs::write(&job, &before).unwrap();
        let mut child = start(&job);
        random ^= random << 13;
        random ^= random >> 17;
        random ^= random << 5;
        // Every other run is killed about when it begins to write; the first at once, the second
        // not before it is done.
        if round < 2 {
            waited(&mut child, round * u32::MAX);
        } else if round % 2 == 0 {
            waited(&mut child, random % (whole + whole / 5 + 2));
        } else {
            while child.try_wait().unwrap().is_none() && !half_written(folder.path()) {
                sleep(Duration::from_micros(100));
            }
            sleep(Duration::from_micros(u64::from(random % 4000)));
        }
        // It may have ended by itself just now.
        let _ = child.kill();
        child.wait().unwrap();
        let now = fs::read(&job).unwrap();
        assert!(
            now == before || now == after,
            "round {round}: {} bytes",
            now.len()
        );
        assert!(
            kept(folder.path()).iter().all(|kept| *kept == before),
            "round {round}"
        );
        if now == before {
            old += 1;
        } else {
            new += 1;
            assert!(
                !kept(folder.path()).is_empty(),
                "round {round}: the old one is gone"
            );
        }
    }
    assert!(old > 0 && new > 0, "{old} old, {new} new");
    // The next run that is let alone clears up.
    fs::write(&job, &before).unwrap();
    assert_eq!(code(&in_place(&job, &[])), 0);
    assert!(
        !half_written(folder.path()),
        "{:?}",
        names_in(folder.path())
    );
}

#[test]
fn two_runs_in_place_at_once_leave_a_whole_workbook_and_the_original() {
    let (folder, job, before) = edited();
    let after = priced(&before);
    for round in 0..8 {
        let mut runs = [start(&job), start(&job)];
        let ends = runs.each_mut().map(|run| run.wait().unwrap().code());
        assert!(ends.contains(&Some(0)), "round {round}: {ends:?}");
        assert!(
            ends.iter().all(|end| [Some(0), Some(2)].contains(end)),
            "{ends:?}"
        );
        assert!(fs::read(&job).unwrap() == after, "round {round}");
        let copies = kept(folder.path());
        assert!(copies.contains(&before), "round {round}");
        // A run that came late may have priced the new one, and found it the same.
        assert!(copies.iter().all(|copy| *copy == before), "round {round}");
        assert!(!half_written(folder.path()));
        fs::write(&job, &before).unwrap();
    }
}

#[cfg(unix)]
#[test]
fn a_full_disk_leaves_everything_as_it_was() {
    let (folder, job, before) = edited();
    let out = folder.path().join("out.xlsx");
    let [job_text, out_text] = [&job, &out].map(|path| path.to_str().unwrap());
    // A file may grow to some thousand bytes, and then no further.
    let limited = "trap '' XFSZ; ulimit -f 8; exec \"$@\"";
    let ends: [&[&str]; 3] = [
        &["bid", job_text, "--in-place"],
        &["bid", job_text, "-o", out_text],
        &["template", "-o", out_text],
    ];
    for arguments in ends {
        let mut shell = std::process::Command::new("sh");
        shell.args(["-c", limited, "sh", env!("CARGO_BIN_EXE_groundsheet")]);
        let output = shell.args(arguments).output().unwrap();
        assert_eq!(code(&output), 2, "{arguments:?}: {}", said(&output));
        assert!(
            said(&output).contains("error[not-writable]"),
            "{}",
            said(&output)
        );
        assert!(fs::read(&job).unwrap() == before);
        assert_eq!(names_in(folder.path()), ["m.xlsx"], "{arguments:?}");
    }
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_to_stays_as_it_was() {
    use std::os::unix::fs::PermissionsExt;
    let (folder, job, before) = edited();
    let allow = |mode: u32| fs::set_permissions(folder.path(), fs::Permissions::from_mode(mode));
    allow(0o555).unwrap();
    // Who may do everything is not stopped by permissions.
    let mighty = fs::write(folder.path().join("probe"), "").is_ok();
    if !mighty {
        let output = in_place(&job, &[]);
        assert_eq!(code(&output), 2);
        assert!(
            said(&output).contains("error[not-writable]"),
            "{}",
            said(&output)
        );
    }
    allow(0o755).unwrap();
    assert!(fs::read(&job).unwrap() == before);
    assert!(kept(folder.path()).is_empty());
}
