//! What to do next about a finding, with the names that help: the line that was probably
//! meant, the machine that would do, the row that gives way.

use super::Teller;
use crate::bid::amounts::SECTION;
use crate::diagnostic::Meaning;
use crate::graph::expr::Condition;
use crate::graph::{Breach, Cell, words};
use crate::job::nearest;
use crate::pricing::lines;
use crate::takeoff::lifts;

impl Teller<'_> {
    /// What to do next about a limit that is broken in a row, at the cell to change.
    pub(super) fn hint(
        &self,
        condition: &Condition,
        breach: &Breach,
        cell: Cell,
        row: usize,
    ) -> String {
        let told = match breach.meaning {
            Meaning::NoLine => self.near_line(cell, false),
            Meaning::NoLineNorSection => self.near_line(cell, true),
            Meaning::OtherMachine => Some(self.machine_that_would_do(breach, row)),
            _ => None,
        };
        let by_rule = || words::looked_up_in_vain(self.graph, self.results, condition, row);
        told.unwrap_or_else(|| {
            if self.is_quick(cell) && by_rule().is_none() {
                self.hint_for_quick(cell, breach)
            } else {
                breach.hint.to_owned()
            }
        })
    }

    /// The line, or the section, that was probably meant.
    fn near_line(&self, cell: Cell, or_section: bool) -> Option<String> {
        let (line, section) = (self.graph.id(lines::NAME), self.graph.id(SECTION));
        let sections = if or_section {
            self.graph.rows(section)
        } else {
            0
        };
        let sections = (0..sections).map(|row| self.results.words(section.at(row)));
        let lines = (0..self.graph.rows(line)).map(|row| self.results.words(line.at(row)));
        let near = nearest(self.results.words(cell), lines.chain(sections))?;
        Some(format!("did you mean \"{near}\"?"))
    }

    /// The hint of a lift that its chart does not allow, with the machine that would do.
    fn machine_that_would_do(&self, breach: &Breach, row: usize) -> String {
        let smallest = self.graph.id(lifts::SMALLEST);
        match self.results.words(smallest.at(row)) {
            "" => format!("{}: no machine with a chart here would do", breach.hint),
            machine => format!("{}: here {machine}", breach.hint),
        }
    }

    /// Whether a cell stands in a row made from the quick page.
    fn is_quick(&self, Cell { column, row }: Cell) -> bool {
        let table = self.graph.table(self.graph.column(column).table).name;
        let mut tables = self.job.tables().iter();
        let data = tables.find(|data| data.table.name == table);
        data.is_some_and(|data| data.is_quick(row))
    }

    /// What may be done about a row made from the quick page: an item of it finds its price
    /// in the book by its name; any row gives way to one of its name.
    fn hint_for_quick(&self, cell: Cell, breach: &Breach) -> String {
        let info = self.graph.table(self.graph.column(cell.column).table);
        let name = info.label.map_or("", |column| {
            let row = cell.row;
            self.results.words(Cell { column, row })
        });
        let table = info.name;
        let hint = if breach.meaning == Meaning::NoPrice {
            format!("add \"{name}\" to Materials or to Production rates")
        } else {
            breach.hint.to_owned()
        };
        if name.is_empty() {
            return hint;
        }
        format!(
            "{hint}; or write the row \"{name}\" in {table}, which replaces this one of Quick measure"
        )
    }
}
