//! Formulas follow every term of partners and every choice of a scenario, as a fresh run does.

use super::Small;
use crate::support::agreement::{Edit, Typed, Viewer, Written, batches, word};
use crate::support::estimate_of;
use crate::support::recalculate::Entry;
use groundsheet::estimate::Estimate;

/// A job with every term written, in two scenarios of which one is like the other.
pub(super) fn whole() -> Small {
    let mut job = Small::new()
        .job("Scenario", "Friends plant")
        .job("Matching share (%)", "15")
        .job("Start date", "2026-05-04")
        .plug("Sold in", "50")
        .plug("Load", "150")
        .plug("Freight per load", "35")
        .scenario("All follows,Friends plant,follow,us");
    for (term, value) in TERMS {
        job = job.friends(term, value);
    }
    for (ticket, words) in TICKETS {
        job = job.friends(ticket, words);
    }
    for (term, value) in STAFF {
        job = job.staff(term, value);
    }
    job.shared = String::from(
        "Friends plant,Plant,,,,Friends,80,,,\n\
                  Friends plant,,Bank,,,Friends,,70,yes,\n\
                  Friends plant,,,,Plug,Friends,25,,,1.4\n\
                  All follows,Rake,,,,Staff,60,,,\n",
    );
    job.mark_ups = String::from(
        "Overhead,labor,20,\nProfit,running total,10,follow\nTax,material,6,\n\
         Bond,bid,2,\n",
    );
    job
}

const TERMS: [(&str, &str); 24] = [
    ("Sessions", "200"),
    ("Attendance (%)", "80"),
    ("Pace (%)", "45"),
    ("Learning (%)", "90"),
    ("Briefing hours", "0.5"),
    ("Training hours", "1.5"),
    ("Lead hours", "3"),
    ("Lead hours per head", "0.4"),
    ("Set-up hours", "1"),
    ("Charge per hour", "1.25"),
    ("Rework (%)", "6"),
    ("Extra waste (%)", "4"),
    ("Gear per head", "11"),
    ("Facilities per session", "45"),
    ("Insurance and admin", "250"),
    ("Idle machine", "Auger"),
    ("Idle hours", "1.5"),
    ("Tools per session", "25"),
    ("Machine rent per hour", "32"),
    ("Standby hours", "2"),
    ("Make-good premium (%)", "40"),
    ("Notice (days)", "9"),
    ("In-kind rate", "23.5"),
    ("Minors", "no"),
];
const TICKETS: [(&str, &str); 2] = [("Machine ticket", "card 7"), ("Lifting ticket", "card 8")];
const STAFF: [(&str, &str); 6] = [
    ("Kind", "client's staff"),
    ("Wage per hour", "27"),
    ("Burden (%)", "30"),
    ("Overtime after", "3"),
    ("Overtime pay (%)", "160"),
    ("Briefing hours", ""),
];

fn metric(job: &Small) -> Estimate {
    let mut tables = job.tables();
    for (_, text) in &mut tables {
        *text = text
            .replace("US customary", "metric")
            .replace("yd3 loose", "m3 loose")
            .replace("Length (ft)", "Length (m)")
            .replace(",ft,", ",m,");
    }
    let job = &mut tables[0].1;
    job.push_str("Currency,€\n");
    estimate_of(&super::borrowed(&tables))
}

/// Other numbers for the terms of the first partner.
pub(super) const OTHER_TERMS: [(&str, f64); 24] = [
    ("People", 12.0),
    ("Attendance", 65.0),
    ("Sessions", 180.0),
    ("Session hours", 3.5),
    ("Pace", 60.0),
    ("Learning", 82.0),
    ("Briefing hours", 0.75),
    ("Training hours", 3.0),
    ("Lead hours", 6.0),
    ("Lead hours per head", 0.9),
    ("Set-up hours", 0.25),
    ("Charge per hour", 3.1),
    ("Rework", 11.0),
    ("Extra waste", 9.0),
    ("Gear per head", 17.5),
    ("Facilities per session", 71.0),
    ("Insurance and admin", 410.0),
    ("Idle hours", 3.0),
    ("Tools per session", 44.0),
    ("Machine rent per hour", 41.0),
    ("Standby hours", 5.0),
    ("Make-good premium", 65.0),
    ("Notice (days)", 20.0),
    ("In-kind rate", 31.0),
];
/// Terms of the first partner that may be left blank.
const LEFT_BLANK: [&str; 8] = [
    "Attendance",
    "Learning",
    "Lead hours",
    "Lead hours per head",
    "Idle hours",
    "Idle machine",
    "Standby hours",
    "In-kind rate",
];

