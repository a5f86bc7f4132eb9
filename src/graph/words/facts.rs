//! The numbers that a broken limit turns on, for a message.
//!
//! Where it stops: it tells what was compared, not how; the limit has words of its own.

use super::Speaker;
use crate::graph::expr::{Comparison, Condition, Expr};
use crate::graph::{Cell, ColumnId, Graph, Kind, Results};
use crate::money;
use crate::units::{MONEY, MONEY_H, ONE};

/// The numbers of one row that a broken limit turns on, such as `floor width -8.00 ft`.
///
/// Left out is what says nothing to a person: that something is there at all, blanks,
/// flags and the rows that were looked up. Empty where nothing is left.
#[must_use]
pub fn facts(graph: &Graph, results: &Results, condition: &Condition, row: usize) -> String {
    let speaker = Speaker {
        graph,
        row: Some((results, row)),
    };
    let (mut compared, mut filled) = (Vec::new(), Vec::new());
    speaker.facts(condition, false, &mut compared, &mut filled);
    let mut facts = if compared.is_empty() {
        filled
    } else {
        compared
    };
    let mut seen = Vec::new();
    facts.retain(|fact| {
        let new = !seen.contains(fact);
        seen.push(fact.clone());
        new
    });
    facts.join(", ")
}

impl Speaker<'_> {
    /// Collects what [`facts`] tells: numbers compared, and measures that are filled in.
    fn facts(
        &self,
        condition: &Condition,
        negated: bool,
        compared: &mut Vec<String>,
        filled: &mut Vec<String>,
    ) {
        match condition {
            Condition::All(parts) => {
                for part in parts {
                    self.facts(part, negated, compared, filled);
                }
            }
            Condition::Any(parts) => {
                for part in parts.iter().filter(|part| self.may_hold(part)) {
                    self.facts(part, negated, compared, filled);
                }
            }
            Condition::Not(inner) => match inner.as_ref() {
                Condition::Blank(column) => {
                    filled.extend(self.row.and_then(|(_, row)| self.fact(*column, row)));
                }
                other => self.facts(other, !negated, compared, filled),
            },
            Condition::Compare(comparison, left, right) => {
                let flag = match (comparison, left, right) {
                    (Comparison::Above, _, Expr::Literal(_)) => !negated,
                    (Comparison::Below, _, Expr::Literal(_)) => negated,
                    (Comparison::Same | Comparison::Different, left, Expr::Literal(_)) => {
                        matches!(left, Expr::Here(_) | Expr::Only(_) | Expr::Linked(..))
                    }
                    _ => false,
                };
                if !flag {
                    left.walk(&mut |part| compared.extend(self.fact_of(part)));
                    right.walk(&mut |part| compared.extend(self.fact_of(part)));
                }
            }
            Condition::Blank(_) | Condition::Is(..) => {}
        }
    }

    /// Whether one of several parts may be the reason: a plain comparison is looked at.
    fn may_hold(&self, part: &Condition) -> bool {
        let (
            Condition::Compare(comparison, Expr::Here(column), Expr::Literal(limit)),
            Some((results, row)),
        ) = (part, self.row)
        else {
            return true;
        };
        let value = results.number(column.at(row));
        match comparison {
            Comparison::Below => value < *limit,
            Comparison::Above => value > *limit,
            Comparison::AtLeast => value >= *limit,
            Comparison::Same | Comparison::Different => true,
        }
    }

    fn fact_of(&self, part: &Expr) -> Option<String> {
        let (results, row) = self.row?;
        match part {
            Expr::Here(column) | Expr::Given(column, _) => self.fact(*column, row),
            Expr::Only(column) => self.fact(*column, 0),
            Expr::Linked(link, column) => {
                let there = results.linked_row(*link, row)?;
                self.fact(*column, there)
                    .map(|_| self.linked(*link, *column))
                    .filter(|_| there < self.graph.rows(*column))
            }
            _ => None,
        }
    }

    /// A number by its name; none for blanks, zeros, words and looked-up rows.
    fn fact(&self, column: ColumnId, row: usize) -> Option<String> {
        let (results, _) = self.row?;
        let info = self.graph.column(column);
        if info.is_text()
            || matches!(info.kind, Kind::Lookup { .. })
            || row >= self.graph.rows(column)
        {
            return None;
        }
        let value = results.measured(Cell { column, row })?;
        // The sign of the job's money is not known here.
        (value != 0.0).then(|| match info.unit {
            MONEY | MONEY_H => format!("{} {}", info.name, money::show(value, 2)),
            ONE => format!("{} {}", info.name, money::trimmed(value)),
            _ => self.named(column, Some(row)),
        })
    }
}
