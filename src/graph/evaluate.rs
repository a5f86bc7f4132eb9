//! The first reading: what every column comes to.
//!
//! Columns are worked out in their order; each operation is done in the same order as
//! in the formula, so that the two agree to the last few bits.
//!
//! Always true: nothing panics; a number that cannot be worked out (a zero divisor) is
//! not finite, is listed by [`Results::unworkable`], and blocks the bid.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::bound::{Binder, Gathered, Rule, Totals};
use super::expr::{Condition, Expr, Fold};
use super::results::{Results, Values};
use super::{Cell, ColumnId, Graph, Kind, Piece};

/// Works out every column.
#[must_use]
pub fn evaluate(graph: &Graph) -> Results {
    evaluate_where(graph, |_| true)
}

/// Works out some columns and those that they rest on; all others stay empty.
#[must_use]
pub fn evaluate_only(graph: &Graph, wanted: &[ColumnId]) -> Results {
    let mut needed: BTreeSet<ColumnId> = wanted.iter().copied().collect();
    for id in graph.columns().rev() {
        if needed.contains(&id) {
            needed.extend(graph.made_from(id));
        }
    }
    evaluate_where(graph, |id| needed.contains(&id))
}

fn evaluate_where(graph: &Graph, is_wanted: impl Fn(ColumnId) -> bool) -> Results {
    let columns = Vec::new();
    let mut work = Work::new(graph, Results { columns });
    for id in graph.columns() {
        if is_wanted(id) {
            work.column(id);
        } else {
            work.set(id, Values::Numbers(Vec::new()));
        }
    }
    work.results
}

/// Asks conditions about finished results: which branch of a rule was taken.
#[derive(Debug)]
pub struct Answers<'g>(Work<'g>);

impl<'g> Answers<'g> {
    /// Answers from finished results.
    #[must_use]
    pub fn new(graph: &'g Graph, results: &Results) -> Self {
        Self(Work::new(graph, results.clone()))
    }

    /// Whether a condition holds in one row.
    pub fn holds(&mut self, condition: &Condition, row: usize, rows: usize) -> bool {
        condition.walk(&mut |part| self.0.prepare(part, rows));
        self.0.binder(None).test(condition).holds(row, &[])
    }
}

#[derive(Debug)]
pub(super) struct Work<'g> {
    graph: &'g Graph,
    pub(super) results: Results,
    gathered: Gathered,
    totals: Totals,
}

impl<'g> Work<'g> {
    pub(super) fn new(graph: &'g Graph, results: Results) -> Self {
        Self {
            graph,
            results,
            gathered: BTreeMap::new(),
            totals: BTreeMap::new(),
        }
    }
}

