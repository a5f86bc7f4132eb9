//! Units of measure: dimensions, exact sizes, and the state of earth.
//!
//! A unit is a dimension with an exact rational size in metres, kilograms, seconds
//! and money, so that a conversion is a pair of whole numbers which the engine and a
//! spreadsheet formula apply in the same way.
//!
//! Always true:
//! - bank, loose and compacted volume are different dimensions: they cannot be added,
//!   and only a factor such as "loose per bank" turns one into the other;
//! - every size is exact by definition (foot 0.3048 m, pound 0.45359237 kg, US gallon
//!   231 in³, acre 43,560 ft² of the international foot).
//!
//! Not here: numbers with units (they are columns of the `graph`) and field
//! notation such as `12' 6"` (`read::notation`).

mod ratio;
mod system;

use std::fmt;

pub use ratio::Ratio;
pub use system::System;

/// Exponents of length, mass, time, money, and of bank, loose and compacted earth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Dimension([i8; 7]);

/// What state a volume of earth is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// As it lies in the ground.
    Bank,
    /// As it lies in a bucket or a truck.
    Loose,
    /// As it is rolled into a fill.
    Compacted,
}

/// A unit of measure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    dimension: Dimension,
    size: Ratio,
    symbol: &'static str,
}

impl Unit {
    const fn define(
        dimension: [i8; 7],
        numerator: i128,
        denominator: i128,
        symbol: &'static str,
    ) -> Self {
        Self {
            dimension: Dimension(dimension),
            size: Ratio::new(numerator, denominator),
            symbol,
        }
    }

    /// The same unit of volume, for earth in one state.
    #[must_use]
    pub const fn earth(self, state: State) -> Self {
        let mut dimension = self.dimension.0;
        let (place, symbol) = match state {
            State::Bank => (4, if self.is(YD3) { "yd3 bank" } else { "m3 bank" }),
            State::Loose => (
                5,
                if self.is(YD3) {
                    "yd3 loose"
                } else {
                    "m3 loose"
                },
            ),
            State::Compacted => (
                6,
                if self.is(YD3) {
                    "yd3 compacted"
                } else {
                    "m3 compacted"
                },
            ),
        };
        dimension[place] += 1;
        Self {
            dimension: Dimension(dimension),
            symbol,
            ..self
        }
    }

    const fn is(self, other: Unit) -> bool {
        self.size.numerator == other.size.numerator
            && self.size.denominator == other.size.denominator
    }

