//! The surface that a sheet covers in a basin: its length and width measured along the
//! profile from rim to rim, its area, and the way round the rim.
//!
//! Always true: through slopes the way along the surface is at least the way across, and
//! at most the way across and twice the depth, which it is where walls are upright.

use crate::graph::prelude::*;
use crate::graph::{Column, Condition, Graph, Link, Rules, Table, Term, highest, pi, when};
use crate::job::tables::{Basins, Shelves};
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::units::{ONE, System};

/// The surface of basins, as a sheet lies on it.
#[derive(Clone, Copy, Debug)]
pub struct Developed {
    /// From rim to rim along the length, through shelves and slopes; of an ellipse along
    /// its axis.
    pub length: Column<Basins>,
    /// The same across the width.
    pub width: Column<Basins>,
    /// The surface itself, without edges: floor, slopes and treads of shelves.
    pub surface: Column<Basins>,
    /// The way round the rim.
    pub rim: Column<Basins>,
    /// 1 where the rim is a rectangle.
    pub straight: Column<Basins>,
}

/// What the shelves of a basin add to it.
struct Shares {
    length: Column<Shelves>,
    width: Column<Shelves>,
    surface: Column<Shelves>,
}

/// A slope all the way round, between two outlines: the size at its top and at its foot,
/// how far it goes down, and how long its sides and its ramp end are down the slope.
struct Slope<T> {
    area_factor: Term<T>,
    drop: Term<T>,
    top: (Column<T>, Column<T>),
    foot: (Column<T>, Column<T>),
    side: Column<T>,
    ramp: Column<T>,
    is_straight: Condition,
}

/// Adds the developed surface of every basin.
pub(super) fn developed(graph: &mut Graph, basis: &Basis<'_>) -> Developed {
    let straight = graph.rules::<Basins>().from_job(
        "straight sides",
        ONE,
        when(basis.inputs.words(Basins::Shape).is("rectangle"), 1.0, 0.0),
    );
    let shares = shares(graph, basis, straight);
    let (finished, system) = (basis.finished, basis.system);
    let (link, unit) = (finished.shelf_basin, system.length());
    let mut rules = graph.rules::<Basins>();
    let slope = floor_slope(&mut rules, basis, straight);
    let (side, ramp) = below(&mut rules, basis);
    let length = finished.floor_length + slope.side + slope.ramp + link.sum(shares.length);
    let length = length + side + ramp;
    let length = rules.step("developed length", unit, &sources::DEVELOPED, length);
    let width = finished.floor_width + 2.0 * slope.side + link.sum(shares.width);
    let width = width + 2.0 * side;
    let width = rules.step("developed width", unit, &sources::DEVELOPED, width);
    let floor = finished.area_factor * finished.floor_length * finished.floor_width;
    let sides = slope_area(&mut rules, "lined slope to the floor", &slope, system);
    let surface = floor + sides + link.sum(shares.surface);
    let surface = rules.step(
        "lined surface",
        system.area(),
        &sources::LINED_SURFACE,
        surface,
    );
    Developed {
        length,
        width,
        surface,
        rim: rim(&mut rules, basis, straight),
        straight,
    }
}

/// How much longer a side and the ramp end are below the stone that lies on the sheet than
/// on the finished surface: the slope of the rim runs on up to the rim's level.
fn below(rules: &mut Rules<'_, Basins>, basis: &Basis<'_>) -> (Column<Basins>, Column<Basins>) {
    let (finished, unit) = (basis.finished, basis.system.length());
    let cover = basis.inputs.number(Basins::Ballast);
    let mut longer = |name: &str, slope: Column<Basins>| {
        let longer = down_the_slope(cover.here(), slope);
        rules.step(name, unit, &sources::DEVELOPED, longer)
    };
    (
        longer("side longer below the ballast", finished.rim_side),
        longer("ramp longer below the ballast", finished.rim_ramp),
    )
}

/// The slope from the last shelf, or from the rim, down to the floor.
fn floor_slope(
    rules: &mut Rules<'_, Basins>,
    basis: &Basis<'_>,
    straight: Column<Basins>,
) -> Slope<Basins> {
    let (finished, unit) = (basis.finished, basis.system.length());
    let drop = finished.depth - finished.last_shelf;
    let side = down_the_slope(drop.clone(), finished.side);
    let ramp = down_the_slope(drop.clone(), finished.ramp);
    Slope {
        area_factor: finished.area_factor.into(),
        drop,
        top: finished.inside,
        foot: (finished.floor_length, finished.floor_width),
        side: rules.step("side down to the floor", unit, &sources::DEVELOPED, side),
        ramp: rules.step("ramp down to the floor", unit, &sources::DEVELOPED, ramp),
        is_straight: straight.here().same_as(1.0),
    }
}

