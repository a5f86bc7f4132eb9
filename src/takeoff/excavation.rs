//! Earthwork: what is dug, where it goes, and the water that stands in the way.
//!
//! The dug surface is the finished surface lowered, plumb, by the build-up; the slope
//! at the rim runs on up to the ground. Working room and lay-back belong to cuts that
//! people enter; the cut is then the larger of the dug shape and the pit, by volume.
//! Topsoil and sediment lie inside the cut and are never dug twice.
//!
//! Always true: what is dug and brought in is what is filled and taken away.

use super::basins::{self, FLOOR_LENGTH, FLOOR_WIDTH, RIM_RAMP, RIM_SIDE};
use super::levels::DEPTH;
use super::outline::{self, AREA_FACTOR};
use super::slices::frustum;
use super::soils::{self, SOIL};
use crate::graph::prelude::*;
use crate::job::tables::{Basins, JobKeys};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Soils;
use crate::units::{LOOSE_PER_BANK, System};

/// The cut of every basin, and what can hurt people in it.
pub const CUT: &[&dyn Rule] = &[
    &SOIL_ROW,
    &DUG_VOLUME,
    &CUT_DEPTH,
    &Limit::<Basins>::caution(
        "deep cut that people enter",
        Code::DeepCut,
        Basins::Entered.at(),
        // A caution, not a fault: protection is for a competent person on site to decide.
        || is_entered().and(is_deep()),
        "people work in a cut deep enough to bury them",
        "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
    ),
    &Limit::<Basins>::warning(
        "sides steeper than the soil is laid back",
        Code::SteepSides,
        Basins::SideSlope.at(),
        // A shallow cut stands steeper, and what is upright is held by a wall or a box.
        || {
            let stands = Basins::LayBack.or(SOIL_ROW.of(soils::LAY_BACK));
            let sloped = Basins::SideSlope.above(0.0);
            sloped.and(is_deep()).and(Basins::SideSlope.below(stands))
        },
        "the sides are steeper than the soil is laid back to, in a deep cut",
        "flatten them, or change the soil's lay-back in Factors if this ground stands steeper; 0 is for walls that hold it (29 CFR 1926 Subpart P, appendix B)",
    ),
    &ROOM,
    &LAY_BACK,
    &PIT_FOOT_LENGTH,
    &PIT_FOOT_WIDTH,
    &PIT_VOLUME,
    &CUT_VOLUME,
    &CUT_AREA,
    &ENTERED,
    &GROUND_WIDTH,
    &FOOT_WIDTH,
];

/// What is dug and filled in every basin.
pub const RULES: &[&dyn Rule] = &[
    &BERM,
    &TOPSOIL_INSIDE,
    &TOPSOIL,
    &SEDIMENT,
    &Limit::<Basins>::fault(
        "more taken out than the cut holds",
        Code::BalanceImpossible,
        Basins::AlreadyOpen.at(),
        || LEFT.below(0.0),
        "topsoil, sediment and what is already open are more than the cut holds",
        "check Already open, Sediment area and depth, and Topsoil",
    ),
    &DIG,
    &DIG_LOOSE,
    &DIG_WEIGHT,
    &BACKFILL,
    &FILL_BANK,
];

/// The soil of each basin: its own, or the job's.
const SOIL_IN_USE: Wording<Basins> = Wording::new("soil in use", || {
    let own = Basins::BasinSoil;
    either(own.blank(), JobKeys::Soil.only_words(), own.words())
});

const SOIL_ROW: LookUp<Basins, Soils> =
    LookUp::new("soil row", || SOIL_IN_USE.key()).among(|| SOIL.key());

/// Length of the dug shape at the ground: the slopes at the rim run on by the build-up.
const DUG_LENGTH: Step<Basins> = Step::geometry("dug length at the ground", System::length, || {
    outline::LENGTH + Basins::BuildUp * (RIM_SIDE + RIM_RAMP)
});

