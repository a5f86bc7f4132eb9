//! The finished shape of basins: levels, profile through the shelves, volume and water.
//!
//! A basin's profile is a stack of slices: one for each shelf, and one from the last
//! shelf to the floor. Sides slope evenly within a slice, so that the prismoidal
//! formula is exact. Always true: shelves go down and in; where the measures do not
//! make a solid, a limit is broken and the job is refused.
//!
//! For an ellipse the slope is the one on its axes: each level is an ellipse whose axes
//! are shorter by the run at both ends.

use super::book::{self, SHAPE};
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use super::levels::{Levels, levels};
pub use super::shelves::ShelfStep;
use super::shelves::{ShelfSums, shelves};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, Table, Term, highest, lowest, when};
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::tables::Shapes;
use crate::units::{ONE, SLOPE, System, Unit};

/// Columns of the finished shape that other rules build on.
#[derive(Clone, Copy, Debug)]
pub struct Finished {
    /// Area of the outline as a share of length × width.
    pub area_factor: Column<Basins>,
    /// Length along the rim.
    pub length: Column<Basins>,
    /// Width across the rim.
    pub width: Column<Basins>,
    /// Elevation of the rim; zero where the job does not give it.
    pub rim_elevation: Column<Basins>,
    /// From the rim to the floor.
    pub depth: Column<Basins>,
    /// Slope of the sides below the last shelf.
    pub side: Column<Basins>,
    /// Slope of the ramp end below the last shelf.
    pub ramp: Column<Basins>,
    /// Slope of the sides at the rim.
    pub rim_side: Column<Basins>,
    /// Slope of the ramp end at the rim.
    pub rim_ramp: Column<Basins>,
    /// Length of the floor.
    pub floor_length: Column<Basins>,
    /// Width of the floor.
    pub floor_width: Column<Basins>,
    /// Volume from the rim to the finished surface.
    pub volume: Column<Basins>,
    /// From the water to the lowest rim.
    pub freeboard: Column<Basins>,
    /// Volume of water.
    pub water: Column<Basins>,
    /// From the rim down to the water's surface.
    pub surface: Column<Basins>,
    /// The basin of each shelf.
    pub shelf_basin: Link<Shelves, Basins>,
    /// Width left inside each shelf.
    pub shelf_inner_width: Column<Shelves>,
    /// Each step of the shelves.
    pub shelf_step: ShelfStep,
    /// From the rim to the last shelf; zero where there is none.
    pub last_shelf: Column<Basins>,
    /// Length and width inside the last shelf, or at the rim where there is none.
    pub inside: (Column<Basins>, Column<Basins>),
}

/// One slice of a profile: its size at the top, and how its sides slope.
pub(super) struct Slice<T> {
    pub(super) area_factor: Term<T>,
    pub(super) length: Column<T>,
    pub(super) width: Column<T>,
    pub(super) from: Column<T>,
    pub(super) to: Column<T>,
    pub(super) side: Column<T>,
    pub(super) ramp: Column<T>,
}

/// What shelves and floor need to know of their basin.
#[derive(Clone, Copy)]
pub(super) struct Rim {
    pub(super) area_factor: Column<Basins>,
    pub(super) length: Column<Basins>,
    pub(super) width: Column<Basins>,
    pub(super) side: Column<Basins>,
    pub(super) ramp: Column<Basins>,
    pub(super) levels: Levels,
}

/// Adds the finished shape of every basin: rim, levels, shelves, floor, then volumes.
///
pub fn finished(graph: &mut Graph, inputs: &AllInputs, wide: &JobWide, system: System) -> Finished {
    let rim = rim(graph, inputs, wide, system);
    let shelves = shelves(graph, inputs, &rim, system);
    floor(graph, inputs, &rim, &shelves, system)
}

/// The shape of each basin.
const SHAPE_ROW: LookUp<Basins, Shapes> =
    LookUp::new("shape row", || Basins::Shape.key()).among(|| SHAPE.key());

