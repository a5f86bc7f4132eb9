//! Slopes as written: `2:1`, `2H:1V`, `1V:2H`, `2 to 1`.
//!
//! Always true: two bare numbers are horizontal to vertical, as headings say. Where the
//! first is the smaller and the second is not one, the writer may have meant vertical to
//! horizontal, as many do (`1:2`), and neither is chosen.

use super::marks::Marks;
use super::number::{Amount, Fraction, amount};
use super::{NotationError, word};

/// The side of a slope that a number measures.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Run,
    Rise,
}

/// A slope from its first number on; `None` if it is no slope at all.
pub(super) fn slope(first: Amount, rest: &str, marks: Marks) -> Option<Result<f64, NotationError>> {
    let (first_is, rest) = side(rest);
    let rest = after_joint(rest.trim_start(), first.value)?;
    let (second, rest) = amount(rest.trim_start(), marks).ok()?;
    let (second_is, rest) = side(rest);
    let sides = match rest.trim().to_lowercase().as_str() {
        "" => (first_is, second_is),
        "h:v" if first_is.is_none() && second_is.is_none() => (Some(Side::Run), Some(Side::Rise)),
        "v:h" if first_is.is_none() && second_is.is_none() => (Some(Side::Rise), Some(Side::Run)),
        _ => return None,
    };
    let (run, rise) = match sides {
        (None, None) if has_two_readings(first, second) => {
            return Some(Err(NotationError::EitherWay));
        }
        (None, None) | (Some(Side::Run), Some(Side::Rise)) => (first, second),
        (Some(Side::Rise), Some(Side::Run)) => (second, first),
        _ => return None,
    };
    let ratio = run
        .exact
        .zip(rise.exact)
        .and_then(|(run, rise)| run.divided_by(rise));
    let ratio = ratio.and_then(Fraction::nearest);
    Some(ratio.ok_or(NotationError::BadSlope))
}

/// Whether two bare numbers may be meant vertical to horizontal. What ends in `:1` is
/// not, nor what has no run.
#[expect(
    clippy::float_cmp,
    reason = "a one and a zero that were written as such are exact"
)]
fn has_two_readings(first: Amount, second: Amount) -> bool {
    second.value != 1.0 && second.value != 0.0 && first.value != 0.0 && first.value < second.value
}

/// The side that letters or a word name, and what follows them.
fn side(text: &str) -> (Option<Side>, &str) {
    let text = text.trim_start();
    let (name, after) = word(text);
    let side = match name.to_lowercase().as_str() {
        // `H:V` behind both numbers is not the letter of one.
        "h" | "v" if after.starts_with(':') && !has_digit(after) => return (None, text),
        "h" | "hor" | "horiz" | "horizontal" | "run" => Side::Run,
        "v" | "vert" | "vertical" | "rise" => Side::Rise,
        _ => return (None, text),
    };
    (Some(side), after)
}

fn has_digit(text: &str) -> bool {
    text.contains(|c: char| c.is_ascii_digit())
}

/// What follows the colon or the word between the two numbers: `2:1`, `2 to 1`, `1 in 2`.
fn after_joint(text: &str, first: f64) -> Option<&str> {
    if let Some(after) = text.strip_prefix(':') {
        return Some(after);
    }
    let (between, after) = word(text);
    match between.to_lowercase().as_str() {
        "to" => Some(after),
        "in" if first <= 1.0 => Some(after),
        _ => None,
    }
}
