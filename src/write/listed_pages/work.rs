//! The pages of what is to be done: activities, hours, orders, and cautions.

use super::{Page, Shows, block, fixed};
use crate::write::sheets::{Below, Fixed};

/// What can be given away, what takes how long, what is ordered.
pub(super) const PAGES: &[Page] = &[
    Page {
        name: "Activities",
        about: "Every line that is worked, in building order: what can be given to partners by work, zone or line, and what can hurt the untrained in it.",
        shows: Shows::Blocks(&[block(
            "Lines",
            "Activities",
            &[
                "line",
                "zone",
                "quantity",
                "measured in",
                "work",
                "crew",
                "people in the crew",
                "crew output",
                "machine",
                "machine output",
                "crew hours",
                "machine hours",
                "hazard",
            ],
            &["crew hours", "machine hours"],
        )]),
        below: Below::Nothing,
    },
    Page {
        name: "Hours",
        about: "Machine and crew hours, from quantities and outputs.",
        shows: Shows::Blocks(&[
            block(
                "Production rates",
                "Hours by work",
                &[
                    "Work",
                    "Crew",
                    "Machine",
                    "hours of the crew",
                    "hours of the machine",
                ],
                &["hours of the crew", "hours of the machine"],
            )
            .always(),
            block("Crews", "Hours by crew", &["Crew", "hours"], &["hours"]).always(),
            block(
                "Equipment",
                "Hours by machine",
                &["Machine", "hours"],
                &["hours"],
            )
            .always(),
        ]),
        below: Below::Nothing,
    },
    Page {
        name: "Order list",
        about: "What to order from whom: whole sale units, minimum orders, whole loads and their freight.",
        shows: Shows::Blocks(&[
            block(
                "Orders",
                "Orders",
                &[
                    "supplier",
                    "material",
                    "unit",
                    "needed",
                    "ordered",
                    "loads",
                    "price",
                    "order cost",
                    "freight",
                    "quote",
                    "valid until",
                ],
                &["order cost", "freight"],
            )
            .always(),
            block(
                "Suppliers",
                "By supplier",
                &[
                    "supplier",
                    "loads",
                    "order cost",
                    "freight",
                    "orders and freight",
                ],
                &["loads", "order cost", "freight", "orders and freight"],
            )
            .always(),
            block(
                "Deliveries",
                "Deliveries of stone in sequence, the bottom course first",
                &[
                    "material",
                    "course",
                    "unit",
                    "delivered",
                    "delivered so far",
                    "from load",
                    "to load",
                ],
                &[],
            ),
        ]),
        below: Below::Nothing,
    },
    fixed(
        "Cautions",
        "Work that can hurt people. Quantities here are estimates for bidding, not a design.",
        Fixed::Cautions,
    ),
];
