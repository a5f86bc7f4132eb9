//! The CSV files of exported pages: one a block, named after its page and itself.
//!
//! Always true: words that a spreadsheet program would take for a formula are led by an
//! apostrophe, and a file holds what its block in `results.json` does.

use std::collections::BTreeSet;

use super::{BlockRecord, ColumnRecord, ExportRecord, PageRecord, Value, ValueKind};
use crate::write::records::{self, harmless};
use crate::write::sheets::UPRIGHT;

/// Names the file of each block, no two alike.
pub(super) fn name(pages: &mut [PageRecord]) {
    let mut taken = BTreeSet::new();
    for page in pages {
        for block in &mut page.blocks {
            let stem = stem(page.name, &block.title);
            let numbered = (2..).map(|number| format!("{stem}-{number}"));
            let mut free = std::iter::once(stem.clone()).chain(numbered);
            let free = free.find(|name| taken.insert(name.clone()));
            block.file = format!("{}.csv", free.unwrap_or(stem));
        }
    }
}

/// Page and title in lower case with hyphens; the page only once.
fn stem(page: &str, title: &str) -> String {
    let [page, title] = [page, title].map(hyphened);
    if title.starts_with(&page) {
        title
    } else if title.is_empty() {
        page
    } else {
        format!("{page}-{title}")
    }
}

fn hyphened(words: &str) -> String {
    let parts = words.split(|c: char| !c.is_alphanumeric());
    let parts: Vec<String> = parts
        .filter(|part| !part.is_empty())
        .map(str::to_lowercase)
        .collect();
    parts.join("-")
}

/// The name and text of every CSV file of an export.
#[must_use]
pub fn csv_files(export: &ExportRecord) -> Vec<(String, String)> {
    let blocks = export.pages.iter().flat_map(|page| &page.blocks);
    let text = |block: &BlockRecord| {
        let rows = if block.upright {
            upright(block, &export.bid.currency)
        } else {
            in_rows(block, &export.bid.currency)
        };
        (block.file.clone(), records::csv(&rows).unwrap_or_default())
    };
    blocks.map(text).collect()
}

fn in_rows(block: &BlockRecord, currency: &str) -> Vec<Vec<String>> {
    let heading = |column: &ColumnRecord| match unit(column, currency) {
        unit if unit.is_empty() => harmless(&column.name),
        unit => harmless(&format!("{} ({unit})", column.name)),
    };
    let mut rows = vec![block.columns.iter().map(heading).collect::<Vec<_>>()];
    for row in &block.rows {
        let cells = row.iter().zip(&block.columns);
        rows.push(cells.map(|(value, column)| cell(value, column)).collect());
    }
    rows
}

/// One figure a line, as the page shows it.
fn upright(block: &BlockRecord, currency: &str) -> Vec<Vec<String>> {
    let mut rows = vec![UPRIGHT.map(|(heading, _)| heading.to_owned()).to_vec()];
    for row in &block.rows {
        for (value, column) in row.iter().zip(&block.columns) {
            rows.push(vec![
                harmless(&column.name),
                cell(value, column),
                harmless(&unit(column, currency)),
                harmless(column.working.as_deref().unwrap_or_default()),
                harmless(column.source.unwrap_or_default()),
            ]);
        }
    }
    rows
}

/// The unit of a column, with the currency of money.
fn unit(column: &ColumnRecord, currency: &str) -> String {
    let unit = column.unit.as_deref().unwrap_or_default();
    if column.kind == ValueKind::Money {
        format!("{currency} {unit}").trim_end().to_owned()
    } else {
        unit.to_owned()
    }
}

/// A cell as CSV holds it: only words can look like a formula.
fn cell(value: &Value, column: &ColumnRecord) -> String {
    match value {
        Value::Number(number) => format!("{number}"),
        Value::Text(text) if column.kind == ValueKind::Words => harmless(text),
        Value::Text(text) => text.clone(),
        Value::Blank => String::new(),
    }
}
