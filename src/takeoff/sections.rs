//! The cross-section of every basin as points: what the workbook draws, over live cells.
//!
//! Points run from the left rim down over the shelves, along the floor and up again,
//! across the width. Depth is counted down from the rim. The dug line is the cut that is
//! priced: the dug shape up to the ground, or, where people enter, the pit with its room
//! and lay-back.

use super::basins::Finished;
use super::excavation::Dug;
use super::inputs::AllInputs;
use crate::graph::prelude::*;
use crate::graph::{Cell, Column, ColumnId, Graph, Piece, Rules, Term, Text, when};
use crate::job::tables::{Basins, Shelves};
use crate::tables::SectionPoints;
use crate::units::System;

/// Columns of the points, and which rows belong to which basin.
#[derive(Clone, Debug)]
pub struct PointColumns {
    /// The basin's name.
    pub basin: Text<SectionPoints>,
    /// Distance across the width.
    pub across: Column<SectionPoints>,
    /// Depth of the finished surface below the rim.
    pub finished: Column<SectionPoints>,
    /// Distance across of the cut.
    pub dug_across: Column<SectionPoints>,
    /// Depth of the cut.
    pub dug: Column<SectionPoints>,
    /// Where the water's surface meets the sides: the first two rows of each basin.
    pub water_across: Column<SectionPoints>,
    /// Depth of the water's surface there.
    pub water: Column<SectionPoints>,
    /// First row and number of rows of each basin.
    pub rows_of: Vec<(usize, usize)>,
}

/// Where a point's values stand: of the finished surface its left side, right side and
/// depth; of the cut the same.
type Corner = [ColumnId; 6];

/// Adds the points of every basin. `basin_of` is the basin's row of each shelf.
pub fn points(
    graph: &mut Graph,
    inputs: &AllInputs,
    (finished, dug): (&Finished, &Dug),
    basin_of: &[usize],
    system: System,
) -> PointColumns {
    let mut rules = graph.rules::<Basins>();
    let rim = rim(&mut rules, finished, dug, system);
    let floor = floor(&mut rules, finished, dug, system);
    let shore = shore(&mut rules, finished, system);
    let shelf = shelf_corners(graph, inputs, (finished, dug, floor), system);
    let mut points = Vec::new();
    let mut rows_of = Vec::new();
    let basins = graph.table_of::<Basins>();
    for row in 0..basins.map_or(0, |table| graph.table(table).rows) {
        let mut corners = vec![(rim, row)];
        for (shelf_row, _) in basin_of.iter().enumerate().filter(|(_, of)| **of == row) {
            corners.extend(shelf.map(|corner| (corner, shelf_row)));
        }
        corners.push((floor, row));
        rows_of.push((points.len(), 2 * corners.len()));
        points.extend(down_and_up(&corners).map(|cells| Point { basin: row, cells }));
    }
    let basin = names(graph, inputs, &points);
    let [across, depth, dug_across, dug] = distances(graph, &points, system);
    let surface = finished.surface.id;
    let shores = at_both_shores(points.len(), &rows_of, shore);
    let levels = at_both_shores(points.len(), &rows_of, [surface; 2]);
    let mut rules = graph.rules::<SectionPoints>();
    PointColumns {
        basin,
        across,
        finished: depth,
        dug_across,
        dug,
        water_across: rules.gathered("water, across", system.length(), shores),
        water: rules.gathered("water", system.length(), levels),
        rows_of,
    }
}

/// One point: its basin's row, and the cells of its distance across and depth, of the
/// finished surface and of the cut.
struct Point {
    basin: usize,
    cells: [Cell; 4],
}

/// The rim of the finished surface, and where the cut meets the ground.
fn rim(rules: &mut Rules<'_, Basins>, finished: &Finished, dug: &Dug, system: System) -> Corner {
    let (width, ground) = (finished.width, dug.ground_width);
    let mut at = |name: &str, term: Term<Basins>| rules.geometry(name, system.length(), term).id;
    let level = at("section: rim", finished.depth * 0.0);
    [
        at("section: left rim", width * 0.0),
        at("section: right rim", width.into()),
        level,
        at("section: cut left at the ground", (width - ground) / 2.0),
        at("section: cut right at the ground", (width + ground) / 2.0),
        level,
    ]
}

/// The floor, in the middle of the width, and the foot of the cut below it.
fn floor(rules: &mut Rules<'_, Basins>, finished: &Finished, dug: &Dug, system: System) -> Corner {
    let (width, inner, foot) = (finished.width, finished.floor_width, dug.foot_width);
    let mut at = |name: &str, term: Term<Basins>| rules.geometry(name, system.length(), term).id;
    [
        at("section: floor left", (width - inner) / 2.0),
        at("section: floor right", (width + inner) / 2.0),
        finished.depth.id,
        at("section: cut left at the foot", (width - foot) / 2.0),
        at("section: cut right at the foot", (width + foot) / 2.0),
        dug.cut_depth.id,
    ]
}

