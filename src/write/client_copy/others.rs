//! What the client's own people do and bring in the bid, in words for a client.

use super::items::described;
use crate::estimate::Estimate;
use crate::graph::words;
use crate::job::Fields;
use crate::job::tables::{BORNE_BY, Partners, Scenarios};
use crate::units::PERCENT;

/// One sentence for each group of the client's people: what they do and bring, in how many
/// sessions; then who bears it where they do not come.
pub(super) fn done_by_others(estimate: &Estimate) -> Vec<String> {
    let Some(labour) = &estimate.columns.labour else {
        return Vec::new();
    };
    let results = &estimate.results;
    let parties = 0..estimate.graph.rows(labour.hands.party.name.id);
    let in_use = parties.filter(|row| results.at(labour.hands.party.in_use, *row) > 0.0);
    let mut sentences: Vec<String> = in_use.filter_map(|row| sentence(estimate, row)).collect();
    if !sentences.is_empty() {
        sentences.push(risk(estimate));
    }
    sentences
}

/// What one group does and brings.
fn sentence(estimate: &Estimate, party: usize) -> Option<String> {
    let labour = estimate.columns.labour.as_ref()?;
    let results = &estimate.results;
    let partner = results.row_found(labour.hands.party.partner.id.at(party))?;
    let partners = estimate.job.table::<Partners>();
    let name = partners.words(Partners::Partner.index()).get(partner)?;
    let tasks = 0..estimate.graph.rows(labour.task.name.id);
    let own = tasks.filter(|row| results.row_found(labour.task.party.id.at(*row)) == Some(party));
    let done: Vec<String> = own
        .filter_map(|row| {
            let line = results.row_found(labour.task.line.id.at(row))?;
            part_of(results.at(labour.task.share, row), estimate, line)
        })
        .collect();
    let brought = brought(estimate, party);
    let mut said = Vec::new();
    if !done.is_empty() {
        let held = results.at(labour.party.held, party);
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
    let Some(labour) = &estimate.columns.labour else {
        return Vec::new();
    };
    let (results, lines) = (&estimate.results, &estimate.columns.lines);
    let gifts = 0..estimate.graph.rows(labour.gift.name.id);
    let own = gifts.filter(|row| results.row_found(labour.gift.party.id.at(*row)) == Some(party));
    let mut all = Vec::new();
    for gift in own {
        let material = results.row_found(labour.gift.material.id.at(gift));
        let share = results.at(labour.gift.share, gift);
        let rows = 0..estimate.graph.rows(lines.name.id);
        let using = rows.filter(|row| results.row_found(lines.material.id.at(*row)) == material);
        all.extend(using.filter_map(|line| part_of(share, estimate, line)));
    }
    all
}

/// Who bears it where they do not come.
fn risk(estimate: &Estimate) -> String {
    let named = estimate.columns.labour.as_ref();
    let name = named.map(|labour| estimate.results.text(labour.hands.in_use_name, 0));
    let scenarios = estimate.job.table::<Scenarios>();
    let all = scenarios.words(Scenarios::Scenario.index());
    let row = all.iter().position(|own| Some(&**own) == name);
    let borne = row.and_then(|row| scenarios.words(Scenarios::BorneBy.index()).get(row));
    if borne.is_some_and(|borne| &**borne == BORNE_BY[1]) {
        "Where they do not come, we do their work at this price.".to_owned()
    } else {
        "Where they do not come, we do their work and charge it beside this price.".to_owned()
    }
}
