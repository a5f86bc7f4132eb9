//! How fast and how large `bid` is, against the least that any such program must do.
//!
//! *Ours* is the whole of `bid`: read the file, check the job, work it out, make the
//! workbook, write it to a file. The *floor* streams every cell of the same file and
//! replays the cells of our own workbook (words, numbers, formulas with their stored
//! results, formats, widths and heights) through the same writer in the same mode; it
//! computes nothing. Both run as child processes of this one, turn by turn, so that a
//! busy machine slows both, and each tells its own time and its own peak of memory.
//!
//! What is fair to the floor: the list of cells to replay is made before, by [`replay`],
//! and streamed from disk through a small buffer while it is written, so that it takes
//! no memory; reading it is counted in the time, and is a small part of it. The floor
//! leaves out charts, drop-downs and page set-up, which are few.
//!
//! `bid` reads the file a second time with an independent reader; what that costs is timed
//! beside it, as reading twice to reading once.
//!
//! A second table is of jobs of falls and little else. What is ours beyond the floor is
//! mostly reading, checking and working the job out, so that is timed alone too.
//!
//! A third table is of jobs with scenarios: the whole of `bid` with five of them in the
//! workbook, and how long the library takes to price twenty again after the terms of partners
//! have changed.
//!
//! `cargo bench` measures 100 to 100,000 rows, then falls, then
//! scenarios, then reading twice; `cargo bench -- 1000 10000` only those rows, `cargo bench -- falls` only falls,
//! `cargo bench -- scenarios` only scenarios, `cargo bench -- twice` only reading twice, and `cargo bench -- write 1000 job.xlsx` (or
//! `write falls`) keeps a made-up job.

mod job;
mod replay;

use std::error::Error;
use std::fs;
use std::hint::black_box;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use groundsheet::bid::scenarios;
use groundsheet::diagnostic::Diagnostic;
use groundsheet::estimate::{self, Estimate};
use groundsheet::graph::{Again, evaluate};
use groundsheet::job::tables::Partners;
use groundsheet::read::JobFile;
use groundsheet::tables::{Lines, Tasks};
use groundsheet::{job as jobs, read, write};

use job::Size;

type Outcome<T> = Result<T, Box<dyn Error>>;

const SIZES: [u32; 4] = [100, 1_000, 10_000, 100_000];
/// Falls and the courses of each.
const FALLS: (u32, u32) = (200, 20);
const OURS: &str = "ours";
const ESTIMATE: &str = "estimate";
const AGAIN: &str = "again";
const FLOOR: &str = "floor";
const READ_ONCE: &str = "read-once";
const READ_TWICE: &str = "read-twice";

fn main() -> Outcome<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words.as_slice() {
        [OURS, input, output] => report(|| ours(Path::new(input), Path::new(output))),
        [FLOOR, input, cells, output] => {
            report(|| floor(Path::new(input), Path::new(cells), Path::new(output)))
        }
        [AGAIN, input] => again(Path::new(input)),
        [READ_ONCE, input] => report(|| read_once(Path::new(input))),
        [READ_TWICE, input] => report(|| read_twice(Path::new(input)).map(drop)),
        [ESTIMATE, input] => report(|| estimated(Path::new(input)).map(drop)),
        ["write", size, output] => {
            let (falls, courses) = FALLS;
            let size = size
                .parse()
                .map_or(Size::falls(falls, courses), Size::whole);
            Ok(job::write(size, Path::new(output))?)
        }
        other => {
            let wanted: Vec<u32> = other.iter().filter_map(|word| word.parse().ok()).collect();
            let falls = other.contains(&"falls");
            let scenarios = other.contains(&"scenarios");
            let twice = other.contains(&"twice");
            let all = wanted.is_empty() && !falls && !scenarios && !twice;
            if all || !wanted.is_empty() {
                compare(if wanted.is_empty() { &SIZES } else { &wanted })?;
            }
            if all || falls {
                compare_falls()?;
            }
            if all || scenarios {
                compare_scenarios()?;
            }
            if all || twice {
                compare_readings()?;
            }
            Ok(())
        }
    }
}

