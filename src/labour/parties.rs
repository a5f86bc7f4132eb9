//! Parties: one partner in one scenario, with the sessions it takes and what they cost.
//!
//! Always true: sessions cost by the hours that are used of them; what is paid once is paid
//! where the partner works at all; what is given is never part of a cost.

use super::rows_meant;
use super::sharing::Sharing;
use super::tasks::TaskColumns;
use super::terms::Terms;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Cell, Column, Graph, Link, Piece, Rules, Solve, Text, only, when};
use crate::job::tables::{JobKeys, PARTNER_KINDS, Partners, Scenarios, YES_NO};
use crate::pricing::cents;
use crate::sources;
use crate::tables::{Compared, Parties, Tasks};
use crate::takeoff::basis::Basis;
use crate::takeoff::line::fixed;
use crate::units::{DATE, H, MONEY, ONE};

/// Which partner in which scenario.
#[derive(Clone, Copy, Debug)]
pub struct Party {
    /// Its name: scenario and partner.
    pub name: Text<Parties>,
    /// The scenario.
    pub scenario: Link<Parties, Compared>,
    /// The partner.
    pub partner: Link<Parties, Partners>,
    /// 1 where its scenario is in use.
    pub in_use: Column<Parties>,
    /// 1 where it is, and the partner is given work in it.
    pub at_work: Column<Parties>,
}

/// Adds the parties.
pub(super) fn party(
    graph: &mut Graph,
    basis: &Basis<'_>,
    sharing: &Sharing,
    chosen: Column<JobKeys>,
) -> Party {
    let scenarios = basis.inputs.id(Scenarios::Scenario);
    let partners = basis.inputs.id(Partners::Partner);
    graph.add_table::<Parties>(sharing.parties.len());
    let mut rules = graph.rules::<Parties>();
    let name = |(scenario, partner): &(usize, usize)| {
        let scenario = Piece::Cell(scenarios.at(*scenario));
        vec![scenario, fixed(" / "), Piece::Cell(partners.at(*partner))]
    };
    let names = sharing.parties.iter().map(name).collect();
    let name = rules.gathered_words("partner in a scenario", names);
    rules.labelled_by(name);
    let scenario = sharing.parties.iter().map(|(scenario, _)| scenario + 1);
    let scenario: Link<Parties, Compared> = rows_meant(&mut rules, "scenario row", scenario, &[]);
    let partner = sharing.parties.iter().map(|(_, partner)| *partner);
    let partner = rows_meant(&mut rules, "partner row", partner, &[]);
    let same = Column::<Parties>::new(scenario.id).here();
    let in_use = when(same.same_as(only(chosen)), 1.0, 0.0);
    let in_use = rules.from_job("in use", ONE, in_use);
    let works = sharing.parties.iter().map(|(scenario, partner)| {
        let mut tasks = sharing.tasks.iter();
        let own = tasks.any(|task| task.scenario == *scenario && task.partner == *partner);
        f64::from(u8::from(own))
    });
    let works = works.collect();
    let works = rules.solved(
        "is given work",
        ONE,
        &sources::JOB,
        Solve::fixed(Vec::new(), works),
    );
    Party {
        name,
        scenario,
        partner,
        in_use,
        at_work: rules.from_job("at work", ONE, in_use * works),
    }
}

/// What each partner gives, takes and costs in each scenario.
#[derive(Clone, Copy, Debug)]
pub struct PartyColumns {
    /// Labor of the crew that is displaced.
    pub displaced: Column<Parties>,
    /// Equipment of ours that is displaced.
    pub equipment_displaced: Column<Parties>,
    /// Hours of work of its people.
    pub hours: Column<Parties>,
    /// Sessions, as used.
    pub sessions: Column<Parties>,
    /// Sessions held: whole ones.
    pub held: Column<Parties>,
    /// Hours on site, training included.
    pub on_site: Column<Parties>,
    /// Of those, hours that are given.
    pub donated: Column<Parties>,
    /// What given hours are worth.
    pub donated_value: Column<Parties>,
    /// Hours that the client pays its own staff for.
    pub staff_hours: Column<Parties>,
    /// What the client pays its own staff.
    pub staff_pay: Column<Parties>,
    /// Hours of the lead, training included.
    pub lead_hours: Column<Parties>,
    /// Of the hours on site, training.
    pub training: Column<Parties>,
    /// Labor that is added: lead, set-up, training, work done again.
    pub labor: Column<Parties>,
    /// Equipment that is added: machines that stand.
    pub equipment: Column<Parties>,
    /// What is paid and bought.
    pub bought: Column<Parties>,
    /// What is paid once, whatever is done.
    pub once: Column<Parties>,
    /// Fair rent of tools and machines that they bring.
    pub tools_value: Column<Parties>,
    /// What it costs more where nobody of them comes at all.
    pub nobody_comes: Column<Parties>,
    /// Working days from the start of the job to the first of its work.
    pub first_day: Column<Parties>,
    /// Last day to decide whether the crew steps in; zero where no start is written.
    pub decide_by: Column<Parties>,
}

