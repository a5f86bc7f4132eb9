//! Hours of each work, crew and machine, and what is open about their rates.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Rules, only, when};
use crate::job::Fields;
use crate::job::tables::{Crews, Equipment, Partners, ProductionRates as Works, QuickMeasure};
use crate::labour::compared::scenarios;
use crate::labour::{parties, terms};
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Lines, Parties};
use crate::takeoff::basis::Basis;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::production::Production;
use crate::units::{H, ONE};

/// Hours of crews and machines.
#[derive(Clone, Copy, Debug)]
pub struct Hours {
    /// Hours of each crew.
    pub crews: Column<Crews>,
    /// Hours of each machine.
    pub machines: Column<Equipment>,
    /// Hours of the crew on each work.
    pub work_crew: Column<Works>,
    /// Hours of the machine on each work.
    pub work_machine: Column<Works>,
}

/// Adds hours by work, crew and machine.
pub(super) fn hours(graph: &mut Graph, basis: &Basis<'_>, lines: &LineColumns) -> Hours {
    let (inputs, production) = (basis.inputs, basis.production);
    let mut rules = graph.rules::<Works>();
    let mut sum = |name: &str, hours: Column<Lines>| {
        rules.step(name, H, &sources::MAN_HOURS, lines.work.sum(hours))
    };
    let work_crew = sum("hours of the crew", lines.crew_hours);
    let work_machine = sum("hours of the machine", lines.machine_hours);
    work_limit(&mut rules, inputs, lines, production);
    let leads = (scenarios(graph) > 0).then(|| leads(graph));
    let mut rules = graph.rules::<Crews>();
    let of_lines = production.crew_of.sum(work_crew);
    let crews = match leads {
        None => of_lines,
        Some(leads) => of_lines + leads,
    };
    let crews = rules.arithmetic("hours", H, crews);
    let wages = (Crews::Wage, Crews::PlugWage);
    rate_limits(&mut rules, inputs, wages, crews);
    let mut rules = graph.rules::<Equipment>();
    let machines = production.machine_of.sum(work_machine);
    let machines = rules.arithmetic("hours", H, machines);
    let rates = (Equipment::Rate, Equipment::PlugRate);
    rate_limits(&mut rules, inputs, rates, machines);
    gate_limit(&mut rules, inputs, machines);
    Hours {
        crews,
        machines,
        work_crew,
        work_machine,
    }
}

/// Hours that leads of each crew stand beside partners and set up for them in this bid, counted as those of the
/// whole crew.
fn leads(graph: &mut Graph) -> Column<Crews> {
    let mut rules = graph.rules::<Parties>();
    let set_up = parties::SESSIONS * parties::PARTNER.of(terms::SET_UP);
    let hours = when(
        parties::IN_USE.above(0.0),
        parties::LEAD_HOURS + set_up,
        0.0,
    );
    let hours = rules.arithmetic("hours of lead and set-up in use", H, hours);
    let mut rules = graph.rules::<Partners>();
    let people = terms::LEAD_PEOPLE;
    let of_crew = parties::PARTNER.sum(hours) / people;
    let of_crew = when(people.above(0.0), of_crew, 0.0);
    let of_crew = rules.arithmetic("hours of the lead's crew in this bid", H, of_crew);
    let mut rules = graph.rules::<Crews>();
    rules.arithmetic("hours beside partners", H, terms::LEAD.sum(of_crew))
}

/// Limits: a work that lines use has a crew or a machine, and each that is named has an output.
fn work_limit(
    rules: &mut Rules<'_, Works>,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) {
    let quantity = lines.work.sum(lines.quantity);
    let quantity = rules.arithmetic("lines of this work", ONE, quantity);
    let used = quantity.here().above(0.0);
    let (crew, machine) = (production.crew_of, production.machine_of);
    let (by_crew, by_machine) = (
        inputs.number(Works::CrewOutput),
        inputs.number(Works::MachineOutput),
    );
    rules.limit(
        "work without crew or machine",
        used.clone()
            .and(crew.found_none())
            .and(machine.found_none()),
        Breach::open(
            Code::MissingRate,
            by_crew.id,
            "nobody does this work: it names no crew and no machine",
            "write a crew with its output, or a machine with its output or its cycle",
        ),
    );
    let none = |output: Column<Works>| output.here().above(0.0).negate();
    rules.limit(
        "crew without an output",
        used.clone()
            .and(crew.found_none().negate())
            .and(none(production.crew_output)),
        Breach::open(
            Code::MissingRate,
            by_crew.id,
            "a crew is named, and not how much it does in an hour, so it costs nothing",
            "write its Crew output, or leave Crew blank",
        ),
    );
    let crewless = crew.found_none().and(by_crew.filled());
    let machineless = machine.found_none().and(by_machine.filled());
    rules.limit(
        "output without a crew or machine",
        used.clone().and(crewless.or(machineless)),
        Breach::open(
            Code::MissingRate,
            by_crew.id,
            "an output is written, and not who or what gives it, so it costs nothing",
            "name the Crew of a Crew output, and the Machine of a Machine output",
        ),
    );
    rules.limit(
        "machine without an output",
        used.and(machine.found_none().negate()).and(none(production.machine_output)),
        Breach::open(
            Code::MissingRate,
            by_machine.id,
            "a machine is named, and neither its output nor its cycle gives one, so it costs nothing",
            "write its Machine output, or what it Carries and its Cycle; or leave Machine blank",
        ),
    );
}

/// Limit: a machine that is used passes the gate that the quick page tells of.
fn gate_limit(rules: &mut Rules<'_, Equipment>, inputs: &AllInputs, hours: Column<Equipment>) {
    let width = inputs.number(Equipment::MachineWidth);
    let gate = inputs.number(QuickMeasure::QuickGate);
    let known = width.filled().and(only::<Equipment, _>(gate).above(0.0));
    let used = hours.here().above(0.0);
    rules.limit(
        "machine wider than the gate",
        used.and(known).and(width.here().above(only(gate))),
        Breach::open(
            Code::GateTooNarrow,
            width.id,
            "this machine is wider than the gate",
            "choose a narrower machine, or price another way in",
        ),
    );
}

/// Limits: what has hours has a rate, and not only a plug.
fn rate_limits<T: Fields>(
    rules: &mut Rules<'_, T>,
    inputs: &AllInputs,
    (rate, plug): (T, T),
    hours: Column<T>,
) {
    let (rate, plug) = (inputs.number(rate), inputs.number(plug));
    let used = hours.here().above(0.0);
    rules.limit(
        "rate on a plug",
        rate.blank().and(plug.filled()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            rate.id,
            "this rate is a plug",
            "write the rate when it is known; until then the bid is a draft",
        )
        .meaning(Meaning::StandsIn),
    );
    rules.limit(
        "no rate",
        rate.blank().and(plug.blank()).and(used),
        Breach::open(
            Code::MissingPrice,
            rate.id,
            "this has hours and no rate, so it is excluded",
            "write a rate, or a plug rate to stand in",
        ),
    );
}
