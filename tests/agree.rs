//! One expression, three readings: the workbook's formulas, worked out again by engines
//! that know nothing of this crate, give what our own engine gives; also after an edit.
//!
//! An edited workbook is compared, cell by cell, with a fresh run on that same edited
//! file. Where an edit needs a new run, `run_again` must be raised, and only what the
//! edit cannot reach is compared; where it does not, `run_again` must stay quiet.

use groundsheet::estimate::Estimate;
use groundsheet::graph::formula::Layout;
use groundsheet::graph::{Cell, ColumnId, Table};
use groundsheet::job::tables::{Basins, JobKeys, Materials, OtherItems, Shelves};
use groundsheet::job::{Entries, Fields};
use groundsheet::place::cell_name;
use groundsheet::write::BookLayout;

use crate::support::recalculate::{self, Cells, Entry, Value, by_every_engine, formula_cells};
use crate::support::{SAMPLE_JOBS, estimate_of_bytes, sample_job, workbook_of};

/// One edit: what is typed where, and the columns it cannot follow, if any.
struct Edit {
    what: String,
    cells: Vec<(String, String, Entry)>,
    needs_run: Vec<ColumnId>,
}

#[test]
fn every_formula_recalculates_to_the_stored_result() {
    for name in SAMPLE_JOBS {
        let bytes = workbook_of(&sample_job(name));
        let stored = formula_cells(&bytes);
        assert!(
            stored.len() > 1000,
            "{name}: only {} formulas",
            stored.len()
        );
        for (engine, all) in by_every_engine(&[bytes]) {
            for ((spot, (formula, value)), again) in stored.iter().zip(all[0].values()) {
                assert!(
                    value.agrees_with(again) && !matches!(again, Value::Error(_)),
                    "{name}, {engine}, {spot:?}: ={formula} stored {value:?}, recalculated {again:?}"
                );
            }
        }
    }
}

#[test]
fn every_formula_follows_an_edit_as_a_fresh_run_does() {
    for name in SAMPLE_JOBS {
        let estimate = sample_job(name);
        let bytes = workbook_of(&estimate);
        let edits = edits(&estimate);
        let edited: Vec<Vec<u8>> = edits
            .iter()
            .map(|edit| {
                let cells: Vec<(&str, &str, Entry)> = edit
                    .cells
                    .iter()
                    .map(|(sheet, at, entry)| (&**sheet, &**at, entry.clone()))
                    .collect();
                recalculate::edit(&bytes, &cells)
            })
            .collect();
        let engines = by_every_engine(&edited);
        for (position, edit) in edits.iter().enumerate() {
            let fresh = estimate_of_bytes(&edited[position]);
            assert!(
                !fresh.is_blocked(),
                "{name}, {}: {:?}",
                edit.what,
                fresh.findings
            );
            for (engine, all) in &engines {
                compare(
                    &format!("{name}, {engine}, {}", edit.what),
                    edit,
                    &estimate,
                    &fresh,
                    &all[position],
                );
            }
        }
    }
}

