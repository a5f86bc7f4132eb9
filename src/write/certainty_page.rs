//! The defaults that move the bid most, below the bid by grade.
//!
//! Always true: these are figures of one run and stand as plain numbers, for a formula
//! cannot try other values; a live cell beside them says whether the bid has changed since.

use super::error::WriteError;
use super::fixed_tables;
use super::painter::{Painter, Value};
use super::sheets::{DATA, FIRST, Fixed};
use super::styles::Role;
use crate::bid;
use crate::graph::reference::{self, quoted};
use crate::tables::Grades;

/// What the live cell says.
const SAME: &str = "is the same now";
const CHANGED: &str = "THE BID HAS CHANGED SINCE: run groundsheet on this file again";
impl Painter<'_> {
    /// The defaults that move the bid most, as of this run.
    pub(super) fn swings(&mut self) -> Result<(), WriteError> {
        let grades = u32::try_from(self.estimate.rows::<Grades>()).unwrap_or(0);
        let title = FIRST + DATA + grades + 3;
        let table = fixed_tables::table(self.estimate, self.layout, self.at, Fixed::Defaults);
        let words = format!("{}, as of the last run", table.form.title);
        self.sheet
            .write_with_format(title, 0, words, &self.styles.block)?;
        let said = "Each with a tenth more (or as much as its limits allow; a tenth less where it cannot be more), all else as it was. Put your own value on the sheet Factors.";
        self.sheet
            .write_with_format(title + 1, 0, said, &self.styles.about)?;
        self.bid_then_and_now(title + 2)?;
        let headings = title + 5;
        fixed_tables::headings((self.sheet, self.styles), headings, table.form, true)?;
        self.rows(headings + 1, &table)?;
        if table.rows.is_empty() {
            let none = "No default moves this bid.";
            self.text(headings + 1, 0, none, Role::Computed)?;
        }
        Ok(())
    }

    /// The bid as of this run, as it is now, and whether the two differ.
    fn bid_then_and_now(&mut self, row: u32) -> Result<(), WriteError> {
        let bid = self.estimate.graph.id(bid::TOTAL).at(0);
        let then = self.estimate.results.number(bid);
        let money = self.styles.money(Role::Computed).clone();
        self.text(row, 0, "The bid at the last run", Role::Computed)?;
        self.sheet.write_number_with_format(row, 1, then, &money)?;
        self.text(row + 1, 0, "The bid now", Role::Computed)?;
        let now = reference::reference(&self.estimate.graph, self.layout, self.at, bid);
        self.formula(row + 1, 1, &now, Value::Number(then), &money)?;
        let differ = format!(
            "IF(ROUND(B{}-B{},2)=0,{},{})",
            row + 1,
            row + 2,
            quoted(SAME),
            quoted(CHANGED)
        );
        let format = self.styles.block.clone().set_font_size(10).set_indent(1);
        self.formula(row, 2, &differ, Value::Words(SAME), &format)
    }
}
