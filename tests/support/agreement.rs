//! One expression, three readings: what a workbook's formulas come to when engines that
//! know nothing of this crate work them out again, against what this crate gives.
//!
//! Always true: an edited workbook is compared with a fresh run on that same edited file,
//! and whether it asks for that run is checked too. Edits are worked out several at a time;
//! where such a batch disagrees, each of its edits is tried alone, and the one to blame is
//! named beside the cell and its formula.

#[cfg(test)]
mod tests;

use std::cell::OnceCell;
use std::collections::BTreeMap;

use groundsheet::estimate::Estimate;
use groundsheet::graph::home::Layout;
use groundsheet::graph::{Cell, Change, ColumnId, Kind, Results, evaluate_with};
use groundsheet::parameters::Factor;
use groundsheet::place::cell_name;
use groundsheet::units::PERCENT;
use groundsheet::write::BookLayout;

use super::recalculate::{self, Cells, Entry, Spot, Value, by_the_engine, formula_cells};
use super::{estimated_from, workbook_of};

/// How many edits are worked out together at most.
const TOGETHER: usize = 8;

/// The key of the job that names its scenario, and the cell in which a person chooses it.
const SCENARIO: (&str, &str) = ("Job", "Scenario");
const CHOSEN_AT: (&str, &str) = ("Bid", "B9");
/// Where a workbook says whether groundsheet must run on it again.
const RUN_AGAIN: (&str, u32, u32) = ("Changes", 2, 1);

/// One edit: what is typed where, and the columns that a workbook cannot follow it in.
#[derive(Clone, Debug)]
pub(crate) struct Edit {
    pub(crate) what: String,
    /// Sheet, cell and what is typed there.
    pub(crate) cells: Vec<(String, String, Entry)>,
    /// Empty where the workbook follows by itself.
    pub(crate) needs_run: Vec<ColumnId>,
}

/// One cell typed over: table, heading, row as the workbook sorts them, what is typed.
pub(crate) type Typed = (&'static str, &'static str, usize, Entry);

/// A job's workbook as it was written.
pub(crate) struct Written<'e> {
    name: String,
    pub(crate) estimate: &'e Estimate,
    layout: BookLayout,
    bytes: OnceCell<Vec<u8>>,
}

