//! Zones: the basin, the fall or the part of the site that a line stands in.
//!
//! Always true: a line is in the zone of the row that it was taken off in, or in none.

use crate::graph::{Cell, ColumnId, Graph, Piece, Table};
use crate::job::tables::{
    Basins, Courses, Edges, Falls, Layers, Loose, OtherItems, Planting, Structures, Timber,
};
use crate::tables::Cuts;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::line::Line;

/// The words that name the zone of a line; empty where it is in none.
pub(super) fn zone(graph: &Graph, inputs: &AllInputs, line: &Line) -> Vec<Piece> {
    let Cell { column, row } = line.quantity;
    let table = graph.table(graph.column(column).table);
    let words = |id: ColumnId| vec![Piece::Cell(id.at(row))];
    match table.name {
        Basins::NAME => words(inputs.id(Basins::Basin)),
        Structures::NAME => words(inputs.id(Structures::StructureBasin)),
        Layers::NAME => {
            let basin = inputs.id(Layers::LayerBasin);
            let in_basin = graph.is_filled(basin.at(row));
            words(if in_basin {
                basin
            } else {
                inputs.id(Layers::LayerFall)
            })
        }
        Falls::NAME => words(inputs.id(Falls::Fall)),
        Courses::NAME => words(inputs.id(Courses::CourseFall)),
        Edges::NAME => words(inputs.id(Edges::EdgeBasin)),
        Loose::NAME => words(inputs.id(Loose::LooseBasin)),
        Timber::NAME => words(inputs.id(Timber::TimberBasin)),
        Planting::NAME => words(inputs.id(Planting::PlantingBasin)),
        OtherItems::NAME => words(inputs.id(OtherItems::ItemZone)),
        Cuts::NAME => table.label.map(words).unwrap_or_default(),
        _ => Vec::new(),
    }
}
