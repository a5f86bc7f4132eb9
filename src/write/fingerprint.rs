//! Fingerprints: whether people have typed into a workbook since it was written.
//!
//! A workbook carries, as properties that office programs keep, one hash for each sheet that
//! people type in: over the row, the column, the kind and the value of every cell that holds
//! something. Pages that the program writes itself count for nothing, but for the scenario
//! that is chosen on the bid page. Of a client's copy every sheet counts.
//!
//! Always true: opening a workbook in an office program and saving it as it is leaves its
//! fingerprint as it was, also where results are stored with 15 digits; a sheet that somebody
//! adds changes it; a hash tells nothing about any other sheet.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::Hasher;

use rust_xlsxwriter::DocProperties;
use siphasher::sip::SipHasher24;

use super::error::WriteError;
use super::parts;
use super::sheets::SCENARIO;
use crate::job::tables::PAGES;
use crate::read::{self, Content, Sheet};

/// The property that says that a workbook is ours, and what its fingerprint covers.
const MARK: &str = "groundsheet";
/// What the name of a sheet is led by in the property that holds its hash.
const OF_SHEET: &str = "groundsheet: ";
/// The part of the file with the properties.
const PART: &str = "docProps/custom.xml";
/// The page with the one cell that people choose in.
const BID: &str = "Bid";

/// What a fingerprint covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Covers {
    /// What people type into a job.
    Typed,
    /// Every cell of every sheet.
    Everything,
}

impl Covers {
    fn name(self) -> &'static str {
        match self {
            Covers::Typed => "what is typed",
            Covers::Everything => "everything",
        }
    }

    fn named(name: &str) -> Option<Self> {
        let all = [Covers::Typed, Covers::Everything];
        all.into_iter().find(|covers| covers.name() == name)
    }

    /// Whether anything of a sheet counts.
    fn counts(self) -> fn(&str) -> bool {
        match self {
            Covers::Typed => |sheet| !is_page(sheet) || sheet == BID,
            Covers::Everything => |_| true,
        }
    }

    /// The cells of a sheet that count.
    fn cells(self, sheet: &Sheet) -> impl Iterator<Item = ((u32, u32), &Content)> {
        let scenario = (SCENARIO.0, u32::from(SCENARIO.1));
        let only_scenario = self == Covers::Typed && sheet.name == BID;
        let cells = sheet.rows.iter().flat_map(|row| {
            let cells = row.cells.iter();
            cells.map(|cell| ((row.index, cell.column), &cell.content))
        });
        cells.filter(move |(at, content)| {
            **content != Content::NotCalculated && (!only_scenario || *at == scenario)
        })
    }
}

fn is_page(sheet: &str) -> bool {
    PAGES.iter().any(|page| page.eq_ignore_ascii_case(sheet))
}

/// The properties of a new workbook with these sheets: where the hash of each will stand,
/// there is its number until the workbook is [`sealed`].
pub(super) fn unsealed<'s>(
    properties: DocProperties,
    covers: Covers,
    sheets: impl IntoIterator<Item = &'s str>,
) -> DocProperties {
    let properties = properties.set_custom_property(MARK, covers.name());
    let counted = sheets.into_iter().filter(|sheet| covers.counts()(sheet));
    (0..).zip(counted).fold(properties, |all, (at, sheet)| {
        all.set_custom_property(format!("{OF_SHEET}{sheet}"), placeholder(at))
    })
}

fn placeholder(at: usize) -> String {
    format!("({at})")
}

/// The workbook with its fingerprint. One that could not be read back, which none is, would
/// stay unsealed and count as edited.
pub(super) fn sealed(bytes: Vec<u8>) -> Result<Vec<u8>, WriteError> {
    let Some(mark) = Mark::of(&bytes) else {
        return Ok(bytes);
    };
    let Some(hashes) = mark.hashes_now(&bytes) else {
        return Ok(bytes);
    };
    let filled = |_: &str, xml: &str| {
        let sealed = mark.sheets.iter().map(|(sheet, placeholder)| {
            let hash = hashes.get(sheet).cloned().unwrap_or_else(nothing);
            let value = |text: &str| format!("<vt:lpwstr>{text}</vt:lpwstr>");
            (value(placeholder), value(&hash))
        });
        sealed.fold(xml.to_owned(), |xml, (old, new)| xml.replace(&old, &new))
    };
    Ok(parts::changed(bytes, &|part| part == PART, &filled)?)
}

