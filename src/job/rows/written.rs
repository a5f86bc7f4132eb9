//! Field notation kept beside a number: whether the text still says it.

use crate::diagnostic::{Code, Diagnostic};
use crate::read::Content;
use crate::read::notation::{self, Marks, Written};
use crate::units::Unit;

/// Whether a percentage below one is what was written in field notation: `0.75 %`.
pub(super) fn meant(
    finding: &Diagnostic,
    content: &Content,
    unit: Unit,
    written: Option<&String>,
) -> bool {
    let (Content::Number(number), Some(text)) = (content, written) else {
        return false;
    };
    finding.code == Code::PercentScale && says(text, unit, *number)
}

/// Whether a text of field notation says the number, in the unit. The number beside it
/// tells what the marks of the text are.
pub(super) fn says(text: &str, unit: Unit, number: f64) -> bool {
    [Marks::POINT, Marks::COMMA].into_iter().any(|marks| {
        let written = notation::parse_with(text, marks);
        written.is_ok_and(|written| comes_to(&written, unit, number))
    })
}

fn comes_to(written: &Written, unit: Unit, number: f64) -> bool {
    let value = match &written.unit {
        None => Some(written.value),
        Some(symbol) => Unit::parse(symbol)
            .and_then(|given| given.to(unit))
            .map(|ratio| ratio.apply(written.value)),
    };
    value.is_some_and(|value| (value - number).abs() <= 1e-12 * value.abs().max(1.0))
}
