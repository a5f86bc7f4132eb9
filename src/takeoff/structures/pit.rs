//! The pit of a structure: room to work, lay-back, bedding, and what is filled again.
//!
//! It is dug in the job's usual soil, from the ground to below the bedding. What is
//! filled again is the pit less the structure below ground and its bedding; it covers a
//! structure whose top lies below the ground.

use super::is_kind;
use super::size::Size;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Column, ColumnId, Condition, Graph, Link, Rules, Term, highest, lowest, when,
};
use crate::job::tables::{JobKeys, Structures};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Soils;
use crate::takeoff::basins::frustum;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::SLOPE;

/// Earthwork of the pits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pit {
    cut_depth: ColumnId,
    bedding_depth: ColumnId,
    /// What is dug, in the bank.
    pub(super) dig: Column<Structures>,
    /// What is filled again, compacted.
    pub(super) backfill: Column<Structures>,
    /// Volume of the bedding.
    pub(super) bedding: Column<Structures>,
}

impl Pit {
    /// Whether a structure has a pit of its own.
    pub(super) fn is_dug(&self, graph: &Graph, row: usize) -> bool {
        graph.is_filled(self.cut_depth.at(row))
    }

    /// Whether a structure lies on bedding.
    pub(super) fn has_bedding(&self, graph: &Graph, row: usize) -> bool {
        self.is_dug(graph, row) || graph.is_filled(self.bedding_depth.at(row))
    }
}

/// Adds the pit of each structure that has one: dig, bedding, backfill.
pub(super) fn pit(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>, size: &Size) -> Pit {
    let (inputs, system) = (basis.inputs, basis.system);
    pit_limits(rules, basis);
    let cut = inputs.number(Structures::CutDepth);
    let own = inputs.number(Structures::StructureBedding);
    let usual = when(cut.filled(), factor(inputs, Factor::BeddingThickness), 0.0);
    let unit = system.length();
    let thickness = rules.step("bedding under it", unit, &sources::BEDDING, own.or(usual));
    let bedding = size.footprint * thickness * size.times;
    let bedding = rules.geometry("bedding volume", system.volume(), bedding);
    let depth = when(cut.filled(), cut + thickness, 0.0);
    let depth = rules.geometry("depth of its pit", unit, depth);
    let volume = pit_volume(rules, basis, size, depth);
    let dig = rules.step("pit, dig", system.bank(), &sources::BALANCE, volume);
    let below = size.footprint * lowest(size.height, cut) * size.times;
    let below = rules.geometry("structure below ground", system.volume(), below);
    let around = highest(0.0, volume - below - bedding);
    let around = when(cut.filled(), around, 0.0);
    let unit = system.compacted();
    Pit {
        cut_depth: cut.id,
        bedding_depth: own.id,
        dig,
        backfill: rules.step("pit, backfill", unit, &sources::BALANCE, around),
        bedding,
    }
}

/// Volume of all pits of a row: the structure and the room around it, laid back to the
/// ground, by the prismoidal formula.
fn pit_volume(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    size: &Size,
    depth: Column<Structures>,
) -> Column<Structures> {
    let (room, lay_back) = room_and_lay_back(rules, basis, depth);
    let unit = basis.system.length();
    let mut along = |name: &str, term: Term<Structures>| rules.geometry(name, unit, term);
    let length = along("pit length", size.length + 2.0 * room);
    let width = along("pit width", size.width + 2.0 * room);
    let run = 2.0 * lay_back * depth;
    let ground_length = along("pit length at the ground", length + run.clone());
    let ground_width = along("pit width at the ground", width + run);
    let one = frustum(
        1.0.into(),
        (ground_length, ground_width),
        (length, width),
        depth.into(),
    );
    let unit = basis.system.volume();
    rules.step("pit volume", unit, &sources::PRISMOIDAL, one * size.times)
}

/// Working room, and the slope that the pit is laid back to in the job's usual soil; both
/// zero where nobody enters.
///
/// Limit: a pit that people enter and that is deep enough to bury them is a caution.
fn room_and_lay_back(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    depth: Column<Structures>,
) -> (Column<Structures>, Column<Structures>) {
    let inputs = basis.inputs;
    let entered = inputs.words(Structures::StructureEntered).is("yes");
    let entered = entered.and(depth.here().above(0.0));
    let room = when(entered.clone(), factor(inputs, Factor::WorkingRoom), 0.0);
    let unit = basis.system.length();
    let room = rules.step("working room in use", unit, &sources::WORKING_ROOM, room);
    let usual = inputs.words(JobKeys::Soil).only_words();
    let soil = rules.word_step("soil in use", usual);
    let soil: Link<Structures, Soils> = rules.link("soil row", soil);
    let deep = depth.here().at_least(factor(inputs, Factor::LayBackFrom));
    let danger = entered.and(deep);
    caution_deep_cut(rules, basis, danger.clone());
    let lay_back = when(danger, soil.of(basis.soils.lay_back), 0.0);
    let lay_back = rules.step("lay-back in use", SLOPE, &sources::LAY_BACK, lay_back);
    (room, lay_back)
}

/// A caution, not a fault: protection is for a competent person on site to decide.
fn caution_deep_cut(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>, danger: Condition) {
    rules.limit(
        "deep pit that people enter",
        danger,
        Breach::caution(
            Code::DeepCut,
            basis.inputs.id(Structures::StructureEntered),
            "people work in a pit deep enough to bury them",
            "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
        ),
    );
}

/// Limits: a wall that is kept has no pit, and nobody enters a pit that is not dug.
fn pit_limits(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) {
    let cut = basis.inputs.number(Structures::CutDepth);
    let bedding = basis.inputs.number(Structures::StructureBedding);
    let wall = is_kind(basis, "wall kept");
    rules.limit(
        "wall kept with a pit",
        wall.and(cut.filled().or(bedding.filled())),
        Breach::fault(
            Code::ConflictingValues,
            cut.id,
            "a wall that is kept has neither a pit nor bedding of its own",
            "clear Cut depth and Bedding, or write another Kind",
        ),
    );
    let entered = basis.inputs.words(Structures::StructureEntered).is("yes");
    rules.limit(
        "people enter a pit that is not dug",
        entered.and(cut.blank()),
        Breach::open(
            Code::MissingValue,
            cut.id,
            "people are said to enter the pit, and no pit is dug",
            "write Cut depth, or clear Entered",
        ),
    );
}
