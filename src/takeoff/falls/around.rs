//! What lies around the stone of a fall: bedding under it, river stone in its gaps, foam
//! in its joints, and the shelf that is cut for it.

use super::courses::{Sizes, Stone};
use super::order::Order;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, highest, when};
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::EACH;

/// What each fall takes beside its stone.
#[derive(Clone, Copy, Debug)]
pub(super) struct Around {
    pub(super) gap_fill: Column<Falls>,
    pub(super) bedding: Column<Falls>,
    pub(super) joint: Column<Falls>,
    pub(super) cans: Column<Falls>,
    pub(super) cut: Column<Falls>,
}

/// The same of one course.
#[derive(Clone, Copy)]
struct OfCourse {
    bedding: Column<Courses>,
    joint: Column<Courses>,
    cut: Column<Courses>,
}

/// Adds what lies around the stone, course by course, and its sums for each fall.
///
/// Foam closes joints that water would run through: a rock edge takes it only where its
/// cell names it.
pub(super) fn around(
    graph: &mut Graph,
    basis: &Basis<'_>,
    order: &Order,
    (sizes, stone): (&Sizes, &Stone),
) -> Around {
    let (inputs, system, link) = (basis.inputs, basis.system, order.fall);
    let course = of_course(graph, basis, sizes, stone);
    let mut rules = graph.rules::<Falls>();
    let volume = system.volume();
    let filled = factor(inputs, Factor::GapFilled);
    let gap_fill = link.sum(stone.voids) * filled;
    let gap_fill = rules.step("gap fill volume", volume, &sources::GAP_FILLED, gap_fill);
    let bedding = link.sum(course.bedding);
    let bedding = rules.step("bedding volume", volume, &sources::BEDDING, bedding);
    let dry = inputs.words(Falls::FallKind).is("rock edge");
    let dry = dry.and(inputs.words(Falls::Foam).blank());
    let joint = when(dry, 0.0, link.sum(course.joint));
    let joint = rules.geometry("joint to foam", system.length(), joint);
    let cans = (joint / factor(inputs, Factor::FoamCan)).round_up();
    let cans = rules.step("cans of foam", EACH, &sources::FOAM_CAN, cans);
    let cut = rules.geometry("shelf cut", system.bank(), link.sum(course.cut));
    Around {
        gap_fill,
        bedding,
        joint,
        cans,
        cut,
    }
}

/// Bedding, joint and shelf of each course.
///
/// The joint runs along the liner behind the course, and up between each two stones.
fn of_course(graph: &mut Graph, basis: &Basis<'_>, sizes: &Sizes, stone: &Stone) -> OfCourse {
    let (inputs, system) = (basis.inputs, basis.system);
    let mut rules = graph.rules::<Courses>();
    let thickness = || factor(inputs, Factor::BeddingThickness);
    let bedding = sizes.run * sizes.depth * thickness();
    let unit = system.volume();
    let bedding = rules.step("bedding volume", unit, &sources::BEDDING, bedding);
    let between = (stone.pieces - 1.0) * sizes.height;
    let joint = highest(sizes.run, sizes.run + between);
    let joint = rules.geometry("joint", system.length(), joint);
    let wide = sizes.depth + factor(inputs, Factor::BehindCourse);
    let deep = thickness() + inputs.number(Courses::Embedment);
    let cut = sizes.run * wide * deep;
    let cut = rules.step("shelf cut", system.bank(), &sources::BEHIND_COURSE, cut);
    OfCourse {
        bedding,
        joint,
        cut,
    }
}
