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
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Link, Rules, either, highest, when};
use crate::job::tables::{Basins, JobKeys};
use crate::parameters::Factor;
use crate::sources;
use crate::units::{self, System};

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
        system.length(),
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
        system.volume(),
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
    let sediment = rules.step("sediment", system.volume(), &sources::GEOMETRY, sediment);
    let left = cut.volume - stripped - sediment - basins.number(Basins::AlreadyOpen);
    let left = rules.step(
        "left to dig in place",
        system.volume(),
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
        system.weight(),
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
    let l = system.length();
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
        system.volume(),
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
    rules.limit(
        "deep cut that people enter",
        entered.clone().and(deep.clone()),
        Breach::caution(
            Code::DeepCut,
            basins.words(Basins::Entered).id,
            "people work in a cut deep enough to bury them",
            "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
        ),
    );
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
        system.volume(),
        &sources::PRISMOIDAL,
        pit,
    );
    let volume = rules.step(
        "cut volume",
        system.volume(),
        &sources::PRISMOIDAL,
        when(entered.clone(), highest(dug_volume, pit), dug_volume),
    );
    let dug_area = finished.area_factor * top_length * top_width;
    let pit_area = finished.area_factor * open_length * open_width;
    let top_area = when(entered, highest(dug_area.clone(), pit_area), dug_area);
    let top_area = rules.step(
        "area of the cut at the ground",
        system.area(),
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
