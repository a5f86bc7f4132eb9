//! From direct cost to the bid: whole orders, mark-ups, unit prices, hours, schedule.
//!
//! Always true: the bid is its direct cost and its mark-ups; a lump-sum bid is the sum
//! of its lines' shares to the cent; a unit-price bid is the sum of its rounded
//! extensions. Percentages of the bid itself are solved, not guessed.

mod amounts;
pub mod certainty;
pub mod client_items;
pub mod hours;
pub mod mark_ups;
pub mod orders;
pub mod scenario_orders;
pub mod scenarios;
pub mod suppliers;
pub mod turn_up;

use self::amounts::{line_amounts, section_amounts};
use self::certainty::{GradeColumns, by_grade};
use self::hours::{Hours, hours};
use self::mark_ups::{MarkUpColumns, mark_ups};
use self::orders::{Orders, orders};
use self::scenario_orders::scenario_orders;
use self::scenarios::{ComparedColumns, CrewOnly, compared};
use self::suppliers::{OrderColumns, SupplierColumns, by_supplier};
use self::turn_up::{TurnUpColumns, turn_up};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Column, Graph, Link, Piece, Rules, Solve, Table, Term, Text, highest, only, total,
};
use crate::job::tables::{JobKeys, MarkUps};
use crate::labour::compared::ROW_IN_USE;
use crate::pricing::cents;
use crate::pricing::lines::{BY_THE_CREW, LineColumns};
use crate::sources;
use crate::tables::{Bid, Compared, Lines, Sections};
use crate::takeoff::basis::Basis;
use crate::units::{H, MONEY, ONE};

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
    /// The scenarios side by side, where the job has any.
    pub scenarios: Option<Scenarios>,
}

/// The scenarios of a job.
#[derive(Clone, Copy, Debug)]
pub struct Scenarios {
    /// Side by side.
    pub compared: ComparedColumns,
    /// If partners do not turn up.
    pub turn_up: TurnUpColumns,
}

/// Direct cost by kind.
#[derive(Clone, Copy)]
pub(super) struct Cost<P> {
    pub(super) material: Column<P>,
    pub(super) labor: Column<P>,
    pub(super) equipment: Column<P>,
    pub(super) subcontract: Column<P>,
    pub(super) direct: Column<P>,
}

/// The job with the crew alone, or with the partners of the scenario in use.
struct Costed {
    orders: Orders,
    cost: Cost<Bid>,
    whole_orders: Column<Bid>,
    freight: Column<Bid>,
    mark_ups: MarkUpColumns,
    lump: Column<Bid>,
    longest: Column<Lines>,
    working_days: Column<Bid>,
}

/// Adds everything after the lines. `sections` are the pieces that name each section;
/// `in_use`
/// are the lines as they are in the scenario in use, where the job has scenarios.
pub fn priced(
    graph: &mut Graph,
    basis: &Basis<'_>,
    lines: &LineColumns,
    in_use: Option<&LineColumns>,
    sections: Vec<Vec<Piece>>,
) -> Priced {
    let (inputs, wide) = (basis.inputs, basis.wide);
    let (costed, scenarios) = match in_use {
        None => (crew_only(graph, basis, lines, ""), None),
        Some(in_use) => {
            let (costed, scenarios) = by_scenario(graph, basis, lines, in_use);
            (costed, Some(scenarios))
        }
    };
    let lines = in_use.unwrap_or(lines);
    orders::order_limits(graph, inputs, &costed.orders);
    let (suppliers, order_list) = by_supplier(graph, basis, &costed.orders);
    let hours = hours(graph, basis, lines);
    let (unit_price, amount) = line_amounts(graph, inputs, lines, wide, costed.lump);
    let (section, section_amount) = section_amounts(graph, lines, amount, sections);
    let bid = bid(graph, basis, lines, (&costed, amount));
    Priced {
        orders: costed.orders,
        suppliers,
        order_list,
        hours,
        mark_ups: costed.mark_ups,
        grades: by_grade(graph, lines.grade, amount, bid.total),
        bid,
        unit_price,
        amount,
        section,
        section_amount,
        scenarios,
    }
}

/// The job as the lines say; `by_whom` is said after the names of the columns.
fn crew_only(graph: &mut Graph, basis: &Basis<'_>, lines: &LineColumns, by_whom: &str) -> Costed {
    let orders = orders(graph, basis.inputs, lines, basis.production, by_whom);
    let (cost, whole_orders, freight) = cost(graph, lines, &orders, by_whom);
    let (mark_ups, solved) = mark_ups(graph, basis.inputs, &cost, by_whom);
    let longest = longest(graph, lines, by_whom);
    let hours = total::<Bid, Lines>(longest).number_in(H);
    let days = (hours / only(basis.wide.hours_a_day)).round_up();
    let mut rules = graph.rules::<Bid>();
    Costed {
        orders,
        cost,
        whole_orders,
        freight,
        mark_ups,
        lump: solved.lump,
        longest,
        working_days: rules.arithmetic(&format!("working days{by_whom}"), ONE, days),
    }
}

