//! Weight of stone by size, gravity and voids; water over weirs.

use std::f64::consts::PI;

use groundsheet::estimate::Estimate;
use groundsheet::parameters::Factor;
use groundsheet::units::{FT, LB, M, System};

use crate::support::{METRIC, US, estimate_of, exactly, figure, within};

/// A job of falls and courses; a job needs an item beside them.
fn stone(keys: &str, falls: &str, courses: &str, factors: &str) -> Estimate {
    estimate_of(&[
        ("Job", keys),
        ("Waterfalls and streams", falls),
        ("Courses", courses),
        ("Factors", &format!("Factor,Override\n{factors}")),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Price\nSign,Site,Sign,1,ls,1\n",
        ),
    ])
}

fn of(job: &Estimate, name: &str, unit: groundsheet::units::Unit) -> f64 {
    figure(job, ("Courses", "c1", name), unit)
}

#[test]
fn one_stone_weighs_by_the_cube_of_its_size() {
    let source = "EX-50, R1 for the formula, D for the weights: USACE WES, Stream Investigation \
                  and Streambank Stabilization Handbook, app. A, eq. A.1";
    // Granite at 165 lb/ft³: inches and pounds.
    let rows = [
        (6, 10.80),
        (9, 36.45),
        (12, 86.39),
        (15, 168.7),
        (18, 291.6),
        (24, 691.2),
        (36, 2332.6),
        (48, 5529.2),
    ];
    for (size_in, weight_lb) in rows {
        let job = stone(
            US,
            "Fall,Kind\nBank,rock edge\n",
            &format!(
                "Course,Fall,Number,Face (ft),Smallest (in),Largest (in)\n\
                 c1,Bank,1,20,{size_in},{size_in}\n"
            ),
            "",
        );
        let ours_lb = of(&job, "weight of a piece", LB);
        within(source, ours_lb, weight_lb, weight_lb * 3e-4);
        exactly(source, of(&job, "heaviest piece", LB), ours_lb);
        // The formula turned round gives the size back: D = (6 W / (π γ))^(1/3).
        let size_ft = (6.0 * ours_lb / (PI * 165.0)).cbrt();
        within(source, size_ft * 12.0, f64::from(size_in), 1e-4);
    }
}

/// A course of one cubic yard: 27 ft of stone a foot high and deep.
fn cubic_yard(weight_lb_ft3: f64, voids: &str) -> f64 {
    let job = stone(
        US,
        "Fall,Kind\nBank,rock edge\n",
        &format!(
            "Course,Fall,Number,Face (ft),Height (in),Porosity (%)\nc1,Bank,1,27,12,{voids}\n"
        ),
        &format!("\"Solid weight, granite\",{weight_lb_ft3}\n"),
    );
    of(&job, "tons by course", LB)
}

#[test]
fn a_yard_of_stone_weighs_by_its_gravity_and_its_voids() {
    let source = "EX-51, R1: Gillette and Hill, Concrete Construction (1908), p. 33, table VIII; \
                  water at 62.355 lb/ft³";
    let voids = ["0", "30", "35", "40", "45", "50"];
    let rows = [
        (2.4, [4041.0, 2828.0, 2626.0, 2424.0, 2222.0, 2020.0]),
        (2.5, [4209.0, 2946.0, 2736.0, 2525.0, 2315.0, 2105.0]),
        (2.6, [4377.0, 3064.0, 2845.0, 2626.0, 2408.0, 2189.0]),
        (2.7, [4546.0, 3182.0, 2955.0, 2727.0, 2500.0, 2273.0]),
        (2.8, [4714.0, 3300.0, 3064.0, 2828.0, 2593.0, 2357.0]),
        (3.0, [5051.0, 3536.0, 3283.0, 3030.0, 2778.0, 2526.0]),
    ];
    for (gravity, weights_lb) in rows {
        for (voids, weight_lb) in voids.iter().zip(weights_lb) {
            within(source, cubic_yard(gravity * 62.355, voids), weight_lb, 1.0);
        }
    }
}

#[test]
fn quartz_gravel_with_two_fifths_of_voids_weighs_99_pounds() {
    let source = "EX-52, R1: Gillette and Hill, Concrete Construction (1908), p. 32";
    exactly(source, cubic_yard(165.0, "40") / 27.0, 99.0);
}

