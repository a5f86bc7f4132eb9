//! The pages of quantities and prices.

use super::{ListedBlock, Page, Shows, block, figures};
use crate::write::sheets::{Below, Show};

/// The sections of the bid page.
const SECTIONS: ListedBlock = block(
    "Bid sections",
    "Sections",
    &["section", "amount"],
    &["amount"],
)
.always();

/// The bid, its lines, and what they cost.
pub(super) const PAGES: &[Page] = &[
    Page {
        name: "Bid",
        about: "",
        shows: Shows::Bid(&SECTIONS),
        below: Below::Nothing,
    },
    Page {
        name: "Bid schedule",
        about: "Every line with its price, mark-ups included. In a lump sum the amounts add up to the bid, and unit prices are rounded.",
        shows: Shows::Blocks(&[block(
            "Lines",
            "Bid schedule",
            &[
                "section",
                "line",
                "description",
                "quantity",
                "measured in",
                "unit price",
                "amount",
            ],
            &["amount"],
        )
        .living_elsewhere(&["line", "description", "quantity"])
        .always()]),
        below: Below::Nothing,
    },
    Page {
        name: "Take-off",
        about: "Every quantity, how it was worked out, and where.",
        shows: Shows::Blocks(&[block(
            "Lines",
            "Take-off",
            &[
                "line",
                "description",
                "taken off",
                "quantity",
                "unit",
                "set by hand because",
            ],
            &[],
        )
        .saying(&[Show::Working, Show::Source, Show::From])
        .always()]),
        below: Below::Nothing,
    },
    Page {
        name: "Cost",
        about: "What each line costs before mark-ups.",
        shows: Shows::Blocks(&[block(
            "Lines",
            "Direct cost",
            &[
                "line",
                "quantity",
                "measured in",
                "material",
                "bought",
                "material cost",
                "work",
                "crew hours",
                "labor cost",
                "machine hours",
                "equipment cost",
                "subcontract cost",
                "direct cost",
            ],
            &[
                "crew hours",
                "machine hours",
                "material cost",
                "labor cost",
                "equipment cost",
                "subcontract cost",
                "direct cost",
            ],
        )
        .always()]),
        below: Below::Nothing,
    },
    Page {
        name: "Summary",
        about: "From direct cost to the bid.",
        shows: Shows::Blocks(&[figures("Bid", "Bid: figures of the job")]),
        below: Below::Nothing,
    },
    Page {
        name: "Mark-ups priced",
        about: "What each mark-up comes to, in the order in which they apply.",
        shows: Shows::Blocks(&[block(
            "Mark-ups",
            "Mark-ups",
            &["Mark-up", "On", "Rate", "base", "amount"],
            &["amount"],
        )
        .always()]),
        below: Below::Nothing,
    },
];
