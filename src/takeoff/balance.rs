//! The balance of earthwork: what is dug, filled, brought in and taken away, in whole loads.
//!
//! Always true: dug and brought in is filled and surplus.

use super::book::factor;
use super::cuts;
use super::excavation::Dug;
use super::inputs::AllInputs;
use super::job_wide::JobWide;
use super::works::{WorkRows, is_listed};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Cell, Column, ColumnId, Condition, Graph, Rules, highest, lowest, only, total, when,
};
use crate::job::tables::{Basins, ProductionRates as Works};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::{EarthWorks, Earthwork};
use crate::units::{self, ONE, System};

/// Adds hours of pumping: standing water over what the pump takes out less what runs in.
///
/// Zero where no water stands, or where the pump does not keep up (see the limits).
pub fn pumping(
    graph: &mut Graph,
    inputs: &AllInputs,
    works: &WorkRows,
    system: System,
) -> Column<Basins> {
    let row = works.row("Pump out");
    let flow = of_work(graph, "pump flow", row, works.pump_flow, system.flow());
    let standing = inputs.number(Basins::StandingWater);
    let inflow = inputs.number(Basins::Inflow);
    let mut rules = graph.rules::<Basins>();
    let pumped = only(flow) * factor(inputs, Factor::PumpShare);
    let net = rules.step(
        "pumped less inflow",
        system.flow(),
        &sources::PUMP_SHARE,
        pumped.clone() - inflow,
    );
    let wet = standing.here().above(0.0);
    let floods = inflow.here().at_least(pumped);
    pump_limits(&mut rules, inputs, flow, &wet, floods);
    let hours = when(wet.and(net.here().above(0.0)), standing / net, 0.0);
    let name = "pumping before the dig";
    rules.step(name, units::H, &sources::PUMP_SHARE, hours)
}

/// Limits: where water stands, there is a pump and it takes out more than runs in;
/// pumps in water are a caution.
fn pump_limits(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    flow: Column<Earthwork>,
    wet: &Condition,
    floods: Condition,
) {
    let flow = only::<Basins, Earthwork>(flow);
    rules.limit(
        "pump smaller than the inflow",
        flow.clone().above(0.0).and(wet.clone()).and(floods),
        Breach::fault(
            Code::PumpTooSmall,
            inputs.number(Basins::Inflow).id,
            "as much water runs in as the pump takes out, or more",
            "choose a larger pump for the work Pump out, or lead the water around",
        ),
    );
    rules.limit(
        "pump not known",
        wet.clone().and(flow.same_as(0.0)),
        Breach::open(
            Code::MissingRate,
            inputs.words(Works::WorkMachine).id,
            "there is water to pump out, and the work Pump out has no machine with a pump flow",
            "name a pump for the work Pump out, and write its Pump flow in Equipment",
        ),
    );
    rules.limit(
        "pumps in water",
        wet.clone(),
        Breach::caution(
            Code::WaterAndPower,
            inputs.number(Basins::StandingWater).id,
            "electric pumps work in water here",
            "ground-fault protection and isolation; wiring is licensed work (29 CFR 1926.404)",
        ),
    );
}

