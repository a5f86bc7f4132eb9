//! Structures: vaults, banks of void crates, weir boxes, walls that are kept.
//!
//! Always true: a bank of crates is as large as the whole crates that fill its measures,
//! in its pit, in its bed and in the water alike.

mod flotation;
mod opening;
mod pit;
mod size;
mod supply;

use super::basis::Basis;
use super::cuts::Cut;
use super::grades::grade_in_use;
use super::lifts::Lifted;
use super::line::{Line, fixed};
use super::supplied::Supplied;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, ColumnId, Condition, Graph, Link, Piece, Rules, Text, lowest};
use crate::job::tables::{Equipment, Loose, Structures};
use crate::units::System;
use flotation::flotation;
use opening::opening;
use pit::{Pit, pit};
use size::size;

/// Columns of the structures.
#[derive(Clone, Copy, Debug)]
pub struct StructureColumns {
    name: Text<Structures>,
    before: Text<Structures>,
    said: Text<Structures>,
    grade: Text<Structures>,
    supplied: Supplied<Structures>,
    bedding: Supplied<Structures>,
    pit: Pit,
    machine: Link<Structures, Equipment>,
    lifted: ColumnId,
    own_weight: ColumnId,
    weight: Column<Structures>,
    radius: Column<Structures>,
    /// The bed of loose stone that each stands in.
    pub bed: Link<Structures, Loose>,
    /// What each takes of that bed.
    pub displaced: Column<Structures>,
    /// Length × width, as built.
    pub footprint: Column<Structures>,
    /// Height as built.
    pub height: Column<Structures>,
    /// How many there are of each.
    pub times: Column<Structures>,
    /// Void crates, or pieces of what is no bank of crates.
    pub pieces: Column<Structures>,
    /// Outside volume of all.
    pub outside: Column<Structures>,
    /// Water that void crates store when full.
    pub stored: Column<Structures>,
}

/// The kind of a structure.
fn is_kind(basis: &Basis<'_>, kind: &str) -> Condition {
    basis.inputs.words(Structures::StructureKind).is(kind)
}

/// Adds the structures: size, pit, what they are bought and set by, and their checks.
pub fn structures(graph: &mut Graph, basis: &Basis<'_>) -> StructureColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let mut rules = graph.rules::<Structures>();
    let size = size(&mut rules, basis);
    let bed = bed(&mut rules, basis);
    let displaced = displaced(&mut rules, basis, (&size, bed));
    dug_twice(&mut rules, basis);
    let pit = pit(&mut rules, basis, &size);
    let (weight, radius) = lifted_weight(&mut rules, basis, system);
    opening(&mut rules, basis);
    flotation(&mut rules, basis, &size, weight);
    caution_confined_space(&mut rules, basis);
    let lifted = inputs.words(Structures::StructureLifted);
    let machine = rules.link("machine row", lifted);
    rules.must_find(lifted, machine);
    let usual = basis.wide.usual_grade;
    let grade = grade_in_use(&mut rules, inputs, usual, Structures::StructureGrade);
    let (before, said) = supply::words(&mut rules, basis);
    StructureColumns {
        name: inputs.words(Structures::Structure),
        before,
        said,
        grade,
        supplied: supply::supplied_structure(&mut rules, basis, &size, grade),
        bedding: supply::supplied_bedding(&mut rules, basis, pit.bedding, grade),
        pit,
        machine,
        lifted: lifted.id,
        own_weight: inputs.id(Structures::OwnWeight),
        weight,
        radius,
        bed,
        displaced,
        footprint: size.footprint,
        height: size.height,
        times: size.times,
        pieces: size.pieces,
        outside: size.outside,
        stored: size.stored,
    }
}

/// The bed of loose stone that each structure stands in.
fn bed(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) -> Link<Structures, Loose> {
    let stands_in = basis.inputs.words(Structures::StandsIn);
    let bed = rules.link("bed row", stands_in);
    rules.must_find(stands_in, bed);
    bed
}

/// Limit: a pit that is dug from the ground where a basin is dug already is looked at.
fn dug_twice(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) {
    let inputs = basis.inputs;
    let depth = inputs.number(Structures::CutDepth);
    let stands = inputs.words(Structures::StructureBasin).blank().negate();
    rules.limit(
        "pit inside a basin",
        stands.and(depth.here().above(0.0)),
        Breach::warning(
            Code::ConflictingValues,
            depth.id,
            "its pit is dug from the ground, and it stands in a basin that is dug already",
            "measure Cut depth from the dug floor of the basin, or leave Basin blank where it stands beside it",
        ),
    );
}

