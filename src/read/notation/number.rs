//! Numbers as written: separators, decimals, fractions, and exact sums of them.
//!
//! Always true: [`amount`] takes a number from the front of a text and leaves the rest;
//! `value` is the double nearest to what is written, and `exact` is the same as a
//! fraction of whole numbers, where it fits.

use super::NotationError;
use super::marks::{Mark, Marks, is_lone_three};

/// A number without sign.
#[derive(Clone, Copy, Debug)]
pub(super) struct Amount {
    pub(super) value: f64,
    pub(super) exact: Option<Fraction>,
}

/// A fraction of whole numbers, not below zero.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fraction {
    over: i128,
    under: i128,
}

impl Fraction {
    pub(super) fn whole(number: i128) -> Self {
        Self {
            over: number,
            under: 1,
        }
    }

    pub(super) fn is_whole(self) -> bool {
        self.over % self.under == 0
    }

    pub(super) fn is_below_one(self) -> bool {
        self.over < self.under
    }

    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let left = self.over.checked_mul(other.under)?;
        let right = other.over.checked_mul(self.under)?;
        let over = left.checked_add(right)?;
        Some(Self {
            over,
            under: self.under.checked_mul(other.under)?,
        })
    }

    /// `None` if the divisor is zero or the result too long.
    pub(super) fn divided_by(self, other: Self) -> Option<Self> {
        let over = self.over.checked_mul(other.under)?;
        let under = self
            .under
            .checked_mul(other.over)
            .filter(|under| *under > 0)?;
        Some(Self { over, under })
    }

    /// The nearest double, by one division of two numbers that doubles hold exactly.
    #[allow(
        clippy::cast_precision_loss,
        reason = "both are checked to be at most 2^53"
    )]
    pub(super) fn nearest(self) -> Option<f64> {
        const EXACT: i128 = 1 << 53;
        let divisor = greatest_common_divisor(self.over, self.under);
        let (over, under) = (self.over / divisor, self.under / divisor);
        (over <= EXACT && under <= EXACT).then(|| over as f64 / under as f64)
    }
}

/// The second number is above zero, and so is the result.
fn greatest_common_divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// Takes `12`, `3.8`, `1,250`, `3/4`, `1 3/4` or `1-3/4` from the front of a text.
pub(super) fn amount(text: &str, marks: Marks) -> Result<(Amount, &str), NotationError> {
    let (first, rest) = decimal(text, marks)?;
    if let Some((fraction, rest)) = fraction_line(first, rest, marks)? {
        return Ok((fraction, rest));
    }
    // Perhaps a whole number and a fraction; if not, the second number is left alone.
    let next = rest.trim_start();
    let next = next.strip_prefix('-').unwrap_or(next).trim_start();
    if next.len() < rest.len() && next.starts_with(|c: char| c.is_ascii_digit()) {
        let (over, after) = decimal(next, marks)?;
        if let Some((fraction, rest)) = fraction_line(over, after, marks)? {
            return Ok((mixed(first, fraction)?, rest));
        }
    }
    Ok((first, rest))
}

/// The fraction that begins with a number, if a line and another number follow.
fn fraction_line(
    over: Amount,
    rest: &str,
    marks: Marks,
) -> Result<Option<(Amount, &str)>, NotationError> {
    let Some(under) = rest.trim_start().strip_prefix('/') else {
        return Ok(None);
    };
    let under = under.trim_start();
    if !under.starts_with(|c: char| c.is_ascii_digit()) {
        return Ok(None);
    }
    let (under, rest) = decimal(under, marks)?;
    let (over, under) = over
        .exact
        .zip(under.exact)
        .ok_or(NotationError::TooManyDigits)?;
    if !over.is_whole() || !under.is_whole() {
        return Err(NotationError::NotWhole);
    }
    let exact = over.divided_by(under).ok_or(NotationError::BadFraction)?;
    Ok(Some((of_fraction(exact)?, rest)))
}

