//! Stone by course by hand: tons, pieces, elevations, spills, lifts.
//!
//! Always true: no expected figure was printed by this crate; each stands at the end of
//! the arithmetic above it.

use groundsheet::diagnostic::{Code, Diagnostic, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::takeoff::falls::profile;
use groundsheet::units::{EACH, FT, FT3, KG, LB, M, M3, M3_BANK, ONE, PERCENT, T, TON, YD3_BANK};

pub(crate) mod agreement;
mod lifts;
mod properties;

use crate::support::{self, METRIC, US, exactly, figure, within};

/// Tables of a job, as texts.
type Tables = Vec<(&'static str, String)>;

/// A cascade of three courses: two of rough blocks and one of a size range.
///
/// `as_set` is the top of the second course as set, and `flow_gpm` runs over the third.
fn cascade(as_set: &str, flow_gpm: f64) -> Tables {
    let falls = format!(
        "Fall,Kind,Foot (ft),Planned rise (ft),Flow (gpm),Lifted by,Radius (ft)\n\
         Main,waterfall,100,2' 10\"\"\",{flow_gpm},Small,12\n"
    );
    let falls = falls.replace("2' 10\"\"\"", "\"2' 10\"\"\"");
    let courses = format!(
        "Course,Fall,Number,Face (ft),Returns (ft),Height (in),Depth (in),Stone length (in),\
         Smallest (in),Largest (in),Embedment (in),Setback (ft),Rise (in),Spill width (ft),\
         As set top (ft)\n\
         c3,Main,3,6,,,,,8,16,,1.5,,2,\n\
         c1,Main,1,10,2,24,24,,,,6,,,,\n\
         c2,Main,2,8,,18,,24,,,,2,12,,{as_set}\n"
    );
    vec![
        ("Job", US.to_owned()),
        ("Waterfalls and streams", falls),
        ("Courses", courses),
        ("Equipment", "Machine\nSmall\nLarge\n".to_owned()),
        (
            "Lift chart",
            "Machine,Radius (ft),Capacity (ton)\nLarge,30,1\nSmall,20,0.5\nSmall,10,1.2\n\
             Large,10,4\nSmall,15,0.8\nLarge,20,2\n"
                .to_owned(),
        ),
        (
            "Materials",
            "Material,Unit,Price,Waste (%)\nBoulders,ton,100,\nRiver stone,yd3,40,10\n\
             Bedding,yd3 loose,20,0\nFoam,ea,9,\n"
                .to_owned(),
        ),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nSet stone,ea,Crew,4\nPlace gravel,yd3,Crew,2\n\
             Foam joint,ft,Crew,30\n"
                .to_owned(),
        ),
        ("Crews", "Crew,People,Wage per hour\nCrew,2,30\n".to_owned()),
    ]
}

fn borrowed(tables: &Tables) -> Vec<(&str, &str)> {
    tables.iter().map(|(name, text)| (*name, &**text)).collect()
}

/// A job needs a basin or an item: one with a price, so that nothing of it is open.
const SIGN: (&str, &str) = (
    "Other items",
    "Item,Section,Description,Times,Unit,Price\nSign,Site,Sign,1,ls,1\n",
);

fn estimate_of(tables: &[(&str, &str)]) -> Estimate {
    support::estimate_of(&[tables, &[SIGN]].concat())
}

fn findings_of(tables: &[(&str, &str)]) -> Vec<Diagnostic> {
    support::findings_of(&[tables, &[SIGN]].concat())
}

fn job(tables: &Tables) -> Estimate {
    estimate_of(&borrowed(tables))
}

fn found(tables: &Tables) -> Vec<Diagnostic> {
    findings_of(&borrowed(tables))
}

/// The flow that stands 3 in deep over a spill 2 ft wide: 3.33 × 2 × 0.25^1.5 = 0.8325 ft³
/// a second; a gallon is 231 in³.
const FLOW_GPM: f64 = 0.8325 * 60.0 * 1728.0 / 231.0;

fn course(job: &Estimate, row: &str, name: &str, unit: groundsheet::units::Unit) -> f64 {
    figure(job, ("Courses", row, name), unit)
}

fn fall(job: &Estimate, name: &str, unit: groundsheet::units::Unit) -> f64 {
    figure(job, ("Waterfalls and streams", "Main", name), unit)
}

fn line(job: &Estimate, row: &str, name: &str) -> f64 {
    figure(job, ("Lines", row, name), ONE)
}

#[test]
fn a_cascade_takes_its_pieces_and_tons() {
    // c1: 10 + 2 = 12 ft; stone 24 in high and deep, 1.5 × 24 = 36 in long. 12 × 2 × 2 = 48 ft³;
    //   less a quarter of voids 36 ft³ × 165 lb = 5,940 lb = 2.97 tons. 12 / 3 = 4 pieces of
    //   3 × 2 × 2 = 12 ft³ × 75 % × 165 = 1,485 lb: 4 × 1,485 = 5,940 lb too.
    // c2: 8 ft; 18 in high and as deep, 24 in long. 8 × 1.5² = 18 ft³: 13.5 × 165 = 2,227.5 lb;
    //   4 pieces of 2 × 1.5² × 0.75 × 165 = 556.875 lb.
    // c3: 6 ft of 8 to 16 in, mean 12 in: 6 ft³: 4.5 × 165 = 742.5 lb; 6 pieces of
    //   1 ft³ × 52.36 % × 165 = 86.394 lb; the largest (16/12)³ = 64/27 as much.
    let job = job(&cascade("", FLOW_GPM));
    let rows = [
        ("c1", 12.0, 48.0, 5940.0, 4.0, 1485.0, 1485.0),
        ("c2", 8.0, 18.0, 2227.5, 4.0, 556.875, 556.875),
        ("c3", 6.0, 6.0, 742.5, 6.0, 86.394, 86.394 * 64.0 / 27.0),
    ];
    for (row, run_ft, volume_ft3, weight_lb, pieces, piece_lb, heaviest_lb) in rows {
        let of = |name, unit| course(&job, row, name, unit);
        exactly(row, of("run", FT), run_ft);
        exactly(row, of("course volume", FT3), volume_ft3);
        exactly(row, of("tons by course", LB), weight_lb);
        exactly(row, of("tons in use", LB), weight_lb);
        exactly(row, of("pieces", EACH), pieces);
        exactly(row, of("weight of a piece", LB), piece_lb);
        exactly(row, of("heaviest piece", LB), heaviest_lb);
        exactly(row, of("tons by piece", LB), pieces * piece_lb);
        exactly(row, of("waste in use", PERCENT), 15.0);
    }
    // Of the fall: 8,910 lb = 4.455 tons, 14 pieces, the heaviest 1,485 lb.
    exactly("tons", fall(&job, "tons of stone", TON), 4.455);
    exactly("pieces", fall(&job, "pieces of stone", EACH), 14.0);
    exactly("heaviest", fall(&job, "heaviest piece", LB), 1485.0);
}

#[test]
fn a_cascade_takes_bedding_river_stone_foam_and_a_shelf() {
    // Bedding of 4 in: 12 × 2 + 8 × 1.5 + 6 × 1 = 42 ft² → 14 ft³.
    // Voids: a quarter of 72 ft³ = 18 ft³, half of them filled: 9 ft³.
    // Joints: 12 + 3 × 2 = 18; 8 + 3 × 1.5 = 12.5; 6 + 5 × 1 = 11: 41.5 ft; cans of 8 ft: 6.
    // Shelf: depth and 1 ft behind, bedding and embedment: 12 × 3 × 10/12 = 30;
    //   8 × 2.5 × 4/12 = 20/3; 6 × 2 × 4/12 = 4: 122/3 ft³.
    let job = job(&cascade("", FLOW_GPM));
    exactly("bedding", fall(&job, "bedding volume", FT3), 14.0);
    exactly("gap fill", fall(&job, "gap fill volume", FT3), 9.0);
    exactly("joint", fall(&job, "joint to foam", FT), 41.5);
    exactly("cans", fall(&job, "cans of foam", EACH), 6.0);
    let cut_yd3 = 122.0 / 3.0 / 27.0;
    exactly("cut", fall(&job, "shelf cut", YD3_BANK), cut_yd3);
    let dig = figure(&job, ("Cuts", "Shelves of Main", "dig"), YD3_BANK);
    exactly("dig", dig, cut_yd3);
    // Lines: tons, cubic yards, loose cubic yards, cans; and what is worked.
    let rows = [
        ("Stone: c1", 2.97, 2.97 * 1.15, 4.0),
        ("Stone: c2", 1.11375, 1.11375 * 1.15, 4.0),
        ("Gap fill: Main", 9.0 / 27.0, 9.0 / 27.0 * 1.1, 9.0 / 27.0),
        ("Bedding: Main", 14.0 / 27.0, 14.0 / 27.0, 14.0 / 27.0),
        ("Foam: Main", 6.0, 6.0, 41.5),
    ];
    for (row, taken_off, bought, worked) in rows {
        exactly(row, line(&job, row, "taken off"), taken_off);
        // What is bought is counted from a quantity of three decimals.
        within(row, line(&job, row, "bought"), bought, 0.001);
        exactly(row, line(&job, row, "worked in its own unit"), worked);
    }
}

#[test]
fn each_bed_follows_from_the_top_below() {
    // Foot 100.00. c1 is set in 6 in: 99.50 to 101.50; the next bed is 8 in lower: 100 5/6.
    // c2: 100 5/6 to 102 1/3; it rises 12 in: 101 5/6. c3: 101 5/6 to 102 5/6, and the
    // total rise is 2 ft 10 in, as planned. Water 3 in over c3.
    let job = job(&cascade("", FLOW_GPM));
    let sixth = 1.0 / 6.0;
    let rows = [
        ("c1", 99.5, 101.5, 101.5, 0.0),
        (
            "c2",
            100.0 + 5.0 * sixth,
            102.0 + 2.0 * sixth,
            102.0 + 2.0 * sixth,
            2.0,
        ),
        (
            "c3",
            101.0 + 5.0 * sixth,
            102.0 + 5.0 * sixth,
            103.0 + sixth / 2.0,
            3.5,
        ),
    ];
    for (row, bed, top, water, distance) in rows {
        let of = |name| course(&job, row, name, FT);
        exactly(row, of("bed"), bed);
        exactly(row, of("top"), top);
        exactly(row, of("water elevation"), water);
        within(row, of("distance back"), distance, 1e-9);
    }
    exactly("head", course(&job, "c3", "head of the spill", FT), 0.25);
    exactly("rise", fall(&job, "total rise", FT), 2.0 + 5.0 * sixth);
    let clean = |finding: &Diagnostic| finding.code != Code::ConflictingValues;
    assert!(job.findings.iter().all(clean), "{:?}", job.findings);
}

#[test]
fn a_course_as_set_moves_all_above_it_and_none_below() {
    // Planned at 102 1/3, c2 came out 3 in high: 102 7/12. All above moves by 0.25 ft, and
    // the total rise is 3 in more than planned, which is looked at.
    let planned = job(&cascade("", FLOW_GPM));
    let set = job(&cascade("102.5833333333333333", FLOW_GPM));
    for (row, bed, top) in [("c1", 0.0, 0.0), ("c2", 0.0, 0.25), ("c3", 0.25, 0.25)] {
        let moved = |name| course(&set, row, name, FT) - course(&planned, row, name, FT);
        within(row, moved("bed"), bed, 1e-9);
        within(row, moved("top"), top, 1e-9);
        within(row, moved("water elevation"), top, 1e-9);
    }
    let rise = fall(&set, "total rise", FT) - fall(&planned, "total rise", FT);
    exactly("rise", rise, 0.25);
    let warned = |finding: &Diagnostic| {
        finding.code == Code::ConflictingValues && finding.severity == Severity::Warning
    };
    assert_eq!(set.findings.iter().filter(|one| warned(one)).count(), 1);
}

#[test]
fn the_next_bed_is_about_eight_inches_below_the_top() {
    // Common practice, no source. Courses of 20 in rise 12 in each: after five of them the
    // top is 4 × 12 + 20 = 68 in above the foot.
    let rows = (1..=5).map(|row| format!("c{row},Main,{row},10,20\n"));
    let rows = rows.collect::<Vec<_>>().concat();
    let job = estimate_of(&[
        ("Job", US),
        ("Waterfalls and streams", "Fall,Kind\nMain,waterfall\n"),
        (
            "Courses",
            &format!("Course,Fall,Number,Face (ft),Height (in)\n{rows}"),
        ),
    ]);
    exactly("rise", fall(&job, "total rise", FT), 68.0 / 12.0);
    let below = course(&job, "c1", "top", FT) - course(&job, "c2", "bed", FT);
    exactly("bed", below, 8.0 / 12.0);
}

/// A metric edge of one course of limestone by rods.
fn metric(course: &str) -> Tables {
    vec![
        (
            "Job",
            format!("{METRIC}Benchmark (m),50\nBacksight (m),1.5\n"),
        ),
        (
            "Waterfalls and streams",
            "Fall,Kind,Foot rod (m),Rock,Foam\nMain,rock edge,2,limestone,\n".to_owned(),
        ),
        (
            "Courses",
            format!(
                "Course,Fall,Number,Face (m),Height (mm),Depth (mm),Stone length (mm),\
                 Embedment (mm),As set top rod (m),Porosity (%),Reject (%),Grade\n{course}"
            ),
        ),
    ]
}

#[test]
fn a_metric_edge_goes_by_rods() {
    // 3 m of 500 × 400 mm: 0.6 m³; × 75 % × 2,600 kg = 1,170 kg; 5 pieces of 600 mm:
    // 0.6 × 0.5 × 0.4 × 75 % × 2,600 = 234 kg. Line of sight 51.50; foot 49.50; bed 49.40;
    // top by rod 51.50 − 1.58 = 49.92. Bedding 100 mm: 0.12 m³. Joint 3 + 4 × 0.5 = 5 m, which
    // an edge that no water runs over does not take. Shelf 3 × 0.7 × 0.2 = 0.42 m³.
    let job = job(&metric("c1,Main,1,3,500,400,600,100,1.58,,,as set\n"));
    let of = |name, unit| course(&job, "c1", name, unit);
    exactly("volume", of("course volume", M3), 0.6);
    exactly("tonnes", of("tons in use", T), 1.17);
    exactly("pieces", of("pieces", EACH), 5.0);
    exactly("piece", of("weight of a piece", KG), 234.0);
    exactly("bed", of("bed", M), 49.4);
    exactly("top", of("top", M), 49.92);
    exactly("joint", of("joint", M), 5.0);
    exactly("rise", fall(&job, "total rise", M), 0.42);
    exactly("bedding", fall(&job, "bedding volume", M3), 0.12);
    exactly("cut", fall(&job, "shelf cut", M3_BANK), 0.42);
    within("foam", fall(&job, "cans of foam", EACH), 0.0, 0.0);
    // With 40 % voids and 20 % reject: 0.6 × 60 % × 2.6 = 0.936 t; 25 % waste.
    let job = self::job(&metric("c1,Main,1,3,500,400,600,100,,40,20,\n"));
    exactly("tonnes", course(&job, "c1", "tons in use", T), 0.936);
    let delivered = course(&job, "c1", "stone delivered", ONE);
    exactly("delivered", delivered, 0.936 * 1.25);
    // Foam where it is named: 5 m by cans of 2.4 m, whole: 3.
    let mut tables = metric("c1,Main,1,3,500,400,600,100,,,,\n");
    tables[1].1 = tables[1].1.replace("limestone,", "limestone,Sealant");
    tables.push((
        "Materials",
        "Material,Unit,Price\nSealant,ea,9\n".to_owned(),
    ));
    let job = self::job(&tables);
    exactly("foam", fall(&job, "cans of foam", EACH), 3.0);
}

#[test]
fn units_of_headings_do_not_matter() {
    // 12 ft of stone 2 ft high and deep, 3 ft long, in metres, centimetres and millimetres;
    // 24 in = 60.96 cm = 609.6 mm, 36 in = 914.4 mm, 12 ft = 3.6576 m.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Waterfalls and streams",
            "Fall,Kind,Foot (m)\nMain,stream,30.48\n",
        ),
        (
            "Courses",
            "Course,Fall,Number,Face (m),Height (cm),Depth (mm),Stone length (mm),Embedment (mm),\
             Largest (cm)\nc1,Main,1,3.6576,60.96,609.6,914.4,152.4,91.44\n",
        ),
    ]);
    exactly("tons", course(&job, "c1", "tons in use", LB), 5940.0);
    exactly("pieces", course(&job, "c1", "pieces", EACH), 4.0);
    exactly("bed", course(&job, "c1", "bed", FT), 99.5);
    // A stone of 36 in all round: 27 ft³ × 75 % × 165 = 3,341.25 lb.
    exactly(
        "heaviest",
        course(&job, "c1", "heaviest piece", LB),
        3341.25,
    );
}

