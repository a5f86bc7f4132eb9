//! Field notation: measures as people write them on site.
//!
//! Splits one text cell into a number and the word of its unit: `12' 6 1/2"`,
//! `1¾ in`, `3,8 m`, `2:1`, `$45/h`, `rod 4.52`, `about 12 ft`.
//!
//! Always true:
//! - [`parse`] answers for every text, in time proportional to its length;
//! - a number is the one nearest to what is written: feet, inches and fractions are
//!   added as whole-number fractions and divided once;
//! - what can be read in two ways is refused, except where this page says which is meant.
//!
//! Readings chosen where site habit allows more than one:
//! - a bare number after feet is inches: `12' 6`;
//! - `2:1` is horizontal to vertical; letters may say otherwise: `1V:2H` is the same.
//!   `1:2` is refused, because many write it for two out and one up;
//! - `1,250` is read as the other numbers of the files say ([`MarksSeen`]), `0,125` always
//!   as an eighth; a comma before one, two or more than three digits is a decimal comma;
//! - `1'000` is refused: it is a thousand in some countries and a foot in others.
//!
//! Not here: whether the unit exists and fits the column (`units`, `job`).

use std::fmt;

mod characters;
mod marks;
mod number;
mod slope;

use characters::plain_characters;
pub use marks::{Mark, Marks, MarksSeen};
use number::{Amount, Fraction, amount};
use slope::slope;

/// More characters than this are a note, not a measure.
const LONGEST_TEXT: usize = 200;

/// More words than this are a sentence, not a unit.
const MOST_UNIT_WORDS: usize = 4;

/// What a text cell says.
#[derive(Clone, Debug, PartialEq)]
pub struct Written {
    /// The number, in the unit that is named.
    pub value: f64,
    /// The unit, if one is named. Feet and inches are always `ft` and `in`, slopes `H:V`,
    /// money `$` or for example `$/h`, rates without money `/h`; other words stand as written.
    pub unit: Option<String>,
    /// Whether it is the reading of a levelling rod: `rod 4.52`.
    pub rod: bool,
    /// Whether the writer was not sure: `about 12 ft`.
    pub approximate: bool,
}

/// Why a text cell is not a measure. The display text is a short reason for people.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotationError {
    /// There is nothing but spaces.
    Empty,
    /// There are more than 200 characters.
    TooLong,
    /// There is text where a number or a unit was expected.
    Text,
    /// There are two numbers and nothing that says how they belong together.
    TwoNumbers,
    /// Commas and points in the number do not form groups of three digits.
    Grouping,
    /// A comma or a point before three digits may set thousands apart or part off decimals.
    TwoReadings,
    /// An apostrophe before three digits may set thousands apart or stand for feet.
    Apostrophe,
    /// A fraction has zero below the line, or follows a number and is not below one.
    BadFraction,
    /// A number with decimals is followed by inches or by a fraction.
    NotWhole,
    /// The inches after feet are 12 or more.
    TooManyInches,
    /// A slope is negative or has no rise.
    BadSlope,
    /// A slope may be horizontal to vertical or vertical to horizontal.
    EitherWay,
    /// The number has more digits than can be kept exactly, or is too large.
    TooManyDigits,
}

impl fmt::Display for NotationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "nothing written",
            Self::TooLong => "more than 200 characters",
            Self::Text => "text instead of a measure",
            Self::TwoNumbers => "two numbers, and no unit that joins them",
            Self::Grouping => "commas and points that do not part the digits in threes",
            Self::TwoReadings => {
                "a comma or a point before three digits: it may set thousands apart or part off decimals"
            }
            Self::Apostrophe => {
                "an apostrophe before three digits: it may set thousands apart or stand for feet"
            }
            Self::BadFraction => {
                "a fraction with zero below the line, or not below one after a whole number"
            }
            Self::NotWhole => "a number with decimals before inches or a fraction",
            Self::TooManyInches => "12 inches or more after feet",
            Self::BadSlope => "a slope that is negative or has no rise",
            Self::EitherWay => "a slope that can be read two ways",
            Self::TooManyDigits => "too many digits to be kept exactly",
        })
    }
}

impl std::error::Error for NotationError {}

impl NotationError {
    /// Whether the text is a measure that can be read in two ways.
    #[must_use]
    pub fn is_ambiguous(self) -> bool {
        matches!(self, Self::TwoReadings | Self::Apostrophe | Self::EitherWay)
    }
}

