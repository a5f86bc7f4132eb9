//! Earthwork: what is dug, where it goes, and the water that stands in the way.
//!
//! The dug surface is the finished surface lowered, plumb, by the build-up; the slope
//! at the rim runs on up to the ground. Working room and lay-back belong to cuts that
//! people enter; the cut is then the larger of the dug shape and the pit, by volume. Topsoil and sediment lie inside the cut and are never dug twice.
//!
//! Always true: what is dug and brought in is what is filled and taken away.

use super::basins::{Finished, frustum};
use super::book::{SoilColumns, factor};
use super::half_measured::half_measured;
use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Column, Condition, Graph, Link, Rules, Term, either, highest, lowest, when,
};
use crate::job::tables::{Basins, JobKeys};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Soils;
use crate::units::{self, ONE, System};

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
    /// 1 where people work in the cut.
    pub entered: Column<Basins>,
    /// Width of the cut at the ground.
    pub ground_width: Column<Basins>,
    /// Width of the cut at its foot.
    pub foot_width: Column<Basins>,
}

/// Adds the earthwork of every basin: soil, cut, berm, topsoil, sediment, dig and fill.
pub fn dug(
    graph: &mut Graph,
    inputs: &AllInputs,
    finished: &Finished,
    soils: &SoilColumns,
    system: System,
) -> Dug {
    let mut rules = graph.rules::<Basins>();
    let soil = soil_in_use(&mut rules, inputs);
    let cut = cut(&mut rules, inputs, finished, (soils, soil), system);
    let berm = berm(&mut rules, inputs, system);
    half_measured(&mut rules, inputs);
    let topsoil = topsoil(&mut rules, inputs, cut.top_area, &berm, system);
    let (sediment, left) = left_to_dig(&mut rules, inputs, &cut, topsoil.0, system);
    let dig = rules.step("dig", system.bank(), &sources::BALANCE, left);
    let (dig_loose, dig_weight) = swollen(&mut rules, inputs, (dig, left), (soils, soil), system);
    let fill = (soils.compacted, soil);
    let (backfill, fill_bank) = filled(&mut rules, &cut, berm.volume, fill, system);
    Dug {
        dug_volume: cut.dug_volume,
        cut_volume: cut.volume,
        cut_depth: cut.depth,
        topsoil: topsoil.1,
        sediment,
        dig,
        dig_loose,
        dig_weight,
        berm: berm.volume,
        backfill,
        fill_bank,
        entered: cut.entered,
        ground_width: cut.ground_width,
        foot_width: cut.foot_width,
    }
}

/// What is known of soils, and each basin's row among them.
type Ground<'s> = (&'s SoilColumns, Link<Basins, Soils>);

/// The soil of each basin: its own, or the job's.
fn soil_in_use(rules: &mut Rules<'_, Basins>, inputs: &AllInputs) -> Link<Basins, Soils> {
    let own = inputs.words(Basins::BasinSoil);
    let usual = inputs.words(JobKeys::Soil).only_words();
    let soil = rules.word_step("soil in use", either(own.blank(), usual, own.words()));
    rules.link("soil row", soil)
}

/// A berm: a trapezoid along its length, higher by what will settle.
struct Berm {
    length: Column<Basins>,
    base: Column<Basins>,
    volume: Column<Basins>,
}

/// The berm as built: length × mean width × height × (1 + settlement).
fn berm(rules: &mut Rules<'_, Basins>, inputs: &AllInputs, system: System) -> Berm {
    let usual = factor(inputs, Factor::BermSlope);
    let slope = inputs.number(Basins::BermSlope).or(usual);
    let slope = rules.step(
        "berm slope in use",
        units::SLOPE,
        &sources::BERM_SLOPE,
        slope,
    );
    let height = inputs.number(Basins::BermHeight);
    let top = inputs.number(Basins::BermTop);
    let length = inputs.number(Basins::BermLength);
    let base = top + 2.0 * slope * height;
    let base = rules.geometry("berm base width", system.length(), base);
    let settling = 1.0 + factor(inputs, Factor::Settlement);
    let volume = length * (top + base) / 2.0 * height * settling;
    let volume = rules.step(
        "berm volume as built",
        system.compacted(),
        &sources::SETTLEMENT,
        volume,
    );
    Berm {
        length,
        base,
        volume,
    }
}

