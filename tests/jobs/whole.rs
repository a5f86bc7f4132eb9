//! The school pond as a whole job, from linings to loads, and its revision as set.

use super::hold;
use crate::support::{figure, sample_job};
use groundsheet::diagnostic::Severity;
use groundsheet::estimate::Estimate;
use groundsheet::units::{EACH, FT, FT2, FT3, GAL, IN, LB, MONEY, ONE, PERCENT, S, TON, YD3_BANK};

#[test]
fn linings_of_the_school_pond_are_those_worked_out_by_hand() {
    let job = sample_job("school-pond");
    // One side of the main pool, from the rim down: slope √5, tread 4, slope 1.5 √3.25,
    // tread 3, slope 4 √5 = 5 √5 + 1.5 √3.25 + 7; below 6 in of cobble 0.5 √5 more. The
    // floor is 57.5 × 21.5; 2 % of slack and 3 ft of edge at both ends: 109.535 × 72.815.
    let side = 5.5 * 5.0_f64.sqrt() + 1.5 * 3.25_f64.sqrt() + 7.0;
    let (long, wide) = (
        (57.5 + 2.0 * side) * 1.02 + 6.0,
        (21.5 + 2.0 * side) * 1.02 + 6.0,
    );
    // The bed: floor 34 × 18, sides 3 √2; its edge runs 2 + 1 + 1 ft into the trench.
    let root = 2.0_f64.sqrt();
    let bed = (18.0 + 6.0 * root) * 1.02 + 8.0;
    let rows = [
        ("Pool liner", "strip length", FT, long),
        ("Pool liner", "across the strips", FT, wide),
        ("Pool liner", "area ordered", FT2, long * wide),
        ("Pool liner", "heaviest piece", LB, long * wide * 0.29),
        // Strips across: (109.535 − 1) ÷ (15 − 1) = 7.8, so 8; 300 ÷ 72.815 = 4 from a
        // roll, so 2 rolls of 4,500 ft². Of each 8.7 ft are left: 2 aprons of 4 ft,
        // 2 × 8 × 15 = 240 ft²; the rest of the 455 ft² that lie double takes a third.
        ("Pool fabric below", "strips in all", ONE, 8.0),
        ("Pool fabric above", "rolls", ONE, 3.0),
        ("Pool fabric above", "area ordered", FT2, 13_500.0),
        // Across the bed, 51.335 ft along it: (51.335 − 1/3) ÷ (20 − 1/3) = 2.6, so 3;
        // 110 ÷ 35.015 = 3 from a roll: 1 roll.
        ("Bed liner", "strip length", FT, bed),
        ("Bed liner", "strips in all", ONE, 3.0),
        ("Bed liner", "area ordered", FT2, 2_200.0),
        // 2 seams of 35.015 ft.
        ("Bed liner", "seam length", FT, 2.0 * bed),
        // 8 × 6 floor and 5.5 ft of wall on both sides, 2 %, 6 in of edge:
        // 20.38 × 18.34.
        ("Intake liner", "area ordered", FT2, 20.38 * 18.34),
        // Aprons under the spills: (3.5 + 3 + 3.5 + 3) × 4; one apron of 4 × 20 is left
        // of the bed's roll, so none are bought.
        ("Cascade liner", "aprons", FT2, 52.0),
        ("Cascade liner", "aprons bought", FT2, 0.0),
        // Tread + rise + 1 ft of wrap + 1 ft of lap, by face and returns and 2 × 2 ft:
        // 29/6 × 26 + 29/6 × 24 + 4.25 × 21 + 4.25 × 18 + 23/6 × 17 = 472.583; 2 % both ways.
        (
            "Cascade liner",
            "area ordered",
            FT2,
            (29.0 / 6.0 * 50.0 + 4.25 * 39.0 + 23.0 / 6.0 * 17.0) * 1.02 * 1.02,
        ),
        // Reach 26 + 1 of lap by 2.5 + 2 × 1.25 + 2 × 2 = 9.
        (
            "Overflow liner",
            "area ordered",
            FT2,
            27.0 * 9.0 * 1.02 * 1.02,
        ),
    ];
    hold(&job, "Liner and fabric", &rows);
    // Along the middle of the trench: 128 + 8 × 2.5 = 148 ft, 1 by 1.
    let rows = [
        ("Gravel bed", "anchor trench, dig", YD3_BANK, 148.0 / 27.0),
        ("Main pool", "perimeter", FT, 312.0),
        // 130 + 16 + 42 + 82 + 18 + 24.
        ("Main pool", "rim divided", FT, 312.0),
        // 7.1667 − 6.9 ft of head × 62.4 lb; half a foot of ballast × 95 lb.
        (
            "Main pool",
            "factor of safety of the liner",
            ONE,
            47.5 / (62.4 * (6.5 + 2.0 / 3.0 - 6.9)),
        ),
    ];
    hold(&job, "Basins", &rows);
}