#[test]
fn rock_shape_and_the_way_to_the_tons_are_chosen_by_course() {
    // 8 ft of 24 in high and deep, 36 in long: 3 pieces, 32 ft³; pieces fill 12 ft³ each.
    //   By course in basalt: 32 × 0.75 × 188 = 4,512 lb. By piece in granite as blocks:
    //   3 × 12 × 165 = 5,940 lb; rounded 3 × 12 × 0.5236 × 165 = 3,110.184 lb.
    let job = estimate_of(&[
        ("Job", US),
        (
            "Waterfalls and streams",
            "Fall,Kind,Rock\nMain,stream,basalt\n",
        ),
        (
            "Courses",
            "Course,Fall,Number,Face (ft),Height (in),Rock,Shape,Tons by,Rise (in)\n\
             c1,Main,1,8,24,,,,\nc2,Main,2,8,24,granite,block,piece,\n\
             c3,Main,3,8,24,granite,rounded,piece,\n",
        ),
    ]);
    let rows = [("c1", 4512.0), ("c2", 5940.0), ("c3", 3110.184)];
    for (row, pounds) in rows {
        exactly(row, course(&job, row, "tons in use", LB), pounds);
    }
}

/// Findings with a code, of a severity.
fn count(findings: &[Diagnostic], code: Code, severity: Severity) -> usize {
    let same = |finding: &&Diagnostic| finding.code == code && finding.severity == severity;
    findings.iter().filter(same).count()
}

