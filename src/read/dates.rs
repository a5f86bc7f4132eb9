//! Dates of workbooks: which number formats show a date or a length of time, and ISO text
//! as serial days.
//!
//! Always true: a serial day counts as the 1900 system does, with its 29 February
//! 1900 that never was, so that day 61 is 1 March 1900.

use super::Content;
use crate::money;

/// Days by which the 1904 system lags behind the 1900 system.
pub(super) const DAYS_TO_1904: f64 = 1462.0;

/// How a number format shows a number.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum ShownAs {
    /// As a number.
    Number,
    /// As a length of time such as `[h]:mm`, which is a number of days.
    Duration,
    /// As a date or a time of day.
    Date,
    /// In hundredths: 0.15 as 15 %.
    Percent,
}

/// What a workbook says about its numbers.
#[derive(Default)]
pub(super) struct Formats {
    /// Number formats of the file: identifier and pattern.
    patterns: Vec<(u32, ShownAs)>,
    /// Format of each cell style.
    styles: Vec<ShownAs>,
    /// Whether days are counted from 1904.
    pub(super) from_1904: bool,
}

impl Formats {
    /// Adds a number format of the file.
    pub(super) fn add_pattern(&mut self, id: u32, pattern: &str) {
        self.patterns.push((id, shown_by(pattern)));
    }

    /// Adds the next cell style, which has this number format.
    pub(super) fn add_style(&mut self, id: u32) {
        let own = self.patterns.iter().rev().find(|(known, _)| *known == id);
        self.styles
            .push(own.map_or_else(|| built_in(id), |(_, shown)| *shown));
    }

    /// A number in a cell of this style.
    pub(super) fn number(&self, value: f64, style: usize) -> Content {
        match self.styles.get(style) {
            Some(ShownAs::Date) => Content::Date(value + self.days_to_1900()),
            Some(ShownAs::Duration) => Content::Duration(value),
            Some(ShownAs::Percent) => percent(value),
            _ => Content::Number(value),
        }
    }

    fn days_to_1900(&self) -> f64 {
        if self.from_1904 { DAYS_TO_1904 } else { 0.0 }
    }
}

/// Formats that no file spells out; 27 to 36 and 50 to 58 are dates in East Asia.
fn built_in(id: u32) -> ShownAs {
    match id {
        9 | 10 => ShownAs::Percent,
        46 => ShownAs::Duration,
        14..=22 | 27..=36 | 45 | 47 | 50..=58 => ShownAs::Date,
        _ => ShownAs::Number,
    }
}

/// A pattern shows a date if its first section has a letter of a date outside quotes and brackets.
fn shown_by(pattern: &str) -> ShownAs {
    let mut characters = pattern.chars();
    while let Some(character) = characters.next() {
        match character {
            ';' => break,
            // The next character stands for itself.
            '\\' | '_' | '*' => drop(characters.next()),
            '"' => drop(characters.find(|&end| end == '"')),
            '[' => {
                let inside: String = characters.by_ref().take_while(|&end| end != ']').collect();
                if is_duration(&inside) {
                    return ShownAs::Duration;
                }
            }
            'd' | 'D' | 'm' | 'M' | 'y' | 'Y' | 'h' | 'H' | 's' | 'S' => return ShownAs::Date,
            '%' => return ShownAs::Percent,
            _ if pattern.eq_ignore_ascii_case("General") => break,
            _ => {}
        }
    }
    ShownAs::Number
}

/// A fraction that a cell shows in hundredths, as the text a person sees: `15 %`. So it
/// means the same in a column of percentages and nothing anywhere else.
pub(super) fn percent(fraction: f64) -> Content {
    if !fraction.is_finite() {
        return Content::Number(fraction);
    }
    let shown = money::trimmed(fraction * 100.0).replace(',', "");
    Content::Text(format!("{shown} %"))
}

fn is_duration(inside: &str) -> bool {
    let lower = inside.to_ascii_lowercase();
    let all = |letter| !lower.is_empty() && lower.chars().all(|each| each == letter);
    all('h') || all('m') || all('s')
}

