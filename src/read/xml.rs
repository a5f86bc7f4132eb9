//! Walks through an XML part: the few steps that reading a workbook needs.
//!
//! Always true: an error or a missing end is reported as damage; entities other
//! than the five of XML are not expanded, so that no text grows by itself.

use std::borrow::Cow;
use std::io::BufRead;

use quick_xml::Reader;
use quick_xml::escape::{resolve_predefined_entity, unescape};
use quick_xml::events::{BytesEnd, BytesRef, BytesStart, Event};

use super::stop::Stop;

/// One XML part being read.
pub(super) struct Xml<R> {
    reader: Reader<R>,
    buffer: Vec<u8>,
    depth: usize,
}

/// One step through the part. An empty element opens and closes.
pub(super) enum Step<'a> {
    /// An element begins.
    Open(Tag<'a>),
    /// An element ends.
    Close(EndTag<'a>),
    /// Characters, as written between tags.
    Text(Cow<'a, str>),
    /// The part is read to its end.
    End,
}

/// The beginning of an element.
pub(super) struct Tag<'a>(BytesStart<'a>);

/// The end of an element.
pub(super) struct EndTag<'a>(BytesEnd<'a>);

impl<R: BufRead> Xml<R> {
    /// A part from its beginning.
    pub(super) fn new(part: R) -> Self {
        let mut reader = Reader::from_reader(part);
        reader.config_mut().expand_empty_elements = true;
        Self {
            reader,
            buffer: Vec::with_capacity(1024),
            depth: 0,
        }
    }

    /// The next step.
    pub(super) fn step(&mut self) -> Result<Step<'_>, Stop> {
        self.buffer.clear();
        // A step that says nothing becomes empty text: looping here would borrow the buffer twice.
        let step = match self
            .reader
            .read_event_into(&mut self.buffer)
            .map_err(Stop::damaged)?
        {
            Event::Start(tag) => {
                self.depth += 1;
                Step::Open(Tag(tag))
            }
            Event::End(tag) => {
                self.depth = self.depth.saturating_sub(1);
                Step::Close(EndTag(tag))
            }
            Event::Text(text) => Step::Text(text.xml10_content().map_err(Stop::damaged)?),
            Event::CData(text) => Step::Text(text.xml10_content().map_err(Stop::damaged)?),
            Event::GeneralRef(entity) => Step::Text(Cow::Owned(resolve(&entity)?)),
            Event::Eof if self.depth > 0 => return Err(Stop::damaged("a part breaks off")),
            Event::Eof => Step::End,
            _ => Step::Text(Cow::Borrowed("")),
        };
        Ok(step)
    }

    /// Leaves out everything up to the end of the element that was opened last.
    pub(super) fn skip(&mut self) -> Result<(), Stop> {
        let outside = self.depth.saturating_sub(1);
        while self.depth > outside {
            if let Step::End = self.step()? {
                break;
            }
        }
        Ok(())
    }
}

impl Tag<'_> {
    /// The name with its prefix.
    pub(super) fn name(&self) -> &[u8] {
        self.0.name().into_inner()
    }

    /// The name without prefix.
    pub(super) fn local(&self) -> &[u8] {
        self.0.local_name().into_inner()
    }

    /// All attributes: the key with its prefix, and the value.
    pub(super) fn attributes(
        &self,
    ) -> impl Iterator<Item = Result<(&[u8], Cow<'_, str>), Stop>> + '_ {
        // Looking for repeated keys is quadratic, and a repeated key does no harm here.
        let mut attributes = self.0.attributes();
        attributes.with_checks(false);
        attributes.map(|attribute| {
            let attribute = attribute.map_err(Stop::damaged)?;
            let value = match attribute.value {
                Cow::Borrowed(raw) => unescaped(raw)?,
                Cow::Owned(raw) => Cow::Owned(unescaped(&raw)?.into_owned()),
            };
            Ok((attribute.key.into_inner(), value))
        })
    }

    /// The value of one attribute, by its name without prefix.
    pub(super) fn attribute(&self, wanted: &str) -> Result<Option<Cow<'_, str>>, Stop> {
        for attribute in self.attributes() {
            let (key, value) = attribute?;
            if bare(key) == wanted.as_bytes() {
                return Ok(Some(value));
            }
        }
        Ok(None)
    }
}

impl EndTag<'_> {
    /// The name with its prefix.
    pub(super) fn name(&self) -> &[u8] {
        self.0.name().into_inner()
    }

    /// The name without prefix.
    pub(super) fn local(&self) -> &[u8] {
        self.0.local_name().into_inner()
    }
}

/// A name without its prefix.
pub(super) fn bare(name: &[u8]) -> &[u8] {
    name.iter()
        .position(|&byte| byte == b':')
        .map_or(name, |colon| &name[colon + 1..])
}

fn unescaped(raw: &[u8]) -> Result<Cow<'_, str>, Stop> {
    let text = std::str::from_utf8(raw).map_err(Stop::damaged)?;
    unescape(text).map_err(Stop::damaged)
}

fn resolve(entity: &BytesRef<'_>) -> Result<String, Stop> {
    if let Some(character) = entity.resolve_char_ref().map_err(Stop::damaged)? {
        return Ok(character.to_string());
    }
    let name = entity.decode().map_err(Stop::damaged)?;
    match resolve_predefined_entity(&name) {
        Some(text) => Ok(text.to_owned()),
        None => Err(Stop::damaged(format_args!(
            "the entity &{name}; is unknown"
        ))),
    }
}
