//! Cautions, sources, factors, and the defaults that move the bid most.

use super::Look::{Bold, Long, Money, Number, NumberToFill, Small, Words, WordsToFill};
use super::{Entry, Form, column};
use crate::estimate::Estimate;
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

pub(super) const CAUTIONS: Form = Form {
    title: "Cautions",
    columns: &[
        column("Work", 26.0, Bold),
        column("Caution", 100.0, Long).fitted(100.0),
    ],
    exported: &[0, 1],
};

pub(super) const SOURCES: Form = Form {
    title: "Sources",
    columns: &[
        column("Standing", 16.0, Words),
        column("Source", 110.0, Long).fitted(110.0),
    ],
    exported: &[0, 1],
};

pub(super) const FACTORS: Form = Form {
    title: "Factors",
    columns: &[
        column("Factor", 34.0, Words),
        column("Default", 11.0, Number),
        column("Unit", 18.0, Words),
        column("Override", 11.0, NumberToFill),
        column("Reason", 36.0, WordsToFill),
        column("In use", 11.0, Number),
        column("Standing", 18.0, Words),
        column("Source", 90.0, Small),
    ],
    exported: &[0, 2, 1, 5, 4, 6, 7],
};

pub(super) const DEFAULTS: Form = Form {
    title: "Defaults that move the bid most",
    columns: &[
        column("Default", 40.0, Words),
        column("As it is", 16.0, Number),
        column("Tried", 16.0, Number),
        column("Unit", 18.0, Words),
        column("Change of the bid", 18.0, Money),
        column("Where the default comes from", 60.0, Small).fitted(60.0),
    ],
    exported: &[0, 3, 1, 2, 4, 5],
};

/// The usual cautions, with what each defers to.
const USUAL_CAUTIONS: &[(&str, &str)] = &[
    (
        "Cuts",
        "Cuts that people enter need protection from cave-in at 5 ft (1.5 m) and deeper, and shallower where a competent person sees danger; a way out within 25 ft in trenches of 4 ft and deeper; spoil kept 2 ft from the edge (29 CFR 1926 Subpart P). Local codes and the competent person on site decide.",
    ),
    (
        "Buried lines",
        "Have buried pipes and cables located and marked before any digging.",
    ),
    (
        "Lifting",
        "Plan lifts with the machine's own rated chart and a competent person; nobody stands under a load.",
    ),
    (
        "Machines and people",
        "Keep people on foot out of the reach of machines and of trucks that back up.",
    ),
    (
        "Water and electricity",
        "Pumps and tools beside water need ground-fault protection (29 CFR 1926.404) and isolation before anyone touches them; wiring is licensed work.",
    ),
    (
        "Confined spaces",
        "Vaults, sumps and deep basins can be confined spaces: entry follows the permit rules (29 CFR 1910.146, 1926 Subpart AA) and local law.",
    ),
    (
        "Open water and open pits",
        "An open pool or pit can drown a child: fence it, sign it and keep a way out while it is open.",
    ),
    (
        "Old sediment",
        "Old pond mud may be soft beyond a person's depth and may be contaminated: probe from a safe place and ask for a test before it is tipped or spread.",
    ),
];

/// The usual cautions.
pub(super) fn cautions() -> Vec<Vec<Entry<'static>>> {
    let row = |(what, said): &(&'static str, &'static str)| {
        vec![Entry::words(*what), Entry::words(*said)]
    };
    USUAL_CAUTIONS.iter().map(row).collect()
}

/// Every source that rules and defaults name.
pub(super) fn sources() -> Vec<Vec<Entry<'static>>> {
    let all = sources::ALL.iter();
    all.map(|source| {
        vec![
            Entry::words(source.standing.words()),
            Entry::words(source.text),
        ]
    })
    .collect()
}

/// One factor: its default, what is written over it and why, what is in use, and the source.
pub(in crate::write) fn factor<'e>(
    factor: Factor,
    system: System,
    (own, reason): (Option<f64>, &'e str),
    in_use: Entry<'e>,
) -> Vec<Entry<'e>> {
    vec![
        Entry::words(factor.name()),
        Entry::number(factor.default(system)),
        Entry::Unit(factor.unit(system)),
        own.map_or(Entry::Blank, Entry::number),
        Entry::words(reason),
        in_use,
        Entry::words(factor.source().standing.words()),
        Entry::words(factor.source().text),
    ]
}

/// The factors of an estimate.
pub(super) fn factors(estimate: &Estimate) -> Vec<Vec<Entry<'_>>> {
    let row = |own: &Factor| {
        let written = estimate.job.factor(*own);
        let value = Some(written.value).filter(|value| !value.is_nan());
        let in_use = estimate.graph.id(*own).at(0);
        let system = estimate.job.system();
        factor(*own, system, (value, &written.reason), Entry::Cell(in_use))
    };
    Factor::ALL.iter().map(row).collect()
}

/// The defaults that move the bid most, as of this run.
pub(super) fn defaults(estimate: &Estimate) -> Vec<Vec<Entry<'_>>> {
    let system = estimate.job.system();
    let rows = estimate.swings.iter().map(|swing| {
        vec![
            Entry::words(swing.factor.name()),
            Entry::number(swing.default),
            Entry::number(swing.tried),
            Entry::Unit(swing.factor.unit(system)),
            Entry::number(swing.change),
            Entry::words(swing.factor.source().text),
        ]
    });
    rows.collect()
}
