//! Earthwork: what is dug, where it goes, and the water that stands in the way.
//!
//! The dug surface is the finished surface lowered, plumb, by the build-up; the slope
//! at the rim runs on up to the ground. Working room and lay-back belong to cuts that
//! people enter. Topsoil and sediment lie inside the cut and are never dug twice.
//!
//! Always true: what is dug and brought in is what is filled and taken away.

use super::basins::{Finished, frustum};
use super::book::{SoilColumns, Soils, factor};
use super::inputs::AllInputs;
use super::works::{EarthWorks, WorkRows};
use crate::diagnostic::Code;
use crate::graph::{
    Breach, Cell, Column, Graph, Link, Rules, Table, either, highest, lowest, only, total, when,
};
use crate::job::tables::{Basins, JobKeys};
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

/// Earthwork quantities of each basin.
#[derive(Clone, Copy, Debug)]
pub struct Dug {
    /// Volume of the finished basin and its build-up.
    pub dug_volume: Column<Basins>,
    /// The whole cut, with working room and lay-back.
    pub cut_volume: Column<Basins>,
    /// Depth of the cut.
    pub cut_depth: Column<Basins>,
    /// Topsoil stripped.
    pub topsoil: Column<Basins>,
    /// Sediment in place.
    pub sediment: Column<Basins>,
    /// What is left to dig.
    pub dig: Column<Basins>,
    /// The same, loose.
    pub dig_loose: Column<Basins>,
    /// Its weight.
    pub dig_weight: Column<Basins>,
    /// Berm as built, settlement allowed for.
    pub berm: Column<Basins>,
    /// Room and lay-back filled again.
    pub backfill: Column<Basins>,
    /// Fill as bank volume.
    pub fill_bank: Column<Basins>,
}

/// Adds the earthwork of every basin.
pub fn dug(
    graph: &mut Graph,
    inputs: &AllInputs,
    finished: &Finished,
    soils: &SoilColumns,
    system: System,
) -> Dug {
    let basins = &inputs.basins;
    let mut rules = graph.rules::<Basins>();
    let own_soil = basins.words(Basins::BasinSoil);
    let soil = either(
        own_soil.blank(),
        inputs.job.words(JobKeys::Soil).only(),
        own_soil.here(),
    );
    let soil = rules.word_step("soil in use", soil);
    let soil: Link<Basins, Soils> = rules.link("soil row", soil);
    let cut = cut(&mut rules, inputs, finished, soils, soil, system);
    let topsoil_depth = basins.number(Basins::Topsoil);
    let berm_slope = basins
        .number(Basins::BermSlope)
        .or(factor(inputs, Factor::BermSlope));
    let berm_slope = rules.step(
        "berm slope in use",
        units::SLOPE,
        &sources::BERM_SLOPE,
        berm_slope,
    );
    let (height, top, length) = (
        basins.number(Basins::BermHeight),
        basins.number(Basins::BermTop),
        basins.number(Basins::BermLength),
    );
    let berm_base = rules.step(
        "berm base width",
        system.length,
        &sources::GEOMETRY,
        top + 2.0 * berm_slope * height,
    );
    let berm =
        length * (top + berm_base) / 2.0 * height * (1.0 + factor(inputs, Factor::Settlement));
    let berm = rules.step(
        "berm volume as built",
        system.compacted(),
        &sources::SETTLEMENT,
        berm,
    );
    let stripped = rules.step(
        "topsoil in the cut",
        system.volume,
        &sources::GEOMETRY,
        basins.number(Basins::TopsoilArea).or(cut.top_area) * topsoil_depth,
    );
    let topsoil = stripped + length * berm_base * topsoil_depth;
    let topsoil = rules.step(
        "topsoil stripped",
        system.bank(),
        &sources::GEOMETRY,
        topsoil,
    );
    let sediment = basins.number(Basins::SedimentArea) * basins.number(Basins::SedimentDepth);
    let sediment = rules.step("sediment", system.volume, &sources::GEOMETRY, sediment);
    let left = cut.volume - stripped - sediment - basins.number(Basins::AlreadyOpen);
    let left = rules.step(
        "left to dig in place",
        system.volume,
        &sources::BALANCE,
        left,
    );
    rules.limit(
        "more taken out than the cut holds",
        left.here().below(0.0),
        Breach::fault(
            Code::BalanceImpossible,
            basins.number(Basins::AlreadyOpen).id,
            "topsoil, sediment and what is already open are more than the cut holds",
            "check Already open, Sediment area and depth, and Topsoil",
        ),
    );
    let dig = rules.step("dig", system.bank(), &sources::BALANCE, left);
    let loose_per_bank = basins.number(Basins::LoosePerBank).or(soil.of(soils.loose));
    let loose_per_bank = rules.step(
        "loose per bank in use",
        units::LOOSE_PER_BANK,
        &sources::SWELL,
        loose_per_bank,
    );
    let dig_loose = rules.step(
        "dig, loose",
        system.loose(),
        &sources::SWELL,
        dig * loose_per_bank,
    );
    let dig_weight = rules.step(
        "dig, weight",
        system.weight,
        &sources::UNIT_WEIGHT,
        left * soil.of(soils.weight),
    );
    let backfill = rules.step(
        "backfill",
        system.compacted(),
        &sources::GEOMETRY,
        cut.volume - cut.dug_volume,
    );
    let fill_bank = (berm + backfill) / soil.of(soils.compacted);
    let fill_bank = rules.step(
        "fill as bank volume",
        system.bank(),
        &sources::BORROW,
        fill_bank,
    );
    Dug {
        dug_volume: cut.dug_volume,
        cut_volume: cut.volume,
        cut_depth: cut.depth,
        topsoil,
        sediment,
        dig,
        dig_loose,
        dig_weight,
        berm,
        backfill,
        fill_bank,
    }
}

