//! Volumes and areas of excavated basins.

use std::f64::consts::PI;

use groundsheet::units::{ACRE, FT, FT3, GAL, M, M3, ONE, YD3};

use super::basins;
use crate::support::{METRIC, US, estimate_of, exactly, figure, within};

#[test]
fn a_pond_with_even_sides_is_neither_the_mean_of_its_ends_nor_a_pyramid_frustum() {
    let source = "EX-01, R1: University of Regina, Math Central, Quandaries and Queries \
                  QQ.09.07, answer to Tom";
    let pond = basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
         Pond,rectangle,100,70,12,2\n",
    );
    let of = |name, unit| figure(&pond, ("Basins", "Pond", name), unit);
    exactly(source, of("floor length", FT), 52.0);
    exactly(source, of("floor width", FT), 22.0);
    let volume_ft3 = of("finished volume", FT3);
    exactly(source, volume_ft3, 44_256.0);
    within(source, of("finished volume", YD3), 1639.1, 0.05);

    // Two formulas that tempt, on our own areas and depth.
    let top_ft2 = of("rim length", FT) * of("rim width", FT);
    let floor_ft2 = of("floor length", FT) * of("floor width", FT);
    let depth_ft = of("depth to floor", FT);
    let end_areas_ft3 = f64::midpoint(top_ft2, floor_ft2) * depth_ft;
    exactly(source, end_areas_ft3, 48_864.0);
    let frustum_ft3 = (top_ft2 + floor_ft2 + (top_ft2 * floor_ft2).sqrt()) * depth_ft / 3.0;
    within(source, frustum_ft3, 43_895.4, 0.05);
    assert!(
        end_areas_ft3 > 1.1 * volume_ft3,
        "the mean of the ends is 10 % high"
    );
    assert!(
        frustum_ft3 < 0.995 * volume_ft3,
        "the two rectangles are not similar"
    );
}

#[test]
fn a_pond_with_one_ramp_end_keeps_its_three_other_sides() {
    let memory = "EX-02, M, from memory, check: USDA NRCS Agriculture Handbook 590, Ponds \
                  (1982, rev. 1997), section on excavated ponds";
    let derived = "EX-02, D: the integral of (40 + 4z)(100 + 6z) over 12 ft is \
                   48,000 + 46,080 + 13,824 ft³";
    // Bottom 40 × 100 ft, 12 ft deep; the water stands at the rim.
    let pond = basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Ramp slope,Freeboard (in)\n\
         Pond,rectangle,172,88,12,2,4,0\n",
    );
    let of = |name, unit| figure(&pond, ("Basins", "Pond", name), unit);
    exactly(derived, of("floor length", FT), 100.0);
    exactly(derived, of("floor width", FT), 40.0);
    exactly(derived, of("finished volume", FT3), 107_904.0);
    exactly(derived, of("water volume", FT3), 107_904.0);
    within(memory, of("finished volume", YD3), 3996.44, 0.5);
    within(memory, of("water volume", GAL), 807_072.0, 807.0);
    let acre_feet = ACRE.times(FT).and_then(|unit| FT3.to(unit));
    let acre_feet = acre_feet.unwrap().apply(of("water volume", FT3));
    within(memory, acre_feet, 2.48, 0.005);
}

#[test]
fn a_metric_tank_takes_its_true_middle_section() {
    let source = "EX-04, R2 and D: N. N. Basak, Surveying and Levelling (1994), p. 245-246, \
                  problem 5, read in a textbook companion; its 30,000 m² top is a slip for 3,000";
    // Bottom 40 × 30 m, 5 m deep, sides 2 to 1.
    let tank = estimate_of(&[
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope\nTank,rectangle,60,50,5,2\n",
        ),
    ]);
    let of = |name, unit| figure(&tank, ("Basins", "Tank", name), unit);
    exactly(source, of("floor length", M) * of("floor width", M), 1200.0);
    within(source, of("finished volume", M3), 10_166.67, 0.01);
}

#[test]
fn a_large_pond_holds_the_gallons_of_its_frustum() {
    let source = "EX-05, R1 for the bottom, D for the volume: University of Regina, Math \
                  Central QQ.09.12, answer to Kelly";
    let pond = basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Freeboard (in)\n\
         Pond,rectangle,385,335,18,4,0\n",
    );
    let of = |name, unit| figure(&pond, ("Basins", "Pond", name), unit);
    exactly(source, of("floor length", FT), 241.0);
    exactly(source, of("floor width", FT), 191.0);
    exactly(source, of("finished volume", FT3), 1_512_846.0);
    within(source, of("water volume", GAL) / 1e6, 11.317, 0.001);
}