fn compare(what: &str, edit: &Edit, written: &Estimate, fresh: &Estimate, again: &Cells) {
    let run_again = &again[&("Changes".to_owned(), 2, 1)];
    assert_eq!(
        run_again,
        &Value::Truth(!edit.needs_run.is_empty()),
        "{what}: run_again"
    );
    let layout = BookLayout::new(written);
    let reach = written.graph.reach(&edit.needs_run);
    let mut compared = 0;
    for column in written
        .graph
        .columns()
        .filter(|id| written.graph.column(*id).is_computed())
    {
        let info = written.graph.column(column);
        let table = written.graph.table(info.table).name;
        let Some(same) = fresh.graph.find(table, &info.name) else {
            continue;
        };
        if reach[position_of(written, column)] {
            continue;
        }
        let home = layout.home(column);
        for row in 0..written.graph.rows(column) {
            let spot = (
                layout.sheets[home.sheet].name.to_owned(),
                home.row + u32::try_from(row).unwrap(),
                home.column,
            );
            let Some(value) = again.get(&spot) else {
                continue;
            };
            let expected = if info.is_text() {
                Value::Text(fresh.results.words(Cell { column: same, row }).to_owned())
            } else {
                Value::Number(fresh.results.number(Cell { column: same, row }))
            };
            assert!(
                expected.agrees_with(value),
                "{what}: {table}, {}, row {row}: fresh run {expected:?}, recalculated {value:?} at {spot:?}",
                info.name
            );
            compared += 1;
        }
    }
    assert!(compared > 100, "{what}: only {compared} cells compared");
    if edit.needs_run.is_empty() {
        for (spot, (formula, value)) in formula_cells(&workbook_of(fresh)) {
            let recalculated = &again[&spot];
            assert!(
                value.agrees_with(recalculated),
                "{what}: {spot:?} ={formula}: fresh run {value:?}, recalculated {recalculated:?}"
            );
        }
    }
}

fn position_of(estimate: &Estimate, column: ColumnId) -> usize {
    estimate
        .graph
        .columns()
        .position(|id| id == column)
        .unwrap()
}

/// Edits of every kind of column and table, chosen so that the job stays whole.
fn edits(estimate: &Estimate) -> Vec<Edit> {
    let mut all = live(estimate);
    all.extend(drop_downs(estimate));
    all.extend(structural(estimate));
    all
}

struct At<'e> {
    estimate: &'e Estimate,
    layout: BookLayout,
}

impl<'e> At<'e> {
    fn new(estimate: &'e Estimate) -> Self {
        Self {
            estimate,
            layout: BookLayout::new(estimate),
        }
    }

    fn column(&self, table: &str, name: &str) -> ColumnId {
        self.estimate
            .graph
            .find(table, name)
            .unwrap_or_else(|| panic!("{table}: {name}"))
    }

    fn cell(&self, table: &str, name: &str, row: usize) -> (String, String) {
        let home = self.layout.home(self.column(table, name));
        let sheet = self.layout.sheets[home.sheet].name.to_owned();
        (
            sheet,
            cell_name(home.row + u32::try_from(row).unwrap(), home.column),
        )
    }

    fn typed(&self, table: &str, name: &str, row: usize, entry: Entry) -> Edit {
        let (sheet, at) = self.cell(table, name, row);
        Edit {
            what: format!("{table}, {name}, row {row}"),
            cells: vec![(sheet, at, entry)],
            needs_run: Vec::new(),
        }
    }

    fn number(&self, table: &str, name: &str, row: usize) -> Option<f64> {
        self.estimate.results.measured(Cell {
            column: self.column(table, name),
            row,
        })
    }

    fn first_filled(&self, table: &str, name: &str) -> Option<(usize, f64)> {
        let column = self.column(table, name);
        (0..self.estimate.graph.rows(column))
            .find_map(|row| Some((row, self.number(table, name, row)?)))
    }

    fn first_blank(&self, table: &str, name: &str) -> Option<usize> {
        let column = self.column(table, name);
        (0..self.estimate.graph.rows(column)).find(|row| self.number(table, name, *row).is_none())
    }

    fn columns(&self, table: &str) -> Vec<ColumnId> {
        let graph = &self.estimate.graph;
        let table = graph
            .tables()
            .find(|id| graph.table(*id).name == table)
            .unwrap_or_else(|| panic!("no table {table}"));
        graph.columns_of(table).collect()
    }
}

