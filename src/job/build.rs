//! From sheets to a job: every cell is read once, and every fault is collected.

use super::cells::{self, Habits};
use super::headings::{is_slip, plain};
use super::rows::read_table;
use super::tables::{
    Basins, Courses, Falls, JobKeys, Layers, Loose, OtherItems, PAGES, Planting, QuickMeasure,
    Structures, TABLES, Timber,
};
use super::{Fields, Job, Override, TableData, factors, quick, references, scenarios};
use crate::diagnostic::{Code, Diagnostic};
use crate::graph::Table;
use crate::parameters::Factor;
use crate::place::Place;
use crate::read::notation::MarksSeen;
use crate::read::{JobFile, Sheet};
use crate::shown::shown;
use crate::tables::Factors;
use crate::units::System;

/// The tables that say what is to be built: a job needs a row of one of them.
const MEASURED: [&str; 10] = [
    QuickMeasure::NAME,
    Basins::NAME,
    Structures::NAME,
    Layers::NAME,
    Falls::NAME,
    Courses::NAME,
    Loose::NAME,
    Timber::NAME,
    Planting::NAME,
    OtherItems::NAME,
];

/// What came of reading a job.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The job; `None` where something blocks.
    pub job: Option<Job>,
    /// Everything found, errors first within a table, in the order of the tables.
    pub findings: Vec<Diagnostic>,
}

/// Builds a job from sheets. All faults are reported together.
#[must_use]
pub fn from_file(job_file: &JobFile) -> Checked {
    let mut findings = Vec::new();
    let file = Place::file(&job_file.name);
    unknown_sheets(job_file, &mut findings);
    let system = system_of(job_file);
    let habits = Habits {
        system,
        seen: marks_of(job_file),
    };
    let mut tables = Vec::new();
    for table in TABLES {
        match sheet_of(job_file, table.name, &mut findings) {
            Some(sheet) => tables.push(read_table(table, sheet, &habits, &mut findings)),
            None => tables.push(TableData::empty(table, system, file.clone())),
        }
    }
    required_sheets(job_file, &file, &mut findings);
    let overrides = match sheet_of(job_file, Factors::NAME, &mut findings) {
        Some(sheet) => factors::read(sheet, &habits, &mut findings),
        None => Factor::ALL.iter().map(|_| Override::NONE()).collect(),
    };
    let beside = quick::rows(&mut tables, system, &mut findings);
    nothing_measured(&tables, &file, &mut findings);
    references::check(&mut tables, &mut findings);
    scenarios::check(&tables, &mut findings);
    scenarios::settle(&mut tables);
    references::parts_with_their_wholes(&mut tables);
    let blocked = findings.iter().any(Diagnostic::blocks);
    Checked {
        job: (!blocked).then_some(Job {
            system,
            tables,
            overrides,
            beside,
        }),
        findings,
    }
}

/// Whether a sheet of this name is a table that a job is read from.
#[must_use]
pub fn is_table(name: &str) -> bool {
    let name = plain(name);
    let mut tables = TABLES.iter().map(|table| table.name).chain([Factors::NAME]);
    tables.any(|table| plain(table) == name)
}

fn sheet_of<'s>(
    job_file: &'s JobFile,
    name: &str,
    findings: &mut Vec<Diagnostic>,
) -> Option<&'s Sheet> {
    let mut found = job_file
        .sheets
        .iter()
        .filter(|sheet| plain(&sheet.name) == plain(name));
    let first = found.next()?;
    for again in found {
        let what = format!(
            "the table {name} stands twice; the other is {}",
            first.place
        );
        findings.push(
            Diagnostic::error(Code::DuplicateHeading, again.place.clone(), what)
                .hint("keep one of the two, or rename the other"),
        );
    }
    Some(first)
}

