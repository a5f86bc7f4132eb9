//! The defaults that move the bid most, below the bid by grade.
//!
//! Always true: these are figures of one run and stand as plain numbers, for a formula
//! cannot try other values; a live cell beside them says whether the bid has changed since.

use super::blocks::{Painter, Value};
use super::error::WriteError;
use super::heights::SMALL;
use super::sheets::{DATA, FIRST};
use super::styles::Role;
use crate::estimate::sensitivity::Swing;
use crate::graph::reference::{self, quoted};

/// What the live cell says.
const SAME: &str = "is the same now";
const CHANGED: &str = "THE BID HAS CHANGED SINCE: run groundsheet on this file again";
/// Headings of the defaults, and their widths.
const HEADINGS: [(&str, f64); 6] = [
    ("Default", 40.0),
    ("As it is", 16.0),
    ("Tried", 16.0),
    ("Unit", 18.0),
    ("Change of the bid", 18.0),
    ("Where the default comes from", 60.0),
];

impl Painter<'_> {
    /// The defaults that move the bid most, as of this run.
    pub(super) fn swings(&mut self) -> Result<(), WriteError> {
        for (column, (_, width)) in (0u16..).zip(HEADINGS) {
            self.sheet.set_column_width(column, width)?;
        }
        let grades = self.estimate.columns.priced.grades.grade.id;
        let grades = u32::try_from(self.estimate.graph.rows(grades)).unwrap_or(0);
        let title = FIRST + DATA + grades + 3;
        let words = "Defaults that move the bid most, as of the last run";
        self.sheet
            .write_with_format(title, 0, words, &self.styles.block)?;
        let said = "Each with a tenth more (or as much as its limits allow; a tenth less where it cannot be more), all else as it was. Put your own value on the sheet Factors.";
        self.sheet
            .write_with_format(title + 1, 0, said, &self.styles.about)?;
        self.bid_then_and_now(title + 2)?;
        let headings = title + 5;
        for (column, (heading, _)) in (0u16..).zip(HEADINGS) {
            let format = if [1, 2, 4].contains(&column) {
                &self.styles.heading_number
            } else {
                &self.styles.heading
            };
            self.sheet
                .write_with_format(headings, column, heading, format)?;
        }
        let estimate = self.estimate;
        for (row, swing) in (headings + 1..).zip(&estimate.swings) {
            self.swing(row, swing)?;
        }
        if estimate.swings.is_empty() {
            self.text(
                headings + 1,
                0,
                "No default moves this bid.",
                Role::Computed,
            )?;
        }
        Ok(())
    }

    /// The bid as of this run, as it is now, and whether the two differ.
    fn bid_then_and_now(&mut self, row: u32) -> Result<(), WriteError> {
        let bid = self.estimate.columns.priced.bid.total.id.at(0);
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

    /// One default: its value, the value tried, and what that does to the bid.
    fn swing(&mut self, row: u32, swing: &Swing) -> Result<(), WriteError> {
        let unit = swing.factor.unit(self.estimate.job.system()).to_string();
        let number = self
            .styles
            .pattern_format("#,##0.####".to_owned(), Role::Computed)
            .clone();
        let money = self.styles.money(Role::Computed).clone();
        let source = swing.factor.source().text;
        self.fit(row, &[(source, HEADINGS[5].1)], SMALL)?;
        self.text(row, 0, swing.factor.name(), Role::Computed)?;
        self.sheet
            .write_number_with_format(row, 1, swing.default, &number)?;
        self.sheet
            .write_number_with_format(row, 2, swing.tried, &number)?;
        self.text(row, 3, &unit, Role::Computed)?;
        self.sheet
            .write_number_with_format(row, 4, swing.change, &money)?;
        self.sheet
            .write_with_format(row, 5, source, &self.styles.small)?;
        Ok(())
    }
}
