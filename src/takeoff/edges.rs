//! Edges: the rim of a basin divided among what stands along it.
//!
//! Always true: where any part of a basin's rim is measured, the parts make its whole
//! perimeter, or a limit is broken at the part where the sum goes wrong.

use super::bill::{Amount, BidLine, Buying, Counted, Part, RowByRow, Working};
use super::outline;
use super::written::filled;
use crate::graph::prelude::*;
use crate::job::tables::{Basins, Edges};
use crate::parameters::Factor;
use crate::sources;
use crate::units::System;

/// Lengths of rims and of their parts, and their limits.
pub const RULES: &[&dyn Rule] = &[
    &PERIMETER,
    &LENGTH,
    &DIVIDED,
    &Limit::<Edges>::fault(
        "parts of the rim are longer than it",
        Code::EdgesDoNotAdd,
        Edges::EdgeLength.at(),
        || {
            let before = LENGTH_SO_FAR - Edges::EdgeLength;
            let longest = LONGEST.at_least(before);
            LENGTH_SO_FAR.above(LONGEST).and(longest)
        },
        "the parts of the rim come to more than its perimeter",
        "check the lengths of the basin's parts, and the basin's length and width",
    ),
    &Limit::<Edges>::open(
        "parts of the rim are shorter than it",
        Code::EdgesDoNotAdd,
        Edges::EdgeLength.at(),
        || {
            let too_short = SHORTEST.above(RIM_OF.of(DIVIDED));
            LAST.above(0.0).and(too_short)
        },
        "the parts of the rim come to less than its perimeter",
        "add a row for the rest of the basin's rim, or check the lengths",
    ),
];

const LENGTH_OF_BASIN: Step<Basins> = outline::LENGTH;
const WIDTH_OF_BASIN: Step<Basins> = outline::WIDTH;

/// Length along the rim: of a rectangle twice length and width; of an ellipse, which a
/// circle is too, π/2 × (3 (L + W) − √((3 L + W) (L + 3 W))).
pub const PERIMETER: Step<Basins> =
    Step::new("perimeter", System::length, &sources::ELLIPSE, || {
        let (length, width) = (LENGTH_OF_BASIN, WIDTH_OF_BASIN);
        let product = (3.0 * length + width) * (length + 3.0 * width);
        let root = product.number_in(System::area).root();
        let root = root.counted_in(System::length);
        let ellipse = pi() / 2.0 * (3.0 * (length + width) - root);
        let rectangle = Basins::Shape.is("rectangle");
        when(rectangle, 2.0 * (length + width), ellipse)
    });

/// The basin of each part.
pub const RIM_OF: LookUp<Edges, Basins> = LookUp::new("basin row", || Edges::EdgeBasin.key());

/// Length of each part.
pub const LENGTH: Step<Edges> = Step::from_job("length of the part", System::length, || {
    Edges::EdgeLength.here()
});

/// Length of the parts of a rim down to each one.
const LENGTH_SO_FAR: Step<Edges> =
    Step::running("rim so far", System::length, &sources::ARITHMETIC, |own| {
        own.row_above(RIM_OF, 0.0) + LENGTH
    });

/// How many they are.
const PARTS_SO_FAR: Step<Edges> = Step::running(
    "parts so far",
    System::number,
    &sources::ARITHMETIC,
    |own| own.row_above(RIM_OF, 0.0) + 1.0,
);

/// Length of all parts of a basin's rim.
pub const DIVIDED: Step<Basins> =
    Step::geometry("rim divided", System::length, || RIM_OF.sum(LENGTH));

const ONE_PART: Step<Edges> = Step::arithmetic("one part", System::number, || 1.0.into());

/// How many parts a basin's rim has: the number of the last one.
const PARTS: Step<Basins> =
    Step::arithmetic("parts of the rim", System::number, || RIM_OF.sum(ONE_PART));

/// The perimeter of the basin of each part.
const RIM: Step<Edges> = Step::geometry("perimeter of its basin", System::length, || {
    RIM_OF.of(PERIMETER)
});

const LONGEST: Step<Edges> = Step::arithmetic("longest that parts may be", System::length, || {
    RIM * (1.0 + Term::from(Factor::EdgeTolerance))
});

const SHORTEST: Step<Edges> =
    Step::arithmetic("shortest that parts may be", System::length, || {
        RIM * (1.0 - Term::from(Factor::EdgeTolerance))
    });

/// 1 for the last part of a rim.
const LAST: Step<Edges> = Step::from_job("last part of its rim", System::number, || {
    when(PARTS_SO_FAR.same_as(RIM_OF.of(PARTS)), 1.0, 0.0)
});

/// What is bought along a part, where it names a material; no usual one stands in, because
/// other tables take most edges off.
const EDGE: Buying<Edges> = Buying::new(
    "edge",
    || Edges::EdgeMaterial.words(),
    Edges::EdgeMaterial.at(),
    &[Amount::new(System::length, || LENGTH.key())],
)
.that_must_be_found();

/// What is worked along a part, where it names a work.
const FIXING: Working<Edges> = Working::new(
    "edge to work",
    || Edges::EdgeWork.words(),
    Edges::EdgeWork.at(),
    &[Amount::new(System::length, || LENGTH.key())],
)
.that_must_be_found();

const NAME: Part = Part::Of(|| Edges::Edge.key());

/// Lines, in the order of the rows: the parts that name a material or a work.
pub(super) const LINES: RowByRow<Edges> = RowByRow::new(&[&BidLine {
    arises: |graph, row| {
        filled(graph, Edges::EdgeMaterial, row) || filled(graph, Edges::EdgeWork, row)
    },
    zone: Some(Part::Of(|| Edges::EdgeBasin.key())),
    ..BidLine::of_each_row(
        &[Part::Fixed("Edge: "), NAME],
        &[NAME, Part::Fixed(": edge of the basin")],
        Counted::Bought(&EDGE, Some(&FIXING)),
    )
}]);