/// Reads one measure whose decimals stand after a point.
///
/// # Errors
///
/// Says in a few words why the text is not one measure.
///
/// ```
/// # use groundsheet::read::notation;
/// let written = notation::parse("12' 6 1/2\"").unwrap();
/// assert_eq!((written.value, written.unit.as_deref()), (301.0 / 24.0, Some("ft")));
/// ```
pub fn parse(text: &str) -> Result<Written, NotationError> {
    parse_with(text, Marks::POINT)
}

/// Reads one measure of a job whose numbers have these marks.
///
/// # Errors
///
/// As [`parse`].
pub fn parse_with(text: &str, marks: Marks) -> Result<Written, NotationError> {
    if text.chars().nth(LONGEST_TEXT).is_some() {
        return Err(NotationError::TooLong);
    }
    let plain = plain_characters(text);
    let (rest, prefixes) = take_prefixes(plain.trim());
    let (rest, unsure) = take_doubt_at_end(rest);
    if rest.is_empty() {
        return Err(if plain.trim().is_empty() {
            NotationError::Empty
        } else {
            NotationError::Text
        });
    }
    let (value, unit) = measure(rest, marks)?;
    let is_length = unit
        .as_deref()
        .is_none_or(|unit| !matches!(unit, "H:V" | "%") && !unit.contains(['$', '/']));
    if prefixes.rod && !is_length {
        return Err(NotationError::Text);
    }
    Ok(Written {
        value,
        unit,
        rod: prefixes.rod,
        approximate: prefixes.approximate || unsure,
    })
}

#[derive(Default)]
struct Prefixes {
    rod: bool,
    approximate: bool,
}

fn take_prefixes(text: &str) -> (&str, Prefixes) {
    let mut prefixes = Prefixes::default();
    let mut rest = text;
    loop {
        if let Some(after) = rest
            .strip_prefix(['~', '≈'])
            .filter(|_| !prefixes.approximate)
        {
            (rest, prefixes.approximate) = (after.trim_start(), true);
            continue;
        }
        let (word, after) = word(rest);
        match word.to_lowercase().as_str() {
            "approx" | "approximately" | "about" | "ca" | "circa" if !prefixes.approximate => {
                rest = after.strip_prefix('.').unwrap_or(after).trim_start();
                prefixes.approximate = true;
            }
            "rod" if !prefixes.rod => {
                rest = after.trim_start();
                rest = rest.strip_prefix([':', '=']).unwrap_or(rest).trim_start();
                prefixes.rod = true;
            }
            _ => return (rest, prefixes),
        }
    }
}

fn take_doubt_at_end(text: &str) -> (&str, bool) {
    for doubt in ["±", "+/-", " approx.", " approx"] {
        if let Some(rest) = text.strip_suffix(doubt) {
            return (rest.trim_end(), true);
        }
    }
    (text, false)
}

/// The letters a text begins with, and what follows them.
fn word(text: &str) -> (&str, &str) {
    text.split_at(
        text.find(|character: char| !character.is_alphabetic())
            .unwrap_or(text.len()),
    )
}

fn measure(text: &str, marks: Marks) -> Result<(f64, Option<String>), NotationError> {
    let (text, negative) = take_sign(text);
    let (text, is_money) = match text.strip_prefix('$') {
        Some(after) => (after.trim_start(), true),
        None => (text, false),
    };
    let (text, inner_negative) = if is_money && !negative {
        take_sign(text)
    } else {
        (text, false)
    };
    let negative = negative || inner_negative;
    let (first, rest) = amount(text, marks)?;
    let (size, unit) = if is_money {
        (first.value, Some(money_unit(rest)?))
    } else if let Some(slope) = slope(first, rest, marks) {
        if negative {
            return Err(NotationError::BadSlope);
        }
        (slope?, Some("H:V".to_owned()))
    } else if let Some(inches) = inches_after_feet(rest, marks) {
        (feet_and_inches(first, inches?)?, Some("ft".to_owned()))
    } else {
        (first.value, unit_word(rest)?)
    };
    // Adding zero turns a negative zero into zero.
    Ok((if negative { -size } else { size } + 0.0, unit))
}

fn take_sign(text: &str) -> (&str, bool) {
    match text.strip_prefix(['-', '+']) {
        Some(rest) => (rest.trim_start(), text.starts_with('-')),
        None => (text, false),
    }
}

