//! The client's copy holds what the client may see, and nothing else.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "test code: what should be there and is not is a failed test"
)]

use std::fs;
use std::io::Cursor;
use std::path::Path;
use std::process::{Command, Output};

use calamine::{Data, Reader, Xlsx, open_workbook_from_rs};
use groundsheet::diagnostic::Meaning;
use groundsheet::estimate::Estimate;
use groundsheet::graph::Breach;
use groundsheet::money;
use groundsheet::write::{ClientCopy, ClientItem, ClientRow, client_copy, client_workbook};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use tempfile::TempDir;

mod leaks;

use crate::errors::parts_of;
use crate::support::{SAMPLE_JOBS, US, estimate_of, sample_job, sample_path, worked_out};

/// Every part that the workbook may have.
const PARTS: &[&str] = &[
    "[Content_Types].xml",
    "_rels/.rels",
    "docProps/app.xml",
    "docProps/core.xml",
    "docProps/custom.xml",
    "xl/_rels/workbook.xml.rels",
    "xl/sharedStrings.xml",
    "xl/styles.xml",
    "xl/theme/theme1.xml",
    "xl/workbook.xml",
    "xl/worksheets/sheet1.xml",
];

/// A cell of the copy as a reader of workbooks sees it.
#[derive(Debug, PartialEq)]
enum Seen {
    Words(String),
    Number(f64),
}

/// Every cell of a workbook that holds something, row by row.
fn cells(bytes: &[u8]) -> Vec<Seen> {
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes)).unwrap();
    assert_eq!(book.sheet_names(), ["Bid"]);
    let range = book.worksheet_range("Bid").unwrap();
    let seen = range.used_cells().filter_map(|(_, _, data)| match data {
        Data::Float(number) => Some(Seen::Number(*number)),
        Data::String(words) if !words.is_empty() => Some(Seen::Words(words.clone())),
        Data::Empty | Data::String(_) => None,
        other => panic!("{other:?}"),
    });
    seen.collect()
}

/// The cells that a copy may have: its own fields, and fixed labels.
fn allowed(copy: &ClientCopy) -> Vec<Seen> {
    let words = |words: &str| Seen::Words(words.to_owned());
    let money = |amount: Decimal| Seen::Number(amount.to_f64().unwrap());
    let mut all: Vec<Seen> = copy.draft.iter().map(|draft| words(draft)).collect();
    all.extend([words(&copy.title), words(copy.about)]);
    for (label, value) in &copy.facts {
        all.extend([words(label), words(value)]);
    }
    if items(copy).any(|item| !item.number.is_empty()) {
        all.push(words("Item"));
    }
    all.push(words("Description"));
    if copy.by_unit_price {
        all.extend(["Quantity", "Unit", "Unit price"].map(words));
    }
    all.push(words("Amount"));
    for row in &copy.rows {
        match row {
            ClientRow::Section(name) | ClientRow::Part(name) => all.push(words(name)),
            ClientRow::Item(item) => {
                let number = Some(&item.number).filter(|number| !number.is_empty());
                all.extend(number.map(|number| words(number)));
                all.push(words(&item.description));
                if let Some(extent) = &item.extent {
                    all.extend([Seen::Number(extent.quantity), words(&extent.unit)]);
                    all.push(money(extent.unit_price));
                }
                all.push(money(item.amount));
            }
        }
    }
    all.extend([words(copy.total_label), money(copy.total)]);
    for list in &copy.lists {
        all.push(words(list.heading));
        all.extend(list.entries.iter().map(|entry| words(entry)));
    }
    all.extend(["Accepted by", "Date"].map(words));
    all
}

fn items(copy: &ClientCopy) -> impl Iterator<Item = &ClientItem> {
    copy.rows.iter().filter_map(|row| match row {
        ClientRow::Item(item) => Some(item),
        _ => None,
    })
}

/// The copy of an estimate and its workbook; proves on the way that it is the whitelist
/// and nothing else, and that its amounts are the bid.
fn proved(estimate: &Estimate) -> (ClientCopy, Vec<u8>) {
    let copy = client_copy(estimate, &[]);
    let bytes = client_workbook(&copy).unwrap();
    let mut parts: Vec<String> = parts_of(&bytes).into_iter().map(|(name, _)| name).collect();
    parts.sort();
    assert_eq!(parts, PARTS);
    assert_eq!(cells(&bytes), allowed(&copy));
    for (part, content) in parts_of(&bytes) {
        let text = String::from_utf8(content).unwrap();
        for tag in [
            "<f>",
            "<f ",
            "definedName",
            "hidden=",
            "dataValidation",
            "hyperlink",
        ] {
            assert!(!text.contains(tag), "{part} has {tag}");
        }
    }
    let bid = money::amount(estimate.bid());
    assert_eq!(copy.total, bid);
    assert_eq!(items(&copy).map(|item| item.amount).sum::<Decimal>(), bid);
    for item in items(&copy) {
        assert_eq!(item.extent.is_some(), copy.by_unit_price);
        if let Some(extent) = &item.extent {
            let product = extent.quantity * extent.unit_price.to_f64().unwrap();
            assert_eq!(money::amount(product), item.amount, "{item:?}");
        }
    }
    assert!(client_workbook(&copy).unwrap() == bytes);
    (copy, bytes)
}

