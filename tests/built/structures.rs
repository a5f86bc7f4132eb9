//! Structures: size, pit, supply, opening, flotation.

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::takeoff::lifts::WEIGHT;
use groundsheet::units::{
    FT, FT_S, FT3, GAL, H, LB, M, M3, M3_BANK, M3_COMPACTED, MONEY, ONE, Unit, YD3_BANK,
    YD3_COMPACTED,
};

use super::{ITEMS, found, job, line, of_code, says, silent};
use crate::support::{METRIC, US, estimate_of, exactly, figure, findings_of, within};

fn of(job: &Estimate, row: &str, name: &str, unit: Unit) -> f64 {
    figure(job, ("Structures", row, name), unit)
}

const PIT: &str = "Structure,Kind,Times,Length (ft),Width (ft),Height (ft),Cut depth (ft),\
                   Bedding (in),Entered,Price\n";

#[test]
fn a_pit_has_room_and_lay_back_where_people_enter_and_bedding_where_it_is_dug() {
    // A vault of 8 × 6 × 5 ft, its underside 5 ft down on 6 in of bedding: a pit 5.5 ft deep.
    // Entered: 12 × 10 ft at the foot; 2 × 1.5 × 5.5 = 16.5 ft wider at the ground, 28.5 × 26.5.
    //   (28.5 × 26.5 + (28.5 + 12)(26.5 + 10) + 12 × 10) × 5.5 / 6
    //   = (755.25 + 1,478.25 + 120) × 5.5 / 6 = 2,157.375 ft³
    // Structure below ground 240, bedding 8 × 6 × 0.5 = 24: 1,893.375 ft³ filled again.
    // Not entered: 48 × 5.5 = 264, of which 240 + 24: nothing is filled again.
    // 4 ft high, its top lies 1 ft below the ground: 264 − 192 − 24 = 48 on top of it.
    // Bedding left blank is the factor's 4 in: 48 × (5 + 1/3) = 256 dug, 16 of bedding.
    let pits = job(&[(
        "Structures",
        &format!(
            "{PIT}Entered,vault,,8,6,5,5,6,yes,900\nTwo,vault,2,8,6,5,5,6,yes,900\n\
             Left,vault,,8,6,5,5,6,no,900\nLow,vault,,8,6,4,5,6,,900\nUsual,vault,,8,6,5,5,,,900\n\
             Laid,vault,,8,6,5,,6,,900\n"
        ),
    )]);
    let rows = [
        ("Entered", 2157.375, 1893.375, 24.0),
        ("Two", 2.0 * 2157.375, 2.0 * 1893.375, 48.0),
        ("Left", 264.0, 0.0, 24.0),
        ("Low", 264.0, 48.0, 24.0),
        ("Usual", 256.0, 0.0, 16.0),
        ("Laid", 0.0, 0.0, 24.0),
    ];
    for (row, dig_ft3, backfill_ft3, bedding_ft3) in rows {
        let dig = of(&pits, row, "pit, dig", YD3_BANK);
        within(row, dig, dig_ft3 / 27.0, 1e-9 * 200.0);
        let backfill = of(&pits, row, "pit, backfill", YD3_COMPACTED);
        within(row, backfill, backfill_ft3 / 27.0, 1e-9 * 200.0);
        exactly(row, of(&pits, row, "bedding volume", FT3), bedding_ft3);
        // Lines round to the thousandth; bedding is bought by the cubic yard, without waste.
        let name = format!("Bedding under: {row}");
        within(
            &name,
            line(&pits, &name, "bought", ONE),
            bedding_ft3 / 27.0,
            0.000_51,
        );
    }
    let dug = line(&pits, "Dig: pit of Entered", "quantity", ONE);
    within("dig line", dug, 2157.375 / 27.0, 0.000_51);
    let filled = line(&pits, "Backfill: pit of Entered", "quantity", ONE);
    within("backfill line", filled, 1893.375 / 27.0, 0.000_51);
    let cuts = pits.graph.find("Cuts", "dig").unwrap();
    assert_eq!(pits.graph.rows(cuts), 5, "bedding alone is no cut");
}

