//! Solved columns: what a pure function makes of whole columns, and the limits that hold it
//! to them.
//!
//! Squares of known area are given; their sides are found by halving an interval, which no
//! formula down a column can do.

use groundsheet::diagnostic::Code;
use groundsheet::graph::formula::Sheets;
use groundsheet::graph::prelude::*;
use groundsheet::graph::rule::At;
use groundsheet::graph::{
    Change, ColumnId, Graph, Results, Solve, Table, Whole, evaluate, evaluate_with, words,
};
use groundsheet::sources::GEOMETRY;
use groundsheet::units::{FT, FT2, ONE, System};

use super::book::{column, recalculates, written};
use crate::support::recalculate::{Entry, Value, by_the_engine, edit};

#[derive(Debug)]
enum Squares {}

impl Table for Squares {
    const NAME: &'static str = "Squares";
    const ROW: &'static str = "square";
}

/// The sides of squares of the areas given; without an area, and of a square that is left
/// out, there is none.
fn sides(columns: &[Whole<'_>]) -> Vec<f64> {
    let (areas, notes) = (columns[0].numbers(), columns[1].words());
    let side = |(area, note): (&f64, &std::sync::Arc<str>)| {
        if &**note == "left out" {
            return 0.0;
        }
        let (mut low, mut high) = (0.0, area.max(1.0));
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if middle * middle < *area {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    };
    areas.iter().zip(notes).map(side).collect()
}

const SIDE: Step<Squares> = Step::solved("side", System::length, &GEOMETRY, |graph| {
    let area = graph.read(named::<Squares>("Area"));
    let note = graph.read(named::<Squares>("Note"));
    Solve::new(vec![area, note], sides)
});
const OFF: Step<Squares> = Step::geometry("off", System::area, || {
    when(
        named::<Squares>("Note").is("left out"),
        0.0,
        SIDE * SIDE - named::<Squares>("Area"),
    )
});
const HOLDS: Limit<Squares> = Limit::fault(
    "side that is off",
    Code::OrderOfRows,
    At {
        table: "Squares",
        column: "Area",
    },
    || {
        let little = || 0.001 * one(|_: System| FT2);
        OFF.above(little()).or(OFF.below(0.0 - little()))
    },
    "the side does not make the area",
    "run again",
);
const ROUND: Step<Squares> = Step::geometry("way round", System::length, || 4.0 * SIDE);

fn squares() -> Graph {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Squares>(3);
    let mut rules = graph.rules::<Squares>();
    rules.measured("Area", FT2, vec![9.0, 25.0, 6.25]);
    let notes = ["", "", ""].map(Into::into).to_vec();
    rules.words("Note", false, notes);
    graph.make_list(&[&SIDE, &OFF, &HOLDS, &ROUND]);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    graph
}

fn find(graph: &Graph, name: &str) -> ColumnId {
    graph.find("Squares", name).unwrap()
}

#[test]
fn a_solved_column_has_a_value_in_the_workbook_and_a_formula_behind_it() {
    let graph = squares();
    let results = evaluate(&graph);
    assert_eq!(results.numbers(find(&graph, "side")), [3.0, 5.0, 2.5]);
    assert_eq!(
        results.numbers(find(&graph, "way round")),
        [12.0, 20.0, 10.0]
    );
    assert_eq!(results.numbers(find(&graph, "side that is off")), [0.0; 3]);
    let sheets = Sheets::new(&graph);
    let formula = |name| sheets.formula(&graph, find(&graph, name).at(1));
    assert_eq!(formula("side"), None);
    assert_eq!(formula("way round").unwrap(), "4*C3");
    assert_eq!(
        words::of_column(&graph, find(&graph, "way round")),
        "4 × side"
    );
    assert_eq!(
        words::of_column(&graph, find(&graph, "side that is off")),
        "off is more than 0.001 × 1 ft² or off is less than 0 − 0.001 × 1 ft²"
    );
    recalculates(&graph, &results);
}

#[test]
fn a_changed_input_reaches_solved_values_and_all_behind_them() {
    let graph = squares();
    let results = evaluate(&graph);
    let with =
        |changes: &[(groundsheet::graph::Cell, Change)]| evaluate_with(&graph, &results, changes);
    let numbers = |of: &Results, name| of.numbers(find(&graph, name)).to_vec();
    let larger = with(&[(find(&graph, "Area").at(1), 36.0.into())]);
    assert_eq!(numbers(&larger, "side"), [3.0, 6.0, 2.5]);
    assert_eq!(numbers(&larger, "way round"), [12.0, 24.0, 10.0]);
    assert_eq!(numbers(&larger, "side that is off"), [0.0; 3]);
    let fewer = with(&[(find(&graph, "Note").at(0), "left out".into())]);
    assert_eq!(numbers(&fewer, "side"), [0.0, 5.0, 2.5]);
    assert_eq!(numbers(&fewer, "way round"), [0.0, 20.0, 10.0]);
    // What is solved is no input: it cannot be changed by itself.
    let none = with(&[(find(&graph, "side").at(0), 7.0.into())]);
    assert_eq!(none, results);
}

#[test]
fn a_limit_over_a_solved_column_is_live_in_the_workbook() {
    let graph = squares();
    let bytes = written(&graph, &evaluate(&graph));
    let bytes = edit(&bytes, &[("Squares", "A3", Entry::Number(36.0))]);
    let (engine, cells) = by_the_engine(&[bytes]);
    let broken = column(&graph, &cells[0], find(&graph, "side that is off"));
    let wanted = [0.0, 1.0, 0.0].map(Value::Number);
    assert_eq!(broken, wanted, "{engine}");
}

#[test]
fn a_solver_that_finds_nothing_is_reported() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Squares>(3);
    let mut rules = graph.rules::<Squares>();
    let area = rules.measured("Area", FT2, vec![f64::NAN, 4.0, -4.0]);
    let roots = Solve::new(vec![area.id], |columns| {
        columns[0]
            .numbers()
            .iter()
            .map(|area| area.sqrt())
            .collect()
    });
    let side = rules.solved("side", FT, &GEOMETRY, roots);
    let results = evaluate(&graph);
    assert_eq!(results.unworkable(&graph), [side.id.at(0), side.id.at(2)]);
}

#[test]
fn a_solver_gives_one_number_a_row_and_zero_where_it_gives_none() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Squares>(3);
    let mut rules = graph.rules::<Squares>();
    let few = rules.solved("few", ONE, &GEOMETRY, Solve::new(vec![], |_| vec![1.0]));
    let many = rules.solved("many", ONE, &GEOMETRY, Solve::new(vec![], |_| vec![2.0; 9]));
    let results = evaluate(&graph);
    assert_eq!(results.numbers(few.id), [1.0, 0.0, 0.0]);
    assert_eq!(results.numbers(many.id), [2.0; 3]);
}

#[test]
fn a_solver_that_reads_itself_is_a_circle() {
    const LOW: Step<Squares> = Step::solved(
        "low",
        |_| ONE,
        &GEOMETRY,
        |graph| Solve::fixed(vec![graph.read(HIGH)], Vec::new()),
    );
    const HIGH: Step<Squares> = Step::arithmetic("high", |_| ONE, || LOW + 1.0);
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Squares>(1);
    graph.make(&HIGH);
    let faults = graph.rule_faults();
    assert_eq!(
        faults,
        ["Squares, high: it reads itself: Squares, high → Squares, low → Squares, high"]
    );
    assert!(evaluate(&graph).unworkable(&graph).is_empty());
}
