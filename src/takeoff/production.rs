//! What an hour costs and yields: crews, machines and kinds of work.
//!
//! A machine's output comes from its cycle where no output is written down. Not here:
//! the hours of a line (`pricing::lines`).

use super::book::{self, LOAD, UnitBook, UnitColumns, factor};
use super::inputs::AllInputs;
use crate::graph::{Column, Graph, Link, only, when};
use crate::job::tables::{Crews, Equipment, JobKeys, Materials, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::units::{self, ONE, System};

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

/// Adds what hours cost and yield.
pub fn production(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    system: System,
    soil_loose: Column<JobKeys>,
) -> Production {
    let crew_rate = crews(graph, inputs);
    let (machine_rate, loads_an_hour, loose_an_hour) = machines(graph, inputs, system);
    let works = &inputs.works;
    let mut rules = graph.rules::<Works>();
    let crew_of: Link<Works, Crews> = rules.link("crew row", works.words(Works::WorkCrew));
    let machine_of: Link<Works, Equipment> =
        rules.link("machine row", works.words(Works::WorkMachine));
    let unit: Link<Works, UnitBook> = rules.link("unit row", works.words(Works::WorkUnit));
    let work_size = rules.step("unit size", ONE, &sources::UNITS, unit.of(book.size));
    let work_kind = rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind));
    let crew_output = works.number(Works::CrewOutput);
    let crew_output = rules.step(
        "crew output in use",
        units::PER_H,
        &sources::JOB,
        when(crew_of.found_none(), 0.0, crew_output.or(0.0)),
    );
    let loose = machine_of.of(loose_an_hour);
    let bank = machine_of.of(loose_an_hour) / only(soil_loose).number_in(units::LOOSE_PER_BANK);
    let by_volume = when(work_kind.here().same_as(book::BANK), bank, loose) / work_size;
    let is_volume = work_kind
        .here()
        .same_as(book::BANK)
        .or(work_kind.here().same_as(book::LOOSE))
        .or(work_kind.here().same_as(book::VOLUME));
    let from_cycle = when(
        work_kind.here().same_as(LOAD),
        machine_of.of(loads_an_hour),
        when(is_volume, by_volume, 0.0),
    );
    let machine_output = rules.step(
        "machine output in use",
        units::PER_H,
        &sources::CYCLE_OUTPUT,
        when(
            machine_of.found_none(),
            0.0,
            works.number(Works::MachineOutput).or(from_cycle),
        ),
    );
    let work_crew_rate = rules.step(
        "crew rate",
        units::MONEY_H,
        &sources::JOB,
        crew_of.of(crew_rate),
    );
    let work_machine_rate = rules.step(
        "machine rate",
        units::MONEY_H,
        &sources::JOB,
        machine_of.of(machine_rate),
    );
    let equipment = &inputs.equipment;
    let carried = machine_of.of(equipment.number(Equipment::Carries));
    let carries = rules.step("machine carries", system.loose(), &sources::JOB, carried);
    let payload = rules.step(
        "machine payload",
        system.weight(),
        &sources::JOB,
        machine_of.of(equipment.number(Equipment::Payload)),
    );
    let pump_flow = rules.step(
        "pump flow",
        system.flow(),
        &sources::JOB,
        machine_of.of(equipment.number(Equipment::PumpFlow)),
    );
    let materials = materials(graph, inputs, book, system);
    Production {
        crew_rate,
        machine_rate,
        crew_of,
        machine_of,
        work_crew_rate,
        work_machine_rate,
        crew_output,
        machine_output,
        work_size,
        work_kind,
        carries,
        payload,
        pump_flow,
        material_size: materials.0,
        material_kind: materials.1,
        material_weight: materials.2,
        material_price: materials.3,
        material_waste: materials.4,
    }
}

fn crews(graph: &mut Graph, inputs: &AllInputs) -> Column<Crews> {
    let crews = &inputs.crews;
    let wage = crews
        .number(Crews::Wage)
        .or(crews.number(Crews::PlugWage).or(0.0));
    let mut rules = graph.rules::<Crews>();
    let wage = rules.step("wage in use", units::MONEY_H, &sources::JOB, wage);
    let burden = 1.0 + crews.number(Crews::Burden).or(0.0);
    let cost = crews.number(Crews::People) * wage * burden;
    rules.step(
        "crew hour",
        units::MONEY_H,
        &sources::JOB,
        cost.round_in(units::MONEY_H, 4),
    )
}

fn machines(
    graph: &mut Graph,
    inputs: &AllInputs,
    system: System,
) -> (Column<Equipment>, Column<Equipment>, Column<Equipment>) {
    let machines = &inputs.equipment;
    let cycle = machines.number(Equipment::CycleTime);
    let mut rules = graph.rules::<Equipment>();
    let rate = machines
        .number(Equipment::Rate)
        .or(machines.number(Equipment::PlugRate).or(0.0));
    let rate = rules.step("rate in use", units::MONEY_H, &sources::JOB, rate);
    let trips = factor(inputs, Factor::Efficiency) / cycle;
    let trips = rules.step(
        "trips an hour",
        units::PER_H,
        &sources::CYCLE_OUTPUT,
        when(cycle.blank(), 0.0, trips),
    );
    let output = machines.number(Equipment::Carries) * factor(inputs, Factor::BucketFill) * trips;
    let base = if system.is_us() {
        units::FT3
    } else {
        units::M3
    };
    let per_hour = output
        .number_in(base.per(units::H).unwrap_or(base))
        .counted_in(units::PER_H);
    let output = rules.step(
        "loose output",
        units::PER_H,
        &sources::CYCLE_OUTPUT,
        per_hour,
    );
    (rate, trips, output)
}

type MaterialColumns = (
    Column<Materials>,
    Column<Materials>,
    Column<Materials>,
    Column<Materials>,
    Column<Materials>,
);

fn materials(
    graph: &mut Graph,
    inputs: &AllInputs,
    book: &UnitColumns,
    system: System,
) -> MaterialColumns {
    let materials = &inputs.materials;
    let mut rules = graph.rules::<Materials>();
    let unit: Link<Materials, UnitBook> =
        rules.link("unit row", materials.words(Materials::MaterialUnit));
    let size = rules.step("unit size", ONE, &sources::UNITS, unit.of(book.size));
    let kind = rules.step("unit kind", ONE, &sources::UNITS, unit.of(book.kind));
    let weight = materials
        .number(Materials::BulkDensity)
        .here()
        .number_in(system.density());
    let weight = rules.step("weight of a volume", ONE, &sources::JOB, weight);
    let price = materials
        .number(Materials::MaterialPrice)
        .or(materials.number(Materials::MaterialPlug).or(0.0));
    let price = rules.step("price in use", units::MONEY, &sources::JOB, price);
    let waste = materials
        .number(Materials::MaterialWaste)
        .or(factor(inputs, Factor::Waste));
    let waste = rules.step("waste in use", units::PERCENT, &sources::WASTE, waste);
    (size, kind, weight, price, waste)
}
