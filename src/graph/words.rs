//! The third reading: a rule in words.
//!
//! [`of`] names things and places, never values, so that the words in a workbook stay
//! true when a cell is edited. [`filled`] puts one row's numbers in; only `explain`
//! and messages use it.

mod facts;

pub use facts::{facts, looked_up, looked_up_in_vain};

use super::expr::{Comparison, Condition, Expr, Fold, Function, Op};
use super::{Cell, ColumnId, Graph, Kind, Results};
use crate::money;
use crate::units::{DATE, MONEY, MONEY_H, ONE, Ratio, Unit};

/// An expression in words, without values.
#[must_use]
pub fn of(graph: &Graph, expr: &Expr) -> String {
    Speaker {
        graph,
        row: None,
        currency: MONEY.symbol(),
    }
    .expr(expr, false)
}

/// What a computed column says, without values; empty for inputs.
#[must_use]
pub fn of_column(graph: &Graph, column: ColumnId) -> String {
    let speaker = Speaker {
        graph,
        row: None,
        currency: MONEY.symbol(),
    };
    match &graph.column(column).kind {
        Kind::Step(expr) => speaker.expr(expr, false),
        Kind::Limit(condition, _) => speaker.condition(condition),
        Kind::Lookup { parent, .. } => format!("which {} is named", graph.table(*parent).row),
        _ => String::new(),
    }
}

/// An expression in words, with the numbers of one row; money has the sign of its currency.
#[must_use]
pub fn filled(graph: &Graph, results: &Results, expr: &Expr, row: usize, currency: &str) -> String {
    Speaker {
        graph,
        row: Some((results, row)),
        currency,
    }
    .expr(expr, false)
}

/// A number with its unit, at the decimals that suit the unit.
#[must_use]
pub fn quantity(value: f64, unit: Unit) -> String {
    if unit == DATE {
        return day(value);
    }
    let number = money::show(value, decimals(unit));
    if unit == ONE || unit.symbol().is_empty() {
        number
    } else {
        format!("{number} {unit}")
    }
}

/// The same, where money has the sign of its currency.
#[must_use]
pub fn quantity_in(value: f64, unit: Unit, currency: &str) -> String {
    let hourly = if unit == MONEY_H { "/h" } else { "" };
    if unit == MONEY || unit == MONEY_H {
        format!("{} {currency}{hourly}", money::show(value, decimals(unit)))
    } else {
        quantity(value, unit)
    }
}

/// A day by its serial number in the 1900 system, as year-month-day.
#[must_use]
pub fn day(serial: f64) -> String {
    const FROM_1900_TO_1970: f64 = 25_569.0;
    let since_1970 = serial.floor() - FROM_1900_TO_1970;
    if !(0.0..3_000_000.0).contains(&serial) {
        return money::show(serial, 0);
    }
    // Years begin in March here, so that a leap day is the last of its year; 719,468 days
    // lie between the first of March of the year 0 and 1970.
    #[allow(
        clippy::cast_possible_truncation,
        reason = "its range was checked above"
    )]
    let days = since_1970 as i64 + 719_468;
    let era = days.div_euclid(146_097);
    let of_era = days.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let month_from_march = (5 * of_year + 2) / 153;
    let of_month = of_year - (153 * month_from_march + 2) / 5 + 1;
    let month = if month_from_march < 10 {
        month_from_march + 3
    } else {
        month_from_march - 9
    };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    format!("{year:04}-{month:02}-{of_month:02}")
}

/// How many decimals suit a unit.
#[must_use]
pub fn decimals(unit: Unit) -> usize {
    match unit.symbol() {
        "in" | "mm" | "gal" | "L" | "lb" | "lb/ft3" | "kg/m3" | "min" | "s" | "gpm" | "L/min"
        | "%" | "ft2" | "m2" | "yd3" | "yd3 bank" | "yd3 loose" | "yd3 compacted" | "ton" => 1,
        "ea" | "load" => 0,
        "" | "H:V" | "loose per bank" | "compacted per bank" => 3,
        _ => 2,
    }
}

