//! The formulas of stone and lifts, worked out again by engines that know nothing of this
//! crate; also after edits, against a fresh run on the edited file.

use std::collections::BTreeSet;

use super::{FLOW_GPM, Tables, cascade, job, metric};
use crate::support::agreement::{Typed, Viewer, Written, batches, word};
use crate::support::recalculate::Entry;

/// Two falls that use every column, in US customary units and in metric ones.
fn jobs() -> [(&'static str, Tables); 2] {
    let mut us = cascade("102.5", FLOW_GPM);
    us[1].1 += "Low,stream,98,,0,Large,9\n";
    us[2].1 += "d2,Low,2,7,1,,12,,6,10,2,1.2,4,,\nd1,Low,1,9,0,,,,7,11,1,,,1,\n";
    let mut si =
        metric("c1,Main,1,3,500,400,600,100,1.58,,,as set\nc2,Main,2,4,,300,,0,,40,,paced\n");
    si[2].1 = si[2].1.replace(
        "Grade\n",
        "Grade,Smallest (mm),Largest (mm),Spill width (m),Tons by,Shape\n",
    );
    si[2].1 = si[2].1.replace("as set\n", "as set,,,,,block\n");
    si[2].1 = si[2].1.replace("paced\n", "paced,300,600,2,piece,\n");
    si[1].1 = si[1]
        .1
        .replace("Foam\n", "Foam,Flow (L/min),Lifted by,Radius (m)\n");
    si[1].1 = si[1]
        .1
        .replace("limestone,\n", "limestone,Sealant,9000,Digger,4.5\n");
    si.push((
        "Equipment",
        "Machine,Rigging (t)\nDigger,0.02\nCrane,\n".to_owned(),
    ));
    si.push((
        "Lift chart",
        "Machine,Radius (m),Capacity (t),Chart gives\nDigger,6,0.25,tipping load\n\
         Digger,4,0.6,tipping load\nCrane,5,3,\nCrane,8,2,rated capacity\n"
            .to_owned(),
    ));
    si.push((
        "Materials",
        "Material,Unit,Price,Weight (kg/m3)\nBoulders,m3,80,\nSealant,m,3,\n".to_owned(),
    ));
    [("US customary", us), ("metric", si)]
}

#[test]
fn units_of_rules_fit_and_names_of_columns_are_unique() {
    for (what, tables) in jobs() {
        let job = job(&tables);
        assert_eq!(job.graph.rule_faults(), &[] as &[String], "{what}");
        assert_eq!(job.results.unworkable(&job.graph), vec![], "{what}");
        for table in job.graph.tables() {
            let mut seen = BTreeSet::new();
            for column in job.graph.columns_of(table) {
                let name = job.graph.column(column).name.to_lowercase();
                let of = job.graph.table(table).name;
                assert!(seen.insert(name.clone()), "{of} has two columns {name}");
            }
        }
    }
}

#[test]
fn every_formula_recalculates_to_the_stored_result() {
    for (what, tables) in jobs() {
        Written::new(what, &job(&tables)).recalculates();
    }
}

/// Edits that the workbook follows.
fn live() -> Vec<Typed> {
    let fall = "Waterfalls and streams";
    let number = Entry::Number;
    vec![
        ("Courses", "Face", 0, number(11.0)),
        ("Courses", "Height", 0, number(30.0)),
        ("Courses", "Height", 2, number(14.0)),
        ("Courses", "Depth", 0, Entry::Blank),
        ("Courses", "Largest", 2, number(20.0)),
        ("Courses", "Embedment", 1, number(3.0)),
        ("Courses", "Setback", 1, number(2.5)),
        ("Courses", "Rise", 0, number(10.0)),
        ("Courses", "As set top", 1, Entry::Blank),
        ("Courses", "As set top", 0, number(101.25)),
        ("Courses", "Spill width", 2, number(5.0)),
        ("Courses", "Spill width", 2, Entry::Blank),
        ("Courses", "Reject", 1, number(0.0)),
        ("Courses", "Porosity", 1, number(35.0)),
        ("Courses", "Rock", 1, word("basalt")),
        ("Courses", "Shape", 1, word("block")),
        ("Courses", "Tons by", 2, word("piece")),
        ("Courses", "Work", 1, word("Place gravel")),
        ("Courses", "Grade", 1, word("as set")),
        (fall, "Kind", 0, word("rock edge")),
        (fall, "Foot", 0, number(99.0)),
        (fall, "Planned rise", 0, number(5.0)),
        (fall, "Flow", 0, number(700.0)),
        (fall, "Flow", 0, Entry::Blank),
        (fall, "Rock", 0, word("sandstone")),
        (fall, "Foam", 0, word("Foam")),
        (fall, "Gap fill", 0, word("Bedding")),
        (fall, "Bedding", 0, word("River stone")),
        (fall, "Grade", 0, word("quoted")),
        (fall, "Radius", 0, number(18.0)),
        (fall, "Radius", 0, Entry::Blank),
        (fall, "Radius", 0, number(99.0)),
        (fall, "Lifted by", 0, word("Large")),
        (fall, "Lifted by", 0, Entry::Blank),
        ("Equipment", "Rigging", 0, number(0.4)),
        ("Lift chart", "Capacity", 1, number(0.1)),
        ("Lift chart", "Capacity", 5, number(0.8)),
        ("Lift chart", "Radius", 1, number(13.0)),
        ("Lift chart", "Chart gives", 0, word("tipping load")),
        (
            "Factors",
            "Next bed below the top, override",
            0,
            number(6.0),
        ),
        ("Factors", "Spill coefficient, override", 0, number(3.1)),
        ("Factors", "Near the chart from, override", 0, number(100.0)),
    ]
}

/// Edits after which rows would stand in another order, or rows of the dig sheet come or go.
fn unfollowed() -> Vec<Typed> {
    vec![
        ("Courses", "Number", 0, Entry::Number(4.0)),
        ("Courses", "Number", 3, Entry::Number(3.0)),
        ("Courses", "Fall", 4, word("Main")),
        ("Courses", "Stone", 0, word("Bedding")),
        ("Waterfalls and streams", "Foot", 0, Entry::Blank),
        ("Lift chart", "Radius", 0, Entry::Number(16.0)),
        ("Lift chart", "Machine", 0, word("Large")),
    ]
}

#[test]
fn every_formula_follows_an_edit_as_a_fresh_run_does() {
    show_edits(&mut |written, edits| written.follows_together(edits));
}

/// Shows the job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    let [(what, tables), _] = jobs();
    let estimate = job(&tables);
    let written = Written::new(what, &estimate);
    let mut batches = batches(written.all_typed(live()));
    batches.push(written.every_number());
    shown(&written, batches);
}

#[test]
fn an_edit_that_moves_rows_or_takes_a_foot_asks_for_a_new_run() {
    let [(what, tables), _] = jobs();
    let estimate = job(&tables);
    let written = Written::new(what, &estimate);
    written.asks_for_a_new_run(&written.all_typed(unfollowed()));
}
