//! Headings of computed columns: names with a capital letter, and units in words.

use crate::units::{self, Unit};

/// A column's name as a heading: with a capital letter.
pub(super) fn sentence(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().collect::<String>() + letters.as_str()
    })
}

/// A unit in words, for a heading: money shows its sign in the cells.
pub(super) fn unit_words(unit: Unit) -> String {
    match unit {
        units::ONE | units::MONEY | units::DATE => String::new(),
        units::MONEY_H => "an hour".to_owned(),
        other => other.to_string(),
    }
}
