//! Every input cell of the sample jobs typed over, one at a time: the workbook then gives
//! what a fresh run gives, or asks for one, or says that a run would refuse it.
//!
//! All of it takes hours. Each run takes a few edits of each job, other ones each time, and
//! names them where one fails; `GROUNDSHEET_SWEEP` says how many, or `all`.

use std::collections::hash_map::RandomState;
use std::env;
use std::hash::BuildHasher;

use groundsheet::estimate::Estimate;
use groundsheet::job::columns::{Holds, InputColumn, InputTable};
use groundsheet::job::tables::TABLES;
use groundsheet::place::cell_name;

use crate::support::agreement::{Edit, Written};
use crate::support::recalculate::Entry;
use crate::support::{SAMPLE_JOBS, sample_job};

/// Edits of each job in an ordinary run.
const FEW: usize = 6;

#[test]
fn no_cell_typed_over_disagrees_in_silence() {
    let mut found = Vec::new();
    for name in SAMPLE_JOBS {
        let job = sample_job(name);
        let written = Written::new(name, &job);
        let mut edits = every_edit(&written, &job);
        assert!(edits.len() > 500, "{name}: {} edits", edits.len());
        let wanted = match env::var("GROUNDSHEET_SWEEP").as_deref() {
            Ok("all") => edits.len(),
            Ok(number) => number.parse().unwrap(),
            Err(_) => FEW,
        };
        let order = RandomState::new(); // other keys each time
        edits.sort_by_cached_key(|edit| order.hash_one(&edit.what));
        edits.truncate(wanted);
        for some in edits.chunks(16) {
            found.extend(written.silent(some));
        }
    }
    assert!(found.is_empty(), "{} silent: {found:#?}", found.len());
}

/// Everything that may be typed over one cell, of every cell of every input table.
fn every_edit(written: &Written<'_>, job: &Estimate) -> Vec<Edit> {
    let mut all = Vec::new();
    for (table, data) in TABLES.iter().zip(job.job.tables()) {
        for row in 0..data.rows {
            for column in table.columns {
                let (sheet, at) = written.cell(table.name, column.heading, row);
                for entry in entries(job, table, column, row) {
                    all.push(Edit {
                        what: format!("{sheet}!{at}, {}: {entry:?}", column.heading),
                        cells: vec![(sheet.clone(), at.clone(), entry)],
                        needs_run: Vec::new(),
                    });
                }
            }
        }
        let names = table.columns.iter().map(|column| column.heading);
        let below = u32::try_from(data.rows).unwrap() + 1;
        all.extend(
            names
                .zip(0..)
                .filter(|_| !table.upright)
                .map(|(name, at)| Edit {
                    what: format!("{}, {name}, below the last row", table.name),
                    cells: vec![(
                        table.name.to_owned(),
                        cell_name(below, at),
                        Entry::Number(1.0),
                    )],
                    needs_run: Vec::new(),
                }),
        );
    }
    all
}

/// What may be typed over a cell: nothing, another of its kind, and what is none.
fn entries(job: &Estimate, table: &InputTable, column: &InputColumn, row: usize) -> Vec<Entry> {
    let words = |words: &str| Entry::Text(words.to_owned());
    let mut all = vec![Entry::Blank, words("something else")];
    let cell = job.graph.find(table.name, column.heading).unwrap().at(row);
    match column.holds {
        Holds::Number(..) => {
            let unit = job.graph.column(cell.column).unit;
            let (low, high) = column.limits_in(unit).unwrap_or((0.0, 1.0));
            let own = job.results.measured(cell).unwrap_or(low + 1.0);
            all.push(Entry::Number(low - 1.0));
            all.push(Entry::Number(high * 1.5 + 1.0));
            all.push(Entry::Number((own * 1.1).clamp(low, high)));
            all.push(words("12' 6\""));
        }
        Holds::Choice(choices) => all.extend(choices.iter().map(|choice| words(choice))),
        Holds::Date => all.push(Entry::Number(46_400.0)),
        Holds::RowOf(other) | Holds::PartOf(other) => {
            let label = job.graph.tables().find_map(|id| {
                let known = job.graph.table(id);
                known.label.filter(|_| known.name == other)
            });
            let label = label.unwrap();
            let rows = 0..job.graph.rows(label).min(3);
            all.extend(rows.map(|row| words(job.results.words(label.at(row)))));
        }
        Holds::Name | Holds::Words | Holds::UnitName => all.push(Entry::Number(7.0)),
    }
    all
}