/// The inches of `12' 6 1/2"`, from what follows the number of feet. `None` if there are none.
fn inches_after_feet(rest: &str, marks: Marks) -> Option<Result<Amount, NotationError>> {
    let rest = rest.trim_start();
    let after = after_feet_mark(rest)?;
    if rest.starts_with('\'') && starts_with_three_digits(after) {
        return Some(Err(NotationError::Apostrophe));
    }
    let after_dash = after.trim_start();
    let after_dash = after_dash
        .strip_prefix('-')
        .unwrap_or(after_dash)
        .trim_start();
    if !after_dash.starts_with(|next: char| next.is_ascii_digit() || next == '.') {
        return None;
    }
    let (inches, end) = match amount(after_dash, marks) {
        Ok(found) => found,
        Err(problem) => return Some(Err(problem)),
    };
    let end = end.trim();
    // `12 ft2` is an area: a bare number of inches needs a space, a dash or a foot mark before it.
    let is_touching =
        after.starts_with(|next: char| next.is_ascii_digit()) && !rest.starts_with('\'');
    match end {
        "" if is_touching => None,
        "" => Some(Ok(inches)),
        _ if is_inch(end) => Some(Ok(inches)),
        _ if is_touching => None,
        _ => Some(Err(NotationError::TwoNumbers)),
    }
}

/// Whether three digits or more follow at once, as after a mark of thousands.
fn starts_with_three_digits(text: &str) -> bool {
    text.bytes().take_while(u8::is_ascii_digit).count() >= 3
}

fn after_feet_mark(text: &str) -> Option<&str> {
    if let Some(after) = text.strip_prefix('\'') {
        return Some(after);
    }
    let (word, after) = word(text);
    is_foot(word).then(|| after.strip_prefix('.').unwrap_or(after))
}

fn is_foot(word: &str) -> bool {
    ["'", "ft", "feet", "foot"]
        .iter()
        .any(|foot| word.eq_ignore_ascii_case(foot))
}

fn is_inch(word: &str) -> bool {
    let word = word.strip_suffix('.').unwrap_or(word);
    ["\"", "in", "inch", "inches"]
        .iter()
        .any(|inch| word.eq_ignore_ascii_case(inch))
}

fn feet_and_inches(feet: Amount, inches: Amount) -> Result<f64, NotationError> {
    let too_many = NotationError::TooManyDigits;
    let feet = feet.exact.ok_or(too_many)?;
    let inches = inches.exact.ok_or(too_many)?;
    if !feet.is_whole() {
        return Err(NotationError::NotWhole);
    }
    let part = inches.divided_by(Fraction::whole(12)).ok_or(too_many)?;
    if !part.is_below_one() {
        return Err(NotationError::TooManyInches);
    }
    feet.plus(part).and_then(Fraction::nearest).ok_or(too_many)
}

/// `$`, or `$/h` and the like from what follows an amount of money.
fn money_unit(rest: &str) -> Result<String, NotationError> {
    match unit_word(rest)? {
        None => Ok("$".to_owned()),
        Some(each) if each == "each" || each == "ea" => Ok("$/ea".to_owned()),
        Some(rate) if rate.starts_with('/') => Ok(format!("${rate}")),
        Some(_) => Err(NotationError::Text),
    }
}

/// The unit that a measure ends with, in its usual spelling.
fn unit_word(rest: &str) -> Result<Option<String>, NotationError> {
    let words: Vec<&str> = rest.split_whitespace().collect();
    let is_digit = |character: char| character.is_ascii_digit();
    if words.iter().any(|word| {
        word.trim_start_matches(['-', '+', '.', ',', '\'', '"'])
            .starts_with(is_digit)
    }) {
        return Err(NotationError::TwoNumbers);
    }
    let unit = words.join(" ").replace(" /", "/").replace("/ ", "/");
    let unit = unit
        .strip_prefix("per ")
        .map_or(unit.clone(), |over| format!("/{over}"));
    match unit.as_str() {
        "" => return Ok(None),
        _ if is_foot(unit.trim_end_matches('.')) => return Ok(Some("ft".to_owned())),
        _ if is_inch(&unit) => return Ok(Some("in".to_owned())),
        "/hour" | "/hr" | "/hr." => return Ok(Some("/h".to_owned())),
        _ => {}
    }
    let is_sign = |character: char| matches!(character, '/' | '.' | '%' | '$' | '²' | '³');
    let fits = unit
        .chars()
        .all(|c| c.is_alphabetic() || c.is_ascii_digit() || is_sign(c) || c == ' ');
    let starts_well = unit.starts_with(|c: char| c.is_alphabetic() || matches!(c, '/' | '%' | '$'));
    let divides_by_words = unit
        .split('/')
        .skip(1)
        .all(|over| over.starts_with(char::is_alphabetic));
    if !fits || !starts_well || !divides_by_words || words.len() > MOST_UNIT_WORDS {
        return Err(NotationError::Text);
    }
    Ok(Some(unit.trim_end_matches('.').to_owned()))
}

#[cfg(test)]
mod tests;