/// An ISO date, or date and time, as a serial day; `None` for anything else or before 1900.
pub(crate) fn serial_of_iso(text: &str) -> Option<f64> {
    let (date, time) = text
        .trim()
        .split_once(['T', ' '])
        .unwrap_or((text.trim(), ""));
    let mut fields = date.split('-');
    let year: i64 = whole(fields.next()?, 4)?;
    let month: i64 = whole(fields.next()?, 2)?;
    let day: i64 = whole(fields.next()?, 2)?;
    let in_month = (1..=12).contains(&month) && (1..=days_in_month(year, month)).contains(&day);
    if fields.next().is_some() || !in_month || year < 1900 {
        return None;
    }
    let since_1900 = days_before_year(year) - days_before_year(1900);
    let in_year = (1..month)
        .map(|before| days_in_month(year, before))
        .sum::<i64>()
        + day;
    let days = since_1900 + in_year;
    let days = if days > 59 { days + 1 } else { days };
    #[expect(clippy::cast_precision_loss, reason = "a four-digit year has few days")]
    Some(days as f64 + day_fraction(time)?)
}

/// An ISO duration such as `PT08H30M00S` as days.
pub(super) fn days_of_duration(text: &str) -> Option<f64> {
    let (sign, text) = text
        .strip_prefix('-')
        .map_or((1.0, text), |rest| (-1.0, rest));
    let mut seconds = 0.0;
    let mut rest = text.strip_prefix("PT")?;
    while let Some(end) = rest.find(|letter: char| letter.is_ascii_alphabetic()) {
        let amount = decimal(&rest[..end])?;
        seconds += match &rest[end..=end] {
            "H" => amount * 3600.0,
            "M" => amount * 60.0,
            "S" => amount,
            _ => return None,
        };
        rest = &rest[end + 1..];
    }
    rest.is_empty().then_some(sign * seconds / 86_400.0)
}

fn whole(digits: &str, length: usize) -> Option<i64> {
    let plain = digits.len() == length && digits.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| digits.parse().ok()).flatten()
}

fn decimal(digits: &str) -> Option<f64> {
    let plain = digits
        .bytes()
        .all(|byte| byte.is_ascii_digit() || byte == b'.');
    plain.then(|| digits.parse().ok()).flatten()
}

fn day_fraction(time: &str) -> Option<f64> {
    let time = time.trim_end_matches('Z');
    if time.is_empty() {
        return Some(0.0);
    }
    let mut seconds = 0.0;
    let mut unit = 3600.0;
    for field in time.splitn(3, ':') {
        seconds += decimal(field)? * unit;
        unit /= 60.0;
    }
    (seconds < 86_400.0).then_some(seconds / 86_400.0)
}

fn days_before_year(year: i64) -> i64 {
    let past = year - 1;
    past * 365 + past / 4 - past / 100 + past / 400
}

fn days_in_month(year: i64, month: i64) -> i64 {
    match month {
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn iso_dates_count_days_as_the_1900_system_does() {
        // Serial days as spreadsheet programs show them for these dates.
        let rows = [
            ("1900-01-01", 1.0),
            ("1900-02-28", 59.0),
            ("1900-03-01", 61.0),
            ("2000-01-01", 36_526.0),
            ("2024-02-29", 45_351.0),
            ("2026-05-01T12:00:00", 46_143.5),
        ];
        for (text, serial) in rows {
            assert_eq!(serial_of_iso(text), Some(serial), "{text}");
        }
        for text in [
            "2026-02-29",
            "1899-12-31",
            "2026-5-1",
            "2026-05-01-01",
            "2026-05-01T25:00",
            "",
        ] {
            assert_eq!(serial_of_iso(text), None, "{text}");
        }
    }

    #[test]
    fn durations_are_days() {
        assert_eq!(days_of_duration("PT12H00M00S"), Some(0.5));
        assert_eq!(days_of_duration("-PT6H"), Some(-0.25));
        assert_eq!(days_of_duration("P1D"), None);
        assert_eq!(days_of_duration("PT5"), None);
        assert_eq!(days_of_duration("PT1é"), None);
    }

    #[test]
    fn only_date_patterns_show_dates() {
        for pattern in [
            "yyyy-mm-dd",
            "d. mmm",
            "[$-409]h:mm AM/PM",
            "[Red]dd/mm/yy;@",
        ] {
            assert_eq!(shown_by(pattern), ShownAs::Date, "{pattern}");
        }
        for pattern in [
            "General",
            "0.00",
            "#,##0 \"days\"",
            "0\\d",
            "[Red]0",
            "0;dd",
        ] {
            assert_eq!(shown_by(pattern), ShownAs::Number, "{pattern}");
        }
        for pattern in ["[h]:mm:ss", "[Red][mm]:ss"] {
            assert_eq!(shown_by(pattern), ShownAs::Duration, "{pattern}");
        }
    }
}
