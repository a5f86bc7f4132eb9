//! Defaults that stand in for what was not measured: each with unit and source.
//!
//! Every factor is a visible row of the sheet `Factors`: default, unit, source, a
//! place for an override, and the value in use by formula. A job may also override a
//! factor row by row, where a table has a column for it.

mod measure;
mod terms;

pub use measure::Measure;
pub use terms::{DefaultOf, OverrideOf};

use crate::sources::{self, Source};
use crate::units::{self, System, Unit};

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

            /// The names of its default and of its override among the factors' columns.
            pub(crate) fn names_of_both(self) -> [&'static str; 2] {
                match self {
                    $(Factor::$name => [
                        concat!($heading, ", default"),
                        concat!($heading, ", override"),
                    ],)*
                }
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
    /// The least and the greatest value allowed, in the factor's unit in a system of units.
    #[must_use]
    pub fn limits(self, system: System) -> (f64, f64) {
        let (low, high) = self.range();
        let In::Measured(measure) = self.measured_in() else {
            return (low, high);
        };
        let ratio = measure.unit(System::Us).to(measure.unit(system));
        ratio.map_or((low, high), |ratio| (ratio.apply(low), ratio.apply(high)))
    }

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
    Slack "Slack" SHARE, 2.0, 2.0, 0.0..50.0, SLACK;
    EdgeOver "Edge, up and over" LENGTH, 2.0, 0.6, 0.0..50.0, EDGE_OVER;
    EdgeWall "Edge, up a wall" LENGTH, 1.0, 0.3, 0.0..50.0, EDGE_OVER;
    SetBack "Trench set-back" LENGTH, 2.0, 0.6, 0.0..50.0, ANCHOR_TRENCH;
    TrenchDepth "Trench depth" LENGTH, 1.0, 0.3, 0.0..20.0, ANCHOR_TRENCH;
    TrenchWidth "Trench width" LENGTH, 1.0, 0.3, 0.0..20.0, ANCHOR_TRENCH;
    LapWelded "Lap, welded" THICKNESS, 4.0, 100.0, 0.0..120.0, LAP_WELDED;
    LapTaped "Lap, taped" THICKNESS, 6.0, 150.0, 0.0..120.0, LAP_TAPED;
    LapLoose "Lap, loose" THICKNESS, 12.0, 300.0, 0.0..120.0, LAP_LOOSE;
    LapDownhill "Lap over the next piece downhill" THICKNESS, 12.0, 300.0, 0.0..120.0, FALL_LINER;
    Wrap "Wrap behind a course" THICKNESS, 12.0, 300.0, 0.0..120.0, FALL_LINER;
    FallSide "Up each side of a fall" LENGTH, 2.0, 0.6, 0.0..50.0, FALL_LINER;
    ApronLength "Apron under a spill" LENGTH, 4.0, 1.2, 0.0..50.0, FALL_LINER;
    WeightGranite "Solid weight, granite" WEIGHT, 165.0, 2650.0, 100.0..220.0, ROCK_GRAVITY;
    WeightGneiss "Solid weight, gneiss" WEIGHT, 168.0, 2700.0, 100.0..220.0, ROCK_GRAVITY;
    WeightLimestone "Solid weight, limestone" WEIGHT, 162.0, 2600.0, 100.0..220.0, ROCK_GRAVITY;
    WeightSandstone "Solid weight, sandstone" WEIGHT, 147.0, 2350.0, 100.0..220.0, ROCK_GRAVITY;
    WeightQuartzite "Solid weight, quartzite" WEIGHT, 165.0, 2650.0, 100.0..220.0, ROCK_GRAVITY;
    WeightBasalt "Solid weight, basalt" WEIGHT, 188.0, 3010.0, 100.0..220.0, ROCK_GRAVITY;
    FillsBlock "Stone in its box, block" SHARE, 100.0, 100.0, 10.0..100.0, STONE_BLOCK;
    FillsRough "Stone in its box, rough" SHARE, 75.0, 75.0, 10.0..100.0, STONE_ROUGH;
    FillsRounded "Stone in its box, rounded" SHARE, 52.36, 52.36, 10.0..100.0, STONE_ROUNDED;
    StoneLength "Stone length for one of height" In::Fixed(units::ONE), 1.5, 1.5, 0.2..10.0, STONE_LENGTH;
    CourseVoids "Voids between set stones" SHARE, 25.0, 25.0, 0.0..90.0, COURSE_VOIDS;
    GapFilled "Share of the voids filled" SHARE, 50.0, 50.0, 0.0..100.0, GAP_FILLED;
    Reject "Stone that fits nowhere" SHARE, 10.0, 10.0, 0.0..100.0, REJECT;
    Tolerance "Delivered tolerance of stone" SHARE, 5.0, 5.0, 0.0..50.0, TOLERANCE;
    NextBed "Next bed below the top" THICKNESS, 8.0, 200.0, 0.0..60.0, NEXT_BED;
    BeddingThickness "Bedding" THICKNESS, 4.0, 100.0, 0.0..60.0, BEDDING;
    BehindCourse "Cut behind a course" LENGTH, 1.0, 0.3, 0.0..20.0, BEHIND_COURSE;
    TonsApart "Tons by course and by piece may differ by" SHARE, 50.0, 50.0, 0.0..500.0, TONS_APART;
    RiseApart "Total rise may differ from the plan by" THICKNESS, 0.5, 15.0, 0.0..120.0, RISE_APART;
    FoamCan "Joint sealed by one can" LENGTH, 8.0, 2.4, 0.1..200.0, FOAM_CAN;
    SpillCoefficient "Spill coefficient" In::Fixed(units::ONE), 3.33, 1.84, 1.0..5.0, SPILL;
    SpillLeast "Least head of the spill formula" LENGTH, 0.2, 0.06, 0.0..5.0, SPILL_LIMITS;
    SpillMost "Greatest head for one of width" SHARE, 33.3, 33.3, 1.0..100.0, SPILL_LIMITS;
    LooseVoids "Voids in loose stone" SHARE, 40.0, 40.0, 0.0..90.0, LOOSE_VOIDS;
    CrateVoids "Void in a crate" SHARE, 95.0, 95.0, 1.0..100.0, CRATE_VOIDS;
    WaterWeight "Weight of water" WEIGHT, 62.4, 1000.0, 62.0..64.5, WATER_WEIGHT;
    BallastWeight "Weight of ballast, stone or soil" WEIGHT, 95.0, 1520.0, 50.0..170.0, BALLAST_WEIGHT;
    FloatSafety "Factor of safety against lifting" In::Fixed(units::ONE), 1.2, 1.2, 1.0..5.0, FLOAT_SAFETY;
    ApproachVelocity "Greatest approach velocity" In::Measured(Measure::Velocity), 0.5, 0.15, 0.01..10.0, APPROACH;
    LiftNear "Near the chart from" SHARE, 75.0, 75.0, 10.0..100.0, LIFT_NEAR;
    TippingShare "Share of a tipping load that may be lifted" SHARE, 75.0, 75.0, 10.0..100.0, TIPPING;
    RiggingWeight "Rigging" In::Measured(Measure::Weight), 0.05, 0.05, 0.0..20.0, RIGGING;
    SetByHand "Piece set by hand up to" In::Measured(Measure::Weight), 0.05, 0.045, 0.0..5.0, SET_BY_HAND;
    GreenWhiteOak "Green weight, white oak" WEIGHT, 66.6, 1068.0, 20.0..90.0, GREEN_WOOD;
    GreenRedOak "Green weight, red oak" WEIGHT, 62.9, 1008.0, 20.0..90.0, GREEN_WOOD;
    GreenPoplar "Green weight, yellow-poplar" WEIGHT, 51.4, 824.0, 20.0..90.0, GREEN_WOOD;
    GreenPine "Green weight, loblolly pine" WEIGHT, 61.6, 987.0, 20.0..90.0, GREEN_WOOD_MEMORY;
    GreenFir "Green weight, Douglas-fir" WEIGHT, 60.4, 968.0, 20.0..90.0, GREEN_WOOD_MEMORY;
    EdgeTolerance "Perimeter tolerance" SHARE, 1.0, 1.0, 0.0..20.0, EDGE_TOLERANCE;
    QuickSlope "Quick measure: side slope" SLOPE, 2.0, 2.0, 0.0..20.0, QUICK_USUAL;
    QuickBuildUp "Quick measure: build-up" THICKNESS, 2.0, 50.0, 0.0..120.0, QUICK_USUAL;
    QuickShelf "Quick measure: shelf" LENGTH, 2.0, 0.6, 0.0..200.0, QUICK_USUAL;
    QuickGravelDepth "Quick measure: gravel bed" LENGTH, 3.0, 0.9, 0.05..20.0, QUICK_USUAL;
    QuickFace "Quick measure: face of a course" LENGTH, 8.0, 2.4, 0.1..1000.0, QUICK_USUAL;
    QuickSetback "Quick measure: setback" LENGTH, 1.0, 0.3, 0.0..200.0, QUICK_USUAL;
    QuickStreamWidth "Quick measure: stream" LENGTH, 3.0, 0.9, 0.0..200.0, QUICK_USUAL;
    QuickStreamSide "Quick measure: side of a stream" LENGTH, 1.5, 0.45, 0.0..50.0, QUICK_USUAL;
    Waste "Waste" SHARE, 5.0, 5.0, 0.0..100.0, WASTE;
    Attendance "Attendance of partners" SHARE, 70.0, 70.0, 1.0..100.0, ATTENDANCE;
    OvertimePay "Overtime pay" SHARE, 150.0, 150.0, 100.0..400.0, OVERTIME;
    HoursADay "Hours a day" In::Fixed(units::ONE), 8.0, 8.0, 1.0..24.0, HOURS_A_DAY;
    DaysAWeek "Days a week" In::Fixed(units::ONE), 5.0, 5.0, 1.0..7.0, HOURS_A_DAY;
}
