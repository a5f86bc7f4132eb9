//! Workbooks that are zip archives: guarded parts, and the relations between them.
//!
//! Always true: a part is never unpacked beyond the size that the archive declares
//! for it, and that size is checked against the limits before anything is unpacked.

use std::collections::BTreeMap;
use std::io::{self, BufReader, Cursor, Read};

use zip::ZipArchive;
use zip::read::ZipFile;

use super::limits::{EXPANSION, EXPANSION_FREE_BYTES, PART_BYTES, UNPACKED_BYTES};
use super::stop::Stop;
use super::xml::{Step, Xml};

/// A zip archive whose declared sizes are within the limits.
pub(super) struct Package<'a> {
    archive: ZipArchive<Cursor<&'a [u8]>>,
    /// Position of each part, by its name in lower case: names differ in case between programs.
    parts: BTreeMap<String, usize>,
}

/// A part while it is unpacked.
pub(super) type Part<'p, 'a> = BufReader<Bounded<ZipFile<'p, Cursor<&'a [u8]>>>>;

/// A relation from one part to another.
pub(super) struct Relation {
    /// Last word of its type, such as `worksheet`.
    pub(super) kind: String,
    /// The other part.
    pub(super) target: String,
}

/// The main part of an office package, with its relations by their identifier.
pub(super) struct Main {
    /// Name of the main part.
    pub(super) part: String,
    /// Relations to other parts.
    pub(super) relations: BTreeMap<String, Relation>,
}

impl<'a> Package<'a> {
    /// Opens an archive and checks what it declares.
    pub(super) fn open(bytes: &'a [u8]) -> Result<Self, Stop> {
        let mut archive = ZipArchive::new(Cursor::new(bytes))
            .map_err(|_| Stop::damaged("its list of parts is missing or broken"))?;
        let mut parts = BTreeMap::new();
        let mut total: u64 = 0;
        for position in 0..archive.len() {
            let part = archive.by_index_raw(position).map_err(Stop::damaged)?;
            check_size(part.size(), part.compressed_size())?;
            total = total.saturating_add(part.size());
            parts.insert(plain(&String::from_utf8_lossy(part.name_raw())), position);
        }
        if total > UNPACKED_BYTES {
            return Err(expands());
        }
        Ok(Self { archive, parts })
    }

    /// Whether there is a part of this name.
    pub(super) fn has(&self, name: &str) -> bool {
        self.parts.contains_key(&plain(name))
    }

    /// Whether the package carries cell comments.
    pub(super) fn has_comments(&self) -> bool {
        let comments =
            |name: &String| name.contains("/comments") || name.contains("/threadedcomments");
        self.parts.keys().any(comments)
    }

    /// Whether no two parts have names that differ in case only, and none is larger than
    /// it says. Every part is unpacked for that, none is kept.
    pub(super) fn is_honest(&mut self) -> bool {
        if self.parts.len() != self.archive.len() {
            return false;
        }
        (0..self.archive.len()).all(|position| {
            let part = self.archive.by_index(position).map_err(io::Error::other);
            part.and_then(|part| io::copy(&mut Bounded::new(part), &mut io::sink()))
                .is_ok()
        })
    }

    /// A part, unpacked while it is read.
    pub(super) fn part(&mut self, name: &str) -> Result<Part<'_, 'a>, Stop> {
        let Some(&position) = self.parts.get(&plain(name)) else {
            return Err(Stop::damaged(format_args!("the part {name} is missing")));
        };
        let inner = self.archive.by_index(position).map_err(Stop::damaged)?;
        Ok(BufReader::with_capacity(64 << 10, Bounded::new(inner)))
    }

    /// The main part of an office package.
    pub(super) fn main(&mut self) -> Result<Main, Stop> {
        let roots = self.relations("")?;
        let main = roots
            .into_values()
            .find(|root| root.kind == "officeDocument");
        let Some(main) = main else {
            return Err(Stop::damaged("the archive names no workbook"));
        };
        let relations = self.relations(&main.target)?;
        Ok(Main {
            part: main.target,
            relations,
        })
    }

