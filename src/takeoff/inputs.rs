//! The job's tables as columns of the graph.
//!
//! Always true: every input column of every table is in the graph, in the order of the
//! tables, so that a rule can refer to any of them and the workbook can show them all.

use super::quick::{self, Figures};
use crate::graph::prelude::*;
use crate::graph::{Cell, ColumnId, Graph};
use crate::job::Job;
use crate::job::columns::{Fields, Holds};
use crate::job::tables::{EachTable, each_table};
use crate::parameters::Factor;
use crate::tables::Factors;

/// The columns of one table: numbers with their units, words, and the row's name.
fn load_table<T: Fields>(graph: &mut Graph, job: &Job) -> Vec<ColumnId> {
    let data = job.table::<T>();
    graph.add_table::<T>(data.rows);
    let mut rules = graph.rules::<T>();
    let mut columns = Vec::new();
    for (position, column) in T::TABLE.columns.iter().enumerate() {
        let id = match column.holds {
            Holds::Number(..) | Holds::Date => {
                let numbers = data.numbers(position).to_vec();
                let measured = rules.measured(column.heading, data.unit(position), numbers);
                measured.id
            }
            _ => {
                let watched = column.is_structural();
                let (name, values) = (column.heading, data.words(position).to_vec());
                let words = match column.holds {
                    Holds::Choice(choices) => rules.chosen(name, watched, choices, values),
                    _ => rules.words(name, watched, values),
                };
                if column.calls_rows() {
                    rules.labelled_by(words);
                }
                words.id
            }
        };
        columns.push(id);
    }
    columns
}

/// Three columns a factor: default, override, and the one of the two in use.
fn load_factors(graph: &mut Graph, job: &Job) {
    let mut rules = graph.rules::<Factors>();
    for factor in Factor::ALL.iter().copied() {
        let (unit, source) = (factor.unit(job.system()), factor.source());
        let [default, own] = factor.names_of_both();
        let usual = vec![factor.default(job.system())];
        let default = rules.brought(default, unit, source, usual);
        let own = rules.measured(own, unit, vec![job.factor(factor).value]);
        rules.step(factor.name(), unit, source, own.or(default));
    }
}

/// Loads one table after the other: first those with one row, which rows of the others
/// may follow.
struct Loader<'j> {
    graph: &'j mut Graph,
    job: &'j Job,
    upright: bool,
    figures: Figures,
}

impl EachTable for Loader<'_> {
    fn table<T: Fields>(&mut self) {
        if T::TABLE.upright != self.upright {
            return;
        }
        let followed = self.followed::<T>();
        let columns = load_table::<T>(self.graph, self.job);
        for (row, field, source) in followed {
            self.graph.follow(columns[field].at(row), source);
        }
    }
}

impl Loader<'_> {
    /// The cells of a table that follow the quick page: row, field and what they follow.
    fn followed<T: Fields>(&mut self) -> Vec<(usize, usize, Cell)> {
        let data = self.job.table::<T>();
        let mut all = Vec::new();
        for (row, follows) in data.follows.iter().enumerate() {
            for (field, follows) in follows {
                let unit = data.unit(*field);
                let source = self.figures.followed(self.graph, *follows, unit);
                all.push((row, *field, source));
            }
        }
        all
    }
}

/// Puts the factors and every table of a job into a graph.
pub fn load(graph: &mut Graph, job: &Job) {
    load_factors(graph, job);
    let mut loader = Loader {
        graph: &mut *graph,
        job,
        upright: true,
        figures: Figures::default(),
    };
    each_table(&mut loader);
    loader.upright = false;
    each_table(&mut loader);
    quick::beside(graph, job.quick_beside());
}
