//! The same bid in other hands: small jobs by hand, what holds for all of them, and formulas
//! that follow every term.
//!
//! The gang is two people at 30 an hour, so an hour of it costs 60. It plants 20 plugs an
//! hour, rakes 2 yd³ of mulch and sets 9 ft of fence, for which an auger at 50 runs at 15 ft.

pub(crate) mod agreement;
mod by_hand;
pub(crate) mod edits;
mod properties;
mod sharing;

use std::fmt::Write;

use groundsheet::bid::{scenarios, turn_up};
use groundsheet::diagnostic::Code;
use groundsheet::estimate::Estimate;
use groundsheet::graph::prelude::Step;

use crate::support::{estimate_of, findings_of};
use groundsheet::tables::{Compared, Parties, Tasks};

/// A small job, table by table; a test changes what it is about.
#[derive(Clone)]
struct Small {
    job: Vec<(&'static str, String)>,
    friends: Vec<(&'static str, String)>,
    staff: Vec<(&'static str, String)>,
    plug: Vec<(&'static str, String)>,
    scenarios: String,
    shared: String,
    mark_ups: String,
}

fn pairs(cells: &[(&'static str, &str)]) -> Vec<(&'static str, String)> {
    let cells = cells.iter();
    cells
        .map(|(key, value)| (*key, (*value).to_owned()))
        .collect()
}

/// Puts a value in the place of one that is there, or adds it.
fn put(cells: &mut Vec<(&'static str, String)>, key: &'static str, value: &str) {
    match cells.iter_mut().find(|(known, _)| *known == key) {
        Some((_, own)) => value.clone_into(own),
        None => cells.push((key, value.to_owned())),
    }
}

impl Small {
    /// Friends plant all the plugs at half of the gang's pace.
    fn new() -> Self {
        let people = [
            ("Kind", "volunteers"),
            ("People", "10"),
            ("Attendance (%)", "100"),
            ("Sessions", "50"),
            ("Session hours", "4"),
            ("Pace (%)", "50"),
            ("Lead", "Gang"),
        ];
        let named = |name| [pairs(&[("Partner", name)]), pairs(&people)].concat();
        Self {
            job: pairs(&[
                ("Name", "Small"),
                ("Units", "US customary"),
                ("Soil", "clay"),
            ]),
            friends: named("Friends"),
            staff: named("Staff"),
            plug: pairs(&[
                ("Material", "Plug"),
                ("Unit", "ea"),
                ("Price", "2"),
                ("Waste (%)", "0"),
            ]),
            scenarios: "Scenario,Like,Mark-ups,No-show borne by\nFriends plant,,,\n".to_owned(),
            shared: "Friends plant,Plant,,,,Friends,,,,\n".to_owned(),
            mark_ups: "Overhead,direct cost,10,\nBond,bid,2,\n".to_owned(),
        }
    }

    fn friends(mut self, key: &'static str, value: &str) -> Self {
        put(&mut self.friends, key, value);
        self
    }

    fn staff(mut self, key: &'static str, value: &str) -> Self {
        put(&mut self.staff, key, value);
        self
    }

    fn job(mut self, key: &'static str, value: &str) -> Self {
        put(&mut self.job, key, value);
        self
    }

    fn plug(mut self, key: &'static str, value: &str) -> Self {
        put(&mut self.plug, key, value);
        self
    }

    fn scenario(mut self, row: &str) -> Self {
        self.scenarios.push_str(row);
        self.scenarios.push('\n');
        self
    }

    /// A row more of shared work: scenario, work, zone, line, material, partner, share, pace,
    /// their machine, value each.
    fn gives(mut self, row: &str) -> Self {
        self.shared.push_str(row);
        self.shared.push('\n');
        self
    }

    fn tables(&self) -> Vec<(&'static str, String)> {
        let mut job = "Key,Value\n".to_owned();
        for (key, value) in &self.job {
            let _ = writeln!(job, "{key},{value}");
        }
        let items = "Item,Section,Description,Times,Length (ft),Unit,Zone,Material,Work,Price\n\
                     Plugs,Planting,Plugs set,400,,ea,Marsh,Plug,Plant,\n\
                     Mulch,Planting,Mulch raked,20,,yd3 loose,Bank,,Rake,\n\
                     Fence,Fence,Fence set,,90,ft,Bank,,Fix fence,\n\
                     Sign,Finishing,A sign,1,,ea,,,,500\n";
        vec![
            ("Job", job),
            ("Other items", items.to_owned()),
            ("Materials", table(&[&self.plug])),
            ("Crews", "Crew,People,Wage per hour\nGang,2,30\n".to_owned()),
            ("Equipment", "Machine,Rate per hour\nAuger,50\n".to_owned()),
            (
                "Production rates",
                "Work,Unit,Crew,Crew output,Machine,Machine output,Hazard\n\
                 Plant,ea,Gang,20,,,\nRake,yd3 loose,Gang,2,,,by hand\n\
                 Fix fence,ft,Gang,9,Auger,15,\n"
                    .to_owned(),
            ),
            (
                "Mark-ups",
                format!("Mark-up,On,Rate (%),With partners\n{}", self.mark_ups),
            ),
            ("Partners", table(&[&self.friends, &self.staff])),
            ("Scenarios", self.scenarios.clone()),
            (
                "Shared work",
                format!(
                    "Scenario,Work,Zone,Line,Material,Partner,Share (%),Pace (%),Their machine,\
                     Value each\n{}",
                    self.shared
                ),
            ),
        ]
    }

    /// The tables without those of partners and scenarios.
    fn without_partners(&self) -> Vec<(&'static str, String)> {
        let of_partners = ["Partners", "Scenarios", "Shared work"];
        let mut tables = self.tables();
        tables.retain(|(name, _)| !of_partners.contains(name));
        tables
    }

    fn estimate(&self) -> Priced {
        Priced(estimate_of(&borrowed(&self.tables())))
    }

    fn codes(&self) -> Vec<Code> {
        let found = findings_of(&borrowed(&self.tables()));
        found.iter().map(|finding| finding.code).collect()
    }
}

/// The text of a table, row by row, of all headings that any row has.
fn table(rows: &[&[(&str, String)]]) -> String {
    let mut keys: Vec<&str> = Vec::new();
    for (key, _) in rows.iter().copied().flatten() {
        if !keys.contains(key) {
            keys.push(key);
        }
    }
    let mut text = keys.join(",");
    for cells in rows {
        let value = |key: &&str| {
            let mut own = cells.iter().filter(|(known, _)| known == key);
            own.next().map_or("", |(_, value)| value)
        };
        text.push('\n');
        text.push_str(&keys.iter().map(value).collect::<Vec<_>>().join(","));
    }
    text
}

fn borrowed<'t>(tables: &'t [(&'static str, String)]) -> Vec<(&'static str, &'t str)> {
    tables.iter().map(|(name, text)| (*name, &**text)).collect()
}

/// A small job, priced.
struct Priced(Estimate);

impl Priced {
    /// A figure of a scenario, the crew alone first.
    fn of(&self, which: Step<Compared>, scenario: usize) -> f64 {
        self.0.number(which, scenario)
    }

    fn bid(&self, scenario: usize) -> f64 {
        self.of(scenarios::BID, scenario)
    }

    fn task(&self, which: Step<Tasks>, row: usize) -> f64 {
        self.0.number(which, row)
    }

    fn party(&self, which: Step<Parties>, row: usize) -> f64 {
        self.0.number(which, row)
    }

    fn tasks(&self) -> usize {
        self.0.rows::<Tasks>()
    }

    fn total(&self) -> f64 {
        self.0.bid()
    }

    /// The bid and the saving of a delivery: 0 for all of the first scenario's work, 2 for
    /// half, 4 for none.
    fn delivered(&self, row: usize) -> (f64, f64) {
        (
            self.0.number(turn_up::BID, row),
            self.0.number(turn_up::SAVING, row),
        )
    }
}

/// Whether two figures are the same to the billionth.
fn is(ours: f64, by_hand: f64) {
    let apart = (ours - by_hand).abs();
    assert!(
        apart < 1e-9 * by_hand.abs().max(1.0),
        "{ours}, not {by_hand}"
    );
}
