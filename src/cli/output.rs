//! Files of the program: which file a job is, and where an output may go.

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

use super::replacing::is_kept;
use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;

const WORKBOOKS: &[&str] = &["xlsx", "xlsm", "xls", "xlsb", "ods"];

/// The file of a job: the path itself, or the only workbook of a folder without CSV files;
/// copies kept beside a workbook do not count.
pub(super) fn job_file(path: &Path) -> Result<PathBuf, Vec<Diagnostic>> {
    if !path.is_dir() {
        return Ok(path.to_owned());
    }
    let listed = fs::read_dir(path).map(|entries| {
        entries
            .filter_map(Result::ok)
            .map(|entry| entry.path())
            .collect()
    });
    let mut files: Vec<PathBuf> = listed.unwrap_or_default();
    files.sort();
    let has = |file: &Path, endings: &[&str]| {
        let hidden = file
            .file_name()
            .and_then(OsStr::to_str)
            .is_some_and(|name| name.starts_with(['.', '~']));
        let ending = file
            .extension()
            .and_then(OsStr::to_str)
            .map(str::to_lowercase);
        !hidden && ending.is_some_and(|ending| endings.contains(&ending.as_str()))
    };
    let workbooks: Vec<&PathBuf> = files
        .iter()
        .filter(|file| has(file, WORKBOOKS) && !is_kept(file))
        .collect();
    match workbooks.as_slice() {
        _ if files.iter().any(|file| has(file, &["csv"])) => Ok(path.to_owned()),
        [] => Ok(path.to_owned()),
        [only] => Ok((*only).clone()),
        _ => {
            let what = format!(
                "the folder holds {} workbooks, and a job is one",
                workbooks.len()
            );
            let place = Place::file(&path.to_string_lossy());
            Err(vec![
                Diagnostic::error(Code::CannotOpen, place, what).hint("name the workbook itself"),
            ])
        }
    }
}

/// Whether writing to `output` would overwrite the job, or put a file among its CSV files.
pub(super) fn same_place(job: &Path, output: &Path) -> bool {
    let real = |path: &Path| fs::canonicalize(path).ok();
    let file = job_file(job).unwrap_or_else(|_| job.to_owned());
    if let Some(output) = real(output)
        && [real(job), real(&file)].contains(&Some(output))
    {
        return true;
    }
    let is_csv = output
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    is_csv && real(folder_of(output)).is_some_and(|folder| real(job) == Some(folder))
}

/// Whether a folder is the one that a job stands in, or is the job itself.
pub(super) fn is_folder_of(job: &Path, folder: &Path) -> bool {
    let real = |path: &Path| fs::canonicalize(path).ok();
    let Some(folder) = real(folder) else {
        return false;
    };
    let file = job_file(job).unwrap_or_else(|_| job.to_owned());
    let holds = |path: &Path| path.parent() == Some(&*folder);
    [real(job), real(&file)]
        .iter()
        .flatten()
        .any(|path| *path == folder || holds(path))
}

/// An output is an xlsx workbook, and is named like one. A folder is for `replace` to refuse.
pub(super) fn is_workbook(output: &Path) -> Result<(), String> {
    match output.extension() {
        _ if output.is_dir() => Ok(()),
        Some(ending) if ending.eq_ignore_ascii_case("xlsx") => Ok(()),
        _ => Err("the output is a workbook, and its name must end in .xlsx".to_owned()),
    }
}

pub(super) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}
