//! Waterfalls, streams and rock edges, course by course from the bottom up.
//!
//! Always true: rows stand in the order in which courses are set, bottom first; what is
//! measured for a course or a fall is in a line, or a limit says what is missing.

mod around;
mod courses;
mod elevations;
mod order;
mod profile;
mod rocks;
mod spills;
mod taken;

use super::basis::Basis;
use super::cuts::Cut;
use super::inputs::AllInputs;
use super::lifts::Lifted;
use super::line::{Line, fixed};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Piece, Text, when};
use crate::job::tables::{Courses, Equipment, Falls, Materials, ProductionRates as Works};
use crate::sources;
use crate::units::EACH;
use around::Around;
use courses::{Sizes, Stone};
use elevations::Elevations;
use order::Order;
use profile::Outline;
use spills::Spills;
use taken::AllTaken;

pub use profile::FallPointColumns;

/// The stone of courses that name none.
pub(super) const USUAL_STONE: &str = "Boulders";

/// Columns of the courses that other parts read.
#[derive(Clone, Copy, Debug)]
pub struct CourseColumns {
    /// The fall of each course.
    pub fall: Link<Courses, Falls>,
    /// Height of its stone.
    pub height: Column<Courses>,
    /// Depth of its stone, front to back.
    pub depth: Column<Courses>,
    /// Length of its stone along the face.
    pub length: Column<Courses>,
    /// Length of the course, returns included.
    pub run: Column<Courses>,
    /// Volume of the course, voids included.
    pub volume: Column<Courses>,
    /// Solid weight of its rock.
    pub solid_weight: Column<Courses>,
    /// How many pieces it takes.
    pub pieces: Column<Courses>,
    /// Weight of a usual piece.
    pub piece_weight: Column<Courses>,
    /// Weight of its heaviest piece.
    pub heaviest: Column<Courses>,
    /// Tons of stone set.
    pub tons: Column<Courses>,
    /// What is bought beyond them.
    pub waste: Column<Courses>,
    /// From its bed up to the next.
    pub rise: Column<Courses>,
    /// Elevation of its bed.
    pub bed: Column<Courses>,
    /// Elevation of its top.
    pub top: Column<Courses>,
    /// Depth of the water that runs over it; zero without a spill.
    pub head: Column<Courses>,
    /// Elevation of the water; its top without a spill.
    pub water: Column<Courses>,
    /// From the face of the course below back to its own, as measured.
    pub setback: Column<Courses>,
    /// From the face of the first course back to its own.
    pub distance: Column<Courses>,
    /// Row of the stone that is bought.
    pub material: Link<Courses, Materials>,
    /// Stone in the unit that it is sold in.
    pub quantity: Column<Courses>,
    /// That unit.
    pub unit: Text<Courses>,
    /// Stone that is delivered, in the same unit: with what fits nowhere and the tolerance.
    pub delivered: Column<Courses>,
    /// Row of the work that sets it.
    pub work: Link<Courses, Works>,
    /// How its measures were come by.
    pub grade: Text<Courses>,
}

/// Columns of the falls that other parts read.
#[derive(Clone, Copy, Debug)]
pub struct FallTotals {
    /// Elevation of the foot; zero where none is given.
    pub foot: Column<Falls>,
    /// From the foot to the top of the last course.
    pub total_rise: Column<Falls>,
    /// Tons of stone set.
    pub tons: Column<Falls>,
    /// Pieces of stone set.
    pub pieces: Column<Falls>,
    /// Weight of the heaviest piece.
    pub heaviest: Column<Falls>,
    /// The last course; none where there are no courses.
    pub last: Link<Falls, Courses>,
    /// The machine that sets the stone.
    pub machine: Link<Falls, Equipment>,
    /// How far it reaches.
    pub radius: Column<Falls>,
    /// River stone in the gaps.
    pub gap_fill: Column<Falls>,
    /// Bedding under the stone.
    pub bedding: Column<Falls>,
    /// Length of joint that is foamed.
    pub joint: Column<Falls>,
    /// What is cut for the courses.
    pub shelf_cut: Column<Falls>,
    /// How its measures were come by.
    pub grade: Text<Falls>,
}

/// Columns of the falls.
#[derive(Clone, Debug)]
pub struct FallColumns {
    /// Course by course.
    pub courses: CourseColumns,
    /// Fall by fall.
    pub totals: FallTotals,
    /// Points of the long sections.
    pub points: FallPointColumns,
    /// First row and number of rows of each fall's courses, from the bottom up.
    pub rows_of: Vec<(usize, usize)>,
    lines: Vec<Line>,
}

