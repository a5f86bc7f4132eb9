//! How rules add columns: one function a kind of column.

use std::marker::PhantomData;
use std::sync::Arc;

use super::expr::{self, Expr};
use super::key::Key;

use super::reads::{Looks, Own, Reads};
use super::{
    Cell, Column, ColumnId, ColumnInfo, Condition, Graph, Kind, Link, Piece, Solve, Table, TableId,
    Term, Text, TextExpr,
};
use crate::diagnostic::{Code, Meaning, Severity};
use crate::sources::{self, Source};
use crate::units::{ONE, Unit};

/// What it means when a limit is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Breach {
    /// Whether it blocks the bid, leaves it a draft, or is a caution.
    pub severity: Severity,
    /// The kind of finding.
    pub code: Code,
    /// The measured column that a person would change.
    pub at: ColumnId,
    /// What is wrong, without values.
    pub message: &'static str,
    /// What to do next.
    pub hint: &'static str,
    /// What it means to those who tell of it.
    pub meaning: Meaning,
}

impl Breach {
    const fn of(
        severity: Severity,
        code: Code,
        at: ColumnId,
        (message, hint): (&'static str, &'static str),
    ) -> Self {
        Self {
            severity,
            code,
            at,
            message,
            hint,
            meaning: Meaning::Plain,
        }
    }

    /// The same breach with a meaning beyond its code.
    #[must_use]
    pub const fn meaning(self, meaning: Meaning) -> Self {
        Self { meaning, ..self }
    }

    /// A breach that blocks the bid.
    #[must_use]
    pub const fn fault(
        code: Code,
        at: ColumnId,
        message: &'static str,
        hint: &'static str,
    ) -> Self {
        Self::of(Severity::Error, code, at, (message, hint))
    }

    /// A breach that leaves the bid a draft.
    #[must_use]
    pub const fn open(code: Code, at: ColumnId, message: &'static str, hint: &'static str) -> Self {
        Self::of(Severity::Open, code, at, (message, hint))
    }
}

/// An expression as a rule says it.
type Says = expr::Expr<expr::Said>;

/// The table `T` of a graph, open for new columns.
#[derive(Debug)]
pub struct Rules<'g, T> {
    graph: &'g mut Graph,
    table: TableId,
    rows: PhantomData<fn() -> T>,
}

impl<'g, T: Table> Rules<'g, T> {
    pub(super) fn new(graph: &'g mut Graph, table: TableId) -> Self {
        Self {
            graph,
            table,
            rows: PhantomData,
        }
    }

    fn add(
        &mut self,
        name: &str,
        unit: Unit,
        kind: Kind,
        source: Option<&'static Source>,
    ) -> ColumnId {
        self.graph.push(ColumnInfo {
            table: self.table,
            name: name.to_owned(),
            unit,
            kind,
            source,
        })
    }

    fn fault(&mut self, name: &str, what: &str) {
        self.graph.rule_fault(T::NAME, name, what);
    }

    /// A measured column: one number a row, NaN where blank.
    pub fn measured(&mut self, name: &str, unit: Unit, values: Vec<f64>) -> Column<T> {
        Column::new(self.add(name, unit, Kind::Measured(values), None))
    }

    /// A column that the program brings along, such as defaults.
    pub fn brought(
        &mut self,
        name: &str,
        unit: Unit,
        source: &'static Source,
        values: Vec<f64>,
    ) -> Column<T> {
        Column::new(self.add(name, unit, Kind::Brought(values), Some(source)))
    }

    /// What a pure function makes of whole columns.
    pub fn solved(
        &mut self,
        name: &str,
        unit: Unit,
        source: &'static Source,
        solve: Solve,
    ) -> Column<T> {
        Column::new(self.add(name, unit, Kind::Solved(solve), Some(source)))
    }

    /// A column of words the user wrote; `watched` where an edit needs a new run.
    pub fn words(&mut self, name: &str, watched: bool, values: Vec<Arc<str>>) -> Text<T> {
        self.said(name, watched, None, values)
    }

