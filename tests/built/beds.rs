//! Loose stone, planting and edges.

use std::f64::consts::PI;

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::pricing::lines::NAME;
use groundsheet::tables::Lines;
use groundsheet::units::{FT, FT2, FT3, GAL, H, M, M3, MONEY, ONE, Unit, YD3};

use super::{ITEMS, found, job, line, of_code, says, silent};
use crate::support::{METRIC, US, estimate_of, exactly, figure, findings_of, within};

const LOOSE: &str = "Gravel and loose stone";

fn bed(job: &Estimate, row: &str, name: &str, unit: Unit) -> f64 {
    figure(job, (LOOSE, row, name), unit)
}

#[test]
fn a_bed_is_bought_net_of_what_stands_in_it() {
    // 20 × 10 ft, 24 in thick: 400 ft³. A vault of 8 × 6 ft, 5 ft high, takes 8 × 6 × 2 = 96;
    // two boxes of 2 × 2 ft, 1 ft high, 8; 1 yd³ = 27 is deducted: 269 ft³ are left.
    // 40 % voids: 161.4 ft³ of stone; 107.6 ft³ of water.
    let beds = job(&[
        (
            "Structures",
            "Structure,Kind,Stands in,Times,Length (ft),Width (ft),Height (ft),Price\n\
             Vault,vault,Filter,1,8,6,5,900\nBoxes,weir box,Filter,2,2,2,1,90\n\
             Beside,vault,,1,8,6,5,900\n",
        ),
        (
            LOOSE,
            "Bed,Length (ft),Width (ft),Area (yd2),Thickness (in),Deduct (yd3),Porosity (%)\n\
             Filter,20,10,,24,1,\nBy area,,,20,6,,35\n",
        ),
    ]);
    exactly("net", bed(&beds, "Filter", "net volume", FT3), 269.0);
    exactly("solid", bed(&beds, "Filter", "solid volume", FT3), 161.4);
    let held = bed(&beds, "Filter", "water in the voids", GAL);
    exactly("water", held, 107.6 * 1728.0 / 231.0);
    // Sold by the cubic yard at $40, placed at 5 an hour; the line rounds to the thousandth.
    let bought = line(&beds, "Gravel: Filter", "bought", ONE);
    within("bought", bought, 269.0 / 27.0, 0.000_51);
    within(
        "cost",
        line(&beds, "Gravel: Filter", "material cost", MONEY),
        40.0 * 269.0 / 27.0,
        0.02,
    );
    within(
        "hours",
        line(&beds, "Gravel: Filter", "crew hours", H),
        269.0 / 27.0 / 5.0,
        0.005,
    );
    // 20 yd² × 6 in = 20 × 9 × 0.5 = 90 ft³; 65 % is stone.
    exactly("by area", bed(&beds, "By area", "net volume", FT3), 90.0);
    exactly("by area", bed(&beds, "By area", "solid volume", FT3), 58.5);
    assert!(!beds.is_draft(), "{:?}", beds.findings);
}

#[test]
fn stone_bought_by_weight_is_weighed_and_its_waste_bought_on_top() {
    // 200 ft³ at 100 lb/ft³ are 20,000 lb or 10 tons; with 10 % waste 11 tons at $50.
    // In metres: 3 m³ at 1,600 kg/m³ are 4.8 t.
    let table = "Bed,Length (ft),Width (ft),Thickness (ft)\nBed,20,10,1\n";
    let materials = |weight: &str| {
        format!("Material,Unit,Price,Weight (lb/ft3),Waste (%)\nGravel,ton,50,{weight},10\n")
    };
    let bed = job_with(table, &materials("100"));
    exactly("tons", line(&bed, "Gravel: Bed", "taken off", ONE), 10.0);
    exactly("tons", line(&bed, "Gravel: Bed", "bought", ONE), 11.0);
    exactly(
        "cost",
        line(&bed, "Gravel: Bed", "material cost", MONEY),
        550.0,
    );
    // Without a weight it cannot be weighed, and is not free.
    let unknown = materials("");
    let tables = [
        ("Other items", ITEMS),
        ("Job", US),
        (LOOSE, table),
        ("Materials", &unknown),
    ];
    let all = findings_of(&tables);
    says(
        &all,
        Severity::Error,
        Code::DimensionMismatch,
        "Bed: the material is sold",
    );
    let metric = estimate_of(&[
        ("Other items", ITEMS),
        ("Job", METRIC),
        (
            LOOSE,
            "Bed,Length (m),Width (m),Thickness (mm)\nBed,5,4,150\n",
        ),
        (
            "Materials",
            "Material,Unit,Price,Weight (kg/m3),Waste (%)\nGravel,t,50,1600,0\n",
        ),
    ]);
    exactly("tonnes", line(&metric, "Gravel: Bed", "bought", ONE), 4.8);
    exactly(
        "net",
        figure(&metric, (LOOSE, "Bed", "net volume"), M3),
        3.0,
    );
}

