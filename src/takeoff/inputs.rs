//! The job's tables as columns of the graph.
//!
//! Always true: every input column of every table is in the graph, in the order of the
//! tables, so that a rule can refer to any of them and the workbook can show them all.

use super::quick::{self, Figures};
use crate::graph::prelude::*;
use crate::graph::{Cell, Column, ColumnId, Graph, Text};
use crate::job::Job;
use crate::job::columns::{Fields, Holds};
use crate::job::tables::{EachTable, TABLES, each_table};
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

/// The factors: for each its default, its override and the value in use.
#[derive(Debug)]
pub struct FactorColumns {
    /// Default, override and value in use, in the order of [`Factor::ALL`].
    pub rows: Vec<(Column<Factors>, Column<Factors>, Column<Factors>)>,
}

impl FactorColumns {
    /// Three columns a factor: default, override, and the one of the two in use.
    fn load(graph: &mut Graph, job: &Job) -> Self {
        let mut rules = graph.rules::<Factors>();
        let rows = Factor::ALL.iter().map(|factor| {
            let (name, unit) = (factor.name(), factor.unit(job.system()));
            let default = rules.brought(
                &format!("{name}, default"),
                unit,
                factor.source(),
                vec![factor.default(job.system())],
            );
            let own = rules.measured(
                &format!("{name}, override"),
                unit,
                vec![job.factor(*factor).value],
            );
            let in_use = rules.step(name, unit, factor.source(), own.or(default));
            (default, own, in_use)
        });
        Self {
            rows: rows.collect(),
        }
    }

    /// The value in use.
    #[must_use]
    pub fn of(&self, factor: Factor) -> Column<Factors> {
        self.rows[factor as usize].2
    }
}

/// Every input of a job.
#[derive(Debug)]
pub struct AllInputs {
    tables: Vec<Vec<ColumnId>>,
    /// Factors.
    pub factors: FactorColumns,
}

/// Loads one table after the other: first those with one row, which rows of the others
/// may follow.
struct Loader<'j> {
    graph: &'j mut Graph,
    job: &'j Job,
    upright: bool,
    inputs: AllInputs,
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
        let position = TABLES.iter().position(|table| table.name == T::NAME);
        self.inputs.tables[position.unwrap_or(0)] = columns;
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
                let inputs = &self.inputs;
                let source = self.figures.followed(self.graph, inputs, *follows, unit);
                all.push((row, *field, source));
            }
        }
        all
    }
}

impl AllInputs {
    /// Puts every table of a job into a graph.
    pub fn load(graph: &mut Graph, job: &Job) -> Self {
        let inputs = AllInputs {
            tables: vec![Vec::new(); TABLES.len()],
            factors: FactorColumns::load(graph, job),
        };
        let mut loader = Loader {
            graph: &mut *graph,
            job,
            upright: true,
            inputs,
            figures: Figures::default(),
        };
        each_table(&mut loader);
        loader.upright = false;
        each_table(&mut loader);
        let inputs = loader.inputs;
        quick::beside(graph, &inputs, job.quick_beside());
        quick::rods_of_fall(graph, &inputs, job.system());
        inputs
    }

    /// The column of a field, whatever it holds.
    #[must_use]
    pub fn id<T: Fields>(&self, field: T) -> ColumnId {
        self.by_name(T::NAME)[field.index()]
    }

    /// A column of numbers.
    #[must_use]
    pub fn number<T: Fields>(&self, field: T) -> Column<T> {
        Column::new(self.id(field))
    }

    /// A column of words.
    #[must_use]
    pub fn words<T: Fields>(&self, field: T) -> Text<T> {
        Text::new(self.id(field))
    }

    /// The columns of an input table by its name, in the order of its fields.
    #[must_use]
    pub fn by_name(&self, table: &str) -> &[ColumnId] {
        let position = TABLES.iter().position(|known| known.name == table);
        position.map_or(&[], |position| &self.tables[position])
    }
}
