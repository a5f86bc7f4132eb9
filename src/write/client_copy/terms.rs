//! What a bid stands on, in words for a client: inclusions, exclusions, assumptions,
//! cautions, and how long it stands.
//!
//! Always true: a caution defers to local codes and licensed practice.

use super::ClientList;
use super::items::described;
use super::lacking::Lack;
use super::others::done_by_others;
use crate::diagnostic::Code;
use crate::estimate::Estimate;
use crate::graph::words;
use crate::job::Fields;
use crate::job::tables::{Basins, BidTerms, JobKeys};
use crate::money;

/// Cautions that concern a client, by what the estimate finds.
const CAUTIONS: &[(Code, &str)] = &[
    (
        Code::BuriedLines,
        "Buried pipes and cables are located and marked before any digging. Please tell us of every private line that you know of.",
    ),
    (
        Code::DeepCut,
        "Deep cuts can cave in. Only those who work there go near them, with the protection that local codes and the competent person on site ask for.",
    ),
    (
        Code::MachinesAndPeople,
        "Machines and trucks work on the site. Keep people out of the fenced area while they run.",
    ),
    (
        Code::Lifting,
        "Heavy pieces are lifted. Nobody stands under a load or within reach of one.",
    ),
    (
        Code::WaterAndPower,
        "Electricity beside water needs ground-fault protection; wiring is work for a licensed electrician, as local codes ask.",
    ),
    (
        Code::ConfinedSpace,
        "Vaults and deep pits can be confined spaces. Keep them locked; entry follows the permit rules and local law.",
    ),
    (
        Code::LabourLaw,
        "Local law on volunteers, minors and wages, and the insurers, decide who may work here and how. Nobody without the training runs machines, lifts, wires or enters a vault or a deep cut.",
    ),
    (
        Code::OpenWater,
        "An open pit or pool can drown a child, during the work and after it. Fences, signs and barriers follow local codes.",
    ),
];
const SEDIMENT: &str = "Old sediment may be soft beyond a person's depth and may be contaminated. Where it may go depends on a test and on local rules.";
const NOT_A_DESIGN: &str = "Quantities and figures here are for bidding. They are not a design: local codes and licensed practice decide on structures, water and electricity.";

/// The terms, list by list, without those that say nothing.
pub(super) fn lists(estimate: &Estimate, lacking: &[Lack]) -> Vec<ClientList> {
    let lacks = |lack: Lack, said: &str| descriptions(estimate, lacking, lack, said);
    let mut excluded = written(estimate, "exclusion");
    excluded.extend(lacks(Lack::Price, "Not priced yet, and not in the total"));
    excluded.extend(lacks(Lack::PartOfPrice, "Priced in part so far"));
    let mut assumed = written(estimate, "assumption");
    assumed.extend(lacks(Lack::FinalPrice, "An allowance, until a price is in"));
    let all = [
        ("Included", written(estimate, "inclusion")),
        ("Done by the client's people", done_by_others(estimate)),
        ("Not included", excluded),
        ("Assumptions", assumed),
        ("Cautions", cautions(estimate)),
        (
            "How long this bid stands",
            stands(estimate).into_iter().collect(),
        ),
    ];
    let lists = all.into_iter().filter(|(_, entries)| !entries.is_empty());
    lists
        .map(|(heading, entries)| ClientList { heading, entries })
        .collect()
}

/// The terms of one kind, as written.
fn written(estimate: &Estimate, kind: &str) -> Vec<String> {
    let table = estimate.job.table::<BidTerms>();
    let kinds = table.words(BidTerms::TermKind.index());
    let terms = table.words(BidTerms::TermWords.index());
    let of_kind = kinds.iter().zip(terms).filter(|(own, _)| &***own == kind);
    of_kind.map(|(_, term)| term.to_string()).collect()
}

/// The descriptions of the lines that lack something, each once, after what is said of them.
fn descriptions(estimate: &Estimate, lacking: &[Lack], lack: Lack, said: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for (line, _) in lacking.iter().enumerate().filter(|(_, own)| **own == lack) {
        let entry = format!("{said}: {}", described(estimate, line));
        if !all.contains(&entry) {
            all.push(entry);
        }
    }
    all
}

/// The cautions that concern this job.
fn cautions(estimate: &Estimate) -> Vec<String> {
    let found = |code: Code| estimate.findings.iter().any(|found| found.code == code);
    let concern = CAUTIONS.iter().filter(|(code, _)| found(*code));
    let mut all: Vec<String> = concern.map(|(_, words)| (*words).to_owned()).collect();
    let areas = estimate.job.table::<Basins>();
    let areas = areas.numbers(Basins::SedimentArea.index());
    if areas.iter().any(|area| *area > 0.0) {
        all.push(SEDIMENT.to_owned());
    }
    all.push(NOT_A_DESIGN.to_owned());
    all
}

/// The last day of the bid, or how many days it stands.
fn stands(estimate: &Estimate) -> Option<String> {
    let days = estimate.job.number(JobKeys::ValidDays)?.floor();
    let Some(date) = estimate.job.number(JobKeys::BidDate) else {
        let days = money::show(days, 0);
        return Some(format!("This bid stands for {days} days from its date."));
    };
    let last = words::day(date.floor() + days);
    Some(format!("This bid stands until {last}."))
}