/// The scenarios side by side, and the job in the one in use.
fn by_scenario(
    graph: &mut Graph,
    basis: &Basis<'_>,
    lines: &LineColumns,
    in_use: &LineColumns,
) -> (Costed, Scenarios) {
    let plain = crew_only(graph, basis, lines, BY_THE_CREW);
    let known = (&plain.orders, in_use);
    let (by_order, orders) = scenario_orders(graph, basis, known);
    let crew_only = CrewOnly {
        cost: &plain.cost,
        mark_ups: &plain.mark_ups,
        lines,
        longest: plain.longest,
    };
    let side_by_side = compared(graph, basis, (crew_only, &by_order));
    let columns = side_by_side.columns;
    let turn_up = turn_up(graph, basis, (&columns, &side_by_side.solved));
    let (cost, whole_orders, freight) = cost(graph, in_use, &orders, "");
    let mut rules = graph.rules::<Bid>();
    let row = only::<Bid, JobKeys>(ROW_IN_USE);
    let row: Link<Bid, Compared> = Link::new(rules.from_job("scenario in use", ONE, row).id);
    let lump = rules.from_job("direct cost and mark-ups", MONEY, row.of(columns.bid));
    let days = rules.from_job("working days", ONE, row.of(columns.working_days));
    let costed = Costed {
        orders,
        cost,
        whole_orders,
        freight,
        mark_ups: side_by_side.mark_ups,
        lump,
        longest: plain.longest,
        working_days: days,
    };
    let scenarios = Scenarios {
        compared: columns,
        turn_up,
    };
    (costed, scenarios)
}

/// The longer of crew and machine on each line.
fn longest(graph: &mut Graph, lines: &LineColumns, by_whom: &str) -> Column<Lines> {
    let longest = highest(lines.crew_hours, lines.machine_hours);
    let mut rules = graph.rules::<Lines>();
    rules.arithmetic(&format!("hours of the line{by_whom}"), H, longest)
}

/// Direct cost by kind: the sum of the lines, and for material what whole orders cost
/// beyond them and what their deliveries cost; with those two.
fn cost(
    graph: &mut Graph,
    lines: &LineColumns,
    orders: &Orders,
    by_whom: &str,
) -> (Cost<Bid>, Column<Bid>, Column<Bid>) {
    let mut rules = graph.rules::<Bid>();
    let mut sum = |name: &str, amount: Term<Bid>| {
        rules.arithmetic(&format!("{name}{by_whom}"), MONEY, cents(amount))
    };
    let beyond = total(orders.beyond);
    let whole_orders = sum("whole units and minimum orders", beyond);
    let freight = sum("freight", total(orders.freight));
    let material = total(lines.material_cost) + whole_orders + freight;
    let material = sum("material", material);
    let labor = sum("labor", total(lines.labor_cost));
    let equipment = sum("equipment", total(lines.equipment_cost));
    let subcontract = sum("subcontract", total(lines.subcontract_cost));
    let direct = material + labor + equipment + subcontract;
    let cost = Cost {
        material,
        labor,
        equipment,
        subcontract,
        direct: sum("direct cost", direct),
    };
    (cost, whole_orders, freight)
}

/// The bid as a whole: totals, rounding, hours and days.
fn bid(
    graph: &mut Graph,
    basis: &Basis<'_>,
    lines: &LineColumns,
    (costed, amount): (&Costed, Column<Lines>),
) -> BidColumns {
    let mut rules = graph.rules::<Bid>();
    let mark_ups = cents(total(costed.mark_ups.amount));
    let mark_ups = rules.arithmetic("mark-ups", MONEY, mark_ups);
    let none = mark_ups.here().same_as(0.0);
    rules.limit(
        "no mark-ups",
        none.and(costed.lump.here().above(0.0)),
        Breach::warning(
            Code::MissingValue,
            basis.inputs.number(MarkUps::Share).id,
            "there are no mark-ups: this is bid at cost",
            "write overhead and profit in Mark-ups",
        ),
    );
    let whole = rules.arithmetic("bid", MONEY, cents(total(amount)));
    let rounding = cents(whole - costed.lump);
    let rounding = rules.arithmetic("rounding of unit prices", MONEY, rounding);
    let crew_hours = rules.arithmetic("crew hours", H, total(lines.crew_hours));
    let machine_hours = total(lines.machine_hours);
    let machine_hours = rules.arithmetic("machine hours", H, machine_hours);
    let (with_weather, calendar) = calendar(&mut rules, basis, costed.working_days);
    BidColumns {
        material: costed.cost.material,
        labor: costed.cost.labor,
        equipment: costed.cost.equipment,
        subcontract: costed.cost.subcontract,
        whole_orders: costed.whole_orders,
        freight: costed.freight,
        direct: costed.cost.direct,
        mark_ups,
        lump_sum: costed.lump,
        total: whole,
        rounding,
        crew_hours,
        machine_hours,
        working_days: costed.working_days,
        days_with_weather: with_weather,
        calendar_days: calendar,
    }
}

/// Working days with weather; then by the calendar.
fn calendar(
    rules: &mut Rules<'_, Bid>,
    basis: &Basis<'_>,
    working: Column<Bid>,
) -> (Column<Bid>, Column<Bid>) {
    let weather = only::<Bid, JobKeys>(basis.inputs.number(JobKeys::WeatherDays));
    let with_weather = rules.from_job("working days with weather", ONE, working + weather);
    let calendar = (with_weather * only(basis.wide.by_calendar)).round_in(ONE, 0);
    let calendar = rules.step("calendar days", ONE, &sources::CALENDAR, calendar);
    (with_weather, calendar)
}

/// Where each row of a table comes from, as a look-up holds it.
fn rows_meant<C: Table, P>(
    rules: &mut Rules<'_, C>,
    name: &str,
    rows: impl Iterator<Item = usize>,
) -> Link<C, P> {
    let numbers = rows.map(|row| f64::from(u32::try_from(row + 1).unwrap_or(u32::MAX)));
    let solve = Solve::fixed(Vec::new(), numbers.collect());
    Link::new(rules.solved(name, ONE, &sources::JOB, solve).id)
}