    /// The relations of a part by their identifier; those of the package itself where it has no name.
    pub(super) fn relations(&mut self, part: &str) -> Result<BTreeMap<String, Relation>, Stop> {
        let (folder, file) = part.rsplit_once('/').unwrap_or(("", part));
        let name = format!("{folder}/_rels/{file}.rels");
        let mut relations = BTreeMap::new();
        if !self.has(&name) {
            return Ok(relations);
        }
        let mut xml = Xml::new(self.part(&name)?);
        loop {
            match xml.step()? {
                Step::Open(tag) if tag.local() == b"Relationship" => {
                    let kind = tag.attribute("Type")?.unwrap_or_default();
                    let kind = kind.rsplit('/').next().unwrap_or_default().to_owned();
                    let target = tag.attribute("Target")?.unwrap_or_default();
                    let target = resolved(folder, &target);
                    let id = tag.attribute("Id")?.unwrap_or_default().into_owned();
                    relations.insert(id, Relation { kind, target });
                }
                Step::End => return Ok(relations),
                _ => {}
            }
        }
    }
}

impl Main {
    /// The part to which the first relation of a kind leads.
    pub(super) fn first(&self, kind: &str) -> Option<&str> {
        let found = self
            .relations
            .values()
            .find(|relation| relation.kind == kind);
        found.map(|relation| relation.target.as_str())
    }

    /// Whether a part stands where readers look that do not follow relations: beside the
    /// main part, under its usual name. It need not be there at all.
    pub(super) fn is_usual(&self, kind: &str, file: &str, package: &Package<'_>) -> bool {
        let folder = self.part.rsplit_once('/').map_or("", |(folder, _)| folder);
        let usual = resolved(folder, file);
        match self.first(kind) {
            Some(part) => plain(part) == plain(&usual),
            None => !package.has(&usual),
        }
    }

    /// The part of a worksheet; `None` for sheets without cells, such as charts.
    pub(super) fn worksheet(&self, id: &str) -> Result<Option<&str>, Stop> {
        let Some(relation) = self.relations.get(id) else {
            return Err(Stop::damaged("the part of a sheet is missing"));
        };
        Ok((relation.kind == "worksheet").then_some(relation.target.as_str()))
    }
}

/// Reads no more than the declared size, and reports a part that goes on.
pub(super) struct Bounded<R> {
    inner: R,
    left: u64,
}

impl<'p, 'a> Bounded<ZipFile<'p, Cursor<&'a [u8]>>> {
    fn new(inner: ZipFile<'p, Cursor<&'a [u8]>>) -> Self {
        let left = inner.size();
        Self { inner, left }
    }
}

impl<R: Read> Read for Bounded<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        // One byte more is asked for, so that the end, and with it the checksum, is met.
        let allowed = usize::try_from(self.left.saturating_add(1)).unwrap_or(usize::MAX);
        let room = buffer.len().min(allowed);
        let count = self.inner.read(&mut buffer[..room])?;
        match self.left.checked_sub(count as u64) {
            Some(left) => self.left = left,
            None => return Err(io::Error::other("a part is larger than it says")),
        }
        Ok(count)
    }
}

fn check_size(unpacked: u64, packed: u64) -> Result<(), Stop> {
    if unpacked > PART_BYTES {
        return Err(expands());
    }
    if unpacked > EXPANSION_FREE_BYTES && unpacked / packed.max(1) > EXPANSION {
        return Err(expands());
    }
    Ok(())
}

fn expands() -> Stop {
    Stop::too_large("the workbook unpacks to far more than a job needs".to_owned())
}

fn plain(name: &str) -> String {
    name.replace('\\', "/")
        .trim_start_matches('/')
        .to_lowercase()
}

/// A target of a relation as the name of a part: absolute, or relative to a folder.
fn resolved(folder: &str, target: &str) -> String {
    let absolute = target.starts_with('/');
    let start = if absolute { "" } else { folder };
    let mut steps: Vec<&str> = start.split('/').filter(|step| !step.is_empty()).collect();
    for step in target.split('/') {
        match step {
            "" | "." => {}
            ".." => drop(steps.pop()),
            name => steps.push(name),
        }
    }
    steps.join("/")
}
