//! The sample jobs against quantities worked out by hand from their measures.
//!
//! Every slice is height ÷ 6 × (top + 4 × middle + foot); the arithmetic stands beside
//! each row, in the job's own feet or metres.

mod reed_bank;
mod whole;

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::units::{FT, FT2, FT3, H, KG, M, M2, M3, ONE, Unit, YD3, YD3_BANK, YD3_COMPACTED};

use crate::support::{figure, sample_job, within};

#[test]
fn finished_volumes_of_the_sample_jobs_are_those_worked_out_by_hand() {
    // Job, basin, unit, volume.
    let rows: [(&str, &str, Unit, f64); 8] = [
        // 1/6 (5,760 + 4 × 5,452 + 5,152) = 5,453.3333; 1.5/6 (4,032 + 4 × 3,740.0625 +
        // 3,458.25) = 5,612.625; 4/6 (2,756.25 + 4 × 1,932.25 + 1,236.25) = 7,814.3333.
        ("school-pond", "Main pool", FT3, 18_880.291_667),
        // 3/6 (40 × 24 + 4 × 37 × 21 + 34 × 18) = 3/6 (960 + 3,108 + 612).
        ("school-pond", "Gravel bed", FT3, 2_340.0),
        // 8 × 6 × 5.5.
        ("school-pond", "Intake basin", FT3, 264.0),
        // 12 × 5 × 0.25 + 11 × 4 × 0.65.
        ("lily-tank", "Lily tank", M3, 43.6),
        // π/4 × 3² × 0.6.
        ("lily-tank", "Fountain basin", M3, 4.241_150_082),
        // 18 × 0.6 × 0.25.
        ("lily-tank", "Rill", M3, 2.7),
        // π/4 × 1/6 (62.5 × 40 + 4 × 58.75 × 37.5 + 55 × 35) = 1,732.7847; π/4 × 3.25/6
        // (46 × 26 + 4 × 33.8125 × 17.875 + 21.625 × 9.75) = 1,627.0075.
        ("field-notes", "Meadow pool", FT3, 3_359.792_2),
        // 3.8 m is 12.467192 ft; 2.5/6 (99.7375 + 4 × 54.8196 + 22.4016).
        ("field-notes", "Settling basin", FT3, 142.257_2),
    ];
    for (job, basin, unit, volume) in rows {
        let ours = figure(&sample_job(job), ("Basins", basin, "finished volume"), unit);
        within(&format!("{job}, {basin}"), ours, volume, 2e-4);
    }
}

#[test]
fn other_quantities_of_the_school_pond_are_those_worked_out_by_hand() {
    let job = sample_job("school-pond");
    let of = |basin, name, unit| figure(&job, ("Basins", basin, name), unit);
    // 42,000 gal ÷ ((0.70 × 250 − 35) gpm × 60) = 5.00 h.
    within(
        "pumping",
        of("Main pool", "pumping before the dig", H),
        5.0,
        1e-9,
    );
    // 3,400 ft² × 14 in = 3,966.667 ft³.
    within(
        "sediment",
        of("Main pool", "sediment", FT3),
        3_966.666_667,
        1e-6,
    );
    // 120 × 1.5 × (3 + 3 + 2 × 2.5 × 1.5) ÷ 2 = 1,215 ft³ is 45 yd³; 5 % settlement.
    within(
        "berm",
        of("Gravel bed", "berm volume as built", YD3_COMPACTED),
        47.25,
        1e-9,
    );
    // 2.5 ft of room, 6.6667 ft deep at 1.5:1: 13 × 11 below, 33 × 31 at the ground:
    // 6.6667/6 (143 + 46 × 42 + 1,023) = 3,442.2 ft³.
    within(
        "pit",
        of("Intake basin", "cut volume", YD3),
        3_442.222_222 / 27.0,
        1e-6,
    );
}

/// Holds figures of one table against those worked out by hand: row, column, unit, figure.
#[track_caller]
fn hold(job: &Estimate, table: &str, rows: &[(&str, &str, Unit, f64)]) {
    for (row, column, unit, by_hand) in rows {
        let ours = figure(job, (table, row, column), *unit);
        let off = 1e-6 * by_hand.abs().max(1.0);
        within(&format!("{table}, {row}, {column}"), ours, *by_hand, off);
    }
}