/// The rim: outline, size, slopes and levels. A blank width is the length, a blank ramp
/// slope the side slope.
fn rim(graph: &mut Graph, inputs: &AllInputs, wide: &JobWide, system: System) -> Rim {
    let unit = system.length();
    let mut rules = graph.rules::<Basins>();
    let area_factor = rules.geometry("area factor", ONE, SHAPE_ROW.of(book::AREA_FACTOR));
    let measured = inputs.number(Basins::BasinLength);
    let length = rules.from_job("rim length", unit, measured);
    let width = inputs.number(Basins::BasinWidth).or(measured);
    let width = rules.from_job("rim width", unit, width);
    let side = inputs.number(Basins::SideSlope);
    let side = rules.from_job("side slope in use", SLOPE, side);
    let ramp = inputs.number(Basins::RampSlope).or(side);
    let ramp = rules.from_job("ramp slope in use", SLOPE, ramp);
    one_diameter(&mut rules, inputs, length, width);
    Rim {
        area_factor,
        length,
        width,
        side,
        ramp,
        levels: levels(&mut rules, inputs, wide, system),
    }
}

/// Limit: the two sizes of a circle are one.
fn one_diameter(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    length: Column<Basins>,
    width: Column<Basins>,
) {
    let round = inputs.words(Basins::Shape).is("circle");
    rules.limit(
        "circle with two widths",
        round.and(length.here().differs_from(width)),
        Breach::fault(
            Code::ConflictingValues,
            inputs.number(Basins::BasinWidth).id,
            "a circle has one diameter",
            "leave Width blank, or make it an ellipse",
        ),
    );
}

/// Volume of a whole slice, from its top to its foot; `what` ends the columns' names.
pub(super) fn slice_volume<T: Table>(
    rules: &mut Rules<'_, T>,
    what: &str,
    slice: &Slice<T>,
    system: System,
) -> Column<T> {
    let top = (slice.length, slice.width);
    let height = slice.to - slice.from;
    let unit = system.volume();
    volume_to_foot(rules, what, slice, (top, height), (system.length(), unit))
}

/// Water in a slice: from `surface`, a level inside the slice, to its foot.
pub(super) fn slice_water<T: Table>(
    rules: &mut Rules<'_, T>,
    slice: &Slice<T>,
    surface: Term<T>,
    system: System,
) -> Column<T> {
    let unit = system.length();
    let level = rules.geometry("level under water", unit, surface);
    let down = level - slice.from;
    let length = slice.length - down.clone() * (slice.side + slice.ramp);
    let length = rules.geometry("length at level under water", unit, length);
    let width = slice.width - down * slice.side * 2.0;
    let width = rules.geometry("width at level under water", unit, width);
    let water = ((length, width), slice.to - level);
    volume_to_foot(rules, "under water", slice, water, (unit, system.water()))
}

/// Volume between a level of a slice and its foot, by the prismoidal formula.
///
/// `top` is the length and width at that level, and its height above the foot; the
/// units are those of length and of the volume.
fn volume_to_foot<T: Table>(
    rules: &mut Rules<'_, T>,
    what: &str,
    slice: &Slice<T>,
    (top, height): ((Column<T>, Column<T>), Term<T>),
    (unit, volume): (Unit, Unit),
) -> Column<T> {
    let drop = slice.to - slice.from;
    let length = slice.length - drop.clone() * (slice.side + slice.ramp);
    let length = rules.geometry(&format!("foot length {what}"), unit, length);
    let width = slice.width - drop * slice.side * 2.0;
    let width = rules.geometry(&format!("foot width {what}"), unit, width);
    let solid = frustum(slice.area_factor.clone(), top, (length, width), height);
    let name = format!("volume {what}");
    rules.step(&name, volume, &sources::PRISMOIDAL, solid)
}

/// Volume of a solid whose sides run straight from one outline to another, by the
/// prismoidal formula: height × (top + 4 × middle + foot) ÷ 6.
///
/// The middle section's sides are the means of the two, so four times its area is the
/// product of the sums. Exact where the sides are plane.
pub(super) fn frustum<T>(
    area_factor: Term<T>,
    top: (impl Numbers<T>, impl Numbers<T>),
    foot: (impl Numbers<T>, impl Numbers<T>),
    height: Term<T>,
) -> Term<T> {
    let (top, foot) = ((top.0.here(), top.1.here()), (foot.0.here(), foot.1.here()));
    let four_middles = (top.0.clone() + foot.0.clone()) * (top.1.clone() + foot.1.clone());
    area_factor * (top.0 * top.1 + four_middles + foot.0 * foot.1) * height / 6.0
}

