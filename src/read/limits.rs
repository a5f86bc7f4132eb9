//! How large a file may be, and why: a job of a builder stays far below every limit.
//!
//! Always true: no reader keeps more than these limits allow, whatever a file
//! declares about itself, so that a damaged or hostile file ends in a message and
//! never in a full memory.

/// Rows of a sheet. A survey of a very large site has about 100,000 points.
pub const ROWS: u32 = 250_000;

/// Columns of a sheet. The widest table of a job has fewer than 40.
pub const COLUMNS: u32 = 512;

/// Cells of a file with content, over all sheets: about 400 MB in memory.
pub const CELLS: usize = 8_000_000;

/// Sheets of a workbook, or files of a folder. A job has about 20.
pub const SHEETS: usize = 200;

/// Text of all cells together, in bytes. One shared text may stand in millions of
/// cells, so that a small file could fill any memory.
pub const TEXT_BYTES: usize = 512 << 20;

/// Characters of one cell, counted as spreadsheet programs do. A cell of a workbook
/// holds 32,767; what the pages put around a text needs some room.
pub const CELL_TEXT: usize = 30_000;

/// Size of a file on disk. It is held in memory while it is read.
pub const FILE_BYTES: u64 = 512 << 20;

/// Declared size of one unpacked part of a workbook.
pub const PART_BYTES: u64 = 1 << 30;

/// Declared size of all unpacked parts of a workbook.
pub const UNPACKED_BYTES: u64 = 2 << 30;

/// Memory that a cross-check may take for rectangles of cells, filled or not: about
/// two million cells. A larger workbook is read once.
pub const CROSS_CHECK_BYTES: u64 = 256 << 20;

/// Unpacked bytes for each packed byte. Sheets of equal cells reach about 200, and
/// the packing itself cannot pass 1,032, which only a part made of one repeated
/// byte comes near.
pub const EXPANSION: u64 = 500;

/// Parts below this size may expand as they like: they cannot hurt.
pub const EXPANSION_FREE_BYTES: u64 = 16 << 20;
