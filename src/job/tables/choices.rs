//! The words that columns of choices allow: each is a drop-down in the workbook.

use crate::units::System;

/// Outlines that a basin can have.
pub const SHAPES: &[&str] = &["rectangle", "ellipse", "circle"];
/// Kinds of ground.
pub const SOILS: &[&str] = &["sand", "loam", "clay", "rock"];
/// How a value was come by, the least certain first.
pub const GRADES: &[&str] = &["assumed", "paced", "measured", "quoted", "as set"];
/// What stands along a part of a basin's rim.
pub const TREATMENTS: &[&str] = &["stone", "timber", "planted shelf", "beach", "wall kept"];
/// How a sheet ends at the rim.
pub const EDGES: &[&str] = &["up and over", "anchor trench", "wall"];
/// How a sheet is ordered.
pub const ORDERED_AS: &[&str] = &["one panel", "strips", "rolls"];
/// Which way strips of a sheet run.
pub const STRIPS_RUN: &[&str] = &["along the length", "across the width"];
/// How two sheets are joined.
pub const SEAMS: &[&str] = &["welded", "taped", "loose"];
/// What is built of courses of stone, or lined as a channel.
pub const FALL_KINDS: &[&str] = &["waterfall", "stream", "rock edge"];
/// Kinds of rock.
pub const ROCKS: &[&str] = &[
    "granite",
    "gneiss",
    "limestone",
    "sandstone",
    "quartzite",
    "basalt",
];
/// How much of its box a stone fills.
pub const STONE_SHAPES: &[&str] = &["block", "rough", "rounded"];
/// What the tons of a course are worked out from.
pub const TONS_BY: &[&str] = &["course", "piece"];
/// What the figures of a lift chart are.
pub const CHART_GIVES: &[&str] = &["rated capacity", "tipping load"];
/// Kinds of structure.
pub const STRUCTURE_KINDS: &[&str] = &["vault", "void crates", "weir box", "wall kept"];
/// Kinds of timber.
pub const SPECIES: &[&str] = &[
    "white oak",
    "red oak",
    "yellow-poplar",
    "loblolly pine",
    "Douglas-fir",
];
/// How plants are set out.
pub const PATTERNS: &[&str] = &["square", "triangle"];
/// The ground that machines run on.
pub const GROUNDS: &[&str] = &["firm", "soft"];
/// What a mark-up can be a percentage of.
pub const BASES: &[&str] = &[
    "material",
    "labor",
    "equipment",
    "subcontract",
    "direct cost",
    "running total",
    "bid",
];
/// The two systems of units.
pub const SYSTEMS: &[&str] = &[System::Us.name(), System::Metric.name()];
/// The two kinds of bid.
pub const BID_KINDS: &[&str] = &["lump sum", "unit price"];
/// What a term of a bid does.
pub const TERM_KINDS: &[&str] = &["inclusion", "exclusion", "assumption"];

/// Yes or no.
pub const YES_NO: &[&str] = &["yes", "no"];
/// How the people of a partner come to work.
pub const PARTNER_KINDS: &[&str] = &["volunteers", "client's staff", "hired"];
/// What the rate of an hour in kind is taken from.
pub const RATE_RULES: &[&str] = &["paid for like work", "local market"];
/// Whether mark-ups stay in dollars when cost changes.
pub const HELD: &[&str] = &["held", "follow"];
/// Who pays where partners do not turn up.
pub const BORNE_BY: &[&str] = &["client", "us"];
/// What can hurt the untrained in a work.
pub const HAZARDS: &[&str] = &[
    "by hand",
    "machines",
    "lifting",
    "deep cuts",
    "confined spaces",
    "electrical",
];
/// What the scenario without partners is called.
pub const CREW_ONLY: &str = "Crew only";
