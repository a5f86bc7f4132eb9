//! Uplift on liners, and the water of the whole system.

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::units::{FT, FT3, KG_M2, LB_FT2, M3, ONE};

use super::{ITEMS, found, job, of_code, says, silent};
use crate::support::{METRIC, estimate_of, exactly, figure, within};

#[test]
fn ballast_holds_a_liner_down_against_the_head_of_groundwater() {
    // 4 ft deep and 6 in of build-up, groundwater 3 ft below the rim: 1.5 ft of head lift by
    // 1.5 × 62.4 = 93.6 lb/ft². 12 in of ballast weigh 95: 1.015, under 1.2. 15 in weigh
    // 118.75: 1.2687. Groundwater at 4.5 ft and below lifts nothing.
    let head = "Basin,Shape,Length (ft),Depth (ft),Side slope,Build-up (in),Groundwater (ft),\
                Ballast (in)\n";
    for (row, head_ft, ballast_lb_ft2, floats) in [
        ("3,12", 1.5, 95.0, true),
        ("3,15", 1.5, 118.75, false),
        ("3,", 1.5, 0.0, true),
        ("4.5,12", 0.0, 95.0, false),
        ("9,", 0.0, 0.0, false),
        (",", 0.0, 0.0, false),
    ] {
        let basins = format!("{head}Pool,circle,20,4,0,6,{row}\n");
        let pool = job(&[("Basins", &basins)]);
        let of = |name, unit| figure(&pool, ("Basins", "Pool", name), unit);
        exactly(row, of("head under the liner", FT), head_ft);
        exactly(row, of("uplift on the liner", LB_FT2), 62.4 * head_ft);
        exactly(row, of("weight of the ballast", LB_FT2), ballast_lb_ft2);
        let safety = if head_ft > 0.0 {
            ballast_lb_ft2 / 93.6
        } else {
            0.0
        };
        exactly(row, of("factor of safety of the liner", ONE), safety);
        let open = of_code(&pool.findings, Severity::Open, Code::MayFloat);
        assert_eq!(open.len(), usize::from(floats), "{row}: {open:?}");
    }
    let basins = format!("{head}Pool,circle,20,4,0,6,,12\n");
    let all = found(&[("Basins", &basins)]);
    says(
        &all,
        Severity::Warning,
        Code::MissingValue,
        "G2 Pool: ballast is measured",
    );
    // In metres: 1.5 m deep, groundwater at 1.2 m: 300 kg/m²; 250 mm at 1,520 kg/m³: 380.
    let pool = estimate_of(&[
        ("Other items", ITEMS),
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Depth (m),Side slope,Groundwater (m),Ballast (mm)\n\
             Pool,circle,6,1.5,0,1.2,250\n",
        ),
    ]);
    let of = |name, unit| figure(&pool, ("Basins", "Pool", name), unit);
    exactly("metric", of("uplift on the liner", KG_M2), 300.0);
    exactly("metric", of("weight of the ballast", KG_M2), 380.0);
    silent(&pool.findings, Code::MayFloat);
}

/// An upright basin of 20 × 10 ft with 3 ft of water: 600 ft³.
const BASIN: &str = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Freeboard (in)\n\
                     Pool,rectangle,20,10,4,0,12\n";
const BEDS: &str = "Bed,Basin,Length (ft),Width (ft),Thickness (ft),Under water (%)\n";
const STANDING: &str = "Structure,Kind,Basin,Stands in,Length (ft),Width (ft),Height (ft),\
    Cut depth (ft),Crate length (in),Crate width (in),Crate height (in),Price\n";

/// Water of the system, in cubic feet, over the basin above.
fn system_ft3(beds: &str, structures: &str) -> f64 {
    let (beds, structures) = (format!("{BEDS}{beds}"), format!("{STANDING}{structures}"));
    let job: Estimate = job(&[
        ("Basins", BASIN),
        ("Gravel and loose stone", &beds),
        ("Structures", &structures),
    ]);
    figure(&job, ("System water", "", "water of the system"), FT3)
}

