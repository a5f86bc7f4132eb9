//! Areas squared on the dimension sheet, and shares of a bid.

use std::fmt::Write;

use groundsheet::estimate::Estimate;
use groundsheet::units::{MONEY, ONE, PERCENT};

use crate::support::{METRIC, US, estimate_of, exactly, figure, within};

/// A metric job of areas: heading, times, length and width of each; 1,000 for a square metre.
fn areas(strips: &[(&str, f64, f64, f64)]) -> Estimate {
    let mut items = "Item,Section,Description,Times,Length (m),Width (m),Unit,Price\n".to_owned();
    for (index, (section, times, length, width)) in strips.iter().enumerate() {
        let _ = writeln!(
            items,
            "S{index},{section},Strip,{times},{length},{width},m2,1000"
        );
    }
    estimate_of(&[("Job", METRIC), ("Other items", &items)])
}

/// The sum of the areas under a heading, in m².
fn sum_m2(job: &Estimate, section: &str) -> f64 {
    figure(job, ("Bid sections", section, "amount"), MONEY) / 1000.0
}

#[test]
fn offsets_from_a_base_line_make_the_field() {
    let source = "EX-12, R2 and D: N. N. Basak, Surveying and Levelling (1994), p. 207, problem \
                  1, read in a textbook companion";
    // Half of: length along the base line × the sum of the offsets at its ends.
    let rows = [
        ("Left", 20.0, 42.0, 420.0),
        ("Left", 45.0, 42.0 + 58.0, 2250.0),
        ("Left", 45.0, 58.0, 1305.0),
        ("Right", 20.0, 60.0, 600.0),
        ("Right", 50.0, 60.0 + 20.0, 2000.0),
        ("Right", 40.0, 20.0, 400.0),
    ];
    let job = areas(&rows.map(|(side, along, offsets, _)| (side, 0.5, along, offsets)));
    for (index, (.., printed_m2)) in rows.into_iter().enumerate() {
        let name = format!("S{index}");
        let part_m2 = figure(&job, ("Lines", &name, "taken off"), ONE);
        exactly(source, part_m2, printed_m2);
    }
    exactly(source, sum_m2(&job, "Left"), 3975.0);
    exactly(source, sum_m2(&job, "Right"), 3000.0);
    let whole = figure(&job, ("Bid", "", "direct cost"), MONEY) / 1000.0;
    exactly(source, whole, 6975.0);
}

/// Strips that stand for ordinates: each ordinate × a spacing × its number of times.
fn ordinates<'a>(
    section: &'a str,
    spacing_m: f64,
    widths_m: &[f64],
    times: &[f64],
) -> Vec<(&'a str, f64, f64, f64)> {
    assert_eq!(widths_m.len(), times.len());
    let strip = |(width, times): (&f64, &f64)| (section, *times, spacing_m, *width);
    widths_m.iter().zip(times).map(strip).collect()
}

#[test]
fn an_irregular_shore_is_squared_by_its_ordinates() {
    let source = "EX-13, R2: N. N. Basak, Surveying and Levelling (1994), p. 216, problem 2, \
                  read in a textbook companion";
    let widths_m = [3.5, 4.3, 6.75, 5.25, 7.5, 8.8, 7.9, 6.4, 4.4, 3.25];
    // Trapezoids: half of the first and of the last. Simpson's rule takes an odd number of
    // ordinates, a third of the spacing each: the first nine, and a trapezoid after them.
    let halves = [0.5, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.5];
    let thirds = [1.0, 4.0, 2.0, 4.0, 2.0, 4.0, 2.0, 4.0, 1.0];
    let strips = [
        ordinates("Trapezoids", 15.0, &widths_m, &halves),
        ordinates("Simpson", 5.0, &widths_m[..9], &thirds),
        ordinates("Last strip", 15.0, &widths_m[8..], &[0.5, 0.5]),
    ];
    let job = areas(&strips.concat());
    exactly(source, sum_m2(&job, "Trapezoids"), 820.125);
    exactly(source, sum_m2(&job, "Simpson"), 756.0);
    exactly(source, sum_m2(&job, "Last strip"), 57.375);
    let both = sum_m2(&job, "Simpson") + sum_m2(&job, "Last strip");
    exactly(source, both, 813.375);
}

