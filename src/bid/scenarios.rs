//! Scenarios side by side: cost, bid, hours, days, what is given and what the client pays.
//!
//! Always true: the scenario without partners is the plain bid; what is given is valued
//! beside the cost and is never part of a saving; a unit-price bid is compared before its
//! unit prices are rounded.

use super::Cost;
use super::mark_ups::{BID, Chain, MarkUpColumns, Solved, Whole};
use super::rows_meant;
use super::scenario_orders::ScenarioOrderColumns;
use crate::graph::prelude::*;
use crate::graph::{
    Column, Graph, Link, Piece, Rules, Term, Text, TextExpr, either, first, highest, only, total,
    when,
};
use crate::job::tables::{HELD, JobKeys, MarkUps, Scenarios};
use crate::labour::{compared, materials, parties, tasks};
use crate::pricing::cents;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Bid, Compared, Lines, Parties, ScenarioMarkUps, Tasks};
use crate::takeoff::basis::Basis;
use crate::takeoff::bill::fixed;
use crate::units::{H, MONEY, ONE, PERCENT};

/// Scenarios side by side; every figure is of a whole scenario.
#[derive(Clone, Copy, Debug)]
pub struct ComparedColumns {
    /// Name of the scenario.
    pub scenario: Text<Compared>,
    /// Direct cost.
    pub direct: Column<Compared>,
    /// Overhead, profit and all other mark-ups.
    pub mark_ups: Column<Compared>,
    /// The bid, before unit prices are rounded.
    pub bid: Column<Compared>,
    /// The bid with the crew alone, less this one.
    pub saving: Column<Compared>,
    /// Hours of crews.
    pub crew_hours: Column<Compared>,
    /// Hours of crews that are displaced.
    pub crew_hours_displaced: Column<Compared>,
    /// The same, counted by person.
    pub person_hours_displaced: Column<Compared>,
    /// Hours that are given.
    pub donated: Column<Compared>,
    /// What they are worth.
    pub donated_value: Column<Compared>,
    /// Hours of leads.
    pub lead_hours: Column<Compared>,
    /// Hours of training.
    pub training: Column<Compared>,
    /// Hours of the client's staff.
    pub staff_hours: Column<Compared>,
    /// Sessions held.
    pub sessions: Column<Compared>,
    /// Hours of our work, one line after the other.
    pub our_hours: Column<Compared>,
    /// Working days, one line after the other, a day for a session.
    pub working_days: Column<Compared>,
    /// Working days more than with the crew alone.
    pub days_more: Column<Compared>,
    /// What the client pays its own staff.
    pub staff_pay: Column<Compared>,
    /// The bid and the pay of the client's staff.
    pub whole_cost: Column<Compared>,
    /// What brought materials are worth.
    pub brought_value: Column<Compared>,
    /// What tools and machines that they bring are worth.
    pub tools_value: Column<Compared>,
    /// All that is given in kind.
    pub in_kind: Column<Compared>,
    /// What a grant wants matched.
    pub match_wanted: Column<Compared>,
    /// What is short of that.
    pub match_short: Column<Compared>,
    /// Whether anything differs beside who does the work.
    pub difference: Text<Compared>,
}

/// What a scenario's bid is solved from.
pub(super) struct Priced {
    /// Side by side.
    pub(super) columns: ComparedColumns,
    /// The bid before and after its percentages.
    pub(super) solved: Solved<Compared>,
    /// The mark-ups of the scenario in use.
    pub(super) mark_ups: MarkUpColumns,
}

/// What scenarios are compared with: the crew alone.
#[derive(Clone, Copy)]
pub(super) struct CrewOnly<'c> {
    pub(super) cost: &'c Cost<Bid>,
    pub(super) mark_ups: &'c MarkUpColumns,
    pub(super) lines: &'c LineColumns,
    /// Hours of every line, the longer of crew and machine.
    pub(super) longest: Column<Lines>,
}