fn job_with(table: &str, materials: &str) -> Estimate {
    estimate_of(&[
        ("Other items", ITEMS),
        ("Job", US),
        (LOOSE, table),
        ("Materials", materials),
    ])
}

#[test]
fn a_bed_that_is_not_measured_is_open_and_one_that_cannot_be_is_a_fault() {
    let head = "Bed,Length (ft),Width (ft),Area (ft2),Thickness (in),Deduct (yd3)\n";
    let beds = |row: &str| found(&[(LOOSE, &format!("{head}Bed,{row}\n"))]);
    silent(&beds("20,10,200,6,"), Code::ConflictingValues);
    says(
        &beds("20,10,201,6,"),
        Severity::Error,
        Code::ConflictingValues,
        "D2 Bed: the area",
    );
    says(
        &beds(",,,6,"),
        Severity::Open,
        Code::MissingValue,
        "D2 Bed: no area",
    );
    says(
        &beds("20,,,6,"),
        Severity::Open,
        Code::MissingValue,
        "D2 Bed: no area",
    );
    says(
        &beds(",,0,6,"),
        Severity::Open,
        Code::MissingValue,
        "D2 Bed: no area",
    );
    says(
        &beds("20,10,,0,"),
        Severity::Open,
        Code::MissingValue,
        "E2 Bed: the bed has no thickness",
    );
    // 200 ft² × 6 in = 100 ft³, less than 4 yd³ = 108.
    says(
        &beds("20,10,,6,4"),
        Severity::Error,
        Code::OutOfRange,
        "F2 Bed: more stands",
    );
    silent(&beds("20,10,,6,3"), Code::OutOfRange);
    let tables = [
        ("Other items", ITEMS),
        ("Job", US),
        (LOOSE, "Bed,Area (ft2),Thickness (in)\nBed,20,6\n"),
    ];
    let all = findings_of(&tables);
    says(
        &all,
        Severity::Open,
        Code::MissingPrice,
        "Bed: the stone of this bed",
    );
    says(
        &all,
        Severity::Open,
        Code::MissingRate,
        "Bed: the work that places",
    );
}

#[test]
fn the_more_voids_the_less_stone_and_the_more_water() {
    let of = |voids: u32| {
        let table = format!("Bed,Area (ft2),Thickness (ft),Porosity (%)\nBed,100,1,{voids}\n");
        let bed = job(&[(LOOSE, &table)]);
        let of = |name| figure(&bed, (LOOSE, "Bed", name), FT3);
        (of("solid volume"), of("water in the voids"))
    };
    let mut last = (101.0, -1.0);
    for voids in (0..=90).step_by(15) {
        let (stone, water) = of(voids);
        assert!(stone < last.0 && water > last.1, "{voids}: {stone} {water}");
        within("together", stone + water, 100.0, 1e-9);
        last = (stone, water);
    }
}

#[test]
fn beds_side_by_side_hold_what_one_bed_of_their_size_holds() {
    let head = "Bed,Length (ft),Width (ft),Thickness (in)\n";
    let whole = job(&[(LOOSE, &format!("{head}All,30,10,9\n"))]);
    let parts = job(&[(LOOSE, &format!("{head}A,12,10,9\nB,18,10,9\n"))]);
    for name in ["net volume", "solid volume", "water in the voids"] {
        let unit = if name == "water in the voids" {
            GAL
        } else {
            YD3
        };
        let sum = bed(&parts, "A", name, unit) + bed(&parts, "B", name, unit);
        within(name, sum, bed(&whole, "All", name, unit), 1e-9 * 1000.0);
    }
}

const PLANTS: &str =
    "Planting,Length (ft),Width (ft),Area (ft2),Slope,Soil depth (in),Spacing (in),Pattern\n";

fn planting(job: &Estimate, row: &str, name: &str, unit: Unit) -> f64 {
    figure(job, ("Planting", row, name), unit)
}

