//! Shelves: each step of a basin's profile, from the rim down.
//!
//! Always true: shelves go down and in, or a limit is broken and the job is refused.

use super::basins::{Rim, Slice, slice_volume, slice_water};
use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, Term, highest, lowest, when};
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::units::{SLOPE, System};

/// One step of a profile at its top, and how its sides slope down to the shelf.
#[derive(Clone, Copy, Debug)]
pub struct ShelfStep {
    /// From the step above down to the shelf.
    pub drop: Column<Shelves>,
    /// Slope of the sides above the shelf.
    pub side: Column<Shelves>,
    /// Slope of the ramp end above the shelf.
    pub ramp: Column<Shelves>,
    /// Length where those slopes begin.
    pub length: Column<Shelves>,
    /// Width where those slopes begin.
    pub width: Column<Shelves>,
}

/// What the floor needs to know of the shelves above it.
pub(super) struct ShelfSums {
    pub(super) link: Link<Shelves, Basins>,
    pub(super) inner_width: Column<Shelves>,
    pub(super) step: ShelfStep,
    pub(super) drop: Column<Shelves>,
    pub(super) length_run: Column<Shelves>,
    pub(super) width_run: Column<Shelves>,
    pub(super) rim_side: Column<Shelves>,
    pub(super) rim_ramp: Column<Shelves>,
    pub(super) volume: Column<Shelves>,
    pub(super) water: Column<Shelves>,
}

/// Adds the steps of every profile: depths, slopes, runs, sizes, then volumes.
pub(super) fn shelves(
    graph: &mut Graph,
    inputs: &AllInputs,
    rim: &Rim,
    system: System,
) -> ShelfSums {
    let basin = inputs.words(Shelves::ShelfBasin);
    let mut rules = graph.rules::<Shelves>();
    let link: Link<Shelves, Basins> = rules.link("basin row", basin);
    let step = step(&mut rules, inputs, rim, link, system);
    let (rim_side, rim_ramp) = slopes_at_the_rim(&mut rules, &step);
    let runs = runs(&mut rules, inputs, &step, system);
    let inner = inner_sizes(&mut rules, rim, link, runs, system);
    let (length, width) = sizes_above(&mut rules, inner, runs, system);
    shelf_limits(&mut rules, inputs, &step, inner, link.of(rim.levels.depth));
    let slice = Slice {
        area_factor: link.of(rim.area_factor),
        length,
        width,
        from: step.from,
        to: step.to,
        side: step.side,
        ramp: step.ramp,
    };
    let volume = slice_volume(&mut rules, "down to the shelf", &slice, system);
    let surface = lowest(step.to, highest(step.from, link.of(rim.levels.water)));
    let water = slice_water(&mut rules, &slice, surface, system);
    ShelfSums {
        link,
        inner_width: inner.1,
        step: ShelfStep {
            drop: step.drop,
            side: step.side,
            ramp: step.ramp,
            length,
            width,
        },
        drop: step.drop,
        length_run: runs.0,
        width_run: runs.1,
        rim_side,
        rim_ramp,
        volume,
        water,
    }
}

/// A measure along the length, and the same across the width.
type Both = (Column<Shelves>, Column<Shelves>);

/// One step down: its depths from the rim, and the slopes above the shelf.
struct Step {
    from: Column<Shelves>,
    to: Column<Shelves>,
    drop: Column<Shelves>,
    side: Column<Shelves>,
    ramp: Column<Shelves>,
}

/// Depths and slopes of each step; a blank slope is the basin's.
fn step(
    rules: &mut Rules<'_, Shelves>,
    inputs: &AllInputs,
    rim: &Rim,
    link: Link<Shelves, Basins>,
    system: System,
) -> Step {
    let unit = system.length();
    let depth = inputs.number(Shelves::ShelfDepth);
    let to = rules.from_job("depth to shelf", unit, depth);
    let from = rules.from_job("depth to step above", unit, to.row_above(link, 0.0));
    let drop = rules.geometry("drop", unit, to - from);
    let slope = inputs.number(Shelves::SlopeAbove);
    let side = rules.from_job("side slope above", SLOPE, slope.or(link.of(rim.side)));
    let ramp = rules.from_job("ramp slope above", SLOPE, slope.or(link.of(rim.ramp)));
    Step {
        from,
        to,
        drop,
        side,
        ramp,
    }
}

/// The slopes of a basin's first step, for the basin to sum; zero below it.
fn slopes_at_the_rim(rules: &mut Rules<'_, Shelves>, step: &Step) -> Both {
    let is_first = step.from.here().same_as(0.0);
    let side = when(is_first.clone(), step.side, 0.0);
    let ramp = when(is_first, step.ramp, 0.0);
    (
        rules.from_job("side slope at the rim", SLOPE, side),
        rules.from_job("ramp slope at the rim", SLOPE, ramp),
    )
}

/// How far a step leads in at both ends: the run of its slopes, and twice its width.
fn runs(rules: &mut Rules<'_, Shelves>, inputs: &AllInputs, step: &Step, system: System) -> Both {
    let width = inputs.number(Shelves::ShelfWidth);
    let along = step.drop * (step.side + step.ramp) + 2.0 * width;
    let across = step.drop * step.side * 2.0 + 2.0 * width;
    (
        rules.geometry("run along the length", system.length(), along),
        rules.geometry("run across the width", system.length(), across),
    )
}

/// Length and width left inside each shelf: those of the step above less the runs.
fn inner_sizes(
    rules: &mut Rules<'_, Shelves>,
    rim: &Rim,
    link: Link<Shelves, Basins>,
    runs: Both,
    system: System,
) -> Both {
    let mut inside = |name: &str, at_rim: Column<Basins>, run: Column<Shelves>| {
        rules.running(name, system.length(), &sources::GEOMETRY, |own| {
            own.row_above(link, link.of(at_rim)) - run
        })
    };
    (
        inside("length inside the shelf", rim.length, runs.0),
        inside("width inside the shelf", rim.width, runs.1),
    )
}

/// Length and width where the slopes above a shelf begin.
fn sizes_above(rules: &mut Rules<'_, Shelves>, inner: Both, runs: Both, system: System) -> Both {
    let unit = system.length();
    (
        rules.geometry("length at the step above", unit, inner.0 + runs.0),
        rules.geometry("width at the step above", unit, inner.1 + runs.1),
    )
}

/// Limits: a shelf lies above its basin's floor and below the step before it, and slopes
/// and shelves leave room inside.
fn shelf_limits(
    rules: &mut Rules<'_, Shelves>,
    inputs: &AllInputs,
    step: &Step,
    inner: Both,
    basin_depth: Term<Shelves>,
) {
    let depth = inputs.number(Shelves::ShelfDepth).id;
    let width = inputs.number(Shelves::ShelfWidth).id;
    let impossible = |at, message, hint| Breach::fault(Code::ShapeImpossible, at, message, hint);
    rules.limit(
        "shelf below its basin",
        step.to.here().at_least(basin_depth),
        impossible(
            depth,
            "the shelf is as deep as its basin or deeper",
            "a shelf lies above the floor: check both depths and their units",
        ),
    );
    rules.limit(
        "shelf above the one before",
        step.drop.here().above(0.0).negate(),
        impossible(
            depth,
            "the shelf is not below the step before it",
            "list the shelves of a basin from the rim down",
        ),
    );
    rules.limit(
        "shelves meet",
        inner.0.here().below(0.0).or(inner.1.here().below(0.0)),
        impossible(
            width,
            "the slopes and shelves meet before this step is complete",
            "make the shelf narrower, the slope steeper or the basin larger",
        ),
    );
}