/// What a structure takes of the bed that it stands in: its footprint, as high as it and
/// the bed reach together from the bed's foot.
fn displaced(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    (size, bed): (&size::Size, Link<Structures, Loose>),
) -> Column<Structures> {
    let thickness = basis.inputs.number(Loose::LooseThickness);
    let unit = basis.system.length();
    let thickness = rules.from_job("thickness of its bed", unit, bed.of(thickness));
    rules.limit(
        "structure higher than its bed",
        bed.found_none()
            .negate()
            .and(size.height.here().above(thickness)),
        Breach::warning(
            Code::ConflictingValues,
            basis.inputs.id(Structures::StructureHeight),
            "it stands higher than the bed of stone that it stands in",
            "check Height, the crates and the Thickness of the bed; an intake's rim stands some inches above its crates",
        ),
    );
    let within = size.footprint * lowest(size.height, thickness) * size.times;
    rules.geometry("taken of its bed", basis.system.volume(), within)
}

/// The weight of one piece as a machine lifts it, and the reach to it.
fn lifted_weight(
    rules: &mut Rules<'_, Structures>,
    basis: &Basis<'_>,
    system: System,
) -> (Column<Structures>, Column<Structures>) {
    let weight = basis.inputs.number(Structures::OwnWeight);
    let radius = basis.inputs.number(Structures::StructureRadius);
    (
        rules.from_job("weight of one", system.weight(), weight),
        rules.from_job("reach to it", system.length(), radius),
    )
}

/// A caution, not a fault: whether a vault needs a permit is for a competent person.
fn caution_confined_space(rules: &mut Rules<'_, Structures>, basis: &Basis<'_>) {
    rules.limit(
        "people may enter a vault",
        is_kind(basis, "vault"),
        Breach::caution(
            Code::ConfinedSpace,
            basis.inputs.id(Structures::StructureKind),
            "people who enter a vault to set, pipe or clean it work in a confined space",
            "test and ventilate the air, keep a person outside, and have a competent person say whether a permit is needed; local codes decide (29 CFR 1926 Subpart AA)",
        ),
    );
}

impl StructureColumns {
    /// Lines, in the order of the rows: the structure, then its bedding.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        let mut lines = Vec::new();
        for row in 0..graph.rows(self.name.id) {
            let piece = |words: Text<Structures>| Piece::Cell(words.id.at(row));
            let name = vec![piece(self.before), piece(self.name)];
            let description = vec![piece(self.name), piece(self.said)];
            lines.push(self.supplied.line(row, name, description));
            if self.pit.has_bedding(graph, row) {
                let words = ("Bedding under", self.name, "bedding under it");
                lines.push(self.bedding.named_line(row, words));
            }
        }
        lines
    }

    /// What a machine lifts: one piece of each structure whose weight is known.
    #[must_use]
    pub fn lifted(&self, graph: &Graph) -> Vec<Lifted> {
        let lifted = |row: usize| Lifted {
            name: vec![Piece::Cell(self.name.id.at(row))],
            weight: self.weight.id.at(row),
            machine: self.machine.id.at(row),
            radius: self.radius.id.at(row),
            at: self.lifted,
        };
        let weighed = |row: &usize| graph.is_filled(self.own_weight.at(*row));
        let rows = 0..graph.rows(self.name.id);
        rows.filter(weighed).map(lifted).collect()
    }

    /// What is cut: the pit of each structure that has one of its own.
    #[must_use]
    pub fn cuts(&self, graph: &Graph) -> Vec<Cut> {
        let cut = |row: usize| Cut {
            name: vec![fixed("pit of "), Piece::Cell(self.name.id.at(row))],
            dig: self.pit.dig.id.at(row),
            backfill: Some(self.pit.backfill.id.at(row)),
            grade: self.grade.id.at(row),
        };
        let rows = 0..graph.rows(self.name.id);
        let dug = |row: &usize| self.pit.is_dug(graph, *row);
        rows.filter(dug).map(cut).collect()
    }
}