/// Numbers that are there, each with what it is multiplied by: table, column, factor.
const SCALED: &[(&str, &str, f64)] = &[
    ("Basins", "Length", 1.07),
    ("Basins", "Width", 1.03),
    ("Basins", "Depth", 1.02),
    ("Basins", "Build-up", 0.5),
    ("Basins", "Side slope", 0.9),
    ("Basins", "Topsoil", 0.8),
    ("Basins", "Sediment depth", 0.75),
    ("Basins", "Standing water", 1.5),
    ("Basins", "Freeboard", 1.3),
    ("Basins", "Berm height", 1.2),
    ("Basins", "Rim rod", 1.001),
    ("Shelves", "Depth", 0.9),
    ("Shelves", "Width", 0.8),
    ("Other items", "Times", 2.0),
    ("Other items", "Length", 1.37),
    ("Other items", "Depth", 0.93),
    ("Other items", "Waste", 1.5),
    ("Other items", "Price", 1.11),
    ("Materials", "Price", 1.19),
    ("Materials", "Weight", 0.97),
    ("Materials", "Sold in", 2.0),
    ("Crews", "Wage per hour", 1.0725),
    ("Crews", "Burden", 1.1),
    ("Equipment", "Rate per hour", 1.25),
    ("Equipment", "Cycle", 1.4),
    ("Equipment", "Carries", 0.7),
    ("Production rates", "Crew output", 1.15),
    ("Mark-ups", "Rate", 1.2),
];

/// Numbers that are blank somewhere, each with what is typed there.
const BLANK: &[(&str, &str, f64)] = &[
    ("Other items", "Waste", 12.5),
    ("Other items", "Deduct", 0.25),
    ("Materials", "Waste", 3.0),
    ("Materials", "Minimum", 40.0),
    ("Basins", "Loose per bank", 1.31),
    ("Production rates", "Machine output", 7.5),
    ("Equipment", "Payload", 9.0),
    ("Shelves", "Slope above", 1.25),
];

/// Factors, each with an override.
const FACTORS: &[(&str, f64)] = &[
    ("Bucket fill", 80.0),
    ("Waste", 9.0),
    ("Job efficiency", 66.0),
    ("Compacted per bank, clay", 0.85),
];

/// Numbers that flow: measures, rates, overrides.
fn live(estimate: &Estimate) -> Vec<Edit> {
    let at = At::new(estimate);
    let mut all = Vec::new();
    for (table, name, factor) in SCALED {
        if let Some((row, number)) = at.first_filled(table, name) {
            all.push(at.typed(table, name, row, Entry::Number(number * factor)));
        }
    }
    for (table, name, number) in BLANK {
        if let Some(row) = at.first_blank(table, name) {
            all.push(at.typed(table, name, row, Entry::Number(*number)));
        }
    }
    for (factor, number) in FACTORS {
        let column = format!("{factor}, override");
        all.push(at.typed("Factors", &column, 0, Entry::Number(*number)));
    }
    all.push(at.typed("Job", "Weather days", 0, Entry::Number(7.0)));
    all.push(at.typed("Job", "Tip fee per load", 0, Entry::Number(123.45)));
    if let Some((row, _)) = at.first_filled("Materials", "Price") {
        all.push(Edit {
            what: "a price taken away".to_owned(),
            ..at.typed("Materials", "Price", row, Entry::Blank)
        });
    }
    all
}

/// Words that flow: drop-downs and free text.
fn drop_downs(estimate: &Estimate) -> Vec<Edit> {
    let at = At::new(estimate);
    let mut all = vec![
        at.typed("Job", "Soil", 0, word("sand")),
        at.typed("Basins", "Soil", 0, word("rock")),
        at.typed(
            "Other items",
            "Description",
            0,
            word("Another description & \"more\""),
        ),
        at.typed("Mark-ups", "On", 0, word("labor")),
        at.typed("Job", "Note", 0, word("Checked on site")),
    ];
    let kind = if estimate.job.word(JobKeys::BidKind) == "unit price" {
        "lump sum"
    } else {
        "unit price"
    };
    all.push(at.typed("Job", "Bid kind", 0, word(kind)));
    if let Some((row, material)) = other_material(estimate) {
        all.push(at.typed("Other items", "Material", row, word(&material)));
    }
    all
}

