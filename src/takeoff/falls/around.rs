//! What lies around the stone of a fall: bedding under it, river stone in its gaps, foam
//! in its joints, and the shelf that is cut for it.

use super::courses::{DEPTH, HEIGHT, PIECES, RUN, VOIDS};
use super::order::FALL;
use crate::graph::prelude::*;
use crate::job::tables::{Courses, Falls};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// What lies around the stone of each fall.
pub(super) const RULES: &[&dyn Rule] = &[&GAP_FILL, &BEDDING, &JOINT, &CANS, &SHELF_CUT];

/// River stone in the gaps.
pub const GAP_FILL: Step<Falls> = Step::new(
    "gap fill volume",
    System::volume,
    &sources::GAP_FILLED,
    || FALL.sum(VOIDS) * Factor::GapFilled,
);

/// Bedding under the stone.
pub const BEDDING: Step<Falls> =
    Step::new("bedding volume", System::volume, &sources::BEDDING, || {
        FALL.sum(BEDDING_OF_COURSE)
    });

const BEDDING_OF_COURSE: Step<Courses> =
    Step::new("bedding volume", System::volume, &sources::BEDDING, || {
        RUN * DEPTH * Factor::BeddingThickness
    });

/// Length of joint that is foamed. Foam closes joints that water would run through: a rock
/// edge takes it only where its cell names it.
pub const JOINT: Step<Falls> = Step::geometry("joint to foam", System::length, || {
    let dry = Falls::FallKind.is("rock edge").and(Falls::Foam.blank());
    when(dry, 0.0, FALL.sum(JOINT_OF_COURSE))
});

/// It runs along the liner behind the course, and up between each two stones.
const JOINT_OF_COURSE: Step<Courses> = Step::geometry("joint", System::length, || {
    highest(RUN, RUN + (PIECES - 1.0) * HEIGHT)
});

/// Foam for it.
pub const CANS: Step<Falls> = Step::new("cans of foam", System::each, &sources::FOAM_CAN, || {
    (JOINT / Factor::FoamCan).round_up()
});

/// What is cut for the courses.
pub const SHELF_CUT: Step<Falls> =
    Step::geometry("shelf cut", System::bank, || FALL.sum(CUT_OF_COURSE));

const CUT_OF_COURSE: Step<Courses> =
    Step::new("shelf cut", System::bank, &sources::BEHIND_COURSE, || {
        let wide = DEPTH + Factor::BehindCourse;
        let deep = Term::from(Factor::BeddingThickness) + Courses::Embedment;
        RUN * wide * deep
    });
