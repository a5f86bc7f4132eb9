//! Reads the user's files: a workbook, a `.csv` file or a folder of them, as sparse sheets;
//! or the same tables from texts in memory.
//!
//! Always true:
//! - every cell knows its row and column, and every sheet its place;
//! - what a cell holds is what the file stores: nothing is calculated or trimmed,
//!   except that `.csv` fields lose the blanks around them;
//! - the [`limits`] hold for every format, and a broken or hostile file gives a
//!   diagnostic, never a panic or a full memory.
//!
//! A workbook may be read a second time by an independent reader, and what the two read
//! differently is told ([`open_and_compare`]).
//!
//! Not here: what headings and values mean (`headings`, `job`).
//!
//! Files are read by own code down to the cell, because a file from a stranger must
//! not end the program and every message must name a cell.

mod bytes;
mod compound;
mod cross_check;
mod csv;
mod dates;
mod gather;
pub mod limits;
pub mod notation;
mod office_97;
mod office_binary;
mod office_xml;
mod open_document;
mod package;
mod packed_text;
mod properties;
mod prospect;
mod stop;
#[cfg(test)]
mod tests;
mod workbook;
mod xml;

use std::fs;
use std::mem;
use std::path::Path;

pub(crate) use dates::serial_of_iso;
pub(crate) use properties::{properties, sheets};

use crate::diagnostic::Diagnostic;
use crate::place::Place;
use gather::{Gather, Outcome};
use limits::FILE_BYTES;
use notation::MarksSeen;
use stop::Stop;

/// A file (or a folder of `.csv` files) as sparse sheets, every cell with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct JobFile {
    /// Name of the file or folder without its parents.
    pub name: String,
    /// Sheets in the order of the workbook, or of the names of the files.
    pub sheets: Vec<Sheet>,
    /// The decimal mark that text files show in their numbers, found once over all of them.
    pub marks: MarksSeen,
}

/// One sheet of a workbook, or one `.csv` file.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Name of the sheet; for a `.csv` file its name without the ending.
    pub name: String,
    /// The whole sheet; [`Place::at`] gives the place of a cell.
    pub place: Place,
    /// Rows that hold something, ascending.
    pub rows: Vec<Row>,
    /// Merged regions: first row, first column, last row, last column.
    pub merged: Vec<(u32, u32, u32, u32)>,
}

impl Sheet {
    /// Takes note of the decimal marks in the texts of its cells.
    pub fn note_marks(&self, seen: &mut MarksSeen) {
        for row in &self.rows {
            for cell in &row.cells {
                if let Content::Text(text) = &cell.content {
                    seen.note(text, || self.place.at(row.index, cell.column));
                }
            }
        }
    }
}

/// One row that holds something.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Row, or line of a text file, from zero.
    pub index: u32,
    /// Cells that hold something, ascending.
    pub cells: Vec<Cell>,
}

/// One cell that holds something.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// Column from zero.
    pub column: u32,
    /// What the cell holds.
    pub content: Content,
    /// Whether the value is the stored result of a formula.
    pub formula: bool,
}

/// What a cell holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// A finite number.
    Number(f64),
    /// Text, never empty.
    Text(String),
    /// True or false.
    Truth(bool),
    /// A date, or a time of day, as a serial day of the 1900 system.
    Date(f64),
    /// A length of time such as `36:30`, as a number of days.
    Duration(f64),
    /// An error such as `#REF!`, as the file names it.
    Error(String),
    /// A formula whose result is not in the file.
    NotCalculated,
}

/// Reads a workbook, a `.csv` file, or a folder of `.csv` files.
///
/// # Errors
///
/// Gives everything that is wrong: the file cannot be read, is too large, holds no
/// cell, or has cells far outside. With it come warnings.
pub fn open(path: &Path) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    opened(path, None)
}

/// Reads as [`open`] does, and of a workbook the sheets whose names are wanted a second time
/// with an independent reader, where that is safe. With it come warnings, and as
/// errors the cells that the two have read differently.
///
/// What is not read a second time: text files; a workbook that declares more than it holds,
/// or in which another reader could find other parts, run on without end or need far more
/// memory than its cells do; a sheet that the other reader gives up. None of that is a
/// fault: our reading stands.
///
/// # Errors
///
/// As [`open`].
pub fn open_and_compare(
    path: &Path,
    wanted: &dyn Fn(&str) -> bool,
) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    opened(path, Some(wanted))
}

