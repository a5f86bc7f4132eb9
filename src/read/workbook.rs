//! Reads workbooks of all formats: decides by content which of them a file has.

use super::gather::Gather;
use super::package::Package;
use super::prospect::Format;
use super::stop::Stop;
use super::{compound, office_97, office_binary, office_xml, open_document};

/// The first bytes of every zip archive that holds something.
const ZIP_MAGIC: &[u8] = b"PK\x03\x04";

/// Whether the content begins like a workbook, whatever the file is called.
pub(super) fn is_workbook(bytes: &[u8]) -> bool {
    bytes.starts_with(ZIP_MAGIC) || bytes.starts_with(compound::MAGIC)
}

/// Reads a workbook.
pub(super) fn read(bytes: &[u8], gather: &mut Gather) -> Result<(), Stop> {
    if bytes.starts_with(compound::MAGIC) {
        gather.prospect().is_of(Format::Office97);
        return office_97::read(bytes, gather);
    }
    if bytes.is_empty() {
        return Err(Stop::empty());
    }
    if !bytes.starts_with(ZIP_MAGIC) {
        return Err(Stop::foreign("the content is of an unknown kind"));
    }
    let mut package = Package::open(bytes)?;
    if package.has_comments() {
        gather.note_comments();
    }
    if package.has(open_document::CONTENT) {
        gather.prospect().is_of(Format::OpenDocument);
        open_document::read(&mut package, gather)
    } else if package.has("xl/workbook.bin") {
        gather.prospect().is_of(Format::OfficeBinary);
        office_binary::read(&mut package, gather)
    } else if package.has("_rels/.rels") {
        gather.prospect().is_of(Format::OfficeXml);
        office_xml::read(&mut package, gather)
    } else {
        Err(Stop::foreign("the file is an archive of other things"))
    }
}
