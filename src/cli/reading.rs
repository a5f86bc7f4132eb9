//! From the path of a job to its estimate, with everything found on the way.

use std::io::{self, Read};
use std::path::Path;

use clap::Args;

use super::printing::{json, report, say};
use super::{End, Format, output};
use crate::diagnostic::{self, Code, Diagnostic, Severity};
use crate::estimate::{Estimate, estimate};
use crate::place::Place;
use crate::read::JobFile;
use crate::write::records;
use crate::{job, read};

/// How often the workbook of a job is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Readings {
    /// By our reader alone.
    Once,
    /// Where that is safe, by an independent reader too, and cell by cell compared.
    Twice,
}

/// The option of the commands that read the workbook of a job twice.
#[derive(Clone, Copy, Debug, Args)]
pub(super) struct ReadOnce {
    /// Read the workbook once, without the cross-check by an independent reader (which only check and bid make)
    #[arg(long)]
    read_once: bool,
}

impl ReadOnce {
    pub(super) fn readings(self) -> Readings {
        if self.read_once {
            Readings::Once
        } else {
            Readings::Twice
        }
    }
}

/// A job worked out, and what reading it found; without an estimate something blocks it.
pub(super) fn read_estimate(
    path: &Path,
    readings: Readings,
) -> (Option<Estimate>, Vec<Diagnostic>) {
    match opened(path, readings) {
        Ok((job_file, mut findings)) => {
            let checked = job::from_file(&job_file);
            let sure = !findings.iter().any(Diagnostic::blocks);
            findings.extend(checked.findings);
            (checked.job.filter(|_| sure).map(estimate), findings)
        }
        Err(findings) => (None, findings),
    }
}

/// Whether a job is what comes from standard input.
pub(super) fn is_standard_input(job: &Path) -> bool {
    job == Path::new("-")
}

fn opened(job: &Path, readings: Readings) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    if is_standard_input(job) {
        return from_standard_input(readings);
    }
    let file = output::job_file(job)?;
    match readings {
        Readings::Once => read::open(&file),
        Readings::Twice => read::open_and_compare(&file, &job::is_table),
    }
}

/// A workbook from standard input. A job in CSV files is several tables, so that one text
/// is none.
fn from_standard_input(readings: Readings) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    const NAME: &str = "standard input";
    let refused = |code: Code, what: String| {
        let finding = Diagnostic::error(code, Place::file(NAME), what);
        Err(vec![finding.hint(
            "a job of - is a workbook; name the folder of a job in CSV files",
        )])
    };
    let mut bytes = Vec::new();
    let most = read::limits::FILE_BYTES;
    if let Err(error) = io::stdin().lock().take(most + 1).read_to_end(&mut bytes) {
        let what = format!("standard input cannot be read: {}", error.kind());
        return refused(Code::CannotOpen, what);
    }
    if bytes.len() as u64 > most {
        let what = format!("standard input gives more than {} MB", most >> 20);
        return refused(Code::TooLarge, what);
    }
    if !bytes.is_empty() && !read::is_workbook(&bytes) {
        return refused(Code::NotReadable, "this is not a workbook".to_owned());
    }
    match readings {
        Readings::Once => read::workbook(NAME, &bytes, None),
        Readings::Twice => read::workbook(NAME, &bytes, Some(&job::is_table)),
    }
}

/// An estimate that nothing blocks, with what reading its job found. Everything found is
/// printed; a job that is blocked ends the run, and gives programs its findings where they
/// look for results.
pub(super) fn unblocked(
    path: &Path,
    readings: Readings,
    format: Format,
) -> Result<(Estimate, Vec<Diagnostic>), End> {
    let (estimate, findings) = read_estimate(path, readings);
    let found = all(estimate.as_ref(), &findings);
    report(&found);
    match estimate.filter(|estimate| !estimate.is_blocked()) {
        Some(estimate) => Ok((estimate, findings)),
        None => Err(blocked(&found, format)),
    }
}

/// All findings of reading and of working out, the most serious first.
pub(super) fn all(estimate: Option<&Estimate>, findings: &[Diagnostic]) -> Vec<Diagnostic> {
    let of_limits = estimate.iter().flat_map(|estimate| &estimate.findings);
    let mut all: Vec<Diagnostic> = findings.iter().chain(of_limits).cloned().collect();
    all.sort_by_key(|finding| finding.severity);
    all
}

/// How a run ends that found this much. A job that is not there is no problem in a job.
pub(super) fn ended(found: &[Diagnostic]) -> End {
    if found.iter().any(|finding| finding.code == Code::CannotOpen) {
        End::Failed
    } else if found.iter().any(Diagnostic::blocks) {
        End::ProblemsInJob
    } else {
        End::Done
    }
}

fn blocked(found: &[Diagnostic], format: Format) -> End {
    let text = match format {
        Format::Text => String::new(),
        Format::Json => json(&diagnostic::json(found)),
        Format::Csv => findings_csv(found),
    };
    say(&text, ended(found))
}

#[derive(serde::Serialize)]
struct FindingRecord {
    severity: Severity,
    code: &'static str,
    place: String,
    message: String,
    hint: String,
}

/// Findings as CSV; the heading line alone where there are none.
pub(super) fn findings_csv(found: &[Diagnostic]) -> String {
    let record = |finding: &Diagnostic| FindingRecord {
        severity: finding.severity,
        code: finding.code.name(),
        place: records::harmless(
            &finding
                .place
                .as_ref()
                .map(ToString::to_string)
                .unwrap_or_default(),
        ),
        message: records::harmless(&finding.message),
        hint: records::harmless(finding.hint.as_deref().unwrap_or_default()),
    };
    if found.is_empty() {
        // Without a record there is nothing that the headings could be taken from.
        return "severity,code,place,message,hint\n".to_owned();
    }
    records::csv(&found.iter().map(record).collect::<Vec<_>>()).unwrap_or_default()
}
