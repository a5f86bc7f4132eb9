//! Shelves: each step of a basin's profile, from the rim down.
//!
//! Always true: shelves go down and in, or a limit is broken and the job is refused.

use super::basins::{Rim, Slice, slice_volume};
use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Link, Rules, highest, lowest, when};
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::units::{SLOPE, System};

/// What the floor needs to know of the shelves above it.
pub(super) struct ShelfSums {
    pub(super) link: Link<Shelves, Basins>,
    pub(super) inner_width: Column<Shelves>,
    pub(super) drop: Column<Shelves>,
    pub(super) length_run: Column<Shelves>,
    pub(super) width_run: Column<Shelves>,
    pub(super) rim_side: Column<Shelves>,
    pub(super) rim_ramp: Column<Shelves>,
    pub(super) volume: Column<Shelves>,
    pub(super) water: Column<Shelves>,
}

/// Adds the steps of every profile.
pub(super) fn shelves(
    graph: &mut Graph,
    inputs: &AllInputs,
    rim: &Rim,
    system: System,
) -> ShelfSums {
    let shelves = &inputs.shelves;
    let (depth, width) = (
        shelves.number(Shelves::ShelfDepth),
        shelves.number(Shelves::ShelfWidth),
    );
    let mut rules = graph.rules::<Shelves>();
    let link: Link<Shelves, Basins> = rules.link("basin row", shelves.words(Shelves::ShelfBasin));
    let to = rules.step("depth to shelf", system.length(), &sources::JOB, depth);
    let from = rules.step(
        "depth to step above",
        system.length(),
        &sources::JOB,
        to.row_above(link, 0.0),
    );
    let drop = rules.step("drop", system.length(), &sources::GEOMETRY, to - from);
    let slope_above = shelves.number(Shelves::SlopeAbove);
    let side = rules.step(
        "side slope above",
        SLOPE,
        &sources::JOB,
        slope_above.or(link.of(rim.side)),
    );
    let ramp = rules.step(
        "ramp slope above",
        SLOPE,
        &sources::JOB,
        slope_above.or(link.of(rim.ramp)),
    );
    let is_first = from.here().same_as(0.0);
    let rim_side = rules.step(
        "side slope at the rim",
        SLOPE,
        &sources::JOB,
        when(is_first.clone(), side, 0.0),
    );
    let rim_ramp = rules.step(
        "ramp slope at the rim",
        SLOPE,
        &sources::JOB,
        when(is_first, ramp, 0.0),
    );
    let length_run = rules.step(
        "run along the length",
        system.length(),
        &sources::GEOMETRY,
        drop * (side + ramp) + 2.0 * width,
    );
    let width_run = rules.step(
        "run across the width",
        system.length(),
        &sources::GEOMETRY,
        drop * side * 2.0 + 2.0 * width,
    );
    let inner_length = rules.running(
        "length inside the shelf",
        system.length(),
        &sources::GEOMETRY,
        |own| own.row_above(link, link.of(rim.length)) - length_run,
    );
    let inner_width = rules.running(
        "width inside the shelf",
        system.length(),
        &sources::GEOMETRY,
        |own| own.row_above(link, link.of(rim.width)) - width_run,
    );
    let top_length = rules.step(
        "length at the step above",
        system.length(),
        &sources::GEOMETRY,
        inner_length + length_run,
    );
    let top_width = rules.step(
        "width at the step above",
        system.length(),
        &sources::GEOMETRY,
        inner_width + width_run,
    );
    shelf_limits(
        &mut rules,
        inputs,
        &ShelfShape {
            link,
            to,
            drop,
            inner_length,
            inner_width,
            basin_depth: rim.levels.depth,
        },
    );
    let slice = Slice {
        area_factor: link.of(rim.area_factor),
        length: top_length,
        width: top_width,
        from,
        to,
        side,
        ramp,
    };
    let volume = slice_volume(
        &mut rules,
        "down to the shelf",
        &slice,
        from.into(),
        system,
        true,
    );
    let surface = lowest(to, highest(from, link.of(rim.levels.water)));
    let water = slice_volume(&mut rules, "under water", &slice, surface, system, false);
    ShelfSums {
        link,
        inner_width,
        drop,
        length_run,
        width_run,
        rim_side,
        rim_ramp,
        volume,
        water,
    }
}

struct ShelfShape {
    link: Link<Shelves, Basins>,
    to: Column<Shelves>,
    drop: Column<Shelves>,
    inner_length: Column<Shelves>,
    inner_width: Column<Shelves>,
    basin_depth: Column<Basins>,
}

fn shelf_limits(rules: &mut Rules<'_, Shelves>, inputs: &AllInputs, shape: &ShelfShape) {
    let depth = inputs.shelves.number(Shelves::ShelfDepth).id;
    let width = inputs.shelves.number(Shelves::ShelfWidth).id;
    let impossible = |at, message, hint| Breach::fault(Code::ShapeImpossible, at, message, hint);
    rules.limit(
        "shelf below its basin",
        shape.to.here().at_least(shape.link.of(shape.basin_depth)),
        impossible(
            depth,
            "the shelf is as deep as its basin or deeper",
            "a shelf lies above the floor: check both depths and their units",
        ),
    );
    rules.limit(
        "shelf above the one before",
        shape.drop.here().above(0.0).negate(),
        impossible(
            depth,
            "the shelf is not below the step before it",
            "list the shelves of a basin from the rim down",
        ),
    );
    rules.limit(
        "shelves meet",
        shape
            .inner_length
            .here()
            .below(0.0)
            .or(shape.inner_width.here().below(0.0)),
        impossible(
            width,
            "the slopes and shelves meet before this step is complete",
            "make the shelf narrower, the slope steeper or the basin larger",
        ),
    );
}
