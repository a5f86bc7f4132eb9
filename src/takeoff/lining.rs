//! Liner and fabric: from the surface to be covered to panels, strips and rolls.
//!
//! A layer lines a basin or a fall. What it covers is worked out first, then the sheet
//! with its slack and edges, then how it is made up and ordered, then what goes with it.
//!
//! Always true: laps, slack and edges only add; a layer without a material in the book, or
//! without a work, is an open point and never silently free.

mod beside;
mod developed;
pub(super) mod lines;
mod order;
mod pieces;
mod sheet;
mod strips;
mod trench;

use crate::graph::prelude::*;
use crate::job::tables::{Falls, Layers};
use crate::takeoff::book::COUNTED;
use crate::takeoff::production::MATERIAL_KIND;
use crate::units::System;
use order::SHEET;
use sheet::FALL;
use strips::in_strips_or_rolls;

pub(super) use trench::cuts;

/// The lining: surfaces, sheets, strips, what is ordered, and anchor trenches.
pub const RULES: &[&[&dyn Rule]] = &[
    developed::RULES,
    pieces::RULES,
    sheet::RULES,
    strips::RULES,
    order::RULES,
    OF_FALLS,
    trench::RULES,
    beside::RULES,
];

/// A reach that was measured has a layer, because nothing else prices it; pieces of a fall
/// that are cut to measure are not bought by the piece.
const OF_FALLS: &[&dyn Rule] = &[
    &Limit::<Falls>::open(
        "reach that no layer lines",
        Code::MissingValue,
        Falls::ReachLength.at(),
        || {
            let lined = FALL.sum(ONE_LAYER);
            Falls::ReachLength.above(0.0).and(lined.same_as(0.0))
        },
        "a reach is measured, and no layer lines it, so nothing prices it",
        "add a row to Liner and fabric that names this fall, or clear Reach length",
    ),
    &Limit::<Layers>::fault(
        "pieces of a fall bought by the piece",
        Code::DimensionMismatch,
        Layers::LayerMaterial.at(),
        || {
            let counted = SHEET.row().of(MATERIAL_KIND).same_as(COUNTED);
            let in_pieces = in_strips_or_rolls().negate();
            Layers::LayerFall.filled().and(in_pieces).and(counted)
        },
        "the pieces of a fall are cut to measure, and the material is sold by the piece",
        "sell it by area in Materials, or order strips or rolls",
    ),
];

const ONE_LAYER: Step<Layers> = Step::arithmetic("one layer of a fall", System::number, || {
    when(FALL.found_none(), 0.0, 1.0)
});
