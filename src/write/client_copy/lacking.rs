//! Which lines of a draft are not priced, priced in part, or priced by an allowance.
//!
//! Always true: every line that an open point of price or rate leaves without cost is
//! found, through the material, the work, the crew or the machine that the point is about.

use crate::bid::amounts::AMOUNT;
use crate::diagnostic::{Code, Meaning, Severity};
use crate::estimate::Estimate;
use crate::graph::ColumnId;
use crate::job::tables::{Crews, Equipment, Materials, OtherItems, ProductionRates as Works};
use crate::money;
use crate::pricing::costs::QUANTITY;
use crate::pricing::lines::{MATERIAL, TAKEN_OFF, WORK};
use crate::tables::Lines;
use crate::takeoff::production::{CREW_OF, MACHINE_OF};

/// What a line lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Lack {
    /// Nothing: it is priced.
    Nothing,
    /// A final price: an allowance stands in for it.
    FinalPrice,
    /// A part of its price.
    PartOfPrice,
    /// Any price, so that it is excluded.
    Price,
}

/// What each line lacks.
pub(super) fn lacking(estimate: &Estimate) -> Vec<Lack> {
    let mut lacking = vec![Lack::Nothing; estimate.rows::<Lines>()];
    let prices = [Code::MissingPrice, Code::MissingRate];
    for (limit, breach) in estimate.graph.limits() {
        if breach.severity != Severity::Open || !prices.contains(&breach.code) {
            continue;
        }
        let stands_in = breach.meaning == Meaning::StandsIn;
        let broken = estimate.results.numbers(limit).iter().enumerate();
        for (row, _) in broken.filter(|(_, value)| **value >= 0.5) {
            let point = Point {
                estimate,
                limit,
                row,
            };
            for (line, lack) in lacking.iter_mut().enumerate() {
                if point.concerns(line) {
                    *lack = (*lack).max(point.lack(line, stands_in));
                }
            }
        }
    }
    lacking
}

/// One open point of a price or a rate.
struct Point<'e> {
    estimate: &'e Estimate,
    limit: ColumnId,
    row: usize,
}

impl Point<'_> {
    fn lack(&self, line: usize, stands_in: bool) -> Lack {
        let amount = self.estimate.number(AMOUNT, line);
        if money::round(amount, 2) == 0.0 {
            Lack::Price
        } else if stands_in {
            Lack::FinalPrice
        } else {
            Lack::PartOfPrice
        }
    }

    /// Whether the point is about something that the line is made of.
    fn concerns(&self, line: usize) -> bool {
        let graph = &self.estimate.graph;
        let some = self.estimate.number(QUANTITY, line) > 0.0;
        let work = self.found(graph.id(WORK), line);
        let of_work = |link: ColumnId| work.and_then(|work| self.found(link, work));
        let own = Some(self.row);
        let table = graph.column(self.limit).table;
        if graph.is::<Lines>(table) {
            line == self.row
        } else if graph.is::<Materials>(table) {
            some && self.found(graph.id(MATERIAL), line) == own
        } else if graph.is::<Works>(table) {
            some && work == own
        } else if graph.is::<Crews>(table) {
            some && of_work(graph.id(CREW_OF)) == own
        } else if graph.is::<Equipment>(table) {
            some && of_work(graph.id(MACHINE_OF)) == own
        } else if graph.is::<OtherItems>(table) {
            some && self.is_taken_off_here(line)
        } else if some {
            self.reads_row_of(line)
        } else {
            self.is_taken_off_here(line) && self.decides_quantity_of(line)
        }
    }

    /// The row that a look-up found.
    fn found(&self, link: ColumnId, row: usize) -> Option<usize> {
        self.estimate.results.row_found(link.at(row))
    }

    /// Whether the quantity of a line stands in the row that the point is about.
    fn is_taken_off_here(&self, line: usize) -> bool {
        let graph = &self.estimate.graph;
        let taken_off = graph.id(TAKEN_OFF);
        let quantity = graph.gathered(taken_off.at(line));
        quantity.is_some_and(|cell| {
            cell.row == self.row
                && graph.column(cell.column).table == graph.column(self.limit).table
        })
    }

    /// Whether the point looks at the material or the work of a line.
    fn reads_row_of(&self, line: usize) -> bool {
        let graph = &self.estimate.graph;
        let reads = graph.made_from(self.limit);
        [graph.id(MATERIAL), graph.id(WORK)]
            .into_iter()
            .any(|link| {
                let cell = graph.gathered(link.at(line));
                cell.is_some_and(|cell| cell.row == self.row && reads.contains(&cell.column))
            })
    }

    /// Whether what the point looks at also decides the quantity of a line.
    fn decides_quantity_of(&self, line: usize) -> bool {
        let graph = &self.estimate.graph;
        let reads = graph.made_from(self.limit);
        let taken_off = graph.id(TAKEN_OFF);
        let quantity = graph.gathered(taken_off.at(line));
        quantity.is_some_and(|cell| {
            let sources = graph.made_from(cell.column);
            sources.iter().any(|source| reads.contains(source))
        })
    }
}
