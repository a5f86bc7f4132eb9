//! The finished shape of basins: levels, profile through the shelves, volume and water.
//!
//! A basin's profile is a stack of slices: one for each shelf, and one from the last
//! shelf to the floor. Sides slope evenly within a slice, so that the prismoidal
//! formula is exact. Always true: shelves go down and in; where the measures do not
//! make a solid, a limit is broken and the job is refused.
//!
//! For an ellipse the slope is the one on its axes: each level is an ellipse whose axes
//! are shorter by the run at both ends.

use super::book::{Shapes, factor};
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use crate::diagnostic::Code;
use crate::graph::{
    Breach, Column, Condition, Graph, Link, Rules, Table, Term, highest, lowest, only, when,
};
use crate::job::tables::{Basins, JobKeys, Shelves};
use crate::parameters::Factor;
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
struct Slice<T> {
    area_factor: Term<T>,
    length: Column<T>,
    width: Column<T>,
    from: Column<T>,
    to: Column<T>,
    side: Column<T>,
    ramp: Column<T>,
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
        system.length,
        &sources::JOB,
        basins.number(Basins::BasinLength),
    );
    let width = basins
        .number(Basins::BasinWidth)
        .or(basins.number(Basins::BasinLength));
    let width = rules.step("rim width", system.length, &sources::JOB, width);
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
struct Rim {
    area_factor: Column<Basins>,
    length: Column<Basins>,
    width: Column<Basins>,
    side: Column<Basins>,
    ramp: Column<Basins>,
    levels: Levels,
}

#[derive(Clone, Copy)]
struct Levels {
    depth: Column<Basins>,
    freeboard: Column<Basins>,
    water: Column<Basins>,
}

/// Depth, freeboard and the depth of the water's surface, from elevations or rod readings.
fn levels(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    wide: &JobWide,
    system: System,
) -> Levels {
    let basins = &inputs.basins;
    let (rim, rim_known) = elevation(
        rules,
        inputs,
        wide,
        "rim elevation",
        Basins::Rim,
        Basins::RimRod,
        system,
    );
    let (floor, floor_known) = elevation(
        rules,
        inputs,
        wide,
        "floor elevation",
        Basins::FloorLevel,
        Basins::FloorRod,
        system,
    );
    let (low, low_known) = elevation(
        rules,
        inputs,
        wide,
        "lowest rim elevation",
        Basins::LowestRim,
        Basins::LowestRimRod,
        system,
    );
    let (water, water_known) = elevation(
        rules,
        inputs,
        wide,
        "water elevation",
        Basins::WaterLevel,
        Basins::WaterLevelRod,
        system,
    );
    let measured = basins.number(Basins::Depth);
    let both = rim_known.clone().and(floor_known);
    let depth = rules.step(
        "depth to floor",
        system.length,
        &sources::JOB,
        measured.or(when(both.clone(), rim - floor, 0.0)),
    );
    rules.limit(
        "depth not known",
        depth.here().above(0.0).negate(),
        Breach::fault(
            Code::MissingValue,
            measured.id,
            "the basin has no depth",
            "write Depth, or the elevations of Rim and Floor, rim above floor",
        ),
    );
    rules.limit(
        "depth against elevations",
        measured
            .filled()
            .and(both)
            .and((depth - (rim - floor)).round(2).differs_from(0.0)),
        Breach::fault(
            Code::ConflictingValues,
            measured.id,
            "the depth and the elevations of rim and floor disagree",
            "keep one of the two",
        ),
    );
    rules.limit(
        "lowest rim without rim",
        low_known.clone().and(rim_known.clone().negate()),
        Breach::fault(
            Code::MissingValue,
            basins.number(Basins::Rim).id,
            "the lowest rim is known and the rim is not",
            "write the elevation of Rim, which depths start from",
        ),
    );
    let dip = rules.step(
        "dip of the rim",
        system.length,
        &sources::JOB,
        when(rim_known.clone().and(low_known), rim - low, 0.0),
    );
    rules.limit(
        "lowest rim above rim",
        dip.here().below(0.0),
        Breach::fault(
            Code::ConflictingValues,
            basins.number(Basins::LowestRim).id,
            "the lowest rim is higher than the rim",
            "measure depths from the higher of the two",
        ),
    );
    let by_level = rim_known.and(water_known.clone());
    let free = basins
        .number(Basins::Freeboard)
        .or(factor(inputs, Factor::Freeboard));
    let surface = when(by_level, rim - water, dip + free);
    let surface = rules.step("rim to water", system.length, &sources::FREEBOARD, surface);
    let freeboard = rules.step(
        "freeboard at lowest rim",
        system.length,
        &sources::JOB,
        surface - dip,
    );
    rules.limit(
        "water over the lowest rim",
        freeboard.here().below(0.0),
        Breach::fault(
            Code::ConflictingValues,
            basins.number(Basins::WaterLevel).id,
            "the water stands above the lowest rim",
            "check the water level and the lowest rim",
        ),
    );
    Levels {
        depth,
        freeboard,
        water: surface,
    }
}

