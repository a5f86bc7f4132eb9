//! Amounts of lines and of sections: the bid shared out in proportion to direct cost.
//!
//! Always true: the amounts of a lump sum add up to it to the cent; those of a unit-price
//! bid are its rounded extensions.

use super::{LUMP_SUM, lines};
use crate::graph::Piece;
use crate::graph::prelude::*;
use crate::job::tables::OtherItems;
use crate::pricing::cents;
use crate::pricing::lines::section_names;
use crate::pricing::{costs, lines as taken};
use crate::sources;
use crate::tables::{Bid, Lines, Sections};
use crate::takeoff::job_wide::BY_UNIT_PRICE;
use crate::units::System;

/// Unit prices and amounts; a bid above zero has a line with direct cost.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Bid>::fault(
        "a bid that no line carries",
        Code::MissingPrice,
        OtherItems::Price.at(),
        || LUMP_SUM.above(0.0).and(CARRIED.above(0.0).negate()),
        "the bid has cost, but no line of it has: whole orders or mark-ups have nothing to stand on",
        "give at least one line a quantity and a price",
    ),
    &UNIT_PRICE,
    &AMOUNT,
    &SECTION,
    &SECTION_AMOUNT,
];

/// Direct cost that lines carry.
const CARRIED: Step<Bid> = Step::arithmetic("direct cost of lines", System::money, || {
    cents(total(lines::DIRECT_COST))
});

/// The bid for one of direct cost.
const SPREAD: Step<Bid> = Step::arithmetic("bid for one of direct cost", System::number, || {
    when(CARRIED.above(0.0), LUMP_SUM / CARRIED, 0.0)
});

/// Direct cost of all lines down to it.
const DIRECT_SO_FAR: Step<Lines> = Step::running(
    "direct cost so far",
    System::money,
    &sources::ARITHMETIC,
    |own| cents(own.row_above_or(0.0) + lines::DIRECT_COST),
);

/// What the bid comes to down to it.
const BID_SO_FAR: Step<Lines> = Step::arithmetic("bid so far", System::money, || {
    cents(DIRECT_SO_FAR * only(SPREAD))
});

/// A line's share of a lump sum: the bid down to it less the bid before it, both rounded.
const SHARE: Step<Lines> = Step::arithmetic("share of a lump sum", System::money, || {
    cents(BID_SO_FAR - BID_SO_FAR.row_above_or(0.0))
});

/// Unit price of each line: mark-ups are spread in proportion to direct cost.
pub const UNIT_PRICE: Step<Lines> = Step::from_job("unit price", System::money, || {
    let exact = when(by_unit_price(), lines::DIRECT_COST * only(SPREAD), SHARE);
    let price = cents(exact / costs::QUANTITY);
    when(costs::QUANTITY.above(0.0), price, 0.0)
});

/// Amount of each line: in a unit-price bid quantity × rounded unit price; in a lump sum the
/// line's share, so that the amounts add up to the cent.
pub const AMOUNT: Step<Lines> = Step::from_job("amount", System::money, || {
    when(by_unit_price(), cents(costs::QUANTITY * UNIT_PRICE), SHARE)
});

fn by_unit_price() -> Condition {
    only::<Lines, _>(BY_UNIT_PRICE).above(0.0)
}

/// The words of each section, in the order of the lines.
pub const SECTIONS: Roster<Sections, Vec<Piece>> = Roster::new(section_names);

/// Name of each section.
pub const SECTION: Wording<Sections> =
    Wording::gathered("section", |graph| SECTIONS.words(graph, Vec::clone)).naming_rows();

/// The section of each line.
const SECTION_OF: LookUp<Lines, Sections> =
    LookUp::new("section row", || taken::SECTION.key()).among(|| SECTION.key());

/// Amount of each section.
pub const SECTION_AMOUNT: Step<Sections> =
    Step::arithmetic("amount", System::money, || cents(SECTION_OF.sum(AMOUNT)));
