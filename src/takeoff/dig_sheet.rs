//! The dig sheet: every level that is dug or built to, as a rod reading.
//!
//! Always true: an elevation or a reading that the job does not give is an empty cell, never
//! a number; which are known is decided by the cells that are filled in, and those are watched.

use std::slice;

use super::bill::fixed;
use super::excavation::CUT_DEPTH;
use super::falls::elevations::{BED, TOP};
use super::falls::order;
use super::job_wide::INSTRUMENT;
use super::levels::{DEPTH, RIM, SURFACE};
use super::shelves;
use super::written::filled;
use crate::graph::prelude::*;
use crate::graph::{Cell, ColumnId, Graph, Piece, Table};
use crate::job::Fields;
use crate::job::tables::{Basins, Courses, Falls, JobKeys, QuickMeasure, Shelves};
use crate::tables::{DigSheet, RodReadings};
use crate::units::System;

/// The levels with their readings.
pub const RULES: &[&dyn Rule] = &[&LEVEL, &REMARK, &BELOW_RIM, &ELEVATION, &ROD];

/// Where one level comes from.
#[derive(Clone, Debug)]
pub struct Level {
    /// What is dug or built to it, such as a basin and its shelf.
    name: Vec<Piece>,
    /// How far it lies below the rim of its basin; `None` for what has none.
    below_rim: Option<Cell>,
    /// Its elevation, where the job gives one.
    elevation: Option<Cell>,
    /// Its row among the readings, where it can be read.
    reading: Option<usize>,
}

/// Every level: the benchmark, those of basins from the rim down, those of falls from the
/// bottom up.
const LEVELS: Roster<DigSheet, Level> = Roster::new(|graph| {
    let levelled = is_levelled(graph);
    let mut levels = [benchmark(graph), basins(graph), falls(graph)].concat();
    let known = levels.iter_mut().filter(|level| level.elevation.is_some());
    for (row, level) in known.filter(|_| levelled).enumerate() {
        level.reading = Some(row);
    }
    levels
});

/// What is dug or built to it.
pub const LEVEL: Wording<DigSheet> = Wording::gathered("level", |graph| {
    LEVELS.words(graph, |level| level.name.clone())
})
.naming_rows();

/// What there is to say of the reading.
pub const REMARK: Wording<DigSheet> = Wording::gathered("remark", |graph| {
    let remark = graph.read(READ_REMARK);
    LEVELS.words(graph, |level| {
        let cell = level.reading.map(|row| Piece::Cell(remark.at(row)));
        vec![cell.unwrap_or(fixed(""))]
    })
});

/// Below the rim of its basin.
pub const BELOW_RIM: Step<DigSheet> = Step::gathered("below the rim", System::length, |graph| {
    LEVELS.cells(graph, |level| level.below_rim)
});

/// Elevation; empty where the job does not give it.
pub const ELEVATION: Step<DigSheet> = Step::gathered("elevation", System::length, |graph| {
    LEVELS.cells(graph, |level| level.elevation)
});

/// What the rod reads there; empty where the job does not give it.
pub const ROD: Step<DigSheet> = Step::gathered("rod reading", System::length, |graph| {
    let rod = graph.read(READ_ROD);
    LEVELS.cells(graph, |level| Some(rod.at(level.reading?)))
});

/// The levels that can be read.
const READINGS: Roster<RodReadings, Level> = Roster::new(|graph| {
    let all = LEVELS.rows(graph);
    let read = all.iter().filter(|level| level.reading.is_some());
    read.cloned().collect()
});

const READ_LEVEL: Wording<RodReadings> = Wording::gathered("level", |graph| {
    READINGS.words(graph, |level| level.name.clone())
})
.naming_rows();

const READ_ELEVATION: Step<RodReadings> = Step::gathered("elevation", System::length, |graph| {
    graph.read(READ_LEVEL);
    READINGS.cells(graph, |level| level.elevation)
});

const READ_ROD: Step<RodReadings> = Step::arithmetic("rod reading", System::length, || {
    only::<RodReadings, JobKeys>(INSTRUMENT) - READ_ELEVATION
});

/// A rod that would read less than nothing stands above the line of sight.
const READ_REMARK: Wording<RodReadings> = Wording::new("remark", || {
    let above = "above the line of sight: set the level higher";
    either(READ_ROD.below(0.0), above, "")
});

/// Elevation of the benchmark.
const BENCHMARK: Step<JobKeys> =
    Step::from_job("elevation of the benchmark", System::length, || {
        JobKeys::Benchmark.or(only(QuickMeasure::QuickBenchmark))
    });

/// Whether the job gives the benchmark and the backsight on it.
fn is_levelled(graph: &Graph) -> bool {
    let benchmark =
        filled(graph, JobKeys::Benchmark, 0) || filled(graph, QuickMeasure::QuickBenchmark, 0);
    let backsight =
        filled(graph, JobKeys::Backsight, 0) || filled(graph, QuickMeasure::QuickBacksight, 0);
    benchmark && backsight
}

