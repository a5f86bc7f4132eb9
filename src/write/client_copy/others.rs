//! What the client's own people do and bring in the bid, in words for a client.

use super::items::described;
use crate::estimate::Estimate;
use crate::graph::words;
use crate::job::Fields;
use crate::job::tables::{BORNE_BY, Partners, Scenarios};
use crate::labour::{compared, gifts, parties, tasks};
use crate::pricing::lines::MATERIAL;
use crate::tables::{Gifts, Lines, Parties, Tasks};
use crate::units::PERCENT;

/// One sentence for each group of the client's people: what they do and bring, in how many
/// sessions; then who bears it where they do not come.
pub(super) fn done_by_others(estimate: &Estimate) -> Vec<String> {
    let all = 0..estimate.rows::<Parties>();
    let in_use = all.filter(|row| estimate.number(parties::IN_USE, *row) > 0.0);
    let mut sentences: Vec<String> = in_use.filter_map(|row| sentence(estimate, row)).collect();
    if !sentences.is_empty() {
        sentences.push(risk(estimate));
    }
    sentences
}

/// What one group does and brings.
fn sentence(estimate: &Estimate, party: usize) -> Option<String> {
    let partner = estimate.row_found(parties::PARTNER, party)?;
    let partners = estimate.job.table::<Partners>();
    let name = partners.words(Partners::Partner.index()).get(partner)?;
    let all = 0..estimate.rows::<Tasks>();
    let own = all.filter(|row| estimate.row_found(tasks::PARTY, *row) == Some(party));
    let done: Vec<String> = own
        .filter_map(|row| {
            let line = estimate.row_found(tasks::LINE, row)?;
            part_of(estimate.number(tasks::SHARE, row), estimate, line)
        })
        .collect();
    let brought = brought(estimate, party);
    let mut said = Vec::new();
    if !done.is_empty() {
        let held = estimate.number(parties::HELD, party);
        let hours = partners.numbers(Partners::SessionHours.index());
        let hours = hours.get(partner).copied().unwrap_or_default();
        let done = done.join("; ");
        let sessions = if held > 1.0 { "sessions" } else { "session" };
        said.push(format!("do, in {held} {sessions} of {hours} h: {done}"));
    }
    if !brought.is_empty() {
        said.push(format!("bring what is needed for: {}", brought.join("; ")));
    }
    (!said.is_empty()).then(|| format!("{name} {}.", said.join(". They ")))
}

/// A line, or the percentage of it that is given; nothing where none is.
fn part_of(percent: f64, estimate: &Estimate, line: usize) -> Option<String> {
    let said = described(estimate, line);
    if percent <= 0.0 {
        None
    } else if percent < 100.0 {
        Some(format!("{} of {said}", words::quantity(percent, PERCENT)))
    } else {
        Some(said)
    }
}

/// The lines whose material a group brings.
fn brought(estimate: &Estimate, party: usize) -> Vec<String> {
    let gifts = 0..estimate.rows::<Gifts>();
    let own = gifts.filter(|row| estimate.row_found(gifts::PARTY, *row) == Some(party));
    let mut all = Vec::new();
    for gift in own {
        let material = estimate.row_found(gifts::MATERIAL, gift);
        let share = estimate.number(gifts::SHARE, gift);
        let rows = 0..estimate.rows::<Lines>();
        let using = rows.filter(|row| estimate.row_found(MATERIAL, *row) == material);
        all.extend(using.filter_map(|line| part_of(share, estimate, line)));
    }
    all
}

/// Who bears it where they do not come.
fn risk(estimate: &Estimate) -> String {
    let name = estimate.words(compared::NAME_IN_USE, 0);
    let scenarios = estimate.job.table::<Scenarios>();
    let all = scenarios.words(Scenarios::Scenario.index());
    let row = all.iter().position(|own| &**own == name);
    let borne = row.and_then(|row| scenarios.words(Scenarios::BorneBy.index()).get(row));
    if borne.is_some_and(|borne| &**borne == BORNE_BY[1]) {
        "Where they do not come, we do their work at this price.".to_owned()
    } else {
        "Where they do not come, we do their work and charge it beside this price.".to_owned()
    }
}
