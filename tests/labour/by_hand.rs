//! Small jobs with the arithmetic beside each.
//!
//! The crew alone: plugs 400 ÷ 20 = 20 h and 1,200; mulch 20 ÷ 2 = 10 h and 600; fence 90 ÷
//! 9 = 10 h and 600, auger 90 ÷ 15 = 6 h and 300; plugs 400 × 2 = 800; sign 500. Labor 2,400,
//! direct 2,400 + 300 + 800 + 500 = 4,000. Overhead 10 % = 400; 4,400 ÷ 0.98 = 4,489.80.

use super::{Small, is};
use groundsheet::bid::scenario_orders::BROUGHT_VALUE;
use groundsheet::bid::{self, lines, scenario_cost, scenarios};
use groundsheet::diagnostic::Code;
use groundsheet::labour::{break_even, parties, tasks};

#[test]
fn half_pace_saves_when_they_come_and_costs_when_half_of_them_do() {
    // Ten of them, four hours: 40 hours of work a session. 20 h × 2 people ÷ 0.5 = 80 h, 2
    // sessions. A lead all along: 2 × 4 × 30 = 240; gear 10 × 10 = 100. Direct 4,000 − 1,200
    // + 340 = 3,140; overhead is held at 400; 3,540 ÷ 0.98 = 3,612.24.
    let job = Small::new()
        .friends("Gear per head", "10")
        .friends("Make-good premium (%)", "50")
        .estimate();
    is(job.bid(0), 4_489.80);
    is(job.party(parties::HOURS, 0), 80.0);
    is(job.party(parties::SESSIONS, 0), 2.0);
    is(job.of(scenario_cost::DIRECT, 1), 3_140.0);
    is(job.bid(1), 3_612.24);
    is(job.of(scenarios::SAVING, 1), 877.56);
    is(job.of(scenarios::CREW_HOURS_DISPLACED, 1), 20.0);
    is(job.of(scenarios::PERSON_HOURS_DISPLACED, 1), 40.0);
    is(job.of(scenarios::DONATED, 1), 80.0);
    // Nobody comes: 1,200 × 1.5 − 240 + 2 sessions of standby at 120 = 1,800; half of that
    // is 900: 4,440 ÷ 0.98 = 4,530.61, which is more than the crew alone.
    is(job.delivered(0).0, 3_612.24);
    is(job.delivered(2).0, 4_530.61);
    is(job.delivered(2).1, -40.81);
    is(job.delivered(4).0, 5_448.98);
}

#[test]
fn a_bond_is_a_percentage_of_each_scenarios_own_bid() {
    // 4,489.80 × 2 % = 89.80; 3,612.24 × 2 % = 72.24 (as above). With the bond held in
    // dollars: 3,140 + 400 + 89.80 = 3,629.80.
    let job = Small::new().friends("Gear per head", "10");
    let bond = |job: &super::Priced, scenario: usize| job.of(scenarios::MARK_UPS, scenario) - 400.0;
    let follows = job.estimate();
    is(bond(&follows, 0), 89.80);
    is(bond(&follows, 1), 72.24);
    let mut held = job;
    held.mark_ups = "Overhead,direct cost,10,\nBond,bid,2,held\n".to_owned();
    let held = held.estimate();
    is(held.bid(0), 4_489.80);
    is(held.bid(1), 3_629.80);
}

#[test]
fn overhead_is_held_in_dollars_or_falls_with_the_labor() {
    // Overhead 20 % of labor: 480 of 2,400. Labor with Friends: 1,200 + 240 = 1,440, 288.
    // Profit 10 % of the running total: 4,480 × 10 % = 448. Direct with Friends 3,040.
    let mut job = Small::new().scenario("All follows,Friends plant,follow,");
    job.mark_ups = "Overhead,labor,20,\nProfit,running total,10,\n".to_owned();
    let all = job.estimate();
    is(all.bid(0), 4_928.0);
    // Held: 3,040 + 480 + 448.
    is(all.bid(1), 3_968.0);
    // Follow: 3,040 + 288 + 332.80.
    is(all.bid(2), 3_660.80);
    // A mark-up says it for itself: profit follows on what is held, 10 % of 3,520 = 352; in
    // the other scenario it stays 448 on an overhead that follows.
    job.mark_ups = "Overhead,labor,20,\nProfit,running total,10,follow\n".to_owned();
    is(job.estimate().bid(1), 3_040.0 + 480.0 + 352.0);
    job.mark_ups = "Overhead,labor,20,\nProfit,running total,10,held\n".to_owned();
    is(job.estimate().bid(2), 3_040.0 + 288.0 + 448.0);
}

