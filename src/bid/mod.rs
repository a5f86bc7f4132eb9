//! From direct cost to the bid: whole orders, mark-ups, unit prices, hours, schedule.
//!
//! Always true: the bid is its direct cost and its mark-ups; a lump-sum bid is the sum
//! of its lines' shares to the cent; a unit-price bid is the sum of its rounded
//! extensions. Percentages of the bid itself are solved, not guessed.

pub mod amounts;
pub mod certainty;
pub mod chain;
pub mod client_items;
pub mod cost;
pub mod hours;
pub mod lines;
pub mod mark_ups;
pub mod orders;
mod orders_by_crew;
pub mod scenario_cost;
pub mod scenario_mark_ups;
pub mod scenario_orders;
pub mod scenarios;
pub mod suppliers;
pub mod turn_up;

use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::{JobKeys, MarkUps};
use crate::labour::compared::{ROW_IN_USE, scenarios};
use crate::labour::with_partners::InUse;
use crate::pricing::cents;
use crate::pricing::costs;
use crate::pricing::lines::by_whom;
use crate::sources;
use crate::tables::{Bid, Compared, Lines};
use crate::takeoff::job_wide::{BY_CALENDAR, HOURS_A_DAY};
use crate::units::{ONE, System};
use chain::Chain;

/// Adds everything after the lines.
pub fn bid(graph: &mut Graph) {
    graph.add_table::<Bid>(1);
    graph.make_list(mark_ups::RULES);
    graph.make(&WORKING_DAYS_BY_CREW);
    if scenarios(graph) > 0 {
        graph.make_lists(&[scenario_orders::RULES, scenarios::RULES, turn_up::RULES]);
    }
    graph.make_lists(&[
        IN_USE,
        orders::RULES,
        suppliers::RULES,
        hours::RULES,
        amounts::RULES,
        RULES,
        certainty::RULES,
        client_items::RULES,
    ]);
}

/// Cost, bid and days as they are in the scenario in use.
const IN_USE: &[&dyn Rule] = &[&mark_ups::BASE, &cost::DIRECT, &LUMP_SUM, &WORKING_DAYS];

/// The bid as a whole: totals, rounding, hours and days.
const RULES: &[&dyn Rule] = &[
    &Limit::<Bid>::warning(
        "no mark-ups",
        Code::MissingValue,
        MarkUps::Share.at(),
        || MARK_UPS.same_as(0.0).and(LUMP_SUM.above(0.0)),
        "there are no mark-ups: this is bid at cost",
        "write overhead and profit in Mark-ups",
    ),
    &ROUNDING,
    &CREW_HOURS,
    &MACHINE_HOURS,
    &CALENDAR_DAYS,
];

/// All mark-ups.
pub const MARK_UPS: Step<Bid> =
    Step::arithmetic("mark-ups", System::money, || cents(total(mark_ups::AMOUNT)));

/// Direct cost and mark-ups.
pub const LUMP_SUM: InUse<Bid> = InUse::of(
    MarkUps::LUMP,
    Step::from_job("direct cost and mark-ups", System::money, || {
        SCENARIO.of(scenarios::BID)
    }),
);

/// The bid.
pub const TOTAL: Step<Bid> =
    Step::arithmetic("bid", System::money, || cents(total(amounts::AMOUNT)));

/// What rounding of unit prices adds or takes.
pub const ROUNDING: Step<Bid> = Step::arithmetic("rounding of unit prices", System::money, || {
    cents(TOTAL - LUMP_SUM)
});

/// Hours of all crews.
pub const CREW_HOURS: Step<Bid> =
    Step::arithmetic("crew hours", System::hours, || total(lines::CREW_HOURS));

/// Hours of all machines.
pub const MACHINE_HOURS: Step<Bid> = Step::arithmetic("machine hours", System::hours, || {
    total(lines::MACHINE_HOURS)
});

/// Working days, one line after the other.
pub const WORKING_DAYS: InUse<Bid> = InUse::of(
    WORKING_DAYS_BY_CREW,
    Step::from_job("working days", System::number, || {
        SCENARIO.of(scenarios::WORKING_DAYS)
    }),
);

const WORKING_DAYS_BY_CREW: Step<Bid> = Step::arithmetic("working days", System::number, || {
    let hours = total::<Bid, Lines>(costs::HOURS).number_in(System::hours);
    (hours / only(HOURS_A_DAY)).round_up()
})
.said_after(by_whom);

/// The same with days lost to weather.
pub const DAYS_WITH_WEATHER: Step<Bid> =
    Step::from_job("working days with weather", System::number, || {
        WORKING_DAYS + only::<Bid, JobKeys>(JobKeys::WeatherDays)
    });

/// Calendar days.
pub const CALENDAR_DAYS: Step<Bid> =
    Step::new("calendar days", System::number, &sources::CALENDAR, || {
        (DAYS_WITH_WEATHER * only(BY_CALENDAR)).round_in(ONE, 0)
    });

/// The scenario in use.
const SCENARIO: LookUp<Bid, Compared> =
    LookUp::by_number("scenario in use", &sources::JOB, || only(ROW_IN_USE));