#[test]
fn soil_and_plants_lie_on_the_true_surface() {
    // 20 × 15 ft = 300 ft², flat: 6 in of soil are 150 ft³; at 18 in, 300 ÷ 2.25 = 133.3, so 134
    // plants; at 12 in exactly 300, in triangles 300 × 2/√3 = 346.41, so 347.
    // On 3 to 1: 300 × √(1 + 1/9) = 316.2278 ft²: 158.1139 ft³; ÷ 2.25 × 1.1547005 = 162.29: 163.
    let rows = job(&[(
        "Planting",
        &format!(
            "{PLANTS}Flat,20,15,,,6,18,\nClose,,,300,,,12,square\nThree,,,300,,,12,triangle\n\
             Bank,20,15,,3,6,18,triangle\nSoil,20,15,,,6,,\n"
        ),
    )]);
    let bank_ft2 = 300.0 * (10.0_f64 / 9.0).sqrt();
    for (row, surface_ft2, soil_ft3, plants) in [
        ("Flat", 300.0, 150.0, 134.0),
        ("Close", 300.0, 0.0, 300.0),
        ("Three", 300.0, 0.0, 347.0),
        ("Bank", bank_ft2, bank_ft2 / 2.0, 163.0),
        ("Soil", 300.0, 150.0, 0.0),
    ] {
        exactly(row, planting(&rows, row, "true surface", FT2), surface_ft2);
        exactly(row, planting(&rows, row, "soil volume", FT3), soil_ft3);
        exactly(row, planting(&rows, row, "plants", ONE), plants);
    }
    exactly(
        "cost",
        line(&rows, "Plants: Flat", "material cost", MONEY),
        134.0 * 4.0,
    );
    exactly("hours", line(&rows, "Plants: Flat", "crew hours", H), 2.68);
    within(
        "soil",
        line(&rows, "Soil: Bank", "bought", ONE),
        bank_ft2 / 2.0 / 27.0,
        0.000_51,
    );
    let called = |row| rows.words(NAME, row).to_owned();
    let mut names: Vec<String> = (0..rows.rows::<Lines>()).map(called).collect();
    names.retain(|name| name != "Sign");
    let expected = [
        "Soil: Flat",
        "Plants: Flat",
        "Plants: Close",
        "Plants: Three",
        "Soil: Bank",
        "Plants: Bank",
        "Soil: Soil",
    ];
    assert_eq!(names, expected, "a line only where its measure is");
    assert!(!rows.is_draft(), "{:?}", rows.findings);
}

#[test]
fn plants_go_by_one_over_the_square_of_their_spacing() {
    // 14,400 ft² at 6, 12, 24 and 48 in: 57,600, 14,400, 3,600 and 900.
    for (spacing, plants) in [(6, 57_600.0), (12, 14_400.0), (24, 3600.0), (48, 900.0)] {
        let table = format!("{PLANTS}Bed,,,14400,,,{spacing},\n");
        let bed = job(&[("Planting", &table)]);
        exactly("plants", planting(&bed, "Bed", "plants", ONE), plants);
    }
    // In metres: 12 m² at 300 mm are 133.3, so 134.
    let metric = estimate_of(&[
        ("Other items", ITEMS),
        ("Job", METRIC),
        (
            "Planting",
            "Planting,Area (m2),Spacing (mm),Soil depth (mm)\nBed,12,300,200\n",
        ),
    ]);
    exactly("metric", planting(&metric, "Bed", "plants", ONE), 134.0);
    exactly("metric", planting(&metric, "Bed", "soil volume", M3), 2.4);
}

#[test]
fn a_planting_of_nothing_is_open() {
    let all = found(&[("Planting", &format!("{PLANTS}Bed,20,15,,,,,\n"))]);
    says(
        &all,
        Severity::Open,
        Code::MissingValue,
        "G2 Bed: neither soil nor plants",
    );
    let table = format!("{PLANTS}Bed,20,15,,,,12,\n");
    let all = findings_of(&[("Other items", ITEMS), ("Job", US), ("Planting", &table)]);
    // Plants alone ask for nothing of soil.
    says(
        &all,
        Severity::Open,
        Code::MissingPrice,
        "Bed: these plants",
    );
    says(
        &all,
        Severity::Open,
        Code::MissingRate,
        "Bed: the work that sets these plants",
    );
}

const RIMS: &str = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
                    Tank,rectangle,40,24,4,0\nPool,circle,20,,4,0\nPond,ellipse,30,20,4,0\n";