    /// The symbol as it is written in a heading; empty for a unit that has none.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        self.symbol
    }

    /// The symbol in headings and cells of a job in one system: in US units the tonne is
    /// spelled out, because a `t` may be read as a ton.
    #[must_use]
    pub fn symbol_in(self, system: System) -> &'static str {
        if system.is_us() && self == T {
            "tonne"
        } else {
            self.symbol
        }
    }

    /// The dimension measured.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        self.dimension
    }

    /// Whether both measure the same kind of thing, in the same state.
    #[must_use]
    pub fn measures_like(self, other: Unit) -> bool {
        self.dimension == other.dimension
    }

    /// The exact factor from this unit to another of the same dimension.
    #[must_use]
    pub fn to(self, other: Unit) -> Option<Ratio> {
        if self.dimension != other.dimension {
            return None;
        }
        self.size.times(other.size.upside_down())
    }

    /// The unit of a product, or `None` if its size cannot be held exactly.
    #[must_use]
    pub fn times(self, other: Unit) -> Option<Unit> {
        self.combine(other, 1)
    }

    /// The unit of a quotient, or `None` if its size cannot be held exactly.
    #[must_use]
    pub fn per(self, other: Unit) -> Option<Unit> {
        self.combine(other, -1)
    }

    fn combine(self, other: Unit, sign: i8) -> Option<Unit> {
        let mut exponents = self.dimension.0;
        for (exponent, more) in exponents.iter_mut().zip(other.dimension.0) {
            *exponent = exponent.checked_add(more.checked_mul(sign)?)?;
        }
        let size = if sign > 0 {
            other.size
        } else {
            other.size.upside_down()
        };
        Some(Unit {
            dimension: Dimension(exponents),
            size: self.size.times(size)?,
            symbol: "",
        })
    }

    /// Whether a value with a state of earth may be named from one without: a geometric
    /// volume becomes bank, loose or compacted only where a rule says so.
    #[must_use]
    pub fn names_state_of(self, plain: Unit) -> bool {
        let states = |unit: Unit| {
            [
                unit.dimension.0[4],
                unit.dimension.0[5],
                unit.dimension.0[6],
            ]
        };
        let rest = |unit: Unit| {
            [
                unit.dimension.0[0],
                unit.dimension.0[1],
                unit.dimension.0[2],
                unit.dimension.0[3],
            ]
        };
        rest(self) == rest(plain) && states(plain) == [0, 0, 0] && states(self) != [0, 0, 0]
    }

    /// The same unit without its state of earth.
    #[must_use]
    pub fn without_state(self) -> Unit {
        let d = self.dimension.0;
        Unit {
            dimension: Dimension([d[0], d[1], d[2], d[3], 0, 0, 0]),
            ..self
        }
    }

    /// How many lengths are multiplied in this unit: 0, 1, 2 or 3.
    #[must_use]
    pub const fn lengths(self) -> i8 {
        self.dimension.0[0]
    }

    /// Looks a unit up by its symbol or a common spelling of it, ignoring case.
    #[must_use]
    pub fn parse(text: &str) -> Option<Unit> {
        let wanted = text
            .trim()
            .to_lowercase()
            .replace('²', "2")
            .replace('³', "3")
            .replace(". ", " ");
        let wanted = wanted.trim_end_matches('.');
        let found = SPELLINGS
            .iter()
            .find(|(_, words)| words.contains(&wanted))
            .map(|(unit, _)| *unit);
        found.or_else(|| {
            SPELLINGS
                .iter()
                .map(|(unit, _)| *unit)
                .find(|unit| unit.symbol.to_lowercase() == wanted)
        })
    }

    /// Every unit that has a symbol, in the order of the table.
    pub fn all() -> impl Iterator<Item = Unit> {
        SPELLINGS.iter().map(|(unit, _)| *unit)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            &self
                .symbol
                .replace("m2", "m²")
                .replace("t2", "t²")
                .replace("d2", "d²")
                .replace("d3", "d³")
                .replace("t3", "t³")
                .replace("m3", "m³"),
        )
    }
}

