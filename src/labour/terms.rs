//! Terms of partners: what a session of each brings and costs, whatever they do in it.
//!
//! Always true: nothing here rests on a scenario. Hours of people are hours of one person.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, Term, highest, lowest, when};
use crate::job::tables::{Crews, Equipment, PARTNER_KINDS, Partners};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::{H, MONEY, MONEY_H, ONE};

/// What a session of a partner brings and costs.
#[derive(Clone, Copy, Debug)]
pub struct Terms {
    /// How many are there, taken over all sessions.
    pub present: Column<Partners>,
    /// Hours of work in a session, of all who are there.
    pub work_of_session: Column<Partners>,
    /// Hours on site for one of work: what the briefing adds.
    pub on_site: Column<Partners>,
    /// Hours of work that all their sessions hold.
    pub capacity: Column<Partners>,
    /// What the hours for a unit are multiplied by with each doubling, as a power.
    pub learning: Column<Partners>,
    /// Cost of an hour of the lead.
    pub lead_rate: Column<Partners>,
    /// The crew that the lead is one of.
    pub lead: Link<Partners, Crews>,
    /// People in that crew.
    pub lead_people: Column<Partners>,
    /// Hours of the lead in a session.
    pub lead_hours: Column<Partners>,
    /// Hours of set-up for a session.
    pub set_up: Column<Partners>,
    /// Lead and set-up for one session.
    pub labor: Column<Partners>,
    /// Machines that stand in a session.
    pub equipment: Column<Partners>,
    /// What is paid and bought for a session.
    pub bought: Column<Partners>,
    /// Hours of the lead for training.
    pub training_lead: Column<Partners>,
    /// Lead for training, once.
    pub labor_once: Column<Partners>,
    /// Gear, insurance, admin and paid training, once.
    pub bought_once: Column<Partners>,
    /// What is paid for a session that nobody comes to.
    pub standby: Column<Partners>,
    /// What the client pays its own people for a session.
    pub wages: Column<Partners>,
    /// What the client pays its own people for training.
    pub wages_once: Column<Partners>,
    /// Hours of training of all of them.
    pub training: Column<Partners>,
    /// 1 for people who give their time.
    pub gives_time: Column<Partners>,
}

/// Adds the terms of partners, with what is open about them.
pub(super) fn terms(graph: &mut Graph, basis: &Basis<'_>) -> Terms {
    let mut rules = graph.rules::<Partners>();
    let attended = attended(&mut rules, basis);
    let lead = lead(&mut rules, basis, attended.present);
    let once = once(&mut rules, basis, (&lead, attended.present));
    let wages = wages(&mut rules, basis, attended.present);
    let inputs = basis.inputs;
    let hours = |field: Partners| inputs.number(field).or(0.0);
    let machine: Link<Partners, Equipment> =
        rules.link("idle machine row", inputs.words(Partners::IdleMachine));
    rules.must_find(inputs.words(Partners::IdleMachine), machine);
    let idle = inputs.number(Partners::IdleHours);
    let idle = idle.or(inputs.number(Partners::SessionHours)).counted_in(H);
    let idle = when(
        machine.found_none(),
        0.0,
        idle * machine.of(basis.production.machine_rate),
    );
    let on_site = attended.present * inputs.number(Partners::SessionHours);
    let paid = on_site.counted_in(H) * hours(Partners::Charge);
    let bought = paid + hours(Partners::Facilities);
    let gives_time = inputs.words(Partners::PartnerKind).is(PARTNER_KINDS[0]);
    Terms {
        present: attended.present,
        work_of_session: attended.work,
        on_site: attended.on_site,
        capacity: attended.capacity,
        learning: learning(&mut rules, basis),
        lead_rate: lead.rate,
        lead: lead.crew,
        lead_people: lead.people,
        lead_hours: lead.hours,
        set_up: lead.set_up,
        labor: lead.labor,
        equipment: rules.from_job("idle machine in a session", MONEY, idle),
        bought: rules.from_job("paid and bought for a session", MONEY, bought),
        training_lead: once.lead,
        labor_once: once.labor,
        bought_once: once.bought,
        standby: lead.standby,
        wages: wages.session,
        wages_once: wages.once,
        training: once.training,
        gives_time: rules.from_job("give their time", ONE, when(gives_time, 1.0, 0.0)),
    }
}

