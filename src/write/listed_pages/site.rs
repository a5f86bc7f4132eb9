//! The pages of how certain the bid is, of earthwork, and of the levels to dig to.

use super::{Page, Shows, block, figures};
use crate::write::sheets::Below;

/// Certainty, earthwork and levels.
pub(super) const PAGES: &[Page] = &[
    Page {
        name: "Certainty",
        about: "How the measures behind the bid were come by, and which defaults move it most.",
        shows: Shows::Blocks(&[block(
            "Grades",
            "The bid by grade of its measures",
            &["grade", "amount in the bid", "share of the bid"],
            &["amount in the bid", "share of the bid"],
        )
        .always()]),
        below: Below::Defaults,
    },
    Page {
        name: "Earthwork",
        about: "What is dug, filled, brought in and taken away.",
        shows: Shows::Blocks(&[figures("Earthwork", "Earthwork: figures of the job")]),
        below: Below::Balance,
    },
    Page {
        name: "Sections",
        about: "Cross-section of each basin, across its width, seen along its length.",
        shows: Shows::Blocks(&[block(
            "Section points",
            "Points of the sections",
            &[
                "basin",
                "across",
                "finished",
                "cut, across",
                "cut",
                "water, across",
                "water",
            ],
            &[],
        )
        .always()]),
        below: Below::Sections,
    },
    Page {
        name: "Dig sheet",
        about: "What the rod reads at every level. Elevations need the elevation or the rod of a rim, readings the benchmark and the backsight too.",
        shows: Shows::Blocks(&[block(
            "Dig sheet",
            "Levels",
            &[
                "level",
                "below the rim",
                "elevation",
                "rod reading",
                "remark",
            ],
            &[],
        )
        .always()]),
        below: Below::Nothing,
    },
];
