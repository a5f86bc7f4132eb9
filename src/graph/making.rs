//! Columns that rules make when they are first read.
//!
//! Always true: each rule makes its column once; a rule that is read while it is being made
//! is a circle, which is a rule fault that tells its path.

use std::any::Any;
use std::collections::BTreeMap;
use std::fmt;
use std::panic::Location;
use std::sync::Arc;

use super::key::Key;
use super::rule::Rule;
use super::{ColumnId, Graph, Table};
use crate::sources;
use crate::units::ONE;

/// What is being made, and what was.
#[derive(Clone, Default)]
pub(super) struct Making {
    /// The rules that are being made, each read by the one before it.
    path: Vec<(&'static str, &'static str)>,
    /// Where the rule of each column made is written.
    written: BTreeMap<ColumnId, &'static Location<'static>>,
    /// What the rows of tables are made from, by the name of the table.
    rosters: BTreeMap<&'static str, Arc<dyn Any + Send + Sync>>,
}

impl fmt::Debug for Making {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_struct("Making")
            .field("path", &self.path)
            .field("columns", &self.written.len())
            .finish_non_exhaustive()
    }
}

impl Graph {
    /// The column of a rule, which is made where it is not there yet.
    pub fn make(&mut self, rule: &dyn Rule) -> ColumnId {
        let (table, name) = (rule.table(), rule.name());
        if let Some(id) = self.find(table, name) {
            self.same_rule(id, rule);
            return id;
        }
        if let Some(first) = self
            .making
            .path
            .iter()
            .position(|known| *known == (table, name))
        {
            let own = (table, name);
            let circle = self.making.path[first..].iter().chain([&own]);
            let names: Vec<String> = circle
                .map(|(table, name)| format!("{table}, {name}"))
                .collect();
            let what = format!("it reads itself: {}", names.join(" → "));
            self.rule_fault(table, name, &what);
            return self.nothing();
        }
        self.making.path.push((table, name));
        let id = rule.add(self);
        self.making.path.pop();
        self.making.written.insert(id, rule.written());
        id
    }

    /// Makes the columns of every rule of a list, in its order.
    pub fn make_list(&mut self, rules: &[&dyn Rule]) {
        for rule in rules {
            self.make(*rule);
        }
    }

    /// The column of a rule that has been made.
    #[must_use]
    pub fn made(&self, rule: &dyn Rule) -> Option<ColumnId> {
        self.find(rule.table(), rule.name())
    }

    /// Where the rule of a column is written, for a column that a rule made.
    #[must_use]
    pub fn written_at(&self, column: ColumnId) -> Option<&'static Location<'static>> {
        self.making.written.get(&column).copied()
    }

    /// Two rules of one name in a table are a rule fault.
    fn same_rule(&mut self, id: ColumnId, rule: &dyn Rule) {
        let Some(known) = self.making.written.get(&id) else {
            return;
        };
        if *known != rule.written() {
            let what = format!("two rules have this name: {known} and {}", rule.written());
            self.rule_fault(rule.table(), rule.name(), &what);
        }
    }

    /// Makes every column that a rule reads, so that it can be checked.
    pub(super) fn make_all(&mut self, read: impl FnOnce(&mut dyn FnMut(&Key))) {
        let mut keys = Vec::new();
        read(&mut |key| keys.push(key.clone()));
        for key in keys {
            if let Key::By(rule) = key {
                self.make(&*rule);
            }
        }
    }

    /// The column that a key names, where it is there.
    pub(super) fn known(&self, key: &Key) -> Option<ColumnId> {
        match key {
            Key::There(id) => Some(*id),
            Key::Called(table, name) => self.find(table, name),
            Key::By(rule) => self.made(&**rule),
            Key::Own => None,
        }
    }

    /// The column that a key names, made where a rule makes it. One that is not there is a
    /// rule fault.
    pub(super) fn reached(&mut self, key: &Key) -> ColumnId {
        if let Key::By(rule) = key {
            return self.make(&**rule);
        }
        self.known(key).unwrap_or_else(|| {
            self.rule_faults.push(format!("{key:?} is not there"));
            self.nothing()
        })
    }

    /// A column without rows that stands in where a rule is at fault.
    fn nothing(&mut self) -> ColumnId {
        let name = "nothing";
        self.find(Nothing::NAME, name).unwrap_or_else(|| {
            let mut rules = self.rules::<Nothing>();
            rules.given(name, ONE, &sources::ARITHMETIC, Vec::new()).id
        })
    }

    /// What the rows of a table were made from, if they have been.
    pub(super) fn roster<T: Table, R: Send + Sync + 'static>(&self) -> Option<Arc<Vec<R>>> {
        let kept = self.making.rosters.get(T::NAME)?;
        Arc::clone(kept).downcast::<Vec<R>>().ok()
    }

    /// Keeps what the rows of a table are made from: it has as many rows.
    pub(super) fn keep_roster<T: Table, R: Send + Sync + 'static>(&mut self, rows: Arc<Vec<R>>) {
        let table = self.add_table::<T>(0);
        self.tables[table.0].rows = rows.len();
        self.making.rosters.insert(T::NAME, rows);
    }
}

/// The table of the column that stands in for rules at fault.
#[derive(Debug)]
enum Nothing {}

impl Table for Nothing {
    const NAME: &'static str = "Rule faults";
    const ROW: &'static str = "rule fault";
}