/// Reads a workbook of any format from memory, as [`open`] reads a file; where sheets are to
/// be compared, as [`open_and_compare`] does. `name` stands for the file in messages.
///
/// # Errors
///
/// As [`open`].
pub fn workbook(
    name: &str,
    bytes: &[u8],
    compare: Option<&dyn Fn(&str) -> bool>,
) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    gathered((name, bytes), compare, &|gather| {
        workbook::read(bytes, gather)
    })
}

/// Whether bytes begin like a workbook of a format that is read.
#[must_use]
pub fn is_workbook(bytes: &[u8]) -> bool {
    workbook::is_workbook(bytes)
}

fn opened(path: &Path, compare: Option<&dyn Fn(&str) -> bool>) -> Outcome {
    if path.is_dir() {
        return csv::read_folder(path);
    }
    let name = name_of(path);
    let bytes = bytes_of(path).map_err(|stop| vec![stop.about(&name)])?;
    let is_csv = path
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"));
    if is_csv && !workbook::is_workbook(&bytes) {
        return gathered((&name, &bytes), compare, &|gather| {
            csv::read_file(path, &bytes, gather)
        });
    }
    workbook(&name, &bytes, compare)
}

/// What reading bytes gives, compared with another reading where that is asked for.
fn gathered(
    (name, bytes): (&str, &[u8]),
    compare: Option<&dyn Fn(&str) -> bool>,
    read: &dyn Fn(&mut Gather) -> Result<(), Stop>,
) -> Outcome {
    let mut gather = Gather::new(name);
    if let Err(stop) = read(&mut gather) {
        gather.note(stop.about(name));
    }
    let prospect = mem::take(gather.prospect());
    let (job_file, mut findings) = gather.finish()?;
    if let Some(wanted) = compare {
        findings.extend(cross_check::compare(bytes, &job_file, &prospect, wanted));
    }
    Ok((job_file, findings))
}

/// Makes the file of a job from tables in memory: the name of each table with its CSV text.
///
/// `name` stands for the file in messages; leave it empty where there is none. The texts
/// are read just as `.csv` files are: commas, semicolons or tabs, quotes, blank lines.
///
/// ```
/// use groundsheet::takeoff::basins;
/// use groundsheet::{estimate, job, read};
///
/// let tables = [
///     ("Job", "Key,Value\nName,Duck pond\nUnits,US customary\nSoil,loam\n"),
///     (
///         "Basins",
///         "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
///          Pond,rectangle,100,70,12,2\n",
///     ),
/// ];
/// let (job_file, warnings) = read::from_texts("", &tables).unwrap();
/// assert!(warnings.is_empty());
/// let job = job::from_file(&job_file).job.unwrap();
/// let worked_out = estimate::estimate(job);
/// let volume = worked_out.graph.id(basins::VOLUME);
/// let volume_yd3 = worked_out.results.number(volume.at(0));
/// assert_eq!((volume_yd3 * 27.0).round(), 44_256.0); // ft³, as printed: Math Central QQ.09.07
/// ```
///
/// # Errors
///
/// Gives everything that is wrong: no cell holds anything, a text is not a table, or a
/// cell lies beyond the [`limits`]. With it come warnings.
pub fn from_texts(
    name: &str,
    tables: &[(&str, &str)],
) -> Result<(JobFile, Vec<Diagnostic>), Vec<Diagnostic>> {
    csv::read_texts(name, tables)
}

/// The name of a file or folder without its parents.
fn name_of(path: &Path) -> String {
    let own = path
        .file_name()
        .map(|name| name.to_string_lossy().into_owned());
    // A path such as `.` has no name of its own; the folder it leads to has.
    let led_to = || {
        let full = path.canonicalize().ok()?;
        Some(full.file_name()?.to_string_lossy().into_owned())
    };
    own.or_else(led_to)
        .unwrap_or_else(|| path.to_string_lossy().into_owned())
}

/// The content of a file, if it is one and not too large.
fn bytes_of(path: &Path) -> Result<Vec<u8>, Stop> {
    let unreadable = |error: std::io::Error| {
        let message = format!("the file cannot be opened: {error}");
        Stop::cannot_open(
            message,
            "check the name and the folder, and that you may read it",
        )
    };
    let about = fs::metadata(path).map_err(unreadable)?;
    if !about.is_file() {
        return Err(Stop::cannot_open(
            "this is neither a file nor a folder".to_owned(),
            "name a workbook; a job of - is a workbook from standard input",
        ));
    }
    if about.len() > FILE_BYTES {
        let megabytes = FILE_BYTES >> 20;
        return Err(Stop::too_large(format!(
            "the file is larger than {megabytes} MB"
        )));
    }
    fs::read(path).map_err(unreadable)
}
