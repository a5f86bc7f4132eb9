//! The rows of the client's table: their items first, then what has no number, by section.
//!
//! Always true: every line with an amount is in exactly one row with an amount, so that
//! these add up to the bid; a quantity times its unit price is its amount to the cent. A
//! line without an amount is left out where nothing is measured or nothing prices it.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::lacking::Lack;
use super::{ClientItem, ClientRow, Extent};
use crate::bid::amounts::{AMOUNT, UNIT_PRICE};
use crate::bid::client_items::{BY_LINE, BY_SECTION};
use crate::estimate::Estimate;
use crate::graph::Table;
use crate::job::Fields;
use crate::job::tables::{ClientItems, OtherItems};
use crate::money;
use crate::pricing::costs::{QUANTITY, UNIT_SHOWN};
use crate::pricing::lines;
use crate::write::headings::sentence;

/// Beyond this many letters, names of sections are not strung together.
const LONGEST_TITLE: usize = 120;

/// The rows of the table.
pub(super) fn rows(estimate: &Estimate, lacking: &[Lack], by_unit_price: bool) -> Vec<ClientRow> {
    let seen = seen(estimate, lacking);
    let mut rows = Vec::new();
    for item in numbered(estimate) {
        let own = of(&seen, |line| line.item.as_ref() == Some(&item.key));
        if !own.is_empty() {
            rows.extend(client_item(item, &own, by_unit_price));
        }
    }
    let mut sections: Vec<String> = Vec::new();
    for line in seen.iter().filter(|line| line.item.is_none()) {
        let key = line.section.to_lowercase();
        if sections.contains(&key) {
            continue;
        }
        let in_it = |other: &Seen| other.item.is_none() && other.section.to_lowercase() == key;
        let own = of(&seen, in_it);
        rows.extend(section(&line.section, &own, by_unit_price));
        sections.push(key);
    }
    rows
}

/// What a client may see of one line.
struct Seen {
    section: String,
    description: String,
    extent: Extent,
    amount: Decimal,
    /// The client's item number, plainly written.
    item: Option<String>,
}

/// The lines that are shown.
fn seen(estimate: &Estimate, lacking: &[Lack]) -> Vec<Seen> {
    let numbers = estimate.job.table::<ClientItems>();
    let numbers = numbers.words(ClientItems::ClientNumber.index());
    let mut all = Vec::new();
    for (line, lack) in lacking.iter().enumerate() {
        let amount = money::amount(estimate.number(AMOUNT, line));
        let quantity = estimate.number(QUANTITY, line);
        if amount.is_zero() && (quantity == 0.0 || *lack == Lack::Price) {
            continue;
        }
        let number = item_row(estimate, line).and_then(|row| numbers.get(row));
        all.push(Seen {
            section: estimate.words(lines::SECTION, line).to_owned(),
            description: described(estimate, line),
            extent: Extent {
                quantity,
                unit: estimate.words(UNIT_SHOWN, line).to_owned(),
                unit_price: money::amount(estimate.number(UNIT_PRICE, line)),
            },
            amount,
            item: number.map(|number| plain(number)),
        });
    }
    all
}

/// What a line is. Our own words begin with a capital; the user's stay as they are.
pub(super) fn described(estimate: &Estimate, line: usize) -> String {
    let words = estimate.words(lines::DESCRIPTION, line);
    match estimate.words(lines::TABLE, line) {
        OtherItems::NAME => words.to_owned(),
        _ => sentence(words),
    }
}

/// The row of Client items for a line: its own, else that of its section.
fn item_row(estimate: &Estimate, line: usize) -> Option<usize> {
    let own = estimate.row_found(BY_LINE, line);
    own.or_else(|| estimate.row_found(BY_SECTION, line))
}

/// A number of the client's form.
struct Numbered {
    key: String,
    number: String,
    wording: String,
}

