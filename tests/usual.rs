//! The usual names: what rules look up is what the template offers.

use std::collections::BTreeSet;

use groundsheet::graph::expr::TextExpr;
use groundsheet::graph::{Graph, Kind};
use groundsheet::takeoff::usual;
use groundsheet::takeoff::works::Earthmoving;
use groundsheet::units::System;

use crate::support::{US, estimate_of};

/// What only rows of Quick measure name: the rules do not stand in for it.
const OF_THE_QUICK_PAGE: [&str; 5] = [
    "Way in",
    "Ground mats",
    "Water line",
    "Power line",
    "Fabric",
];

/// The fixed words that a rule may look up in a table.
fn looked_up(graph: &Graph, table: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for id in graph.columns() {
        let Kind::Lookup { key, parent } = &graph.column(id).kind else {
            continue;
        };
        let Kind::WordStep(words) = &graph.column(*key).kind else {
            continue;
        };
        if graph.table(*parent).name == table {
            fixed(words, &mut found);
        }
    }
    found.remove("");
    found
}

fn fixed(words: &TextExpr, found: &mut BTreeSet<String>) {
    match words {
        TextExpr::Fixed(words) => {
            found.insert(words.clone());
        }
        TextExpr::When(_, yes, no) => {
            fixed(yes, found);
            fixed(no, found);
        }
        _ => {}
    }
}

fn offered<'n>(names: impl Iterator<Item = (&'n str, &'n str)>) -> BTreeSet<String> {
    let names = names.map(|(name, _)| name.to_owned());
    names
        .filter(|name| !OF_THE_QUICK_PAGE.contains(&name.as_str()))
        .collect()
}

#[test]
fn every_name_that_a_rule_looks_up_is_offered_and_nothing_else_is() {
    let item = "Item,Section,Description,Unit,Times\nA-1,S,D,ea,1\n";
    let graph = estimate_of(&[("Job", US), ("Other items", item)]).graph;
    let materials = looked_up(&graph, "Materials");
    assert_eq!(materials, offered(usual::materials(System::Us)));
    // Earthwork looks its works up by another way: all of them are offered.
    let earth = Earthmoving::ALL.map(|work| work.name().to_owned());
    let mut works = looked_up(&graph, "Production rates");
    works.extend(earth);
    assert_eq!(works, offered(usual::works(System::Us)));
}
