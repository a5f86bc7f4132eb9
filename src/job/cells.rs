//! One input cell: from what the file holds to a number in the column's unit, or a word.

mod ranges;

use std::sync::Arc;

use ranges::{percent_scale, within};

use super::columns::{Holds, InputColumn, Measure};
use crate::diagnostic::{Code, Diagnostic};
use crate::graph::words;
use crate::place::Place;
use crate::read::{self, Content, notation};
use crate::units::{self, Unit};

/// What an input cell says.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value {
    /// A number in the column's unit, with the text where it was written as field notation.
    Number {
        number: f64,
        written: Option<String>,
        rod: bool,
    },
    /// Words, or the symbol of a unit.
    Word(Arc<str>),
}

/// Reads one cell that is not blank.
pub(super) fn value(
    column: &InputColumn,
    unit: Unit,
    content: &Content,
    place: &Place,
) -> Result<Value, Diagnostic> {
    match content {
        Content::NotCalculated => Err(Diagnostic::error(
            Code::NoStoredValue,
            place.clone(),
            format!(
                "{} holds a formula that was never calculated",
                column.heading
            ),
        )
        .hint(
            "open the file in a spreadsheet program, save it, and try again; or type the number",
        )),
        Content::Error(error) => Err(Diagnostic::error(
            Code::ErrorValue,
            place.clone(),
            format!("{} holds the error {error}", column.heading),
        )
        .hint("mend the formula, or type the value")),
        content => match column.holds {
            Holds::Number(measure, low, high) => number(column, measure, unit, content, place)
                .and_then(|value| {
                    let Value::Number { number, .. } = value else {
                        return Ok(value);
                    };
                    within(column, measure, unit, number, (low, high), place)?;
                    Ok(value)
                }),
            Holds::Date => day(column, content, place),
            Holds::Choice(words) => choice(column, words, content, place),
            Holds::Name => name(column, content, place),
            Holds::UnitName => unit_name(column, content, place),
            Holds::Words => Ok(Value::Word(text_of(content).trim().into())),
            Holds::RowOf(_) | Holds::PartOf(_) => {
                Ok(Value::Word(one_line(&text_of(content)).into()))
            }
        },
    }
}

/// The content as text, the way a person would read it.
pub(super) fn text_of(content: &Content) -> String {
    match content {
        Content::Number(number) => format!("{number}"),
        Content::Date(serial) if *serial >= 1.0 && serial.fract() == 0.0 => words::day(*serial),
        Content::Date(serial) => format!("{serial}"),
        Content::Text(text) | Content::Error(text) => text.clone(),
        Content::Truth(true) => "yes".to_owned(),
        Content::Truth(false) => "no".to_owned(),
        Content::NotCalculated => String::new(),
    }
}

fn number(
    column: &InputColumn,
    measure: Measure,
    unit: Unit,
    content: &Content,
    place: &Place,
) -> Result<Value, Diagnostic> {
    let not_a_number = |found: &str, why: &str| {
        let what = format!(
            "{} should be a number, found \"{found}\"{why}",
            column.heading
        );
        let hint = if measure.shows_unit() {
            "write the number alone, or with its unit, such as 12' 6\", 18 in or 3.8 m"
        } else {
            "write the number alone"
        };
        Diagnostic::error(Code::NotANumber, place.clone(), what).hint(hint)
    };
    match content {
        Content::Number(number) if !number.is_finite() => {
            Err(not_a_number("a number beyond bounds", ""))
        }
        Content::Number(number) => {
            percent_scale(column, measure, unit, *number, place)?;
            Ok(Value::Number {
                number: *number,
                written: None,
                rod: false,
            })
        }
        Content::Text(text) => {
            let written = notation::parse(text)
                .map_err(|error| not_a_number(text, &format!(" ({error})")))?;
            let number = in_unit(column, measure, unit, (text, &written), place)?;
            if written.unit.is_none() {
                percent_scale(column, measure, unit, number, place)?;
            }
            let plain = written.unit.is_none() && !written.rod && !written.approximate;
            let money = matches!(measure, Measure::Money | Measure::MoneyAnHour);
            let written_as = (!plain && !money).then(|| text.trim().to_owned());
            Ok(Value::Number {
                number,
                written: written_as,
                rod: written.rod,
            })
        }
        Content::Date(_) => Err(not_a_number(&text_of(content), " (a date)")),
        Content::Truth(truth) => Err(not_a_number(if *truth { "TRUE" } else { "FALSE" }, "")),
        other => Err(not_a_number(&text_of(other), "")),
    }
}

fn in_unit(
    column: &InputColumn,
    measure: Measure,
    unit: Unit,
    (text, written): (&str, &notation::Written),
    place: &Place,
) -> Result<f64, Diagnostic> {
    let Some(symbol) = &written.unit else {
        return Ok(written.value);
    };
    let wrong = |what: String| {
        let hint = if measure.shows_unit() && !unit.symbol().is_empty() {
            format!(
                "{} is in {unit}: write the number alone, or with a unit of the same kind",
                column.heading
            )
        } else {
            "write the number alone".to_owned()
        };
        let what = format!("{} is \"{}\", {what}", column.heading, text.trim());
        Diagnostic::error(Code::WrongUnit, place.clone(), what).hint(hint)
    };
    match measure {
        Measure::Money if symbol.starts_with('$') => return Ok(written.value),
        Measure::MoneyAnHour if ["$", "$/h", "/h"].contains(&symbol.as_str()) => {
            return Ok(written.value);
        }
        _ => {}
    }
    let Some(given) = Unit::parse(symbol) else {
        return Err(wrong(format!("and \"{symbol}\" is not a unit known here")));
    };
    if matches!(measure, Measure::Count | Measure::PerHour | Measure::Swell) && given != units::EACH
    {
        return Err(wrong("where a number alone is expected".to_owned()));
    }
    match given.to(unit) {
        Some(ratio) => Ok(ratio.apply(written.value)),
        None => Err(wrong(format!("and {given} cannot be turned into {unit}"))),
    }
}

