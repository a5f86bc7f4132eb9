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

use super::any_rule::{Rule, Title};
use super::reads::Reads;
use super::rule::At;
use super::{ColumnId, ColumnInfo, Graph, Kind, Table, TableId, TableInfo, Text};
use crate::sources;
use crate::units::ONE;

/// The column without rows that stands in for one that is not there: the first of every graph.
const NOTHING: ColumnId = ColumnId(0);

/// Puts the column that stands in for those that are not there into a new graph.
pub(super) fn nothing(graph: &mut Graph) {
    graph.tables.push(TableInfo {
        name: "Rule faults",
        row: "rule fault",
        rows: 0,
        label: None,
    });
    graph.push(ColumnInfo {
        table: TableId(0),
        name: "nothing".to_owned(),
        unit: ONE,
        kind: Kind::Brought(Vec::new()),
        source: Some(&sources::ARITHMETIC),
    });
}

/// What is being made, and what was.
#[derive(Clone, Default)]
pub(super) struct Making {
    /// The rules that are being made, each read by the one before it.
    path: Vec<Title>,
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
        let title = rule.title_in(self);
        if let Some(id) = self.find(title.table, &title.name) {
            self.same_rule(id, &title);
            return id;
        }
        if let Some(first) = self.making.path.iter().position(|known| *known == title) {
            let circle = self.making.path[first..].iter().chain([&title]);
            let names: Vec<String> = circle.map(Title::to_string).collect();
            let what = format!("it reads itself: {}", names.join(" → "));
            self.rule_fault(title.table, &title.name, &what);
            return NOTHING;
        }
        let written = title.written;
        self.making.path.push(title);
        let id = rule.add(self);
        self.making.path.pop();
        self.making.written.insert(id, written);
        id
    }

    /// Makes the columns of every rule of a list that is for this graph, in its order.
    pub fn make_list(&mut self, rules: &[&dyn Rule]) {
        for rule in rules {
            if rule.is_for(self) {
                self.make(*rule);
            }
        }
    }

    /// The same for several lists, in their order.
    pub fn make_lists(&mut self, lists: &[&[&dyn Rule]]) {
        for rules in lists {
            self.make_list(rules);
        }
    }

    /// The column of a rule that has been made.
    #[must_use]
    pub fn made(&self, rule: &dyn Rule) -> Option<ColumnId> {
        let title = rule.title_in(self);
        self.find(title.table, &title.name)
    }

    /// The column of an input or of a rule, which is made where it is not there yet. One
    /// that is not there is a rule fault.
    pub fn read<T>(&mut self, what: impl Reads<T>) -> ColumnId {
        self.reached(&what.key())
    }

    /// The column of an input or of a rule, where it is there.
    #[must_use]
    pub fn if_there<T>(&self, what: impl Reads<T>) -> Option<ColumnId> {
        self.known(&what.key())
    }

    /// The column of an input or of a rule that has been made, for those who read a finished
    /// graph; one without rows where there is none, which is a mistake in the program.
    #[must_use]
    pub fn id<T>(&self, what: impl Reads<T>) -> ColumnId {
        let known = self.if_there(what);
        debug_assert!(known.is_some(), "{:?} is not there", what.key());
        known.unwrap_or(NOTHING)
    }

    /// Where the rule of a column is written, for a column that a rule made.
    #[must_use]
    pub fn written_at(&self, column: ColumnId) -> Option<&'static Location<'static>> {
        self.making.written.get(&column).copied()
    }

    /// Two rules of one name in a table are a rule fault, and so is a rule that is called as an
    /// input is. A rule that is being made may read itself, in a limit of its own.
    fn same_rule(&mut self, id: ColumnId, title: &Title) {
        let what = match self.making.written.get(&id) {
            Some(known) if *known == title.written => return,
            Some(known) => format!("two rules have this name: {known} and {}", title.written),
            None if self.making.path.contains(title) => return,
            None => "a column that no rule makes has this name".to_owned(),
        };
        self.rule_fault(title.table, &title.name, &what);
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

    /// The column that a person would change.
    pub(crate) fn cell_to_change(&mut self, at: At) -> ColumnId {
        self.reached(&Key::Called(at.table, at.column))
    }

    /// The column that a key names, made where a rule makes it. One that is not there is a
    /// rule fault.
    pub(crate) fn reached(&mut self, key: &Key) -> ColumnId {
        if let Key::By(rule) = key {
            return self.make(&**rule);
        }
        self.known(key).unwrap_or_else(|| {
            self.rule_faults.push(format!("{key:?} is not there"));
            NOTHING
        })
    }

    /// Words that the program brings along, one a row: they make the rows of their table.
    pub(crate) fn brought<T: Table>(&mut self, name: &str, words: Vec<Arc<str>>) -> Text<T> {
        let table = self.add_table::<T>(0);
        self.tables[table.0].rows = words.len();
        self.rules::<T>().words(name, false, words)
    }

    /// What the rows of a table were made from, if they have been.
    pub(super) fn roster<T: Table, R: Send + Sync + 'static>(&self) -> Option<Arc<Vec<R>>> {
        let kept = self.making.rosters.get(T::NAME)?;
        Arc::clone(kept).downcast::<Vec<R>>().ok()
    }

    /// Keeps what the rows of a table are made from: it has as many rows. To say them twice, or
    /// when they have been read, is a rule fault.
    pub(super) fn keep_roster<T: Table, R: Send + Sync + 'static>(&mut self, rows: Arc<Vec<R>>) {
        if self.making.rosters.contains_key(T::NAME) {
            self.rule_fault(T::NAME, "rows", "they are decided when they have been read");
        }
        let table = self.add_table::<T>(0);
        self.tables[table.0].rows = rows.len();
        self.making.rosters.insert(T::NAME, rows);
    }
}