const COURSES: &str = "Course,Fall,Number,Face (ft),Height (in),Smallest (in),Largest (in),\
    Rise (in),As set top (ft),As set top rod (ft),Spill width (ft),Grade,Tons by,\
    Stone length (in)\n";

#[test]
fn what_cannot_be_or_is_missing_is_said_once_at_its_course() {
    let open = Severity::Open;
    let (fault, warning) = (Severity::Error, Severity::Warning);
    let rows = [
        // No height and no size range.
        ("c1,Main,1,8,,,,,,,,,,\n", Code::MissingValue, fault),
        // A size range without its largest, and the wrong way round.
        ("c1,Main,1,8,20,8,,,,,,,,\n", Code::ConflictingValues, fault),
        ("c1,Main,1,8,,16,8,,,,,,,\n", Code::ConflictingValues, fault),
        // A gap in the numbers, and one that stands twice.
        ("c1,Main,2,8,20,,,,,,,,,\n", Code::OrderOfRows, fault),
        (
            "c1,Main,1,8,20,,,,,,,,,\nc2,Main,1,8,20,,,,,,,,,\n",
            Code::OrderOfRows,
            fault,
        ),
        // As set at its own bed, or above the planned top by more than its height.
        ("c1,Main,1,8,20,,,,0,,,,,\n", Code::ShapeImpossible, fault),
        (
            "c1,Main,1,8,20,,,,4,,,,,\n",
            Code::ConflictingValues,
            warning,
        ),
        // Marked as set without an elevation.
        ("c1,Main,1,8,20,,,,,,,as set,,\n", Code::MissingValue, open),
        // A bed above the top of the stone below, and courses that do not rise.
        (
            "c1,Main,1,8,20,,,21,,,,,,\nc2,Main,2,8,20,,,21,,,,,,\n",
            Code::ConflictingValues,
            warning,
        ),
        (
            "c1,Main,1,8,8,,,,,,,,,\nc2,Main,2,8,8,,,,,,,,,\n",
            Code::MissingValue,
            open,
        ),
        // A spill over which no water runs.
        ("c1,Main,1,8,20,,,,,,3,,,\n", Code::MissingValue, open),
        // Tons by piece of one stone of 40 ft for a face of 8 ft.
        (
            "c1,Main,1,8,20,,,,,,,,piece,480\n",
            Code::ConflictingValues,
            warning,
        ),
    ];
    for (courses, code, severity) in rows {
        let findings = findings_of(&[
            ("Job", US),
            ("Waterfalls and streams", "Fall,Kind\nMain,waterfall\n"),
            ("Courses", &format!("{COURSES}{courses}")),
        ]);
        assert_eq!(
            count(&findings, code, severity),
            1,
            "{courses}: {findings:?}"
        );
        let placed = findings
            .iter()
            .find(|one| one.code == code && one.severity == severity);
        assert!(
            placed.is_some_and(|one| one.place.is_some()),
            "{courses}: {placed:?}"
        );
    }
}

