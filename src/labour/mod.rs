//! Labour: the same quantities in other hands.
//!
//! A partner of the client's does whole lines of the take-off, or shares of them, in a
//! scenario. What the crew would have done is displaced; what the partner's sessions cost is
//! added: a lead, training, set-up, gear, machines that stand, work done again. Nothing is
//! counted twice, and what is given is valued beside the cost, never within it.
//!
//! Always true: scenarios are rows; a line's hours and costs in use are those of the scenario
//! that the job names; without scenarios nothing is added to the graph but the columns of
//! the input tables.
//!
//! Not here: orders, mark-ups and the bid in each scenario (`bid::scenarios`).

pub mod activities;
pub mod break_even;
pub mod compared;
pub mod gifts;
pub mod in_use;
pub mod materials;
pub mod parties;
pub mod sharing;
pub mod tasks;
pub mod terms;
pub mod with_partners;

use crate::graph::Graph;
use crate::graph::prelude::*;
use crate::job::tables::Partners;
use crate::takeoff::bill::{BidLine, Columns, Counted, Line, Part, RowByRow};
use crate::takeoff::grades::USUAL_GRADE;

/// Who does what, and the lines as they are in the scenario in use.
pub const RULES: &[&[&dyn Rule]] = &[
    gifts::RULES,
    tasks::RULES,
    tasks::LIMITS,
    parties::RULES,
    break_even::RULES,
    in_use::RULES,
];

/// The lines of the partners: what goes with their work, at the end of the bid.
pub fn lines(graph: &mut Graph) -> Vec<Line> {
    graph.make_list(compared::RULES);
    graph.make_list(terms::RULES);
    let partners = tasks::partners_at_work(graph);
    WITH_PARTNERS.of_rows(graph, partners)
}

const PARTNER: Part = Part::Of(|| Partners::Partner.key());

const WITH_PARTNERS: RowByRow<Partners> = RowByRow::new(&[&BidLine {
    arises: |_, _| true,
    section: Part::Fixed("Work with partners"),
    zone: None,
    name: &[Part::Fixed("Work with "), PARTNER],
    says: &[
        Part::Fixed("Work with "),
        PARTNER,
        Part::Fixed(": lead, training, gear and what goes with it"),
    ],
    counted: Counted::ByColumns(Columns {
        quantity: || parties::PARTNER_AT_WORK.key(),
        unit: Part::Fixed("ls"),
        waste: None,
        material: None,
        work: None,
    }),
    price: None,
    grade: || GRADE.key(),
    only_where_some: false,
}]);

/// What goes with partners' work is as certain as the job is usually measured.
const GRADE: Wording<Partners> = Wording::new("grade in use", || USUAL_GRADE.only_words());