#[test]
fn every_sample_is_its_whitelist_and_adds_up() {
    for name in SAMPLE_JOBS {
        let estimate = sample_job(name);
        let (copy, _) = proved(&estimate);
        assert_eq!(copy.draft.is_some(), estimate.is_draft(), "{name}");
    }
}

const ITEMS: &str = "Item,Section,Description,Unit,Times,Price,Plug price\n\
A-1,Stone,Cap stone,ea,4,50,\n\
A-2,Stone,Step stone,ea,6,50,\n\
A-3,Pipes,Pipe run,ea,3,10,\n\
A-4,Pipes,Valve,ea,2,25,\n\
A-5,Pipes,Drain,ea,1,,\n\
A-6,Finish,Bench,ea,1,,300\n";
const NUMBERS: &str = "Line,Client's item number,Client's wording\n\
A-1,4.2,Stonework\n\
A-2,4.2,\n\
Pipes,3,\n";

/// A small job of six items at cost: 200 + 300 + 30 + 50 + 300 = 880.
fn small(kind: &str, numbers: &str) -> Estimate {
    let job = format!("{US}Bid kind,{kind}\nBid date,2026-11-20\nValid for (days),30\n");
    let terms = "Kind,Words\ninclusion,Clean up\nexclusion,Permits\nassumption,Dry weather\n";
    estimate_of(&[
        ("Job", &job),
        ("Other items", ITEMS),
        ("Client items", numbers),
        ("Bid terms", terms),
    ])
}

fn row(number: &str, description: &str, extent: Option<(f64, &str, i64)>, cents: i64) -> ClientRow {
    ClientRow::Item(ClientItem {
        number: number.to_owned(),
        description: description.to_owned(),
        extent: extent.map(|(quantity, unit, price)| groundsheet::write::Extent {
            quantity,
            unit: unit.to_owned(),
            unit_price: Decimal::new(price, 2),
        }),
        amount: Decimal::new(cents, 2),
    })
}

#[test]
fn lines_of_one_number_become_one_item() {
    // 4 and 6 stones at 50 are 10 at 50; pipes and valves have two prices, so 1 ls.
    let (copy, _) = proved(&small("unit price", NUMBERS));
    let expected = [
        row("4.2", "Stonework", Some((10.0, "ea", 5000)), 50_000),
        row("3", "Pipes", Some((1.0, "ls", 8000)), 8000),
        ClientRow::Part("Pipe run".to_owned()),
        ClientRow::Part("Valve".to_owned()),
        ClientRow::Section("Finish".to_owned()),
        row("", "Bench", Some((1.0, "ea", 30_000)), 30_000),
    ];
    assert_eq!(copy.rows, expected);
    let (copy, _) = proved(&small("lump sum", NUMBERS));
    let expected = [
        row("4.2", "Stonework", None, 50_000),
        row("3", "Pipes", None, 8000),
        ClientRow::Part("Pipe run".to_owned()),
        ClientRow::Part("Valve".to_owned()),
        row("", "Finish", None, 30_000),
        ClientRow::Part("Bench".to_owned()),
    ];
    assert_eq!(copy.rows, expected);
}

#[test]
fn terms_and_what_is_not_priced_are_told() {
    let (copy, _) = proved(&small("lump sum", "Line,Client's item number\n"));
    // The drain has no price; the bench has a plug.
    let draft = "DRAFT: 2 points are still open, so that prices and quantities may change.";
    assert_eq!(copy.draft.as_deref(), Some(draft));
    let list = |heading: &str| {
        let mut lists = copy.lists.iter().filter(|list| list.heading == heading);
        lists.next().unwrap().entries.clone()
    };
    assert_eq!(list("Included"), ["Clean up"]);
    let excluded = ["Permits", "Not priced yet, and not in the total: Drain"];
    assert_eq!(list("Not included"), excluded);
    let assumed = ["Dry weather", "An allowance, until a price is in: Bench"];
    assert_eq!(list("Assumptions"), assumed);
    // 20 November and 30 days: 10 left in November, 20 in December.
    let stands = ["This bid stands until 2026-12-20."];
    assert_eq!(list("How long this bid stands"), stands);
}

