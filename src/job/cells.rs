//! One input cell: from what the file holds to a number in the column's unit, or a word.

pub(super) mod numbers;
mod ranges;
mod slopes;
mod times;

use std::sync::Arc;

use super::columns::{Holds, InputColumn};
use crate::diagnostic::{Code, Diagnostic};
use crate::place::Place;
use crate::read::notation::{self, MarksSeen};
use crate::read::{self, Content};
use crate::shown::{shown, without_hidden};
use crate::units::{System, Unit};
pub(super) use ranges::within;
pub(super) use slopes::nearly_upright;

/// Names and words are no longer than this many characters where other rows refer to them.
const LONGEST_NAME: usize = 100;

/// How a job is written: what decides where a unit or a number can be read in two ways.
#[derive(Clone, Debug)]
pub(super) struct Habits {
    /// The units that the job is taken off in.
    pub(super) system: System,
    /// The decimal mark of its numbers.
    pub(super) seen: MarksSeen,
}

/// What is asked of one cell.
#[derive(Clone, Copy)]
struct Asked<'a> {
    column: &'a InputColumn,
    unit: Unit,
    habits: &'a Habits,
    place: &'a Place,
}

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
    habits: &Habits,
    content: &Content,
    place: &Place,
) -> Result<Value, Diagnostic> {
    let asked = Asked {
        column,
        unit,
        habits,
        place,
    };
    let error = |code, what| Diagnostic::error(code, place.clone(), what);
    match content {
        Content::NotCalculated => {
            let what = format!(
                "{} holds a formula that was never calculated",
                column.heading
            );
            Err(error(Code::NoStoredValue, what).hint(
                "open the file in a spreadsheet program, save it, and try again; or type the number",
            ))
        }
        Content::Error(name) => {
            let what = format!("{} holds the error {}", column.heading, shown(name));
            Err(error(Code::ErrorValue, what).hint("mend the formula, or type the value"))
        }
        content => match column.holds {
            Holds::Number(measure, ..) => asked.number(measure, content),
            Holds::Date => day(column, content, place),
            Holds::Choice(words) => choice(column, words, content, place),
            Holds::Name => name(column, content, place),
            Holds::UnitName => asked.unit_name(content),
            Holds::Words => Ok(Value::Word(without_hidden(&text_of(content)).trim().into())),
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
        Content::Date(serial) => times::date(*serial),
        Content::Duration(days) => times::clock(*days),
        Content::Text(text) | Content::Error(text) => text.clone(),
        Content::Truth(true) => "yes".to_owned(),
        Content::Truth(false) => "no".to_owned(),
        Content::NotCalculated => String::new(),
    }
}

fn day(column: &InputColumn, content: &Content, place: &Place) -> Result<Value, Diagnostic> {
    let serial = match content {
        Content::Date(serial) => Some(*serial),
        Content::Text(text) => serial_of(text.trim()),
        _ => None,
    };
    let what = || {
        let found = shown(&text_of(content));
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
        "{} is \"{}\"; it must be {} or {last}",
        column.heading,
        shown(&text),
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
/// What is not seen does not tell names apart.
fn one_line(text: &str) -> String {
    let seen = text.split_whitespace().collect::<Vec<_>>().join(" ");
    without_hidden(&seen).replace(['\u{200B}', '\u{FEFF}'], "")
}

fn name(column: &InputColumn, content: &Content, place: &Place) -> Result<Value, Diagnostic> {
    let text = one_line(&text_of(content));
    let bad = |what: &str, hint: &str| {
        let message = format!("{} is \"{}\", which {what}", column.heading, shown(&text));
        Err(Diagnostic::error(Code::BadKey, place.clone(), message).hint(hint))
    };
    if text.contains(['*', '?', '~']) {
        return bad("holds a wild card", "leave out * ? and ~");
    }
    let measure = notation::parse(&text);
    let is_measure = measure.map_or_else(notation::NotationError::is_ambiguous, |_| true);
    if text.parse::<f64>().is_ok() || is_measure {
        let hint = if text.bytes().all(|byte| byte.is_ascii_digit()) {
            format!("put a letter in front, such as A-{text}")
        } else {
            "put a letter in front".to_owned()
        };
        return bad("looks like a number", &hint);
    }
    let characters = text.chars().count();
    if characters > LONGEST_NAME {
        return bad(
            &format!("is too long: {characters} characters"),
            &format!("use a name of at most {LONGEST_NAME} characters and put the rest under Note"),
        );
    }
    Ok(Value::Word(text.into()))
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