impl Work<'_> {
    /// Works a column out: the next one, or again one that is there.
    pub(super) fn column(&mut self, id: ColumnId) {
        let values = match &self.graph.column(id).kind {
            Kind::Solved(solve) => {
                let rows = self.graph.rows(id);
                Values::Numbers(solve.solved(&self.results, rows))
            }
            Kind::Measured(values) | Kind::Brought(values) => {
                Values::Numbers(self.followed(id, values, |source| self.results.number(source)))
            }
            Kind::Words { values, .. } => {
                Values::Words(self.followed(id, values, |source| self.word(source)))
            }
            Kind::Lookup { key, parent } => {
                Values::Numbers(self.look_up(*key, self.graph.table(*parent).label))
            }
            Kind::WordStep(text) => {
                let rows = self.graph.rows(id);
                text.walk(&mut |part| self.prepare(part, rows));
                let words = self.binder(Some(id)).wording(text);
                Values::Words((0..rows).map(|row| words.at(row)).collect())
            }
            Kind::GatheredWords(pieces) => {
                Values::Words(pieces.iter().map(|row| self.joined(row)).collect())
            }
            Kind::Step(_) | Kind::Limit(..) | Kind::Gathered(_) => self.by_rule(id),
        };
        self.set(id, values);
    }

    /// Values as they are, but for the cells that follow others.
    fn followed<V: Clone>(&self, id: ColumnId, values: &[V], at: impl Fn(Cell) -> V) -> Vec<V> {
        let mut values = values.to_vec();
        for (row, source) in self.graph.following(id) {
            if let Some(value) = values.get_mut(row) {
                *value = at(source);
            }
        }
        values
    }

    /// A column of numbers by rule, row by row; a row may read those above it.
    fn by_rule(&mut self, id: ColumnId) -> Values {
        let rows = self.graph.rows(id);
        let up = self.graph.runs_up(id);
        if let Some(rule) = self.rule(id) {
            return Values::Numbers(rule.all(rows, up));
        }
        Values::Numbers(Vec::new())
    }

    /// The rule of a column of numbers, bound to what stands in the other columns now.
    pub(super) fn rule(&mut self, id: ColumnId) -> Option<Rule<'_>> {
        let graph = self.graph;
        let rows = graph.rows(id);
        match &graph.column(id).kind {
            Kind::Step(expr) => {
                expr.walk(&mut |part| self.prepare(part, rows));
                Some(Rule::Step(self.binder(Some(id)).number(expr)))
            }
            Kind::Limit(condition, _) => {
                condition.walk(&mut |part| self.prepare(part, rows));
                Some(Rule::Limit(self.binder(Some(id)).test(condition)))
            }
            Kind::Gathered(cells) => Some(Rule::Gathered(cells, &self.results)),
            _ => None,
        }
    }

    fn binder(&self, own: Option<ColumnId>) -> Binder<'_> {
        Binder {
            graph: self.graph,
            results: &self.results,
            gathered: &self.gathered,
            totals: &self.totals,
            own,
        }
    }

    pub(super) fn set(&mut self, id: ColumnId, values: Values) {
        let values = Arc::new(values);
        match self.results.columns.get_mut(id.0) {
            Some(own) => *own = values,
            None => self.results.columns.push(values),
        }
    }

    /// The first row of each name; what is blank names none.
    fn look_up(&self, key: ColumnId, label: Option<ColumnId>) -> Vec<f64> {
        let mut rows_of: BTreeMap<String, usize> = BTreeMap::new();
        let label = label.map(|label| self.results.columns[label.0].as_ref());
        if let Some(Values::Words(names)) = label {
            let names = names.iter().enumerate().rev();
            for (row, name) in names.filter(|(_, name)| !name.is_empty()) {
                rows_of.insert(name.to_lowercase(), row + 1);
            }
        }
        match self.results.columns[key.0].as_ref() {
            Values::Words(keys) => {
                let row = |key: &Arc<str>| rows_of.get(&key.to_lowercase());
                #[allow(clippy::cast_precision_loss, reason = "a row number is far below 2^53")]
                let number = |key: &Arc<str>| row(key).map_or(0.0, |row| *row as f64);
                keys.iter().map(number).collect()
            }
            Values::Numbers(_) => Vec::new(),
        }
    }

    fn word(&self, cell: Cell) -> Arc<str> {
        match self.results.columns[cell.column.0].as_ref() {
            Values::Words(words) => words.get(cell.row).cloned().unwrap_or_else(|| "".into()),
            Values::Numbers(_) => "".into(),
        }
    }

    fn joined(&self, pieces: &[Piece]) -> Arc<str> {
        match pieces {
            [Piece::Fixed(words)] => words.clone(),
            [Piece::Cell(cell)] => self.word(*cell),
            _ => {
                let parts = pieces.iter().map(|piece| match piece {
                    Piece::Fixed(words) => words.clone(),
                    Piece::Cell(cell) => self.word(*cell),
                });
                parts.collect::<Vec<_>>().concat().into()
            }
        }
    }

    /// What is gathered of other tables is worked out once a column, not once a row.
    fn prepare(&mut self, part: &Expr, rows: usize) {
        match part {
            Expr::Naming { fold, column, link } => {
                let key = (*fold, *column, *link);
                if !self.gathered.contains_key(&key) {
                    self.gathered.insert(key, self.naming(key, rows));
                }
            }
            Expr::All(fold, column) if !self.totals.contains_key(&(*fold, *column)) => {
                let rows = 0..self.graph.rows(*column);
                let filled = rows.filter_map(|row| self.results.measured(column.at(row)));
                let total = fold.of(filled).unwrap_or(0.0);
                self.totals.insert((*fold, *column), total);
            }
            _ => {}
        }
    }

    /// What is gathered for each of the parent's rows.
    fn naming(&self, (fold, column, link): (Fold, ColumnId, ColumnId), rows: usize) -> Vec<f64> {
        let mut gathered = vec![None; rows];
        for row in 0..self.graph.rows(column) {
            let parent = self.results.linked_row(link, row);
            let (Some(so_far), Some(number)) = (
                parent.and_then(|parent| gathered.get_mut(parent)),
                self.results.measured(column.at(row)),
            ) else {
                continue;
            };
            *so_far = fold.of((*so_far).into_iter().chain([number]));
        }
        let gathered = gathered.into_iter();
        gathered.map(|found| found.unwrap_or(0.0)).collect()
    }
}
