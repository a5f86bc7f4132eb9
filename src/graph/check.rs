//! The unit check: every expression has one unit, and every change of unit is explicit.
//!
//! Called once a column, when its rule is added. Sums and comparisons convert the
//! right side to the left side's unit; products multiply units; the whole is then
//! converted once to the column's own unit, so that the conversion is one factor.

use super::expr::{self, Expr, Function, Op, Said};
use super::key::Key;
use super::{ColumnId, ColumnInfo, Condition, Graph, Kind, TableId, TextExpr, words};
use crate::units::{ONE, Ratio, Unit};

/// An expression as a rule says it.
type Says = expr::Expr<Said>;
type Checked = Result<(Expr, Unit), String>;

/// Makes of what a rule says what the graph holds: columns that are there, in units of the
/// job. `own` is the unit of the column that is being made, which stands next in the graph.
struct Check<'g> {
    graph: &'g Graph,
    own: Option<Unit>,
}

impl Graph {
    /// The expression with its conversions, in the unit wanted.
    pub(super) fn in_unit(&self, expr: Says, wanted: Unit) -> Result<Expr, String> {
        let own = Some(wanted);
        Check { graph: self, own }.in_unit(expr, wanted)
    }

    /// The condition with its conversions.
    pub(super) fn checked(&self, condition: Condition) -> Result<expr::Condition, String> {
        let own = None;
        Check { graph: self, own }.checked(condition)
    }

    /// The words with the conversions of what decides between them.
    pub(super) fn wording(&self, text: TextExpr) -> Result<expr::TextExpr, String> {
        let own = None;
        Check { graph: self, own }.wording(text)
    }
}

impl Graph {
    /// A table that a rule reads as if its rows were the rule's own: conditions and words are
    /// not typed by table. Two tables of one row each may.
    pub(super) fn of_another_table(&self, column: &ColumnInfo) -> Option<&'static str> {
        let mut other = None;
        let rows = |table: TableId| self.table(table).rows;
        let mut look = |read: &ColumnId| {
            let table = self
                .columns
                .get(read.0)
                .map_or(column.table, |read| read.table);
            if table != column.table && (rows(table), rows(column.table)) != (1, 1) {
                other = Some(self.table(table).name);
            }
        };
        match &column.kind {
            Kind::Step(expr) => expr.each_here(&mut look),
            Kind::Limit(condition, _) => condition.each_here(&mut look),
            Kind::WordStep(text) => text.each_here(&mut look),
            _ => {}
        }
        other
    }
}