/// A plug of each kind, as the limits themselves say it: no name and no message is read.
#[test]
fn an_allowance_is_told_by_what_its_limit_means() {
    let tables = [
        ("Job", US),
        (
            "Other items",
            "Item,Section,Description,Unit,Times,Material,Work,Price,Plug price\n\
             Bench,Finish,Bench,each,1,,,,300\n\
             Post,Finish,Post,each,2,Post,,,\n\
             Rail,Finish,Rail,each,3,,Set rail,,\n\
             Gate,Finish,Gate,each,4,,,50,\n",
        ),
        ("Materials", "Material,Unit,Plug price\nPost,each,20\n"),
        ("Crews", "Crew,People,Plug wage\nGang,2,30\n"),
        (
            "Production rates",
            "Work,Unit,Crew,Crew output\nSet rail,each,Gang,1\n",
        ),
    ];
    let job = estimate_of(&tables);
    let standing_in = |breach: &Breach| breach.meaning == Meaning::StandsIn;
    let limits = job.graph.limits().filter(|(_, breach)| standing_in(breach));
    let broken = limits.filter(|(limit, _)| job.results.numbers(*limit).contains(&1.0));
    assert_eq!(broken.count(), 3); // of an item, a material, a wage
    let copy = client_copy(&job, &[]);
    let mut lists = copy.lists.iter();
    let assumed = lists.find(|list| list.heading == "Assumptions").unwrap();
    let told =
        ["Bench", "Post", "Rail"].map(|item| format!("An allowance, until a price is in: {item}"));
    assert!(
        told.iter().all(|told| assumed.entries.contains(told)),
        "{assumed:?}"
    );
    assert_eq!(assumed.entries.len(), 3);
}

#[test]
fn a_name_that_is_neither_line_nor_section_blocks() {
    let items = "Line,Client's item number\nPipe,3\n";
    let tables = [("Job", US), ("Other items", ITEMS), ("Client items", items)];
    let (_, findings) = worked_out(&tables);
    let found = findings.iter().find(|finding| finding.blocks()).unwrap();
    assert!(found.message.contains("no line and no section of the bid"));
    assert_eq!(found.hint.as_deref(), Some("did you mean \"Pipes\"?"));
}

fn bid(job: &Path, output: &Path, client: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_groundsheet"))
        .arg("bid")
        .arg(job)
        .arg("-o")
        .arg(output)
        .arg("--client")
        .arg(client)
        .output()
        .unwrap()
}

#[test]
fn the_program_writes_both_the_same_each_time() {
    let folder = TempDir::new().unwrap();
    let at = |name: &str| folder.path().join(name);
    let job = sample_path("quick-pond");
    assert_eq!(
        bid(&job, &at("a.xlsx"), &at("b.xlsx")).status.code(),
        Some(0)
    );
    let first = fs::read(at("b.xlsx")).unwrap();
    let longer = bid(&sample_path("school-pond"), &at("a.xlsx"), &at("b.xlsx"));
    assert_eq!(longer.status.code(), Some(0));
    assert!(fs::read(at("b.xlsx")).unwrap().len() > first.len());
    assert_eq!(
        bid(&job, &at("a.xlsx"), &at("b.xlsx")).status.code(),
        Some(0)
    );
    assert!(fs::read(at("b.xlsx")).unwrap() == first);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2);
}

#[test]
fn the_clients_copy_overwrites_neither_job_nor_workbook() {
    let folder = TempDir::new().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::create_dir(at("sub")).unwrap();
    let job = at("job.xlsx");
    fs::copy(sample_path("school-pond"), &job).unwrap();
    let before = fs::read(&job).unwrap();
    let clashes = [
        ("a.xlsx", "a.xlsx"),
        ("a.xlsx", "sub/../a.xlsx"),
        ("a.xlsx", "job.xlsx"),
        ("a.xlsx", "sub/../job.xlsx"),
        ("a.xlsx", "nowhere/b.xlsx"),
        ("a.xlsx", "b.txt"),
    ];
    for (output, client) in clashes {
        let done = bid(&job, &at(output), &at(client));
        assert_eq!(done.status.code(), Some(2), "{client}");
        assert!(!at("a.xlsx").exists(), "{client}");
        assert!(fs::read(&job).unwrap() == before, "{client}");
    }
}

#[test]
fn a_blocked_job_leaves_neither() {
    let folder = TempDir::new().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::create_dir(at("job")).unwrap();
    fs::write(at("job/Job.csv"), US).unwrap();
    fs::write(at("job/Other items.csv"), ITEMS).unwrap();
    let items = "Line,Client's item number\nNothing like it,3\n";
    fs::write(at("job/Client items.csv"), items).unwrap();
    let done = bid(&at("job"), &at("a.xlsx"), &at("b.xlsx"));
    assert_eq!(done.status.code(), Some(1));
    assert!(!at("a.xlsx").exists() && !at("b.xlsx").exists());
}
