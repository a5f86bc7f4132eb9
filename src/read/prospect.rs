//! What our reading of a workbook learns about a cross-check: its format, and whether another
//! reader can be given the file.

use super::limits::CROSS_CHECK_BYTES;

/// The format of a workbook, by its content.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Format {
    /// `.xlsx` and `.xlsm`.
    OfficeXml,
    /// `.xlsb`.
    OfficeBinary,
    /// `.xls`.
    Office97,
    /// `.ods`.
    OpenDocument,
}

/// What our reading learns about a cross-check.
#[derive(Debug, Default)]
pub(super) struct Prospect {
    format: Option<Format>,
    /// Something in the file would mislead the other reader or cost it too much.
    doubtful: bool,
    /// What a reader reserves that keeps whole rectangles of cells.
    bytes: u64,
}

impl Prospect {
    /// Notes the format.
    pub(super) fn is_of(&mut self, format: Format) {
        self.format = Some(format);
    }

    /// Notes that the file is better not cross-checked.
    pub(super) fn doubt(&mut self) {
        self.doubtful = true;
    }

    /// Notes what a reader of whole rectangles reserves.
    pub(super) fn reserve(&mut self, bytes: u64) {
        self.bytes = self.bytes.saturating_add(bytes);
    }

    /// The format, where a cross-check is safe so far.
    pub(super) fn safe(&self) -> Option<Format> {
        let fits = !self.doubtful && self.bytes <= CROSS_CHECK_BYTES;
        self.format.filter(|_| fits)
    }
}
