//! Liner and fabric: from the surface to be covered to panels, strips and rolls.
//!
//! A layer lines a basin or a fall. What it covers is worked out first, then the sheet
//! with its slack and edges, then how it is made up and ordered, then what goes with it.
//!
//! Always true: laps, slack and edges only add; a layer without a material in the book, or
//! without a work, is an open point and never silently free.

mod beside;
mod developed;
mod lines;
mod order;
mod pieces;
mod sheet;
mod strips;
mod trench;

use super::basis::Basis;
use super::grades::Graded;
use super::supply::{Amounts, Needed, Wanted, bought, named_or_usual, worked};
use crate::graph::prelude::*;
use crate::graph::{Column, ColumnId, Graph, Link, Text};
use crate::job::tables::{Falls, Layers, Materials};
use crate::takeoff::book::COUNTED;
use crate::takeoff::production::MATERIAL_KIND;
use crate::units::System;
use beside::{AllBeside, Beside, own_waste};
use sheet::FALL;
use strips::in_strips_or_rolls;

pub(super) use trench::cuts;

/// The lining: surfaces, sheets, strips, what is ordered, and anchor trenches.
pub const RULES: &[&[&dyn Rule]] = &[
    developed::RULES,
    pieces::RULES,
    sheet::RULES,
    strips::RULES,
    order::RULES,
    REACHES,
    trench::RULES,
];

/// A reach that was measured has a layer, because nothing else prices it.
const REACHES: &[&dyn Rule] = &[&Limit::<Falls>::open(
    "reach that no layer lines",
    Code::MissingValue,
    Falls::ReachLength.at(),
    || {
        let lined = FALL.sum(ONE_LAYER);
        Falls::ReachLength.above(0.0).and(lined.same_as(0.0))
    },
    "a reach is measured, and no layer lines it, so nothing prices it",
    "add a row to Liner and fabric that names this fall, or clear Reach length",
)];

/// Pieces of a fall that are cut to measure are not bought by the piece.
const BY_THE_PIECE: Limit<Layers> = Limit::fault(
    "pieces of a fall bought by the piece",
    Code::DimensionMismatch,
    Layers::LayerMaterial.at(),
    || {
        let counted = MATERIAL.of(MATERIAL_KIND).same_as(COUNTED);
        let in_pieces = in_strips_or_rolls().negate();
        Layers::LayerFall.filled().and(in_pieces).and(counted)
    },
    "the pieces of a fall are cut to measure, and the material is sold by the piece",
    "sell it by area in Materials, or order strips or rolls",
);

const ONE_LAYER: Step<Layers> = Step::arithmetic("one layer of a fall", System::number, || {
    when(FALL.found_none(), 0.0, 1.0)
});

const SHEET: Wording<Layers> = Wording::new("sheet in use", || {
    let own = Layers::LayerMaterial;
    either(own.blank(), "Liner", own.words())
});

/// The material of the sheet.
const MATERIAL: LookUp<Layers, Materials> = LookUp::new("sheet row", || SHEET.key());

/// Columns of the lines of the lining.
#[derive(Clone, Copy, Debug)]
pub struct LiningColumns {
    grade: Text<Layers>,
    sheet: Beside,
    beside: AllBeside,
    given: Given,
    system: System,
}

/// Input columns that decide which lines there are.
#[derive(Clone, Copy, Debug)]
struct Given {
    layer: ColumnId,
    basin: ColumnId,
    fall: ColumnId,
    seam: ColumnId,
    battens: ColumnId,
    boots: ColumnId,
    picking: ColumnId,
    test: ColumnId,
}

impl Given {
    fn of(basis: &Basis<'_>) -> Self {
        let id = |field: Layers| basis.inputs.id(field);
        Self {
            layer: id(Layers::Layer),
            basin: id(Layers::LayerBasin),
            fall: id(Layers::LayerFall),
            seam: id(Layers::Seam),
            battens: id(Layers::Battens),
            boots: id(Layers::Boots),
            picking: id(Layers::Picking),
            test: id(Layers::LeakTest),
        }
    }
}

/// Adds the lining, and what goes with it.
pub fn lining(graph: &mut Graph, basis: &Basis<'_>) -> LiningColumns {
    for rules in RULES {
        graph.make_list(rules);
    }
    let sheet = supplied(graph, basis);
    let beside = beside::beside(&mut graph.rules(), basis);
    let grade = Text::new(graph.read(Layers::GRADE_IN_USE));
    LiningColumns {
        grade,
        sheet,
        beside,
        given: Given::of(basis),
        system: basis.system,
    }
}

/// The sheet of each layer as it is bought and laid.
fn supplied(graph: &mut Graph, basis: &Basis<'_>) -> Beside {
    let at = basis.inputs.id(Layers::LayerMaterial);
    let area = Column::new(graph.read(order::AREA));
    let wanted = Wanted {
        what: "sheet",
        material: Link::new(graph.read(MATERIAL)),
        at,
        missing: "its material is not in the book, so the sheet is excluded",
        natural: (basis.system.area(), area),
    };
    let amounts = Amounts {
        area: Some(area),
        each: Some(Column::new(graph.read(order::PIECES))),
        ..Amounts::default()
    };
    let laid = Amounts {
        area: Some(Column::new(graph.read(order::LAID))),
        ..Amounts::default()
    };
    let bought = bought(&mut graph.rules(), basis, &wanted, &amounts);
    graph.make(&BY_THE_PIECE);
    let rules = &mut graph.rules();
    let own = basis.inputs.words(Layers::LayerWork);
    let work = named_or_usual(rules, "laying", Some(own), "Lay sheet");
    let needed = Needed {
        what: "laying",
        work,
        at: own.id,
        missing: "its work is not in the book, so the hours of laying are excluded",
    };
    Beside {
        quantity: bought.quantity,
        amount: Some(bought.amount),
        unit: Some(bought.unit),
        material: Some(bought.material),
        waste: Some(own_waste(rules, basis, "sheet", &bought)),
        work: Some((work, worked(rules, basis, &needed, &laid))),
    }
}
