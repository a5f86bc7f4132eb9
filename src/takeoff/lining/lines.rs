//! Lines of the lining, row by row: what is done before a sheet is laid, the sheet, what
//! goes with it, the test.
//!
//! Always true: every layer has a line for its sheet; all else has one only where its
//! measure was filled in.

use super::beside::{BATTENS, BOOTS, FITTING, FIXING, PICKING, TAPE, TESTING};
use super::order::{LAYING, SHEET};
use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::Layers;
use crate::takeoff::bill::{BidLine, Counted, Part, RowByRow};
use crate::takeoff::written::{filled, says};

const NAME: Part = Part::Of(|| Layers::Layer.key());
const LINED: Part = Part::FirstOf(|| Layers::LayerBasin.key(), || Layers::LayerFall.key());

/// Lines, in the order of the rows.
pub(in crate::takeoff) const LINES: RowByRow<Layers> = RowByRow::new(&[
    &line(
        |graph, row| says(graph, Layers::Picking, row, "yes"),
        &[Part::Fixed("Pick subgrade: "), NAME],
        &[NAME, Part::Fixed(": pick the ground clean")],
        Counted::Done(&PICKING),
    ),
    &line(
        |_, _| true,
        &[Part::Fixed("Sheet: "), NAME],
        &[NAME, Part::Fixed(": lining of "), LINED],
        Counted::Bought(&SHEET, Some(&LAYING)),
    ),
    &line(
        |graph, row| says(graph, Layers::Seam, row, "taped"),
        &[Part::Fixed("Seam tape: "), NAME],
        &[NAME, Part::Fixed(": tape the seams")],
        Counted::Bought(&TAPE, None),
    ),
    &line(
        |graph, row| filled(graph, Layers::Battens, row),
        &[Part::Fixed("Battens: "), NAME],
        &[NAME, Part::Fixed(": battens along walls")],
        Counted::Bought(&BATTENS, Some(&FIXING)),
    ),
    &line(
        |graph, row| filled(graph, Layers::Boots, row),
        &[Part::Fixed("Boots: "), NAME],
        &[NAME, Part::Fixed(": boots at penetrations")],
        Counted::Bought(&BOOTS, Some(&FITTING)),
    ),
    &line(
        |graph, row| says(graph, Layers::LeakTest, row, "yes"),
        &[Part::Fixed("Leak test: "), NAME],
        &[NAME, Part::Fixed(": fill, watch and test before trimming")],
        Counted::Done(&TESTING),
    ),
]);

/// A line of a layer: when it arises, its name, what it is, what it counts.
const fn line(
    arises: fn(&Graph, usize) -> bool,
    name: &'static [Part],
    says: &'static [Part],
    counted: Counted<Layers>,
) -> BidLine<Layers> {
    BidLine {
        arises,
        section: Part::Fixed("Liner and fabric"),
        zone: Some(LINED),
        ..BidLine::of_each_row(name, says, counted)
    }
}
