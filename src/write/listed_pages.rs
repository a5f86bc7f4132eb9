//! The pages of the workbook: one list, in its order.
//!
//! A page is a row of a list, [`PAGES`]: its name, what it is for, and its blocks. A block is
//! named by its table and its columns. Everything that shows pages is made from these rows:
//! `plan` gives every column its home and makes sheets of them, `workbook` writes the sheets,
//! and `pages` makes the records of `results.json` and the CSV files, a file a block.
//!
//! - Columns live on the first page that lists them; after it they are shown by reference.
//!   [`ListedBlock::living_elsewhere`] names those that a later page is the home of. What was
//!   measured lives on the sheet of its input table.
//! - A block whose table has no rows is left out, unless it is [`ListedBlock::always`] there;
//!   a page without blocks is left out.
//! - Columns that no page lists stand on the working pages, which name tables alone.
//! - Tables that are not of the graph, such as cautions, are listed as [`Fixed`].
//!
//! Always true: every name is that of a column, or a test fails.
//!
//! To add a page, add a row; to draw something below its blocks, add a word to `Below`.

mod built;
mod priced;
mod scenarios;
mod site;
mod work;
mod working;

use super::sheets::{Below, Fixed, Show};

/// The pages of the workbook, in its order.
pub(super) const PAGES: &[&[Page]] = &[
    priced::PAGES,
    scenarios::PAGES,
    site::PAGES,
    built::PAGES,
    work::PAGES,
    working::PAGES,
];

/// One page: its name, what stands under its title, and what it shows.
pub(super) struct Page {
    /// Its name.
    pub(super) name: &'static str,
    /// What it is for: one line below the title.
    pub(super) about: &'static str,
    /// What it shows.
    pub(super) shows: Shows,
    /// What is drawn or said below its blocks, or beside them.
    pub(super) below: Below,
}

/// What a page shows.
pub(super) enum Shows {
    /// The bid page: the block of its sections, with who, what and how much around it.
    Bid(&'static ListedBlock),
    /// Blocks, one below the other.
    Blocks(&'static [ListedBlock]),
    /// The input tables, a page each, under their own names.
    Inputs,
    /// A table that is not of the graph.
    Fixed(Fixed),
    /// What has no home yet: the columns of some tables.
    Rest(&'static [&'static str]),
    /// The same, and the columns of every other table.
    AllTheRest(&'static [&'static str]),
}

/// One block: its table, its title, its columns, those that are added up.
pub(super) struct ListedBlock {
    /// The table, by name.
    pub(super) table: &'static str,
    /// What stands above it.
    pub(super) title: &'static str,
    /// Its columns, by name; none for every computed column that has no home yet.
    pub(super) columns: &'static [&'static str],
    /// Those that a later page is the home of.
    pub(super) elsewhere: &'static [&'static str],
    /// What is said about each line, beside its columns.
    pub(super) said: &'static [Show],
    /// Columns whose totals stand below.
    pub(super) totals: &'static [&'static str],
    /// Whether the table's one row stands upright, a figure a line.
    pub(super) upright: bool,
    /// Whether it is there even without rows.
    pub(super) always: bool,
}

/// A page of a table that is not of the graph.
const fn fixed(name: &'static str, about: &'static str, table: Fixed) -> Page {
    Page {
        name,
        about,
        shows: Shows::Fixed(table),
        below: Below::Nothing,
    }
}

/// A working page: what has no home yet of some tables.
const fn rest(name: &'static str, about: &'static str, tables: &'static [&'static str]) -> Page {
    Page {
        name,
        about,
        shows: Shows::Rest(tables),
        below: Below::Nothing,
    }
}

/// A block of named columns, and those of them that are added up below.
const fn block(
    table: &'static str,
    title: &'static str,
    columns: &'static [&'static str],
    totals: &'static [&'static str],
) -> ListedBlock {
    ListedBlock {
        table,
        title,
        columns,
        elsewhere: &[],
        said: &[],
        totals,
        upright: false,
        always: false,
    }
}

/// A block of every figure of a table with one row that has no home yet, one a line.
const fn figures(table: &'static str, title: &'static str) -> ListedBlock {
    ListedBlock {
        upright: true,
        always: true,
        ..block(table, title, &[], &[])
    }
}

impl ListedBlock {
    /// Columns that a later page is the home of.
    const fn living_elsewhere(self, elsewhere: &'static [&'static str]) -> Self {
        Self { elsewhere, ..self }
    }

    /// What is said about each line, beside its columns.
    const fn saying(self, said: &'static [Show]) -> Self {
        Self { said, ..self }
    }

    /// There even without rows.
    const fn always(self) -> Self {
        Self {
            always: true,
            ..self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{ListedBlock, PAGES, Shows};
    use crate::estimate::estimate;
    use crate::{job, read};

    #[test]
    fn every_name_on_the_pages_is_that_of_a_table_or_a_column() {
        let tables = [
            ("Job", "Key,Value\nName,A\nUnits,US customary\nSoil,clay\n"),
            (
                "Other items",
                "Item,Section,Description,Unit,Times\nA-1,S,D,ea,1\n",
            ),
            ("Scenarios", "Scenario\nOthers\n"),
        ];
        let (job_file, _) = read::from_texts("a", &tables).unwrap();
        let job = job::from_file(&job_file).job.unwrap();
        let graph = estimate(job).graph;
        let is_column = |block: &ListedBlock| {
            for name in block.columns.iter().chain(block.totals) {
                let (table, found) = (block.table, graph.find(block.table, name));
                assert!(found.is_some(), "{table}: {name}");
            }
            for name in block.elsewhere {
                assert!(block.columns.contains(name), "{}: {name}", block.table);
            }
        };
        let is_table = |name: &str| {
            let mut tables = graph.tables();
            assert!(tables.any(|id| graph.table(id).name == name), "{name}");
        };
        for page in PAGES.iter().copied().flatten() {
            match page.shows {
                Shows::Bid(block) => is_column(block),
                Shows::Blocks(blocks) => {
                    for block in blocks {
                        is_table(block.table);
                        is_column(block);
                    }
                }
                Shows::Rest(tables) | Shows::AllTheRest(tables) => {
                    for name in tables {
                        is_table(name);
                    }
                }
                Shows::Inputs | Shows::Fixed(_) => {}
            }
        }
    }
}
