//! From direct cost to the bid: whole orders, mark-ups, unit prices, hours, schedule.
//!
//! Always true: the bid is its direct cost and its mark-ups; a lump-sum bid is the sum
//! of its lines' shares to the cent; a unit-price bid is the sum of its rounded
//! extensions. Percentages of the bid itself are solved, not guessed.

use super::lines::{LineColumns, Lines};
use crate::diagnostic::Code;
use crate::graph::{
    Breach, Column, Graph, Link, Rules, Table, Term, Text, highest, only, total, when,
};
use crate::job::tables::{Crews, Equipment, JobKeys, MarkUps, Materials, ProductionRates as Works};
use crate::sources;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::job_wide::JobWide;
use crate::takeoff::production::Production;
use crate::units::{H, MONEY, ONE, PERCENT};

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

/// What is ordered of each material.
#[derive(Clone, Copy, Debug)]
pub struct Orders {
    /// Needed, in the unit it is sold in.
    pub needed: Column<Materials>,
    /// Ordered: whole multiples, at least the minimum.
    pub ordered: Column<Materials>,
    /// Cost of the order.
    pub cost: Column<Materials>,
    /// What the order costs beyond its lines.
    pub beyond: Column<Materials>,
}

/// Hours of crews and machines.
#[derive(Clone, Copy, Debug)]
pub struct Hours {
    /// Hours of each crew.
    pub crews: Column<Crews>,
    /// Hours of each machine.
    pub machines: Column<Equipment>,
    /// Hours of the crew on each work.
    pub work_crew: Column<Works>,
    /// Hours of the machine on each work.
    pub work_machine: Column<Works>,
}

/// Columns of mark-ups.
#[derive(Clone, Copy, Debug)]
pub struct MarkUpColumns {
    /// What each is a percentage of.
    pub base: Column<MarkUps>,
    /// Its amount.
    pub amount: Column<MarkUps>,
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

fn cents<T>(amount: Term<T>) -> Term<T> {
    amount.round(2)
}

/// Adds orders: whole sale units and minimum orders.
fn orders(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) -> Orders {
    let materials = &inputs.materials;
    let mut rules = graph.rules::<Materials>();
    let needed = rules.step(
        "needed",
        ONE,
        &sources::ARITHMETIC,
        lines.material.sum(lines.bought).round(3),
    );
    let sold_in = materials.number(Materials::SoldIn);
    let whole = when(
        sold_in.here().above(0.0),
        (needed / sold_in).round_up() * sold_in,
        needed,
    );
    let least = highest(whole, materials.number(Materials::Minimum));
    let ordered = rules.step(
        "ordered",
        ONE,
        &sources::JOB,
        when(needed.here().above(0.0), least.round(3), 0.0),
    );
    let cost = rules.step(
        "order cost",
        MONEY,
        &sources::JOB,
        cents(ordered * production.material_price),
    );
    let beyond = cents(cost - lines.material.sum(lines.material_cost));
    let beyond = rules.step("beyond its lines", MONEY, &sources::ARITHMETIC, beyond);
    let price = materials.number(Materials::MaterialPrice);
    let plug = materials.number(Materials::MaterialPlug);
    let used = needed.here().above(0.0);
    rules.limit(
        "material on a plug price",
        price.blank().and(plug.filled()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "the price of this material is a plug",
            "write the price when it is in; until then the bid is a draft",
        ),
    );
    rules.limit(
        "material without a price",
        price.blank().and(plug.blank()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "this material has no price: it is excluded",
            "write a price, or a plug price to stand in",
        ),
    );
    let until = materials.number(Materials::ValidUntil);
    let day = only::<Materials, JobKeys>(inputs.job.number(JobKeys::BidDate));
    rules.limit(
        "quote run out",
        until.filled().and(used).and(until.here().below(day)),
        Breach::open(
            Code::QuoteExpired,
            until.id,
            "the quote has run out on the day of the bid",
            "ask for it again, and write the new price and day",
        ),
    );
    Orders {
        needed,
        ordered,
        cost,
        beyond,
    }
}

fn hours(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) -> Hours {
    let mut rules = graph.rules::<Works>();
    let work_crew = rules.step(
        "hours of the crew",
        H,
        &sources::MAN_HOURS,
        lines.work.sum(lines.crew_hours),
    );
    let work_machine = rules.step(
        "hours of the machine",
        H,
        &sources::MAN_HOURS,
        lines.work.sum(lines.machine_hours),
    );
    let quantity = rules.step(
        "lines of this work",
        ONE,
        &sources::ARITHMETIC,
        lines.work.sum(lines.quantity),
    );
    let idle = production
        .crew_output
        .here()
        .above(0.0)
        .negate()
        .and(production.machine_output.here().above(0.0).negate());
    rules.limit(
        "work without crew or machine",
        quantity.here().above(0.0).and(idle),
        Breach::open(
            Code::MissingRate,
            inputs.works.number(Works::CrewOutput).id,
            "nobody does this work: it has no crew with an output and no machine with an output or a cycle",
            "write a crew with its output, or a machine with its output or its cycle",
        ),
    );
    let mut rules = graph.rules::<Crews>();
    let crews = rules.step(
        "hours",
        H,
        &sources::ARITHMETIC,
        production.crew_of.sum(work_crew),
    );
    let (wage, plug) = (
        inputs.crews.number(Crews::Wage),
        inputs.crews.number(Crews::PlugWage),
    );
    rate_limits(&mut rules, (wage, plug), crews);
    let mut rules = graph.rules::<Equipment>();
    let machines = rules.step(
        "hours",
        H,
        &sources::ARITHMETIC,
        production.machine_of.sum(work_machine),
    );
    let (rate, plug) = (
        inputs.equipment.number(Equipment::Rate),
        inputs.equipment.number(Equipment::PlugRate),
    );
    rate_limits(&mut rules, (rate, plug), machines);
    Hours {
        crews,
        machines,
        work_crew,
        work_machine,
    }
}

fn rate_limits<T: Table>(
    rules: &mut Rules<'_, T>,
    (rate, plug): (Column<T>, Column<T>),
    hours: Column<T>,
) {
    let used = hours.here().above(0.0);
    rules.limit(
        "rate on a plug",
        rate.blank().and(plug.filled()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            rate.id,
            "this rate is a plug",
            "write the rate when it is known; until then the bid is a draft",
        ),
    );
    rules.limit(
        "no rate",
        rate.blank().and(plug.blank()).and(used),
        Breach::open(
            Code::MissingPrice,
            rate.id,
            "this has hours and no rate: it is excluded",
            "write a rate, or a plug rate to stand in",
        ),
    );
}

/// Mark-ups in their order; then the bid, of which some may be a percentage.
fn mark_ups(graph: &mut Graph, inputs: &AllInputs, cost: &Cost) -> (MarkUpColumns, Column<Bid>) {
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

struct Cost {
    material: Column<Bid>,
    labor: Column<Bid>,
    equipment: Column<Bid>,
    subcontract: Column<Bid>,
    whole_orders: Column<Bid>,
    direct: Column<Bid>,
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
    let (unit_price, amount) = line_amounts(graph, lines, wide, lump);
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
        (days_with_weather * factor).round(0),
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