#[test]
fn the_solid_weight_of_each_rock_lies_in_its_printed_band() {
    let source = "EX-53, R1: Gillette and Hill, Concrete Construction (1908), p. 32-33, \
                  tables VI and VII; basalt is printed as 3.01 alone";
    let rows = [
        (Factor::WeightGranite, 2.55, 2.86),
        (Factor::WeightGneiss, 2.62, 2.92),
        (Factor::WeightLimestone, 2.35, 2.87),
        (Factor::WeightSandstone, 2.0, 2.78),
        (Factor::WeightQuartzite, 2.6, 2.7),
        (Factor::WeightBasalt, 3.0, 3.02),
    ];
    for (rock, low, high) in rows {
        let middle = f64::midpoint(low, high);
        let half = (high - low) / 2.0;
        within(source, rock.default(System::Us) / 62.355, middle, half);
        within(source, rock.default(System::Metric) / 1000.0, middle, half);
    }
}

/// A fall with one spill, in US customary units: width in feet, flow in ft³ a second.
fn spill_us(width_ft: f64, flow_ft3_s: f64, coefficient: &str) -> f64 {
    // A gallon is 231 in³.
    let flow_gpm = flow_ft3_s * 60.0 * 1728.0 / 231.0;
    let job = stone(
        US,
        &format!("Fall,Kind,Flow (gpm)\nWeir,waterfall,{flow_gpm}\n"),
        &format!(
            "Course,Fall,Number,Face (ft),Height (in),Spill width (ft)\nc1,Weir,1,50,24,{width_ft}\n"
        ),
        &format!("Spill coefficient,{coefficient}\n"),
    );
    of(&job, "head of the spill", FT)
}

/// The same in metres and m³ a second.
fn spill_metric(width_m: f64, flow_m3_s: f64, coefficient: &str) -> f64 {
    let flow_l_min = flow_m3_s * 60_000.0;
    let job = stone(
        METRIC,
        &format!("Fall,Kind,Flow (L/min)\nWeir,waterfall,{flow_l_min}\n"),
        &format!(
            "Course,Fall,Number,Face (m),Height (mm),Spill width (m)\nc1,Weir,1,50,600,{width_m}\n"
        ),
        &format!("Spill coefficient,{coefficient}\n"),
    );
    of(&job, "head of the spill", M)
}

#[test]
fn a_cipoletti_weir_has_its_head() {
    let source = "EX-66, R1 for eq. 7-7, D for the flows: USBR, Water Measurement Manual, 3rd \
                  ed. rev. 2001, ch. 7 §12; the coefficient 3.367 in place of ours";
    let rows = [
        (1.0, 0.2, 0.3012),
        (2.0, 0.5, 2.3808),
        (3.0, 0.5, 3.5712),
        (4.0, 1.0, 13.468),
    ];
    for (width_ft, head_ft, flow_ft3_s) in rows {
        within(
            source,
            spill_us(width_ft, flow_ft3_s, "3.367"),
            head_ft,
            1e-4,
        );
    }
}

#[test]
fn a_francis_weir_has_its_head() {
    let metric = "EX-67, R2: B. K. Sarkar, Fluid Mechanics and Hydraulic Machines (1999), \
                  p. 100, ex. 5.5, read in a textbook companion; its two end contractions taken \
                  off the width, flow and width in hundredths";
    let width_m = 78.0786 - 2.0 * 0.1 * 0.6;
    let flow_m3_s = 66.667;
    let head_m = spill_metric(width_m / 100.0, flow_m3_s / 100.0, "");
    within(metric, head_m, 0.6, 0.0001);

    let us = "EX-68, R2: R. S. Dighe, Hydraulics Made Easy, p. 150, ex. 5.7, read in a textbook \
              companion; its two end contractions taken off the width, flow and width in tenths";
    let width_ft = 38.7 - 2.0 * 0.1 * 4.0;
    let head_ft = spill_us(width_ft / 10.0, 1008.3 / 10.0, "");
    // Width and flow are printed to a tenth: 0.05 in 37.9 ft moves the head by 0.0035 ft, and
    // 0.05 in 1,008.3 ft³ by 0.0001 ft.
    within(us, head_ft, 4.0, 0.0036 + 0.0001);
}

