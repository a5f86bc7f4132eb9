//! What is ordered and what is laid: sheets, where they lie double, and aprons under
//! spills, from what is left of rolls where there is any.

use super::pieces;
use super::sheet::{self, BASIN, FALL};
use super::strips::{self, in_rolls, in_strips};
use crate::graph::prelude::*;
use crate::job::tables::{Layers, Materials};
use crate::sources;
use crate::takeoff::bill::{Amount, Buying, Waste, Working, named_or_usual};
use crate::units::System;

/// What is ordered of each layer, what is laid, and what must be moved.
pub(super) const RULES: &[&dyn Rule] = &[&AREA, &PIECES, &LAID, &HEAVIEST];

/// The sheet as it is bought: laps, slack and edges are counted one by one.
pub(super) const SHEET: Buying<Layers> = Buying::new(
    "sheet",
    || named_or_usual(Layers::LayerMaterial, "Liner"),
    Layers::LayerMaterial.at(),
    &[
        Amount::new(System::area, || AREA.key()),
        Amount::new(System::each, || PIECES.key()),
    ],
)
.missing("its material is not in the book, so the sheet is excluded")
.waste(Waste::AsWritten);

/// How it is laid.
pub(super) const LAYING: Working<Layers> = Working::new(
    "laying",
    || named_or_usual(Layers::LayerWork, "Lay sheet"),
    Layers::LayerWork.at(),
    &[Amount::new(System::area, || LAID.key())],
)
.missing("its work is not in the book, so the hours of laying are excluded");

/// Aprons of a layer of a fall.
const APRONS: Step<Layers> = Step::new("aprons", System::area, &sources::FALL_LINER, || {
    sheet::TIMES * FALL.of(pieces::APRONS)
});

/// What is left of the rolls of a layer of a basin, and serves for aprons.
const OFFCUTS: Step<Layers> = Step::new("offcuts", System::area, &sources::FALL_LINER, || {
    let left = highest(strips::LEFT - Layers::DoubledArea, 0.0);
    when(BASIN.found_none(), 0.0, left)
});

const ALL_APRONS: Step<Materials> =
    Step::arithmetic("aprons", System::area, || SHEET.row().sum(APRONS));

/// The share of the aprons of a material that no offcuts of it serve for.
const SHARE_BOUGHT: Step<Materials> =
    Step::arithmetic("share of the aprons bought", System::number, || {
        let lacking = highest(ALL_APRONS - SHEET.row().sum(OFFCUTS), 0.0);
        when(ALL_APRONS.above(0.0), lacking / ALL_APRONS, 0.0)
    });

/// Aprons that nothing left of rolls serves for: offcuts are shared out in proportion;
/// where the material is not in the book, all are bought.
const APRONS_BOUGHT: Step<Layers> =
    Step::new("aprons bought", System::area, &sources::FALL_LINER, || {
        let share = SHEET.row().of(SHARE_BOUGHT);
        when(SHEET.row().found_none(), APRONS, APRONS * share)
    });

const BESIDE: Step<Layers> = Step::geometry("beside the sheets", System::area, || {
    Layers::DoubledArea + APRONS_BOUGHT
});

/// Whole rolls: those for the strips, and more for what the rest of those does not cover;
/// zero where it is not ordered in rolls.
const ROLLS: Step<Layers> = Step::new("rolls", System::each, &sources::STRIPS, || {
    let lacking = highest(BESIDE - strips::LEFT, 0.0);
    let more = (lacking / strips::ROLL).round_up();
    let is_known = in_rolls().and(strips::ROLL.above(0.0));
    when(is_known, strips::ROLLS + more, 0.0)
});

const STRIP: Step<Layers> = Step::geometry("area of a strip", System::area, || {
    strips::LENGTH * Layers::RollWidth
});

/// Area ordered.
const AREA: Step<Layers> = Step::new("area ordered", System::area, &sources::STRIPS, || {
    let panels = sheet::TIMES * sheet::AREA;
    let cut = when(in_strips(), strips::COUNT * STRIP, panels) + BESIDE;
    when(in_rolls(), ROLLS * strips::ROLL, cut)
});

/// Pieces ordered: panels, strips or whole rolls.
const PIECES: Step<Layers> = Step::arithmetic("pieces ordered", System::each, || {
    let more = when(BESIDE.above(0.0), 1.0, 0.0);
    let cut = when(in_strips(), strips::COUNT, sheet::TIMES) + more;
    when(in_rolls(), ROLLS, cut)
});

/// Area laid.
const LAID: Step<Layers> = Step::geometry("area laid", System::area, || {
    sheet::TIMES * sheet::AREA + Layers::DoubledArea + APRONS
});

/// Weight of the heaviest piece to be moved.
const HEAVIEST: Step<Layers> = Step::from_job("heaviest piece", System::piece_weight, || {
    let largest = when(in_strips(), STRIP, sheet::LARGEST);
    let largest = when(in_rolls(), strips::ROLL, largest);
    largest * SHEET.row().of(Materials::AreaDensity)
});
