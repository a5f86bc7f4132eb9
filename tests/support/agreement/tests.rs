//! A batch that disagrees names the edit to blame, and edits that would hide one another
//! are not made together.

use groundsheet::estimate::Estimate;

use super::{Edit, Written, batches, word};
use crate::support::recalculate::Entry;
use crate::support::{US, estimate_of};

/// Two basins, so that an edit of each is one of two made together.
fn two_basins() -> Estimate {
    let basins = "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
        Pool,rectangle,30,20,3,1\nSump,rectangle,9,9,2,0\n";
    estimate_of(&[("Job", US), ("Basins", basins)])
}

#[test]
#[should_panic(expected = "Basins, cut volume, row 1: Number(7.0): (\"Basins working\"")]
fn the_edit_of_a_batch_that_breaks_a_formula_is_named() {
    let job = two_basins();
    let written = Written::new("two basins", &job);
    let edits = vec![
        ("Basins", "Length", 0, Entry::Number(31.0)),
        ("Basins", "cut volume", 1, Entry::Number(7.0)),
    ];
    written.follows(written.all_typed(edits));
}

#[test]
#[should_panic(expected = "Basins, Rim, row 1: Number(99.0): run_again is true")]
fn the_edit_of_a_batch_that_needs_a_run_is_named() {
    let job = two_basins();
    let written = Written::new("two basins", &job);
    let edits = vec![
        ("Basins", "Length", 0, Entry::Number(31.0)),
        ("Basins", "Rim", 1, Entry::Number(99.0)),
    ];
    written.follows(written.all_typed(edits));
}

#[test]
fn edits_that_hide_one_another_are_not_made_together() {
    let job = two_basins();
    let written = Written::new("two basins", &job);
    let edits = written.all_typed(vec![
        ("Basins", "Length", 0, Entry::Number(31.0)),
        ("Basins", "Length", 0, Entry::Number(32.0)),
        ("Basins", "Shape", 0, word("ellipse")),
        ("Basins", "Depth", 0, Entry::Number(4.0)),
        ("Basins", "Shape", 1, word("ellipse")),
    ]);
    let what = |batch: &Vec<Edit>| {
        batch
            .iter()
            .map(|edit| edit.what.clone())
            .collect::<Vec<_>>()
    };
    let [length, other, shape, depth, second] = [0, 1, 2, 3, 4].map(|at| edits[at].what.clone());
    let made: Vec<_> = batches(edits).iter().map(what).collect();
    // The depth fits beside either length, a number beside a number, so it goes into the first
    // batch; the shape of the other row then into the first of the shorter ones.
    let expected = [vec![length, depth], vec![other, second], vec![shape]];
    assert_eq!(made, expected);
}
