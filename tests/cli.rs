//! The program as people and other programs meet it: exit codes, files left behind,
//! formats.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "test code: what should be there and is not is a failed test"
)]

mod in_place;
mod jobs;
mod leftovers;
mod replaced;

use std::ffi::OsStr;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::thread::sleep;
use std::time::Duration;

use groundsheet::job::tables::OtherItems;
use tempfile::TempDir;

use crate::support::{estimate_of_bytes, sample_path};

fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_groundsheet"))
}

fn run<A: AsRef<OsStr>>(arguments: &[A]) -> Output {
    program().args(arguments).output().unwrap()
}

fn code(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn printed(output: &Output) -> &str {
    std::str::from_utf8(&output.stdout).unwrap()
}

fn said(output: &Output) -> &str {
    std::str::from_utf8(&output.stderr).unwrap()
}

fn sample(name: &str) -> String {
    sample_path(name).to_str().unwrap().to_owned()
}

fn bad_job() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/errors/negative-depth");
    path.to_str().unwrap().to_owned()
}

fn names_in(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    let mut names: Vec<String> = entries
        .map(|entry| entry.file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn bid(job: &str, output: &Path) -> Output {
    run(&["bid", job, "-o", output.to_str().unwrap()])
}

#[test]
fn commands_end_with_zero_when_they_are_done() {
    let folder = TempDir::new().unwrap();
    let out = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let job = sample("field-notes");
    let ends: [&[&str]; 7] = [
        &["--help"],
        &["--version"],
        &["check", &job],
        &["takeoff", &job],
        &["bid", &job, "-o", &out("bid.xlsx")],
        &["explain", &job, "bid"],
        &["template", "-o", &out("blank.xlsx")],
    ];
    for arguments in ends {
        assert_eq!(code(&run(arguments)), 0, "{arguments:?}");
    }
    assert_eq!(names_in(folder.path()), ["bid.xlsx", "blank.xlsx"]);
}

#[test]
fn commands_end_with_one_when_the_job_has_problems() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("bid.xlsx");
    let job = bad_job();
    let ends: [&[&str]; 4] = [
        &["check", &job],
        &["takeoff", &job],
        &["bid", &job, "-o", out.to_str().unwrap()],
        &["explain", &job, "bid"],
    ];
    for arguments in ends {
        let output = run(arguments);
        assert_eq!(code(&output), 1, "{arguments:?}");
        let both = format!("{}{}", printed(&output), said(&output));
        assert!(
            both.contains("error[out-of-range]: Depth is -5 ft"),
            "{arguments:?}"
        );
    }
    assert!(names_in(folder.path()).is_empty());
}

#[test]
fn wrong_arguments_end_with_two() {
    let ends: [&[&str]; 5] = [
        &[],
        &["price"],
        &["bid", "job.xlsx"],
        &["check", "job.xlsx", "--format", "pdf"],
        &["template", "-o", "blank.xlsx", "--units", "imperial"],
    ];
    for arguments in ends {
        assert_eq!(code(&run(arguments)), 2, "{arguments:?}");
    }
}

#[test]
fn help_names_every_command_and_the_exit_codes() {
    let output = run(&["--help"]);
    let text = printed(&output);
    for word in [
        "template",
        "check",
        "takeoff",
        "bid",
        "explain",
        "Exit codes",
    ] {
        assert!(text.contains(word), "{word}");
    }
    let version = run(&["--version"]);
    let expected = format!("groundsheet {}\n", env!("CARGO_PKG_VERSION"));
    assert_eq!(printed(&version), expected);
}

#[test]
fn an_output_equal_to_the_input_is_refused_and_the_input_stays() {
    let folder = TempDir::new().unwrap();
    let job = folder.path().join("pond.xlsx");
    fs::copy(sample_path("school-pond"), &job).unwrap();
    let before = fs::read(&job).unwrap();
    let roundabout = folder
        .path()
        .join("..")
        .join(folder.path().file_name().unwrap());
    let mut same = vec![
        (job.clone(), job.clone()),
        (job.clone(), roundabout.join("pond.xlsx")),
        (folder.path().to_owned(), job.clone()),
    ];
    #[cfg(unix)]
    {
        let link = folder.path().join("link.xlsx");
        std::os::unix::fs::symlink(&job, &link).unwrap();
        same.push((job.clone(), link.clone()));
        same.push((link, job.clone()));
    }
    let refused = |output: &Output, what: &str| {
        assert_eq!(code(output), 2, "{what}");
        let text = said(output);
        assert!(text.contains("error[output-is-input]"), "{what}: {text}");
        assert!(
            text.contains("give another name after -o"),
            "{what}: {text}"
        );
        assert_eq!(fs::read(&job).unwrap(), before, "{what}");
    };
    let files = names_in(folder.path());
    for (input, output) in same {
        // A folder is a job only while it holds one workbook.
        let link = folder.path().join("link.xlsx");
        if input.is_dir() && link.exists() {
            fs::remove_file(&link).unwrap();
            refused(&bid(input.to_str().unwrap(), &output), "folder");
            #[cfg(unix)]
            std::os::unix::fs::symlink(&job, &link).unwrap();
            continue;
        }
        refused(
            &bid(input.to_str().unwrap(), &output),
            &format!("{input:?} {output:?}"),
        );
    }
    let relative = program()
        .current_dir(folder.path())
        .args([
            OsStr::new("bid"),
            job.as_os_str(),
            OsStr::new("-o"),
            OsStr::new("./pond.xlsx"),
        ])
        .output()
        .unwrap();
    refused(&relative, "relative to absolute");
    assert_eq!(names_in(folder.path()), files);
}

#[test]
fn a_table_of_a_job_in_csv_files_is_never_overwritten() {
    let folder = TempDir::new().unwrap();
    for entry in fs::read_dir(sample_path("field-notes")).unwrap() {
        let entry = entry.unwrap();
        fs::copy(entry.path(), folder.path().join(entry.file_name())).unwrap();
    }
    let table = folder.path().join("Basins.csv");
    let before = fs::read(&table).unwrap();
    let output = bid(folder.path().to_str().unwrap(), &table);
    assert_eq!(code(&output), 2);
    assert!(said(&output).contains("error[output-is-input]"));
    assert_eq!(fs::read(&table).unwrap(), before);
}

#[test]
fn an_output_that_cannot_be_written_ends_with_two_and_leaves_nothing() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("notes.txt");
    fs::write(&file, "notes").unwrap();
    fs::create_dir(folder.path().join("a-folder")).unwrap();
    let files = names_in(folder.path());
    let job = sample("field-notes");
    let places = [
        ("nowhere/bid.xlsx", "nowhere is not there"),
        (
            "a-folder",
            "this is a folder, where a file is to be written",
        ),
        ("notes.txt/bid.xlsx", "notes.txt is not there"),
    ];
    for (place, what) in places {
        let path = folder.path().join(place);
        let path = path.to_str().unwrap();
        let ends: [&[&str]; 2] = [&["bid", &job, "-o", path], &["template", "-o", path]];
        for arguments in ends {
            let output = run(arguments);
            assert_eq!(code(&output), 2, "{arguments:?}");
            let text = said(&output);
            assert!(text.contains("error[not-writable]: "), "{text}");
            assert!(text.contains(what), "{text}");
            assert!(
                text.contains("hint: choose a folder that is there"),
                "{text}"
            );
            assert!(printed(&output).is_empty(), "a summary of nothing");
        }
    }
    assert_eq!(names_in(folder.path()), files);
    assert!(names_in(&folder.path().join("a-folder")).is_empty());
    assert_eq!(fs::read_to_string(&file).unwrap(), "notes");
}

