//! The sheet of each layer: what it covers, with slack, and its edge on every side.

use super::developed::Developed;
use super::pieces::Pieces;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Link, Rules, Term, highest, when};
use crate::job::tables::{Basins, Falls, Layers};
use crate::parameters::Factor;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::units::{EACH, PERCENT};

/// The basin that a layer lines, or the fall.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lined {
    pub(super) basin: Link<Layers, Basins>,
    pub(super) fall: Link<Layers, Falls>,
}

/// One sheet of each layer, as it is laid.
#[derive(Clone, Copy, Debug)]
pub struct Sheet {
    /// How many times it is laid.
    pub times: Column<Layers>,
    /// Length; of a fall that of all its pieces one below the other.
    pub length: Column<Layers>,
    /// Width; of a fall that of its widest piece.
    pub width: Column<Layers>,
    /// Area of one; of a fall that of its pieces.
    pub area: Column<Layers>,
    /// Area of the largest piece: the sheet itself, or the largest piece of a fall.
    pub largest: Column<Layers>,
}

/// An anchor trench: from the rim, its depth and its width.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trench {
    pub(super) set_back: Column<Layers>,
    pub(super) depth: Column<Layers>,
    pub(super) width: Column<Layers>,
}

/// Finds what each layer lines.
///
/// Limit: that is one basin or one fall.
pub(super) fn what_it_lines(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>) -> Lined {
    let pool = basis.inputs.words(Layers::LayerBasin);
    let fall = basis.inputs.words(Layers::LayerFall);
    rules.limit(
        "layer that lines nothing",
        pool.blank().and(fall.blank()),
        Breach::fault(
            Code::MissingValue,
            pool.id,
            "this layer lines nothing",
            "name the basin or the fall that it lines",
        ),
    );
    rules.limit(
        "layer that lines two things",
        pool.blank().negate().and(fall.blank().negate()),
        Breach::fault(
            Code::ConflictingValues,
            pool.id,
            "one layer cannot line a basin and a fall",
            "name only one of them, and give the other a layer of its own",
        ),
    );
    Lined {
        basin: rules.link("basin row", pool),
        fall: rules.link("fall row", fall),
    }
}

/// Adds the measures of the anchor trench in use.
pub(super) fn trench_in_use(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>) -> Trench {
    let unit = basis.system.length();
    let mut in_use = |name: &str, own: Layers, usual: Factor| {
        let measure = basis.inputs.number(own).or(factor(basis.inputs, usual));
        rules.step(name, unit, &sources::ANCHOR_TRENCH, measure)
    };
    Trench {
        set_back: in_use("trench set-back in use", Layers::SetBack, Factor::SetBack),
        depth: in_use(
            "trench depth in use",
            Layers::TrenchDepth,
            Factor::TrenchDepth,
        ),
        width: in_use(
            "trench width in use",
            Layers::TrenchWidth,
            Factor::TrenchWidth,
        ),
    }
}

/// Adds one sheet of each layer: the developed surface with slack, and an edge on every
/// side; of a fall its pieces with slack.
pub(super) fn sheet(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    (developed, pieces): (&Developed, &Pieces),
    lines: Lined,
    trench: &Trench,
) -> Sheet {
    let (inputs, unit) = (basis.inputs, basis.system.length());
    let times = inputs.number(Layers::LayerTimes).or(1.0);
    let times = rules.from_job("times in use", EACH, times);
    let slack = inputs.number(Layers::Slack);
    let slack = slack.or(factor(inputs, Factor::Slack));
    let slack = rules.step("slack in use", PERCENT, &sources::SLACK, slack);
    let edge = edge(rules, basis, lines, trench);
    let wider = 2.0 * (edge - factor(inputs, Factor::FallSide));
    let wider = when(lines.fall.found_none(), 0.0, wider);
    let wider = rules.step("wider than the fall's", unit, &sources::FALL_LINER, wider);
    let covers = Covers {
        rows: lines,
        slack,
        edge,
        wider,
    };
    let taped =
        |field: Layers, worked: Column<Basins>| inputs.number(field).or(lines.basin.of(worked));
    let along = taped(Layers::SheetLength, developed.length);
    let across = taped(Layers::SheetWidth, developed.width);
    let length = covers.side(along, lines.fall.of(pieces.downhill));
    let length = rules.step("length of one sheet", unit, &sources::DEVELOPED, length);
    let widest = lines.fall.of(pieces.widest) + wider;
    let width = covers.side(across, widest);
    let width = rules.step("width of one sheet", unit, &sources::DEVELOPED, width);
    let (area, largest) = covers.areas(rules, basis, pieces, (length, width));
    Sheet {
        times,
        length,
        width,
        area,
        largest,
    }
}

/// What turns a surface into a sheet.
struct Covers {
    rows: Lined,
    slack: Column<Layers>,
    edge: Column<Layers>,
    wider: Column<Layers>,
}

impl Covers {
    /// One measure of a sheet: of a basin with slack and an edge at both ends, of a fall
    /// with slack, since its pieces have their edges already.
    fn side(&self, of_basin: Term<Layers>, of_fall: Term<Layers>) -> Term<Layers> {
        let slack = 1.0 + self.slack.here();
        let basin = of_basin * slack.clone() + 2.0 * self.edge;
        when(self.rows.fall.found_none(), basin, of_fall * slack)
    }

    /// Area of one sheet, and of its largest piece.
    fn areas(
        &self,
        rules: &mut Rules<'_, Layers>,
        basis: &Basis<'_>,
        pieces: &Pieces,
        (length, width): (Column<Layers>, Column<Layers>),
    ) -> (Column<Layers>, Column<Layers>) {
        let (fall, unit) = (self.rows.fall, basis.system.area());
        let of_basin = length * width;
        let wider = fall.of(pieces.downhill) * self.wider;
        let wider = rules.geometry("more at the sides", unit, wider);
        let slack = 1.0 + self.slack.here();
        let mut area = |name: &str, of_pieces: Term<Layers>| {
            let of_fall = of_pieces * slack.clone() * slack.clone();
            let area = when(fall.found_none(), of_basin.clone(), of_fall);
            rules.step(name, unit, &sources::DEVELOPED, area)
        };
        // The side of the largest piece alone is not known here: all of it is counted.
        let most = highest(wider, 0.0);
        (
            area("area of one sheet", fall.of(pieces.all) + wider),
            area("largest piece", fall.of(pieces.largest) + most),
        )
    }
}

/// How far the sheet runs beyond the rim: up and over it, up a wall, or to the anchor
/// trench, down its near wall and across its floor.
fn edge(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    lines: Lined,
    trench: &Trench,
) -> Column<Layers> {
    let (inputs, unit) = (basis.inputs, basis.system.length());
    let kind = inputs.words(Layers::EdgeKind);
    let of = |which: Factor| factor::<Layers>(inputs, which);
    let over = when(
        lines.fall.found_none(),
        of(Factor::EdgeOver),
        of(Factor::FallSide),
    );
    let usual = when(kind.is("wall"), of(Factor::EdgeWall), over);
    let own = inputs.number(Layers::EdgeWidth).or(usual);
    let into = trench.set_back + trench.depth + trench.width;
    let edge = when(kind.is("anchor trench"), into, own);
    rules.from_job("edge in use", unit, edge)
}
