//! Hours of each work, crew and machine, and what is open about their rates.

use super::lines::LineColumns;
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Rules, Table};
use crate::job::tables::{Crews, Equipment, ProductionRates as Works};
use crate::sources;
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
pub(super) fn hours(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) -> Hours {
    let mut rules = graph.rules::<Works>();
    let work_crew = rules.step(
        "hours of the crew",
        H,
        &sources::MAN_HOURS,
        lines.work.sum(lines.crew_hours),
    );
    let work_machine = rules.step(
        "hours of the machine",
        H,
        &sources::MAN_HOURS,
        lines.work.sum(lines.machine_hours),
    );
    let quantity = rules.step(
        "lines of this work",
        ONE,
        &sources::ARITHMETIC,
        lines.work.sum(lines.quantity),
    );
    let idle = production
        .crew_output
        .here()
        .above(0.0)
        .negate()
        .and(production.machine_output.here().above(0.0).negate());
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
    let mut rules = graph.rules::<Crews>();
    let crews = rules.step(
        "hours",
        H,
        &sources::ARITHMETIC,
        production.crew_of.sum(work_crew),
    );
    let (wage, plug) = (
        inputs.crews.number(Crews::Wage),
        inputs.crews.number(Crews::PlugWage),
    );
    rate_limits(&mut rules, (wage, plug), crews);
    let mut rules = graph.rules::<Equipment>();
    let machines = rules.step(
        "hours",
        H,
        &sources::ARITHMETIC,
        production.machine_of.sum(work_machine),
    );
    let (rate, plug) = (
        inputs.equipment.number(Equipment::Rate),
        inputs.equipment.number(Equipment::PlugRate),
    );
    rate_limits(&mut rules, (rate, plug), machines);
    Hours {
        crews,
        machines,
        work_crew,
        work_machine,
    }
}

fn rate_limits<T: Table>(
    rules: &mut Rules<'_, T>,
    (rate, plug): (Column<T>, Column<T>),
    hours: Column<T>,
) {
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