fn day(column: &InputColumn, content: &Content, place: &Place) -> Result<Value, Diagnostic> {
    let serial = match content {
        Content::Date(serial) => Some(*serial),
        Content::Text(text) => serial_of(text.trim()),
        _ => None,
    };
    let what = || {
        let found = text_of(content);
        format!("{} should be a date, found \"{found}\"", column.heading)
    };
    let number = serial.ok_or_else(|| {
        Diagnostic::error(Code::NotADate, place.clone(), what())
            .hint("use a date cell, or write year-month-day, such as 2026-11-20")
    })?;
    Ok(Value::Number {
        number,
        written: None,
        rod: false,
    })
}

/// The serial number of a day written as year-month-day, without a time.
fn serial_of(text: &str) -> Option<f64> {
    if text.contains(['T', ' ']) {
        None
    } else {
        read::serial_of_iso(text)
    }
}

fn choice(
    column: &InputColumn,
    words: &[&str],
    content: &Content,
    place: &Place,
) -> Result<Value, Diagnostic> {
    let text = text_of(content).trim().replace("labour", "labor");
    let text = match text.to_lowercase().as_str() {
        "y" if words.contains(&"yes") => "yes".to_owned(),
        "n" if words.contains(&"no") => "no".to_owned(),
        _ => text,
    };
    if let Some(word) = words.iter().find(|word| word.eq_ignore_ascii_case(&text)) {
        return Ok(Value::Word((*word).into()));
    }
    let (last, others) = words.split_last().unwrap_or((&"", &[]));
    let what = format!(
        "{} is \"{text}\"; it must be {} or {last}",
        column.heading,
        others.join(", ")
    );
    let mut finding = Diagnostic::error(Code::NotAChoice, place.clone(), what);
    if let Some(near) = nearest(&text, words.iter().copied()) {
        finding = finding.hint(format!("did you mean \"{near}\"?"));
    }
    Err(finding)
}

/// The nearest of some words, if any is near.
pub(crate) fn nearest<'w>(text: &str, words: impl Iterator<Item = &'w str>) -> Option<&'w str> {
    const NEAR: f64 = 0.82;
    let wanted = text.to_lowercase();
    let scored = words.map(|word| (strsim::jaro_winkler(&wanted, &word.to_lowercase()), word));
    let best = scored.fold((NEAR, None), |best, (score, word)| {
        if score > best.0 {
            (score, Some(word))
        } else {
            best
        }
    });
    best.1
}

/// A name with its blanks folded: two blanks, or one that does not break, look like one.
fn one_line(text: &str) -> String {
    let seen = text.split_whitespace().collect::<Vec<_>>().join(" ");
    seen.replace(['\u{200B}', '\u{FEFF}'], "")
}

fn name(column: &InputColumn, content: &Content, place: &Place) -> Result<Value, Diagnostic> {
    let text = one_line(&text_of(content));
    let bad = |what: &str, hint: &str| {
        let message = format!("{} is \"{text}\", which {what}", column.heading);
        Err(Diagnostic::error(Code::BadKey, place.clone(), message).hint(hint))
    };
    if text.contains(['*', '?', '~']) {
        return bad("holds a wild card", "leave out * ? and ~");
    }
    if text.parse::<f64>().is_ok() || notation::parse(&text).is_ok() {
        let hint = if text.bytes().all(|byte| byte.is_ascii_digit()) {
            format!("put a letter in front, such as A-{text}")
        } else {
            "put a letter in front".to_owned()
        };
        return bad("looks like a number", &hint);
    }
    if text.len() > 100 {
        return bad(
            "is too long",
            "use a short name and put the rest under Note",
        );
    }
    Ok(Value::Word(text.into()))
}

fn unit_name(column: &InputColumn, content: &Content, place: &Place) -> Result<Value, Diagnostic> {
    let text = text_of(content);
    let unit = Unit::parse(&text).filter(|unit| !unit.symbol().is_empty());
    let unknown = || {
        let (heading, text) = (column.heading, text.trim());
        let what = format!("{heading} is \"{text}\", which is not a unit known here");
        Diagnostic::error(Code::WrongUnit, place.clone(), what).hint(
            "use ea, ft, ft2, yd2, yd3, ton, lb, gal, h, day, load, ls, or m, m2, m3, t, kg, L",
        )
    };
    let unit = unit.ok_or_else(unknown)?;
    Ok(Value::Word(unit.symbol().into()))
}

#[cfg(test)]
mod tests {
    use super::serial_of;

    // Serial numbers as printed in ECMA-376 part 1, §18.17.4.1: 1 January 1900 is 1;
    // the others by counting days.
    #[test]
    fn days_count_as_in_spreadsheets() {
        assert_eq!(serial_of("2000-01-01"), Some(36_526.0));
        assert_eq!(serial_of("2000-03-01"), Some(36_586.0));
        assert_eq!(serial_of("1901-01-01"), Some(367.0));
        assert_eq!(serial_of("2026-02-29"), None);
        assert_eq!(serial_of("2026-13-01"), None);
        assert_eq!(serial_of("20/11/2026"), None);
    }
}
