//! Work by others: what they learn, and what gifts in kind are worth.

use std::fmt::Write;

use groundsheet::estimate::Estimate;
use groundsheet::units::{H, MONEY};

use crate::support::{US, estimate_of, exactly, figure, within};

/// Ten hours of one man, given to one volunteer in sessions of ten hours.
fn given(pace: u32, terms: &[(&str, &str)], more: &str) -> Estimate {
    let (mut headings, mut values) = (String::new(), String::new());
    for (heading, value) in terms {
        let _ = write!(headings, ",{heading}");
        let _ = write!(values, ",{value}");
    }
    let partners = format!(
        "Partner,Kind,People,Attendance (%),Sessions,Session hours,Pace (%){headings}\n\
         Friend,volunteers,1,100,100,10,{pace}{values}\n"
    );
    let shared =
        format!("Scenario,Work,Material,Partner,Value each\nGiven,Hand work,,Friend,\n{more}");
    estimate_of(&[
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Times,Unit,Material,Work\nHelp,Help,Help,10,h,,Hand work\n\
             Stone,Stone,Stone,12,ton,Field stone,\n",
        ),
        (
            "Materials",
            "Material,Unit,Price,Waste (%)\nField stone,ton,90,0\n",
        ),
        ("Crews", "Crew,People,Wage per hour\nMan,1,31\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output,Hazard\nHand work,h,Man,1,by hand\n",
        ),
        ("Partners", &partners),
        ("Scenarios", "Scenario\nGiven\n"),
        ("Shared work", &shared),
    ])
}

fn of_scenario(job: &Estimate, name: &str) -> f64 {
    figure(job, ("Scenarios compared", "Given", name), MONEY)
}

#[test]
fn hours_fall_with_each_doubling_of_the_work_done() {
    let source = "EX-82, R1: R. M. Wideman, learning-curve mathematics, app. 2, model A (Wright, \
                  cumulative average), ratio 80 %: average of two 80 %, the second alone 60 %, \
                  average of four 64 %";
    // At 100 %, 50 % and 25 % of the pace the work takes one, two and four first sessions.
    let hours = |pace: u32| {
        let job = given(pace, &[("Learning (%)", "80")], "");
        let name = ("Partners by scenario", "Given / Friend", "hours of work");
        figure(&job, name, H)
    };
    let (one, two, four) = (hours(100), hours(50), hours(25));
    within(source, two / (2.0 * one), 0.80, 1e-12);
    within(source, (two - one) / one, 0.60, 1e-12);
    within(source, four / (4.0 * one), 0.64, 1e-12);
}

#[test]
fn gifts_are_worth_the_rate_of_the_work_the_market_and_a_fair_rent() {
    let source = "EX-85, R1: 2 CFR 200.306(e) and (j), as quoted on an agency's match form: \
                  volunteers at what is paid for like work, else at the local market; goods at \
                  fair market value; US health agency note: a professional outside the \
                  profession counts at the rate of the work done, loaned equipment at fair rent";
    // A lawyer who rakes: an hour is worth what the man is paid, 31, and not the lawyer's 240.
    let terms = [
        ("In-kind rate", "31"),
        ("In-kind rule", "paid for like work"),
        ("Wage per hour", "240"),
        ("Tools per session", "45"),
    ];
    // Twelve tons of stone from the client's own field, worth 65 at the quarry next door.
    let job = given(100, &terms, "Given,,Field stone,Friend,65\n");
    exactly(source, of_scenario(&job, "value of hours given"), 310.0);
    exactly(
        source,
        of_scenario(&job, "value of materials brought"),
        780.0,
    );
    let tools = "value of tools and machines brought";
    exactly(source, of_scenario(&job, tools), 45.0);
    exactly(source, of_scenario(&job, "given in kind"), 1135.0);
}
