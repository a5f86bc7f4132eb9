//! What input cells offer and stop as they are typed: drop-downs, limits, guidance.
//!
//! Always true: only what a run would refuse is stopped.

use rust_xlsxwriter::{DataValidation, DataValidationErrorStyle, Formula};

use super::inputs::ROOM;
use crate::graph::reference::quoted_name;
use crate::job::columns::{Holds, InputColumn, Measure};
use crate::job::tables::TABLES;
use crate::money;
use crate::place::column_letters;
use crate::units::{PERCENT, Unit};

/// The drop-down and the guidance of a column.
pub(super) fn validation(
    column: &InputColumn,
    (heading, unit): (&str, Unit),
    rows_of: &dyn Fn(&str) -> u32,
    first: &str,
) -> Option<DataValidation> {
    let validation = DataValidation::new();
    let validation = match column.holds {
        Holds::Choice(words) => validation.allow_list_strings(words).ok()?,
        Holds::RowOf(table) | Holds::PartOf(table) => {
            let position = TABLES
                .iter()
                .find(|known| known.name == table)?
                .columns
                .iter()
                .position(|column| column.holds == Holds::Name)?;
            let letters = column_letters(u32::try_from(position).unwrap_or(0));
            let name = quoted_name(table);
            let list = Formula::new(format!(
                "={name}!${letters}$2:${letters}${}",
                rows_of(table) + 1 + ROOM
            ));
            validation.allow_list_formula(list)
        }
        Holds::Number(measure, ..) => within(validation, column, (measure, unit), first)?,
        _ => validation.allow_any_value(),
    };
    guided(validation, column, heading)
}

/// A validation that stops a number which a run would refuse. Words pass: a run reads
/// measures such as `12' 6"`.
fn within(
    validation: DataValidation,
    column: &InputColumn,
    (measure, unit): (Measure, Unit),
    first: &str,
) -> Option<DataValidation> {
    let (low, high) = column.limits_in(unit)?;
    let (least, most) = (money::trimmed(low), money::trimmed(high));
    let symbol = unit.symbol();
    let mut message = format!("A number from {least} to {most} {symbol}")
        .trim_end()
        .to_owned()
        + ".";
    let clear = match measure {
        // 0.15 in a column of percent is nearly always meant as 15.
        Measure::Percent if unit == PERCENT => {
            message.push_str(
                " For fifteen percent write 15; for less than one, write it as text: 0.5 %",
            );
            format!(",OR({first}=0,{first}>=1)")
        }
        // A spreadsheet makes the time of day 2:01 of 2:1, which is minute 121 of 1,440.
        Measure::Slope => {
            message.push_str(" For two out and one down write 2, not 2:1: that is a time of day.");
            let minute = format!("ROUND({first}*1440,0)");
            format!(
                ",OR({first}<0.04,{first}>0.84,ABS({first}*1440-{minute})>0.000001,MOD({minute},60)<>1)"
            )
        }
        _ => String::new(),
    };
    let passes = format!("=OR(ISTEXT({first}),AND({first}>={low},{first}<={high}{clear}))");
    validation
        .allow_custom(Formula::new(passes))
        .set_error_message(message)
        .ok()
}

/// A validation that shows the column's guidance.
fn guided(
    validation: DataValidation,
    column: &InputColumn,
    heading: &str,
) -> Option<DataValidation> {
    let title: String = heading.chars().take(32).collect();
    let guidance: String = column.guidance.chars().take(250).collect();
    let validation = validation
        .set_input_title(title)
        .ok()?
        .set_input_message(guidance)
        .ok()?;
    Some(validation.set_error_style(DataValidationErrorStyle::Stop))
}
