//! Orders in every scenario: what is ordered of each material where partners lay more of it
//! than the crew would, or bring some of it.
//!
//! Always true: with the crew alone, orders are those of the job; the rows are every
//! material in every scenario, in that order.

use super::orders::{Order, OrderTerms, Orders, order};
use crate::diagnostic::Code;
use crate::graph::{Breach, Column, ColumnId, Graph, Link, Piece, Table, Term, only, when};
use crate::job::tables::{Materials, Scenarios, SharedWork};
use crate::labour::gifts::Gifts;
use crate::labour::tasks::Tasks;
use crate::labour::{Compared, Labour, rows_meant};
use crate::pricing::cents;
use crate::pricing::lines::LineColumns;
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::line::fixed;
use crate::units::{MONEY, ONE, PERCENT};

/// One material in one scenario.
#[derive(Debug)]
pub enum ScenarioOrders {}

impl Table for ScenarioOrders {
    const NAME: &'static str = "Orders by scenario";
    const ROW: &'static str = "order in a scenario";
}

/// What changes in each scenario.
#[derive(Clone, Copy, Debug)]
pub struct ScenarioOrderColumns {
    /// The scenario.
    pub scenario: Link<ScenarioOrders, Compared>,
    /// What order and freight cost more than with the crew alone.
    pub change: Column<ScenarioOrders>,
    /// What brought materials are worth in each scenario.
    pub brought_value: Column<Compared>,
}

/// Adds the orders of every scenario, and those of the scenario in use.
pub(super) fn scenario_orders(
    graph: &mut Graph,
    basis: &Basis<'_>,
    labour: &Labour,
    (crew_only, lines, in_use): (&Orders, &LineColumns, &LineColumns),
) -> (ScenarioOrderColumns, Orders) {
    let materials = graph.rows(basis.inputs.id(Materials::Material));
    let scenarios = graph.rows(basis.inputs.id(Scenarios::Scenario));
    let (scenario, material) = rows(graph, basis, (scenarios, materials));
    let beyond = beyond(graph, labour, lines, materials);
    let brought = brought(graph, labour, materials);
    let inputs = basis.inputs;
    let mut rules = graph.rules::<ScenarioOrders>();
    let all = material.of(crew_only.needed) + beyond.sum(labour.task.extra);
    let all = rules.arithmetic("laid", ONE, all);
    let share = rules.arithmetic("share brought", PERCENT, brought.sum(labour.gift.share));
    let needed = (all * (1.0 - share)).round_in(ONE, 3);
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
    let brought_value = brought_value(graph, (labour, inputs), brought, all);
    let row = row_in_use(graph, labour, materials);
    let orders = orders_in_use(graph, row, (crew_only, in_use), (needed, &made));
    let columns = ScenarioOrderColumns {
        scenario,
        change,
        brought_value,
    };
    (columns, orders)
}

/// The orders of the scenario in use: those found by `row`, or those with the crew alone.
fn orders_in_use(
    graph: &mut Graph,
    row: Link<Materials, ScenarioOrders>,
    (crew_only, lines): (&Orders, &LineColumns),
    (needed, made): (Column<ScenarioOrders>, &Order<ScenarioOrders>),
) -> Orders {
    let mut rules = graph.rules::<Materials>();
    let mut found = |name: &str, unit, own: Column<Materials>, of: Column<ScenarioOrders>| {
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

/// Every material in every scenario.
fn rows(
    graph: &mut Graph,
    basis: &Basis<'_>,
    (scenarios, materials): (usize, usize),
) -> (
    Link<ScenarioOrders, Compared>,
    Link<ScenarioOrders, Materials>,
) {
    let all = || (0..scenarios).flat_map(move |of| (0..materials).map(move |row| (of, row)));
    let (scenario, material): (ColumnId, ColumnId) = (
        basis.inputs.id(Scenarios::Scenario),
        basis.inputs.id(Materials::Material),
    );
    graph.add_table::<ScenarioOrders>(scenarios * materials);
    let mut rules = graph.rules::<ScenarioOrders>();
    let names = all().map(|(of, row)| {
        vec![
            Piece::Cell(scenario.at(of)),
            fixed(" / "),
            Piece::Cell(material.at(row)),
        ]
    });
    let name = rules.gathered_words("material in a scenario", names.collect());
    rules.labelled_by(name);
    (
        rows_meant(&mut rules, "scenario row", all().map(|(of, _)| of + 1), &[]),
        rows_meant(&mut rules, "material row", all().map(|(_, row)| row), &[]),
    )
}

/// The row of the material of each task in its scenario.
fn beyond(
    graph: &mut Graph,
    labour: &Labour,
    lines: &LineColumns,
    materials: usize,
) -> Link<Tasks, ScenarioOrders> {
    let before = labour.hands.sharing.tasks.iter();
    let before = before.map(|task| whole(task.scenario * materials));
    let mut rules = graph.rules::<Tasks>();
    let before = rules.surveyed(
        "materials before its scenario",
        ONE,
        &sources::JOB,
        before.collect(),
        Vec::new(),
    );
    let material = labour.task.line.of(Column::new(lines.material.id));
    let row = when(material.clone().above(0.0), material + before, 0.0);
    Link::new(rules.arithmetic("order row", ONE, row).id)
}

/// The row of each brought material in its scenario.
fn brought(graph: &mut Graph, labour: &Labour, materials: usize) -> Link<Gifts, ScenarioOrders> {
    let gifts = labour.hands.sharing.gifts.iter();
    let rows = gifts.map(|gift| gift.scenario * materials + gift.material);
    rows_meant(&mut graph.rules::<Gifts>(), "order row", rows, &[])
}

/// What brought materials are worth in each scenario. Limit: a line uses what is brought.
fn brought_value(
    graph: &mut Graph,
    (labour, inputs): (&Labour, &AllInputs),
    order: Link<Gifts, ScenarioOrders>,
    all: Column<ScenarioOrders>,
) -> Column<Compared> {
    let gift = &labour.gift;
    let mut rules = graph.rules::<Gifts>();
    let quantity = (order.of(all) * gift.share).round_in(ONE, 3);
    let quantity = rules.arithmetic("quantity brought", ONE, quantity);
    rules.limit(
        "brought for nothing",
        quantity
            .here()
            .same_as(0.0)
            .and(gift.share.here().above(0.0)),
        Breach::warning(
            Code::GivesNothing,
            inputs.id(SharedWork::SharedMaterial),
            "no line uses this material, so that bringing it saves nothing",
            "name the material that the lines are bought as",
        ),
    );
    let value: Term<Gifts> = cents(quantity * gift.value_each);
    let value = rules.step("value of what is brought", MONEY, &sources::IN_KIND, value);
    let mut rules = graph.rules::<Compared>();
    let sum = cents(gift.scenario.sum(value));
    rules.arithmetic("value of materials brought", MONEY, sum)
}

/// The row of each material in the scenario in use; none where the crew does all the work.
fn row_in_use(
    graph: &mut Graph,
    labour: &Labour,
    materials: usize,
) -> Link<Materials, ScenarioOrders> {
    let mut rules = graph.rules::<Materials>();
    let number = rules.running("number of the material", ONE, &sources::ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let before = only::<Materials, _>(labour.hands.in_use) - 2.0;
    let row = before.clone() * whole(materials) + number;
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
