//! What a sheet is made of: blocks of columns, or a page of its own kind.

use crate::graph::{ColumnId, TableId};

/// What one column of a block shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Show {
    /// A column that lives here.
    Home(ColumnId),
    /// A column that lives elsewhere, by reference.
    Copy(ColumnId),
    /// The rule of the line's quantity, in words.
    Working,
    /// Where that rule is published.
    Source,
    /// The cell that the line's quantity comes from.
    From,
}

impl Show {
    /// The heading of a column that is not of the graph.
    pub(super) fn heading(self) -> &'static str {
        match self {
            Show::Home(_) | Show::Copy(_) => "",
            Show::Working => WORKING,
            Show::Source => SOURCE,
            Show::From => "From",
        }
    }
}

const WORKING: &str = "How it is worked out";
const SOURCE: &str = "Source";
/// The headings of an upright block, and their widths.
pub(super) const UPRIGHT: [(&str, f64); 5] = [
    ("Figure", 34.0),
    ("Value", 15.0),
    ("Unit", 15.0),
    (WORKING, 50.0),
    (SOURCE, 44.0),
];

/// A table, or part of one, on a sheet.
#[derive(Clone, Debug)]
pub struct Block {
    /// The table.
    pub table: TableId,
    /// What stands above it.
    pub title: String,
    /// Row of the headings, from zero; units stand below it, data below them. In an
    /// upright block, the row above the first figure.
    pub heading: u32,
    /// Its columns, or its rows where it stands upright.
    pub columns: Vec<Show>,
    /// Whether the table's one row stands upright: name, value, unit, working, source.
    pub upright: bool,
    /// Columns whose totals stand below.
    pub totals: Vec<ColumnId>,
}

/// What a sheet holds.
#[derive(Clone, Debug)]
pub enum Body {
    /// An input table, by its position in `TABLES`.
    Input(usize),
    /// Blocks, one below the other, and what stands below them or beside them.
    Blocks(Vec<Block>, Below),
    /// The bid page: the block of sections, and fixed cells around it.
    Bid(Block),
    /// A table that is not of the graph.
    Fixed(Fixed),
}

/// What is drawn or said below the blocks of a page, or beside them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Below {
    /// Nothing.
    Nothing,
    /// The cross-sections of basins, drawn.
    Sections,
    /// The long sections of falls, drawn.
    Falls,
    /// The balance of earthwork, drawn.
    Balance,
    /// What a board wants to know of scenarios, said and drawn.
    Scenarios,
    /// The defaults that move the bid most, a table that is not of the graph.
    Defaults,
}

/// A table that is not of the graph.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fixed {
    /// The factors.
    Factors,
    /// The usual cautions.
    Cautions,
    /// Every limit.
    Checks,
    /// Every input column, checked as it is typed.
    Typed,
    /// What is watched.
    Changes,
    /// Sources.
    Sources,
    /// The defaults that move the bid most.
    Defaults,
}

/// One sheet.
#[derive(Clone, Debug)]
pub struct SheetPlan {
    /// Its name.
    pub name: &'static str,
    /// One line below the title.
    pub about: &'static str,
    /// What it holds.
    pub body: Body,
    /// Whether it is one of those that show every step.
    pub is_working: bool,
}

/// The first row of data below a block's headings and units.
pub(super) const DATA: u32 = 2;
/// The row of the first block's headings: title, description, blank above it.
pub(super) const FIRST: u32 = 3;
/// The row of the first limit, and of the first watched thing, below their headings.
pub(super) const ROWS: u32 = FIRST + 1;
/// The row of the headings of the sections on the bid page.
pub(super) const BID_SECTIONS: u32 = 17;
/// Row and column of the cell of the bid page in which the scenario in use is chosen.
pub(super) const SCENARIO: (u32, u16) = (8, 1);
