//! The usual names: what a row is bought as and done by where it names no material or work.
//!
//! The template carries them, each with a unit that its rows make. Always true: every name
//! that a rule looks up stands here, and nothing else does; a test holds that.

use super::works::Earthmoving;
use crate::units::System;

/// The usual works beside those of earthwork: name, unit in feet and pounds, unit in metres.
const WORKS: [(&str, &str, &str); 17] = [
    ("Lay sheet", "ft2", "m2"),
    ("Fix batten", "ft", "m"),
    ("Fit boot", "ea", "ea"),
    ("Pick subgrade", "ft2", "m2"),
    ("Test liner", "ea", "ea"),
    ("Set stone", "ea", "ea"),
    ("Place gravel", "yd3", "m3"),
    ("Foam joint", "ea", "ea"),
    ("Set structure", "ea", "ea"),
    ("Set crate", "ea", "ea"),
    ("Protect wall", "ft2", "m2"),
    ("Set log", "ea", "ea"),
    ("Plant", "ea", "ea"),
    ("Way in", "ft", "m"),
    ("Ground mats", "ft", "m"),
    ("Water line", "ft", "m"),
    ("Power line", "ft", "m"),
];

/// The usual materials: name, unit in feet and pounds, unit in metres.
const MATERIALS: [(&str, &str, &str); 18] = [
    ("Liner", "ft2", "m2"),
    ("Fabric", "ft2", "m2"),
    ("Seam tape", "ft", "m"),
    ("Batten", "ft", "m"),
    ("Boot", "ea", "ea"),
    ("Boulders", "ton", "t"),
    ("River stone", "yd3 loose", "m3 loose"),
    ("Bedding", "yd3 loose", "m3 loose"),
    ("Foam", "ea", "ea"),
    ("Gravel", "yd3 loose", "m3 loose"),
    ("Void crate", "ea", "ea"),
    ("Logs", "ea", "ea"),
    ("Planting soil", "yd3 loose", "m3 loose"),
    ("Plants", "ea", "ea"),
    ("Way in", "ft", "m"),
    ("Ground mats", "ft", "m"),
    ("Water line", "ft", "m"),
    ("Power line", "ft", "m"),
];

/// What can hurt the untrained in the usual works, where it is more than work by hand.
const HAZARDS: [(&str, &str); 17] = [
    ("Pump out", "electrical"),
    ("Strip topsoil", "machines"),
    ("Remove sediment", "machines"),
    ("Dig", "deep cuts"),
    ("Build berm", "machines"),
    ("Backfill", "machines"),
    ("Haul sediment", "machines"),
    ("Haul away", "machines"),
    ("Bring fill", "machines"),
    ("Set stone", "lifting"),
    ("Set structure", "lifting"),
    ("Set crate", "deep cuts"),
    ("Set log", "lifting"),
    ("Way in", "machines"),
    ("Ground mats", "lifting"),
    ("Water line", "deep cuts"),
    ("Power line", "electrical"),
];

/// Every usual work with what can hurt the untrained in it.
pub fn hazards(system: System) -> impl Iterator<Item = (&'static str, &'static str)> {
    works(system).map(|(work, _)| {
        let known = HAZARDS.iter().find(|(known, _)| *known == work);
        (work, known.map_or("by hand", |(_, hazard)| *hazard))
    })
}

fn in_system(
    (name, us, metric): (&'static str, &'static str, &'static str),
    system: System,
) -> (&'static str, &'static str) {
    (name, if system.is_us() { us } else { metric })
}

/// Every usual work with its unit: earthwork first.
pub fn works(system: System) -> impl Iterator<Item = (&'static str, &'static str)> {
    let others = WORKS.into_iter().map(move |work| in_system(work, system));
    let earth = Earthmoving::ALL.map(|work| (work.name(), work.unit(system)));
    earth.into_iter().chain(others)
}

/// Every usual material with its unit.
pub fn materials(system: System) -> impl Iterator<Item = (&'static str, &'static str)> {
    MATERIALS
        .into_iter()
        .map(move |material| in_system(material, system))
}
