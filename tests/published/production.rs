//! What machines and hands do in an hour, and what trucks hold.

use groundsheet::estimate::Estimate;
use groundsheet::parameters::Factor;
use groundsheet::units::{H, LOAD, MONEY, ONE, PER_H, System, TON, YD3_LOOSE};

use crate::support::{US, estimate_of, exactly, figure, within};

/// A job of one machine that does some kinds of work.
fn machine(equipment: &str, works: &str, factors: &str, items: &str) -> Estimate {
    estimate_of(&[
        ("Job", US),
        ("Equipment", equipment),
        ("Production rates", works),
        ("Factors", factors),
        ("Other items", items),
    ])
}

const NO_ITEM: &str = "Item,Section,Description,Times,Unit\nNote,Notes,Nothing,1,ls\n";
const WHOLE_HOURS: &str = "Factor,Override\nJob efficiency,100\nBucket fill,100\n";

fn output(job: &Estimate, work: &str) -> f64 {
    figure(
        job,
        ("Production rates", work, "machine output in use"),
        PER_H,
    )
}

#[test]
fn a_bucket_holds_less_in_bank_measure() {
    let source = "EX-27, R2: university tutorial CE417 no. 3, problem 1";
    // 2.5 yd³ heaped, fill 0.95, load factor 0.8: our defaults for loam. One cycle an hour.
    let job = machine(
        "Machine,Carries (yd3),Cycle (min)\nShovel,2.5,60\n",
        "Work,Unit,Machine\nLoose,yd3 loose,Shovel\nBank,yd3 bank,Shovel\n",
        "Factor,Override\nJob efficiency,100\n",
        NO_ITEM,
    );
    within(source, output(&job, "Loose"), 2.38, 0.005 + 1e-9);
    within(source, output(&job, "Bank"), 1.9, 0.05);
    let source = "EX-20, R2: the same tutorial: bucket fill of common earth 0.80-1.10, \
                  of tough clay 0.65-0.95";
    let fill = Factor::BucketFill.default(System::Us) / 100.0;
    within(source, fill, f64::midpoint(0.80, 1.10), 0.15);
    within(source, fill, f64::midpoint(0.65, 0.95), 0.15 + 1e-9);
}

#[test]
fn a_shovel_in_tough_clay_loads_the_printed_yards_an_hour() {
    let source = "EX-28, R2: university tutorial CE417 no. 3, problem 2";
    // 150 cycles an hour × 0.94 for the swing; 3.5 yd³ × 0.80; efficiency 0.75; load factor 0.77.
    let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
                  Cut,rectangle,30,15,6,0\n";
    let job = estimate_of(&[
        (
            "Job",
            "Key,Value\nName,Test\nUnits,US customary\nSoil,clay\n",
        ),
        ("Basins", basins),
        (
            "Equipment",
            "Machine,Carries (yd3),Cycle (s)\nShovel,3.5,25.53191489361702\n",
        ),
        (
            "Production rates",
            "Work,Unit,Machine\nLoose,yd3 loose,Shovel\nDig,yd3 bank,Shovel\n",
        ),
        (
            "Factors",
            "Factor,Override\nJob efficiency,75\nBucket fill,80\n\
             \"Loose per bank, clay\",1.298701298701299\n",
        ),
    ]);
    within(source, output(&job, "Loose"), 296.1, 0.05);
    within(source, output(&job, "Dig"), 228.0, 0.5);
    // 100 yd³ in the bank at that rate.
    let hours = figure(&job, ("Lines", "Dig: Cut", "machine hours"), H);
    within(source, hours, 100.0 / 228.0, 0.005);
}

#[test]
fn a_truck_is_full_by_volume_or_by_weight() {
    let source = "EX-31, R2: US Army engineer lesson on dump trucks, slideplayer.com 4151968: a \
                  5-ton dump hauls 5 loose yd³, a 20-ton dump 12; check weight as well as volume";
    // 100 yd³ of loam in the bank are 125 loose and weigh 148.5 tons: 29.7 loads by the weight
    // of the small truck (25 by volume), 10.42 by the volume of the large one (7.4 by weight).
    for (carries_yd3, payload_tons, loads) in [(5.0, 5.0, 30.0), (12.0, 20.0, 11.0)] {
        let equipment =
            format!("Machine,Carries (yd3),Payload (ton)\nTruck,{carries_yd3},{payload_tons}\n");
        let job = estimate_of(&[
            ("Job", US),
            (
                "Basins",
                "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
                 Cut,rectangle,30,15,6,0\n",
            ),
            ("Equipment", &equipment),
            (
                "Production rates",
                "Work,Unit,Machine\nHaul away,load,Truck\n",
            ),
        ]);
        let of = |name, unit| figure(&job, ("Earthwork", "", name), unit);
        exactly(source, of("taken away, loose", YD3_LOOSE), 125.0);
        exactly(source, of("taken away, weight", TON), 148.5);
        exactly(source, of("loads taken away", LOAD), loads);
    }
}

#[test]
fn a_man_loads_what_the_book_says_in_a_ten_hour_day() {
    let source = "EX-32, R1: Gillette and Hill, Concrete Construction (1908), p. 6 and 46-47";
    // Loose cubic yards in ten hours from a good floor, off the ground, with poor management.
    for (yards_a_day, days) in [(20.0, 3.0), (15.0, 4.0), (12.0, 5.0)] {
        let works = format!(
            "Work,Unit,Crew,Crew output\nShovel,yd3 loose,Man,{}\n",
            yards_a_day / 10.0
        );
        let job = estimate_of(&[
            ("Job", &format!("{US}Hours a day,10\n")),
            ("Crews", "Crew,People\nMan,1\n"),
            ("Production rates", &works),
            (
                "Other items",
                "Item,Section,Description,Times,Unit,Work\nHeap,Stone,Load,60,yd3 loose,Shovel\n",
            ),
        ]);
        exactly(source, figure(&job, ("Bid", "", "working days"), ONE), days);
    }
}

