//! The mark-ups of the job, in their order: as the crew does all the work, and as they are in
//! the scenario in use.
//!
//! Always true: percentages of the bid itself come last.

use super::chain::{BID, Chain};
use super::{cost, scenario_mark_ups as in_scenario};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::MarkUps;
use crate::labour::with_partners::InUse;
use crate::pricing::lines::by_whom;
use crate::tables::Bid;
use crate::units::System;

/// What is not right about mark-ups: percentages of the bid itself come last, and leave
/// something of it.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<MarkUps>::fault(
        "mark-up after a share of the bid",
        Code::MarkupOrder,
        MarkUps::On.at(),
        || {
            let after_one = IS_A_SHARE.row_above_or(0.0).above(0.0);
            MarkUps::On.is(BID).negate().and(after_one)
        },
        "this mark-up stands after a percentage of the bid",
        "put percentages of the bid last",
    ),
    &MarkUps::ON_COST,
    &MarkUps::SHARES,
    &MarkUps::AMOUNT,
    &MarkUps::BASE,
    &Limit::<Bid>::fault(
        "shares of the bid take all of it",
        Code::MarkupOrder,
        MarkUps::Share.at(),
        || (1.0 - MarkUps::SHARES.here()).above(0.0).negate(),
        "the percentages of the bid add up to all of it or more",
        "check the rates of the mark-ups on the bid",
    ),
];

/// What each mark-up is a percentage of.
pub const BASE: InUse<MarkUps> = InUse::of(MarkUps::BASE, in_scenario::BASE_IN_USE);

/// Its amount.
pub const AMOUNT: InUse<MarkUps> = InUse::of(MarkUps::AMOUNT, in_scenario::AMOUNT_IN_USE);

/// 1 for a percentage of the bid itself.
const IS_A_SHARE: Step<MarkUps> = Step::arithmetic("is a share of the bid", System::number, || {
    when(MarkUps::On.is(BID), 1.0, 0.0)
});

impl Chain for MarkUps {
    type Whole = Bid;

    const MATERIAL: Step<Bid> = cost::MATERIAL_BY_CREW;
    const LABOR: Step<Bid> = cost::LABOR_BY_CREW;
    const EQUIPMENT: Step<Bid> = cost::EQUIPMENT_BY_CREW;
    const SUBCONTRACT: Step<Bid> = cost::SUBCONTRACT_BY_CREW;
    const DIRECT: Step<Bid> = cost::DIRECT_BY_CREW;

    fn is_on(base: &str) -> Condition {
        MarkUps::On.is(base)
    }

    fn rate() -> Term<Self> {
        MarkUps::Share.here()
    }

    fn of_whole(column: Step<Bid>) -> Term<Self> {
        only(column)
    }

    fn above(column: impl Numbers<Self>, first: impl Into<Term<Self>>) -> Term<Self> {
        column.row_above_or(first)
    }

    fn sum(column: Step<Self>) -> Term<Bid> {
        total(column)
    }

    fn said_after(graph: &Graph) -> &'static str {
        by_whom(graph)
    }
}