/// The whole of `bid`.
fn ours(input: &Path, output: &Path) -> Outcome<()> {
    let estimate = estimated(input)?;
    let bytes = write::workbook(&estimate, &mut |_, _| {})?;
    fs::write(output, bytes)?;
    Ok(())
}

/// A job read, checked and worked out.
fn estimated(input: &Path) -> Outcome<Estimate> {
    let job_file = read_twice(input)?;
    let checked = jobs::from_file(&job_file);
    let job = checked
        .job
        .ok_or_else(|| groundsheet::diagnostic::text(&checked.findings))?;
    drop(job_file);
    let estimate = estimate::estimate(job);
    if estimate.is_blocked() {
        return Err(groundsheet::diagnostic::text(&estimate.findings).into());
    }
    Ok(estimate)
}

/// A job's file as `check` and `bid` read it.
fn read_twice(input: &Path) -> Outcome<JobFile> {
    let read = read::open_and_compare(input, &jobs::is_table);
    let (job_file, found) = read.map_err(|found| groundsheet::diagnostic::text(&found))?;
    if found.iter().any(Diagnostic::blocks) {
        return Err(groundsheet::diagnostic::text(&found).into());
    }
    Ok(job_file)
}

/// A job's file as the other commands read it.
fn read_once(input: &Path) -> Outcome<()> {
    let read = read::open(input).map_err(|found| groundsheet::diagnostic::text(&found))?;
    black_box(read);
    Ok(())
}

/// The least: every cell in, every cell out.
fn floor(input: &Path, cells: &Path, output: &Path) -> Outcome<()> {
    use calamine::{Reader, Xlsx, open_workbook};
    let mut book: Xlsx<_> = open_workbook(input)?;
    for name in book.sheet_names() {
        let mut sheet = book.worksheet_cells_reader(&name)?;
        while let Some(cell) = sheet.next_cell()? {
            black_box(cell);
        }
    }
    drop(book);
    replay::write(cells, output)
}

/// Seconds and kilobytes of one run.
#[derive(Clone, Copy)]
struct Cost {
    seconds: f64,
    kilobytes: Option<f64>,
}

impl Cost {
    fn least(self, other: Self) -> Self {
        let kilobytes = self.kilobytes.zip(other.kilobytes);
        Self {
            seconds: self.seconds.min(other.seconds),
            kilobytes: kilobytes.map(|(one, two)| one.min(two)),
        }
    }
}

/// In a child: does the work and prints what it cost.
fn report(work: impl FnOnce() -> Outcome<()>) -> Outcome<()> {
    let start = now();
    work()?;
    let seconds = start.elapsed().as_secs_f64();
    say(&format!("{seconds} {}\n", peak_kilobytes().unwrap_or(0)))
}

#[allow(clippy::disallowed_methods, reason = "a bench is about time")]
fn now() -> Instant {
    Instant::now()
}

/// Most memory that this process has held at once, where the system tells.
fn peak_kilobytes() -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

fn say(text: &str) -> Outcome<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes())?;
    out.flush()?;
    Ok(())
}

/// Runs one side in a process of its own.
fn run(side: &str, files: &[&Path]) -> Outcome<Cost> {
    let output = Command::new(std::env::current_exe()?)
        .arg(side)
        .args(files)
        .output()?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into());
    }
    let text = String::from_utf8(output.stdout)?;
    let (seconds, kilobytes) = text.trim().split_once(' ').ok_or("a run said nothing")?;
    let kilobytes: f64 = kilobytes.parse()?;
    Ok(Cost {
        seconds: seconds.parse()?,
        kilobytes: Some(kilobytes).filter(|peak| *peak > 0.0),
    })
}

