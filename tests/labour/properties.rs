//! What holds for every small job in other hands, on random ones.

use proptest::prelude::*;

use super::{Priced, Small, borrowed, is};
use crate::properties::config;
use crate::support::{estimate_of, worked_out};
use groundsheet::bid::{cost, scenario_cost, scenarios};
use groundsheet::diagnostic::Code;
use groundsheet::labour::break_even;

/// Terms and shares that leave the job sound.
#[derive(Clone, Debug)]
struct Terms {
    pace: u32,
    own_pace: u32,
    learning: Option<u32>,
    attendance: u32,
    hours: u32,
    per_head: u32,
    rework: u32,
    waste: u32,
    gear: u32,
    insurance: u32,
    share: u32,
    brought: u32,
    follow: bool,
    rate: u32,
}

prop_compose! {
    fn terms()(
        pace in 5u32..250,
        own_pace in 5u32..250,
        learning in proptest::option::of(60u32..100),
        attendance in 20u32..100,
        hours in 2u32..9,
        per_head in 0u32..9,
        (rework, waste) in (0u32..30, 0u32..30),
        (gear, insurance) in (0u32..50, 0u32..900),
        share in 1u32..100,
        brought in 0u32..100,
        follow in any::<bool>(),
        rate in 0u32..60,
    ) -> Terms {
        Terms {
            pace, own_pace, learning, attendance, hours, per_head, rework, waste, gear,
            insurance, share, brought, follow, rate,
        }
    }
}

impl Terms {
    /// Two scenarios; in the second, which is like the first, Staff rake and plugs are brought.
    fn job(&self) -> Small {
        let follow = if self.follow { "follow" } else { "" };
        let per_head = f64::from(self.per_head) / 10.0;
        let learning = self.learning.map_or(String::new(), |of| of.to_string());
        let mut job = Small::new()
            .friends("Sessions", "1000")
            .friends("Pace (%)", &self.pace.to_string())
            .friends("Learning (%)", &learning)
            .friends("Attendance (%)", &self.attendance.to_string())
            .friends("Session hours", &self.hours.to_string())
            .friends("Lead hours per head", &per_head.to_string())
            .friends("Rework (%)", &self.rework.to_string())
            .friends("Extra waste (%)", &self.waste.to_string())
            .friends("Gear per head", &self.gear.to_string())
            .friends("Insurance and admin", &self.insurance.to_string())
            .friends("In-kind rate", &self.rate.to_string())
            .staff("Kind", "hired")
            .staff("Charge per hour", "9.35")
            .plug("Sold in", "7")
            .scenario(&format!("More,Friends plant,{follow},us"));
        job.shared = format!(
            "Friends plant,Plant,,,,Friends,{},,,\nFriends plant,,,Mulch,,Friends,{},{},,\n",
            self.share, self.share, self.own_pace
        );
        job.gives("More,Rake,,,,Staff,,70,,")
            .gives(&format!("More,,,,Plug,Staff,{},,,1.1", self.brought))
    }
}

fn priced(job: &Small) -> Priced {
    job.estimate()
}

proptest! {
    #![proptest_config(config(40))]

    #[test]
    fn the_crew_alone_is_the_plain_bid(terms in terms()) {
        let job = terms.job();
        let plain = estimate_of(&borrowed(&job.without_partners()));
        let plain = plain.bid();
        let shared = priced(&job);
        is(shared.bid(0), plain);
        is(shared.total(), plain);
    }

    #[test]
    fn a_scenario_in_use_is_what_it_is_beside_the_others(terms in terms()) {
        let job = terms.job();
        let side_by_side = priced(&job);
        for (row, name) in [(1, "Friends plant"), (2, "More")] {
            let chosen = priced(&job.clone().job("Scenario", name));
            is(chosen.total(), side_by_side.bid(row));
            let direct = chosen.0.number(cost::DIRECT, 0);
            is(direct, side_by_side.of(scenario_cost::DIRECT, row));
            // All of it delivered is the scenario itself.
            is(side_by_side.delivered((row - 1) * 5).0, side_by_side.bid(row));
        }
    }

    #[test]
    fn the_break_even_pace_put_back_saves_nothing(terms in terms()) {
        let job = terms.job();
        let before = priced(&job);
        let pace = before.task(break_even::PACE, 1);
        prop_assume!(pace > 1.0 && pace < 300.0);
        let mut again = job;
        again.shared = again.shared.replacen(
            &format!(",Mulch,,Friends,{},{},", terms.share, terms.own_pace),
            &format!(",Mulch,,Friends,{},{pace},", terms.share),
            1,
        );
        is(priced(&again).task(break_even::SAVING, 1), 0.0);
    }

    #[test]
    fn a_slower_pace_never_saves_more(terms in terms()) {
        let slower = Terms { pace: (terms.pace * 4 / 5).max(1), ..terms.clone() };
        let (fast, slow) = (priced(&terms.job()), priced(&slower.job()));
        for row in [1, 2] {
            let saving = |of: &Priced| of.of(scenarios::SAVING, row);
            prop_assert!(saving(&slow) <= saving(&fast) + 1e-9);
        }
    }

    #[test]
    fn what_given_hours_are_worth_changes_no_bid(terms in terms()) {
        let dearer = Terms { rate: terms.rate + 25, ..terms.clone() };
        let (one, other) = (priced(&terms.job()), priced(&dearer.job()));
        for row in 0..3 {
            is(one.bid(row), other.bid(row));
            is(one.of(scenarios::SAVING, row), other.of(scenarios::SAVING, row));
        }
        prop_assert!(other.of(scenarios::DONATED_VALUE, 1) > one.of(scenarios::DONATED_VALUE, 1));
    }

    #[test]
    fn more_than_the_whole_is_refused(terms in terms(), more in 1u32..80) {
        let over = (100 - terms.share) + more;
        prop_assume!(over <= 100);
        let job = terms.job().gives(&format!("Friends plant,Plant,,,,Staff,{over},,,"));
        let (_, found) = worked_out(&borrowed(&job.tables()));
        prop_assert!(found.iter().any(|finding| finding.code == Code::ShareOverWhole));
    }

    #[test]
    fn a_scenario_like_another_without_rows_of_its_own_is_the_same(terms in terms()) {
        let job = terms.job().scenario("Twin,More,,us");
        let held = Terms { follow: false, ..terms }.job().scenario("Twin,More,,us");
        let both = priced(&held);
        is(both.bid(3), both.bid(2));
        prop_assert_eq!(priced(&job).tasks(), both.tasks());
    }
}
