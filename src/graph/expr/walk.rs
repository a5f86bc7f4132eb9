//! Walks through expressions, conditions and words: every part, and every column that is read.

use super::{Condition, Expr, Stage, TextExpr};

impl<S: Stage> Expr<S> {
    /// Calls `visit` with this expression and every one inside it, conditions included.
    pub fn walk<'e>(&'e self, visit: &mut dyn FnMut(&'e Expr<S>)) {
        visit(self);
        match self {
            Expr::OrElse(_, inner)
            | Expr::RowAbove { first: inner, .. }
            | Expr::RowBelow { last: inner, .. }
            | Expr::NamedAbove { none: inner, .. }
            | Expr::NamingBelow { none: inner, .. }
            | Expr::Convert(inner, _)
            | Expr::NumberIn(inner, _)
            | Expr::CountedIn(inner, _) => {
                inner.walk(visit);
            }
            Expr::Binary(_, left, right) => {
                left.walk(visit);
                right.walk(visit);
            }
            Expr::Call(_, arguments) => arguments.iter().for_each(|argument| argument.walk(visit)),
            Expr::When(condition, yes, no) => {
                condition.walk(visit);
                yes.walk(visit);
                no.walk(visit);
            }
            _ => {}
        }
    }

    /// Calls `each` with every column the expression reads.
    pub fn each_column(&self, each: &mut dyn FnMut(&S::Column)) {
        self.walk(&mut |part| match part {
            Expr::Here(column)
            | Expr::Only(column)
            | Expr::All(_, column)
            | Expr::OrElse(column, _) => each(column),
            Expr::Linked(link, column)
            | Expr::FirstOf {
                column,
                group: link,
            }
            | Expr::NamedAbove { column, link, .. }
            | Expr::NamingBelow { column, link, .. }
            | Expr::Naming { column, link, .. } => {
                each(link);
                each(column);
            }
            Expr::RowAbove { column, group, .. } | Expr::RowBelow { column, group, .. } => {
                each(column);
                if let Some(group) = group {
                    each(group);
                }
            }
            Expr::When(condition, ..) => condition.each_tested(each),
            _ => {}
        });
    }
}

impl<S: Stage> Expr<S> {
    /// Calls `each` with every column that is read in the row itself.
    pub(in crate::graph) fn each_here(&self, each: &mut dyn FnMut(&S::Column)) {
        self.walk(&mut |part| match part {
            Expr::Here(column) | Expr::OrElse(column, _) | Expr::Linked(column, _) => each(column),
            Expr::When(condition, ..) => condition.each_tested(each),
            _ => {}
        });
    }
}

impl<S: Stage> Condition<S> {
    /// Calls `each` with every column that is read in the row itself.
    pub(in crate::graph) fn each_here(&self, each: &mut dyn FnMut(&S::Column)) {
        self.each_tested(each);
        self.walk(&mut |part| match part {
            Expr::Here(column) | Expr::OrElse(column, _) | Expr::Linked(column, _) => each(column),
            Expr::When(condition, ..) => condition.each_tested(each),
            _ => {}
        });
    }

    /// Calls `visit` with every expression that the condition compares.
    pub fn walk<'e>(&'e self, visit: &mut dyn FnMut(&'e Expr<S>)) {
        match self {
            Condition::Compare(_, left, right) => {
                left.walk(visit);
                right.walk(visit);
            }
            Condition::Blank(_) | Condition::Is(..) => {}
            Condition::All(parts) | Condition::Any(parts) => {
                for part in parts {
                    part.walk(visit);
                }
            }
            Condition::Not(inner) => inner.walk(visit),
        }
    }

    /// Calls `each` with every column the condition reads.
    pub fn each_column(&self, each: &mut dyn FnMut(&S::Column)) {
        self.each_tested(each);
        match self {
            Condition::Compare(_, left, right) => {
                left.each_column(each);
                right.each_column(each);
            }
            Condition::All(parts) | Condition::Any(parts) => {
                for part in parts {
                    part.each_column(each);
                }
            }
            Condition::Not(inner) => inner.each_column(each),
            Condition::Blank(_) | Condition::Is(..) => {}
        }
    }

    /// The columns looked at as they are: for blanks and for words.
    pub(in crate::graph) fn each_tested(&self, each: &mut dyn FnMut(&S::Column)) {
        match self {
            Condition::Blank(column) | Condition::Is(column, _) => each(column),
            Condition::All(parts) | Condition::Any(parts) => {
                for part in parts {
                    part.each_tested(each);
                }
            }
            Condition::Not(inner) => inner.each_tested(each),
            Condition::Compare(..) => {}
        }
    }
}

impl<S: Stage> TextExpr<S> {
    /// Calls `visit` with every expression that decides between texts.
    pub fn walk<'e>(&'e self, visit: &mut dyn FnMut(&'e Expr<S>)) {
        if let TextExpr::When(condition, yes, no) = self {
            condition.walk(visit);
            yes.walk(visit);
            no.walk(visit);
        }
    }

    /// Calls `each` with every column that is read in the row itself.
    pub(in crate::graph) fn each_here(&self, each: &mut dyn FnMut(&S::Column)) {
        match self {
            TextExpr::Fixed(_) | TextExpr::Only(_) => {}
            TextExpr::Here(column) | TextExpr::Linked(column, _) => each(column),
            TextExpr::When(condition, yes, no) => {
                condition.each_here(each);
                yes.each_here(each);
                no.each_here(each);
            }
        }
    }

    /// Calls `each` with every column the words are made from.
    pub fn each_column(&self, each: &mut dyn FnMut(&S::Column)) {
        match self {
            TextExpr::Fixed(_) => {}
            TextExpr::Here(column) | TextExpr::Only(column) => each(column),
            TextExpr::Linked(link, column) => {
                each(link);
                each(column);
            }
            TextExpr::When(condition, yes, no) => {
                condition.each_column(each);
                yes.each_column(each);
                no.each_column(each);
            }
        }
    }
}
