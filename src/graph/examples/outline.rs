//! The area of an outline by the coordinates of its corners.
//!
//! From the first corner of an outline, each side makes a triangle; those triangles together
//! are the area, whichever way round the corners go. A corner is a row; the corner before is
//! the row above, and the first corner is the first row of the group that the outline makes.
//! So the outline closes by itself: where a group begins there is no side yet, and its
//! triangle is nothing.
//!
//! ```
//! use groundsheet::graph::formula::Sheets;
//! use groundsheet::graph::prelude::*;
//! use groundsheet::graph::reads::Named;
//! use groundsheet::graph::{Graph, Table, evaluate, evaluate_with, words};
//! use groundsheet::units::{M, System};
//!
//! #[derive(Debug)]
//! enum Outlines {}
//! impl Table for Outlines {
//!     const NAME: &'static str = "Outlines";
//!     const ROW: &'static str = "outline";
//! }
//! #[derive(Debug)]
//! enum Corners {}
//! impl Table for Corners {
//!     const NAME: &'static str = "Corners";
//!     const ROW: &'static str = "corner";
//! }
//!
//! const X: Named<Corners> = named("X");
//! const Y: Named<Corners> = named("Y");
//! const OUTLINE: LookUp<Corners, Outlines> =
//!     LookUp::new("outline row", || named::<Corners>("Of").key());
//!
//! // How far a corner and the one before it lie from the first.
//! const EAST: Step<Corners> = Step::geometry("east", System::length, || X - X.first_of(OUTLINE));
//! const NORTH: Step<Corners> = Step::geometry("north", System::length, || Y - Y.first_of(OUTLINE));
//! const TRIANGLE: Step<Corners> = Step::geometry("triangle", System::area, || {
//!     (EAST.row_above(OUTLINE, 0.0) * NORTH - EAST * NORTH.row_above(OUTLINE, 0.0)) / 2.0
//! });
//! const TURNED: Step<Outlines> =
//!     Step::geometry("area by its turn", System::area, || OUTLINE.sum(TRIANGLE));
//! const AREA: Step<Outlines> =
//!     Step::geometry("area", System::area, || highest(TURNED, 0.0 - TURNED));
//!
//! let mut graph = Graph::new(System::Metric);
//! graph.add_table::<Outlines>(2);
//! graph.add_table::<Corners>(10);
//! let mut rules = graph.rules::<Outlines>();
//! let name = rules.words("Outline", true, vec!["Field".into(), "Shed".into()]);
//! rules.labelled_by(name);
//! let mut rules = graph.rules::<Corners>();
//! let of = (0..10).map(|row| if row < 6 { "Field" } else { "Shed" }.into());
//! rules.words("Of", true, of.collect());
//! rules.measured("X", M, vec![0.0, 20.0, 65.0, 110.0, 90.0, 40.0, 5.0, 8.0, 8.0, 5.0]);
//! rules.measured("Y", M, vec![0.0, 42.0, 58.0, 0.0, -60.0, -20.0, 7.0, 7.0, 11.0, 11.0]);
//! let area = graph.make(&AREA);
//! assert!(graph.rule_faults().is_empty());
//!
//! // The field: 6,975 m², as printed in Surveying and Levelling (1994), page 207, problem 1.
//! // The shed: 3 m by 4 m, its corners the other way round.
//! let results = evaluate(&graph);
//! assert_eq!(results.numbers(area), [6975.0, 12.0]);
//!
//! // In the workbook, each table a sheet:
//! let sheets = Sheets::new(&graph);
//! let triangle = graph.id(TRIANGLE);
//! assert_eq!(sheets.formula(&graph, graph.id(EAST).at(2)).unwrap(), "B4-INDEX($B$2:$B$11,MATCH(D4,$D$2:$D$11,0))");
//! assert_eq!(
//!     sheets.formula(&graph, triangle.at(2)).unwrap(),
//!     "(IF(D4=D3,E3,0)*F4-E4*IF(D4=D3,F3,0))/2"
//! );
//!
//! // In words:
//! assert_eq!(words::of_column(&graph, graph.id(EAST)), "X − X of the first row of its group");
//! assert_eq!(words::of_column(&graph, graph.id(TURNED)), "sum of triangle over its corner rows");
//!
//! // The third corner 2 m further north: half of 2 m times the 90 m between its neighbours more.
//! let third = graph.id(Y).at(2);
//! let moved = evaluate_with(&graph, &results, &[(third, 60.0.into())]);
//! assert_eq!(moved.numbers(area), [7065.0, 12.0]);
//! ```
