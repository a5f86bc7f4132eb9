//! How much a reader needs for a sheet of an `.ods` that keeps its whole rectangle.

use std::mem;

use super::CELL_BYTES;

/// What a reader keeps of a sheet that fills its whole rectangle.
#[derive(Default)]
pub(in crate::read) struct Spread {
    /// Rows from the first to the last with a cell that says something, even if it says
    /// that it is empty; and columns from the left of the sheet.
    first_row: Option<u32>,
    end_row: u32,
    end_column: u32,
    /// Bytes of what is written in the cells of the row being read.
    row_bytes: u64,
    bytes: u64,
}

impl Spread {
    /// Notes a cell of the row being read: bytes written in it, how often it is repeated, and
    /// the column after the last of them.
    pub(in crate::read) fn cell(&mut self, written: usize, repeat: u32, end: u32) {
        self.end_column = self.end_column.max(end);
        let bytes = (written as u64).saturating_mul(u64::from(repeat));
        self.row_bytes = self.row_bytes.saturating_add(bytes);
    }

    /// Notes the end of a row, which may be repeated.
    pub(in crate::read) fn row(&mut self, first: u32, end: u32) {
        let bytes = mem::take(&mut self.row_bytes);
        if bytes > 0 {
            self.first_row.get_or_insert(first);
            self.end_row = end;
            let times = u64::from(end - first);
            self.bytes = self.bytes.saturating_add(bytes.saturating_mul(times));
        }
    }

    /// What the sheet takes, with each text kept twice.
    pub(in crate::read) fn whole(self) -> u64 {
        let rows = self.first_row.map_or(0, |first| self.end_row - first);
        let cells = u64::from(rows) * u64::from(self.end_column);
        cells
            .saturating_mul(CELL_BYTES)
            .saturating_add(self.bytes.saturating_mul(2))
    }
}
