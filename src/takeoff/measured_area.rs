//! An area that is measured as such, or by length and width.
//!
//! Always true: both ways say the same, or a limit is broken; and so it is where neither
//! says anything.

use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Rules};
use crate::job::Fields;
use crate::units::System;

/// Adds the area of each row: as measured, or length × width.
pub(super) fn measured_area<T: Fields>(
    rules: &mut Rules<'_, T>,
    inputs: &AllInputs,
    [area, length, width]: [T; 3],
    system: System,
) -> Column<T> {
    let [area, length, width] = [area, length, width].map(|field| inputs.number(field));
    let sides = rules.geometry("length by width", system.area(), length * width);
    let in_use = rules.from_job("area in use", system.area(), area.or(sides));
    let both = area.filled().and(length.filled()).and(width.filled());
    rules.limit(
        "area against length and width",
        both.and(area.here().differs_from(sides)),
        Breach::fault(
            Code::ConflictingValues,
            area.id,
            "the area is not what length and width make",
            "keep the area, or the length and the width, and clear the other",
        ),
    );
    rules.limit(
        "no area",
        in_use.here().above(0.0).negate(),
        Breach::open(
            Code::MissingValue,
            area.id,
            "no area is measured here, so nothing is taken off",
            "write Area, or Length and Width",
        ),
    );
    in_use
}
