//! `check`: everything found about a job, and nothing written.

use std::path::PathBuf;

use clap::Args;

use super::printing::{json, say};
use super::reading::{ReadOnce, all, ended, findings_csv, read_estimate};
use super::{End, Format};
use crate::diagnostic::{self, Diagnostic, Severity};

/// What `check` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job
    job: PathBuf,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    reading: ReadOnce,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let (estimate, findings) = read_estimate(&self.job, self.reading.readings());
        let found = all(estimate.as_ref(), &findings);
        let text = match self.format {
            Format::Text => check_text(&found),
            Format::Json => json(&diagnostic::json(&found)),
            Format::Csv => findings_csv(&found),
        };
        say(&text, ended(&found))
    }
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
