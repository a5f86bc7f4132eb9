//! The client's copy beside the priced workbook: where it may go, and both written or none.

use std::fs;
use std::path::{Path, PathBuf};

use super::existing::Loss;
use super::output;
use super::refusal::Refusal;
use super::replacing::{Over, Ready, Replace, ready};
use crate::diagnostic::{Code, Diagnostic};
use crate::estimate::Estimate;
use crate::place::Place;
use crate::write;

/// A file, and what is wrong with writing it.
pub(super) type Failure = (PathBuf, Refusal);

/// Why an output may not be written where it is asked for: over the job, or one over the
/// other, by whatever path. A job that is priced in place is the output itself.
pub(super) fn overwrites(
    job: &Path,
    output: Option<&Path>,
    client: Option<&Path>,
) -> Option<Diagnostic> {
    let finding = |path: &Path, what: &str, option: &str| {
        let place = Place::file(&path.to_string_lossy());
        let finding = Diagnostic::error(Code::OutputIsInput, place, what);
        Some(finding.hint(format!("give another name after {option}")))
    };
    if let Some(output) = output.filter(|output| output::same_place(job, output)) {
        let what = "the output would overwrite the job itself";
        let finding = finding(output, what, "-o")?;
        return Some(finding.hint("give another name after -o, or price it again with --in-place"));
    }
    let client = client?;
    if output::same_place(job, client) {
        let what = "the client's copy would overwrite the job itself";
        return finding(client, what, "--client");
    }
    if output.is_some_and(|output| same_file(output, client)) {
        let what = "the client's copy would overwrite the priced workbook";
        return finding(client, what, "--client");
    }
    None
}

/// Whether two paths lead to one file, be it there or not.
fn same_file(one: &Path, other: &Path) -> bool {
    let real = |path: &Path| {
        fs::canonicalize(path).ok().or_else(|| {
            let folder = fs::canonicalize(output::folder_of(path)).ok()?;
            Some(folder.join(path.file_name()?))
        })
    };
    let (Some(one), Some(other)) = (real(one), real(other)) else {
        return one == other;
    };
    // Where upper and lower case name one file, names that differ in it only are the same.
    let ignores_case = cfg!(any(windows, target_os = "macos"));
    one == other
        || ignores_case
            && one.to_string_lossy().to_lowercase() == other.to_string_lossy().to_lowercase()
}

/// Writes the priced workbook and, where it is asked for, the client's copy of the same
/// estimate: both are ready on the disk before the first takes its name.
pub(super) fn write_both(
    (output, workbook, over): (&Path, &[u8], Over<'_>),
    client: Option<(&Path, Replace)>,
    (estimate, findings): (&Estimate, &[Diagnostic]),
) -> Result<(), Failure> {
    let at = |path: &Path| {
        let path = path.to_owned();
        move |refusal: Refusal| (path, refusal)
    };
    let first = ready(output, workbook, over).map_err(at(output))?;
    let Some((client, replace)) = client else {
        return first.map_or(Ok(()), Ready::put).map_err(at(output));
    };
    let copy = write::client_copy(estimate, findings);
    let copy =
        write::client_workbook(&copy).map_err(|error| at(client)(error.to_string().into()))?;
    let over = Over::Judged(Loss::Cells, replace);
    let second = ready(client, &copy, over).map_err(at(client))?;
    if let Some(second) = &second {
        second.is_unchanged().map_err(at(client))?;
    }
    first.map_or(Ok(()), Ready::put).map_err(at(output))?;
    second.map_or(Ok(()), Ready::put).map_err(at(client))
}
