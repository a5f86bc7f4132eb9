//! Logs by length and diameter.

use std::f64::consts::PI;

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::takeoff::lifts::WEIGHT;
use groundsheet::units::{FT3, H, KG, LB, M3, MONEY, ONE, TON};

use super::{CREWS, ITEMS, job, line, says};
use crate::support::{METRIC, US, estimate_of, exactly, figure, findings_of, within};

#[test]
fn logs_are_cylinders_of_green_wood() {
    // 18 in across and 16 ft long: π/4 × 1.5² × 16 = 9 π ft³. White oak at 66.6 lb/ft³ where the
    // species is blank; loblolly pine at 61.6.
    let logs = job(&[(
        "Timber",
        "Log,Times,Length (ft),Diameter (in),Species\nOak,3,16,18,\nPine,,16,18,loblolly pine\n",
    )]);
    let of = |row, name, unit| figure(&logs, ("Timber", row, name), unit);
    exactly("volume", of("Oak", "volume of one", FT3), 9.0 * PI);
    exactly("volume", of("Oak", "volume of all", FT3), 27.0 * PI);
    exactly(
        "weight",
        of("Oak", "green weight of one", LB),
        9.0 * PI * 66.6,
    );
    exactly(
        "weight",
        of("Oak", "green weight of all", LB),
        27.0 * PI * 66.6,
    );
    exactly(
        "weight",
        of("Pine", "green weight of one", LB),
        9.0 * PI * 61.6,
    );
    exactly(
        "cost",
        line(&logs, "Logs: Oak", "material cost", MONEY),
        900.0,
    );
    exactly("hours", line(&logs, "Logs: Oak", "crew hours", H), 0.75);
    let weight = logs.graph.id(WEIGHT);
    assert_eq!(logs.graph.rows(weight), 2);
    let tons = logs.results.number(weight.at(0));
    exactly("lifted", tons, 9.0 * PI * 66.6 / 2000.0);
}

#[test]
fn logs_are_bought_and_set_by_piece_length_volume_or_weight() {
    // Three logs of 16 ft: 48 ft, 27 π ft³, 27 π × 66.6 lb.
    for (unit, amount) in [
        ("ea", 3.0),
        ("ft", 48.0),
        ("ft3", 27.0 * PI),
        ("yd3", PI),
        ("lb", 27.0 * PI * 66.6),
        ("ton", 27.0 * PI * 66.6 / 2000.0),
    ] {
        let materials = format!("Material,Unit,Price,Waste (%)\nLogs,{unit},10,0\n");
        let works = format!("Work,Unit,Crew,Crew output\nSet log,{unit},Crew,1\n");
        let logs = estimate_of(&[
            ("Other items", ITEMS),
            ("Job", US),
            (
                "Timber",
                "Log,Times,Length (ft),Diameter (in)\nOak,3,16,18\n",
            ),
            ("Materials", &materials),
            ("Production rates", &works),
            ("Crews", CREWS),
        ]);
        let bought = line(&logs, "Logs: Oak", "bought", ONE);
        within(unit, bought, amount, 0.000_51);
        let hours = line(&logs, "Logs: Oak", "crew hours", H);
        // Rounded twice: the quantity to the thousandth, the hours to the hundredth.
        within(unit, hours, amount, 0.0056);
    }
}

#[test]
fn metric_logs_and_logs_without_a_price() {
    // 400 mm across and 5 m long: π/4 × 0.16 × 5 = 0.2 π m³; yellow-poplar at 824 kg/m³.
    let table = "Log,Length (m),Diameter (mm),Species\nLog,5,400,yellow-poplar\n";
    let logs = estimate_of(&[("Other items", ITEMS), ("Job", METRIC), ("Timber", table)]);
    let of = |name, unit| figure(&logs, ("Timber", "Log", name), unit);
    exactly("volume", of("volume of one", M3), 0.2 * PI);
    exactly("weight", of("green weight of one", KG), 0.2 * PI * 824.0);
    exactly(
        "weight",
        of("green weight of one", TON) * 907.184_74,
        0.2 * PI * 824.0,
    );
    let all = findings_of(&[("Other items", ITEMS), ("Job", METRIC), ("Timber", table)]);
    says(&all, Severity::Open, Code::MissingPrice, "Log: these logs");
    says(
        &all,
        Severity::Open,
        Code::MissingRate,
        "Log: the work that sets these logs",
    );
}
