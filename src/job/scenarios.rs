//! Scenarios as they are written: none is like itself in a circle, none takes the name of
//! the one that every job has, and every row of shared work gives something.

use std::collections::BTreeMap;

use super::columns::Fields;
use super::tables::{CREW_ONLY, JobKeys, Scenarios, SharedWork, TABLES};
use super::{Entries, TableData};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::shown::shown;

/// Checks scenarios and shared work.
pub(super) fn check(tables: &[TableData], findings: &mut Vec<Diagnostic>) {
    let table = |name: &str| TABLES.iter().position(|table| table.name == name);
    if let Some(scenarios) = table(Scenarios::TABLE.name).and_then(|at| tables.get(at)) {
        taken_name(scenarios, findings);
        circles(scenarios, findings);
    }
    if let Some(shared) = table(SharedWork::TABLE.name).and_then(|at| tables.get(at)) {
        gives_something(shared, findings);
        if let Some(scenarios) = table(Scenarios::TABLE.name).and_then(|at| tables.get(at)) {
            has_rows(scenarios, shared, findings);
        }
    }
}

/// A job with scenarios is priced in one of them: that without partners, where it names none.
/// A job without scenarios names none.
pub(super) fn settle(tables: &mut [TableData]) {
    let at = |name: &str| TABLES.iter().position(|table| table.name == name);
    let (Some(job), Some(scenarios)) = (at(JobKeys::TABLE.name), at(Scenarios::TABLE.name)) else {
        return;
    };
    let any = tables[scenarios].rows > 0;
    let Entries::Words(words) = &mut tables[job].columns[JobKeys::Scenario.index()] else {
        return;
    };
    for word in words {
        match (any, word.is_empty()) {
            (true, true) => *word = CREW_ONLY.into(),
            (false, false) if word.eq_ignore_ascii_case(CREW_ONLY) => *word = "".into(),
            _ => {}
        }
    }
}

/// The name of the scenario without partners is taken.
fn taken_name(scenarios: &TableData, findings: &mut Vec<Diagnostic>) {
    let column = Scenarios::Scenario.index();
    for (row, name) in scenarios.words(column).iter().enumerate() {
        if name.eq_ignore_ascii_case(CREW_ONLY) {
            let what =
                format!("\"{name}\" is what every job's scenario without partners is called");
            findings.push(
                Diagnostic::error(Code::DuplicateKey, scenarios.place(column, row), what)
                    .hint("give this scenario another name, or take it out"),
            );
        }
    }
}

/// A scenario that leads back to itself by what it is like is told once, at the first of
/// its circle.
fn circles(scenarios: &TableData, findings: &mut Vec<Diagnostic>) {
    let names = scenarios.words(Scenarios::Scenario.index());
    let column = Scenarios::Like.index();
    let rows = names.iter().enumerate().rev();
    let rows: BTreeMap<String, usize> =
        rows.map(|(row, name)| (name.to_lowercase(), row)).collect();
    let like = |row: usize| {
        let word = scenarios.words(column).get(row)?;
        rows.get(&word.to_lowercase()).copied()
    };
    for start in 0..scenarios.rows {
        let mut circle = vec![start];
        while let Some(next) = circle.last().and_then(|last| like(*last)) {
            if circle.contains(&next) {
                break;
            }
            circle.push(next);
        }
        let closes = circle.last().and_then(|last| like(*last)) == Some(start);
        if !closes || circle.iter().any(|row| *row < start) {
            continue;
        }
        let all = circle.iter().chain([&start]);
        let all: Vec<String> = all
            .map(|row| format!("\"{}\"", shown(&names[*row])))
            .collect();
        let circle = all.join(" → ");
        let what = format!("scenarios are like one another in a circle: {circle}");
        findings.push(
            Diagnostic::error(Code::ScenarioCircle, scenarios.place(column, start), what)
                .hint("leave Like blank in one of them"),
        );
    }
}

/// A scenario that has no rows and is like no other is the crew alone under another name.
fn has_rows(scenarios: &TableData, shared: &TableData, findings: &mut Vec<Diagnostic>) {
    let own = shared.words(SharedWork::SharedIn.index());
    let like = scenarios.words(Scenarios::Like.index());
    let column = Scenarios::Scenario.index();
    for (row, name) in scenarios.words(column).iter().enumerate() {
        let is_like = like.get(row).is_some_and(|like| !like.is_empty());
        if is_like || own.iter().any(|own| own.eq_ignore_ascii_case(name)) {
            continue;
        }
        let what = format!("nobody shares the work in scenario \"{}\"", shown(name));
        let place = Some(scenarios.place(column, row));
        findings.push(
            Diagnostic::new(Severity::Warning, Code::GivesNothing, place, what)
                .hint("give work away in Shared work, or take the scenario out"),
        );
    }
}

/// Every row gives work or a material, and not both.
fn gives_something(shared: &TableData, findings: &mut Vec<Diagnostic>) {
    let filled = |field: SharedWork, row: usize| {
        let words = shared.words(field.index()).get(row);
        words.is_some_and(|word| !word.is_empty())
    };
    let work = [
        SharedWork::SharedOf,
        SharedWork::SharedZone,
        SharedWork::SharedLine,
    ];
    let column = SharedWork::SharedOf.index();
    for row in 0..shared.rows {
        let gives_work = work.iter().any(|field| filled(*field, row));
        let gives_material = filled(SharedWork::SharedMaterial, row);
        let (code, what, hint) = match (gives_work, gives_material) {
            (false, false) => (
                Code::GivesNothing,
                "this row names no work, zone, line or material",
                "write what is given away, or take the row out",
            ),
            (true, true) => (
                Code::ConflictingValues,
                "this row gives work and a material at once",
                "write the material in a row of its own",
            ),
            _ => continue,
        };
        findings.push(Diagnostic::error(code, shared.place(column, row), what).hint(hint));
    }
}
