//! What an hour costs and yields: crews, machines and kinds of work.
//!
//! A machine's output comes from its cycle where no output is written down. Not here:
//! the hours of a line (`pricing::costs`).

use super::book::{self, BANK, COUNTED, LOAD, LOOSE, UnitColumns, VOLUME, factor};
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Rules, only, when};
use crate::job::tables::{Crews, Equipment, Materials, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::UnitBook;
use crate::units::{H, LOOSE_PER_BANK, MONEY, MONEY_H, ONE, PER_H, PERCENT, System};

/// Columns of the price and production book that lines are priced with.
#[derive(Clone, Copy, Debug)]
pub struct Production {
    /// Cost of a crew's hour.
    pub crew_rate: Column<Crews>,
    /// Cost of a machine's hour.
    pub machine_rate: Column<Equipment>,
    /// The crew of a work.
    pub crew_of: Link<Works, Crews>,
    /// The machine of a work.
    pub machine_of: Link<Works, Equipment>,
    /// Cost of the crew's hour.
    pub work_crew_rate: Column<Works>,
    /// Cost of the machine's hour.
    pub work_machine_rate: Column<Works>,
    /// Units of the work that the crew does in an hour; zero without a crew.
    pub crew_output: Column<Works>,
    /// Units of the work that the machine does in an hour; zero without a machine.
    pub machine_output: Column<Works>,
    /// Size of the work's unit.
    pub work_size: Column<Works>,
    /// Kind of the work's unit.
    pub work_kind: Column<Works>,
    /// What a work's machine carries in one go.
    pub carries: Column<Works>,
    /// What a work's machine may carry by weight.
    pub payload: Column<Works>,
    /// The pump flow of a work's machine.
    pub pump_flow: Column<Works>,
    /// Size of the unit a material is sold in.
    pub material_size: Column<Materials>,
    /// Kind of the unit a material is sold in.
    pub material_kind: Column<Materials>,
    /// Weight of a volume, as a bare number in the job's base units.
    pub material_weight: Column<Materials>,
    /// Price in use, plug included.
    pub material_price: Column<Materials>,
    /// Waste in use.
    pub material_waste: Column<Materials>,
}

/// Adds what hours cost and yield: crews, machines, works, then materials.
///
/// `wide` gives loose volume from one of bank in the job's usual soil, and the haul that the
/// quick page says.
pub fn production(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    system: System,
    wide: &JobWide,
) -> Production {
    let crew_rate = crew_hour(graph, inputs);
    let machine = machines(graph, inputs, system);
    let mut rules = graph.rules::<Works>();
    let work = work_rows(&mut rules, inputs, book);
    let crew_output = crew_output(&mut rules, inputs, work.crew);
    let machine_output = machine_output(&mut rules, inputs, &work, &machine, wide);
    let work_crew_rate = work.crew.of(crew_rate);
    let work_crew_rate = rules.from_job("crew rate", MONEY_H, work_crew_rate);
    let work_machine_rate = work.machine.of(machine.rate);
    let work_machine_rate = rules.from_job("machine rate", MONEY_H, work_machine_rate);
    let [carries, payload, pump_flow] = capacities(&mut rules, inputs, work.machine, system);
    let material = materials(graph, inputs, book, system);
    Production {
        crew_rate,
        machine_rate: machine.rate,
        crew_of: work.crew,
        machine_of: work.machine,
        work_crew_rate,
        work_machine_rate,
        crew_output,
        machine_output,
        work_size: work.size,
        work_kind: work.kind,
        carries,
        payload,
        pump_flow,
        material_size: material.size,
        material_kind: material.kind,
        material_weight: material.weight,
        material_price: material.price,
        material_waste: material.waste,
    }
}

/// Cost of a crew's hour: people × wage × (1 + burden), to a hundredth of a cent.
fn crew_hour(graph: &mut Graph, inputs: &AllInputs) -> Column<Crews> {
    let plug = inputs.number(Crews::PlugWage);
    let wage = inputs.number(Crews::Wage).or(plug.or(0.0));
    let mut rules = graph.rules::<Crews>();
    let wage = rules.from_job("wage in use", MONEY_H, wage);
    let burden = 1.0 + inputs.number(Crews::Burden).or(0.0);
    let cost = inputs.number(Crews::People) * wage * burden;
    rules.from_job("crew hour", MONEY_H, cost.round_in(MONEY_H, 4))
}

/// What a machine's hour costs, and what it yields by its cycle.
struct Machines {
    rate: Column<Equipment>,
    trips: Column<Equipment>,
    loose: Column<Equipment>,
}

/// Trips an hour are one ÷ cycle; loose output is what is carried × bucket fill × trips ×
/// efficiency, in the job's own volume; both zero without a cycle. A truck's round trip is
/// measured with its waiting, so that efficiency is not taken off it again.
fn machines(graph: &mut Graph, inputs: &AllInputs, system: System) -> Machines {
    let plug = inputs.number(Equipment::PlugRate);
    let rate = inputs.number(Equipment::Rate).or(plug.or(0.0));
    let mut rules = graph.rules::<Equipment>();
    let rate = rules.from_job("rate in use", MONEY_H, rate);
    let cycle = inputs.number(Equipment::CycleTime);
    let trips = when(cycle.blank(), 0.0, 1.0 / cycle);
    let trips = rules.step("trips an hour", PER_H, &sources::CYCLE_OUTPUT, trips);
    let fill = factor(inputs, Factor::BucketFill);
    let efficiency = factor(inputs, Factor::Efficiency);
    let output = inputs.number(Equipment::Carries) * fill * trips * efficiency;
    let volume = book::base_volume(system);
    let per_hour = output.number_in(volume.per(H).unwrap_or(volume));
    let loose = per_hour.counted_in(PER_H);
    let loose = rules.step("loose output", PER_H, &sources::CYCLE_OUTPUT, loose);
    Machines { rate, trips, loose }
}

/// Who and what does a work, and the unit it is counted in.
struct WorkRow {
    crew: Link<Works, Crews>,
    machine: Link<Works, Equipment>,
    size: Column<Works>,
    kind: Column<Works>,
}

/// Finds each work's crew, machine and unit by name.
fn work_rows(rules: &mut Rules<'_, Works>, inputs: &AllInputs, book: &UnitColumns) -> WorkRow {
    let crew = rules.link("crew row", inputs.words(Works::WorkCrew));
    let machine = rules.link("machine row", inputs.words(Works::WorkMachine));
    let unit: Link<Works, UnitBook> = rules.link("unit row", inputs.words(Works::WorkUnit));
    rules.must_find(inputs.words(Works::WorkCrew), crew);
    rules.must_find(inputs.words(Works::WorkMachine), machine);
    WorkRow {
        crew,
        machine,
        size: rules.step("unit size", ONE, &sources::UNITS, unit.of(book.size)),
        kind: rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind)),
    }
}

