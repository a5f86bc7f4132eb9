//! Water: what the whole system holds, with the voids of gravel and crates.
//!
//! Counted is the water of all basins, less what is solid in it, and what beds and crates
//! outside their water hold. What is taken for granted:
//! - a bed of a basin lies in its water by the share under water; the stone of that share
//!   takes the place of water, and its voids are part of the basin's water;
//! - a bed of no basin holds water in the voids of its share under water;
//! - a structure stands on the floor of its basin, or in a pit of its own whose depth
//!   counts from the rim; the basin is its own, or that of its bed;
//! - in the basin's water a vault or a weir box takes its whole outside volume, crates
//!   their plastic only; below its floor crates hold what they store;
//! - crates of no basin are full; those of a bed of no basin to the bed's share;
//! - pipes, logs, set stone, water in vaults and what is deducted from a bed by hand are
//!   not counted.

use super::basis::Basis;
use super::loose::LooseColumns;
use super::structures::{BED, HEIGHT, OUTSIDE, STORED};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, either, highest, lowest, total, when};
use crate::job::tables::{Basins, Loose, Structures};
use crate::sources;
use crate::tables::SystemWater;
use crate::units::PERCENT;

/// Water in the whole system.
#[derive(Clone, Copy, Debug)]
pub struct WaterColumns {
    /// Water of all basins, as if they held nothing else.
    pub basins: Column<SystemWater>,
    /// What stone, crates and structures in them take of it.
    pub taken: Column<SystemWater>,
    /// What beds and crates outside it hold.
    pub held: Column<SystemWater>,
    /// All of it.
    pub total: Column<SystemWater>,
}

/// Adds the water of the whole system.
pub fn water(graph: &mut Graph, basis: &Basis<'_>, loose: &LooseColumns) -> WaterColumns {
    let system = basis.system;
    let (stone, in_beds) = of_beds(&mut graph.rules(), basis, loose);
    let (solid, in_crates) = of_structures(&mut graph.rules(), basis, loose);
    let mut rules = graph.rules::<SystemWater>();
    let unit = system.water();
    let mut held = |name: &str, term| rules.step(name, unit, &sources::WATER_HELD, term);
    let in_basins = held("water of all basins", total(basis.finished.water));
    let taken = held("taken by what stands in it", total(stone) + total(solid));
    let outside = held("held by beds and crates", total(in_beds) + total(in_crates));
    let all = held("water of the system", in_basins - taken + outside);
    rules.limit(
        "more stands in the water than there is",
        taken.here().above(in_basins),
        Breach::warning(
            Code::OutOfRange,
            basis.inputs.id(Loose::UnderWater),
            "more stone and structures stand in the water than there is of it",
            "write the share of beds that is Under water, and check which basin they stand in",
        ),
    );
    WaterColumns {
        basins: in_basins,
        taken,
        held: outside,
        total: all,
    }
}

/// Stone of each bed in the water of a basin, and water that each bed of no basin holds.
fn of_beds(
    rules: &mut Rules<'_, Loose>,
    basis: &Basis<'_>,
    loose: &LooseColumns,
) -> (Column<Loose>, Column<Loose>) {
    let unit = basis.system.water();
    let outside = basis.inputs.words(Loose::LooseBasin).blank();
    let stone = loose.solid * loose.under_water;
    let stone = when(outside.clone(), 0.0, stone);
    let held = when(outside, loose.held * loose.under_water, 0.0);
    let source = &sources::WATER_HELD;
    (
        rules.step("stone in a basin's water", unit, source, stone),
        rules.step("water held beside basins", unit, source, held),
    )
}

/// What each structure takes of the water of its basin, and what crates hold outside it.
fn of_structures(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    loose: &LooseColumns,
) -> (Column<Structures>, Column<Structures>) {
    let inputs = basis.inputs;
    let own = inputs.words(Structures::StructureBasin);
    let of_bed = BED.words_of(inputs.words(Loose::LooseBasin));
    let home = rules.word_step("basin in use", either(own.blank(), of_bed, own.words()));
    let home: Link<Structures, Basins> = rules.link("basin row", home);
    let (in_water, below) = shares(rules, basis, home);
    let kind = inputs.words(Structures::StructureKind);
    let plastic = OUTSIDE - STORED;
    let solid = when(kind.is("wall kept"), 0.0, plastic * in_water);
    let (unit, source) = (basis.system.water(), &sources::WATER_HELD);
    let solid = rules.step("taken of its basin's water", unit, source, solid);
    let wet = when(BED.found_none(), 1.0, BED.of(loose.under_water));
    let share = when(home.found_none(), wet, below);
    let share = rules.step("share of its crates that counts", PERCENT, source, share);
    let held = STORED * share;
    (
        solid,
        rules.step("water held in crates outside", unit, source, held),
    )
}

/// How much of a structure's height lies in the water of its basin, and how much below
/// its floor; zero without a basin.
fn shares(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    home: Link<Structures, Basins>,
) -> (Column<Structures>, Column<Structures>) {
    let unit = basis.system.length();
    let (floor, surface) = levels(rules, basis, home);
    let foot = basis.inputs.number(Structures::CutDepth).or(floor);
    let foot = rules.geometry("underside below the rim", unit, foot);
    let top = rules.geometry("top below the rim", unit, foot - HEIGHT);
    let wet = highest(0.0, lowest(foot, floor) - highest(top, surface));
    let below = highest(0.0, foot - highest(top, floor));
    let mut share = |name: &str, height| {
        let some = HEIGHT.above(0.0);
        let some = some.and(home.found_none().negate());
        rules.geometry(name, PERCENT, when(some, height / HEIGHT, 0.0))
    };
    (
        share("share in its basin's water", wet),
        share("share below its basin's floor", below),
    )
}

/// Depth of the floor and of the water's surface in the basin of each structure.
fn levels(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    home: Link<Structures, Basins>,
) -> (Column<Structures>, Column<Structures>) {
    let unit = basis.system.length();
    let (floor, surface) = (basis.finished.depth, basis.finished.surface);
    (
        rules.from_job("floor of its basin", unit, home.of(floor)),
        rules.from_job("water of its basin", unit, home.of(surface)),
    )
}
