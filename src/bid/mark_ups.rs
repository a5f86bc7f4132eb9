//! Mark-ups in their order, each on its stated base.
//!
//! The same rules work out the mark-ups of the job and those of every scenario: a `Chain`
//! says what the rows are, what they are added up to, and what is held in dollars.
//!
//! Always true: percentages of the bid itself come last and are solved, not guessed; the
//! amounts and the direct cost add up to the bid to the cent; a mark-up that is held is what
//! it is where the crew does all the work.

use super::Cost;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Rules, Table, Term, Text, only, total, when};
use crate::job::tables::MarkUps;
use crate::pricing::cents;
use crate::sources;
use crate::tables::Bid;
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

/// The base that is the bid itself.
pub(super) const BID: &str = "bid";
/// The base that is direct cost and the mark-ups above.
const RUNNING_TOTAL: &str = "running total";

/// The mark-ups of the job, and the bid, of which some may be a percentage. `by_whom` is
/// said after the names of the columns.
///
/// Limit: percentages of the bid itself come last.
pub(super) fn mark_ups(
    graph: &mut Graph,
    inputs: &AllInputs,
    cost: &Cost<Bid>,
    by_whom: &str,
) -> (MarkUpColumns, Solved<Bid>) {
    let on = inputs.words(MarkUps::On);
    order_limit(&mut graph.rules::<MarkUps>(), on);
    let chain = Chain {
        on,
        share: inputs.number(MarkUps::Share),
        whole: Whole::Only,
        held: None,
        by_whom,
    };
    let (base, amount, solved) = chain.worked_out(graph, cost);
    shares_limit(graph, inputs, &solved);
    (MarkUpColumns { base, amount }, solved)
}

/// What the rows of a chain are a part of: one table of one row, or a row that each names.
pub(super) enum Whole<T, P> {
    /// The only row.
    Only,
    /// The row that is found.
    Linked(Link<T, P>),
}

/// Mark-ups that apply one after the other to one cost.
pub(super) struct Chain<'c, T, P> {
    /// What each is a percentage of.
    pub(super) on: Text<T>,
    /// Its percentage.
    pub(super) share: Column<T>,
    /// What it is a part of.
    pub(super) whole: Whole<T, P>,
    /// Where mark-ups may be held: whether each is, and in how many dollars.
    pub(super) held: Option<(Column<T>, Column<T>)>,
    /// Said after the names of the columns.
    pub(super) by_whom: &'c str,
}

/// A bid of which some mark-ups are a share.
#[derive(Debug)]
pub(super) struct Solved<P> {
    /// Direct cost and the mark-ups on cost.
    pub(super) before: Column<P>,
    /// The sum of the shares of the bid.
    pub(super) shares: Column<P>,
    /// Direct cost and all mark-ups.
    pub(super) lump: Column<P>,
}

impl<P> Clone for Solved<P> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<P> Copy for Solved<P> {}

/// Direct cost and mark-ups on cost: before each mark-up, and after it.
struct Totals<T> {
    before: Column<T>,
    after: Column<T>,
}

/// Shares of the bid itself: each, and all down to it; zero for mark-ups on cost.
struct Shares<T> {
    each: Column<T>,
    so_far: Column<T>,
}

