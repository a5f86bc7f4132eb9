//! `takeoff`: every quantity of a job.

use std::path::PathBuf;

use clap::Args;

use super::printing::{json, say};
use super::reading::{Readings, unblocked};
use super::{End, Format};
use crate::write::{self, records};

/// What `takeoff` takes.
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
        let text = match self.format {
            Format::Text => write::take_off(&estimate),
            Format::Json => json(&records::lines(&estimate)),
            Format::Csv => records::lines_csv(&estimate),
        };
        say(&text, End::Done)
    }
}