/// An item, and another material sold in the same unit as its own.
fn other_material(estimate: &Estimate) -> Option<(usize, String)> {
    let items = estimate.job.table::<OtherItems>();
    let materials = estimate.job.table::<Materials>();
    let names = materials.words(Materials::Material.index());
    let units = materials.words(Materials::MaterialUnit.index());
    let weights = materials.numbers(Materials::BulkDensity.index());
    for (row, own) in items
        .words(OtherItems::ItemMaterial.index())
        .iter()
        .enumerate()
    {
        let Some(own) = names.iter().position(|name| name == own) else {
            continue;
        };
        let fits = |other: &usize| {
            *other != own
                && units[*other] == units[own]
                && weights[*other].is_nan() == weights[own].is_nan()
        };
        if let Some(other) = (0..names.len()).find(fits) {
            return Some((row, names[other].to_string()));
        }
    }
    None
}

/// Edits that need a new run: names, units, rows, lines that arise.
fn structural(estimate: &Estimate) -> Vec<Edit> {
    let at = At::new(estimate);
    let mut all = vec![
        renamed(&at),
        another_section(&at),
        row_added(&at),
        Edit {
            what: "two materials sorted".to_owned(),
            cells: swapped(&at, Materials::NAME, estimate.job.table::<Materials>()),
            needs_run: at.columns("Materials"),
        },
    ];
    all.extend(water_arises(&at));
    all.extend(shelf_moved(&at));
    all.push(another_unit(&at));
    all
}

fn word(words: &str) -> Entry {
    Entry::Text(words.to_owned())
}

fn renamed(at: &At<'_>) -> Edit {
    Edit {
        needs_run: vec![at.column("Other items", "Item")],
        ..at.typed("Other items", "Item", 0, word("Renamed-1"))
    }
}

fn another_section(at: &At<'_>) -> Edit {
    let section = vec![at.column("Other items", "Section")];
    Edit {
        needs_run: [section, at.columns("Bid sections")].concat(),
        ..at.typed("Other items", "Section", 0, word("A section of its own"))
    }
}

fn row_added(at: &At<'_>) -> Edit {
    let below = at.estimate.job.table::<OtherItems>().rows;
    let typed = [
        ("Item", word("Added-1")),
        ("Section", word("Extra")),
        ("Description", word("A row added")),
        ("Unit", word("ea")),
        ("Times", Entry::Number(3.0)),
        ("Price", Entry::Number(99.5)),
    ];
    let cells = typed.map(|(heading, entry)| {
        let (sheet, cell) = at.cell("Other items", heading, below);
        (sheet, cell, entry)
    });
    Edit {
        what: "a row added below Other items".to_owned(),
        cells: cells.to_vec(),
        needs_run: ["Other items", "Lines", "Bid sections"]
            .map(|table| at.columns(table))
            .concat(),
    }
}

/// Water to pump out in a basin that had none: a line arises.
fn water_arises(at: &At<'_>) -> Option<Edit> {
    let row = at.first_blank("Basins", "Standing water")?;
    let water = vec![at.column("Basins", "Standing water")];
    Some(Edit {
        needs_run: [water, at.columns("Lines"), at.columns("Bid sections")].concat(),
        ..at.typed("Basins", "Standing water", row, Entry::Number(120.0))
    })
}

/// The last shelf goes to the first basin that has none.
fn shelf_moved(at: &At<'_>) -> Option<Edit> {
    let shelves = at.estimate.job.table::<Shelves>();
    let of = shelves.words(Shelves::ShelfBasin.index());
    let basins = at
        .estimate
        .job
        .table::<Basins>()
        .words(Basins::Basin.index());
    let free = basins.iter().find(|basin| !of.contains(basin))?;
    let mut edit = at.typed("Shelves", "Basin", shelves.rows.checked_sub(1)?, word(free));
    let (sheet, depth) = at.cell("Shelves", "Depth", shelves.rows - 1);
    edit.cells.push((sheet.clone(), depth, Entry::Number(0.1)));
    let (_, width) = at.cell("Shelves", "Width", shelves.rows - 1);
    edit.cells.push((sheet, width, Entry::Number(0.05)));
    edit.needs_run = [at.columns("Shelves"), at.columns("Section points")].concat();
    Some(edit)
}

