//! Sample jobs and workbooks, read and worked out the way the program does it.

use std::io::Write;
use std::path::{Path, PathBuf};

use groundsheet::diagnostic;
use groundsheet::estimate::{Estimate, estimate};
use groundsheet::{job, read, write};

/// The sample jobs, each a folder of `sample-jobs`.
pub(crate) const SAMPLE_JOBS: &[&str] = &["school-pond", "lily-tank", "field-notes"];

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

/// A job at a path, worked out; every finding that blocks fails the test.
pub(crate) fn estimate_at(path: &Path) -> Estimate {
    let (source, _) =
        read::open(path).unwrap_or_else(|found| panic!("{}", diagnostic::text(&found)));
    let checked = job::from_source(&source);
    let Some(job) = checked.job else {
        panic!("{}", diagnostic::text(&checked.findings))
    };
    estimate(job)
}

/// The job that a workbook holds, worked out.
pub(crate) fn estimate_of_bytes(bytes: &[u8]) -> Estimate {
    let mut file = tempfile::Builder::new().suffix(".xlsx").tempfile().unwrap();
    file.write_all(bytes).unwrap();
    estimate_at(file.path())
}

/// The priced workbook of an estimate.
pub(crate) fn workbook_of(estimate: &Estimate) -> Vec<u8> {
    write::workbook(estimate, &mut |_, _| {}).unwrap()
}
