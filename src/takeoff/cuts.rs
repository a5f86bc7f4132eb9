//! Cuts beside the basins' own: pits of structures, shelves behind courses of stone, anchor
//! trenches. Each is dug in the job's usual soil.

use crate::graph::prelude::*;
use crate::graph::{Cell, Column, Graph, Piece, Text, only};
use crate::sources;
use crate::tables::Cuts;
use crate::takeoff::basis::Basis;

/// Where one cut comes from.
#[derive(Clone, Debug)]
pub struct Cut {
    /// What is cut, such as the structure's name.
    pub name: Vec<Piece>,
    /// What is dug, in the bank.
    pub dig: Cell,
    /// What is filled again, compacted; `None` where nothing is.
    pub backfill: Option<Cell>,
    /// How its measures were come by.
    pub grade: Cell,
}

/// Earthwork of the cuts.
#[derive(Clone, Debug)]
pub struct CutColumns {
    /// What is cut.
    pub name: Text<Cuts>,
    /// What is dug, in the bank.
    pub dig: Column<Cuts>,
    /// The same, loose.
    pub loose: Column<Cuts>,
    /// Its weight.
    pub weight: Column<Cuts>,
    /// What is filled again.
    pub backfill: Column<Cuts>,
    /// The same as bank volume.
    pub fill_bank: Column<Cuts>,
    /// The cuts, in the order of the table.
    pub all: Vec<Cut>,
}

/// Adds the earthwork of all cuts: dig, loose and by weight, backfill.
pub fn cuts(graph: &mut Graph, basis: &Basis<'_>, all: Vec<Cut>) -> CutColumns {
    let (wide, system) = (basis.wide, basis.system);
    graph.add_table::<Cuts>(all.len());
    let mut rules = graph.rules::<Cuts>();
    let names = all.iter().map(|cut| cut.name.clone()).collect();
    let name = rules.gathered_words("cut", names);
    rules.labelled_by(name);
    let bank = system.bank();
    let dig = all.iter().map(|cut| Some(cut.dig)).collect();
    let dig = rules.gathered("dig", bank, dig);
    let loose = dig * only(wide.loose);
    let loose = rules.step("dig, loose", system.loose(), &sources::SWELL, loose);
    let in_place = dig.here().number_in(bank).counted_in(system.volume());
    let weight = in_place * only(wide.weight);
    let unit = system.weight();
    let weight = rules.step("dig, weight", unit, &sources::UNIT_WEIGHT, weight);
    let backfill = all.iter().map(|cut| cut.backfill).collect();
    let backfill = rules.gathered("backfill", system.compacted(), backfill);
    let fill = backfill / only(wide.compacted);
    let fill_bank = rules.step("fill as bank volume", bank, &sources::BORROW, fill);
    CutColumns {
        name,
        dig,
        loose,
        weight,
        backfill,
        fill_bank,
        all,
    }
}
