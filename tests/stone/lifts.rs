//! Lifts by hand: the next larger radius, the rigging, and the machine that would do.

use groundsheet::diagnostic::{Code, Severity};
use groundsheet::estimate::Estimate;
use groundsheet::takeoff::lifts::SMALLEST;
use groundsheet::units::{PERCENT, TON};

use super::{FLOW_GPM, cascade, count, estimate_of, findings_of, found, job};
use crate::support::{US, exactly, figure, within};

/// The lift findings of the cascade, whose heaviest piece weighs 1,485 lb = 0.7425 ton and
/// hangs on 0.05 ton of rigging: 0.7925 ton.
fn lifts(falls: &str, equipment: &str, chart: &str) -> (Vec<(Code, String)>, Estimate) {
    let mut tables = cascade("", FLOW_GPM);
    tables.retain(|(name, _)| !["Equipment", "Lift chart"].contains(name));
    tables[1].1 =
        format!("Fall,Kind,Flow (gpm),Lifted by,Radius (ft)\nMain,waterfall,{FLOW_GPM},{falls}\n");
    tables.push(("Equipment", format!("Machine,Rigging (ton)\n{equipment}")));
    tables.push((
        "Lift chart",
        format!("Machine,Radius (ft),Capacity (ton),Chart gives\n{chart}"),
    ));
    let findings = found(&tables);
    let about = [Code::OverChart, Code::NotOnChart];
    let lifts = findings
        .iter()
        .filter(|finding| about.contains(&finding.code));
    let lifts = lifts.map(|finding| (finding.code, finding.hint.clone().unwrap_or_default()));
    (lifts.collect(), job(&tables))
}

const SMALL: &str = "Small,10,1.2,\nSmall,15,0.8,\nSmall,20,0.5,\n";
const LARGE: &str = "Large,10,4,\nLarge,20,2,\nLarge,30,1,\n";

#[test]
fn the_next_larger_radius_applies_with_the_rigging_and_names_a_machine_that_would_do() {
    // At 8 ft Small lifts 1.2 tons (10 ft): 0.7925 is 66 %. At 10 ft too. At 12 ft 0.8 (15 ft):
    // 99 %, which is near. At 16 ft 0.5: over. At 25 ft its chart ends. Large lifts 4, 2, 2 and
    // at 25 ft 1 ton, of which 75 % is 0.75: it would be near, so none would do there.
    let both = format!("{SMALL}{LARGE}");
    let rows = [
        ("Small,8", None, 1.2, "Small"),
        ("Small,10", None, 1.2, "Small"),
        ("Small,12", Some(Code::OverChart), 0.8, "Large"),
        ("Small,16", Some(Code::OverChart), 0.5, "Large"),
        ("Small,25", Some(Code::NotOnChart), 0.0, ""),
        ("Large,25", Some(Code::OverChart), 1.0, ""),
        ("Large,16", None, 2.0, "Large"),
    ];
    for (by, code, capacity_ton, smallest) in rows {
        let (found, job) = lifts(by, "Large,\nSmall,\n", &both);
        let codes: Vec<Code> = found.iter().map(|(code, _)| *code).collect();
        assert_eq!(codes, code.into_iter().collect::<Vec<_>>(), "{by}");
        let capacity = figure(&job, ("Lifts", "Main", "capacity at the radius"), TON);
        within(by, capacity, capacity_ton, 1e-9);
        let named = job.results.words(job.graph.id(SMALLEST).at(0));
        assert_eq!(named, smallest, "{by}");
        if code == Some(Code::OverChart) {
            let hint = if smallest.is_empty() {
                "no machine with a chart here would do"
            } else {
                "here Large"
            };
            assert!(found[0].1.contains(hint), "{by}: {}", found[0].1);
        }
    }
    let (_, job) = lifts("Small,8", "Small,\n", SMALL);
    let of = |name, unit| figure(&job, ("Lifts", "Main", name), unit);
    exactly("left", of("left for the load", TON), 1.15);
    exactly(
        "share",
        of("share of the chart", PERCENT),
        100.0 * 0.7925 / 1.2,
    );
}

#[test]
fn a_tipping_load_is_derated_once_and_a_rated_capacity_never() {
    // 75 % of 1.6 is 1.2 tons; rigging of its own 0.3 ton: 1.0425 of 1.2 is 87 %, near.
    let (found, job) = lifts("Small,8", "Small,0.3\n", "Small,10,1.6,tipping load\n");
    let of = |name| figure(&job, ("Lifts", "Main", name), TON);
    exactly("capacity", of("capacity at the radius"), 1.2);
    exactly("left", of("left for the load"), 0.9);
    assert_eq!(found.len(), 1);
    let (found, job) = lifts("Small,8", "Small,0.3\n", "Small,10,1.6,rated capacity\n");
    let capacity = figure(&job, ("Lifts", "Main", "capacity at the radius"), TON);
    exactly("capacity", capacity, 1.6);
    assert!(found.is_empty(), "65 % of the chart: {found:?}");
}

#[test]
fn a_lift_that_cannot_be_checked_is_open() {
    let rows = [
        (",", "Small,\n", SMALL),          // a stone of 1,485 lb and no machine
        ("Small,8", "Small,\n", ""),       // no chart
        ("Small,", "Small,\n", SMALL),     // no radius
        ("Small,20.1", "Small,\n", SMALL), // beyond the chart
    ];
    for (by, equipment, chart) in rows {
        let (found, _) = lifts(by, equipment, chart);
        assert_eq!(found.len(), 1, "{by}: {found:?}");
        assert_eq!(found[0].0, Code::NotOnChart, "{by}");
    }
    // A stone of 8 × 8 × 12 in is set by hand: 0.444 ft³ × 75 % × 165 = 55 lb.
    let job = estimate_of(&[
        ("Job", US),
        ("Waterfalls and streams", "Fall,Kind\nMain,rock edge\n"),
        (
            "Courses",
            "Course,Fall,Number,Face (ft),Height (in)\nc1,Main,1,8,8\n",
        ),
    ]);
    assert_eq!(count(&job.findings, Code::NotOnChart, Severity::Open), 0);
    assert_eq!(count(&job.findings, Code::Lifting, Severity::Caution), 1);
}

#[test]
fn a_chart_with_a_radius_twice_is_a_fault_and_one_that_grows_a_warning() {
    let chart = |rows: &str| {
        findings_of(&[
            ("Job", US),
            (
                "Waterfalls and streams",
                "Fall,Kind,Reach length (ft)\nMain,stream,9\n",
            ),
            ("Equipment", "Machine\nSmall\n"),
            (
                "Lift chart",
                &format!("Machine,Radius (ft),Capacity (ton)\n{rows}"),
            ),
        ])
    };
    let twice = chart("Small,10,1\nSmall,10,2\n");
    assert_eq!(
        count(&twice, Code::OrderOfRows, Severity::Error),
        1,
        "{twice:?}"
    );
    let grows = chart("Small,10,1\nSmall,20,2\n");
    assert_eq!(
        count(&grows, Code::ConflictingValues, Severity::Warning),
        1,
        "{grows:?}"
    );
}
