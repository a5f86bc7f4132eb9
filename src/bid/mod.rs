//! From direct cost to the bid: whole orders, mark-ups, unit prices, hours, schedule.
//!
//! Always true: the bid is its direct cost and its mark-ups; a lump-sum bid is the sum
//! of its lines' shares to the cent; a unit-price bid is the sum of its rounded
//! extensions. Percentages of the bid itself are solved, not guessed.

pub mod certainty;
pub mod hours;
pub mod mark_ups;
pub mod orders;
pub mod suppliers;

use self::certainty::{GradeColumns, by_grade};
use self::hours::{Hours, hours};
use self::mark_ups::{MarkUpColumns, mark_ups};
use self::orders::{Orders, orders};
use self::suppliers::{OrderColumns, SupplierColumns, by_supplier};
use crate::diagnostic::Code;
use crate::graph::{
    Breach, Column, Graph, Link, Piece, Rules, Table, Term, Text, highest, only, total, when,
};
use crate::job::tables::{JobKeys, MarkUps, OtherItems};
use crate::pricing::cents;
use crate::pricing::lines::{LineColumns, Lines};
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::job_wide::JobWide;
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
    const NAME: &'static str = "Bid sections";
    const ROW: &'static str = "section";
}

/// Figures of the whole bid.
#[derive(Clone, Copy, Debug)]
pub struct BidColumns {
    /// Material, with whole orders and freight.
    pub material: Column<Bid>,
    /// Labor.
    pub labor: Column<Bid>,
    /// Equipment.
    pub equipment: Column<Bid>,
    /// Subcontracts.
    pub subcontract: Column<Bid>,
    /// Of the material: what whole units and minimum orders cost beyond the lines.
    pub whole_orders: Column<Bid>,
    /// Of the material: freight of its deliveries.
    pub freight: Column<Bid>,
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
    /// What comes from each supplier.
    pub suppliers: SupplierColumns,
    /// The orders, those of one supplier together.
    pub order_list: OrderColumns,
    /// Hours.
    pub hours: Hours,
    /// Mark-ups.
    pub mark_ups: MarkUpColumns,
    /// The bid.
    pub bid: BidColumns,
    /// The bid by how its measures were come by.
    pub grades: GradeColumns,
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
    pub(super) freight: Column<Bid>,
    pub(super) direct: Column<Bid>,
}

/// Everything that the bid as a whole is worked out from.
struct BidParts {
    cost: Cost,
    mark_ups: MarkUpColumns,
    lump: Column<Bid>,
    amount: Column<Lines>,
}

/// Adds everything after the lines. `sections` are the pieces that name each section.
pub fn priced(
    graph: &mut Graph,
    basis: &Basis<'_>,
    lines: &LineColumns,
    sections: Vec<Vec<Piece>>,
) -> Priced {
    let (inputs, wide, production) = (basis.inputs, basis.wide, basis.production);
    let orders = orders(graph, inputs, lines, production);
    let (suppliers, order_list) = by_supplier(graph, basis, &orders);
    let hours = hours(graph, inputs, lines, production);
    let cost = cost(graph, lines, &orders);
    let (mark_ups, lump) = mark_ups(graph, inputs, &cost);
    let (unit_price, amount) = line_amounts(graph, inputs, lines, wide, lump);
    let (section, section_amount) = section_amounts(graph, lines, amount, sections);
    let parts = BidParts {
        cost,
        mark_ups,
        lump,
        amount,
    };
    let bid = bid(graph, inputs, wide, lines, &parts);
    Priced {
        orders,
        suppliers,
        order_list,
        hours,
        mark_ups,
        grades: by_grade(graph, lines.grade, amount, bid.total),
        bid,
        unit_price,
        amount,
        section,
        section_amount,
    }
}