/// Somebody to whom a written job is shown with the edits that are made on it, batch by batch.
pub(crate) type Viewer<'s> = &'s mut dyn FnMut(&Written<'_>, Vec<Vec<Edit>>);

/// Edits made together, and what a fresh run on the edited file gives.
struct Round {
    edits: Vec<Edit>,
    bytes: Vec<u8>,
    fresh: Estimate,
}

/// Words typed into a cell.
pub(crate) fn word(words: &str) -> Entry {
    Entry::Text(words.to_owned())
}

impl<'e> Written<'e> {
    pub(crate) fn new(name: &str, estimate: &'e Estimate) -> Self {
        Self {
            name: name.to_owned(),
            estimate,
            layout: BookLayout::new(estimate),
            bytes: OnceCell::new(),
        }
    }

    /// The workbook, written when it is first asked for.
    fn bytes(&self) -> &[u8] {
        self.bytes.get_or_init(|| workbook_of(self.estimate))
    }

    pub(crate) fn column(&self, table: &str, name: &str) -> ColumnId {
        self.estimate
            .graph
            .find(table, name)
            .unwrap_or_else(|| panic!("{table} has no column {name}"))
    }

    /// Where a row of a column stands: rows and columns from zero.
    pub(crate) fn spot(&self, column: ColumnId, row: usize) -> Spot {
        let home = self.layout.home(column);
        let sheet = self.layout.sheets[home.sheet].name.to_owned();
        (sheet, home.row + u32::try_from(row).unwrap(), home.column)
    }

    /// The sheet and the name of a cell, where a person types: the scenario of a job is
    /// chosen on the bid page.
    pub(crate) fn cell(&self, table: &str, name: &str, row: usize) -> (String, String) {
        let has_scenarios = self.estimate.has_scenarios();
        if (table, name) == SCENARIO && has_scenarios {
            return (CHOSEN_AT.0.to_owned(), CHOSEN_AT.1.to_owned());
        }
        self.own_cell(table, name, row)
    }

    /// The sheet and the name of a cell where it stands.
    pub(crate) fn own_cell(&self, table: &str, name: &str, row: usize) -> (String, String) {
        let (sheet, row, column) = self.spot(self.column(table, name), row);
        (sheet, cell_name(row, column))
    }

    /// One cell typed over, which the workbook follows.
    pub(crate) fn typed(&self, table: &str, name: &str, row: usize, entry: Entry) -> Edit {
        let (sheet, at) = self.cell(table, name, row);
        Edit {
            what: format!("{table}, {name}, row {row}: {entry:?}"),
            cells: vec![(sheet, at, entry)],
            needs_run: Vec::new(),
        }
    }

    /// Every number that the user wrote, a hundredth more, and percents, which may be a
    /// hundred already, a hundredth less: so a new input is edited without
    /// anybody's doing. Counts and numbers of courses are not measures. What the quick page made follows that page, and needs a run by itself.
    pub(crate) fn every_number(&self) -> Vec<Edit> {
        let Estimate {
            job,
            graph,
            results,
            ..
        } = self.estimate;
        let mut edits = Vec::new();
        let counts = [("Courses", "Number"), ("Quick measure", "Fall courses")];
        let counts = counts.map(|(table, name)| graph.find(table, name));
        let laid_out = |column: &ColumnId| self.layout.has(*column);
        for column in graph.columns().filter(laid_out) {
            if counts.contains(&Some(column)) {
                continue;
            }
            let info = graph.column(column);
            let table = graph.table(info.table).name;
            let of_the_job = |row: usize| {
                let mut tables = job.tables().iter();
                tables.all(|data| data.table.name != table || !data.is_quick(row))
            };
            let Kind::Measured(_) = info.kind else {
                continue;
            };
            for row in (0..graph.rows(column)).filter(|row| of_the_job(*row)) {
                if let Some(number) = results.measured(column.at(row)) {
                    let times = if info.unit == PERCENT { 0.99 } else { 1.01 };
                    let other = Entry::Number(number * times);
                    edits.push(self.typed(table, &info.name, row, other));
                }
            }
        }
        edits
    }

    /// Every default overridden by a hundredth less, or more where less is too little.
    pub(crate) fn every_factor(&self) -> Vec<Edit> {
        let system = self.estimate.graph.system();
        let factors = Factor::ALL.iter();
        let overridden = factors.map(|factor| {
            let (default, (least, _)) = (factor.default(system), factor.limits(system));
            let less = default * 0.99;
            let other = if less < least { default * 1.01 } else { less };
            let column = format!("{}, override", factor.name());
            self.typed("Factors", &column, 0, Entry::Number(other))
        });
        overridden.collect()
    }

    /// Edits of one cell each.
    pub(crate) fn all_typed(&self, edits: Vec<Typed>) -> Vec<Edit> {
        let edits = edits.into_iter();
        let typed = edits.map(|(table, name, row, entry)| self.typed(table, name, row, entry));
        typed.collect()
    }

    /// The columns that edits type in, and what our own engine gives after them, without a
    /// fresh run on the edited file.
    pub(crate) fn worked_out_after(&self, edits: &[Edit]) -> (Vec<ColumnId>, Results) {
        let graph = &self.estimate.graph;
        let mut standing = BTreeMap::new();
        for column in graph.columns().filter(|column| self.layout.has(*column)) {
            for row in 0..graph.rows(column) {
                let (sheet, row_at, across) = self.spot(column, row);
                standing.insert((sheet, cell_name(row_at, across)), column.at(row));
            }
        }
        let scenario = |column: ColumnId| ((CHOSEN_AT.0.into(), CHOSEN_AT.1.into()), column.at(0));
        standing.extend(graph.find(SCENARIO.0, SCENARIO.1).map(scenario));
        let change = |(sheet, at, entry): &(String, String, Entry)| {
            let cell = standing[&(sheet.clone(), at.clone())];
            let change = match entry {
                Entry::Number(number) => Change::from(*number),
                Entry::Text(words) => Change::from(&**words),
                Entry::Blank if graph.column(cell.column).is_text() => Change::from(""),
                Entry::Blank => Change::from(f64::NAN),
            };
            (cell, change)
        };
        let cells = edits.iter().flat_map(|edit| &edit.cells);
        let changes: Vec<(Cell, Change)> = cells.map(change).collect();
        let typed = changes.iter().map(|(cell, _)| cell.column).collect();
        let after = evaluate_with(graph, &self.estimate.results, &changes);
        (typed, after)
    }

    /// What every engine makes of the workbook after the edits.
    pub(crate) fn recalculated(&self, edits: &[Edit]) -> Vec<(String, Cells)> {
        let engines = [by_the_engine(&[self.edited(edits)])];
        let only = |(engine, mut all): (String, Vec<Cells>)| (engine, all.remove(0));
        engines.into_iter().map(only).collect()
    }

    /// Every formula comes to its stored result, by every engine, and none to an error.
    pub(crate) fn recalculates(&self) {
        let stored = formula_cells(self.bytes());
        assert!(
            stored.len() > 1000,
            "{}: only {} formulas",
            self.name,
            stored.len()
        );
        for (engine, again) in self.recalculated(&[]) {
            for (spot, (formula, value)) in &stored {
                let again = &again[spot];
                assert!(
                    value.agrees_with(again) && !matches!(again, Value::Error(_)),
                    "{}, {engine}, {spot:?}: ={formula} stored {value:?}, recalculated {again:?}",
                    self.name
                );
            }
        }
    }

    /// After each edit every formula comes to what a fresh run on the edited file gives, as
    /// far as the edit needs no run; and a run is asked for where one is needed, and only
    /// there.
    pub(crate) fn follows(&self, edits: Vec<Edit>) {
        self.follows_together(batches(edits));
    }

    /// The same for batches of edits.
    pub(crate) fn follows_together(&self, batches: Vec<Vec<Edit>>) {
        let sound = batches.into_iter().flat_map(|edits| self.rounds(edits));
        let rounds: Vec<Round> = sound.collect();
        let files: Vec<Vec<u8>> = rounds.iter().map(|round| round.bytes.clone()).collect();
        let (engine, all) = by_the_engine(&files);
        for (round, again) in rounds.iter().zip(&all) {
            if let Some(found) = self.disagreement(round, again) {
                panic!(
                    "{}, {engine}, {}: {found}",
                    self.name,
                    self.to_blame(round, &engine)
                );
            }
        }
    }

    /// Each edit by itself asks for a new run.
    pub(crate) fn asks_for_a_new_run(&self, edits: &[Edit]) {
        let files: Vec<Vec<u8>> = edits
            .iter()
            .map(|edit| self.edited(std::slice::from_ref(edit)))
            .collect();
        let (engine, all) = by_the_engine(&files);
        for (edit, again) in edits.iter().zip(&all) {
            let what = format!("{}, {engine}, {}", self.name, edit.what);
            assert!(runs_again(again), "{what}: no new run is asked for");
        }
    }

    /// The edits after which, each alone, the workbook neither gives what a fresh run gives
    /// nor asks for one, nor says that a run would refuse it; and what it says instead.
    pub(crate) fn silent(&self, edits: &[Edit]) -> Vec<String> {
        let edited = edits.iter().map(std::slice::from_ref);
        let files: Vec<Vec<u8>> = edited.map(|edit| self.edited(edit)).collect();
        let (engine, all) = by_the_engine(&files);
        let mut found = Vec::new();
        for (edit, again) in edits.iter().zip(&all) {
            let says = match &again[&(CHOSEN_AT.0.to_owned(), 9, 1)] {
                Value::Text(words) => words.clone(),
                other => format!("{other:?}"),
            };
            let speaks = runs_again(again) || says.starts_with("RUN AGAIN");
            let wrong = match estimated_from(&self.saved(std::slice::from_ref(edit))) {
                _ if speaks => None,
                Err(_) if says.starts_with("FAULTS") => None,
                Err(refused) => Some(format!("it says {says}, and a run says {refused}")),
                Ok(fresh) => self.formulas_that_differ(&fresh, again),
            };
            found.extend(
                wrong.map(|wrong| format!("{}, {engine}, {}: {wrong}", self.name, edit.what)),
            );
        }
        found
    }

    /// The edited file as a spreadsheet program saves it: the job's scenario is that of the
    /// bid page.
    fn saved(&self, edits: &[Edit]) -> Vec<u8> {
        let mut edits = edits.to_vec();
        for edit in &mut edits {
            let chosen = |(sheet, at, _): &&(String, String, Entry)| (&**sheet, &**at) == CHOSEN_AT;
            if let Some((_, _, entry)) = edit.cells.iter().find(chosen) {
                let entry = entry.clone();
                let (sheet, at) = self.own_cell(SCENARIO.0, SCENARIO.1, 0);
                edit.cells.push((sheet, at, entry));
            }
        }
        self.edited(&edits)
    }

    fn edited(&self, edits: &[Edit]) -> Vec<u8> {
        let cells: Vec<(&str, &str, Entry)> = edits
            .iter()
            .flat_map(|edit| &edit.cells)
            .map(|(sheet, at, entry)| (&**sheet, &**at, entry.clone()))
            .collect();
        recalculate::edit(self.bytes(), &cells)
    }

    /// The edits in one round. Those that a run refuses only together are parted.
    fn rounds(&self, mut edits: Vec<Edit>) -> Vec<Round> {
        let bytes = self.edited(&edits);
        match estimated_from(&self.saved(&edits)) {
            Ok(fresh) => vec![Round {
                edits,
                bytes,
                fresh,
            }],
            Err(found) => {
                assert!(edits.len() > 1, "{}, {}: {found}", self.name, edits[0].what);
                let rest = edits.split_off(edits.len() / 2);
                [self.rounds(edits), self.rounds(rest)]
                    .into_iter()
                    .flatten()
                    .collect()
            }
        }
    }

    /// The edit of a round that disagrees alone as well, by one engine, or all of them.
    fn to_blame(&self, round: &Round, engine: &str) -> String {
        let alone = |edit: &&Edit| {
            let one = self.rounds(vec![(*edit).clone()]).remove(0);
            let engines = self.recalculated(&one.edits);
            let mut own = engines.iter().filter(|(name, _)| name == engine);
            own.any(|(_, again)| self.disagreement(&one, again).is_some())
        };
        if let Some(edit) = round.edits.iter().find(alone) {
            return edit.what.clone();
        }
        let all: Vec<&str> = round.edits.iter().map(|edit| &*edit.what).collect();
        format!("only together: {}", all.join("; "))
    }

    /// The first thing in which a round, recalculated, is not as the fresh run.
    fn disagreement(&self, round: &Round, again: &Cells) -> Option<String> {
        let needs_run: Vec<ColumnId> = round
            .edits
            .iter()
            .flat_map(|edit| edit.needs_run.clone())
            .collect();
        if runs_again(again) == needs_run.is_empty() {
            return Some(format!("run_again is {}", runs_again(again)));
        }
        if needs_run.is_empty() {
            self.formulas_that_differ(&round.fresh, again)
        } else {
            self.figures_that_differ(&needs_run, &round.fresh, again)
        }
    }

    /// Every formula of the fresh workbook. One cell is not as there: it says whether the
    /// bid has changed since the run, so it must say so where the bids differ.
    fn formulas_that_differ(&self, fresh: &Estimate, again: &Cells) -> Option<String> {
        let bid = |of: &Estimate| of.bid();
        let changed = (bid(self.estimate) - bid(fresh)).abs() >= 0.005;
        let expected = formula_cells(&workbook_of(fresh));
        let gone = expected.iter().find(|(spot, _)| !again.contains_key(*spot));
        if let Some((spot, (formula, _))) = gone {
            return Some(format!(
                "{spot:?} holds ={formula} after a fresh run, and no formula now"
            ));
        }
        if let Some(spot) = again.keys().find(|spot| !expected.contains_key(*spot)) {
            return Some(format!(
                "{spot:?} holds a formula, and none after a fresh run"
            ));
        }
        let (mut since_the_run, mut differs) = (0, None);
        for ((spot, (formula, value)), again) in expected.iter().zip(again.values()) {
            let tells_of_the_run = spot.0 == "Certainty" && formula.contains("CHANGED");
            let agrees = if tells_of_the_run {
                since_the_run += 1;
                changed == matches!(again, Value::Text(words) if words.contains("CHANGED"))
            } else {
                value.agrees_with(again)
            };
            if !agrees {
                differs = differs.or_else(|| {
                    Some(format!(
                        "{spot:?} ={formula}: fresh run {value:?}, recalculated {again:?}"
                    ))
                });
            }
        }
        assert_eq!(since_the_run, 1, "cells that tell whether the bid changed");
        differs
    }

    /// Every computed column that the edit cannot reach, by its rows as they were written.
    fn figures_that_differ(
        &self,
        needs_run: &[ColumnId],
        fresh: &Estimate,
        again: &Cells,
    ) -> Option<String> {
        let graph = &self.estimate.graph;
        let reach = graph.reach(needs_run);
        let mut compared = 0;
        for (column, reached) in graph.columns().zip(reach) {
            let info = graph.column(column);
            let table = graph.table(info.table).name;
            let same = fresh.graph.find(table, &info.name);
            let (false, true, Some(same)) = (reached, info.is_computed(), same) else {
                continue;
            };
            for row in 0..graph.rows(column) {
                let spot = self.spot(column, row);
                let Some(value) = again.get(&spot) else {
                    continue;
                };
                let cell = Cell { column: same, row };
                let expected = if info.is_text() {
                    Value::Text(fresh.results.words(cell).to_owned())
                } else {
                    // Another unit in a heading is the same size by another number.
                    let ratio = fresh.graph.column(same).unit.to(info.unit);
                    Value::Number(ratio.unwrap().apply(fresh.results.number(cell)))
                };
                if !expected.agrees_with(value) {
                    return Some(format!(
                        "{table}, {}, row {row} at {spot:?} ={}: fresh run {expected:?}, recalculated {value:?}",
                        info.name,
                        formula_cells(self.bytes())[&spot].0
                    ));
                }
                compared += 1;
            }
        }
        assert!(compared > 100, "only {compared} cells compared");
        None
    }
}

fn runs_again(again: &Cells) -> bool {
    let (sheet, row, column) = RUN_AGAIN;
    match &again[&(sheet.to_owned(), row, column)] {
        Value::Truth(truth) => *truth,
        other => panic!("whether to run again is {other:?}"),
    }
}

/// Edits that need a run by themselves, so that the asking of one hides no other; the rest
/// spread over as few batches as hold them, those of one row apart where they can be.
pub(crate) fn batches(edits: Vec<Edit>) -> Vec<Vec<Edit>> {
    let (live, mut batches): (Vec<Edit>, Vec<Vec<Edit>>) = {
        let (live, alone): (Vec<_>, Vec<_>) = edits
            .into_iter()
            .partition(|edit| edit.needs_run.is_empty());
        (live, alone.into_iter().map(|edit| vec![edit]).collect())
    };
    let mut spread: Vec<Vec<Edit>> = vec![Vec::new(); live.len().div_ceil(TOGETHER)];
    for edit in live {
        let fits = |batch: &&mut Vec<Edit>| {
            batch.len() < TOGETHER && !batch.iter().any(|other| excludes(&edit, other))
        };
        let beside = |batch: &&mut Vec<Edit>| {
            let of_the_row = batch.iter().filter(|other| share_a_row(&edit, other));
            (of_the_row.count(), batch.len())
        };
        match spread.iter_mut().filter(fits).min_by_key(beside) {
            Some(batch) => batch.push(edit),
            None => spread.push(vec![edit]),
        }
    }
    batches.append(&mut spread);
    batches
}

/// Whether one edit would undo or hide another: both type into one cell, or one of them
/// chooses or clears something in a row, which says what the row's other cells are for.
fn excludes(one: &Edit, other: &Edit) -> bool {
    let same_cell = |(sheet, at, _): &(String, String, Entry)| {
        other
            .cells
            .iter()
            .any(|cell| (&cell.0, &cell.1) == (sheet, at))
    };
    let only_numbers = |edit: &Edit| {
        let mut entries = edit.cells.iter().map(|(_, _, entry)| entry);
        entries.all(|entry| matches!(entry, Entry::Number(_)))
    };
    let hides = share_a_row(one, other) && !(only_numbers(one) && only_numbers(other));
    hides || one.cells.iter().any(same_cell)
}

fn share_a_row(one: &Edit, other: &Edit) -> bool {
    let row =
        |(sheet, at, _): &(String, String, Entry)| (sheet.clone(), recalculate::position(at).0);
    let rows: Vec<_> = one.cells.iter().map(row).collect();
    other.cells.iter().any(|cell| rows.contains(&row(cell)))
}
