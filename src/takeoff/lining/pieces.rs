//! The pieces that line a fall: one a course, and one for a channel without courses.
//!
//! A piece covers the tread on top of its course, runs down behind the stone, is wrapped
//! up behind it, and laps over the next piece downhill. The tread on top of the last
//! course is a wrap; a setback before the first course belongs to the first piece.
//!
//! Always true: a piece is as wide and rises as much as the course of stone that it lines;
//! the courses of one fall stand together from the bottom up, so that the course above is
//! the next row of the table.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, Table, Term, highest, when};
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::takeoff::falls::CourseColumns;
use crate::units::{ONE, Unit};

/// The pieces that line falls.
#[derive(Clone, Copy, Debug)]
pub struct Pieces {
    /// Length of the piece of each course, downhill.
    pub length: Column<Courses>,
    /// Its width, both sides of the fall included.
    pub width: Column<Courses>,
    /// Its area.
    pub area: Column<Courses>,
    /// All pieces of a fall one below the other, with their laps.
    pub downhill: Column<Falls>,
    /// Width of its widest piece.
    pub widest: Column<Falls>,
    /// Area of all its pieces.
    pub all: Column<Falls>,
    /// Area of its largest piece.
    pub largest: Column<Falls>,
    /// Area of the aprons under its spills.
    pub aprons: Column<Falls>,
}

/// The columns of courses that falls add up.
struct Course {
    fall: Link<Courses, Falls>,
    length: Column<Courses>,
    width: Column<Courses>,
    area: Column<Courses>,
    apron: Column<Courses>,
    wider: Column<Courses>,
    larger: Column<Courses>,
}

/// Adds the pieces of every fall.
pub(super) fn pieces(graph: &mut Graph, basis: &Basis<'_>, stone: &CourseColumns) -> Pieces {
    let course = courses(graph, basis, stone);
    let (system, fall) = (basis.system, course.fall);
    let (unit, area) = (system.length(), system.area());
    let mut rules = graph.rules::<Falls>();
    let (reach_length, reach_width) = reach(&mut rules, basis);
    let mut add =
        |name: &str, unit, term: Term<Falls>| rules.step(name, unit, &sources::FALL_LINER, term);
    let reach = add("reach sheet area", area, reach_length * reach_width);
    let downhill = fall.sum(course.length) + reach_length;
    let is_lined = reach_length.here().above(0.0);
    let reach_at_widest = when(is_lined, reach_width, 0.0);
    Pieces {
        length: course.length,
        width: course.width,
        area: course.area,
        downhill: add("sheet length downhill", unit, downhill),
        widest: add(
            "widest sheet",
            unit,
            highest(fall.sum(course.wider), reach_at_widest),
        ),
        all: add("sheet area", area, fall.sum(course.area) + reach),
        largest: add(
            "largest sheet",
            area,
            highest(fall.sum(course.larger), reach),
        ),
        aprons: add("aprons", area, fall.sum(course.apron)),
    }
}

/// Adds the piece of each course and the apron under its spill.
fn courses(graph: &mut Graph, basis: &Basis<'_>, stone: &CourseColumns) -> Course {
    let (inputs, system) = (basis.inputs, basis.system);
    let (unit, area) = (system.length(), system.area());
    let fall = stone.fall;
    let tread = tread(graph, basis, fall);
    let mut rules = graph.rules::<Courses>();
    let of = |which: Factor| factor::<Courses>(inputs, which);
    // As set, a course may come out higher than its stone was planned.
    let higher = stone.top - stone.bed - stone.height;
    let rise = rules.step(
        "sheet rise",
        unit,
        &sources::FALL_LINER,
        stone.rise + higher,
    );
    let length = tread + rise + of(Factor::Wrap) + of(Factor::LapDownhill);
    let length = rules.step("sheet length", unit, &sources::FALL_LINER, length);
    let width = stone.run + 2.0 * of(Factor::FallSide);
    let width = rules.step("sheet width", unit, &sources::FALL_LINER, width);
    let piece = rules.geometry("sheet area", area, length * width);
    let spill = inputs.number(Courses::SpillWidth);
    let apron = spill * of(Factor::ApronLength);
    let apron = rules.step("apron", area, &sources::FALL_LINER, apron);
    Course {
        fall,
        length,
        width,
        area: piece,
        apron,
        wider: beyond_those_before(&mut rules, ("sheet width", width, unit), fall),
        larger: beyond_those_before(&mut rules, ("sheet area", piece, area), fall),
    }
}