#[test]
fn what_they_learn_is_the_published_mean_of_all_units() {
    // 40 h of the gang's people at a quarter of the pace are 160 h, 4 first sessions: 64 %
    // of that is 102.4. At half the pace 80 h, 2 sessions, 80 %: 64. At the gang's own pace
    // 40 h, one session, nothing learned.
    for (pace, hours) in [("25", 102.4), ("50", 64.0), ("100", 40.0)] {
        let job = Small::new().friends("Learning (%)", "80");
        let job = job.friends("Pace (%)", pace).estimate();
        is(job.party(parties::HOURS, 0), hours);
    }
}

#[test]
fn the_clients_staff_are_paid_with_overtime_and_burden() {
    // 80 h of 100 in a session of ten hours: 0.8 of it. Each is paid 8 + 2 × 1.5 = 11 h at 20
    // × 1.1 = 22: 242 × 10 × 0.8 = 1,936. Hours on site 80; none of them is given.
    let job = Small::new()
        .friends("Kind", "client's staff")
        .friends("Session hours", "10")
        .friends("Wage per hour", "20")
        .friends("Burden (%)", "10")
        .friends("Overtime after", "8")
        .friends("Overtime pay (%)", "150")
        .friends("In-kind rate", "24")
        .estimate();
    is(job.of(scenarios::STAFF_PAY, 1), 1_936.0);
    is(job.of(scenarios::STAFF_HOURS, 1), 80.0);
    is(job.of(scenarios::DONATED, 1), 0.0);
    is(job.of(scenarios::IN_KIND, 1), 0.0);
    // A lead all along, 0.8 × 10 × 30 = 240: bid 3,440 ÷ 0.98 = 3,510.20.
    is(job.bid(1), 3_510.20);
    is(job.of(scenarios::WHOLE_COST, 1), 5_446.20);
}

#[test]
fn what_they_bring_loses_its_price_and_its_load() {
    // 400 plugs in hundreds, 2 loads of 300 at 40. Half is brought: 200, one load. 4,080 to
    // begin with: 4,080 + 400 of overhead (408) ... direct 4,080; overhead 408; 4,488 ÷ 0.98
    // = 4,579.59. With it 4,080 − 400 − 40 = 3,640 + 408 = 4,048 ÷ 0.98 = 4,130.61.
    let mut job = Small::new()
        .plug("Sold in", "100")
        .plug("Load", "300")
        .plug("Freight per load", "40")
        .job("Matching share (%)", "10");
    job.shared = "Friends plant,,,,Plug,Friends,50,,,1.5\n".to_owned();
    let job = job.estimate();
    is(job.of(scenario_cost::DIRECT, 0), 4_080.0);
    is(job.bid(0), 4_579.59);
    is(job.of(scenario_cost::DIRECT, 1), 3_640.0);
    is(job.bid(1), 4_130.61);
    // 200 at 1.50; a match of 10 % of 4,130.61 + 300 = 443.06, short by 143.06.
    is(job.of(BROUGHT_VALUE, 1), 300.0);
    is(job.of(scenarios::MATCH_WANTED, 1), 443.06);
    is(job.of(scenarios::MATCH_SHORT, 1), 143.06);
    // Work and handling stay with the crew.
    is(job.of(scenarios::CREW_HOURS, 1), 40.0);
}

