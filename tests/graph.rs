//! The heart by itself: every kind of column, on a table made up for it.

mod again; // evaluation after a change
mod book; // a graph as a workbook
mod kinds; // a graph with every kind of column
mod networks; // activities that each follow several others
mod other_rows; // columns that read other rows, each by its three readings
mod random; // what holds for every kind, on random tables
mod solved; // what a pure function makes of whole columns

use groundsheet::graph::prelude::*;
use groundsheet::graph::{Cell, Column, Graph, Link, Piece, Solve, Table, evaluate, words};
use groundsheet::sources::GEOMETRY;
use groundsheet::units::{FT, FT2, ONE, System, YD3, YD3_BANK, YD3_LOOSE};

#[derive(Debug)]
enum Trench {}

impl Table for Trench {
    const NAME: &'static str = "Trenches";
    const ROW: &'static str = "trench";
}

#[derive(Debug)]
enum Part {}

impl Table for Part {
    const NAME: &'static str = "Parts";
    const ROW: &'static str = "part";
}

#[derive(Debug)]
enum Whole {}

impl Table for Whole {
    const NAME: &'static str = "Whole";
    const ROW: &'static str = "job";
}

struct Made {
    graph: Graph,
    length: Column<Part>,
    area: Column<Part>,
    running: Column<Part>,
    sum: Column<Trench>,
    all: Column<Whole>,
}

/// Two trenches; parts of 3, 4 and 5 ft in the first, none in the second; the middle
/// part's length is blank and stands for the usual 4 ft.
fn made() -> Made {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Trench>(2);
    graph.add_table::<Part>(3);
    graph.add_table::<Whole>(1);
    let mut rules = graph.rules::<Whole>();
    let usual = rules.brought("usual length", FT, &GEOMETRY, vec![4.0]);
    let mut rules = graph.rules::<Trench>();
    let name = rules.words("Trench", true, vec!["North".into(), "South".into()]);
    rules.labelled_by(name);
    let mut rules = graph.rules::<Part>();
    let of = rules.words(
        "Trench",
        true,
        vec!["north".into(), "North".into(), "NORTH".into()],
    );
    let measured = rules.measured("Length", FT, vec![3.0, f64::NAN, 5.0]);
    let twos = Solve::fixed(vec![measured.id], vec![2.0, 2.0, 2.0]);
    let width = rules.solved("width", FT, &GEOMETRY, twos);
    let link: Link<Part, Trench> = rules.link("trench row", of);
    let length = rules.step("length in use", FT, &GEOMETRY, measured.or(only(usual)));
    let area = rules.step("area", FT2, &GEOMETRY, length * width);
    let running = rules.running("so far", FT, &GEOMETRY, |own| {
        own.row_above(link, 0.0) + length
    });
    let sum = graph
        .rules::<Trench>()
        .step("area", FT2, &GEOMETRY, link.sum(area));
    let all = graph
        .rules::<Whole>()
        .step("area", FT2, &GEOMETRY, total(area));
    Made {
        graph,
        length,
        area,
        running,
        sum,
        all,
    }
}

#[test]
fn every_kind_of_column_is_worked_out() {
    let made = made();
    let results = evaluate(&made.graph);
    assert_eq!(results.numbers(made.length.id), [3.0, 4.0, 5.0]);
    assert_eq!(results.numbers(made.area.id), [6.0, 8.0, 10.0]);
    assert_eq!(results.numbers(made.running.id), [3.0, 7.0, 12.0]);
    assert_eq!(results.numbers(made.sum.id), [24.0, 0.0]);
    assert_eq!(results.numbers(made.all.id), [24.0]);
    assert_eq!(made.graph.rule_faults(), &[] as &[String]);
}

#[test]
fn words_name_things_and_never_values() {
    let made = made();
    assert_eq!(
        words::of_column(&made.graph, made.length.id),
        "Length (where blank, usual length)"
    );
    assert_eq!(
        words::of_column(&made.graph, made.area.id),
        "length in use × width"
    );
    assert_eq!(
        words::of_column(&made.graph, made.sum.id),
        "sum of area over its part rows"
    );
}