/// Width of the dug shape at the ground.
const DUG_WIDTH: Step<Basins> = Step::geometry("dug width at the ground", System::length, || {
    outline::WIDTH + Basins::BuildUp * RIM_SIDE * 2.0
});

/// Volume of the finished basin and its build-up.
pub const DUG_VOLUME: Step<Basins> =
    Step::new("dug volume", System::volume, &sources::PRISMOIDAL, || {
        let ground = (DUG_LENGTH, DUG_WIDTH);
        let rim = (outline::LENGTH, outline::WIDTH);
        let collar = frustum(AREA_FACTOR.here(), ground, rim, Basins::BuildUp.here());
        basins::VOLUME + collar
    });

/// Depth of the cut.
pub const CUT_DEPTH: Step<Basins> =
    Step::geometry("depth of cut", System::length, || DEPTH + Basins::BuildUp);

/// Whether people work in the cut.
fn is_entered() -> Condition {
    Basins::Entered.is("yes")
}

/// Whether the cut is deep enough to be laid back.
fn is_deep() -> Condition {
    CUT_DEPTH.at_least(Factor::LayBackFrom)
}

/// 1 where people work in the cut.
pub const ENTERED: Step<Basins> = Step::from_job("people enter", System::number, || {
    when(is_entered(), 1.0, 0.0)
});

/// Room around the floor; zero where nobody enters.
const ROOM: Step<Basins> = Step::new(
    "working room in use",
    System::length,
    &sources::WORKING_ROOM,
    || {
        when(
            is_entered(),
            Basins::WorkingRoom.or(Factor::WorkingRoom),
            0.0,
        )
    },
);

/// The slope that the cut is laid back to; zero where nobody enters.
const LAY_BACK: Step<Basins> =
    Step::new("lay-back in use", System::slope, &sources::LAY_BACK, || {
        let usual = when(is_deep(), SOIL_ROW.of(soils::LAY_BACK), 0.0);
        when(is_entered(), Basins::LayBack.or(usual), 0.0)
    });

/// Length of the pit that people work in, at its foot: the floor and the room around it.
const PIT_FOOT_LENGTH: Step<Basins> =
    Step::geometry("pit length", System::length, || FLOOR_LENGTH + 2.0 * ROOM);

/// Width of the pit at its foot.
const PIT_FOOT_WIDTH: Step<Basins> =
    Step::geometry("pit width", System::length, || FLOOR_WIDTH + 2.0 * ROOM);

/// Length of the pit at the ground, laid back.
const PIT_LENGTH: Step<Basins> = Step::geometry("pit length at the ground", System::length, || {
    PIT_FOOT_LENGTH + 2.0 * LAY_BACK * CUT_DEPTH
});

/// Width of the pit at the ground, laid back.
const PIT_WIDTH: Step<Basins> = Step::geometry("pit width at the ground", System::length, || {
    PIT_FOOT_WIDTH + 2.0 * LAY_BACK * CUT_DEPTH
});

const PIT_VOLUME: Step<Basins> = Step::new(
    "pit with room and lay-back",
    System::volume,
    &sources::PRISMOIDAL,
    || {
        let ground = (PIT_LENGTH, PIT_WIDTH);
        let foot = (PIT_FOOT_LENGTH, PIT_FOOT_WIDTH);
        frustum(AREA_FACTOR.here(), ground, foot, CUT_DEPTH.here())
    },
);

/// The whole cut, with working room and lay-back.
pub const CUT_VOLUME: Step<Basins> =
    Step::new("cut volume", System::volume, &sources::PRISMOIDAL, || {
        when(is_entered(), highest(DUG_VOLUME, PIT_VOLUME), DUG_VOLUME)
    });

/// Area of the cut at the ground.
const CUT_AREA: Step<Basins> =
    Step::geometry("area of the cut at the ground", System::area, || {
        let dug = AREA_FACTOR * DUG_LENGTH * DUG_WIDTH;
        let pit = AREA_FACTOR * PIT_LENGTH * PIT_WIDTH;
        when(is_entered(), highest(dug.clone(), pit), dug)
    });