struct Attended {
    present: Column<Partners>,
    work: Column<Partners>,
    on_site: Column<Partners>,
    capacity: Column<Partners>,
}

/// Who is there, and how many hours of work a session holds when they have been briefed.
///
/// Limit: the briefing leaves some of the session.
fn attended(rules: &mut Rules<'_, Partners>, basis: &Basis<'_>) -> Attended {
    let inputs = basis.inputs;
    let attendance = inputs.number(Partners::Attendance);
    let attendance = attendance.or(factor(inputs, Factor::Attendance));
    let present = inputs.number(Partners::PartnerPeople) * attendance;
    let present = rules.step("there in a session", ONE, &sources::ATTENDANCE, present);
    let session = inputs.number(Partners::SessionHours);
    let briefing = inputs.number(Partners::Briefing);
    let left = session - briefing.or(0.0);
    let left = rules.from_job("hours left after briefing", ONE, left);
    let some_left = left.here().above(0.0);
    rules.limit(
        "briefing as long as the session",
        some_left.clone().negate(),
        Breach::fault(
            Code::OutOfRange,
            briefing.id,
            "the briefing takes the whole session, so that nothing is done in it",
            "write a briefing shorter than the session",
        ),
    );
    let work = (present * left).counted_in(H);
    let work = rules.from_job("hours of work in a session", H, work);
    let on_site = when(some_left, session / left, 1.0);
    let capacity = work * inputs.number(Partners::Sessions);
    Attended {
        present,
        work,
        on_site: rules.from_job("hours on site for one of work", ONE, on_site),
        capacity: rules.from_job("hours of work in all sessions", H, capacity),
    }
}

/// The power that the work done, counted in first sessions, is raised to for the mean hours
/// of a unit: the doublings of the ratio, zero or less.
fn learning(rules: &mut Rules<'_, Partners>, basis: &Basis<'_>) -> Column<Partners> {
    let ratio = basis.inputs.number(Partners::Learning).or(PERCENT_ALL);
    let power = ratio.doublings();
    rules.step("power of learning", ONE, &sources::LEARNING, power)
}

/// All of it, for a percentage that is left blank.
const PERCENT_ALL: f64 = 1.0;

struct Lead {
    crew: Link<Partners, Crews>,
    people: Column<Partners>,
    rate: Column<Partners>,
    hours: Column<Partners>,
    set_up: Column<Partners>,
    labor: Column<Partners>,
    standby: Column<Partners>,
}

/// The lead beside them: hours in a session, what an hour costs, and what is paid where
/// nobody comes.
///
/// Limit: volunteers and hired people have a lead.
fn lead(rules: &mut Rules<'_, Partners>, basis: &Basis<'_>, present: Column<Partners>) -> Lead {
    let inputs = basis.inputs;
    let named = inputs.words(Partners::LeadCrew);
    let crew: Link<Partners, Crews> = rules.link("lead row", named);
    rules.must_find(named, crew);
    rules.limit(
        "nobody leads them",
        crew.found_none(),
        Breach::open(
            Code::MissingValue,
            named.id,
            "nobody of the crew stands beside them, so their work is led at no cost",
            "name the crew that the lead is one of",
        ),
    );
    let people = crew.of(inputs.number(Crews::People));
    let people = rules.from_job("people in the lead's crew", ONE, people);
    let rate = when(
        people.here().above(0.0),
        crew.of(basis.production.crew_rate) / people,
        0.0,
    );
    let rate = rules.from_job("cost of an hour of the lead", MONEY_H, rate);
    let least = inputs.number(Partners::LeadHours);
    let least = least.or(inputs.number(Partners::SessionHours));
    let per_head = inputs.number(Partners::LeadPerHead).or(0.0) * present;
    let hours = when(crew.found_none(), 0.0, highest(least, per_head));
    let hours = rules.from_job("hours of the lead in a session", H, hours.counted_in(H));
    let set_up = inputs.number(Partners::SetUp).or(0.0).counted_in(H);
    let set_up = rules.from_job("hours of set-up in a session", H, set_up);
    let both = hours + set_up;
    let labor = rules.from_job("lead and set-up of a session", MONEY, both.clone() * rate);
    let standby = inputs.number(Partners::Standby);
    let standby = standby.or(both.number_in(H)).counted_in(H) * rate;
    Lead {
        crew,
        people,
        rate,
        hours,
        set_up,
        labor,
        standby: rules.from_job("standby for a session", MONEY, standby),
    }
}