impl Check<'_> {
    /// The column that a key names.
    fn found(&self, key: &Key) -> Result<ColumnId, String> {
        match key {
            Key::There(id) => Ok(*id),
            Key::Own => Err("it reads itself in its own row".to_owned()),
            key => self
                .graph
                .known(key)
                .ok_or_else(|| format!("it reads {key:?}, which is not there")),
        }
    }

    /// The column that a key names, read in another row: it may be the one being made, which
    /// is the next one.
    fn found_elsewhere(&self, key: &Key) -> Result<ColumnId, String> {
        match key {
            Key::Own if self.own.is_some() => Ok(ColumnId(self.graph.columns.len())),
            key => self.found(key),
        }
    }

    fn unit_of(&self, column: ColumnId) -> Unit {
        match self.graph.columns.get(column.0) {
            Some(known) => known.unit,
            None => self.own.unwrap_or(ONE),
        }
    }

    /// The expression in the unit wanted. A geometric volume may be named bank, loose or
    /// compacted here, and only here.
    fn in_unit(&self, expr: Says, wanted: Unit) -> Result<Expr, String> {
        let (expr, unit) = self.with_unit(expr)?;
        let target = if wanted.names_state_of(unit) {
            wanted.without_state()
        } else {
            wanted
        };
        self.converted(expr, unit, target)
    }

    fn boxed(&self, expr: Says, wanted: Unit) -> Result<Box<Expr>, String> {
        self.in_unit(expr, wanted).map(Box::new)
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
                words::of(self.graph, &expr),
                from.dimension(),
                to.dimension()
            )),
        }
    }

    fn with_unit(&self, expr: Says) -> Checked {
        Ok(match expr {
            Says::Literal(number) => (Expr::Literal(number), ONE),
            Says::Pi => (Expr::Pi, ONE),
            Says::OneOf(unit) => {
                let unit = unit.of(self.graph.system);
                (Expr::OneOf(unit), unit)
            }
            Says::CountedIn(inner, unit) => {
                let unit = unit.of(self.graph.system);
                (Expr::CountedIn(self.boxed(*inner, ONE)?, unit), unit)
            }
            Says::NumberIn(inner, unit) => {
                let unit = unit.of(self.graph.system);
                (Expr::NumberIn(self.boxed(*inner, unit)?, unit), ONE)
            }
            Says::Binary(op, left, right) => return self.binary(op, *left, *right),
            Says::Call(function, arguments) => return self.call(function, arguments),
            Says::When(condition, yes, no) => {
                let condition = Box::new(self.checked(*condition)?);
                let ([yes, no], unit) = self.alike([*yes, *no])?;
                (Expr::When(condition, Box::new(yes), Box::new(no)), unit)
            }
            Says::Convert(..) => return Err("a rule may not convert by itself".to_owned()),
            read => return self.read(read),
        })
    }

    /// A column that a key names, read in its own row, with its unit.
    fn column(&self, key: &Key) -> Result<(ColumnId, Unit), String> {
        let id = self.found(key)?;
        Ok((id, self.unit_of(id)))
    }

    /// A column that a key names, read in any row, with its unit.
    fn anywhere(&self, key: &Key) -> Result<(ColumnId, Unit), String> {
        if *key == Key::Own {
            return Err("it reads itself in rows that may not be worked out yet".to_owned());
        }
        self.column(key)
    }

    /// A column that a key names, read in another row, with its unit.
    fn elsewhere(&self, key: &Key) -> Result<(ColumnId, Unit), String> {
        let id = self.found_elsewhere(key)?;
        Ok((id, self.unit_of(id)))
    }

    /// An expression that reads a column: it has that column's unit.
    fn read(&self, expr: Says) -> Checked {
        Ok(match expr {
            Says::Here(key) => {
                let (id, unit) = self.column(&key)?;
                (Expr::Here(id), unit)
            }
            Says::Only(key) => {
                let (id, unit) = self.anywhere(&key)?;
                (Expr::Only(id), unit)
            }
            Says::All(fold, key) => {
                let (id, unit) = self.anywhere(&key)?;
                (Expr::All(fold, id), unit)
            }
            Says::Linked(link, key) => {
                let (id, unit) = self.anywhere(&key)?;
                (Expr::Linked(self.found(&link)?, id), unit)
            }
            Says::Naming { fold, column, link } => {
                let ((column, unit), link) = (self.anywhere(&column)?, self.found(&link)?);
                (Expr::Naming { fold, column, link }, unit)
            }
            Says::FirstOf { column, group } => {
                let ((column, unit), group) = (self.anywhere(&column)?, self.found(&group)?);
                (Expr::FirstOf { column, group }, unit)
            }
            Says::OrElse(key, otherwise) => {
                let (id, unit) = self.column(&key)?;
                (Expr::OrElse(id, self.boxed(*otherwise, unit)?), unit)
            }
            other => return self.read_elsewhere(other),
        })
    }

    /// An expression that reads a column in other rows of its table.
    fn read_elsewhere(&self, expr: Says) -> Checked {
        Ok(match expr {
            Says::RowAbove {
                column,
                group,
                first,
            } => {
                let (column, unit) = self.elsewhere(&column)?;
                let group = group.map(|group| self.found(&group)).transpose()?;
                let first = self.boxed(*first, unit)?;
                let above = Expr::RowAbove {
                    column,
                    group,
                    first,
                };
                (above, unit)
            }
            Says::RowBelow {
                column,
                group,
                last,
            } => {
                let (column, unit) = self.elsewhere(&column)?;
                let group = group.map(|group| self.found(&group)).transpose()?;
                let last = self.boxed(*last, unit)?;
                let below = Expr::RowBelow {
                    column,
                    group,
                    last,
                };
                (below, unit)
            }
            Says::NamedAbove { column, link, none } => {
                let ((column, unit), link) = (self.elsewhere(&column)?, self.found(&link)?);
                let none = self.boxed(*none, unit)?;
                (Expr::NamedAbove { column, link, none }, unit)
            }
            Says::NamingBelow {
                fold,
                column,
                link,
                none,
            } => {
                let ((column, unit), link) = (self.elsewhere(&column)?, self.found(&link)?);
                let none = self.boxed(*none, unit)?;
                let below = Expr::NamingBelow {
                    fold,
                    column,
                    link,
                    none,
                };
                (below, unit)
            }
            _ => return Err("an expression that reads nothing".to_owned()),
        })
    }

    fn binary(&self, op: Op, left: Says, right: Says) -> Checked {
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

    fn call(&self, function: Function, arguments: Vec<Says>) -> Checked {
        match function {
            Function::Lowest | Function::Highest => {
                let Ok(pair) = <[Says; 2]>::try_from(arguments) else {
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
    fn alike(&self, [left, right]: [Says; 2]) -> Result<([Expr; 2], Unit), String> {
        let zero = matches!(left, Says::Literal(0.0));
        let (left, left_unit) = self.with_unit(left)?;
        let (right, right_unit) = self.with_unit(right)?;
        if zero {
            return Ok(([left, right], right_unit));
        }
        let right = self.converted(right, right_unit, left_unit)?;
        Ok(([left, right], left_unit))
    }

    fn checked(&self, condition: Condition) -> Result<expr::Condition, String> {
        Ok(match condition {
            Condition::Compare(comparison, left, right) => {
                let ([left, right], _) = self.alike([left, right])?;
                expr::Condition::Compare(comparison, left, right)
            }
            Condition::All(parts) => expr::Condition::All(self.all_checked(parts)?),
            Condition::Any(parts) => expr::Condition::Any(self.all_checked(parts)?),
            Condition::Not(inner) => expr::Condition::Not(Box::new(self.checked(*inner)?)),
            Condition::Blank(key) => expr::Condition::Blank(self.found(&key)?),
            Condition::Is(key, words) => {
                let column = self.found(&key)?;
                self.graph.may_say(column, &words)?;
                expr::Condition::Is(column, words)
            }
        })
    }

    fn all_checked(&self, parts: Vec<Condition>) -> Result<Vec<expr::Condition>, String> {
        parts.into_iter().map(|part| self.checked(part)).collect()
    }

    fn wording(&self, text: TextExpr) -> Result<expr::TextExpr, String> {
        Ok(match text {
            TextExpr::Fixed(words) => expr::TextExpr::Fixed(words),
            TextExpr::Here(key) => expr::TextExpr::Here(self.found(&key)?),
            TextExpr::Only(key) => expr::TextExpr::Only(self.found(&key)?),
            TextExpr::Linked(link, key) => {
                expr::TextExpr::Linked(self.found(&link)?, self.found(&key)?)
            }
            TextExpr::When(condition, yes, no) => {
                let condition = Box::new(self.checked(*condition)?);
                let (yes, no) = (self.wording(*yes)?, self.wording(*no)?);
                expr::TextExpr::When(condition, Box::new(yes), Box::new(no))
            }
        })
    }
}
