//! What holds however the work is shared out: any rows about works, zones, lines and
//! materials, in scenarios that are like one another.

use std::fmt::Write;

use groundsheet::bid::{self, cost, scenario_cost, scenarios};
use groundsheet::diagnostic::{Code, Diagnostic};
use groundsheet::labour::{break_even, tasks};
use proptest::prelude::*;

use super::{Priced, Small, borrowed, is};
use crate::properties::config;
use crate::support::worked_out;

/// What a row of shared work may be about: work, zone, line, material.
const ABOUT: [&str; 9] = [
    "Plant,,,",
    "Rake,,,",
    "Fix fence,,,",
    ",Marsh,,",
    ",Bank,,",
    ",,Mulch,",
    ",,plugs,",
    "Rake,Bank,,",
    ",,,Plug",
];

/// The lines that each of those is about, by hand: plugs, mulch, fence; none for a material.
const LINES: [&[usize]; 9] = [&[0], &[1], &[2], &[0], &[1, 2], &[1], &[0], &[1], &[]];

/// Hours of the gang on each line.
const HOURS: [f64; 3] = [20.0, 10.0, 10.0];

/// A row of shared work: scenario, about what, partner or the crew, share, pace, machine.
type Row = (usize, usize, usize, u32, Option<u32>, bool);

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let row = (
        0usize..4,
        0usize..ABOUT.len(),
        0usize..3,
        0u32..=500,
        proptest::option::of(5u32..300),
        any::<bool>(),
    );
    proptest::collection::vec(row, 1..7)
}

/// Four scenarios, each like none, which is the number after the last, or one before it.
fn likes() -> impl Strategy<Value = Vec<usize>> {
    let one_of = |of: usize| (0..=of).prop_map(move |at| if at == of { 4 } else { at });
    (one_of(0), one_of(1), one_of(2), one_of(3)).prop_map(|(a, b, c, d)| vec![a, b, c, d])
}

fn job(rows: &[Row], likes: &[usize]) -> Small {
    let name = |of: usize| ["Friends plant", "Two", "Three", "Four", ""][of];
    let mut job = Small::new()
        .friends("Sessions", "1000")
        .friends("Learning (%)", "85")
        .friends("Rework (%)", "7")
        .friends("Extra waste (%)", "3")
        .friends("Gear per head", "9")
        .friends("Machine ticket", "card 7")
        .staff("Kind", "hired")
        .staff("Sessions", "1000")
        .staff("Charge per hour", "4.35")
        .staff("Training hours", "1")
        .staff("Machine ticket", "card 9");
    let rest = ["Two", "Three", "Four"].map(|name| format!("{name},,,\n"));
    job.scenarios.push_str(&rest.concat());
    for (of, like) in likes.iter().enumerate() {
        let (own, other) = (name(of), name(*like));
        let held = if of % 2 == 0 { "" } else { "follow" };
        let before = format!("{own},,,");
        let after = format!("{own},{other},{held},");
        job.scenarios = job.scenarios.replacen(&before, &after, 1);
    }
    job.shared = String::new();
    for (of, about, partner, tenths, pace, machine) in rows {
        let partner = ["Friends", "Staff", ""][*partner];
        let pace = pace.map_or(String::new(), |pace| pace.to_string());
        let share = f64::from(*tenths) / 10.0;
        let machine = if *machine { "yes" } else { "" };
        let (of, about) = (name(*of), ABOUT[*about]);
        let _ = writeln!(
            job.shared,
            "{of},{about},{partner},{share},{pace},{machine},"
        );
    }
    job
}

/// The job in one scenario, where nothing blocks it.
fn sound(job: &Small) -> Option<Priced> {
    let (worked, found) = worked_out(&borrowed(&job.tables()));
    let blocked = found.iter().any(Diagnostic::blocks);
    worked.filter(|_| !blocked).map(Priced)
}

/// Hours that the partners of a scenario spare the gang: of each line, the shares of the
/// first scenario, from this one on to what it is like, that says anything about the line.
fn spared(rows: &[Row], likes: &[usize], scenario: usize) -> f64 {
    let of_line = |line: usize| {
        let mut at = scenario;
        while at < likes.len() {
            let own = rows
                .iter()
                .filter(|row| row.0 == at && LINES[row.1].contains(&line));
            let own: Vec<f64> = own
                .map(|row| if row.2 == 2 { 0.0 } else { f64::from(row.3) })
                .collect();
            if !own.is_empty() {
                return HOURS[line] * own.iter().sum::<f64>() / 1000.0;
            }
            at = likes[at];
        }
        0.0
    };
    (0..HOURS.len()).map(of_line).sum()
}

