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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read::notation::{NotationError, parse, parse_with};

    /// What a text says under every set of marks: decimals after a point, after a comma, and
    /// where nothing tells. `None` is refused with a question.
    #[test]
    fn one_mark_before_three_digits_is_read_as_the_other_numbers_say() {
        let unknown = Marks {
            comma: Mark::Unknown,
            point: Mark::Unknown,
        };
        let rows = [
            ("1,250", Some(1250.0), Some(1.25), None),
            ("1.250", Some(1.25), Some(1250.0), None),
            ("1,250 gal", Some(1250.0), Some(1.25), None),
            ("$1,250", Some(1250.0), Some(1.25), None),
            ("0,125 m", Some(0.125), Some(0.125), Some(0.125)),
            ("0.125 m", Some(0.125), Some(0.125), Some(0.125)),
            ("3,8", Some(3.8), Some(3.8), Some(3.8)),
            ("3.8", Some(3.8), Some(3.8), Some(3.8)),
            ("1.234,5", Some(1234.5), Some(1234.5), Some(1234.5)),
            ("1,234.5", Some(1234.5), Some(1234.5), Some(1234.5)),
            (
                "1,234,567",
                Some(1_234_567.0),
                Some(1_234_567.0),
                Some(1_234_567.0),
            ),
            ("1234.567", Some(1234.567), Some(1234.567), Some(1234.567)),
            ("1250", Some(1250.0), Some(1250.0), Some(1250.0)),
        ];
        for (text, point, comma, none) in rows {
            for (marks, value) in [
                (Marks::POINT, point),
                (Marks::COMMA, comma),
                (unknown, none),
            ] {
                let read = parse_with(text, marks).map(|written| written.value);
                assert_eq!(
                    read,
                    value.ok_or(NotationError::TwoReadings),
                    "{text:?} {marks:?}"
                );
            }
        }
        assert_eq!(parse("1234,567"), Err(NotationError::Grouping));
    }

    /// The marks that texts show, with or without semicolons between their fields.
    fn marks_shown(texts: &[&str], semicolons: bool) -> Marks {
        let mut seen = MarksSeen {
            semicolons,
            ..MarksSeen::default()
        };
        for text in texts {
            seen.note(text, || crate::place::Place::file(text));
        }
        seen.marks()
    }

    #[test]
    fn the_numbers_of_the_files_show_their_marks() {
        let point: [&[&str]; 4] = [&["2.5"], &["rod 4.52"], &["1,250,000"], &["2.5", "1,250"]];
        for texts in point {
            assert_eq!(marks_shown(texts, false), Marks::POINT, "{texts:?}");
            assert_eq!(marks_shown(texts, true), Marks::POINT, "{texts:?}");
        }
        let comma: [&[&str]; 4] = [&["2,5"], &["0,125"], &["1.250.000"], &["1.250,5 m"]];
        for texts in comma {
            assert_eq!(marks_shown(texts, false), Marks::COMMA, "{texts:?}");
        }
    }

    #[test]
    fn where_no_number_shows_a_mark_a_comma_is_not_read() {
        let silent = [
            "1,250",
            "1.250",
            "12",
            "5.",
            "14, 15",
            "see 2,5 below",
            "20.11.2026",
        ];
        let (decimal, unknown) = (Mark::Decimal, Mark::Unknown);
        let marks = |comma, point| Marks { comma, point };
        assert_eq!(marks_shown(&silent, false), marks(unknown, decimal));
        assert_eq!(marks_shown(&silent, true), marks(decimal, unknown));
        assert_eq!(marks_shown(&[], false), marks(unknown, decimal));
        let both = ["2.5", "3,8 m"];
        assert_eq!(marks_shown(&both, false), marks(unknown, unknown));
    }
}
