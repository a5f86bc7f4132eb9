//! Decimal marks: what a comma and a point are in the numbers of a job's files.
//!
//! Always true: what the numbers of the files say is found once over all of them, and used
//! for plain numbers and for field notation alike. A number that says by itself which of
//! its marks parts off the decimals (`3,8`, `0,125`, `1.234,5`) is read by itself; only one
//! mark before exactly three digits (`1,250`) needs the others.

use crate::place::Place;

/// What one mark is before exactly three digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// It parts off the decimals.
    Decimal,
    /// It sets thousands apart.
    Thousands,
    /// Nothing says which.
    Unknown,
}

/// What a comma and a point are before exactly three digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marks {
    /// The comma of `1,250`.
    pub comma: Mark,
    /// The point of `1.250`.
    pub point: Mark,
}

impl Marks {
    /// Decimals after a point.
    pub const POINT: Self = Self {
        comma: Mark::Thousands,
        point: Mark::Decimal,
    };

    /// Decimals after a comma.
    pub const COMMA: Self = Self {
        comma: Mark::Decimal,
        point: Mark::Thousands,
    };

    /// What a mark, a comma or a point, is.
    pub(super) fn of(self, mark: &str) -> Mark {
        if mark == "," { self.comma } else { self.point }
    }
}

/// Where the numbers of a job's files show their decimal mark.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MarksSeen {
    /// The first number whose decimals stand after a point.
    pub point: Option<Place>,
    /// The first number whose decimals stand after a comma.
    pub comma: Option<Place>,
    /// Whether a text file parts its fields by semicolons, as programs do that write
    /// decimals after a comma.
    pub semicolons: bool,
}

impl MarksSeen {
    /// What the marks are, as far as they have been seen. Where nothing says it, a point
    /// is read as a decimal point, and a comma before three digits is not read.
    #[must_use]
    pub fn marks(&self) -> Marks {
        match (&self.point, &self.comma) {
            (Some(_), None) => Marks::POINT,
            (None, Some(_)) => Marks::COMMA,
            (Some(_), Some(_)) => Marks {
                comma: Mark::Unknown,
                point: Mark::Unknown,
            },
            (None, None) if self.semicolons => Marks {
                comma: Mark::Decimal,
                point: Mark::Unknown,
            },
            (None, None) => Marks {
                comma: Mark::Unknown,
                point: Mark::Decimal,
            },
        }
    }

    /// Takes note of what the numbers of one cell show.
    pub fn note(&mut self, text: &str, place: impl FnOnce() -> Place) {
        let seen = match decimal_mark(text) {
            Some('.') => &mut self.point,
            Some(_) => &mut self.comma,
            None => return,
        };
        if seen.is_none() {
            *seen = Some(place());
        }
    }

    /// Why a number is not read, for people.
    #[must_use]
    pub fn told(&self) -> String {
        match (&self.point, &self.comma) {
            (Some(point), Some(comma)) => {
                format!("other numbers are written both ways: at {point}, and at {comma}")
            }
            _ => "no other number says which".to_owned(),
        }
    }
}

/// The decimal mark that a measure shows by itself, if it is a measure.
fn decimal_mark(text: &str) -> Option<char> {
    if !text.contains(['.', ',']) || super::parse(text).is_err() {
        return None;
    }
    let is_part = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    text.split(|c| !is_part(c)).find_map(mark_of_run)
}

/// The decimal mark that a run of digits and marks shows by itself.
fn mark_of_run(run: &str) -> Option<char> {
    let at = run.rfind(['.', ','])?;
    let (head, tail) = (&run[..at], &run[at + 1..]);
    let (mark, other) = if run[at..].starts_with(',') {
        (',', '.')
    } else {
        ('.', ',')
    };
    // Several of one mark set thousands apart.
    if head.contains(mark) {
        return Some(other);
    }
    let says = tail.starts_with(|c: char| c.is_ascii_digit()) && !is_lone_three(run);
    says.then_some(mark)
}

/// Whether a run of digits has one mark, before exactly three digits, that may set
/// thousands apart or part off decimals. Nobody sets thousands apart after a zero, nor
/// with a point after four digits.
pub(super) fn is_lone_three(run: &str) -> bool {
    let Some(at) = run.find(['.', ',']) else {
        return false;
    };
    let (head, tail) = (&run[..at], &run[at + 1..]);
    let is_point = run[at..].starts_with('.');
    let three = tail.len() == 3 && tail.bytes().all(|byte| byte.is_ascii_digit());
    let most = if is_point { 3 } else { usize::MAX };
    three && (1..=most).contains(&head.len()) && !head.starts_with('0')
}
