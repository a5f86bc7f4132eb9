//! `bid`: the priced workbook of a job, and a summary.

use std::fs;
use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};

use clap::Args;

use super::existing::Loss;
use super::printing::{json, note, report, say};
use super::reading::{ReadOnce, is_standard_input, unblocked};
use super::refusal::Refusal;
use super::replacing::{Over, Replace, is_closed};
use super::{End, Format, client, output};
use crate::diagnostic::Diagnostic;
use crate::estimate::Estimate;
use crate::write::{self, records};

/// What `bid` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job
    job: PathBuf,
    /// The workbook to write; replaced whole if it is there and untouched
    #[arg(
        short,
        long,
        value_name = "OUT.xlsx",
        required_unless_present = "in_place"
    )]
    output: Option<PathBuf>,
    /// Price the job's own .xlsx workbook again where it is; as it was before it is kept beside, as NAME.before-1.xlsx
    #[arg(long, conflicts_with = "output")]
    in_place: bool,
    /// A workbook for the client to write beside it: values only, without costs or notes
    #[arg(long, value_name = "CLIENT.xlsx")]
    client: Option<PathBuf>,
    /// How to print the summary
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    replace: Replace,
    #[command(flatten)]
    reading: ReadOnce,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let client = self.client.as_deref();
        if let Some(clash) = client::overwrites(&self.job, self.output.as_deref(), client) {
            report(&[clash]);
            return End::Failed;
        }
        for output in self.output.as_deref().into_iter().chain(client) {
            if let Err(what) = output::is_workbook(output) {
                return Refusal::from(what).tell(output);
            }
        }
        let (output, before) = match self.target() {
            Ok(target) => target,
            Err((file, refusal)) => return refusal.tell(&file),
        };
        let (estimate, findings) = match unblocked(&self.job, self.reading.readings(), self.format)
        {
            Ok(read) => read,
            Err(end) => return end,
        };
        if let Err((file, refusal)) = self.put(&output, before.as_deref(), (&estimate, &findings)) {
            return refusal.tell(&file);
        }
        let text = match self.format {
            Format::Text => write::summary(&estimate),
            Format::Json => json(&records::bid(&estimate, &findings)),
            Format::Csv => records::lines_csv(&estimate),
        };
        say(&text, End::Done)
    }

    /// The workbook to write; of one that is priced in place, what it holds before it is read.
    fn target(&self) -> Result<(PathBuf, Option<Vec<u8>>), client::Failure> {
        if let Some(output) = &self.output {
            return Ok((output.clone(), None));
        }
        let file = output::job_file(&self.job).unwrap_or_else(|_| self.job.clone());
        let refused = |refusal| (file.clone(), refusal);
        in_place(&file).map_err(refused)?;
        // A job that cannot be read is told of where it is read.
        let before = fs::read(&file).unwrap_or_default();
        Ok((file, Some(before)))
    }

    /// Writes the workbook, and the client's copy.
    fn put(
        &self,
        output: &Path,
        before: Option<&[u8]>,
        of: (&Estimate, &[Diagnostic]),
    ) -> Result<(), client::Failure> {
        let bytes = workbook(of.0).map_err(|what| (output.to_owned(), what.into()))?;
        let over = match before {
            Some(before) => Over::Kept(before),
            None => Over::Judged(Loss::Cells, self.replace),
        };
        let client = self.client.as_deref().map(|client| (client, self.replace));
        client::write_both((output, &bytes, over), client, of)?;
        if before == Some(&*bytes) {
            note("nothing has changed: the workbook stays as it is\n");
        }
        Ok(())
    }
}

/// Whether a workbook can be priced in place: one of our own format, that no other program
/// has open. One that is not there is told of where it is read.
fn in_place(file: &Path) -> Result<(), Refusal> {
    let only = |what: &str, hint: &str| Err(Refusal::unwritable(what.to_owned(), hint));
    let is_ours = file
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("xlsx"));
    if is_standard_input(file) {
        let hint = "name the workbook, or write another with -o";
        return only("what comes from standard input has no place", hint);
    }
    if file.exists() && (file.is_dir() || !is_ours) {
        let hint = "write one with `groundsheet bid JOB -o OUT.xlsx`, go on in it, and price that one in place";
        return only("only an .xlsx workbook can be priced in place", hint);
    }
    let target = fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
    is_closed(file, &target)
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