/// Both sides of one size, and our estimate alone: the best of several turns.
struct Measured {
    ours: Cost,
    floor: Cost,
    estimate: Cost,
}

fn measure(size: Size, turns: u32, folder: &Path) -> Outcome<Measured> {
    let file = |name: &str| -> PathBuf { folder.join(format!("{name}.xlsx")) };
    let (input, output, copy) = (file("job"), file("bid"), file("floor"));
    let cells = folder.join("cells");
    job::write(size, &input)?;
    let mut ours = run(OURS, &[&input, &output])?;
    replay::prepare(&output, &cells)?;
    let mut floor = run(FLOOR, &[&input, &cells, &copy])?;
    let mut estimate = run(ESTIMATE, &[&input])?;
    same_cells(&cells, &copy)?;
    for _ in 1..turns {
        ours = ours.least(run(OURS, &[&input, &output])?);
        floor = floor.least(run(FLOOR, &[&input, &cells, &copy])?);
        estimate = estimate.least(run(ESTIMATE, &[&input])?);
    }
    Ok(Measured {
        ours,
        floor,
        estimate,
    })
}

/// Holds that the floor wrote as many cells, with as many words, as we did.
fn same_cells(cells: &Path, copy: &Path) -> Outcome<()> {
    let again = cells.with_extension("again");
    replay::prepare(copy, &again)?;
    if fs::metadata(cells)?.len() == fs::metadata(&again)?.len() {
        Ok(fs::remove_file(again)?)
    } else {
        Err("the floor did not write the same cells".into())
    }
}

fn compare(sizes: &[u32]) -> Outcome<()> {
    let folder = tempfile::tempdir()?;
    say(
        "   rows   seconds     floor  ratio |  memory MB     floor  ratio | estimate | 10 times the rows: ours, floor\n",
    )?;
    let mut before: Option<(u32, Measured)> = None;
    for &rows in sizes {
        let turns = match rows {
            0..=1_000 => 9,
            1_001..=10_000 => 5,
            _ => 3,
        };
        let measured = measure(Size::whole(rows), turns, folder.path())?;
        let fewer = before.filter(|(fewer, _)| fewer * 10 == rows);
        let growth = fewer.map_or("-".to_owned(), |(_, fewer)| {
            let times = |of: fn(&Measured) -> Cost| of(&measured).seconds / of(&fewer).seconds;
            format!("{:.1} {:.1}", times(|it| it.ours), times(|it| it.floor))
        });
        say(&format!("{rows:>7} {} | {growth}\n", figures(&measured)))?;
        before = Some((rows, measured));
    }
    Ok(())
}

fn compare_falls() -> Outcome<()> {
    let folder = tempfile::tempdir()?;
    let (falls, courses) = FALLS;
    say(&format!(
        "\n{falls} falls of {courses} courses\n          seconds     floor  ratio |  memory MB     floor  ratio | estimate | beyond the floor\n",
    ))?;
    let measured = measure(Size::falls(falls, courses), 9, folder.path())?;
    let beyond = measured.ours.seconds - measured.floor.seconds;
    say(&format!("        {} | {beyond:.4}\n", figures(&measured)))
}

/// Rows of the jobs with scenarios, and how many scenarios are in the workbook.
const WITH_SCENARIOS: ([u32; 2], u32) = ([1_000, 10_000], 5);
/// Rows of the job that is priced again, and how many scenarios it has.
const PRICED_AGAIN: (u32, u32) = (5_000, 20);

