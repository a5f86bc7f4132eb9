//! The JSON Schema of everything that the program prints or writes as JSON.
//!
//! Always true: it comes from the records themselves, so that a field which is added is
//! described by the words beside it.

use schemars::generate::SchemaSettings;
use schemars::{Schema, SchemaGenerator, json_schema};

use super::comparison::Comparison;
use super::explain::ExplainedRecord;
use super::pages::ExportRecord;
use super::records::{BidRecord, CheckedJob, LineRecord};
use crate::diagnostic::Diagnostic;

/// What the schema is for, before its definitions.
const ABOUT: &str = "Results of groundsheet. The document itself is the file results.json of `groundsheet export`. Other results have definitions of their own: `takeoff --format json` is #/$defs/TakeOff, `check --format json` is #/$defs/Check, or #/$defs/Checks of several jobs, `bid --format json` is #/$defs/Bid, `compare --format json` is #/$defs/Comparison, `explain --format json` is #/$defs/Explain. A job with problems that block gives #/$defs/Check in each case, and exit code 1. Money is decimal text in the currency that the bid names; quantities are numbers in the unit beside them; days are year-month-day; what is blank is null.";

/// The JSON Schema of every JSON result: of `results.json` as a whole, and of what each
/// command prints among its definitions.
#[must_use]
pub fn schema() -> serde_json::Value {
    let mut generator = SchemaSettings::draft2020_12()
        .for_serialize()
        .into_generator();
    generator.subschema_for::<ExportRecord>();
    generator.subschema_for::<BidRecord>();
    generator.subschema_for::<Comparison>();
    let take_off = list::<LineRecord>(
        &mut generator,
        "What `groundsheet takeoff --format json` prints: every line.",
    );
    let check = list::<Diagnostic>(
        &mut generator,
        "What `groundsheet check --format json` prints, and every command for a job with problems that block: everything found.",
    );
    let checks = list::<CheckedJob>(
        &mut generator,
        "What `groundsheet check --format json` prints of several jobs: one after the other.",
    );
    let explain = list::<ExplainedRecord>(
        &mut generator,
        "What `groundsheet explain --format json` prints: the tree of a figure; of a line those of its quantity, direct cost and amount.",
    );
    let mut definitions = generator.take_definitions(true);
    definitions.insert("TakeOff".to_owned(), take_off.into());
    definitions.insert("Check".to_owned(), check.into());
    definitions.insert("Checks".to_owned(), checks.into());
    definitions.insert("Explain".to_owned(), explain.into());
    serde_json::json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "groundsheet results",
        "description": ABOUT,
        "$ref": "#/$defs/Export",
        "$defs": definitions,
    })
}

fn list<T: schemars::JsonSchema>(generator: &mut SchemaGenerator, about: &str) -> Schema {
    let item = generator.subschema_for::<T>();
    json_schema!({ "description": about, "type": "array", "items": item })
}