fn two_thirds(number: f64) -> f64 {
    number.cbrt() * number.cbrt()
}

/// Bed and top of the five courses of the cascade, as planned. The instrument stands at
/// 412 + 4.85 = 416.85, so the foot, at a rod of 7.20, at 409.65; the first course is set
/// 4 in into it. Each next bed lies 8 in below the top.
const CASCADE: [(&str, f64, f64); 5] = [
    // 409.65 − 4/12; + 24/12.
    ("Cascade 1", 409.65 - 4.0 / 12.0, 409.65 + 20.0 / 12.0),
    // Each bed is 16, 16, 12 and 12 in above the one before.
    ("Cascade 2", 410.65, 409.65 + 36.0 / 12.0),
    ("Cascade 3", 409.65 + 28.0 / 12.0, 409.65 + 48.0 / 12.0),
    ("Cascade 4", 409.65 + 40.0 / 12.0, 409.65 + 60.0 / 12.0),
    ("Cascade 5", 409.65 + 52.0 / 12.0, 409.65 + 70.0 / 12.0),
];

#[test]
fn the_cascade_is_the_one_worked_out_by_hand() {
    let job = sample_job("school-pond");
    for (course, bed, top) in CASCADE {
        hold(
            &job,
            "Courses",
            &[(course, "bed", FT, bed), (course, "top", FT, top)],
        );
    }
    let rows = [
        // (16 + 6) × 2 × 2.5 = 110 ft³, less a quarter, of gneiss at 168 lb: 13,860 lb.
        ("Cascade 1", "tons in use", TON, 6.93),
        // 20 × 2 × 28/12 = 93.333 ft³ × 126 = 11,760 lb.
        ("Cascade 2", "tons in use", TON, 5.88),
        // 17 × 20/12 × 2 = 56.667 ft³ × 126 = 7,140 lb.
        ("Cascade 3", "tons in use", TON, 3.57),
        // 13 × 1.5 × 2 = 39 ft³, of which a tenth is voids: × 151.2 = 5,896.8 lb.
        ("Cascade 5", "tons in use", TON, 2.9484),
        // Stones are half as long again as high: 22 ÷ 3, 20 ÷ 3, 17 ÷ 2.5, 14 ÷ 2.5, 13 ÷ 2.25.
        ("Cascade 1", "pieces", EACH, 8.0),
        ("Cascade 2", "pieces", EACH, 7.0),
        ("Cascade 3", "pieces", EACH, 7.0),
        ("Cascade 4", "pieces", EACH, 6.0),
        ("Cascade 5", "pieces", EACH, 6.0),
        // 3 ft all round, three quarters of it stone: 27 × 0.75 × 168.
        ("Cascade 1", "heaviest piece", LB, 3_402.0),
        // Mean size 27 in: 130 ÷ 2.25 = 57.8 pieces, each 2.25³ × 52.36 % × 168 lb.
        ("Shore boulders", "pieces", EACH, 58.0),
        (
            "Shore boulders",
            "tons in use",
            TON,
            58.0 * 11.390_625 * 52.36 / 100.0 * 0.084,
        ),
        // No water runs over the first course.
        ("Cascade 1", "water elevation", FT, 409.65 + 20.0 / 12.0),
        // 500 gpm are 500 × 231 ÷ 1,728 ÷ 60 = 1.114 ft³/s; ÷ (3.33 × 3.5) to the ⅔.
        (
            "Cascade 2",
            "head of the spill",
            FT,
            two_thirds(500.0 * 231.0 / 1_728.0 / 60.0 / (3.33 * 3.5)),
        ),
    ];
    hold(&job, "Courses", &rows);
    let rows = [
        // From the foot to the last top: 70 in, as planned.
        ("Cascade", "total rise", IN, 70.0),
        // 22 + 7 × 2, 20 + 6 × 2, 17 + 6 × 5/3, 14 + 5 × 5/3, 13 + 5 × 1.5: 137.83 ft,
        // 8 ft a can.
        (
            "Cascade",
            "joint to foam",
            FT,
            86.0 + 14.0 + 12.0 + 55.0 / 3.0 + 7.5,
        ),
        ("Cascade", "cans of foam", EACH, 18.0),
        // 55 + 140/3 + 34 + 28 + 26 ft² of bed, 4 in thick.
        (
            "Cascade",
            "bedding volume",
            FT3,
            (143.0 + 140.0 / 3.0) / 3.0,
        ),
    ];
    hold(&job, "Waterfalls and streams", &rows);
    // 1.701 tons and 0.12 of rigging at 24 ft, where the next radius of the chart, 25 ft,
    // gives 1.95; the vault's 4.2 and 0.15 at 19 ft against 6.1.
    let rows = [
        ("Cascade", "share of the chart", PERCENT, 182.1 / 1.95),
        ("Pump vault", "share of the chart", PERCENT, 435.0 / 6.1),
    ];
    hold(&job, "Lifts", &rows);
}