/// The tread that each piece covers: the setback of the next course, or a wrap on top of
/// the last; before the first course also its own setback.
fn tread(graph: &mut Graph, basis: &Basis<'_>, fall: Link<Courses, Falls>) -> Column<Courses> {
    let (inputs, unit) = (basis.inputs, basis.system.length());
    let mut rules = graph.rules::<Courses>();
    let counted = rules.running("sheet of course", ONE, &sources::ARITHMETIC, |own| {
        own.row_above(fall, 0.0) + 1.0
    });
    let row = rules.running("row of the course", ONE, &sources::ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let one = rules.arithmetic("one course", ONE, when(fall.found_none(), 0.0, 1.0));
    let courses = graph
        .rules::<Falls>()
        .arithmetic("courses lined", ONE, fall.sum(one));
    let mut rules = graph.rules::<Courses>();
    let is_last = counted.here().at_least(fall.of(courses));
    let next = when(is_last.clone(), 0.0, row + 1.0);
    let next = rules.arithmetic("row of the next course", ONE, next);
    let next: Link<Courses, Courses> = Link::new(next.id);
    let setback = inputs.number(Courses::Setback);
    let above = when(is_last, factor(inputs, Factor::Wrap), next.of(setback));
    let before = when(counted.here().same_as(1.0), setback, 0.0);
    rules.step("sheet tread", unit, &sources::FALL_LINER, above + before)
}

/// Length and width of the sheet of a channel without courses: along its bed with a lap
/// downhill, across its bed, up both sides and beyond them.
///
/// Limit: a channel has both a length and a width.
fn reach(rules: &mut Rules<'_, Falls>, basis: &Basis<'_>) -> (Column<Falls>, Column<Falls>) {
    let (inputs, unit) = (basis.inputs, basis.system.length());
    let of = |which: Factor| factor::<Falls>(inputs, which);
    let along = inputs.number(Falls::ReachLength);
    let across = inputs.number(Falls::ReachWidth);
    let up = inputs.number(Falls::ReachDepth);
    let is_there = along.here().above(0.0);
    let length = when(is_there, along + of(Factor::LapDownhill), 0.0);
    let length = rules.step("reach sheet length", unit, &sources::FALL_LINER, length);
    let width = across + 2.0 * up + 2.0 * of(Factor::FallSide);
    let width = rules.step("reach sheet width", unit, &sources::FALL_LINER, width);
    let only_long = along.filled().and(across.blank());
    let only_wide = along.blank().and(across.filled());
    rules.limit(
        "reach half measured",
        only_long.or(only_wide).or(along.blank().and(up.filled())),
        Breach::open(
            Code::MissingValue,
            along.id,
            "a lined reach is measured by half",
            "write its length and its width, or leave both blank",
        ),
    );
    (length, width)
}

/// How far a row goes beyond the greatest of its group before it: the sum of these over a
/// group is its greatest. Zero for a row without a group.
pub(super) fn beyond_those_before<T: Table, P>(
    rules: &mut Rules<'_, T>,
    (name, column, unit): (&str, Column<T>, Unit),
    group: Link<T, P>,
) -> Column<T> {
    let source = &sources::ARITHMETIC;
    let most = rules.running(&format!("greatest {name} so far"), unit, source, |own| {
        let most = highest(own.row_above(group, 0.0), column);
        when(group.found_none(), 0.0, most)
    });
    let beyond = most - most.row_above(group, 0.0);
    let beyond = when(group.found_none(), 0.0, beyond);
    rules.arithmetic(&format!("{name} beyond those before"), unit, beyond)
}
