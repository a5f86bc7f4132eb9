//! Sample jobs and workbooks, read and worked out the way the program does it.

use std::io::Write;
use std::path::{Path, PathBuf};

use groundsheet::diagnostic;
use groundsheet::estimate::{Estimate, estimate};
use groundsheet::{job, read, write};

/// The sample jobs, each a folder of `sample-jobs`.
pub(crate) const SAMPLE_JOBS: &[&str] = &[
    "school-pond",
    "school-pond-as-set",
    "lily-tank",
    "field-notes",
    "quick-pond",
    "quick-pond-detailed",
    "reed-bank",
];

/// The file or folder of a sample job.
pub(crate) fn sample_path(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("sample-jobs")
        .join(name);
    let workbook = ["xlsx", "ods"].map(|ending| folder.join(format!("{name}.{ending}")));
    workbook
        .into_iter()
        .find(|path| path.exists())
        .unwrap_or(folder)
}

/// A sample job, worked out.
pub(crate) fn sample_job(name: &str) -> Estimate {
    estimate_at(&sample_path(name))
}

/// A job at a path, worked out; every finding that blocks its reading fails the test.
pub(crate) fn estimate_at(path: &Path) -> Estimate {
    read_at(path).unwrap_or_else(|found| panic!("{found}"))
}

/// The job that a workbook holds, worked out.
pub(crate) fn estimate_of_bytes(bytes: &[u8]) -> Estimate {
    estimate_at(workbook_file(bytes).path())
}

/// The same where nothing blocks the bid; otherwise what is found.
pub(crate) fn estimated_from(bytes: &[u8]) -> Result<Estimate, String> {
    let estimate = read_at(workbook_file(bytes).path())?;
    if estimate.is_blocked() {
        return Err(diagnostic::text(&estimate.findings));
    }
    Ok(estimate)
}

fn workbook_file(bytes: &[u8]) -> tempfile::NamedTempFile {
    let mut file = tempfile::Builder::new().suffix(".xlsx").tempfile().unwrap();
    file.write_all(bytes).unwrap();
    file
}

fn read_at(path: &Path) -> Result<Estimate, String> {
    let (job_file, _) = read::open(path).map_err(|found| diagnostic::text(&found))?;
    let checked = job::from_file(&job_file);
    let job = checked
        .job
        .ok_or_else(|| diagnostic::text(&checked.findings))?;
    Ok(estimate(job))
}

/// The priced workbook of an estimate.
pub(crate) fn workbook_of(estimate: &Estimate) -> Vec<u8> {
    write::workbook(estimate, &mut |_, _| {}).unwrap()
}
