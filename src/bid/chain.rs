//! Mark-ups that apply one after the other to one cost, each on its stated base.
//!
//! The same rules work out the mark-ups of the job and those of every scenario: a `Chain`
//! says what the rows are, what they are added up to, and what is held in dollars.
//!
//! Always true: percentages of the bid itself are solved, not guessed; the amounts and the
//! direct cost add up to the bid to the cent; a mark-up that is held is what it is where the
//! crew does all the work.

use crate::graph::prelude::*;
use crate::graph::{Graph, Table};
use crate::pricing::cents;
use crate::sources;
use crate::units::System;

/// The base that is the bid itself.
pub(super) const BID: &str = "bid";

/// The base that is direct cost and the mark-ups above.
const RUNNING_TOTAL: &str = "running total";

/// Mark-ups that apply one after the other to one cost.
pub trait Chain: Table + Sized {
    /// What the rows are a part of.
    type Whole: Table;

    /// Its cost of material.
    const MATERIAL: Step<Self::Whole>;
    /// Its cost of labor.
    const LABOR: Step<Self::Whole>;
    /// Its cost of equipment.
    const EQUIPMENT: Step<Self::Whole>;
    /// Its cost of subcontracts.
    const SUBCONTRACT: Step<Self::Whole>;
    /// Its direct cost.
    const DIRECT: Step<Self::Whole>;

    /// Whether a mark-up is a percentage of something.
    fn is_on(base: &str) -> Condition;

    /// Its percentage.
    fn rate() -> Term<Self>;

    /// A figure of what the row is a part of.
    fn of_whole(column: Step<Self::Whole>) -> Term<Self>;

    /// The row above within the same whole.
    fn above(column: impl Numbers<Self>, first: impl Into<Term<Self>>) -> Term<Self>;

    /// The sum over the rows of a whole.
    fn sum(column: Step<Self>) -> Term<Self::Whole>;

    /// What a mark-up adds: its dollars where it is held, else as given.
    #[must_use]
    fn unless_held(follows: Term<Self>) -> Term<Self> {
        follows
    }

    /// Its share of the bid where it is not held; none where it is.
    #[must_use]
    fn share_unless_held(share: Term<Self>) -> Term<Self> {
        share
    }

    /// What is said after the names of the columns.
    #[must_use]
    fn said_after(_graph: &Graph) -> &'static str {
        ""
    }

    /// The base of a mark-up on one kind of cost; the direct cost for any other.
    const FIXED_BASE: Step<Self> =
        Step::from_job("base apart from running total", System::money, || {
            let or = |name: &str, of: Step<Self::Whole>, otherwise: Term<Self>| {
                when(Self::is_on(name), Self::of_whole(of), otherwise)
            };
            let base = Self::of_whole(Self::DIRECT);
            let base = or("subcontract", Self::SUBCONTRACT, base);
            let base = or("equipment", Self::EQUIPMENT, base);
            let base = or("labor", Self::LABOR, base);
            or("material", Self::MATERIAL, base)
        })
        .said_after(Self::said_after);

    /// Direct cost and the mark-ups on cost down to it; shares of the bid add nothing here.
    const AFTER: Step<Self> = Step::running(RUNNING_TOTAL, System::money, &sources::JOB, |own| {
        let before = Self::above(own, Self::of_whole(Self::DIRECT));
        let base = when(Self::is_on(RUNNING_TOTAL), before.clone(), Self::FIXED_BASE);
        let follows = when(Self::is_on(BID), 0.0, cents(base * Self::rate()));
        cents(before + Self::unless_held(follows))
    })
    .said_after(Self::said_after);

    /// Direct cost and the mark-ups on cost above it.
    const BEFORE: Step<Self> = Step::arithmetic("total before it", System::money, || {
        Self::above(Self::AFTER, Self::of_whole(Self::DIRECT))
    })
    .said_after(Self::said_after);

    /// What it adds on cost.
    const ADDED: Step<Self> = Step::from_job("added on cost", System::money, || {
        cents(Self::AFTER - Self::BEFORE)
    })
    .said_after(Self::said_after);

    /// Its share of the bid itself; zero for a mark-up on cost.
    const SHARE: Step<Self> = Step::new(
        "share of the bid",
        System::percent,
        &sources::PERCENT_OF_BID,
        share_of_bid::<Self>,
    )
    .said_after(Self::said_after);

    /// The same of all mark-ups down to it.
    const SHARE_SO_FAR: Step<Self> = Step::running(
        "share of the bid so far",
        System::percent,
        &sources::PERCENT_OF_BID,
        |own| Self::above(own, 0.0) + share_of_bid::<Self>(),
    )
    .said_after(Self::said_after);

    /// Direct cost and all mark-ups on cost.
    const ON_COST: Step<Self::Whole> =
        Step::arithmetic("before shares of the bid", System::money, || {
            cents(Self::DIRECT + Self::sum(Self::ADDED))
        })
        .said_after(Self::said_after);

    /// The sum of the shares of the bid.
    const SHARES: Step<Self::Whole> = Step::new(
        "shares of the bid",
        System::percent,
        &sources::PERCENT_OF_BID,
        || Self::sum(Self::SHARE),
    )
    .said_after(Self::said_after);

    /// Direct cost and all mark-ups: the bid of which some are a share, cost ÷ (1 − shares).
    const LUMP: Step<Self::Whole> = Step::new(
        "direct cost and mark-ups",
        System::money,
        &sources::PERCENT_OF_BID,
        || grossed_up(Self::ON_COST, Self::SHARES),
    )
    .said_after(Self::said_after);

    /// What mark-ups down to it take of the bid itself.
    const OF_BID_SO_FAR: Step<Self> = Step::new(
        "of the bid so far",
        System::money,
        &sources::PERCENT_OF_BID,
        || cents(Self::of_whole(Self::LUMP) * Self::SHARE_SO_FAR),
    )
    .said_after(Self::said_after);

    /// Its amount.
    const AMOUNT: Step<Self> = Step::from_job("amount", System::money, || {
        let of_the_bid = Self::OF_BID_SO_FAR - Self::above(Self::OF_BID_SO_FAR, 0.0);
        let added = Self::ADDED;
        cents(when(Self::is_on(BID), of_the_bid + added, added))
    })
    .said_after(Self::said_after);

    /// What it is a percentage of.
    const BASE: Step<Self> = Step::from_job("base", System::money, || {
        let base = when(Self::is_on(RUNNING_TOTAL), Self::BEFORE, Self::FIXED_BASE);
        when(Self::is_on(BID), Self::of_whole(Self::LUMP), base)
    })
    .said_after(Self::said_after);
}

fn share_of_bid<T: Chain>() -> Term<T> {
    T::share_unless_held(when(T::is_on(BID), T::rate(), 0.0))
}

/// An amount with the shares of the bid on top: amount ÷ (1 − shares).
pub(super) fn grossed_up<P: Table>(amount: impl Into<Term<P>>, shares: Step<P>) -> Term<P> {
    let amount = amount.into();
    let left = 1.0 - shares.here();
    let some_left = left.clone().above(0.0);
    cents(when(some_left, amount.clone() / left, amount))
}
