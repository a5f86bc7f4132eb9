//! An area that is measured as such, or by length and width.
//!
//! Always true: both ways say the same, or a limit is broken; and so it is where neither
//! says anything.

use crate::graph::prelude::*;
use crate::graph::rule::At;
use crate::job::Fields;
use crate::job::tables::{Loose, Planting};
use crate::units::System;

/// A table whose rows have an area.
pub trait Spread: Fields {
    /// The area as measured.
    const AREA: Self;
    /// The same as the column that a person would change.
    const AREA_AT: At;
    /// Its length.
    const LENGTH: Self;
    /// Its width.
    const WIDTH: Self;

    /// What length and width make.
    const BY_SIDES: Step<Self> = Step::geometry("length by width", System::area, || {
        Self::LENGTH.here() * Self::WIDTH.here()
    });

    /// The area of each row: as measured, or length × width.
    const AREA_IN_USE: Step<Self> = Step::from_job("area in use", System::area, || {
        Self::AREA.or(Self::BY_SIDES)
    });

    /// The area of each row is there, and said once.
    const AREA_RULES: &'static [&'static dyn Rule] = &[
        &Self::BY_SIDES,
        &Self::AREA_IN_USE,
        &Limit::<Self>::fault(
            "area against length and width",
            Code::ConflictingValues,
            Self::AREA_AT,
            || {
                let sides = Self::LENGTH.filled().and(Self::WIDTH.filled());
                let both = Self::AREA.filled().and(sides);
                both.and(Self::AREA.differs_from(Self::BY_SIDES))
            },
            "the area is not what length and width make",
            "keep the area, or the length and the width, and clear the other",
        ),
        &Limit::<Self>::open(
            "no area",
            Code::MissingValue,
            Self::AREA_AT,
            || Self::AREA_IN_USE.above(0.0).negate(),
            "no area is measured here, so nothing is taken off",
            "write Area, or Length and Width",
        ),
    ];
}

impl Spread for Loose {
    const AREA: Self = Loose::LooseArea;
    const AREA_AT: At = Loose::LooseArea.at();
    const LENGTH: Self = Loose::LooseLength;
    const WIDTH: Self = Loose::LooseWidth;
}

impl Spread for Planting {
    const AREA: Self = Planting::PlantingArea;
    const AREA_AT: At = Planting::PlantingArea.at();
    const LENGTH: Self = Planting::PlantingLength;
    const WIDTH: Self = Planting::PlantingWidth;
}