macro_rules! units {
    ($($name:ident $dimension:expr, $numerator:literal / $denominator:literal, $symbol:literal, $meaning:literal, [$($word:literal),*];)*) => {
        $(#[doc = $meaning] pub const $name: Unit = Unit::define($dimension, $numerator, $denominator, $symbol);)*
        const SPELLINGS: &[(Unit, &[&str])] = &[$(($name, &[$($word),*]),)*];
    };
}

const NONE: [i8; 7] = [0; 7];
const LENGTH: [i8; 7] = [1, 0, 0, 0, 0, 0, 0];
const AREA: [i8; 7] = [2, 0, 0, 0, 0, 0, 0];
const VOLUME: [i8; 7] = [3, 0, 0, 0, 0, 0, 0];
const MASS: [i8; 7] = [0, 1, 0, 0, 0, 0, 0];
const DENSITY: [i8; 7] = [-3, 1, 0, 0, 0, 0, 0];
const TIME: [i8; 7] = [0, 0, 1, 0, 0, 0, 0];
const FLOW: [i8; 7] = [3, 0, -1, 0, 0, 0, 0];

units! {
    ONE NONE, 1 / 1, "", "A pure number.", [];
    EACH NONE, 1 / 1, "ea", "A counted thing.", ["each", "pcs", "pc", "no"];
    LOAD NONE, 1 / 1, "load", "A truck load.", ["loads"];
    DAY NONE, 1 / 1, "day", "A day of hire.", ["days"];
    WEEK NONE, 1 / 1, "week", "A week of hire.", ["weeks", "wk"];
    MONTH NONE, 1 / 1, "month", "A month of hire.", ["months", "mo"];
    LUMP NONE, 1 / 1, "ls", "A lump sum.", ["lump sum", "sum", "lot"];
    SLOPE NONE, 1 / 1, "H:V", "A slope: horizontal run for one of rise.", ["h to v"];
    PERCENT NONE, 1 / 100, "%", "A hundredth.", ["percent", "per cent", "pct"];
    FT LENGTH, 381 / 1250, "ft", "A foot.", ["'", "feet", "foot", "lf", "lin ft"];
    IN LENGTH, 127 / 5000, "in", "An inch.", ["\"", "inch", "inches"];
    YD LENGTH, 1143 / 1250, "yd", "A yard.", ["yard", "yards"];
    M LENGTH, 1 / 1, "m", "A metre.", ["metre", "metres", "meter", "meters"];
    CM LENGTH, 1 / 100, "cm", "A centimetre.", [];
    MM LENGTH, 1 / 1000, "mm", "A millimetre.", [];
    FT2 AREA, 145_161 / 1_562_500, "ft2", "A square foot.", ["sq ft", "sf", "sqft"];
    YD2 AREA, 1_306_449 / 1_562_500, "yd2", "A square yard.", ["sq yd", "sy"];
    ACRE AREA, 316_160_658 / 78_125, "acre", "An acre: 43,560 square feet.", ["acres", "ac"];
    M2 AREA, 1 / 1, "m2", "A square metre.", ["sq m", "sqm"];
    HA AREA, 10_000 / 1, "ha", "A hectare.", ["hectare", "hectares"];
    FT3 VOLUME, 55_306_341 / 1_953_125_000, "ft3", "A cubic foot.", ["cu ft", "cf", "cuft"];
    YD3 VOLUME, 1_493_271_207 / 1_953_125_000, "yd3", "A cubic yard.", ["cu yd", "cy", "cuyd"];
    M3 VOLUME, 1 / 1, "m3", "A cubic metre.", ["cu m", "cum"];
    GAL VOLUME, 473_176_473 / 125_000_000_000, "gal", "A US gallon: 231 cubic inches.", ["gallon", "gallons"];
    L VOLUME, 1 / 1000, "L", "A litre.", ["l", "litre", "litres", "liter", "liters"];
    LB MASS, 45_359_237 / 100_000_000, "lb", "A pound.", ["lbs", "pound", "pounds"];
    TON MASS, 45_359_237 / 50_000, "ton", "A short ton: 2,000 pounds.", ["tons", "tn"];
    KG MASS, 1 / 1, "kg", "A kilogram.", [];
    T MASS, 1000 / 1, "t", "A tonne: 1,000 kilograms.", ["tonne", "tonnes"];
    LB_FT3 DENSITY, 28_349_523_125 / 1_769_802_912, "lb/ft3", "Pounds in a cubic foot.", ["pcf", "lb per ft3"];
    LB_FT2 [-2, 1, 0, 0, 0, 0, 0], 45_359_237 / 9_290_304, "lb/ft2", "Pounds on a square foot.", ["psf", "lb per ft2"];
    KG_M2 [-2, 1, 0, 0, 0, 0, 0], 1 / 1, "kg/m2", "Kilograms on a square metre.", ["kg per m2"];
    KG_M3 DENSITY, 1 / 1, "kg/m3", "Kilograms in a cubic metre.", ["kg per m3"];
    H TIME, 3600 / 1, "h", "An hour.", ["hr", "hrs", "hour", "hours"];
    MIN TIME, 60 / 1, "min", "A minute.", ["minute", "minutes"];
    S TIME, 1 / 1, "s", "A second.", ["sec", "second", "seconds"];
    GPM FLOW, 157_725_491 / 2_500_000_000_000, "gpm", "US gallons a minute.", ["gal/min"];
    L_MIN FLOW, 1 / 60_000, "L/min", "Litres a minute.", ["l/min", "lpm"];
    L_S FLOW, 1 / 1000, "L/s", "Litres a second.", ["l/s"];
    M3_H FLOW, 1 / 3600, "m3/h", "Cubic metres an hour.", [];
    FT_S [1, 0, -1, 0, 0, 0, 0], 381 / 1250, "ft/s", "Feet a second.", ["fps"];
    M_S [1, 0, -1, 0, 0, 0, 0], 1 / 1, "m/s", "Metres a second.", [];
    MONEY [0, 0, 0, 1, 0, 0, 0], 1 / 1, "$", "Money, in the job's currency.", [];
    MONEY_H [0, 0, -1, 1, 0, 0, 0], 1 / 3600, "$/h", "Money an hour.", [];
    PER_H [0, 0, -1, 0, 0, 0, 0], 1 / 3600, "per h", "A number of things an hour.", [];
    LOOSE_PER_BANK [0, 0, 0, 0, -1, 1, 0], 1 / 1, "loose per bank", "Loose volume from one of bank.", [];
    COMPACTED_PER_BANK [0, 0, 0, 0, -1, 0, 1], 1 / 1, "compacted per bank", "Compacted volume from one of bank.", [];
    YD3_BANK [3, 0, 0, 0, 1, 0, 0], 1_493_271_207 / 1_953_125_000, "yd3 bank", "A cubic yard as it lies in the ground.", ["bcy"];
    YD3_LOOSE [3, 0, 0, 0, 0, 1, 0], 1_493_271_207 / 1_953_125_000, "yd3 loose", "A cubic yard as it lies in a truck.", ["lcy"];
    YD3_COMPACTED [3, 0, 0, 0, 0, 0, 1], 1_493_271_207 / 1_953_125_000, "yd3 compacted", "A cubic yard rolled into a fill.", ["ccy"];
    M3_BANK [3, 0, 0, 0, 1, 0, 0], 1 / 1, "m3 bank", "A cubic metre as it lies in the ground.", [];
    M3_LOOSE [3, 0, 0, 0, 0, 1, 0], 1 / 1, "m3 loose", "A cubic metre as it lies in a truck.", [];
    M3_COMPACTED [3, 0, 0, 0, 0, 0, 1], 1 / 1, "m3 compacted", "A cubic metre rolled into a fill.", [];
}

/// A day, by its serial number in the 1900 system. Not written in headings or cells.
pub const DATE: Unit = Unit::define(NONE, 1, 1, "date");

#[cfg(test)]
mod tests {
    use super::*;

    fn factor(from: Unit, to: Unit) -> (i128, i128) {
        let ratio = from.to(to).unwrap();
        (ratio.numerator, ratio.denominator)
    }

    #[test]
    fn sizes_follow_from_their_definitions() {
        assert_eq!(factor(YD3, FT3), (27, 1));
        assert_eq!(factor(FT, IN), (12, 1));
        assert_eq!(factor(IN, MM), (127, 5));
        assert_eq!(factor(ACRE, FT2), (43_560, 1));
        assert_eq!(factor(HA, M2), (10_000, 1));
        assert_eq!(factor(FT3, GAL), (576, 77)); // 1,728 / 231
        assert_eq!(factor(TON, LB), (2000, 1));
        assert_eq!(factor(H, S), (3600, 1));
        assert_eq!(factor(YD2, FT2), (9, 1));
        let cubed = FT.times(FT).and_then(|area| area.times(FT)).unwrap();
        assert_eq!(cubed.to(FT3), Some(Ratio::ONE));
        assert_eq!(FT.times(FT).unwrap().to(FT2), Some(Ratio::ONE));
        assert_eq!(LB.per(FT3).unwrap().to(LB_FT3), Some(Ratio::ONE));
        assert_eq!(GAL.per(MIN).unwrap().to(GPM), Some(Ratio::ONE));
    }

    #[test]
    fn states_of_earth_do_not_mix() {
        assert!(YD3_BANK.to(YD3_LOOSE).is_none());
        assert!(YD3.to(YD3_BANK).is_none());
        let loose = YD3_BANK.times(LOOSE_PER_BANK).unwrap();
        assert_eq!(loose.to(YD3_LOOSE), Some(Ratio::ONE));
        assert_eq!(YD3.earth(State::Bank), YD3_BANK);
        assert_eq!(M3.earth(State::Compacted), M3_COMPACTED);
        assert!(YD3_BANK.names_state_of(YD3) && !YD3.names_state_of(YD3_BANK));
    }

    #[test]
    fn spellings_are_found_and_are_unique() {
        assert_eq!(Unit::parse("Cu. Yd."), Some(YD3));
        assert_eq!(Unit::parse("ft³"), Some(FT3));
        assert_eq!(Unit::parse("yd3 bank"), Some(YD3_BANK));
        assert_eq!(Unit::parse("furlong"), None);
        let mut words: Vec<&str> = SPELLINGS
            .iter()
            .flat_map(|(_, words)| words.iter().copied())
            .collect();
        let count = words.len();
        words.sort_unstable();
        words.dedup();
        assert_eq!(words.len(), count);
    }
}
