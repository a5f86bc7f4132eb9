//! What courses and falls are bought as and done by, and the lines they make.

use super::courses::{self, WASTE};
use super::{USUAL_STONE, around, order};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::{Courses, Falls};
use crate::sources;
use crate::takeoff::bill::{
    Amount, BidLine, Buying, Counted, GivesLines, Line, Part, RowByRow, Waste, Working,
    named_or_usual,
};
use crate::units::System;

const STONE_AMOUNTS: &[Amount] = &[
    Amount::new(System::weight, || courses::TONS.key()),
    Amount::new(System::each, || courses::PIECES.key()),
    Amount::new(System::volume, || courses::VOLUME.key()),
];

/// Stone is bought by weight, by the piece or by the volume of its course; its waste is
/// what fits nowhere and what the quarry's scale leaves open.
pub(in crate::takeoff) const STONE: Buying<Courses> = Buying::new(
    "stone",
    || named_or_usual(Courses::Stone, USUAL_STONE),
    Courses::Stone.at(),
    STONE_AMOUNTS,
)
.missing("the stone is not in the book, so it has no price")
.waste(Waste::Own(|| WASTE.key()));

/// The work that sets it.
const SETTING: Working<Courses> = Working::new(
    "setting",
    || named_or_usual(Courses::CourseWork, "Set stone"),
    Courses::CourseWork.at(),
    STONE_AMOUNTS,
)
.missing("the work that sets it is not in the book, so setting the stone is excluded");

/// Stone that is delivered, in the unit that it is sold in: with what fits nowhere and the
/// tolerance.
pub(in crate::takeoff) const DELIVERED: Step<Courses> =
    Step::new("stone delivered", System::number, &sources::REJECT, || {
        STONE.to_buy().here() * (1.0 + WASTE.here())
    });

const GAP_FILL_AMOUNTS: &[Amount] = &[Amount::new(System::loose, || around::GAP_FILL.key())];

const GAP_FILL: Buying<Falls> = Buying::new(
    "gap fill",
    || named_or_usual(Falls::GapFill, "River stone"),
    Falls::GapFill.at(),
    GAP_FILL_AMOUNTS,
)
.missing("the stone for the gaps is not in the book, so it has no price");

const FILLING: Working<Falls> = Working::new(
    "gap fill placed",
    || "Place gravel".into(),
    Falls::GapFill.at(),
    GAP_FILL_AMOUNTS,
)
.missing("the work that places it is not in the book, so filling the gaps is excluded");

const BEDDING_AMOUNTS: &[Amount] = &[Amount::new(System::loose, || around::BEDDING.key())];

const BEDDING: Buying<Falls> = Buying::new(
    "bedding",
    || named_or_usual(Falls::FallBedding, "Bedding"),
    Falls::FallBedding.at(),
    BEDDING_AMOUNTS,
)
.missing("what courses are bedded on is not in the book, so it has no price");

const PLACING: Working<Falls> = Working::new(
    "bedding placed",
    || "Place gravel".into(),
    Falls::FallBedding.at(),
    BEDDING_AMOUNTS,
)
.missing("the work that places it is not in the book, so placing the bedding is excluded");

const FOAM_AMOUNTS: &[Amount] = &[
    Amount::new(System::each, || around::CANS.key()),
    Amount::new(System::length, || around::JOINT.key()),
];

/// Foam is bought by the can or by the length of the joint.
const FOAM: Buying<Falls> = Buying::new(
    "foam",
    || named_or_usual(Falls::Foam, "Foam"),
    Falls::Foam.at(),
    FOAM_AMOUNTS,
)
.missing("the foam is not in the book, so it has no price");

const FOAMING: Working<Falls> = Working::new(
    "joint foamed",
    || "Foam joint".into(),
    Falls::Foam.at(),
    FOAM_AMOUNTS,
)
.missing("the work that foams them is not in the book, so foaming the joints is excluded");

const STONEWORK: Part = Part::Fixed("Stone");
const FALL: Part = Part::Of(|| Falls::Fall.key());
const COURSE: Part = Part::Of(|| Courses::Course.key());
const OF_FALL: Part = Part::Of(|| Courses::CourseFall.key());

const OF_COURSE: RowByRow<Courses> = RowByRow::new(&[&BidLine {
    section: STONEWORK,
    zone: Some(OF_FALL),
    ..BidLine::of_each_row(
        &[Part::Fixed("Stone: "), COURSE],
        &[
            OF_FALL,
            Part::Fixed(", "),
            COURSE,
            Part::Fixed(": stone, set"),
        ],
        Counted::Bought(&STONE, Some(&SETTING)),
    )
}]);

const BESIDE: RowByRow<Falls> = RowByRow::new(&[
    &beside(
        &[Part::Fixed("Gap fill: "), FALL],
        &[FALL, Part::Fixed(": gaps filled")],
        Counted::Bought(&GAP_FILL, Some(&FILLING)),
    ),
    &beside(
        &[Part::Fixed("Bedding: "), FALL],
        &[FALL, Part::Fixed(": bedding under the stone")],
        Counted::Bought(&BEDDING, Some(&PLACING)),
    ),
    &beside(
        &[Part::Fixed("Foam: "), FALL],
        &[FALL, Part::Fixed(": joints foamed")],
        Counted::Bought(&FOAM, Some(&FOAMING)),
    ),
]);

/// A line of what lies beside the stone of a fall.
const fn beside(
    name: &'static [Part],
    says: &'static [Part],
    counted: Counted<Falls>,
) -> BidLine<Falls> {
    BidLine {
        section: STONEWORK,
        zone: Some(FALL),
        ..BidLine::of_each_row(name, says, counted)
    }
}

/// The lines of all falls: of each its courses, from the bottom up, then what lies beside
/// them.
#[derive(Debug)]
pub(in crate::takeoff) struct FallByFall;

impl GivesLines for FallByFall {
    fn lines(&self, graph: &mut Graph) -> Vec<Line> {
        OF_COURSE.make(graph);
        BESIDE.make(graph);
        let mut lines = Vec::new();
        for (fall, (first, count)) in order::rows_of(graph).into_iter().enumerate() {
            lines.extend(OF_COURSE.of_rows(graph, first..first + count));
            lines.extend(BESIDE.of_rows(graph, (count > 0).then_some(fall)));
        }
        lines
    }
}
