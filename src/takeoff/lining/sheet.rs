//! The sheet of each layer: what it covers, with slack, and its edge on every side.

use super::{developed, pieces};
use crate::graph::prelude::*;
use crate::job::tables::{Basins, Falls, Layers};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Each layer lines one basin or one fall, and a fall has something to line.
pub(super) const RULES: &[&dyn Rule] = &[
    &Limit::<Layers>::fault(
        "layer that lines nothing",
        Code::MissingValue,
        Layers::LayerBasin.at(),
        || Layers::LayerBasin.blank().and(Layers::LayerFall.blank()),
        "this layer lines nothing",
        "name the basin or the fall that it lines",
    ),
    &Limit::<Layers>::fault(
        "layer that lines two things",
        Code::ConflictingValues,
        Layers::LayerBasin.at(),
        || Layers::LayerBasin.filled().and(Layers::LayerFall.filled()),
        "one layer cannot line a basin and a fall",
        "name only one of them, and give the other a layer of its own",
    ),
    &Limit::<Layers>::fault(
        "taped sheet of a fall",
        Code::ConflictingValues,
        Layers::LayerFall.at(),
        || {
            let long = Layers::SheetLength.filled();
            let taped = long.or(Layers::SheetWidth.filled());
            Layers::LayerFall.filled().and(taped)
        },
        "a fall is lined in pieces by course, and a taped sheet is written for it",
        "leave Sheet length and Sheet width blank for a fall",
    ),
    &Limit::<Layers>::open(
        "fall without anything to line",
        Code::MissingValue,
        Layers::LayerFall.at(),
        || Layers::LayerFall.filled().and(AREA.above(0.0).negate()),
        "this fall has no course and no reach to line, so the layer counts nothing",
        "add its courses, or write its reach in Waterfalls and streams",
    ),
];

/// The basin that a layer lines.
pub(super) const BASIN: LookUp<Layers, Basins> =
    LookUp::new("basin row", || Layers::LayerBasin.key());

/// The fall that a layer lines.
pub(super) const FALL: LookUp<Layers, Falls> = LookUp::new("fall row", || Layers::LayerFall.key());

/// How far the anchor trench lies from the rim.
pub(super) const SET_BACK: Step<Layers> = Step::new(
    "trench set-back in use",
    System::length,
    &sources::ANCHOR_TRENCH,
    || Layers::SetBack.or(Factor::SetBack),
);

/// How deep the anchor trench is.
pub(super) const TRENCH_DEPTH: Step<Layers> = Step::new(
    "trench depth in use",
    System::length,
    &sources::ANCHOR_TRENCH,
    || Layers::TrenchDepth.or(Factor::TrenchDepth),
);

/// How wide the anchor trench is.
pub(super) const TRENCH_WIDTH: Step<Layers> = Step::new(
    "trench width in use",
    System::length,
    &sources::ANCHOR_TRENCH,
    || Layers::TrenchWidth.or(Factor::TrenchWidth),
);

/// How many times the sheet is laid.
pub(super) const TIMES: Step<Layers> =
    Step::from_job("times in use", System::each, || Layers::LayerTimes.or(1.0));

/// How much more a sheet is than the surface that it covers.
const SLACK: Step<Layers> = Step::new("slack in use", System::percent, &sources::SLACK, || {
    Layers::Slack.or(Factor::Slack)
});

/// How far the sheet runs beyond the rim: up and over it, up a wall, or to the anchor
/// trench, down its near wall and across its floor.
const EDGE: Step<Layers> = Step::from_job("edge in use", System::length, || {
    let over = when(FALL.found_none(), Factor::EdgeOver, Factor::FallSide);
    let usual = when(Layers::EdgeKind.is("wall"), Factor::EdgeWall, over);
    let into = SET_BACK + TRENCH_DEPTH + TRENCH_WIDTH;
    let is_anchored = Layers::EdgeKind.is("anchor trench");
    when(is_anchored, into, Layers::EdgeWidth.or(usual))
});

/// How much wider a sheet is than the pieces of its fall, which have their sides already.
const WIDER: Step<Layers> = Step::new(
    "wider than the fall's",
    System::length,
    &sources::FALL_LINER,
    || {
        let wider = 2.0 * (EDGE - Factor::FallSide);
        when(FALL.found_none(), 0.0, wider)
    },
);

/// One measure of a sheet: of a basin with slack and an edge at both ends, of a fall with
/// slack, since its pieces have their edges already.
fn side(of_basin: Term<Layers>, of_fall: Term<Layers>) -> Term<Layers> {
    let basin = of_basin * (1.0 + SLACK) + 2.0 * EDGE;
    when(FALL.found_none(), basin, of_fall * (1.0 + SLACK))
}

/// Length of one sheet; of a fall that of all its pieces one below the other.
pub(super) const LENGTH: Step<Layers> = Step::new(
    "length of one sheet",
    System::length,
    &sources::DEVELOPED,
    || {
        let along = Layers::SheetLength.or(BASIN.of(developed::LENGTH));
        side(along, FALL.of(pieces::DOWNHILL))
    },
);

/// Width of one sheet; of a fall that of its widest piece.
pub(super) const WIDTH: Step<Layers> = Step::new(
    "width of one sheet",
    System::length,
    &sources::DEVELOPED,
    || {
        let across = Layers::SheetWidth.or(BASIN.of(developed::WIDTH));
        side(across, FALL.of(pieces::WIDEST) + WIDER)
    },
);

const MORE_AT_SIDES: Step<Layers> = Step::geometry("more at the sides", System::area, || {
    FALL.of(pieces::DOWNHILL) * WIDER
});

/// An area of a sheet: of a basin length × width, of a fall that of pieces with slack both
/// ways.
fn area(of_pieces: Term<Layers>) -> Term<Layers> {
    let of_fall = of_pieces * (1.0 + SLACK) * (1.0 + SLACK);
    when(FALL.found_none(), LENGTH * WIDTH, of_fall)
}

/// Area of one sheet; of a fall that of its pieces.
pub(super) const AREA: Step<Layers> = Step::new(
    "area of one sheet",
    System::area,
    &sources::DEVELOPED,
    || area(FALL.of(pieces::ALL) + MORE_AT_SIDES),
);

/// Area of the largest piece: the sheet itself, or the largest piece of a fall. The side of
/// that piece alone is not known here: all of it is counted.
pub(super) const LARGEST: Step<Layers> =
    Step::new("largest piece", System::area, &sources::DEVELOPED, || {
        area(FALL.of(pieces::LARGEST) + highest(MORE_AT_SIDES, 0.0))
    });
