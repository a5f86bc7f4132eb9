//! Evaluation after a change: what a person types over a cell that follows another.

use groundsheet::graph::{Cell, Graph, Table, evaluate, evaluate_with};
use groundsheet::units::{FT, System};

#[derive(Debug)]
enum Sketch {}

impl Table for Sketch {
    const NAME: &'static str = "Sketch";
    const ROW: &'static str = "sketch";
}

#[derive(Debug)]
enum Ponds {}

impl Table for Ponds {
    const NAME: &'static str = "Ponds";
    const ROW: &'static str = "pond";
}

#[test]
fn a_cell_that_is_typed_over_follows_no_more() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Sketch>(1);
    graph.add_table::<Ponds>(3);
    let drawn = graph
        .rules::<Sketch>()
        .measured("Length", FT, vec![10.0])
        .id
        .at(0);
    let mut rules = graph.rules::<Ponds>();
    let length = rules.measured("Length", FT, vec![f64::NAN, f64::NAN, 4.0]);
    let twice = rules.geometry("twice", FT, 2.0 * length);
    let [first, second]: [Cell; 2] = [length.id.at(0), length.id.at(1)];
    graph.follow(first, drawn);
    graph.follow(second, drawn);
    let results = evaluate(&graph);
    assert_eq!(results.numbers(twice.id), [20.0, 20.0, 8.0]);
    // In whichever order the two are said.
    let mut changes = [(drawn, 30.0.into()), (first, 7.0.into())];
    for _ in 0..2 {
        let after = evaluate_with(&graph, &results, &changes);
        assert_eq!(after.numbers(length.id), [7.0, 30.0, 4.0]);
        assert_eq!(after.numbers(twice.id), [14.0, 60.0, 8.0]);
        changes.reverse();
    }
}
