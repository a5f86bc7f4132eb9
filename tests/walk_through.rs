//! The walk-through of the contributors' guide: a rule, its limit and its line, as they would
//! stand in `src/takeoff/basins.rs`. The guide shows parts of this file word by word.

use std::fs;
use std::path::Path;

use groundsheet::graph::evaluate;
use groundsheet::graph::formula::Sheets;
use groundsheet::graph::prelude::*;
use groundsheet::graph::words;
use groundsheet::job::tables::Basins;
use groundsheet::takeoff::basins::{FLOOR_LENGTH, FLOOR_WIDTH};
use groundsheet::takeoff::bill::{Amount, BidLine, Counted, GivesLines, Part, RowByRow, Working};
use groundsheet::takeoff::grades::Graded;
use groundsheet::takeoff::outline::AREA_FACTOR;
use groundsheet::units::System;

use crate::support::{US, estimate_of, exactly};

/// What must be there, whether or not another rule reads it.
const RULES: &[&dyn Rule] = &[
    &RAKED,
    &Limit::<Basins>::warning(
        "no floor to rake",
        Code::ShapeImpossible,
        Basins::SideSlope.at(),
        || RAKED.same_as(0.0),
        "the sides meet at the floor, so nothing of it is raked",
        "check the depth and the side slope",
    ),
];

/// Area of the floor, to be raked before the liner goes down.
const RAKED: Step<Basins> = Step::geometry("area to rake", System::area, || {
    AREA_FACTOR * FLOOR_LENGTH * FLOOR_WIDTH
});

/// How it is raked, by the square yard or metre or whatever its work counts in.
const RAKING: Working<Basins> = Working::new(
    "raking",
    || "Rake floor".into(),
    Basins::Basin.at(),
    &[Amount::new(System::area, || RAKED.key())],
)
.missing("the work that rakes the floor is not in Production rates");

const NAME: Part = Part::Of(|| Basins::Basin.key());

/// One line for each basin.
const LINES: RowByRow<Basins> = RowByRow::new(&[&BidLine {
    arises: |_, _| true,
    section: Part::Fixed("Earthwork"),
    zone: Some(NAME),
    name: &[Part::Fixed("Rake: "), NAME],
    says: &[NAME, Part::Fixed(": rake the floor")],
    counted: Counted::Done(&RAKING),
    price: None,
    grade: || Basins::GRADE_IN_USE.key(),
    only_where_some: false,
}]);

#[test]
fn the_rule_of_the_walk_through_is_worked_out_limited_and_taken_as_a_line() {
    let job = estimate_of(&[
        ("Job", US),
        (
            "Basins",
            "Basin,Shape,Length (ft),Width (ft),Depth (ft),Side slope\n\
             Pool,rectangle,40,30,4,2\nPit,rectangle,16,16,4,2\n",
        ),
        ("Crews", "Crew,People,Wage per hour\nGang,2,30\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nRake floor,yd2,Gang,60\n",
        ),
    ]);
    let mut graph = job.graph;
    graph.make_list(RULES);
    let lines = LINES.lines(&mut graph);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    let results = evaluate(&graph);

    // 40 and 30 ft less 2 × 2 × 4 ft: 24 × 14 ft; of 16 ft nothing is left.
    let raked = graph.read(RAKED);
    assert_eq!(results.numbers(raked), [336.0, 0.0]);
    let words = words::of_column(&graph, raked);
    assert_eq!(words, "area factor × floor length × floor width");
    let formula = Sheets::new(&graph).formula(&graph, raked.at(0)).unwrap();
    assert_eq!(formula.matches('*').count(), 2, "{formula}");

    let limit = graph.find("Basins", "no floor to rake").unwrap();
    assert_eq!(results.numbers(limit), [0.0, 1.0]);

    // 9 ft² to the square yard.
    let worked = lines[0].taken.worked.unwrap();
    exactly("yd² to rake", results.number(worked), 336.0 / 9.0);
    let quantity = results.number(lines[0].taken.quantity);
    exactly("ft² on the bid", quantity, 336.0);
}

/// The lines of a text without what they are indented by.
fn dedented(text: &str) -> String {
    let lines = text.lines().filter(|line| !line.trim().is_empty());
    let indents = lines.map(|line| line.len() - line.trim_start().len());
    let indent = indents.min().unwrap_or(0);
    let lines = text
        .lines()
        .map(|line| line.get(indent..).unwrap_or_default());
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn every_piece_of_code_in_the_guide_is_part_of_a_file_that_is_compiled() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let read = |file: &str| fs::read_to_string(root.join(file)).unwrap();
    let files = ["tests/walk_through.rs", "src/job/tables/site.rs"].map(read);
    let guide = read("DEVELOPERS.md");
    let pieces: Vec<String> = guide
        .split("```rust\n")
        .skip(1)
        .map(|rest| dedented(rest.split_once("```").unwrap().0))
        .collect();
    assert!(pieces.len() >= 4, "{} pieces of code", pieces.len());
    for piece in pieces {
        let piece = piece.trim_end();
        let there = files.iter().any(|file| {
            let lines: Vec<&str> = file.lines().collect();
            let long = piece.lines().count();
            lines
                .windows(long)
                .any(|part| dedented(&part.join("\n")) == piece)
        });
        assert!(there, "in no file:\n{piece}");
    }
}
