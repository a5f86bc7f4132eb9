//! Texts as they are found in field books, and what they mean by hand arithmetic.

use proptest::prelude::*;

use super::*;

fn value_and_unit(text: &str) -> (f64, String) {
    let written = parse(text).unwrap_or_else(|problem| panic!("{text:?}: {problem}"));
    (written.value, written.unit.unwrap_or_default())
}

fn check(rows: &[(&str, f64, &str)]) {
    for (text, value, unit) in rows {
        let (read, named) = value_and_unit(text);
        assert_eq!(
            (read.to_bits(), named.as_str()),
            (value.to_bits(), *unit),
            "{text:?} gives {read}"
        );
    }
}

#[test]
fn feet_with_inches_are_one_number_of_feet() {
    // The value is inches / 12, or parts of an inch / (12 × parts).
    check(&[
        ("12' 6 1/2\"", 301.0 / 24.0, "ft"),
        ("12'-6\"", 12.5, "ft"),
        ("12' - 6\"", 12.5, "ft"),
        ("12'–6″", 12.5, "ft"),
        ("12' 6", 12.5, "ft"),
        ("12'6", 12.5, "ft"),
        ("12'6\"", 12.5, "ft"),
        ("12ft6in", 12.5, "ft"),
        ("12 ft 6 in", 12.5, "ft"),
        ("12 ft. 6 in.", 12.5, "ft"),
        ("12 feet 6 inches", 12.5, "ft"),
        ("12ft2in", 146.0 / 12.0, "ft"),
        ("12' 0\"", 12.0, "ft"),
        ("12’ 6”", 12.5, "ft"),
        ("12′ 6″", 12.5, "ft"),
        ("12' 6''", 12.5, "ft"),
        ("12'\u{a0}6\u{202f}½\"", 301.0 / 24.0, "ft"),
        ("12'-6-1/2\"", 301.0 / 24.0, "ft"),
        ("12' ½\"", 289.0 / 24.0, "ft"),
        ("0' 3/16\"", 3.0 / 192.0, "ft"),
        ("-1' 6\"", -1.5, "ft"),
        ("1,250' 3\"", 1250.25, "ft"),
        ("5' 7.5\"", 5.625, "ft"),
        ("1'", 1.0, "ft"),
        ("4 1/2'", 4.5, "ft"),
        ("12 FT", 12.0, "ft"),
        ("-0.5 ft", -0.5, "ft"),
        ("+2 ft", 2.0, "ft"),
    ]);
}

#[test]
fn the_unit_is_the_word_after_the_number() {
    check(&[
        ("18 in", 18.0, "in"),
        ("18in.", 18.0, "in"),
        ("1 3/4\"", 1.75, "in"),
        ("1-3/4\"", 1.75, "in"),
        ("1¾ in", 1.75, "in"),
        ("1 ¾ in", 1.75, "in"),
        ("½\"", 0.5, "in"),
        ("3⁄8 inch", 0.375, "in"),
        ("7/8''", 0.875, "in"),
        ("3.8 m", 3.8, "m"),
        ("3,8 m", 3.8, "m"),
        ("3.8m", 3.8, "m"),
        ("0,125 m", 0.125, "m"),
        ("12 ft2", 12.0, "ft2"),
        ("12ft2", 12.0, "ft2"),
        ("12ft²", 12.0, "ft²"),
        ("450 sq ft", 450.0, "sq ft"),
        ("450 sq. ft.", 450.0, "sq. ft"),
        ("27 yd3 bank", 27.0, "yd3 bank"),
        ("1,250 gal", 1250.0, "gal"),
        ("60 gpm", 60.0, "gpm"),
        ("10 L / min", 10.0, "L/min"),
        ("15 %", 15.0, "%"),
        ("15%", 15.0, "%"),
        ("6 rolls", 6.0, "rolls"),
        ("60 mil", 60.0, "mil"),
    ]);
}

#[test]
fn separators_follow_the_groups_of_three() {
    check(&[
        ("12", 12.0, ""),
        (" 12.50 ", 12.5, ""),
        (".5", 0.5, ""),
        ("5.", 5.0, ""),
        ("-0", 0.0, ""),
        ("−3", -3.0, ""),
        ("1,25", 1.25, ""),
        ("1,250", 1250.0, ""),
        ("1.250", 1.25, ""),
        ("12,500.5", 12500.5, ""),
        ("1.250,5", 1250.5, ""),
        ("1,250,000", 1_250_000.0, ""),
        ("1.250.000,25", 1_250_000.25, ""),
        ("1.5E+02", 150.0, ""),
        ("2e-3 m", 0.002, "m"),
        ("3/4", 0.75, ""),
    ]);
}

