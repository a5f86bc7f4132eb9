//! The cross-section of every basin as points: what the workbook draws, over live cells.
//!
//! Points run from the left rim down over the shelves, along the floor and up again,
//! across the width. Depth is counted down from the rim.

use super::basins::Finished;
use super::inputs::AllInputs;
use crate::graph::{Cell, Column, ColumnId, Graph, Piece, Table, Text};
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::units::System;

/// One point of a cross-section.
#[derive(Debug)]
pub enum SectionPoints {}

impl Table for SectionPoints {
    const NAME: &'static str = "Section points";
    const ROW: &'static str = "point";
}

/// Columns of the points, and which rows belong to which basin.
#[derive(Clone, Debug)]
pub struct PointColumns {
    /// The basin's name.
    pub basin: Text<SectionPoints>,
    /// Distance across the width.
    pub across: Column<SectionPoints>,
    /// Depth of the finished surface below the rim.
    pub finished: Column<SectionPoints>,
    /// Depth of the dug surface.
    pub dug: Column<SectionPoints>,
    /// Where the water's surface meets the sides: the first two rows of each basin.
    pub water_across: Column<SectionPoints>,
    /// Depth of the water's surface there.
    pub water: Column<SectionPoints>,
    /// First row and number of rows of each basin.
    pub rows_of: Vec<(usize, usize)>,
}

/// Where a point's values stand: left side, right side, finished and dug depth.
struct Corner {
    left: Cell,
    right: Cell,
    finished: Cell,
    dug: Cell,
}

/// Adds the points of every basin. `basin_of` is the basin's row of each shelf.
pub fn points(
    graph: &mut Graph,
    inputs: &AllInputs,
    finished: &Finished,
    basin_of: &[usize],
    system: System,
) -> PointColumns {
    let build_up = inputs.basins.number(Basins::BuildUp);
    let mut rules = graph.rules::<Basins>();
    let mut basin = |name: &str, term: crate::graph::Term<Basins>| {
        rules
            .step(name, system.length(), &sources::GEOMETRY, term)
            .id
    };
    let rim = [
        basin("section: left rim", finished.width * 0.0),
        basin("section: right rim", finished.width.into()),
        basin("section: rim", finished.depth * 0.0),
        basin("section: rim, dug", build_up.into()),
    ];
    let floor_left = (finished.width - finished.floor_width) / 2.0;
    let floor = [
        basin("section: floor left", floor_left),
        basin(
            "section: floor right",
            (finished.width + finished.floor_width) / 2.0,
        ),
        finished.depth.id,
        basin("section: floor, dug", finished.depth + build_up),
    ];
    let shore = [
        basin("section: left shore", finished.rim_side * finished.surface),
        basin(
            "section: right shore",
            finished.width - finished.rim_side * finished.surface,
        ),
    ];
    let shelf = shelf_columns(graph, inputs, finished, system);
    let mut cells: Vec<(usize, [Cell; 3])> = Vec::new();
    let mut rows_of = Vec::new();
    let basins = graph
        .table_of::<Basins>()
        .map_or(0, |table| graph.table(table).rows);
    for row in 0..basins {
        let corner = |columns: [ColumnId; 4], row: usize| Corner {
            left: Cell {
                column: columns[0],
                row,
            },
            right: Cell {
                column: columns[1],
                row,
            },
            finished: Cell {
                column: columns[2],
                row,
            },
            dug: Cell {
                column: columns[3],
                row,
            },
        };
        let mut corners = vec![corner(rim, row)];
        for (shelf_row, _) in basin_of
            .iter()
            .enumerate()
            .filter(|(_, basin)| **basin == row)
        {
            corners.push(corner(shelf[0], shelf_row));
            corners.push(corner(shelf[1], shelf_row));
        }
        corners.push(corner(floor, row));
        let first = cells.len();
        cells.extend(corners.iter().map(|c| (row, [c.left, c.finished, c.dug])));
        cells.extend(
            corners
                .iter()
                .rev()
                .map(|c| (row, [c.right, c.finished, c.dug])),
        );
        rows_of.push((first, cells.len() - first));
    }
    gathered(graph, inputs, (finished, shore), &cells, rows_of, system)
}

/// Left, right, finished and dug depth at the outside and at the inside of each shelf.
fn shelf_columns(
    graph: &mut Graph,
    inputs: &AllInputs,
    finished: &Finished,
    system: System,
) -> [[ColumnId; 4]; 2] {
    let width = inputs.shelves.number(Shelves::ShelfWidth);
    let depth = inputs.shelves.number(Shelves::ShelfDepth);
    let build_up = inputs.basins.number(Basins::BuildUp);
    let (link, inner) = (finished.shelf_basin, finished.shelf_inner_width);
    let mut rules = graph.rules::<Shelves>();
    let mut shelf = |name: &str, term: crate::graph::Term<Shelves>| {
        rules
            .step(name, system.length(), &sources::GEOMETRY, term)
            .id
    };
    let rim = || link.of(finished.width);
    let dug = shelf("section: shelf, dug", depth + link.of(build_up));
    let level = shelf("section: shelf", depth.into());
    let outside = [
        shelf("section: outside left", (rim() - inner) / 2.0 - width),
        shelf("section: outside right", (rim() + inner) / 2.0 + width),
        level,
        dug,
    ];
    let inside = [
        shelf("section: inside left", (rim() - inner) / 2.0),
        shelf("section: inside right", (rim() + inner) / 2.0),
        level,
        dug,
    ];
    [outside, inside]
}

fn gathered(
    graph: &mut Graph,
    inputs: &AllInputs,
    (finished, shore): (&Finished, [ColumnId; 2]),
    cells: &[(usize, [Cell; 3])],
    rows_of: Vec<(usize, usize)>,
    system: System,
) -> PointColumns {
    graph.add_table::<SectionPoints>(cells.len());
    let name = inputs.basins.words(Basins::Basin).id;
    let mut rules = graph.rules::<SectionPoints>();
    let names = cells
        .iter()
        .map(|(row, _)| {
            vec![Piece::Cell(Cell {
                column: name,
                row: *row,
            })]
        })
        .collect();
    let basin = rules.gathered_words("basin", names);
    rules.labelled_by(basin);
    let mut column = |name: &str, which: usize| {
        rules.gathered(
            name,
            system.length(),
            cells.iter().map(|(_, cells)| Some(cells[which])).collect(),
        )
    };
    let across = column("across", 0);
    let finished_depth = column("finished", 1);
    let dug = column("dug", 2);
    let mut shores = vec![None; cells.len()];
    let mut levels = vec![None; cells.len()];
    for (row, (first, _)) in rows_of.iter().enumerate() {
        for (side, shore) in shore.iter().enumerate() {
            shores[first + side] = Some(Cell {
                column: *shore,
                row,
            });
            levels[first + side] = Some(Cell {
                column: finished.surface.id,
                row,
            });
        }
    }
    let water_across = rules.gathered("water, across", system.length(), shores);
    let water = rules.gathered("water", system.length(), levels);
    PointColumns {
        basin,
        across,
        finished: finished_depth,
        dug,
        water_across,
        water,
        rows_of,
    }
}
