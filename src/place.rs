//! Where a value came from: a cell of a workbook, or a line and column of a text file.
//!
//! Always true: a place is made where the value is first read and travels with it;
//! it is never rebuilt later. Rows and columns are counted from zero inside, and
//! shown the way people see them: `E4`, or `line 4, column 5`.

use std::fmt;
use std::sync::Arc;

use serde::{Serialize, Serializer};

use crate::shown::visible;

/// How positions in a source are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grid {
    /// A workbook: cells such as `E4`.
    Workbook,
    /// A text file: `line 4, column 5`.
    Lines,
}

/// A place in the user's own file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// File name without its folders, as the user would say it. Empty for tables built in memory.
    pub file: Arc<str>,
    /// Sheet name; empty for a text file, whose own name is enough.
    pub sheet: Arc<str>,
    /// Row and column from zero; `None` where the whole sheet or file is meant.
    pub cell: Option<(u32, u32)>,
    /// How the position is shown.
    pub grid: Grid,
}

impl Place {
    /// A whole file.
    #[must_use]
    pub fn file(file: &str) -> Self {
        Self {
            file: file.into(),
            sheet: "".into(),
            cell: None,
            grid: Grid::Workbook,
        }
    }

    /// A whole sheet of a workbook.
    #[must_use]
    pub fn sheet(file: &str, sheet: &str) -> Self {
        Self {
            sheet: sheet.into(),
            ..Self::file(file)
        }
    }

    /// The same sheet, at one cell (row and column from zero).
    #[must_use]
    pub fn at(&self, row: u32, column: u32) -> Self {
        Self {
            cell: Some((row, column)),
            ..self.clone()
        }
    }
}

/// The letters of a spreadsheet column: 0 is `A`, 26 is `AA`.
#[must_use]
pub fn column_letters(column: u32) -> String {
    let mut letters = String::new();
    push_letters(column, &mut letters);
    letters
}

/// Appends [`column_letters`].
pub(crate) fn push_letters(column: u32, out: &mut String) {
    if column >= 26 {
        push_letters(column / 26 - 1, out);
    }
    out.push(char::from(b'A' + u8::try_from(column % 26).unwrap_or(0)));
}

/// Appends a whole number: formulas hold so many that formatting each would cost time.
pub(crate) fn push_whole(number: u64, out: &mut String) {
    if number >= 10 {
        push_whole(number / 10, out);
    }
    out.push(char::from(b'0' + u8::try_from(number % 10).unwrap_or(0)));
}

/// A cell address such as `E4`, from a row and a column counted from zero.
#[must_use]
pub fn cell_name(row: u32, column: u32) -> String {
    format!("{}{}", column_letters(column), u64::from(row) + 1)
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut gap = "";
        if !self.file.is_empty() {
            f.write_str(&visible(&self.file))?;
            gap = ", ";
        }
        if !self.sheet.is_empty() {
            write!(f, "{gap}sheet {}", visible(&self.sheet))?;
            gap = ", ";
        }
        match (self.cell, self.grid) {
            (Some((row, column)), Grid::Workbook) => {
                write!(f, "{gap}cell {}", cell_name(row, column))
            }
            (Some((row, column)), Grid::Lines) => {
                write!(
                    f,
                    "{gap}line {}, column {}",
                    u64::from(row) + 1,
                    u64::from(column) + 1
                )
            }
            (None, _) => Ok(()),
        }
    }
}

impl Serialize for Place {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_read_the_way_people_say_them() {
        let sheet = Place::sheet("garden.xlsx", "Basins");
        assert_eq!(
            sheet.at(3, 4).to_string(),
            "garden.xlsx, sheet Basins, cell E4"
        );
        let line = Place {
            grid: Grid::Lines,
            ..Place::file("Basins.csv")
        };
        assert_eq!(line.at(3, 4).to_string(), "Basins.csv, line 4, column 5");
        assert_eq!(column_letters(25), "Z");
        assert_eq!(column_letters(26), "AA");
        assert_eq!(column_letters(16_383), "XFD");
    }
}
