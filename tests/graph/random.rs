//! Every kind of column together, on random tables: evaluation after a change is a whole
//! evaluation of what was changed, and every formula says what the engine says.

use groundsheet::graph::{
    Again, Cell, Change, ColumnId, Graph, Results, evaluate, evaluate_only, evaluate_with,
};
use proptest::prelude::*;

use super::book::recalculates;
use super::kinds::graph_of;
use crate::properties::config;

/// What stands in the input columns, by the names of table and column.
#[derive(Clone, Debug)]
pub(super) struct Inputs {
    pub(super) names: Vec<&'static str>,
    pub(super) factor: Vec<f64>,
    pub(super) part: Vec<&'static str>,
    pub(super) of: Vec<&'static str>,
    pub(super) after: Vec<&'static str>,
    pub(super) length: Vec<f64>,
    pub(super) rank: Vec<f64>,
    pub(super) note: Vec<&'static str>,
    pub(super) usual: Vec<f64>,
    pub(super) mode: Vec<&'static str>,
    /// Whether a length and a note follow cells of other tables.
    pub(super) follows: [bool; 2],
}

/// Another entry in an input cell.
#[derive(Clone, Debug)]
struct Edit {
    /// Which input column, counted as [`Inputs::edited`] does.
    column: usize,
    row: usize,
    number: f64,
    word: &'static str,
}

/// The rows of the two tables whose cells may follow others, and what they follow.
pub(super) const FOLLOWING: usize = 1;

impl Inputs {
    /// The inputs with another entry in a cell, and which cell that is; a cell that followed
    /// another follows it no more.
    fn edited(&mut self, edit: &Edit) -> (&'static str, &'static str, usize, Change) {
        let words = |name, all: &mut Vec<&'static str>| {
            let row = edit.row % all.len();
            all[row] = edit.word;
            (name, row, Change::from(edit.word))
        };
        let numbers = |name, all: &mut Vec<f64>| {
            let row = edit.row % all.len();
            all[row] = edit.number;
            (name, row, Change::from(edit.number))
        };
        let (table, (name, row, change)) = match edit.column % 10 {
            0 => ("Groups", words("Group", &mut self.names)),
            1 => ("Groups", numbers("Factor", &mut self.factor)),
            2 => ("Parts", words("Part", &mut self.part)),
            3 => ("Parts", words("Of", &mut self.of)),
            4 => ("Parts", words("After", &mut self.after)),
            5 => ("Parts", numbers("Length", &mut self.length)),
            6 => ("Parts", numbers("Rank", &mut self.rank)),
            7 => ("Parts", words("Note", &mut self.note)),
            8 => ("All of it", numbers("Usual", &mut self.usual)),
            _ => ("All of it", words("Mode", &mut self.mode)),
        };
        self.follows[0] &= (name, row) != ("Length", FOLLOWING);
        self.follows[1] &= (name, row) != ("Note", FOLLOWING);
        (table, name, row, change)
    }
}

/// The names of parts and groups, of what is neither, and none at all.
fn word() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["", "a", "B", "b", "c", "D", "e", "nobody"])
}

/// Quarters, so that sums are exact in every engine; some are blank.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        1 => Just(f64::NAN),
        6 => (-8..40_i32).prop_map(|quarters| f64::from(quarters) / 4.0),
    ]
}

prop_compose! {
    fn inputs()(groups in 1..4_usize, parts in 2..7_usize)(
        names in prop::collection::vec(word(), groups),
        factor in prop::collection::vec(number(), groups),
        part in prop::collection::vec(word(), parts),
        of in prop::collection::vec(word(), parts),
        after in prop::collection::vec(word(), parts),
        length in prop::collection::vec(number(), parts),
        rank in prop::collection::vec(number(), parts),
        note in prop::collection::vec(word(), parts),
        usual in number(),
        mode in word(),
        follows in any::<[bool; 2]>(),
    ) -> Inputs {
        Inputs {
            names, factor, part, of, after, length, rank, note,
            usual: vec![usual],
            mode: vec![mode],
            follows,
        }
    }
}

prop_compose! {
    fn edit()(column in 0..10_usize, row in 0..7_usize, number in number(), word in word()) -> Edit {
        Edit { column, row, number, word }
    }
}

/// The columns in which two results differ, to the last bit, by name.
fn differing(graph: &Graph, one: &Results, two: &Results) -> Vec<String> {
    let differs = |id: &ColumnId| {
        let bits =
            |of: &Results| -> Vec<u64> { of.numbers(*id).iter().map(|n| n.to_bits()).collect() };
        let mut cells = (0..graph.rows(*id)).map(|row| id.at(row));
        bits(one) != bits(two) || cells.any(|cell| one.words(cell) != two.words(cell))
    };
    let name = |id| {
        let info = graph.column(id);
        format!("{}, {}", graph.table(info.table).name, info.name)
    };
    graph.columns().filter(differs).map(name).collect()
}

/// The graph of the inputs after some edits, and those as changes of cells.
fn after(graph: &Graph, inputs: &Inputs, edits: &[Edit]) -> (Inputs, Vec<(Cell, Change)>) {
    let mut edited = inputs.clone();
    let mut changes = Vec::new();
    for edit in edits {
        let (table, name, row, change) = edited.edited(edit);
        changes.push((graph.find(table, name).unwrap().at(row), change));
    }
    (edited, changes)
}

proptest! {
    #![proptest_config(config(400))]

    #[test]
    fn a_change_comes_to_what_a_whole_evaluation_gives(
        inputs in inputs(), edits in prop::collection::vec(edit(), 1..6),
    ) {
        let graph = graph_of(&inputs);
        let results = evaluate(&graph);
        let (edited, changes) = after(&graph, &inputs, &edits);
        let whole = evaluate(&graph_of(&edited));
        let ours = evaluate_with(&graph, &results, &changes);
        prop_assert_eq!(differing(&graph, &ours, &whole), Vec::<String>::new());
        // Where one column alone is asked for, nothing that it rests on is left out.
        for id in graph.columns() {
            let info = graph.column(id);
            let name = format!("{}, {}", graph.table(info.table).name, info.name);
            let again = Again::toward(&graph, &results, &[id]).with(&changes);
            prop_assert!(!differing(&graph, &again, &whole).contains(&name), "{}", name);
            let alone = evaluate_only(&graph, &[id]);
            prop_assert!(!differing(&graph, &alone, &results).contains(&name), "{}", name);
        }
    }
}

proptest! {
    #![proptest_config(config(24))]

    #[test]
    fn every_formula_says_what_the_engine_says(
        inputs in inputs(), edits in prop::collection::vec(edit(), 1..6),
    ) {
        let graph = graph_of(&inputs);
        recalculates(&graph, &evaluate(&graph));
        let graph = graph_of(&after(&graph, &inputs, &edits).0);
        recalculates(&graph, &evaluate(&graph));
    }
}

#[test]
fn a_number_that_follows_a_blank_cell_is_zero_in_every_engine() {
    let inputs = Inputs {
        names: vec![""],
        factor: vec![f64::NAN],
        part: vec![""; 2],
        of: vec![""; 2],
        after: vec![""; 2],
        length: vec![f64::NAN; 2],
        rank: vec![f64::NAN; 2],
        note: vec![""; 2],
        usual: vec![f64::NAN],
        mode: vec![""],
        follows: [true, false],
    };
    let graph = graph_of(&inputs);
    recalculates(&graph, &evaluate(&graph));
}
