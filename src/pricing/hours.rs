//! Hours of each work, crew and machine, and what is open about their rates.

use super::lines::{LineColumns, Lines};
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Rules};
use crate::job::Fields;
use crate::job::tables::{Crews, Equipment, ProductionRates as Works};
use crate::sources;
use crate::takeoff::inputs::{AllInputs, Inputs};
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
pub(super) fn hours(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) -> Hours {
    let mut rules = graph.rules::<Works>();
    let mut sum = |name: &str, hours: Column<Lines>| {
        rules.step(name, H, &sources::MAN_HOURS, lines.work.sum(hours))
    };
    let work_crew = sum("hours of the crew", lines.crew_hours);
    let work_machine = sum("hours of the machine", lines.machine_hours);
    work_limit(&mut rules, inputs, lines, production);
    let mut rules = graph.rules::<Crews>();
    let crews = production.crew_of.sum(work_crew);
    let crews = rules.arithmetic("hours", H, crews);
    let wages = (Crews::Wage, Crews::PlugWage);
    rate_limits(&mut rules, &inputs.crews, wages, crews);
    let mut rules = graph.rules::<Equipment>();
    let machines = production.machine_of.sum(work_machine);
    let machines = rules.arithmetic("hours", H, machines);
    let rates = (Equipment::Rate, Equipment::PlugRate);
    rate_limits(&mut rules, &inputs.equipment, rates, machines);
    Hours {
        crews,
        machines,
        work_crew,
        work_machine,
    }
}

/// Limit: a work that lines use has a crew or a machine with an output.
fn work_limit(
    rules: &mut Rules<'_, Works>,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) {
    let quantity = lines.work.sum(lines.quantity);
    let quantity = rules.arithmetic("lines of this work", ONE, quantity);
    let none = |output: Column<Works>| output.here().above(0.0).negate();
    let idle = none(production.crew_output).and(none(production.machine_output));
    rules.limit(
        "work without crew or machine",
        quantity.here().above(0.0).and(idle),
        Breach::open(
            Code::MissingRate,
            inputs.works.number(Works::CrewOutput).id,
            "nobody does this work; it has no crew with an output and no machine with an output or a cycle",
            "write a crew with its output, or a machine with its output or its cycle",
        ),
    );
}

/// Limits: what has hours has a rate, and not only a plug.
fn rate_limits<T: Fields>(
    rules: &mut Rules<'_, T>,
    inputs: &Inputs<T>,
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
        ),
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
