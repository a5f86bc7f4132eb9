//! The dig sheet: every level that is dug or built to, as a rod reading.
//!
//! Always true: an elevation or a reading that the job does not give is an empty cell, never
//! a number; which are known is decided by the cells that are filled in, and those are watched.

use std::slice;

use super::basins::Finished;
use super::bill::fixed;
use super::excavation::Dug;
use super::falls::elevations::{BED, TOP};
use super::falls::order;
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use crate::graph::prelude::*;
use crate::graph::{
    Cell, Column, ColumnId, Graph, Piece, Rules, Term, Text, TextExpr, either, only,
};
use crate::job::tables::{Basins, Courses, Falls, JobKeys, QuickMeasure, Shelves};
use crate::tables::{DigSheet, RodReadings};
use crate::units::System;

/// Where one level comes from.
#[derive(Clone, Debug)]
pub struct Level {
    /// What is dug or built to it, such as a basin and its shelf.
    pub name: Vec<Piece>,
    /// How far it lies below the rim of its basin; `None` for what has none.
    pub below_rim: Option<Cell>,
    /// Its elevation, where the job gives one.
    pub elevation: Option<Cell>,
}

/// Columns of the dig sheet.
#[derive(Clone, Copy, Debug)]
pub struct DigColumns {
    /// What is dug or built to it.
    pub name: Text<DigSheet>,
    /// Below the rim of its basin.
    pub below_rim: Column<DigSheet>,
    /// Elevation; empty where the job does not give it.
    pub elevation: Column<DigSheet>,
    /// What the rod reads there; empty where the job does not give it.
    pub rod: Column<DigSheet>,
    /// What there is to say of the reading.
    pub remark: Text<DigSheet>,
}

/// Adds the dig sheet of the given levels, in their order, below the benchmark.
pub fn dig_sheet(
    graph: &mut Graph,
    inputs: &AllInputs,
    wide: &JobWide,
    levels: Vec<Level>,
    system: System,
) -> DigColumns {
    let benchmark = benchmark(graph, inputs, system);
    let levelled = benchmark.is_some();
    let all: Vec<Level> = benchmark.into_iter().chain(levels).collect();
    let (readings, row_of) = readings(graph, wide, &all, levelled, system);
    graph.add_table::<DigSheet>(all.len());
    let mut rules = graph.rules::<DigSheet>();
    let names = all.iter().map(|level| level.name.clone()).collect();
    let name = rules.gathered_words("level", names);
    rules.labelled_by(name);
    let remark = |row: &Option<usize>| {
        let cell = row.map(|row| Piece::Cell(readings.remark.id.at(row)));
        vec![cell.unwrap_or(fixed(""))]
    };
    let remark = rules.gathered_words("remark", row_of.iter().map(remark).collect());
    let mut number =
        |name: &str, cells: Vec<Option<Cell>>| rules.gathered(name, system.length(), cells);
    let below = all.iter().map(|level| level.below_rim).collect();
    let elevation = all.iter().map(|level| level.elevation).collect();
    let rod = row_of.iter().map(|row| Some(readings.rod.id.at((*row)?)));
    DigColumns {
        name,
        below_rim: number("below the rim", below),
        elevation: number("elevation", elevation),
        rod: number("rod reading", rod.collect()),
        remark,
    }
}

/// The benchmark itself, where the job gives it and the backsight on it: its reading is the
/// backsight again.
fn benchmark(graph: &mut Graph, inputs: &AllInputs, system: System) -> Option<Level> {
    let quick = inputs.number(QuickMeasure::QuickBenchmark);
    let own = inputs.number(JobKeys::Benchmark).or(only(quick));
    let elevation =
        graph
            .rules::<JobKeys>()
            .from_job("elevation of the benchmark", system.length(), own);
    let filled = |key: JobKeys, quick: QuickMeasure| {
        graph.is_filled(inputs.id(key).at(0)) || graph.is_filled(inputs.id(quick).at(0))
    };
    let levelled = filled(JobKeys::Benchmark, QuickMeasure::QuickBenchmark)
        && filled(JobKeys::Backsight, QuickMeasure::QuickBacksight);
    levelled.then_some(Level {
        name: vec![fixed("Benchmark")],
        below_rim: None,
        elevation: Some(elevation.id.at(0)),
    })
}

/// Readings of the levels that can be read.
struct Readings {
    rod: Column<RodReadings>,
    remark: Text<RodReadings>,
}

/// Adds the readings, and gives the row of each level among them. A rod that would read
/// less than nothing stands above the line of sight.
fn readings(
    graph: &mut Graph,
    wide: &JobWide,
    levels: &[Level],
    levelled: bool,
    system: System,
) -> (Readings, Vec<Option<usize>>) {
    let mut known: Vec<&Level> = Vec::new();
    let mut row_of = Vec::new();
    for level in levels {
        let readable = levelled && level.elevation.is_some();
        row_of.push(readable.then_some(known.len()));
        known.extend(readable.then_some(level));
    }
    graph.add_table::<RodReadings>(known.len());
    let mut rules = graph.rules::<RodReadings>();
    let names = known.iter().map(|level| level.name.clone()).collect();
    let name = rules.gathered_words("level", names);
    rules.labelled_by(name);
    let cells = known.iter().map(|level| level.elevation).collect();
    let elevation = rules.gathered("elevation", system.length(), cells);
    let rod = only::<RodReadings, JobKeys>(wide.instrument) - elevation;
    let rod = rules.arithmetic("rod reading", system.length(), rod);
    let above = TextExpr::Fixed("above the line of sight: set the level higher".to_owned());
    let none = TextExpr::Fixed(String::new());
    let remark = either(rod.here().below(0.0), above, none);
    let remark = rules.word_step("remark", remark);
    (Readings { rod, remark }, row_of)
}

