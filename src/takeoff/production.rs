//! What an hour costs and yields: crews, machines and kinds of work; and how materials are
//! sold.
//!
//! A machine's output comes from its cycle where no output is written down. Not here:
//! the hours of a line (`pricing::costs`).

use super::book::{self, BANK, COMPACTED, LOAD, LOOSE, UNIT, VOLUME, WEIGHT};
use super::job_wide::{self, HAUL_TRIPS};
use crate::graph::prelude::*;
use crate::job::tables::{Crews, Equipment, Materials, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::UnitBook;
use crate::units::{H, LOOSE_PER_BANK, MONEY_H, PER_H, System};

/// What lines are priced with, and the names of works that are not there.
pub const RULES: &[&dyn Rule] = &[
    &CREW_RATE,
    &MACHINE_RATE,
    &CREW_OUTPUT,
    &MACHINE_OUTPUT,
    &WORK_CREW_RATE,
    &WORK_MACHINE_RATE,
    &CARRIES,
    &PAYLOAD,
    &PUMP_FLOW,
    &MATERIAL_SIZE,
    &MATERIAL_KIND,
    &MATERIAL_WEIGHT,
    &MATERIAL_PRICE,
    &MATERIAL_WASTE,
];

/// A crew's wage, or the plug.
const WAGE: Step<Crews> = Step::from_job("wage in use", System::money_an_hour, || {
    Crews::Wage.or(Crews::PlugWage.or(0.0))
});

/// Cost of a crew's hour: people × wage × (1 + burden), to a hundredth of a cent.
pub const CREW_RATE: Step<Crews> = Step::from_job("crew hour", System::money_an_hour, || {
    let cost = Crews::People * WAGE * (1.0 + Crews::Burden.or(0.0));
    cost.round_in(MONEY_H, 4)
});

/// Cost of a machine's hour.
pub const MACHINE_RATE: Step<Equipment> =
    Step::from_job("rate in use", System::money_an_hour, || {
        Equipment::Rate.or(Equipment::PlugRate.or(0.0))
    });

/// Trips of a machine in an hour: one ÷ cycle; zero without a cycle.
const TRIPS: Step<Equipment> = Step::new(
    "trips an hour",
    System::an_hour,
    &sources::CYCLE_OUTPUT,
    || {
        let cycle = Equipment::CycleTime;
        when(cycle.blank(), 0.0, 1.0 / cycle)
    },
);

/// What it moves in an hour, loose, in the job's own volume: what is carried × bucket fill ×
/// trips × efficiency.
///
/// A truck's round trip is measured with its waiting, so that efficiency is not taken off it
/// again.
const LOOSE_OUTPUT: Step<Equipment> = Step::new(
    "loose output",
    System::an_hour,
    &sources::CYCLE_OUTPUT,
    || {
        let output = Equipment::Carries * Factor::BucketFill * TRIPS * Factor::Efficiency;
        let volume_an_hour = |system| {
            let volume = book::base_volume(system);
            volume.per(H).unwrap_or(volume)
        };
        output.number_in(volume_an_hour).counted_in(PER_H)
    },
);

/// The crew of a work.
pub const CREW_OF: LookUp<Works, Crews> =
    LookUp::new("crew row", || Works::WorkCrew.key()).that_must_find();

/// The machine of a work.
pub const MACHINE_OF: LookUp<Works, Equipment> =
    LookUp::new("machine row", || Works::WorkMachine.key()).that_must_find();

/// The unit a work is counted in.
const WORK_UNIT: LookUp<Works, UnitBook> =
    LookUp::new("unit row", || Works::WorkUnit.key()).among(|| UNIT.key());

/// Size of the work's unit.
pub const WORK_SIZE: Step<Works> = Step::new("unit size", System::number, &sources::UNITS, || {
    WORK_UNIT.of(book::SIZE)
});

/// Kind of the work's unit.
pub const WORK_KIND: Step<Works> = Step::new("unit kind", System::number, &sources::UNITS, || {
    WORK_UNIT.of(book::KIND)
});

/// Units of the work that the crew does in an hour, as written; zero without a crew.
pub const CREW_OUTPUT: Step<Works> = Step::from_job("crew output in use", System::an_hour, || {
    when(CREW_OF.found_none(), 0.0, Works::CrewOutput.or(0.0))
});

/// Units of the work that the machine does in an hour: as written, or by its cycle; zero
/// without a machine.
///
/// By its cycle it yields loads, or a volume in the state of the work's unit; loose earth
/// is turned into bank by the job's usual soil. Zero for other units.
pub const MACHINE_OUTPUT: Step<Works> = Step::new(
    "machine output in use",
    System::an_hour,
    &sources::CYCLE_OUTPUT,
    || {
        let is_kind = |kind: f64| WORK_KIND.same_as(kind);
        let loose = MACHINE_OF.of(LOOSE_OUTPUT);
        let bank = loose.clone() / only(job_wide::LOOSE).number_in(LOOSE_PER_BANK);
        let by_volume = when(is_kind(BANK), bank, loose) / WORK_SIZE;
        let is_volume = is_kind(BANK).or(is_kind(LOOSE)).or(is_kind(VOLUME));
        let by_volume = when(is_volume, by_volume, 0.0);
        let trips = MACHINE_OF.of(TRIPS);
        let trips = when(trips.clone().above(0.0), trips, only(HAUL_TRIPS));
        let by_cycle = when(is_kind(LOAD), trips, by_volume);
        let output = Works::MachineOutput.or(by_cycle);
        when(MACHINE_OF.found_none(), 0.0, output)
    },
);

/// Cost of an hour of a work's crew.
pub const WORK_CREW_RATE: Step<Works> =
    Step::from_job("crew rate", System::money_an_hour, || CREW_OF.of(CREW_RATE));

/// Cost of an hour of a work's machine.
pub const WORK_MACHINE_RATE: Step<Works> =
    Step::from_job("machine rate", System::money_an_hour, || {
        MACHINE_OF.of(MACHINE_RATE)
    });

/// What a work's machine carries in one go.
pub const CARRIES: Step<Works> = Step::from_job("machine carries", System::loose, || {
    MACHINE_OF.of(Equipment::Carries)
});

/// What a work's machine may carry by weight.
pub const PAYLOAD: Step<Works> = Step::from_job("machine payload", System::weight, || {
    MACHINE_OF.of(Equipment::Payload)
});

/// The pump flow of a work's machine.
pub const PUMP_FLOW: Step<Works> = Step::from_job("pump flow", System::flow, || {
    MACHINE_OF.of(Equipment::PumpFlow)
});

/// The unit a material is sold in.
const MATERIAL_UNIT: LookUp<Materials, UnitBook> =
    LookUp::new("unit row", || Materials::MaterialUnit.key()).among(|| UNIT.key());

/// Size of the unit a material is sold in.
pub const MATERIAL_SIZE: Step<Materials> =
    Step::new("unit size", System::number, &sources::UNITS, || {
        MATERIAL_UNIT.of(book::SIZE)
    });

/// Kind of the unit a material is sold in.
pub const MATERIAL_KIND: Step<Materials> =
    Step::new("unit kind", System::number, &sources::UNITS, || {
        MATERIAL_UNIT.of(book::KIND)
    });

/// Weight of a volume, as a bare number in the job's base units.
pub const MATERIAL_WEIGHT: Step<Materials> =
    Step::from_job("weight of a volume", System::number, || {
        Materials::BulkDensity.here().number_in(System::density)
    });

/// Price in use, plug included.
pub const MATERIAL_PRICE: Step<Materials> = Step::from_job("price in use", System::money, || {
    Materials::MaterialPrice.or(Materials::MaterialPlug.or(0.0))
});

/// Waste in use: the material's own, or the usual one of what is sold by volume or by
/// weight; nothing is taken to be lost of what is sold by length, by area or by the piece.
pub const MATERIAL_WASTE: Step<Materials> =
    Step::new("waste in use", System::percent, &sources::WASTE, || {
        let is = |kind: f64| MATERIAL_KIND.same_as(kind);
        let by_volume = is(VOLUME).or(is(LOOSE)).or(is(BANK)).or(is(COMPACTED));
        let loose = by_volume.or(is(WEIGHT));
        Materials::MaterialWaste.or(when(loose, Factor::Waste, 0.0))
    });
