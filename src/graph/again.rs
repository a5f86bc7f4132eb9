//! Evaluates again after a change of a few input cells, and only what the change reaches.
//!
//! Always true: what comes out is, to the last bit, what a whole evaluation of the changed
//! graph gives, solved columns and words included. A cell is worked out again only where
//! something that it reads has changed, so that asking what a default does to a long bid
//! costs little.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::evaluate::Work;
use super::expr::{Condition, Expr};
use super::results::{Results, Values};
use super::{Cell, ColumnId, Graph, Kind};

/// What stands in an input cell instead.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Another number; NaN is blank.
    Number(f64),
    /// Other words; empty is blank.
    Words(Arc<str>),
}

impl From<f64> for Change {
    fn from(number: f64) -> Self {
        Change::Number(number)
    }
}

impl From<&str> for Change {
    fn from(words: &str) -> Self {
        Change::Words(words.into())
    }
}

/// Evaluates again with something else in some input cells, from finished results.
///
/// Only what the user wrote and what the program brings along can be changed. A cell that
/// followed another is no longer one that does, as when a person types over it.
#[must_use]
pub fn evaluate_with(graph: &Graph, results: &Results, changes: &[(Cell, Change)]) -> Results {
    Again::new(graph, results).with(changes)
}

/// Evaluates one graph again and again, each time from the same finished results.
#[derive(Debug)]
pub struct Again<'g> {
    graph: &'g Graph,
    results: &'g Results,
    /// The columns that read each column; only those that somebody asks for.
    readers: Vec<Vec<ColumnId>>,
}

impl<'g> Again<'g> {
    /// Every column is evaluated again that a change reaches.
    #[must_use]
    pub fn new(graph: &'g Graph, results: &'g Results) -> Self {
        Self::toward(graph, results, &graph.columns().collect::<Vec<_>>())
    }

    /// Only what the given columns rest on is evaluated again; others keep their values.
    #[must_use]
    pub fn toward(graph: &'g Graph, results: &'g Results, wanted: &[ColumnId]) -> Self {
        let mut asked = vec![false; graph.columns.len()];
        for id in wanted {
            asked[id.0] = true;
        }
        let mut readers = vec![Vec::new(); asked.len()];
        // A column reads only those before it, so that one way back finds all that is asked.
        for at in (0..asked.len()).rev() {
            if asked[at] {
                for source in graph.made_from(ColumnId(at)) {
                    asked[source.0] = true;
                    readers[source.0].push(ColumnId(at));
                }
            }
        }
        Self {
            graph,
            results,
            readers,
        }
    }

    /// The results with something else in some input cells.
    #[must_use]
    pub fn with(&self, changes: &[(Cell, Change)]) -> Results {
        let mut pass = Pass {
            graph: self.graph,
            before: self.results,
            readers: &self.readers,
            work: Work::new(self.graph, self.results.clone()),
            changed: vec![None; self.readers.len()],
            typed: changes.iter().map(|(cell, _)| *cell).collect(),
            pending: vec![false; self.readers.len()],
        };
        for (cell, change) in changes {
            pass.change(*cell, change);
        }
        for at in 0..self.readers.len() {
            if pass.pending[at] {
                pass.column(ColumnId(at));
            }
        }
        pass.work.results
    }
}

/// Which rows of a column differ from what they were; `None` where none does.
type Rows = Option<Vec<bool>>;

/// One evaluation after a change.
struct Pass<'g> {
    graph: &'g Graph,
    before: &'g Results,
    readers: &'g [Vec<ColumnId>],
    work: Work<'g>,
    changed: Vec<Rows>,
    /// The cells in which something else was put.
    typed: BTreeSet<Cell>,
    /// Columns that read something changed.
    pending: Vec<bool>,
}