#[test]
fn a_pit_in_metres_and_a_pit_in_mixed_units_are_the_same_pit() {
    // 2 × 1.5 m, 1.2 m high and deep, 100 mm of bedding, entered: 1.3 m deep, under 1.5 m, so
    // upright: 3.2 × 2.7 × 1.3 = 11.232 m³; less 3.6 and 0.3: 7.332 m³ filled again.
    let rows = [
        "Structure,Kind,Length (m),Width (m),Height (m),Cut depth (m),Bedding (mm),Entered\n\
         Box,weir box,2,1.5,1.2,1.2,100,yes\n",
        "Structure,Kind,Length (mm),Width (cm),Height (m),Cut depth (mm),Bedding (cm),Entered\n\
         Box,weir box,2000,150,1.2,1200,10,yes\n",
    ];
    for table in rows {
        let pit = estimate_of(&[
            ("Other items", ITEMS),
            ("Job", METRIC),
            ("Structures", table),
        ]);
        exactly("dig", of(&pit, "Box", "pit, dig", M3_BANK), 11.232);
        exactly(
            "fill",
            of(&pit, "Box", "pit, backfill", M3_COMPACTED),
            7.332,
        );
        exactly("bedding", of(&pit, "Box", "bedding volume", M3), 0.3);
        exactly("depth", of(&pit, "Box", "depth of its pit", M), 1.3);
    }
}

#[test]
fn cautions_come_with_vaults_and_with_deep_pits_that_people_enter() {
    let pits = |rows: &str| found(&[("Structures", &format!("{PIT}{rows}"))]);
    let all = pits("Vault,vault,,8,6,5,5,0,yes,900\n");
    says(&all, Severity::Caution, Code::DeepCut, "Vault: people work");
    says(
        &all,
        Severity::Caution,
        Code::ConfinedSpace,
        "Vault: people",
    );
    let all = pits("Box,weir box,,8,6,4.99,4.99,0,yes,900\nOut,weir box,,8,6,5,9,0,,900\n");
    silent(&all, Code::DeepCut);
    silent(&all, Code::ConfinedSpace);
    let all = pits("Box,weir box,,8,6,5,,,yes,900\n");
    says(&all, Severity::Open, Code::MissingValue, "no pit is dug");
    let all = pits("Old,wall kept,,8,1,5,5,,,\n");
    says(
        &all,
        Severity::Error,
        Code::ConflictingValues,
        "neither a pit",
    );
}

const CRATES: &str = "Structure,Kind,Times,Length (ft),Width (ft),Height (ft),Crate length (in),\
                      Crate width (in),Crate height (in),Void (%)\n";

#[test]
fn whole_crates_fill_each_axis_and_store_their_voids() {
    // 120 in ÷ 24 = 5; 72 ÷ 16 = 4.5, so 5; 36 ÷ 10 = 3.6, so 4: 100 crates of 24 × 16 × 10 =
    // 3,840 in³, 384,000 in³ in all, of which 95 % hold water: 364,800 in³ ÷ 231 gallons.
    // Two banks at 90 %: 691,200 in³. A bank that fits exactly gains no crate.
    let table = format!(
        "{CRATES}Bank,void crates,,10,6,3,24,16,10,\nTwo,void crates,2,10,6,3,24,16,10,90\n\
         Fits,void crates,,10,8,2.5,24,16,10,100\n"
    );
    let banks = job(&[("Structures", &table)]);
    for (row, crates, stored_in3) in [
        ("Bank", 100.0, 364_800.0),
        ("Two", 200.0, 691_200.0),
        ("Fits", 5.0 * 6.0 * 3.0, 90.0 * 3840.0),
    ] {
        exactly(row, of(&banks, row, "pieces", ONE), crates);
        let stored = of(&banks, row, "water stored in crates", GAL);
        exactly(row, stored, stored_in3 / 231.0);
        let name = format!("Crates: {row}");
        exactly(&name, line(&banks, &name, "bought", ONE), crates);
        exactly(
            &name,
            line(&banks, &name, "material cost", MONEY),
            25.0 * crates,
        );
        exactly(&name, line(&banks, &name, "crew hours", H), crates / 20.0);
    }
    exactly(
        "width",
        of(&banks, "Bank", "width as built", FT),
        80.0 / 12.0,
    );
    assert!(!banks.is_draft(), "{:?}", banks.findings);
}

