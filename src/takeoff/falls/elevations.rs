//! Elevations of courses, from the bottom up: each bed from the top of the course below.
//!
//! Always true: a course whose top is given as set moves everything above it and nothing
//! below. Where the foot has no elevation, all are heights above the foot.

use super::courses::Sizes;
use super::order::Order;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Condition, Graph, Link, Rules, highest, lowest, when};
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::levels::elevation;
use crate::units::ONE;

/// Foot and rise of each fall; bed, top and rise of each course.
#[derive(Clone, Copy, Debug)]
pub(super) struct Elevations {
    pub(super) foot: Column<Falls>,
    pub(super) total_rise: Column<Falls>,
    pub(super) rise: Column<Courses>,
    pub(super) bed: Column<Courses>,
    pub(super) top: Column<Courses>,
    pub(super) setback: Column<Courses>,
    pub(super) distance: Column<Courses>,
    pub(super) back: Column<Courses>,
}

/// Adds the elevations of every fall and course, and how far back each course stands.
pub(super) fn elevations(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (order, sizes): (&Order, &Sizes),
) -> Elevations {
    let unit = basis.system.length();
    let foot = foot(graph, basis);
    let mut rules = graph.rules::<Courses>();
    let rise = rise(&mut rules, basis, (order, sizes));
    let (bed, top) = bed_and_top(&mut rules, basis, (order, sizes), foot, rise);
    let setback = basis.inputs.number(Courses::Setback);
    let distance = rules.running("distance back", unit, &sources::GEOMETRY, |own| {
        own.row_above(order.fall, 0.0) + setback
    });
    let back = rules.geometry("back of the stone", unit, distance + sizes.depth);
    Elevations {
        foot: foot.elevation,
        total_rise: total_rise(graph, basis, order.last, (foot.elevation, top)),
        rise,
        bed,
        top,
        setback,
        distance,
        back,
    }
}

/// The foot of a fall, and 1 where the job gives its elevation.
#[derive(Clone, Copy)]
struct Foot {
    elevation: Column<Falls>,
    known: Column<Falls>,
}

/// The elevation of each foot: zero where none is given, so that heights count from it.
fn foot(graph: &mut Graph, basis: &Basis<'_>) -> Foot {
    let mut rules = graph.rules::<Falls>();
    let at = (Falls::Foot, Falls::FootRod);
    let (inputs, wide) = (basis.inputs, basis.wide);
    let foot = elevation(&mut rules, inputs, wide, "foot elevation", at, basis.system);
    let known = when(foot.known, 1.0, 0.0);
    Foot {
        elevation: foot.height,
        known: rules.from_job("foot known", ONE, known),
    }
}

/// From the bed of a course up to the next: as given, or the height less what the next
/// is bedded below the top.
///
/// Limits: the next course is bedded no higher than the top, and above this bed.
fn rise(
    rules: &mut Rules<'_, Courses>,
    basis: &Basis<'_>,
    (order, sizes): (&Order, &Sizes),
) -> Column<Courses> {
    let given = basis.inputs.number(Courses::Rise);
    let usual = sizes.height - factor(basis.inputs, Factor::NextBed);
    let rise = given.or(highest(usual, 0.0));
    let unit = basis.system.thickness();
    let rise = rules.step("rise in use", unit, &sources::NEXT_BED, rise);
    let followed = || order.above.here().above(0.0);
    rules.limit(
        "rise above the stone",
        followed().and(rise.here().above(sizes.height)),
        Breach::warning(
            Code::ConflictingValues,
            given.id,
            "the next course is bedded above the top of this stone, which leaves a gap",
            "check Rise and Height and their units",
        ),
    );
    let low = factor(basis.inputs, Factor::NextBed).at_least(sizes.height);
    let flat = given.blank().and(sizes.height.here().above(0.0)).and(low);
    rules.limit(
        "course that does not rise",
        followed().and(flat),
        Breach::open(
            Code::MissingValue,
            given.id,
            "the next course would not rise: this stone is no higher than the next one is usually bedded below its top",
            "write Rise, from this bed up to the next",
        ),
    );
    rise
}