fn compare_scenarios() -> Outcome<()> {
    let folder = tempfile::tempdir()?;
    let (sizes, scenarios) = WITH_SCENARIOS;
    say(&format!(
        "\nwith {scenarios} scenarios\n   rows   seconds     floor  ratio |  memory MB     floor  ratio | estimate\n",
    ))?;
    for rows in sizes {
        let size = Size::whole(rows).with_scenarios(scenarios);
        let measured = measure(size, 5, folder.path())?;
        say(&format!("{rows:>7} {}\n", figures(&measured)))?;
    }
    let (rows, scenarios) = PRICED_AGAIN;
    let input = folder.path().join("again.xlsx");
    job::write(Size::whole(rows).with_scenarios(scenarios), &input)?;
    let output = Command::new(std::env::current_exe()?)
        .arg(AGAIN)
        .arg(&input)
        .output()?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into());
    }
    say(&format!(
        "\n{rows} rows under {scenarios} scenarios\n{}",
        String::from_utf8(output.stdout)?
    ))
}

/// What the cross-check costs: of files as people write them, and of the workbook that
/// we write of them, which has many pages that no job is read from.
fn compare_readings() -> Outcome<()> {
    let folder = tempfile::tempdir()?;
    say(
        "\nreading twice and once\n   rows | file      seconds      once  ratio |  memory MB      once  ratio\n",
    )?;
    for rows in [1_000, 10_000] {
        let (input, output) = (
            folder.path().join("job.xlsx"),
            folder.path().join("bid.xlsx"),
        );
        job::write(Size::whole(rows), &input)?;
        run(OURS, &[&input, &output])?;
        for (name, file) in [("measured", &input), ("priced", &output)] {
            let mut twice = run(READ_TWICE, &[file])?;
            let mut once = run(READ_ONCE, &[file])?;
            for _ in 1..9 {
                twice = twice.least(run(READ_TWICE, &[file])?);
                once = once.least(run(READ_ONCE, &[file])?);
            }
            say(&format!("{rows:>7} | {name:<8} {}\n", sides(twice, once)))?;
        }
    }
    Ok(())
}

/// In a child: prices all scenarios again, and says how long it took at best.
fn again(input: &Path) -> Outcome<()> {
    let estimate = estimated(input)?;
    let (graph, results) = (&estimate.graph, &estimate.results);
    let lines = estimate.rows::<Lines>();
    let tasks = estimate.rows::<Tasks>();
    let pace = graph.id(Partners::Pace);
    let partners = graph.rows(pace);
    let changes: Vec<_> = (0..partners)
        .map(|row| (pace.at(row), 50.0.into()))
        .collect();
    let ready = Again::toward(graph, results, &[graph.id(scenarios::BID)]);
    let terms = best(|| drop(black_box(ready.with(&changes))));
    let whole = best(|| drop(black_box(evaluate(graph))));
    say(&format!(
        "{lines} lines, {tasks} tasks: {:.1} ms after a change of every partner's pace; all of it worked out {:.1} ms, ratio {:.2}\n",
        terms * 1e3,
        whole * 1e3,
        terms / whole
    ))
}

/// The least seconds of several turns.
fn best(work: impl Fn()) -> f64 {
    let turn = || {
        let start = now();
        work();
        start.elapsed().as_secs_f64()
    };
    (0..9).map(|_| turn()).fold(f64::INFINITY, f64::min)
}

/// Seconds and memory of both sides, and the seconds of our estimate.
fn figures(measured: &Measured) -> String {
    let Measured {
        ours,
        floor,
        estimate,
    } = measured;
    format!("{} | {:>8.4}", sides(*ours, *floor), estimate.seconds)
}

/// Seconds and memory of two sides, with their ratios.
fn sides(ours: Cost, floor: Cost) -> String {
    let memory = match (ours.kilobytes, floor.kilobytes) {
        (Some(ours), Some(floor)) => format!(
            "{:>10.1} {:>9.1} {:>6.2}",
            ours / 1024.0,
            floor / 1024.0,
            ours / floor
        ),
        _ => format!("{:>10} {:>9} {:>6}", "n/a", "n/a", "n/a"),
    };
    format!(
        "{:>9.4} {:>9.4} {:>6.2} | {memory}",
        ours.seconds,
        floor.seconds,
        ours.seconds / floor.seconds,
    )
}
