//! `schema`: the JSON Schema of everything that the program prints as JSON.

use super::End;
use super::printing::{json, say};
use crate::write;

/// Prints the schema.
pub(super) fn run() -> End {
    say(&json(&write::schema()), End::Done)
}
