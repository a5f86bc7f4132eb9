//! Figures of the quick page: what the cells of the rows made from it follow.
//!
//! Each is worked out once for every unit that a heading asks for.

use crate::graph::prelude::*;
use crate::graph::{Breach, Cell, Column, ColumnId, Graph, Table, Text, TextExpr};
use crate::job::quick::{Figure, Follows, QuickWords};
use crate::job::tables::{Basins, GRADES, Layers, Loose, QuickMeasure as Q, SHAPES};
use crate::parameters::Factor;
use crate::sources;
use crate::units::{FT, FT2, ONE, System, Unit};

/// The figures made so far.
#[derive(Debug, Default)]
pub(super) struct Figures {
    numbers: Vec<(Figure, Unit, Column<Q>)>,
    words: Vec<(QuickWords, Text<Q>)>,
}

impl Figures {
    /// The cell that a cell in a unit follows, made where it is not there yet.
    pub(super) fn followed(&mut self, graph: &mut Graph, follows: Follows, unit: Unit) -> Cell {
        let column = match follows {
            Follows::Figure(figure) => self.number(graph, figure, unit),
            Follows::Words(words) => self.word(graph, words),
        };
        column.at(0)
    }

    fn number(&mut self, graph: &mut Graph, figure: Figure, unit: Unit) -> ColumnId {
        let known = |made: &&(Figure, Unit, Column<Q>)| made.0 == figure && made.1 == unit;
        if let Some((_, _, column)) = self.numbers.iter().find(known) {
            return column.id;
        }
        let again = self.numbers.iter().any(|(made, ..)| *made == figure);
        let name = match (name(figure), again) {
            (name, true) => format!("{name} in {unit}"),
            (name, false) => name.to_owned(),
        };
        let mut rules = graph.rules::<Q>();
        let column = rules.step(&name, unit, &sources::QUICK, term(figure));
        self.numbers.push((figure, unit, column));
        column.id
    }

    fn word(&mut self, graph: &mut Graph, words: QuickWords) -> ColumnId {
        if let Some((_, column)) = self.words.iter().find(|(made, _)| *made == words) {
            return column.id;
        }
        let (name, own, usual) = match words {
            QuickWords::Shape => ("shape in use", Q::QuickShape, SHAPES[0]),
            QuickWords::Soil => ("soil in use", Q::QuickSoil, ""),
            QuickWords::Grade => ("grade in use", Q::QuickGrade, GRADES[1]),
        };
        let usual = TextExpr::Fixed(usual.to_owned());
        let text = either(own.blank(), usual, own.words());
        let column = graph.rules::<Q>().word_step(name, text);
        self.words.push((words, column));
        column.id
    }
}

/// The name of a figure: that of its key, or of what it stands for.
fn name(figure: Figure) -> &'static str {
    match figure {
        Figure::Key(key) => in_rows(key),
        Figure::Width => "width of the pool",
        Figure::SideSlope => "side slope of the pool",
        Figure::BuildUp => "build-up of the pool",
        Figure::ShelfWidth => "width of the shelf",
        Figure::SedimentDepth => "mean of the probes",
        Figure::GravelSide => "side of the gravel bed",
        Figure::GravelDepth => "depth of the gravel bed",
        Figure::Rise => "rise of the fall",
        Figure::Face => "face of a course",
        Figure::StoneHeight => "height of a stone",
        Figure::Setback => "setback of a course",
        Figure::StreamWidth => "width of the stream",
        Figure::StreamDepth => "side of the stream",
    }
}

/// What a key is called among the figures.
fn in_rows(key: Q) -> &'static str {
    match key {
        Q::QuickLength => "length of the pool",
        Q::QuickDepth => "depth of the pool",
        Q::QuickRimRod => "rod on the rim",
        Q::QuickLowRimRod => "rod on the lowest rim",
        Q::QuickFloorRod => "rod on the floor",
        Q::QuickWaterRod => "rod on the water",
        Q::QuickSedimentArea => "area of sediment",
        Q::QuickStanding => "water to pump out",
        Q::QuickInflow => "water that runs in",
        Q::QuickShelfDepth => "depth of the shelf",
        Q::QuickGravelArea => "area of the gravel bed",
        Q::QuickFootRod => "rod at the foot of the fall",
        Q::QuickFlow => "flow over the fall",
        Q::QuickStream => "length of the stream",
        Q::QuickStone => "size of the largest stone",
        Q::QuickSpill => "width of the spill",
        Q::QuickCarry => "length of the way in",
        Q::QuickToWater => "length of the water line",
        Q::QuickToPower => "length of the power line",
        _ => "another key",
    }
}

