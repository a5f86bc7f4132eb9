//! Formulas follow drop-downs of partners, what their work rests on, and terms in metric
//! units and another currency, in whichever scenario is chosen.

use groundsheet::estimate::Estimate;

use super::agreement::{OTHER_TERMS, whole};
use super::borrowed;
use crate::support::agreement::{Edit, Typed, Viewer, Written, batches, word};
use crate::support::estimate_of;
use crate::support::recalculate::Entry;

/// The job with every term written, with a crew, a machine and a work more to choose;
/// metric and in euro where that is asked for.
fn with_choices(metric: bool) -> Estimate {
    let mut tables = whole().tables();
    for (name, text) in &mut tables {
        match *name {
            "Crews" => text.push_str("Pair,3,41\n"),
            "Equipment" => text.push_str("Loader,85\n"),
            "Production rates" => text.push_str("Weed,ea,,,Auger,30,by hand\n"),
            "Job" if metric => text.push_str("Currency,€\n"),
            _ => {}
        }
        if metric {
            *text = text
                .replace("US customary", "metric")
                .replace("yd3 loose", "m3 loose")
                .replace("Length (ft)", "Length (m)")
                .replace(",ft,", ",m,");
        }
    }
    estimate_of(&borrowed(&tables))
}

/// Drop-downs of partners, and what their work rests on.
fn choices() -> Vec<Typed> {
    let number = Entry::Number;
    vec![
        ("Partners", "Lead", 0, word("Pair")),
        ("Partners", "Lead", 1, word("Pair")),
        ("Partners", "Idle machine", 0, word("Loader")),
        ("Partners", "Idle machine", 1, word("Loader")),
        ("Partners", "Machine ticket", 0, word("another card")),
        ("Partners", "Kind", 0, word("client's staff")),
        ("Partners", "In-kind rule", 0, word("local market")),
        ("Scenarios", "No-show borne by", 1, word("client")),
        ("Mark-ups", "With partners", 1, word("held")),
        ("Mark-ups", "With partners", 2, word("follow")),
        ("Mark-ups", "On", 0, word("equipment")),
        ("Mark-ups", "On", 1, word("subcontract")),
        ("Production rates", "Crew", 0, word("Pair")),
        ("Production rates", "Crew output", 0, number(31.0)),
        ("Production rates", "Machine output", 2, number(11.0)),
        ("Production rates", "Machine", 2, word("Loader")),
        ("Production rates", "Hazard", 2, word("lifting")),
        ("Materials", "Sold in", 0, number(30.0)),
        ("Materials", "Load", 0, Entry::Blank),
        ("Materials", "Freight per load", 0, number(61.0)),
        ("Materials", "Waste", 0, number(12.0)),
        ("Shared work", "Share", 3, number(0.0)),
        ("Shared work", "Their machine", 1, Entry::Blank),
        ("Other items", "Length", 2, number(140.0)),
    ]
}

#[test]
fn every_formula_follows_what_is_chosen_for_partners_and_their_work() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let estimate = with_choices(false);
    let written = Written::new("labour, choices", &estimate);
    let mut batches = batches(written.all_typed(choices()));
    batches.push(written.every_number());
    shown(&written, batches);
}

#[test]
fn every_formula_follows_terms_in_metric_units_and_euro() {
    let estimate = with_choices(true);
    let written = Written::new("labour, metric choices", &estimate);
    let number = |(heading, number)| ("Partners", heading, 0, Entry::Number(number));
    let mut edits: Vec<Typed> = OTHER_TERMS.map(number).to_vec();
    edits.extend(choices());
    edits.push(("Shared work", "Share", 1, Entry::Number(35.0)));
    edits.push(("Job", "Matching share", 0, Entry::Number(25.0)));
    edits.push(("Job", "Start date", 0, Entry::Number(46_200.0)));
    written.follows(written.all_typed(edits));
}

#[test]
fn every_formula_follows_terms_together_with_the_choice_of_a_scenario() {
    let estimate = with_choices(false);
    let written = Written::new("labour, chosen", &estimate);
    let with = |scenario: &str| {
        let mut edits: Vec<Edit> = vec![written.typed("Job", "Scenario", 0, word(scenario))];
        edits.extend(written.all_typed(vec![
            ("Partners", "Pace", 0, Entry::Number(70.0)),
            ("Partners", "Attendance", 1, Entry::Number(55.0)),
            ("Partners", "Learning", 1, Entry::Number(80.0)),
            ("Shared work", "Share", 2, Entry::Number(80.0)),
            ("Mark-ups", "Rate", 3, Entry::Number(3.5)),
            ("Scenarios", "Mark-ups", 0, word("follow")),
        ]));
        edits
    };
    written.follows_together(
        ["Crew only", "All follows", "Friends plant"]
            .map(with)
            .to_vec(),
    );
}

#[test]
fn a_work_that_gets_a_crew_asks_for_a_new_run() {
    let estimate = with_choices(false);
    let written = Written::new("labour, crews", &estimate);
    // The row of weeding has no crew, and no line of the take-off is weeded; the row of
    // raking has one that a zone gives.
    written.asks_for_a_new_run(&[
        written.typed("Production rates", "Crew", 3, word("Gang")),
        written.typed("Production rates", "Crew", 1, Entry::Blank),
        written.typed("Scenarios", "Scenario", 0, word("Friends dig")),
        written.typed("Partners", "Partner", 0, word("Neighbours")),
        written.typed("Shared work", "Material", 2, Entry::Blank),
    ]);
}