#[test]
fn reach_follows_rules_and_surveys() {
    let made = made();
    let measured = made.graph.find("Parts", "Length").unwrap();
    let reach = made.graph.reach(&[measured]);
    let reached = |id| reach[made.graph.columns().position(|known| known == id).unwrap()];
    assert!(reached(made.area.id) && reached(made.all.id));
    assert!(reached(made.graph.find("Parts", "width").unwrap()));
    assert!(!reached(made.graph.find("Parts", "trench row").unwrap()));
}

#[test]
fn a_rule_whose_units_do_not_fit_is_caught_and_does_not_panic() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Trench>(1);
    let mut rules = graph.rules::<Trench>();
    let length = rules.measured("length", FT, vec![3.0]);
    let bank = rules.measured("bank", YD3_BANK, vec![3.0]);
    let loose = rules.measured("loose", YD3_LOOSE, vec![3.0]);
    rules.step("volume", YD3, &GEOMETRY, length * length);
    rules.step("mixed", YD3_BANK, &GEOMETRY, bank + loose);
    rules.step("state lost", YD3, &GEOMETRY, bank);
    rules.step(
        "choice",
        FT,
        &GEOMETRY,
        when(length.here().above(bank), length, 0.0),
    );
    assert_eq!(graph.rule_faults().len(), 4, "{:?}", graph.rule_faults());
    assert!(evaluate(&graph).unworkable(&graph).is_empty());
}

#[test]
fn two_columns_of_one_name_in_a_table_are_caught() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Trench>(1);
    graph.add_table::<Part>(1);
    let mut rules = graph.rules::<Trench>();
    let length = rules.measured("Length", FT, vec![3.0]);
    graph.rules::<Part>().measured("length", FT, vec![4.0]);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    assert_eq!(graph.find("trenches", "LENGTH"), Some(length.id));
    graph.rules::<Trench>().geometry("length", FT, length);
    let faults = graph.rule_faults();
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(faults[0].starts_with("Trenches, length: "), "{faults:?}");
}

#[test]
fn a_word_that_a_column_of_choices_does_not_have_is_caught() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Trench>(1);
    let mut rules = graph.rules::<Trench>();
    let shape = rules.chosen("Shape", false, &["rectangle", "circle"], vec!["".into()]);
    let note = rules.words("Note", false, vec!["".into()]);
    let in_use = either(shape.blank(), "circle", shape.words());
    let in_use = rules.word_step("shape in use", in_use);
    let noted = rules.word_step(
        "shape noted",
        either(note.blank(), shape.words(), note.words()),
    );
    let mut asked = |name: &str, condition: Condition| {
        rules.geometry(name, ONE, when(condition, 1.0, 2.0));
    };
    asked("as listed", shape.is("Rectangle"));
    asked("taken from it", in_use.is("circle"));
    asked("free", note.is("rectangel"));
    asked("free in part", noted.is("rectangel"));
    asked("slip", shape.is("rectangel"));
    asked("slip within", shape.blank().or(shape.is("circel")).negate());
    asked("slip in what is taken from it", in_use.is("rectangel"));
    rules.word_step(
        "slip in words",
        either(shape.is("circel"), "round", "square"),
    );
    let faults = graph.rule_faults();
    let slips = faults
        .iter()
        .filter(|fault| fault.starts_with("Trenches, slip"));
    assert_eq!((faults.len(), slips.count()), (4, 4), "{faults:?}");
    assert!(faults[0].contains("rectangle, circle"), "{faults:?}");
}

#[test]
fn a_geometric_volume_becomes_bank_only_where_a_rule_says_so() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Trench>(1);
    let mut rules = graph.rules::<Trench>();
    let side = rules.measured("side", FT, vec![3.0]);
    let volume = rules.step("volume", YD3_BANK, &GEOMETRY, side * side * side);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    assert_eq!(evaluate(&graph).numbers(volume.id), [1.0]); // 27 ft³
}

#[test]
fn a_number_that_cannot_be_worked_out_is_reported() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Trench>(1);
    let mut rules = graph.rules::<Trench>();
    let nothing = rules.measured("nothing", ONE, vec![0.0]);
    let ratio = rules.step("ratio", ONE, &GEOMETRY, 1.0 / nothing);
    let names = rules.gathered_words("name", vec![vec![Piece::Fixed("a".into())]]);
    let results = evaluate(&graph);
    assert_eq!(
        results.unworkable(&graph),
        [Cell {
            column: ratio.id,
            row: 0
        }]
    );
    assert_eq!(results.text(names, 0), "a");
}