    /// A column of words that the user chose from a list; otherwise as [`Rules::words`].
    pub fn chosen(
        &mut self,
        name: &str,
        watched: bool,
        choices: &'static [&'static str],
        values: Vec<Arc<str>>,
    ) -> Text<T> {
        self.said(name, watched, Some(choices), values)
    }

    fn said(
        &mut self,
        name: &str,
        watched: bool,
        choices: Option<&'static [&'static str]>,
        values: Vec<Arc<str>>,
    ) -> Text<T> {
        let kind = Kind::Words {
            values,
            watched,
            choices,
        };
        Text::new(self.add(name, ONE, kind, None))
    }

    /// Says which column names a row. Rows that have been looked up before by their names
    /// are a rule fault: the look-up would find none of them.
    pub fn labelled_by(&mut self, label: Text<T>) {
        let table = self.table;
        let looked_up =
            self.graph.columns.iter().any(
                |column| matches!(column.kind, Kind::Lookup { parent, .. } if parent == table),
            );
        if looked_up {
            self.fault("names", "a look-up was made before the names of the rows");
        }
        self.graph.tables[table.0].label = Some(label.id);
    }

    /// A step: one quantity or price, by one rule.
    pub fn step(
        &mut self,
        name: &str,
        unit: Unit,
        source: &'static Source,
        term: impl Into<Term<T>>,
    ) -> Column<T> {
        let expr = self.in_unit(name, term.into(), unit);
        Column::new(self.add(name, unit, Kind::Step(expr), Some(source)))
    }

    /// A step by plane or solid geometry alone.
    pub fn geometry(&mut self, name: &str, unit: Unit, term: impl Into<Term<T>>) -> Column<T> {
        self.step(name, unit, &sources::GEOMETRY, term)
    }

    /// A step by plain arithmetic alone.
    pub fn arithmetic(&mut self, name: &str, unit: Unit, term: impl Into<Term<T>>) -> Column<T> {
        self.step(name, unit, &sources::ARITHMETIC, term)
    }

    /// A step that reads itself in rows that are worked out before.
    pub fn running(
        &mut self,
        name: &str,
        unit: Unit,
        source: &'static Source,
        rule: impl FnOnce(Own<T>) -> Term<T>,
    ) -> Column<T> {
        self.step(name, unit, source, rule(Own::new()))
    }

    /// The expression of a term, checked. A column that reads itself from above and from
    /// below has no row that could be worked out first.
    fn in_unit(&mut self, name: &str, term: Term<T>, unit: Unit) -> Expr {
        let (mut above, mut below) = (false, false);
        term.expr.walk(&mut |part| match part {
            Says::RowAbove {
                column: Key::Own, ..
            }
            | Says::NamedAbove {
                column: Key::Own, ..
            } => above = true,
            Says::RowBelow {
                column: Key::Own, ..
            }
            | Says::NamingBelow {
                column: Key::Own, ..
            } => below = true,
            _ => {}
        });
        if above && below {
            self.fault(name, "it reads itself from above and from below");
            return Expr::Literal(0.0);
        }
        self.graph.make_all(|each| term.expr.each_column(each));
        match self.graph.in_unit(term.expr, unit) {
            Ok(expr) => expr,
            Err(what) => {
                self.fault(name, &what);
                Expr::Literal(0.0)
            }
        }
    }

    /// A limit: broken where the condition holds.
    pub fn limit(&mut self, name: &str, broken: Condition, breach: Breach) -> Column<T> {
        self.graph.make_all(|each| broken.each_column(each));
        let condition = match self.graph.checked(broken) {
            Ok(condition) => condition,
            Err(what) => {
                self.fault(name, &what);
                expr::Condition::Any(Vec::new())
            }
        };
        Column::new(self.add(name, ONE, Kind::Limit(condition, breach), None))
    }

    /// A look-up of each row's words among the names of the table `P`.
    pub fn link<P: Table>(&mut self, name: &str, key: Text<T>) -> Link<T, P> {
        let parent = self.graph.add_table::<P>(0);
        Link::new(self.add(
            name,
            ONE,
            Kind::Lookup {
                key: key.id,
                parent,
            },
            None,
        ))
    }

    /// Limit: words that name a row of another table name one that is there.
    pub fn must_find<P>(&mut self, key: Text<T>, link: Link<T, P>) {
        let name = format!("{} that is not there", self.graph.column(key.id).name);
        let broken = key.filled().and(link.found_none());
        let breach = Breach::fault(
            Code::UnknownReference,
            key.id,
            "this names a row that is not there",
            "write the name of a row that is there, or add it to its table",
        );
        self.limit(&name, broken, breach);
    }

    /// One cell a row, from other columns; all must be in the unit given.
    pub fn gathered(&mut self, name: &str, unit: Unit, cells: Vec<Option<Cell>>) -> Column<T> {
        Column::new(self.add(name, unit, Kind::Gathered(cells), None))
    }

    /// Words by rule.
    pub fn word_step(&mut self, name: &str, text: impl Into<TextExpr>) -> Text<T> {
        let text = text.into();
        self.graph.make_all(|each| text.each_column(each));
        let text = match self.graph.wording(text) {
            Ok(text) => text,
            Err(what) => {
                self.fault(name, &what);
                expr::TextExpr::Fixed(String::new())
            }
        };
        Text::new(self.add(name, ONE, Kind::WordStep(text), None))
    }

    /// Words joined, row by row, from fixed pieces and other cells.
    pub fn gathered_words(&mut self, name: &str, rows: Vec<Vec<Piece>>) -> Text<T> {
        Text::new(self.add(name, ONE, Kind::GatheredWords(rows), None))
    }
}
