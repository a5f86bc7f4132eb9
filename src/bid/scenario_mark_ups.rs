//! The mark-ups of every scenario: held in dollars, or following the cost.
//!
//! Always true: the rows are every mark-up in every scenario, the crew alone first, in that
//! order; so that the row of a mark-up in a scenario can be counted.

use super::chain::{BID, Chain};
use super::scenario_cost as cost;
use crate::graph::prelude::*;
use crate::graph::rule::whole;
use crate::graph::{Graph, Piece};
use crate::job::tables::{HELD, JobKeys, MarkUps, Scenarios};
use crate::labour::compared::{self, COMPARED, ROW_IN_USE, of_scenarios};
use crate::sources;
use crate::tables::{Compared, ScenarioMarkUps};
use crate::takeoff::bill::fixed;
use crate::units::System;

/// One mark-up in one scenario.
#[derive(Clone, Copy, Debug)]
pub struct Marked {
    /// Row of the scenario among those compared.
    pub scenario: usize,
    /// Row of the mark-up.
    pub mark_up: usize,
}

/// Every mark-up in every scenario.
pub const MARKED: Roster<ScenarioMarkUps, Marked> = Roster::new(|graph| {
    let (scenarios, mark_ups) = (COMPARED.rows(graph).len(), mark_ups(graph));
    let all = (0..scenarios * mark_ups).map(|row| Marked {
        scenario: row / mark_ups,
        mark_up: row % mark_ups,
    });
    all.collect()
});

/// How many mark-ups there are in each scenario.
fn mark_ups(graph: &Graph) -> usize {
    graph.rows(graph.id(MarkUps::MarkUp))
}

/// Its name: scenario and mark-up.
pub const NAME: Wording<ScenarioMarkUps> = Wording::gathered("mark-up in a scenario", |graph| {
    let (scenarios, mark_ups) = (graph.read(compared::NAME), graph.id(MarkUps::MarkUp));
    MARKED.words(graph, |own| {
        let scenario = Piece::Cell(scenarios.at(own.scenario));
        vec![
            scenario,
            fixed(" / "),
            Piece::Cell(mark_ups.at(own.mark_up)),
        ]
    })
})
.naming_rows();

/// The scenario.
const SCENARIO: LookUp<ScenarioMarkUps, Compared> = LookUp::solved("scenario row", |graph| {
    MARKED.meaning(graph, Vec::new(), |own| own.scenario)
});

/// The mark-up.
const MARK_UP: LookUp<ScenarioMarkUps, MarkUps> = LookUp::solved("mark-up row", |graph| {
    MARKED.meaning(graph, Vec::new(), |own| own.mark_up)
});

/// What it is a percentage of.
const ON: Wording<ScenarioMarkUps> = Wording::new("on", || MARK_UP.words_of(MarkUps::On));

/// Its percentage.
const RATE: Step<ScenarioMarkUps> =
    Step::from_job("rate", System::percent, || MARK_UP.of(MarkUps::Share));

/// Whether the mark-up itself says that it is held.
const OWN: Wording<ScenarioMarkUps> =
    Wording::new("with partners", || MARK_UP.words_of(MarkUps::WithPartners));

/// Whether each scenario says that mark-ups follow the cost; the crew alone says nothing.
const SETTING: Wording<Compared> = Wording::gathered("mark-ups held or follow", |graph| {
    of_scenarios(graph, Scenarios::HeldMarkUps, "")
});

/// What its scenario says.
const OF_SCENARIO: Wording<ScenarioMarkUps> =
    Wording::new("of the scenario", || SCENARIO.words_of(SETTING));

/// 1 for a mark-up that is held in dollars.
const IS_HELD: Step<ScenarioMarkUps> = Step::new(
    "held in dollars",
    System::number,
    &sources::HELD_MARK_UPS,
    || {
        let [held, follow] = [HELD[0], HELD[1]];
        let usual = when(OF_SCENARIO.is(follow).or(ON.is(BID)), 0.0, 1.0);
        when(OWN.is(held), 1.0, when(OWN.is(follow), 0.0, usual))
    },
);

/// In how many dollars it would be held.
const DOLLARS: Step<ScenarioMarkUps> =
    Step::from_job("dollars with the crew alone", System::money, || {
        MARK_UP.of(MarkUps::AMOUNT)
    });

impl Chain for ScenarioMarkUps {
    type Whole = Compared;

    const MATERIAL: Step<Compared> = cost::MATERIAL;
    const LABOR: Step<Compared> = cost::LABOR;
    const EQUIPMENT: Step<Compared> = cost::EQUIPMENT;
    const SUBCONTRACT: Step<Compared> = cost::SUBCONTRACT;
    const DIRECT: Step<Compared> = cost::DIRECT;

    fn is_on(base: &str) -> Condition {
        ON.is(base)
    }

    fn rate() -> Term<Self> {
        RATE.here()
    }

    fn of_whole(column: Step<Compared>) -> Term<Self> {
        SCENARIO.of(column)
    }

    fn above(column: impl Numbers<Self>, first: impl Into<Term<Self>>) -> Term<Self> {
        column.row_above(SCENARIO, first)
    }

    fn sum(column: Step<Self>) -> Term<Compared> {
        SCENARIO.sum(column)
    }

    fn unless_held(follows: Term<Self>) -> Term<Self> {
        when(IS_HELD.above(0.0), DOLLARS, follows)
    }

    fn share_unless_held(share: Term<Self>) -> Term<Self> {
        when(IS_HELD.above(0.0), 0.0, share)
    }
}

/// The row of each mark-up in the scenario in use.
const ROW: LookUp<MarkUps, ScenarioMarkUps> = LookUp::counted(
    "row of it in this bid",
    &sources::ARITHMETIC,
    |graph: &Graph| {
        let before = only::<MarkUps, JobKeys>(ROW_IN_USE) - 1.0;
        before * whole(mark_ups(graph)) + NUMBER
    },
);

const NUMBER: Step<MarkUps> = Step::numbered("number of the mark-up");

pub(super) const BASE_IN_USE: Step<MarkUps> =
    Step::from_job("base", System::money, || ROW.of(ScenarioMarkUps::BASE));

pub(super) const AMOUNT_IN_USE: Step<MarkUps> =
    Step::from_job("amount", System::money, || ROW.of(ScenarioMarkUps::AMOUNT));
