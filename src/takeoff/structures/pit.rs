//! The pit of a structure: room to work, lay-back, bedding, and what is filled again.
//!
//! It is dug in the job's usual soil, from the ground to below the bedding. What is
//! filled again is the pit less the structure below ground and its bedding; it covers a
//! structure whose top lies below the ground.

use super::size::{FOOTPRINT, HEIGHT, LENGTH, TIMES, WIDTH};
use crate::graph::prelude::*;
use crate::job::tables::{JobKeys, Structures};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Soils;
use crate::takeoff::slices::frustum;
use crate::takeoff::soils;
use crate::units::System;

/// The pit of each structure that has one: dig, bedding, backfill.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Structures>::fault(
        "wall kept with a pit",
        Code::ConflictingValues,
        Structures::CutDepth.at(),
        || {
            let wall = Structures::StructureKind.is("wall kept");
            let pit = Structures::CutDepth.filled();
            wall.and(pit.or(Structures::StructureBedding.filled()))
        },
        "a wall that is kept has neither a pit nor bedding of its own",
        "clear Cut depth and Bedding, or write another Kind",
    ),
    &Limit::<Structures>::open(
        "people enter a pit that is not dug",
        Code::MissingValue,
        Structures::CutDepth.at(),
        || {
            let entered = Structures::StructureEntered.is("yes");
            entered.and(Structures::CutDepth.blank())
        },
        "people are said to enter the pit, and no pit is dug",
        "write Cut depth, or clear Entered",
    ),
    // A caution, not a fault: protection is for a competent person on site to decide.
    &Limit::<Structures>::caution(
        "deep pit that people enter",
        Code::DeepCut,
        Structures::StructureEntered.at(),
        may_bury,
        "people work in a pit deep enough to bury them",
        "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
    ),
    &DIG,
    &BACKFILL,
    &BEDDING,
];

/// How thick the bedding is: as written, or the factor where there is a pit.
const THICKNESS: Step<Structures> = Step::new(
    "bedding under it",
    System::length,
    &sources::BEDDING,
    || {
        let cut = Structures::CutDepth.filled();
        let usual = when(cut, Factor::BeddingThickness, 0.0);
        Structures::StructureBedding.or(usual)
    },
);

/// Volume of the bedding.
pub(super) const BEDDING: Step<Structures> =
    Step::geometry("bedding volume", System::volume, || {
        FOOTPRINT * THICKNESS * TIMES
    });

/// From the ground to below the bedding; zero without a pit.
const DEPTH: Step<Structures> = Step::geometry("depth of its pit", System::length, || {
    let cut = Structures::CutDepth;
    when(cut.filled(), cut + THICKNESS, 0.0)
});

/// Whether people work in the pit.
fn is_entered() -> Condition {
    let entered = Structures::StructureEntered.is("yes");
    entered.and(DEPTH.above(0.0))
}

/// Whether the pit is deep enough to bury those who work in it.
fn may_bury() -> Condition {
    is_entered().and(DEPTH.at_least(Factor::LayBackFrom))
}

/// Working room around the structure; zero where nobody enters.
const ROOM: Step<Structures> = Step::new(
    "working room in use",
    System::length,
    &sources::WORKING_ROOM,
    || when(is_entered(), Factor::WorkingRoom, 0.0),
);

const SOIL: Wording<Structures> = Wording::new("soil in use", || JobKeys::Soil.only_words());

const SOIL_ROW: LookUp<Structures, Soils> =
    LookUp::new("soil row", || SOIL.key()).among(|| soils::SOIL.key());

/// The slope that the pit is laid back to in the job's usual soil; zero where nobody
/// enters, and where it is not deep.
const LAY_BACK: Step<Structures> =
    Step::new("lay-back in use", System::slope, &sources::LAY_BACK, || {
        when(may_bury(), SOIL_ROW.of(soils::LAY_BACK), 0.0)
    });

/// Length at the foot, with room on both sides.
const FOOT_LENGTH: Step<Structures> =
    Step::geometry("pit length", System::length, || LENGTH + 2.0 * ROOM);

/// Width at the foot.
const FOOT_WIDTH: Step<Structures> =
    Step::geometry("pit width", System::length, || WIDTH + 2.0 * ROOM);

/// Length at the ground, laid back on both sides.
const GROUND_LENGTH: Step<Structures> =
    Step::geometry("pit length at the ground", System::length, || {
        FOOT_LENGTH + 2.0 * LAY_BACK * DEPTH
    });

/// Width at the ground.
const GROUND_WIDTH: Step<Structures> =
    Step::geometry("pit width at the ground", System::length, || {
        FOOT_WIDTH + 2.0 * LAY_BACK * DEPTH
    });

/// Volume of all pits of a row, by the prismoidal formula.
const VOLUME: Step<Structures> =
    Step::new("pit volume", System::volume, &sources::PRISMOIDAL, || {
        let ground = (GROUND_LENGTH, GROUND_WIDTH);
        let foot = (FOOT_LENGTH, FOOT_WIDTH);
        frustum(1.0.into(), ground, foot, DEPTH.here()) * TIMES
    });

/// What is dug, in the bank.
pub(super) const DIG: Step<Structures> =
    Step::new("pit, dig", System::bank, &sources::BALANCE, || {
        VOLUME.here()
    });

/// What of the structures lies below ground.
const BELOW: Step<Structures> = Step::geometry("structure below ground", System::volume, || {
    FOOTPRINT * lowest(HEIGHT, Structures::CutDepth) * TIMES
});

/// What is filled again, compacted.
pub(super) const BACKFILL: Step<Structures> = Step::new(
    "pit, backfill",
    System::compacted,
    &sources::BALANCE,
    || {
        let around = highest(0.0, VOLUME - BELOW - BEDDING);
        when(Structures::CutDepth.filled(), around, 0.0)
    },
);
