//! `template`: the blank measurement workbook.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::existing::Loss;
use super::refusal::Refusal;
use super::replacing::{Over, Replace, replace};
use super::{End, output};
use crate::units::System;
use crate::write;

/// What `template` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The workbook to write
    #[arg(short, long, value_name = "OUT.xlsx")]
    output: PathBuf,
    /// Units in its headings
    #[arg(long, value_enum, default_value_t = Units::Us)]
    units: Units,
    #[command(flatten)]
    replace: Replace,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Units {
    /// Feet, cubic yards, US gallons, short tons
    Us,
    /// Metres, cubic metres, tonnes
    Metric,
}

impl Arguments {
    pub(super) fn run(self) -> End {
        let system = match self.units {
            Units::Us => System::Us,
            Units::Metric => System::Metric,
        };
        let written = output::is_workbook(&self.output)
            .and_then(|()| write::template(system).map_err(|error| error.to_string()));
        let over = Over::Judged(Loss::Rows, self.replace);
        let put = written
            .map_err(Refusal::from)
            .and_then(|bytes| replace(&self.output, &bytes, over));
        match put {
            Ok(()) => End::Done,
            Err(refusal) => refusal.tell(&self.output),
        }
    }
}
