//! What was solved stays as it was in the workbook: every edit of what it was solved from is
//! seen there, and no other.

use groundsheet::estimate::Estimate;
use groundsheet::graph::{Solve, evaluate};
use groundsheet::job::tables::Basins;
use groundsheet::sources::JOB;
use groundsheet::units::ONE;

use crate::support::agreement::{Edit, Written, word};
use crate::support::estimate_of;
use crate::support::recalculate::{Entry, Value};

/// Two basins, and a rule that is solved from their lengths, freeboards and notes.
fn job() -> Estimate {
    let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope,Freeboard (in),Soil\n\
        Pond,rectangle,40,30,6,2,,clay\nPool,rectangle,30,20,5,0,0,sand\n";
    let job = "Key,Value\nName,Test\nUnits,US customary\nSoil,loam\n";
    let mut estimate = estimate_of(&[("Job", job), ("Basins", basins)]);
    let graph = &mut estimate.graph;
    let inputs = ["Length", "Freeboard", "Soil"];
    let inputs = inputs.map(|name| graph.find("Basins", name).unwrap());
    let solve = Solve::fixed(inputs.to_vec(), vec![1.0, 2.0]);
    graph.rules::<Basins>().solved("solved", ONE, &JOB, solve);
    estimate.results = evaluate(graph);
    estimate
}

/// Several cells of the basins typed over.
fn typed(written: &Written<'_>, cells: &[(&str, usize, Entry)]) -> Edit {
    let mut all = cells
        .iter()
        .map(|(name, row, entry)| written.typed("Basins", name, *row, entry.clone()));
    let mut edit = all.next().unwrap();
    for other in all {
        edit.what = format!("{} and {}", edit.what, other.what);
        edit.cells.extend(other.cells);
    }
    edit
}

#[test]
fn every_edit_of_what_was_solved_from_asks_for_a_new_run() {
    let job = job();
    let written = Written::new("two basins", &job);
    let typed = |cells| typed(&written, cells);
    written.asks_for_a_new_run(&[
        typed(&[("Length", 0, Entry::Number(41.0))]),
        typed(&[("Soil", 1, word("rock"))]),
        typed(&[("Soil", 1, Entry::Blank)]),
        // The sum stays the same.
        typed(&[
            ("Length", 0, Entry::Number(30.0)),
            ("Length", 1, Entry::Number(40.0)),
        ]),
        typed(&[
            ("Length", 0, Entry::Number(39.0)),
            ("Length", 1, Entry::Number(31.0)),
        ]),
        typed(&[("Soil", 0, word("sand")), ("Soil", 1, word("clay"))]),
        // Nothing is another thing than zero.
        typed(&[("Freeboard", 0, Entry::Number(0.0))]),
        typed(&[("Freeboard", 1, Entry::Blank)]),
        typed(&[("Length", 0, word("forty"))]),
    ]);
}

#[test]
fn an_edit_of_what_was_not_solved_from_asks_for_no_new_run() {
    let job = job();
    let written = Written::new("two basins", &job);
    let edits = [
        typed(&written, &[("Width", 0, Entry::Number(31.0))]),
        typed(&written, &[("Length", 0, Entry::Number(40.0))]),
    ];
    for (engine, cells) in written.recalculated(&edits) {
        let at = |row| &cells[&("Changes".to_owned(), row, 1)];
        assert_eq!(*at(2), Value::Truth(false), "{engine}: {:?}", at(1));
    }
}

#[test]
fn the_page_names_the_cell_that_was_changed() {
    let job = job();
    let written = Written::new("two basins", &job);
    let edit = typed(&written, &[("Length", 1, Entry::Number(31.0))]);
    for (engine, cells) in written.recalculated(&[edit]) {
        let first = &cells[&("Changes".to_owned(), 1, 1)];
        let named = Value::Text("Basins: Length, row 3".to_owned());
        assert_eq!(*first, named, "{engine}");
    }
}
