//! The balance of earthwork: what is dug, filled, brought in and taken away, in whole loads.
//!
//! Always true: dug and brought in is filled and surplus.

use super::cuts;
use super::excavation;
use super::job_wide;
use super::works::{self, Earthmoving};
use crate::graph::prelude::*;
use crate::job::tables::{Basins, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Earthwork;
use crate::units::{LOAD, System};

/// The balance: surplus or shortage, topsoil, sediment, whole truck loads.
pub const RULES: &[&dyn Rule] = &[
    &SURPLUS_CARRIES,
    &SURPLUS_PAYLOAD,
    &SEDIMENT_CARRIES,
    &SEDIMENT_PAYLOAD,
    &FILL_CARRIES,
    &FILL_PAYLOAD,
    &DUG,
    &FILLED,
    &USED,
    &SURPLUS,
    &BROUGHT,
    &DIFFERENCE,
    &SURPLUS_SHARE,
    &TOPSOIL,
    &TOPSOIL_KEPT,
    &TOPSOIL_SPREAD,
    &TOPSOIL_AWAY,
    &TOPSOIL_AWAY_WEIGHT,
    &AWAY,
    &AWAY_WEIGHT,
    &truck_not_known(
        "loads taken away: truck not known",
        || {
            AWAY.above(0.0)
                .and(carries_nothing(SURPLUS_CARRIES, SURPLUS_PAYLOAD))
        },
        "there is earth to haul, and the work Haul away has no machine that carries anything",
    ),
    &SURPLUS_LOADS,
    &SEDIMENT,
    &SEDIMENT_WEIGHT,
    &truck_not_known(
        "loads of sediment: truck not known",
        || {
            let unknown = carries_nothing(SEDIMENT_CARRIES, SEDIMENT_PAYLOAD);
            SEDIMENT.above(0.0).and(unknown)
        },
        "there is sediment to haul, and the work Haul sediment has no machine that carries anything",
    ),
    &SEDIMENT_LOADS,
    &BROUGHT_LOOSE,
    &BROUGHT_WEIGHT,
    &truck_not_known(
        "loads brought in: truck not known",
        || {
            let unknown = carries_nothing(FILL_CARRIES, FILL_PAYLOAD);
            BROUGHT_LOOSE.above(0.0).and(unknown)
        },
        "there is fill to bring, and the work Bring fill has no machine that carries anything",
    )
    .only_where(works::fill_is_hauled),
    &BROUGHT_LOADS,
];

/// All that is dug, in the bank.
pub const DUG: Step<Earthwork> = Step::new("dug", System::bank, &sources::BALANCE, || {
    total::<_, Basins>(excavation::DIG) + total(cuts::DIG)
});

/// All that is filled, as bank volume.
pub const FILLED: Step<Earthwork> = Step::new("filled", System::bank, &sources::BORROW, || {
    total::<_, Basins>(excavation::FILL_BANK) + total(cuts::FILL_BANK)
});

/// Dug earth used as fill: of the dig, a share is fit for it.
pub const USED: Step<Earthwork> = Step::new(
    "dug and used as fill",
    System::bank,
    &sources::USABLE,
    || lowest(DUG * Factor::UsableDig, FILLED),
);

/// Dug earth left over.
pub const SURPLUS: Step<Earthwork> =
    Step::new("surplus", System::bank, &sources::BALANCE, || DUG - USED);

/// Fill that must be brought in.
pub const BROUGHT: Step<Earthwork> =
    Step::new("brought in", System::bank, &sources::BALANCE, || {
        FILLED - USED
    });

/// Dug and brought less filled and surplus: nothing.
pub const DIFFERENCE: Step<Earthwork> =
    Step::new("balance", System::bank, &sources::BALANCE, || {
        DUG + BROUGHT - (FILLED + SURPLUS)
    });

/// The surplus' share of all that was dug.
const SURPLUS_SHARE: Step<Earthwork> = Step::arithmetic("surplus share", System::number, || {
    when(DUG.above(0.0), SURPLUS / DUG, 0.0)
});

/// Topsoil stripped.
const TOPSOIL: Step<Earthwork> = Step::geometry("topsoil", System::bank, || {
    total::<_, Basins>(excavation::TOPSOIL)
});

/// Topsoil that stays on site.
const TOPSOIL_KEPT: Step<Earthwork> =
    Step::new("topsoil kept", System::bank, &sources::TOPSOIL_KEPT, || {
        TOPSOIL * Factor::TopsoilKept
    });

/// Topsoil spread again, as loose as loam.
pub const TOPSOIL_SPREAD: Step<Earthwork> = Step::new(
    "topsoil spread again",
    System::loose,
    &sources::SWELL,
    || TOPSOIL_KEPT * Factor::LooseLoam,
);

/// Topsoil taken away, as loose as loam.
const TOPSOIL_AWAY: Step<Earthwork> = Step::new(
    "topsoil taken away, loose",
    System::loose,
    &sources::SWELL,
    || (TOPSOIL - TOPSOIL_KEPT) * Factor::LooseLoam,
);

/// Its weight.
const TOPSOIL_AWAY_WEIGHT: Step<Earthwork> = Step::new(
    "topsoil taken away, weight",
    System::weight,
    &sources::TOPSOIL_WEIGHT,
    || in_place(TOPSOIL - TOPSOIL_KEPT) * Factor::TopsoilWeight,
);

/// Surplus earth and topsoil taken away, loose.
const AWAY: Step<Earthwork> =
    Step::new("taken away, loose", System::loose, &sources::SWELL, || {
        let dug = total::<_, Basins>(excavation::DIG_LOOSE) + total(cuts::LOOSE);
        SURPLUS_SHARE * dug + TOPSOIL_AWAY
    });

/// Its weight.
const AWAY_WEIGHT: Step<Earthwork> = Step::new(
    "taken away, weight",
    System::weight,
    &sources::UNIT_WEIGHT,
    || {
        let dug = total::<_, Basins>(excavation::DIG_WEIGHT) + total(cuts::WEIGHT);
        SURPLUS_SHARE * dug + TOPSOIL_AWAY_WEIGHT
    },
);

/// Loads of surplus earth and topsoil.
pub const SURPLUS_LOADS: Step<Earthwork> = Step::new(
    "loads taken away",
    |_| LOAD,
    &sources::WHOLE_LOADS,
    || loads((AWAY, SURPLUS_CARRIES), (AWAY_WEIGHT, SURPLUS_PAYLOAD)),
);

/// Sediment, which is hauled as it lies: nothing is added for swell.
const SEDIMENT: Step<Earthwork> = Step::geometry("sediment, all", System::loose, || {
    total::<_, Basins>(excavation::SEDIMENT)
});

/// Its weight.
const SEDIMENT_WEIGHT: Step<Earthwork> = Step::new(
    "sediment, weight",
    System::weight,
    &sources::SEDIMENT_WEIGHT,
    || total::<_, Basins>(excavation::SEDIMENT) * Factor::SedimentWeight,
);

/// Loads of sediment.
pub const SEDIMENT_LOADS: Step<Earthwork> = Step::new(
    "loads of sediment",
    |_| LOAD,
    &sources::WHOLE_LOADS,
    || {
        loads(
            (SEDIMENT, SEDIMENT_CARRIES),
            (SEDIMENT_WEIGHT, SEDIMENT_PAYLOAD),
        )
    },
);

/// Fill brought in, as loose as the job's soil.
pub const BROUGHT_LOOSE: Step<Earthwork> =
    Step::new("brought in, loose", System::loose, &sources::SWELL, || {
        BROUGHT * only(job_wide::LOOSE)
    });

/// Its weight, as heavy as the job's soil.
const BROUGHT_WEIGHT: Step<Earthwork> = Step::new(
    "brought in, weight",
    System::weight,
    &sources::UNIT_WEIGHT,
    || in_place(BROUGHT.here()) * only(job_wide::WEIGHT),
);

/// Loads of fill brought in.
pub const BROUGHT_LOADS: Step<Earthwork> = Step::new(
    "loads brought in",
    |_| LOAD,
    &sources::WHOLE_LOADS,
    || {
        loads(
            (BROUGHT_LOOSE, FILL_CARRIES),
            (BROUGHT_WEIGHT, FILL_PAYLOAD),
        )
    },
);

const SURPLUS_CARRIES: Step<Earthwork> =
    Step::gathered("Haul away: truck carries", System::loose, |graph| {
        Earthmoving::HaulAway.of(graph, works::CARRIES)
    });

const SURPLUS_PAYLOAD: Step<Earthwork> =
    Step::gathered("Haul away: truck payload", System::weight, |graph| {
        Earthmoving::HaulAway.of(graph, works::PAYLOAD)
    });

const SEDIMENT_CARRIES: Step<Earthwork> =
    Step::gathered("Haul sediment: truck carries", System::loose, |graph| {
        Earthmoving::HaulSediment.of(graph, works::CARRIES)
    });

const SEDIMENT_PAYLOAD: Step<Earthwork> =
    Step::gathered("Haul sediment: truck payload", System::weight, |graph| {
        Earthmoving::HaulSediment.of(graph, works::PAYLOAD)
    });

const FILL_CARRIES: Step<Earthwork> =
    Step::gathered("Bring fill: truck carries", System::loose, |graph| {
        Earthmoving::BringFill.of(graph, works::CARRIES)
    });

const FILL_PAYLOAD: Step<Earthwork> =
    Step::gathered("Bring fill: truck payload", System::weight, |graph| {
        Earthmoving::BringFill.of(graph, works::PAYLOAD)
    });

/// A volume in the bank as the plain volume that its weight goes by.
fn in_place(bank: Term<Earthwork>) -> Term<Earthwork> {
    bank.number_in(System::bank).counted_in(System::volume)
}

/// Whole loads by volume or by weight, whichever fills the truck first; none without a truck.
fn loads(
    (volume, carries): (Step<Earthwork>, Step<Earthwork>),
    (weight, payload): (Step<Earthwork>, Step<Earthwork>),
) -> Term<Earthwork> {
    let by_volume = when(carries.above(0.0), volume / carries, 0.0);
    let by_weight = when(payload.above(0.0), weight / payload, 0.0);
    highest(by_volume, by_weight).round_up()
}

/// Whether a truck is not known.
fn carries_nothing(carries: Step<Earthwork>, payload: Step<Earthwork>) -> Condition {
    carries.same_as(0.0).and(payload.same_as(0.0))
}

/// A limit: where there is something to haul, a truck is known.
#[track_caller]
const fn truck_not_known(
    name: &'static str,
    broken: fn() -> Condition,
    message: &'static str,
) -> Limit<Earthwork> {
    Limit::open(
        name,
        Code::MissingRate,
        Works::WorkMachine.at(),
        broken,
        message,
        "name a truck for the work in Production rates, and write what it Carries and its Payload in Equipment",
    )
}
