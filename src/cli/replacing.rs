//! Outputs that are replaced whole or not at all, and never unseen.
//!
//! Always true: a file that stands where an output goes stays as it was until the new one is
//! whole; what would be lost of it is told, and it is replaced only on demand and kept beside;
//! what has changed since this run has looked at it is not replaced at all.

use std::fs::{self, File, Metadata};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use tempfile::{NamedTempFile, PersistError};

use super::existing::{self, Loss};
use super::leftovers::new_file;
use super::output::folder_of;
use super::printing::note;
use super::refusal::Refusal;

/// The option of the commands that write.
#[derive(Clone, Copy, Debug, Args)]
pub(super) struct Replace {
    /// Replace an output that was edited since or is not of groundsheet; it is kept beside, as NAME.before-1
    #[arg(long)]
    pub(super) replace: bool,
}

/// What may become of a file that stands where an output goes.
#[derive(Clone, Copy, Debug)]
pub(super) enum Over<'b> {
    /// It is replaced where nothing would be lost, and else only if that is asked for.
    Judged(Loss, Replace),
    /// It holds this, is replaced, and is kept beside.
    Kept(&'b [u8]),
}

/// A file that is whole on the disk and only needs its name.
pub(super) struct Ready {
    file: NamedTempFile,
    target: PathBuf,
    /// What stood there when it was looked at.
    old: Option<Vec<u8>>,
    /// The copy of it to be kept.
    kept: Option<NamedTempFile>,
}

/// Writes a file beside the output that can replace it whole. Only a regular file is ever
/// replaced, and it keeps who may read it. Nothing is to be done where what is to be kept
/// is the same.
pub(super) fn ready(output: &Path, bytes: &[u8], over: Over<'_>) -> Result<Option<Ready>, Refusal> {
    let there = regular(output)?;
    // A link stays a link: what it leads to is replaced.
    let target = match &there {
        Some(_) => fs::canonicalize(output)?,
        None => output.to_owned(),
    };
    let folder = folder_of(&target);
    if !folder.is_dir() {
        let what = format!("the folder {} is not there", folder.display());
        return Err(what.into());
    }
    is_closed(output, &target)?;
    if let Over::Kept(old) = over
        && old == bytes
    {
        return Ok(None);
    }
    let (old, keep) = match over {
        Over::Kept(old) => (Some(old.to_vec()), true),
        Over::Judged(..) if there.is_none() => (None, false),
        Over::Judged(loss, replace) => {
            let old = fs::read(&target).map_err(|error| unseen(&error))?;
            let keep = may_be_replaced(&target, (&old, bytes), loss, replace)?;
            (Some(old), keep)
        }
    };
    let file = filled(folder, bytes, there.as_ref())?;
    let kept = match (&old, &there) {
        (Some(old), Some(there)) if keep => Some(kept(folder, old, there)?),
        _ => None,
    };
    Ok(Some(Ready {
        file,
        target,
        old,
        kept,
    }))
}

/// Replaces a file whole, or leaves it as it was.
pub(super) fn replace(output: &Path, bytes: &[u8], over: Over<'_>) -> Result<(), Refusal> {
    ready(output, bytes, over)?.map_or(Ok(()), Ready::put)
}

/// What is known of a file that can be replaced; nothing where there is none.
fn regular(output: &Path) -> Result<Option<Metadata>, Refusal> {
    let there = fs::metadata(output).ok();
    let what = match &there {
        Some(file) if file.is_dir() => "this is a folder, where a file is to be written",
        Some(file) if !file.is_file() => "the output is not a regular file",
        None if fs::symlink_metadata(output).is_ok() => "the output is a link that leads nowhere",
        _ => return Ok(there),
    };
    Err(what.to_owned().into())
}

/// No office program has the file open, by whichever of its names.
pub(super) fn is_closed(output: &Path, target: &Path) -> Result<(), Refusal> {
    let locks = [output, target].map(existing::office_lock);
    let Some(lock) = locks.into_iter().flatten().next() else {
        return Ok(());
    };
    let what = "an office program has this file open".to_owned();
    let hint = format!(
        "close it there and run the command again; if it is not open, delete {}",
        lock.display()
    );
    Err(Refusal::in_use(what, hint))
}

fn unseen(error: &std::io::Error) -> Refusal {
    let kind = error.kind();
    let what =
        format!("the file that is there cannot be read, to see whether it was edited: {kind}");
    let hint = "give another name, or make the file readable".to_owned();
    Refusal::not_replaced(what, hint)
}

/// Whether the old file must be kept beside; refused where something would be lost unasked.
fn may_be_replaced(
    target: &Path,
    (old, new): (&[u8], &[u8]),
    loss: Loss,
    option: Replace,
) -> Result<bool, Refusal> {
    let Some(what) = existing::lost(old, new, loss) else {
        return Ok(false);
    };
    if option.replace {
        return Ok(true);
    }
    let kept = before(target, next_number(target));
    let kept = kept.file_name().unwrap_or_default().to_string_lossy();
    let hint = format!("give another name, or add --replace: this file is then kept as {kept}");
    Err(Refusal::not_replaced(what, hint))
}