/// Bed and top of each course. The top is where it was set, or the bed plus the height;
/// the next bed lies below it by the height less the rise.
fn bed_and_top(
    rules: &mut Rules<'_, Courses>,
    basis: &Basis<'_>,
    (order, sizes): (&Order, &Sizes),
    foot: Foot,
    rise: Column<Courses>,
) -> (Column<Courses>, Column<Courses>) {
    let (inputs, system) = (basis.inputs, basis.system);
    let (link, unit) = (order.fall, system.length());
    let at = (Courses::AsSet, Courses::AsSetRod);
    let as_set = elevation(rules, inputs, basis.wide, "as set elevation", at, system);
    let embedment = inputs.number(Courses::Embedment);
    let below = || sizes.height.row_above(link, embedment) - rise.row_above(link, 0.0);
    let known = as_set.known.clone();
    let top = rules.running("top", unit, &sources::NEXT_BED, |own| {
        let bed = own.row_above(link, link.of(foot.elevation)) - below();
        when(known.clone(), as_set.height, bed + sizes.height)
    });
    let bed = top.row_above(link, link.of(foot.elevation)) - below();
    let bed = rules.step("bed", unit, &sources::NEXT_BED, bed);
    let rod = inputs.number(Courses::AsSetRod);
    let no_foot = rod.filled().and(link.of(foot.known).same_as(0.0));
    let known = (&known, no_foot.clone().negate());
    as_set_limits(rules, inputs, known, (bed, top, sizes.height));
    rules.limit(
        "as set rod without foot",
        no_foot,
        Breach::fault(
            Code::MissingValue,
            rod.id,
            "the top is a rod reading and the foot of the fall has no elevation",
            "write Foot or Foot rod of the fall",
        ),
    );
    (bed, top)
}

/// Limits: a course as set has an elevation, above its bed and near where it was planned.
fn as_set_limits(
    rules: &mut Rules<'_, Courses>,
    inputs: &AllInputs,
    (known, from_foot): (&Condition, Condition),
    (bed, top, height): (Column<Courses>, Column<Courses>, Column<Courses>),
) {
    let at = inputs.number(Courses::AsSet).id;
    let marked = inputs.words(Courses::CourseGrade).is("as set");
    rules.limit(
        "as set without elevation",
        marked.and(known.clone().negate()),
        Breach::open(
            Code::MissingValue,
            at,
            "the course is marked as set and its top is not measured",
            "write As set top or its rod reading, or another grade",
        ),
    );
    let sunk = top.here().above(bed).negate();
    rules.limit(
        "as set below its bed",
        known.clone().and(from_foot.clone()).and(sunk.clone()),
        Breach::fault(
            Code::ShapeImpossible,
            at,
            "the top as set is not above the bed of the course",
            "check the elevation, and those of the courses below it",
        ),
    );
    let planned = bed + height;
    let off = highest(top, planned.clone()) - lowest(top, planned);
    rules.limit(
        "as set far from its plan",
        known
            .clone()
            .and(from_foot)
            .and(sunk.negate())
            .and(off.above(height)),
        Breach::warning(
            Code::ConflictingValues,
            at,
            "the top as set is more than the height of its stone from where it was planned",
            "check the elevation, the foot of the fall and the rise of the courses below",
        ),
    );
}

/// From the foot to the top of the last course. Limit: it is as planned.
fn total_rise(
    graph: &mut Graph,
    basis: &Basis<'_>,
    last: Link<Falls, Courses>,
    (foot, top): (Column<Falls>, Column<Courses>),
) -> Column<Falls> {
    let planned = basis.inputs.number(Falls::PlannedRise);
    let mut rules = graph.rules::<Falls>();
    let rise = when(last.found_none(), 0.0, last.of(top) - foot);
    let rise = rules.geometry("total rise", basis.system.length(), rise);
    let off = highest(rise, planned) - lowest(rise, planned);
    let off = off.above(factor(basis.inputs, Factor::RiseApart));
    let measured = last.found_none().negate().and(planned.filled());
    rules.limit(
        "total rise against plan",
        measured.and(off),
        Breach::warning(
            Code::ConflictingValues,
            planned.id,
            "the courses do not come to the planned rise",
            "check the rise of each course, or the plan; a course as set moves all above it",
        ),
    );
    rise
}