/// Adds what each party gives, takes and costs, from its tasks.
pub(super) fn parties(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (party, terms): (&Party, &Terms),
    task: &TaskColumns,
) -> PartyColumns {
    let first = first_days(graph, basis, party, task);
    let mut rules = graph.rules::<Parties>();
    let sums = sums(&mut rules, task);
    let given = given(&mut rules, basis, (party, terms), &sums);
    let partner = party.partner;
    let at_work = sums.hours.here().above(0.0);
    let once = |amount: Column<Partners>| cents(when(at_work.clone(), partner.of(amount), 0.0));
    let labor_once = once(terms.labor_once);
    let labor_once = rules.from_job("lead for training", MONEY, labor_once);
    let bought_once = once(terms.bought_once);
    let bought_once = rules.from_job("gear, insurance and paid training", MONEY, bought_once);
    let premium = 1.0 + partner.of(basis.inputs.number(Partners::MakeGood));
    let spared = sums.labor + sums.equipment + sums.bought + sums.waste;
    let missed = sums.displaced * premium + sums.equipment_displaced - spared
        + given.sessions * partner.of(terms.standby);
    let columns = PartyColumns {
        displaced: sums.displaced,
        equipment_displaced: sums.equipment_displaced,
        hours: sums.hours,
        sessions: given.sessions,
        held: given.held,
        on_site: given.on_site,
        donated: given.donated,
        donated_value: given.value,
        staff_hours: given.staff_hours,
        staff_pay: given.staff_pay,
        lead_hours: given.lead_hours,
        training: given.training,
        labor: rules.arithmetic("labor added", MONEY, cents(sums.labor + labor_once)),
        equipment: rules.arithmetic("equipment added", MONEY, cents(sums.equipment.here())),
        bought: rules.arithmetic("paid and bought", MONEY, cents(sums.bought + bought_once)),
        once: rules.arithmetic("paid once", MONEY, cents(labor_once + bought_once)),
        tools_value: given.tools_value,
        nobody_comes: rules.from_job("more if nobody comes", MONEY, cents(missed)),
        first_day: first.0,
        decide_by: first.1,
    };
    limits(&mut rules, basis, (party, terms), &columns);
    columns
}

/// Sums over the tasks of a party.
struct Sums {
    displaced: Column<Parties>,
    equipment_displaced: Column<Parties>,
    machine_hours: Column<Parties>,
    hours: Column<Parties>,
    labor: Column<Parties>,
    equipment: Column<Parties>,
    bought: Column<Parties>,
    waste: Column<Parties>,
}

/// Adds up the tasks of each party.
fn sums(rules: &mut Rules<'_, Parties>, task: &TaskColumns) -> Sums {
    let mut sum =
        |name: &str, unit, of: Column<Tasks>| rules.arithmetic(name, unit, task.party.sum(of));
    Sums {
        displaced: sum("labor displaced", MONEY, task.labor_displaced),
        equipment_displaced: sum("equipment displaced", MONEY, task.equipment_displaced),
        machine_hours: sum("machine hours displaced", H, task.machine_hours),
        hours: sum("hours of work", H, task.partner_hours),
        labor: sum("labor of sessions", MONEY, task.labor),
        equipment: sum("machines that stand", MONEY, task.equipment),
        bought: sum("paid and bought for sessions", MONEY, task.bought),
        waste: sum("extra material", MONEY, task.material),
    }
}

/// Sessions and hours of a party, and what they are worth and paid.
struct Given {
    sessions: Column<Parties>,
    held: Column<Parties>,
    training: Column<Parties>,
    on_site: Column<Parties>,
    donated: Column<Parties>,
    value: Column<Parties>,
    staff_hours: Column<Parties>,
    staff_pay: Column<Parties>,
    lead_hours: Column<Parties>,
    tools_value: Column<Parties>,
}

