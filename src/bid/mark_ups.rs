//! Mark-ups in their order, each on its stated base.
//!
//! Always true: percentages of the bid itself come last and are solved, not guessed; the
//! amounts and the direct cost add up to the bid to the cent.

use super::{Bid, Cost};
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Rules, Term, Text, only, total, when};
use crate::job::tables::MarkUps;
use crate::pricing::cents;
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
    let on = inputs.words(MarkUps::On);
    let share = inputs.number(MarkUps::Share);
    let mut rules = graph.rules::<MarkUps>();
    order_limit(&mut rules, on);
    let fixed = fixed_base(&mut rules, on, cost);
    let totals = running_total(&mut rules, (on, share), fixed, cost.direct);
    let shares = shares_of_bid(&mut rules, on, share);
    let added = cents(totals.after - totals.before);
    let added = rules.from_job("added on cost", MONEY, added);
    let lump = solved_bid(graph, inputs, cost.direct, added, shares.each);
    let mut rules = graph.rules::<MarkUps>();
    let upto = cents(only::<MarkUps, Bid>(lump) * shares.so_far);
    let upto = rules.step("of the bid so far", MONEY, &sources::PERCENT_OF_BID, upto);
    let of_the_bid = upto - upto.row_above_or(0.0);
    let amount = cents(when(on.is(BID), of_the_bid, added));
    let amount = rules.from_job("amount", MONEY, amount);
    let base = when(on.is(RUNNING_TOTAL), totals.before, fixed);
    let base = when(on.is(BID), only(lump), base);
    let base = rules.from_job("base", MONEY, base);
    (MarkUpColumns { base, amount }, lump)
}

/// The base that is the bid itself.
const BID: &str = "bid";
/// The base that is direct cost and the mark-ups above.
const RUNNING_TOTAL: &str = "running total";

/// Limit: percentages of the bid itself come last.
fn order_limit(rules: &mut Rules<'_, MarkUps>, on: Text<MarkUps>) {
    let flag = when(on.is(BID), 1.0, 0.0);
    let flag = rules.arithmetic("is a share of the bid", ONE, flag);
    let after_one = flag.row_above_or(0.0).above(0.0);
    rules.limit(
        "mark-up after a share of the bid",
        on.is(BID).negate().and(after_one),
        Breach::fault(
            Code::MarkupOrder,
            on.id,
            "this mark-up stands after a percentage of the bid",
            "put percentages of the bid last",
        ),
    );
}

/// The base of a mark-up on one kind of cost; the direct cost for any other.
fn fixed_base(rules: &mut Rules<'_, MarkUps>, on: Text<MarkUps>, cost: &Cost) -> Column<MarkUps> {
    let or = |name: &str, of: Column<Bid>, otherwise: Term<MarkUps>| {
        when(on.is(name), only(of), otherwise)
    };
    let base = only(cost.direct);
    let base = or("subcontract", cost.subcontract, base);
    let base = or("equipment", cost.equipment, base);
    let base = or("labor", cost.labor, base);
    let base = or("material", cost.material, base);
    rules.from_job("base apart from running total", MONEY, base)
}

/// Direct cost and mark-ups on cost: before each mark-up, and after it.
struct Totals {
    before: Column<MarkUps>,
    after: Column<MarkUps>,
}

/// Adds each mark-up on cost to the total before it; shares of the bid add nothing here.
fn running_total(
    rules: &mut Rules<'_, MarkUps>,
    (on, share): (Text<MarkUps>, Column<MarkUps>),
    fixed: Column<MarkUps>,
    direct: Column<Bid>,
) -> Totals {
    let after = rules.running(RUNNING_TOTAL, MONEY, &sources::JOB, |own| {
        let before = own.row_above_or(only(direct));
        let base = when(on.is(RUNNING_TOTAL), before.clone(), fixed);
        cents(before + when(on.is(BID), 0.0, cents(base * share)))
    });
    let before = after.row_above_or(only(direct));
    let before = rules.arithmetic("total before it", MONEY, before);
    Totals { before, after }
}

/// Shares of the bid itself: each, and all down to it; zero for mark-ups on cost.
struct Shares {
    each: Column<MarkUps>,
    so_far: Column<MarkUps>,
}

/// Each share of the bid, and the sum of them from the first mark-up down.
fn shares_of_bid(
    rules: &mut Rules<'_, MarkUps>,
    on: Text<MarkUps>,
    share: Column<MarkUps>,
) -> Shares {
    let source = &sources::PERCENT_OF_BID;
    let each = || when(on.is(BID), share, 0.0);
    let so_far = rules.running("share of the bid so far", PERCENT, source, |own| {
        own.row_above_or(0.0) + each()
    });
    let each = rules.step("share of the bid", PERCENT, source, each());
    Shares { each, so_far }
}

/// The bid of which some mark-ups are a share: cost ÷ (1 − shares).
///
/// Limit: the shares leave something.
fn solved_bid(
    graph: &mut Graph,
    inputs: &AllInputs,
    direct: Column<Bid>,
    added: Column<MarkUps>,
    share: Column<MarkUps>,
) -> Column<Bid> {
    let source = &sources::PERCENT_OF_BID;
    let mut rules = graph.rules::<Bid>();
    let subtotal = cents(only(direct) + total(added));
    let subtotal = rules.arithmetic("before shares of the bid", MONEY, subtotal);
    let shares = rules.step("shares of the bid", PERCENT, source, total(share));
    let left = 1.0 - shares.here();
    let some_left = left.clone().above(0.0);
    rules.limit(
        "shares of the bid take all of it",
        some_left.clone().negate(),
        Breach::fault(
            Code::MarkupOrder,
            inputs.number(MarkUps::Share).id,
            "the percentages of the bid add up to all of it or more",
            "check the rates of the mark-ups on the bid",
        ),
    );
    let lump = cents(when(some_left, subtotal / left, subtotal));
    rules.step("direct cost and mark-ups", MONEY, source, lump)
}