/// Direct cost by kind: the sum of the lines, and for material what whole orders cost
/// beyond them and what their deliveries cost.
fn cost(graph: &mut Graph, lines: &LineColumns, orders: &Orders) -> Cost {
    graph.add_table::<Bid>(1);
    let mut rules = graph.rules::<Bid>();
    let mut sum = |name: &str, amount: Term<Bid>| rules.arithmetic(name, MONEY, cents(amount));
    let beyond = total(orders.beyond);
    let whole_orders = sum("whole units and minimum orders", beyond);
    let freight = sum("freight", total(orders.freight));
    let material = total(lines.material_cost) + whole_orders + freight;
    let material = sum("material", material);
    let labor = sum("labor", total(lines.labor_cost));
    let equipment = sum("equipment", total(lines.equipment_cost));
    let subcontract = sum("subcontract", total(lines.subcontract_cost));
    let direct = material + labor + equipment + subcontract;
    Cost {
        material,
        labor,
        equipment,
        subcontract,
        whole_orders,
        freight,
        direct: sum("direct cost", direct),
    }
}

/// Unit prices and amounts of lines: mark-ups are spread in proportion to direct cost.
///
/// In a unit-price bid the amount is quantity × rounded unit price; in a lump sum it is
/// the line's share, so that the amounts add up to the cent.
fn line_amounts(
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
fn section_amounts(
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

/// The bid as a whole: totals, rounding, hours and days.
fn bid(
    graph: &mut Graph,
    inputs: &AllInputs,
    wide: &JobWide,
    lines: &LineColumns,
    parts: &BidParts,
) -> BidColumns {
    let longest = highest(lines.crew_hours, lines.machine_hours);
    let mut rules = graph.rules::<Lines>();
    let longest = rules.arithmetic("hours of the line", H, longest);
    let mut rules = graph.rules::<Bid>();
    let mark_ups = cents(total(parts.mark_ups.amount));
    let mark_ups = rules.arithmetic("mark-ups", MONEY, mark_ups);
    rules.limit(
        "no mark-ups",
        mark_ups
            .here()
            .same_as(0.0)
            .and(parts.lump.here().above(0.0)),
        Breach::warning(
            Code::MissingValue,
            inputs.number(MarkUps::Share).id,
            "there are no mark-ups: this is bid at cost",
            "write overhead and profit in Mark-ups",
        ),
    );
    let whole = rules.arithmetic("bid", MONEY, cents(total(parts.amount)));
    let rounding = cents(whole - parts.lump);
    let rounding = rules.arithmetic("rounding of unit prices", MONEY, rounding);
    let crew_hours = rules.arithmetic("crew hours", H, total(lines.crew_hours));
    let machine_hours = total(lines.machine_hours);
    let machine_hours = rules.arithmetic("machine hours", H, machine_hours);
    let days = days(&mut rules, inputs, wide, longest);
    BidColumns {
        material: parts.cost.material,
        labor: parts.cost.labor,
        equipment: parts.cost.equipment,
        subcontract: parts.cost.subcontract,
        whole_orders: parts.cost.whole_orders,
        freight: parts.cost.freight,
        direct: parts.cost.direct,
        mark_ups,
        lump_sum: parts.lump,
        total: whole,
        rounding,
        crew_hours,
        machine_hours,
        working_days: days.working,
        days_with_weather: days.with_weather,
        calendar_days: days.calendar,
    }
}

/// How long the job takes, in whole days.
struct Days {
    working: Column<Bid>,
    with_weather: Column<Bid>,
    calendar: Column<Bid>,
}

/// Days of work one line after the other, `hours` being those of each line; then with
/// weather; then by the calendar: × 1.4 for a week of five days or fewer, 1.2 for six, 1
/// for seven.
fn days(
    rules: &mut Rules<'_, Bid>,
    inputs: &AllInputs,
    wide: &JobWide,
    hours: Column<Lines>,
) -> Days {
    let working = total::<Bid, Lines>(hours).number_in(H) / only(wide.hours_a_day);
    let working = rules.arithmetic("working days", ONE, working.round_up());
    let weather = only::<Bid, JobKeys>(inputs.number(JobKeys::WeatherDays));
    let with_weather = rules.from_job("working days with weather", ONE, working + weather);
    let week = only::<Bid, JobKeys>(wide.days_a_week);
    let up_to_six = when(week.clone().above(5.0), 1.2, 1.4);
    let by_calendar = when(week.above(6.0), 1.0, up_to_six);
    let calendar = (with_weather * by_calendar).round_in(ONE, 0);
    Days {
        working,
        with_weather,
        calendar: rules.step("calendar days", ONE, &sources::CALENDAR, calendar),
    }
}
