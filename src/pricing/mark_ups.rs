//! Mark-ups in their order, each on its stated base.
//!
//! Always true: percentages of the bid itself come last and are solved, not guessed; the
//! amounts and the direct cost add up to the bid to the cent.

use super::bid::{Bid, Cost};
use super::cents;
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Term, only, total, when};
use crate::job::tables::MarkUps;
use crate::sources;
use crate::takeoff::inputs::AllInputs;
use crate::units::{MONEY, ONE, PERCENT};

/// Columns of mark-ups.
#[derive(Clone, Copy, Debug)]
pub struct MarkUpColumns {
    /// What each is a percentage of.
    pub base: Column<MarkUps>,
    /// Its amount.
    pub amount: Column<MarkUps>,
}

/// Mark-ups in their order; then the bid, of which some may be a percentage.
pub(super) fn mark_ups(
    graph: &mut Graph,
    inputs: &AllInputs,
    cost: &Cost,
) -> (MarkUpColumns, Column<Bid>) {
    let table = &inputs.mark_ups;
    let on = table.words(MarkUps::On);
    let share = table.number(MarkUps::Share);
    let mut rules = graph.rules::<MarkUps>();
    let of_bid = on.is("bid");
    let of_bid_flag = rules.step(
        "is a share of the bid",
        ONE,
        &sources::ARITHMETIC,
        when(of_bid.clone(), 1.0, 0.0),
    );
    rules.limit(
        "mark-up after a share of the bid",
        of_bid
            .clone()
            .negate()
            .and(of_bid_flag.row_above_or(0.0).above(0.0)),
        Breach::fault(
            Code::MarkupOrder,
            on.id,
            "this mark-up stands after a percentage of the bid",
            "put percentages of the bid last",
        ),
    );
    let by_kind = |name: &str, of: Column<Bid>, otherwise: Term<MarkUps>| {
        when(on.is(name), only(of), otherwise)
    };
    let fixed = by_kind(
        "material",
        cost.material,
        by_kind(
            "labor",
            cost.labor,
            by_kind(
                "equipment",
                cost.equipment,
                by_kind("subcontract", cost.subcontract, only(cost.direct)),
            ),
        ),
    );
    let fixed = rules.step("base apart from running total", MONEY, &sources::JOB, fixed);
    let running = rules.running("running total", MONEY, &sources::JOB, |own| {
        let before = own.row_above_or(only(cost.direct));
        let base = when(on.is("running total"), before.clone(), fixed);
        cents(before + when(of_bid.clone(), 0.0, cents(base * share)))
    });
    let before = rules.step(
        "total before it",
        MONEY,
        &sources::ARITHMETIC,
        running.row_above_or(only(cost.direct)),
    );
    let so_far = rules.running(
        "share of the bid so far",
        PERCENT,
        &sources::PERCENT_OF_BID,
        |own| own.row_above_or(0.0) + when(of_bid.clone(), share, 0.0),
    );
    let share_of_bid = rules.step(
        "share of the bid",
        PERCENT,
        &sources::PERCENT_OF_BID,
        when(of_bid.clone(), share, 0.0),
    );
    let added = rules.step(
        "added on cost",
        MONEY,
        &sources::JOB,
        cents(running - before),
    );
    let mut rules = graph.rules::<Bid>();
    let subtotal = rules.step(
        "before shares of the bid",
        MONEY,
        &sources::ARITHMETIC,
        cents(only(cost.direct) + total(added)),
    );
    let shares = rules.step(
        "shares of the bid",
        PERCENT,
        &sources::PERCENT_OF_BID,
        total(share_of_bid),
    );
    let left = 1.0 - shares.here();
    rules.limit(
        "shares of the bid take all of it",
        left.clone().above(0.0).negate(),
        Breach::fault(
            Code::MarkupOrder,
            table.number(MarkUps::Share).id,
            "the percentages of the bid add up to all of it or more",
            "check the rates of the mark-ups on the bid",
        ),
    );
    let lump = cents(when(left.clone().above(0.0), subtotal / left, subtotal));
    let lump = rules.step(
        "direct cost and mark-ups",
        MONEY,
        &sources::PERCENT_OF_BID,
        lump,
    );
    let mut rules = graph.rules::<MarkUps>();
    let upto = cents(only::<MarkUps, Bid>(lump) * so_far);
    let upto = rules.step("of the bid so far", MONEY, &sources::PERCENT_OF_BID, upto);
    let of_the_bid = upto - upto.row_above_or(0.0);
    let amount = rules.step(
        "amount",
        MONEY,
        &sources::JOB,
        cents(when(of_bid.clone(), of_the_bid, added)),
    );
    let base = when(
        of_bid,
        only(lump),
        when(on.is("running total"), before, fixed),
    );
    let base = rules.step("base", MONEY, &sources::JOB, base);
    (MarkUpColumns { base, amount }, lump)
}
