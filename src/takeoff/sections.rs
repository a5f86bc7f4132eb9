//! The cross-section of every basin as points: what the workbook draws, over live cells.
//!
//! Points run from the left rim down over the shelves, along the floor and up again,
//! across the width. Depth is counted down from the rim. The dug line is the cut that is
//! priced: the dug shape up to the ground, or, where people enter, the pit with its room
//! and lay-back.

use super::basins::{FLOOR_WIDTH, RIM_SIDE};
use super::excavation::{CUT_DEPTH, ENTERED, FOOT_WIDTH, GROUND_WIDTH};
use super::levels::{DEPTH, SURFACE};
use super::outline::WIDTH;
use super::shelves::{self, INNER_WIDTH};
use crate::graph::prelude::*;
use crate::graph::{Cell, ColumnId, Graph, Table};
use crate::job::tables::{Basins, Shelves};
use crate::tables::SectionPoints;
use crate::units::System;

/// The points of every basin: the finished surface, the cut and the water.
pub const RULES: &[&dyn Rule] = &[
    &BASIN,
    &ACROSS,
    &FINISHED,
    &CUT_ACROSS,
    &CUT,
    &WATER_ACROSS,
    &WATER,
];

/// One point: its basin's row, its place among those of its basin, and the cells of its
/// distance across and depth, of the finished surface and of the cut.
#[derive(Clone, Debug)]
pub struct Point {
    /// The row of its basin.
    pub basin: usize,
    place: usize,
    cells: [Cell; 4],
}

/// The points down the left side of each basin and up the right.
pub const POINTS: Roster<SectionPoints, Point> = Roster::new(|graph| {
    let rim = columns(graph, &RIM);
    let shelf = [columns(graph, &OUTSIDE), columns(graph, &INSIDE)];
    let floor = columns(graph, &FLOOR);
    let mut points = Vec::new();
    for basin in 0..graph.rows(graph.id(Basins::Basin)) {
        let mut corners = vec![(rim, basin)];
        for row in shelves::of_basin(graph, basin) {
            corners.extend(shelf.map(|corner| (corner, row)));
        }
        corners.push((floor, basin));
        let all = down_and_up(&corners).enumerate();
        points.extend(all.map(|(place, cells)| Point {
            basin,
            place,
            cells,
        }));
    }
    points
});

/// The cells of the points down the left side and up the right.
fn down_and_up(corners: &[([ColumnId; 6], usize)]) -> impl Iterator<Item = [Cell; 4]> {
    let cells = |across: usize| {
        move |(corner, row): &([ColumnId; 6], usize)| {
            let row = *row;
            [across, 2, across + 3, 5].map(|which| corner[which].at(row))
        }
    };
    let down = corners.iter().map(cells(0));
    down.chain(corners.iter().rev().map(cells(1)))
}

/// The basin's name.
pub const BASIN: Wording<SectionPoints> = Wording::gathered("basin", |graph| {
    POINTS.words_of(graph, Basins::Basin, |point| point.basin)
})
.naming_rows();

/// Distance across the width.
pub const ACROSS: Step<SectionPoints> = Step::gathered("across", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.cells[0]))
});

/// Depth of the finished surface below the rim.
pub const FINISHED: Step<SectionPoints> = Step::gathered("finished", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.cells[1]))
});

/// Distance across of the cut.
pub const CUT_ACROSS: Step<SectionPoints> =
    Step::gathered("cut, across", System::length, |graph| {
        POINTS.cells(graph, |point| Some(point.cells[2]))
    });

/// Depth of the cut.
pub const CUT: Step<SectionPoints> = Step::gathered("cut", System::length, |graph| {
    POINTS.cells(graph, |point| Some(point.cells[3]))
});

/// Where the water's surface meets the sides: the first two rows of each basin.
pub const WATER_ACROSS: Step<SectionPoints> =
    Step::gathered("water, across", System::length, |graph| {
        at_both_shores(graph, [LEFT_SHORE, RIGHT_SHORE])
    });

/// Depth of the water's surface there.
pub const WATER: Step<SectionPoints> = Step::gathered("water", System::length, |graph| {
    at_both_shores(graph, [SURFACE, SURFACE])
});

/// In the first two rows of each basin, the cell of each side; blank below.
fn at_both_shores(graph: &mut Graph, sides: [Step<Basins>; 2]) -> Vec<Option<Cell>> {
    let sides = sides.map(|side| graph.read(side));
    POINTS.cells(graph, |point| Some(sides.get(point.place)?.at(point.basin)))
}

/// Where a point's values stand: of the finished surface its left side, right side and
/// depth; of the cut the same.
type Corner<T> = [Step<T>; 6];

fn columns<T: Table>(graph: &mut Graph, corner: &Corner<T>) -> [ColumnId; 6] {
    corner.map(|side| graph.read(side))
}

/// The rim of the finished surface, and where the cut meets the ground.
const RIM: Corner<Basins> = [
    LEFT_RIM,
    RIGHT_RIM,
    LEVEL,
    CUT_LEFT_AT_GROUND,
    CUT_RIGHT_AT_GROUND,
    LEVEL,
];

const LEVEL: Step<Basins> = Step::geometry("section: rim", System::length, || DEPTH * 0.0);

