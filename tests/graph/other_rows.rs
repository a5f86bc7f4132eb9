//! Columns that read other rows: each by the engine, by its formula, in words; and what is
//! refused.
//!
//! The rows are steps of a small job, each of a crew and after another step:
//!
//! | row | step | crew | after | days |
//! |-----|------|------|-------|------|
//! | 1   | dig  | A    |       | 3    |
//! | 2   | line | A    | dig   | 2    |
//! | 3   | pump | B    | dig   | 1    |
//! | 4   | fill | B    | line  | 4    |

use groundsheet::graph::formula::Sheets;
use groundsheet::graph::prelude::*;
use groundsheet::graph::reads::{Named, Own};
use groundsheet::graph::{ColumnId, Graph, Rules, Table, evaluate, words};
use groundsheet::sources::ARITHMETIC;
use groundsheet::units::{FT, H, ONE, System, Unit};

use super::book::recalculates;

#[derive(Debug)]
enum Crews {}

impl Table for Crews {
    const NAME: &'static str = "Crews";
    const ROW: &'static str = "crew";
}

#[derive(Debug)]
enum Steps {}

impl Table for Steps {
    const NAME: &'static str = "Steps";
    const ROW: &'static str = "step";
}

const CREW: LookUp<Steps, Crews> = LookUp::new("crew row", || named::<Steps>("Crew").key());
const AFTER: LookUp<Steps, Steps> = LookUp::new("step before", || named::<Steps>("After").key());

fn hours() -> Named<Steps> {
    named("Hours")
}

/// The steps above, in hours of one each.
fn job() -> Graph {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Crews>(3);
    graph.add_table::<Steps>(4);
    let mut rules = graph.rules::<Crews>();
    let crew = rules.words("Crew", true, ["A", "B", "C"].map(Into::into).to_vec());
    rules.labelled_by(crew);
    let mut rules = graph.rules::<Steps>();
    let step = ["dig", "line", "pump", "fill"].map(Into::into).to_vec();
    let step = rules.words("Step", true, step);
    rules.labelled_by(step);
    rules.words("Crew", true, ["A", "A", "B", "B"].map(Into::into).to_vec());
    rules.words(
        "After",
        true,
        ["", "dig", "dig", "line"].map(Into::into).to_vec(),
    );
    rules.measured("Hours", H, vec![3.0, 2.0, 1.0, 4.0]);
    graph.make(&CREW);
    graph.make(&AFTER);
    graph
}

/// Holds a column to its three readings: the engine's numbers, the formula of one of its
/// rows, and the words; other engines come to the same numbers.
#[track_caller]
fn reads(
    add: impl FnOnce(&mut Graph) -> ColumnId,
    numbers: &[f64],
    (row, formula): (usize, &str),
    said: &str,
) {
    let mut graph = job();
    let id = add(&mut graph);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    let results = evaluate(&graph);
    assert_eq!(results.numbers(id), numbers);
    let sheets = Sheets::new(&graph);
    assert_eq!(sheets.formula(&graph, id.at(row)).unwrap(), formula);
    assert_eq!(words::of_column(&graph, id), said);
    recalculates(&graph, &results);
}

/// A column of steps, in hours.
fn of_steps(term: fn() -> Term<Steps>) -> impl FnOnce(&mut Graph) -> ColumnId {
    move |graph| graph.rules().step("found", H, &ARITHMETIC, term()).id
}

/// A column of steps that reads itself, in hours.
fn running(rule: fn(Own<Steps>) -> Term<Steps>) -> impl FnOnce(&mut Graph) -> ColumnId {
    move |graph| graph.rules().running("found", H, &ARITHMETIC, rule).id
}

/// A column of crews, in hours.
fn of_crews(term: fn() -> Term<Crews>) -> impl FnOnce(&mut Graph) -> ColumnId {
    move |graph| graph.rules().step("found", H, &ARITHMETIC, term()).id
}

#[test]
fn the_row_above_in_a_group() {
    reads(
        running(|own| own.row_above(CREW, 0.0) + hours()),
        &[3.0, 5.0, 1.0, 5.0],
        (1, "IF(E3=E2,G2,0)+D3"),
        "found of the row above (at the start, 0) + Hours",
    );
}

#[test]
fn the_row_above_in_the_table() {
    reads(
        running(|own| own.row_above_or(hours()) + hours()),
        &[6.0, 8.0, 9.0, 13.0],
        (1, "IF(ROW()=2,D3,G2)+D3"),
        "found of the row above (at the start, Hours) + Hours",
    );
}

