//! Makes the sheets of one estimate of the list of pages: which column stands where, and
//! which pages and blocks are there.
//!
//! Always true: every computed column is given a home once; a column that no page asks
//! for stands on the working sheet of its table, at most [`WIDEST`] side by side.

use super::listed_pages::{ListedBlock, PAGES, Page, Shows};
use super::sheets::{BID_SECTIONS, Block, Body, DATA, FIRST, SheetPlan, Show};
use crate::estimate::Estimate;
use crate::graph::{ColumnId, Graph, Kind, Table, TableId};
use crate::job::tables::TABLES;
use crate::tables::Factors;

/// Most columns side by side, so that a page fits the width of paper.
const WIDEST: usize = 11;

/// The sheets of an estimate's workbook, in order.
pub(super) fn sheets(estimate: &Estimate) -> Vec<SheetPlan> {
    let graph = &estimate.graph;
    let mut planner = Planner {
        graph,
        taken: vec![false; graph.columns().count()],
    };
    let pages = PAGES.iter().copied().flatten();
    pages.flat_map(|page| planner.page(page)).collect()
}

/// Gives columns their homes, one after the other.
struct Planner<'e> {
    graph: &'e Graph,
    taken: Vec<bool>,
}

impl Planner<'_> {
    /// The sheets of a page: none where it would be empty, one for each input table.
    fn page(&mut self, page: &Page) -> Vec<SheetPlan> {
        let sheet = |name, about, body| SheetPlan {
            name,
            about,
            body,
            is_working: matches!(page.shows, Shows::Rest(_) | Shows::AllTheRest(_)),
        };
        let body = match page.shows {
            Shows::Inputs => {
                let tables = TABLES.iter().enumerate();
                let own =
                    tables.map(|(at, table)| sheet(table.name, table.guidance, Body::Input(at)));
                return own.collect();
            }
            Shows::Bid(sections) => self.block(sections).map(|block| {
                Body::Bid(Block {
                    heading: BID_SECTIONS,
                    ..block
                })
            }),
            Shows::Blocks(blocks) => {
                let blocks: Vec<_> = blocks
                    .iter()
                    .filter_map(|block| self.block(block))
                    .collect();
                (!blocks.is_empty()).then(|| Body::Blocks(self.stacked(blocks), page.below))
            }
            Shows::Fixed(table) => Some(Body::Fixed(table)),
            Shows::Rest(tables) => Some(Body::Blocks(self.rest(tables, false), page.below)),
            Shows::AllTheRest(tables) => Some(Body::Blocks(self.rest(tables, true), page.below)),
        };
        let made = body.map(|body| sheet(page.name, page.about, body));
        made.into_iter().collect()
    }

    fn table(&self, name: &str) -> Option<TableId> {
        let mut tables = self.graph.tables();
        tables.find(|id| self.graph.table(*id).name == name)
    }

    /// A block as it is listed; none where its table has no rows.
    fn block(&mut self, listed: &ListedBlock) -> Option<Block> {
        let table = self.table(listed.table)?;
        if self.graph.table(table).rows == 0 && !listed.always {
            return None;
        }
        let find = |name: &&str| self.graph.find(listed.table, name);
        let totals = listed.totals.iter().filter_map(find).collect();
        let elsewhere: Vec<ColumnId> = listed.elsewhere.iter().filter_map(find).collect();
        let named: Vec<ColumnId> = listed.columns.iter().filter_map(find).collect();
        let columns = if listed.columns.is_empty() {
            self.homeless(table)
        } else {
            named
        };
        let mut shown = Vec::new();
        for id in columns {
            let lives_here = self.is_homeless(id) && !elsewhere.contains(&id);
            shown.push(if lives_here {
                self.home(id)
            } else {
                Show::Copy(id)
            });
        }
        shown.extend(listed.said);
        Some(Block {
            table,
            title: listed.title.to_owned(),
            heading: 0,
            columns: shown,
            upright: listed.upright,
            totals,
        })
    }

    /// Whether a column needs a home and has none. What was measured lives on the sheet of
    /// its input table, and factors on theirs.
    fn is_homeless(&self, id: ColumnId) -> bool {
        let column = self.graph.column(id);
        let table = self.graph.table(column.table).name;
        let is_ours = match column.kind {
            Kind::Words { .. } => !TABLES.iter().any(|known| known.name == table),
            Kind::Brought(_) | Kind::Solved(_) => table != Factors::NAME,
            _ => false,
        };
        (column.is_computed() || is_ours) && !self.taken[id.0]
    }

    fn homeless(&self, table: TableId) -> Vec<ColumnId> {
        let columns = self.graph.columns_of(table);
        columns.filter(|id| self.is_homeless(*id)).collect()
    }

    fn home(&mut self, id: ColumnId) -> Show {
        self.taken[id.0] = true;
        Show::Home(id)
    }

    /// Blocks for all columns of some tables that have no home yet; then for those of every
    /// table, where this is the last page for them.
    fn rest(&mut self, tables: &[&str], is_last: bool) -> Vec<Block> {
        let named = tables.iter().filter_map(|name| self.table(name));
        let mut tables: Vec<TableId> = named.collect();
        if is_last {
            let every = self.graph.tables();
            tables.extend(every.filter(|id| self.graph.table(*id).name != Factors::NAME));
        }
        let mut blocks = Vec::new();
        for table in tables {
            let is_limit = |id: &ColumnId| matches!(self.graph.column(*id).kind, Kind::Limit(..));
            let columns = self.homeless(table).into_iter();
            let (checks, steps): (Vec<_>, Vec<_>) = columns.partition(is_limit);
            for (what, columns) in [("working", steps), ("checks", checks)] {
                for (part, chunk) in columns.chunks(WIDEST).enumerate() {
                    blocks.push(self.part(table, (what, part), chunk));
                }
            }
        }
        self.stacked(blocks)
    }

    /// One of the blocks that the columns of a table are divided among.
    fn part(&mut self, table: TableId, (what, part): (&str, usize), columns: &[ColumnId]) -> Block {
        let info = self.graph.table(table);
        let more = if part == 0 { "" } else { ", continued" };
        // What names a row stands before its figures, by reference.
        let label = info.label.filter(|label| !columns.contains(label));
        let mut shown: Vec<Show> = label.map(Show::Copy).into_iter().collect();
        shown.extend(columns.iter().map(|id| self.home(*id)));
        Block {
            table,
            title: format!("{}: {what}{more}", info.name),
            heading: 0,
            columns: shown,
            upright: false,
            totals: Vec::new(),
        }
    }

    /// The blocks one below the other.
    fn stacked(&self, mut blocks: Vec<Block>) -> Vec<Block> {
        let mut heading = FIRST;
        for block in &mut blocks {
            block.heading = heading;
            heading = self.end_of(block) + 3;
        }
        blocks
    }

    /// The last row that a block uses.
    fn end_of(&self, block: &Block) -> u32 {
        let rows = u32::try_from(self.graph.table(block.table).rows)
            .unwrap_or(u32::MAX)
            .max(1);
        let upright = u32::try_from(block.columns.len()).unwrap_or(u32::MAX);
        if block.upright {
            block.heading + upright
        } else {
            block.heading + DATA + rows - 1 + u32::from(!block.totals.is_empty())
        }
    }
}
