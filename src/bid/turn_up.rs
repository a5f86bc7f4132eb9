//! If they do not turn up: what each scenario comes to where partners deliver three
//! quarters, half, a quarter or none of their work, and the crew does the rest.
//!
//! Always true: with all of it delivered, the scenario is what it is; what it costs more is
//! in proportion to what is not delivered. Work made good is charged at cost, with the
//! percentages of the bid itself on it, and no overhead or profit.

use super::mark_ups::{Solved, grossed_up};
use super::rows_meant;
use super::scenarios::ComparedColumns;
use crate::graph::prelude::*;
use crate::graph::{
    Column, Condition, Graph, Link, Piece, Rules, Text, TextExpr, either, first, only, when,
};
use crate::job::tables::{BORNE_BY, Scenarios};
use crate::labour::{compared, parties, tasks};
use crate::pricing::cents;
use crate::sources;
use crate::tables::{Compared, TurnUp};
use crate::takeoff::basis::Basis;
use crate::takeoff::bill::fixed;
use crate::units::{H, MONEY, ONE, PERCENT};

/// The shares of the work that are looked at, in hundredths.
const DELIVERED: [f64; 5] = [100.0, 75.0, 50.0, 25.0, 0.0];

/// What a scenario comes to where part of the work is delivered.
#[derive(Clone, Copy, Debug)]
pub struct TurnUpColumns {
    /// The scenario and the share.
    pub name: Text<TurnUp>,
    /// The scenario.
    pub scenario: Link<TurnUp, Compared>,
    /// Name of the scenario.
    pub scenario_name: Text<TurnUp>,
    /// Share of the work that is delivered.
    pub delivered: Column<TurnUp>,
    /// Direct cost more than with all of it.
    pub more: Column<TurnUp>,
    /// Who bears that.
    pub borne_by: Text<TurnUp>,
    /// What the client is charged.
    pub bid: Column<TurnUp>,
    /// The bid with the crew alone, less that.
    pub saving: Column<TurnUp>,
    /// What we bear.
    pub our_loss: Column<TurnUp>,
    /// Working days.
    pub working_days: Column<TurnUp>,
}

/// Adds what every scenario comes to where part of the work is delivered.
pub(super) fn turn_up(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (of, solved): (&ComparedColumns, &Solved<Compared>),
) -> TurnUpColumns {
    let count = compared::scenarios(graph);
    let mut rules = graph.rules::<Compared>();
    let nobody = cents(parties::SCENARIO.sum(parties::NOBODY_COMES));
    let nobody = rules.arithmetic("more if nobody comes", MONEY, nobody);
    let shorter = tasks::SCENARIO.sum(tasks::SHORTER);
    let shorter = rules.arithmetic("hours that partners spare us", H, shorter);
    let all = || (0..count).flat_map(|of| DELIVERED.into_iter().map(move |share| (of, share)));
    let scenarios = graph.read(compared::NAME);
    graph.add_table::<TurnUp>(count * DELIVERED.len());
    let mut rules = graph.rules::<TurnUp>();
    let names = |of: usize| Piece::Cell(scenarios.at(of + 1));
    let called = all().map(|(of, share)| vec![names(of), fixed(format!(", {share} %"))]);
    let name = rules.gathered_words("delivery", called.collect());
    rules.labelled_by(name);
    let scenario_name = all().map(|(of, _)| vec![names(of)]).collect();
    let scenario_name = rules.gathered_words("scenario", scenario_name);
    let scenario: Link<TurnUp, Compared> =
        rows_meant(&mut rules, "scenario row", all().map(|(of, _)| of + 1));
    let shares = all().map(|(_, share)| share).collect();
    let delivered = rules.given("delivered", PERCENT, &sources::ARITHMETIC, shares);
    let missing = 1.0 - delivered.here();
    let more = cents(missing.clone() * scenario.of(nobody));
    let more = rules.arithmetic("more than with all of it", MONEY, more);
    let (by_us, borne_by) = borne(&mut rules, basis, all().map(|(of, _)| of));
    let charged = when(by_us.clone(), 0.0, more);
    let charged = rules.arithmetic("charged to the client", MONEY, charged);
    let before = scenario.of(solved.before) + charged;
    let before = rules.arithmetic("cost and mark-ups on it", MONEY, before);
    let shares = scenario.of(solved.shares);
    let shares = rules.arithmetic("percentages of the bid", PERCENT, shares);
    let bid = rules.step(
        "bid",
        MONEY,
        &sources::PERCENT_OF_BID,
        grossed_up(before, shares),
    );
    let saving = cents(first(of.bid) - bid);
    let days = scenario.of(of.sessions)
        + (scenario.of(of.our_hours) + missing * scenario.of(shorter)).number_in(H)
            / only(basis.wide.hours_a_day);
    TurnUpColumns {
        name,
        scenario,
        scenario_name,
        delivered,
        more,
        borne_by,
        bid,
        saving: rules.arithmetic("saving", MONEY, saving),
        our_loss: rules.arithmetic("borne by us", MONEY, when(by_us, more, 0.0)),
        working_days: rules.arithmetic("working days", ONE, days.round_up()),
    }
}

/// Whether we bear what it costs more, and the words for who does; the client where the
/// scenario does not say.
fn borne(
    rules: &mut Rules<'_, TurnUp>,
    basis: &Basis<'_>,
    scenarios: impl Iterator<Item = usize>,
) -> (Condition, Text<TurnUp>) {
    let said = basis.inputs.id(Scenarios::BorneBy);
    let said = scenarios.map(|of| vec![Piece::Cell(said.at(of))]).collect();
    let said = rules.gathered_words("borne by, as written", said);
    let by_us = said.is(BORNE_BY[1]);
    let [client, us] = [BORNE_BY[0], BORNE_BY[1]].map(|by| TextExpr::Fixed(by.to_owned()));
    let words = rules.word_step("borne by", either(by_us.clone(), us, client));
    (by_us, words)
}
