//! Structures: vaults, banks of void crates, weir boxes, walls that are kept.
//!
//! Always true: a bank of crates is as large as the whole crates that fill its measures,
//! in its pit, in its bed and in the water alike.

mod flotation;
mod opening;
mod pit;
mod size;
pub(super) mod supply;

use super::bill::fixed;
use super::cut::Cut;
use super::grades::Graded;
use super::lifted::Lifted;
use super::written::filled_rows;
use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::{Equipment, Loose, Structures};
use crate::units::System;

use size::{FOOTPRINT, TIMES};
pub use size::{HEIGHT, OUTSIDE, STORED};

/// The structures: size, pit, what they take of their beds, and their checks.
pub const RULES: &[&[&dyn Rule]] = &[
    size::RULES,
    IN_BEDS,
    pit::RULES,
    opening::RULES,
    flotation::RULES,
    HANDLED,
    supply::RULES,
];

/// What stands in a bed of loose stone, or in a basin that is dug already.
const IN_BEDS: &[&dyn Rule] = &[
    &BED,
    &Limit::<Structures>::warning(
        "structure higher than its bed",
        Code::ConflictingValues,
        Structures::StructureHeight.at(),
        || BED.found().and(HEIGHT.above(THICKNESS_OF_BED)),
        "it stands higher than the bed of stone that it stands in",
        "check Height, the crates and the Thickness of the bed; an intake's rim stands some inches above its crates",
    ),
    &Limit::<Structures>::warning(
        "pit inside a basin",
        Code::ConflictingValues,
        Structures::CutDepth.at(),
        || {
            let stands = Structures::StructureBasin.filled();
            stands.and(Structures::CutDepth.above(0.0))
        },
        "its pit is dug from the ground, and it stands in a basin that is dug already",
        "measure Cut depth from the dug floor of the basin, or leave Basin blank where it stands beside it",
    ),
];

/// What a machine lifts, and where people may go in.
const HANDLED: &[&dyn Rule] = &[
    &WEIGHT,
    &REACH,
    // A caution, not a fault: whether a vault needs a permit is for a competent person.
    &Limit::<Structures>::caution(
        "people may enter a vault",
        Code::ConfinedSpace,
        Structures::StructureKind.at(),
        || Structures::StructureKind.is("vault"),
        "people who enter a vault to set, pipe or clean it work in a confined space",
        "test and ventilate the air, keep a person outside, and have a competent person say whether a permit is needed; local codes decide (29 CFR 1926 Subpart AA)",
    ),
    &MACHINE,
];

/// The bed of loose stone that each stands in.
pub const BED: LookUp<Structures, Loose> =
    LookUp::new("bed row", || Structures::StandsIn.key()).that_must_find();

const THICKNESS_OF_BED: Step<Structures> =
    Step::from_job("thickness of its bed", System::length, || {
        BED.of(Loose::LooseThickness)
    });

/// What each takes of the bed that it stands in: its footprint, as high as it and the bed
/// reach together from the bed's foot.
pub const TAKEN_OF_BED: Step<Structures> =
    Step::geometry("taken of its bed", System::volume, || {
        FOOTPRINT * lowest(HEIGHT, THICKNESS_OF_BED) * TIMES
    });

/// The weight of one piece as a machine lifts it.
pub const WEIGHT: Step<Structures> = Step::from_job("weight of one", System::weight, || {
    Structures::OwnWeight.here()
});

/// The reach of the machine to it.
pub const REACH: Step<Structures> = Step::from_job("reach to it", System::length, || {
    Structures::StructureRadius.here()
});

/// The machine that lifts it.
pub const MACHINE: LookUp<Structures, Equipment> =
    LookUp::new("machine row", || Structures::StructureLifted.key()).that_must_find();

/// What a machine lifts: one piece of each structure whose weight is known.
pub(super) fn lifted(graph: &mut Graph) -> Vec<Lifted> {
    let name = graph.read(Structures::Structure);
    let at = graph.read(Structures::StructureLifted);
    let (weight, machine) = (graph.read(WEIGHT), graph.read(MACHINE));
    let radius = graph.read(REACH);
    let lifted = |row: usize| Lifted {
        name: vec![Piece::Cell(name.at(row))],
        weight: weight.at(row),
        machine: machine.at(row),
        radius: radius.at(row),
        at,
    };
    filled_rows(graph, Structures::OwnWeight)
        .map(lifted)
        .collect()
}

/// What is cut: the pit of each structure that has one of its own.
pub(super) fn cuts(graph: &mut Graph) -> Vec<Cut> {
    let name = graph.read(Structures::Structure);
    let (dig, backfill) = (graph.read(pit::DIG), graph.read(pit::BACKFILL));
    let grade = graph.read(Structures::GRADE_IN_USE);
    let cut = |row: usize| Cut {
        name: vec![fixed("pit of "), Piece::Cell(name.at(row))],
        dig: dig.at(row),
        backfill: Some(backfill.at(row)),
        grade: grade.at(row),
    };
    filled_rows(graph, Structures::CutDepth).map(cut).collect()
}

/// The kind of a structure.
fn is_kind(kind: &str) -> Condition {
    Structures::StructureKind.is(kind)
}
