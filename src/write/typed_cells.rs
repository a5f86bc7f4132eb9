//! Every input column that is checked as it is typed: what a run takes there, and the formula
//! that counts what it would refuse.
//!
//! Always true: what a run takes is read from the declaration of the column, which the
//! reader follows too. Names, units, and words where a number is expected need no check here:
//! any edit of those asks for a new run.

use crate::estimate::Estimate;
use crate::graph::reference::quoted;
use crate::graph::{ColumnId, Table};
use crate::job::columns::{Fill, Holds, InputColumn, InputTable, Measure};
use crate::job::tables::TABLES;
use crate::money;
use crate::parameters::{Factor, OverrideOf};
use crate::tables::Factors;
use crate::units::{PERCENT, Unit};

/// Slopes up to this many out for 1 of drop are known by the time that is made of them.
const FLATTEST_TYPED: u32 = 20;

/// One input column that is checked.
pub(super) struct Checked {
    /// Its table and its heading.
    pub(super) name: String,
    /// The column, and how many rows it has.
    pub(super) id: ColumnId,
    /// See `id`.
    pub(super) rows: usize,
    holds: Holds,
    unit: Unit,
    limits: Option<(f64, f64)>,
    needed: bool,
}

/// Every input column that a run may refuse something in, and every factor.
pub(super) fn checked(estimate: &Estimate) -> impl Iterator<Item = Checked> {
    let graph = &estimate.graph;
    let of_tables = TABLES.iter().zip(estimate.job.tables());
    let of_tables = of_tables.flat_map(|(table, data)| {
        let columns = table.columns.iter().zip(table.columns_in(graph));
        columns.enumerate().map(|(at, (column, id))| {
            let unit = data.unit(at);
            Checked {
                limits: column.limits_in(unit),
                needed: column.fill == Fill::Needed,
                ..of_column(table, column, (id, data.rows), unit)
            }
        })
    });
    let of_factors = Factor::ALL.iter().map(|factor| {
        let system = graph.system();
        let (low, high) = factor.limits(system);
        Checked {
            name: format!("{}: {}", Factors::NAME, factor.name()),
            id: graph.id(OverrideOf(*factor)),
            rows: 1,
            holds: Holds::Number(Measure::Count, low, high),
            unit: factor.unit(system),
            limits: Some((low, high)),
            needed: false,
        }
    });
    of_tables.chain(of_factors).filter(Checked::may_be_refused)
}

fn of_column(
    table: &InputTable,
    column: &InputColumn,
    (id, rows): (ColumnId, usize),
    unit: Unit,
) -> Checked {
    Checked {
        name: format!("{}: {}", table.name, column.heading),
        id,
        rows,
        holds: column.holds,
        unit,
        limits: None,
        needed: false,
    }
}

impl Checked {
    fn may_be_refused(&self) -> bool {
        let by_itself = matches!(self.holds, Holds::Choice(_)) || self.limits.is_some();
        self.rows > 0 && (self.needed || by_itself)
    }

    fn is_money(&self) -> bool {
        matches!(
            self.holds,
            Holds::Number(Measure::Money | Measure::MoneyAnHour, ..)
        )
    }

    /// Whether a percentage below one is refused: 0.15 is nearly always meant as 15.
    fn asks_for_percent(&self) -> bool {
        matches!(self.holds, Holds::Number(Measure::Percent, ..)) && self.unit == PERCENT
    }

    /// Whether times of day are refused: a spreadsheet makes them of slopes.
    fn is_slope(&self) -> bool {
        matches!(self.holds, Holds::Number(Measure::Slope, ..))
    }

    /// What a run takes, in words.
    pub(super) fn takes(&self) -> String {
        let mut takes = match (self.holds, self.limits) {
            (Holds::Choice(words), _) => words.join(", "),
            (_, Some((low, high))) => {
                let unit = if self.unit.symbol().is_empty() || self.is_money() {
                    String::new()
                } else {
                    format!(" {}", self.unit)
                };
                let (low, high) = (money::trimmed(low), money::trimmed(high));
                format!("a number from {low} to {high}{unit}")
            }
            _ => "anything".to_owned(),
        };
        if self.asks_for_percent() {
            takes.push_str(", written as 15 for fifteen percent");
        }
        if self.is_slope() {
            takes.push_str(", and not the time of day that a spreadsheet makes of 2:1");
        }
        takes.push_str(if self.needed {
            "; it must be filled in"
        } else {
            "; or nothing"
        });
        takes
    }

    /// The formula of how many cells are refused.
    pub(super) fn refused(&self, estimate: &Estimate, range: &str) -> String {
        let mut parts = Vec::new();
        if self.needed {
            parts.push(format!("ROWS({range})-COUNTA({range})"));
        }
        if let Holds::Choice(words) = self.holds {
            let words = words.iter();
            let is_one = words.map(|word| format!("-COUNTIF({range},{})", quoted(word)));
            parts.push(format!("COUNTA({range}){}", is_one.collect::<String>()));
        }
        if let Some((low, high)) = self.limits {
            let (low, high) = slack(low, high);
            parts.push(format!(
                "COUNT({range})-COUNTIFS({range},\">={low}\",{range},\"<={high}\")"
            ));
        }
        if self.asks_for_percent() {
            let known = self.small(estimate);
            parts.push(format!(
                "MAX(0,COUNTIFS({range},\">0\",{range},\"<1\")-{known})"
            ));
        }
        if self.is_slope() {
            parts.extend((1..=FLATTEST_TYPED).map(|out| times_of(out, range)));
        }
        parts.join("+")
    }

    /// How many percentages below one there are, written so that a run took them.
    fn small(&self, estimate: &Estimate) -> usize {
        let cells = (0..self.rows).map(|row| self.id.at(row));
        let numbers = cells.filter_map(|cell| estimate.results.measured(cell));
        numbers
            .filter(|number| *number > 0.0 && *number < 1.0)
            .count()
    }
}

/// The formula of how many cells hold the time of day that a spreadsheet makes of a slope
/// such as `2:1`: minute 121 of the 1,440 of a day.
fn times_of(out: u32, range: &str) -> String {
    let minute = f64::from(out * 60 + 1);
    let [low, high] = [minute - 1e-6, minute + 1e-6].map(|minute| minute / 1440.0);
    format!("COUNTIFS({range},\">{low}\",{range},\"<{high}\")")
}

/// Limits with room for a last digit that another unit, or another program, rounds.
fn slack(low: f64, high: f64) -> (f64, f64) {
    const ROOM: f64 = 1e-9;
    (low - low.abs() * ROOM, high + high.abs() * ROOM)
}