fn another_unit(at: &At<'_>) -> Edit {
    let basins = at.estimate.job.table::<Basins>();
    let heading = Basins::TABLE.columns[Basins::BuildUp.index()]
        .heading_with(basins.unit(Basins::BuildUp.index()));
    let other = if heading.contains("(in)") {
        "Build-up (mm)"
    } else {
        "Build-up (cm)"
    };
    let column = at.column("Basins", "Build-up");
    let heading = cell_name(0, at.layout.home(column).column);
    Edit {
        what: "a unit in a heading".to_owned(),
        cells: vec![("Basins".to_owned(), heading, word(other))],
        needs_run: vec![column],
    }
}

/// The cells that swap the first two rows of a table.
fn swapped(
    at: &At<'_>,
    table: &str,
    data: &groundsheet::job::TableData,
) -> Vec<(String, String, Entry)> {
    let mut cells = Vec::new();
    for (position, column) in data.table.columns.iter().enumerate() {
        for (row, from) in [(0, 1), (1, 0)] {
            let entry = match data.entries(position) {
                Entries::Numbers(numbers) if numbers[from].is_nan() => Entry::Blank,
                Entries::Numbers(numbers) => Entry::Number(numbers[from]),
                Entries::Words(words) if words[from].is_empty() => Entry::Blank,
                Entries::Words(words) => Entry::Text(words[from].to_string()),
            };
            let (sheet, cell) = at.cell(table, column.heading, row);
            cells.push((sheet, cell, entry));
        }
    }
    cells
}

/// What the cells of the bid page say after an edit that a fresh run would refuse.
fn bid_page(edits: &[(&str, &str, Entry)]) -> Vec<(String, Cells)> {
    let bytes = recalculate::edit(&workbook_of(&sample_job("school-pond")), edits);
    let engines = by_every_engine(&[bytes]);
    engines
        .into_iter()
        .map(|(engine, mut all)| (engine, all.remove(0)))
        .collect()
}

fn says(cells: &Cells, row: u32, column: u32) -> String {
    match &cells[&("Bid".to_owned(), row, column)] {
        Value::Text(text) => text.clone(),
        other => format!("{other:?}"),
    }
}

#[test]
fn the_bid_page_says_what_is_broken_where_a_run_would_refuse() {
    let at = At::new(&sample_job("school-pond"))
        .cell("Shelves", "Depth", 1)
        .1;
    for (engine, cells) in bid_page(&[("Shelves", &at, Entry::Number(9.0))]) {
        assert!(
            says(&cells, 9, 1).starts_with("FAULTS"),
            "{engine}: {}",
            says(&cells, 9, 1)
        );
        let listed: Vec<String> = (0..60)
            .filter(|row| cells.contains_key(&("Bid".to_owned(), *row, 1)))
            .map(|row| says(&cells, row, 1))
            .collect();
        let named = listed
            .iter()
            .any(|words| words.contains("the shelf is as deep as its basin"));
        assert!(named, "{engine}: {listed:?}");
    }
    let item = At::new(&sample_job("school-pond"))
        .cell("Other items", "Material", 2)
        .1;
    for (engine, cells) in bid_page(&[("Other items", &item, word("No such thing"))]) {
        assert!(
            says(&cells, 9, 1).starts_with("FAULTS"),
            "{engine}: {}",
            says(&cells, 9, 1)
        );
    }
}

#[test]
fn a_default_typed_over_asks_for_a_new_run() {
    for (engine, cells) in bid_page(&[("Factors", "B2", Entry::Number(1.2))]) {
        let run_again = &cells[&("Changes".to_owned(), 2, 1)];
        assert_eq!(run_again, &Value::Truth(true), "{engine}");
        assert!(
            says(&cells, 9, 1).starts_with("RUN AGAIN: Factors"),
            "{engine}"
        );
    }
}