#[test]
fn crates_by_volume_and_in_metres() {
    // 2.0 × 1.0 × 0.8 m of crates 700 × 400 × 450 mm: 3 × 3 × 2 = 18 crates of 0.126 m³:
    // 2.268 m³, of which 95 %: 2.1546 m³.
    let tables = [
        ("Other items", ITEMS),
        ("Job", METRIC),
        (
            "Structures",
            "Structure,Kind,Length (m),Width (m),Height (m),Crate length (mm),Crate width (mm),\
             Crate height (mm)\nBank,void crates,2,1,0.8,700,400,450\n",
        ),
        ("Materials", "Material,Unit,Price\nVoid crate,m3,200\n"),
    ];
    let bank = estimate_of(&tables);
    exactly("crates", of(&bank, "Bank", "pieces", ONE), 18.0);
    let stored = of(&bank, "Bank", "water stored in crates", M3);
    exactly("stored", stored, 2.1546);
    // A volume is lost in handling like any other: 5 % by the factor.
    exactly("line", line(&bank, "Crates: Bank", "quantity", ONE), 2.268);
}

#[test]
fn crates_without_their_size_are_a_fault_at_each_cell() {
    let all = found(&[(
        "Structures",
        &format!("{CRATES}Bank,void crates,,10,6,3,24,,,\n"),
    )]);
    let missing = of_code(&all, Severity::Error, Code::MissingValue);
    assert_eq!(missing.len(), 2, "{all:?}");
    assert!(
        missing[0].contains("H2") && missing[1].contains("I2"),
        "{missing:?}"
    );
    let all = found(&[("Structures", &format!("{CRATES}V,vault,,10,6,3,24,,,\n"))]);
    says(
        &all,
        Severity::Warning,
        Code::ConflictingValues,
        "no bank of void crates",
    );
    let all = found(&[(
        "Structures",
        &format!("{CRATES}V,vault,,10,,3,,,,\nW,vault,,10,2,0,,,,\n"),
    )]);
    says(
        &all,
        Severity::Error,
        Code::MissingValue,
        "E2 V: the structure has no width",
    );
    says(
        &all,
        Severity::Error,
        Code::OutOfRange,
        "F3 W: the structure has no height",
    );
}

const PRICED: &str =
    "Structure,Kind,Times,Length (ft),Width (ft),Height (ft),Material,Work,Price\n";

#[test]
fn structures_are_priced_by_piece_by_price_and_walls_by_their_face() {
    // Three boxes at $850 each, set at two an hour: 1.5 h. A wall of 30 × 4 ft: 120 ft² at 60 an
    // hour: 2 h. The same two times with a price for one: 2 × $500, and 4 h of our own crew.
    let priced = job(&[(
        "Structures",
        &format!(
            "{PRICED}Box,weir box,3,3,3,4,,,850\nOld wall,wall kept,,30,,4,,,\n\
             Sold,wall kept,2,30,1,4,,,500\n"
        ),
    )]);
    exactly(
        "boxes",
        line(&priced, "Structure: Box", "quantity", ONE),
        3.0,
    );
    exactly(
        "boxes",
        line(&priced, "Structure: Box", "subcontract cost", MONEY),
        2550.0,
    );
    exactly(
        "boxes",
        line(&priced, "Structure: Box", "crew hours", H),
        1.5,
    );
    exactly(
        "wall",
        line(&priced, "Wall: Old wall", "quantity", ONE),
        120.0,
    );
    exactly(
        "wall",
        line(&priced, "Wall: Old wall", "crew hours", H),
        2.0,
    );
    exactly(
        "wall",
        line(&priced, "Wall: Old wall", "material cost", MONEY),
        0.0,
    );
    exactly("sold", line(&priced, "Wall: Sold", "quantity", ONE), 2.0);
    exactly(
        "sold",
        line(&priced, "Wall: Sold", "subcontract cost", MONEY),
        1000.0,
    );
    exactly("sold", line(&priced, "Wall: Sold", "crew hours", H), 4.0);
    assert!(!priced.is_draft(), "{:?}", priced.findings);
}

