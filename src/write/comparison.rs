//! Scenarios side by side, as records for programs.
//!
//! Always true: a job without scenarios has one row, that of the crew alone.

mod text;

pub use text::{comparison_csv, comparison_text};

use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;

use super::head;
use super::records::money_text;
use crate::bid::{self, cost, scenario_cost, scenarios, turn_up};
use crate::estimate::Estimate;
use crate::graph::prelude::{Numbers, Words};
use crate::job::tables::CREW_ONLY;
use crate::labour::{break_even, compared, tasks};
use crate::money;
use crate::tables::{Compared, Tasks, TurnUp};

/// Scenarios of a job, side by side.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Comparison")]
pub struct Comparison {
    /// The job's name.
    pub job: String,
    /// Currency sign.
    pub currency: String,
    /// The scenario that the bid is priced with.
    pub in_use: String,
    /// Every scenario, the crew alone first.
    pub scenarios: Vec<ScenarioRecord>,
    /// What each comes to if partners do not turn up.
    pub if_they_do_not_turn_up: Vec<TurnUpRecord>,
    /// Every line given to a partner in a scenario.
    pub tasks: Vec<TaskRecord>,
}

/// One scenario.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Scenario")]
pub struct ScenarioRecord {
    /// Its name.
    pub scenario: String,
    /// The bid, before unit prices are rounded.
    #[schemars(schema_with = "money_text")]
    pub bid: Decimal,
    /// The bid with the crew alone, less this one.
    #[schemars(schema_with = "money_text")]
    pub saving: Decimal,
    /// Direct cost.
    #[schemars(schema_with = "money_text")]
    pub direct_cost: Decimal,
    /// Overhead, profit and all other mark-ups.
    #[schemars(schema_with = "money_text")]
    pub mark_ups: Decimal,
    /// Hours of crews.
    pub crew_hours: f64,
    /// Hours of crews that are displaced.
    pub crew_hours_displaced: f64,
    /// The same, counted by person.
    pub person_hours_displaced: f64,
    /// Hours that are given.
    pub hours_given: f64,
    /// What they are worth.
    #[schemars(schema_with = "money_text")]
    pub value_of_hours_given: Decimal,
    /// Hours of leads.
    pub lead_hours: f64,
    /// Hours of training.
    pub training_hours: f64,
    /// Sessions held.
    pub sessions: f64,
    /// Working days.
    pub working_days: f64,
    /// Hours of the client's own staff.
    pub client_staff_hours: f64,
    /// What the client pays them.
    #[schemars(schema_with = "money_text")]
    pub client_staff_pay: Decimal,
    /// The bid and the pay of the client's staff.
    #[schemars(schema_with = "money_text")]
    pub client_whole_cost: Decimal,
    /// All that is given in kind.
    #[schemars(schema_with = "money_text")]
    pub in_kind: Decimal,
    /// What a grant wants matched.
    #[schemars(schema_with = "money_text")]
    pub match_wanted: Decimal,
    /// What is short of that.
    #[schemars(schema_with = "money_text")]
    pub match_short: Decimal,
    /// What differs beside who does the work.
    pub difference: String,
}

/// One scenario where part of the work is delivered.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "TurnUp")]
pub struct TurnUpRecord {
    /// The scenario.
    pub scenario: String,
    /// Percent of the partners' work that is delivered.
    pub delivered: f64,
    /// Direct cost more than with all of it.
    #[schemars(schema_with = "money_text")]
    pub more: Decimal,
    /// Who bears that.
    pub borne_by: String,
    /// What the client is charged.
    #[schemars(schema_with = "money_text")]
    pub bid: Decimal,
    /// The bid with the crew alone, less that.
    #[schemars(schema_with = "money_text")]
    pub saving: Decimal,
    /// What we bear.
    #[schemars(schema_with = "money_text")]
    pub borne_by_us: Decimal,
    /// Working days.
    pub working_days: f64,
}

/// One line given to a partner in a scenario.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Task")]
pub struct TaskRecord {
    /// The scenario.
    pub scenario: String,
    /// The line.
    pub line: String,
    /// The partner.
    pub partner: String,
    /// Percent of the line.
    pub share: f64,
    /// Percent of the crew's pace.
    pub pace: f64,
    /// Hours of the partner's people.
    pub hours: f64,
    /// What it saves of direct cost.
    #[schemars(schema_with = "money_text")]
    pub saving: Decimal,
    /// Percent of the crew's pace at which it would save nothing; zero where there is none.
    pub break_even_pace: f64,
    /// What is to be said of that pace.
    pub meaning: String,
}

/// The scenarios of an estimate.
#[must_use]
pub fn comparison(estimate: &Estimate) -> Comparison {
    let (in_use, scenarios) = if estimate.has_scenarios() {
        let in_use = estimate.words(compared::NAME_IN_USE, 0);
        (in_use, side_by_side(estimate))
    } else {
        (CREW_ONLY, vec![crew_only(estimate)])
    };
    Comparison {
        job: head::title(estimate).to_owned(),
        currency: estimate.currency().to_owned(),
        in_use: in_use.to_owned(),
        scenarios,
        if_they_do_not_turn_up: if_they_do_not_turn_up(estimate),
        tasks: tasks(estimate),
    }
}

