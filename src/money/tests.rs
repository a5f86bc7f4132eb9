//! What is known about rounding without us: spreadsheet answers and exact decimals.

use proptest::prelude::*;
use rust_decimal::RoundingStrategy::MidpointAwayFromZero;

use super::*;

/// Cases are few here; the same properties were run with millions of cases once.
const CASES: u32 = 2_000;

#[test]
fn halves_go_away_from_zero_as_in_a_spreadsheet() {
    let rows = [
        (1.005, 2, 1.01),
        (2.675, 2, 2.68),
        (1.255, 2, 1.26),
        (0.285 * 100.0, 0, 29.0),
        (8.325, 2, 8.33),
        (1.115, 2, 1.12),
        (-1.005, 2, -1.01),
        (0.5, 0, 1.0),
        (2.5, 0, 3.0),
        (-2.5, 0, -3.0),
        (0.004_999_999_999, 2, 0.0),
        (0.1 + 0.7, 1, 0.8),
        (1.05 * (0.0284 + 0.0046) - 0.0284, 4, 0.0063),
        (123.456, -1, 120.0),
        (125.0, -1, 130.0),
        (123.456, -3, 0.0),
        (999.995, 2, 1000.0),
        (0.999_999_999_999_999_9, 15, 1.0),
        (1e15, 2, 1e15),
        (1e300, 2, 1e300),
        (1e300, -400, 0.0),
        (5e-324, 2, 0.0),
        (5e-324, 400, 5e-324),
        (1.234_5e-10, 12, 1.23e-10),
        (4_503_599_627_370_497.5, 0, 4_503_599_627_370_500.0),
    ];
    for (value, places, expected) in rows {
        assert_eq!(
            round(value, places).to_bits(),
            f64::to_bits(expected),
            "{value} at {places}"
        );
    }
}

#[test]
fn every_half_cent_of_ten_thousand_goes_up() {
    for thousandths in (5..10_000_000_i32).step_by(10) {
        let value = f64::from(thousandths) / 1000.0;
        let expected = f64::from(thousandths / 10 + 1) / 100.0;
        assert_eq!(round(value, 2).to_bits(), expected.to_bits(), "{value}");
        assert_eq!(
            round(-value, 2).to_bits(),
            (-expected).to_bits(),
            "-{value}"
        );
    }
}

#[test]
fn a_rounded_zero_has_no_sign() {
    for value in [-0.0, -0.001, -1e-9, -1e-300] {
        assert_eq!(round(value, 2).to_bits(), 0, "{value}");
        assert_eq!(show(value, 2), "0.00", "{value}");
    }
}

#[test]
fn rounding_up_ignores_dust_only() {
    let rows = [
        (13.0, 0, 13.0),
        (12.000_000_4, 0, 12.0),
        (12.000_000_5, 0, 13.0),
        (12.000_001, 0, 13.0),
        (-12.1, 0, -13.0),
        (0.000_000_6, 0, 1.0),
        (1e-7, 0, 0.0),
        (4.1 * 100.0, 0, 410.0),
        (1.101, 2, 1.11),
        (1.1, 2, 1.1),
        (1234.0, -2, 1300.0),
        (1.234_567_8, 9, 1.234_568),
        (1e300, 0, 1e300),
        (1.0, -400, f64::INFINITY),
        (0.0, -400, 0.0),
    ];
    for (value, places, expected) in rows {
        assert_eq!(
            round_up(value, places).to_bits(),
            f64::to_bits(expected),
            "{value} at {places}"
        );
    }
}

#[test]
fn what_is_not_finite_passes_through() {
    assert!(round(f64::NAN, 2).is_nan() && round_up(f64::NAN, 2).is_nan());
    assert!(round(f64::NEG_INFINITY, 2) < f64::MIN && round_up(f64::INFINITY, 2) > f64::MAX);
    assert_eq!(amount(f64::NAN), Decimal::ZERO);
    assert_eq!(amount(f64::INFINITY), Decimal::MAX);
    assert_eq!(amount(-1e300), Decimal::MIN);
    assert_eq!(show(f64::NAN, 2), "n/a");
    assert_eq!(show(f64::NEG_INFINITY, 2), "n/a");
}

