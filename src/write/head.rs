//! The head of a bid: what it is called, for whom, by whom, when, and how long it stands.

use crate::estimate::Estimate;
use crate::graph::words;
use crate::job::tables::JobKeys;

/// The job's name, at the top.
pub(super) const TITLE: JobKeys = JobKeys::JobName;
/// What stands below it, one a line.
pub(super) const FACTS: [JobKeys; 6] = [
    JobKeys::Client,
    JobKeys::Site,
    JobKeys::PreparedBy,
    JobKeys::BidDate,
    JobKeys::ValidDays,
    JobKeys::BidKind,
];
/// What stands below the total.
pub(super) const NOTE: JobKeys = JobKeys::JobNote;

/// What a client is told of it, each with its label.
const TOLD: [(&str, JobKeys); 4] = [
    ("Client", JobKeys::Client),
    ("Site", JobKeys::Site),
    ("Date", JobKeys::BidDate),
    ("Prepared by", JobKeys::PreparedBy),
];

/// All of it, in its order.
pub(super) fn keys() -> impl Iterator<Item = JobKeys> {
    [TITLE].into_iter().chain(FACTS).chain([NOTE])
}

/// The job's name.
pub(super) fn title(estimate: &Estimate) -> &str {
    estimate.job.word(TITLE)
}

/// What a client is told, each with its label, where it is given.
pub(super) fn told(estimate: &Estimate) -> Vec<(&'static str, String)> {
    let said = |key| match estimate.job.number(key) {
        Some(day) => words::day(day),
        None => estimate.job.word(key).to_owned(),
    };
    let told = TOLD.map(|(label, key)| (label, said(key)));
    told.into_iter()
        .filter(|(_, words)| !words.is_empty())
        .collect()
}