/// Adds the falls.
pub fn falls(graph: &mut Graph, basis: &Basis<'_>) -> FallColumns {
    let inputs = basis.inputs;
    let rock = rocks::rocks(graph, inputs, basis.system);
    let order = order::order(graph, inputs);
    let sizes = courses::sizes(&mut graph.rules(), basis);
    let stone = courses::stone(graph, basis, (&order, &sizes), rock);
    let levels = elevations::elevations(graph, basis, (&order, &sizes));
    let spills = spills::spills(graph, basis, &order, levels.top);
    let around = around::around(graph, basis, &order, (&sizes, &stone));
    let taken = taken::taken(graph, basis, (&sizes, &stone), &around);
    nothing_measured(graph, inputs, &order);
    let outline = Outline {
        distance: levels.distance,
        back: levels.back,
        bed: levels.bed,
        top: levels.top,
        water: spills.water,
    };
    let points = profile::points(graph, inputs, &order, &outline, basis.system);
    let totals = totals(graph, basis, (&order, &stone), (&levels, &around), &taken);
    let courses = course_columns((&order, &sizes, &stone), (&levels, &spills), &taken);
    let names = (inputs.words(Falls::Fall), inputs.words(Courses::Course));
    FallColumns {
        lines: taken::lines(names, &order, &taken),
        courses,
        totals,
        points,
        rows_of: order.rows_of,
    }
}

/// The columns of the courses that other parts read.
fn course_columns(
    (order, sizes, stone): (&Order, &Sizes, &Stone),
    (levels, spills): (&Elevations, &Spills),
    taken: &AllTaken,
) -> CourseColumns {
    CourseColumns {
        fall: order.fall,
        height: sizes.height,
        depth: sizes.depth,
        length: sizes.length,
        run: sizes.run,
        volume: sizes.volume,
        solid_weight: stone.solid,
        pieces: stone.pieces,
        piece_weight: stone.piece,
        heaviest: stone.heaviest,
        tons: stone.tons,
        waste: stone.waste,
        rise: levels.rise,
        bed: levels.bed,
        top: levels.top,
        head: spills.head,
        water: spills.water,
        setback: levels.setback,
        distance: levels.distance,
        material: taken.stone.bought.material,
        quantity: taken.stone.bought.quantity,
        unit: taken.stone.bought.unit,
        delivered: taken.delivered,
        work: taken.stone.work,
        grade: taken.course_grade,
    }
}

/// Adds the totals of each fall, and the machine that sets its stone.
fn totals(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (order, stone): (&Order, &Stone),
    (levels, around): (&Elevations, &Around),
    taken: &AllTaken,
) -> FallTotals {
    let (inputs, system) = (basis.inputs, basis.system);
    let mut rules = graph.rules::<Falls>();
    let tons = order.fall.sum(stone.tons);
    let tons = rules.arithmetic("tons of stone", system.weight(), tons);
    let pieces = order.fall.sum(stone.pieces);
    let pieces = rules.arithmetic("pieces of stone", EACH, pieces);
    let heaviest = order.last.of(stone.heaviest_so_far);
    let heaviest = when(order.last.found_none(), 0.0, heaviest);
    let unit = system.weight();
    let heaviest = rules.step("heaviest piece", unit, &sources::STONE_SIZE, heaviest);
    let lifted_by = inputs.words(Falls::FallLifted);
    let machine = rules.link("machine row", lifted_by);
    rules.must_find(lifted_by, machine);
    let radius = inputs.number(Falls::FallRadius);
    let radius = rules.from_job("radius of the lift", system.length(), radius);
    FallTotals {
        foot: levels.foot,
        total_rise: levels.total_rise,
        tons,
        pieces,
        heaviest,
        last: order.last,
        machine,
        radius,
        gap_fill: around.gap_fill,
        bedding: around.bedding,
        joint: around.joint,
        shelf_cut: around.cut,
        grade: taken.fall_grade,
    }
}

/// Limit: a fall has courses, or is a reach without any.
fn nothing_measured(graph: &mut Graph, inputs: &AllInputs, order: &Order) {
    let reach = inputs.number(Falls::ReachLength);
    graph.rules::<Falls>().limit(
        "fall without courses or reach",
        order.last.found_none().and(reach.blank()),
        Breach::open(
            Code::MissingValue,
            inputs.words(Falls::FallKind).id,
            "nothing is measured of it, so it is not in the bid",
            "add its courses of stone to Courses, or write its reach",
        ),
    );
}

/// The heaviest piece of each fall that has courses, at the furthest radius.
pub(super) fn lifted(graph: &mut Graph) -> Vec<Lifted> {
    let name = graph.read(Falls::Fall);
    let weight = graph.read(named::<Falls>("heaviest piece"));
    let machine = graph.read(named::<Falls>("machine row"));
    let radius = graph.read(named::<Falls>("radius of the lift"));
    let at = graph.read(Falls::FallLifted);
    let lifted = |row: usize| Lifted {
        name: vec![Piece::Cell(name.at(row))],
        weight: weight.at(row),
        machine: machine.at(row),
        radius: radius.at(row),
        at,
    };
    order::with_courses(graph).map(lifted).collect()
}

/// The shelves that are cut for the courses, one cut a fall.
pub(super) fn cuts(graph: &mut Graph) -> Vec<Cut> {
    let name = graph.read(Falls::Fall);
    let dig = graph.read(named::<Falls>("shelf cut"));
    let grade = graph.read(named::<Falls>("grade in use"));
    let cut = |row: usize| Cut {
        name: vec![fixed("Shelves of "), Piece::Cell(name.at(row))],
        dig: dig.at(row),
        backfill: None,
        grade: grade.at(row),
    };
    order::with_courses(graph).map(cut).collect()
}

impl FallColumns {
    /// Lines: of each fall its courses from the bottom up, then what lies around them.
    #[must_use]
    pub fn lines(&self) -> Vec<Line> {
        self.lines.clone()
    }
}
