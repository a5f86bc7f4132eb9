//! What a workbook of our own format says about itself, and single sheets of it.
//!
//! Always true: what is not such a workbook gives nothing, and no more of a property is kept
//! than an office program would.

use std::collections::BTreeMap;

use super::gather::Gather;
use super::package::Package;
use super::stop::Stop;
use super::xml::{Step, Xml};
use super::{Sheet, office_xml};

/// How many bytes of a property are kept: an office program keeps 255 characters.
const LENGTH: usize = 1020;
/// How many properties are kept: far more than a workbook has sheets.
const MOST: usize = 1000;

/// The properties of an `.xlsx` workbook that are not of the format itself, by their names.
pub(crate) fn properties(bytes: &[u8]) -> Option<BTreeMap<String, String>> {
    read_properties(bytes).ok()
}

/// The sheets of an `.xlsx` workbook that are wanted, by their names, whatever is to be said
/// about their cells.
pub(crate) fn sheets(bytes: &[u8], wanted: fn(&str) -> bool) -> Option<Vec<Sheet>> {
    let mut gather = Gather::of(wanted);
    let mut package = Package::open(bytes).ok()?;
    office_xml::read(&mut package, &mut gather).ok()?;
    Some(gather.into_sheets())
}

fn read_properties(bytes: &[u8]) -> Result<BTreeMap<String, String>, Stop> {
    let mut found = BTreeMap::new();
    let mut package = Package::open(bytes)?;
    let parts = package.relations("")?;
    let part = parts.values().find(|part| part.kind == "custom-properties");
    let Some(part) = part else {
        return Ok(found);
    };
    let mut xml = Xml::new(package.part(&part.target)?);
    let (mut name, mut value) = (String::new(), String::new());
    loop {
        match xml.step()? {
            Step::Open(tag) if tag.local() == b"property" => {
                name = tag.attribute("name")?.unwrap_or_default().into_owned();
                value.clear();
            }
            Step::Text(piece) if value.len() + piece.len() <= LENGTH => value.push_str(&piece),
            Step::Close(tag) if tag.local() == b"property" && found.len() < MOST => {
                found.insert(std::mem::take(&mut name), value.trim().to_owned());
            }
            Step::End => return Ok(found),
            _ => {}
        }
    }
}