/// The value that one kind of earthwork has, as a figure of the whole job.
fn of_work(
    graph: &mut Graph,
    name: &str,
    row: usize,
    from: Column<EarthWorks>,
    unit: units::Unit,
) -> Column<Earthwork> {
    let column = from.id;
    let cells = vec![Some(Cell { column, row })];
    graph.rules::<Earthwork>().gathered(name, unit, cells)
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

/// Adds the balance: surplus or shortage, topsoil, sediment, whole truck loads.
///
/// Fill that is brought in swells and weighs as the job's usual soil.
pub fn balance(
    graph: &mut Graph,
    inputs: &AllInputs,
    dug: &Dug,
    works: &WorkRows,
    wide: &JobWide,
    system: System,
) -> Balance {
    let [away, sediment, bring] = ["Haul away", "Haul sediment", "Bring fill"]
        .map(|work| truck(graph, inputs, works, work, system));
    let mut rules = graph.rules::<Earthwork>();
    let earth = earth(&mut rules, inputs, dug, system);
    let topsoil = topsoil(&mut rules, inputs, dug, system);
    let surplus = (earth.share, &topsoil, away);
    let surplus_loads = loads_away(&mut rules, dug, surplus, system);
    let sediment_loads = loads_of_sediment(&mut rules, inputs, dug, sediment, system);
    let (brought_loose, brought_weight) = brought(&mut rules, earth.brought, wide, system);
    let fill = (brought_loose, brought_weight);
    Balance {
        dug: earth.dug,
        filled: earth.filled,
        used: earth.used,
        surplus: earth.surplus,
        brought: earth.brought,
        brought_loose,
        difference: earth.difference,
        surplus_loads,
        sediment_loads,
        brought_loads: loads(&mut rules, "loads brought in", bring, fill),
        topsoil_spread: topsoil.spread,
    }
}

/// Earth in the bank: dug, filled, and what remains or is missing.
struct Earth {
    dug: Column<Earthwork>,
    filled: Column<Earthwork>,
    used: Column<Earthwork>,
    surplus: Column<Earthwork>,
    brought: Column<Earthwork>,
    difference: Column<Earthwork>,
    share: Column<Earthwork>,
}

/// Dug + brought in = filled + surplus. Of the dig, a share is fit to be used as fill.
fn earth(rules: &mut Rules<'_, Earthwork>, inputs: &AllInputs, all: &Dug, system: System) -> Earth {
    let bank = system.bank();
    let dug = total(all.dig) + total(cuts::DIG);
    let dug = rules.step("dug", bank, &sources::BALANCE, dug);
    let filled = total(all.fill_bank) + total(cuts::FILL_BANK);
    let filled = rules.step("filled", bank, &sources::BORROW, filled);
    let used = lowest(dug * factor(inputs, Factor::UsableDig), filled);
    let used = rules.step("dug and used as fill", bank, &sources::USABLE, used);
    let surplus = rules.step("surplus", bank, &sources::BALANCE, dug - used);
    let brought = rules.step("brought in", bank, &sources::BALANCE, filled - used);
    let difference = dug + brought - (filled + surplus);
    let difference = rules.step("balance", bank, &sources::BALANCE, difference);
    let share = when(dug.here().above(0.0), surplus / dug, 0.0);
    Earth {
        dug,
        filled,
        used,
        surplus,
        brought,
        difference,
        share: rules.arithmetic("surplus share", ONE, share),
    }
}

/// Topsoil: spread again, and taken away, both loose; the latter by weight too.
struct Topsoil {
    spread: Column<Earthwork>,
    away: Column<Earthwork>,
    weight: Column<Earthwork>,
}

/// Topsoil that stays on site and the rest, as loose as loam.
fn topsoil(
    rules: &mut Rules<'_, Earthwork>,
    inputs: &AllInputs,
    dug: &Dug,
    system: System,
) -> Topsoil {
    let (bank, loose) = (system.bank(), system.loose());
    let all = rules.geometry("topsoil", bank, total(dug.topsoil));
    let kept = all * factor(inputs, Factor::TopsoilKept);
    let kept = rules.step("topsoil kept", bank, &sources::TOPSOIL_KEPT, kept);
    let swell = factor(inputs, Factor::LooseLoam);
    let spread = kept * swell.clone();
    let spread = rules.step("topsoil spread again", loose, &sources::SWELL, spread);
    let away = (all - kept) * swell;
    let away = rules.step("topsoil taken away, loose", loose, &sources::SWELL, away);
    let in_place = (all - kept).number_in(bank).counted_in(system.volume());
    let weight = rules.step(
        "topsoil taken away, weight",
        system.weight(),
        &sources::TOPSOIL_WEIGHT,
        in_place * factor(inputs, Factor::TopsoilWeight),
    );
    Topsoil {
        spread,
        away,
        weight,
    }
}

/// Loads of surplus earth and topsoil: the surplus' share of all that was dug.
fn loads_away(
    rules: &mut Rules<'_, Earthwork>,
    dug: &Dug,
    (share, topsoil, truck): (Column<Earthwork>, &Topsoil, Truck),
    system: System,
) -> Column<Earthwork> {
    let loose = share * (total(dug.dig_loose) + total(cuts::LOOSE)) + topsoil.away;
    let loose = rules.step("taken away, loose", system.loose(), &sources::SWELL, loose);
    let weight = rules.step(
        "taken away, weight",
        system.weight(),
        &sources::UNIT_WEIGHT,
        share * (total(dug.dig_weight) + total(cuts::WEIGHT)) + topsoil.weight,
    );
    loads(rules, "loads taken away", truck, (loose, weight))
}

/// Loads of sediment, which is hauled as it lies: nothing is added for swell.
fn loads_of_sediment(
    rules: &mut Rules<'_, Earthwork>,
    inputs: &AllInputs,
    dug: &Dug,
    truck: Truck,
    system: System,
) -> Column<Earthwork> {
    let all = rules.geometry("sediment, all", system.loose(), total(dug.sediment));
    let weight = total(dug.sediment) * factor(inputs, Factor::SedimentWeight);
    let weight = rules.step(
        "sediment, weight",
        system.weight(),
        &sources::SEDIMENT_WEIGHT,
        weight,
    );
    loads(rules, "loads of sediment", truck, (all, weight))
}

/// Fill brought in: loose, and as heavy, as the job's soil.
fn brought(
    rules: &mut Rules<'_, Earthwork>,
    brought: Column<Earthwork>,
    wide: &JobWide,
    system: System,
) -> (Column<Earthwork>, Column<Earthwork>) {
    let loose = brought * only(wide.loose);
    let loose = rules.step("brought in, loose", system.loose(), &sources::SWELL, loose);
    let in_place = brought.here().number_in(system.bank());
    let in_place = in_place.counted_in(system.volume());
    let weight = rules.step(
        "brought in, weight",
        system.weight(),
        &sources::UNIT_WEIGHT,
        in_place * only(wide.weight),
    );
    (loose, weight)
}

/// What the truck of one work carries, and the finding where it is not known.
#[derive(Clone, Copy)]
struct Truck {
    carries: Column<Earthwork>,
    payload: Column<Earthwork>,
    named_in: ColumnId,
    /// What is wrong where it is not known; `None` where the work is not done by us.
    unknown: Option<&'static str>,
}

/// The truck of a work, by the machine that the production rates name for it.
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
        named_in: inputs.words(Works::WorkMachine).id,
        unknown: (work != "Bring fill" || is_listed(graph, inputs, work))
            .then(|| unknown_truck(work)),
    }
}

