//! What is wrong with a job, where, and what to do about it.
//!
//! Always true: a diagnostic has a stable [`Code`], a place or a reason for having
//! none, what was found with what was expected, and usually a next step. Errors
//! block the bid; open points make it a draft; warnings and cautions are shown.
//!
//! Not here: finding the problems (`read`, `job`, `takeoff`).

mod codes;
mod meaning;
mod render;

pub use codes::Code;
pub use meaning::Meaning;
pub use render::{json, text};

use schemars::JsonSchema;
use serde::Serialize;

use crate::place::Place;
use crate::shown::visible;

/// How much a diagnostic matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Broken data: nothing is written until it is mended.
    Error,
    /// Unfinished data: the bid is written, marked DRAFT, with this point listed.
    Open,
    /// Something to look at; the figures stand.
    Warning,
    /// Work that can hurt someone: the usual caution.
    Caution,
}

/// One finding about a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "Finding")]
pub struct Diagnostic {
    /// How much it matters.
    pub severity: Severity,
    /// Stable name of the kind of finding.
    #[schemars(schema_with = "codes::schema")]
    pub code: Code,
    /// Where; `None` where it concerns the job as a whole.
    #[schemars(with = "Option<String>")]
    pub place: Option<Place>,
    /// What was found, and what was expected.
    pub message: String,
    /// What to do next.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hint: Option<String>,
}

impl Diagnostic {
    /// A finding of the given severity, without a hint.
    #[must_use]
    pub fn new(
        severity: Severity,
        code: Code,
        place: Option<Place>,
        message: impl Into<String>,
    ) -> Self {
        Self {
            severity,
            code,
            place,
            message: visible(&message.into()),
            hint: None,
        }
    }

    /// Broken data at a place.
    #[must_use]
    pub fn error(code: Code, place: Place, message: impl Into<String>) -> Self {
        Self::new(Severity::Error, code, Some(place), message)
    }

    /// Unfinished data at a place.
    #[must_use]
    pub fn open(code: Code, place: Place, message: impl Into<String>) -> Self {
        Self::new(Severity::Open, code, Some(place), message)
    }

    /// Something to look at.
    #[must_use]
    pub fn warning(code: Code, place: Place, message: impl Into<String>) -> Self {
        Self::new(Severity::Warning, code, Some(place), message)
    }

    /// The same finding with a next step.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(visible(&hint.into()));
        self
    }

    /// Whether this finding blocks the bid.
    #[must_use]
    pub fn blocks(&self) -> bool {
        self.severity == Severity::Error
    }
}