const LEFT_RIM: Step<Basins> = Step::geometry("section: left rim", System::length, || WIDTH * 0.0);

const RIGHT_RIM: Step<Basins> =
    Step::geometry("section: right rim", System::length, || WIDTH.here());

const CUT_LEFT_AT_GROUND: Step<Basins> =
    Step::geometry("section: cut left at the ground", System::length, || {
        (WIDTH - GROUND_WIDTH) / 2.0
    });

const CUT_RIGHT_AT_GROUND: Step<Basins> =
    Step::geometry("section: cut right at the ground", System::length, || {
        (WIDTH + GROUND_WIDTH) / 2.0
    });

/// The floor, in the middle of the width, and the foot of the cut below it.
const FLOOR: Corner<Basins> = [
    FLOOR_LEFT,
    FLOOR_RIGHT,
    DEPTH,
    CUT_LEFT_AT_FOOT,
    CUT_RIGHT_AT_FOOT,
    CUT_DEPTH,
];

const FLOOR_LEFT: Step<Basins> = Step::geometry("section: floor left", System::length, || {
    (WIDTH - FLOOR_WIDTH) / 2.0
});

const FLOOR_RIGHT: Step<Basins> = Step::geometry("section: floor right", System::length, || {
    (WIDTH + FLOOR_WIDTH) / 2.0
});

const CUT_LEFT_AT_FOOT: Step<Basins> =
    Step::geometry("section: cut left at the foot", System::length, || {
        (WIDTH - FOOT_WIDTH) / 2.0
    });

const CUT_RIGHT_AT_FOOT: Step<Basins> =
    Step::geometry("section: cut right at the foot", System::length, || {
        (WIDTH + FOOT_WIDTH) / 2.0
    });

/// Where the water's surface meets the left side, by the slope at the rim.
const LEFT_SHORE: Step<Basins> =
    Step::geometry("section: left shore", System::length, || RIM_SIDE * SURFACE);

const RIGHT_SHORE: Step<Basins> = Step::geometry("section: right shore", System::length, || {
    WIDTH - RIM_SIDE * SURFACE
});

/// The outside of each shelf. A pit that people enter has no shelves: its points fall
/// together at its foot.
const OUTSIDE: Corner<Shelves> = [
    OUTSIDE_LEFT,
    OUTSIDE_RIGHT,
    SHELF,
    OUTSIDE_LEFT_CUT,
    OUTSIDE_RIGHT_CUT,
    SHELF_CUT,
];

/// The inside of each shelf.
const INSIDE: Corner<Shelves> = [
    INSIDE_LEFT,
    INSIDE_RIGHT,
    SHELF,
    INSIDE_LEFT_CUT,
    INSIDE_RIGHT_CUT,
    SHELF_CUT,
];

const SHELF: Step<Shelves> = Step::geometry("section: shelf", System::length, || {
    Shelves::ShelfDepth.here()
});

const SHELF_CUT: Step<Shelves> = Step::geometry("section: shelf, cut", System::length, || {
    let lowered = Shelves::ShelfDepth + shelves::BASIN.of(Basins::BuildUp);
    or_in_the_pit(CUT_DEPTH, lowered)
});

const INSIDE_LEFT: Step<Shelves> = Step::geometry("section: inside left", System::length, || {
    (shelves::BASIN.of(WIDTH) - INNER_WIDTH) / 2.0
});

const INSIDE_RIGHT: Step<Shelves> = Step::geometry("section: inside right", System::length, || {
    (shelves::BASIN.of(WIDTH) + INNER_WIDTH) / 2.0
});

const OUTSIDE_LEFT: Step<Shelves> = Step::geometry("section: outside left", System::length, || {
    INSIDE_LEFT - Shelves::ShelfWidth
});

const OUTSIDE_RIGHT: Step<Shelves> =
    Step::geometry("section: outside right", System::length, || {
        INSIDE_RIGHT + Shelves::ShelfWidth
    });

const INSIDE_LEFT_CUT: Step<Shelves> =
    Step::geometry("section: inside left, cut", System::length, || {
        or_in_the_pit(CUT_LEFT_AT_FOOT, INSIDE_LEFT)
    });

const INSIDE_RIGHT_CUT: Step<Shelves> =
    Step::geometry("section: inside right, cut", System::length, || {
        or_in_the_pit(CUT_RIGHT_AT_FOOT, INSIDE_RIGHT)
    });

const OUTSIDE_LEFT_CUT: Step<Shelves> =
    Step::geometry("section: outside left, cut", System::length, || {
        or_in_the_pit(CUT_LEFT_AT_FOOT, OUTSIDE_LEFT)
    });

const OUTSIDE_RIGHT_CUT: Step<Shelves> =
    Step::geometry("section: outside right, cut", System::length, || {
        or_in_the_pit(CUT_RIGHT_AT_FOOT, OUTSIDE_RIGHT)
    });

/// A measure of the shelf, or that of its basin's pit where people enter it.
fn or_in_the_pit(of_pit: Step<Basins>, of_shelf: impl Into<Term<Shelves>>) -> Term<Shelves> {
    let is_entered = shelves::BASIN.of(ENTERED).above(0.0);
    when(is_entered, shelves::BASIN.of(of_pit), of_shelf)
}
