//! The flow in two loops of pipe, by correcting a first guess loop by loop.
//!
//! No formula down a column finds the flows, for each rests on all others: a pure function
//! solves them, and in the workbook they are values. What they must meet is said by limits,
//! which stay live there: what flows into a joint flows out of it or is drawn, and round a
//! loop the losses of head cancel. An edit that the flows no longer fit breaks a limit at
//! once, and the page of changes asks for a new run.
//!
//! ```text
//! A ── AB ──▶ B       water comes in at A and is drawn at D;
//! │         ╱ │       one loop is A, B, C, the other B, D, C
//! AC     BC   BD
//! ▼   ◀╱      ▼
//! C ── CD ──▶ D
//! ```
//!
//! ```
//! use groundsheet::diagnostic::Code;
//! use groundsheet::graph::formula::Sheets;
//! use groundsheet::graph::prelude::*;
//! use groundsheet::graph::reads::Named;
//! use groundsheet::graph::rule::At;
//! use groundsheet::graph::{Graph, Solve, Table, Whole, evaluate, evaluate_with, words};
//! use groundsheet::sources::ARITHMETIC;
//! use groundsheet::units::{FT, GPM, ONE, System};
//!
//! #[derive(Debug)]
//! enum Joints {}
//! impl Table for Joints {
//!     const NAME: &'static str = "Joints";
//!     const ROW: &'static str = "joint";
//! }
//! #[derive(Debug)]
//! enum Pipes {}
//! impl Table for Pipes {
//!     const NAME: &'static str = "Pipes";
//!     const ROW: &'static str = "pipe";
//! }
//! #[derive(Debug)]
//! enum Loops {}
//! impl Table for Loops {
//!     const NAME: &'static str = "Loops";
//!     const ROW: &'static str = "loop";
//! }
//! // One row for each pipe of each loop.
//! #[derive(Debug)]
//! enum Parts {}
//! impl Table for Parts {
//!     const NAME: &'static str = "Parts";
//!     const ROW: &'static str = "part of a loop";
//! }
//!
//! const FROM: LookUp<Pipes, Joints> = LookUp::new("from row", || named::<Pipes>("From").key());
//! const TO: LookUp<Pipes, Joints> = LookUp::new("to row", || named::<Pipes>("To").key());
//! const LOOP: LookUp<Parts, Loops> = LookUp::new("loop row", || named::<Parts>("Loop").key());
//! const PIPE: LookUp<Parts, Pipes> = LookUp::new("pipe row", || named::<Parts>("Pipe").key());
//! // 1 where a loop runs along its pipe, -1 where it runs against it.
//! const WAY: Named<Parts> = named("Way");
//! // The head that is lost at a flow of one; it grows with the square of the flow.
//! const AT_ONE: Named<Pipes> = named("Lost at one");
//! const GUESS: Named<Pipes> = named("Guess");
//! const DRAWN: Named<Joints> = named("Drawn");
//!
//! const FLOW: Step<Pipes> = Step::solved("flow", System::flow, &ARITHMETIC, |graph| {
//!     let pipes = [graph.read(GUESS), graph.read(AT_ONE)];
//!     let parts = [graph.read(LOOP), graph.read(PIPE), graph.read(WAY)];
//!     Solve::new([&pipes[..], &parts[..]].concat(), balanced)
//! });
//!
//! // A flow sent round a loop leaves every joint in balance. Each pass sends, loop by loop,
//! // what would cancel the losses if they were straight in it.
//! fn balanced(columns: &[Whole<'_>]) -> Vec<f64> {
//!     let column = |at: usize| columns[at].numbers();
//!     let (at_one, loops, pipes, ways) = (column(1), column(2), column(3), column(4));
//!     let mut flow = column(0).to_vec();
//!     let last = loops.iter().fold(0.0, |last: f64, own| last.max(*own));
//!     for _pass in 0..100 {
//!         let mut own = 1.0;
//!         while own <= last {
//!             let parts = || (0..loops.len()).filter(|part| loops[*part] == own);
//!             // Look-ups count rows from one.
//!             let pipe = |part: usize| pipes[part] as usize - 1;
//!             let (mut lost, mut steep) = (0.0, 0.0);
//!             for part in parts() {
//!                 let (each, flow) = (at_one[pipe(part)], flow[pipe(part)]);
//!                 lost += ways[part] * each * flow * flow.abs();
//!                 steep += 2.0 * each * flow.abs();
//!             }
//!             for part in parts().filter(|_| steep > 0.0) {
//!                 flow[pipe(part)] -= ways[part] * lost / steep;
//!             }
//!             own += 1.0;
//!         }
//!     }
//!     flow
//! }
//!
//! const LOST: Step<Pipes> = Step::arithmetic("lost", System::length, || {
//!     let flow = || FLOW / one(System::flow);
//!     AT_ONE * flow() * highest(flow(), 0.0 - flow())
//! });
//! const IN: Step<Joints> = Step::arithmetic("flows in", System::flow, || TO.sum(FLOW));
//! const OUT: Step<Joints> = Step::arithmetic("flows out", System::flow, || FROM.sum(FLOW));
//! const LEFT: Step<Joints> =
//!     Step::arithmetic("left at the joint", System::flow, || IN - OUT - DRAWN);
//! const PART_LOST: Step<Parts> =
//!     Step::arithmetic("lost along the loop", System::length, || WAY * PIPE.of(LOST));
//! const ROUND: Step<Loops> =
//!     Step::arithmetic("lost round the loop", System::length, || LOOP.sum(PART_LOST));
//!
//! const FLOWS_ON: Limit<Joints> = Limit::fault(
//!     "water left at a joint",
//!     Code::OrderOfRows,
//!     At { table: "Joints", column: "Drawn" },
//!     || (LEFT / one(System::flow)).round_in(ONE, 6).differs_from(0.0),
//!     "more or less flows into this joint than flows out and is drawn",
//!     "guess flows that leave every joint in balance, and run again",
//! );
//! const CANCELS: Limit<Loops> = Limit::fault(
//!     "head lost round a loop",
//!     Code::OrderOfRows,
//!     At { table: "Loops", column: "Loop" },
//!     || (ROUND / one(System::length)).round_in(ONE, 6).differs_from(0.0),
//!     "the losses of head round this loop do not cancel",
//!     "run again",
//! );
//!
//! let mut graph = Graph::new(System::Us);
//! graph.add_table::<Joints>(4);
//! graph.add_table::<Pipes>(5);
//! graph.add_table::<Loops>(2);
//! graph.add_table::<Parts>(6);
//! let mut rules = graph.rules::<Joints>();
//! let name = rules.words("Joint", true, ["A", "B", "C", "D"].map(Into::into).to_vec());
//! rules.labelled_by(name);
//! rules.measured("Drawn", GPM, vec![-10.0, 0.0, 0.0, 10.0]);
//! let mut rules = graph.rules::<Pipes>();
//! let name = rules.words("Pipe", true, ["AB", "AC", "BC", "BD", "CD"].map(Into::into).to_vec());
//! rules.labelled_by(name);
//! rules.words("From", true, ["A", "A", "B", "B", "C"].map(Into::into).to_vec());
//! rules.words("To", true, ["B", "C", "C", "D", "D"].map(Into::into).to_vec());
//! rules.measured("Lost at one", FT, vec![1.0, 2.5, 4.0, 1.16, 1.0]);
//! rules.measured("Guess", GPM, vec![7.0, 3.0, 1.0, 6.0, 4.0]);
//! let mut rules = graph.rules::<Loops>();
//! let name = rules.words("Loop", true, ["one", "two"].map(Into::into).to_vec());
//! rules.labelled_by(name);
//! let mut rules = graph.rules::<Parts>();
//! let loops = ["one", "one", "one", "two", "two", "two"];
//! rules.words("Loop", true, loops.map(Into::into).to_vec());
//! rules.words("Pipe", true, ["AB", "BC", "AC", "BD", "CD", "BC"].map(Into::into).to_vec());
//! rules.measured("Way", ONE, vec![1.0, 1.0, -1.0, 1.0, -1.0, -1.0]);
//! graph.make_list(&[&FLOWS_ON, &CANCELS]);
//! assert!(graph.rule_faults().is_empty());
//!
//! // The pipes were made for flows of 6, 4, 1, 5 and 5: in balance at every joint (10 = 6 + 4,
//! // 6 = 1 + 5, 4 + 1 = 5, 5 + 5 = 10), with losses of 36, 40, 4, 29 and 25 that cancel round
//! // both loops (36 + 4 - 40, 29 - 25 - 4).
//! let results = evaluate(&graph);
//! let near = |numbers: &[f64], wanted: &[f64]| {
//!     numbers.iter().zip(wanted).all(|(number, wanted)| (number - wanted).abs() < 1e-9)
//! };
//! assert!(near(results.numbers(graph.id(FLOW)), &[6.0, 4.0, 1.0, 5.0, 5.0]));
//! assert!(near(results.numbers(graph.id(LOST)), &[36.0, 40.0, 4.0, 29.0, 25.0]));
//! let [flows_on, cancels] = [graph.made(&FLOWS_ON).unwrap(), graph.made(&CANCELS).unwrap()];
//! assert_eq!(results.numbers(flows_on), [0.0; 4]);
//! assert_eq!(results.numbers(cancels), [0.0; 2]);
//!
//! // In the workbook, each table a sheet: the flow is a value, the rest are formulas.
//! let sheets = Sheets::new(&graph);
//! assert_eq!(sheets.formula(&graph, graph.id(FLOW).at(0)), None);
//! assert_eq!(
//!     sheets.formula(&graph, graph.id(ROUND).at(1)).unwrap(),
//!     "SUMIFS(Parts!$F$2:$F$7,Parts!$D$2:$D$7,ROW()-1)"
//! );
//! assert_eq!(
//!     sheets.formula(&graph, cancels.at(1)).unwrap(),
//!     "IF(ROUND(ROUND(B3/1,6),9)<>0,1,0)"
//! );
//!
//! // In words:
//! assert_eq!(
//!     words::of_column(&graph, cancels),
//!     "(lost round the loop ÷ 1 ft, to 6 decimals) is not 0"
//! );
//! assert_eq!(words::of_column(&graph, graph.id(LEFT)), "flows in − flows out − Drawn");
//!
//! // Where AC and BD lose no more than AB and CD, the two ways are alike: half the water takes
//! // each, and none crosses from B to C.
//! let at_one = graph.id(AT_ONE);
//! let alike = evaluate_with(&graph, &results, &[(at_one.at(1), 1.0.into()), (at_one.at(3), 1.0.into())]);
//! assert!(near(alike.numbers(graph.id(FLOW)), &[5.0, 5.0, 0.0, 5.0, 5.0]));
//! assert_eq!(alike.numbers(cancels), [0.0; 2]);
//!
//! // Where more is drawn than the guess brings, the limit at both ends says so.
//! let drawn = graph.id(DRAWN);
//! let more = evaluate_with(&graph, &results, &[(drawn.at(0), (-12.0).into()), (drawn.at(3), 12.0.into())]);
//! assert_eq!(more.numbers(flows_on), [1.0, 0.0, 0.0, 1.0]);
//! ```