/// Edits of other cells that decide what a scenario comes to.
fn others() -> Vec<Typed> {
    vec![
        ("Partners", "Kind", 0, word("hired")),
        ("Partners", "Kind", 1, word("volunteers")),
        ("Partners", "Minors", 0, word("yes")),
        ("Partners", "Wage per hour", 1, Entry::Number(31.0)),
        ("Partners", "Burden", 1, Entry::Number(10.0)),
        ("Partners", "Overtime after", 1, Entry::Number(2.0)),
        ("Partners", "Overtime pay", 1, Entry::Number(200.0)),
        ("Shared work", "Share", 0, Entry::Number(55.0)),
        ("Shared work", "Share", 0, Entry::Blank),
        ("Shared work", "Share", 2, Entry::Number(60.0)),
        ("Shared work", "Pace", 1, Entry::Number(90.0)),
        ("Shared work", "Pace", 1, Entry::Blank),
        ("Shared work", "Pace", 0, Entry::Number(35.0)),
        ("Shared work", "Their machine", 1, word("no")),
        ("Shared work", "Value each", 2, Entry::Number(1.9)),
        ("Shared work", "Value each", 2, Entry::Blank),
        ("Scenarios", "Mark-ups", 0, word("follow")),
        ("Scenarios", "Mark-ups", 1, word("held")),
        ("Scenarios", "No-show borne by", 0, word("us")),
        ("Mark-ups", "With partners", 0, word("follow")),
        ("Mark-ups", "With partners", 3, word("held")),
        ("Mark-ups", "Rate", 1, Entry::Number(12.0)),
        ("Job", "Matching share", 0, Entry::Number(30.0)),
        ("Job", "Start date", 0, Entry::Blank),
        ("Crews", "People", 0, Entry::Number(3.0)),
        ("Crews", "Wage per hour", 0, Entry::Number(33.0)),
        ("Materials", "Price", 0, Entry::Number(2.35)),
        ("Equipment", "Rate per hour", 0, Entry::Number(61.0)),
        ("Other items", "Times", 0, Entry::Number(650.0)),
    ]
}

#[test]
fn every_formula_recalculates_in_both_systems() {
    let job = whole();
    Written::new("labour", &job.estimate().0).recalculates();
    Written::new("labour, metric", &metric(&job)).recalculates();
}

#[test]
fn every_formula_follows_the_terms_of_partners() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let estimate = whole().estimate().0;
    let written = Written::new("labour", &estimate);
    let number = |(heading, number)| ("Partners", heading, 0, Entry::Number(number));
    let blank = |heading| ("Partners", heading, 0, Entry::Blank);
    let mut edits: Vec<Typed> = OTHER_TERMS.map(number).to_vec();
    edits.extend(LEFT_BLANK.map(blank));
    edits.extend(others());
    let mut batches = batches(written.all_typed(edits));
    batches.push(written.every_number());
    shown(&written, batches);
}

#[test]
fn the_whole_workbook_follows_the_scenario_that_is_chosen_on_the_bid_page() {
    show_choices(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with each choice of a scenario.
pub(crate) fn show_choices(shown: Viewer<'_>) {
    let estimate = whole().estimate().0;
    let written = Written::new("labour", &estimate);
    let chosen: Vec<Vec<Edit>> = ["Crew only", "All follows", "Friends plant"]
        .map(word)
        .into_iter()
        // Cleared, it is the crew alone.
        .chain([Entry::Blank])
        .map(|entry| written.all_typed(vec![("Job", "Scenario", 0, entry)]))
        .collect();
    shown(&written, chosen);
}

#[test]
fn what_decides_who_gives_what_asks_for_a_new_run() {
    let estimate = whole().estimate().0;
    let written = Written::new("labour", &estimate);
    let typed = |table, heading, row, entry| written.typed(table, heading, row, entry);
    let (sheet, at) = written.own_cell("Job", "Scenario", 0);
    let over = Edit {
        what: "the job's own cell typed over".to_owned(),
        cells: vec![(sheet, at, word("All follows"))],
        needs_run: Vec::new(),
    };
    let below = |table: &str, heading: &str, row: u32, words: &str| {
        let (sheet, at) = written.own_cell(table, heading, 0);
        let letters: String = at.chars().filter(char::is_ascii_alphabetic).collect();
        Edit {
            what: format!("{table}: a row more"),
            cells: vec![(sheet, format!("{letters}{}", row + 2), word(words))],
            needs_run: Vec::new(),
        }
    };
    written.asks_for_a_new_run(&[
        over,
        below("Scenarios", "Scenario", 2, "Nobody"),
        below("Shared work", "Scenario", 4, "All follows"),
        below("Partners", "Partner", 2, "Youth"),
        typed("Scenarios", "Scenario", 1, word("Another")),
        typed("Scenarios", "Like", 1, Entry::Blank),
        typed("Partners", "Partner", 1, word("Wardens")),
        typed("Shared work", "Work", 0, word("Rake")),
        typed("Shared work", "Zone", 1, word("Marsh")),
        typed("Shared work", "Line", 0, word("Plugs")),
        typed("Shared work", "Partner", 0, word("Staff")),
        typed("Other items", "Zone", 0, word("Bank")),
        // What a zone gives rests on which lines a crew works.
        typed("Production rates", "Crew", 1, Entry::Blank),
        typed("Other items", "Work", 1, word("Plant")),
    ]);
}
