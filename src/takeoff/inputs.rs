//! The job's tables as columns of the graph.
//!
//! Always true: every input column of every table is in the graph, in the order of the
//! tables, so that a rule can refer to any of them and the workbook can show them all.

use std::marker::PhantomData;
use std::sync::Arc;

use crate::graph::{Column, ColumnId, Graph, Table, Text};
use crate::job::Job;
use crate::job::columns::{Fields, Holds};
use crate::job::tables::{
    Basins, Crews, Equipment, JobKeys, MarkUps, Materials, OtherItems, ProductionRates,
    SetQuantities, Shelves,
};
use crate::parameters::{Factor, Factors};

/// The columns of one input table, found by their fields.
#[derive(Debug)]
pub struct Inputs<T> {
    /// One column for each of the table's fields, in their order.
    pub columns: Vec<ColumnId>,
    table: PhantomData<fn() -> T>,
}

impl<T: Fields> Inputs<T> {
    /// Puts one table into the graph: numbers with their units, words, and the row's name.
    fn load(graph: &mut Graph, job: &Job) -> Self {
        let data = job.table::<T>();
        graph.add_table::<T>(data.rows);
        let mut rules = graph.rules::<T>();
        let mut columns = Vec::new();
        for (position, column) in T::TABLE.columns.iter().enumerate() {
            let id = match column.holds {
                Holds::Number(..) | Holds::Date => {
                    rules
                        .measured(
                            column.heading,
                            data.unit(position),
                            data.numbers(position).to_vec(),
                        )
                        .id
                }
                holds => {
                    let watched = column.is_structural();
                    let words = rules.words(column.heading, watched, data.words(position).to_vec());
                    // Shelves have no names of their own: what they are called tells them apart.
                    if holds == Holds::Name || column.heading == "Shelf" {
                        rules.labelled_by(words);
                    }
                    words.id
                }
            };
            columns.push(id);
        }
        Self {
            columns,
            table: PhantomData,
        }
    }

    /// The column of a field, whatever it holds.
    #[must_use]
    pub fn id(&self, field: T) -> ColumnId {
        self.columns[field.index()]
    }

    /// A column of numbers.
    #[must_use]
    pub fn number(&self, field: T) -> Column<T> {
        Column::new(self.columns[field.index()])
    }

    /// A column of words.
    #[must_use]
    pub fn words(&self, field: T) -> Text<T> {
        Text::new(self.columns[field.index()])
    }
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
        graph.add_table::<Factors>(1);
        let mut rules = graph.rules::<Factors>();
        let rows = Factor::ALL.iter().map(|factor| {
            let (name, unit) = (factor.name(), factor.unit(job.system()));
            let default = rules.given(
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
    /// The job as a whole.
    pub job: Inputs<JobKeys>,
    /// Basins.
    pub basins: Inputs<Basins>,
    /// Shelves.
    pub shelves: Inputs<Shelves>,
    /// Other items.
    pub items: Inputs<OtherItems>,
    /// Materials.
    pub materials: Inputs<Materials>,
    /// Crews.
    pub crews: Inputs<Crews>,
    /// Equipment.
    pub equipment: Inputs<Equipment>,
    /// Production rates.
    pub works: Inputs<ProductionRates>,
    /// Mark-ups.
    pub mark_ups: Inputs<MarkUps>,
    /// Quantities set by hand.
    pub set: Inputs<SetQuantities>,
    /// Factors.
    pub factors: FactorColumns,
}

impl AllInputs {
    /// Puts every table of a job into a graph.
    pub fn load(graph: &mut Graph, job: &Job) -> Self {
        Self {
            job: Inputs::load(graph, job),
            basins: Inputs::load(graph, job),
            shelves: Inputs::load(graph, job),
            items: Inputs::load(graph, job),
            materials: Inputs::load(graph, job),
            crews: Inputs::load(graph, job),
            equipment: Inputs::load(graph, job),
            works: Inputs::load(graph, job),
            mark_ups: Inputs::load(graph, job),
            set: Inputs::load(graph, job),
            factors: FactorColumns::load(graph, job),
        }
    }

    /// The columns of an input table by its name, in the order of its fields.
    #[must_use]
    pub fn by_name(&self, table: &str) -> &[ColumnId] {
        match table {
            JobKeys::NAME => &self.job.columns,
            Basins::NAME => &self.basins.columns,
            Shelves::NAME => &self.shelves.columns,
            OtherItems::NAME => &self.items.columns,
            Materials::NAME => &self.materials.columns,
            Crews::NAME => &self.crews.columns,
            Equipment::NAME => &self.equipment.columns,
            ProductionRates::NAME => &self.works.columns,
            MarkUps::NAME => &self.mark_ups.columns,
            SetQuantities::NAME => &self.set.columns,
            _ => &[],
        }
    }
}

/// Words that the program brings along, one a row.
pub(super) fn fixed_words<T: Table>(graph: &mut Graph, name: &str, words: &[&str]) -> Text<T> {
    graph.add_table::<T>(words.len());
    let mut rules = graph.rules::<T>();
    let label = rules.words(
        name,
        false,
        words.iter().map(|word| Arc::from(*word)).collect(),
    );
    rules.labelled_by(label);
    label
}