#[test]
fn an_output_that_is_there_stays_when_the_job_is_broken() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("bid.xlsx");
    fs::write(&out, "the bid of yesterday").unwrap();
    assert_eq!(code(&bid(&bad_job(), &out)), 1);
    assert_eq!(fs::read_to_string(&out).unwrap(), "the bid of yesterday");
    assert_eq!(names_in(folder.path()), ["bid.xlsx"]);
}

#[test]
fn an_output_that_is_there_is_replaced_whole() {
    let folder = TempDir::new().unwrap();
    let (out, fresh) = (
        folder.path().join("bid.xlsx"),
        folder.path().join("fresh.xlsx"),
    );
    assert_eq!(code(&bid(&sample("school-pond"), &out)), 0);
    assert_eq!(code(&bid(&sample("field-notes"), &out)), 0);
    assert_eq!(code(&bid(&sample("field-notes"), &fresh)), 0);
    assert!(fs::read(&out).unwrap() == fs::read(&fresh).unwrap());
    assert_eq!(names_in(folder.path()), ["bid.xlsx", "fresh.xlsx"]);
}

/// A job of many items, so that writing it takes a while.
fn long_job(folder: &Path, rows: usize) -> PathBuf {
    let job = folder.join("job");
    fs::create_dir(&job).unwrap();
    fs::write(
        job.join("Job.csv"),
        "Key,Value\nName,Long pond\nUnits,US customary\nSoil,loam\n",
    )
    .unwrap();
    let mut items = "Item,Section,Description,Unit,Length (ft),Width (ft),Price\n".to_owned();
    for row in 1..=rows {
        let _ = writeln!(
            items,
            "A-{row},Lining,Liner piece {row},ft2,{row},12.5,1.10"
        );
    }
    fs::write(job.join("Other items.csv"), items).unwrap();
    job
}

