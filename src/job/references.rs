//! Names and the cells that refer to them: unique, and all there.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::cells::nearest;
use super::columns::{Fields, Holds};
use super::tables::{
    Basins, CREW_ONLY, Courses, Edges, Equipment, Falls, Layers, LiftChart, Scenarios, SharedWork,
    Shelves, TABLES,
};
use super::{Entries, Places, TableData};
use crate::diagnostic::{Code, Diagnostic};
use crate::graph::Table;
use crate::shown::shown;

/// Checks names and references over all tables; references take the spelling of the name.
pub(super) fn check(tables: &mut [TableData], findings: &mut Vec<Diagnostic>) {
    for table in tables.iter() {
        duplicates(table, findings);
    }
    let names: BTreeMap<&'static str, Names> = tables
        .iter()
        .map(|table| (table.table.name, Names::of(table)))
        .collect();
    for table in tables.iter_mut() {
        for column in 0..table.table.columns.len() {
            if let Holds::RowOf(parent) | Holds::PartOf(parent) = table.table.columns[column].holds
                && let Some(names) = names.get(parent)
            {
                resolve(table, column, parent, names, findings);
            }
        }
    }
}

struct Names {
    by_plain: BTreeMap<String, Arc<str>>,
}

impl Names {
    fn of(table: &TableData) -> Self {
        let column = name_column(table);
        let names = column.map_or(&[] as &[Arc<str>], |column| table.words(column));
        Self {
            by_plain: names
                .iter()
                .map(|name| (name.to_lowercase(), name.clone()))
                .collect(),
        }
    }
}

fn name_column(table: &TableData) -> Option<usize> {
    table
        .table
        .columns
        .iter()
        .position(|column| column.holds == Holds::Name)
}

fn duplicates(table: &TableData, findings: &mut Vec<Diagnostic>) {
    let Some(column) = name_column(table) else {
        return;
    };
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    for (row, name) in table
        .words(column)
        .iter()
        .enumerate()
        .filter(|(_, name)| !name.is_empty())
    {
        let Some(earlier) = first.insert(name.to_lowercase(), row) else {
            continue;
        };
        let what = format!(
            "{} \"{}\" stands twice; the other is at {}",
            table.table.columns[column].heading,
            shown(name),
            table.place(column, earlier)
        );
        findings.push(
            Diagnostic::error(Code::DuplicateKey, table.place(column, row), what)
                .hint("give each row its own name; upper and lower case count as the same"),
        );
    }
}

fn resolve(
    table: &mut TableData,
    column: usize,
    parent: &str,
    names: &Names,
    findings: &mut Vec<Diagnostic>,
) {
    let heading = table.table.columns[column].heading;
    let is_part = matches!(table.table.columns[column].holds, Holds::PartOf(_));
    for row in 0..table.rows {
        let Some(word) = table
            .words(column)
            .get(row)
            .filter(|word| !word.is_empty())
            .cloned()
        else {
            continue;
        };
        if let Some(name) = names.by_plain.get(&word.to_lowercase()) {
            if let Entries::Words(words) = &mut table.columns[column] {
                words[row] = name.clone();
            }
            continue;
        }
        if parent == Scenarios::NAME && word.eq_ignore_ascii_case(CREW_ONLY) && !is_part {
            continue; // the scenario that every job has
        }
        if table.is_quick(row) {
            continue; // an open point, not a slip of the pen
        }
        let what = format!("{heading} \"{}\" is not a row of {parent}", shown(&word));
        let near = nearest(&word, names.by_plain.values().map(|name| &**name));
        let hint = match near {
            Some(near) => format!("did you mean \"{}\"?", shown(near)),
            None => format!("add it to {parent}, or write the name of a row that is there"),
        };
        findings.push(
            Diagnostic::error(Code::UnknownReference, table.place(column, row), what).hint(hint),
        );
    }
}

/// Puts rows that build on one another in the order of their wholes: the shelves of one
/// basin and the parts of its rim, the courses of one fall by their numbers, the radii of
/// one machine from the nearest out, the layers of one feature. Otherwise rows keep their
/// order.
pub(super) fn parts_with_their_wholes(tables: &mut [TableData]) {
    together(tables, Shelves::ShelfBasin, Basins::Basin, None);
    together(tables, Edges::EdgeBasin, Basins::Basin, None);
    let number = Courses::CourseNumber;
    together(tables, Courses::CourseFall, Falls::Fall, Some(number));
    let radius = LiftChart::ChartRadius;
    together(
        tables,
        LiftChart::ChartMachine,
        Equipment::Machine,
        Some(radius),
    );
    together(tables, SharedWork::SharedIn, Scenarios::Scenario, None);
    together(tables, Layers::LayerFall, Falls::Fall, None);
    together(tables, Layers::LayerBasin, Basins::Basin, None);
}

fn together<P: Fields, W: Fields>(tables: &mut [TableData], part: P, whole: W, by: Option<P>) {
    let position = |name: &str| {
        TABLES
            .iter()
            .position(|table| table.name == name)
            .unwrap_or(0)
    };
    let wholes: Vec<Arc<str>> = tables[position(W::NAME)].words(whole.index()).to_vec();
    let parts = &mut tables[position(P::NAME)];
    let whole_of = |row: usize| {
        let name = &parts.words(part.index())[row];
        let found = wholes.iter().position(|whole| whole == name);
        found.unwrap_or(wholes.len())
    };
    let number = |row: usize| by.map_or(0.0, |by| parts.numbers(by.index())[row]);
    let mut order: Vec<usize> = (0..parts.rows).collect();
    order.sort_by(|a, b| {
        let number = || number(*a).total_cmp(&number(*b));
        whole_of(*a).cmp(&whole_of(*b)).then_with(number)
    });
    parts.reorder(&order);
}

impl TableData {
    fn reorder(&mut self, order: &[usize]) {
        fn by<V: Clone>(values: &mut Vec<V>, order: &[usize]) {
            *values = order.iter().map(|row| values[*row].clone()).collect();
        }
        for entries in &mut self.columns {
            match entries {
                Entries::Numbers(numbers) => by(numbers, order),
                Entries::Words(words) => by(words, order),
            }
        }
        if let Places::Rows { rows, .. } = &mut self.places {
            by(rows, order);
        }
        self.extras
            .iter_mut()
            .for_each(|extra| by(&mut extra.values, order));
        by(&mut self.follows, order);
        by(&mut self.as_measured, order);
    }
}