/// An elevation, given as such or as a rod reading, and whether either is there.
fn elevation(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    wide: &JobWide,
    name: &str,
    level: Basins,
    rod: Basins,
    system: System,
) -> (Column<Basins>, Condition) {
    let (level, rod) = (inputs.basins.number(level), inputs.basins.number(rod));
    let by_rod = only(wide.instrument) - rod;
    rules.limit(
        &format!("{name} rod without benchmark"),
        rod.filled()
            .and(only::<Basins, JobKeys>(wide.levelled).same_as(0.0)),
        Breach::fault(
            Code::MissingValue,
            rod.id,
            "a rod reading needs the benchmark and the backsight",
            "write Benchmark and Backsight in Job",
        ),
    );
    rules.limit(
        &format!("{name} against rod"),
        level
            .filled()
            .and(rod.filled())
            .and((level - by_rod.clone()).round(2).differs_from(0.0)),
        Breach::fault(
            Code::ConflictingValues,
            level.id,
            "the elevation and its rod reading disagree",
            "keep one of the two",
        ),
    );
    let value = level.or(when(rod.blank(), 0.0, by_rod));
    let column = rules.step(name, system.length, &sources::JOB, value);
    (column, level.filled().or(rod.filled()))
}

/// What the floor needs to know of the shelves above it.
struct ShelfSums {
    link: Link<Shelves, Basins>,
    inner_width: Column<Shelves>,
    drop: Column<Shelves>,
    length_run: Column<Shelves>,
    width_run: Column<Shelves>,
    rim_side: Column<Shelves>,
    rim_ramp: Column<Shelves>,
    volume: Column<Shelves>,
    water: Column<Shelves>,
}

fn shelves(graph: &mut Graph, inputs: &AllInputs, rim: &Rim, system: System) -> ShelfSums {
    let shelves = &inputs.shelves;
    let (depth, width) = (
        shelves.number(Shelves::ShelfDepth),
        shelves.number(Shelves::ShelfWidth),
    );
    let mut rules = graph.rules::<Shelves>();
    let link: Link<Shelves, Basins> = rules.link("basin row", shelves.words(Shelves::ShelfBasin));
    let to = rules.step("depth to shelf", system.length, &sources::JOB, depth);
    let from = rules.step(
        "depth to step above",
        system.length,
        &sources::JOB,
        to.row_above(link, 0.0),
    );
    let drop = rules.step("drop", system.length, &sources::GEOMETRY, to - from);
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
        system.length,
        &sources::GEOMETRY,
        drop * (side + ramp) + 2.0 * width,
    );
    let width_run = rules.step(
        "run across the width",
        system.length,
        &sources::GEOMETRY,
        drop * side * 2.0 + 2.0 * width,
    );
    let inner_length = rules.running(
        "length inside the shelf",
        system.length,
        &sources::GEOMETRY,
        |own| own.row_above(link, link.of(rim.length)) - length_run,
    );
    let inner_width = rules.running(
        "width inside the shelf",
        system.length,
        &sources::GEOMETRY,
        |own| own.row_above(link, link.of(rim.width)) - width_run,
    );
    let top_length = rules.step(
        "length at the step above",
        system.length,
        &sources::GEOMETRY,
        inner_length + length_run,
    );
    let top_width = rules.step(
        "width at the step above",
        system.length,
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

/// The slice below a level in it: sides at that level and at the slice's foot, then the
/// volume between. The middle section's sides are the means of the two, so four times
/// its area is the product of the sums.
fn slice_volume<T: Table>(
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
            system.length,
            &sources::GEOMETRY,
            level,
        );
        let down = level - slice.from;
        let length = slice.length - down.clone() * (slice.side + slice.ramp);
        let length = rules.step(
            &format!("length at level {what}"),
            system.length,
            &sources::GEOMETRY,
            length,
        );
        let width = slice.width - down * slice.side * 2.0;
        (
            level,
            length,
            rules.step(
                &format!("width at level {what}"),
                system.length,
                &sources::GEOMETRY,
                width,
            ),
        )
    };
    let drop = slice.to - slice.from;
    let foot_length = slice.length - drop.clone() * (slice.side + slice.ramp);
    let foot_length = rules.step(
        &format!("foot length {what}"),
        system.length,
        &sources::GEOMETRY,
        foot_length,
    );
    let foot_width = slice.width - drop * slice.side * 2.0;
    let foot_width = rules.step(
        &format!("foot width {what}"),
        system.length,
        &sources::GEOMETRY,
        foot_width,
    );
    let unit = if whole { system.volume } else { system.water };
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
        system.length,
        &sources::GEOMETRY,
        link.sum(shelves.drop),
    );
    let length = rules.step(
        "length inside the shelves",
        system.length,
        &sources::GEOMETRY,
        rim.length - link.sum(shelves.length_run),
    );
    let width = rules.step(
        "width inside the shelves",
        system.length,
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
        system.length,
        &sources::GEOMETRY,
        length - drop.clone() * (rim.side + rim.ramp),
    );
    let floor_width = rules.step(
        "floor width",
        system.length,
        &sources::GEOMETRY,
        width - drop * rim.side * 2.0,
    );
    rules.limit(
        "slopes meet above the floor",
        floor_length
            .here()
            .below(0.0)
            .or(floor_width.here().below(0.0)),
        Breach::fault(
            Code::ShapeImpossible,
            inputs.basins.number(Basins::SideSlope).id,
            "the slopes meet above the floor",
            "make the sides steeper, the basin shallower or its outline larger",
        ),
    );
    let volume = rules.step(
        "finished volume",
        system.volume,
        &sources::PRISMOIDAL,
        last + link.sum(shelves.volume),
    );
    let water = rules.step(
        "water volume",
        system.water,
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
