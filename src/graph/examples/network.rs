//! When activities can start, must finish, and how long they can wait, where each may follow
//! several others.
//!
//! By column this is a circle: when an activity can start rests on when those before it
//! finish, which is when they start. By cell it is none: every activity stands below those
//! that it follows, and reads only them. So there is a table of links, one row for each pair
//! of an activity and one that it follows, in the order of work; an activity that follows
//! none has one row without. The links of one activity stand together, and its last one knows
//! them all:
//!
//! - going down, a link starts as late as the link above of the same activity, or as the
//!   activity that it follows is done, which its last link knows: [`row_above`] and
//!   [`earlier`];
//! - going up, a link starts as late as the one below of the same activity; the last one as
//!   the first of those that follow it allows: [`row_below`] and [`lowest_below`].
//!
//! The formulas read rows above, or rows below, and so no cell reads itself. What stands in
//! the wrong order is not read at all: limits say so.
//!
//! ```
//! use groundsheet::diagnostic::Code;
//! use groundsheet::graph::formula::Sheets;
//! use groundsheet::graph::prelude::*;
//! use groundsheet::graph::reads::Named;
//! use groundsheet::graph::rule::At;
//! use groundsheet::graph::{Graph, Table, evaluate, evaluate_with, words};
//! use groundsheet::sources::ARITHMETIC;
//! use groundsheet::units::{H, System};
//!
//! #[derive(Debug)]
//! enum Activities {}
//! impl Table for Activities {
//!     const NAME: &'static str = "Activities";
//!     const ROW: &'static str = "activity";
//! }
//! #[derive(Debug)]
//! enum Links {}
//! impl Table for Links {
//!     const NAME: &'static str = "Links";
//!     const ROW: &'static str = "link";
//! }
//!
//! const HOURS: Named<Activities> = named("Hours");
//! const ACTIVITY: LookUp<Links, Activities> =
//!     LookUp::new("activity row", || named::<Links>("Activity").key());
//! const AFTER: LookUp<Links, Activities> =
//!     LookUp::new("row of the activity before", || named::<Links>("After").key());
//! const NUMBER: Step<Links> = Step::numbered("number");
//! // The last link of each activity, and of the activity that a link follows.
//! const LAST: LookUp<Activities, Links> =
//!     LookUp::by_number("last link", &ARITHMETIC, || ACTIVITY.highest(NUMBER));
//! const BEFORE: LookUp<Links, Links> =
//!     LookUp::by_number("link before", &ARITHMETIC, || AFTER.of(LAST));
//!
//! const EARLY: Step<Links> = Step::running("early", System::hours, &ARITHMETIC, |own| {
//!     highest(own.row_above(ACTIVITY, 0.0), own.earlier(BEFORE, 0.0) + AFTER.of(HOURS))
//! });
//! const EARLY_START: Step<Activities> =
//!     Step::arithmetic("early start", System::hours, || LAST.of(EARLY));
//! const EARLY_FINISH: Step<Activities> =
//!     Step::arithmetic("early finish", System::hours, || EARLY_START + HOURS);
//! const LATE: Step<Links> = Step::running("late", System::hours, &ARITHMETIC, |own| {
//!     let finish = own.lowest_below(BEFORE, highest_of_all(EARLY_FINISH));
//!     own.row_below(ACTIVITY, finish - ACTIVITY.of(HOURS))
//! });
//! const LATE_START: Step<Activities> =
//!     Step::arithmetic("late start", System::hours, || LAST.of(LATE));
//! const LATE_FINISH: Step<Activities> =
//!     Step::arithmetic("late finish", System::hours, || LATE_START + HOURS);
//! const FLOAT: Step<Activities> =
//!     Step::arithmetic("float", System::hours, || LATE_START - EARLY_START);
//!
//! const ORDER: Limit<Links> = Limit::fault(
//!     "link above what it follows",
//!     Code::OrderOfRows,
//!     At { table: "Links", column: "After" },
//!     || AFTER.found().and(BEFORE.at_least(NUMBER)),
//!     "the activity before stands below this link, or has no link",
//!     "put the links in the order of work",
//! );
//! const PLACE: Step<Links> = Step::running("place", System::number, &ARITHMETIC, |own| {
//!     own.row_above(ACTIVITY, 0.0) + 1.0
//! });
//! const TOGETHER: Limit<Links> = Limit::fault(
//!     "links apart",
//!     Code::OrderOfRows,
//!     At { table: "Links", column: "Activity" },
//!     || PLACE.differs_from(NUMBER - NUMBER.first_of(ACTIVITY) + 1.0),
//!     "the links of one activity do not stand together",
//!     "put them one below the other",
//! );
//!
//! let mut graph = Graph::new(System::Us);
//! graph.add_table::<Activities>(5);
//! graph.add_table::<Links>(6);
//! let mut rules = graph.rules::<Activities>();
//! let names = ["Strip", "Dig", "Pipes", "Wall", "Fill"].map(Into::into).to_vec();
//! let name = rules.words("Activity", true, names);
//! rules.labelled_by(name);
//! rules.measured("Hours", H, vec![2.0, 3.0, 1.0, 4.0, 2.0]);
//! let links = [
//!     ("Strip", ""), ("Dig", "Strip"), ("Pipes", "Strip"), ("Wall", "Dig"), ("Fill", "Wall"), ("Fill", "Pipes"),
//! ];
//! let mut rules = graph.rules::<Links>();
//! rules.words("Activity", true, links.map(|(activity, _)| activity.into()).to_vec());
//! let after = rules.words("After", true, links.map(|(_, after)| after.into()).to_vec());
//! graph.make_list(&[&EARLY_FINISH, &LATE_FINISH, &FLOAT, &ORDER, &TOGETHER]);
//! assert!(graph.rule_faults().is_empty());
//!
//! // By hand: strip 0-2, dig 2-5, pipes 2-3, wall 5-9, and fill 9-11, when wall and pipes are
//! // both done. Back from 11: fill from 9, so wall from 5 and pipes from 8; dig from 2; strip
//! // from 0, when dig must start. Only the pipes can wait, for 6 hours.
//! let results = evaluate(&graph);
//! let of = |step: Step<Activities>| results.numbers(graph.id(step));
//! assert_eq!(of(EARLY_START), [0.0, 2.0, 2.0, 5.0, 9.0]);
//! assert_eq!(of(EARLY_FINISH), [2.0, 5.0, 3.0, 9.0, 11.0]);
//! assert_eq!(of(LATE_START), [0.0, 2.0, 8.0, 5.0, 9.0]);
//! assert_eq!(of(LATE_FINISH), [2.0, 5.0, 9.0, 9.0, 11.0]);
//! assert_eq!(of(FLOAT), [0.0, 0.0, 6.0, 0.0, 0.0]);
//!
//! // In the workbook, each table a sheet; the last link reads only the rows above it:
//! let sheets = Sheets::new(&graph);
//! let (early, late) = (graph.id(EARLY), graph.id(LATE));
//! assert_eq!(
//!     sheets.formula(&graph, early.at(5)).unwrap(),
//!     "MAX(IF(C7=C6,G6,0),IF(AND(F7>0,F7<ROW()-1),INDEX($G$1:$G6,F7+1),0)+\
//!      IF(E7=0,0,INDEX(Activities!$B$2:$B$6,E7)))"
//! );
//! // And the first link reads only the rows below it:
//! assert_eq!(
//!     sheets.formula(&graph, late.at(0)).unwrap(),
//!     "IF(AND(ROW()<7,C2=C3),H3,IF(COUNTIFS($F3:$F$8,ROW()-1)=0,MAX(Activities!$E$2:$E$6),\
//!      _xlfn.MINIFS($H3:$H$8,$F3:$F$8,ROW()-1))-IF(C2=0,0,INDEX(Activities!$B$2:$B$6,C2)))"
//! );
//!
//! // In words:
//! assert_eq!(
//!     words::of_column(&graph, early),
//!     "the larger of (early of the row above (at the start, 0)) and (early of the row above \
//!      that its link before is (where there is none, 0) + activity's Hours)"
//! );
//! assert_eq!(
//!     words::of_column(&graph, late),
//!     "late of the row below (at the end, the smallest late of the rows below whose link \
//!      before is this row (where there is none, the largest early finish of all activity \
//!      rows) − activity's Hours)"
//! );
//!
//! // Pipes that take 8 hours finish at 10, and hold the fill up for one hour; the wall and
//! // the dig can then wait for it.
//! let pipes = graph.id(HOURS).at(2);
//! let longer = evaluate_with(&graph, &results, &[(pipes, 8.0.into())]);
//! assert_eq!(longer.numbers(graph.id(EARLY_START)), [0.0, 2.0, 2.0, 5.0, 10.0]);
//! assert_eq!(longer.numbers(graph.id(FLOAT)), [0.0, 1.0, 0.0, 1.0, 0.0]);
//!
//! // Words too: where the pipes follow the wall, they start when it is done.
//! let moved = evaluate_with(&graph, &results, &[(after.id.at(2), "Dig".into())]);
//! assert_eq!(moved.numbers(graph.id(EARLY_START)), [0.0, 2.0, 5.0, 5.0, 9.0]);
//! // After the wall they would stand above what they follow: a limit says so.
//! let above = evaluate_with(&graph, &results, &[(after.id.at(2), "Wall".into())]);
//! assert_eq!(above.numbers(graph.made(&ORDER).unwrap()), [0.0, 0.0, 1.0, 0.0, 0.0, 0.0]);
//! ```
//!
//! [`row_above`]: crate::graph::reads::Numbers::row_above
//! [`row_below`]: crate::graph::reads::Numbers::row_below
//! [`earlier`]: crate::graph::reads::Own::earlier
//! [`lowest_below`]: crate::graph::reads::Own::lowest_below