/// Width of the cut at the ground.
pub const GROUND_WIDTH: Step<Basins> =
    Step::geometry("cut width at the ground", System::length, || {
        when(is_entered(), highest(DUG_WIDTH, PIT_WIDTH), DUG_WIDTH)
    });

/// Width of the cut at its foot.
pub const FOOT_WIDTH: Step<Basins> =
    Step::geometry("cut width at the foot", System::length, || {
        when(is_entered(), PIT_FOOT_WIDTH, FLOOR_WIDTH)
    });

const BERM_SLOPE: Step<Basins> = Step::new(
    "berm slope in use",
    System::slope,
    &sources::BERM_SLOPE,
    || Basins::BermSlope.or(Factor::BermSlope),
);

const BERM_BASE: Step<Basins> = Step::geometry("berm base width", System::length, || {
    Basins::BermTop + 2.0 * BERM_SLOPE * Basins::BermHeight
});

/// A berm as built: length × mean width × height × (1 + settlement).
pub const BERM: Step<Basins> = Step::new(
    "berm volume as built",
    System::compacted,
    &sources::SETTLEMENT,
    || {
        let mean_width = (Basins::BermTop + BERM_BASE) / 2.0;
        let settling = 1.0 + Term::from(Factor::Settlement);
        Basins::BermLength * mean_width * Basins::BermHeight * settling
    },
);

/// Topsoil inside the cut as plain volume.
const TOPSOIL_INSIDE: Step<Basins> = Step::geometry("topsoil in the cut", System::volume, || {
    lowest(Basins::TopsoilArea.or(CUT_AREA), CUT_AREA) * Basins::Topsoil
});

/// Topsoil stripped, outside the cut and under berms too.
pub const TOPSOIL: Step<Basins> = Step::geometry("topsoil stripped", System::bank, || {
    let under_berms = Basins::BermLength * BERM_BASE * Basins::Topsoil;
    Basins::TopsoilArea.or(CUT_AREA) * Basins::Topsoil + under_berms
});

/// Sediment in place.
pub const SEDIMENT: Step<Basins> = Step::geometry("sediment", System::volume, || {
    Basins::SedimentArea * Basins::SedimentDepth
});

const SEDIMENT_INSIDE: Step<Basins> = Step::geometry("sediment in the cut", System::volume, || {
    lowest(Basins::SedimentArea, CUT_AREA) * Basins::SedimentDepth
});

/// What is left of the cut without topsoil, sediment and what is open, as plain volume.
const LEFT: Step<Basins> = Step::new(
    "left to dig in place",
    System::volume,
    &sources::BALANCE,
    || CUT_VOLUME - TOPSOIL_INSIDE - SEDIMENT_INSIDE - Basins::AlreadyOpen,
);

/// What is left to dig.
pub const DIG: Step<Basins> = Step::new("dig", System::bank, &sources::BALANCE, || LEFT.here());

const SWELL: Step<Basins> = Step::new(
    "loose per bank in use",
    |_| LOOSE_PER_BANK,
    &sources::SWELL,
    || Basins::LoosePerBank.or(SOIL_ROW.of(soils::LOOSE)),
);

/// The dig, loose.
pub const DIG_LOOSE: Step<Basins> =
    Step::new("dig, loose", System::loose, &sources::SWELL, || DIG * SWELL);

/// Its weight.
pub const DIG_WEIGHT: Step<Basins> =
    Step::new("dig, weight", System::weight, &sources::UNIT_WEIGHT, || {
        LEFT * SOIL_ROW.of(soils::WEIGHT)
    });

/// Room and lay-back filled again around the finished basin.
pub const BACKFILL: Step<Basins> =
    Step::geometry("backfill", System::compacted, || CUT_VOLUME - DUG_VOLUME);

/// All fill as bank volume.
pub const FILL_BANK: Step<Basins> = Step::new(
    "fill as bank volume",
    System::bank,
    &sources::BORROW,
    || (BERM + BACKFILL) / SOIL_ROW.of(soils::COMPACTED),
);
