//! The reed bank: the same bid by the crew and with the Friends, worked out by hand.

use groundsheet::bid::{scenario_cost, scenarios, turn_up};
use groundsheet::graph::prelude::Step;
use groundsheet::labour::parties;
use groundsheet::tables::Compared;

use crate::support::sample_job;

#[test]
fn the_reed_bank_in_both_hands_is_what_it_is_by_hand() {
    let estimate = sample_job("reed-bank");
    let is = |ours: f64, by_hand: f64| assert!((ours - by_hand).abs() < 1e-9, "{ours}");
    let at = |column: Step<Compared>, row| estimate.number(column, row);
    // A gang's hour is 3 × 26 × 1.35 = 105.30. Reeds 1,200 ÷ 120 = 10 h, 1,053.00; mulch
    // 30 ÷ 5 = 6 h and logs 12 ÷ 2 = 6 h, 631.80 each; the machine 12 ÷ 2.5 = 4.8 h × 92 =
    // 441.60. Plugs 1,200 × 1.15 = 1,380; mulch 30 × 1.05, whole yards: 32 × 34 = 1,088, in
    // 2 loads at 65; logs 12 × 85 = 1,020, in one load at 120: material 3,738.00. Others
    // 350 + 480. Direct 2,316.60 + 441.60 + 3,738.00 + 830.00 = 7,326.20.
    is(at(scenario_cost::DIRECT, 0), 7_326.20);
    // Overhead 12 % = 879.14; profit 8 % of 8,205.34 = 656.43; tax 6 % of 3,738 = 224.28;
    // together 9,086.05, ÷ 0.99 for the bond.
    is(at(scenarios::BID, 0), 9_177.83);
    // Of 16 Friends 11.2 are there, for 2.5 of 3 hours: 28 h of work a session. Reeds take
    // 10 × 3 ÷ 0.4 = 75 h, mulch 6 × 3 ÷ 0.6 = 30 h: 2.6786 and 1.0714 sessions.
    is(at(scenarios::CREW_HOURS_DISPLACED, 1), 16.0);
    is(at(scenarios::PERSON_HOURS_DISPLACED, 1), 48.0);
    is(estimate.number(parties::HOURS, 0), 105.0);
    is(at(scenarios::SESSIONS, 1), 4.0);
    // On site 105 × 3 ÷ 2.5 = 126 h, given, at 26.
    is(at(scenarios::DONATED, 1), 126.0);
    is(at(scenarios::DONATED_VALUE, 1), 3_276.00);
    // A session's lead and set-up are 4 × 35.10 = 140.40. Reeds: 2.6786 × 140.40 and 5 % of
    // 1,053 done again = 428.72, with 40 a session 535.86; mulch 182.02 and 224.88. Gear
    // 16 × 8, insurance 150: bought 107.14 + 42.86 + 278 = 428.00, labor 610.74. Labor
    // 2,316.60 − 1,684.80 + 610.74 = 1,242.54; the logs are brought, which saves 1,140 with
    // their load: material 2,598.00. Direct 1,242.54 + 441.60 + 2,598.00 + 1,258.00.
    is(at(scenario_cost::DIRECT, 1), 5_540.14);
    // Overhead and profit are held, the tax follows: 6 % of 2,598 = 155.88. 5,540.14 + 879.14
    // + 656.43 + 155.88 = 7,231.59, ÷ 0.99.
    is(at(scenarios::BID, 1), 7_304.64);
    is(at(scenarios::SAVING, 1), 1_873.19);
    // Logs 12 × 70 = 840; tools 3.75 × 30 = 112.50; with the hours 4,228.50 in kind. A match
    // of 15 % of 7,304.64 + 4,228.50.
    is(at(scenarios::IN_KIND, 1), 4_228.50);
    is(at(scenarios::MATCH_WANTED, 1), 1_729.97);
    is(at(scenarios::MATCH_SHORT, 1), 0.0);
    // Nobody comes: 1,684.80 × 1.4 at short notice, less 610.74 and 150 that sessions and
    // work done again do not cost, and 3.75 sessions of standby at 140.40: 2,124.48 more.
    // Half: 1,062.24; 8,293.83 ÷ 0.99; all of it: 9,356.07 ÷ 0.99.
    is(estimate.number(turn_up::BID, 0), 7_304.64);
    is(estimate.number(turn_up::MORE, 2), 1_062.24);
    is(estimate.number(turn_up::BID, 2), 8_377.61);
    is(estimate.number(turn_up::BID, 4), 9_450.58);
    // They save at half, and cost more than the crew where nobody comes.
    is(estimate.number(turn_up::SAVING, 2), 800.22);
    is(estimate.number(turn_up::SAVING, 4), -272.75);
}
