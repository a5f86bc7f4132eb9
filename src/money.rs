//! Decimal amounts: the only rounding rule of the crate.
//!
//! A spreadsheet shows 15 significant digits and rounds what it shows, so that
//! 1.005 becomes 1.01 although the stored number is a little less. The same is done
//! here: a number is first taken as its nearest 15 digits, and these are rounded as
//! whole numbers, half away from zero.
//!
//! Always true:
//! - every function answers for every input: NaN and the infinities pass through
//!   the roundings, and a rounded zero has no sign;
//! - the result of [`round`] is the number nearest to the decimal it stands for;
//! - `round(quantity * rate, 2)` is the exact product rounded half away from zero, as
//!   long as the quantity has at most 3 decimals, the rate at most 4, and the product
//!   stays below 100,000,000.
//!
//! Not here: which quantities are rounded, and when. In formulas the same rules are
//! `ROUND(x,places)`, `ROUNDUP(ROUND(x,6),places)`, `ROUNDDOWN(ROUND(x,6),places)` and
//! `ROUNDUP(ROUND(x/m,6),0)*m`.

use rust_decimal::Decimal;

/// Decimals kept before rounding up, so that the dust of binary fractions costs no roll.
const PLACES_BEFORE_UP: i32 = 6;

/// More decimals than this are never shown: there are only 15 digits.
const MOST_PLACES_SHOWN: usize = 15;

/// Rounds half away from zero at `places` decimals, after taking 15 significant digits.
///
/// Negative places round to tens, hundreds and so on. The formula is `ROUND(value,places)`.
///
/// ```
/// assert_eq!(groundsheet::money::round(1.005, 2), 1.01);
/// assert_eq!(groundsheet::money::round(-1250.0, -2), -1300.0);
/// ```
#[must_use]
pub fn round(value: f64, places: i32) -> f64 {
    // Less than half a unit of the last place: the common case of a zero with some dust.
    if value.abs() < 1e-8 && places <= 7 {
        return 0.0;
    }
    match Digits::of(value) {
        Some(digits) => digits.rounded(places, Direction::Nearest).value(),
        None => value,
    }
}

/// Rounds away from zero at `places` decimals, after rounding to 6 decimals.
///
/// The formula is `ROUNDUP(ROUND(value,6),places)`. A result beyond the largest number
/// is infinite.
///
/// ```
/// assert_eq!(groundsheet::money::round_up(12.000_001, 0), 13.0);
/// assert_eq!(groundsheet::money::round_up(12.000_000_4, 0), 12.0);
/// ```
#[must_use]
pub fn round_up(value: f64, places: i32) -> f64 {
    if value.abs() < 1e-8 {
        return 0.0;
    }
    match Digits::of(value) {
        Some(digits) => digits
            .rounded(PLACES_BEFORE_UP, Direction::Nearest)
            .rounded(places, Direction::Up)
            .value(),
        None => value,
    }
}

/// Rounds toward zero at `places` decimals, after rounding to 6 decimals.
///
/// The formula is `ROUNDDOWN(ROUND(value,6),places)`.
///
/// ```
/// assert_eq!(groundsheet::money::round_down(12.999_999, 0), 12.0);
/// assert_eq!(groundsheet::money::round_down(12.999_999_6, 0), 13.0);
/// ```
#[must_use]
pub fn round_down(value: f64, places: i32) -> f64 {
    match Digits::of(value) {
        Some(digits) => digits
            .rounded(PLACES_BEFORE_UP, Direction::Nearest)
            .rounded(places, Direction::Down)
            .value(),
        None => value,
    }
}

/// The exact cents of an amount of money, rounded by [`round`] to 2 decimals.
///
/// An amount whose cents do not fit, or an infinite one, is the largest or smallest
/// `Decimal`. NaN gives zero, for want of anything better: check values before this.
#[must_use]
pub fn amount(value: f64) -> Decimal {
    let limit = if value > 0.0 {
        Decimal::MAX
    } else {
        Decimal::MIN
    };
    match Digits::of(value) {
        Some(digits) => digits
            .rounded(2, Direction::Nearest)
            .count_of_last_place(2)
            .and_then(|cents| Decimal::try_from_i128_with_scale(cents, 2).ok())
            .unwrap_or(limit),
        None if value.is_nan() => Decimal::ZERO,
        None => limit,
    }
}

/// A number for people: rounded by [`round`], thousands separated, a minus sign in front.
///
/// Never more than 15 decimals. A value that is not finite is shown as `n/a`.
///
/// ```
/// assert_eq!(groundsheet::money::show(1234.5, 2), "1,234.50");
/// ```
#[must_use]
pub fn show(value: f64, places: usize) -> String {
    let places = places.min(MOST_PLACES_SHOWN);
    let Some(digits) = Digits::of(value) else {
        return "n/a".to_owned();
    };
    let rounded = digits.rounded(i32::try_from(places).unwrap_or(0), Direction::Nearest);
    let sign = if rounded.negative && rounded.whole > 0 {
        "-"
    } else {
        ""
    };
    let text = rounded.without_point(places);
    let (whole, decimals) = text.split_at(text.len() - places);
    let point = if decimals.is_empty() { "" } else { "." };
    format!("{sign}{}{point}{decimals}", with_separators(whole))
}