/// The benchmark itself, where readings are taken from it: its own is the backsight again.
fn benchmark(graph: &mut Graph) -> Vec<Level> {
    let elevation = graph.read(BENCHMARK).at(0);
    let level = Level {
        name: vec![fixed("Benchmark")],
        below_rim: None,
        elevation: Some(elevation),
        reading: None,
    };
    Vec::from_iter(is_levelled(graph).then_some(level))
}

/// One surface of a basin or a shelf: what is said of it, and where its levels stand.
struct Surface {
    said: &'static str,
    below_rim: Option<ColumnId>,
    elevation: ColumnId,
}

impl Surface {
    fn below_rim<T: Table>(
        graph: &mut Graph,
        said: &'static str,
        below: Step<T>,
        elevation: Step<T>,
    ) -> Self {
        Self {
            said,
            below_rim: Some(graph.read(below)),
            elevation: graph.read(elevation),
        }
    }
}

/// The levels of basins: rim, water, shelves and floor, finished and dug.
fn basins(graph: &mut Graph) -> Vec<Level> {
    let above = [
        Surface {
            said: ", rim",
            below_rim: None,
            elevation: graph.read(RIM),
        },
        Surface::below_rim(graph, ", water", SURFACE, WATER),
    ];
    let shelf = [
        Surface::below_rim(graph, ", finished", SHELF_BELOW, SHELF),
        Surface::below_rim(graph, ", dug", DUG_SHELF_BELOW, DUG_SHELF),
    ];
    let floor = [
        Surface::below_rim(graph, ", floor, finished", DEPTH, FLOOR),
        Surface::below_rim(graph, ", floor, dug", CUT_DEPTH, CUT),
    ];
    let (called, basin) = (graph.read(SHELF_CALLED), graph.id(Basins::Basin));
    let mut levels = Vec::new();
    for row in 0..graph.rows(basin) {
        let known = is_known(graph, [Basins::Rim, Basins::RimRod], row);
        let basin = Piece::Cell(basin.at(row));
        let level = |name: &[Piece], surface: &Surface, row: usize| Level {
            name: [slice::from_ref(&basin), name, &[fixed(surface.said)]].concat(),
            below_rim: surface.below_rim.map(|column| column.at(row)),
            elevation: known.then_some(surface.elevation.at(row)),
            reading: None,
        };
        levels.extend(above.iter().map(|surface| level(&[], surface, row)));
        for at in shelves::of_basin(graph, row) {
            let name = [fixed(", "), Piece::Cell(called.at(at))];
            levels.extend(shelf.iter().map(|surface| level(&name, surface, at)));
        }
        levels.extend(floor.iter().map(|surface| level(&[], surface, row)));
    }
    levels
}

/// Whether the job gives the elevation of a row in one of two columns.
fn is_known<T: Fields>(graph: &Graph, columns: [T; 2], row: usize) -> bool {
    let mut columns = columns.into_iter();
    columns.any(|column| filled(graph, column, row))
}

const WATER: Step<Basins> =
    Step::geometry("elevation of the water", System::length, || RIM - SURFACE);

const FLOOR: Step<Basins> =
    Step::geometry("elevation of the floor", System::length, || RIM - DEPTH);

const CUT: Step<Basins> =
    Step::geometry("elevation of the cut", System::length, || RIM - CUT_DEPTH);

const SHELF_CALLED: Wording<Shelves> = Wording::new("shelf called", || {
    either(Shelves::Shelf.blank(), "shelf", Shelves::Shelf.words())
});

const SHELF_BELOW: Step<Shelves> =
    Step::geometry("finished shelf below the rim", System::length, || {
        Shelves::ShelfDepth.here()
    });

const SHELF: Step<Shelves> =
    Step::geometry("elevation of the finished shelf", System::length, || {
        shelves::BASIN.of(RIM) - SHELF_BELOW
    });

/// A dug shelf is lower by the build-up of its basin.
const DUG_SHELF_BELOW: Step<Shelves> =
    Step::geometry("dug shelf below the rim", System::length, || {
        Shelves::ShelfDepth + shelves::BASIN.of(Basins::BuildUp)
    });

const DUG_SHELF: Step<Shelves> =
    Step::geometry("elevation of the dug shelf", System::length, || {
        shelves::BASIN.of(RIM) - DUG_SHELF_BELOW
    });

/// The levels of falls whose foot is known: the bed and the top of each course, from the
/// bottom up.
fn falls(graph: &mut Graph) -> Vec<Level> {
    let surfaces = [(", bed", graph.read(BED)), (", top", graph.read(TOP))];
    let course = graph.id(Courses::Course);
    let mut levels = Vec::new();
    for (fall, (first, count)) in order::rows_of(graph).into_iter().enumerate() {
        let known = is_known(graph, [Falls::Foot, Falls::FootRod], fall);
        for row in first..first + count {
            levels.extend(surfaces.map(|(said, elevation)| Level {
                name: vec![Piece::Cell(course.at(row)), fixed(said)],
                below_rim: None,
                elevation: known.then_some(elevation.at(row)),
                reading: None,
            }));
        }
    }
    levels
}
