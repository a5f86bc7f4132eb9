//! What is ordered of each material: whole sale units, minimum orders, prices and quotes.

use super::cents;
use super::lines::LineColumns;
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, Graph, highest, only, when};
use crate::job::tables::{JobKeys, Materials};
use crate::sources;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::production::Production;
use crate::units::{MONEY, ONE};

/// What is ordered of each material.
#[derive(Clone, Copy, Debug)]
pub struct Orders {
    /// Needed, in the unit it is sold in.
    pub needed: Column<Materials>,
    /// Ordered: whole multiples, at least the minimum.
    pub ordered: Column<Materials>,
    /// Cost of the order.
    pub cost: Column<Materials>,
    /// What the order costs beyond its lines.
    pub beyond: Column<Materials>,
}

/// Adds orders: whole sale units and minimum orders.
pub(super) fn orders(
    graph: &mut Graph,
    inputs: &AllInputs,
    lines: &LineColumns,
    production: &Production,
) -> Orders {
    let materials = &inputs.materials;
    let mut rules = graph.rules::<Materials>();
    let needed = rules.step(
        "needed",
        ONE,
        &sources::ARITHMETIC,
        lines.material.sum(lines.bought).round_in(ONE, 3),
    );
    let sold_in = materials.number(Materials::SoldIn);
    let whole = when(
        sold_in.here().above(0.0),
        (needed / sold_in).round_up() * sold_in,
        needed,
    );
    let least = highest(whole, materials.number(Materials::Minimum));
    let ordered = rules.step(
        "ordered",
        ONE,
        &sources::JOB,
        when(needed.here().above(0.0), least.round_in(ONE, 3), 0.0),
    );
    let cost = rules.step(
        "order cost",
        MONEY,
        &sources::JOB,
        cents(ordered * production.material_price),
    );
    let beyond = cents(cost - lines.material.sum(lines.material_cost));
    let beyond = rules.step("beyond its lines", MONEY, &sources::ARITHMETIC, beyond);
    let price = materials.number(Materials::MaterialPrice);
    let plug = materials.number(Materials::MaterialPlug);
    let used = needed.here().above(0.0);
    rules.limit(
        "material on a plug price",
        price.blank().and(plug.filled()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "the price of this material is a plug",
            "write the price when it is in; until then the bid is a draft",
        ),
    );
    rules.limit(
        "material without a price",
        price.blank().and(plug.blank()).and(used.clone()),
        Breach::open(
            Code::MissingPrice,
            price.id,
            "this material has no price, so it is excluded",
            "write a price, or a plug price to stand in",
        ),
    );
    let until = materials.number(Materials::ValidUntil);
    let day = only::<Materials, JobKeys>(inputs.job.number(JobKeys::BidDate));
    rules.limit(
        "quote run out",
        until.filled().and(used).and(until.here().below(day)),
        Breach::open(
            Code::QuoteExpired,
            until.id,
            "the quote has run out on the day of the bid",
            "ask for it again, and write the new price and day",
        ),
    );
    Orders {
        needed,
        ordered,
        cost,
        beyond,
    }
}
