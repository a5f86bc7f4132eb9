//! Whether a number is possible or sensible in its column, and what was probably meant.

use crate::diagnostic::{Code, Diagnostic};
use crate::job::columns::{Holds, InputColumn, Measure};
use crate::money;
use crate::place::Place;
use crate::units::{self, System, Unit};

/// 0.15 in a column of percent is nearly always meant as 15.
pub(super) fn percent_scale(
    column: &InputColumn,
    measure: Measure,
    unit: Unit,
    number: f64,
    place: &Place,
) -> Result<(), Diagnostic> {
    if measure != Measure::Percent || unit != units::PERCENT || number <= 0.0 || number >= 1.0 {
        return Ok(());
    }
    let what = format!("{} is {number} in a column of percent", column.heading);
    let hint = format!(
        "write {} for {} percent; if {number} percent is meant, write it as text: {number} %",
        money::trimmed(number * 100.0),
        money::trimmed(number * 100.0)
    );
    Err(Diagnostic::error(Code::PercentScale, place.clone(), what).hint(hint))
}

/// Whether a number lies within the limits of its column.
pub(in crate::job) fn within(
    column: &InputColumn,
    unit: Unit,
    number: f64,
    place: &Place,
) -> Result<(), Diagnostic> {
    let Holds::Number(measure, low, high) = column.holds else {
        return Ok(());
    };
    let limits_in = measure.unit(System::Us);
    let inside = unit
        .to(limits_in)
        .map_or(f64::NAN, |ratio| ratio.apply(number));
    let slack = |limit: f64| limit.abs() * 1e-12;
    if inside >= low - slack(low) - 1e-12 && inside <= high + slack(high) {
        return Ok(());
    }
    // In another unit the limits are told to hundredths, on the inside of what is allowed.
    let inward = |limit: f64| (limit * 100.0 + 1e-6).floor() / 100.0;
    let back = match limits_in.to(unit) {
        Some(ratio) if unit != limits_in => (-inward(-ratio.apply(low)), inward(ratio.apply(high))),
        _ => (low, high),
    };
    let money = matches!(measure, Measure::Money | Measure::MoneyAnHour);
    let word = if unit.symbol().is_empty() || money {
        String::new()
    } else {
        format!(" {unit}")
    };
    let what = format!(
        "{} is {}{word}; it must be from {} to {}{word}",
        column.heading,
        money::trimmed(number),
        money::trimmed(back.0),
        money::trimmed(back.1)
    );
    let hint = match measure {
        _ if number < 0.0 && low >= 0.0 => "write it without a sign".to_owned(),
        Measure::Percent => "percent are written as 15 for fifteen percent".to_owned(),
        Measure::MoneyAnHour => "check the number: it is what one hour costs".to_owned(),
        _ => match other_unit(unit, limits_in, number, (low, high)) {
            Some(meant) => {
                let number = money::trimmed(number);
                format!(
                    "if {number} {meant} is meant, write it so: \"{number} {}\"",
                    meant.symbol()
                )
            }
            None => "check the number".to_owned(),
        },
    };
    Err(Diagnostic::error(Code::OutOfRange, place.clone(), what).hint(hint))
}

/// A unit of the same kind in which the number would be allowed: what was probably meant.
fn other_unit(unit: Unit, limits_in: Unit, number: f64, (low, high): (f64, f64)) -> Option<Unit> {
    let usual = [
        units::IN,
        units::FT,
        units::MM,
        units::CM,
        units::M,
        units::FT2,
        units::M2,
        units::FT3,
        units::LB,
        units::KG,
        units::S,
    ];
    // Who measures in metres slips to centimetres or millimetres, not to inches.
    let metric = [units::M, units::MM, units::CM, units::M2, units::KG].contains(&unit);
    let slips: &[Unit] = if metric {
        &[units::CM, units::MM, units::M]
    } else {
        &[]
    };
    slips
        .iter()
        .chain(&usual)
        .copied()
        .filter(|usual| *usual != unit && usual.measures_like(unit))
        .find(|usual| {
            let inside = usual.to(limits_in).map(|ratio| ratio.apply(number));
            inside.is_some_and(|inside| (low..=high).contains(&inside))
        })
}
