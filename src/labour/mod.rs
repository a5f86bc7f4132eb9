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
mod by_the_crew;
pub mod compared;
pub mod gifts;
pub mod in_use;
pub mod materials;
pub mod parties;
pub mod sharing;
pub mod tasks;
pub mod terms;

use crate::graph::{Graph, Piece, Table};
use crate::job::tables::Partners;
use crate::pricing::lines::LineColumns;
use crate::takeoff::grades::USUAL_GRADE;
use crate::takeoff::line::{Line, fixed};

/// Adds who does what, and tells the lines as they are in the scenario in use. `lines` are as
/// the crew does all of them.
pub fn labour(graph: &mut Graph, lines: &LineColumns) -> LineColumns {
    for rules in [
        gifts::RULES,
        tasks::RULES,
        tasks::LIMITS,
        parties::RULES,
        break_even::RULES,
    ] {
        graph.make_list(rules);
    }
    in_use::in_use(graph, lines)
}

/// The lines of the partners: what goes with their work, at the end of the bid.
pub fn lines(graph: &mut Graph) -> Vec<Line> {
    graph.make_list(compared::RULES);
    graph.make_list(terms::RULES);
    let names = graph.id(Partners::Partner);
    let at_work = graph.read(parties::PARTNER_AT_WORK);
    let grade = graph.read(USUAL_GRADE);
    let line = |row: usize| Line {
        table: Partners::NAME,
        name: vec![fixed("Work with "), Piece::Cell(names.at(row))],
        section: vec![fixed("Work with partners")],
        description: vec![
            fixed("Work with "),
            Piece::Cell(names.at(row)),
            fixed(": lead, training, gear and what goes with it"),
        ],
        unit: vec![fixed("ls")],
        quantity: at_work.at(row),
        amount: None,
        waste: None,
        material: None,
        work: None,
        worked: None,
        price: None,
        grade: grade.at(0),
    };
    let partners = tasks::partners_at_work(graph);
    partners.into_iter().map(line).collect()
}
