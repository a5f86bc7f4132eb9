//! Timber: logs by length and diameter, with their green weight.
//!
//! A log is counted as a cylinder of its mean diameter. Green wood is weighed by the
//! heavier of its heartwood and its sapwood, so that a lift is never taken too light.

use super::basis::Basis;
use super::grades::grade_in_use;
use super::inputs::{AllInputs, fixed_words};
use super::lifts::Lifted;
use super::line::Line;
use super::supplied::{Found, Supplied, supplied};
use super::supply::Amounts;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Piece, Rules, Text, TextExpr, either, pi};
use crate::job::tables::{Equipment, SPECIES, Timber};
use crate::parameters::Factor;
use crate::sources;
use crate::tables::Woods;
use crate::units::{EACH, System};

/// The factor of each wood, in the order of the species.
const GREEN_WEIGHT_OF: [Factor; 5] = [
    Factor::GreenWhiteOak,
    Factor::GreenRedOak,
    Factor::GreenPoplar,
    Factor::GreenPine,
    Factor::GreenFir,
];

/// Columns of the timber.
#[derive(Clone, Copy, Debug)]
pub struct TimberColumns {
    name: Text<Timber>,
    logs: Supplied<Timber>,
    /// Volume of all logs of a row.
    pub volume: Column<Timber>,
    /// Green weight of one log.
    pub one: Column<Timber>,
    /// Green weight of all logs of a row.
    pub weight: Column<Timber>,
}

/// Adds the timber: pieces, length, volume and green weight, what is bought and set.
pub fn timber(graph: &mut Graph, basis: &Basis<'_>) -> TimberColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let wood = woods(graph, inputs, system);
    let mut rules = graph.rules::<Timber>();
    let amounts = amounts(&mut rules, inputs, wood, system);
    let logs = bought_and_set(&mut rules, basis, &amounts);
    let lifted_by = inputs.words(Timber::TimberLifted);
    let machine: Link<Timber, Equipment> = rules.link("machine row", lifted_by);
    rules.must_find(lifted_by, machine);
    let radius = inputs.number(Timber::TimberRadius);
    rules.from_job("reach to it", system.length(), radius);
    TimberColumns {
        name: inputs.words(Timber::Log),
        logs,
        volume: amounts.volume,
        one: amounts.one,
        weight: amounts.weight,
    }
}

/// Adds the table of woods: green weight of each, gathered from its factor in use.
fn woods(graph: &mut Graph, inputs: &AllInputs, system: System) -> Column<Woods> {
    fixed_words::<Woods>(graph, "Wood", SPECIES);
    let cells = GREEN_WEIGHT_OF.map(|wood| Some(inputs.factors.of(wood).id.at(0)));
    let mut rules = graph.rules::<Woods>();
    rules.gathered("green weight", system.density(), cells.to_vec())
}

/// What the logs of a row amount to.
struct Logs {
    pieces: Column<Timber>,
    length: Column<Timber>,
    volume: Column<Timber>,
    one: Column<Timber>,
    weight: Column<Timber>,
}

/// Adds pieces, length, volume and green weight.
fn amounts(
    rules: &mut Rules<'_, Timber>,
    inputs: &AllInputs,
    green_weight: Column<Woods>,
    system: System,
) -> Logs {
    let pieces = inputs.number(Timber::TimberTimes).or(1.0);
    let pieces = rules.from_job("pieces", EACH, pieces);
    let length = inputs.number(Timber::TimberLength);
    let diameter = inputs.number(Timber::Diameter);
    let all = rules.geometry("length of all", system.length(), pieces * length);
    let volume = pi() / 4.0 * diameter * diameter * length;
    let unit = system.volume();
    let one = rules.geometry("volume of one", unit, volume);
    let volume = rules.geometry("volume of all", unit, pieces * one);
    let own = inputs.words(Timber::TimberSpecies);
    let usual = TextExpr::Fixed(SPECIES[0].to_owned());
    let species = rules.word_step("wood in use", either(own.blank(), usual, own.words()));
    let species: Link<Timber, Woods> = rules.link("wood row", species);
    let (unit, source) = (system.weight(), &sources::GREEN_WOOD);
    let weight = one * species.of(green_weight);
    let one = rules.step("green weight of one", unit, source, weight);
    let weight = rules.step("green weight of all", unit, source, pieces * one);
    Logs {
        pieces,
        length: all,
        volume,
        one,
        weight,
    }
}

/// What is bought and set: by the piece, by length, by volume or by weight.
fn bought_and_set(
    rules: &mut Rules<'_, Timber>,
    basis: &Basis<'_>,
    logs: &Logs,
) -> Supplied<Timber> {
    let inputs = basis.inputs;
    let material = inputs.words(Timber::TimberMaterial);
    let work = inputs.words(Timber::TimberWork);
    let amounts = Amounts {
        each: Some(logs.pieces),
        length: Some(logs.length),
        area: None,
        volume: Some(logs.volume),
        weight: Some(logs.weight),
    };
    let usual_grade = basis.wide.usual_grade;
    let grade = grade_in_use(rules, inputs, usual_grade, Timber::TimberGrade);
    let bought = Found {
        what: "logs",
        own: Some(material),
        usual: "Logs",
        at: material.id,
        missing: "these logs are not in Materials, so they have no price",
    };
    let setting = Found {
        what: "setting",
        own: Some(work),
        usual: "Set log",
        at: work.id,
        missing: "the work that sets these logs is not in Production rates",
    };
    let natural = (EACH, logs.pieces);
    supplied(
        rules,
        basis,
        (&bought, &setting),
        (&amounts, natural),
        grade,
    )
}

impl TimberColumns {
    /// Lines, in the order of the rows.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        (0..graph.rows(self.name.id))
            .map(|row| self.logs.named_line(row, ("Logs", self.name, "logs")))
            .collect()
    }
}

/// What a machine lifts: one log of each row.
pub(super) fn lifted(graph: &mut Graph) -> Vec<Lifted> {
    let name = graph.read(Timber::Log);
    let weight = graph.read(named::<Timber>("green weight of one"));
    let machine = graph.read(named::<Timber>("machine row"));
    let radius = graph.read(named::<Timber>("reach to it"));
    let at = graph.read(Timber::TimberLifted);
    let lifted = |row: usize| Lifted {
        name: vec![Piece::Cell(name.at(row))],
        weight: weight.at(row),
        machine: machine.at(row),
        radius: radius.at(row),
        at,
    };
    (0..graph.rows(name)).map(lifted).collect()
}
