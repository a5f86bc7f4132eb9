//! The program: arguments in, files and text out, an exit code.
//!
//! Exit codes: 0 the work is done; 1 the job has problems that block; 2 the program
//! failed: wrong arguments, a file that cannot be written. A job with problems is not a
//! failure of the program.

mod client;
mod output;

use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};

use clap::{Parser, Subcommand, ValueEnum};

use crate::diagnostic::{self, Code, Diagnostic, Severity};
use crate::estimate::{Estimate, estimate};
use crate::job::{self, Job};
use crate::place::Place;
use crate::read;
use crate::units::System;
use crate::write::{self, records};

/// Quantity take-off and estimating for builders of lined ponds, rock waterfalls and
/// planted gravel filters.
#[derive(Debug, Parser)]
#[command(name = "groundsheet", version, about, after_help = EXIT_CODES)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

const EXIT_CODES: &str = "Exit codes: 0 done; 1 the job has problems that block; 2 the program failed.\n\
JOB is a workbook (xlsx, xlsm, xls, xlsb, ods), a CSV file, a folder of CSV files, or a folder with one workbook.";

#[derive(Debug, Subcommand)]
enum Command {
    /// Write a blank measurement workbook with guidance and drop-downs
    Template {
        /// The workbook to write
        #[arg(short, long, value_name = "OUT.xlsx")]
        output: PathBuf,
        /// Units in its headings
        #[arg(long, value_enum, default_value_t = Units::Us)]
        units: Units,
    },
    /// Report every problem, open point and caution of a job; write nothing
    Check {
        /// The job
        job: PathBuf,
        /// How to print
        #[arg(long, value_enum, default_value_t = Format::Text)]
        format: Format,
    },
    /// Print every quantity of a job
    Takeoff {
        /// The job
        job: PathBuf,
        /// How to print
        #[arg(long, value_enum, default_value_t = Format::Text)]
        format: Format,
    },
    /// Write the priced workbook of a job and print a summary
    Bid {
        /// The job
        job: PathBuf,
        /// The workbook to write; replaced whole if it is there
        #[arg(short, long, value_name = "OUT.xlsx")]
        output: PathBuf,
        /// A workbook for the client to write beside it: values only, without costs or notes
        #[arg(long, value_name = "CLIENT.xlsx")]
        client: Option<PathBuf>,
        /// How to print the summary
        #[arg(long, value_enum, default_value_t = Format::Text)]
        format: Format,
    },
    /// Follow one quantity or price back to cells and sources
    Explain {
        /// The job
        job: PathBuf,
        /// A line ("Dig: Main pool"), a figure ("bid", "surplus"), or "Table/column/row"
        reference: String,
        /// How many steps back it is followed
        #[arg(long, value_name = "STEPS", default_value_t = 4)]
        depth: usize,
    },
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Units {
    /// Feet, cubic yards, US gallons, short tons
    Us,
    /// Metres, cubic metres, tonnes
    Metric,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people
    Text,
    /// For programs
    Json,
    /// For spreadsheets
    Csv,
}

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum End {
    Done,
    ProblemsInJob,
    Failed,
}

/// Runs the program with the arguments of the process; gives the exit code.
#[must_use]
pub fn run() -> u8 {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            let failed = error.use_stderr();
            // A closed pipe is the reader's wish.
            let _ = error.print();
            return if failed { 2 } else { 0 };
        }
    };
    match arguments.command.run() {
        End::Done => 0,
        End::ProblemsInJob => 1,
        End::Failed => 2,
    }
}

impl Command {
    fn run(self) -> End {
        match self {
            Command::Template { output, units } => template(&output, units),
            Command::Check { job, format } => check(&job, format),
            Command::Takeoff { job, format } => take_off(&job, format),
            Command::Bid {
                job,
                output,
                client,
                format,
            } => bid(&job, &output, client.as_deref(), format),
            Command::Explain {
                job,
                reference,
                depth,
            } => explain(&job, &reference, depth),
        }
    }
}

