//! What goes with a sheet: tape on its seams, battens, boots, ground picked clean under it,
//! and the test before it is trimmed.

use super::sheet::{BASIN, FALL};
use super::strips::SEAMS;
use super::{developed, pieces};
use crate::graph::prelude::*;
use crate::job::tables::Layers;
use crate::takeoff::bill::{Amount, Buying, Waste, Working};
use crate::units::System;

/// What is measured beside the sheets; a caution where a pool stands full.
pub(super) const RULES: &[&dyn Rule] = &[
    // A lined pool that stands full for a test can drown someone.
    &Limit::<Layers>::caution(
        "pool full for a test",
        Code::OpenWater,
        Layers::LeakTest.at(),
        || Layers::LeakTest.is("yes"),
        "a lined pool stands full for the leak test, and wet liner gives no hold to climb out",
        "fence it, keep a ladder or a rope at its edge, and let nobody work beside it alone",
    ),
];

const EXCLUDED: &str = "its work is not in the book, so its hours are excluded";

const TAPED: Step<Layers> = Step::from_job("taped seams", System::length, || {
    when(Layers::Seam.is("taped"), SEAMS, 0.0)
});

const TAPED_AMOUNTS: &[Amount] = &[Amount::new(System::length, || TAPED.key())];

pub(super) const TAPE: Buying<Layers> = Buying::new(
    "tape",
    || "Seam tape".into(),
    Layers::Seam.at(),
    TAPED_AMOUNTS,
)
.missing("the tape is not in the book, so it is excluded")
.waste(Waste::AsWritten);

const ALONG_WALLS: Step<Layers> = Step::from_job("battens along walls", System::length, || {
    Layers::Battens.here()
});

const BATTEN_AMOUNTS: &[Amount] = &[Amount::new(System::length, || ALONG_WALLS.key())];

pub(super) const BATTENS: Buying<Layers> = Buying::new(
    "batten",
    || "Batten".into(),
    Layers::Battens.at(),
    BATTEN_AMOUNTS,
)
.missing("the batten is not in the book, so it is excluded")
.waste(Waste::AsWritten);

pub(super) const FIXING: Working<Layers> = Working::new(
    "fixing battens",
    || "Fix batten".into(),
    Layers::Battens.at(),
    BATTEN_AMOUNTS,
)
.missing(EXCLUDED);

const PENETRATIONS: Step<Layers> = Step::from_job("boots at penetrations", System::each, || {
    Layers::Boots.here()
});

const BOOT_AMOUNTS: &[Amount] = &[Amount::new(System::each, || PENETRATIONS.key())];

pub(super) const BOOTS: Buying<Layers> =
    Buying::new("boot", || "Boot".into(), Layers::Boots.at(), BOOT_AMOUNTS)
        .missing("the boot is not in the book, so it is excluded")
        .waste(Waste::AsWritten);

pub(super) const FITTING: Working<Layers> = Working::new(
    "fitting boots",
    || "Fit boot".into(),
    Layers::Boots.at(),
    BOOT_AMOUNTS,
)
.missing(EXCLUDED);

const PICKED: Step<Layers> = Step::from_job("ground picked clean", System::area, || {
    let ground = when(
        FALL.found_none(),
        BASIN.of(developed::SURFACE),
        FALL.of(pieces::ALL),
    );
    when(Layers::Picking.is("yes"), ground, 0.0)
});

pub(super) const PICKING: Working<Layers> = Working::new(
    "picking",
    || "Pick subgrade".into(),
    Layers::Picking.at(),
    &[Amount::new(System::area, || PICKED.key())],
)
.missing(EXCLUDED);

const TESTS: Step<Layers> = Step::from_job("leak tests", System::each, || {
    when(Layers::LeakTest.is("yes"), 1.0, 0.0)
});

pub(super) const TESTING: Working<Layers> = Working::new(
    "testing",
    || "Test liner".into(),
    Layers::LeakTest.at(),
    &[Amount::new(System::each, || TESTS.key())],
)
.missing(EXCLUDED);
