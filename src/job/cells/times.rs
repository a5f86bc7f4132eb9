//! Dates, times of day and lengths of time in cells, as a person sees them.

use crate::graph::words;
use crate::read::Content;

const SECONDS: f64 = 86_400.0;

/// A date, a time of day, or both.
pub(super) fn date(serial: f64) -> String {
    let time = serial - serial.floor();
    if serial < 1.0 {
        clock(serial)
    } else if time == 0.0 {
        words::day(serial)
    } else {
        format!("{} {}", words::day(serial), clock(time))
    }
}

/// Hours and minutes, and seconds where there are any: `36:30`.
pub(super) fn clock(days: f64) -> String {
    let seconds = (days * SECONDS).round();
    let sign = if seconds < 0.0 { "-" } else { "" };
    let seconds = seconds.abs();
    let (hours, rest) = ((seconds / 3600.0).floor(), seconds % 3600.0);
    let (minutes, seconds) = ((rest / 60.0).floor(), rest % 60.0);
    if seconds == 0.0 {
        format!("{sign}{hours}:{minutes:02}")
    } else {
        format!("{sign}{hours}:{minutes:02}:{seconds:02}")
    }
}

/// What a cell of time holds, for a message.
pub(super) fn kind_of(content: &Content) -> &'static str {
    match content {
        Content::Date(serial) if *serial < 1.0 => " (a time of day)",
        Content::Date(_) => " (a date)",
        Content::Duration(_) => " (a length of time)",
        _ => "",
    }
}

/// The hours of a cell that shows `36:30`, as a length of time, a time of day or text.
pub(super) fn hours(content: &Content) -> Option<f64> {
    match content {
        Content::Duration(days) => Some((days * SECONDS).round() / 3600.0),
        Content::Date(serial) if (0.0..1.0).contains(serial) => {
            Some((serial * SECONDS).round() / 3600.0)
        }
        Content::Text(text) => hours_of(text.trim()),
        _ => None,
    }
}

fn hours_of(text: &str) -> Option<f64> {
    let mut fields = text.splitn(3, ':');
    let hours = fields.next().filter(|field| !field.is_empty())?;
    let sixtieths = |field: &str| {
        let number: f64 = whole(field)?;
        (field.len() == 2 && number < 60.0).then_some(number)
    };
    let minutes = sixtieths(fields.next()?)?;
    let seconds = fields.next().map_or(Some(0.0), sixtieths)?;
    Some(whole(hours)? + (minutes * 60.0 + seconds) / 3600.0)
}

fn whole(digits: &str) -> Option<f64> {
    let plain = digits.len() <= 5 && digits.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| digits.parse().ok()).flatten()
}

/// The slope that was typed, such as `2:1`, where a number or a time is exactly the time of day that a
/// spreadsheet makes of it. Minutes over the day that end as decimals are left alone: they
/// can be meant as numbers.
pub(super) fn typed_as_slope(content: &Content) -> Option<String> {
    const MOST: u32 = 20;
    let (Content::Number(days) | Content::Date(days) | Content::Duration(days)) = content else {
        return None;
    };
    let minutes = days * 1440.0;
    let whole = minutes.round();
    if !(61.0..1440.0).contains(&whole) || (minutes - whole).abs() > 1e-6 || whole % 9.0 == 0.0 {
        return None;
    }
    let sides = |first: u32| (1..=MOST).map(move |second| (first, second));
    let mut typed = (1..=MOST).flat_map(sides);
    let is_it = |(first, second): &(u32, u32)| (f64::from(first * 60 + second) - whole).abs() < 0.5;
    let found = typed.find(is_it)?;
    Some(format!("{}:{}", found.0, found.1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_are_read_from_whatever_shows_them() {
        // 36 h 30 min is 2,190 of the 1,440 minutes of a day; 2 h 30 min is 150.
        let rows = [
            (Content::Duration(2190.0 / 1440.0), Some(36.5)),
            (Content::Date(150.0 / 1440.0), Some(2.5)),
            (Content::Text("36:30".to_owned()), Some(36.5)),
            (Content::Text("2:30:00".to_owned()), Some(2.5)),
            (Content::Text("2:1".to_owned()), None),
            (Content::Text("2:75".to_owned()), None),
            (Content::Date(46_000.5), None),
            (Content::Number(2.5), None),
        ];
        for (content, expected) in rows {
            assert_eq!(hours(&content), expected, "{content:?}");
        }
    }

    #[test]
    fn times_are_shown_as_a_spreadsheet_shows_them() {
        assert_eq!(date(121.0 / 1440.0), "2:01");
        assert_eq!(date(36_526.0), "2000-01-01");
        assert_eq!(date(36_526.5), "2000-01-01 12:00");
        assert_eq!(clock(2190.0 / 1440.0), "36:30");
        assert_eq!(clock(1.0 / 86_400.0), "0:00:01");
        assert_eq!(clock(-0.25), "-6:00");
    }

    #[test]
    fn only_the_exact_time_of_a_slope_is_one() {
        // 2:01 at night is minute 121 of 1,440; 1:02 is minute 62, and 10:01 is minute 601.
        for (minute, slope) in [
            (121.0, "2:1"),
            (62.0, "1:2"),
            (601.0, "10:1"),
            (182.0, "3:2"),
        ] {
            let typed = typed_as_slope(&Content::Number(minute / 1440.0));
            assert_eq!(typed.as_deref(), Some(slope), "{minute}");
        }
        for number in [0.0, 0.05, 0.084, 0.25, 1.0 / 3.0, 0.5, 1.0, 2.0, 0.16875] {
            assert_eq!(typed_as_slope(&Content::Number(number)), None, "{number}");
        }
    }
}
