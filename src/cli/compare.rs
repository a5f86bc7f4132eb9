//! `compare`: the scenarios of a job side by side.

use std::path::PathBuf;

use clap::Args;

use super::printing::{json, report, say};
use super::reading::{Readings, unblocked};
use super::{End, Format};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::write;

/// What `compare` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job
    job: PathBuf,
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let (estimate, _) = match unblocked(&self.job, Readings::Once, self.format) {
            Ok(read) => read,
            Err(end) => return end,
        };
        if !estimate.has_scenarios() {
            let what = "this job has no scenarios: only the crew alone is shown";
            report(&[
                Diagnostic::new(Severity::Warning, Code::MissingValue, None, what)
                    .hint("fill in Partners, Scenarios and Shared work"),
            ]);
        }
        let comparison = write::comparison(&estimate);
        let text = match self.format {
            Format::Text => write::comparison_text(&comparison),
            Format::Json => json(&comparison),
            Format::Csv => write::comparison_csv(&comparison),
        };
        say(&text, End::Done)
    }
}