/// Units of the work that the crew does in an hour, as written; zero without a crew.
fn crew_output(
    rules: &mut Rules<'_, Works>,
    inputs: &AllInputs,
    crew: Link<Works, Crews>,
) -> Column<Works> {
    let output = inputs.number(Works::CrewOutput);
    let output = when(crew.found_none(), 0.0, output.or(0.0));
    rules.from_job("crew output in use", PER_H, output)
}

/// Units of the work that the machine does in an hour: as written, or by its cycle.
///
/// By its cycle it yields loads, or a volume in the state of the work's unit; loose earth
/// is turned into bank by the job's usual soil. Zero for other units.
fn machine_output(
    rules: &mut Rules<'_, Works>,
    inputs: &AllInputs,
    work: &WorkRow,
    machine: &Machines,
    wide: &JobWide,
) -> Column<Works> {
    let is_kind = |kind: f64| work.kind.here().same_as(kind);
    let loose = work.machine.of(machine.loose);
    let bank = loose.clone() / only(wide.loose).number_in(LOOSE_PER_BANK);
    let by_volume = when(is_kind(BANK), bank, loose) / work.size;
    let is_volume = is_kind(BANK).or(is_kind(LOOSE)).or(is_kind(VOLUME));
    let by_volume = when(is_volume, by_volume, 0.0);
    let trips = work.machine.of(machine.trips);
    let trips = when(trips.clone().above(0.0), trips, only(wide.haul_trips));
    let by_cycle = when(is_kind(LOAD), trips, by_volume);
    let output = inputs.number(Works::MachineOutput).or(by_cycle);
    let output = when(work.machine.found_none(), 0.0, output);
    let name = "machine output in use";
    rules.step(name, PER_H, &sources::CYCLE_OUTPUT, output)
}

/// What a work's machine carries by volume and by weight, and what it pumps.
fn capacities(
    rules: &mut Rules<'_, Works>,
    inputs: &AllInputs,
    machine: Link<Works, Equipment>,
    system: System,
) -> [Column<Works>; 3] {
    let of = |field: Equipment| machine.of(inputs.number(field));
    let (loose, weight, flow) = (system.loose(), system.weight(), system.flow());
    [
        rules.from_job("machine carries", loose, of(Equipment::Carries)),
        rules.from_job("machine payload", weight, of(Equipment::Payload)),
        rules.from_job("pump flow", flow, of(Equipment::PumpFlow)),
    ]
}

/// How a material is sold: its unit, weight, price and waste in use.
struct MaterialRow {
    size: Column<Materials>,
    kind: Column<Materials>,
    weight: Column<Materials>,
    price: Column<Materials>,
    waste: Column<Materials>,
}

/// A material's unit by name, its price or plug, and its waste or the usual one.
fn materials(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    system: System,
) -> MaterialRow {
    let unit = inputs.words(Materials::MaterialUnit);
    let mut rules = graph.rules::<Materials>();
    let unit: Link<Materials, UnitBook> = rules.link("unit row", unit);
    let size = rules.step("unit size", ONE, &sources::UNITS, unit.of(book.size));
    let kind = rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind));
    let weight = inputs.number(Materials::BulkDensity).here();
    let weight = weight.number_in(system.density());
    let weight = rules.from_job("weight of a volume", ONE, weight);
    let plug = inputs.number(Materials::MaterialPlug);
    let price = inputs.number(Materials::MaterialPrice);
    let price = rules.from_job("price in use", MONEY, price.or(plug.or(0.0)));
    let counted = kind.here().at_least(COUNTED);
    let usual = when(counted, 0.0, factor(inputs, Factor::Waste));
    let waste = inputs.number(Materials::MaterialWaste).or(usual);
    MaterialRow {
        size,
        kind,
        weight,
        price,
        waste: rules.step("waste in use", PERCENT, &sources::WASTE, waste),
    }
}