struct Once {
    lead: Column<Partners>,
    labor: Column<Partners>,
    bought: Column<Partners>,
    training: Column<Partners>,
}

/// What is done and paid once: training of those who come, led as a session is, and paid for
/// where their hours are; gear for all who signed up; insurance.
fn once(
    rules: &mut Rules<'_, Partners>,
    basis: &Basis<'_>,
    (lead, present): (&Lead, Column<Partners>),
) -> Once {
    let inputs = basis.inputs;
    let people = inputs.number(Partners::PartnerPeople);
    let each = inputs.number(Partners::Training).or(0.0);
    let of_session = lead.hours / inputs.number(Partners::SessionHours);
    let teaching = rules.from_job(
        "hours of the lead for training",
        H,
        each.clone() * of_session,
    );
    let labor = rules.from_job("lead for training", MONEY, teaching * lead.rate);
    let training = (each * present).counted_in(H);
    let training = rules.from_job("hours of training", H, training);
    let charge = training * inputs.number(Partners::Charge).or(0.0);
    let gear = inputs.number(Partners::Gear).or(0.0) * people;
    let bought = gear + inputs.number(Partners::Insurance).or(0.0) + charge;
    Once {
        lead: teaching,
        labor,
        bought: rules.from_job("gear, insurance and paid training", MONEY, bought),
        training,
    }
}

struct Wages {
    session: Column<Partners>,
    once: Column<Partners>,
}

/// What the client pays its own staff for a session, with overtime, and for training.
///
/// Limit: the client's staff have a wage.
fn wages(rules: &mut Rules<'_, Partners>, basis: &Basis<'_>, present: Column<Partners>) -> Wages {
    let inputs = basis.inputs;
    let kind = inputs.words(Partners::PartnerKind);
    let wage = inputs.number(Partners::PartnerWage);
    rules.limit(
        "staff without a wage",
        kind.is(PARTNER_KINDS[1]).and(wage.blank()),
        Breach::open(
            Code::MissingPrice,
            wage.id,
            "the client's own staff are paid, and their wage is not written",
            "write their wage: paid staff are not free",
        ),
    );
    let hour = wage.or(0.0) * (1.0 + inputs.number(Partners::PartnerBurden).or(0.0));
    let hour = when(kind.is(PARTNER_KINDS[1]), hour, 0.0);
    let hour = rules.from_job("wage with burden", MONEY_H, hour);
    let session = inputs.number(Partners::SessionHours);
    let after = inputs.number(Partners::OvertimeAfter);
    let plain: Term<Partners> = lowest(session, after.or(session));
    let more = inputs.number(Partners::OvertimePay);
    let more = more.or(factor(inputs, Factor::OvertimePay));
    let paid = plain.clone() + (session - plain) * more;
    let paid = rules.step(
        "hours paid for in a session",
        H,
        &sources::OVERTIME,
        paid.counted_in(H),
    );
    let once = inputs.number(Partners::Training).or(0.0).counted_in(H);
    let once = once * present * hour;
    Wages {
        session: rules.from_job("wages of a session", MONEY, present * paid * hour),
        once: rules.from_job("wages of training", MONEY, once),
    }
}