/// The fingerprint that a workbook carries.
struct Mark {
    covers: Covers,
    /// The hash of each sheet.
    sheets: BTreeMap<String, String>,
}

impl Mark {
    /// The fingerprint of a workbook; none where it is not ours.
    fn of(bytes: &[u8]) -> Option<Self> {
        let properties = read::properties(bytes)?;
        let covers = Covers::named(properties.get(MARK)?)?;
        let sheets = properties.into_iter().filter_map(|(name, value)| {
            let sheet = name.strip_prefix(OF_SHEET)?;
            Some((sheet.to_owned(), value))
        });
        Some(Self {
            covers,
            sheets: sheets.collect(),
        })
    }

    /// The hash of each sheet as it is now.
    fn hashes_now(&self, bytes: &[u8]) -> Option<BTreeMap<String, String>> {
        let sheets = read::sheets(bytes, self.covers.counts())?;
        let hashes = sheets.iter().map(|sheet| {
            let hash = hash_of(self.covers.cells(sheet));
            (sheet.name.clone(), hash)
        });
        Some(hashes.collect())
    }
}

/// The sheets of a workbook that people have typed into since it was written, added or taken
/// out; nothing where it is not of groundsheet.
#[must_use]
pub fn edited_since(bytes: &[u8]) -> Option<Vec<String>> {
    let mark = Mark::of(bytes)?;
    let now = mark.hashes_now(bytes)?;
    let names: BTreeSet<&String> = mark.sheets.keys().chain(now.keys()).collect();
    let nothing = nothing();
    let differs = |name: &&String| {
        let [then, now] = [&mark.sheets, &now].map(|all| all.get(*name).unwrap_or(&nothing));
        then != now
    };
    Some(names.into_iter().filter(differs).cloned().collect())
}

/// What a cell holds, as people would say it, by its row and column.
pub type Typed = BTreeMap<(u32, u32), String>;

/// What people have typed into a workbook, sheet by sheet; nothing where it cannot be read.
#[must_use]
pub fn typed(bytes: &[u8]) -> BTreeMap<String, Typed> {
    let covers = Mark::of(bytes).map_or(Covers::Typed, |mark| mark.covers);
    let sheets = read::sheets(bytes, covers.counts()).unwrap_or_default();
    let typed = sheets.iter().map(|sheet| {
        let cells = covers.cells(sheet);
        let cells = cells.map(|(at, content)| (at, shown(content)));
        (sheet.name.clone(), cells.collect())
    });
    typed.collect()
}

fn shown(content: &Content) -> String {
    match content {
        Content::Number(number) | Content::Date(number) | Content::Duration(number) => {
            rounded(*number).to_string()
        }
        Content::Text(text) | Content::Error(text) => text.clone(),
        Content::Truth(truth) => truth.to_string(),
        Content::NotCalculated => String::new(),
    }
}

/// A number with the digits that count: office programs store 15 of them, and may work out a
/// result a little differently in the last ones.
fn rounded(number: f64) -> f64 {
    let stored: f64 = format!("{number:.14e}").parse().unwrap_or(number);
    let counts: f64 = format!("{stored:.11e}").parse().unwrap_or(stored);
    // There is one nothing, whatever its sign.
    counts + 0.0
}

fn hash_of<'c>(cells: impl Iterator<Item = ((u32, u32), &'c Content)>) -> String {
    let mut hasher = SipHasher24::new();
    for ((row, column), content) in cells {
        let (kind, value) = match content {
            // Whether a number is a day or a length of time is a matter of its look.
            Content::Number(number) | Content::Date(number) | Content::Duration(number) => {
                ("n", rounded(*number).to_string())
            }
            Content::Text(text) => ("t", text.clone()),
            Content::Error(text) => ("e", text.clone()),
            Content::Truth(truth) => ("b", truth.to_string()),
            Content::NotCalculated => continue,
        };
        let length = value.len();
        hasher.write(format!("{row} {column} {kind} {length} {value}\n").as_bytes());
    }
    shown_hash(&hasher)
}

/// The hash of a sheet on which nothing is typed.
fn nothing() -> String {
    hash_of(std::iter::empty())
}

/// The hash of a file as a whole.
#[must_use]
pub fn hash_of_file(bytes: &[u8]) -> String {
    let mut hasher = SipHasher24::new();
    hasher.write(bytes);
    shown_hash(&hasher)
}

fn shown_hash(hasher: &SipHasher24) -> String {
    format!("{:016x}", hasher.finish())
}