/// Adds the scenarios side by side.
pub(super) fn compared(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (crew_only, orders): (CrewOnly<'_>, &ScenarioOrderColumns),
) -> Priced {
    let cost = cost(graph, crew_only.cost, orders);
    let (solved, mark_ups) = mark_ups(graph, basis, (&cost, crew_only.mark_ups));
    let scenario = Text::new(graph.read(compared::NAME));
    let mut rules = graph.rules::<Compared>();
    let added = cents(solved.lump - cost.direct);
    let added = rules.arithmetic("mark-ups", MONEY, added);
    let bid = rules.arithmetic("bid", MONEY, solved.lump);
    let saving = cents(first(bid) - bid);
    let saving = rules.arithmetic("saving", MONEY, saving);
    let hours = hours(&mut rules, crew_only.lines);
    let days = days(&mut rules, basis, crew_only.longest);
    let client = client(&mut rules, basis, (solved.lump, orders.brought_value));
    let later = TextExpr::Fixed("finishes later".to_owned());
    let sooner = TextExpr::Fixed("finishes sooner".to_owned());
    let none = TextExpr::Fixed("same scope, quality and finish".to_owned());
    let more = days.more.here();
    let difference = either(
        more.clone().above(0.0),
        later,
        either(more.below(0.0), sooner, none),
    );
    let columns = ComparedColumns {
        scenario,
        direct: cost.direct,
        mark_ups: added,
        bid,
        saving,
        crew_hours: hours.crew,
        crew_hours_displaced: hours.displaced,
        person_hours_displaced: hours.by_person,
        donated: hours.donated,
        donated_value: client.donated_value,
        lead_hours: hours.lead,
        training: hours.training,
        staff_hours: hours.staff,
        sessions: days.sessions,
        our_hours: days.hours,
        working_days: days.working,
        days_more: days.more,
        staff_pay: client.staff_pay,
        whole_cost: client.whole_cost,
        brought_value: orders.brought_value,
        tools_value: client.tools_value,
        in_kind: client.in_kind,
        match_wanted: client.wanted,
        match_short: client.short,
        difference: rules.word_step("what differs", difference),
    };
    Priced {
        columns,
        solved,
        mark_ups,
    }
}

/// Direct cost of each scenario by kind: the crew's, less what is displaced, with what is
/// added.
fn cost(graph: &mut Graph, base: &Cost<Bid>, orders: &ScenarioOrderColumns) -> Cost<Compared> {
    let of_party = |column: Step<Parties>| parties::SCENARIO.sum(column);
    let mut rules = graph.rules::<Compared>();
    let mut sum = |name: &str, amount: Term<Compared>| rules.arithmetic(name, MONEY, cents(amount));
    let material = only::<Compared, Bid>(base.material) + materials::SCENARIO.sum(orders.change);
    let material = sum("material", material);
    let wages = only::<Compared, Bid>(base.labor) - of_party(parties::DISPLACED);
    let wages = sum("labor", wages + of_party(parties::LABOR));
    let equipment = only::<Compared, Bid>(base.equipment) - of_party(parties::EQUIPMENT_DISPLACED)
        + of_party(parties::EQUIPMENT);
    let equipment = sum("equipment", equipment);
    let subcontract = only::<Compared, Bid>(base.subcontract) + of_party(parties::BOUGHT);
    let subcontract = sum("subcontract", subcontract);
    let direct = material + wages + equipment + subcontract;
    Cost {
        material,
        labor: wages,
        equipment,
        subcontract,
        direct: sum("direct cost", direct),
    }
}

/// The mark-ups of every scenario, the bid of each, and the mark-ups of the one in use.
fn mark_ups(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (cost, crew_only): (&Cost<Compared>, &MarkUpColumns),
) -> (Solved<Compared>, MarkUpColumns) {
    let inputs = basis.inputs;
    let count = graph.rows(inputs.id(MarkUps::MarkUp));
    let scenarios = graph.rows(graph.id(compared::NAME));
    let (scenario, mark_up) = mark_up_rows(graph, basis, (scenarios, count));
    let setting = scenario_setting(graph, basis, scenarios);
    let mut rules = graph.rules::<ScenarioMarkUps>();
    let on = rules.word_step("on", mark_up.words_of(inputs.words(MarkUps::On)));
    let share = mark_up.of(inputs.number(MarkUps::Share));
    let share = rules.from_job("rate", PERCENT, share);
    let own = mark_up.words_of(inputs.words(MarkUps::WithPartners));
    let own = rules.word_step("with partners", own);
    let setting = rules.word_step("of the scenario", scenario.words_of(setting));
    let [held, follow] = [HELD[0], HELD[1]];
    let usual = when(setting.is(follow).or(on.is(BID)), 0.0, 1.0);
    let flag = when(own.is(held), 1.0, when(own.is(follow), 0.0, usual));
    let source = &sources::HELD_MARK_UPS;
    let flag = rules.step("held in dollars", ONE, source, flag);
    let dollars = mark_up.of(crew_only.amount);
    let dollars = rules.from_job("dollars with the crew alone", MONEY, dollars);
    let chain = Chain {
        on,
        share,
        whole: Whole::Linked(scenario),
        held: Some((flag, dollars)),
        by_whom: "",
    };
    let (base, amount, solved) = chain.worked_out(graph, cost);
    let row = only::<MarkUps, JobKeys>(compared::ROW_IN_USE) - 1.0;
    let mut rules = graph.rules::<MarkUps>();
    let number = rules.running("number of the mark-up", ONE, &sources::ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let many = f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    let row = rules.arithmetic("row of it in this bid", ONE, row * many + number);
    let row: Link<MarkUps, ScenarioMarkUps> = Link::new(row.id);
    let in_use = MarkUpColumns {
        base: rules.from_job("base", MONEY, row.of(base)),
        amount: rules.from_job("amount", MONEY, row.of(amount)),
    };
    (solved, in_use)
}

/// Every mark-up in every scenario.
fn mark_up_rows(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (scenarios, count): (usize, usize),
) -> (
    Link<ScenarioMarkUps, Compared>,
    Link<ScenarioMarkUps, MarkUps>,
) {
    let all = || (0..scenarios).flat_map(move |of| (0..count).map(move |row| (of, row)));
    let scenario = graph.id(compared::NAME);
    let mark_up = basis.inputs.id(MarkUps::MarkUp);
    graph.add_table::<ScenarioMarkUps>(scenarios * count);
    let mut rules = graph.rules::<ScenarioMarkUps>();
    let names = all().map(|(of, row)| {
        let (of, row) = (scenario.at(of), mark_up.at(row));
        vec![Piece::Cell(of), fixed(" / "), Piece::Cell(row)]
    });
    let name = rules.gathered_words("mark-up in a scenario", names.collect());
    rules.labelled_by(name);
    (
        rows_meant(&mut rules, "scenario row", all().map(|(of, _)| of)),
        rows_meant(&mut rules, "mark-up row", all().map(|(_, row)| row)),
    )
}

/// Whether each scenario says that mark-ups follow the cost; the crew alone says nothing.
fn scenario_setting(graph: &mut Graph, basis: &Basis<'_>, scenarios: usize) -> Text<Compared> {
    let said = basis.inputs.id(Scenarios::HeldMarkUps);
    let own = (0..scenarios.saturating_sub(1)).map(|row| vec![Piece::Cell(said.at(row))]);
    let all = std::iter::once(vec![fixed("")]).chain(own).collect();
    let mut rules = graph.rules::<Compared>();
    rules.gathered_words("mark-ups held or follow", all)
}

struct Hours {
    crew: Column<Compared>,
    displaced: Column<Compared>,
    by_person: Column<Compared>,
    donated: Column<Compared>,
    lead: Column<Compared>,
    training: Column<Compared>,
    staff: Column<Compared>,
}

/// Hours of each scenario: those given and those displaced are different figures.
fn hours(rules: &mut Rules<'_, Compared>, lines: &LineColumns) -> Hours {
    let of_task = |column: Step<Tasks>| tasks::SCENARIO.sum(column);
    let of_party = |column: Step<Parties>| parties::SCENARIO.sum(column);
    let mut sum = |name: &str, hours: Term<Compared>| rules.arithmetic(name, H, hours);
    let displaced = sum("crew hours displaced", of_task(tasks::CREW_HOURS));
    let all: Term<Compared> = total(lines.crew_hours);
    Hours {
        crew: sum("crew hours", all - displaced),
        displaced,
        by_person: sum("hours displaced by person", of_task(tasks::PERSON_HOURS)),
        donated: sum("hours given", of_party(parties::DONATED)),
        lead: sum("hours of leads", of_party(parties::LEAD_HOURS)),
        training: sum("hours of training", of_party(parties::TRAINING)),
        staff: sum(
            "hours of the client's staff",
            of_party(parties::STAFF_HOURS),
        ),
    }
}

struct Days {
    hours: Column<Compared>,
    sessions: Column<Compared>,
    working: Column<Compared>,
    more: Column<Compared>,
}

/// Working days: our lines one after the other, and a day for each session held.
fn days(rules: &mut Rules<'_, Compared>, basis: &Basis<'_>, longest: Column<Lines>) -> Days {
    let sessions = parties::SCENARIO.sum(parties::HELD);
    let sessions = rules.arithmetic("sessions held", ONE, sessions);
    let hours = total::<Compared, Lines>(longest) - tasks::SCENARIO.sum(tasks::SHORTER);
    let hours = rules.arithmetic("hours of our work", H, hours);
    let own = hours.here().number_in(H) / only(basis.wide.hours_a_day);
    let working = (own + sessions).round_up();
    let working = rules.arithmetic("working days", ONE, working);
    let more = working.here() - first(working);
    Days {
        hours,
        sessions,
        working,
        more: rules.arithmetic("working days more", ONE, more),
    }
}

struct Client {
    donated_value: Column<Compared>,
    staff_pay: Column<Compared>,
    whole_cost: Column<Compared>,
    tools_value: Column<Compared>,
    in_kind: Column<Compared>,
    wanted: Column<Compared>,
    short: Column<Compared>,
}

/// What the client pays, and what is given in kind against what a grant wants matched: a
/// share of the client's whole cost with what is given.
fn client(
    rules: &mut Rules<'_, Compared>,
    basis: &Basis<'_>,
    (bid, brought): (Column<Compared>, Column<Compared>),
) -> Client {
    let of_party = |column: Step<Parties>| parties::SCENARIO.sum(column);
    let mut sum = |name: &str, amount: Term<Compared>| rules.arithmetic(name, MONEY, cents(amount));
    let staff_pay = sum("pay of the client's staff", of_party(parties::STAFF_PAY));
    let whole_cost = sum("client's whole cost", bid + staff_pay);
    let donated_value = sum("value of hours given", of_party(parties::DONATED_VALUE));
    let tools_value = sum(
        "value of tools and machines brought",
        of_party(parties::TOOLS_VALUE),
    );
    let in_kind = sum("given in kind", donated_value + brought + tools_value);
    let share = only::<Compared, JobKeys>(basis.inputs.number(JobKeys::MatchingShare));
    let wanted = (whole_cost + in_kind) * share;
    let wanted = sum("match wanted", wanted);
    let short = sum("short of the match", highest(wanted - in_kind, 0.0));
    Client {
        donated_value,
        staff_pay,
        whole_cost,
        tools_value,
        in_kind,
        wanted,
        short,
    }
}
