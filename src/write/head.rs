//! The head of a bid: what it is called, for whom, by whom, when, and how long it stands.

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

/// All of it, in its order.
pub(super) fn keys() -> impl Iterator<Item = JobKeys> {
    [TITLE].into_iter().chain(FACTS).chain([NOTE])
}
