//! Constants of conversion, and quantities that rest on them alone.

use groundsheet::units::{ACRE, FT, FT2, FT3, GAL, GPM, H, HA, LB, M, M3, MIN, ONE, S, Unit, YD3};

use crate::support::{US, estimate_of, exactly, figure, within};

/// One of the first unit in the second.
fn one(from: Option<Unit>, to: Option<Unit>) -> f64 {
    from.zip(to)
        .and_then(|(from, to)| from.to(to))
        .map_or(f64::NAN, |ratio| ratio.apply(1.0))
}

#[test]
fn gallons_and_acre_feet_rest_on_the_international_foot() {
    let source = "EX-95, D: a general units library (pint 0.25.3); its acre stands on the survey \
                  foot, ours must not";
    within(source, one(Some(FT3), Some(GAL)), 7.480_519_48, 5e-9);
    within(source, one(FT3.per(S), Some(GPM)), 448.831_169, 5e-7);
    within(source, one(ACRE.times(FT), Some(GAL)), 325_851.43, 0.005);
    exactly(source, one(Some(ACRE), Some(FT2)), 43_560.0);
    exactly(source, one(Some(YD3), Some(FT3)), 27.0);
    // Through a job: one acre a foot deep, in gallons of water.
    let pond = super::basins(
        "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Freeboard (in)\n\
         Pond,rectangle,217.8,200,1,0,0\n",
    );
    let gallons = figure(&pond, ("Basins", "Pond", "water volume"), GAL);
    within(source, gallons, 325_851.43, 0.005);
}

#[test]
fn an_intake_for_500_gallons_a_minute_needs_the_derived_opening() {
    let source = "EX-73, R1 for 0.5 ft/s, D for the area: 40 CFR 125.84(b)(2)";
    within(source, 500.0 * one(Some(GPM), FT3.per(S)), 1.114, 0.0005);
    // 500 gpm over half a foot a second.
    let opening_ft2 = 1000.0 * one(FT.per(S).and_then(|speed| GPM.per(speed)), Some(FT2));
    within(source, opening_ft2, 2.228, 0.0005);
}

#[test]
fn a_gravel_bed_carries_the_same_in_metres_and_in_feet() {
    let source = "EX-75, R1 for 24,608, D for 24,606: US EPA Region 6, Subsurface Flow Constructed \
                  Wetland (Aug 1993), addendum 1";
    let feet_a_day = 7500.0 * one(Some(M), Some(FT));
    within(source, feet_a_day, 24_606.0, 0.5);
    within(source, feet_a_day, 24_608.0, 2.5);
}

#[test]
fn acres_for_a_gallon_a_day_are_hectares_for_a_cubic_metre() {
    let source = "EX-76, R2: Crites, Reed and others, natural treatment systems: 1.73e-5 acre for a \
                  gallon a day, 1.85e-3 hectare for a cubic metre";
    let hectares = 1.73e-5 * one(ACRE.per(GAL), HA.per(M3));
    within(source, hectares, 1.85e-3, 0.005e-3);
}

#[test]
fn a_pump_lifts_by_the_constant_3960() {
    let source = "EX-65, R1 for 3,956 and 3,960, D for 3,956.04: Auburn University ANR-548; Utah \
                  State lectures (Merkley and Allen), p. 123";
    // A horsepower is 33,000 ft·lb a minute; water weighs 62.4 lb/ft³.
    let foot_pounds = FT.times(LB).and_then(|work| work.per(MIN));
    let lifted = FT3.per(MIN).and_then(|flow| flow.times(FT));
    let lifted = lifted
        .and_then(|flow| flow.times(LB))
        .and_then(|flow| flow.per(FT3));
    let pounds_of_water = 62.4 * one(lifted, foot_pounds);
    let constant = 33_000.0 / (pounds_of_water * one(Some(GPM), FT3.per(MIN)));
    within(source, constant, 3956.04, 0.005);
    within(source, constant, 3960.0, 3960.0 * 0.0015);
}

#[test]
fn layers_by_length_and_laps_give_the_fabric_of_a_face() {
    let source = "EX-48, R2 for 192, D for 211-221: FHWA GEC 11, §9.4, read in a digitisation";
    // 12 layers of 16 ft for one foot of slope; 10 to 15 % more for laps.
    for (laps, fabric_ft2) in [("0", 192.0), ("10", 211.2), ("15", 220.8)] {
        let items = format!(
            "Item,Section,Description,Times,Length (ft),Width (ft),Unit,Material,Waste (%)\n\
             Face,Fabric,Reinforced face,12,16,1,ft2,Fabric,{laps}\n"
        );
        let materials = "Material,Unit\nFabric,ft2\n";
        let job = estimate_of(&[
            ("Job", US),
            ("Other items", &items),
            ("Materials", materials),
        ]);
        let of = |name| figure(&job, ("Lines", "Face", name), ONE);
        exactly(source, of("quantity"), 192.0);
        exactly(source, of("bought"), fabric_ft2);
    }
}

#[test]
fn an_hour_has_its_minutes_and_its_seconds() {
    // Not an entry: what the rates above rest on.
    exactly("definition", one(Some(H), Some(MIN)), 60.0);
    exactly("definition", one(Some(H), Some(S)), 3600.0);
}
