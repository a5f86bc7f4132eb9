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

pub use developed::Developed;
pub use order::Ordered;
pub use pieces::Pieces;
pub use sheet::Sheet;
pub use strips::Strips;
pub use trench::Anchored;

use super::basis::Basis;
use super::falls::FallColumns;
use super::grades::grade_in_use;
use super::supply::{Amounts, Needed, Wanted, bought, named_or_usual, worked};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, ColumnId, Graph, Link, Rules, Text, when};
use crate::job::tables::{Basins, Falls, Layers, Materials};
use crate::takeoff::book::COUNTED;
use crate::units::{ONE, System};
pub(super) use trench::cuts;

use beside::{AllBeside, Beside, own_waste};
use strips::is_ordered_as;

/// Columns of the lining.
#[derive(Clone, Copy, Debug)]
pub struct LiningColumns {
    /// The surface of basins, as a sheet lies on it.
    pub developed: Developed,
    /// The pieces of falls.
    pub pieces: Pieces,
    /// One sheet of each layer, with slack and edges.
    pub one: Sheet,
    /// Strips, rolls and seams.
    pub strips: Strips,
    /// What is ordered and what is laid.
    pub ordered: Ordered,
    /// Anchor trenches of basins.
    pub basin_trench: Anchored<Basins>,
    /// Anchor trenches of falls.
    pub fall_trench: Anchored<Falls>,
    /// Row of the material of each layer.
    pub material: Link<Layers, Materials>,
    /// How the measures of each layer were come by.
    pub grade: Text<Layers>,
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

/// Adds the lining: surfaces, sheets, strips, what is ordered, and what goes with it.
pub fn lining(graph: &mut Graph, basis: &Basis<'_>, falls: &FallColumns) -> LiningColumns {
    let developed = developed::developed(graph, basis);
    let pieces = pieces::pieces(graph, basis, &falls.courses);
    let covered = (&developed, &pieces);
    let mut rules = graph.rules::<Layers>();
    let lines = sheet::what_it_lines(&mut rules, basis);
    let trench = sheet::trench_in_use(&mut rules, basis);
    let one = sheet::sheet(&mut rules, basis, covered, lines, &trench);
    fall_limits(&mut rules, basis, &one);
    let strips = strips::strips(&mut rules, basis, &one);
    let own = basis.inputs.words(Layers::LayerMaterial);
    let material = named_or_usual(&mut rules, "sheet", Some(own), "Liner");
    let named = (lines, material);
    let ordered = order::ordered(graph, basis, named, (&one, &strips, &pieces));
    unlined_reach(graph, basis, lines);
    let (basin_trench, fall_trench) = trench::trenches(graph, basis, covered, lines, &trench);
    let mut rules = graph.rules::<Layers>();
    let sheet = supplied(&mut rules, basis, material, &ordered);
    let beside = beside::beside(&mut rules, basis, covered, lines, &strips);
    let usual = basis.wide.usual_grade;
    let grade = grade_in_use(&mut rules, basis.inputs, usual, Layers::LayerGrade);
    LiningColumns {
        developed,
        pieces,
        one,
        strips,
        ordered,
        basin_trench,
        fall_trench,
        material,
        grade,
        sheet,
        beside,
        given: Given::of(basis),
        system: basis.system,
    }
}

/// The sheet of each layer as it is bought and laid.
fn supplied(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    material: Link<Layers, Materials>,
    ordered: &Ordered,
) -> Beside {
    let at = basis.inputs.id(Layers::LayerMaterial);
    let wanted = Wanted {
        what: "sheet",
        material,
        at,
        missing: "its material is not in the book, so the sheet is excluded",
        natural: (basis.system.area(), ordered.area),
    };
    let amounts = Amounts {
        area: Some(ordered.area),
        each: Some(ordered.pieces),
        ..Amounts::default()
    };
    let bought = bought(rules, basis, &wanted, &amounts);
    by_the_piece(rules, basis, material);
    let own = basis.inputs.words(Layers::LayerWork);
    let work = named_or_usual(rules, "laying", Some(own), "Lay sheet");
    let needed = Needed {
        what: "laying",
        work,
        at: own.id,
        missing: "its work is not in the book, so the hours of laying are excluded",
    };
    let laid = Amounts {
        area: Some(ordered.laid),
        ..Amounts::default()
    };
    Beside {
        quantity: bought.quantity,
        amount: Some(bought.amount),
        unit: Some(bought.unit),
        material: Some(material),
        waste: Some(own_waste(rules, basis, "sheet", &bought)),
        work: Some((work, worked(rules, basis, &needed, &laid))),
    }
}

/// Limit: pieces of a fall that are cut to measure are not bought by the piece.
fn by_the_piece(
    rules: &mut Rules<'_, Layers>,
    basis: &Basis<'_>,
    material: Link<Layers, Materials>,
) {
    let inputs = basis.inputs;
    let whole = is_ordered_as(basis, "strips").or(is_ordered_as(basis, "rolls"));
    let of_fall = inputs.words(Layers::LayerFall).blank().negate();
    let counted = material.of(basis.production.material_kind).same_as(COUNTED);
    rules.limit(
        "pieces of a fall bought by the piece",
        of_fall.and(whole.negate()).and(counted),
        Breach::fault(
            Code::DimensionMismatch,
            inputs.id(Layers::LayerMaterial),
            "the pieces of a fall are cut to measure, and the material is sold by the piece",
            "sell it by area in Materials, or order strips or rolls",
        ),
    );
}

/// Limit: a reach that was measured has a layer, because nothing else prices it.
fn unlined_reach(graph: &mut Graph, basis: &Basis<'_>, lined: sheet::Lined) {
    let reach = basis.inputs.number(Falls::ReachLength);
    let one = when(lined.fall.found_none(), 0.0, 1.0);
    let mut rules = graph.rules::<Layers>();
    let one = rules.arithmetic("one layer of a fall", ONE, one);
    graph.rules::<Falls>().limit(
        "reach that no layer lines",
        reach
            .here()
            .above(0.0)
            .and(lined.fall.sum(one).same_as(0.0)),
        Breach::open(
            Code::MissingValue,
            reach.id,
            "a reach is measured, and no layer lines it, so nothing prices it",
            "add a row to Liner and fabric that names this fall, or clear Reach length",
        ),
    );
}

/// Limits: a fall has something to line, and no taped sheet, since it is lined in pieces.
fn fall_limits(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>, sheet: &Sheet) {
    let inputs = basis.inputs;
    let fall = inputs.words(Layers::LayerFall);
    let of_fall = fall.blank().negate();
    let taped = |field: Layers| inputs.number(field).filled();
    rules.limit(
        "taped sheet of a fall",
        of_fall
            .clone()
            .and(taped(Layers::SheetLength).or(taped(Layers::SheetWidth))),
        Breach::fault(
            Code::ConflictingValues,
            fall.id,
            "a fall is lined in pieces by course, and a taped sheet is written for it",
            "leave Sheet length and Sheet width blank for a fall",
        ),
    );
    rules.limit(
        "fall without anything to line",
        of_fall.and(sheet.area.here().above(0.0).negate()),
        Breach::open(
            Code::MissingValue,
            fall.id,
            "this fall has no course and no reach to line, so the layer counts nothing",
            "add its courses, or write its reach in Waterfalls and streams",
        ),
    );
}
