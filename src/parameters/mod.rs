//! Defaults that stand in for what was not measured: each with unit and source.
//!
//! Every factor is a visible row of the sheet `Factors`: default, unit, source, a
//! place for an override, and the value in use by formula. A job may also override a
//! factor row by row, where a table has a column for it.

mod measure;

pub use measure::Measure;

use crate::graph::Table;
use crate::sources::{self, Source};
use crate::units::{self, System, Unit};

/// The one-row table of factors.
#[derive(Debug)]
pub enum Factors {}

impl Table for Factors {
    const NAME: &'static str = "Factors";
    const ROW: &'static str = "factor";
}

/// The unit of a factor: one that depends on the system of units, or a fixed one.
#[derive(Clone, Copy, Debug, PartialEq)]
enum In {
    Measured(Measure),
    Fixed(Unit),
}

macro_rules! factors {
    ($($name:ident $heading:literal $unit:expr, $us:literal, $metric:literal, $low:literal..$high:literal, $source:ident;)*) => {
        /// A default that can be overridden.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Factor {
            $(#[doc = $heading] $name,)*
        }

        impl Factor {
            /// Every factor, in the order of the sheet.
            pub const ALL: &'static [Factor] = &[$(Factor::$name,)*];

            /// Its name on the sheet.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Factor::$name => $heading,)* }
            }

            /// Where the default comes from.
            #[must_use]
            pub fn source(self) -> &'static Source {
                match self { $(Factor::$name => &sources::$source,)* }
            }

            fn measured_in(self) -> In {
                match self { $(Factor::$name => $unit,)* }
            }

            /// The default, in the factor's unit in a system of units.
            #[must_use]
            pub fn default(self, system: System) -> f64 {
                match self { $(Factor::$name => if system.is_us() { $us } else { $metric },)* }
            }

            /// The least and the greatest value allowed, in US customary units.
            #[must_use]
            pub fn range(self) -> (f64, f64) {
                match self { $(Factor::$name => ($low, $high),)* }
            }
        }
    };
}

impl Factor {
    /// The unit that the factor is shown in.
    #[must_use]
    pub fn unit(self, system: System) -> Unit {
        match self.measured_in() {
            In::Measured(measure) => measure.unit(system),
            In::Fixed(unit) => unit,
        }
    }
}

impl Factor {
    /// What kind of number it is, for reading a cell.
    #[must_use]
    pub fn measure(self) -> Measure {
        match self.measured_in() {
            In::Measured(measure) => measure,
            In::Fixed(units::PERCENT) => Measure::Percent,
            In::Fixed(units::SLOPE) => Measure::Slope,
            In::Fixed(_) => Measure::Count,
        }
    }
}

const SWELL: In = In::Fixed(units::LOOSE_PER_BANK);
const SHRINK: In = In::Fixed(units::COMPACTED_PER_BANK);
const WEIGHT: In = In::Measured(Measure::Density);
const SLOPE: In = In::Fixed(units::SLOPE);
const SHARE: In = In::Fixed(units::PERCENT);
const LENGTH: In = In::Measured(Measure::Length);
const THICKNESS: In = In::Measured(Measure::Thickness);

factors! {
    LooseSand "Loose per bank, sand" SWELL, 1.11, 1.11, 1.0..2.0, SWELL_SAND;
    LooseLoam "Loose per bank, loam" SWELL, 1.25, 1.25, 1.0..2.0, SWELL_EARTH;
    LooseClay "Loose per bank, clay" SWELL, 1.3, 1.3, 1.0..2.0, SWELL_EARTH;
    LooseRock "Loose per bank, rock" SWELL, 1.5, 1.5, 1.0..2.5, SWELL;
    CompactedSand "Compacted per bank, sand" SHRINK, 0.95, 0.95, 0.5..1.5, SWELL_SAND;
    CompactedLoam "Compacted per bank, loam" SHRINK, 0.9, 0.9, 0.5..1.5, SWELL;
    CompactedClay "Compacted per bank, clay" SHRINK, 0.9, 0.9, 0.5..1.5, SWELL;
    CompactedRock "Compacted per bank, rock" SHRINK, 1.3, 1.3, 0.5..2.0, SWELL;
    WeightSand "Weight in the bank, sand" WEIGHT, 110.0, 1760.0, 60.0..160.0, UNIT_WEIGHT;
    WeightLoam "Weight in the bank, loam" WEIGHT, 110.0, 1760.0, 60.0..160.0, UNIT_WEIGHT;
    WeightClay "Weight in the bank, clay" WEIGHT, 120.0, 1920.0, 60.0..160.0, UNIT_WEIGHT;
    WeightRock "Weight in the bank, rock" WEIGHT, 162.0, 2600.0, 100.0..220.0, ROCK_WEIGHT;
    LayBackSand "Lay-back, sand" SLOPE, 1.5, 1.5, 0.0..5.0, LAY_BACK;
    LayBackLoam "Lay-back, loam" SLOPE, 1.5, 1.5, 0.0..5.0, LAY_BACK;
    LayBackClay "Lay-back, clay" SLOPE, 1.5, 1.5, 0.0..5.0, LAY_BACK;
    LayBackRock "Lay-back, rock" SLOPE, 0.0, 0.0, 0.0..5.0, LAY_BACK;
    LayBackFrom "Lay-back from a depth of" LENGTH, 5.0, 1.5, 0.0..20.0, PROTECTION_DEPTH;
    WorkingRoom "Working room" LENGTH, 2.0, 0.6, 0.0..20.0, WORKING_ROOM;
    Freeboard "Freeboard" THICKNESS, 6.0, 150.0, 0.0..240.0, FREEBOARD;
    BermSlope "Berm slope" SLOPE, 3.0, 3.0, 0.0..20.0, BERM_SLOPE;
    Settlement "Berm settlement" SHARE, 5.0, 5.0, 0.0..50.0, SETTLEMENT;
    UsableDig "Dug earth fit for fill" SHARE, 100.0, 100.0, 0.0..100.0, USABLE;
    SedimentWeight "Sediment weight" WEIGHT, 85.0, 1360.0, 60.0..140.0, SEDIMENT_WEIGHT;
    TopsoilWeight "Topsoil weight in the bank" WEIGHT, 95.0, 1520.0, 50.0..140.0, TOPSOIL_WEIGHT;
    TopsoilKept "Topsoil kept on site" SHARE, 100.0, 100.0, 0.0..100.0, TOPSOIL_KEPT;
    BucketFill "Bucket fill" SHARE, 95.0, 95.0, 20.0..130.0, BUCKET_FILL;
    Efficiency "Job efficiency" SHARE, 75.0, 75.0, 20.0..100.0, EFFICIENCY;
    PumpShare "Pump flow in use" SHARE, 70.0, 70.0, 10.0..100.0, PUMP_SHARE;
    Waste "Waste" SHARE, 5.0, 5.0, 0.0..100.0, WASTE;
    HoursADay "Hours a day" In::Fixed(units::ONE), 8.0, 8.0, 1.0..24.0, HOURS_A_DAY;
    DaysAWeek "Days a week" In::Fixed(units::ONE), 5.0, 5.0, 1.0..7.0, HOURS_A_DAY;
}