#[test]
fn the_revision_as_set_moves_what_is_above_by_3_in_and_nothing_below() {
    let (planned, set) = (sample_job("school-pond"), sample_job("school-pond-as-set"));
    for (number, (course, bed, top)) in CASCADE.into_iter().enumerate() {
        // The rod on course 2 reads 3.95: 416.85 − 3.95 = 412.90, a quarter foot higher.
        let (under, over) = match number {
            0 => (0.0, 0.0),
            1 => (0.0, 0.25),
            _ => (0.25, 0.25),
        };
        let rows = [
            (course, "bed", FT, bed + under),
            (course, "top", FT, top + over),
        ];
        hold(&set, "Courses", &rows);
    }
    hold(
        &set,
        "Waterfalls and streams",
        &[("Cascade", "total rise", IN, 73.0)],
    );
    let of = |job| figure(job, ("Bid", "", "bid"), MONEY);
    // The liner's piece at that course is 3 in longer: 0.25 × 24 × 1.02² = 6.242 ft² at $1.08,
    // and a few hundredths of an hour to lay three such pieces.
    let more = of(&set) - of(&planned);
    assert!((6.74..20.0).contains(&more), "{more}");
    let new = |job: &Estimate| {
        let warned = job.findings.iter();
        warned
            .filter(|found| found.severity == Severity::Warning)
            .count()
    };
    assert_eq!((new(&planned), new(&set)), (0, 1));
}

