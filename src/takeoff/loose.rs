//! Gravel and loose stone, by area and thickness, net of what stands in it.
//!
//! Always true: what a bed holds is stone and voids, and nothing else; what stands in it
//! is neither bought nor counted as stone.

use super::basis::Basis;
use super::book::factor;
use super::grades::grade_in_use;
use super::inputs::AllInputs;
use super::line::Line;
use super::measured_area::measured_area;
use super::structures::{BED, TAKEN_OF_BED};
use super::supplied::{Found, Supplied, supplied};
use super::supply::Amounts;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Rules, Term, Text, when};
use crate::job::tables::Loose;
use crate::parameters::Factor;
use crate::sources;
use crate::units::PERCENT;

/// Columns of the beds.
#[derive(Clone, Copy, Debug)]
pub struct LooseColumns {
    name: Text<Loose>,
    stone: Supplied<Loose>,
    /// Volume of the bed, less what stands in it: what is bought, loose.
    pub net: Column<Loose>,
    /// Voids in use.
    pub porosity: Column<Loose>,
    /// Volume of the stone itself.
    pub solid: Column<Loose>,
    /// Water that all of its voids hold.
    pub held: Column<Loose>,
    /// Share of the bed that is under water.
    pub under_water: Column<Loose>,
}

/// Adds the beds: volume, what stands in them, voids, what is bought and placed.
pub fn loose(graph: &mut Graph, basis: &Basis<'_>) -> LooseColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let mut rules = graph.rules::<Loose>();
    let sides = [Loose::LooseArea, Loose::LooseLength, Loose::LooseWidth];
    let area = measured_area(&mut rules, inputs, sides, system);
    let net = net_volume(&mut rules, basis, area);
    let voids = inputs.number(Loose::LoosePorosity);
    let voids = voids.or(factor(inputs, Factor::LooseVoids));
    let porosity = rules.step("voids in use", PERCENT, &sources::LOOSE_VOIDS, voids);
    let unit = system.volume();
    let solid = net * (1.0 - porosity.here());
    let solid = rules.step("solid volume", unit, &sources::STONE_VOLUME, solid);
    let held = net * porosity;
    let held = rules.step(
        "water in the voids",
        system.water(),
        &sources::WATER_HELD,
        held,
    );
    let under_water = under_water(&mut rules, inputs);
    let stone = bought_and_placed(&mut rules, basis, net);
    LooseColumns {
        name: inputs.words(Loose::LooseBed),
        stone,
        net,
        porosity,
        solid,
        held,
        under_water,
    }
}

/// The volume that is filled: area × thickness, less structures that stand in it and what
/// else is deducted.
///
/// Limits: a bed has a thickness; no more stands in it than it holds.
fn net_volume(
    rules: &mut Rules<'_, Loose>,
    basis: &Basis<'_>,
    area: Column<Loose>,
) -> Column<Loose> {
    let (inputs, unit) = (basis.inputs, basis.system.volume());
    let thickness = inputs.number(Loose::LooseThickness);
    let gross = rules.geometry("gross volume", unit, area * thickness);
    let standing = BED.sum(TAKEN_OF_BED);
    let standing = rules.geometry("structures in it", unit, standing);
    let deduct = inputs.number(Loose::LooseDeduct);
    let in_the_way = rules.geometry("stands in the bed", unit, standing + deduct);
    let net = rules.geometry("net volume", unit, gross - in_the_way);
    rules.limit(
        "bed without a thickness",
        thickness.here().above(0.0).negate(),
        Breach::open(
            Code::MissingValue,
            thickness.id,
            "the bed has no thickness, so nothing is taken off",
            "write the mean thickness",
        ),
    );
    rules.limit(
        "more stands in the bed than it holds",
        gross.here().below(in_the_way),
        Breach::fault(
            Code::OutOfRange,
            deduct.id,
            "more stands in the bed than it holds",
            "check Deduct, the bed's measures and the structures that stand in it",
        ),
    );
    net
}

/// The share of a bed that is under water: as written, or all of one that stands in a
/// basin and nothing of any other.
fn under_water(rules: &mut Rules<'_, Loose>, inputs: &AllInputs) -> Column<Loose> {
    let basin = inputs.words(Loose::LooseBasin);
    let usual: Term<Loose> = when(basin.blank(), 0.0, 1.0);
    let share = inputs.number(Loose::UnderWater).or(usual);
    rules.from_job("share under water", PERCENT, share)
}

/// What is bought, as a loose volume, and placed.
fn bought_and_placed(
    rules: &mut Rules<'_, Loose>,
    basis: &Basis<'_>,
    net: Column<Loose>,
) -> Supplied<Loose> {
    let inputs = basis.inputs;
    let material = inputs.words(Loose::LooseMaterial);
    let work = inputs.words(Loose::LooseWork);
    let amounts = Amounts {
        volume: Some(net),
        ..Amounts::default()
    };
    let usual_grade = basis.wide.usual_grade;
    let grade = grade_in_use(rules, inputs, usual_grade, Loose::LooseGrade);
    let gravel = Found {
        what: "gravel",
        own: Some(material),
        usual: "Gravel",
        at: material.id,
        missing: "the stone of this bed is not in Materials, so it has no price",
    };
    let placing = Found {
        what: "placing",
        own: Some(work),
        usual: "Place gravel",
        at: work.id,
        missing: "the work that places this stone is not in Production rates",
    };
    let natural = (basis.system.volume(), net);
    supplied(
        rules,
        basis,
        (&gravel, &placing),
        (&amounts, natural),
        grade,
    )
}

impl LooseColumns {
    /// Lines, in the order of the rows.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        let said = "gravel or loose stone";
        (0..graph.rows(self.name.id))
            .map(|row| self.stone.named_line(row, ("Gravel", self.name, said)))
            .collect()
    }
}