#[test]
fn what_they_waste_is_ordered_in_whole_units() {
    // 5 % of 400 are 20 plugs: 420, in hundreds 500, 200 more; the task itself counts 40.
    let job = Small::new()
        .friends("Extra waste (%)", "5")
        .plug("Sold in", "100");
    let job = job.estimate();
    is(job.task(tasks::EXTRA, 0), 20.0);
    is(job.task(tasks::MATERIAL, 0), 40.0);
    // 4,000 − 1,200 + 240 + 200.
    is(job.of(scenario_cost::DIRECT, 1), 3_240.0);
}

#[test]
fn waste_of_what_is_brought_costs_nothing() {
    // All plugs are brought: 20 more are laid, and nothing is paid for them, whether the
    // Friends come or not. Nobody: 1,200 − 240 + 2 sessions of standby at 120 = 1,200.
    let job = Small::new()
        .friends("Extra waste (%)", "5")
        .gives("Friends plant,,,,Plug,Staff,,,,")
        .estimate();
    is(job.task(tasks::EXTRA, 0), 20.0);
    is(job.task(tasks::MATERIAL, 0), 0.0);
    is(job.task(break_even::SAVING, 0), 960.0);
    is(job.party(parties::NOBODY_COMES, 0), 1_200.0);
    // 4,000 − 1,200 + 240 − 800.
    is(job.of(scenario_cost::DIRECT, 1), 2_240.0);
}

#[test]
fn sessions_cost_their_lead_briefing_training_and_the_rest() {
    // A briefing of one hour leaves 30 hours of work in a session: 80 ÷ 30 = 2 2/3 sessions,
    // 3 held. The lead: half an hour a head is 5 h, more than 4; with set-up 6 h × 30 = 180:
    // 480. Facilities 60: 160. An idle auger for 2 h: 100 a session: 266.67. Charge 1.50 for
    // 40 h on site: 60 a session: 160. Training 2 h each: 20 h, led 2 × 5 ÷ 4 = 2.5 h: 75.
    // Gear 12 × 10 and insurance 300, and 1.50 for each hour of training. Work done again 10 % of 1,200 = 120.
    let job = Small::new()
        .friends("Briefing hours", "1")
        .friends("Lead hours per head", "0.5")
        .friends("Set-up hours", "1")
        .friends("Facilities per session", "60")
        .friends("Idle machine", "Auger")
        .friends("Idle hours", "2")
        .friends("Charge per hour", "1.5")
        .friends("Training hours", "2")
        .friends("Gear per head", "12")
        .friends("Insurance and admin", "300")
        .friends("Rework (%)", "10")
        .friends("In-kind rate", "24")
        .friends("Tools per session", "30")
        .estimate();
    is(job.party(parties::SESSIONS, 0), 8.0 / 3.0);
    is(job.party(parties::HELD, 0), 3.0);
    is(job.party(parties::LABOR, 0), 480.0 + 120.0 + 75.0);
    is(job.party(parties::EQUIPMENT, 0), 266.67);
    is(job.party(parties::BOUGHT, 0), 320.0 + 120.0 + 300.0 + 30.0);
    // On site 80 × 4 ÷ 3 + 20 h, worth 24 each; tools 2 2/3 × 30.
    is(job.of(scenarios::DONATED, 1), 320.0 / 3.0 + 20.0);
    is(job.of(scenarios::DONATED_VALUE, 1), 3_040.0);
    is(job.of(scenarios::TOOLS_VALUE, 1), 80.0);
    is(job.of(scenarios::LEAD_HOURS, 1), 8.0 / 3.0 * 5.0 + 2.5);
    is(
        job.of(scenario_cost::DIRECT, 1),
        4_000.0 - 1_200.0 + 675.0 + 266.67 + 770.0,
    );
}

#[test]
fn a_machine_of_theirs_displaces_ours() {
    // The fence: 600 of labor and 300 of the auger. 10 h × 2 people ÷ 0.5 = 40 h, a session,
    // led for 120: 4,000 − 900 + 120. Rent of 6 h at 35.
    let mut job = Small::new()
        .friends("Machine ticket", "card 7")
        .friends("Machine rent per hour", "35");
    job.shared = "Friends plant,Fix fence,,,,Friends,,,yes,\n".to_owned();
    let job = job.estimate();
    is(job.of(scenario_cost::DIRECT, 1), 3_220.0);
    is(job.of(scenarios::TOOLS_VALUE, 1), 210.0);
}

