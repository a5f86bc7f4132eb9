//! The pages of what is built, by the names of their columns: sheets, stone, structures,
//! lifts, loose stone and plants.
//!
//! A page is a list of blocks, and a block a list of column names of one table. A measured
//! column is shown by reference, a computed one lives here. A block whose table has no rows
//! is left out. Always true: every name is that of a column, or a test fails.

mod list;

use super::plan::Planner;
use super::sheets::{Block, Body, SheetPlan, Show};
use crate::graph::ColumnId;
use list::BUILT_PAGES;

/// One page: its name, what stands under its title, its blocks.
pub(super) struct BuiltPage {
    pub(super) name: &'static str,
    about: &'static str,
    blocks: &'static [BuiltBlock],
}

/// One block: its table, its title, its columns, those that are added up.
struct BuiltBlock {
    table: &'static str,
    title: &'static str,
    columns: &'static [&'static str],
    totals: &'static [&'static str],
}

const fn block(
    table: &'static str,
    title: &'static str,
    columns: &'static [&'static str],
    totals: &'static [&'static str],
) -> BuiltBlock {
    BuiltBlock {
        table,
        title,
        columns,
        totals,
    }
}

/// The page that carries the drawings of the falls.
pub(super) const FALLS_DRAWN: &str = "Falls drawn";

impl Planner<'_> {
    /// The pages of what is built, those without anything on them left out.
    pub(super) fn built(&mut self) -> Vec<SheetPlan> {
        let pages = BUILT_PAGES.iter();
        let pages = pages.map(|page| SheetPlan {
            name: page.name,
            about: page.about,
            body: Body::Blocks(self.built_blocks(page)),
        });
        pages
            .filter(|page| matches!(&page.body, Body::Blocks(blocks) if !blocks.is_empty()))
            .collect()
    }

    fn built_blocks(&mut self, page: &BuiltPage) -> Vec<Block> {
        let mut blocks = Vec::new();
        for block in page.blocks {
            let find = |name: &&str| self.graph().find(block.table, name);
            let columns: Vec<ColumnId> = block.columns.iter().filter_map(find).collect();
            let totals = block.totals.iter().filter_map(find).collect();
            let Some(first) = columns.first() else {
                continue;
            };
            let table = self.graph().column(*first).table;
            if self.graph().table(table).rows == 0 {
                continue;
            }
            let columns: Vec<Show> = columns.into_iter().map(|id| self.shown_here(id)).collect();
            self.place(
                &mut blocks,
                Block {
                    table,
                    title: block.title.to_owned(),
                    heading: 0,
                    columns,
                    upright: false,
                    totals,
                },
            );
        }
        blocks
    }

    /// A computed column without a home lives here; every other is shown by reference.
    fn shown_here(&mut self, id: ColumnId) -> Show {
        if self.graph().column(id).is_computed() && !self.is_taken(id) {
            self.homes(&[id])[0]
        } else {
            Show::Copy(id)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::BUILT_PAGES;
    use crate::estimate::estimate;
    use crate::{job, read};

    #[test]
    fn every_name_on_the_pages_is_that_of_a_column() {
        let tables = [
            ("Job", "Key,Value\nName,A\nUnits,US customary\nSoil,clay\n"),
            (
                "Other items",
                "Item,Section,Description,Unit,Times\nA-1,S,D,ea,1\n",
            ),
        ];
        let (source, _) = read::from_texts("a", &tables).unwrap();
        let job = job::from_source(&source).job.unwrap();
        let graph = estimate(job).graph;
        for block in BUILT_PAGES.iter().flat_map(|page| page.blocks) {
            for name in block.columns.iter().chain(block.totals) {
                assert!(
                    graph.find(block.table, name).is_some(),
                    "{}: {name}",
                    block.table
                );
            }
        }
    }
}