fn start_bid(job: &Path, output: &Path) -> Child {
    program()
        .args([
            OsStr::new("bid"),
            job.as_os_str(),
            OsStr::new("-o"),
            output.as_os_str(),
        ])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Whether a run has begun to write there.
fn half_written(folder: &Path) -> bool {
    names_in(folder)
        .iter()
        .any(|name| name.starts_with(".groundsheet-"))
}

#[test]
fn a_run_that_is_killed_leaves_the_old_output_or_the_whole_new_one() {
    let folder = TempDir::new().unwrap();
    let job = long_job(folder.path(), 400);
    let whole = folder.path().join("whole.xlsx");
    assert!(start_bid(&job, &whole).wait().unwrap().success());
    let new = fs::read(&whole).unwrap();
    assert_eq!(estimate_of_bytes(&new).job.table::<OtherItems>().rows, 400);
    let yesterday = folder.path().join("yesterday.xlsx");
    assert_eq!(code(&bid(&sample("field-notes"), &yesterday)), 0);
    let old = fs::read(&yesterday).unwrap();
    let mut finished = false;
    // Later and later, until one run is done before it is killed; and each time once more
    // at the very moment when the new file begins to be written.
    for round in 0..40_u64 {
        for at_the_write in [false, true] {
            let outputs = TempDir::new().unwrap();
            let out = outputs.path().join("bid.xlsx");
            fs::write(&out, &old).unwrap();
            let mut child = start_bid(&job, &out);
            if at_the_write {
                while child.try_wait().unwrap().is_none() && !half_written(outputs.path()) {
                    sleep(Duration::from_micros(200));
                }
                sleep(Duration::from_micros(round * 50));
            } else {
                sleep(Duration::from_millis(round * 60));
            }
            finished |= child.try_wait().unwrap().is_some();
            // It may have ended by itself just now.
            let _ = child.kill();
            child.wait().unwrap();
            let left = fs::read(&out).unwrap();
            assert!(
                left == old || left == new,
                "round {round}: {} bytes",
                left.len()
            );
            let others: Vec<String> = names_in(outputs.path());
            let known = |name: &String| name == "bid.xlsx" || name.starts_with(".groundsheet-");
            assert!(others.iter().all(known), "{others:?}");
        }
        if finished && round >= 6 {
            break;
        }
    }
    assert!(finished, "no run was ever done");
}

#[test]
fn json_is_json_and_csv_is_csv() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("bid.xlsx");
    let out = out.to_str().unwrap();
    for job in ["field-notes", "lily-tank", "school-pond"].map(sample) {
        let commands: [&[&str]; 4] = [
            &["compare", &job],
            &["check", &job],
            &["takeoff", &job],
            &["bid", &job, "-o", out],
        ];
        for command in commands {
            let with = |format: &str| run(&[command, &["--format", format]].concat());
            let json = with("json");
            let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
            assert!(value.is_array() || value.is_object(), "{command:?}");
            let csv = with("csv");
            let mut reader = csv::Reader::from_reader(csv.stdout.as_slice());
            let columns = reader.headers().unwrap().len();
            assert!(columns >= 5, "{command:?}");
            let rows = reader.records().map(Result::unwrap).count();
            assert!(rows > 0, "{command:?}");
        }
    }
    let json = run(&["bid", &sample("field-notes"), "-o", out, "--format", "json"]);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    for key in ["job", "status", "direct_cost", "bid", "lines", "findings"] {
        assert!(value.get(key).is_some(), "{key}");
    }
}

