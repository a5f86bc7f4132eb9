//! Everything that is built into and around basins, in building order.
//!
//! One place says in which order the parts of the take-off are worked out, because each
//! reads those before it, and in which order their lines stand in the bid.

use super::basis::Basis;
use super::cuts;
use super::deliveries;
use super::edges::{EdgeColumns, edges};
use super::falls::falls;
use super::lifts::lifts;
use super::line::Line;
use super::lining::{LiningColumns, lining};
use super::loose::{LooseColumns, loose};
use super::planting::{PlantingColumns, planting};
use super::structures::{StructureColumns, structures};
use super::timber::{TimberColumns, timber};
use super::uplift;
use super::water;
use crate::graph::Graph;

/// The columns of everything that is built.
#[derive(Debug)]
pub struct Built {
    /// Vaults, void crates, weir boxes, walls that are kept.
    pub structures: StructureColumns,
    /// Lines of waterfalls, streams and rock edges, course by course.
    falls: Vec<Line>,
    /// Liner and fabric.
    pub lining: LiningColumns,
    /// Gravel and loose stone.
    pub loose: LooseColumns,
    /// Logs.
    pub timber: TimberColumns,
    /// Soil and plants.
    pub planting: PlantingColumns,
    /// Parts of rims.
    pub edges: EdgeColumns,
}

/// Adds everything that is built.
pub fn built(graph: &mut Graph, basis: &Basis<'_>) -> Built {
    let structures = structures(graph, basis);
    let falls = falls(graph, basis);
    let lining = lining(graph, basis);
    let loose = loose(graph, basis);
    let timber = timber(graph, basis);
    let planting = planting(graph, basis);
    let edges = edges(graph, basis);
    lifts(graph);
    graph.make_list(cuts::RULES);
    graph.make_list(uplift::RULES);
    graph.make_list(deliveries::RULES);
    graph.make_list(water::RULES);
    Built {
        structures,
        falls,
        lining,
        loose,
        timber,
        planting,
        edges,
    }
}

impl Built {
    /// The lines of everything that is built, in building order.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        [
            self.structures.lines(graph),
            self.lining.lines(graph),
            self.falls.clone(),
            self.loose.lines(graph),
            self.timber.lines(graph),
            self.planting.lines(graph),
            self.edges.lines(graph),
        ]
        .concat()
    }
}