/// How numbers are gathered, where `sum` is what their sum is called.
fn gathered(fold: Fold, sum: &'static str) -> &'static str {
    match fold {
        Fold::Lowest => "the smallest",
        Fold::Highest => "the largest",
        Fold::Sum => sum,
    }
}

struct Speaker<'g> {
    graph: &'g Graph,
    row: Option<(&'g Results, usize)>,
    /// The sign of the job's money.
    currency: &'g str,
}

impl Speaker<'_> {
    fn named(&self, column: ColumnId, row: Option<usize>) -> String {
        let info = self.graph.column(column);
        match (self.row, row) {
            (Some((results, _)), Some(row)) if !info.is_text() => {
                let cell = Cell { column, row };
                let value = results.measured(cell).map_or("blank".to_owned(), |value| {
                    quantity_in(value, info.unit, self.currency)
                });
                format!("{} {value}", info.name)
            }
            _ => info.name.clone(),
        }
    }

    fn here(&self, column: ColumnId) -> String {
        self.named(column, self.row.map(|(_, row)| row))
    }

    /// The only row of a table, or the first of several.
    fn first(&self, column: ColumnId) -> String {
        let table = self.graph.table(self.graph.column(column).table);
        let named = self.named(column, Some(0));
        if table.rows > 1 {
            format!("the first {}'s {named}", table.row)
        } else {
            named
        }
    }

    fn number(&self, value: f64, unit: Unit) -> String {
        if self.row.is_some() {
            format!(" {}", quantity_in(value, unit, self.currency))
        } else {
            String::new()
        }
    }

    fn linked(&self, link: ColumnId, column: ColumnId) -> String {
        let info = self.graph.column(column);
        let row = self
            .row
            .and_then(|(results, row)| results.linked_row(link, row));
        format!(
            "{}'s {}",
            self.graph.table(info.table).row,
            self.named(column, row)
        )
    }

    /// `inside` is whether the expression stands in a product, where a sum needs brackets.
    fn expr(&self, expr: &Expr, inside: bool) -> String {
        match expr {
            Expr::Literal(number) => format!("{number}"),
            Expr::Pi => "π".to_owned(),
            Expr::OneOf(unit) => format!("1 {unit}"),
            Expr::NumberIn(inner, _) | Expr::CountedIn(inner, _) => self.expr(inner, inside),
            Expr::Here(column) => self.here(*column),
            Expr::Only(column) => self.first(*column),
            Expr::OrElse(column, otherwise) => self.or_else(*column, otherwise),
            Expr::Linked(link, column) => self.linked(*link, *column),
            Expr::Naming { fold, column, .. } => {
                let info = self.graph.column(*column);
                format!(
                    "{} {} over its {} rows",
                    gathered(*fold, "sum of"),
                    info.name,
                    self.graph.table(info.table).row
                )
            }
            Expr::All(fold, column) => self.all(*fold, *column),
            Expr::Binary(op, left, right) => self.binary(*op, left, right, inside),
            Expr::Call(function, arguments) => self.call(*function, arguments),
            Expr::When(condition, yes, no) => {
                let words = format!(
                    "{} where {}, otherwise {}",
                    self.expr(yes, false),
                    self.condition(condition),
                    self.expr(no, false)
                );
                format!("({words})")
            }
            Expr::Convert(inner, ratio) => self.converted(inner, *ratio),
            elsewhere => self.elsewhere(elsewhere),
        }
    }

    /// What is gathered of a whole column.
    fn all(&self, fold: Fold, column: ColumnId) -> String {
        let info = self.graph.column(column);
        let number = self.row.and_then(|(results, _)| {
            let numbers = results.numbers(column).iter().copied();
            fold.of(numbers.filter(|number| !number.is_nan()))
        });
        format!(
            "{} {}{} of all {} rows",
            gathered(fold, "total"),
            info.name,
            self.number(number.unwrap_or(0.0), info.unit),
            self.graph.table(info.table).row
        )
    }

    /// What is read in other rows of the same table.
    fn elsewhere(&self, expr: &Expr) -> String {
        match expr {
            Expr::RowAbove { column, first, .. } => format!(
                "{} of the row above (at the start, {})",
                self.graph.column(*column).name,
                self.expr(first, false)
            ),
            Expr::RowBelow { column, last, .. } => format!(
                "{} of the row below (at the end, {})",
                self.graph.column(*column).name,
                self.expr(last, false)
            ),
            Expr::FirstOf { column, .. } => format!(
                "{} of the first row of its group",
                self.graph.column(*column).name
            ),
            Expr::NamedAbove { column, link, none } => format!(
                "{} of the row above that its {} is (where there is none, {})",
                self.graph.column(*column).name,
                self.graph.column(*link).name,
                self.expr(none, false)
            ),
            Expr::NamingBelow {
                fold,
                column,
                link,
                none,
            } => format!(
                "{} {} of the rows below whose {} is this row (where there is none, {})",
                gathered(*fold, "the sum of"),
                self.graph.column(*column).name,
                self.graph.column(*link).name,
                self.expr(none, false)
            ),
            _ => String::new(),
        }
    }

    fn or_else(&self, column: ColumnId, otherwise: &Expr) -> String {
        match self.row {
            Some((results, row)) if results.measured(Cell { column, row }).is_some() => {
                self.here(column)
            }
            Some(_) => self.expr(otherwise, true),
            None => format!(
                "{} (where blank, {})",
                self.graph.column(column).name,
                self.expr(otherwise, false)
            ),
        }
    }

    fn converted(&self, inner: &Expr, ratio: Ratio) -> String {
        let (over, under) = ratio.whole_numbers().unwrap_or((1.0, 1.0));
        let mut words = self.expr(inner, true);
        if ratio.numerator != 1 {
            words = format!("{words} × {over}");
        }
        if ratio.denominator != 1 {
            words = format!("{words} ÷ {under}");
        }
        words
    }

    fn binary(&self, op: Op, left: &Expr, right: &Expr, inside: bool) -> String {
        let (sign, sum) = match op {
            Op::Add => ("+", true),
            Op::Subtract => ("−", true),
            Op::Multiply => ("×", false),
            Op::Divide => ("÷", false),
        };
        let right_inside = matches!(op, Op::Subtract | Op::Multiply | Op::Divide);
        let right_words = match right {
            Expr::Binary(..) if op == Op::Divide => format!("({})", self.expr(right, false)),
            _ => self.expr(right, right_inside),
        };
        let words = format!("{} {sign} {right_words}", self.expr(left, !sum));
        if sum && inside {
            format!("({words})")
        } else {
            words
        }
    }

    fn call(&self, function: Function, arguments: &[Expr]) -> String {
        let list: Vec<String> = arguments
            .iter()
            .map(|argument| self.expr(argument, false))
            .collect();
        match function {
            Function::Lowest => format!("the smaller of ({})", list.join(") and (")),
            Function::Highest => format!("the larger of ({})", list.join(") and (")),
            Function::Round(places) => format!("({}, to {places} decimals)", list.concat()),
            Function::RoundUp => format!("({}, up to a whole number)", list.concat()),
            Function::RoundDown => format!("({}, down to a whole number)", list.concat()),
            Function::Root => format!("the square root of ({})", list.concat()),
            Function::TwoThirds => format!("({}) to the power of two thirds", list.concat()),
            Function::Power => format!("({})", list.join(") to the power of (")),
            Function::Doublings => format!("how often ({}) doubles from one", list.concat()),
        }
    }

    fn condition(&self, condition: &Condition) -> String {
        match condition {
            Condition::Compare(comparison, left, right) => {
                let words = match comparison {
                    Comparison::Below => "is less than",
                    Comparison::Above => "is more than",
                    Comparison::AtLeast => "is at least",
                    Comparison::Same => "is",
                    Comparison::Different => "is not",
                };
                format!(
                    "{} {words} {}",
                    self.expr(left, false),
                    self.expr(right, false)
                )
            }
            Condition::Blank(column) => format!("{} is blank", self.graph.column(*column).name),
            Condition::Is(column, words) => {
                format!("{} is \"{words}\"", self.graph.column(*column).name)
            }
            Condition::All(parts) => self.several(parts, " and "),
            Condition::Any(parts) => self.several(parts, " or "),
            Condition::Not(inner) => match inner.as_ref() {
                Condition::Blank(column) => {
                    format!("{} is filled in", self.graph.column(*column).name)
                }
                other => format!("it is not so that {}", self.condition(other)),
            },
        }
    }

    fn several(&self, parts: &[Condition], joint: &str) -> String {
        parts
            .iter()
            .map(|part| self.condition(part))
            .collect::<Vec<_>>()
            .join(joint)
    }
}
