//! What is known of each kind of ground, gathered from the four factors of each property.

use crate::graph::prelude::*;
use crate::graph::{Cell, Graph};
use crate::job::tables::SOILS;
use crate::parameters::Factor;
use crate::tables::Soils;
use crate::units::{COMPACTED_PER_BANK, LOOSE_PER_BANK, System};

/// The name of each soil.
pub const SOIL: Wording<Soils> = Wording::brought("Soil", |_| SOILS.to_vec()).naming_rows();

/// Loose volume from one of bank.
pub const LOOSE: Step<Soils> = Step::gathered(
    "loose per bank",
    |_| LOOSE_PER_BANK,
    |graph| {
        use Factor::{LooseClay, LooseLoam, LooseRock, LooseSand};
        in_use(graph, [LooseSand, LooseLoam, LooseClay, LooseRock])
    },
);

/// Compacted volume from one of bank.
pub const COMPACTED: Step<Soils> = Step::gathered(
    "compacted per bank",
    |_| COMPACTED_PER_BANK,
    |graph| {
        use Factor::{CompactedClay, CompactedLoam, CompactedRock, CompactedSand};
        let all = [CompactedSand, CompactedLoam, CompactedClay, CompactedRock];
        in_use(graph, all)
    },
);

/// Weight in the bank.
pub const WEIGHT: Step<Soils> = Step::gathered("weight in the bank", System::density, |graph| {
    use Factor::{WeightClay, WeightLoam, WeightRock, WeightSand};
    in_use(graph, [WeightSand, WeightLoam, WeightClay, WeightRock])
});

/// Slope that a cut is laid back to.
pub const LAY_BACK: Step<Soils> = Step::gathered("lay-back", System::slope, |graph| {
    use Factor::{LayBackClay, LayBackLoam, LayBackRock, LayBackSand};
    in_use(graph, [LayBackSand, LayBackLoam, LayBackClay, LayBackRock])
});

/// The cells of the factors in use, in the order of the soils; the names make the rows.
fn in_use(graph: &mut Graph, factors: [Factor; 4]) -> Vec<Option<Cell>> {
    graph.read(SOIL);
    factors
        .map(|factor| Some(graph.read(factor).at(0)))
        .to_vec()
}