#[test]
fn the_lily_tank_is_lined_and_filled_as_worked_out_by_hand() {
    let job = sample_job("lily-tank");
    let rows = [
        // 11 + 2 (0.25 + 0.5 + 0.65) + 2 × 0.1, and 4 + 2.8 + 0.2.
        ("Tank liner", "strip length", M, 14.0),
        ("Tank liner", "across the strips", M, 7.0),
        // (7 − 0.1) ÷ (2 − 0.1) = 3.6 strips, so 4 × 14 × 2; 3 seams.
        ("Tank liner", "area ordered", M2, 112.0),
        ("Tank liner", "seam length", M, 42.0),
        // 3 + 2 × 0.6 + 0.2 = 4.4 both ways; (4.4 − 0.15) ÷ 1.85 = 2.3, so 3 strips.
        ("Fountain liner", "area ordered", M2, 26.4),
        ("Fountain liner", "taped seams", M, 8.8),
    ];
    hold(&job, "Liner and fabric", &rows);
    let rows = [
        ("Lily tank", "rim divided", M, 34.0),
        ("Fountain basin", "perimeter", M, 9.424_777_961),
    ];
    hold(&job, "Basins", &rows);
    let rows = [
        // 44 m² ÷ 1.8²= 13.6; 12 ÷ 0.5²; 21.6 ÷ 0.4² × 2/√3 = 155.9.
        ("Lily baskets", "plants", ONE, 14.0),
        ("Shelf pots", "plants", ONE, 48.0),
        ("Lavender", "plants", ONE, 156.0),
    ];
    hold(&job, "Planting", &rows);
    // 16 m² × 0.08 m × 1,550 kg.
    let gravel = figure(
        &job,
        ("Gravel and loose stone", "Shelf gravel", "net volume"),
        M3,
    );
    within("gravel", gravel * 1_550.0, 1_984.0, 1e-6);
    // 1.2 × 1.0 × 0.1 m³ of bedding.
    let bedding = ("Structures", "Pump chamber", "bedding volume");
    within("bedding", figure(&job, bedding, M3), 0.12, 1e-9);
    within(
        "weight",
        figure(&job, ("Lifts", "Pump chamber", "weight"), KG),
        700.0,
        1e-6,
    );
    assert!(
        job.findings
            .iter()
            .all(|found| found.severity == Severity::Caution)
    );
}

#[test]
fn the_quick_pond_and_the_same_in_detail_agree_where_both_state_the_same() {
    let jobs = [sample_job("quick-pond"), sample_job("quick-pond-detailed")];
    let pi = std::f64::consts::PI;
    for job in &jobs {
        let rows = [
            // π/4 × (1/6 (52 × 34 + 4 × 50 × 32 + 48 × 30) + 3/6 (44 × 26 + 4 × 38 × 20 + 32 × 14)).
            (
                "Pool",
                "finished volume",
                FT3,
                pi / 4.0 * (9_608.0 / 6.0 + 4_632.0 / 2.0),
            ),
            // 600 ft² × 6.5 in, the mean of two probes.
            ("Pool", "sediment", FT3, 325.0),
            // 9,000 gal ÷ ((0.70 × 110 − 4) gpm × 60).
            ("Pool", "pumping before the dig", H, 9_000.0 / 4_380.0),
            // 200 ft² × 2.5 ft.
            ("Filter", "finished volume", FT3, 500.0),
            ("Filter", "dig", YD3_BANK, 500.0 / 27.0),
        ];
        hold(job, "Basins", &rows);
        let rows = [
            ("Fall", "total rise", FT, 4.0),
            // 20 + 1 by 3 + 2 × 1.5 + 2 × 2.
            ("Fall", "reach sheet area", FT2, 210.0),
        ];
        hold(job, "Waterfalls and streams", &rows);
        for (item, feet) in [
            ("Way in", 140.0),
            ("Water line", 85.0),
            ("Power line", 120.0),
        ] {
            hold(job, "Other items", &[(item, "Length", FT, feet)]);
        }
    }
    // A square of 200 ft² against 16 by 12.5.
    let rim = |job| figure(job, ("Basins", "Filter", "perimeter"), FT);
    within("square", rim(&jobs[0]), 4.0 * 200.0_f64.sqrt(), 1e-9);
    within("taped", rim(&jobs[1]), 57.0, 1e-9);
    let open = |job: &Estimate| {
        let open = job.findings.iter();
        let open = open.filter(|found| found.severity == Severity::Open);
        open.map(|found| found.code).collect::<Vec<_>>()
    };
    assert_eq!(open(&jobs[0]), [Code::NotOnChart, Code::MissingPrice]);
    assert_eq!(open(&jobs[1]), []);
}