#[test]
fn a_rod_reading_above_a_foot_without_elevation_is_a_fault() {
    let findings = findings_of(&[
        (
            "Job",
            &format!("{US}Benchmark (ft),100\nBacksight (ft),5\n"),
        ),
        ("Waterfalls and streams", "Fall,Kind\nMain,waterfall\n"),
        ("Courses", &format!("{COURSES}c1,Main,1,8,20,,,,,3,,,,\n")),
    ]);
    assert_eq!(
        count(&findings, Code::MissingValue, Severity::Error),
        1,
        "{findings:?}"
    );
}

#[test]
fn a_fall_without_courses_or_water_without_a_spill_is_open() {
    let rows = [
        ("Fall,Kind,Flow (gpm)\nMain,waterfall,\n", "", 1),
        (
            "Fall,Kind,Reach length (ft),Reach width (ft),Reach depth (ft)\nMain,stream,40,4,1\n",
            "",
            1,
        ),
        (
            "Fall,Kind,Flow (gpm)\nMain,waterfall,300\n",
            "c1,Main,1,8,20,\n",
            1,
        ),
        (
            "Fall,Kind,Flow (gpm)\nMain,waterfall,300\n",
            "c1,Main,1,8,20,2\n",
            0,
        ),
    ];
    for (falls, courses, open) in rows {
        let courses =
            format!("Course,Fall,Number,Face (ft),Height (in),Spill width (ft)\n{courses}");
        let findings = findings_of(&[
            ("Job", US),
            ("Waterfalls and streams", falls),
            ("Courses", &courses),
        ]);
        let missing = count(&findings, Code::MissingValue, Severity::Open);
        assert_eq!(missing, open, "{falls}{courses}: {findings:?}");
    }
}