#[test]
fn ordinates_at_unequal_spacing_are_squared_run_by_run() {
    let source = "EX-14, R2: N. N. Basak, Surveying and Levelling (1994), p. 216, problem 3, \
                  read in a textbook companion";
    // Name, spacing, ordinates, printed by trapezoids and by Simpson's rule.
    let runs: [(&str, f64, &[f64], f64, f64); 3] = [
        ("At 5 m", 5.0, &[2.5, 3.8, 4.6, 5.2, 6.1], 89.5, 89.667),
        ("At 10 m", 10.0, &[6.1, 4.7, 5.8], 106.5, 102.333),
        ("At 20 m", 20.0, &[5.8, 3.9, 2.2], 158.0, 157.333),
    ];
    // Simpson's rule takes a third of the spacing, which no sheet can hold to its last digit:
    // the areas are three times as large.
    let mut trapezoids = Vec::new();
    let mut simpson = Vec::new();
    for (name, spacing_m, widths_m, ..) in runs {
        let (halves, thirds): (&[f64], &[f64]) = if widths_m.len() == 5 {
            (&[0.5, 1.0, 1.0, 1.0, 0.5], &[1.0, 4.0, 2.0, 4.0, 1.0])
        } else {
            (&[0.5, 1.0, 0.5], &[1.0, 4.0, 1.0])
        };
        trapezoids.extend(ordinates(name, spacing_m, widths_m, halves));
        simpson.extend(ordinates(name, spacing_m, widths_m, thirds));
    }
    let (trapezoids, simpson) = (areas(&trapezoids), areas(&simpson));
    for (name, .., by_trapezoids_m2, by_simpson_m2) in runs {
        exactly(source, sum_m2(&trapezoids, name), by_trapezoids_m2);
        within(source, sum_m2(&simpson, name) / 3.0, by_simpson_m2, 0.0005);
    }
    let whole = |job| figure(job, ("Bid", "", "direct cost"), MONEY) / 1000.0;
    exactly(source, whole(&trapezoids), 354.0);
    within(source, whole(&simpson) / 3.0, 349.333, 0.0005);
}

/// Shares of the bid, each of four lines under a way of measuring of its own; the others
/// under a fifth.
fn shares(lines: &[f64], own: std::ops::Range<usize>) -> Vec<f64> {
    let grades = ["assumed", "paced", "measured", "quoted"];
    let mut items = "Item,Section,Description,Times,Unit,Price,Grade\n".to_owned();
    for (index, price) in lines.iter().enumerate() {
        let own = own.contains(&index).then(|| grades[index - own.start]);
        let grade = own.unwrap_or("as set");
        let _ = writeln!(items, "L{index},Curb,Line,1,ls,{price},{grade}");
    }
    let job = estimate_of(&[("Job", US), ("Other items", &items)]);
    let share = |grade| figure(&job, ("Grades", grade, "share of the bid"), PERCENT);
    grades.map(share).to_vec()
}

#[test]
fn shares_of_a_bid_are_exact_and_make_a_hundred() {
    let source = "EX-80, R1 for the lines, D for the exact percents: Gillette and Hill, Concrete \
                  Construction (1908), p. 324; the book lifts 29.2 to 30 so that whole percents \
                  make 100";
    let lines = [88.90, 43.30, 61.30, 45.15, 9.85, 25.00, 13.60, 17.23];
    let printed = [29.2, 14.2, 20.1, 14.8, 3.2, 8.2, 4.5, 5.7];
    let ours = [shares(&lines, 0..4), shares(&lines, 4..8)].concat();
    for (share, printed) in ours.iter().zip(printed) {
        within(source, *share, printed, 0.05);
    }
    // Shares are never rounded, so that none must be lifted.
    exactly(source, ours.iter().sum(), 100.0);
}

#[test]
fn two_days_and_ten_percent_are_2_2_days() {
    let source = "EX-84, R2 for the plain allowance alone: C. Hendrickson, Project Management \
                  for Construction, ch. 11, §11.2, read in a text copy";
    // A day of eight hours costs 1,000.
    let job = estimate_of(&[
        ("Job", US),
        ("Crews", "Crew,People,Wage per hour\nMan,1,125\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nHand work,h,Man,1\n",
        ),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Work\nHelp,Help,Hand work,16,h,Hand work\n",
        ),
        ("Mark-ups", "Mark-up,On,Rate (%)\nContingency,labor,10\n"),
    ]);
    exactly(source, figure(&job, ("Bid", "", "working days"), ONE), 2.0);
    let days = figure(&job, ("Bid", "", "bid"), MONEY) / 1000.0;
    exactly(source, days, 2.2);
}
