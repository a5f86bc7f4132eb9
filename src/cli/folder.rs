//! Folders of results: replaced whole, and only where they hold nothing else.
//!
//! Always true: at no time does a folder hold files of two exports. A folder is taken for
//! an earlier export where its own list names every file in it; where a file is no longer
//! what the list says, the folder is replaced only on demand, and kept beside.

use std::collections::BTreeMap;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::existing::office_lock;
use super::leftovers::new_folder;
use super::output::folder_of;
use super::printing::{json, note};
use super::refusal::Refusal;
use super::replacing::{Replace, before, kept_as, next_number};
use crate::write::fingerprint;

/// The file with every result.
pub(super) const RESULTS: &str = "results.json";
/// The file that describes it.
pub(super) const SCHEMA: &str = "schema.json";

/// The file that names every other file of an export with its hash.
const LIST: &str = "files.json";

/// Whether a folder of results may be written there: it is not there yet, is empty, or
/// holds an earlier export and nothing else. Says whether the old one must be kept.
pub(super) fn may_be_replaced(folder: &Path, option: Replace) -> Result<bool, Refusal> {
    if fs::symlink_metadata(folder).is_err() {
        let parent = folder_of(folder);
        return if parent.is_dir() {
            Ok(false)
        } else {
            Err(format!("the folder {} is not there", parent.display()).into())
        };
    }
    if !folder.is_dir() {
        return Err("this is not a folder, where a folder is to be written"
            .to_owned()
            .into());
    }
    let real = |path: &Path| fs::canonicalize(path).ok();
    if real(folder) == real(Path::new(".")) {
        return Err("this is the folder that the program runs in"
            .to_owned()
            .into());
    }
    let edited = edited(folder, &listed(folder))?;
    if edited.is_empty() || option.replace {
        return Ok(!edited.is_empty());
    }
    let kept = before(folder, next_number(folder));
    let what = format!(
        "this export was edited since groundsheet wrote it, and that would be lost: {}",
        edited.join(", ")
    );
    let hint = format!(
        "give another name, or add --replace: this folder is then kept as {}",
        kept.display()
    );
    Err(Refusal::not_replaced(what, hint))
}

/// The files of an earlier export that are no longer what was written; refused where there
/// are others beside them, or one of them is open.
fn edited(folder: &Path, listed: &BTreeMap<String, String>) -> Result<Vec<String>, Refusal> {
    let mut edited = Vec::new();
    for (name, hash) in listed {
        let file = folder.join(name);
        if let Some(lock) = office_lock(&file) {
            let what = format!("an office program has {name} open");
            let lock = lock.display();
            let hint = format!(
                "close it there and run the command again; if it is not open, delete {lock}"
            );
            return Err(Refusal::in_use(what, hint));
        }
        match fs::read(&file) {
            Ok(bytes) if fingerprint::hash_of_file(&bytes) != *hash => edited.push(name.clone()),
            // What was taken out is not lost once more.
            Err(error) if error.kind() != ErrorKind::NotFound => return Err(cannot(&error)),
            _ => {}
        }
    }
    for entry in fs::read_dir(folder).map_err(|error| cannot(&error))? {
        let name = entry.map_err(|error| cannot(&error))?.file_name();
        let name = name.to_string_lossy();
        if name != LIST && !listed.contains_key(&*name) {
            let what = format!("the folder holds {name}, which is no part of an export");
            return Err(Refusal::unwritable(
                what,
                "name a folder that is new or empty, or that holds an export and nothing else",
            ));
        }
    }
    Ok(edited)
}

/// The files that an earlier export says it wrote, each with its hash; none where there is
/// no whole export.
fn listed(folder: &Path) -> BTreeMap<String, String> {
    let list = fs::read(folder.join(LIST)).unwrap_or_default();
    serde_json::from_slice(&list).unwrap_or_default()
}

/// The list of these files.
fn list(files: &[(String, String)]) -> String {
    let hash = |text: &str| fingerprint::hash_of_file(text.as_bytes());
    let list = files.iter().map(|(name, text)| (name, hash(text)));
    json(&list.collect::<BTreeMap<_, _>>())
}

/// Writes files into a new folder and puts it in the place of the old one: the old export
/// stays as it was until the new one is whole.
pub(super) fn replace(
    folder: &Path,
    files: &[(String, String)],
    option: Replace,
) -> Result<(), Refusal> {
    let there = folder.is_dir();
    // A link stays a link: what it leads to is replaced.
    let target = if there {
        fs::canonicalize(folder).map_err(|error| cannot(&error))?
    } else {
        folder.to_owned()
    };
    let next = folder_of(&target);
    let fresh = new_folder(next).map_err(|error| cannot(&error))?;
    let list = [(LIST.to_owned(), list(files))];
    for (name, text) in files.iter().chain(&list) {
        let file = fresh.folder.path().join(name);
        fs::write(file, text).map_err(|error| cannot(&error))?;
    }
    let old = new_folder(next).map_err(|error| cannot(&error))?;
    let keep = may_be_replaced(folder, option)?;
    let aside = if keep {
        before(&target, next_number(&target))
    } else {
        old.folder.path().join("old")
    };
    if there {
        let permissions = fs::metadata(&target).map_err(|error| cannot(&error))?;
        fs::set_permissions(fresh.folder.path(), permissions.permissions())
            .map_err(|error| cannot(&error))?;
    }
    put(fresh.folder, &target, there.then_some(&*aside))?;
    if keep {
        note(&kept_as(&target, &aside));
    }
    Ok(())
}

/// Gives a folder its name, after what had it was put aside; that comes back where it fails.
fn put(fresh: tempfile::TempDir, target: &Path, aside: Option<&Path>) -> Result<(), Refusal> {
    if let Some(aside) = aside {
        fs::rename(target, aside).map_err(|error| cannot(&error))?;
    }
    if let Err(error) = fs::rename(fresh.path(), target) {
        if let Some(aside) = aside {
            fs::rename(aside, target).map_err(|error| cannot(&error))?;
        }
        return Err(cannot(&error));
    }
    // It is no longer where it was made, and is not to be removed.
    let _: PathBuf = fresh.keep();
    Ok(())
}

/// The whole text of such an error would name a file that nobody asked for.
fn cannot(error: &std::io::Error) -> Refusal {
    format!("the folder cannot be written: {}", error.kind()).into()
}