/// Adds sessions and hours: those on site are those of work with the briefing, and training;
/// volunteers give them, the client pays its own staff for them.
fn given(
    rules: &mut Rules<'_, Parties>,
    basis: &Basis<'_>,
    (party, terms): (&Party, &Terms),
    sums: &Sums,
) -> Given {
    let (inputs, partner) = (basis.inputs, party.partner);
    let at_work = sums.hours.here().above(0.0);
    let once = |of: Column<Partners>| when(at_work.clone(), partner.of(of), 0.0);
    let session = partner.of(terms.work_of_session);
    let sessions = when(session.clone().above(0.0), sums.hours / session, 0.0);
    let sessions = rules.from_job("sessions used", ONE, sessions);
    let training = rules.from_job("hours of training", H, once(terms.training));
    let on_site = sums.hours * partner.of(terms.on_site) + training;
    let on_site = rules.from_job("hours on site", H, on_site);
    let gives = partner.of(terms.gives_time).above(0.0);
    let donated = rules.from_job("hours given", H, when(gives, on_site, 0.0));
    let value = cents(donated * partner.of(inputs.number(Partners::InKindRate)));
    let kind = partner.words_of(inputs.words(Partners::PartnerKind));
    let kind = rules.word_step("kind", kind);
    let staff_hours = when(kind.is(PARTNER_KINDS[1]), on_site, 0.0);
    let pay = sessions * partner.of(terms.wages) + once(terms.wages_once);
    let lead_hours = sessions * partner.of(terms.lead_hours) + once(terms.training_lead);
    let tools = sessions * partner.of(inputs.number(Partners::ToolsValue))
        + sums.machine_hours * partner.of(inputs.number(Partners::MachineRent));
    let in_kind = &sources::IN_KIND;
    Given {
        sessions,
        held: rules.from_job("sessions held", ONE, sessions.here().round_up()),
        training,
        on_site,
        donated,
        value: rules.step("value of hours given", MONEY, in_kind, value),
        staff_hours: rules.from_job("hours of the client's staff", H, staff_hours),
        staff_pay: rules.from_job("pay of the client's staff", MONEY, cents(pay)),
        lead_hours: rules.from_job("hours of the lead", H, lead_hours),
        tools_value: rules.step("value of tools", MONEY, in_kind, cents(tools)),
    }
}

/// Working days from the start of the job to the first line of a party, one line after the
/// other, and the last day to decide: that day by the calendar, less the notice.
fn first_days(
    graph: &mut Graph,
    basis: &Basis<'_>,
    party: &Party,
    task: &TaskColumns,
) -> (Column<Parties>, Column<Parties>) {
    let first: Vec<Option<Cell>> = task.first_of_party.clone();
    let mut rules = graph.rules::<Parties>();
    let before = rules.gathered("hours of work before it", H, first);
    let days = before.here().number_in(H) / only(basis.wide.hours_a_day);
    let days = rules.from_job("working days before it", ONE, days.round_down());
    let by_calendar = (days * only(basis.wide.by_calendar)).round_down();
    let start = basis.inputs.number(JobKeys::StartDate);
    let notice = party.partner.of(basis.inputs.number(Partners::Notice));
    let day = only::<Parties, JobKeys>(start).number_in(DATE) + by_calendar - notice;
    let known = only::<Parties, JobKeys>(start).above(0.0);
    let day = when(known, day.counted_in(DATE), 0.0);
    (
        days,
        rules.step("last day to decide", DATE, &sources::CALENDAR, day),
    )
}

/// Limits: the sessions hold the work; minors and values are thought of.
fn limits(
    rules: &mut Rules<'_, Parties>,
    basis: &Basis<'_>,
    (party, terms): (&Party, &Terms),
    columns: &PartyColumns,
) {
    let inputs = basis.inputs;
    let capacity = party.partner.of(terms.capacity);
    let capacity = rules.from_job("hours that its sessions hold", H, capacity);
    rules.limit(
        "hours overdrawn",
        columns.hours.here().above(capacity),
        Breach::fault(
            Code::HoursOverdrawn,
            inputs.id(Partners::Sessions),
            "this partner is given more work than its sessions hold",
            "give it less, more people or more sessions",
        ),
    );
    let minors = party.partner.words_of(inputs.words(Partners::Minors));
    let minors = rules.word_step("minors", minors);
    let at_work = columns.hours.here().above(0.0);
    rules.limit(
        "minors at work",
        minors.is(YES_NO[0]).and(at_work.clone()),
        Breach::caution(
            Code::LabourLaw,
            inputs.id(Partners::Minors),
            "minors are among them",
            "see what local law lets minors do, for how long and under whose eyes, and ask their guardians and the insurer",
        ),
    );
    let rate = inputs.number(Partners::InKindRate);
    let rate = rules.from_job(
        "in-kind rate in use",
        crate::units::MONEY_H,
        party.partner.of(rate),
    );
    let wanted = only::<Parties, JobKeys>(inputs.number(JobKeys::MatchingShare)).above(0.0);
    rules.limit(
        "given hours without a value",
        columns
            .donated
            .here()
            .above(0.0)
            .and(rate.here().same_as(0.0))
            .and(wanted),
        Breach::open(
            Code::MissingPrice,
            inputs.id(Partners::InKindRate),
            "a match is wanted, and the hours that they give have no value",
            "write the in-kind rate and the rule that it comes from",
        ),
    );
}
