//! The sample jobs against volumes worked out by hand from their measures.
//!
//! Every slice is height ÷ 6 × (top + 4 × middle + foot); the arithmetic stands beside
//! each row, in the job's own feet or metres.

use groundsheet::units::{FT3, H, M3, Unit, YD3, YD3_COMPACTED};

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
