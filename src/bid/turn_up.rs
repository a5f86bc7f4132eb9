//! If they do not turn up: what each scenario comes to where partners deliver three
//! quarters, half, a quarter or none of their work, and the crew does the rest.
//!
//! Always true: with all of it delivered, the scenario is what it is; what it costs more is
//! in proportion to what is not delivered. Work made good is charged at cost, with the
//! percentages of the bid itself on it, and no overhead or profit.

use super::chain::{Chain, grossed_up};
use super::scenarios;
use crate::graph::Piece;
use crate::graph::prelude::*;
use crate::job::tables::{BORNE_BY, Scenarios};
use crate::labour::{compared, parties, tasks};
use crate::pricing::cents;
use crate::sources;
use crate::tables::{Compared, ScenarioMarkUps, TurnUp};
use crate::takeoff::bill::fixed;
use crate::takeoff::job_wide::HOURS_A_DAY;
use crate::units::System;

/// What every scenario comes to where part of the work is delivered.
pub const RULES: &[&dyn Rule] = &[
    &NAME,
    &SCENARIO_NAME,
    &DELIVERED,
    &BORNE_BY_WHOM,
    &SAVING,
    &OUR_LOSS,
    &WORKING_DAYS,
];

/// The shares of the work that are looked at, in hundredths.
const SHARES: [f64; 5] = [100.0, 75.0, 50.0, 25.0, 0.0];

/// A share of the work of partners in one scenario.
#[derive(Clone, Copy, Debug)]
pub struct Delivery {
    /// Row of the scenario.
    pub scenario: usize,
    /// The share, in hundredths.
    pub share: f64,
}

/// Every share in every scenario.
pub const DELIVERIES: Roster<TurnUp, Delivery> = Roster::new(|graph| {
    let all = (0..compared::scenarios(graph)).flat_map(|scenario| {
        let delivery = move |share| Delivery { scenario, share };
        SHARES.into_iter().map(delivery)
    });
    all.collect()
});

/// The scenario and the share.
pub const NAME: Wording<TurnUp> = Wording::gathered("delivery", |graph| {
    let scenarios = graph.read(compared::NAME);
    DELIVERIES.words(graph, |own| {
        let scenario = Piece::Cell(scenarios.at(own.scenario + 1));
        vec![scenario, fixed(format!(", {} %", own.share))]
    })
})
.naming_rows();

/// Name of the scenario.
pub const SCENARIO_NAME: Wording<TurnUp> = Wording::gathered("scenario", |graph| {
    DELIVERIES.words_of(graph, compared::NAME, |own| own.scenario + 1)
});

/// The scenario.
const SCENARIO: LookUp<TurnUp, Compared> = LookUp::solved("scenario row", |graph| {
    DELIVERIES.meaning(graph, Vec::new(), |own| own.scenario + 1)
});

/// Share of the work that is delivered.
pub const DELIVERED: Step<TurnUp> = Step::told(
    "delivered",
    System::percent,
    &sources::ARITHMETIC,
    |graph| DELIVERIES.rows(graph).iter().map(|own| own.share).collect(),
);

/// What a scenario costs more where nobody comes.
const IF_NOBODY_COMES: Step<Compared> =
    Step::arithmetic("more if nobody comes", System::money, || {
        cents(parties::SCENARIO.sum(parties::NOBODY_COMES))
    });

/// Hours that partners spare us in a scenario.
const SPARED: Step<Compared> =
    Step::arithmetic("hours that partners spare us", System::hours, || {
        tasks::SCENARIO.sum(tasks::SHORTER)
    });

/// Direct cost more than with all of it.
pub const MORE: Step<TurnUp> = Step::arithmetic("more than with all of it", System::money, || {
    cents(missing() * SCENARIO.of(IF_NOBODY_COMES))
});

/// Who bears that, as the scenario says it.
const SAID: Wording<TurnUp> = Wording::gathered("borne by, as written", |graph| {
    DELIVERIES.words_of(graph, Scenarios::BorneBy, |own| own.scenario)
});

/// Who bears that; the client where the scenario does not say.
pub const BORNE_BY_WHOM: Wording<TurnUp> =
    Wording::new("borne by", || either(by_us(), BORNE_BY[1], BORNE_BY[0]));

/// What of it the client is charged.
const CHARGED: Step<TurnUp> = Step::arithmetic("charged to the client", System::money, || {
    when(by_us(), 0.0, MORE)
});

/// Cost and the mark-ups on it.
const ON_COST: Step<TurnUp> = Step::arithmetic("cost and mark-ups on it", System::money, || {
    SCENARIO.of(ScenarioMarkUps::ON_COST) + CHARGED
});

/// The percentages of the bid itself.
const SHARES_OF_BID: Step<TurnUp> =
    Step::arithmetic("percentages of the bid", System::percent, || {
        SCENARIO.of(ScenarioMarkUps::SHARES)
    });

/// What the client is charged.
pub const BID: Step<TurnUp> = Step::new("bid", System::money, &sources::PERCENT_OF_BID, || {
    grossed_up(ON_COST, SHARES_OF_BID)
});

/// The bid with the crew alone, less that.
pub const SAVING: Step<TurnUp> = Step::arithmetic("saving", System::money, || {
    cents(first(scenarios::BID) - BID)
});

/// What we bear.
pub const OUR_LOSS: Step<TurnUp> =
    Step::arithmetic("borne by us", System::money, || when(by_us(), MORE, 0.0));

/// Working days.
pub const WORKING_DAYS: Step<TurnUp> = Step::arithmetic("working days", System::number, || {
    let hours = SCENARIO.of(scenarios::OUR_HOURS) + missing() * SCENARIO.of(SPARED);
    let days = hours.number_in(System::hours) / only(HOURS_A_DAY);
    (SCENARIO.of(scenarios::SESSIONS) + days).round_up()
});

/// The share of the work that is not delivered.
fn missing() -> Term<TurnUp> {
    1.0 - DELIVERED.here()
}

/// Whether we bear what it costs more.
fn by_us() -> Condition {
    SAID.is(BORNE_BY[1])
}
