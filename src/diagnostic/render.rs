//! Findings as text for people and as JSON for programs.

use std::fmt::Write;

use super::{Diagnostic, Severity};

/// Findings as text, one block each, in the order given.
#[must_use]
pub fn text(findings: &[Diagnostic]) -> String {
    let mut out = String::new();
    for finding in findings {
        let word = match finding.severity {
            Severity::Error => "error",
            Severity::Open => "open",
            Severity::Warning => "warning",
            Severity::Caution => "caution",
        };
        let _ = writeln!(out, "{word}[{}]: {}", finding.code.name(), finding.message);
        if let Some(place) = &finding.place {
            let _ = writeln!(out, "  --> {place}");
        }
        if let Some(hint) = &finding.hint {
            let _ = writeln!(out, "  hint: {hint}");
        }
    }
    out
}

/// Findings as a JSON array.
#[must_use]
pub fn json(findings: &[Diagnostic]) -> serde_json::Value {
    serde_json::to_value(findings).unwrap_or(serde_json::Value::Null)
}