impl Pass<'_> {
    /// Puts something else in an input cell.
    fn change(&mut self, Cell { column, row }: Cell, change: &Change) {
        let input = matches!(
            self.graph.column(column).kind,
            Kind::Measured(_) | Kind::Brought(_) | Kind::Words { .. }
        );
        if !input {
            return;
        }
        self.put(column, row, change);
        self.compare(column);
    }

    fn put(&mut self, column: ColumnId, row: usize, change: &Change) {
        match (
            Arc::make_mut(&mut self.work.results.columns[column.0]),
            change,
        ) {
            (Values::Numbers(numbers), Change::Number(number)) => {
                if let Some(own) = numbers.get_mut(row) {
                    *own = *number;
                }
            }
            (Values::Words(all), Change::Words(words)) => {
                if let Some(own) = all.get_mut(row) {
                    *own = Arc::clone(words);
                }
            }
            _ => {}
        }
    }

    /// Takes over what the cells of an input column follow.
    fn follow(&mut self, id: ColumnId) {
        for (row, source) in self.graph.following(id) {
            if self.typed.contains(&id.at(row)) {
                continue;
            }
            let results = &self.work.results;
            let change = match results.columns[id.0].as_ref() {
                Values::Numbers(_) => Change::Number(results.number(source)),
                Values::Words(_) => Change::Words(results.words(source).into()),
            };
            self.put(id, row, &change);
        }
        self.compare(id);
    }

    /// Notes which rows of a column differ from what they were, and who reads them.
    fn compare(&mut self, id: ColumnId) {
        let (old, new) = (&self.before.columns[id.0], &self.work.results.columns[id.0]);
        let differ: Vec<bool> = match (old.as_ref(), new.as_ref()) {
            (Values::Numbers(old), Values::Numbers(new)) => {
                let pairs = old.iter().zip(new);
                pairs.map(|(a, b)| a.to_bits() != b.to_bits()).collect()
            }
            (Values::Words(old), Values::Words(new)) => {
                old.iter().zip(new).map(|(a, b)| a != b).collect()
            }
            _ => vec![true; self.graph.rows(id)],
        };
        if differ.contains(&true) {
            self.changed[id.0] = Some(differ);
            for reader in &self.readers[id.0] {
                self.pending[reader.0] = true;
            }
        }
    }

    /// Evaluates a column again that reads something changed.
    fn column(&mut self, id: ColumnId) {
        let graph = self.graph;
        let mut touched = Touched::new(self, id);
        match &graph.column(id).kind {
            Kind::Step(expr) => expr.walk(&mut |part| touched.by(part)),
            Kind::Limit(condition, _) => touched.by_condition(condition),
            Kind::Gathered(cells) => touched.by_cells(cells),
            Kind::Measured(_) | Kind::Brought(_) | Kind::Words { .. } => return self.follow(id),
            Kind::Solved(_) | Kind::Lookup { .. } | Kind::WordStep(_) | Kind::GatheredWords(_) => {
                self.work.column(id);
                return self.compare(id);
            }
        }
        let (rows, runs) = (touched.rows, touched.runs);
        if rows.contains(&true) {
            self.refill(id, &rows, runs);
            self.compare(id);
        }
    }

    /// Works the given rows of a column out again, from the top down; where the rule reads
    /// its own row above, those below a changed row too.
    fn refill(&mut self, id: ColumnId, rows: &[bool], runs: Runs) {
        let mut numbers = self.work.results.numbers(id).to_vec();
        let up = self.graph.runs_up(id);
        let Some(rule) = self.work.rule(id) else {
            return;
        };
        if runs == Runs::Anywhere {
            let numbers = rule.all(rows.len(), up);
            return self.work.set(id, Values::Numbers(numbers));
        }
        let mut above_changed = false;
        for (row, touched) in rows.iter().enumerate() {
            let reads_changed = *touched || (runs == Runs::Down && above_changed);
            above_changed = false;
            if !reads_changed {
                continue;
            }
            let number = rule.at(row, &numbers);
            if let Some(own) = numbers.get_mut(row) {
                above_changed = own.to_bits() != number.to_bits();
                *own = number;
            }
        }
        self.work.set(id, Values::Numbers(numbers));
    }
}