/// Topsoil inside the cut as plain volume, and all that is stripped, outside the cut and
/// under berms too.
fn topsoil(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    cut_area: Column<Basins>,
    berm: &Berm,
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let depth = inputs.number(Basins::Topsoil);
    let area = inputs.number(Basins::TopsoilArea).or(cut_area);
    let inside = lowest(area.clone(), cut_area) * depth;
    let inside = rules.geometry("topsoil in the cut", system.volume(), inside);
    let stripped = area * depth + berm.length * berm.base * depth;
    let stripped = rules.geometry("topsoil stripped", system.bank(), stripped);
    (inside, stripped)
}

/// Sediment, and what is left of the cut without it, the topsoil and what is open.
///
/// Limit: no more is taken out than the cut holds.
fn left_to_dig(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    cut: &Cut,
    topsoil: Column<Basins>,
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let unit = system.volume();
    let sediment = inputs.number(Basins::SedimentArea) * inputs.number(Basins::SedimentDepth);
    let sediment = rules.geometry("sediment", unit, sediment);
    let area = lowest(inputs.number(Basins::SedimentArea), cut.top_area);
    let inside = area * inputs.number(Basins::SedimentDepth);
    let inside = rules.geometry("sediment in the cut", unit, inside);
    let open = inputs.number(Basins::AlreadyOpen);
    let left = cut.volume - topsoil - inside - open;
    let left = rules.step("left to dig in place", unit, &sources::BALANCE, left);
    rules.limit(
        "more taken out than the cut holds",
        left.here().below(0.0),
        Breach::fault(
            Code::BalanceImpossible,
            open.id,
            "topsoil, sediment and what is already open are more than the cut holds",
            "check Already open, Sediment area and depth, and Topsoil",
        ),
    );
    (sediment, left)
}

/// The dig, loose and by weight. `dig` is in the bank, `left` the same as plain volume.
fn swollen(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    (dig, left): (Column<Basins>, Column<Basins>),
    (soils, soil): Ground<'_>,
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let swell = inputs.number(Basins::LoosePerBank);
    let swell = rules.step(
        "loose per bank in use",
        units::LOOSE_PER_BANK,
        &sources::SWELL,
        swell.or(soil.of(soils.loose)),
    );
    let loose = dig * swell;
    let loose = rules.step("dig, loose", system.loose(), &sources::SWELL, loose);
    let weight = left * soil.of(soils.weight);
    let unit = system.weight();
    let weight = rules.step("dig, weight", unit, &sources::UNIT_WEIGHT, weight);
    (loose, weight)
}

/// What is filled again around the finished basin, and all fill as bank volume.
fn filled(
    rules: &mut Rules<'_, Basins>,
    cut: &Cut,
    berm: Column<Basins>,
    (compacted, soil): (Column<Soils>, Link<Basins, Soils>),
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let backfill = cut.volume - cut.dug_volume;
    let backfill = rules.geometry("backfill", system.compacted(), backfill);
    let bank = (berm + backfill) / soil.of(compacted);
    let unit = system.bank();
    let bank = rules.step("fill as bank volume", unit, &sources::BORROW, bank);
    (backfill, bank)
}

/// The cut of a basin.
struct Cut {
    entered: Column<Basins>,
    ground_width: Column<Basins>,
    foot_width: Column<Basins>,
    dug_volume: Column<Basins>,
    volume: Column<Basins>,
    top_area: Column<Basins>,
    depth: Column<Basins>,
}

/// A solid open to the ground: length and width there, and volume.
struct Opening {
    length: Column<Basins>,
    width: Column<Basins>,
    foot_width: Column<Basins>,
    volume: Column<Basins>,
}

/// The cut: the finished shape lowered by the build-up, and more where people work in it.
fn cut(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    finished: &Finished,
    ground: Ground<'_>,
    system: System,
) -> Cut {
    let build_up = inputs.number(Basins::BuildUp);
    let dug = lowered(rules, finished, build_up, system);
    let depth = finished.depth + build_up;
    let depth = rules.geometry("depth of cut", system.length(), depth);
    let (room, lay_back) = room_and_lay_back(rules, inputs, depth, ground, system);
    let pit = pit(rules, finished, (room, lay_back, depth), system);
    let entered = inputs.words(Basins::Entered).is("yes");
    let larger = highest(dug.volume, pit.volume);
    let volume = rules.step(
        "cut volume",
        system.volume(),
        &sources::PRISMOIDAL,
        when(entered.clone(), larger, dug.volume),
    );
    let area = |open: &Opening| finished.area_factor * open.length * open.width;
    let top_area = when(entered, highest(area(&dug), area(&pit)), area(&dug));
    let top_area = rules.geometry("area of the cut at the ground", system.area(), top_area);
    let is_entered = inputs.words(Basins::Entered).is("yes");
    let flag = when(is_entered.clone(), 1.0, 0.0);
    let flag = rules.from_job("people enter", ONE, flag);
    let ground = when(is_entered.clone(), highest(dug.width, pit.width), dug.width);
    let ground = rules.geometry("cut width at the ground", system.length(), ground);
    let foot = when(is_entered, pit.foot_width, finished.floor_width);
    let foot = rules.geometry("cut width at the foot", system.length(), foot);
    Cut {
        entered: flag,
        ground_width: ground,
        foot_width: foot,
        dug_volume: dug.volume,
        volume,
        top_area,
        depth,
    }
}

