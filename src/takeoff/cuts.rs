//! Cuts beside the basins' own: pits of structures, shelves behind courses of stone, anchor
//! trenches. Each is dug in the job's usual soil.

use super::cut::Cut;
use super::{falls, job_wide, lining, structures};
use crate::graph::Piece;
use crate::graph::prelude::*;
use crate::sources;
use crate::tables::Cuts;
use crate::units::System;

/// All cuts, in building order.
pub const CUTS: Roster<Cuts, Cut> = Roster::new(|graph| {
    [
        structures::cuts(graph),
        falls::cuts(graph),
        lining::cuts(graph),
    ]
    .concat()
});

/// The earthwork of every cut: dig, loose and by weight, backfill.
pub const RULES: &[&dyn Rule] = &[&NAME, &DIG, &LOOSE, &WEIGHT, &BACKFILL, &FILL_BANK, &GRADE];

/// What is cut.
pub const NAME: Wording<Cuts> =
    Wording::gathered("cut", |graph| CUTS.words(graph, |cut| cut.name.clone())).naming_rows();

/// What is dug, in the bank.
pub const DIG: Step<Cuts> = Step::gathered("dig", System::bank, |graph| {
    CUTS.cells(graph, |cut| Some(cut.dig))
});

/// The same, loose.
pub const LOOSE: Step<Cuts> = Step::new("dig, loose", System::loose, &sources::SWELL, || {
    DIG * only(job_wide::LOOSE)
});

/// Its weight.
pub const WEIGHT: Step<Cuts> =
    Step::new("dig, weight", System::weight, &sources::UNIT_WEIGHT, || {
        let in_place = DIG.here().number_in(System::bank);
        in_place.counted_in(System::volume) * only(job_wide::WEIGHT)
    });

/// What is filled again.
pub const BACKFILL: Step<Cuts> = Step::gathered("backfill", System::compacted, |graph| {
    CUTS.cells(graph, |cut| cut.backfill)
});

/// The same as bank volume.
pub const FILL_BANK: Step<Cuts> = Step::new(
    "fill as bank volume",
    System::bank,
    &sources::BORROW,
    || BACKFILL / only(job_wide::COMPACTED),
);

/// How its measures were come by.
pub const GRADE: Wording<Cuts> = Wording::gathered("grade", |graph| {
    CUTS.words(graph, |cut| vec![Piece::Cell(cut.grade)])
});
