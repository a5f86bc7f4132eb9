//! Exact fractions: how many of one unit make another.

/// An exact positive fraction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ratio {
    /// Above the line.
    pub numerator: i128,
    /// Below the line.
    pub denominator: i128,
}

impl Ratio {
    /// One to one.
    pub const ONE: Ratio = Ratio {
        numerator: 1,
        denominator: 1,
    };

    pub(super) const fn new(numerator: i128, denominator: i128) -> Self {
        let divisor = greatest_common_divisor(numerator, denominator);
        Self {
            numerator: numerator / divisor,
            denominator: denominator / divisor,
        }
    }

    pub(super) fn times(self, other: Ratio) -> Option<Ratio> {
        let across = Ratio::new(self.numerator, other.denominator);
        let down = Ratio::new(other.numerator, self.denominator);
        Some(Ratio {
            numerator: across.numerator.checked_mul(down.numerator)?,
            denominator: across.denominator.checked_mul(down.denominator)?,
        })
    }

    pub(super) const fn upside_down(self) -> Ratio {
        Ratio {
            numerator: self.denominator,
            denominator: self.numerator,
        }
    }

    /// The two whole numbers, where a spreadsheet number holds both exactly.
    #[must_use]
    pub fn whole_numbers(self) -> Option<(f64, f64)> {
        const EXACT: i128 = 1 << 53;
        if self.numerator > EXACT || self.denominator > EXACT {
            return None;
        }
        #[allow(
            clippy::cast_precision_loss,
            reason = "both were just checked to be exact"
        )]
        Some((self.numerator as f64, self.denominator as f64))
    }

    /// A value times this ratio: multiplied first, then divided, as the formula does.
    #[must_use]
    pub fn apply(self, value: f64) -> f64 {
        let (over, under) = self.factors();
        value * over / under
    }

    /// What [`Ratio::apply`] multiplies by, and what it then divides by.
    pub(crate) fn factors(self) -> (f64, f64) {
        self.whole_numbers().unwrap_or((f64::NAN, 1.0))
    }
}

const fn greatest_common_divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    if a == 0 { 1 } else { a }
}
