//! Formulas that find and read other rows: a row that is named, the rows that name this
//! one, the row above or below, the first row of a group.
//!
//! Always true: a column that reads itself has only rows above this one in its formula, or
//! only rows below.

use std::fmt::Write;

use super::{Strength, Writer};
use crate::graph::ColumnId;
use crate::graph::expr::{Expr, Fold};
use crate::graph::home::Home;
use crate::place::column_letters;

impl Writer<'_> {
    /// The row that words name; what is blank names no row, not even one whose name comes out
    /// empty.
    pub(super) fn look_up(&mut self, key: ColumnId, label: Option<ColumnId>) {
        let Some(label) = label else { return };
        let may_be_empty =
            self.graph.column(label).is_computed() || self.graph.following(label).next().is_some();
        if may_be_empty {
            self.text.push_str("IF(");
            self.here(key);
            self.text.push_str("=\"\",0,");
        }
        self.text.push_str("IFERROR(MATCH(");
        self.here(key);
        self.text.push(',');
        self.range(label);
        self.text.push_str(",0),0)");
        if may_be_empty {
            self.text.push(')');
        }
    }

    /// A row of another table that a look-up found.
    pub(super) fn linked(&mut self, link: ColumnId, column: ColumnId, none: &str, as_words: bool) {
        self.text.push_str("IF(");
        self.here(link);
        let _ = write!(self.text, "=0,{none},INDEX(");
        self.range(column);
        self.text.push(',');
        self.here(link);
        self.text.push_str(if as_words { ")&\"\")" } else { "))" });
    }

    pub(super) fn row_above(&mut self, column: ColumnId, group: Option<ColumnId>, first: &Expr) {
        let home = self.layout.home(column);
        if let Some(group) = group {
            let key = self.layout.home(group);
            self.text.push_str("IF(");
            self.here(group);
            self.text.push('=');
            self.row_at(key, key.row - 1);
            self.text.push(',');
            self.row_at(home, home.row - 1);
            self.text.push(',');
            self.expr(first, Strength::Any);
        } else {
            let _ = write!(self.text, "IF(ROW()={},", u64::from(self.home.row) + 1);
            self.expr(first, Strength::Any);
            self.text.push(',');
            self.row_at(home, home.row - 1);
        }
        self.text.push(')');
    }

    /// What stands below the table is not looked at.
    pub(super) fn row_below(&mut self, column: ColumnId, group: Option<ColumnId>, last: &Expr) {
        let home = self.layout.home(column);
        let end = self.home.row as usize + self.graph.rows(column);
        if let Some(group) = group {
            let key = self.layout.home(group);
            let _ = write!(self.text, "IF(AND(ROW()<{end},");
            self.here(group);
            self.text.push('=');
            self.row_at(key, key.row + 1);
            self.text.push_str("),");
        } else {
            let _ = write!(self.text, "IF(ROW()<{end},");
        }
        self.row_at(home, home.row + 1);
        self.text.push(',');
        self.expr(last, Strength::Any);
        self.text.push(')');
    }

    /// The rows that name this one are those whose look-up is this row's number.
    pub(super) fn naming(&mut self, fold: Fold, column: ColumnId, link: ColumnId) {
        self.text.push_str(gathers(fold));
        self.range(column);
        self.text.push(',');
        self.range(link);
        let _ = write!(self.text, ",ROW()-{})", self.home.row);
    }

    /// The first row of a group is where its look-up is found first.
    pub(super) fn first_of(&mut self, column: ColumnId, group: ColumnId) {
        self.text.push_str("INDEX(");
        self.range(column);
        self.text.push_str(",MATCH(");
        self.here(group);
        self.text.push(',');
        self.range(group);
        self.text.push_str(",0))");
    }

    /// A row above is looked for from the headings down to the row above this one, so that
    /// no row reads itself and the first row has a range too.
    pub(super) fn named_above(&mut self, column: ColumnId, link: ColumnId, none: &Expr) {
        let home = self.layout.home(column);
        self.text.push_str("IF(AND(");
        self.here(link);
        self.text.push_str(">0,");
        self.here(link);
        let _ = write!(self.text, "<ROW()-{}),INDEX(", self.home.row);
        self.sheet_of(home);
        let letters = column_letters(home.column);
        let _ = write!(self.text, "${letters}${}:", home.row);
        self.text.push('$');
        self.row_at(
            Home {
                sheet: self.home.sheet,
                ..home
            },
            home.row - 1,
        );
        self.text.push(',');
        self.here(link);
        self.text.push_str("+1),");
        self.expr(none, Strength::Any);
        self.text.push(')');
    }

    /// Rows below are gathered from the row below this one to the row below the table, so
    /// that no row reads itself and the last row has a range too.
    pub(super) fn naming_below(
        &mut self,
        fold: Fold,
        (column, link): (ColumnId, ColumnId),
        none: &Expr,
    ) {
        self.text.push_str("IF(COUNTIFS(");
        self.rows_below(link);
        let this = format!(",ROW()-{})", self.home.row);
        self.text.push_str(&this);
        self.text.push_str("=0,");
        self.expr(none, Strength::Any);
        self.text.push(',');
        self.text.push_str(gathers(fold));
        self.rows_below(column);
        self.text.push(',');
        self.rows_below(link);
        self.text.push_str(&this);
        self.text.push(')');
    }

    fn rows_below(&mut self, column: ColumnId) {
        let home = self.layout.home(column);
        let rows = u64::try_from(self.graph.rows(column)).unwrap_or(1).max(1);
        let letters = column_letters(home.column);
        self.sheet_of(home);
        self.text.push('$');
        self.row_at(
            Home {
                sheet: self.home.sheet,
                ..home
            },
            home.row + 1,
        );
        let _ = write!(self.text, ":${letters}${}", u64::from(home.row) + rows + 1);
    }
}

/// The function that gathers the rows which meet a condition, open.
fn gathers(fold: Fold) -> &'static str {
    match fold {
        Fold::Lowest => "_xlfn.MINIFS(",
        Fold::Highest => "_xlfn.MAXIFS(",
        Fold::Sum => "SUMIFS(",
    }
}
