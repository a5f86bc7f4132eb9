//! Parts of a finished workbook that are put right afterwards.
//!
//! Always true: every other part stays as it is, and the same parts give the same bytes.

use std::io::{Cursor, Read, Write};

use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{DateTime, ZipArchive, ZipWriter};

/// The file with those parts changed that are wanted by their names: `change` is given the
/// name and the text of each.
pub(super) fn changed(
    bytes: Vec<u8>,
    wanted: &dyn Fn(&str) -> bool,
    change: &dyn Fn(&str, &str) -> String,
) -> Result<Vec<u8>, ZipError> {
    let mut archive = ZipArchive::new(Cursor::new(bytes))?;
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for position in 0..archive.len() {
        let mut part = archive.by_index(position)?;
        if !wanted(part.name()) {
            writer.raw_copy_file(part)?;
            continue;
        }
        let name = part.name().to_owned();
        let mut xml = String::new();
        part.read_to_string(&mut xml)?;
        let options = SimpleFileOptions::default().last_modified_time(DateTime::default());
        writer.start_file(&*name, options)?;
        writer.write_all(change(&name, &xml).as_bytes())?;
    }
    Ok(writer.finish()?.into_inner())
}