#[test]
fn scenarios_are_compared_for_people_and_for_programs() {
    // The figures of the reed bank, worked out by hand in `tests/jobs/reed_bank.rs`.
    let job = sample("reed-bank");
    let output = run(&["compare", &job]);
    assert_eq!(code(&output), 0);
    let text = String::from_utf8(output.stdout).unwrap();
    let line = |of: &str| text.lines().find(|line| line.starts_with(of)).unwrap();
    assert!(line("Crew only").contains("$9,177.83"), "{text}");
    assert!(line("Friends plant  ").contains("$7,304.64"), "{text}");
    assert!(
        text.contains("50 % delivered: bid $8,377.61, saves $800.22"),
        "{text}"
    );
    assert!(
        text.contains("0 % delivered: bid $9,450.58, costs $272.75 more"),
        "{text}"
    );
    assert!(
        text.lines().all(|line| line.chars().count() <= 100),
        "{text}"
    );

    let output = run(&["compare", &job, "--format", "json"]);
    let value: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(value["in_use"], "Friends plant");
    assert_eq!(value["scenarios"][1]["bid"], "7304.64");
    assert_eq!(value["if_they_do_not_turn_up"][2]["bid"], "8377.61");
    assert_eq!(value["tasks"][0]["partner"], "Friends of the Green");

    // A job without scenarios has one row, and is told what to fill in.
    let output = run(&["compare", &sample("field-notes"), "--format", "csv"]);
    assert_eq!(code(&output), 0);
    assert_eq!(String::from_utf8(output.stdout).unwrap().lines().count(), 2);
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("this job has no scenarios"), "{said}");
}

#[test]
fn long_names_of_scenarios_and_partners_are_told_whole_and_fit_the_terminal() {
    let folder = TempDir::new().unwrap();
    let [scenario, partner] = [
        "Friends of the Northern Bank plant on two Saturdays in May",
        "Friends of the Green and of the whole Northern Bank",
    ];
    for file in fs::read_dir(sample("reed-bank")).unwrap() {
        let file = file.unwrap();
        let text = fs::read_to_string(file.path()).unwrap();
        let text = text.replace("Friends plant", scenario);
        let text = text.replace("Friends of the Green", partner);
        fs::write(folder.path().join(file.file_name()), text).unwrap();
    }
    let output = run(&["compare", folder.path().to_str().unwrap()]);
    assert_eq!(code(&output), 0);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(text.lines().any(|line| line == scenario), "{text}");
    assert!(text.contains(partner), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 100),
        "{text}"
    );
}

