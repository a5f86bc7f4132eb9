//! Files of the program: which file a job is, and outputs that are replaced whole.

use std::ffi::OsStr;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;

const WORKBOOKS: &[&str] = &["xlsx", "xlsm", "xls", "xlsb", "ods"];

/// The file of a job: the path itself, or the only workbook of a folder without CSV files.
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
    let workbooks: Vec<&PathBuf> = files.iter().filter(|file| has(file, WORKBOOKS)).collect();
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
                Diagnostic::error(Code::NotReadable, place, what).hint("name the workbook itself"),
            ])
        }
    }
}

/// Whether writing to `output` would overwrite the job, or a file of its folder of CSV files.
pub(super) fn same_place(job: &Path, output: &Path) -> bool {
    let real = |path: &Path| fs::canonicalize(path).ok();
    let Some(output) = real(output) else {
        return false;
    };
    let file = job_file(job).unwrap_or_else(|_| job.to_owned());
    if [real(job), real(&file)].contains(&Some(output.clone())) {
        return true;
    }
    let is_csv = output
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    is_csv && real(job).is_some_and(|job| output.parent() == Some(&job))
}

/// Replaces a file whole, or leaves it as it was.
pub(super) fn replace(output: &Path, bytes: &[u8]) -> Result<(), String> {
    let folder = match output.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    // The whole text of such an error would name a file that nobody asked for.
    let fail = |error: std::io::Error| format!("the file cannot be written: {}", error.kind());
    if output.is_dir() {
        return Err("this is a folder, where a file is to be written".to_owned());
    }
    if !folder.is_dir() {
        let folder = folder.display();
        return Err(format!("the folder {folder} is not there"));
    }
    let mut file = tempfile::Builder::new()
        .prefix(".groundsheet-")
        .tempfile_in(folder)
        .map_err(fail)?;
    file.write_all(bytes).map_err(fail)?;
    file.as_file().sync_all().map_err(fail)?;
    let file = file.persist(output).map_err(|error| fail(error.error))?;
    open_to_others(&file).map_err(fail)
}

/// Temporary files are private; an output is as readable as any new file.
#[cfg(unix)]
fn open_to_others(file: &fs::File) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn open_to_others(_file: &fs::File) -> std::io::Result<()> {
    Ok(())
}