#[test]
fn somebody_runs_the_machine_that_they_bring() {
    // The gang sets 90 ft in 1 h, the auger runs for 6 h: an operator of theirs at their pace
    // takes 6 ÷ 0.5 = 12 h, more than the gang's 1 × 2 ÷ 0.5 = 4 h.
    let mut job = Small::new().friends("Machine ticket", "card 7");
    job.shared = "Friends plant,Fix fence,,,,Friends,,,yes,\n".to_owned();
    let mut tables = job.tables();
    for (name, text) in &mut tables {
        if *name == "Production rates" {
            *text = text.replace("Fix fence,ft,Gang,9", "Fix fence,ft,Gang,90");
        }
    }
    let job = super::Priced(crate::support::estimate_of(&super::borrowed(&tables)));
    is(job.party(parties::HOURS, 0), 12.0);
    is(job.of(scenarios::PERSON_HOURS_DISPLACED, 1), 2.0);
}

#[test]
fn shares_of_a_line_add_up_to_it() {
    // 20.01 h of the gang (400.2 plugs at 20) cost 1,200.60; the halves are 10.01 and 10.00
    // h, 600.30 each, and nothing is left or less than nothing.
    let job = Small::new()
        .scenario("Split,,,")
        .gives("Split,Plant,,,,Friends,50,,,")
        .gives("Split,Plant,,,,Staff,50,,,")
        .job("Scenario", "Split");
    let mut tables = job.tables();
    for (name, text) in &mut tables {
        if *name == "Other items" {
            *text = text.replace("Plugs set,400", "Plugs set,400.2");
        }
    }
    let job = super::Priced(crate::support::estimate_of(&super::borrowed(&tables)));
    is(job.of(scenarios::CREW_HOURS_DISPLACED, 2), 20.01);
    is(job.0.number(lines::CREW_HOURS, 0), 0.0);
    is(job.0.number(lines::LABOR_COST, 0), 0.0);
}

#[test]
fn a_line_is_split_given_back_and_given_by_zone() {
    // 60 % to Friends, 40 % to Staff: 12 and 8 hours of the gang.
    let job = Small::new()
        .scenario("Split,,,")
        .scenario("Back,Split,,")
        .scenario("By zone,,,")
        .scenario("By name,,,")
        .gives("Split,Plant,,,,Friends,60,,,")
        .gives("Split,Plant,,,,Staff,40,,,")
        .gives("Split,Rake,,,,Staff,,,,")
        .gives("Back,,,Plugs,,,,,,")
        .gives("By zone,,Bank,,,Friends,,,,")
        .gives("By name,,,mulch,,Friends,,,,")
        .friends("Machine ticket", "card 7")
        .staff("Kind", "hired")
        .estimate();
    let displaced = |scenario| job.of(scenarios::CREW_HOURS_DISPLACED, scenario);
    is(displaced(1), 20.0);
    is(displaced(2), 30.0);
    let shares: Vec<f64> = (1..3).map(|row| job.task(tasks::SHARE, row)).collect();
    assert_eq!(shares, [60.0, 40.0]);
    // The plugs go back to the gang; the mulch stays with Staff.
    is(displaced(3), 10.0);
    // The bank: mulch and fence, 10 h each.
    is(displaced(4), 20.0);
    is(displaced(5), 10.0);
}

#[test]
fn the_last_day_to_decide_is_notice_before_their_first_line() {
    // The mulch stands after 20 h of plugs: 2 of 2.5 working days of 8 h; 2 × 1.4 = 2 whole
    // calendar days; 4 May 2026 is day 46,146 of the 1900 system: + 2 − 7.
    let mut job = Small::new()
        .friends("Notice (days)", "7")
        .job("Start date", "2026-05-04");
    job.shared = "Friends plant,Rake,,,,Friends,,,,\n".to_owned();
    let job = job.estimate();
    is(job.party(parties::FIRST_DAY, 0), 2.0);
    is(job.party(parties::DECIDE_BY, 0), 46_141.0);
    // Our 30 h are 3.75 days, and one session; 40 h were 5.
    is(job.of(scenarios::WORKING_DAYS, 0), 5.0);
    is(job.of(scenarios::WORKING_DAYS, 1), 5.0);
    is(job.of(scenarios::SESSIONS, 1), 1.0);
}