/// Prints to standard output, and ends as said; a closed pipe is the reader's wish, a full
/// disk is a failure.
fn say(text: &str, end: End) -> End {
    let written = io::stdout().lock().write_all(harmless(text).as_bytes());
    let flushed = written.and_then(|()| io::stdout().lock().flush());
    match flushed {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => End::Failed,
        _ => end,
    }
}

/// Text without characters that would steer a terminal.
fn harmless(text: &str) -> String {
    let keep = |c: char| c == '\n' || c == '\t' || !c.is_control();
    text.chars()
        .map(|c| if keep(c) { c } else { '\u{FFFD}' })
        .collect()
}

/// Prints findings to standard error.
fn report(findings: &[Diagnostic]) {
    let _ = io::stderr()
        .lock()
        .write_all(harmless(&diagnostic::text(findings)).as_bytes());
}

fn template(output: &Path, units: Units) -> End {
    let system = match units {
        Units::Us => System::Us,
        Units::Metric => System::Metric,
    };
    let written = output::is_workbook(output)
        .and_then(|()| write::template(system).map_err(|error| error.to_string()));
    match written.and_then(|bytes| output::replace(output, &bytes)) {
        Ok(()) => End::Done,
        Err(what) => failed(output, what),
    }
}

fn failed(output: &Path, what: String) -> End {
    let place = Place::file(&output.to_string_lossy());
    report(&[Diagnostic::error(Code::NotWritable, place, what)
        .hint("choose a folder that is there and that you may write to")]);
    End::Failed
}

/// Reads and checks a job; everything found, and the job unless something blocks.
fn read_job(path: &Path) -> (Option<Job>, Vec<Diagnostic>) {
    match output::job_file(path).and_then(|path| read::open(&path)) {
        Ok((source, mut findings)) => {
            let checked = job::from_source(&source);
            findings.extend(checked.findings);
            (checked.job, findings)
        }
        Err(findings) => (None, findings),
    }
}

fn read_estimate(path: &Path) -> (Option<Estimate>, Vec<Diagnostic>) {
    let (job, findings) = read_job(path);
    (job.map(estimate), findings)
}

/// All findings of reading and of working out, the most serious first.
fn all(estimate: Option<&Estimate>, findings: &[Diagnostic]) -> Vec<Diagnostic> {
    let of_limits = estimate.iter().flat_map(|estimate| &estimate.findings);
    let mut all: Vec<Diagnostic> = findings.iter().chain(of_limits).cloned().collect();
    all.sort_by_key(|finding| finding.severity);
    all
}

fn check(path: &Path, format: Format) -> End {
    let (estimate, findings) = read_estimate(path);
    let found = all(estimate.as_ref(), &findings);
    let text = match format {
        Format::Text => check_text(&found),
        Format::Json => pretty(&diagnostic::json(&found)),
        Format::Csv => findings_csv(&found),
    };
    say(&text, ended(&found))
}

fn check_text(found: &[Diagnostic]) -> String {
    let count = |severity: Severity, word: &str| {
        let of_it = found.iter().filter(|finding| finding.severity == severity);
        match of_it.count() {
            1 => format!("1 {word}"),
            count => format!("{count} {word}s"),
        }
    };
    format!(
        "{}{}, {}, {}, {}\n",
        diagnostic::text(found),
        count(Severity::Error, "error"),
        count(Severity::Open, "open point"),
        count(Severity::Warning, "warning"),
        count(Severity::Caution, "caution")
    )
}

fn ended(found: &[Diagnostic]) -> End {
    if found.iter().any(Diagnostic::blocks) {
        End::ProblemsInJob
    } else {
        End::Done
    }
}

fn pretty(value: &serde_json::Value) -> String {
    format!("{value:#}\n")
}

#[derive(serde::Serialize)]
struct FindingRecord {
    severity: Severity,
    code: &'static str,
    place: String,
    message: String,
    hint: String,
}

fn findings_csv(found: &[Diagnostic]) -> String {
    let record = |finding: &Diagnostic| FindingRecord {
        severity: finding.severity,
        code: finding.code.name(),
        place: records::harmless(
            &finding
                .place
                .as_ref()
                .map(ToString::to_string)
                .unwrap_or_default(),
        ),
        message: records::harmless(&finding.message),
        hint: records::harmless(finding.hint.as_deref().unwrap_or_default()),
    };
    if found.is_empty() {
        // Without a record there is nothing that the headings could be taken from.
        return "severity,code,place,message,hint\n".to_owned();
    }
    records::csv(&found.iter().map(record).collect::<Vec<_>>()).unwrap_or_default()
}