/// A reader of one row of a table.
struct At<'e>(&'e Estimate, usize);

impl At<'_> {
    fn number<T>(&self, column: impl Numbers<T>) -> f64 {
        self.0.number(column, self.1)
    }

    fn amount<T>(&self, column: impl Numbers<T>) -> Decimal {
        money::amount(self.number(column))
    }

    fn words<T>(&self, column: impl Words<T>) -> String {
        self.0.words(column, self.1).to_owned()
    }
}

fn side_by_side(estimate: &Estimate) -> Vec<ScenarioRecord> {
    let record = |row: usize| {
        let at = At(estimate, row);
        ScenarioRecord {
            scenario: at.words(compared::NAME),
            bid: at.amount(scenarios::BID),
            saving: at.amount(scenarios::SAVING),
            direct_cost: at.amount(scenario_cost::DIRECT),
            mark_ups: at.amount(scenarios::MARK_UPS),
            crew_hours: at.number(scenarios::CREW_HOURS),
            crew_hours_displaced: at.number(scenarios::CREW_HOURS_DISPLACED),
            person_hours_displaced: at.number(scenarios::PERSON_HOURS_DISPLACED),
            hours_given: at.number(scenarios::DONATED),
            value_of_hours_given: at.amount(scenarios::DONATED_VALUE),
            lead_hours: at.number(scenarios::LEAD_HOURS),
            training_hours: at.number(scenarios::TRAINING),
            sessions: at.number(scenarios::SESSIONS),
            working_days: at.number(scenarios::WORKING_DAYS),
            client_staff_hours: at.number(scenarios::STAFF_HOURS),
            client_staff_pay: at.amount(scenarios::STAFF_PAY),
            client_whole_cost: at.amount(scenarios::WHOLE_COST),
            in_kind: at.amount(scenarios::IN_KIND),
            match_wanted: at.amount(scenarios::MATCH_WANTED),
            match_short: at.amount(scenarios::MATCH_SHORT),
            difference: at.words(scenarios::DIFFERENCE),
        }
    };
    (0..estimate.rows::<Compared>()).map(record).collect()
}

/// The one row of a job without scenarios.
fn crew_only(estimate: &Estimate) -> ScenarioRecord {
    let at = At(estimate, 0);
    let none = || money::amount(0.0);
    ScenarioRecord {
        scenario: CREW_ONLY.to_owned(),
        bid: at.amount(bid::LUMP_SUM),
        saving: none(),
        direct_cost: at.amount(cost::DIRECT),
        mark_ups: at.amount(bid::MARK_UPS),
        crew_hours: at.number(bid::CREW_HOURS),
        crew_hours_displaced: 0.0,
        person_hours_displaced: 0.0,
        hours_given: 0.0,
        value_of_hours_given: none(),
        lead_hours: 0.0,
        training_hours: 0.0,
        sessions: 0.0,
        working_days: at.number(bid::WORKING_DAYS),
        client_staff_hours: 0.0,
        client_staff_pay: none(),
        client_whole_cost: at.amount(bid::LUMP_SUM),
        in_kind: none(),
        match_wanted: none(),
        match_short: none(),
        difference: String::new(),
    }
}

fn if_they_do_not_turn_up(estimate: &Estimate) -> Vec<TurnUpRecord> {
    let record = |row: usize| {
        let at = At(estimate, row);
        TurnUpRecord {
            scenario: at.words(turn_up::SCENARIO_NAME),
            delivered: at.number(turn_up::DELIVERED),
            more: at.amount(turn_up::MORE),
            borne_by: at.words(turn_up::BORNE_BY_WHOM),
            bid: at.amount(turn_up::BID),
            saving: at.amount(turn_up::SAVING),
            borne_by_us: at.amount(turn_up::OUR_LOSS),
            working_days: at.number(turn_up::WORKING_DAYS),
        }
    };
    (0..estimate.rows::<TurnUp>()).map(record).collect()
}

fn tasks(estimate: &Estimate) -> Vec<TaskRecord> {
    let record = |row: usize| {
        let at = At(estimate, row);
        TaskRecord {
            scenario: at.words(tasks::SCENARIO_NAME),
            line: at.words(tasks::LINE_NAME),
            partner: at.words(tasks::PARTNER_NAME),
            share: at.number(tasks::SHARE),
            pace: at.number(tasks::PACE),
            hours: at.number(tasks::PARTNER_HOURS),
            saving: at.amount(break_even::SAVING),
            break_even_pace: at.number(break_even::PACE),
            meaning: at.words(break_even::SAID),
        }
    };
    (0..estimate.rows::<Tasks>()).map(record).collect()
}