/// The finished shape lowered by the build-up; the slope at the rim runs on to the ground.
fn lowered(
    rules: &mut Rules<'_, Basins>,
    finished: &Finished,
    build_up: Column<Basins>,
    system: System,
) -> Opening {
    let unit = system.length();
    let length = finished.length + build_up * (finished.rim_side + finished.rim_ramp);
    let length = rules.geometry("dug length at the ground", unit, length);
    let width = finished.width + build_up * finished.rim_side * 2.0;
    let width = rules.geometry("dug width at the ground", unit, width);
    let rim = (finished.length, finished.width);
    let area_factor = finished.area_factor.into();
    let collar = frustum(area_factor, (length, width), rim, build_up.into());
    let volume = finished.volume + collar;
    Opening {
        length,
        width,
        foot_width: finished.floor_width,
        volume: rules.step("dug volume", system.volume(), &sources::PRISMOIDAL, volume),
    }
}

/// Working room, and the slope that a cut is laid back to; both zero where nobody enters.
///
/// Limit: a cut that people enter and that is deep enough to bury them is a caution.
fn room_and_lay_back(
    rules: &mut Rules<'_, Basins>,
    inputs: &AllInputs,
    depth: Column<Basins>,
    (soils, soil): Ground<'_>,
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let entered = inputs.words(Basins::Entered).is("yes");
    let usual = factor(inputs, Factor::WorkingRoom);
    let room = inputs.number(Basins::WorkingRoom).or(usual);
    let room = rules.step(
        "working room in use",
        system.length(),
        &sources::WORKING_ROOM,
        when(entered.clone(), room, 0.0),
    );
    let deep = depth.here().at_least(factor(inputs, Factor::LayBackFrom));
    caution_deep_cut(rules, inputs, entered.clone().and(deep.clone()));
    let usual = when(deep, soil.of(soils.lay_back), 0.0);
    let lay_back = inputs.number(Basins::LayBack).or(usual);
    let lay_back = rules.step(
        "lay-back in use",
        units::SLOPE,
        &sources::LAY_BACK,
        when(entered, lay_back, 0.0),
    );
    (room, lay_back)
}

/// A caution, not a fault: protection is for a competent person on site to decide.
fn caution_deep_cut(rules: &mut Rules<'_, Basins>, inputs: &AllInputs, danger: Condition) {
    rules.limit(
        "deep cut that people enter",
        danger,
        Breach::caution(
            Code::DeepCut,
            inputs.words(Basins::Entered).id,
            "people work in a cut deep enough to bury them",
            "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
        ),
    );
}

/// The pit that people work in: the floor and the room around it, laid back to the ground.
fn pit(
    rules: &mut Rules<'_, Basins>,
    finished: &Finished,
    (room, lay_back, depth): (Column<Basins>, Column<Basins>, Column<Basins>),
    system: System,
) -> Opening {
    let unit = system.length();
    let mut side = |name: &str, term: Term<Basins>| rules.geometry(name, unit, term);
    let floor_length = side("pit length", finished.floor_length + 2.0 * room);
    let floor_width = side("pit width", finished.floor_width + 2.0 * room);
    let length = floor_length + 2.0 * lay_back * depth;
    let length = side("pit length at the ground", length);
    let width = floor_width + 2.0 * lay_back * depth;
    let width = side("pit width at the ground", width);
    let volume = frustum(
        finished.area_factor.into(),
        (length, width),
        (floor_length, floor_width),
        depth.into(),
    );
    let volume = rules.step(
        "pit with room and lay-back",
        system.volume(),
        &sources::PRISMOIDAL,
        volume,
    );
    Opening {
        length,
        width,
        foot_width: floor_width,
        volume,
    }
}