#[test]
fn a_head_beyond_its_formula_is_a_warning() {
    // Over 1 ft: 3.33 × (1/3)^1.5 = 0.6409 ft³ a second is 287.6 gpm at the most; over the same
    // width the least head of 0.2 ft carries 3.33 × 0.08944 = 0.2978 ft³ a second or 133.7 gpm.
    for (flow_gpm, warnings) in [("130", 1), ("137", 0), ("280", 0), ("295", 1)] {
        let findings = findings_of(&[
            ("Job", US),
            (
                "Waterfalls and streams",
                &format!("Fall,Kind,Flow (gpm)\nMain,waterfall,{flow_gpm}\n"),
            ),
            (
                "Courses",
                "Course,Fall,Number,Face (ft),Height (in),Spill width (ft)\nc1,Main,1,8,20,1\n",
            ),
        ]);
        let beyond = count(&findings, Code::BeyondFormula, Severity::Warning);
        assert_eq!(beyond, warnings, "{flow_gpm}: {findings:?}");
    }
}

#[test]
fn stone_without_a_price_or_a_rate_is_open_and_stone_in_square_feet_a_fault() {
    let mut tables = cascade("", FLOW_GPM);
    tables.retain(|(name, _)| !["Materials", "Production rates"].contains(name));
    let findings = found(&tables);
    // The boulders of three courses in one, gap fill, bedding, foam.
    assert_eq!(
        count(&findings, Code::MissingPrice, Severity::Open),
        4,
        "{findings:?}"
    );
    let rates = |finding: &&Diagnostic| {
        finding.code == Code::MissingRate && finding.message.contains("is not in the book")
    };
    // Setting in one, placing of gap fill and of bedding in one, foaming.
    assert_eq!(findings.iter().filter(rates).count(), 3, "{findings:?}");
    tables.push((
        "Materials",
        "Material,Unit,Price\nBoulders,ft2,5\n".to_owned(),
    ));
    let findings = found(&tables);
    // One row of the book mends all three courses.
    let unfit: Vec<&Diagnostic> = findings
        .iter()
        .filter(|finding| finding.code == Code::DimensionMismatch)
        .collect();
    let [unfit] = unfit.as_slice() else {
        panic!("{findings:?}");
    };
    assert_eq!(unfit.severity, Severity::Error);
    assert!(unfit.message.contains("for 2 rows more"), "{unfit:?}");
}