#[test]
fn nothing_is_silently_free() {
    let bare = |rows: &str| {
        let table = format!("{PRICED}{rows}");
        findings_of(&[("Other items", ITEMS), ("Job", US), ("Structures", &table)])
    };
    let all = bare("Box,weir box,,3,3,4,,,\n");
    says(
        &all,
        Severity::Open,
        Code::MissingPrice,
        "G2 Box: nothing prices",
    );
    says(&all, Severity::Open, Code::MissingRate, "H2 Box: the work");
    let all = bare("Box,weir box,,3,3,4,,,900\n");
    silent(&all, Code::MissingPrice);
    says(
        &all,
        Severity::Warning,
        Code::MissingRate,
        "taken to include the setting",
    );
    let all = bare("Old,wall kept,,3,,4,,,\n");
    silent(&all, Code::MissingPrice);
    says(&all, Severity::Open, Code::MissingRate, "Old: the work");
    // A vault has no area that it could be bought by, and a wall kept no volume.
    let sold = |row: &str, unit: &str| {
        let table = format!("{PRICED}{row},Sheet,,\n");
        let materials = format!("Material,Unit,Price\nSheet,{unit},1\n");
        findings_of(&[
            ("Other items", ITEMS),
            ("Job", US),
            ("Structures", &table),
            ("Materials", &materials),
            ("Production rates", super::WORKS),
            ("Crews", super::CREWS),
        ])
    };
    let all = sold("V,vault,,3,3,4", "ft2");
    says(
        &all,
        Severity::Error,
        Code::DimensionMismatch,
        "this kind of structure",
    );
    let all = sold("V,vault,,3,3,4", "h");
    assert!(!of_code(&all, Severity::Error, Code::DimensionMismatch).is_empty());
    silent(&sold("W,wall kept,,3,,4", "ft2"), Code::DimensionMismatch);
    silent(&sold("W,wall kept,,3,,4", "ft"), Code::DimensionMismatch);
    let both = format!("{PRICED}W,wall kept,,3,,4,Gravel,,20\n");
    let all = found(&[("Structures", &both)]);
    says(
        &all,
        Severity::Error,
        Code::ConflictingValues,
        "beside a material",
    );
}

const OPENING: &str = "Structure,Kind,Length (ft),Width (ft),Height (ft),Price,\
                       Opening width (ft),Opening height (ft),Flow (gpm)\n";

#[test]
fn water_enters_an_opening_at_flow_over_area() {
    // Common practice, no source: 6 × 1 ft passing 1,300 gpm is near 0.5 ft/s.
    // 1,300 × 231 ÷ 1,728 ÷ 60 = 2.896412 ft³/s over 6 ft²: 0.482735 ft/s.
    let opened =
        |sides: &str| found(&[("Structures", &format!("{OPENING}V,vault,8,6,5,1,{sides}\n"))]);
    let vault = job(&[(
        "Structures",
        &format!("{OPENING}V,vault,8,6,5,1,6,1,1300\n"),
    )]);
    let velocity = of(&vault, "V", "approach velocity", FT_S);
    exactly("by hand", velocity, 1300.0 * 231.0 / 1728.0 / 60.0 / 6.0);
    within("common practice", velocity, 0.5, 0.02);
    silent(&opened("6,1,1300"), Code::FastOpening);
    // 1,400 gpm: 0.519868 ft/s.
    says(
        &opened("6,1,1400"),
        Severity::Warning,
        Code::FastOpening,
        "G2 V: water enters",
    );
    says(
        &opened(",,1300"),
        Severity::Open,
        Code::MissingValue,
        "G2 V: water flows in",
    );
    says(
        &opened("6,,1300"),
        Severity::Open,
        Code::MissingValue,
        "G2 V: water flows in",
    );
    says(
        &opened("6,1,"),
        Severity::Warning,
        Code::MissingValue,
        "I2 V: an opening",
    );
    silent(&opened(",,"), Code::MissingValue);
}

const FLOAT: &str = "Structure,Kind,Length (ft),Width (ft),Height (ft),Price,Cut depth (ft),\
                     Weight (ton),Cover (in),Groundwater (ft)\n";

