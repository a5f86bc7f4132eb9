//! Anchor trenches: dug once for all layers of a basin or a fall, and filled again.

use super::developed;
use super::pieces::{DOWNHILL, beyond, greatest};
use super::sheet::{BASIN, FALL, SET_BACK, TRENCH_DEPTH, TRENCH_WIDTH};
use crate::graph::prelude::*;
use crate::graph::{ColumnId, Graph, Piece};
use crate::job::Fields;
use crate::job::tables::{Basins, Falls, Layers};
use crate::parameters::{DefaultOf, Factor};
use crate::sources;
use crate::takeoff::bill::fixed;
use crate::takeoff::cut::Cut;
use crate::takeoff::grades::Graded;
use crate::units::System;

/// The trench of each basin and fall; it is at least as large, and as far from the rim, as
/// published.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Layers>::warning(
        "trench set-back below the published least",
        Code::OutOfRange,
        Layers::SetBack.at(),
        || is_less_than_published(SET_BACK, Factor::SetBack),
        LESS,
        MAKE_LARGER,
    ),
    &Limit::<Layers>::warning(
        "trench depth below the published least",
        Code::OutOfRange,
        Layers::TrenchDepth.at(),
        || is_less_than_published(TRENCH_DEPTH, Factor::TrenchDepth),
        LESS,
        MAKE_LARGER,
    ),
    &Limit::<Layers>::warning(
        "trench width below the published least",
        Code::OutOfRange,
        Layers::TrenchWidth.at(),
        || is_less_than_published(TRENCH_WIDTH, Factor::TrenchWidth),
        LESS,
        MAKE_LARGER,
    ),
    &Limit::<Layers>::warning(
        "edge measure that is not used",
        Code::ConflictingValues,
        Layers::EdgeKind.at(),
        || {
            let of_trench = Layers::SetBack.filled();
            let of_trench = of_trench.or(Layers::TrenchDepth.filled());
            let of_trench = of_trench.or(Layers::TrenchWidth.filled());
            let without = is_anchored().negate().and(of_trench);
            without.or(is_anchored().and(Layers::EdgeWidth.filled()))
        },
        "a measure of the edge is written that this kind of edge does not use",
        "an anchor trench takes its three measures, every other edge takes Edge width",
    ),
    &Limit::<Layers>::caution(
        "deep anchor trench",
        Code::DeepCut,
        Layers::TrenchDepth.at(),
        || is_anchored().and(TRENCH_DEPTH.at_least(Factor::LayBackFrom)),
        "an anchor trench is deep enough to bury people",
        "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
    ),
    &BASIN_DIG,
    &BASIN_BACKFILL,
    &FALL_DIG,
    &FALL_BACKFILL,
];

const LESS: &str = "the anchor trench is smaller, or nearer to the rim, than the published least";
const MAKE_LARGER: &str =
    "make it larger, or ask whoever designed it (NRCS Arizona specification 521A)";

/// Whether a layer ends in an anchor trench.
fn is_anchored() -> Condition {
    Layers::EdgeKind.is("anchor trench")
}

/// Whether a measure of an anchor trench is less than the default of its factor.
fn is_less_than_published(measure: Step<Layers>, factor: Factor) -> Condition {
    is_anchored().and(measure.below(only(DefaultOf(factor))))
}

/// Along the middle of the trench; along a fall on both sides of it.
const ALONG: Step<Layers> = Step::geometry("along the trench", System::length, || {
    let round = developed::beside_the_rim(BASIN, SET_BACK + TRENCH_WIDTH / 2.0);
    let along = when(FALL.found_none(), round, 2.0 * FALL.of(DOWNHILL));
    when(is_anchored(), along, 0.0)
});

const VOLUME: Step<Layers> = Step::geometry("trench volume", System::volume, || {
    ALONG * TRENCH_DEPTH * TRENCH_WIDTH
});

// Layers of one basin lie in one trench, the largest that any of them asks for.

const OF_BASIN_SO_FAR: Step<Layers> = Step::running(
    "greatest trench of the basin so far",
    System::volume,
    &sources::ARITHMETIC,
    |own| greatest(own, BASIN, VOLUME),
);

const OF_BASIN: Step<Layers> = Step::arithmetic(
    "trench of the basin beyond those before",
    System::volume,
    || beyond(OF_BASIN_SO_FAR, BASIN),
);

const OF_FALL_SO_FAR: Step<Layers> = Step::running(
    "greatest trench of the fall so far",
    System::volume,
    &sources::ARITHMETIC,
    |own| greatest(own, FALL, VOLUME),
);

const OF_FALL: Step<Layers> = Step::arithmetic(
    "trench of the fall beyond those before",
    System::volume,
    || beyond(OF_FALL_SO_FAR, FALL),
);

/// Dug for the trench of each basin, in the bank.
const BASIN_DIG: Step<Basins> =
    Step::geometry("anchor trench, dig", System::bank, || BASIN.sum(OF_BASIN));

/// Filled again, compacted.
const BASIN_BACKFILL: Step<Basins> =
    Step::geometry("anchor trench, backfill", System::compacted, || {
        BASIN.sum(OF_BASIN)
    });

/// Dug for the trench of each fall, in the bank.
const FALL_DIG: Step<Falls> =
    Step::geometry("anchor trench, dig", System::bank, || FALL.sum(OF_FALL));

/// Filled again, compacted.
const FALL_BACKFILL: Step<Falls> =
    Step::geometry("anchor trench, backfill", System::compacted, || {
        FALL.sum(OF_FALL)
    });

/// What is cut: one anchor trench for each basin and each fall that has one.
pub(crate) fn cuts(graph: &mut Graph) -> Vec<Cut> {
    let mut cuts = cuts_of(
        graph,
        (Layers::LayerBasin, Basins::Basin),
        (BASIN_DIG, BASIN_BACKFILL),
    );
    cuts.extend(cuts_of(
        graph,
        (Layers::LayerFall, Falls::Fall),
        (FALL_DIG, FALL_BACKFILL),
    ));
    cuts
}

/// The trench of each row of a table that a layer with an anchor trench names; its grade is
/// that of the first such layer.
fn cuts_of<W: Fields>(
    graph: &mut Graph,
    (named_by, whole): (Layers, W),
    (dig, backfill): (Step<W>, Step<W>),
) -> Vec<Cut> {
    let (named_by, whole) = (graph.read(named_by), graph.read(whole));
    let (dig, backfill) = (graph.read(dig), graph.read(backfill));
    let edge = graph.read(Layers::EdgeKind);
    let grade = graph.read(Layers::GRADE_IN_USE);
    let cut = |row: usize| {
        let name = graph.written(whole.at(row));
        let is_its = |layer: &usize| {
            let says = |column: ColumnId, words: &str| {
                let written = graph.written(column.at(*layer));
                written.eq_ignore_ascii_case(words)
            };
            says(named_by, name) && says(edge, "anchor trench")
        };
        let layer = (0..graph.rows(named_by)).find(is_its)?;
        (!name.is_empty()).then(|| Cut {
            name: vec![fixed("anchor trench, "), Piece::Cell(whole.at(row))],
            dig: dig.at(row),
            backfill: Some(backfill.at(row)),
            grade: grade.at(layer),
        })
    };
    (0..graph.rows(whole)).filter_map(cut).collect()
}
