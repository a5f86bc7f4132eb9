//! The numbers that a broken limit turns on, for a message.
//!
//! Where it stops: it tells what was compared, not how; the limit has words of its own.

use super::Speaker;
use crate::graph::expr::{Comparison, Condition, Expr};
use crate::graph::{Cell, ColumnId, Graph, Kind, Results, TableId};
use crate::money;
use crate::units::{DATE, MONEY, MONEY_H, ONE, Unit};

/// The numbers of one row that a broken limit turns on, such as `floor width -8.00 ft`.
///
/// Left out is what says nothing to a person: that something is there at all, blanks,
/// flags and the rows that were looked up. Empty where nothing is left.
#[must_use]
pub fn facts(graph: &Graph, results: &Results, condition: &Condition, row: usize) -> String {
    let speaker = Speaker {
        graph,
        row: Some((results, row)),
        currency: MONEY.symbol(),
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

/// The name that a row looks up in vain, such as `Boulders`: one that stands in by rule,
/// not one that a person wrote.
#[must_use]
pub fn looked_up_in_vain(
    graph: &Graph,
    results: &Results,
    condition: &Condition,
    row: usize,
) -> Option<String> {
    let Condition::All(parts) = condition else {
        return None;
    };
    parts.iter().find_map(|part| {
        let Condition::Compare(Comparison::Same, Expr::Here(link), Expr::Literal(_)) = part else {
            return None;
        };
        let Kind::Lookup { key, .. } = &graph.column(*link).kind else {
            return None;
        };
        let by_rule = matches!(graph.column(*key).kind, Kind::WordStep(_));
        by_rule.then(|| results.words(key.at(row)).to_owned())
    })
}

/// The first row of another table that a broken limit looks at, with that table.
#[must_use]
pub fn looked_up(
    graph: &Graph,
    results: &Results,
    condition: &Condition,
    row: usize,
) -> Option<(TableId, usize)> {
    let mut columns = Vec::new();
    condition.each_column(&mut |column| columns.push(*column));
    columns.into_iter().find_map(|column| {
        let Kind::Lookup { parent, .. } = graph.column(column).kind else {
            return None;
        };
        let there = results.linked_row(column, row)?;
        Some((parent, there))
    })
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
            Expr::Here(column) | Expr::OrElse(column, _) => self.fact(*column, row),
            Expr::Only(column) => self.fact(*column, 0),
            Expr::Linked(link, column) => {
                let there = results.linked_row(*link, row)?;
                let owner = self.graph.table(self.graph.column(*column).table).row;
                self.fact(*column, there)
                    .map(|fact| format!("{owner}'s {fact}"))
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
            unit => format!("{} {}", info.name, told(value, unit)),
        })
    }
}

/// A number with its unit, at so many decimals that it is told from its neighbours: within
/// half a percent, but no more than four of them. A bare number ends with its last digit.
fn told(value: f64, unit: Unit) -> String {
    if unit == DATE {
        return super::quantity(value, unit);
    }
    let near = |places: usize| {
        let shown = money::show(value, places).replace(',', "");
        let shown: f64 = shown.parse().unwrap_or(value);
        (shown - value).abs() <= 0.005 * value.abs()
    };
    let usual = super::decimals(unit);
    let places = (usual..4).find(|places| near(*places)).unwrap_or(4);
    let number = money::show(value, places);
    if unit == ONE {
        let (whole, decimals) = number.split_once('.').unwrap_or((&number, ""));
        let decimals = decimals.trim_end_matches('0');
        let point = if decimals.is_empty() { "" } else { "." };
        return format!("{whole}{point}{decimals}");
    }
    format!("{number} {unit}")
}
