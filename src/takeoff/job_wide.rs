//! Figures of the job as a whole that other rules read.

use super::book::{SoilColumns, Soils, factor};
use super::inputs::AllInputs;
use crate::graph::{Column, Graph, Link, when};
use crate::job::tables::JobKeys;
use crate::parameters::Factor;
use crate::sources;
use crate::units::{LOOSE_PER_BANK, ONE, System};

/// Figures of the whole job.
#[derive(Clone, Copy, Debug)]
pub struct JobWide {
    /// Elevation of the level's line of sight.
    pub instrument: Column<JobKeys>,
    /// 1 where benchmark and backsight are both there.
    pub levelled: Column<JobKeys>,
    /// Loose volume from one of bank, in the job's usual soil.
    pub loose: Column<JobKeys>,
    /// Weight in the bank, in the job's usual soil.
    pub weight: Column<JobKeys>,
    /// 1 for a bid by unit prices, 0 for a lump sum.
    pub by_unit_price: Column<JobKeys>,
    /// Working hours in a day.
    pub hours_a_day: Column<JobKeys>,
    /// Working days in a week.
    pub days_a_week: Column<JobKeys>,
}

/// Adds the figures of the whole job.
pub fn job_wide(
    graph: &mut Graph,
    inputs: &AllInputs,
    soils: &SoilColumns,
    system: System,
) -> JobWide {
    let benchmark = inputs.number(JobKeys::Benchmark);
    let backsight = inputs.number(JobKeys::Backsight);
    let mut rules = graph.rules::<JobKeys>();
    let instrument = benchmark + backsight;
    let instrument = rules.arithmetic("height of the instrument", system.length(), instrument);
    let levelled = when(benchmark.filled().and(backsight.filled()), 1.0, 0.0);
    let levelled = rules.from_job("levelled", ONE, levelled);
    let soil: Link<JobKeys, Soils> = rules.link("soil row", inputs.words(JobKeys::Soil));
    let loose = soil.of(soils.loose);
    let loose = rules.step("loose per bank", LOOSE_PER_BANK, &sources::SWELL, loose);
    let weight = soil.of(soils.weight);
    let unit = system.density();
    let weight = rules.step("weight in the bank", unit, &sources::UNIT_WEIGHT, weight);
    let by_unit_price = when(inputs.words(JobKeys::BidKind).is("unit price"), 1.0, 0.0);
    let by_unit_price = rules.from_job("bid by unit prices", ONE, by_unit_price);
    let mut time = |name: &str, own: JobKeys, usual: Factor| {
        let in_use = inputs.number(own).or(factor(inputs, usual));
        rules.step(name, ONE, &sources::HOURS_A_DAY, in_use)
    };
    JobWide {
        instrument,
        levelled,
        loose,
        weight,
        by_unit_price,
        hours_a_day: time("hours a day in use", JobKeys::HoursADay, Factor::HoursADay),
        days_a_week: time("days a week in use", JobKeys::DaysAWeek, Factor::DaysAWeek),
    }
}
