//! Days, costs and mark-ups.

use std::fmt::Write;

use groundsheet::estimate::Estimate;
use groundsheet::units::{MONEY, ONE};

use crate::support::{US, estimate_of, exactly, figure, within};

/// A job of hand work that takes whole days of eight hours.
fn days(work_days: u32, keys: &str) -> Estimate {
    let items = format!(
        "Item,Section,Description,Times,Unit,Work\nHelp,Help,Hand work,{},h,Hand work\n",
        work_days * 8
    );
    estimate_of(&[
        ("Job", &format!("{US}{keys}")),
        ("Crews", "Crew,People\nMan,1\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nHand work,h,Man,1\n",
        ),
        ("Other items", &items),
    ])
}

fn of_bid(job: &Estimate, name: &str) -> f64 {
    let unit = if name.contains("days") { ONE } else { MONEY };
    figure(job, ("Bid", "", name), unit)
}

/// A job of priced items, each a name with its cost.
fn items(prices: &[(&str, f64)], mark_ups: &str) -> Estimate {
    let mut table = "Item,Section,Description,Times,Unit,Price\n".to_owned();
    for (name, price) in prices {
        let _ = writeln!(table, "{name},Work,{name},1,ls,{price}");
    }
    let mark_ups = format!("Mark-up,On,Rate (%)\n{mark_ups}");
    estimate_of(&[
        ("Job", US),
        ("Other items", &table),
        ("Mark-ups", &mark_ups),
    ])
}

#[test]
fn work_days_become_calendar_days() {
    let source = "EX-86, R1 for the factors, D for the days: Ohio DOT, Construction and Material \
                  Specifications (2010), §108.06";
    let rows = [
        (18, "5", 25.0), // 25.2
        (19, "5", 27.0), // 26.6
        (18, "4", 25.0),
        (18, "6", 22.0), // 21.6
        (18, "7", 18.0),
    ];
    for (work_days, week, calendar_days) in rows {
        let job = days(work_days, &format!("Days a week,{week}\n"));
        exactly(source, of_bid(&job, "working days"), f64::from(work_days));
        exactly(source, of_bid(&job, "calendar days"), calendar_days);
    }
}

#[test]
fn usual_weather_belongs_in_the_schedule() {
    let source = "EX-87, R1: USACE ER 415-1-15 (31 Oct 1989); a school-district clause allows 29 \
                  days a year";
    let months = [7, 7, 4, 3, 1, 1, 0, 0, 0, 2, 2, 2];
    let year: u32 = months.iter().sum();
    let job = days(100, &format!("Weather days,{year}\n"));
    exactly(source, of_bid(&job, "working days with weather"), 129.0);
    exactly(source, of_bid(&job, "calendar days"), 181.0); // 129 × 1.4 = 180.6, see EX-86
}

#[test]
fn a_mark_up_of_25_is_a_margin_of_20() {
    let source = "EX-88, D: mark-up m on cost is a margin m / (1 + m)";
    let cost = [("Pond", 1000.0)];
    let by_mark_up = items(&cost, "Profit,direct cost,25\n");
    exactly(source, of_bid(&by_mark_up, "bid"), 1250.0);
    let margin = of_bid(&by_mark_up, "mark-ups") / of_bid(&by_mark_up, "bid");
    exactly(source, margin, 0.20);
    let by_margin = items(&cost, "Profit,bid,20\n");
    exactly(source, of_bid(&by_margin, "bid"), 1250.0);
    exactly(source, of_bid(&by_margin, "mark-ups"), 250.0);
}

#[test]
fn a_unit_price_built_from_parts_adds_up_in_cents() {
    let source = "EX-79, R1 with D: Gillette and Hill, Concrete Construction (1908), p. 106; the \
                  book's first line is a cent high, so that it has 4.44";
    // Quantity, price, printed cost; the last three lines are printed as costs.
    let rows = [
        ("Cement", 0.82, 2.60, 2.13),
        ("Gravel", 0.22, 1.00, 0.22),
        ("Rubble", 0.52, 0.94, 0.49),
        ("Sand", 0.38, 0.63, 0.24),
        ("Water", 1.0, 0.07, 0.07),
        ("Labor", 1.0, 1.19, 1.19),
        ("Foreman", 1.0, 0.09, 0.09),
    ];
    let mut table = "Item,Section,Description,Times,Unit,Price\n".to_owned();
    for (name, times, price, _) in rows {
        let _ = writeln!(table, "{name},Concrete,{name},{times},ea,{price}");
    }
    let job = estimate_of(&[("Job", US), ("Other items", &table)]);
    for (name, _, _, cost) in rows {
        exactly(
            source,
            figure(&job, ("Lines", name, "direct cost"), MONEY),
            cost,
        );
    }
    exactly(source, of_bid(&job, "direct cost"), 4.43);
}

#[test]
fn indirect_cost_is_spread_so_that_the_shares_sum_to_the_pool() {
    let source = "EX-78, R1 with D: Gillette and Hill, Concrete Construction (1908), p. 231-235, \
                  bridge pier; the printed total 1,252 is a slip for 1,255";
    let direct = items(
        &[
            ("Derrick", 70.0),
            ("Cofferdam", 284.0),
            ("Excavation", 33.0),
            ("Piles", 176.0),
            ("Concrete", 466.0),
            ("Forms", 106.0),
            ("Haul", 20.0),
            ("Rental", 100.0),
        ],
        "",
    );
    exactly(source, of_bid(&direct, "direct cost"), 1255.0);

    // The pool of 190 by plant days 7, 2, 4 and 5 of 18: a day stands for 100 of cost.
    let rows = [
        ("Excavation", 700.0, 73.89),
        ("Cofferdam", 200.0, 21.11),
        ("Piles", 400.0, 42.22),
        ("Concrete", 500.0, 52.78),
    ];
    let costs = rows.map(|(name, cost, _)| (name, cost));
    let job = items(&costs, "Indirect,direct cost,10.55555555555556\n");
    exactly(source, of_bid(&job, "mark-ups"), 190.0);
    exactly(source, of_bid(&job, "bid"), 1990.0);
    for (name, cost, share) in rows {
        let amount = figure(&job, ("Lines", name, "amount"), MONEY);
        within(source, amount - cost, share, 1e-9);
    }
}