#[test]
fn pond_areas_come_from_sides_and_from_the_shoreline() {
    let source = "EX-06, R1: Ohio State University Extension, fact sheet A-2, pond measurements";
    let items = "Item,Section,Description,Length (ft),Width (ft),Unit\n\
                 Water,Pond,Surface of a rectangle,80,140,acre\n";
    let rectangle = estimate_of(&[("Job", US), ("Other items", items)]);
    let acres = figure(&rectangle, ("Lines", "Water", "taken off"), ONE);
    within(source, acres, 0.2571, 0.00005);

    let shoreline_ft = 520.0;
    let round = basins(&format!(
        "Basin,Shape,Length (ft),Depth (ft),Side slope\nPond,circle,{},5,0\n",
        shoreline_ft / PI
    ));
    let at = ("Basins", "Pond", "area of the cut at the ground");
    within(source, figure(&round, at, ACRE), 0.4939, 0.0001);
    // The fact sheet's own constant: acres = S² / 547,390.
    let constant = shoreline_ft * shoreline_ft / figure(&round, at, ACRE);
    within(source, constant, 547_390.0, 1.5);
}

#[test]
fn straight_areas_give_the_mean_of_the_ends_and_slopes_that_meet_give_a_pyramid() {
    let source = "EX-07, R1: Wikibooks, Fundamentals of Transportation, Earthwork";
    // Only one end slopes, so the area shrinks evenly and the middle is the mean: here the
    // prismoidal formula must give back (A1 + A2) / 2 × L. The point's sides meet at it.
    let pond = basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Ramp slope\n\
         Ramp,rectangle,60,20,5,0,3\n\
         Point,rectangle,40,40,10,2,\n",
    );
    let ramp = figure(&pond, ("Basins", "Ramp", "finished volume"), FT3);
    exactly(source, ramp, f64::midpoint(60.0 * 20.0, 45.0 * 20.0) * 5.0);
    let point = figure(&pond, ("Basins", "Point", "finished volume"), FT3);
    exactly(source, point, 40.0 * 40.0 * 10.0 / 3.0);
}

#[test]
fn end_areas_agree_with_the_field_constant_1_85() {
    let source = "EX-15, R1 for the rule, D for 185.19: US Navy, Equipment Operator, Advanced \
                  (NAVEDTRA 14081), p. 15-15";
    // Ends of 120 and 80 ft² that are 50 ft apart, stood upright: one end slopes.
    let cut = basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Ramp slope\n\
         Cut,rectangle,12,10,50,0,0.08\n",
    );
    let volume_yd3 = figure(&cut, ("Basins", "Cut", "finished volume"), YD3);
    within(source, volume_yd3, 185.19, 0.005);
    within(source, volume_yd3, 185.0, 185.0 * 0.0015);
}

#[test]
fn an_upright_round_log_has_the_printed_volume() {
    let source = "EX-89, R2 and D: USDA Forest Products Laboratory, Wood Handbook, \
                  FPL-GTR-282 (2021), table 5-3a and eq. 4-14, read in a digitisation";
    // 18 in across and 16 ft long.
    let log = basins("Basin,Shape,Length (in),Depth (ft),Side slope\nLog,circle,18,16,0\n");
    let volume_ft3 = figure(&log, ("Basins", "Log", "finished volume"), FT3);
    within(source, volume_ft3, 28.274, 0.0005);

    // White oak heartwood: 62.4 lb/ft³ × 0.60 × 1.64.
    let items = format!(
        "Item,Section,Description,Length (ft),Width (ft),Depth (ft),Unit,Material,Waste (%)\n\
         Log,Logs,White oak,{volume_ft3},1,1,ft3,Oak,0\n"
    );
    let materials = "Material,Unit,Weight (lb/ft3)\nOak,lb,61.4\n";
    let tables = [
        ("Job", US),
        ("Other items", &items),
        ("Materials", materials),
    ];
    let weight_lb = figure(&estimate_of(&tables), ("Lines", "Log", "bought"), ONE);
    within(source, weight_lb, 1736.0, 1.736);
}

#[test]
fn an_island_is_deducted_from_its_outline() {
    let source = "EX-96, D: a general geometry library (shapely 2.2.0), outline with a hole";
    let items = "Item,Section,Description,Length (ft),Width (ft),Deduct,Unit\n\
                 Water,Pond,60 by 30 less an island of 10 by 8,60,30,80,ft2\n";
    let pond = estimate_of(&[("Job", US), ("Other items", items)]);
    let area_ft2 = figure(&pond, ("Lines", "Water", "taken off"), ONE);
    exactly(source, area_ft2, 1720.0);
}