/// The slice from the last shelf to the floor, and the sums over all slices.
fn floor(
    graph: &mut Graph,
    inputs: &AllInputs,
    rim: &Rim,
    shelves: &ShelfSums,
    system: System,
) -> Finished {
    let link = shelves.link;
    let mut rules = graph.rules::<Basins>();
    let last = last_slice(&mut rules, rim, shelves, system);
    let (rim_side, rim_ramp) = slopes_at_the_rim(&mut rules, rim, shelves, last.from);
    let earth = slice_volume(&mut rules, "to the floor", &last, system);
    let surface = lowest(last.to, highest(last.from, rim.levels.water));
    let water = slice_water(&mut rules, &last, surface, system);
    let (floor_length, floor_width) = floor_size(&mut rules, &last, system);
    room_for_the_floor(&mut rules, inputs, &last, (floor_length, floor_width));
    let volume = rules.step(
        "finished volume",
        system.volume(),
        &sources::PRISMOIDAL,
        earth + link.sum(shelves.volume),
    );
    let water = rules.step(
        "water volume",
        system.water(),
        &sources::PRISMOIDAL,
        water + link.sum(shelves.water),
    );
    Finished {
        area_factor: rim.area_factor,
        length: rim.length,
        width: rim.width,
        rim_elevation: rim.levels.rim,
        depth: rim.levels.depth,
        side: rim.side,
        ramp: rim.ramp,
        rim_side,
        rim_ramp,
        floor_length,
        floor_width,
        volume,
        freeboard: rim.levels.freeboard,
        water,
        surface: rim.levels.water,
        shelf_basin: link,
        shelf_inner_width: shelves.inner_width,
        shelf_step: shelves.step,
        last_shelf: last.from,
        inside: (last.length, last.width),
    }
}

/// The slice from the last shelf, or from the rim where there is none, to the floor.
fn last_slice(
    rules: &mut Rules<'_, Basins>,
    rim: &Rim,
    shelves: &ShelfSums,
    system: System,
) -> Slice<Basins> {
    let link = shelves.link;
    let unit = system.length();
    let from = rules.geometry("depth to last shelf", unit, link.sum(shelves.drop));
    let length = rim.length - link.sum(shelves.length_run);
    let length = rules.geometry("length inside the shelves", unit, length);
    let width = rim.width - link.sum(shelves.width_run);
    let width = rules.geometry("width inside the shelves", unit, width);
    Slice {
        area_factor: rim.area_factor.into(),
        length,
        width,
        from,
        to: rim.levels.depth,
        side: rim.side,
        ramp: rim.ramp,
    }
}

/// Slopes at the rim: those above the first shelf, or the basin's own where there is none.
fn slopes_at_the_rim(
    rules: &mut Rules<'_, Basins>,
    rim: &Rim,
    shelves: &ShelfSums,
    last_shelf: Column<Basins>,
) -> (Column<Basins>, Column<Basins>) {
    let link = shelves.link;
    let has_shelf = last_shelf.here().above(0.0);
    let side = when(has_shelf.clone(), link.sum(shelves.rim_side), rim.side);
    let ramp = when(has_shelf, link.sum(shelves.rim_ramp), rim.ramp);
    (
        rules.from_job("side slope at the rim", SLOPE, side),
        rules.from_job("ramp slope at the rim", SLOPE, ramp),
    )
}

/// Length and width of the floor.
fn floor_size(
    rules: &mut Rules<'_, Basins>,
    last: &Slice<Basins>,
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let drop = last.to - last.from;
    let length = last.length - drop.clone() * (last.side + last.ramp);
    let width = last.width - drop * last.side * 2.0;
    (
        rules.geometry("floor length", system.length(), length),
        rules.geometry("floor width", system.length(), width),
    )
}

/// Limit: the sides leave room for a floor. Shelves that leave none are reported at the
/// shelf, not here once more.
fn room_for_the_floor(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    last: &Slice<Basins>,
    (length, width): (Column<Basins>, Column<Basins>),
) {
    let negative = |size: Column<Basins>| size.here().below(0.0);
    let inside = negative(last.length).negate();
    let inside = inside.and(negative(last.width).negate());
    rules.limit(
        "slopes meet above the floor",
        inside.and(negative(length).or(negative(width))),
        Breach::fault(
            Code::ShapeImpossible,
            inputs.number(Basins::SideSlope).id,
            "the slopes meet above the floor",
            "make the sides steeper, the basin shallower or its outline larger",
        ),
    );
}