fn with_separators(whole: &str) -> String {
    let mut text = String::with_capacity(whole.len() * 4 / 3 + 1);
    for (position, digit) in whole.chars().enumerate() {
        if position > 0 && (whole.len() - position).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[derive(Clone, Copy)]
enum Direction {
    /// Half away from zero.
    Nearest,
    /// Away from zero.
    Up,
    /// Toward zero.
    Down,
}

/// A finite number as `whole` × 10^`exponent`, with at most 15 digits, or 10^15 itself.
#[derive(Clone, Copy)]
struct Digits {
    negative: bool,
    whole: u64,
    exponent: i64,
}

/// Powers of ten that a double holds exactly end at 10^22.
const POWERS_FROM_MINUS_8: [f64; 31] = [
    1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1, 1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8,
    1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

const WHOLE_POWERS: [u128; 23] = {
    let mut powers = [1; 23];
    let mut index = 1;
    while index < 23 {
        powers[index] = powers[index - 1] * 10;
        index += 1;
    }
    powers
};

impl Digits {
    /// The 15 digits nearest to a number; `None` if it is not finite.
    #[inline]
    fn of(value: f64) -> Option<Self> {
        let size = value.abs();
        let (whole, exponent) = if (1e-8..1e22).contains(&size) {
            digits_by_whole_numbers(size)
        } else if size == 0.0 {
            (0, 0)
        } else if value.is_finite() {
            digits_by_text(size)
        } else {
            return None;
        };
        Some(Self {
            negative: value < 0.0,
            whole,
            exponent,
        })
    }

    #[inline]
    fn rounded(self, places: i32, direction: Direction) -> Self {
        let dropped = -i64::from(places) - self.exponent;
        if dropped <= 0 {
            return self;
        }
        // 10^17 is far above twice the digits, so that everything is dropped.
        let unit = usize::try_from(dropped).map_or(17, |dropped| dropped.min(17));
        #[allow(clippy::cast_possible_truncation, reason = "at most 10^17")]
        let unit = WHOLE_POWERS[unit] as u64;
        let rest = self.whole % unit;
        let goes_up = match direction {
            Direction::Nearest => rest >= unit / 2,
            Direction::Up => rest > 0,
            Direction::Down => false,
        };
        let whole = self.whole / unit + u64::from(goes_up);
        Self {
            whole,
            exponent: -i64::from(places),
            ..self
        }
    }

    /// The number nearest to these digits: both factors are exact, so one step is right.
    #[inline]
    fn value(self) -> f64 {
        #[allow(clippy::cast_precision_loss, reason = "at most 10^15, below 2^53")]
        let whole = self.whole as f64;
        let power = usize::try_from(self.exponent.unsigned_abs()).unwrap_or(usize::MAX);
        let size = match POWERS_FROM_MINUS_8.get(power.saturating_add(8)) {
            _ if self.whole == 0 => return 0.0,
            Some(power) if self.exponent < 0 => whole / power,
            Some(power) => whole * power,
            None => format!("{}e{}", self.whole, self.exponent)
                .parse()
                .unwrap_or(f64::NAN),
        };
        if self.negative { -size } else { size }
    }

    /// How many units of the last of `places` decimals these digits are, with sign.
    fn count_of_last_place(self, places: i64) -> Option<i128> {
        let power = usize::try_from(self.exponent + places).ok()?;
        if self.whole == 0 {
            return Some(0);
        }
        let power = i128::try_from(*WHOLE_POWERS.get(power)?).ok()?;
        let count = i128::from(self.whole).checked_mul(power)?;
        Some(if self.negative { -count } else { count })
    }

    /// All digits down to the last of `places` decimals, with a zero before the point.
    fn without_point(self, places: usize) -> String {
        let zeros = match self.whole {
            0 => 0,
            _ => usize::try_from(self.exponent).map_or_else(
                |_| {
                    places
                        - usize::try_from(-self.exponent)
                            .unwrap_or(places)
                            .min(places)
                },
                |power| power + places,
            ),
        };
        let text = format!("{}{}", self.whole, "0".repeat(zeros));
        format!("{text:0>width$}", width = places + 1)
    }
}

/// The 15 digits of a number from 1e-8 up to 1e22, exactly, half away from zero.
#[inline]
fn digits_by_whole_numbers(size: f64) -> (u64, i64) {
    let bits = size.to_bits();
    let mantissa = u128::from(bits & ((1 << 52) - 1) | (1 << 52));
    let binary = i32::try_from(bits >> 52).unwrap_or(0) - 1075;
    let dropped = decimal_magnitude(size, binary + 52) - 14;
    let tens = WHOLE_POWERS[dropped.unsigned_abs() as usize];
    let digits = if dropped <= 0 {
        // Here `binary` lies in -79..=-3, and the product stays below 2^127.
        (mantissa * tens + (1 << (-binary - 1))) >> -binary
    } else {
        let (over, under) = (mantissa << binary.max(0), tens << (-binary).max(0));
        (over + under / 2) / under
    };
    (u64::try_from(digits).unwrap_or(0), i64::from(dropped))
}

/// The power of ten of the first digit, from the binary exponent and one comparison.
#[inline]
fn decimal_magnitude(size: f64, binary: i32) -> i32 {
    let least = (binary * 1233) >> 12; // 1233/4096 is a little less than log10(2)
    let next = usize::try_from(least + 9).unwrap_or(0);
    if size >= POWERS_FROM_MINUS_8[next] {
        least + 1
    } else {
        least
    }
}

/// The same for numbers too small or too large for whole-number arithmetic.
fn digits_by_text(size: f64) -> (u64, i64) {
    let text = format!("{size:.14e}");
    let (digits, exponent) = text.split_once('e').unwrap_or(("0", "0"));
    let digits = digits.replace('.', "").parse().unwrap_or(0);
    (digits, exponent.parse().unwrap_or(0) - 14)
}

/// A number for a sentence: at most six decimals, none of them idle zeros.
#[must_use]
pub fn trimmed(value: f64) -> String {
    let text = show(value, 6);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests;