#[test]
fn stone_is_sold_by_weight_by_the_piece_or_by_volume() {
    // c1: 2.97 tons = 5,940 lb, 4 pieces, 48 ft³ = 48/27 yd³.
    let rows = [
        ("lb", 5940.0),
        ("ea", 4.0),
        ("yd3", 48.0 / 27.0),
        ("yd3 loose", 48.0 / 27.0),
    ];
    for (unit, quantity) in rows {
        let mut tables = cascade("", FLOW_GPM);
        for (name, text) in &mut tables {
            if *name == "Materials" {
                *text = text.replace("Boulders,ton", &format!("Boulders,{unit}"));
            }
        }
        exactly(
            unit,
            line(&job(&tables), "Stone: c1", "taken off"),
            quantity,
        );
    }
}

#[test]
fn the_long_section_has_three_points_a_course() {
    let job = job(&cascade("", FLOW_GPM));
    assert_eq!(profile::rows_of(&job.graph), [(0, 9)]);
    // c2 stands 2 ft back and is 18 in deep: (2, bed), (2, top), (3.5, top).
    let of = |column, row: usize| job.results.numbers(job.graph.id(column))[row];
    let (bed, top) = (100.0 + 5.0 / 6.0, 102.0 + 1.0 / 3.0);
    for (row, distance, stone) in [(3, 2.0, bed), (4, 2.0, top), (5, 3.5, top)] {
        exactly("distance", of(profile::DISTANCE, row), distance);
        exactly("stone", of(profile::STONE, row), stone);
        exactly("bed", of(profile::BED, row), bed);
        exactly("water", of(profile::WATER, row), top);
    }
    exactly("water", of(profile::WATER, 8), 102.0 + 5.0 / 6.0 + 0.25);
}
