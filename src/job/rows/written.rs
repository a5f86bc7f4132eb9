//! Field notation kept beside a number: whether the text still says it.

use crate::diagnostic::{Code, Diagnostic};
use crate::read::{Content, notation};
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

/// Whether a text of field notation says the number, in the unit.
pub(super) fn says(text: &str, unit: Unit, number: f64) -> bool {
    let Ok(written) = notation::parse(text) else {
        return false;
    };
    let value = match &written.unit {
        None => Some(written.value),
        Some(symbol) => Unit::parse(symbol)
            .and_then(|given| given.to(unit))
            .map(|ratio| ratio.apply(written.value)),
    };
    value.is_some_and(|value| (value - number).abs() <= 1e-12 * value.abs().max(1.0))
}