proptest! {
    #![proptest_config(config(120))]

    #[test]
    fn a_scenario_takes_over_what_it_says_nothing_of_itself(rows in rows(), likes in likes()) {
        let all = sound(&job(&rows, &likes));
        prop_assume!(all.is_some());
        let all = all.unwrap();
        for scenario in 0..likes.len() {
            let ours = all.of(scenarios::CREW_HOURS_DISPLACED, scenario + 1);
            is(ours, spared(&rows, &likes, scenario));
        }
    }

    #[test]
    fn a_scenario_in_use_is_the_one_beside_the_others(rows in rows(), likes in likes()) {
        let job = job(&rows, &likes);
        let all = sound(&job);
        prop_assume!(all.is_some());
        let all = all.unwrap();
        for (row, name) in ["Crew only", "Friends plant", "Two", "Three", "Four"].iter().enumerate() {
            let chosen = job.clone().job("Scenario", name);
            let chosen = sound(&chosen).expect("what blocks is the same in every scenario");
            is(chosen.total(), all.bid(row));
            is(chosen.0.number(cost::DIRECT, 0), all.of(scenario_cost::DIRECT, row));
            is(chosen.0.number(bid::CREW_HOURS, 0), all.of(scenarios::CREW_HOURS, row));
            is(chosen.0.number(bid::WORKING_DAYS, 0), all.of(scenarios::WORKING_DAYS, row));
        }
    }

    // A cent a task apart: each bears what is paid once to the cent.
    #[test]
    fn what_tasks_save_adds_up_to_what_the_scenario_saves(rows in rows(), likes in likes()) {
        let without_gifts: Vec<Row> = rows.into_iter().filter(|row| row.1 != 8).collect();
        let all = sound(&job(&without_gifts, &likes));
        prop_assume!(all.is_some());
        let all = all.unwrap();
        let scenario_of = tasks::SCENARIO_NAME;
        for row in 1..5 {
            let name = ["Friends plant", "Two", "Three", "Four"][row - 1];
            let own = (0..all.tasks()).filter(|task| all.0.words(scenario_of, *task) == name);
            let own: Vec<f64> = own.map(|task| all.task(break_even::SAVING, task)).collect();
            let saved = all.of(scenario_cost::DIRECT, 0) - all.of(scenario_cost::DIRECT, row);
            let apart = (own.iter().sum::<f64>() - saved).abs();
            let cents = 0.01 * f64::from(u32::try_from(own.len()).unwrap());
            prop_assert!(apart <= cents + 1e-9, "{name}: {own:?} are not {saved}");
        }
    }

    #[test]
    fn where_nobody_comes_and_nothing_is_lost_the_crew_alone_is_back(
        rows in rows(), likes in likes(),
    ) {
        // No make-good, no standby and nothing paid once: the crew does what it would have
        // done, at what it would have cost. Overhead is held in the first and third scenario.
        // No extra waste: a task rounds it by itself, and the order all of it together.
        let rows: Vec<Row> = rows.into_iter().filter(|row| row.1 != 8).collect();
        let free = job(&rows, &likes)
            .friends("Gear per head", "0")
            .friends("Extra waste (%)", "0")
            .friends("Standby hours", "0")
            .staff("Training hours", "0")
            .staff("Standby hours", "0");
        let all = sound(&free);
        prop_assume!(all.is_some());
        let all = all.unwrap();
        for held in [0, 2] {
            let (bid, saving) = all.delivered(held * 5 + 4);
            is(bid, all.bid(0));
            is(saving, 0.0);
        }
    }

    #[test]
    fn break_even_paces_put_back_together_save_nothing(
        paces in proptest::array::uniform3(10u32..200),
        shares in proptest::array::uniform3(1u32..=100),
        learning in 55u32..=100,
        insurance in 0u32..200,
    ) {
        // Two tasks of Friends and one of Staff, with paid-once costs that they share.
        let with = |paces: [f64; 3]| {
            let mut job = job(&[], &[4, 4, 4, 4])
                .friends("Learning (%)", &learning.to_string())
                .friends("Insurance and admin", &insurance.to_string());
            let given = [("Plant", "Friends", ""), ("Rake", "Staff", ""), ("Fix fence", "Friends", "yes")];
            for (at, (work, partner, machine)) in given.into_iter().enumerate() {
                let (share, pace) = (shares[at], paces[at]);
                job = job.gives(&format!("Friends plant,{work},,,,{partner},{share},{pace},{machine},"));
            }
            job.estimate()
        };
        let before = with(paces.map(f64::from));
        let found = [0, 1, 2].map(|task| before.task(break_even::PACE, task));
        prop_assume!(found.iter().all(|pace| (1.0..=300.0).contains(pace)));
        let after = with(found);
        for (task, pace) in found.into_iter().enumerate() {
            is(after.task(break_even::SAVING, task), 0.0);
            is(after.task(break_even::PACE, task), pace);
        }
    }

    #[test]
    fn more_of_a_material_than_the_whole_is_refused(first in 1u32..=100, more in 1u32..=100) {
        let rest = (100 - first + more).min(100);
        prop_assume!(first + rest > 100);
        let job = Small::new()
            .gives(&format!("Friends plant,,,,Plug,Friends,{first},,,"))
            .gives(&format!("Friends plant,,,,Plug,Staff,{rest},,,"));
        prop_assert!(job.codes().contains(&Code::ShareOverWhole));
        let whole = Small::new()
            .gives(&format!("Friends plant,,,,Plug,Friends,{first},,,"))
            .gives(&format!("Friends plant,,,,Plug,Staff,{},,,", 100 - first));
        prop_assert!(!whole.codes().contains(&Code::ShareOverWhole));
    }

    #[test]
    fn a_slower_pace_saves_no_more_in_any_task(
        rows in rows(), pace in 6u32..250, cut in 1u32..5, learning in 55u32..=100,
    ) {
        let at = |pace: u32| {
            let mut slow = job(&rows, &[4, 4, 4, 4]).friends("Learning (%)", &learning.to_string());
            slow = slow.friends("Pace (%)", &pace.to_string());
            sound(&slow.staff("Pace (%)", &pace.to_string()))
        };
        let (fast, slow) = (at(pace), at(pace - cut));
        prop_assume!(fast.is_some() && slow.is_some());
        let (fast, slow) = (fast.unwrap(), slow.unwrap());
        for task in 0..fast.tasks() {
            let saving = |of: &Priced| of.task(break_even::SAVING, task);
            prop_assert!(saving(&slow) <= saving(&fast) + 1e-9);
        }
        for row in 1..5 {
            let saving = |of: &Priced| of.of(scenarios::SAVING, row);
            prop_assert!(saving(&slow) <= saving(&fast) + 1e-9);
        }
    }
}
