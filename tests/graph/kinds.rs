//! A graph with every kind of column.

use std::sync::Arc;

use groundsheet::diagnostic::Code;
use groundsheet::graph::prelude::*;
use groundsheet::graph::reads::Own;
use groundsheet::graph::{Breach, Column, Graph, Link, Piece, Solve, Table, Term, Text, Whole};
use groundsheet::sources::{ARITHMETIC, JOB};
use groundsheet::units::{FT, FT2, IN, ONE, System};

use super::random::{FOLLOWING, Inputs};

/// What parts belong to.
#[derive(Debug)]
enum Groups {}

impl Table for Groups {
    const NAME: &'static str = "Groups";
    const ROW: &'static str = "group";
}

/// Parts, each of a group and after another part.
#[derive(Debug)]
enum Parts {}

impl Table for Parts {
    const NAME: &'static str = "Parts";
    const ROW: &'static str = "part";
}

/// The whole.
#[derive(Debug)]
enum All {}

impl Table for All {
    const NAME: &'static str = "All of it";
    const ROW: &'static str = "job";
}

/// What is shown elsewhere.
#[derive(Debug)]
enum Picks {}

impl Table for Picks {
    const NAME: &'static str = "Picks";
    const ROW: &'static str = "pick";
}

fn arcs(words: &[&'static str]) -> Vec<Arc<str>> {
    words.iter().copied().map(Arc::from).collect()
}

/// The input columns and the look-ups among them.
#[derive(Clone, Copy)]
struct Base {
    factor: Column<Groups>,
    group_name: Text<Groups>,
    length: Column<Parts>,
    rank: Column<Parts>,
    part: Text<Parts>,
    note: Text<Parts>,
    group: Link<Parts, Groups>,
    after: Link<Parts, Parts>,
    usual: Column<All>,
    mode: Text<All>,
}

fn base(graph: &mut Graph, inputs: &Inputs) -> Base {
    graph.add_table::<Groups>(inputs.names.len());
    graph.add_table::<Parts>(inputs.part.len());
    graph.add_table::<All>(1);
    let mut rules = graph.rules::<All>();
    let usual = rules.measured("Usual", FT, inputs.usual.clone());
    let mode = rules.words("Mode", false, arcs(&inputs.mode));
    let mut rules = graph.rules::<Groups>();
    let group_name = rules.words("Group", true, arcs(&inputs.names));
    rules.labelled_by(group_name);
    let factor = rules.measured("Factor", FT, inputs.factor.clone());
    let mut rules = graph.rules::<Parts>();
    let part = rules.words("Part", true, arcs(&inputs.part));
    rules.labelled_by(part);
    let of = rules.words("Of", true, arcs(&inputs.of));
    let after = rules.words("After", true, arcs(&inputs.after));
    let length = rules.measured("Length", FT, inputs.length.clone());
    let rank = rules.measured("Rank", ONE, inputs.rank.clone());
    let note = rules.words("Note", false, arcs(&inputs.note));
    let group = rules.link("group row", of);
    let after = rules.link("row it comes after", after);
    if inputs.follows[0] {
        graph.follow(length.id.at(FOLLOWING), factor.id.at(0));
    }
    if inputs.follows[1] {
        graph.follow(note.id.at(FOLLOWING), mode.id.at(0));
    }
    Base {
        factor,
        group_name,
        length,
        rank,
        part,
        note,
        group,
        after,
        usual,
        mode,
    }
}

/// Columns that read rows of their own table.
fn own_table(graph: &mut Graph, base: Base) -> [Column<Parts>; 3] {
    let Base { group, after, .. } = base;
    let mut rules = graph.rules::<Parts>();
    let in_use = base.length.or(only(base.usual));
    let in_use = rules.arithmetic("length in use", FT, in_use);
    let so_far = rules.running("so far", FT, &ARITHMETIC, |own| {
        own.row_above(group, 0.5 * one(FT)) + in_use
    });
    rules.running("number", ONE, &ARITHMETIC, |own| {
        own.row_above_or(0.0) + 1.0
    });
    let above = base.length.row_above(group, in_use);
    rules.arithmetic("length above", FT, above);
    let above = highest(base.length.row_above_or(base.usual_here()), 2.0 * one(FT));
    rules.arithmetic("length above, whatever group", FT, above);
    let first = base.length.first_of(group) - base.length;
    rules.arithmetic("behind the first", FT, first);
    let early = rules.running("early", FT, &ARITHMETIC, |own| {
        own.earlier(after, in_use * 0.25) + in_use
    });
    let both =
        |own: Own<Parts>| highest(own.row_above(group, 0.0), own.earlier(after, 0.0)) + in_use;
    rules.running("early, one by one", FT, &ARITHMETIC, both);
    rules.running("left", FT, &ARITHMETIC, |own| {
        own.row_below(group, only(base.usual)) + in_use
    });
    rules.running("number from the end", ONE, &ARITHMETIC, |own| {
        own.row_below_or(0.0) + 1.0
    });
    let below = highest(base.length.row_below(group, in_use), base.usual_here());
    rules.arithmetic("length below", FT, below);
    let below = base.length.row_below_or(0.0);
    rules.arithmetic("length below, whatever group", FT, below);
    rules.running("late, one by one", FT, &ARITHMETIC, |own| {
        own.row_below(group, own.lowest_below(after, only(base.usual))) - in_use
    });
    rules.running("late", FT, &ARITHMETIC, |own| {
        own.lowest_below(after, 3.0 * only(base.usual)) - in_use
    });
    rules.running("most behind it", FT, &ARITHMETIC, |own| {
        own.highest_below(after, early) + in_use
    });
    rules.running("all behind it", FT, &ARITHMETIC, |own| {
        own.sum_below(after) + in_use
    });
    [in_use, so_far, early]
}

impl Base {
    /// The usual length beside a part.
    fn usual_here(self) -> Term<Parts> {
        only(self.usual)
    }
}

/// Columns that ask and choose, in numbers and in words.
fn asking(graph: &mut Graph, base: Base, [in_use, so_far, _]: [Column<Parts>; 3]) {
    let mut rules = graph.rules::<Parts>();
    let blank = base.length.blank();
    let marked = base.note.is("b").or(blank.clone());
    let marked = when(marked, 1.0, when(base.rank.above(2.0), 2.0, 3.0));
    let marked = rules.arithmetic("marked", ONE, marked);
    let noted = either(
        base.note.filled().and(marked.differs_from(2.0)),
        base.note.words(),
        either(
            base.rank.blank(),
            base.mode.only_words(),
            base.group.words_of(base.group_name),
        ),
    );
    let noted = rules.word_step("noted", noted);
    let meant: Link<Parts, Groups> = rules.link("group that is meant", noted);
    let meant_factor = lowest(meant.of(base.factor), in_use) + base.group.of(base.factor);
    let meant_factor = rules.arithmetic("factor that is meant", IN, meant_factor);
    let before = base.after.of(so_far) + base.after.of(base.length);
    rules.arithmetic("of the one before", FT, before);
    rules.word_step("name of the one before", base.after.words_of(base.part));
    let area = rules.arithmetic("area", FT2, meant_factor * in_use);
    let area_in = area.here().round_in(FT2, 1) / one(FT2);
    rules.arithmetic("area, rounded", ONE, area_in.round_up());
    let breach = Breach::fault(Code::OrderOfRows, base.length.id, "too long", "shorten it");
    let broken = in_use.above(meant.of(base.factor)).and(meant.found());
    let broken = rules.limit("too long", broken, breach);
    let ratio = so_far / (in_use - only(base.usual));
    rules.arithmetic("may not be workable", ONE, ratio);
    rules.arithmetic("broken so far", ONE, broken.row_above_or(0.0) + broken);
}

/// Columns of whole columns: solved and added up.
fn whole(graph: &mut Graph, base: Base, [_, so_far, early]: [Column<Parts>; 3]) {
    // The lengths in the order of their notes: numbers and words decide together.
    let inputs = vec![base.length.id, base.note.id];
    let by_note = Solve::new(inputs, |columns: &[Whole<'_>]| {
        let (lengths, notes) = (columns[0].numbers(), columns[1].words());
        let mut order: Vec<usize> = (0..notes.len()).collect();
        order.sort_by_key(|row| &notes[*row]);
        let length = |row: &usize| Some(lengths[*row]).filter(|length| !length.is_nan());
        order
            .iter()
            .map(|row| length(row).unwrap_or(-1.0))
            .collect()
    });
    let mut rules = graph.rules::<Parts>();
    let sorted = rules.solved("sorted", FT, &JOB, by_note);
    let off = rules.arithmetic("off", FT, sorted - base.length);
    let mut rules = graph.rules::<Groups>();
    let sum = rules.arithmetic("sum", FT, base.group.sum(so_far));
    rules.arithmetic("unsorted", FT, base.group.sum(off) + base.factor);
    rules.running("sums so far", FT, &ARITHMETIC, |own| {
        own.row_above_or(0.0) + sum
    });
    let shortest = base.group.lowest(base.length);
    let shortest = rules.arithmetic("shortest", FT, shortest);
    let span = base.group.highest(so_far) - shortest;
    rules.arithmetic("span", FT, span);
    let twice = Solve::new(vec![sum.id], |columns| {
        columns[0].numbers().iter().map(|sum| 2.0 * sum).collect()
    });
    let twice = rules.solved("twice", FT, &JOB, twice);
    let mut rules = graph.rules::<All>();
    let all = total(twice) - total(base.length) + first(early);
    let extremes = highest_of_all(base.length) - lowest_of_all(early);
    rules.arithmetic("extremes", FT, extremes);
    rules.arithmetic("all", FT, all);
}

const BY_NUMBER: LookUp<Parts, Groups> = LookUp::by_number("row by number", &ARITHMETIC, || {
    when(named::<Parts>("Rank").above(2.0), named("group row"), 1.0)
});

/// Columns of single cells, and look-ups among them and by number.
fn picked(graph: &mut Graph, base: Base, [in_use, so_far, early]: [Column<Parts>; 3]) {
    let unsorted = graph.find("Groups", "unsorted").unwrap();
    let cells = vec![
        Some(early.id.at(0)),
        None,
        Some(unsorted.at(0)),
        Some(in_use.id.at(1)),
    ];
    let noted = graph.find("Parts", "noted").unwrap();
    let names = vec![
        vec![Piece::Cell(base.part.id.at(0))],
        vec![Piece::Fixed("fixed".into())],
        vec![Piece::Fixed("a ".into()), Piece::Cell(noted.at(1))],
        vec![Piece::Cell(base.group_name.id.at(0))],
    ];
    graph.add_table::<Picks>(4);
    let mut rules = graph.rules::<Picks>();
    let picked = rules.gathered("picked", FT, cells);
    let name = rules.gathered_words("name", names);
    rules.labelled_by(name);
    rules.arithmetic("picked twice", FT, picked + picked);
    let mut rules = graph.rules::<Parts>();
    let pick: Link<Parts, Picks> = rules.link("pick", base.note);
    rules.arithmetic("picked", FT, pick.of(picked));
    rules.arithmetic("factor by number", FT, BY_NUMBER.of(base.factor));
    let mut rules = graph.rules::<Groups>();
    rules.arithmetic("sum by number", FT, BY_NUMBER.sum(so_far));
}

pub(super) fn graph_of(inputs: &Inputs) -> Graph {
    let mut graph = Graph::new(System::Us);
    let base = base(&mut graph, inputs);
    let own = own_table(&mut graph, base);
    asking(&mut graph, base, own);
    whole(&mut graph, base, own);
    picked(&mut graph, base, own);
    assert_eq!(graph.rule_faults(), &[] as &[String]);
    graph
}