#[test]
fn amounts_have_exact_cents() {
    let rows = [
        (1.005, "1.01"),
        (1234.5, "1234.50"),
        (-0.004, "0.00"),
        (0.0, "0.00"),
        (1e20, "100000000000000000000.00"),
    ];
    for (value, expected) in rows {
        assert_eq!(amount(value).to_string(), expected, "{value}");
    }
}

#[test]
fn shown_numbers_have_separators() {
    let rows = [
        (1234.5, 2, "1,234.50"),
        (-1_234_567.891, 1, "-1,234,567.9"),
        (999.999, 2, "1,000.00"),
        (0.05, 1, "0.1"),
        (0.05, 3, "0.050"),
        (-0.5, 0, "-1"),
        (100.0, 0, "100"),
        (1000.0, 0, "1,000"),
        (1e15, 0, "1,000,000,000,000,000"),
        (1e22, 0, "10,000,000,000,000,000,000,000"),
        (0.1, usize::MAX, "0.100000000000000"),
        (1e-12, 12, "0.000000000001"),
    ];
    for (value, places, expected) in rows {
        assert_eq!(show(value, places), expected);
    }
}

/// A quantity in thousandths and a rate in ten-thousandths, many of them exact ties;
/// every product stays below 100,000,000.
fn priced_line() -> impl Strategy<Value = (i64, i64)> {
    let any = (1..100_000_000_i64, 1..10_000_000_i64);
    let tie =
        (0..500_000_i64, 0..10_000_i64).prop_map(|(a, b)| ((2 * a + 1) * 500, (2 * b + 1) * 100));
    let small = (1..10_000_i64, 1..100_000_i64);
    let even = (1..100_000_i64, 1..10_000_i64).prop_map(|(a, b)| (a * 125, b * 40));
    prop_oneof![any, tie, small, even]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: CASES, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_priced_line_agrees_with_exact_decimals((quantity, rate) in priced_line(), negative: bool) {
        let sign = if negative { -1 } else { 1 };
        let exact = Decimal::new(quantity * sign, 3) * Decimal::new(rate, 4);
        let exact = exact.round_dp_with_strategy(2, MidpointAwayFromZero);
        #[allow(clippy::cast_precision_loss, reason = "the numbers drawn are far below 2^53")]
        let product = ((quantity * sign) as f64 / 1000.0) * (rate as f64 / 10_000.0);
        prop_assert_eq!(amount(product), exact);
        let nearest = exact.to_string().parse::<f64>().unwrap() + 0.0;
        prop_assert_eq!(round(product, 2).to_bits(), nearest.to_bits());
    }

    #[test]
    fn every_number_gets_an_answer(bits: u64, places: i32, near in -40..40_i32) {
        let value = f64::from_bits(bits);
        for places in [places, near] {
            let once = round(value, places);
            prop_assert_eq!(once.is_finite(), value.is_finite());
            prop_assert!(value.is_nan() || round(once, places).to_bits() == once.to_bits());
            let _ = round_up(value, places);
            let _ = show(value, usize::try_from(places).unwrap_or(usize::MAX));
        }
        let _ = amount(value);
    }

    #[test]
    fn fifteen_digits_are_those_of_exact_formatting(mantissa in 1.0..10.0_f64, power in -30..30_i32) {
        let value = format!("{mantissa}e{power}").parse::<f64>().unwrap();
        // Sixteen digits cut off a long exact text: the last one alone decides.
        let exact = format!("{value:.80e}");
        let (digits, power) = exact.split_once('e').unwrap();
        let sixteen = digits.replace('.', "")[..16].parse::<u64>().unwrap();
        let expected = format!("{}e{}", (sixteen + 5) / 10, power.parse::<i32>().unwrap() - 14);
        prop_assert_eq!(round(value, 400).to_bits(), expected.parse::<f64>().unwrap().to_bits());
    }
}
