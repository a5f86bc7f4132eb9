//! The balance of earthwork: what is dug, filled, brought in and taken away, in whole loads.
//!
//! Always true: dug and brought in is filled and surplus.

use super::book::factor;
use super::excavation::Dug;
use super::inputs::AllInputs;
use super::works::{EarthWorks, WorkRows};
use crate::diagnostic::Code;
use crate::graph::{
    Breach, Cell, Column, ColumnId, Graph, Rules, Table, highest, lowest, only, total, when,
};
use crate::job::tables::{Basins, JobKeys, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::units::{self, ONE, System};

/// The earthwork of the whole job: one row.
#[derive(Debug)]
pub enum Earthwork {}

impl Table for Earthwork {
    const NAME: &'static str = "Earthwork";
    const ROW: &'static str = "job";
}

/// Adds hours of pumping: standing water over what the pump takes out less what runs in.
pub fn pumping(
    graph: &mut Graph,
    inputs: &AllInputs,
    works: &WorkRows,
    system: System,
) -> Column<Basins> {
    let flow = of_work(
        graph,
        "pump flow",
        works.row("Pump out"),
        works.pump_flow,
        system.flow(),
    );
    let basins = &inputs.basins;
    let (standing, inflow) = (
        basins.number(Basins::StandingWater),
        basins.number(Basins::Inflow),
    );
    let mut rules = graph.rules::<Basins>();
    let pumped = only(flow) * factor(inputs, Factor::PumpShare);
    let net = rules.step(
        "pumped less inflow",
        system.flow(),
        &sources::PUMP_SHARE,
        pumped.clone() - inflow,
    );
    let known = only::<Basins, Earthwork>(flow).above(0.0);
    let wet = standing.here().above(0.0);
    rules.limit(
        "pump smaller than the inflow",
        known.and(wet.clone()).and(inflow.here().at_least(pumped)),
        Breach::fault(
            Code::PumpTooSmall,
            inflow.id,
            "as much water runs in as the pump takes out, or more",
            "choose a larger pump for the work Pump out, or lead the water around",
        ),
    );
    rules.limit(
        "pump not known",
        wet.clone()
            .and(only::<Basins, Earthwork>(flow).same_as(0.0)),
        Breach::open(
            Code::MissingRate,
            inputs.works.words(Works::WorkMachine).id,
            "there is water to pump out, and the work Pump out has no machine with a pump flow",
            "name a pump for the work Pump out, and write its Pump flow in Equipment",
        ),
    );
    rules.limit(
        "pumps in water",
        wet.clone(),
        Breach::caution(
            Code::WaterAndPower,
            standing.id,
            "electric pumps work in water here",
            "ground-fault protection and isolation; wiring is licensed work (29 CFR 1926.404)",
        ),
    );
    let hours = when(wet.and(net.here().above(0.0)), standing / net, 0.0);
    rules.step(
        "pumping before the dig",
        units::H,
        &sources::PUMP_SHARE,
        hours,
    )
}

/// The value that one kind of earthwork has, as a figure of the whole job.
fn of_work(
    graph: &mut Graph,
    name: &str,
    row: usize,
    from: Column<EarthWorks>,
    unit: units::Unit,
) -> Column<Earthwork> {
    graph.add_table::<Earthwork>(1);
    graph.rules::<Earthwork>().gathered(
        name,
        unit,
        vec![Some(Cell {
            column: from.id,
            row,
        })],
    )
}

/// The balance of the whole job.
#[derive(Clone, Copy, Debug)]
pub struct Balance {
    /// All that is dug, in the bank.
    pub dug: Column<Earthwork>,
    /// All that is filled, as bank volume.
    pub filled: Column<Earthwork>,
    /// Dug earth used as fill.
    pub used: Column<Earthwork>,
    /// Dug earth left over.
    pub surplus: Column<Earthwork>,
    /// Fill that must be brought in.
    pub brought: Column<Earthwork>,
    /// The same, loose.
    pub brought_loose: Column<Earthwork>,
    /// Dug and brought less filled and surplus: nothing.
    pub difference: Column<Earthwork>,
    /// Loads of surplus earth and topsoil.
    pub surplus_loads: Column<Earthwork>,
    /// Loads of sediment.
    pub sediment_loads: Column<Earthwork>,
    /// Loads of fill brought in.
    pub brought_loads: Column<Earthwork>,
    /// Topsoil spread again, loose.
    pub topsoil_spread: Column<Earthwork>,
}

/// Adds the balance: surplus or shortage, whole truck loads, topsoil.
pub fn balance(
    graph: &mut Graph,
    inputs: &AllInputs,
    dug: &Dug,
    works: &WorkRows,
    job_loose: Column<JobKeys>,
    system: System,
) -> Balance {
    let trucks = ["Haul away", "Haul sediment", "Bring fill"]
        .map(|work| truck(graph, inputs, works, work, system));
    let (bank, loose, weight) = (system.bank(), system.loose(), system.weight());
    let mut rules = graph.rules::<Earthwork>();
    let all = rules.step("dug", bank, &sources::BALANCE, total(dug.dig));
    let filled = rules.step("filled", bank, &sources::BORROW, total(dug.fill_bank));
    let used = rules.step(
        "dug and used as fill",
        bank,
        &sources::USABLE,
        lowest(all * factor(inputs, Factor::UsableDig), filled),
    );
    let surplus = rules.step("surplus", bank, &sources::BALANCE, all - used);
    let brought = rules.step("brought in", bank, &sources::BALANCE, filled - used);
    let difference = rules.step(
        "balance",
        bank,
        &sources::BALANCE,
        all + brought - (filled + surplus),
    );
    let share = when(all.here().above(0.0), surplus / all, 0.0);
    let share = rules.step("surplus share", ONE, &sources::ARITHMETIC, share);
    let topsoil = rules.step("topsoil", bank, &sources::GEOMETRY, total(dug.topsoil));
    let kept = rules.step(
        "topsoil kept",
        bank,
        &sources::TOPSOIL_KEPT,
        topsoil * factor(inputs, Factor::TopsoilKept),
    );
    let loam = inputs.factors.of(Factor::LooseLoam);
    let topsoil_spread = rules.step(
        "topsoil spread again",
        loose,
        &sources::SWELL,
        kept * only(loam),
    );
    let topsoil_away = rules.step(
        "topsoil taken away, loose",
        loose,
        &sources::SWELL,
        (topsoil - kept) * only(loam),
    );
    let topsoil_weight = (topsoil - kept).number_in(bank).counted_in(system.volume())
        * factor(inputs, Factor::TopsoilWeight);
    let topsoil_weight = rules.step(
        "topsoil taken away, weight",
        weight,
        &sources::TOPSOIL_WEIGHT,
        topsoil_weight,
    );
    let away = rules.step(
        "taken away, loose",
        loose,
        &sources::SWELL,
        share * total(dug.dig_loose) + topsoil_away,
    );
    let away_weight = rules.step(
        "taken away, weight",
        weight,
        &sources::UNIT_WEIGHT,
        share * total(dug.dig_weight) + topsoil_weight,
    );
    let surplus_loads = loads(&mut rules, "loads taken away", trucks[0], away, away_weight);
    let sediment = rules.step(
        "sediment, all",
        loose,
        &sources::GEOMETRY,
        total(dug.sediment),
    );
    let sediment_weight = total(dug.sediment) * factor(inputs, Factor::SedimentWeight);
    let sediment_weight = rules.step(
        "sediment, weight",
        weight,
        &sources::SEDIMENT_WEIGHT,
        sediment_weight,
    );
    let sediment_loads = loads(
        &mut rules,
        "loads of sediment",
        trucks[1],
        sediment,
        sediment_weight,
    );
    let brought_loose = rules.step(
        "brought in, loose",
        loose,
        &sources::SWELL,
        brought * only(job_loose),
    );
    let brought_weight = brought.here().number_in(bank).counted_in(system.volume())
        * factor(inputs, Factor::WeightLoam);
    let brought_weight = rules.step(
        "brought in, weight",
        weight,
        &sources::UNIT_WEIGHT,
        brought_weight,
    );
    let brought_loads = loads(
        &mut rules,
        "loads brought in",
        trucks[2],
        brought_loose,
        brought_weight,
    );
    Balance {
        dug: all,
        filled,
        used,
        surplus,
        brought,
        brought_loose,
        difference,
        surplus_loads,
        sediment_loads,
        brought_loads,
        topsoil_spread,
    }
}

#[derive(Clone, Copy)]
struct Truck {
    carries: Column<Earthwork>,
    payload: Column<Earthwork>,
    named_in: ColumnId,
    unknown: &'static str,
}

fn truck(
    graph: &mut Graph,
    inputs: &AllInputs,
    works: &WorkRows,
    work: &str,
    system: System,
) -> Truck {
    let row = works.row(work);
    let carries = format!("{work}: truck carries");
    let payload = format!("{work}: truck payload");
    Truck {
        carries: of_work(graph, &carries, row, works.carries, system.loose()),
        payload: of_work(graph, &payload, row, works.payload, system.weight()),
        named_in: inputs.works.words(Works::WorkMachine).id,
        unknown: match work {
            "Haul sediment" => {
                "there is sediment to haul, and the work Haul sediment has no machine that carries anything"
            }
            "Bring fill" => {
                "there is fill to bring, and the work Bring fill has no machine that carries anything"
            }
            _ => {
                "there is earth to haul, and the work Haul away has no machine that carries anything"
            }
        },
    }
}

/// Whole loads by volume or by weight, whichever fills the truck first; none without a truck.
fn loads(
    rules: &mut Rules<'_, Earthwork>,
    name: &str,
    truck: Truck,
    volume: Column<Earthwork>,
    weight: Column<Earthwork>,
) -> Column<Earthwork> {
    let unknown = truck
        .carries
        .here()
        .same_as(0.0)
        .and(truck.payload.here().same_as(0.0));
    rules.limit(
        &format!("{name}: truck not known"),
        volume.here().above(0.0).and(unknown),
        Breach::open(
            Code::MissingRate,
            truck.named_in,
            truck.unknown,
            "name a truck for the work in Production rates, and write what it Carries and its Payload in Equipment",
        ),
    );
    let by_volume = when(truck.carries.here().above(0.0), volume / truck.carries, 0.0);
    let by_weight = when(truck.payload.here().above(0.0), weight / truck.payload, 0.0);
    rules.step(
        name,
        units::LOAD,
        &sources::WHOLE_LOADS,
        highest(by_volume, by_weight).round_up(),
    )
}