/// Finds the rows of a column that read something changed.
struct Touched<'p, 'g> {
    pass: &'p Pass<'g>,
    own: ColumnId,
    rows: Vec<bool>,
    runs: Runs,
}

/// How a rule reads its own column.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Runs {
    /// It does not.
    Not,
    /// In the row above.
    Down,
    /// In rows further up or down, so that any row may reach any other.
    Anywhere,
}

impl<'p, 'g> Touched<'p, 'g> {
    fn new(pass: &'p Pass<'g>, own: ColumnId) -> Self {
        Self {
            pass,
            own,
            rows: vec![false; pass.graph.rows(own)],
            runs: Runs::Not,
        }
    }

    fn changed(&self, column: ColumnId) -> Option<&'p Vec<bool>> {
        self.pass.changed[column.0].as_ref()
    }

    fn all_if(&mut self, column: ColumnId) {
        if self.changed(column).is_some() {
            self.rows.fill(true);
        }
    }

    /// The same rows as those of a column of the same table, or each `below` rows further down.
    fn same_rows(&mut self, column: ColumnId, below: usize) {
        if let Some(changed) = self.changed(column) {
            for (row, changed) in self.rows.iter_mut().skip(below).zip(changed) {
                *row |= changed;
            }
        }
    }

    fn by(&mut self, part: &Expr) {
        match part {
            Expr::Here(column) | Expr::OrElse(column, _) => self.same_rows(*column, 0),
            Expr::Only(column) | Expr::All(_, column) => self.all_if(*column),
            Expr::Linked(link, column) => self.by_link(*link, *column),
            Expr::Naming {
                column, link: by, ..
            }
            | Expr::FirstOf { column, group: by } => {
                self.all_if(*column);
                self.all_if(*by);
            }
            Expr::NamedAbove { column, link, .. } | Expr::NamingBelow { column, link, .. } => {
                if *column == self.own {
                    self.runs = Runs::Anywhere;
                }
                self.all_if(*column);
                self.all_if(*link);
            }
            Expr::RowAbove { column, group, .. } => {
                if *column == self.own && self.runs == Runs::Not {
                    self.runs = Runs::Down;
                }
                self.same_rows(*column, 1);
                if let Some(group) = group {
                    self.all_if(*group);
                }
            }
            Expr::RowBelow { column, group, .. } => {
                if *column == self.own {
                    self.runs = Runs::Anywhere;
                }
                self.all_if(*column);
                if let Some(group) = group {
                    self.all_if(*group);
                }
            }
            Expr::When(condition, ..) => {
                condition.each_tested(&mut |column| self.same_rows(*column, 0));
            }
            Expr::Literal(_)
            | Expr::Pi
            | Expr::OneOf(_)
            | Expr::Binary(..)
            | Expr::Call(..)
            | Expr::Convert(..)
            | Expr::NumberIn(..)
            | Expr::CountedIn(..) => {}
        }
    }

    fn by_condition(&mut self, condition: &Condition) {
        condition.each_tested(&mut |column| self.same_rows(*column, 0));
        condition.walk(&mut |part| self.by(part));
    }

    fn by_link(&mut self, link: ColumnId, column: ColumnId) {
        self.same_rows(link, 0);
        let Some(changed) = self.changed(column) else {
            return;
        };
        let results = &self.pass.work.results;
        for (at, row) in self.rows.iter_mut().enumerate() {
            let found = results.linked_row(link, at);
            *row |= found.is_some_and(|found| changed.get(found) == Some(&true));
        }
    }

    fn by_cells(&mut self, cells: &[Option<Cell>]) {
        for (row, cell) in self.rows.iter_mut().zip(cells) {
            let Some(Cell { column, row: from }) = cell else {
                continue;
            };
            let changed = self.pass.changed[column.0].as_ref();
            *row |= changed.is_some_and(|changed| changed.get(*from) == Some(&true));
        }
    }
}