#[test]
fn slopes_are_horizontal_to_vertical() {
    check(&[
        ("2:1", 2.0, "H:V"),
        ("2 : 1", 2.0, "H:V"),
        ("1.5:1", 1.5, "H:V"),
        ("1 1/2 : 1", 1.5, "H:V"),
        ("2H:1V", 2.0, "H:V"),
        ("1v:2h", 2.0, "H:V"),
        ("2:1 H:V", 2.0, "H:V"),
        ("0:1", 0.0, "H:V"),
        ("1:1", 1.0, "H:V"),
        ("0.5:1", 0.5, "H:V"),
        ("¾:1", 0.75, "H:V"),
        ("3:2", 1.5, "H:V"),
        ("2 to 1", 2.0, "H:V"),
        ("2H to 1V", 2.0, "H:V"),
        ("2 horizontal to 1 vertical", 2.0, "H:V"),
        ("1 vertical : 2 horizontal", 2.0, "H:V"),
        ("1:2 H:V", 0.5, "H:V"),
        ("1:2 v:h", 2.0, "H:V"),
        ("1H:2V", 0.5, "H:V"),
        ("3/1", 3.0, ""),
    ]);
}

#[test]
fn a_slope_that_many_write_the_other_way_round_is_refused() {
    for text in [
        "1:2", "1 : 1.5", "2:3", "1 to 2", "1 in 2", "1 : 2.0", "0.5:2",
    ] {
        assert_eq!(parse(text), Err(NotationError::EitherWay), "{text:?}");
    }
    assert_eq!(parse("6 in 2 ft"), Err(NotationError::TwoNumbers));
}

#[test]
fn money_and_rates_keep_their_line() {
    check(&[
        ("$1,234.50", 1234.5, "$"),
        ("-$45", -45.0, "$"),
        ("$-45", -45.0, "$"),
        ("$45/h", 45.0, "$/h"),
        ("45/h", 45.0, "/h"),
        ("45 per hour", 45.0, "/h"),
        ("45 $/h", 45.0, "$/h"),
        ("$3.20 / ft2", 3.2, "$/ft2"),
        ("$3.20 per ft2", 3.2, "$/ft2"),
        ("$12 each", 12.0, "$/ea"),
    ]);
}

#[test]
fn rods_and_doubts_are_marked() {
    // Text, value, unit, rod, approximate.
    let rows = [
        ("rod 4.52", 4.52, "", true, false),
        ("Rod: 4.52 m", 4.52, "m", true, false),
        ("rod 4' 6 1/4\"", 217.0 / 48.0, "ft", true, false),
        ("rod ~4.5", 4.5, "", true, true),
        ("approx 12 ft", 12.0, "ft", false, true),
        ("approx. 12 ft", 12.0, "ft", false, true),
        ("About 12'", 12.0, "ft", false, true),
        ("~12 ft", 12.0, "ft", false, true),
        ("≈ 12 ft", 12.0, "ft", false, true),
        ("ca. 12 ft", 12.0, "ft", false, true),
        ("ca 12 ft", 12.0, "ft", false, true),
        ("12 ft +/-", 12.0, "ft", false, true),
        ("12 ft ±", 12.0, "ft", false, true),
        ("12 ft", 12.0, "ft", false, false),
    ];
    for (text, value, unit, rod, approximate) in rows {
        let unit = (!unit.is_empty()).then(|| unit.to_owned());
        assert_eq!(
            parse(text),
            Ok(Written {
                value,
                unit,
                rod,
                approximate
            }),
            "{text:?}"
        );
    }
}

