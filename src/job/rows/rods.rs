//! Numbers of a row, and rod readings among them, which may stand under an elevation.
//!
//! Always true: a level has one rod reading. Where two are written, under the elevation and
//! in the column beside it, they are the same.

use super::Reader;
use crate::diagnostic::{Code, Diagnostic};
use crate::job::{Entries, cells};
use crate::money;
use crate::place::Place;
use crate::units::Unit;

/// A number of a cell with all that is known of it.
pub(super) struct Measured {
    /// The column that it was read for.
    pub(super) position: usize,
    pub(super) unit: Unit,
    pub(super) number: f64,
    /// The text, where it was written as field notation.
    pub(super) text: Option<String>,
    /// Whether it was written as a rod reading.
    pub(super) rod: bool,
}

impl Reader<'_> {
    /// Puts a number where it belongs. A rod reading under an elevation belongs to the rod
    /// column beside it.
    pub(super) fn number(
        &mut self,
        measured: Measured,
        place: &Place,
        written: &mut [Option<String>],
    ) {
        let position = measured.position;
        let is_rod = self.table.columns[position].is_rod();
        let (target, number) = match self.table.rod_of(position) {
            _ if !measured.rod || is_rod => (position, measured.number),
            Some(twin) => {
                let number = measured
                    .unit
                    .to(self.data.units[twin])
                    .map_or(measured.number, |ratio| ratio.apply(measured.number));
                let (column, unit) = (&self.table.columns[twin], self.data.units[twin]);
                if let Err(finding) = cells::within(column, unit, number, place) {
                    self.findings.push(finding);
                    return;
                }
                (twin, number)
            }
            None => {
                let what = format!(
                    "{} is a rod reading, which cannot stand here",
                    self.table.columns[position].heading
                );
                self.findings.push(
                    Diagnostic::error(Code::NotANumber, place.clone(), what)
                        .hint("write a measure without the word rod"),
                );
                return;
            }
        };
        self.one_reading(target, number, place);
        if let Entries::Numbers(numbers) = &mut self.data.columns[target]
            && let Some(last) = numbers.last_mut()
        {
            *last = number;
        }
        if measured.text.is_some() {
            written[target] = measured.text;
        }
    }

    /// Whether a rod reading that is there already, from the cell beside, is the same.
    fn one_reading(&mut self, target: usize, number: f64, place: &Place) {
        let there = self.data.numbers(target).last().copied();
        let Some(other) = there.filter(|other| !other.is_nan()) else {
            return;
        };
        if (other - number).abs() <= 1e-9 {
            return;
        }
        let unit = self.data.units[target];
        let what = format!(
            "two rod readings are written for one level: {} is {} {unit} and {} {unit}",
            self.table.columns[target].heading,
            money::trimmed(other),
            money::trimmed(number)
        );
        self.findings.push(
            Diagnostic::error(Code::ConflictingValues, place.clone(), what)
                .hint("keep one of the two cells"),
        );
    }
}
