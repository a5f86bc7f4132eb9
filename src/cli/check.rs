//! `check`: everything found about one job or several, and nothing written.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use clap::Args;
use rust_decimal::prelude::ToPrimitive;

use super::printing::{json, say};
use super::reading::{ReadOnce, all, ended, findings_csv, read_estimate};
use super::{End, Format};
use crate::diagnostic::{self, Diagnostic, Severity};
use crate::money;
use crate::write::records::{self, CheckedJob};

/// What `check` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job, or several: a table of them all comes last
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Open points count as problems too: ends with 1 unless every job is complete
    #[arg(long)]
    complete: bool,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    reading: ReadOnce,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let checked = self.jobs.iter().map(|job| self.check(job));
        let checked: Vec<CheckedJob> = checked.collect();
        let end = checked.iter().map(|job| self.ended(&job.findings)).max();
        let text = match (self.format, checked.as_slice()) {
            (Format::Text, [only]) => check_text(only),
            (Format::Json, [only]) => json(&diagnostic::json(&only.findings)),
            (Format::Csv, [only]) => findings_csv(&only.findings),
            (Format::Text, several) => several_text(several),
            (Format::Json, several) => json(&several),
            (Format::Csv, several) => several_csv(several),
        };
        say(&text, end.unwrap_or(End::Done))
    }

    fn check(&self, job: &Path) -> CheckedJob {
        let (estimate, findings) = read_estimate(job, self.reading.readings());
        let found = all(estimate.as_ref(), &findings);
        CheckedJob::new(&job.to_string_lossy(), estimate.as_ref(), &found)
    }

    /// How the check of a job ends.
    fn ended(&self, found: &[Diagnostic]) -> End {
        let is_open = |finding: &Diagnostic| finding.severity == Severity::Open;
        if self.complete && found.iter().any(is_open) {
            ended(found).max(End::ProblemsInJob)
        } else {
            ended(found)
        }
    }
}

fn check_text(job: &CheckedJob) -> String {
    let counted = |count: usize, word: &str| match count {
        1 => format!("1 {word}"),
        count => format!("{count} {word}s"),
    };
    format!(
        "{}{}, {}, {}, {}\n",
        diagnostic::text(&job.findings),
        counted(job.errors, "error"),
        counted(job.open_points, "open point"),
        counted(job.warnings, "warning"),
        counted(job.cautions, "caution")
    )
}

/// Letters of a job's name that the table of several shows: the last ones tell them apart.
const NAME: usize = 44;

/// What was found of each of several jobs, and a table of them all.
fn several_text(jobs: &[CheckedJob]) -> String {
    let mut out = String::new();
    for job in jobs {
        let _ = writeln!(out, "{}\n{}", job.job, check_text(job));
    }
    let names: Vec<String> = jobs.iter().map(|job| ending_of(&job.job)).collect();
    let widest = names.iter().map(|name| name.chars().count()).max();
    let width = widest.unwrap_or(0).max("Job".len());
    let _ = writeln!(
        out,
        "{:width$} {:>6} {:>6} {:>8} {:>8} {:>17}",
        "Job", "Errors", "Open", "Warnings", "Cautions", "Bid"
    );
    for (name, job) in names.iter().zip(jobs) {
        let bid = job.bid.and_then(|bid| bid.to_f64());
        let bid = bid.map_or("blocked".to_owned(), |bid| {
            format!("{}{}", job.currency, money::show(bid, 2))
        });
        let _ = writeln!(
            out,
            "{name:width$} {:>6} {:>6} {:>8} {:>8} {bid:>17}",
            job.errors, job.open_points, job.warnings, job.cautions
        );
    }
    out
}

/// The end of a long name.
fn ending_of(name: &str) -> String {
    let length = name.chars().count();
    if length <= NAME {
        return name.to_owned();
    }
    let end: String = name.chars().skip(length - NAME + 1).collect();
    format!("…{end}")
}

/// The table of several jobs for spreadsheets.
#[derive(serde::Serialize)]
struct Row {
    job: String,
    errors: usize,
    open_points: usize,
    warnings: usize,
    cautions: usize,
    bid: String,
    currency: String,
}

fn several_csv(jobs: &[CheckedJob]) -> String {
    let row = |job: &CheckedJob| Row {
        job: records::harmless(&job.job),
        errors: job.errors,
        open_points: job.open_points,
        warnings: job.warnings,
        cautions: job.cautions,
        bid: job.bid.map(|bid| bid.to_string()).unwrap_or_default(),
        currency: records::harmless(&job.currency),
    };
    records::csv(&jobs.iter().map(row).collect::<Vec<_>>()).unwrap_or_default()
}