#[test]
fn bad_notation_is_refused_with_a_reason() {
    use NotationError as E;
    let long = format!("12 {}", "m".repeat(LONGEST_TEXT));
    let rows = [
        ("", E::Empty),
        (" \u{a0}\t", E::Empty),
        (long.as_str(), E::TooLong),
        ("n/a", E::Text),
        ("see note", E::Text),
        ("about", E::Text),
        ("rod", E::Text),
        ("rod $4", E::Text),
        ("$", E::Text),
        ("$45k", E::Text),
        ("--4", E::Text),
        ("12 ft?", E::Text),
        ("12 of those that we saw there", E::Text),
        ("12 m/", E::Text),
        ("€ 12", E::Text),
        ("٣ m", E::Text),
        ("10-12 ft", E::TwoNumbers),
        ("10 12", E::TwoNumbers),
        ("12 x 14", E::TwoNumbers),
        ("12 ft 3 m", E::TwoNumbers),
        ("2 m 50 cm", E::TwoNumbers),
        ("6\" 3'", E::TwoNumbers),
        ("12' 6\" 3", E::TwoNumbers),
        ("1 250 gal", E::TwoNumbers),
        ("1,25,000", E::Grouping),
        ("12,50.5", E::Grouping),
        ("1.2.3", E::Grouping),
        ("1,,250", E::Grouping),
        ("1234,567,890", E::Grouping),
        ("1'000", E::Apostrophe),
        ("1’000.50", E::Apostrophe),
        ("12'500 m", E::Apostrophe),
        ("1/0\"", E::BadFraction),
        ("3 5/4\"", E::BadFraction),
        ("1.5 1/2\"", E::NotWhole),
        ("12.5' 6\"", E::NotWhole),
        ("12' 12\"", E::TooManyInches),
        ("12' 6 12/12\"", E::BadFraction),
        ("1/2/2024", E::Text),
        ("2:0", E::BadSlope),
        ("2H:1H", E::Text),
        ("-2:1", E::BadSlope),
        ("1e400", E::TooManyDigits),
        ("12' 6.12345678901234567890\"", E::TooManyDigits),
    ];
    for (text, problem) in rows {
        assert_eq!(parse(text), Err(problem), "{text:?}");
    }
}

/// Whether a positive double is the nearest one to a fraction: the fraction lies
/// between the middles towards both neighbours. Checked in whole numbers.
fn is_nearest(value: f64, over: i128, under: i128) -> bool {
    let middle_is_below = |low: f64, high: f64| {
        let scale = f64::from(1_u32 << 30) * f64::from(1_u32 << 30);
        #[allow(
            clippy::cast_possible_truncation,
            reason = "lengths here are whole in units of 2^-60"
        )]
        let middle_doubled = (low * scale) as i128 + (high * scale) as i128;
        (middle_doubled * under).cmp(&(over * 2 * (1_i128 << 60)))
    };
    let down = middle_is_below(value.next_down(), value);
    let up = middle_is_below(value, value.next_up());
    down.is_le() && up.is_ge()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_is_too_strange(text in "\\PC{0,220}") {
        let _ = parse(&text);
    }

    #[test]
    fn nothing_made_of_familiar_parts_is_too_strange(
        parts in prop::collection::vec(
            prop::sample::select(vec![
                "12", "6", "1/2", "½", "'", "\"", "''", " ", "ft", "in", "-", ".", ",", ":", "/", "$", "%", "e", "E+",
                "rod", "about", "~", "per", "h", "250", "0", "²", "+", "±", "99999999999999999999", "\u{a0}",
            ]),
            0..14,
        )
    ) {
        if let Ok(written) = parse(&parts.concat()) {
            prop_assert!(written.value.is_finite());
        }
    }

    #[test]
    fn feet_inches_and_sixteenths_are_the_nearest_number(
        feet in 1..100_000_u32, inches in 0..12_u32, sixteenths in 1..16_u32, style in 0..4_usize,
    ) {
        let text = match style {
            0 => format!("{feet}' {inches} {sixteenths}/16\""),
            1 => format!("{feet}'-{inches}-{sixteenths}/16\""),
            2 => format!("{feet} ft {inches} {sixteenths}/16 in"),
            _ => format!("{feet}ft{inches} {sixteenths}⁄16”"),
        };
        let all = (i128::from(feet) * 12 + i128::from(inches)) * 16 + i128::from(sixteenths);
        let (value, unit) = value_and_unit(&text);
        prop_assert_eq!(unit, "ft");
        prop_assert!(is_nearest(value, all, 192), "{}: {}", text, value);
    }

    #[test]
    fn plain_decimals_are_read_as_rust_reads_them(whole in 0..10_000_000_u64, decimals in 0..100_000_000_u64) {
        let text = format!("{whole}.{decimals:08}");
        prop_assert_eq!(value_and_unit(&text).0.to_bits(), text.parse::<f64>().unwrap().to_bits());
        let with_unit = format!("{text} m");
        prop_assert_eq!(value_and_unit(&with_unit), (text.parse::<f64>().unwrap(), "m".to_owned()));
    }
}