#[test]
fn the_row_below_in_a_group() {
    reads(
        running(|own| own.row_below(CREW, 0.0) + hours()),
        &[5.0, 2.0, 5.0, 4.0],
        (0, "IF(AND(ROW()<5,E2=E3),G3,0)+D2"),
        "found of the row below (at the end, 0) + Hours",
    );
}

#[test]
fn the_row_below_in_the_table() {
    reads(
        running(|own| own.row_below_or(hours()) + hours()),
        &[14.0, 11.0, 9.0, 8.0],
        (3, "IF(ROW()<5,G6,D5)+D5"),
        "found of the row below (at the end, Hours) + Hours",
    );
}

#[test]
fn the_first_row_of_a_group() {
    reads(
        of_steps(|| hours().first_of(CREW)),
        &[3.0, 3.0, 1.0, 1.0],
        (3, "INDEX($D$2:$D$5,MATCH(E5,$E$2:$E$5,0))"),
        "Hours of the first row of its group",
    );
}

#[test]
fn a_row_above_that_is_named() {
    reads(
        running(|own| own.earlier(AFTER, 0.0) + hours()),
        &[3.0, 5.0, 4.0, 9.0],
        (3, "IF(AND(F5>0,F5<ROW()-1),INDEX($G$1:$G4,F5+1),0)+D5"),
        "found of the row above that its step before is (where there is none, 0) + Hours",
    );
}

#[test]
fn the_smallest_of_the_rows_below_that_name_this_one() {
    // The whole takes 9 hours; a step starts late enough where those after it may.
    reads(
        running(|own| own.lowest_below(AFTER, 9.0 * one(|_: System| H)) - hours()),
        &[0.0, 3.0, 8.0, 5.0],
        (
            0,
            "IF(COUNTIFS($F3:$F$6,ROW()-1)=0,9*1,_xlfn.MINIFS($G3:$G$6,$F3:$F$6,ROW()-1))-D2",
        ),
        "the smallest found of the rows below whose step before is this row \
         (where there is none, 9 × 1 h) − Hours",
    );
}

#[test]
fn the_largest_of_the_rows_below_that_name_this_one() {
    reads(
        running(|own| own.highest_below(AFTER, 0.0) + hours()),
        &[9.0, 6.0, 1.0, 4.0],
        (
            3,
            "IF(COUNTIFS($F6:$F$6,ROW()-1)=0,0,_xlfn.MAXIFS($G6:$G$6,$F6:$F$6,ROW()-1))+D5",
        ),
        "the largest found of the rows below whose step before is this row \
         (where there is none, 0) + Hours",
    );
}

#[test]
fn all_rows_below_that_name_this_one() {
    reads(
        running(|own| own.sum_below(AFTER) + hours()),
        &[10.0, 6.0, 1.0, 4.0],
        (
            2,
            "IF(COUNTIFS($F5:$F$6,ROW()-1)=0,0,SUMIFS($G5:$G$6,$F5:$F$6,ROW()-1))+D4",
        ),
        "the sum of found of the rows below whose step before is this row \
         (where there is none, 0) + Hours",
    );
}

#[test]
fn rows_of_another_table_that_name_this_one() {
    reads(
        of_crews(|| CREW.lowest(hours())),
        &[2.0, 1.0, 0.0],
        (0, "_xlfn.MINIFS(Steps!$D$2:$D$5,Steps!$E$2:$E$5,ROW()-1)"),
        "the smallest Hours over its step rows",
    );
    reads(
        of_crews(|| CREW.highest(hours())),
        &[3.0, 4.0, 0.0],
        (0, "_xlfn.MAXIFS(Steps!$D$2:$D$5,Steps!$E$2:$E$5,ROW()-1)"),
        "the largest Hours over its step rows",
    );
    reads(
        of_crews(|| CREW.sum(hours())),
        &[5.0, 5.0, 0.0],
        (2, "SUMIFS(Steps!$D$2:$D$5,Steps!$E$2:$E$5,ROW()-1)"),
        "sum of Hours over its step rows",
    );
}

