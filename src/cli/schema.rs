//! `schema`: the JSON Schema of everything that the program prints as JSON.

use clap::Args;

use super::End;
use super::printing::{json, say};
use crate::write;

/// What `schema` takes: nothing.
#[derive(Debug, Args)]
pub(super) struct Arguments {}

impl Arguments {
    pub(super) fn run(self) -> End {
        say(&json(&write::schema()), End::Done)
    }
}
