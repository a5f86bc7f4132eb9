//! Pages by the names of their columns: what is built, what is worked, and who does what.
//!
//! A page is a list of blocks, and a block a list of column names of one table. A measured
//! column is shown by reference, a computed one lives here. A block whose table has no rows
//! is left out. Always true: every name is that of a column, or a test fails.

mod built;
mod scenarios;

use super::plan::Planner;
use super::sheets::{Block, Body, SheetPlan, Show};
use crate::graph::ColumnId;
use built::BUILT_PAGES;
use scenarios::{ACTIVITIES, SCENARIO_PAGES};

/// One page: its name, what stands under its title, its blocks.
pub(super) struct ListedPage {
    pub(super) name: &'static str,
    about: &'static str,
    blocks: &'static [ListedBlock],
}

/// One block: its table, its title, its columns, those that are added up.
struct ListedBlock {
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
) -> ListedBlock {
    ListedBlock {
        table,
        title,
        columns,
        totals,
    }
}

/// The page that carries the drawings of the falls.
pub(super) const FALLS_DRAWN: &str = "Falls drawn";

/// The page of scenarios that a board can read.
pub(super) const WHO_DOES_WHAT: &str = "Who does what";

impl Planner<'_> {
    /// The pages of what is built, those without anything on them left out.
    pub(super) fn built(&mut self) -> Vec<SheetPlan> {
        self.listed(&BUILT_PAGES)
    }

    /// The page of what is worked.
    pub(super) fn activities(&mut self) -> Vec<SheetPlan> {
        self.listed(&[ACTIVITIES])
    }

    /// The pages of scenarios; none where the job has none.
    pub(super) fn scenarios(&mut self) -> Vec<SheetPlan> {
        self.listed(&SCENARIO_PAGES)
    }

    fn listed(&mut self, pages: &[ListedPage]) -> Vec<SheetPlan> {
        let pages = pages.iter().map(|page| SheetPlan {
            name: page.name,
            about: page.about,
            body: Body::Blocks(self.listed_blocks(page)),
        });
        pages
            .filter(|page| matches!(&page.body, Body::Blocks(blocks) if !blocks.is_empty()))
            .collect()
    }

    fn listed_blocks(&mut self, page: &ListedPage) -> Vec<Block> {
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
    use super::{ACTIVITIES, BUILT_PAGES, SCENARIO_PAGES};
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
            ("Scenarios", "Scenario\nOthers\n"),
        ];
        let (source, _) = read::from_texts("a", &tables).unwrap();
        let job = job::from_source(&source).job.unwrap();
        let graph = estimate(job).graph;
        let pages = BUILT_PAGES
            .iter()
            .chain([&ACTIVITIES])
            .chain(&SCENARIO_PAGES);
        for block in pages.flat_map(|page| page.blocks) {
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