/// What each step of a profile adds: its slope on both sides, and its tread.
fn shares(graph: &mut Graph, basis: &Basis<'_>, straight: Column<Basins>) -> Shares {
    let (finished, system) = (basis.finished, basis.system);
    let (link, step, unit) = (finished.shelf_basin, finished.shelf_step, system.length());
    let mut rules = graph.rules::<Shelves>();
    let mut along =
        |name: &str, term: Term<Shelves>| rules.step(name, unit, &sources::DEVELOPED, term);
    let tread = basis.inputs.number(Shelves::ShelfWidth);
    let side = along(
        "side down to the shelf",
        down_the_slope(step.drop.into(), step.side),
    );
    let ramp = along(
        "ramp down to the shelf",
        down_the_slope(step.drop.into(), step.ramp),
    );
    let length = along("developed along the length", side + ramp + 2.0 * tread);
    let width = along("developed across the width", 2.0 * side + 2.0 * tread);
    let foot_length = along(
        "length at the tread",
        step.length - step.drop * (step.side + step.ramp),
    );
    let foot_width = along(
        "width at the tread",
        step.width - step.drop * step.side * 2.0,
    );
    let slope = Slope {
        area_factor: link.of(finished.area_factor),
        drop: step.drop.into(),
        top: (step.length, step.width),
        foot: (foot_length, foot_width),
        side,
        ramp,
        is_straight: link.of(straight).same_as(1.0),
    };
    let sides = slope_area(&mut rules, "lined slope to the shelf", &slope, system);
    let inner = (foot_length - 2.0 * tread) * (foot_width - 2.0 * tread);
    let ring = link.of(finished.area_factor) * (foot_length * foot_width - inner);
    let surface = rules.geometry("lined surface", system.area(), sides + ring);
    Shares {
        length,
        width,
        surface,
    }
}

/// Length down a slope: drop × √(1 + slope²).
fn down_the_slope<T>(drop: Term<T>, slope: Column<T>) -> Term<T> {
    drop * (slope * slope + 1.0).root()
}

/// Area of a slope all the way round.
///
/// Straight sides are four trapezoids. Round an ellipse it is the larger of two figures that
/// are both exact for a circle: π/4 of those trapezoids, which is near where one end is a
/// ramp, and √(upright² + plan²), which is near where all sides are alike; upright is the
/// mean perimeter × the drop, plan the ring between the outlines as seen from above.
fn slope_area<T: Table>(
    rules: &mut Rules<'_, T>,
    name: &str,
    slope: &Slope<T>,
    system: System,
) -> Column<T> {
    let (top, foot) = (slope.top, slope.foot);
    let long = (top.0 + foot.0) * slope.side;
    let ends = (top.1 + foot.1) * (slope.side + slope.ramp) / 2.0;
    let trapezoids = long + ends;
    let perimeter = (ellipse(top, system) + ellipse(foot, system)) / 2.0;
    let upright = (perimeter * slope.drop.clone()).number_in(system.area());
    let plan = slope.area_factor.clone() * (top.0 * top.1 - foot.0 * foot.1);
    let plan = plan.number_in(system.area());
    let even = (upright.clone() * upright + plan.clone() * plan).root();
    let like_straight = slope.area_factor.clone() * trapezoids.clone();
    let round = highest(like_straight, even.counted_in(system.area()));
    let area = when(slope.is_straight.clone(), trapezoids, round);
    rules.step(name, system.area(), &sources::LINED_SURFACE, area)
}

/// Perimeter of an ellipse by its two axes: π/2 × (3 (a + b) − √((3a + b)(a + 3b))).
///
/// An impossible outline, which a limit reports, has no root to take: it counts as zero.
fn ellipse<T>((a, b): (Column<T>, Column<T>), system: System) -> Term<T> {
    let product = (3.0 * a + b) * (a + 3.0 * b);
    let product = highest(product.number_in(system.area()), 0.0);
    let root = product.root().counted_in(system.length());
    pi() / 2.0 * (3.0 * (a + b) - root)
}

/// The way round the rim.
fn rim(
    rules: &mut Rules<'_, Basins>,
    basis: &Basis<'_>,
    straight: Column<Basins>,
) -> Column<Basins> {
    let (finished, system) = (basis.finished, basis.system);
    let size = (finished.length, finished.width);
    let is_straight = straight.here().same_as(1.0);
    let round = when(is_straight, 2.0 * (size.0 + size.1), ellipse(size, system));
    rules.step("lined rim", system.length(), &sources::ELLIPSE, round)
}

/// The way round a line beside the rim, at a distance out from it: longer than the rim by
/// eight times that distance round a rectangle, by a full turn of it round a curve.
pub(super) fn beside_the_rim<T>(
    link: Link<T, Basins>,
    developed: &Developed,
    out: Term<T>,
) -> Term<T> {
    let is_straight = link.of(developed.straight).same_as(1.0);
    link.of(developed.rim) + when(is_straight, 8.0 * out.clone(), 2.0 * pi() * out)
}
