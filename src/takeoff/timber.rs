//! Timber: logs by length and diameter, with their green weight.
//!
//! A log is counted as a cylinder of its mean diameter. Green wood is weighed by the
//! heavier of its heartwood and its sapwood, so that a lift is never taken too light.

use super::bill::{Amount, BidLine, Buying, Counted, Part, RowByRow, Working, named_or_usual};
use super::lifted::Lifted;
use crate::graph::prelude::*;
use crate::graph::{Graph, Piece};
use crate::job::tables::{Equipment, SPECIES, Timber};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Woods;
use crate::units::System;

/// Volume and weight of logs, and what lifts them.
pub const RULES: &[&dyn Rule] = &[&VOLUME, &ONE_WEIGHS, &MACHINE, &REACH];

const WOOD: Wording<Woods> = Wording::brought("Wood", |_| SPECIES.to_vec()).naming_rows();

/// Green weight of each wood, from its factor in use, in the order of the species.
const GREEN_WEIGHT: Step<Woods> = Step::gathered("green weight", System::density, |graph| {
    let factors = [
        Factor::GreenWhiteOak,
        Factor::GreenRedOak,
        Factor::GreenPoplar,
        Factor::GreenPine,
        Factor::GreenFir,
    ];
    factors.map(|wood| Some(graph.read(wood).at(0))).to_vec()
});

const PIECES: Step<Timber> = Step::from_job("pieces", System::each, || Timber::TimberTimes.or(1.0));

const LENGTH: Step<Timber> = Step::geometry("length of all", System::length, || {
    PIECES * Timber::TimberLength
});

const ONE: Step<Timber> = Step::geometry("volume of one", System::volume, || {
    pi() / 4.0 * Timber::Diameter * Timber::Diameter * Timber::TimberLength
});

/// Volume of all logs of a row.
pub const VOLUME: Step<Timber> = Step::geometry("volume of all", System::volume, || PIECES * ONE);

const SPECIES_IN_USE: Wording<Timber> = Wording::new("wood in use", || {
    named_or_usual(Timber::TimberSpecies, SPECIES[0])
});

const WOOD_OF: LookUp<Timber, Woods> =
    LookUp::new("wood row", || SPECIES_IN_USE.key()).among(|| WOOD.key());

/// Green weight of one log.
pub const ONE_WEIGHS: Step<Timber> = Step::new(
    "green weight of one",
    System::weight,
    &sources::GREEN_WOOD,
    || ONE * WOOD_OF.of(GREEN_WEIGHT),
);

/// Green weight of all logs of a row.
pub const ALL_WEIGH: Step<Timber> = Step::new(
    "green weight of all",
    System::weight,
    &sources::GREEN_WOOD,
    || PIECES * ONE_WEIGHS,
);

const MACHINE: LookUp<Timber, Equipment> =
    LookUp::new("machine row", || Timber::TimberLifted.key()).that_must_find();

const REACH: Step<Timber> = Step::from_job("reach to it", System::length, || {
    Timber::TimberRadius.here()
});

/// What a machine lifts: one log of each row.
pub(super) fn lifted(graph: &mut Graph) -> Vec<Lifted> {
    let name = graph.read(Timber::Log);
    let weight = graph.read(ONE_WEIGHS);
    let (machine, radius) = (graph.read(MACHINE), graph.read(REACH));
    let at = graph.read(Timber::TimberLifted);
    let lifted = |row: usize| Lifted {
        name: vec![Piece::Cell(name.at(row))],
        weight: weight.at(row),
        machine: machine.at(row),
        radius: radius.at(row),
        at,
    };
    (0..graph.rows(name)).map(lifted).collect()
}

const AMOUNTS: &[Amount] = &[
    Amount::new(System::each, || PIECES.key()),
    Amount::new(System::length, || LENGTH.key()),
    Amount::new(System::volume, || VOLUME.key()),
    Amount::new(System::weight, || ALL_WEIGH.key()),
];

const LOGS: Buying<Timber> = Buying::new(
    "logs",
    || named_or_usual(Timber::TimberMaterial, "Logs"),
    Timber::TimberMaterial.at(),
    AMOUNTS,
)
.missing("these logs are not in Materials, so they have no price");

const SETTING: Working<Timber> = Working::new(
    "setting",
    || named_or_usual(Timber::TimberWork, "Set log"),
    Timber::TimberWork.at(),
    AMOUNTS,
)
.missing("the work that sets these logs is not in Production rates");

const NAME: Part = Part::Of(|| Timber::Log.key());

/// Lines, in the order of the rows.
pub(super) const LINES: RowByRow<Timber> = RowByRow::new(&[&BidLine {
    zone: Some(Part::Of(|| Timber::TimberBasin.key())),
    ..BidLine::of_each_row(
        &[Part::Fixed("Logs: "), NAME],
        &[NAME, Part::Fixed(": logs")],
        Counted::Bought(&LOGS, Some(&SETTING)),
    )
}]);