/// Where the water's surface meets the two sides, by the slope at the rim.
fn shore(rules: &mut Rules<'_, Basins>, finished: &Finished, system: System) -> [ColumnId; 2] {
    let mut at = |name: &str, term: Term<Basins>| rules.geometry(name, system.length(), term).id;
    let run = finished.rim_side * finished.surface;
    [
        at("section: left shore", run.clone()),
        at("section: right shore", finished.width - run),
    ]
}

/// The outside and the inside of each shelf. A pit that people enter has no shelves: its
/// points fall together at its foot, whose corner is `floor`.
fn shelf_corners(
    graph: &mut Graph,
    inputs: &AllInputs,
    (finished, dug, floor): (&Finished, &Dug, Corner),
    system: System,
) -> [Corner; 2] {
    let width = inputs.number(Shelves::ShelfWidth);
    let depth = inputs.number(Shelves::ShelfDepth);
    let build_up = inputs.number(Basins::BuildUp);
    let (link, inner) = (finished.shelf_basin, finished.shelf_inner_width);
    let mut rules = graph.rules::<Shelves>();
    let mut at = |name: &str, term: Term<Shelves>| rules.geometry(name, system.length(), term).id;
    let [foot_left, foot_right, foot] = [floor[3], floor[4], floor[5]].map(Column::<Basins>::new);
    let pit = || link.of(dug.entered).above(0.0);
    let left = (link.of(finished.width) - inner) / 2.0;
    let right = (link.of(finished.width) + inner) / 2.0;
    let level = at("section: shelf", depth.into());
    let below = when(pit(), link.of(foot), depth + link.of(build_up));
    let below = at("section: shelf, cut", below);
    let mut corner = |side: &str, left: Term<Shelves>, right: Term<Shelves>| {
        let (cut_left, cut_right) = (
            when(pit(), link.of(foot_left), left.clone()),
            when(pit(), link.of(foot_right), right.clone()),
        );
        [
            at(&format!("section: {side} left"), left),
            at(&format!("section: {side} right"), right),
            level,
            at(&format!("section: {side} left, cut"), cut_left),
            at(&format!("section: {side} right, cut"), cut_right),
            below,
        ]
    };
    [
        corner("outside", left.clone() - width, right.clone() + width),
        corner("inside", left, right),
    ]
}

/// The cells of the points down the left side and up the right.
fn down_and_up(corners: &[(Corner, usize)]) -> impl Iterator<Item = [Cell; 4]> {
    let cells = |across: usize| {
        move |(corner, row): &(Corner, usize)| {
            let row = *row;
            [across, 2, across + 3, 5].map(|which| corner[which].at(row))
        }
    };
    let down = corners.iter().map(cells(0));
    down.chain(corners.iter().rev().map(cells(1)))
}

/// Adds the table, each row named by its basin.
fn names(graph: &mut Graph, inputs: &AllInputs, points: &[Point]) -> Text<SectionPoints> {
    let column = inputs.words(Basins::Basin).id;
    let name = |row: usize| vec![Piece::Cell(Cell { column, row })];
    graph.add_table::<SectionPoints>(points.len());
    let mut rules = graph.rules::<SectionPoints>();
    let names = points.iter().map(|point| name(point.basin)).collect();
    let basin = rules.gathered_words("basin", names);
    rules.labelled_by(basin);
    basin
}

/// Distance across and depth of every point, of the finished surface and of the cut.
fn distances(graph: &mut Graph, points: &[Point], system: System) -> [Column<SectionPoints>; 4] {
    let mut rules = graph.rules::<SectionPoints>();
    [
        ("across", 0),
        ("finished", 1),
        ("cut, across", 2),
        ("cut", 3),
    ]
    .map(|(name, which)| {
        let cells = points.iter().map(|point| Some(point.cells[which]));
        rules.gathered(name, system.length(), cells.collect())
    })
}

/// In the first two rows of each basin, the cell of each side in its row; blank below.
fn at_both_shores(
    points: usize,
    rows_of: &[(usize, usize)],
    sides: [ColumnId; 2],
) -> Vec<Option<Cell>> {
    let mut cells = vec![None; points];
    for (row, (first, _)) in rows_of.iter().enumerate() {
        for (side, column) in sides.into_iter().enumerate() {
            cells[first + side] = Some(Cell { column, row });
        }
    }
    cells
}