#[test]
fn a_vault_in_groundwater_is_held_by_its_weight_and_its_cover() {
    // 8 × 6 ft, underside 5 ft down, groundwater at 2 ft: 48 × 3 × 62.4 = 8,985.6 lb of uplift.
    //   Dry 5 tons: 10,000 ÷ 8,985.6 = 1.1129, under 1.2: open.
    //   With 6 in of cover, above ground and so dry: 48 × 0.5 × 95 = 2,280 lb: 1.36663.
    // 3 ft high and 6 ft down under 2 ft of cover, groundwater at 1 ft: all 3 ft are under
    //   water, 8,985.6 lb; all of the cover too: 48 × 2 × (95 − 62.4) = 3,129.6 lb.
    // Groundwater below the underside lifts nothing.
    let rows = [
        ("5,5,,2", 8985.6, 10_000.0, true),
        ("5,5,6,2", 8985.6, 12_280.0, false),
        ("3,6,24,1", 8985.6, 10_000.0 + 3129.6, false),
        ("5,5,,5", 0.0, 10_000.0, false),
        ("5,5,,9", 0.0, 10_000.0, false),
    ];
    for (row, uplift_lb, held_lb, floats) in rows {
        let cells: Vec<&str> = row.split(',').collect();
        let table = format!(
            "{FLOAT}V,vault,8,6,{},1,{},5,{},{}\n",
            cells[0], cells[1], cells[2], cells[3]
        );
        let vault = job(&[("Structures", &table)]);
        exactly(row, of(&vault, "V", "uplift", LB), uplift_lb);
        exactly(row, of(&vault, "V", "held down by", LB), held_lb);
        let safety = of(&vault, "V", "factor of safety against lifting", ONE);
        let expected = if uplift_lb > 0.0 {
            held_lb / uplift_lb
        } else {
            0.0
        };
        exactly(row, safety, expected);
        let open = of_code(&vault.findings, Severity::Open, Code::MayFloat);
        assert_eq!(open.len(), usize::from(floats), "{row}: {open:?}");
    }
    let table = format!("{FLOAT}V,vault,8,6,5,1,,5,,2\n");
    let all = found(&[("Structures", &table)]);
    says(
        &all,
        Severity::Open,
        Code::MissingValue,
        "G2 V: groundwater is measured",
    );
}

#[test]
fn a_bank_of_crates_is_held_by_all_of_its_crates() {
    // 2 × 2 × 2 = 8 crates of 1 ft³ and 10 lb: 80 lb. Underside 2 ft down, groundwater at the
    // ground: 8 ft³ × 62.4 = 499.2 lb.
    let bank = job(&[(
        "Structures",
        "Structure,Kind,Length (ft),Width (ft),Height (ft),Crate length (in),Crate width (in),\
         Crate height (in),Cut depth (ft),Weight (lb),Groundwater (ft)\n\
         Bank,void crates,2,2,2,12,12,12,2,10,0\n",
    )]);
    exactly("held", of(&bank, "Bank", "held down by", LB), 80.0);
    exactly("uplift", of(&bank, "Bank", "uplift", LB), 499.2);
    exactly("lifted", of(&bank, "Bank", "weight of one", LB), 10.0);
}

#[test]
fn structures_that_are_weighed_are_lifted() {
    let table = format!("{FLOAT}V,vault,8,6,5,1,,5,,\nW,vault,8,6,5,1,,,,\n");
    let both = job(&[("Structures", &table)]);
    let weight = both.graph.id(WEIGHT);
    assert_eq!(both.graph.rows(weight), 1);
    exactly("tons", both.results.number(weight.at(0)), 5.0);
}

#[test]
fn an_intake_rim_stands_a_hand_above_its_crates_and_a_river_of_stone_on_them() {
    // Common practice, no source: the intake basin's rim 4 to 6 in above its crates, and 3 to
    // 5 in of river stone over them. A basin 4 ft deep on crates 3 ft 7 in high and 4 in of
    // stone: the rim is 48 − 43 = 5 in above the crates; 10 × 6 ft × 4 in = 20 ft³ of stone,
    // less nothing, for the crates stand below it.
    let intake = job(&[
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\nIntake,rectangle,10,6,4,0\n",
        ),
        (
            "Structures",
            "Structure,Kind,Basin,Length (ft),Width (ft),Height (in),Crate length (in),\
             Crate width (in),Crate height (in)\nBank,void crates,Intake,10,6,43,24,24,21.5\n",
        ),
        (
            "Gravel and loose stone",
            "Bed,Basin,Length (ft),Width (ft),Thickness (in)\nOver crates,Intake,10,6,4\n",
        ),
    ]);
    let depth_in = 12.0 * figure(&intake, ("Basins", "Intake", "depth to floor"), FT);
    let rim_in = depth_in - 12.0 * of(&intake, "Bank", "height as built", FT);
    assert!((4.0..=6.0).contains(&rim_in), "{rim_in}");
    let at = ("Gravel and loose stone", "Over crates", "net volume");
    exactly("stone", figure(&intake, at, FT3), 20.0);
}
