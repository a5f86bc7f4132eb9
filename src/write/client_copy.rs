//! The client's copy of a bid: what a client may see, and nothing else.
//!
//! Always true: [`ClientCopy`] owns everything that its workbook shows, as plain words and
//! amounts, and the sheet is written from it alone, so that no cost, rate, mark-up or note
//! can reach the file; the amounts add up to the bid to the cent.
//!
//! Not here: where the file goes (`cli`).

mod items;
mod lacking;
mod others;
mod sheet;
mod terms;

pub use sheet::client_workbook;

use rust_decimal::Decimal;

use super::head;
use crate::diagnostic::{Diagnostic, Severity};
use crate::estimate::Estimate;
use crate::job::tables::JobKeys;
use crate::money;
use crate::units::System;

/// Everything that the client's copy shows.
#[derive(Clone, Debug, PartialEq)]
pub struct ClientCopy {
    /// What stands at the top of a draft; none on a bid that is complete.
    pub draft: Option<String>,
    /// The job's name.
    pub title: String,
    /// What kind of bid it is, for people.
    pub about: &'static str,
    /// Client, site, date and who prepared it, each with its label, where they are given.
    pub facts: Vec<(&'static str, String)>,
    /// Whether quantities and unit prices are shown.
    pub by_unit_price: bool,
    /// The bid, row by row.
    pub rows: Vec<ClientRow>,
    /// What the total is called.
    pub total_label: &'static str,
    /// The bid: the sum of the amounts of the rows.
    pub total: Decimal,
    /// Sign of the money.
    pub currency: String,
    /// The terms, list by list; no list is empty.
    pub lists: Vec<ClientList>,
    /// Whether the paper is that of metric countries.
    pub metric_paper: bool,
}

/// One row of the client's table.
#[derive(Clone, Debug, PartialEq)]
pub enum ClientRow {
    /// Heading of the items below it.
    Section(String),
    /// Something with an amount.
    Item(ClientItem),
    /// Work that the amount above it includes.
    Part(String),
}

/// Something with an amount.
#[derive(Clone, Debug, PartialEq)]
pub struct ClientItem {
    /// The client's item number; empty where they have none.
    pub number: String,
    /// What it is.
    pub description: String,
    /// Quantity, unit and unit price, whose product is the amount; none in a lump-sum bid.
    pub extent: Option<Extent>,
    /// Its amount in the bid.
    pub amount: Decimal,
}

/// How much there is of an item.
#[derive(Clone, Debug, PartialEq)]
pub struct Extent {
    /// To the thousandth.
    pub quantity: f64,
    /// As people write it: yd³, ls.
    pub unit: String,
    /// Price of one unit.
    pub unit_price: Decimal,
}

/// A list of terms.
#[derive(Clone, Debug, PartialEq)]
pub struct ClientList {
    /// What stands above it.
    pub heading: &'static str,
    /// One sentence each.
    pub entries: Vec<String>,
}

/// What the client may see of an estimate; `findings` are those of reading the job, whose
/// open points count as well.
#[must_use]
pub fn client_copy(estimate: &Estimate, findings: &[Diagnostic]) -> ClientCopy {
    let by_unit_price = estimate.job.word(JobKeys::BidKind) == "unit price";
    let lacking = lacking::lacking(estimate);
    let draft = draft(estimate, findings);
    ClientCopy {
        title: head::title(estimate).to_owned(),
        about: if by_unit_price {
            "Bid by unit price"
        } else {
            "Lump-sum bid"
        },
        facts: head::told(estimate),
        by_unit_price,
        rows: items::rows(estimate, &lacking, by_unit_price),
        total_label: if draft.is_some() {
            "Total, as far as priced"
        } else {
            "Total"
        },
        total: money::amount(estimate.bid()),
        currency: estimate.currency().to_owned(),
        lists: terms::lists(estimate, &lacking),
        metric_paper: estimate.job.system() == System::Metric,
        draft,
    }
}

/// What stands at the top of a draft.
fn draft(estimate: &Estimate, findings: &[Diagnostic]) -> Option<String> {
    let all = findings.iter().chain(&estimate.findings);
    let open = all.filter(|finding| finding.severity == Severity::Open);
    let said = match open.count() {
        0 => return None,
        1 => "1 point is".to_owned(),
        count => format!("{count} points are"),
    };
    Some(format!(
        "DRAFT: {said} still open, so that prices and quantities may change."
    ))
}
