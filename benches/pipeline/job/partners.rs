//! Who else may work, and who does what in each of several scenarios.

use super::entry::{Entry, Rows};

pub(super) const PARTNERS: &str = "Partner|Kind|People|Attendance (%)|Sessions|Session hours|Pace (%)|Learning (%)|Lead|\
                        Machine ticket|Lifting ticket|Rework (%)|Extra waste (%)|In-kind rate|Gear per head|Make-good premium (%)";
pub(super) const SCENARIOS: &str = "Scenario|Mark-ups";
pub(super) const SHARED_WORK: &str = "Scenario|Work|Partner|Share (%)";

/// The works of items that are done by hand, of which each scenario gives every other one.
const WORKS: [&str; 8] = [
    "Place gravel 1",
    "Place gravel 2",
    "Lay fleece 1",
    "Lay fleece 2",
    "Lay pipe 1",
    "Lay pipe 2",
    "Plant 1",
    "Plant 2",
];

pub(super) fn partners() -> Rows {
    let partner = |name: &str, kind: &str, pace: f64| {
        let mut row = row![
            name,
            kind,
            400.0,
            80.0,
            1000.0,
            6.0,
            pace,
            95.0,
            "Pond crew"
        ];
        row.extend(row!["card 12", "card 12", 4.0, 3.0, 24.0, 9.0, 25.0]);
        row
    };
    vec![
        partner("Friends", "volunteers", 45.0),
        partner("Grounds", "client's staff", 85.0),
        partner("Youth corps", "hired", 70.0),
    ]
}

pub(super) fn scenario(at: u32) -> Vec<Entry> {
    let follow = if at.is_multiple_of(4) {
        "follow"
    } else {
        "held"
    };
    row![name(at), follow]
}

/// Four works of a scenario; a share of 75 % leaves the crew something.
pub(super) fn shared_work(scenarios: u32) -> Rows {
    let partners = ["Friends", "Grounds", "Youth corps"];
    let mut rows = Rows::new();
    for scenario in 0..scenarios {
        for turn in 0..4 {
            let at = (scenario + 2 * turn) as usize;
            let (work, partner) = (WORKS[at % WORKS.len()], partners[at % partners.len()]);
            let share = if turn == 3 { 75.0 } else { 100.0 };
            rows.push(row![name(scenario), work, partner, share]);
        }
    }
    rows
}

fn name(scenario: u32) -> String {
    format!("Scenario {}", scenario + 1)
}
