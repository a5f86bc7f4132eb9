//! What the program prints: results to standard output, findings to standard error.
//!
//! Always true: nothing printed holds a character that would steer a terminal.

use std::io::{self, Write};
use std::path::Path;

use super::End;
use crate::diagnostic::{self, Code, Diagnostic};
use crate::place::Place;

/// Prints to standard output, and ends as said; a closed pipe is the reader's wish, a full
/// disk is a failure.
pub(super) fn say(text: &str, end: End) -> End {
    let written = io::stdout().lock().write_all(harmless(text).as_bytes());
    let flushed = written.and_then(|()| io::stdout().lock().flush());
    match flushed {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => End::Failed,
        _ => end,
    }
}

/// Text without characters that would steer a terminal.
fn harmless(text: &str) -> String {
    let keep = |c: char| c == '\n' || c == '\t' || !c.is_control();
    text.chars()
        .map(|c| if keep(c) { c } else { '\u{FFFD}' })
        .collect()
}

/// Prints findings to standard error.
pub(super) fn report(findings: &[Diagnostic]) {
    let _ = io::stderr()
        .lock()
        .write_all(harmless(&diagnostic::text(findings)).as_bytes());
}

/// Tells people of something that was done besides; programs read results only.
pub(super) fn note(text: &str) {
    let _ = io::stderr().lock().write_all(harmless(text).as_bytes());
}

/// Says that an output would overwrite the job.
pub(super) fn overwrites_the_job(output: &Path, what: &str, hint: &str) -> End {
    let place = Place::file(&output.to_string_lossy());
    report(&[Diagnostic::error(Code::OutputIsInput, place, what).hint(hint)]);
    End::Failed
}

/// A result as JSON for programs, indented for people who look at it.
pub(super) fn json(value: &impl serde::Serialize) -> String {
    serde_json::to_value(value)
        .map(|value| format!("{value:#}\n"))
        .unwrap_or_default()
}