/// The client's item numbers in the order of their rows, each once, with the first wording.
fn numbered(estimate: &Estimate) -> Vec<Numbered> {
    let table = estimate.job.table::<ClientItems>();
    let numbers = table.words(ClientItems::ClientNumber.index());
    let wordings = table.words(ClientItems::ClientWording.index());
    let mut all: Vec<Numbered> = Vec::new();
    for (number, wording) in numbers.iter().zip(wordings) {
        let key = plain(number);
        match all.iter_mut().find(|item| item.key == key) {
            Some(item) if item.wording.is_empty() => item.wording = wording.to_string(),
            Some(_) => {}
            None => all.push(Numbered {
                key,
                number: number.to_string(),
                wording: wording.to_string(),
            }),
        }
    }
    all
}

/// Numbers that differ in upper and lower case only are the same.
fn plain(number: &str) -> String {
    number.trim().to_lowercase()
}

fn of(seen: &[Seen], wanted: impl Fn(&Seen) -> bool) -> Vec<&Seen> {
    seen.iter().filter(|line| wanted(line)).collect()
}

/// One item of the client's, made of one line or of several; without the client's wording,
/// several lines are named below it.
fn client_item(item: Numbered, own: &[&Seen], by_unit_price: bool) -> Vec<ClientRow> {
    let told = !item.wording.is_empty();
    let (description, parts) = match own {
        _ if told => (item.wording, Vec::new()),
        [only] => (only.description.clone(), Vec::new()),
        several => (sections_of(several), parts(several)),
    };
    let whole = ClientRow::Item(ClientItem {
        number: item.number,
        description,
        extent: by_unit_price.then(|| extent(own)),
        amount: amount(own),
    });
    [vec![whole], parts].concat()
}

/// A section without a number: its lines with their prices, or one amount and what it
/// includes.
fn section(name: &str, own: &[&Seen], by_unit_price: bool) -> Vec<ClientRow> {
    let item = |description: &str, extent: Option<Extent>, amount: Decimal| {
        ClientRow::Item(ClientItem {
            number: String::new(),
            description: description.to_owned(),
            extent,
            amount,
        })
    };
    if !by_unit_price {
        return [vec![item(name, None, amount(own))], parts(own)].concat();
    }
    let lines = own
        .iter()
        .map(|line| item(&line.description, Some(extent(&[line])), line.amount));
    let heading = std::iter::once(ClientRow::Section(name.to_owned()));
    heading.chain(lines).collect()
}

fn amount(own: &[&Seen]) -> Decimal {
    own.iter().map(|line| line.amount).sum()
}

fn parts(own: &[&Seen]) -> Vec<ClientRow> {
    own.iter()
        .map(|line| ClientRow::Part(line.description.clone()))
        .collect()
}

/// The names of the sections that lines are from; of the first, where they are many.
fn sections_of(own: &[&Seen]) -> String {
    let mut names: Vec<&str> = Vec::new();
    for line in own {
        if !names.contains(&&*line.section) {
            names.push(&line.section);
        }
    }
    let joined = names.join("; ");
    match names.first() {
        Some(first) if joined.chars().count() > LONGEST_TITLE && names.len() > 1 => {
            format!("{first}, and other work")
        }
        _ => joined,
    }
}

/// Quantity, unit and unit price of lines together: their own, where they share unit and
/// price and the product is the amount to the cent; else the whole as one lump sum.
fn extent(own: &[&Seen]) -> Extent {
    let amount = amount(own);
    let lump = Extent {
        quantity: 1.0,
        unit: "ls".to_owned(),
        unit_price: amount,
    };
    let Some((first, others)) = own.split_first() else {
        return lump;
    };
    let (unit, price) = (&first.extent.unit, first.extent.unit_price);
    let alike = |line: &&&Seen| line.extent.unit == *unit && line.extent.unit_price == price;
    let quantity = own.iter().map(|line| line.extent.quantity).sum();
    let quantity = money::round(quantity, 3);
    let product = money::amount(quantity * price.to_f64().unwrap_or(f64::NAN));
    let many_lumps = unit == "ls" && !others.is_empty();
    if product == amount && !many_lumps && others.iter().all(|line| alike(&line)) {
        return Extent {
            quantity,
            unit: unit.clone(),
            unit_price: price,
        };
    }
    lump
}