impl<T: Table, P: Table> Chain<'_, T, P> {
    /// Adds base and amount of each mark-up, and the bid.
    pub(super) fn worked_out(
        &self,
        graph: &mut Graph,
        cost: &Cost<P>,
    ) -> (Column<T>, Column<T>, Solved<P>) {
        let mut rules = graph.rules::<T>();
        let fixed = self.fixed_base(&mut rules, cost);
        let totals = self.running_total(&mut rules, fixed, cost.direct);
        let shares = self.shares_of_bid(&mut rules);
        let added = cents(totals.after - totals.before);
        let added = rules.from_job(&self.called("added on cost"), MONEY, added);
        let solved = self.solved_bid(graph, cost.direct, added, shares.each);
        let mut rules = graph.rules::<T>();
        let upto = cents(self.of_whole(solved.lump) * shares.so_far);
        let name = self.called("of the bid so far");
        let upto = rules.step(&name, MONEY, &sources::PERCENT_OF_BID, upto);
        let of_the_bid = upto - self.above(upto, 0.0);
        let amount = cents(when(self.on.is(BID), of_the_bid + added, added));
        let amount = rules.from_job(&self.called("amount"), MONEY, amount);
        let base = when(self.on.is(RUNNING_TOTAL), totals.before, fixed);
        let base = when(self.on.is(BID), self.of_whole(solved.lump), base);
        let base = rules.from_job(&self.called("base"), MONEY, base);
        (base, amount, solved)
    }

    fn called(&self, name: &str) -> String {
        format!("{name}{}", self.by_whom)
    }

    /// A figure of what the row is a part of.
    fn of_whole(&self, column: Column<P>) -> Term<T> {
        match self.whole {
            Whole::Only => only(column),
            Whole::Linked(link) => link.of(column),
        }
    }

    /// The row above within the same whole.
    fn above(&self, column: impl Numbers<T>, first: impl Into<Term<T>>) -> Term<T> {
        match self.whole {
            Whole::Only => column.row_above_or(first),
            Whole::Linked(link) => column.row_above(link, first),
        }
    }

    /// The sum over the rows of a whole.
    fn sum(&self, column: Column<T>) -> Term<P> {
        match self.whole {
            Whole::Only => total(column),
            Whole::Linked(link) => link.sum(column),
        }
    }

    /// What a mark-up adds: its dollars where it is held, else as given.
    fn unless_held(&self, follows: impl Into<Term<T>>, held: impl Into<Term<T>>) -> Term<T> {
        match self.held {
            Some((flag, _)) => when(flag.here().above(0.0), held, follows),
            None => follows.into(),
        }
    }

    /// The base of a mark-up on one kind of cost; the direct cost for any other.
    fn fixed_base(&self, rules: &mut Rules<'_, T>, cost: &Cost<P>) -> Column<T> {
        let or = |name: &str, of: Column<P>, otherwise: Term<T>| {
            when(self.on.is(name), self.of_whole(of), otherwise)
        };
        let base = self.of_whole(cost.direct);
        let base = or("subcontract", cost.subcontract, base);
        let base = or("equipment", cost.equipment, base);
        let base = or("labor", cost.labor, base);
        let base = or("material", cost.material, base);
        rules.from_job(&self.called("base apart from running total"), MONEY, base)
    }

    /// Adds each mark-up on cost to the total before it; shares of the bid add nothing here.
    fn running_total(
        &self,
        rules: &mut Rules<'_, T>,
        fixed: Column<T>,
        direct: Column<P>,
    ) -> Totals<T> {
        let name = self.called(RUNNING_TOTAL);
        let after = rules.running(&name, MONEY, &sources::JOB, |own| {
            let before = self.above(own, self.of_whole(direct));
            let base = when(self.on.is(RUNNING_TOTAL), before.clone(), fixed);
            let follows = when(self.on.is(BID), 0.0, cents(base * self.share));
            let added = match self.held {
                Some((_, dollars)) => self.unless_held(follows, dollars),
                None => follows,
            };
            cents(before + added)
        });
        let before = self.above(after, self.of_whole(direct));
        let before = rules.arithmetic(&self.called("total before it"), MONEY, before);
        Totals { before, after }
    }

    /// Each share of the bid, and the sum of them from the first mark-up down.
    fn shares_of_bid(&self, rules: &mut Rules<'_, T>) -> Shares<T> {
        let source = &sources::PERCENT_OF_BID;
        let each = || self.unless_held(when(self.on.is(BID), self.share, 0.0), 0.0);
        let name = self.called("share of the bid so far");
        let so_far = rules.running(&name, PERCENT, source, |own| self.above(own, 0.0) + each());
        let each = rules.step(&self.called("share of the bid"), PERCENT, source, each());
        Shares { each, so_far }
    }

    /// The bid of which some mark-ups are a share: cost ÷ (1 − shares).
    fn solved_bid(
        &self,
        graph: &mut Graph,
        direct: Column<P>,
        added: Column<T>,
        share: Column<T>,
    ) -> Solved<P> {
        let source = &sources::PERCENT_OF_BID;
        let mut rules = graph.rules::<P>();
        let before = cents(direct + self.sum(added));
        let before = rules.arithmetic(&self.called("before shares of the bid"), MONEY, before);
        let shares = self.sum(share);
        let shares = rules.step(&self.called("shares of the bid"), PERCENT, source, shares);
        let lump = grossed_up(before, shares);
        let lump = rules.step(
            &self.called("direct cost and mark-ups"),
            MONEY,
            source,
            lump,
        );
        Solved {
            before,
            shares,
            lump,
        }
    }
}

/// An amount with the shares of the bid on top: amount ÷ (1 − shares).
pub(super) fn grossed_up<P>(amount: impl Into<Term<P>>, shares: Column<P>) -> Term<P> {
    let amount = amount.into();
    let left = 1.0 - shares.here();
    let some_left = left.clone().above(0.0);
    cents(when(some_left, amount.clone() / left, amount))
}

/// Limit: the shares of the bid leave something of it.
fn shares_limit(graph: &mut Graph, inputs: &AllInputs, solved: &Solved<Bid>) {
    let left = 1.0 - solved.shares.here();
    graph.rules::<Bid>().limit(
        "shares of the bid take all of it",
        left.above(0.0).negate(),
        Breach::fault(
            Code::MarkupOrder,
            inputs.number(MarkUps::Share).id,
            "the percentages of the bid add up to all of it or more",
            "check the rates of the mark-ups on the bid",
        ),
    );
}

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