/// The levels of basins: rim, water, shelves and floor, finished and dug. `basin_of` is the
/// basin's row of each shelf.
pub fn basin_levels(
    graph: &mut Graph,
    inputs: &AllInputs,
    (finished, dug): (&Finished, &Dug),
    basin_of: &[usize],
    system: System,
) -> Vec<Level> {
    let own = own_levels(&mut graph.rules::<Basins>(), finished, dug, system);
    let shelf = shelf_levels(&mut graph.rules::<Shelves>(), inputs, finished, system);
    let mut levels = Vec::new();
    for row in 0..graph.rows(finished.depth.id) {
        let is_filled = |field: Basins| graph.is_filled(inputs.id(field).at(row));
        let known = is_filled(Basins::Rim) || is_filled(Basins::RimRod);
        let basin = Piece::Cell(inputs.id(Basins::Basin).at(row));
        let level = |name: &[Piece], surface: &Surface, row: usize| Level {
            name: [slice::from_ref(&basin), name, &[fixed(surface.said)]].concat(),
            below_rim: surface.below_rim.map(|column| column.at(row)),
            elevation: known.then_some(surface.elevation.at(row)),
        };
        let (above, floor) = own.split_at(2);
        levels.extend(above.iter().map(|surface| level(&[], surface, row)));
        for at in (0..basin_of.len()).filter(|at| basin_of[*at] == row) {
            let name = [fixed(", "), Piece::Cell(shelf.name.id.at(at))];
            levels.extend(shelf.surfaces.iter().map(|of| level(&name, of, at)));
        }
        levels.extend(floor.iter().map(|surface| level(&[], surface, row)));
    }
    levels
}

/// The levels of falls whose foot is known: the bed and the top of each course, from the
/// bottom up.
#[must_use]
pub fn fall_levels(graph: &Graph, inputs: &AllInputs) -> Vec<Level> {
    let (bed, top) = (graph.id(BED), graph.id(TOP));
    let mut levels = Vec::new();
    for (fall, (first, count)) in order::rows_of(graph).into_iter().enumerate() {
        let is_filled = |field: Falls| graph.is_filled(inputs.id(field).at(fall));
        let known = is_filled(Falls::Foot) || is_filled(Falls::FootRod);
        for row in first..first + count {
            let course = Piece::Cell(inputs.id(Courses::Course).at(row));
            let beds = [(", bed", bed), (", top", top)];
            levels.extend(beds.map(|(said, elevation)| Level {
                name: vec![course.clone(), fixed(said)],
                below_rim: None,
                elevation: known.then_some(elevation.at(row)),
            }));
        }
    }
    levels
}

/// One surface of a basin or a shelf: what is said of it, and where its levels stand.
struct Surface {
    said: &'static str,
    below_rim: Option<ColumnId>,
    elevation: ColumnId,
}

/// Adds the levels of basins apart from their shelves: rim, water, floor, cut.
fn own_levels(
    rules: &mut Rules<'_, Basins>,
    finished: &Finished,
    dug: &Dug,
    system: System,
) -> [Surface; 4] {
    let rim = finished.rim_elevation;
    let mut surface = |said: &'static str, name: &str, below: Column<Basins>| Surface {
        said,
        below_rim: Some(below.id),
        elevation: rules.geometry(name, system.length(), rim - below).id,
    };
    [
        Surface {
            said: ", rim",
            below_rim: None,
            elevation: rim.id,
        },
        surface(", water", "elevation of the water", finished.surface),
        surface(
            ", floor, finished",
            "elevation of the floor",
            finished.depth,
        ),
        surface(", floor, dug", "elevation of the cut", dug.cut_depth),
    ]
}

/// What shelves are called, and their two surfaces.
struct ShelfLevels {
    name: Text<Shelves>,
    surfaces: [Surface; 2],
}

/// Adds the levels of shelves: finished, and lower by the build-up of their basin.
fn shelf_levels(
    rules: &mut Rules<'_, Shelves>,
    inputs: &AllInputs,
    finished: &Finished,
    system: System,
) -> ShelfLevels {
    let basin = finished.shelf_basin;
    let own = inputs.words(Shelves::Shelf);
    let unnamed = TextExpr::Fixed("shelf".to_owned());
    let name = rules.word_step("shelf called", either(own.blank(), unnamed, own.words()));
    let depth = inputs.number(Shelves::ShelfDepth);
    let dug = depth + basin.of(inputs.number(Basins::BuildUp));
    let mut surface = |said: &'static str, what: &str, below: Term<Shelves>| {
        let name = format!("{what} below the rim");
        let below = rules.geometry(&name, system.length(), below);
        let elevation = basin.of(finished.rim_elevation) - below;
        let name = format!("elevation of the {what}");
        Surface {
            said,
            below_rim: Some(below.id),
            elevation: rules.geometry(&name, system.length(), elevation).id,
        }
    };
    ShelfLevels {
        name,
        surfaces: [
            surface(", finished", "finished shelf", depth.into()),
            surface(", dug", "dug shelf", dug),
        ],
    }
}
