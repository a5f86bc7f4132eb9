//! Streams of a compound file, the container of `.xls` and of locked workbooks.
//!
//! Always true: a chain of sectors is followed no further than the file has sectors,
//! so that a chain that runs in a circle ends as damage.

use super::bytes::{size_at, u8_at, u16_at, u32_at, wide_text};
use super::stop::Stop;

/// The first bytes of every compound file.
pub(super) const MAGIC: &[u8] = b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1";

/// Sector numbers from here on are marks, such as the end of a chain.
const FIRST_MARK: u32 = 0xFFFF_FFFA;
const MINI_SECTOR: usize = 64;
/// Streams shorter than this live in mini sectors.
const MINI_LIMIT: usize = 4096;
const ENTRY: usize = 128;
const HEADER: usize = 512;
/// Entries of the sector table that stand in the header itself.
const TABLE_IN_HEADER: usize = 109;

/// A compound file with its directory.
pub(super) struct Compound<'a> {
    bytes: &'a [u8],
    sector_size: usize,
    /// The sector that follows each sector.
    next: Vec<u32>,
    entries: Vec<Entry>,
    mini_next: Vec<u32>,
    mini_stream: Vec<u8>,
}

struct Entry {
    name: String,
    start: u32,
    size: usize,
}

impl<'a> Compound<'a> {
    /// Opens a compound file.
    pub(super) fn open(bytes: &'a [u8]) -> Result<Self, Stop> {
        Self::from_header(bytes).ok_or_else(|| Stop::damaged("its list of streams is broken"))
    }

    fn from_header(bytes: &'a [u8]) -> Option<Self> {
        let sector_size = match u16_at(bytes, 30)? {
            9 => 512,
            12 => 4096,
            _ => return None,
        };
        let (next, entries) = (Vec::new(), Vec::new());
        let (mini_next, mini_stream) = (Vec::new(), Vec::new());
        let mut file = Self {
            bytes,
            sector_size,
            next,
            entries,
            mini_next,
            mini_stream,
        };
        file.next = file.sector_table()?;
        let directory = file.chain(u32_at(bytes, 48)?, usize::MAX)?;
        file.entries = directory.chunks_exact(ENTRY).filter_map(entry_of).collect();
        let mini_start = u32_at(bytes, 60)?;
        if mini_start < FIRST_MARK {
            let table = file.chain(mini_start, usize::MAX)?;
            file.mini_next = numbers(&table).collect();
            let root = file.entries.first()?;
            file.mini_stream = file.chain(root.start, root.size)?;
        }
        Some(file)
    }

    /// Whether there is a stream of this name.
    pub(super) fn has(&self, name: &str) -> bool {
        self.entries.iter().any(|entry| entry.name == name)
    }

    /// The bytes of a stream.
    pub(super) fn stream(&self, name: &str) -> Result<Vec<u8>, Stop> {
        let entry = self.entries.iter().find(|entry| entry.name == name);
        let entry = entry.ok_or_else(|| Stop::foreign("the file holds no sheets"))?;
        let stream = if entry.size < MINI_LIMIT {
            self.mini_chain(entry.start, entry.size)
        } else {
            self.chain(entry.start, entry.size)
        };
        stream.ok_or_else(|| Stop::damaged("the sheets break off"))
    }

    fn sector_count(&self) -> usize {
        self.bytes.len() / self.sector_size
    }

    /// A sector; the last one of a file may be short.
    fn sector(&self, number: u32) -> Option<&'a [u8]> {
        let start = usize::try_from(number)
            .ok()?
            .checked_add(1)?
            .checked_mul(self.sector_size)?;
        let end = start.checked_add(self.sector_size)?.min(self.bytes.len());
        self.bytes.get(start..end)
    }

    /// Reads which sector follows which: the table is itself spread over sectors.
    fn sector_table(&self) -> Option<Vec<u32>> {
        let header = self.bytes.get(76..HEADER)?;
        let mut places: Vec<u32> = numbers(header).take(TABLE_IN_HEADER).collect();
        let mut more = u32_at(self.bytes, 68)?;
        let mut left = self.sector_count();
        while more < FIRST_MARK {
            left = left.checked_sub(1)?;
            let sector: Vec<u32> = numbers(self.sector(more)?).collect();
            let (&last, rest) = sector.split_last()?;
            places.extend_from_slice(rest);
            more = last;
        }
        let mut next = Vec::new();
        for place in places.into_iter().filter(|place| *place < FIRST_MARK) {
            // Entries for sectors beyond the end of the file mean nothing.
            if next.len() > self.sector_count() {
                break;
            }
            next.extend(numbers(self.sector(place)?));
        }
        Some(next)
    }

    fn chain(&self, start: u32, size: usize) -> Option<Vec<u8>> {
        let follow = |number: u32| self.sector(number);
        join(start, size, &self.next, self.sector_count() + 1, follow)
    }

    fn mini_chain(&self, start: u32, size: usize) -> Option<Vec<u8>> {
        let follow = |number: u32| {
            let start = usize::try_from(number).ok()?.checked_mul(MINI_SECTOR)?;
            self.mini_stream.get(start..start + MINI_SECTOR)
        };
        join(start, size, &self.mini_next, self.mini_next.len(), follow)
    }
}

/// Joins the sectors of a chain, up to a size.
fn join<'s>(
    start: u32,
    size: usize,
    next: &[u32],
    longest: usize,
    sector: impl Fn(u32) -> Option<&'s [u8]>,
) -> Option<Vec<u8>> {
    let mut joined = Vec::new();
    let mut number = start;
    let mut left = longest;
    while number < FIRST_MARK && joined.len() < size {
        left = left.checked_sub(1)?;
        joined.extend_from_slice(sector(number)?);
        number = *next.get(usize::try_from(number).ok()?)?;
    }
    let whole = size == usize::MAX || joined.len() >= size;
    joined.truncate(size);
    whole.then_some(joined)
}

fn entry_of(bytes: &[u8]) -> Option<Entry> {
    // Length of the name in bytes, with the zero at its end.
    let length = usize::from(u16_at(bytes, 64)?).saturating_sub(2).min(62);
    let used = u8_at(bytes, 66)? != 0;
    let entry = Entry {
        name: wide_text(bytes.get(..length)?),
        start: u32_at(bytes, 116)?,
        size: size_at(bytes, 120)?,
    };
    used.then_some(entry)
}

fn numbers(bytes: &[u8]) -> impl Iterator<Item = u32> + '_ {
    bytes
        .chunks_exact(4)
        .map(|four| u32::from_le_bytes([four[0], four[1], four[2], four[3]]))
}
