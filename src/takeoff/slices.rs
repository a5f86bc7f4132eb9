//! Slices of a profile: solids between two levels of a shape whose sides slope evenly, so that
//! the prismoidal formula is exact.
//!
//! For an ellipse the slope is the one on its axes: each level is an ellipse whose axes
//! are shorter by the run at both ends.

use crate::graph::Table;
use crate::graph::prelude::*;

/// One slice of a profile: its size at the top, and how its sides slope.
pub(super) struct Slice<T> {
    pub(super) area_factor: fn() -> Term<T>,
    pub(super) length: Step<T>,
    pub(super) width: Step<T>,
    pub(super) from: Step<T>,
    pub(super) to: Step<T>,
    pub(super) side: Step<T>,
    pub(super) ramp: Step<T>,
}

impl<T: Table> Slice<T> {
    /// Length at a level inside the slice.
    pub(super) fn length_at(&self, level: Step<T>) -> Term<T> {
        self.length - (level - self.from) * (self.side + self.ramp)
    }

    /// Width at a level inside the slice.
    pub(super) fn width_at(&self, level: Step<T>) -> Term<T> {
        self.width - (level - self.from) * self.side * 2.0
    }

    /// Volume from a level of the slice, with its length and width, to the slice's foot.
    pub(super) fn solid(
        &self,
        top: (Step<T>, Step<T>),
        level: Step<T>,
        foot: (Step<T>, Step<T>),
    ) -> Term<T> {
        frustum((self.area_factor)(), top, foot, self.to - level)
    }
}

/// Volume of a solid whose sides run straight from one outline to another, by the
/// prismoidal formula: height × (top + 4 × middle + foot) ÷ 6.
///
/// The middle section's sides are the means of the two, so four times its area is the
/// product of the sums. Exact where the sides are plane.
pub(super) fn frustum<T: Table>(
    area_factor: Term<T>,
    top: (Step<T>, Step<T>),
    foot: (Step<T>, Step<T>),
    height: Term<T>,
) -> Term<T> {
    let four_middles = (top.0 + foot.0) * (top.1 + foot.1);
    area_factor * (top.0 * top.1 + four_middles + foot.0 * foot.1) * height / 6.0
}
