//! `export`: every result of a job as files for programs.

use std::path::PathBuf;

use clap::Args;

use super::printing::{failed, json, overwrites_the_job, say};
use super::reading::{Readings, unblocked};
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
        if let Err(what) = folder::may_be_replaced(&self.output) {
            return failed(&self.output, what);
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
        match folder::replace(&self.output, &files) {
            Ok(()) => say(
                &format!("{tables} tables, {}, {}\n", folder::RESULTS, folder::SCHEMA),
                End::Done,
            ),
            Err(what) => failed(&self.output, what),
        }
    }
}
