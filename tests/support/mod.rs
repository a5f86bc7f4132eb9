//! What several tests share: builders and comparisons.

pub(crate) mod agreement;
mod jobs;
pub(crate) mod recalculate;

pub(crate) use jobs::{
    SAMPLE_JOBS, estimate_at, estimate_of_bytes, estimated_from, sample_job, sample_path,
    workbook_of,
};

use groundsheet::diagnostic::{self, Diagnostic};
use groundsheet::estimate::{Estimate, estimate};
use groundsheet::graph::Cell;
use groundsheet::units::Unit;
use groundsheet::{job, read};

/// The keys that every job needs, in US customary units and loam; more may follow.
pub(crate) const US: &str = "Key,Value\nName,Test\nUnits,US customary\nSoil,loam\n";

/// The same in metric units.
pub(crate) const METRIC: &str = "Key,Value\nName,Test\nUnits,metric\nSoil,loam\n";

/// A job from tables in memory, worked out as far as its faults allow.
///
/// Findings of reading come before those of the estimate; without an estimate something
/// blocks it.
pub(crate) fn worked_out(tables: &[(&str, &str)]) -> (Option<Estimate>, Vec<Diagnostic>) {
    let (job_file, mut findings) = match read::from_texts("", tables) {
        Ok(read) => read,
        Err(findings) => return (None, findings),
    };
    let checked = job::from_file(&job_file);
    findings.extend(checked.findings);
    let worked = checked.job.map(estimate);
    findings.extend(worked.iter().flat_map(|done| done.findings.clone()));
    (worked, findings)
}

/// Everything that is found about a job.
pub(crate) fn findings_of(tables: &[(&str, &str)]) -> Vec<Diagnostic> {
    worked_out(tables).1
}

/// A job worked out, in which nothing blocks.
pub(crate) fn estimate_of(tables: &[(&str, &str)]) -> Estimate {
    let (worked, findings) = worked_out(tables);
    assert!(
        !findings.iter().any(Diagnostic::blocks),
        "{}",
        diagnostic::text(&findings)
    );
    worked.unwrap_or_else(|| panic!("no estimate, and nothing that blocks it"))
}

/// One figure of an estimate in a unit: by table, row and column, as an estimator names
/// them. A table of one row has no names of rows: leave it empty.
pub(crate) fn figure(estimate: &Estimate, at: (&str, &str, &str), unit: Unit) -> f64 {
    let (table, row, name) = at;
    let graph = &estimate.graph;
    let column = graph
        .find(table, name)
        .unwrap_or_else(|| panic!("{table} has no column \"{name}\""));
    let info = graph.table(graph.column(column).table);
    let is_wanted = |index: &usize| match info.label {
        Some(label) if !row.is_empty() => {
            let cell = Cell {
                column: label,
                row: *index,
            };
            estimate.results.words(cell) == row
        }
        _ => info.rows == 1,
    };
    let row = (0..info.rows)
        .find(is_wanted)
        .unwrap_or_else(|| panic!("{table} has no row \"{row}\""));
    let own = graph.column(column).unit;
    let ratio = own
        .to(unit)
        .unwrap_or_else(|| panic!("{table} {name} is in {own}, not in {unit}"));
    ratio.apply(estimate.results.number(Cell { column, row }))
}

/// Asserts that a figure is the one expected, but for the dust of binary fractions.
#[track_caller]
pub(crate) fn exactly(what: &str, ours: f64, expected: f64) {
    within(what, ours, expected, 1e-9 * expected.abs().max(1e-9));
}

/// Asserts that a figure is the one expected, or off by no more than a tolerance.
#[track_caller]
pub(crate) fn within(what: &str, ours: f64, expected: f64, tolerance: f64) {
    let off = (ours - expected).abs();
    assert!(
        off <= tolerance,
        "{what}: {ours}, expected {expected} to {tolerance}"
    );
}