#[test]
fn what_fills_the_school_pond_is_that_worked_out_by_hand() {
    let job = sample_job("school-pond");
    let rows = [
        // 16 ÷ 2.5, 4.5 ÷ 5/3 and 1.5 ÷ 1.5: 7 × 3 × 1 crates.
        ("Bed crates", "pieces", ONE, 21.0),
        // 17.5 × 5 × 1.5 ft.
        ("Bed crates", "outside volume", FT3, 131.25),
        // 95 % of it, at 1,728 ÷ 231 gallons a cubic foot.
        (
            "Bed crates",
            "water stored in crates",
            GAL,
            131.25 * 0.95 * 1_728.0 / 231.0,
        ),
        // 2 of its 5.5 ft lie in groundwater: 62.4 × 30 × 2 = 3,744 lb against 4.2 tons.
        (
            "Pump vault",
            "factor of safety against lifting",
            ONE,
            8_400.0 / 3_744.0,
        ),
        // Room of 2 ft, 5 5/6 ft deep at 1.5:1: 10 × 9 below, 27.5 × 26.5 at the ground,
        // 18.75 × 17.75 between: 35/36 × (90 + 4 × 332.8125 + 728.75).
        ("Pump vault", "pit volume", FT3, 35.0 / 36.0 * 2_150.0),
        // 1.114 ft³/s by 3 × 0.8 ft.
        (
            "Weir box",
            "approach velocity",
            FT.per(S).unwrap(),
            500.0 * 231.0 / 1_728.0 / 60.0 / 2.4,
        ),
    ];
    hold(&job, "Structures", &rows);
    let rows = [
        // 37.5 × 21.5 × 2.5 = 2,015.625, less the crates' 131.25.
        ("Filter gravel", "net volume", FT3, 1_884.375),
        // 280 × 4 × 0.5 ft less 1.5 yd³.
        ("Shelf cobble", "net volume", FT3, 519.5),
    ];
    hold(&job, "Gravel and loose stone", &rows);
    let rows = [
        // 900 ft² ÷ (10/12)².
        ("Marsh shelf", "plants", ONE, 1_296.0),
        // 960 ÷ 2.25 = 426.7.
        ("Reed bed", "plants", ONE, 427.0),
        // 900 × √(1 + 1/6.25) = 969.3 ft²; ÷ 2.25 × 2/√3 = 497.4.
        ("Berm", "plants", ONE, 498.0),
        // 1,500 × 1/3 ft.
        ("Meadow", "soil volume", FT3, 500.0),
    ];
    hold(&job, "Planting", &rows);
    // π/4 × (16/12)² × 8 ft³ of green white oak at 66.6 lb.
    let one = std::f64::consts::PI / 4.0 * 16.0 / 9.0 * 8.0 * 66.6;
    hold(
        &job,
        "Timber",
        &[("Bench logs", "green weight of one", LB, one)],
    );
}

#[test]
fn orders_loads_and_freight_of_the_school_pond_are_those_worked_out_by_hand() {
    let job = sample_job("school-pond");
    let rows = [
        // 6.93, 5.88, 3.57 and 2.94 tons with 10 and 5 %, 2.948 with 5 and 5 %, each line
        // to the thousandth: 7.970 + 6.762 + 4.106 + 3.381 + 3.243; whole tons, 18 a load
        // at $240.
        ("Ledge stone", "needed", ONE, 25.462),
        ("Ledge stone", "ordered", ONE, 26.0),
        ("Ledge stone", "loads", ONE, 2.0),
        ("Ledge stone", "freight", MONEY, 480.0),
        // Set by hand 31.5 tons, none rejected, 5 %: 33.075; 20 a load.
        ("Boulders 18 to 36 in", "ordered", ONE, 34.0),
        ("Boulders 18 to 36 in", "loads", ONE, 2.0),
        ("Boulders 18 to 36 in", "freight", MONEY, 480.0),
        // (1,884.375 + 18 × 7 ÷ 3 = 42) ft³ × 96 lb ÷ 2,000 × 1.06 = 98.01; loads of 22.
        ("Washed gravel 3/8 in", "needed", ONE, 98.014),
        ("Washed gravel 3/8 in", "ordered", ONE, 110.0),
        ("Washed gravel 3/8 in", "loads", ONE, 5.0),
        ("Washed gravel 3/8 in", "freight", MONEY, 825.0),
        // 1,500 ft² × 1/3 ÷ 27 × 1.1 = 20.37; whole yards, 12 a load, $95.
        ("Planting soil", "ordered", ONE, 21.0),
        ("Planting soil", "freight", MONEY, 190.0),
        // Layers of 2 and 3 rolls, 500 yd² each; two of 3 strips, 51.335 × 15 ft; pieces of
        // the cascade and of the run: 2,500 + 513.350 + 144.019, so 7 rolls.
        ("Fabric 12 oz", "ordered", ONE, 3_500.0),
    ];
    hold(&job, "Materials", &rows);
}
