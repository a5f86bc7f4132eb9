//! Figures of the job as a whole that other rules read.

use super::soils::{self, SOIL};
use crate::graph::prelude::*;
use crate::job::tables::{JobKeys, QuickMeasure};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Soils;
use crate::units::{COMPACTED_PER_BANK, LOOSE_PER_BANK, System};

/// Elevation of the level's line of sight.
pub const INSTRUMENT: Step<JobKeys> =
    Step::arithmetic("height of the instrument", System::length, || {
        JobKeys::Benchmark.or(only(QuickMeasure::QuickBenchmark))
            + JobKeys::Backsight.or(only(QuickMeasure::QuickBacksight))
    });

/// 1 where benchmark and backsight are both there.
pub const LEVELLED: Step<JobKeys> = Step::from_job("levelled", System::number, || {
    let benchmark = JobKeys::Benchmark.filled();
    let benchmark = benchmark.or(QuickMeasure::QuickBenchmark.filled());
    let backsight = JobKeys::Backsight.filled();
    let backsight = backsight.or(QuickMeasure::QuickBacksight.filled());
    when(benchmark.and(backsight), 1.0, 0.0)
});

/// The job's usual soil.
const SOIL_ROW: LookUp<JobKeys, Soils> =
    LookUp::new("soil row", || JobKeys::Soil.key()).among(|| SOIL.key());

/// Loose volume from one of bank, in the job's usual soil.
pub const LOOSE: Step<JobKeys> = Step::new(
    "loose per bank",
    |_| LOOSE_PER_BANK,
    &sources::SWELL,
    || SOIL_ROW.of(soils::LOOSE),
);

/// Compacted volume from one of bank, in the job's usual soil.
pub const COMPACTED: Step<JobKeys> = Step::new(
    "compacted per bank",
    |_| COMPACTED_PER_BANK,
    &sources::SWELL,
    || SOIL_ROW.of(soils::COMPACTED),
);

/// Weight in the bank, in the job's usual soil.
pub const WEIGHT: Step<JobKeys> = Step::new(
    "weight in the bank",
    System::density,
    &sources::UNIT_WEIGHT,
    || SOIL_ROW.of(soils::WEIGHT),
);

/// 1 for a bid by unit prices, 0 for a lump sum.
pub const BY_UNIT_PRICE: Step<JobKeys> =
    Step::from_job("bid by unit prices", System::number, || {
        when(JobKeys::BidKind.is("unit price"), 1.0, 0.0)
    });

/// Round trips of a truck in an hour, by the quick page; zero where it does not say.
pub const HAUL_TRIPS: Step<JobKeys> = Step::new(
    "trips of a truck an hour",
    System::an_hour,
    &sources::CYCLE_OUTPUT,
    || {
        let haul = QuickMeasure::QuickHaul;
        when(haul.blank(), 0.0, 1.0 / only::<JobKeys, _>(haul))
    },
);

/// Working hours in a day.
pub const HOURS_A_DAY: Step<JobKeys> = Step::new(
    "hours a day in use",
    System::number,
    &sources::HOURS_A_DAY,
    || JobKeys::HoursADay.or(Factor::HoursADay),
);

/// Working days in a week.
const DAYS_A_WEEK: Step<JobKeys> = Step::new(
    "days a week in use",
    System::number,
    &sources::HOURS_A_DAY,
    || JobKeys::DaysAWeek.or(Factor::DaysAWeek),
);

/// Calendar days for one working day: 1.4 for a week of five days or fewer, 1.2 for six, 1
/// for seven.
pub const BY_CALENDAR: Step<JobKeys> = Step::new(
    "calendar days for a working day",
    System::number,
    &sources::CALENDAR,
    || {
        let up_to_six = when(DAYS_A_WEEK.above(5.0), 1.2, 1.4);
        when(DAYS_A_WEEK.above(6.0), 1.0, up_to_six)
    },
);

/// Everything of the whole job, for the page that shows it.
pub const RULES: &[&dyn Rule] = &[
    &INSTRUMENT,
    &LEVELLED,
    &LOOSE,
    &COMPACTED,
    &WEIGHT,
    &BY_UNIT_PRICE,
    &HAUL_TRIPS,
    &HOURS_A_DAY,
    &BY_CALENDAR,
];