#[test]
fn a_wheelbarrow_takes_a_yard_a_hundred_feet_in_under_sixteen_minutes() {
    let source = "EX-33, R1 and D: Gillette and Hill, Concrete Construction (1908), p. 47";
    // 3 ft³ a load; 200 ft at 200 ft/min and 0.75 min lost: 1.75 min a trip, 9 trips a yard.
    let job = machine(
        "Machine,Carries (ft3),Cycle (min)\nBarrow,3,1.75\n",
        "Work,Unit,Machine\nWheel,yd3 loose,Barrow\n",
        WHOLE_HOURS,
        "Item,Section,Description,Times,Unit,Work\nHeap,Stone,Wheel,80,yd3 loose,Wheel\n",
    );
    exactly(source, 60.0 / output(&job, "Wheel"), 15.75);
    exactly(
        source,
        figure(&job, ("Lines", "Heap", "machine hours"), H),
        21.0,
    );
}

#[test]
fn sand_delivered_a_mile_costs_what_the_book_adds_up() {
    let source =
        "EX-34, R1 for 42, D for 43: Gillette and Hill, Concrete Construction (1908), p. 6";
    // 1 yd³ a cart at 35 ¢ an hour and 2½ mph, two miles a trip: 2,880 s, and 5 ¢ of lost time,
    // 514.2857 s. Loading is 10 ¢ a yard.
    let job = machine(
        "Machine,Rate per hour,Carries (yd3),Cycle (s)\nCart,0.35,1,3394.285714285714\n",
        "Work,Unit,Machine\nHaul,yd3 loose,Cart\n",
        WHOLE_HOURS,
        "Item,Section,Description,Times,Unit,Work,Price\n\
         Sand,Sand,Delivered a mile,100,yd3 loose,Haul,0.10\n",
    );
    let cents_a_yard = figure(&job, ("Bid", "", "direct cost"), MONEY);
    within(source, cents_a_yard, 43.0, 0.05);
    within(source, cents_a_yard, 42.0, 42.0 * 0.03);
}

#[test]
fn man_days_are_quantity_by_unit_hours_over_eight() {
    let source = "EX-25, R1: US Navy, Builder, Advanced (NAVEDTRA 14045), ch. 2";
    // 16,000 ft² at 33 man-hours for 1,000 ft².
    let job = estimate_of(&[
        ("Job", US),
        ("Crews", "Crew,People\nMan,1\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nLay,ft2,Man,30.3030303030303\n",
        ),
        (
            "Other items",
            "Item,Section,Description,Length (ft),Width (ft),Unit,Work\n\
             Floor,Floor,Lay,160,100,ft2,Lay\n",
        ),
    ]);
    exactly(
        source,
        figure(&job, ("Lines", "Floor", "crew hours"), H),
        528.0,
    );
    exactly(source, figure(&job, ("Bid", "", "working days"), ONE), 66.0);
}

#[test]
fn a_nine_hour_day_counts_as_1_125() {
    let source = "EX-26, R1: US Navy, Builder (NAVEDTRA 14045), p. 2-28: hours a day over 8";
    let days = |hours_a_day: &str| {
        let job = estimate_of(&[
            ("Job", &format!("{US}Hours a day,{hours_a_day}\n")),
            ("Crews", "Crew,People\nMan,1\n"),
            (
                "Production rates",
                "Work,Unit,Crew,Crew output\nHand work,h,Man,1\n",
            ),
            (
                "Other items",
                "Item,Section,Description,Times,Unit,Work\nHelp,Help,Hand work,144,h,Hand work\n",
            ),
        ]);
        figure(&job, ("Bid", "", "working days"), ONE)
    };
    exactly(source, days("8") / days("9"), 1.125);
}

#[test]
fn a_roller_compacts_by_its_width_speed_lift_and_passes() {
    let source = "EX-29, R1 for the form, D for 16.296: civil engineering formula handbook, \
                  engineeringcivil.com: yd³/h = 16 W S L F E / P";
    // 5 ft wide at 3 mph, which is 4.4 ft a second, in lifts of 8 in and 4 passes: a swath of
    // 100 ft takes 4 × 100 / 4.4 s and holds 100 × 5 × 8/12 ft³.
    let equipment = format!(
        "Machine,Carries (ft3),Cycle (s)\nRoller,{},{}\n",
        100.0 * 5.0 * 8.0 / 12.0,
        4.0 * 100.0 / 4.4
    );
    let form = |efficiency: f64| 5.0 * 3.0 * 8.0 * efficiency / 4.0;
    // Excellent, average and poor, which last is our usual one.
    for (written, efficiency) in [("90", 0.90), ("80", 0.80), ("", 0.75)] {
        let job = machine(
            &equipment,
            "Work,Unit,Machine\nRoll,yd3,Roller\n",
            &format!("Factor,Override\nJob efficiency,{written}\nBucket fill,100\n"),
            NO_ITEM,
        );
        let constant = output(&job, "Roll") / form(efficiency);
        within(source, constant, 16.296, 0.0005);
        within(source, constant, 16.0, 16.0 * 0.02);
    }
}
