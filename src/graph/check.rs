//! The unit check: every expression has one unit, and every change of unit is explicit.
//!
//! Called once a column, when its rule is added. Sums and comparisons convert the
//! right side to the left side's unit; products multiply units; the whole is then
//! converted once to the column's own unit, so that the conversion is one factor.

use super::expr::{Condition, Expr, Function, Op};
use super::{Graph, words};
use crate::units::{ONE, Ratio, Unit};

type Checked = Result<(Expr, Unit), String>;

impl Graph {
    /// The expression with its conversions, in the unit wanted. A geometric volume may
    /// be named bank, loose or compacted here, and only here.
    pub(super) fn in_unit(&self, expr: Expr, wanted: Unit) -> Result<Expr, String> {
        let (expr, unit) = self.with_unit(expr)?;
        let target = if wanted.names_state_of(unit) {
            wanted.without_state()
        } else {
            wanted
        };
        self.converted(expr, unit, target)
    }

    fn converted(&self, expr: Expr, from: Unit, to: Unit) -> Result<Expr, String> {
        if expr == Expr::Literal(0.0) {
            return Ok(expr);
        }
        match from.to(to) {
            Some(Ratio::ONE) => Ok(expr),
            Some(ratio) if ratio.whole_numbers().is_some() => {
                Ok(Expr::Convert(Box::new(expr), ratio))
            }
            _ => Err(format!(
                "{} is in {:?}, which is not a measure of {:?}",
                words::of(self, &expr),
                from.dimension(),
                to.dimension()
            )),
        }
    }

    fn with_unit(&self, expr: Expr) -> Checked {
        match expr {
            Expr::Literal(_) | Expr::Pi => Ok((expr, ONE)),
            Expr::OneOf(unit) => Ok((expr, unit)),
            Expr::CountedIn(inner, unit) => Ok((
                Expr::CountedIn(Box::new(self.in_unit(*inner, ONE)?), unit),
                unit,
            )),
            Expr::NumberIn(inner, unit) => Ok((
                Expr::NumberIn(Box::new(self.in_unit(*inner, unit)?), unit),
                ONE,
            )),
            Expr::Here(column)
            | Expr::Only(column)
            | Expr::Total(column)
            | Expr::Linked(_, column)
            | Expr::SumOf { child: column, .. } => Ok((expr, self.column(column).unit)),
            Expr::Given(column, otherwise) => {
                let unit = self.column(column).unit;
                Ok((
                    Expr::Given(column, Box::new(self.in_unit(*otherwise, unit)?)),
                    unit,
                ))
            }
            Expr::Above {
                column,
                group,
                first,
            } => {
                let unit = self.column(column).unit;
                Ok((
                    Expr::Above {
                        column,
                        group,
                        first: Box::new(self.in_unit(*first, unit)?),
                    },
                    unit,
                ))
            }
            Expr::Binary(op, left, right) => self.binary(op, *left, *right),
            Expr::Call(function, arguments) => self.call(function, arguments),
            Expr::When(condition, yes, no) => {
                let condition = self.checked(*condition)?;
                let ([yes, no], unit) = self.alike([*yes, *no])?;
                Ok((
                    Expr::When(Box::new(condition), Box::new(yes), Box::new(no)),
                    unit,
                ))
            }
            Expr::Convert(..) => Err("a rule may not convert by itself".to_owned()),
        }
    }

    fn binary(&self, op: Op, left: Expr, right: Expr) -> Checked {
        if matches!(op, Op::Add | Op::Subtract) {
            let ([left, right], unit) = self.alike([left, right])?;
            return Ok((Expr::Binary(op, Box::new(left), Box::new(right)), unit));
        }
        let (left, left_unit) = self.with_unit(left)?;
        let (right, right_unit) = self.with_unit(right)?;
        let unit = if op == Op::Multiply {
            left_unit.times(right_unit)
        } else {
            left_unit.per(right_unit)
        };
        let unit = unit.ok_or_else(|| "a product of units too long to hold exactly".to_owned())?;
        Ok((Expr::Binary(op, Box::new(left), Box::new(right)), unit))
    }

    fn call(&self, function: Function, arguments: Vec<Expr>) -> Checked {
        match function {
            Function::Lowest | Function::Highest => {
                let Ok(pair) = <[Expr; 2]>::try_from(arguments) else {
                    return Err("the smaller or larger of two needs two".to_owned());
                };
                let (pair, unit) = self.alike(pair)?;
                Ok((Expr::Call(function, pair.to_vec()), unit))
            }
            Function::Power => {
                let numbers = arguments.into_iter().map(|inner| {
                    let (inner, unit) = self.with_unit(inner)?;
                    self.converted(inner, unit, ONE)
                });
                let numbers = numbers.collect::<Result<Vec<Expr>, String>>()?;
                Ok((Expr::Call(function, numbers), ONE))
            }
            Function::Round(_)
            | Function::RoundUp
            | Function::RoundDown
            | Function::Root
            | Function::TwoThirds
            | Function::Doublings => {
                let inner = arguments
                    .into_iter()
                    .next()
                    .ok_or("a function of nothing")?;
                let (inner, unit) = self.with_unit(inner)?;
                Ok((Expr::Call(function, vec![inner]), unit))
            }
        }
    }

    /// Two expressions in one unit: that of the first which is not a bare zero.
    fn alike(&self, [left, right]: [Expr; 2]) -> Result<([Expr; 2], Unit), String> {
        let zero = left == Expr::Literal(0.0);
        let (left, left_unit) = self.with_unit(left)?;
        let (right, right_unit) = self.with_unit(right)?;
        if zero {
            return Ok(([left, right], right_unit));
        }
        let right = self.converted(right, right_unit, left_unit)?;
        Ok(([left, right], left_unit))
    }

    /// The condition with its conversions.
    pub(super) fn checked(&self, condition: Condition) -> Result<Condition, String> {
        Ok(match condition {
            Condition::Compare(comparison, left, right) => {
                let ([left, right], _) = self.alike([left, right])?;
                Condition::Compare(comparison, left, right)
            }
            Condition::All(parts) => Condition::All(self.all_checked(parts)?),
            Condition::Any(parts) => Condition::Any(self.all_checked(parts)?),
            Condition::Not(inner) => Condition::Not(Box::new(self.checked(*inner)?)),
            plain @ (Condition::Blank(_) | Condition::Is(..)) => plain,
        })
    }

    fn all_checked(&self, parts: Vec<Condition>) -> Result<Vec<Condition>, String> {
        parts.into_iter().map(|part| self.checked(part)).collect()
    }
}
