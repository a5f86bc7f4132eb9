//! What things cost and how fast work goes.

use super::entry::Entry;
use super::items::KINDS;

pub(super) const MATERIALS: &str = "Material|Unit|Price|Sold in|Weight (lb/ft3)|Waste (%)|Supplier|Quote|\
                                    Minimum|Load|Freight per load|Area weight (lb/ft2)";
pub(super) const CREWS: &str = "Crew|People|Wage per hour|Burden (%)";
pub(super) const EQUIPMENT: &str = "Machine|Rate per hour|Carries (yd3)|Payload (ton)|Cycle (s)|\
                         Pump flow (gpm)|Rigging (ton)";
pub(super) const LIFT_CHART: &str = "Machine|Radius (ft)|Capacity (ton)|Chart gives";
pub(super) const WORKS: &str = "Work|Unit|Crew|Crew output|Machine|Machine output|Hazard";
pub(super) const MARK_UPS: &str = "Mark-up|On|Rate (%)";

pub(super) fn materials() -> Vec<Vec<Entry>> {
    let mut rows = Vec::new();
    for (kind, unit, _) in KINDS {
        for size in 1..=5u32 {
            let price = 1.25 + f64::from(size);
            let by_weight = unit == "yd3";
            let sold = if by_weight { "ton" } else { unit };
            let weight = if by_weight {
                Entry::Number(96.0)
            } else {
                Entry::Blank
            };
            // A quote's number looks like a number, and must stay words.
            let quote = format!("{}", 80 + size);
            let name = format!("{kind} {size}");
            rows.push(row![
                name,
                sold,
                price,
                1.0,
                weight,
                5.0,
                "Supply yard",
                quote
            ]);
        }
    }
    rows.extend(built());
    rows
}

/// What is bought by the take-off itself, under its usual names.
fn built() -> Vec<Vec<Entry>> {
    let sheet = |name: &str, weight: f64| {
        row![
            name,
            "ft2",
            1.1,
            (),
            (),
            0.0,
            "Liner shop",
            "L-44",
            (),
            (),
            (),
            weight
        ]
    };
    let stone = |name: &str, price: f64| {
        row![
            name,
            "ton",
            price,
            1.0,
            100.0,
            (),
            "Hill quarry",
            "H-9",
            10.0,
            20.0,
            165.0,
            ()
        ]
    };
    let other = |name: &str, unit: &str, price: f64| {
        row![name, unit, price, 1.0, (), (), "Supply yard", "S-3"]
    };
    vec![
        sheet("Liner", 0.29),
        sheet("Fabric", 0.083),
        stone("Boulders", 104.0),
        stone("River stone", 54.0),
        stone("Bedding", 24.0),
        other("Foam", "ea", 13.0),
        other("Boot", "ea", 72.0),
        other("Void crate", "ea", 74.0),
        other("Logs", "ea", 290.0),
        other("Plants", "ea", 1.9),
        other("Planting soil", "yd3 loose", 31.0),
        other("Ground mats", "ft", 6.5),
        other("Water line", "ft", 1.9),
        other("Power line", "ft", 11.0),
    ]
}

pub(super) fn crews() -> Vec<Vec<Entry>> {
    vec![
        row!["Pond crew", 3.0, 26.5, 38.0],
        row!["Stone crew", 4.0, 29.0, 38.0],
        row!["Pipe crew", 2.0, 31.0, 40.0],
        row!["Planters", 5.0, 22.0, 35.0],
    ]
}

pub(super) fn machines() -> Vec<Vec<Entry>> {
    vec![
        row!["Excavator", 150.0, 1.5, (), 25.0, (), 0.12],
        row!["Loader", 95.0, 0.7, (), 60.0, ()],
        row!["Roller", 55.0, (), (), (), ()],
        row!["Dump truck", 98.0, 12.0, 14.0, 2100.0, ()],
        row!["Pump", 12.0, (), (), (), 240.0],
    ]
}

pub(super) fn lift_chart() -> Vec<Vec<Entry>> {
    vec![
        row!["Excavator", 10.0, 14.0, "rated capacity"],
        row!["Excavator", 15.0, 9.5, "rated capacity"],
        row!["Excavator", 20.0, 6.0, "rated capacity"],
        row!["Loader", 8.0, 3.0, "tipping load"],
    ]
}

pub(super) fn works() -> Vec<Vec<Entry>> {
    let mut rows = vec![
        row!["Pump out", "h", "Pond crew", 8.0, "Pump", 1.0],
        row!["Strip topsoil", "yd3 bank", (), (), "Loader", 60.0],
        row!["Remove sediment", "yd3", (), (), "Excavator", 40.0],
        row!["Dig", "yd3 bank", "Pond crew", 90.0, "Excavator", 90.0],
        row!["Build berm", "yd3 compacted", (), (), "Roller", 40.0],
        row!["Backfill", "yd3 compacted", (), (), "Roller", 30.0],
        row!["Haul sediment", "load", (), (), "Dump truck", ()],
        row!["Haul away", "load", (), (), "Dump truck", ()],
        row!["Bring fill", "load", (), (), "Dump truck", ()],
        row!["Spread topsoil", "yd3 loose", (), (), "Loader", 50.0],
        row!["Lay sheet", "ft2", "Pond crew", 300.0, (), ()],
        row!["Pick subgrade", "ft2", "Pond crew", 900.0, (), ()],
        row!["Fit boot", "ea", "Pipe crew", 0.8, (), ()],
        row!["Test liner", "ea", "Pipe crew", 0.05, (), ()],
        row!["Set stone", "ton", "Stone crew", 1.5, "Excavator", 1.8],
        row!["Place gravel", "yd3", "Pond crew", 4.0, "Loader", 6.0],
        row!["Foam joint", "ft", "Pond crew", 40.0, (), ()],
        row!["Set structure", "ea", "Stone crew", 0.4, "Excavator", 0.5],
        row!["Set crate", "ea", "Pond crew", 9.0, (), ()],
        row!["Set log", "ea", "Stone crew", 1.1, "Excavator", 1.5],
        row!["Plant", "ea", "Planters", 110.0, (), ()],
        row!["Way in", "ft", "Pond crew", 60.0, "Loader", 90.0],
        row!["Ground mats", "ft", "Pond crew", 50.0, "Loader", 60.0],
        row!["Water line", "ft", "Pipe crew", 120.0, (), ()],
    ];
    for (position, (_, unit, work)) in KINDS.iter().enumerate() {
        let crew = ["Stone crew", "Pond crew", "Pipe crew", "Planters"][position];
        rows.push(row![
            format!("{work} 1"),
            *unit,
            crew,
            20.0,
            (),
            (),
            "by hand"
        ]);
        rows.push(row![
            format!("{work} 2"),
            *unit,
            crew,
            25.0,
            "Loader",
            50.0,
            "by hand"
        ]);
    }
    rows
}

pub(super) fn mark_ups() -> Vec<Vec<Entry>> {
    vec![
        row!["Overhead", "direct cost", 12.0],
        row!["Contingency", "direct cost", 5.0],
        row!["Profit", "running total", 10.0],
        row!["Bond", "bid", 1.5],
    ]
}
