//! Break-even: what each task saves, and the pace at which it would save nothing.
//!
//! Always true: a task bears its share of what its partner costs once, in proportion to the
//! labor and equipment that it displaces; the pace of break-even, put back, saves nothing to
//! the cent.

use super::parties::PartyColumns;
use super::tasks::TaskColumns;
use super::terms::Terms;
use crate::graph::prelude::*;
use crate::graph::{Column, Graph, Text, TextExpr, either, when};
use crate::pricing::cents;
use crate::sources;
use crate::tables::{Parties, Tasks};
use crate::units::{H, MONEY, PERCENT};

/// What each task saves, and when it would save nothing.
#[derive(Clone, Copy, Debug)]
pub struct BreakEvenColumns {
    /// Its share of what the partner costs once.
    pub once: Column<Tasks>,
    /// What it saves of direct cost.
    pub saving: Column<Tasks>,
    /// Pace at which it saves nothing; zero where there is none.
    pub pace: Column<Tasks>,
    /// What is to be said of that pace.
    pub said: Text<Tasks>,
}

/// Adds what each task saves, and its pace of break-even.
///
/// A task saves nothing where its sessions cost what it displaces less what it costs at any
/// pace. With learning, hours = (work ÷ pace) × sessions at first pace to the power of
/// learning, which is turned over for the pace.
pub(super) fn break_even(
    graph: &mut Graph,
    terms: &Terms,
    task: &TaskColumns,
    party: &PartyColumns,
) -> BreakEvenColumns {
    let mut rules = graph.rules::<Tasks>();
    let of = |column: Column<Parties>| task.party.of(column);
    let displaced = of(party.displaced) + of(party.equipment_displaced);
    let own = task.labor_displaced + task.equipment_displaced;
    let once = cents(of(party.once) * own.clone() / displaced.clone());
    let once = when(displaced.above(0.0), once, 0.0);
    let once = rules.arithmetic("share of what is paid once", MONEY, once);
    let gained = own - once;
    let cost = task.labor + task.equipment + task.bought + task.material;
    let saving = rules.arithmetic("saving", MONEY, cents(gained.clone() - cost));
    let session = task.partner.of(terms.labor)
        + task.partner.of(terms.equipment)
        + task.partner.of(terms.bought);
    let session = rules.from_job("cost of a session", MONEY, session);
    let left = rules.arithmetic("left for sessions", MONEY, gained - task.whatever_pace);
    let work = task.partner.of(terms.work_of_session);
    let hours = when(
        session.here().above(0.0),
        left / session * work.clone(),
        0.0,
    );
    let hours = rules.arithmetic("hours at break-even", H, hours);
    let some = hours.here().above(0.0).and(task.to_do.here().above(0.0));
    let plain = when(some.clone(), task.to_do / hours, 0.0);
    let power = task.partner.of(terms.learning);
    let sessions = when(work.clone().above(0.0), hours / work, 0.0);
    // In first sessions, the work of the task is its hours over those of a session; the pace
    // follows from (work ÷ pace) to the power of one and the learning.
    let many = sessions.clone().above(1.0);
    let turned = sessions.to_the(power.clone() / (1.0 + power)) * plain.clone();
    let learned = when(some.clone().and(many), turned, plain);
    let pace = rules.step("pace of break-even", PERCENT, &sources::LEARNING, learned);
    // Sessions that cost nothing save at any pace, if the rest costs less than is displaced.
    let costs_nothing = session.here().same_as(0.0).and(left.here().above(0.0));
    let no_pace = either(
        costs_nothing,
        TextExpr::Fixed("saves at any pace".to_owned()),
        TextExpr::Fixed("saves at no pace".to_owned()),
    );
    let at_pace = TextExpr::Fixed("saves above this pace".to_owned());
    let said = rules.word_step("what that means", either(some, at_pace, no_pace));
    BreakEvenColumns {
        once,
        saving,
        pace,
        said,
    }
}