fn unknown_sheets(job_file: &JobFile, findings: &mut Vec<Diagnostic>) {
    for sheet in &job_file.sheets {
        if is_table(&sheet.name) || PAGES.iter().any(|page| plain(page) == plain(&sheet.name)) {
            continue;
        }
        let what = format!("\"{}\" is not a table of a job", shown(&sheet.name));
        let near = cells::nearest(
            &sheet.name,
            TABLES.iter().map(|table| table.name).chain([Factors::NAME]),
        );
        // A table left out for a slip in its name would be missing from the bid.
        let slip = near.is_some_and(|near| is_slip(&sheet.name, near) && !has(job_file, near));
        let finding = if slip {
            Diagnostic::error(Code::UnknownSheet, sheet.place.clone(), what)
        } else {
            let what = format!("{what}; it is not carried");
            Diagnostic::warning(Code::UnknownSheet, sheet.place.clone(), what)
        };
        findings.push(match near {
            Some(near) => finding.hint(format!("did you mean \"{near}\"?")),
            None => finding.hint("rename it to one of the tables if it should be read"),
        });
    }
}

/// Whether there is a sheet of this name.
fn has(job_file: &JobFile, name: &str) -> bool {
    let mut sheets = job_file.sheets.iter();
    sheets.any(|sheet| plain(&sheet.name) == plain(name))
}

fn required_sheets(job_file: &JobFile, file: &Place, findings: &mut Vec<Diagnostic>) {
    // A slip in the name of a sheet has been reported already.
    let there = |name: &str| {
        let mut sheets = job_file.sheets.iter();
        has(job_file, name) || sheets.any(|sheet| is_slip(&sheet.name, name))
    };
    if !there(JobKeys::NAME) {
        findings.push(
            Diagnostic::error(Code::MissingSheet, file.clone(), "there is no table Job")
                .hint("add a sheet Job with the columns Key and Value; `groundsheet template` writes a blank one"),
        );
    }
    if !MEASURED.iter().any(|table| there(table)) {
        findings.push(
            Diagnostic::error(
                Code::MissingSheet,
                file.clone(),
                "there is nothing measured: no table such as Quick measure, Basins or Other items",
            )
            .hint("fill in Quick measure, or add a sheet such as Basins; `groundsheet template` writes blank ones"),
        );
    }
}

/// The system of units decides how blank headings and defaults are read, so it is looked up first.
fn system_of(job_file: &JobFile) -> System {
    let mut sheets = job_file.sheets.iter();
    let job = sheets.find(|sheet| plain(&sheet.name) == plain(JobKeys::NAME));
    let units = plain(JobKeys::TABLE.columns[JobKeys::Units.index()].heading);
    let rows = job.iter().flat_map(|sheet| &sheet.rows);
    let mut said = rows.filter_map(|row| match row.cells.as_slice() {
        [key, value, ..] if plain(&cells::text_of(&key.content)) == units => {
            Some(cells::text_of(&value.content))
        }
        _ => None,
    });
    let metric = said
        .next_back()
        .is_some_and(|words| plain(&words) == plain(System::Metric.name()));
    if metric { System::Metric } else { System::Us }
}

/// The decimal mark of the numbers that are written as text, found once over all tables.
fn marks_of(job_file: &JobFile) -> MarksSeen {
    let mut seen = job_file.marks.clone();
    for sheet in job_file.sheets.iter().filter(|sheet| is_table(&sheet.name)) {
        sheet.note_marks(&mut seen);
    }
    seen
}

/// Tables with headings and no rows are as good as none.
fn nothing_measured(tables: &[TableData], file: &Place, findings: &mut Vec<Diagnostic>) {
    let measured = |data: &TableData| {
        !data.table.upright && MEASURED.contains(&data.table.name) && data.rows > 0
    };
    if findings.iter().any(Diagnostic::blocks) || tables.iter().any(measured) {
        return;
    }
    findings.push(
        Diagnostic::error(
            Code::MissingValue,
            file.clone(),
            "nothing is measured: no table of measures has a row",
        )
        .hint(
            "fill in the lengths of Quick measure, or at least one row of Basins or of Other items",
        ),
    );
}
