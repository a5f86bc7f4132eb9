//! The pieces that line a fall: one a course, and one for a channel without courses.
//!
//! A piece covers the tread on top of its course, runs down behind the stone, is wrapped
//! up behind it, and laps over the next piece downhill. The tread on top of the last
//! course is a wrap; a setback before the first course belongs to the first piece.
//!
//! Always true: a piece is as wide and rises as much as the course of stone that it lines;
//! the courses of one fall stand together from the bottom up, so that the course above is
//! the next row of the table.

use crate::graph::Table;
use crate::graph::prelude::*;
use crate::graph::reads::Own;
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::falls::order::FALL;
use crate::takeoff::falls::{courses, elevations};
use crate::units::System;

/// A channel without courses has both a length and a width.
pub(super) const RULES: &[&dyn Rule] = &[&Limit::<Falls>::open(
    "reach half measured",
    Code::MissingValue,
    Falls::ReachLength.at(),
    || {
        let (along, across) = (Falls::ReachLength, Falls::ReachWidth);
        let only_long = along.filled().and(across.blank());
        let only_wide = along.blank().and(across.filled());
        let only_deep = along.blank().and(Falls::ReachDepth.filled());
        only_long.or(only_wide).or(only_deep)
    },
    "a lined reach is measured by half",
    "write its length and its width, or leave both blank",
)];

/// The number of each course in its fall, from the bottom.
const NUMBER: Step<Courses> = Step::running(
    "sheet of course",
    System::number,
    &sources::ARITHMETIC,
    |own| own.row_above(FALL, 0.0) + 1.0,
);

const ROW: Step<Courses> = Step::numbered("row of the course");

const ONE_COURSE: Step<Courses> = Step::arithmetic("one course", System::number, || {
    when(FALL.found_none(), 0.0, 1.0)
});

const COURSES: Step<Falls> =
    Step::arithmetic("courses lined", System::number, || FALL.sum(ONE_COURSE));

/// Whether a course is the last of its fall.
fn is_last() -> Condition {
    NUMBER.at_least(FALL.of(COURSES))
}

const NEXT: LookUp<Courses, Courses> =
    LookUp::by_number("row of the next course", &sources::ARITHMETIC, || {
        when(is_last(), 0.0, ROW + 1.0)
    });

/// The tread that each piece covers: the setback of the next course, or a wrap on top of
/// the last; before the first course also its own setback.
const TREAD: Step<Courses> = Step::new("sheet tread", System::length, &sources::FALL_LINER, || {
    let setback = Courses::Setback;
    let above = when(is_last(), Factor::Wrap, NEXT.of(setback));
    above + when(NUMBER.same_as(1.0), setback, 0.0)
});

/// How far a piece runs down: as set, a course may come out higher than its stone was
/// planned.
const RISE: Step<Courses> = Step::new("sheet rise", System::length, &sources::FALL_LINER, || {
    elevations::RISE + (elevations::TOP - elevations::BED - courses::HEIGHT)
});

/// Length of the piece of each course, downhill.
const LENGTH: Step<Courses> =
    Step::new("sheet length", System::length, &sources::FALL_LINER, || {
        TREAD + RISE + Factor::Wrap + Factor::LapDownhill
    });

/// Its width, both sides of the fall included.
const WIDTH: Step<Courses> = Step::new("sheet width", System::length, &sources::FALL_LINER, || {
    courses::RUN + 2.0 * Term::from(Factor::FallSide)
});

/// Its area.
const AREA: Step<Courses> = Step::geometry("sheet area", System::area, || LENGTH * WIDTH);

/// The apron under the spill of each course.
const APRON: Step<Courses> = Step::new("apron", System::area, &sources::FALL_LINER, || {
    Courses::SpillWidth * Factor::ApronLength
});

/// Length of the sheet of a channel without courses, with a lap downhill.
const REACH_LENGTH: Step<Falls> = Step::new(
    "reach sheet length",
    System::length,
    &sources::FALL_LINER,
    || {
        let along = Falls::ReachLength;
        when(along.above(0.0), along + Factor::LapDownhill, 0.0)
    },
);

/// Its width: across its bed, up both sides and beyond them.
const REACH_WIDTH: Step<Falls> = Step::new(
    "reach sheet width",
    System::length,
    &sources::FALL_LINER,
    || {
        let across = Falls::ReachWidth + 2.0 * Falls::ReachDepth;
        across + 2.0 * Term::from(Factor::FallSide)
    },
);

/// Its area.
const REACH_AREA: Step<Falls> = Step::new(
    "reach sheet area",
    System::area,
    &sources::FALL_LINER,
    || REACH_LENGTH * REACH_WIDTH,
);

/// All pieces of a fall one below the other, with their laps.
pub(super) const DOWNHILL: Step<Falls> = Step::new(
    "sheet length downhill",
    System::length,
    &sources::FALL_LINER,
    || FALL.sum(LENGTH) + REACH_LENGTH,
);

const WIDEST_SO_FAR: Step<Courses> = Step::running(
    "greatest sheet width so far",
    System::length,
    &sources::ARITHMETIC,
    |own| greatest(own, FALL, WIDTH),
);

const WIDER: Step<Courses> =
    Step::arithmetic("sheet width beyond those before", System::length, || {
        beyond(WIDEST_SO_FAR, FALL)
    });

/// Width of the widest piece of a fall.
pub(super) const WIDEST: Step<Falls> =
    Step::new("widest sheet", System::length, &sources::FALL_LINER, || {
        let reach = when(REACH_LENGTH.above(0.0), REACH_WIDTH, 0.0);
        highest(FALL.sum(WIDER), reach)
    });

/// Area of all pieces of a fall.
pub(super) const ALL: Step<Falls> =
    Step::new("sheet area", System::area, &sources::FALL_LINER, || {
        FALL.sum(AREA) + REACH_AREA
    });

const LARGEST_SO_FAR: Step<Courses> = Step::running(
    "greatest sheet area so far",
    System::area,
    &sources::ARITHMETIC,
    |own| greatest(own, FALL, AREA),
);

const LARGER: Step<Courses> =
    Step::arithmetic("sheet area beyond those before", System::area, || {
        beyond(LARGEST_SO_FAR, FALL)
    });

/// Area of the largest piece of a fall.
pub(super) const LARGEST: Step<Falls> =
    Step::new("largest sheet", System::area, &sources::FALL_LINER, || {
        highest(FALL.sum(LARGER), REACH_AREA)
    });

/// Area of the aprons under the spills of a fall.
pub(super) const APRONS: Step<Falls> =
    Step::new("aprons", System::area, &sources::FALL_LINER, || {
        FALL.sum(APRON)
    });

/// The greatest of a group down to each row; zero for a row without a group.
pub(super) fn greatest<T: Table, P>(
    own: Own<T>,
    group: impl Looks<T, P>,
    column: Step<T>,
) -> Term<T> {
    let most = highest(own.row_above(group, 0.0), column);
    when(group.found_none(), 0.0, most)
}

/// How far a row goes beyond the greatest of its group before it: the sum of these over a
/// group is its greatest. Zero for a row without a group.
pub(super) fn beyond<T: Table, P>(most: Step<T>, group: impl Looks<T, P>) -> Term<T> {
    let beyond = most - most.row_above(group, 0.0);
    when(group.found_none(), 0.0, beyond)
}
