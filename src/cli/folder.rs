//! Folders of results: replaced whole, and only where they hold nothing else.
//!
//! Always true: at no time does a folder hold files of two exports. A folder is taken for
//! an earlier export where every file in it is one that its own results name.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use super::output::folder_of;

/// The file with every result.
pub(super) const RESULTS: &str = "results.json";
/// The file that describes it.
pub(super) const SCHEMA: &str = "schema.json";

/// Whether a folder of results may be written there: it is not there yet, is empty, or
/// holds an earlier export and nothing else.
pub(super) fn may_be_replaced(folder: &Path) -> Result<(), String> {
    if fs::symlink_metadata(folder).is_err() {
        let parent = folder_of(folder);
        return if parent.is_dir() {
            Ok(())
        } else {
            Err(format!("the folder {} is not there", parent.display()))
        };
    }
    if !folder.is_dir() {
        return Err("this is not a folder, where a folder is to be written".to_owned());
    }
    let real = |path: &Path| fs::canonicalize(path).ok();
    if real(folder) == real(Path::new(".")) {
        return Err("this is the folder that the program runs in".to_owned());
    }
    let own = own_files(folder);
    let entries = fs::read_dir(folder).map_err(|error| cannot(&error))?;
    for entry in entries {
        let name = entry.map_err(|error| cannot(&error))?.file_name();
        let name = name.to_string_lossy();
        if !own.contains(&*name) {
            return Err(format!(
                "the folder holds {name}, which is no part of an export"
            ));
        }
    }
    Ok(())
}

/// The files that an earlier export says it wrote; none where there is no whole export.
fn own_files(folder: &Path) -> BTreeSet<String> {
    let results = fs::read(folder.join(RESULTS)).unwrap_or_default();
    let Ok(results) = serde_json::from_slice::<serde_json::Value>(&results) else {
        return BTreeSet::new();
    };
    let list = |value: &serde_json::Value, key: &str| -> Vec<serde_json::Value> {
        value[key].as_array().cloned().unwrap_or_default()
    };
    let pages = list(&results, "pages");
    let blocks = pages.iter().flat_map(|page| list(page, "blocks"));
    let named = blocks.filter_map(|block| block["file"].as_str().map(str::to_owned));
    named.chain([RESULTS, SCHEMA].map(str::to_owned)).collect()
}

/// Writes files into a new folder and puts it in the place of the old one: the old export
/// stays as it was until the new one is whole.
pub(super) fn replace(folder: &Path, files: &[(String, String)]) -> Result<(), String> {
    may_be_replaced(folder)?;
    let there = folder.is_dir();
    // A link stays a link: what it leads to is replaced.
    let target = if there {
        fs::canonicalize(folder).map_err(|error| cannot(&error))?
    } else {
        folder.to_owned()
    };
    let beside = folder_of(&target);
    let fresh = new_folder(beside).map_err(|error| cannot(&error))?;
    for (name, text) in files {
        fs::write(fresh.path().join(name), text).map_err(|error| cannot(&error))?;
    }
    let old = new_folder(beside).map_err(|error| cannot(&error))?;
    let kept = old.path().join("old");
    if there {
        let permissions = fs::metadata(&target).map_err(|error| cannot(&error))?;
        fs::set_permissions(fresh.path(), permissions.permissions())
            .map_err(|error| cannot(&error))?;
        fs::rename(&target, &kept).map_err(|error| cannot(&error))?;
    }
    if let Err(error) = fs::rename(fresh.path(), &target) {
        if there {
            fs::rename(&kept, &target).map_err(|error| cannot(&error))?;
        }
        return Err(cannot(&error));
    }
    // It is no longer where it was made, and is not to be removed.
    let _ = fresh.keep();
    Ok(())
}

/// The whole text of such an error would name a file that nobody asked for.
fn cannot(error: &std::io::Error) -> String {
    format!("the folder cannot be written: {}", error.kind())
}

/// A hidden folder beside the output, as readable as any new folder.
fn new_folder(beside: &Path) -> std::io::Result<tempfile::TempDir> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".groundsheet-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o777));
    }
    builder.tempdir_in(beside)
}
