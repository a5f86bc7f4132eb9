//! From direct cost to the bid: whole orders, mark-ups, unit prices, hours, schedule.
//!
//! Always true: the bid is its direct cost and its mark-ups; a lump-sum bid is the sum
//! of its lines' shares to the cent; a unit-price bid is the sum of its rounded
//! extensions. Percentages of the bid itself are solved, not guessed.

use super::cents;
use super::hours::{Hours, hours};
use super::lines::{LineColumns, Lines};
use super::mark_ups::{MarkUpColumns, mark_ups};
use super::orders::{Orders, orders};
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, Link, Table, Text, highest, only, total, when};
use crate::job::tables::{JobKeys, OtherItems};
use crate::sources;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::job_wide::JobWide;
use crate::takeoff::production::Production;
use crate::units::{H, MONEY, ONE};

/// The bid as a whole: one row.
#[derive(Debug)]
pub enum Bid {}

impl Table for Bid {
    const NAME: &'static str = "Bid";
    const ROW: &'static str = "bid";
}

/// One heading of the bid.
#[derive(Debug)]
pub enum Sections {}

impl Table for Sections {
    const NAME: &'static str = "Sections";
    const ROW: &'static str = "section";
}

/// Figures of the whole bid.
#[derive(Clone, Copy, Debug)]
pub struct BidColumns {
    /// Material, with whole orders.
    pub material: Column<Bid>,
    /// Labor.
    pub labor: Column<Bid>,
    /// Equipment.
    pub equipment: Column<Bid>,
    /// Subcontracts.
    pub subcontract: Column<Bid>,
    /// Of the material: what whole units and minimum orders cost beyond the lines.
    pub whole_orders: Column<Bid>,
    /// Direct cost.
    pub direct: Column<Bid>,
    /// All mark-ups.
    pub mark_ups: Column<Bid>,
    /// Direct cost and mark-ups.
    pub lump_sum: Column<Bid>,
    /// The bid.
    pub total: Column<Bid>,
    /// What rounding of unit prices adds or takes.
    pub rounding: Column<Bid>,
    /// Hours of all crews.
    pub crew_hours: Column<Bid>,
    /// Hours of all machines.
    pub machine_hours: Column<Bid>,
    /// Working days, one line after the other.
    pub working_days: Column<Bid>,
    /// The same with days lost to weather.
    pub days_with_weather: Column<Bid>,
    /// Calendar days.
    pub calendar_days: Column<Bid>,
}

/// Everything after the lines.
#[derive(Clone, Copy, Debug)]
pub struct Priced {
    /// Orders.
    pub orders: Orders,
    /// Hours.
    pub hours: Hours,
    /// Mark-ups.
    pub mark_ups: MarkUpColumns,
    /// The bid.
    pub bid: BidColumns,
    /// Unit price of each line.
    pub unit_price: Column<Lines>,
    /// Amount of each line in the bid.
    pub amount: Column<Lines>,
    /// Name of each section.
    pub section: Text<Sections>,
    /// Amount of each section.
    pub section_amount: Column<Sections>,
}

/// Direct cost by kind.
pub(super) struct Cost {
    pub(super) material: Column<Bid>,
    pub(super) labor: Column<Bid>,
    pub(super) equipment: Column<Bid>,
    pub(super) subcontract: Column<Bid>,
    pub(super) whole_orders: Column<Bid>,
    pub(super) direct: Column<Bid>,
}

fn cost(graph: &mut Graph, lines: &LineColumns, orders: &Orders) -> Cost {
    graph.add_table::<Bid>(1);
    let mut rules = graph.rules::<Bid>();
    let whole_orders = rules.step(
        "whole units and minimum orders",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(orders.beyond)),
    );
    let material = rules.step(
        "material",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(lines.material_cost) + whole_orders),
    );
    let labor = rules.step(
        "labor",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(lines.labor_cost)),
    );
    let equipment = rules.step(
        "equipment",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(lines.equipment_cost)),
    );
    let subcontract = rules.step(
        "subcontract",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(lines.subcontract_cost)),
    );
    let direct = cents(material + labor + equipment + subcontract);
    let direct = rules.step("direct cost", MONEY, &sources::ARITHMETIC, direct);
    Cost {
        material,
        labor,
        equipment,
        subcontract,
        whole_orders,
        direct,
    }
}