#[test]
fn work_that_can_hurt_is_refused_even_in_a_scenario_that_is_not_in_use() {
    let job = Small::new().gives("Friends plant,Fix fence,,,,Friends,,,,");
    assert!(job.codes().contains(&Code::QualificationMissing));
    let crew = job.clone().job("Scenario", "Crew only");
    assert!(crew.codes().contains(&Code::QualificationMissing));
    let with_ticket = job.friends("Machine ticket", "card 7");
    assert!(!with_ticket.codes().contains(&Code::QualificationMissing));
}

#[test]
fn the_break_even_pace_is_the_one_at_which_sessions_cost_what_they_displace() {
    // A session of 40 h costs 120; 1,200 pay for 10 sessions, 400 h: 40 ÷ 400 = 10 %.
    let job = Small::new().estimate();
    is(job.task(break_even::PACE, 0), 10.0);
    is(job.task(break_even::SAVING, 0), 960.0);
    // Without a lead nothing is paid at any pace.
    let free = Small::new().friends("Lead", "").estimate();
    is(free.task(break_even::PACE, 0), 0.0);
    let said = break_even::SAID;
    assert_eq!(free.0.words(said, 0), "saves at any pace");
}

#[test]
fn a_unit_price_bid_is_compared_before_its_unit_prices_are_rounded() {
    let job = Small::new().job("Bid kind", "unit price");
    let job = job.job("Scenario", "Friends plant").estimate();
    // 4,000 − 1,200 + 240 = 3,040 + 400, ÷ 0.98.
    is(job.bid(1), 3_510.20);
    is(job.total() - job.0.number(bid::ROUNDING, 0), 3_510.20);
}

#[test]
fn sessions_that_cost_nothing_save_only_where_the_rest_costs_less() {
    // No lead, so that sessions are free. Gear 10 × 200 = 2,000 is more than the 1,200 that
    // is displaced, at any pace; gear 10 × 120 = 1,200 is just as much.
    for (gear, saving) in [("200", -800.0), ("120", 0.0)] {
        let job = Small::new()
            .friends("Lead", "")
            .friends("Gear per head", gear);
        let job = job.estimate();
        is(job.task(break_even::SAVING, 0), saving);
        let said = break_even::SAID;
        assert_eq!(job.0.words(said, 0), "saves at no pace", "{gear}");
    }
}

#[test]
fn work_of_a_machine_alone_bears_what_is_paid_once() {
    // The auger alone: 90 ÷ 15 = 6 h, 300. With a machine of theirs 6 ÷ 0.5 = 12 h of the 40
    // of a session, 0.3 × 120 = 36; gear 10 × 5 = 50: 300 − 36 − 50.
    let mut job = Small::new()
        .friends("Machine ticket", "card 7")
        .friends("Gear per head", "5");
    job.shared = "Friends plant,Fix fence,,,,Friends,,,yes,\n".to_owned();
    let mut tables = job.tables();
    for (name, text) in &mut tables {
        if *name == "Production rates" {
            *text = text.replace("Fix fence,ft,Gang,9", "Fix fence,ft,,");
        }
    }
    let job = super::Priced(crate::support::estimate_of(&super::borrowed(&tables)));
    is(job.task(break_even::ONCE, 0), 50.0);
    is(job.task(break_even::SAVING, 0), 214.0);
    let direct = |scenario| job.of(scenario_cost::DIRECT, scenario);
    is(direct(0) - direct(1), 214.0);
    // 250 pay for 250 ÷ 120 sessions of 40 h: 6 h ÷ 83 1/3 h = 7.2 %.
    is(job.task(break_even::PACE, 0), 7.2);
}