#[test]
fn the_system_holds_basins_less_what_is_solid_in_them_and_voids_beside_them() {
    let rows = [
        ("nothing stands in it", "", "", 600.0),
        // 200 ft³ of bed at 40 % voids: 120 of stone.
        ("a bed", "Bed,Pool,20,10,1,\n", "", 480.0),
        // Half of it above the water.
        ("half a bed", "Bed,Pool,20,10,1,50\n", "", 540.0),
        // 20 × 10 × 2 beside the pool: 160 of voids, of which a quarter under water.
        ("a bed beside it", "Bed,,20,10,2,25\n", "", 640.0),
        ("a dry bed beside it", "Bed,,20,10,2,\n", "", 600.0),
        // A vault 5 ft high stands on the floor, 3 ft of it in water: 3 × 3 × 3 = 27.
        ("a vault", "", "V,vault,Pool,,3,3,5,,,,,1\n", 573.0),
        // 2 ft high: all of it.
        ("a low box", "", "V,weir box,Pool,,3,3,2,,,,,1\n", 582.0),
        ("a vault beside it", "", "V,vault,,,3,3,5,,,,,1\n", 600.0),
        ("a wall", "", "W,wall kept,Pool,,20,1,4,,,,,\n", 600.0),
        // Its underside 6 ft below the rim, 2 ft below the floor: from 1 to 4 ft, 27 again; from
        // 4 ft down nothing.
        ("a sunken vault", "", "V,vault,Pool,,3,3,5,6,,,,1\n", 573.0),
        ("a buried vault", "", "V,vault,Pool,,3,3,2,7,,,,1\n", 600.0),
        // 4 × 4 × 2 ft of crates: 32, of which 5 % are plastic: 1.6.
        (
            "crates",
            "",
            "C,void crates,Pool,,4,4,2,,12,12,12,1\n",
            598.4,
        ),
        // Below the floor they store 95 % of 32: 30.4.
        (
            "buried crates",
            "",
            "C,void crates,Pool,,4,4,2,6,12,12,12,1\n",
            630.4,
        ),
        // Half in the water, half below the floor: − 0.8 + 15.2.
        (
            "sunken crates",
            "",
            "C,void crates,Pool,,4,4,2,5,12,12,12,1\n",
            614.4,
        ),
        (
            "crates beside it",
            "",
            "C,void crates,,,4,4,2,,12,12,12,1\n",
            630.4,
        ),
        // A bed of 200 ft³ less 4 × 4 × 1 of crates: 184, 110.4 of stone, and 1.6 of plastic.
        (
            "crates in a bed",
            "Bed,Pool,20,10,1,\n",
            "C,void crates,,Bed,4,4,2,,12,12,12,1\n",
            600.0 - 110.4 - 1.6,
        ),
        // Beside the pool: 400 − 32 = 368, 147.2 of voids, and 30.4 in the crates; half of both.
        (
            "crates in a bed beside it",
            "Bed,,20,10,2,50\n",
            "C,void crates,,Bed,4,4,2,,12,12,12,1\n",
            600.0 + 73.6 + 15.2,
        ),
    ];
    for (what, beds, structures, expected_ft3) in rows {
        within(what, system_ft3(beds, structures), expected_ft3, 1e-6);
    }
}

#[test]
fn more_voids_leave_more_water_and_more_stone_than_water_is_told() {
    let of = |voids: u32| {
        let beds =
            format!("Bed,Basin,Area (ft2),Thickness (ft),Porosity (%)\nBed,Pool,200,1,{voids}\n");
        let pool = job(&[("Basins", BASIN), ("Gravel and loose stone", &beds)]);
        figure(&pool, ("System water", "", "water of the system"), FT3)
    };
    let held: Vec<f64> = (0..=9).map(|tenth| of(tenth * 10)).collect();
    assert!(held.windows(2).all(|pair| pair[0] < pair[1]), "{held:?}");
    let beds = format!("{BEDS}Bed,Pool,20,10,6,\n");
    let all = found(&[("Basins", BASIN), ("Gravel and loose stone", &beds)]);
    says(
        &all,
        Severity::Warning,
        Code::OutOfRange,
        "more stone and structures",
    );
    // A job without basins holds none.
    let none = job(&[("Timber", "Log,Length (ft),Diameter (in)\nLog,16,18\n")]);
    let at = ("System water", "", "water of the system");
    exactly("none", figure(&none, at, FT3), 0.0);
    // In metres: 5 × 4 × 1 m of water, and 20 m² × 0.3 m of bed: 6 × 0.6 = 3.6 of stone.
    let metric = estimate_of(&[
        ("Other items", ITEMS),
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope,Freeboard (mm)\n\
             Pool,rectangle,5,4,1.2,0,200\n",
        ),
        (
            "Gravel and loose stone",
            "Bed,Basin,Area (m2),Thickness (mm)\nBed,Pool,20,300\n",
        ),
    ]);
    exactly("metric", figure(&metric, at, M3), 16.4);
}
