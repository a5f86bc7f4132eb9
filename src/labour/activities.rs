//! Activities: each line that is worked, with who and what works it, how fast, and what can
//! hurt the untrained in it.
//!
//! Always true: a hazard that is written counts; else what is usual in a work of a usual
//! name; else a machine makes it work with machines; else it is not known.

use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Link, Text, TextExpr, either};
use crate::job::tables::{Crews, Equipment, HAZARDS, ProductionRates as Works};
use crate::pricing::lines::LineColumns;
use crate::tables::{Lines, UsualWorks};
use crate::takeoff::basis::Basis;
use crate::takeoff::inputs::fixed_words;
use crate::takeoff::usual;
use crate::units::{ONE, PER_H};

/// What is said of a work whose hazard nobody stated.
pub const NOT_STATED: &str = "not stated";

/// Who and what works each line.
#[derive(Clone, Copy, Debug)]
pub struct ActivityColumns {
    /// What can hurt the untrained in each work.
    pub work_hazard: Text<Works>,
    /// The crew of a line.
    pub crew: Text<Lines>,
    /// People in that crew.
    pub people: Column<Lines>,
    /// Units that the crew does in an hour.
    pub crew_output: Column<Lines>,
    /// The machine of a line.
    pub machine: Text<Lines>,
    /// Units that the machine does in an hour.
    pub machine_output: Column<Lines>,
    /// What can hurt the untrained in a line.
    pub hazard: Text<Lines>,
}

/// Adds who and what works each line.
pub fn activities(graph: &mut Graph, basis: &Basis<'_>, lines: &LineColumns) -> ActivityColumns {
    let work_hazard = hazards(graph, basis);
    let (inputs, production) = (basis.inputs, basis.production);
    let mut rules = graph.rules::<Works>();
    let crew = production.crew_of.words_of(inputs.words(Crews::Crew));
    let crew = rules.word_step("crew in use", crew);
    let machine = production.machine_of;
    let machine = machine.words_of(inputs.words(Equipment::Machine));
    let machine = rules.word_step("machine in use", machine);
    let people = production.crew_of.of(inputs.number(Crews::People));
    let people = rules.from_job("people in the crew", ONE, people);
    let mut rules = graph.rules::<Lines>();
    let work = lines.work;
    ActivityColumns {
        work_hazard,
        crew: rules.word_step("crew", work.words_of(crew)),
        people: rules.from_job("people in the crew", ONE, work.of(people)),
        crew_output: rules.from_job("crew output", PER_H, work.of(production.crew_output)),
        machine: rules.word_step("machine", work.words_of(machine)),
        machine_output: rules.from_job("machine output", PER_H, work.of(production.machine_output)),
        hazard: rules.word_step("hazard", work.words_of(work_hazard)),
    }
}

/// What can hurt the untrained in each work.
fn hazards(graph: &mut Graph, basis: &Basis<'_>) -> Text<Works> {
    let (names, classes): (Vec<&str>, Vec<&str>) = usual::hazards(basis.system).unzip();
    fixed_words::<UsualWorks>(graph, "usual work", &names);
    let classes = classes.into_iter().map(Into::into).collect();
    let mut rules = graph.rules::<UsualWorks>();
    let class = rules.words("usual hazard", false, classes);
    let inputs = basis.inputs;
    let mut rules = graph.rules::<Works>();
    let usual: Link<Works, UsualWorks> = rules.link("usual work row", inputs.words(Works::Work));
    let usual = rules.word_step("usual hazard", usual.words_of(class));
    let written = inputs.words(Works::Hazard);
    let says = |words: &str| TextExpr::Fixed(words.to_owned());
    let [by_hand, machines, ..] = [HAZARDS[0], HAZARDS[1]];
    let by_machine = basis.production.machine_of.found_none().negate();
    let otherwise = either(usual.blank(), says(NOT_STATED), says(by_hand));
    let otherwise = either(by_machine, says(machines), otherwise);
    let is_usual = usual.blank().or(usual.is(by_hand)).negate();
    let class = either(is_usual, usual.words(), otherwise);
    let class = either(written.blank().negate(), written.words(), class);
    rules.word_step("hazard in use", class)
}
