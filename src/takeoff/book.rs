//! Small tables that the program brings along: shapes and units.

use crate::graph::prelude::*;
use crate::job::tables::SHAPES;
use crate::sources;
use crate::tables::{Shapes, UnitBook};
use crate::units::{self, ONE, System, Unit};

/// The name of each shape.
pub const SHAPE: Wording<Shapes> = Wording::brought("Shape", |_| SHAPES.to_vec()).naming_rows();

/// Area as a share of length × width.
pub const AREA_FACTOR: Step<Shapes> = Step::geometry("area factor", System::number, || {
    when(SHAPE.is("rectangle"), 1.0, pi() / 4.0)
});

/// The symbol of each unit.
pub const UNIT: Wording<UnitBook> = Wording::brought("Unit", |system| {
    units().map(|(unit, _)| unit.symbol_in(system)).collect()
})
.naming_rows();

/// The unit as people write it: yd³ for yd3.
pub const SHOWN: Wording<UnitBook> = Wording::spelled("shown", |_| {
    units().map(|(unit, _)| unit.to_string()).collect()
});

/// Its size in the job's own base: feet, square feet, cubic feet, pounds, hours; or metres,
/// square metres, cubic metres, kilograms, hours; 1 for a count.
pub const SIZE: Step<UnitBook> = Step::brought("size", System::number, &sources::UNITS, |system| {
    let size = |unit: Unit| {
        let base = unit.without_state().to(base_of(unit, system));
        base.map_or(f64::NAN, |ratio| ratio.apply(1.0))
    };
    units().map(|(unit, _)| size(unit)).collect()
});

/// How many lengths are multiplied in it.
pub const LENGTHS: Step<UnitBook> =
    Step::brought("lengths", System::number, &sources::GEOMETRY, |_| {
        units().map(|(unit, _)| f64::from(unit.lengths())).collect()
    });

/// A number for what it measures: only units of one kind can be converted.
pub const KIND: Step<UnitBook> =
    Step::brought("kind", System::number, &sources::ARITHMETIC, |_| {
        units().map(|(_, kind)| kind).collect()
    });

/// Every unit that something is priced in, with its kind.
fn units() -> impl Iterator<Item = (Unit, f64)> {
    Unit::all().filter_map(|unit| Some((unit, kind_of(unit)?)))
}

/// The kind of a volume without a state of earth.
pub const VOLUME: f64 = 4.0;
/// The kind of a weight.
pub const WEIGHT: f64 = 5.0;
/// The kind of a volume in the bank.
pub const BANK: f64 = 7.0;
/// The kind of a loose volume.
pub const LOOSE: f64 = 8.0;
/// The kind of a compacted volume.
pub const COMPACTED: f64 = 9.0;
/// The kinds from here on are counts.
pub const COUNTED: f64 = 10.0;
/// The kind of a truck load.
pub const LOAD: f64 = 11.0;

/// A number for what a unit measures; `None` for units that nothing is priced in.
#[must_use]
pub fn kind_of(unit: Unit) -> Option<f64> {
    let like = |other: Unit| unit.measures_like(other);
    match unit.symbol() {
        "ea" => Some(10.0),
        "load" => Some(LOAD),
        "ls" => Some(12.0),
        "day" => Some(13.0),
        "week" => Some(14.0),
        "month" => Some(15.0),
        "" | "H:V" | "%" => None,
        _ if like(units::FT) => Some(2.0),
        _ if like(units::FT2) => Some(3.0),
        _ if like(units::FT3) => Some(VOLUME),
        _ if like(units::LB) => Some(WEIGHT),
        _ if like(units::H) => Some(6.0),
        _ if like(units::YD3_BANK) => Some(BANK),
        _ if like(units::YD3_LOOSE) => Some(LOOSE),
        _ if like(units::YD3_COMPACTED) => Some(COMPACTED),
        _ => None,
    }
}

/// The unit in which sizes of a kind are given: the job's own, made of its length.
#[must_use]
pub fn base_of(unit: Unit, system: System) -> Unit {
    let weight = if system.is_us() { units::LB } else { units::KG };
    let volume = base_volume(system);
    let bases = [system.length(), system.area(), volume, weight, units::H];
    let plain = unit.without_state();
    bases
        .into_iter()
        .find(|base| base.measures_like(plain))
        .unwrap_or(ONE)
}

/// The volume made of the job's own length.
#[must_use]
pub fn base_volume(system: System) -> Unit {
    if system.is_us() {
        units::FT3
    } else {
        units::M3
    }
}
