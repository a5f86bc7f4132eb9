//! The input tables, the factors, and the working pages: every step, and what is checked.

use super::{Page, Shows, fixed, rest};
use crate::write::sheets::{Below, Fixed};

/// What was measured, and every step from there.
pub(super) const PAGES: &[Page] = &[
    Page {
        name: "",
        about: "",
        shows: Shows::Inputs,
        below: Below::Nothing,
    },
    fixed("Factors", "", Fixed::Factors),
    rest("Basins working", "Each basin, step by step.", &["Basins"]),
    rest("Shelves working", "Each step of a profile.", &["Shelves"]),
    rest(
        "Structures working",
        "Each structure, lift and cut beside the basins' own.",
        &["Structures", "Lifts", "Lift steps", "Lift chart", "Cuts"],
    ),
    rest(
        "Lining working",
        "Each layer of liner and fabric.",
        &["Liner and fabric"],
    ),
    rest(
        "Stone working",
        "Each fall and each course of stone.",
        &["Waterfalls and streams", "Courses", "Rocks"],
    ),
    rest(
        "Planting working",
        "Each bed, log, planting and part of a rim.",
        &["Gravel and loose stone", "Timber", "Planting", "Edges"],
    ),
    rest("Items working", "Each other item.", &["Other items"]),
    rest(
        "Lines working",
        "How each line finds its unit, material and work.",
        &["Lines"],
    ),
    rest(
        "Scenarios working",
        "Who does what, step by step.",
        &[
            "Partners",
            "Shared work",
            "Tasks",
            "Partners by scenario",
            "Materials brought",
            "Orders by scenario",
            "Mark-ups by scenario",
            "Scenarios compared",
            "If they do not turn up",
        ],
    ),
    rest(
        "Price book",
        "What hours and materials cost and yield, from the job's tables.",
        &[
            "Job",
            "Crews",
            "Equipment",
            "Production rates",
            "Materials",
            "Mark-ups",
            "Set quantities",
            "Client items",
        ],
    ),
    Page {
        name: "Small tables",
        about: "Soils, shapes, units and kinds of earthwork.",
        shows: Shows::AllTheRest(&["Soils", "Shapes", "Earthworks", "Bid sections", "Units"]),
        below: Below::Nothing,
    },
    fixed(
        "Checks",
        "Every limit: how many rows break it. A fault must be mended; an open point leaves the bid a draft.",
        Fixed::Checks,
    ),
    fixed(
        "Typed cells",
        "Every column and key that is filled in by hand: what a run takes there, and how many cells it would refuse as they stand now.",
        Fixed::Typed,
    ),
    fixed(
        "Changes",
        "What an edit in this workbook cannot follow: when a line here says changed, run groundsheet on this file again.",
        Fixed::Changes,
    ),
    fixed(
        "Sources",
        "Where rules and defaults are published, or what they rest on.",
        Fixed::Sources,
    ),
];
