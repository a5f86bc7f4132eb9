//! Slopes in cells: what is asked about where a slope can be read in two ways.
//!
//! A slope is how far it runs out for one of drop. Site habit has three more ways: the drop
//! for one out (`1:2`), a grade in per cent, and what a spreadsheet makes of `2:1`, a time
//! of day. Each is another number, so that each is asked about.

use super::{Asked, Value, text_of};
use crate::diagnostic::{Code, Diagnostic};
use crate::job::columns::{Holds, InputColumn, Measure};
use crate::place::Place;
use crate::read::Content;
use crate::read::notation::{self, Written};
use crate::shown::shown;

/// How a slope is written so that every program keeps it.
pub(super) const HOW_TO_WRITE: &str =
    "write how far it runs out for 1 of drop as a number alone, such as 2 for 2:1; or 2H:1V";

/// Sides that run out less than this for 1 of drop stand nearly upright.
const NEARLY_UPRIGHT: f64 = 0.25;

impl Asked<'_> {
    /// Refuses grades, and fractions that may be rise over run.
    pub(super) fn clear_slope(self, text: &str, written: &Written) -> Result<(), Diagnostic> {
        let is_fraction = text.contains(['/', '⁄', '∕']) && written.value < 1.0;
        match written.unit.as_deref() {
            Some("%") if written.value > 0.0 => Err(self.grade(text, written.value)),
            None if is_fraction && written.value > 0.0 => Err(self.either_way(text)),
            _ => Ok(()),
        }
    }

    fn grade(self, text: &str, hundredths: f64) -> Diagnostic {
        let (by_rise, by_run) = (rounded(100.0 / hundredths), rounded(hundredths / 100.0));
        let what = format!(
            "{} is \"{}\": {by_rise} out for 1 of drop if it is rise over run, {by_run} if it is run over rise",
            self.column.heading,
            shown(text)
        );
        let hint = format!("write {by_rise} or {by_run}, without the sign");
        self.wrong_unit(what, hint)
    }

    /// What a spreadsheet makes of `2:1`.
    pub(super) fn made_a_time(self, content: &Content, typed: &str) -> Diagnostic {
        let found = match content {
            Content::Number(number) => rounded(*number),
            other => text_of(other),
        };
        let what = format!(
            "{} is {found}, the time of day that a spreadsheet makes of {typed}",
            self.column.heading
        );
        Diagnostic::error(Code::NotANumber, self.place.clone(), what).hint(HOW_TO_WRITE)
    }

    /// `1:2`, `1 in 2` or `1/2`.
    pub(super) fn either_way(self, text: &str) -> Diagnostic {
        let marks = self.habits.seen.marks();
        let read = |sides: &str| {
            let with_sides = format!("{} {sides}", text.trim().replace('/', ":"));
            notation::parse_with(&with_sides, marks).map(|written| rounded(written.value))
        };
        let (steeper, flatter) = match (read("H:V"), read("V:H")) {
            (Ok(one), Ok(other)) => (one, other),
            _ => ("0.5".to_owned(), "2".to_owned()),
        };
        let what = format!(
            "{} is \"{}\", which may be {steeper} or {flatter} out for 1 of drop",
            self.column.heading,
            shown(text)
        );
        let hint = format!("write {flatter} for the flatter, or {steeper} for the steeper");
        Diagnostic::error(Code::NotANumber, self.place.clone(), what).hint(hint)
    }
}

/// A slope to three decimals, for a message.
fn rounded(slope: f64) -> String {
    format!("{}", (slope * 1000.0).round() / 1000.0)
}

/// What there is to say of a slope that is possible and hardly meant: a number that was
/// rounded may be the time of day that a spreadsheet made of `2:1`.
pub(in crate::job) fn nearly_upright(
    column: &InputColumn,
    value: &Value,
    place: &Place,
) -> Option<Diagnostic> {
    let (Holds::Number(Measure::Slope, ..), Value::Number { number, .. }) = (column.holds, value)
    else {
        return None;
    };
    if *number <= 0.0 || *number >= NEARLY_UPRIGHT {
        return None;
    }
    let number = rounded(*number);
    let what = format!(
        "{} is {number} out for 1 of drop, which is nearly upright",
        column.heading
    );
    let hint = "0 is upright; a spreadsheet makes the time of day 0.084 of 2:1: write 2";
    Some(Diagnostic::warning(Code::OutOfRange, place.clone(), what).hint(hint))
}
