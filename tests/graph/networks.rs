//! Networks of activities that each follow several others: one that is printed, and random
//! ones against two passes over the activities themselves.

use std::sync::Arc;

use groundsheet::graph::prelude::*;
use groundsheet::graph::reads::Named;
use groundsheet::graph::{Graph, Results, Table, evaluate, evaluate_with};
use groundsheet::sources::ARITHMETIC;
use groundsheet::units::{H, System};
use proptest::prelude::*;

use super::book::recalculates;
use crate::properties::config;

#[derive(Debug)]
enum Activities {}

impl Table for Activities {
    const NAME: &'static str = "Activities";
    const ROW: &'static str = "activity";
}

#[derive(Debug)]
enum Links {}

impl Table for Links {
    const NAME: &'static str = "Links";
    const ROW: &'static str = "link";
}

const HOURS: Named<Activities> = named("Hours");
const ACTIVITY: LookUp<Links, Activities> =
    LookUp::new("activity row", || named::<Links>("Activity").key());
const AFTER: LookUp<Links, Activities> = LookUp::new("row of the activity before", || {
    named::<Links>("After").key()
});
const NUMBER: Step<Links> = Step::numbered("number");
const LAST: LookUp<Activities, Links> =
    LookUp::by_number("last link", &ARITHMETIC, || ACTIVITY.highest(NUMBER));
const BEFORE: LookUp<Links, Links> =
    LookUp::by_number("link before", &ARITHMETIC, || AFTER.of(LAST));
const EARLY: Step<Links> = Step::running("early", System::hours, &ARITHMETIC, |own| {
    highest(
        own.row_above(ACTIVITY, 0.0),
        own.earlier(BEFORE, 0.0) + AFTER.of(HOURS),
    )
});
const EARLY_START: Step<Activities> =
    Step::arithmetic("early start", System::hours, || LAST.of(EARLY));
const EARLY_FINISH: Step<Activities> =
    Step::arithmetic("early finish", System::hours, || EARLY_START + HOURS);
const LATE: Step<Links> = Step::running("late", System::hours, &ARITHMETIC, |own| {
    let finish = own.lowest_below(BEFORE, highest_of_all(EARLY_FINISH));
    own.row_below(ACTIVITY, finish - ACTIVITY.of(HOURS))
});
const LATE_START: Step<Activities> =
    Step::arithmetic("late start", System::hours, || LAST.of(LATE));
const FLOAT: Step<Activities> =
    Step::arithmetic("float", System::hours, || LATE_START - EARLY_START);

/// How long an activity takes, and the rows of those that it follows, all above it.
type Activity = (f64, Vec<usize>);

/// The graph of activities in the order of work.
fn network(activities: &[Activity]) -> Graph {
    let name = |row: usize| -> Arc<str> { format!("activity {row}").into() };
    let mut links: Vec<[Arc<str>; 2]> = Vec::new();
    for (row, (_, before)) in activities.iter().enumerate() {
        if before.is_empty() {
            links.push([name(row), "".into()]);
        }
        links.extend(before.iter().map(|before| [name(row), name(*before)]));
    }
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Activities>(activities.len());
    graph.add_table::<Links>(links.len());
    let mut rules = graph.rules::<Activities>();
    let names = (0..activities.len()).map(name).collect();
    let names = rules.words("Activity", true, names);
    rules.labelled_by(names);
    let hours = activities.iter().map(|(hours, _)| *hours).collect();
    rules.measured("Hours", H, hours);
    let mut rules = graph.rules::<Links>();
    let column = |at: usize| links.iter().map(|link| link[at].clone()).collect();
    rules.words("Activity", true, column(0));
    rules.words("After", true, column(1));
    graph.make(&FLOAT);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    graph
}

/// Early start, late start and float of each activity, from two passes over them.
fn by_passes(activities: &[Activity]) -> [Vec<f64>; 3] {
    let mut early: Vec<f64> = Vec::new();
    for (_, before) in activities {
        let finish = before.iter().map(|row| early[*row] + activities[*row].0);
        early.push(finish.fold(0.0, f64::max));
    }
    let finishes = early
        .iter()
        .zip(activities)
        .map(|(start, own)| start + own.0);
    let end = finishes.fold(0.0, f64::max);
    let mut late = vec![0.0; activities.len()];
    for row in (0..activities.len()).rev() {
        let mut finish = end;
        for after in row + 1..activities.len() {
            if activities[after].1.contains(&row) {
                finish = finish.min(late[after]);
            }
        }
        late[row] = finish - activities[row].0;
    }
    let float = late.iter().zip(&early).map(|(late, early)| late - early);
    let float = float.collect();
    [early, late, float]
}

fn ours(graph: &Graph, results: &Results) -> [Vec<f64>; 3] {
    [EARLY_START, LATE_START, FLOAT].map(|step| results.numbers(graph.id(step)).to_vec())
}

/// An introduction to management science, chapter 8, first network: 1-2 takes 7 days, 1-3 10,
/// 2-4 6, 3-4 5, 3-5 4, 4-5 3, 5-6 2; printed are early start, late start and slack of each.
#[test]
fn a_printed_network_comes_to_its_printed_times() {
    let activities = [
        (7.0, vec![]),
        (10.0, vec![]),
        (6.0, vec![0]),
        (5.0, vec![1]),
        (4.0, vec![1]),
        (3.0, vec![2, 3]),
        (2.0, vec![4, 5]),
    ];
    let graph = network(&activities);
    let results = evaluate(&graph);
    let printed = [
        vec![0.0, 0.0, 7.0, 10.0, 10.0, 15.0, 18.0],
        vec![2.0, 0.0, 9.0, 10.0, 14.0, 15.0, 18.0],
        vec![2.0, 0.0, 2.0, 0.0, 4.0, 0.0, 0.0],
    ];
    assert_eq!(ours(&graph, &results), printed);
    recalculates(&graph, &results);
}

prop_compose! {
    /// Activities of some quarters of an hour, each after some of those above it.
    fn activities()(all in prop::collection::vec((0..40_u32, any::<u16>(), any::<u16>()), 1..12))
        -> Vec<Activity> {
        let activity = |(row, (quarters, one, two)): (usize, (u32, u16, u16))| {
            let chosen = u32::from(one & two);
            let before = (0..row).filter(|before| chosen >> before & 1 == 1);
            (f64::from(quarters) / 4.0, before.collect())
        };
        all.into_iter().enumerate().map(activity).collect()
    }
}

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn a_network_is_what_two_passes_give_and_follows_a_change(
        activities in activities(), at in any::<prop::sample::Index>(), quarters in 0..80_u32,
    ) {
        let graph = network(&activities);
        let results = evaluate(&graph);
        prop_assert_eq!(ours(&graph, &results), by_passes(&activities));
        let row = at.index(activities.len());
        let hours = f64::from(quarters) / 4.0;
        let changed = evaluate_with(&graph, &results, &[(graph.id(HOURS).at(row), hours.into())]);
        let mut activities = activities;
        activities[row].0 = hours;
        prop_assert_eq!(ours(&graph, &changed), by_passes(&activities));
    }
}

proptest! {
    #![proptest_config(config(8))]

    #[test]
    fn the_formulas_of_a_network_say_what_the_engine_says(activities in activities()) {
        let graph = network(&activities);
        recalculates(&graph, &evaluate(&graph));
    }
}
