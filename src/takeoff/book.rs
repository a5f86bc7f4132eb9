//! Small tables that the program brings along: soils, shapes and units.

use super::inputs::{AllInputs, fixed_words};
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Rules, Text, pi, when};
use crate::job::tables::{SHAPES, SOILS};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::{Factors, Shapes, Soils, UnitBook};
use crate::units::{self, ONE, System, Unit};

/// What is known of each soil, from the factors.
#[derive(Debug)]
pub struct SoilColumns {
    /// Loose volume from one of bank.
    pub loose: Column<Soils>,
    /// Compacted volume from one of bank.
    pub compacted: Column<Soils>,
    /// Weight in the bank.
    pub weight: Column<Soils>,
    /// Slope that a cut is laid back to.
    pub lay_back: Column<Soils>,
}

/// Adds the table of soils: each property is gathered from its four factors in use.
pub fn soils(graph: &mut Graph, inputs: &AllInputs, system: System) -> SoilColumns {
    fixed_words::<Soils>(graph, "Soil", SOILS);
    let mut rules = graph.rules::<Soils>();
    let mut gathered = |name: &str, unit: Unit, factors: [Factor; 4]| {
        let cells = factors.map(|factor| Some(inputs.factors.of(factor).id.at(0)));
        rules.gathered(name, unit, cells.to_vec())
    };
    SoilColumns {
        loose: gathered("loose per bank", units::LOOSE_PER_BANK, LOOSE_OF),
        compacted: gathered(
            "compacted per bank",
            units::COMPACTED_PER_BANK,
            COMPACTED_OF,
        ),
        weight: gathered("weight in the bank", system.density(), WEIGHT_OF),
        lay_back: gathered("lay-back", units::SLOPE, LAY_BACK_OF),
    }
}

// The factors of each property, in the order of the soils.
const LOOSE_OF: [Factor; 4] = [
    Factor::LooseSand,
    Factor::LooseLoam,
    Factor::LooseClay,
    Factor::LooseRock,
];
const COMPACTED_OF: [Factor; 4] = [
    Factor::CompactedSand,
    Factor::CompactedLoam,
    Factor::CompactedClay,
    Factor::CompactedRock,
];
const WEIGHT_OF: [Factor; 4] = [
    Factor::WeightSand,
    Factor::WeightLoam,
    Factor::WeightClay,
    Factor::WeightRock,
];
const LAY_BACK_OF: [Factor; 4] = [
    Factor::LayBackSand,
    Factor::LayBackLoam,
    Factor::LayBackClay,
    Factor::LayBackRock,
];

/// Adds the table of shapes: area as a share of length × width.
pub fn shapes(graph: &mut Graph) -> Column<Shapes> {
    let shape = fixed_words::<Shapes>(graph, "Shape", SHAPES);
    let mut rules: Rules<'_, Shapes> = graph.rules();
    let factor = when(shape.is("rectangle"), 1.0, pi() / 4.0);
    rules.geometry("area factor", ONE, factor)
}

/// What is known of each unit.
#[derive(Clone, Copy, Debug)]
pub struct UnitColumns {
    /// Its size in the job's own base: feet, square feet, cubic feet, pounds, hours; or
    /// metres, square metres, cubic metres, kilograms, hours; 1 for a count.
    pub size: Column<UnitBook>,
    /// The unit as people write it: yd³ for yd3.
    pub shown: Text<UnitBook>,
    /// How many lengths are multiplied in it.
    pub lengths: Column<UnitBook>,
    /// A number for what it measures: only units of one kind can be converted.
    pub kind: Column<UnitBook>,
}

/// The kind of a volume without a state of earth.
pub const VOLUME: f64 = 4.0;
/// The kind of a weight.
pub const WEIGHT: f64 = 5.0;
/// The kind of a volume in the bank.
pub const BANK: f64 = 7.0;
/// The kind of a loose volume.
pub const LOOSE: f64 = 8.0;
/// The kinds from here on are counts: nothing is lost in cutting or handling them.
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
        _ if like(units::YD3_COMPACTED) => Some(9.0),
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

/// Adds the table of units.
pub fn unit_book(graph: &mut Graph, system: System) -> UnitColumns {
    let listed: Vec<(Unit, f64)> = Unit::all()
        .filter_map(|unit| Some((unit, kind_of(unit)?)))
        .collect();
    let symbols: Vec<&str> = listed.iter().map(|(unit, _)| unit.symbol()).collect();
    fixed_words::<UnitBook>(graph, "Unit", &symbols);
    let size = |unit: Unit| {
        unit.without_state()
            .to(base_of(unit, system))
            .map_or(f64::NAN, |ratio| ratio.apply(1.0))
    };
    let sizes = listed.iter().map(|(unit, _)| size(*unit)).collect();
    let lengths = listed
        .iter()
        .map(|(unit, _)| f64::from(unit.lengths()))
        .collect();
    let kinds = listed.iter().map(|(_, kind)| *kind).collect();
    let shown = listed.iter().map(|(unit, _)| unit.to_string().into());
    let mut rules: Rules<'_, UnitBook> = graph.rules();
    UnitColumns {
        shown: rules.words("shown", false, shown.collect()),
        size: rules.given("size", ONE, &sources::UNITS, sizes),
        lengths: rules.given("lengths", ONE, &sources::GEOMETRY, lengths),
        kind: rules.given("kind", ONE, &sources::ARITHMETIC, kinds),
    }
}

/// A factor in use, for any table.
pub(crate) fn factor<T>(inputs: &AllInputs, which: Factor) -> crate::graph::Term<T> {
    crate::graph::only::<T, Factors>(inputs.factors.of(which))
}
