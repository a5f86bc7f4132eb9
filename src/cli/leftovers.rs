//! Hidden files and folders in which an output stands until it is whole.
//!
//! Always true: a run holds its own by a lock for as long as it is at work, and removes them
//! when it ends; what a killed run has left behind, a later run in the same folder removes.

use std::fs::{self, File};
use std::io;
use std::path::Path;

use tempfile::{Builder, NamedTempFile, TempDir};

const PREFIX: &str = ".groundsheet-";
/// Letters and digits that follow it.
const AT_RANDOM: usize = 6;

/// A hidden file in a folder, as readable as any new file.
pub(super) fn new_file(folder: &Path) -> io::Result<NamedTempFile> {
    clear(folder);
    loop {
        let file = builder(0o666).tempfile_in(folder)?;
        // Where files cannot be held, no run can hold what another has left, and none removes it.
        let _ = file.as_file().lock();
        // Another run may have taken it for left behind before it was held.
        if file.path().exists() {
            return Ok(file);
        }
    }
}

/// A hidden folder, held while it is filled.
pub(super) struct HeldFolder {
    /// The folder.
    pub(super) folder: TempDir,
    _held: Option<File>,
}

/// A hidden folder in another, as readable as any new folder.
pub(super) fn new_folder(beside: &Path) -> io::Result<HeldFolder> {
    clear(beside);
    loop {
        let folder = builder(0o777).tempdir_in(beside)?;
        let held = File::open(folder.path()).ok();
        if let Some(held) = &held {
            let _ = held.lock();
        }
        if folder.path().exists() {
            return Ok(HeldFolder {
                folder,
                _held: held,
            });
        }
    }
}

#[cfg(unix)]
fn builder(mode: u32) -> Builder<'static, 'static> {
    use std::os::unix::fs::PermissionsExt;
    let mut builder = Builder::new();
    builder.prefix(PREFIX).rand_bytes(AT_RANDOM);
    builder.permissions(fs::Permissions::from_mode(mode));
    builder
}

#[cfg(not(unix))]
fn builder(_: u32) -> Builder<'static, 'static> {
    let mut builder = Builder::new();
    builder.prefix(PREFIX).rand_bytes(AT_RANDOM);
    builder
}

/// Removes what killed runs have left in a folder: all that nobody holds.
fn clear(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries.filter_map(Result::ok) {
        let kind = entry.file_type();
        let Some(kind) = kind.ok().filter(|_| is_ours(&entry.file_name())) else {
            continue;
        };
        if !kind.is_file() && !kind.is_dir() {
            continue;
        }
        let path = entry.path();
        // It is held while it is removed, so that no run can begin to fill it.
        let Ok(left) = File::open(&path) else {
            continue;
        };
        if left.try_lock().is_ok() {
            // What cannot be removed stays for the next run.
            let _ = if kind.is_dir() {
                fs::remove_dir_all(&path)
            } else {
                fs::remove_file(&path)
            };
        }
    }
}

/// Whether a name is one that a run gives.
fn is_ours(name: &std::ffi::OsStr) -> bool {
    let random = name.to_str().and_then(|name| name.strip_prefix(PREFIX));
    random.is_some_and(|random| {
        random.len() == AT_RANDOM && random.bytes().all(|letter| letter.is_ascii_alphanumeric())
    })
}
