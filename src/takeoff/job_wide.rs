//! Figures of the job as a whole that other rules read.

use super::book::{SoilColumns, factor};
use super::grades::usual_grade;
use super::inputs::AllInputs;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Text, only, when};
use crate::job::tables::{JobKeys, QuickMeasure};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Soils;
use crate::units::{COMPACTED_PER_BANK, LOOSE_PER_BANK, ONE, PER_H, System};

/// Figures of the whole job.
#[derive(Clone, Copy, Debug)]
pub struct JobWide {
    /// Elevation of the level's line of sight.
    pub instrument: Column<JobKeys>,
    /// 1 where benchmark and backsight are both there.
    pub levelled: Column<JobKeys>,
    /// Loose volume from one of bank, in the job's usual soil.
    pub loose: Column<JobKeys>,
    /// Compacted volume from one of bank, in the job's usual soil.
    pub compacted: Column<JobKeys>,
    /// Weight in the bank, in the job's usual soil.
    pub weight: Column<JobKeys>,
    /// 1 for a bid by unit prices, 0 for a lump sum.
    pub by_unit_price: Column<JobKeys>,
    /// Working hours in a day.
    pub hours_a_day: Column<JobKeys>,
    /// Calendar days for one working day: 1.4 for a week of five days or fewer, 1.2 for six, 1
    /// for seven.
    pub by_calendar: Column<JobKeys>,
    /// Round trips of a truck in an hour, by the quick page; zero where it does not say.
    pub haul_trips: Column<JobKeys>,
    /// The grade of rows that do not say one.
    pub usual_grade: Text<JobKeys>,
}

/// Adds the figures of the whole job.
pub fn job_wide(
    graph: &mut Graph,
    inputs: &AllInputs,
    soils: &SoilColumns,
    system: System,
) -> JobWide {
    let level = |own: JobKeys, quick: QuickMeasure| {
        let (own, quick) = (inputs.number(own), inputs.number(quick));
        let there = own.filled().or(quick.filled());
        (own.or(only(quick)), there)
    };
    let (benchmark, has_benchmark) = level(JobKeys::Benchmark, QuickMeasure::QuickBenchmark);
    let (backsight, has_backsight) = level(JobKeys::Backsight, QuickMeasure::QuickBacksight);
    let usual_grade = usual_grade(graph, inputs);
    let mut rules = graph.rules::<JobKeys>();
    let instrument = benchmark + backsight;
    let instrument = rules.arithmetic("height of the instrument", system.length(), instrument);
    let levelled = when(has_benchmark.and(has_backsight), 1.0, 0.0);
    let levelled = rules.from_job("levelled", ONE, levelled);
    let soil: Link<JobKeys, Soils> = rules.link("soil row", inputs.words(JobKeys::Soil));
    let loose = soil.of(soils.loose);
    let loose = rules.step("loose per bank", LOOSE_PER_BANK, &sources::SWELL, loose);
    let compacted = soil.of(soils.compacted);
    let unit = COMPACTED_PER_BANK;
    let compacted = rules.step("compacted per bank", unit, &sources::SWELL, compacted);
    let weight = soil.of(soils.weight);
    let unit = system.density();
    let weight = rules.step("weight in the bank", unit, &sources::UNIT_WEIGHT, weight);
    let by_unit_price = when(inputs.words(JobKeys::BidKind).is("unit price"), 1.0, 0.0);
    let by_unit_price = rules.from_job("bid by unit prices", ONE, by_unit_price);
    let haul = inputs.number(QuickMeasure::QuickHaul);
    let trips = when(haul.blank(), 0.0, 1.0 / only::<JobKeys, _>(haul));
    let haul_trips = rules.step(
        "trips of a truck an hour",
        PER_H,
        &sources::CYCLE_OUTPUT,
        trips,
    );
    let mut time = |name: &str, own: JobKeys, usual: Factor| {
        let in_use = inputs.number(own).or(factor(inputs, usual));
        rules.step(name, ONE, &sources::HOURS_A_DAY, in_use)
    };
    let hours_a_day = time("hours a day in use", JobKeys::HoursADay, Factor::HoursADay);
    let days_a_week = time("days a week in use", JobKeys::DaysAWeek, Factor::DaysAWeek);
    let up_to_six = when(days_a_week.here().above(5.0), 1.2, 1.4);
    let by_calendar = when(days_a_week.here().above(6.0), 1.0, up_to_six);
    let name = "calendar days for a working day";
    JobWide {
        instrument,
        levelled,
        loose,
        compacted,
        weight,
        by_unit_price,
        hours_a_day,
        by_calendar: rules.step(name, ONE, &sources::CALENDAR, by_calendar),
        haul_trips,
        usual_grade,
    }
}