/// What a figure comes to.
fn term(figure: Figure) -> Term<Q> {
    match figure {
        Figure::Key(own) => own.here(),
        Figure::Width => Q::QuickWidth.or(Q::QuickLength),
        Figure::SideSlope => Q::QuickSlope.or(Factor::QuickSlope),
        Figure::BuildUp => Factor::QuickBuildUp.into(),
        Figure::ShelfWidth => Q::QuickShelfWidth.or(Factor::QuickShelf),
        Figure::SedimentDepth => mean_of_probes(),
        // The root is taken of square feet.
        Figure::GravelSide => {
            let area = Q::QuickGravelArea.here().number_in(FT2);
            area.root().counted_in(FT)
        }
        Figure::GravelDepth => Q::QuickGravelDepth.or(Factor::QuickGravelDepth),
        Figure::Rise => rise(),
        Figure::Face => Q::QuickFace.or(Factor::QuickFace),
        Figure::StoneHeight => stone_height(),
        Figure::Setback => Factor::QuickSetback.into(),
        Figure::StreamWidth => Q::QuickStreamWidth.or(Factor::QuickStreamWidth),
        Figure::StreamDepth => Factor::QuickStreamSide.into(),
    }
}

/// The mean of those probes that were taken.
fn mean_of_probes() -> Term<Q> {
    let [first, second, third] = [Q::QuickProbe1, Q::QuickProbe2, Q::QuickProbe3];
    let taken = |probe: Q| when(probe.blank(), 0.0, 1.0);
    let count = taken(first) + taken(second) + taken(third);
    when(
        count.clone().above(0.0),
        (first + second + third) / count,
        0.0,
    )
}

/// The height of stone with which the courses make the rise: each course but the last
/// rises by its height less what the next is bedded below its top.
fn stone_height() -> Term<Q> {
    let courses = Q::QuickCourses.or(1.0);
    let bedded = Factor::NextBed * (courses.clone() - 1.0);
    (rise() + bedded) / courses
}

/// The rise of the fall: its own, or from the rod at its top down to that at its foot.
fn rise() -> Term<Q> {
    let by_rods = when(
        both_rods(),
        highest(0.0, Q::QuickFootRod - Q::QuickTopRod),
        0.0,
    );
    Q::QuickRise.or(by_rods)
}

/// Whether both ends of the fall were read.
fn both_rods() -> Condition {
    Q::QuickFootRod.filled().and(Q::QuickTopRod.filled())
}

/// By the rods the top of the fall stands above its foot, and by as much as the rise that is
/// written.
pub const RULES: &[&dyn Rule] = &[
    &Limit::<Q>::fault(
        "top of the fall by rods",
        Code::ShapeImpossible,
        Q::QuickTopRod.at(),
        || both_rods().and(Q::QuickFootRod.above(Q::QuickTopRod).negate()),
        "by its rods the top of the fall is not above its foot",
        "check both readings: the higher the place, the smaller the reading",
    ),
    &Limit::<Q>::fault(
        "rise of the fall against rods",
        Code::ConflictingValues,
        Q::QuickRise.at(),
        || {
            let apart = Q::QuickRise - (Q::QuickFootRod - Q::QuickTopRod);
            Q::QuickRise
                .filled()
                .and(both_rods())
                .and(Q::QuickFootRod.above(Q::QuickTopRod))
                .and(apart.round_in(System::length, 2).differs_from(0.0))
        },
        "the rise of the fall and its two rod readings disagree",
        "keep the rise, or the two readings",
    ),
];

/// Adds, for each table in which rows of the quick page stand beside the job's own, that
/// they may say the same: an open point.
pub(super) fn beside(graph: &mut Graph, tables: &[&str]) {
    for table in tables {
        let (at, message) = match *table {
            Basins::NAME => (
                Q::QuickLength,
                "the pool or the filter of this page stands beside rows of Basins that may say the same",
            ),
            Layers::NAME => (
                Q::QuickLength,
                "linings of this page stand beside rows of Liner and fabric that may say the same",
            ),
            Loose::NAME => (
                Q::QuickGravelArea,
                "the gravel bed of this page stands beside rows of Gravel and loose stone that may say the same",
            ),
            _ => (
                Q::QuickRise,
                "the fall of this page stands beside rows of Waterfalls and streams that may say the same",
            ),
        };
        let at = graph.read(at);
        let mut rules = graph.rules::<Q>();
        let flag = rules.brought(
            &format!("beside rows of {table}"),
            ONE,
            &sources::JOB,
            vec![1.0],
        );
        rules.limit(
            &format!("quick rows beside rows of {table}"),
            flag.here().above(0.0),
            Breach::open(
                Code::QuickBeside,
                at,
                message,
                "give the detailed row the name of the quick one to replace it, or clear the keys here that it comes from",
            ),
        );
    }
}
