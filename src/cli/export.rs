//! `export`: every result of a job as files for programs.

use std::path::PathBuf;

use clap::Args;

use super::printing::{json, overwrites_the_job, say};
use super::reading::{Readings, unblocked};
use super::replacing::Replace;
use super::{End, Format, folder, output};
use crate::write::{self, pages};

/// What `export` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job
    job: PathBuf,
    /// The folder to write; an earlier export there is replaced whole
    #[arg(short, long, value_name = "FOLDER")]
    output: PathBuf,
    /// Also export the working sheets, every step of every rule
    #[arg(long)]
    working: bool,
    #[command(flatten)]
    replace: Replace,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        if output::is_folder_of(&self.job, &self.output) {
            return overwrites_the_job(
                &self.output,
                "the results would be written into the job's own folder",
                "give another folder after -o",
            );
        }
        if let Err(refusal) = folder::may_be_replaced(&self.output, self.replace) {
            return refusal.tell(&self.output);
        }
        let (estimate, findings) = match unblocked(&self.job, Readings::Once, Format::Text) {
            Ok(read) => read,
            Err(end) => return end,
        };
        let results = pages::export(&estimate, &findings, self.working);
        let mut files = pages::csv_files(&results);
        let tables = files.len();
        files.push((folder::RESULTS.to_owned(), json(&results)));
        files.push((folder::SCHEMA.to_owned(), json(&write::schema())));
        match folder::replace(&self.output, &files, self.replace) {
            Ok(()) => say(
                &format!("{tables} tables, {}, {}\n", folder::RESULTS, folder::SCHEMA),
                End::Done,
            ),
            Err(refusal) => refusal.tell(&self.output),
        }
    }
}