#[test]
fn all_rows_of_a_table() {
    reads(
        of_crews(|| lowest_of_all(hours())),
        &[1.0; 3],
        (1, "MIN(Steps!$D$2:$D$5)"),
        "the smallest Hours of all step rows",
    );
    reads(
        of_crews(|| highest_of_all(hours())),
        &[4.0; 3],
        (1, "MAX(Steps!$D$2:$D$5)"),
        "the largest Hours of all step rows",
    );
    reads(
        of_crews(|| total(hours())),
        &[10.0; 3],
        (1, "SUM(Steps!$D$2:$D$5)"),
        "total Hours of all step rows",
    );
}

#[test]
fn a_name_below_or_its_own_is_no_row_above() {
    let mut graph = Graph::new(System::Us);
    graph.add_table::<Steps>(3);
    let mut rules = graph.rules::<Steps>();
    let step = rules.words("Step", true, ["a", "b", "c"].map(Into::into).to_vec());
    rules.labelled_by(step);
    rules.words("After", true, ["b", "b", "a"].map(Into::into).to_vec());
    let early = rules.running("early", ONE, &ARITHMETIC, |own| {
        own.earlier(AFTER, 5.0) + 1.0
    });
    let late = rules.running("late", ONE, &ARITHMETIC, |own| {
        own.highest_below(AFTER, 5.0) + 1.0
    });
    let results = evaluate(&graph);
    // Only the third names a row above, the first; only the first has a row below naming it.
    assert_eq!(results.numbers(early.id), [6.0, 6.0, 7.0]);
    assert_eq!(results.numbers(late.id), [7.0, 6.0, 6.0]);
    recalculates(&graph, &results);
}

/// The faults of a rule that reads itself in a table of steps.
fn refused(unit: Unit, rule: impl FnOnce(Own<Steps>) -> Term<Steps>) -> String {
    let mut graph = job();
    let mut rules: Rules<'_, Steps> = graph.rules();
    rules.running("wrong", unit, &ARITHMETIC, rule);
    let faults = graph.rule_faults();
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(evaluate(&graph).unworkable(&graph).is_empty());
    faults[0].clone()
}

#[test]
fn a_column_reads_itself_in_other_rows_only_and_in_one_direction() {
    let own_row = "Steps, wrong: it reads itself in its own row";
    assert_eq!(refused(H, |own| own.here() + hours()), own_row);
    assert_eq!(refused(H, |own| own.or(0.0)), own_row);
    assert_eq!(refused(H, |own| when(own.blank(), 0.0, hours())), own_row);
    assert_eq!(refused(H, |own| own.earlier(AFTER, own.here())), own_row);
    let any_row = "Steps, wrong: it reads itself in rows that may not be worked out yet";
    assert_eq!(refused(H, |own| total(own) + hours()), any_row);
    assert_eq!(refused(H, |own| first(own) + hours()), any_row);
    assert_eq!(refused(H, |own| own.first_of(CREW)), any_row);
    assert_eq!(refused(H, |own| AFTER.of(own) + hours()), any_row);
    assert_eq!(refused(H, |own| AFTER.sum(own)), any_row);
    let both = "Steps, wrong: it reads itself from above and from below";
    assert_eq!(
        refused(H, |own| own.earlier(AFTER, 0.0) + own.sum_below(AFTER)),
        both
    );
    assert_eq!(
        refused(H, |own| own.row_above(CREW, own.row_below(CREW, 0.0))),
        both
    );
}

#[test]
fn units_that_do_not_fit_are_caught_in_every_kind() {
    let misfits: [fn(Own<Steps>) -> Term<Steps>; 6] = [
        |own| own.earlier(AFTER, hours()),
        |own| own.row_above(CREW, hours()),
        |own| own.row_below(CREW, hours()),
        |own| own.lowest_below(AFTER, hours()),
        |own| own.sum_below(AFTER) + hours(),
        |own| own.row_below_or(hours()),
    ];
    for misfit in misfits {
        let fault = refused(FT, misfit);
        assert!(fault.contains("which is not a measure of"), "{fault}");
    }
    let mut graph = job();
    let mut rules = graph.rules::<Crews>();
    rules.step("wrong 1", FT, &ARITHMETIC, CREW.highest(hours()));
    rules.step("wrong 2", FT, &ARITHMETIC, lowest_of_all(hours()));
    let mut rules = graph.rules::<Steps>();
    rules.step("wrong 3", FT, &ARITHMETIC, hours().first_of(CREW));
    assert_eq!(graph.rule_faults().len(), 3, "{:?}", graph.rule_faults());
}