#[test]
fn a_suppressed_weir_raises_the_water_by_its_head() {
    let source = "EX-69, R2: Daugherty and Franzini, Fluid Mechanics with Engineering \
                  Applications, p. 432, ex. 12.4, read in a textbook companion";
    // 3 ft³ a second for each foot; the water is to stand 4 ft deep.
    within(source, 4.0 - spill_us(1.0, 3.0, ""), 3.07, 0.005);
}

#[test]
fn a_discharge_coefficient_gives_the_same_head() {
    let source = "EX-71, R2: K. Subramanya, 1000 Solved Problems in Fluid Mechanics, p. 333, \
                  ex. 13.31, read in a textbook companion";
    // 0.40 m wide, 25 litres a second, head 10 cm: Cd 0.669. Ours is 2/3 × Cd × √(2 g).
    let coefficient = 2.0 / 3.0 * 0.669 * (2.0f64 * 9.81).sqrt();
    let head_m = spill_metric(0.4, 0.025, &coefficient.to_string());
    within(source, head_m, 0.1, 0.0001);
}

#[test]
fn a_weir_with_a_velocity_of_approach_has_its_head_by_its_own_coefficient() {
    let source = "EX-70, R2: Cengel and Cimbala, Fluid Mechanics, 2nd ed., p. 746, ex. 13-11, read \
                  in a textbook companion";
    // A depth of 1.5 m over a weir of 0.6 m, 5 m wide: Cwd = 0.598 + 0.0897 × 0.9 / 0.6, and
    // 9.23 m³ a second. Half of the last digit moves the head by 0.0003 m.
    let discharge = 0.598 + 0.0897 * 0.9 / 0.6;
    let coefficient = 2.0 / 3.0 * discharge * (2.0f64 * 9.81).sqrt();
    let head_m = spill_metric(5.0, 9.23, &coefficient.to_string());
    within(source, head_m, 0.9, 0.000_35);
    // The usual coefficient knows no velocity of approach: it takes the water for deeper.
    let usual_m = spill_metric(5.0, 9.23, "");
    assert!(usual_m > head_m, "{source}: {usual_m}");
}

#[test]
fn a_broad_spillway_has_its_head_and_with_it_that_of_its_approach() {
    let source = "EX-77, R2 for 690.8, D for 678.82: B. C. Punmia, Irrigation and Water Power \
                  Engineering (2009), p. 539, ex. 11.2, read in a textbook companion; coefficient \
                  2.4 in place of ours, flow and width in hundredths";
    within(source, spill_metric(1.0, 6.7882, "2.4"), 2.0, 0.000_05);
    // With the velocity head of 0.0235 m; 0.05 in 690.8 m³ moves the head by 0.0001 m.
    within(source, spill_metric(1.0, 6.908, "2.4"), 2.0235, 0.000_15);
}

#[test]
fn the_stones_that_set_the_thickness_of_a_layer_have_their_printed_weights() {
    let source = "EX-57, R1 for the pounds, D for the feet: EM 1110-2-1601 (1 Jul 1970), gradation \
                  example and layer rule; granite at 165 lb/ft³";
    let weight_lb = |size_ft: f64| {
        let size_in = size_ft * 12.0;
        let job = stone(
            US,
            "Fall,Kind\nBank,rock edge\n",
            &format!(
                "Course,Fall,Number,Face (ft),Smallest (in),Largest (in)\n\
                 c1,Bank,1,20,6,{size_in}\n"
            ),
            "",
        );
        of(&job, "heaviest piece", LB)
    };
    // A layer is as thick as its largest stone, and as 1.5 of the upper 50 % stone. A size
    // to 0.001 ft is a weight to three times 0.001 ft over the size.
    let largest_ft = 1.949;
    let tolerance_lb = 640.0 * 3.0 * 0.001 / largest_ft;
    within(source, weight_lb(largest_ft), 640.0, tolerance_lb);
    let layer_ft = 1.984;
    let tolerance_lb = 200.0 * 3.0 * 0.001 / layer_ft;
    within(source, weight_lb(layer_ft / 1.5), 200.0, tolerance_lb);
}
