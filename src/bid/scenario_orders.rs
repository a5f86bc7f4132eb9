//! Orders in every scenario: what is ordered of each material where partners lay more of it
//! than the crew would, or bring some of it.
//!
//! Always true: with the crew alone, orders are those of the job; the rows are every
//! material in every scenario, in that order.

use super::orders::{Order, OrderTerms, Orders, order};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, Graph, Link, Term, only, when};
use crate::job::tables::{JobKeys, Materials, SharedWork};
use crate::labour::compared::ROW_IN_USE;
use crate::labour::{gifts, materials, tasks};
use crate::pricing::cents;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::tables::{Compared, Gifts, ScenarioMaterials};
use crate::takeoff::basis::Basis;
use crate::takeoff::inputs::AllInputs;
use crate::units::{MONEY, ONE};

/// What changes in each scenario.
#[derive(Clone, Copy, Debug)]
pub struct ScenarioOrderColumns {
    /// What order and freight cost more than with the crew alone.
    pub change: Column<ScenarioMaterials>,
    /// What brought materials are worth in each scenario.
    pub brought_value: Column<Compared>,
}

/// Adds the orders of every scenario, and those of the scenario in use.
pub(super) fn scenario_orders(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (crew_only, in_use): (&Orders, &LineColumns),
) -> (ScenarioOrderColumns, Orders) {
    let inputs = basis.inputs;
    let material = materials::MATERIAL;
    let mut rules = graph.rules::<ScenarioMaterials>();
    let all = material.of(crew_only.needed) + materials::OF_TASK.sum(tasks::EXTRA);
    let all = rules.arithmetic("laid", ONE, all);
    let needed = (all * (1.0 - materials::BROUGHT)).round_in(ONE, 3);
    let needed = rules.arithmetic("needed", ONE, needed);
    let number = |field: Materials| material.of(inputs.number(field));
    let terms = OrderTerms {
        sold_in: number(Materials::SoldIn),
        minimum: number(Materials::Minimum),
        load: number(Materials::Load),
        freight: number(Materials::Freight),
        price: material.of(basis.production.material_price),
    };
    let made = order(&mut rules, needed, terms, "");
    let before = material.of(crew_only.cost) + material.of(crew_only.freight);
    let change = cents(made.cost + made.freight - before);
    let change = rules.arithmetic("more than with the crew alone", MONEY, change);
    let brought_value = brought_value(graph, inputs, all);
    let row = row_in_use(graph);
    let orders = orders_in_use(graph, row, (crew_only, in_use), (needed, &made));
    let columns = ScenarioOrderColumns {
        change,
        brought_value,
    };
    (columns, orders)
}

/// The orders of the scenario in use: those found by `row`, or those with the crew alone.
fn orders_in_use(
    graph: &mut Graph,
    row: Link<Materials, ScenarioMaterials>,
    (crew_only, lines): (&Orders, &LineColumns),
    (needed, made): (Column<ScenarioMaterials>, &Order<ScenarioMaterials>),
) -> Orders {
    let mut rules = graph.rules::<Materials>();
    let mut found = |name: &str, unit, own: Column<Materials>, of: Column<ScenarioMaterials>| {
        let value = when(row.found_none(), own, row.of(of));
        rules.arithmetic(name, unit, value)
    };
    let needed = found("needed", ONE, crew_only.needed, needed);
    let ordered = found("ordered", ONE, crew_only.ordered, made.ordered);
    let cost = found("order cost", MONEY, crew_only.cost, made.cost);
    let loads = found("loads", ONE, crew_only.loads, made.loads);
    let freight = found("freight", MONEY, crew_only.freight, made.freight);
    let beyond = cents(cost - lines.material.sum(lines.material_cost));
    Orders {
        needed,
        ordered,
        cost,
        beyond: rules.arithmetic("beyond its lines", MONEY, beyond),
        loads,
        freight,
    }
}

/// What brought materials are worth in each scenario. Limit: a line uses what is brought.
fn brought_value(
    graph: &mut Graph,
    inputs: &AllInputs,
    all: Column<ScenarioMaterials>,
) -> Column<Compared> {
    let mut rules = graph.rules::<Gifts>();
    let quantity = (materials::OF_GIFT.of(all) * gifts::SHARE).round_in(ONE, 3);
    let quantity = rules.arithmetic("quantity brought", ONE, quantity);
    rules.limit(
        "brought for nothing",
        quantity.here().same_as(0.0).and(gifts::SHARE.above(0.0)),
        Breach::warning(
            Code::GivesNothing,
            inputs.id(SharedWork::SharedMaterial),
            "no line uses this material, so that bringing it saves nothing",
            "name the material that the lines are bought as",
        ),
    );
    let value: Term<Gifts> = cents(quantity * gifts::VALUE_EACH);
    let value = rules.step("value of what is brought", MONEY, &sources::IN_KIND, value);
    let mut rules = graph.rules::<Compared>();
    let sum = cents(gifts::SCENARIO.sum(value));
    rules.arithmetic("value of materials brought", MONEY, sum)
}

/// The row of each material in the scenario in use; none where the crew does all the work.
fn row_in_use(graph: &mut Graph) -> Link<Materials, ScenarioMaterials> {
    let count = whole(materials::materials(graph));
    let mut rules = graph.rules::<Materials>();
    let number = rules.running("number of the material", ONE, &sources::ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let before = only::<Materials, JobKeys>(ROW_IN_USE) - 2.0;
    let row = before.clone() * count + number;
    let row = when(before.below(0.0), 0.0, row);
    Link::new(
        rules
            .arithmetic("row of its order in this bid", ONE, row)
            .id,
    )
}

/// A count as a rule holds it.
fn whole(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}