fn take_off(path: &Path, format: Format) -> End {
    let (estimate, findings) = read_estimate(path);
    let found = all(estimate.as_ref(), &findings);
    report(&found);
    let Some(estimate) = estimate.filter(|estimate| !estimate.is_blocked()) else {
        return blocked(&found, format);
    };
    let text = match format {
        Format::Text => write::take_off(&estimate),
        other => lines(&estimate, other),
    };
    say(&text, End::Done)
}

/// A job that is blocked gives programs its findings, where they look for results.
fn blocked(found: &[Diagnostic], format: Format) -> End {
    let text = match format {
        Format::Text => String::new(),
        Format::Json => pretty(&diagnostic::json(found)),
        Format::Csv => findings_csv(found),
    };
    say(&text, End::ProblemsInJob)
}

fn lines(estimate: &Estimate, format: Format) -> String {
    let lines = records::lines(estimate);
    if format == Format::Csv {
        let lines: Vec<_> = lines.iter().map(records::harmless_line).collect();
        return records::csv(&lines).unwrap_or_default();
    }
    serde_json::to_value(lines)
        .map(|value| pretty(&value))
        .unwrap_or_default()
}

fn bid(path: &Path, output: &Path, client: Option<&Path>, format: Format) -> End {
    if let Some(clash) = client::overwrites(path, output, client) {
        report(&[clash]);
        return End::Failed;
    }
    for output in [output].into_iter().chain(client) {
        if let Err(what) = output::is_workbook(output) {
            return failed(output, what);
        }
    }
    let (estimate, findings) = read_estimate(path);
    let found = all(estimate.as_ref(), &findings);
    report(&found);
    let Some(estimate) = estimate.filter(|estimate| !estimate.is_blocked()) else {
        return blocked(&found, format);
    };
    let bar = progress_bar();
    let written = write::workbook(&estimate, &mut |done, of| {
        bar.set_length(of as u64);
        bar.set_position(done as u64);
    });
    bar.finish_and_clear();
    let written = written.map_err(|error| (output.to_owned(), error.to_string()));
    let of = (&estimate, &*findings);
    let put = written.and_then(|bytes| client::write_both((output, &bytes), client, of));
    if let Err((output, what)) = put {
        return failed(&output, what);
    }
    let text = match format {
        Format::Text => write::summary(&estimate),
        Format::Json => serde_json::to_value(records::bid(&estimate, &findings))
            .map(|value| pretty(&value))
            .unwrap_or_default(),
        Format::Csv => lines(&estimate, Format::Csv),
    };
    say(&text, End::Done)
}

/// A bar for a person who watches; hidden from files and pipes.
fn progress_bar() -> indicatif::ProgressBar {
    if io::stderr().is_terminal() {
        indicatif::ProgressBar::new(0)
    } else {
        indicatif::ProgressBar::hidden()
    }
}

fn explain(path: &Path, reference: &str, depth: usize) -> End {
    let (estimate, findings) = read_estimate(path);
    let found = all(estimate.as_ref(), &findings);
    let Some(estimate) = estimate else {
        report(&found);
        return End::ProblemsInJob;
    };
    if let Some(tree) = write::explain(&estimate, reference, depth) {
        return say(&tree, ended(&found));
    }
    let what = format!("nothing is called \"{reference}\"");
    let finding = Diagnostic::new(Severity::Error, Code::UnknownName, None, what);
    let names: Vec<String> = write::names(&estimate).collect();
    let near = job::nearest(reference, names.iter().map(String::as_str));
    report(&[match near {
        Some(near) => finding.hint(format!("did you mean \"{near}\"?")),
        None => finding.hint("give a line of `groundsheet takeoff`, or \"bid\", \"surplus\", \"Basins/finished volume/NAME\""),
    }]);
    End::Failed
}
