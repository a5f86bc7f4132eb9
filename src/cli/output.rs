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

/// A file that is whole on the disk and only needs its name.
pub(super) struct Ready {
    file: tempfile::NamedTempFile,
    target: PathBuf,
}

impl Ready {
    /// Gives the file its name, in place of what had it.
    pub(super) fn put(self) -> Result<(), String> {
        let put = self.file.persist(&self.target);
        put.map(|_| ()).map_err(|error| fail(error.error))
    }
}

/// The whole text of such an error would name a file that nobody asked for.
#[allow(clippy::needless_pass_by_value, reason = "as map_err gives it")]
fn fail(error: std::io::Error) -> String {
    format!("the file cannot be written: {}", error.kind())
}

/// Replaces a file whole, or leaves it as it was.
pub(super) fn replace(output: &Path, bytes: &[u8]) -> Result<(), String> {
    ready(output, bytes)?.put()
}

/// Writes a file beside the output that can replace it whole. Only a regular file is ever
/// replaced, and it keeps who may read it.
pub(super) fn ready(output: &Path, bytes: &[u8]) -> Result<Ready, String> {
    let there = fs::metadata(output).ok();
    match &there {
        Some(file) if file.is_dir() => {
            return Err("this is a folder, where a file is to be written".to_owned());
        }
        Some(file) if !file.is_file() => return Err("the output is not a regular file".to_owned()),
        None if fs::symlink_metadata(output).is_ok() => {
            return Err("the output is a link that leads nowhere".to_owned());
        }
        _ => {}
    }
    // A link stays a link: what it leads to is replaced.
    let target = if there.is_some() {
        fs::canonicalize(output).map_err(fail)?
    } else {
        output.to_owned()
    };
    let folder = folder_of(&target);
    if !folder.is_dir() {
        return Err(format!("the folder {} is not there", folder.display()));
    }
    let mut file = new_file(folder).map_err(fail)?;
    file.write_all(bytes).map_err(fail)?;
    file.as_file().sync_all().map_err(fail)?;
    if let Some(there) = there {
        file.as_file()
            .set_permissions(there.permissions())
            .map_err(fail)?;
    }
    Ok(Ready { file, target })
}

/// A hidden file beside the output, as readable as any new file.
#[cfg(unix)]
fn new_file(folder: &Path) -> std::io::Result<tempfile::NamedTempFile> {
    use std::os::unix::fs::PermissionsExt;
    let readable = fs::Permissions::from_mode(0o666);
    tempfile::Builder::new()
        .prefix(".groundsheet-")
        .permissions(readable)
        .tempfile_in(folder)
}

/// A hidden file beside the output.
#[cfg(not(unix))]
fn new_file(folder: &Path) -> std::io::Result<tempfile::NamedTempFile> {
    tempfile::Builder::new()
        .prefix(".groundsheet-")
        .tempfile_in(folder)
}