struct Cut {
    dug_volume: Column<Basins>,
    volume: Column<Basins>,
    top_area: Column<Basins>,
    depth: Column<Basins>,
}

/// The cut: the finished shape lowered by the build-up, and more where people work in it.
fn cut(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    finished: &Finished,
    soils: &SoilColumns,
    soil: Link<Basins, Soils>,
    system: System,
) -> Cut {
    let basins = &inputs.basins;
    let l = system.length;
    let build_up = basins.number(Basins::BuildUp);
    let top_length = rules.step(
        "dug length at the ground",
        l,
        &sources::GEOMETRY,
        finished.length + build_up * (finished.rim_side + finished.rim_ramp),
    );
    let top_width = rules.step(
        "dug width at the ground",
        l,
        &sources::GEOMETRY,
        finished.width + build_up * finished.rim_side * 2.0,
    );
    let collar = frustum(
        finished.area_factor.into(),
        (top_length, top_width),
        (finished.length, finished.width),
        build_up.into(),
    );
    let dug_volume = rules.step(
        "dug volume",
        system.volume,
        &sources::PRISMOIDAL,
        finished.volume + collar,
    );
    let depth = rules.step(
        "depth of cut",
        l,
        &sources::GEOMETRY,
        finished.depth + build_up,
    );
    let entered = basins.words(Basins::Entered).is("yes");
    let room = basins
        .number(Basins::WorkingRoom)
        .or(factor(inputs, Factor::WorkingRoom));
    let room = rules.step(
        "working room in use",
        l,
        &sources::WORKING_ROOM,
        when(entered.clone(), room, 0.0),
    );
    let deep = depth.here().at_least(factor(inputs, Factor::LayBackFrom));
    let lay_back = basins
        .number(Basins::LayBack)
        .or(when(deep, soil.of(soils.lay_back), 0.0));
    let lay_back = rules.step(
        "lay-back in use",
        units::SLOPE,
        &sources::LAY_BACK,
        when(entered.clone(), lay_back, 0.0),
    );
    let pit_length = rules.step(
        "pit length",
        l,
        &sources::GEOMETRY,
        finished.floor_length + 2.0 * room,
    );
    let pit_width = rules.step(
        "pit width",
        l,
        &sources::GEOMETRY,
        finished.floor_width + 2.0 * room,
    );
    let open_length = rules.step(
        "pit length at the ground",
        l,
        &sources::GEOMETRY,
        pit_length + 2.0 * lay_back * depth,
    );
    let open_width = rules.step(
        "pit width at the ground",
        l,
        &sources::GEOMETRY,
        pit_width + 2.0 * lay_back * depth,
    );
    let pit = frustum(
        finished.area_factor.into(),
        (open_length, open_width),
        (pit_length, pit_width),
        depth.into(),
    );
    let pit = rules.step(
        "pit with room and lay-back",
        system.volume,
        &sources::PRISMOIDAL,
        pit,
    );
    let volume = rules.step(
        "cut volume",
        system.volume,
        &sources::PRISMOIDAL,
        when(entered.clone(), highest(dug_volume, pit), dug_volume),
    );
    let dug_area = finished.area_factor * top_length * top_width;
    let pit_area = finished.area_factor * open_length * open_width;
    let top_area = when(entered, highest(dug_area.clone(), pit_area), dug_area);
    let top_area = rules.step(
        "area of the cut at the ground",
        system.area,
        &sources::GEOMETRY,
        top_area,
    );
    Cut {
        dug_volume,
        volume,
        top_area,
        depth,
    }
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
        system.flow,
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
        system.flow,
        &sources::PUMP_SHARE,
        pumped - inflow,
    );
    let known = only::<Basins, Earthwork>(flow).above(0.0);
    let wet = standing.here().above(0.0);
    rules.limit(
        "pump smaller than the inflow",
        known.and(wet.clone()).and(net.here().above(0.0).negate()),
        Breach::fault(
            Code::PumpTooSmall,
            inflow.id,
            "as much water runs in as the pump takes out, or more",
            "choose a larger pump for the work Pump out, or lead the water around",
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
    let trucks =
        ["Haul away", "Haul sediment", "Bring fill"].map(|work| truck(graph, works, work, system));
    let (bank, loose, weight) = (system.bank(), system.loose(), system.weight);
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
    let topsoil_weight = (topsoil - kept).number_in(bank).counted_in(system.volume)
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
    let brought_weight = brought.here().number_in(bank).counted_in(system.volume)
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
}

fn truck(graph: &mut Graph, works: &WorkRows, work: &str, system: System) -> Truck {
    let row = works.row(work);
    Truck {
        carries: of_work(
            graph,
            &format!("{work}: truck carries"),
            row,
            works.carries,
            system.loose(),
        ),
        payload: of_work(
            graph,
            &format!("{work}: truck payload"),
            row,
            works.payload,
            system.weight,
        ),
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
    let by_volume = when(truck.carries.here().above(0.0), volume / truck.carries, 0.0);
    let by_weight = when(truck.payload.here().above(0.0), weight / truck.payload, 0.0);
    rules.step(
        name,
        units::LOAD,
        &sources::WHOLE_LOADS,
        highest(by_volume, by_weight).round_up(),
    )
}
