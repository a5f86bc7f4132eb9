//! What holds for every course of stone, on random ones of a fixed seed.

use groundsheet::estimate::Estimate;
use groundsheet::units::{EACH, FT, LB};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{course, estimate_of, fall, figure};
use crate::support::US;

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 48,
        rng_seed: RngSeed::Fixed(20_261_121),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1e-3)
}

/// A course by face in feet, and height, depth and length of its stone in inches.
#[derive(Clone, Copy, Debug)]
struct Stone {
    face_ft: f64,
    height_in: f64,
    depth_in: f64,
    length_in: f64,
}

prop_compose! {
    fn stone()(face in 4..80u32, height in 12..40u32, depth in 12..40u32, length in 12..60u32) -> Stone {
        Stone {
            face_ft: f64::from(face) / 2.0,
            height_in: f64::from(height),
            depth_in: f64::from(depth),
            length_in: f64::from(length),
        }
    }
}

/// A fall of courses of stone, one above the other; `as_set` are the tops as set.
fn stacked(stones: &[Stone], as_set: &[Option<f64>], weight_lb_ft3: f64) -> Estimate {
    let rows = stones.iter().enumerate().map(|(row, stone)| {
        let top = as_set.get(row).copied().flatten();
        let top = top.map_or(String::new(), |top| top.to_string());
        let Stone {
            face_ft,
            height_in,
            depth_in,
            length_in,
        } = stone;
        let number = row + 1;
        format!("c{number},Main,{number},{face_ft},{height_in},{depth_in},{length_in},{top}\n")
    });
    let rows: String = rows.collect();
    estimate_of(&[
        ("Job", US),
        (
            "Waterfalls and streams",
            "Fall,Kind,Foot (ft)\nMain,waterfall,100\n",
        ),
        (
            "Courses",
            &format!(
                "Course,Fall,Number,Face (ft),Height (in),Depth (in),Stone length (in),\
                 As set top (ft)\n{rows}"
            ),
        ),
        (
            "Factors",
            &format!("Factor,Override\n\"Solid weight, granite\",{weight_lb_ft3}\n"),
        ),
    ])
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_piece_weighs_by_the_cube_of_its_size_and_by_its_density(
        size in 2..40u32,
        weight in 100..220u32,
    ) {
        // One course of each size; the density is the job's.
        let weigh = |weight: f64| {
            let rows = (1..=3).map(|by| format!("c{by},Main,{by},30,{0},{0}\n", by * size));
            let job = estimate_of(&[
                ("Job", US),
                ("Waterfalls and streams", "Fall,Kind\nMain,rock edge\n"),
                ("Courses", &format!(
                    "Course,Fall,Number,Face (ft),Smallest (in),Largest (in)\n{}",
                    rows.collect::<String>()
                )),
                ("Factors", &format!("Factor,Override\n\"Solid weight, granite\",{weight}\n")),
            ]);
            ["c1", "c2", "c3"].map(|name| course(&job, name, "weight of a piece", LB))
        };
        let [one, twice, thrice] = weigh(f64::from(weight));
        prop_assert!(one > 0.0);
        prop_assert!(same(twice, 8.0 * one));
        prop_assert!(same(thrice, 27.0 * one));
        prop_assert!(same(weigh(110.0)[0] / 110.0, one / f64::from(weight)));
    }

    #[test]
    fn tons_grow_with_length_height_and_depth(own in stone(), by in 2..4u32) {
        let by = f64::from(by);
        let longer = Stone { face_ft: own.face_ft * by, ..own };
        let higher = Stone { height_in: own.height_in * by, ..own };
        let deeper = Stone { depth_in: own.depth_in * by, ..own };
        let job = stacked(&[own, longer, higher, deeper], &[], 165.0);
        let tons = |name| course(&job, name, "tons by course", LB);
        let one = tons("c1");
        prop_assert!(one > 0.0);
        for changed in ["c2", "c3", "c4"] {
            prop_assert!(same(tons(changed), by * one));
        }
        // Whole pieces are never fewer than the face takes, nor by one more.
        let covered = course(&job, "c1", "pieces", EACH) * own.length_in / 12.0;
        prop_assert!(covered >= own.face_ft - 1e-6);
        prop_assert!(covered < own.face_ft + own.length_in / 12.0 + 1e-6);
    }

    #[test]
    fn rises_add_up_to_the_total(stones in prop::collection::vec(stone(), 1..7)) {
        let job = stacked(&stones, &[], 165.0);
        let last = format!("c{}", stones.len());
        let below = (1..stones.len()).map(|row| course(&job, &format!("c{row}"), "rise in use", FT));
        let sum = below.sum::<f64>() + course(&job, &last, "height in use", FT);
        prop_assert!(same(fall(&job, "total rise", FT), sum));
        let tons: f64 = (1..=stones.len())
            .map(|row| figure(&job, ("Courses", &format!("c{row}"), "tons in use"), LB))
            .sum();
        prop_assert!(same(fall(&job, "tons of stone", LB), tons));
    }

    #[test]
    fn a_course_as_set_moves_all_above_by_the_difference_and_none_below(
        stones in prop::collection::vec(stone(), 2..7),
        which in 0..6usize,
        by in -3..=3i32,
    ) {
        let which = which.min(stones.len() - 1);
        let planned = stacked(&stones, &[], 165.0);
        let by_ft = f64::from(by) / 12.0;
        let own = course(&planned, &format!("c{}", which + 1), "top", FT);
        let mut as_set = vec![None; stones.len()];
        as_set[which] = Some(own + by_ft);
        let set = stacked(&stones, &as_set, 165.0);
        for row in 0..stones.len() {
            let name = format!("c{}", row + 1);
            let moved = |column| course(&set, &name, column, FT) - course(&planned, &name, column, FT);
            let bed = if row > which { by_ft } else { 0.0 };
            let top = if row >= which { by_ft } else { 0.0 };
            prop_assert!((moved("bed") - bed).abs() < 1e-9, "{name}");
            prop_assert!((moved("top") - top).abs() < 1e-9, "{name}");
        }
    }
}
