//! The finished shape of basins: levels, profile through the shelves, volume and water.
//!
//! A basin's profile is a stack of slices: one for each shelf, and one from the last
//! shelf to the floor. Sides slope evenly within a slice, so that the prismoidal
//! formula is exact. Always true: shelves go down and in; where the measures do not
//! make a solid, a limit is broken and the job is refused.
//!
//! For an ellipse the slope is the one on its axes: each level is an ellipse whose axes
//! are shorter by the run at both ends.

use super::book::Shapes;
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use super::levels::{Levels, levels};
use super::shelves::{ShelfSums, shelves};
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Link, Rules, Table, Term, highest, lowest, when};
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::units::{ONE, SLOPE, System};

/// Columns of the finished shape that other rules build on.
#[derive(Clone, Copy, Debug)]
pub struct Finished {
    /// Area of the outline as a share of length × width.
    pub area_factor: Column<Basins>,
    /// Length along the rim.
    pub length: Column<Basins>,
    /// Width across the rim.
    pub width: Column<Basins>,
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

/// Adds the finished shape of every basin.
pub fn finished(
    graph: &mut Graph,
    inputs: &AllInputs,
    wide: &JobWide,
    area_factor: Column<Shapes>,
    system: System,
) -> Finished {
    let basins = &inputs.basins;
    let mut rules = graph.rules::<Basins>();
    let shape: Link<Basins, Shapes> = rules.link("shape row", basins.words(Basins::Shape));
    let area_factor = rules.step(
        "area factor",
        ONE,
        &sources::GEOMETRY,
        shape.of(area_factor),
    );
    let length = rules.step(
        "rim length",
        system.length(),
        &sources::JOB,
        basins.number(Basins::BasinLength),
    );
    let width = basins
        .number(Basins::BasinWidth)
        .or(basins.number(Basins::BasinLength));
    let width = rules.step("rim width", system.length(), &sources::JOB, width);
    let side = rules.step(
        "side slope in use",
        SLOPE,
        &sources::JOB,
        basins.number(Basins::SideSlope),
    );
    let ramp = rules.step(
        "ramp slope in use",
        SLOPE,
        &sources::JOB,
        basins.number(Basins::RampSlope).or(side),
    );
    rules.limit(
        "circle with two widths",
        basins
            .words(Basins::Shape)
            .is("circle")
            .and(length.here().differs_from(width)),
        Breach::fault(
            Code::ConflictingValues,
            basins.number(Basins::BasinWidth).id,
            "a circle has one diameter",
            "leave Width blank, or make it an ellipse",
        ),
    );
    let levels = levels(&mut rules, inputs, wide, system);
    let shelves = shelves(
        graph,
        inputs,
        &Rim {
            area_factor,
            length,
            width,
            side,
            ramp,
            levels,
        },
        system,
    );
    floor(
        graph,
        inputs,
        &Rim {
            area_factor,
            length,
            width,
            side,
            ramp,
            levels,
        },
        &shelves,
        system,
    )
}

/// What shelves need to know of their basin.
#[derive(Clone, Copy)]
pub(super) struct Rim {
    pub(super) area_factor: Column<Basins>,
    pub(super) length: Column<Basins>,
    pub(super) width: Column<Basins>,
    pub(super) side: Column<Basins>,
    pub(super) ramp: Column<Basins>,
    pub(super) levels: Levels,
}

/// The slice below a level in it: sides at that level and at the slice's foot, then the
/// volume between. The middle section's sides are the means of the two, so four times
/// its area is the product of the sums.
pub(super) fn slice_volume<T: Table>(
    rules: &mut Rules<'_, T>,
    what: &str,
    slice: &Slice<T>,
    level: Term<T>,
    system: System,
    whole: bool,
) -> Column<T> {
    let (level, length, width) = if whole {
        (slice.from, slice.length, slice.width)
    } else {
        let level = rules.step(
            &format!("level {what}"),
            system.length(),
            &sources::GEOMETRY,
            level,
        );
        let down = level - slice.from;
        let length = slice.length - down.clone() * (slice.side + slice.ramp);
        let length = rules.step(
            &format!("length at level {what}"),
            system.length(),
            &sources::GEOMETRY,
            length,
        );
        let width = slice.width - down * slice.side * 2.0;
        (
            level,
            length,
            rules.step(
                &format!("width at level {what}"),
                system.length(),
                &sources::GEOMETRY,
                width,
            ),
        )
    };
    let drop = slice.to - slice.from;
    let foot_length = slice.length - drop.clone() * (slice.side + slice.ramp);
    let foot_length = rules.step(
        &format!("foot length {what}"),
        system.length(),
        &sources::GEOMETRY,
        foot_length,
    );
    let foot_width = slice.width - drop * slice.side * 2.0;
    let foot_width = rules.step(
        &format!("foot width {what}"),
        system.length(),
        &sources::GEOMETRY,
        foot_width,
    );
    let unit = if whole {
        system.volume()
    } else {
        system.water()
    };
    let volume = frustum(
        slice.area_factor.clone(),
        (length, width),
        (foot_length, foot_width),
        slice.to - level,
    );
    rules.step(
        &format!("volume {what}"),
        unit,
        &sources::PRISMOIDAL,
        volume,
    )
}

/// Volume of a solid whose sides run straight from one outline to another, by the
/// prismoidal formula: height × (top + 4 × middle + foot) ÷ 6.
pub(super) fn frustum<T>(
    area_factor: Term<T>,
    top: (Column<T>, Column<T>),
    foot: (Column<T>, Column<T>),
    height: Term<T>,
) -> Term<T> {
    let four_middles = (top.0 + foot.0) * (top.1 + foot.1);
    area_factor * (top.0 * top.1 + four_middles + foot.0 * foot.1) * height / 6.0
}

fn floor(
    graph: &mut Graph,
    inputs: &AllInputs,
    rim: &Rim,
    shelves: &ShelfSums,
    system: System,
) -> Finished {
    let link = shelves.link;
    let mut rules = graph.rules::<Basins>();
    let from = rules.step(
        "depth to last shelf",
        system.length(),
        &sources::GEOMETRY,
        link.sum(shelves.drop),
    );
    let length = rules.step(
        "length inside the shelves",
        system.length(),
        &sources::GEOMETRY,
        rim.length - link.sum(shelves.length_run),
    );
    let width = rules.step(
        "width inside the shelves",
        system.length(),
        &sources::GEOMETRY,
        rim.width - link.sum(shelves.width_run),
    );
    let shelved = from.here().above(0.0);
    let rim_side = when(shelved.clone(), link.sum(shelves.rim_side), rim.side);
    let rim_side = rules.step("side slope at the rim", SLOPE, &sources::JOB, rim_side);
    let rim_ramp = when(shelved, link.sum(shelves.rim_ramp), rim.ramp);
    let rim_ramp = rules.step("ramp slope at the rim", SLOPE, &sources::JOB, rim_ramp);
    let to = rim.levels.depth;
    let slice = Slice {
        area_factor: rim.area_factor.into(),
        length,
        width,
        from,
        to,
        side: rim.side,
        ramp: rim.ramp,
    };
    let last = slice_volume(
        &mut rules,
        "to the floor",
        &slice,
        from.into(),
        system,
        true,
    );
    let surface = lowest(to, highest(from, rim.levels.water));
    let last_water = slice_volume(&mut rules, "under water", &slice, surface, system, false);
    let drop = to - from;
    let floor_length = rules.step(
        "floor length",
        system.length(),
        &sources::GEOMETRY,
        length - drop.clone() * (rim.side + rim.ramp),
    );
    let floor_width = rules.step(
        "floor width",
        system.length(),
        &sources::GEOMETRY,
        width - drop * rim.side * 2.0,
    );
    // Shelves that leave no room are reported at the shelf, not here once more.
    let inside = length.here().below(0.0).negate();
    let inside = inside.and(width.here().below(0.0).negate());
    rules.limit(
        "slopes meet above the floor",
        inside.and(
            floor_length
                .here()
                .below(0.0)
                .or(floor_width.here().below(0.0)),
        ),
        Breach::fault(
            Code::ShapeImpossible,
            inputs.basins.number(Basins::SideSlope).id,
            "the slopes meet above the floor",
            "make the sides steeper, the basin shallower or its outline larger",
        ),
    );
    let volume = rules.step(
        "finished volume",
        system.volume(),
        &sources::PRISMOIDAL,
        last + link.sum(shelves.volume),
    );
    let water = rules.step(
        "water volume",
        system.water(),
        &sources::PRISMOIDAL,
        last_water + link.sum(shelves.water),
    );
    Finished {
        area_factor: rim.area_factor,
        length: rim.length,
        width: rim.width,
        depth: to,
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
    }
}
