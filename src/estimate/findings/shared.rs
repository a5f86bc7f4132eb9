//! Findings that one row of the book mends, told once.
//!
//! Always true: the first of them is told, in its place, with the number of the others.

use std::collections::BTreeSet;

use crate::diagnostic::{Code, Diagnostic};
use crate::graph::TableId;
use crate::place::Place;
use crate::shown::shown;

/// What a finding shares with others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Share {
    /// The name of a material or a work that the book does not have.
    Name(Code, String),
    /// The unit of a material or a work, in words.
    Unit(String),
    /// The cell to change, of tasks that one row gives away.
    Cell(Code, Option<Place>),
    /// Nothing: each is told.
    Nothing,
}

/// Findings by what they share, in their order.
#[derive(Debug, Default)]
pub(super) struct Shares {
    found: Vec<(Share, Diagnostic, BTreeSet<Row>)>,
}

/// A row that a finding is about.
type Row = (TableId, usize);

impl Shares {
    /// Adds a finding about a row: to that which shares with it, where there is one.
    pub(super) fn add(&mut self, share: Share, found: Diagnostic, row: Row) {
        let mut known = self.found.iter_mut();
        match known.find(|(known, ..)| *known != Share::Nothing && *known == share) {
            Some((_, _, rows)) => {
                rows.insert(row);
            }
            None => self.found.push((share, found, BTreeSet::from([row]))),
        }
    }

    /// The findings; one for a name that is not in the book ends with that name, and with
    /// how many others look for it.
    pub(super) fn into_findings(self) -> Vec<Diagnostic> {
        self.found.into_iter().map(told).collect()
    }
}

fn told((share, found, rows): (Share, Diagnostic, BTreeSet<Row>)) -> Diagnostic {
    let more = match rows.len() {
        0 | 1 => String::new(),
        2 => ", and for 1 row more".to_owned(),
        rows => format!(", and for {} rows more", rows - 1),
    };
    let name = match share {
        Share::Name(_, name) if rows.len() > 1 || !found.message.contains(&shown(&name)) => {
            format!(": \"{}\"", shown(&name))
        }
        _ => String::new(),
    };
    let message = format!("{}{name}{more}", found.message);
    Diagnostic { message, ..found }
}
