//! Kinds of rock: what a solid volume of each weighs.

use crate::graph::prelude::*;
use crate::job::tables::ROCKS;
use crate::parameters::Factor;
use crate::tables::Rocks;
use crate::units::System;

/// The factor of each rock's solid weight, in the order of the rocks.
const WEIGHT_OF: [Factor; 6] = [
    Factor::WeightGranite,
    Factor::WeightGneiss,
    Factor::WeightLimestone,
    Factor::WeightSandstone,
    Factor::WeightQuartzite,
    Factor::WeightBasalt,
];

/// The kinds of rock.
pub(super) const ROCK: Wording<Rocks> = Wording::brought("Rock", |_| ROCKS.to_vec()).naming_rows();

/// What a solid volume of each weighs, by the factors in use.
pub(super) const SOLID_WEIGHT: Step<Rocks> =
    Step::gathered("solid weight", System::density, |graph| {
        WEIGHT_OF.map(|rock| Some(graph.read(rock).at(0))).to_vec()
    });
