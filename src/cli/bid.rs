//! `bid`: the priced workbook of a job, and a summary.

use std::io::{self, IsTerminal};
use std::path::PathBuf;

use clap::Args;

use super::printing::{failed, json, report, say};
use super::reading::{ReadOnce, unblocked};
use super::{End, Format, client, output};
use crate::estimate::Estimate;
use crate::write::{self, records};

/// What `bid` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
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
    #[command(flatten)]
    reading: ReadOnce,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let client = self.client.as_deref();
        if let Some(clash) = client::overwrites(&self.job, &self.output, client) {
            report(&[clash]);
            return End::Failed;
        }
        for output in [&*self.output].into_iter().chain(client) {
            if let Err(what) = output::is_workbook(output) {
                return failed(output, what);
            }
        }
        let (estimate, findings) = match unblocked(&self.job, self.reading.readings(), self.format)
        {
            Ok(read) => read,
            Err(end) => return end,
        };
        let written = workbook(&estimate).map_err(|what| (self.output.clone(), what));
        let of = (&estimate, &*findings);
        let put = written.and_then(|bytes| client::write_both((&self.output, &bytes), client, of));
        if let Err((output, what)) = put {
            return failed(&output, what);
        }
        let text = match self.format {
            Format::Text => write::summary(&estimate),
            Format::Json => json(&records::bid(&estimate, &findings)),
            Format::Csv => records::lines_csv(&estimate),
        };
        say(&text, End::Done)
    }
}

/// The priced workbook, with a bar for a person who watches; hidden from files and pipes.
fn workbook(estimate: &Estimate) -> Result<Vec<u8>, String> {
    let bar = if io::stderr().is_terminal() {
        indicatif::ProgressBar::new(0)
    } else {
        indicatif::ProgressBar::hidden()
    };
    let written = write::workbook(estimate, &mut |done, of| {
        bar.set_length(of as u64);
        bar.set_position(done as u64);
    });
    bar.finish_and_clear();
    written.map_err(|error| error.to_string())
}