/// A hidden file in a folder with this content, which those may read who could read the old one.
fn filled(
    folder: &Path,
    bytes: &[u8],
    as_was: Option<&Metadata>,
) -> Result<NamedTempFile, Refusal> {
    let mut file = new_file(folder)?;
    file.write_all(bytes)?;
    if let Some(as_was) = as_was {
        file.as_file().set_permissions(as_was.permissions())?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

/// The copy to be kept, of the same age as the old file.
fn kept(folder: &Path, old: &[u8], there: &Metadata) -> Result<NamedTempFile, Refusal> {
    let file = filled(folder, old, Some(there))?;
    if let Ok(modified) = there.modified() {
        // The content matters, not its date.
        let _ = file.as_file().set_modified(modified);
    }
    Ok(file)
}

impl Ready {
    /// Whether what is replaced is still what was looked at.
    pub(super) fn is_unchanged(&self) -> Result<(), Refusal> {
        let now = match fs::read(&self.target) {
            Ok(now) => Some(now),
            Err(error) if error.kind() == ErrorKind::NotFound => None,
            Err(error) => return Err(error.into()),
        };
        if now == self.old {
            Ok(())
        } else {
            Err(Refusal::changed_meanwhile())
        }
    }

    /// Gives the file its name, in place of what had it, and says where that is kept.
    pub(super) fn put(self) -> Result<(), Refusal> {
        let _turn = self.old.as_ref().and_then(|_| turn(&self.target));
        self.is_unchanged()?;
        let kept = match self.kept {
            Some(kept) => Some(beside(kept, &self.target)?),
            None => None,
        };
        let put = match &self.old {
            Some(_) => self.file.persist(&self.target).map(drop),
            None => put_new(self.file, &self.target),
        };
        if let Err(error) = put {
            // Nothing was replaced: the copy is of no use.
            let _ = kept.map(fs::remove_file);
            return Err(match error.error.kind() {
                ErrorKind::AlreadyExists => Refusal::changed_meanwhile(),
                _ => error.error.into(),
            });
        }
        if let Some(kept) = kept {
            note(&kept_as(&self.target, &kept));
        }
        Ok(())
    }
}

/// What is told of a file or folder that was kept.
pub(super) fn kept_as(target: &Path, kept: &Path) -> String {
    let (target, kept) = (target.display(), kept.display());
    format!("{target} as it was before is kept as {kept}\n")
}

/// Gives a file a name that nothing has.
fn put_new(file: NamedTempFile, path: &Path) -> Result<(), PersistError> {
    let put = match file.persist_noclobber(path) {
        // Not every file system can do that in one step.
        Err(error) if error.error.kind() != ErrorKind::AlreadyExists && !path.exists() => {
            error.file.persist(path)
        }
        put => put,
    };
    put.map(drop)
}

/// One run after the other replaces a file: waits for those that are about to.
#[cfg(unix)]
fn turn(target: &Path) -> Option<File> {
    let file = File::open(target).ok()?;
    file.lock().ok()?;
    Some(file)
}

/// Where a file that is held cannot be replaced, no turn is taken.
#[cfg(not(unix))]
fn turn(_: &Path) -> Option<File> {
    None
}

/// Gives a copy the next free name beside a file, never that of an earlier copy.
fn beside(mut copy: NamedTempFile, target: &Path) -> Result<PathBuf, Refusal> {
    let mut number = next_number(target);
    loop {
        let path = before(target, number);
        match put_new(copy, &path) {
            Ok(()) => return Ok(path),
            Err(taken) if taken.error.kind() == ErrorKind::AlreadyExists => copy = taken.file,
            Err(error) => return Err(error.error.into()),
        }
        number += 1;
    }
}

/// The name of a copy kept beside a file or folder: `m.before-1.xlsx` of `m.xlsx`.
pub(super) fn before(target: &Path, number: u32) -> PathBuf {
    let (stem, ending) = parts_of_name(target);
    target.with_file_name(format!("{stem}.before-{number}{ending}"))
}

/// Whether a file is a copy that was kept beside another.
pub(super) fn is_kept(file: &Path) -> bool {
    let (stem, _) = parts_of_name(file);
    let number = stem.rsplit_once(".before-").map(|(_, number)| number);
    number.is_some_and(|number| number.parse::<u32>().is_ok())
}

/// The number after that of the last copy kept beside a file or folder.
pub(super) fn next_number(target: &Path) -> u32 {
    let (stem, ending) = parts_of_name(target);
    let start = format!("{stem}.before-");
    let number = |name: String| -> Option<u32> {
        let rest = name.strip_prefix(&start)?;
        rest.strip_suffix(&ending)?.parse().ok()
    };
    let names = fs::read_dir(folder_of(target)).into_iter().flatten();
    let names = names.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
    names
        .filter_map(number)
        .max()
        .map_or(1, |last| last.saturating_add(1))
}

/// The name of a file up to its ending, and the ending with its dot; a folder has none.
fn parts_of_name(target: &Path) -> (String, String) {
    let name =
        |part: Option<&std::ffi::OsStr>| part.unwrap_or_default().to_string_lossy().into_owned();
    match target.extension() {
        Some(ending) if !target.is_dir() => (
            name(target.file_stem()),
            format!(".{}", ending.to_string_lossy()),
        ),
        _ => (name(target.file_name()), String::new()),
    }
}
