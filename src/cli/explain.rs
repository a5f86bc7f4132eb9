//! `explain`: one quantity or price, followed back to cells and sources.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::End;
use super::printing::{json, report, say};
use super::reading::{Readings, all, ended, read_estimate};
use crate::diagnostic::{self, Code, Diagnostic, Severity};
use crate::estimate::Estimate;
use crate::{job, write};

/// What `explain` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The job
    job: PathBuf,
    /// A line ("Dig: Main pool"), a figure ("bid", "surplus"), or "Table/column/row"
    reference: String,
    /// How many steps back it is followed
    #[arg(long, value_name = "STEPS", default_value_t = 4)]
    depth: usize,
    /// How to print
    #[arg(long, value_enum, default_value_t = Form::Text)]
    format: Form,
}

/// How a tree is printed: it is no table, so that there is no CSV of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Form {
    /// For people
    Text,
    /// For programs
    Json,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let (estimate, findings) = read_estimate(&self.job, Readings::Once);
        let found = all(estimate.as_ref(), &findings);
        let Some(estimate) = estimate else {
            report(&found);
            let text = match self.format {
                Form::Text => String::new(),
                Form::Json => json(&diagnostic::json(&found)),
            };
            return say(&text, ended(&found));
        };
        let (name, depth) = (&self.reference, self.depth);
        let tree = match self.format {
            Form::Text => write::explain(&estimate, name, depth),
            Form::Json => write::explained(&estimate, name, depth).map(|trees| json(&trees)),
        };
        match tree {
            Some(tree) => say(&tree, ended(&found)),
            None => unknown(&estimate, &self.reference),
        }
    }
}

/// Says that nothing has this name, and what was perhaps meant.
fn unknown(estimate: &Estimate, reference: &str) -> End {
    let what = format!("nothing is called \"{reference}\"");
    let finding = Diagnostic::new(Severity::Error, Code::UnknownName, None, what);
    let names: Vec<String> = write::names(estimate).collect();
    let near = job::nearest(reference, names.iter().map(String::as_str));
    report(&[match near {
        Some(near) => finding.hint(format!("did you mean \"{near}\"?")),
        None => finding.hint("give a line of `groundsheet takeoff`, or \"bid\", \"surplus\", \"Basins/finished volume/NAME\""),
    }]);
    End::Failed
}