#[test]
fn a_perimeter_is_that_of_its_outline() {
    // 2 × (40 + 24) = 128; 20 π; an ellipse of 8 × 5 m: π/2 × (39 − √(29 × 23)).
    let rims = job(&[("Basins", RIMS)]);
    let of = |row| figure(&rims, ("Basins", row, "perimeter"), FT);
    exactly("rectangle", of("Tank"), 128.0);
    exactly("circle", of("Pool"), 20.0 * PI);
    let metric = estimate_of(&[
        ("Other items", ITEMS),
        ("Job", METRIC),
        (
            "Basins",
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope\nPond,ellipse,8,5,1,0\n",
        ),
    ]);
    let ours = figure(&metric, ("Basins", "Pond", "perimeter"), M);
    exactly("ellipse", ours, PI / 2.0 * (39.0 - 667.0_f64.sqrt()));
    // Against the ellipse itself, as a polygon of 100,000 sides.
    for (length, width) in [(8.0_f64, 5.0_f64), (10.0, 10.0), (12.0, 4.0)] {
        let point = |step: u32| {
            let angle = f64::from(step) / 100_000.0 * 2.0 * PI;
            (length / 2.0 * angle.cos(), width / 2.0 * angle.sin())
        };
        let side = |step| {
            let ((x1, y1), (x2, y2)) = (point(step), point(step + 1));
            (x2 - x1).hypot(y2 - y1)
        };
        let around: f64 = (0..100_000).map(side).sum();
        let basins = format!(
            "Basin,Shape,Length (m),Width (m),Depth (m),Side slope\nPond,ellipse,{length},{width},1,0\n"
        );
        let pond = estimate_of(&[("Other items", ITEMS), ("Job", METRIC), ("Basins", &basins)]);
        let ours = figure(&pond, ("Basins", "Pond", "perimeter"), M);
        within("polygon", ours, around, 0.0005 * around);
    }
}

#[test]
fn the_parts_of_a_rim_make_its_perimeter_within_the_tolerance() {
    let head = "Edge,Basin,Treatment,Length (ft)\n";
    let edges = |rows: &str| {
        let table = format!("{head}{rows}");
        found(&[("Basins", RIMS), ("Edges", &table)])
    };
    // The tank's 128 ft may be 126.72 to 129.28.
    silent(
        &edges("A,Tank,stone,64\nB,Tank,timber,64\n"),
        Code::EdgesDoNotAdd,
    );
    silent(
        &edges("A,Tank,stone,64\nB,Tank,timber,62.73\n"),
        Code::EdgesDoNotAdd,
    );
    silent(
        &edges("A,Tank,stone,64\nB,Tank,timber,65.27\n"),
        Code::EdgesDoNotAdd,
    );
    // Rows of another basin between them do not matter; the fault stands at the part that
    // goes beyond the rim, and once.
    let all = edges("A,Tank,stone,64\nP,Pool,beach,62.8\nB,Tank,timber,65.3\nC,Tank,beach,9\n");
    says(
        &all,
        Severity::Error,
        Code::EdgesDoNotAdd,
        "D4 B: the parts of the rim come to more",
    );
    let all = edges("A,Tank,stone,64\nP,Pool,beach,62.8\nB,Tank,timber,62.7\n");
    says(
        &all,
        Severity::Open,
        Code::EdgesDoNotAdd,
        "D4 B: the parts of the rim come to less",
    );
    let all = edges("A,Tank,stone,64\nP,Pool,beach,30\n");
    assert_eq!(
        of_code(&all, Severity::Open, Code::EdgesDoNotAdd).len(),
        2,
        "{all:?}"
    );
}

#[test]
fn an_edge_is_a_line_where_it_names_a_material_or_a_work() {
    // 64 ft of timber at $12, nothing lost of what is sold by the foot where no waste is
    // written: $768; 32 ft worked at 8 an hour: 4 h.
    let rim = estimate_of(&[
        ("Other items", ITEMS),
        ("Job", US),
        ("Basins", RIMS),
        (
            "Edges",
            "Edge,Basin,Treatment,Length (ft),Material,Work\nA,Tank,timber,64,Sleepers,\n\
             B,Tank,wall kept,32,,Clean\nC,Tank,stone,32,,\n",
        ),
        ("Materials", "Material,Unit,Price\nSleepers,ft,12\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nClean,ft,Crew,8\n",
        ),
        ("Crews", super::CREWS),
    ]);
    exactly("bought", line(&rim, "Edge: A", "bought", ONE), 64.0);
    exactly("cost", line(&rim, "Edge: A", "material cost", MONEY), 768.0);
    exactly("hours", line(&rim, "Edge: B", "crew hours", H), 4.0);
    let lines = (0..rim.rows::<Lines>()).map(|row| rim.words(NAME, row));
    assert_eq!(lines.filter(|name| name.starts_with("Edge: ")).count(), 2);
}
