//! Amounts of lines and of sections: the bid shared out in proportion to direct cost.
//!
//! Always true: the amounts of a lump sum add up to it to the cent; those of a unit-price
//! bid are its rounded extensions.

use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Piece, Rules, Text, only, total, when};
use crate::job::tables::{JobKeys, OtherItems};
use crate::pricing::cents;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Bid, Lines, Sections};
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::job_wide::JobWide;
use crate::units::{MONEY, ONE};

/// Unit prices and amounts of lines: mark-ups are spread in proportion to direct cost.
///
/// In a unit-price bid the amount is quantity × rounded unit price; in a lump sum it is
/// the line's share, so that the amounts add up to the cent.
pub(super) fn line_amounts(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    wide: &JobWide,
    lump: Column<Bid>,
) -> (Column<Lines>, Column<Lines>) {
    let spread = spread(graph, inputs, lines, lump);
    let mut rules = graph.rules::<Lines>();
    let share = lump_share(&mut rules, lines, spread);
    let some = lines.quantity.here().above(0.0);
    let by_unit = only::<Lines, JobKeys>(wide.by_unit_price).above(0.0);
    let exact = when(by_unit.clone(), lines.direct * only(spread), share);
    let unit_price = when(some, cents(exact / lines.quantity), 0.0);
    let unit_price = rules.from_job("unit price", MONEY, unit_price);
    let amount = when(by_unit, cents(lines.quantity * unit_price), share);
    (unit_price, rules.from_job("amount", MONEY, amount))
}

/// The bid for one of direct cost. Limit: a bid above zero has a line with direct cost.
fn spread(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    lump: Column<Bid>,
) -> Column<Bid> {
    let mut rules = graph.rules::<Bid>();
    let direct = cents(total(lines.direct));
    let direct = rules.arithmetic("direct cost of lines", MONEY, direct);
    let carried = direct.here().above(0.0);
    rules.limit(
        "a bid that no line carries",
        lump.here().above(0.0).and(carried.clone().negate()),
        Breach::fault(
            Code::MissingPrice,
            inputs.number(OtherItems::Price).id,
            "the bid has cost, but no line of it has: whole orders or mark-ups have nothing to stand on",
            "give at least one line a quantity and a price",
        ),
    );
    let spread = when(carried, lump / direct, 0.0);
    rules.arithmetic("bid for one of direct cost", ONE, spread)
}

/// A line's share of a lump sum: the bid down to it less the bid before it, both rounded.
fn lump_share(
    rules: &mut Rules<'_, Lines>,
    lines: &LineColumns,
    spread: Column<Bid>,
) -> Column<Lines> {
    let cumulated = rules.running("direct cost so far", MONEY, &sources::ARITHMETIC, |own| {
        cents(own.row_above_or(0.0) + lines.direct)
    });
    let upto = cents(cumulated * only(spread));
    let upto = rules.arithmetic("bid so far", MONEY, upto);
    let share = cents(upto - upto.row_above_or(0.0));
    rules.arithmetic("share of a lump sum", MONEY, share)
}

/// The sections by name, and the sum of the amounts of each one's lines.
pub(super) fn section_amounts(
    graph: &mut Graph,
    lines: &LineColumns,
    amount: Column<Lines>,
    sections: Vec<Vec<Piece>>,
) -> (Text<Sections>, Column<Sections>) {
    graph.add_table::<Sections>(sections.len());
    let mut rules = graph.rules::<Sections>();
    let section = rules.gathered_words("section", sections);
    rules.labelled_by(section);
    let link: Link<Lines, Sections> = graph.rules::<Lines>().link("section row", lines.section);
    let mut rules = graph.rules::<Sections>();
    let amount = rules.arithmetic("amount", MONEY, cents(link.sum(amount)));
    (section, amount)
}