fn mixed(whole: Amount, fraction: Amount) -> Result<Amount, NotationError> {
    let (whole, part) = whole
        .exact
        .zip(fraction.exact)
        .ok_or(NotationError::TooManyDigits)?;
    if !whole.is_whole() {
        return Err(NotationError::NotWhole);
    }
    if !part.is_below_one() {
        return Err(NotationError::BadFraction);
    }
    of_fraction(whole.plus(part).ok_or(NotationError::TooManyDigits)?)
}

fn of_fraction(exact: Fraction) -> Result<Amount, NotationError> {
    let value = exact.nearest().ok_or(NotationError::TooManyDigits)?;
    Ok(Amount {
        value,
        exact: Some(exact),
    })
}

/// Takes digits with separators, a decimal part and a power of ten.
fn decimal(text: &str, marks: Marks) -> Result<(Amount, &str), NotationError> {
    let is_part = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let (run, rest) = text.split_at(text.find(|c| !is_part(c)).unwrap_or(text.len()));
    if !run.contains(|c: char| c.is_ascii_digit()) {
        return Err(NotationError::Text);
    }
    let (whole, decimals) = parts(run, marks)?;
    let (power, rest) = power_of_ten(rest);
    let value: f64 = format!("{whole}.{decimals}{power}")
        .parse()
        .map_err(|_| NotationError::Text)?;
    if !value.is_finite() {
        return Err(NotationError::TooManyDigits);
    }
    let exact = if power.is_empty() {
        exact_decimal(&whole, decimals)
    } else {
        None
    };
    Ok((Amount { value, exact }, rest))
}

fn exact_decimal(whole: &str, decimals: &str) -> Option<Fraction> {
    let decimals = decimals.trim_end_matches('0');
    let places = u32::try_from(decimals.len()).ok()?;
    let under = 10_i128.checked_pow(places)?;
    Some(Fraction {
        over: format!("0{whole}{decimals}").parse().ok()?,
        under,
    })
}

/// The whole digits without separators, and the decimals.
fn parts(run: &str, marks: Marks) -> Result<(String, &str), NotationError> {
    let Some(at) = run.rfind(['.', ',']) else {
        return Ok((run.to_owned(), ""));
    };
    let (head, mark, tail) = (&run[..at], &run[at..=at], &run[at + 1..]);
    if head.contains(mark) {
        return Ok((without_separators(run, mark)?, ""));
    }
    if is_lone_three(run) {
        match marks.of(mark) {
            Mark::Thousands => return Ok((without_separators(run, mark)?, "")),
            Mark::Unknown => return Err(NotationError::TwoReadings),
            Mark::Decimal => {}
        }
    }
    let other = if mark == "," { "." } else { "," };
    Ok((without_separators(head, other)?, tail))
}

fn without_separators(digits: &str, separator: &str) -> Result<String, NotationError> {
    let mut groups = digits.split(separator);
    let first = groups.next().unwrap_or("");
    let all_threes = groups.clone().all(|group| group.len() == 3);
    let is_parted = groups.next().is_some();
    let whole = digits.replace(separator, "");
    let first_fits = !is_parted || (1..=3).contains(&first.len());
    if all_threes && first_fits && !whole.contains(['.', ',']) {
        Ok(whole)
    } else {
        Err(NotationError::Grouping)
    }
}

/// `E+02` as spreadsheets write large and small numbers.
fn power_of_ten(rest: &str) -> (&str, &str) {
    let Some(power) = rest.strip_prefix(['e', 'E']) else {
        return ("", rest);
    };
    let digits = power.strip_prefix(['+', '-']).unwrap_or(power);
    let end = digits
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(digits.len());
    let follows = digits[end..].starts_with(char::is_alphabetic);
    if end == 0 || follows {
        return ("", rest);
    }
    rest.split_at(rest.len() - digits.len() + end)
}
