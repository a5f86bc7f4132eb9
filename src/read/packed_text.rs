//! Texts of `.xls`: one or two bytes for a character, and cut anywhere between records.
//!
//! Always true: a text is no longer than the bytes that are there.

use super::bytes::wide_text;

const WIDE: u8 = 1;
const PHONETIC: u8 = 4;
const RICH: u8 = 8;

/// A text with its length in two bytes before it.
pub(super) fn plain_text(bodies: &[&[u8]]) -> Option<String> {
    let mut pieces = Pieces::new(bodies);
    let length = pieces.u16()?;
    if length == 0 {
        return Some(String::new());
    }
    let flags = pieces.u8()?;
    pieces.characters(length, flags)
}

/// A text with its length in one byte before it.
pub(super) fn short_text(body: &[u8]) -> Option<String> {
    let bodies = [body];
    let mut pieces = Pieces::new(&bodies);
    let length = usize::from(pieces.u8()?);
    let flags = pieces.u8()?;
    pieces.characters(length, flags)
}

/// The table of texts that cells share.
pub(super) fn shared_texts(bodies: &[&[u8]]) -> Option<Vec<String>> {
    let mut pieces = Pieces::new(bodies);
    // How often texts are used does not matter here; how many there are does.
    pieces.u32()?;
    let count = pieces.u32()?;
    let mut texts = Vec::new();
    for _ in 0..count {
        texts.push(pieces.shared_text()?);
    }
    Some(texts)
}

/// The bodies of a record and its continuations, read as one.
struct Pieces<'a> {
    bodies: &'a [&'a [u8]],
    body: usize,
    at: usize,
}

impl<'a> Pieces<'a> {
    fn new(bodies: &'a [&'a [u8]]) -> Self {
        Self {
            bodies,
            body: 0,
            at: 0,
        }
    }

    /// The rest of the current body; the next one if nothing is left.
    fn rest(&mut self) -> Option<&'a [u8]> {
        loop {
            let rest = self
                .bodies
                .get(self.body)?
                .get(self.at..)
                .unwrap_or_default();
            if !rest.is_empty() {
                return Some(rest);
            }
            self.body += 1;
            self.at = 0;
        }
    }

    fn u8(&mut self) -> Option<u8> {
        let byte = *self.rest()?.first()?;
        self.at += 1;
        Some(byte)
    }

    fn u16(&mut self) -> Option<usize> {
        Some(usize::from(u16::from_le_bytes([self.u8()?, self.u8()?])))
    }

    fn u32(&mut self) -> Option<usize> {
        let low = self.u16()?;
        Some(low | self.u16()? << 16)
    }

    fn skip(&mut self, mut count: usize) -> Option<()> {
        while count > 0 {
            let step = self.rest()?.len().min(count);
            self.at += step;
            count -= step;
        }
        Some(())
    }

    fn shared_text(&mut self) -> Option<String> {
        let length = self.u16()?;
        let flags = self.u8()?;
        let runs = if flags & RICH == 0 { 0 } else { self.u16()? };
        let phonetic = if flags & PHONETIC == 0 {
            0
        } else {
            self.u32()?
        };
        let text = self.characters(length, flags)?;
        self.skip(runs * 4)?;
        self.skip(phonetic)?;
        Some(text)
    }

    /// Characters; where they go on in the next body, that body says anew how wide they are.
    fn characters(&mut self, mut length: usize, flags: u8) -> Option<String> {
        let mut text = String::new();
        let mut wide = flags & WIDE != 0;
        while length > 0 {
            if self.bodies.get(self.body)?.len() <= self.at {
                self.body += 1;
                self.at = 0;
                wide = self.u8()? & WIDE != 0;
            }
            let size = if wide { 2 } else { 1 };
            let rest = self.bodies.get(self.body)?.get(self.at..)?;
            let count = (rest.len() / size).min(length);
            if count == 0 {
                return None;
            }
            let bytes = &rest[..count * size];
            if wide {
                text.push_str(&wide_text(bytes));
            } else {
                text.extend(bytes.iter().map(|&byte| char::from(byte)));
            }
            self.at += count * size;
            length -= count;
        }
        Some(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_go_on_in_the_next_record_with_a_width_of_their_own() {
        // Two texts: "pond" cut after two narrow characters and going on wide, then rich "½" with one run.
        let first: &[u8] = &[2, 0, 0, 0, 2, 0, 0, 0, 4, 0, 0, b'p', b'o'];
        let second: &[u8] = &[1, b'n', 0, b'd', 0, 1, 0, 8, 1, 0, 0xBD, 9, 9, 9, 9];
        let texts = shared_texts(&[first, second]);
        assert_eq!(texts, Some(vec!["pond".to_owned(), "½".to_owned()]));
        assert_eq!(shared_texts(&[first]), None);
        assert_eq!(shared_texts(&[&[0, 0, 0, 0, 255, 255, 255, 255]]), None);
    }
}
