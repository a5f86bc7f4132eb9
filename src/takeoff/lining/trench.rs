//! Anchor trenches: dug once for all layers of a basin or a fall, and filled again.

use super::developed::{Developed, beside_the_rim};
use super::pieces::{Pieces, beyond_those_before};
use super::sheet::{Lined, Trench};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Column, ColumnId, Condition, Graph, Link, Piece, Rules, Table, only, when,
};
use crate::job::Fields;
use crate::job::tables::{Basins, Falls, Layers};
use crate::parameters::Factor;
use crate::tables::Factors;
use crate::takeoff::basis::Basis;
use crate::takeoff::book::factor;
use crate::takeoff::cuts::Cut;
use crate::takeoff::line::fixed;

/// The anchor trench of each row of a table: what is dug, and what is filled again.
#[derive(Debug)]
pub struct Anchored<P> {
    /// Dug, in the bank.
    pub dig: Column<P>,
    /// Filled again, compacted.
    pub backfill: Column<P>,
}

impl<P> Clone for Anchored<P> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<P> Copy for Anchored<P> {}

/// Whether a layer ends in an anchor trench.
fn is_anchored(basis: &Basis<'_>) -> Condition {
    basis.inputs.words(Layers::EdgeKind).is("anchor trench")
}

/// Adds the anchor trenches: along the middle of the trench × depth × width; along a fall
/// on both sides of it.
///
/// Layers of one basin lie in one trench, the largest that any of them asks for.
pub(super) fn trenches(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (developed, pieces): (&Developed, &Pieces),
    lines: Lined,
    trench: &Trench,
) -> (Anchored<Basins>, Anchored<Falls>) {
    let system = basis.system;
    let mut rules = graph.rules::<Layers>();
    let out = trench.set_back + trench.width / 2.0;
    let round = beside_the_rim(lines.basin, developed, out);
    let sides = 2.0 * lines.fall.of(pieces.downhill);
    let along = when(lines.fall.found_none(), round, sides);
    let along = when(is_anchored(basis), along, 0.0);
    let along = rules.geometry("along the trench", system.length(), along);
    let volume = along * trench.depth * trench.width;
    let volume = rules.geometry("trench volume", system.volume(), volume);
    let unit = system.volume();
    let in_basin = ("trench of the basin", volume, unit);
    let in_basin = beyond_those_before(&mut rules, in_basin, lines.basin);
    let in_fall = ("trench of the fall", volume, unit);
    let in_fall = beyond_those_before(&mut rules, in_fall, lines.fall);
    published_least(&mut rules, basis, trench);
    measures_not_used(&mut rules, basis);
    deep_trench(&mut rules, basis, trench);
    (
        anchored(graph, basis, lines.basin, in_basin),
        anchored(graph, basis, lines.fall, in_fall),
    )
}

/// The trench of each basin or fall.
fn anchored<P: Table>(
    graph: &mut Graph,
    basis: &Basis<'_>,
    link: Link<Layers, P>,
    volume: Column<Layers>,
) -> Anchored<P> {
    let system = basis.system;
    let mut rules = graph.rules::<P>();
    let dig = link.sum(volume);
    let dig = rules.geometry("anchor trench, dig", system.bank(), dig);
    let backfill = link.sum(volume);
    Anchored {
        dig,
        backfill: rules.geometry("anchor trench, backfill", system.compacted(), backfill),
    }
}

/// What is cut: one anchor trench for each basin and each fall that has one.
pub(crate) fn cuts(graph: &mut Graph) -> Vec<Cut> {
    let mut cuts = cuts_of(graph, Layers::LayerBasin, Basins::Basin);
    cuts.extend(cuts_of(graph, Layers::LayerFall, Falls::Fall));
    cuts
}

/// The trench of each row of a table that a layer with an anchor trench names; its grade is
/// that of the first such layer.
fn cuts_of<W: Fields>(graph: &mut Graph, named_by: Layers, whole: W) -> Vec<Cut> {
    let (named_by, whole) = (graph.read(named_by), graph.read(whole));
    let edge = graph.read(Layers::EdgeKind);
    let grade = graph.read(named::<Layers>("grade in use"));
    let dig = graph.read(named::<W>("anchor trench, dig"));
    let backfill = graph.read(named::<W>("anchor trench, backfill"));
    let cut = |row: usize| {
        let name = graph.written(whole.at(row));
        let is_first = |layer: &usize| {
            let says = |column: ColumnId, words: &str| {
                let written = graph.written(column.at(*layer));
                written.eq_ignore_ascii_case(words)
            };
            says(named_by, name) && says(edge, "anchor trench")
        };
        let layer = (0..graph.rows(named_by)).find(is_first)?;
        (!name.is_empty()).then(|| Cut {
            name: vec![fixed("anchor trench, "), Piece::Cell(whole.at(row))],
            dig: dig.at(row),
            backfill: Some(backfill.at(row)),
            grade: grade.at(layer),
        })
    };
    (0..graph.rows(whole)).filter_map(cut).collect()
}

/// Limits: an anchor trench is at least as large, and as far from the rim, as published.
fn published_least(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>, trench: &Trench) {
    let inputs = basis.inputs;
    let measures = [
        (
            "set-back",
            Layers::SetBack,
            trench.set_back,
            Factor::SetBack,
        ),
        (
            "depth",
            Layers::TrenchDepth,
            trench.depth,
            Factor::TrenchDepth,
        ),
        (
            "width",
            Layers::TrenchWidth,
            trench.width,
            Factor::TrenchWidth,
        ),
    ];
    for (what, own, in_use, which) in measures {
        let (published, ..) = inputs.factors.rows[which as usize];
        let short = in_use.here().below(only::<Layers, Factors>(published));
        rules.limit(
            &format!("trench {what} below the published least"),
            is_anchored(basis).and(short),
            Breach::warning(
                Code::OutOfRange,
                inputs.id(own),
                "the anchor trench is smaller, or nearer to the rim, than the published least",
                "make it larger, or ask whoever designed it (NRCS Arizona specification 521A)",
            ),
        );
    }
}

/// Limit: no measure of an edge is written that the kind of edge does not use.
fn measures_not_used(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>) {
    let inputs = basis.inputs;
    let filled = |field: Layers| inputs.number(field).filled();
    let of_trench = filled(Layers::SetBack)
        .or(filled(Layers::TrenchDepth))
        .or(filled(Layers::TrenchWidth));
    let without = is_anchored(basis).negate().and(of_trench);
    let beside = is_anchored(basis).and(filled(Layers::EdgeWidth));
    rules.limit(
        "edge measure that is not used",
        without.or(beside),
        Breach::warning(
            Code::ConflictingValues,
            inputs.id(Layers::EdgeKind),
            "a measure of the edge is written that this kind of edge does not use",
            "an anchor trench takes its three measures, every other edge takes Edge width",
        ),
    );
}

/// A caution: a trench that is deep enough to bury whoever lays the sheet in it.
fn deep_trench(rules: &mut Rules<'_, Layers>, basis: &Basis<'_>, trench: &Trench) {
    let from = factor(basis.inputs, Factor::LayBackFrom);
    let is_deep = trench.depth.here().at_least(from);
    rules.limit(
        "deep anchor trench",
        is_anchored(basis).and(is_deep),
        Breach::caution(
            Code::DeepCut,
            basis.inputs.id(Layers::TrenchDepth),
            "an anchor trench is deep enough to bury people",
            "plan protection from cave-in with a competent person; local codes decide (29 CFR 1926 Subpart P)",
        ),
    );
}
