//! Structures, loose stone, timber, plants, edges and water by hand.
//!
//! Always true: no expected figure was printed by this crate; each stands at the end of
//! the arithmetic above it.

pub(crate) mod agreement; // the new columns recalculated, in both systems of units
mod beds; // loose stone, planting, edges
mod structures; // size, pit, supply, opening, flotation
mod timber; // logs
mod waters; // uplift on liners, water of the system

use groundsheet::diagnostic::{Code, Diagnostic, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::place::cell_name;
use groundsheet::units::Unit;

use crate::support::{US, estimate_of, figure, findings_of};

/// Materials and works by their usual names, so that nothing is open.
const MATERIALS: &str = "Material,Unit,Price,Weight (lb/ft3),Waste (%)\n\
    Void crate,ea,25,,\nBedding,yd3,30,,0\nGravel,yd3,40,,0\nLogs,ea,300,,\n\
    Planting soil,yd3,35,,0\nPlants,ea,4,,\n";
const WORKS: &str = "Work,Unit,Crew,Crew output\n\
    Set structure,ea,Crew,2\nSet crate,ea,Crew,20\nProtect wall,ft2,Crew,60\n\
    Place gravel,yd3,Crew,5\nSet log,ea,Crew,4\nPlant,ea,Crew,50\n\
    Spread topsoil,yd3 loose,Crew,8\nDig,yd3 bank,Crew,30\nBackfill,yd3 compacted,Crew,30\n\
    Haul away,load,Crew,2\nBring fill,load,Crew,2\n";
/// Something that is measured, where none of the tables at hand counts as that by itself.
const ITEMS: &str = "Item,Section,Description,Times,Unit,Price\nSign,Site,Site sign,1,ea,50\n";
const MARK_UPS: &str = "Mark-up,On,Rate (%)\nProfit,direct cost,10\n";
const CREWS: &str = "Crew,People,Wage per hour\nCrew,2,30\n";

/// A US customary job of some tables, with the book of materials and works above.
fn job(tables: &[(&str, &str)]) -> Estimate {
    let book = [
        ("Job", US),
        ("Materials", MATERIALS),
        ("Production rates", WORKS),
        ("Crews", CREWS),
        ("Mark-ups", MARK_UPS),
        ("Other items", ITEMS),
    ];
    estimate_of(&[&book, tables].concat())
}

/// The findings of the same, whatever they are.
fn found(tables: &[(&str, &str)]) -> Vec<Diagnostic> {
    let book = [
        ("Job", US),
        ("Materials", MATERIALS),
        ("Production rates", WORKS),
        ("Crews", CREWS),
        ("Mark-ups", MARK_UPS),
        ("Other items", ITEMS),
    ];
    findings_of(&[&book, tables].concat())
}

fn line(job: &Estimate, name: &str, column: &str, unit: Unit) -> f64 {
    figure(job, ("Lines", name, column), unit)
}

/// The findings of one kind and severity, each with its cell and its message.
fn of_code(findings: &[Diagnostic], severity: Severity, code: Code) -> Vec<String> {
    findings
        .iter()
        .filter(|finding| finding.severity == severity && finding.code == code)
        .map(|finding| {
            let cell = finding.place.as_ref().and_then(|place| place.cell);
            let cell = cell.map(|(row, column)| cell_name(row, column));
            format!("{} {}", cell.unwrap_or_default(), finding.message)
        })
        .collect()
}

/// Asserts that there is one finding of a kind, and that it says or points at something.
#[track_caller]
fn says(findings: &[Diagnostic], severity: Severity, code: Code, words: &str) {
    let all = of_code(findings, severity, code);
    assert!(
        all.len() == 1 && all[0].contains(words),
        "{words}: {all:?} of {findings:?}"
    );
}

/// Asserts that there is no finding of a kind.
#[track_caller]
fn silent(findings: &[Diagnostic], code: Code) {
    let all: Vec<_> = findings.iter().filter(|found| found.code == code).collect();
    assert!(all.is_empty(), "{all:?}");
}
