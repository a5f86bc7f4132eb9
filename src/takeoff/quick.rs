//! Figures of the quick page: what the cells of the rows made from it follow.
//!
//! Each is worked out once for every unit that a heading asks for.

use super::book::factor;
use super::inputs::AllInputs;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Cell, Column, ColumnId, Graph, Table, Term, Text, TextExpr, either, highest, when,
};
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
    pub(super) fn followed(
        &mut self,
        graph: &mut Graph,
        inputs: &AllInputs,
        follows: Follows,
        unit: Unit,
    ) -> Cell {
        let column = match follows {
            Follows::Figure(figure) => self.number(graph, inputs, figure, unit),
            Follows::Words(words) => self.word(graph, inputs, words),
        };
        column.at(0)
    }

    fn number(
        &mut self,
        graph: &mut Graph,
        inputs: &AllInputs,
        figure: Figure,
        unit: Unit,
    ) -> ColumnId {
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
        let column = rules.step(&name, unit, &sources::QUICK, term(inputs, figure));
        self.numbers.push((figure, unit, column));
        column.id
    }

    fn word(&mut self, graph: &mut Graph, inputs: &AllInputs, words: QuickWords) -> ColumnId {
        if let Some((_, column)) = self.words.iter().find(|(made, _)| *made == words) {
            return column.id;
        }
        let (name, own, usual) = match words {
            QuickWords::Shape => ("shape in use", Q::QuickShape, SHAPES[0]),
            QuickWords::Soil => ("soil in use", Q::QuickSoil, ""),
            QuickWords::Grade => ("grade in use", Q::QuickGrade, GRADES[1]),
        };
        let own = inputs.words(own);
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
fn term(inputs: &AllInputs, figure: Figure) -> Term<Q> {
    let own = |key: Q, usual: Factor| inputs.number(key).or(factor(inputs, usual));
    let key = |key: Q| inputs.number(key);
    match figure {
        Figure::Key(own) => key(own).into(),
        Figure::Width => key(Q::QuickWidth).or(key(Q::QuickLength)),
        Figure::SideSlope => own(Q::QuickSlope, Factor::QuickSlope),
        Figure::BuildUp => factor(inputs, Factor::QuickBuildUp),
        Figure::ShelfWidth => own(Q::QuickShelfWidth, Factor::QuickShelf),
        Figure::SedimentDepth => mean_of_probes(inputs),
        Figure::GravelSide => side_of_square(inputs),
        Figure::GravelDepth => own(Q::QuickGravelDepth, Factor::QuickGravelDepth),
        Figure::Rise => rise(inputs),
        Figure::Face => own(Q::QuickFace, Factor::QuickFace),
        Figure::StoneHeight => stone_height(inputs),
        Figure::Setback => factor(inputs, Factor::QuickSetback),
        Figure::StreamWidth => own(Q::QuickStreamWidth, Factor::QuickStreamWidth),
        Figure::StreamDepth => factor(inputs, Factor::QuickStreamSide),
    }
}

/// The mean of those probes that were taken.
fn mean_of_probes(inputs: &AllInputs) -> Term<Q> {
    let probes = [Q::QuickProbe1, Q::QuickProbe2, Q::QuickProbe3];
    let [first, second, third] = probes.map(|probe| inputs.number(probe));
    let taken = |probe: Column<Q>| when(probe.blank(), 0.0, 1.0);
    let count = taken(first) + taken(second) + taken(third);
    when(
        count.clone().above(0.0),
        (first + second + third) / count,
        0.0,
    )
}

/// The side of a square with the gravel bed's area; the root is taken of square feet.
fn side_of_square(inputs: &AllInputs) -> Term<Q> {
    let area = inputs.number(Q::QuickGravelArea).here();
    area.number_in(FT2).root().counted_in(FT)
}

/// The height of stone with which the courses make the rise: each course but the last
/// rises by its height less what the next is bedded below its top.
fn stone_height(inputs: &AllInputs) -> Term<Q> {
    let courses = inputs.number(Q::QuickCourses).or(1.0);
    let bedded = factor(inputs, Factor::NextBed) * (courses.clone() - 1.0);
    (rise(inputs) + bedded) / courses
}

/// The rise of the fall: its own, or from the rod at its top down to that at its foot.
fn rise(inputs: &AllInputs) -> Term<Q> {
    let [foot, top] = [Q::QuickFootRod, Q::QuickTopRod].map(|rod| inputs.number(rod));
    let by_rods = when(
        foot.filled().and(top.filled()),
        highest(0.0, foot - top),
        0.0,
    );
    inputs.number(Q::QuickRise).or(by_rods)
}

/// Limits: by the rods the top of the fall stands above its foot, and by as much as the
/// rise that is written.
pub(super) fn rods_of_fall(graph: &mut Graph, inputs: &AllInputs, system: System) {
    let own = inputs.number(Q::QuickRise);
    let [foot, top] = [Q::QuickFootRod, Q::QuickTopRod].map(|rod| inputs.number(rod));
    let both = || foot.filled().and(top.filled());
    let mut rules = graph.rules::<Q>();
    rules.limit(
        "top of the fall by rods",
        both().and(foot.here().above(top).negate()),
        Breach::fault(
            Code::ShapeImpossible,
            top.id,
            "by its rods the top of the fall is not above its foot",
            "check both readings: the higher the place, the smaller the reading",
        ),
    );
    let apart = (own - (foot - top)).round_in(system.length(), 2);
    let above = foot.here().above(top);
    rules.limit(
        "rise of the fall against rods",
        own.filled()
            .and(both())
            .and(above)
            .and(apart.differs_from(0.0)),
        Breach::fault(
            Code::ConflictingValues,
            own.id,
            "the rise of the fall and its two rod readings disagree",
            "keep the rise, or the two readings",
        ),
    );
}

/// Adds, for each table in which rows of the quick page stand beside the job's own, that
/// they may say the same: an open point.
pub(super) fn beside(graph: &mut Graph, inputs: &AllInputs, tables: &[&str]) {
    let mut rules = graph.rules::<Q>();
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
                inputs.id(at),
                message,
                "give the detailed row the name of the quick one to replace it, or clear the keys here that it comes from",
            ),
        );
    }
}