/// Unit prices and amounts of lines: mark-ups are spread in proportion to direct cost.
fn line_amounts(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    wide: &JobWide,
    lump: Column<Bid>,
) -> (Column<Lines>, Column<Lines>) {
    let mut rules = graph.rules::<Bid>();
    let priced = rules.step(
        "direct cost of lines",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(lines.direct)),
    );
    rules.limit(
        "a bid that no line carries",
        lump.here().above(0.0).and(priced.here().above(0.0).negate()),
        Breach::fault(
            Code::MissingPrice,
            inputs.items.number(OtherItems::Price).id,
            "the bid has cost, but no line of it has: whole orders or mark-ups have nothing to stand on",
            "give at least one line a quantity and a price",
        ),
    );
    let spread = when(priced.here().above(0.0), lump / priced, 0.0);
    let spread = rules.step(
        "bid for one of direct cost",
        ONE,
        &sources::ARITHMETIC,
        spread,
    );
    let mut rules = graph.rules::<Lines>();
    let cumulated = rules.running("direct cost so far", MONEY, &sources::ARITHMETIC, |own| {
        cents(own.row_above_or(0.0) + lines.direct)
    });
    let upto = rules.step(
        "bid so far",
        MONEY,
        &sources::ARITHMETIC,
        cents(cumulated * only(spread)),
    );
    let share = rules.step(
        "share of a lump sum",
        MONEY,
        &sources::ARITHMETIC,
        cents(upto - upto.row_above_or(0.0)),
    );
    let some = lines.quantity.here().above(0.0);
    let by_unit = only::<Lines, JobKeys>(wide.by_unit_price).above(0.0);
    let exact = when(by_unit.clone(), lines.direct * only(spread), share);
    let unit_price = when(some, cents(exact / lines.quantity), 0.0);
    let unit_price = rules.step("unit price", MONEY, &sources::JOB, unit_price);
    let amount = when(by_unit, cents(lines.quantity * unit_price), share);
    (
        unit_price,
        rules.step("amount", MONEY, &sources::JOB, amount),
    )
}

/// Adds everything after the lines. `sections` are the pieces that name each section.
pub fn priced(
    graph: &mut Graph,
    inputs: &AllInputs,
    wide: &JobWide,
    production: &Production,
    lines: &LineColumns,
    sections: Vec<Vec<crate::graph::Piece>>,
) -> Priced {
    let orders = orders(graph, inputs, lines, production);
    let hours = hours(graph, inputs, lines, production);
    let cost = cost(graph, lines, &orders);
    let (mark_ups, lump) = mark_ups(graph, inputs, &cost);
    let (unit_price, amount) = line_amounts(graph, inputs, lines, wide, lump);
    graph.add_table::<Sections>(sections.len());
    let mut rules = graph.rules::<Sections>();
    let section = rules.gathered_words("section", sections);
    rules.labelled_by(section);
    let section_row: Link<Lines, Sections> =
        graph.rules::<Lines>().link("section row", lines.section);
    let section_amount = graph.rules::<Sections>().step(
        "amount",
        MONEY,
        &sources::ARITHMETIC,
        cents(section_row.sum(amount)),
    );
    let bid = bid(
        graph,
        inputs,
        wide,
        lines,
        BidParts {
            cost,
            mark_ups,
            lump,
            amount,
        },
    );
    Priced {
        orders,
        hours,
        mark_ups,
        bid,
        unit_price,
        amount,
        section,
        section_amount,
    }
}

struct BidParts {
    cost: Cost,
    mark_ups: MarkUpColumns,
    lump: Column<Bid>,
    amount: Column<Lines>,
}

fn bid(
    graph: &mut Graph,
    inputs: &AllInputs,
    wide: &JobWide,
    lines: &LineColumns,
    parts: BidParts,
) -> BidColumns {
    let BidParts {
        cost,
        mark_ups,
        lump,
        amount,
    } = parts;
    let mut rules = graph.rules::<Lines>();
    let longest = rules.step(
        "hours of the line",
        H,
        &sources::ARITHMETIC,
        highest(lines.crew_hours, lines.machine_hours),
    );
    let mut rules = graph.rules::<Bid>();
    let mark_up_total = rules.step(
        "mark-ups",
        MONEY,
        &sources::ARITHMETIC,
        cents(total(mark_ups.amount)),
    );
    let total_bid = rules.step("bid", MONEY, &sources::ARITHMETIC, cents(total(amount)));
    let rounding = rules.step(
        "rounding of unit prices",
        MONEY,
        &sources::ARITHMETIC,
        cents(total_bid - lump),
    );
    let crew_hours = rules.step(
        "crew hours",
        H,
        &sources::ARITHMETIC,
        total(lines.crew_hours),
    );
    let machine_hours = rules.step(
        "machine hours",
        H,
        &sources::ARITHMETIC,
        total(lines.machine_hours),
    );
    let days = total::<Bid, Lines>(longest).number_in(H) / only(wide.hours_a_day);
    let working_days = rules.step("working days", ONE, &sources::ARITHMETIC, days.round_up());
    let weather = only::<Bid, JobKeys>(inputs.job.number(JobKeys::WeatherDays));
    let days_with_weather = rules.step(
        "working days with weather",
        ONE,
        &sources::JOB,
        working_days + weather,
    );
    let week = only::<Bid, JobKeys>(wide.days_a_week);
    let factor = when(
        week.clone().above(6.0),
        1.0,
        when(week.above(5.0), 1.2, 1.4),
    );
    let calendar_days = rules.step(
        "calendar days",
        ONE,
        &sources::CALENDAR,
        (days_with_weather * factor).round_in(ONE, 0),
    );
    BidColumns {
        material: cost.material,
        labor: cost.labor,
        equipment: cost.equipment,
        subcontract: cost.subcontract,
        whole_orders: cost.whole_orders,
        direct: cost.direct,
        mark_ups: mark_up_total,
        lump_sum: lump,
        total: total_bid,
        rounding,
        crew_hours,
        machine_hours,
        working_days,
        days_with_weather,
        calendar_days,
    }
}