#[test]
fn a_job_without_findings_gives_valid_csv_and_json_too() {
    let folder = TempDir::new().unwrap();
    let job = folder.path().join("job");
    fs::create_dir(&job).unwrap();
    fs::write(
        job.join("Job.csv"),
        "Key,Value\nName,A\nUnits,metric\nSoil,clay\n",
    )
    .unwrap();
    fs::write(
        job.join("Other items.csv"),
        "Item,Section,Description,Unit,Times,Price\nA-1,Stone,Boulders,ea,4,80\n",
    )
    .unwrap();
    fs::write(
        job.join("Mark-ups.csv"),
        "Mark-up,On,Rate\nProfit,direct cost,10\n",
    )
    .unwrap();
    let check = |format: &str| run(&["check", job.to_str().unwrap(), "--format", format]);
    assert_eq!(printed(&check("json")), "[]\n");
    assert_eq!(printed(&check("csv")), "severity,code,place,message,hint\n");
    assert_eq!(
        printed(&check("text")),
        "0 errors, 0 open points, 0 warnings, 0 cautions\n"
    );
}

#[test]
fn explain_follows_lines_figures_and_cells_and_suggests_names() {
    let job = sample("field-notes");
    let explain = |name: &str| run(&["explain", &job, name, "--depth", "20"]);
    let known = [
        ("Dig: Meadow pool", "Basins.csv, line 2, column"),
        ("dig: meadow pool", "source: "),
        ("FN-8", "Other items.csv, line 12"),
        ("bid", "direct cost"),
        ("surplus", "yd³ bank"),
        ("Basins/finished volume/Meadow pool", "source: "),
        ("Basins/Depth/Meadow pool", "[Basins.csv, line 2, column 6]"),
    ];
    for (name, part) in known {
        let output = explain(name);
        assert_eq!(code(&output), 0, "{name}");
        assert!(
            printed(&output).contains(part),
            "{name}:\n{}",
            printed(&output)
        );
    }
    let unknown = [
        ("Dig: Medow pool", "did you mean \"Dig: Meadow pool\"?"),
        ("surplsu", "did you mean \"surplus\"?"),
        ("qqqq", "give a line of `groundsheet takeoff`"),
        ("Basins/finished volume/Nowhere", "error[unknown-name]"),
    ];
    for (name, hint) in unknown {
        let output = explain(name);
        assert_eq!(code(&output), 2, "{name}");
        assert!(printed(&output).is_empty(), "{name}");
        assert!(said(&output).contains(hint), "{name}:\n{}", said(&output));
        assert!(said(&output).contains(&format!("nothing is called \"{name}\"")));
    }
}

/// After a change of the tables: `GROUNDSHEET_ACCEPT=1 cargo test templates_are`, or
/// `cargo run -- template --units us -o templates/measurements-us.xlsx`, and metric.
#[test]
fn templates_are_as_groundsheet_template_writes_them_so_run_it_after_a_change() {
    let accept = std::env::var_os("GROUNDSHEET_ACCEPT").is_some_and(|value| value == "1");
    let templates = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
    let folder = TempDir::new().unwrap();
    let mut old = Vec::new();
    for units in ["us", "metric"] {
        let name = format!("measurements-{units}.xlsx");
        let out = folder.path().join(&name);
        let output = run(&["template", "--units", units, "-o", out.to_str().unwrap()]);
        assert_eq!(code(&output), 0);
        let (written, committed) = (fs::read(&out).unwrap(), templates.join(&name));
        if accept {
            fs::write(&committed, &written).unwrap();
        } else if fs::read(&committed).unwrap_or_default() != written {
            old.push(name);
        }
    }
    assert!(
        old.is_empty(),
        "{old:?} is not what the program writes: cargo run -- template --units us -o \
         templates/measurements-us.xlsx, and the same for metric"
    );
}

#[test]
fn a_blank_template_is_read_with_only_what_must_be_filled_in() {
    for units in ["us", "metric"] {
        let folder = TempDir::new().unwrap();
        let out = folder.path().join("blank.xlsx");
        let out = out.to_str().unwrap();
        run(&["template", "--units", units, "-o", out]);
        let check = run(&["check", out]);
        for line in printed(&check).lines().filter(|line| line.contains('[')) {
            assert!(line.starts_with("error[missing-value]"), "{line}");
        }
    }
}