/// What is wrong where a work has something to haul and no truck.
fn unknown_truck(work: &str) -> &'static str {
    match work {
        "Haul sediment" => {
            "there is sediment to haul, and the work Haul sediment has no machine that carries anything"
        }
        "Bring fill" => {
            "there is fill to bring, and the work Bring fill has no machine that carries anything"
        }
        _ => "there is earth to haul, and the work Haul away has no machine that carries anything",
    }
}

/// Whole loads by volume or by weight, whichever fills the truck first; none without a truck.
///
/// Limit: where there is something to haul, a truck is known.
fn loads(
    rules: &mut Rules<'_, Earthwork>,
    name: &str,
    truck: Truck,
    (volume, weight): (Column<Earthwork>, Column<Earthwork>),
) -> Column<Earthwork> {
    if let Some(message) = truck.unknown {
        let carries_none = truck.carries.here().same_as(0.0);
        let unknown = carries_none.and(truck.payload.here().same_as(0.0));
        rules.limit(
            &format!("{name}: truck not known"),
            volume.here().above(0.0).and(unknown),
            Breach::open(
                Code::MissingRate,
                truck.named_in,
                message,
                "name a truck for the work in Production rates, and write what it Carries and its Payload in Equipment",
            ),
        );
    }
    let by_volume = when(truck.carries.here().above(0.0), volume / truck.carries, 0.0);
    let by_weight = when(truck.payload.here().above(0.0), weight / truck.payload, 0.0);
    let loads = highest(by_volume, by_weight).round_up();
    rules.step(name, units::LOAD, &sources::WHOLE_LOADS, loads)
}
