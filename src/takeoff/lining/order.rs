//! What is ordered and what is laid: sheets, where they lie double, and aprons under
//! spills, from what is left of rolls where there is any.

use super::pieces::Pieces;
use super::sheet::{Lined, Sheet};
use super::strips::{Strips, is_ordered_as};
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Rules, highest, when};
use crate::job::tables::{Layers, Materials};
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::units::{EACH, ONE};

/// What is ordered of each layer, and what is laid.
#[derive(Clone, Copy, Debug)]
pub struct Ordered {
    /// Area ordered.
    pub area: Column<Layers>,
    /// Pieces ordered: panels, strips or whole rolls.
    pub pieces: Column<Layers>,
    /// Whole rolls; zero where it is not ordered in rolls.
    pub rolls: Column<Layers>,
    /// Area laid.
    pub laid: Column<Layers>,
    /// Weight of the heaviest piece to be moved.
    pub heaviest: Column<Layers>,
    /// Aprons of a fall.
    pub aprons: Column<Layers>,
    /// Aprons that nothing left of rolls serves for.
    pub aprons_bought: Column<Layers>,
}

/// Adds what is ordered of each layer and what is laid.
pub(super) fn ordered(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (lines, material): (Lined, Link<Layers, Materials>),
    (sheet, strips, pieces): (&Sheet, &Strips, &Pieces),
) -> Ordered {
    let unit = basis.system.area();
    let (aprons, bought) = aprons(graph, basis, (lines, material), (sheet, strips, pieces));
    let mut rules = graph.rules::<Layers>();
    let doubled = basis.inputs.number(Layers::DoubledArea);
    let beside = rules.geometry("beside the sheets", unit, doubled + bought);
    let rolls = rolls(&mut rules, basis, strips, beside);
    let (in_rolls, in_strips) = (
        is_ordered_as(basis, "rolls"),
        is_ordered_as(basis, "strips"),
    );
    let roll_width = basis.inputs.number(Layers::RollWidth);
    let strip = rules.geometry("area of a strip", unit, strips.length * roll_width);
    let panels = sheet.times * sheet.area;
    let cut = when(in_strips.clone(), strips.count * strip, panels.clone()) + beside;
    let area = when(in_rolls.clone(), rolls * strips.roll, cut);
    let area = rules.step("area ordered", unit, &sources::STRIPS, area);
    let more = when(beside.here().above(0.0), 1.0, 0.0);
    let cut = when(in_strips.clone(), strips.count, sheet.times) + more;
    let count = rules.arithmetic("pieces ordered", EACH, when(in_rolls.clone(), rolls, cut));
    let laid = panels + doubled + aprons;
    let laid = rules.geometry("area laid", unit, laid);
    let largest = when(in_strips, strip, sheet.largest);
    let largest = when(in_rolls, strips.roll, largest);
    let weight = material.of(basis.inputs.number(Materials::AreaDensity));
    let heaviest = rules.from_job(
        "heaviest piece",
        basis.system.piece_weight(),
        largest * weight,
    );
    Ordered {
        area,
        pieces: count,
        rolls,
        laid,
        heaviest,
        aprons,
        aprons_bought: bought,
    }
}

/// Whole rolls: those for the strips, and more for what the rest of those does not cover.
fn rolls(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    strips: &Strips,
    beside: Column<Layers>,
) -> Column<Layers> {
    let lacking = highest(beside - strips.left, 0.0);
    let more = (lacking / strips.roll).round_up();
    let is_known = strips.roll.here().above(0.0);
    let rolls = when(
        is_ordered_as(basis, "rolls").and(is_known),
        strips.rolls + more,
        0.0,
    );
    rules.step("rolls", EACH, &sources::STRIPS, rolls)
}

/// The aprons of each layer of a fall, and those of them that are bought.
///
/// What is left of the rolls of basins serves for the aprons of the same material, shared
/// out in proportion; where the material is not in the book, all are bought.
fn aprons(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (lines, material): (Lined, Link<Layers, Materials>),
    (sheet, strips, pieces): (&Sheet, &Strips, &Pieces),
) -> (Column<Layers>, Column<Layers>) {
    let unit = basis.system.area();
    let mut rules = graph.rules::<Layers>();
    let aprons = sheet.times * lines.fall.of(pieces.aprons);
    let aprons = rules.step("aprons", unit, &sources::FALL_LINER, aprons);
    let doubled = basis.inputs.number(Layers::DoubledArea);
    let left = highest(strips.left - doubled, 0.0);
    let left = when(lines.basin.found_none(), 0.0, left);
    let offcuts = rules.step("offcuts", unit, &sources::FALL_LINER, left);
    let mut rules = graph.rules::<Materials>();
    let all = rules.arithmetic("aprons", unit, material.sum(aprons));
    let lacking = highest(all - material.sum(offcuts), 0.0);
    let share = when(all.here().above(0.0), lacking / all, 0.0);
    let share = rules.arithmetic("share of the aprons bought", ONE, share);
    let mut rules = graph.rules::<Layers>();
    let bought = when(material.found_none(), aprons, aprons * material.of(share));
    (
        aprons,
        rules.step("aprons bought", unit, &sources::FALL_LINER, bought),
    )
}
