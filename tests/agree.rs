//! Every formula of the sample jobs, worked out again by other engines, gives what our own
//! engine gives; also after edits of every kind of column and table.
//!
//! The edits are made on all sample jobs but one: that is another with a few cells filled
//! in, and its formulas are recalculated as those of the others are.

use groundsheet::estimate::Estimate;
use groundsheet::graph::{Cell, ColumnId, Table};
use groundsheet::job::tables::{Basins, JobKeys, Materials, OtherItems, Shelves};
use groundsheet::job::{Entries, Fields};
use groundsheet::place::cell_name;

use crate::support::agreement::{Edit, Viewer, Written, batches, word};
use crate::support::recalculate::{Cells, Entry, Value};
use crate::support::{SAMPLE_JOBS, sample_job};

#[test]
fn every_formula_recalculates_to_the_stored_result() {
    for name in SAMPLE_JOBS {
        Written::new(name, &sample_job(name)).recalculates();
    }
}

/// A test for each job, so that they run side by side.
macro_rules! every_formula_follows_an_edit_as_a_fresh_run_does {
    ($($test:ident: $job:literal,)*) => {
        /// The jobs that are edited.
        const EDITED: &[&str] = &[$($job),*];

        $(
            #[test]
            fn $test() {
                follows_edits($job);
            }
        )*
    };
}

every_formula_follows_an_edit_as_a_fresh_run_does! {
    the_school_pond_follows_an_edit_as_a_fresh_run_does: "school-pond",
    the_lily_tank_follows_an_edit_as_a_fresh_run_does: "lily-tank",
    the_field_notes_follow_an_edit_as_a_fresh_run_does: "field-notes",
    the_quick_pond_follows_an_edit_as_a_fresh_run_does: "quick-pond",
    the_quick_pond_in_detail_follows_an_edit_as_a_fresh_run_does: "quick-pond-detailed",
    the_reed_bank_follows_an_edit_as_a_fresh_run_does: "reed-bank",
}

#[test]
fn every_sample_job_is_edited_but_the_twin_of_one() {
    let left: Vec<_> = SAMPLE_JOBS
        .iter()
        .filter(|job| !EDITED.contains(job))
        .collect();
    assert_eq!(left, [&"school-pond-as-set"]);
}

fn follows_edits(name: &str) {
    edits_of(name, &mut |written, edits| written.follows_together(edits));
}

/// Shows every edited job with its edits.
pub(crate) fn show_edits(shown: Viewer<'_>) {
    for name in EDITED {
        edits_of(name, shown);
    }
}

fn edits_of(name: &str, shown: Viewer<'_>) {
    let estimate = sample_job(name);
    let at = At(Written::new(name, &estimate));
    let edits = [live(&at), drop_downs(&at), structural(&at)].concat();
    shown(&at.0, batches(edits));
}

/// A written job, and which of its cells are filled.
struct At<'e>(Written<'e>);

impl At<'_> {
    fn job(&self) -> &Estimate {
        self.0.estimate
    }

    fn number(&self, table: &str, name: &str, row: usize) -> Option<f64> {
        self.job().results.measured(Cell {
            column: self.0.column(table, name),
            row,
        })
    }

    /// Whether the quick page made a row: what is typed over there needs a run.
    fn is_quick(&self, table: &str, row: usize) -> bool {
        let mut tables = self.job().job.tables().iter();
        tables.any(|data| data.table.name == table && data.is_quick(row))
    }

    /// The rows of a table that are the job's own.
    fn rows(&self, table: &str, name: &str) -> impl Iterator<Item = usize> {
        let rows = 0..self.job().graph.rows(self.0.column(table, name));
        rows.filter(move |row| !self.is_quick(table, *row))
    }

    fn first_filled(&self, table: &str, name: &str) -> Option<(usize, f64)> {
        self.rows(table, name)
            .find_map(|row| Some((row, self.number(table, name, row)?)))
    }

    fn first_blank(&self, table: &str, name: &str) -> Option<usize> {
        self.rows(table, name)
            .find(|row| self.number(table, name, *row).is_none())
    }

    fn columns(&self, table: &str) -> Vec<ColumnId> {
        let graph = &self.job().graph;
        let table = graph
            .tables()
            .find(|id| graph.table(*id).name == table)
            .unwrap_or_else(|| panic!("no table {table}"));
        graph.columns_of(table).collect()
    }
}

/// Numbers that are there, each with what it is multiplied by: table, column, factor.
const SCALED: &[(&str, &str, f64)] = &[
    ("Quick measure", "Length", 1.06),
    ("Quick measure", "Side slope", 0.9),
    ("Quick measure", "Gravel bed depth", 1.1),
    ("Quick measure", "Fall face", 1.2),
    ("Quick measure", "Largest stone", 0.9),
    ("Quick measure", "Sediment probe 2", 1.3),
    ("Quick measure", "Inflow", 1.4),
    ("Quick measure", "Carry", 1.5),
    ("Quick measure", "Haul", 1.6),
    ("Partners", "Pace", 0.9),
    ("Partners", "Session hours", 1.1),
    ("Partners", "Gear per head", 1.5),
    ("Partners", "In-kind rate", 1.2),
    ("Shared work", "Pace", 1.1),
    ("Shared work", "Value each", 0.8),
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
fn live(at: &At<'_>) -> Vec<Edit> {
    let mut all = Vec::new();
    for (table, name, factor) in SCALED {
        if let Some((row, number)) = at.first_filled(table, name) {
            all.push(at.0.typed(table, name, row, Entry::Number(number * factor)));
        }
    }
    for (table, name, number) in BLANK {
        if let Some(row) = at.first_blank(table, name) {
            all.push(at.0.typed(table, name, row, Entry::Number(*number)));
        }
    }
    for (factor, number) in FACTORS {
        let column = format!("{factor}, override");
        all.push(at.0.typed("Factors", &column, 0, Entry::Number(*number)));
    }
    all.push(at.0.typed("Job", "Weather days", 0, Entry::Number(7.0)));
    all.push(at.0.typed("Job", "Tip fee per load", 0, Entry::Number(123.45)));
    if let Some((row, _)) = at.first_filled("Materials", "Price") {
        all.push(Edit {
            what: "a price taken away".to_owned(),
            ..at.0.typed("Materials", "Price", row, Entry::Blank)
        });
    }
    all
}

/// Words that flow: drop-downs and free text.
fn drop_downs(at: &At<'_>) -> Vec<Edit> {
    let mut all = vec![
        at.0.typed("Job", "Soil", 0, word("sand")),
        at.0.typed("Mark-ups", "On", 0, word("labor")),
        at.0.typed("Job", "Note", 0, word("Checked on site")),
    ];
    if let Some(row) = at.rows("Other items", "Description").next() {
        let words = word("Another description & \"more\"");
        all.push(at.0.typed("Other items", "Description", row, words));
    }
    if let Some(row) = at.rows("Basins", "Soil").next() {
        all.push(at.0.typed("Basins", "Soil", row, word("rock")));
    }
    let kind = if at.job().job.word(JobKeys::BidKind) == "unit price" {
        "lump sum"
    } else {
        "unit price"
    };
    all.push(at.0.typed("Job", "Bid kind", 0, word(kind)));
    if let Some((row, material)) = other_material(at.job()) {
        all.push(at.0.typed("Other items", "Material", row, word(&material)));
    }
    all
}

/// An item of the job's own, and another material sold in the same unit as its own.
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
        let own = names.iter().position(|name| name == own);
        let Some(own) = own.filter(|_| !items.is_quick(row)) else {
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
fn structural(at: &At<'_>) -> Vec<Edit> {
    let mut all = vec![
        renamed(at),
        another_section(at),
        row_added(at),
        Edit {
            what: "two materials sorted".to_owned(),
            cells: swapped(at, Materials::NAME, at.job().job.table::<Materials>()),
            needs_run: at.columns("Materials"),
        },
    ];
    all.extend(water_arises(at));
    all.extend(shelf_moved(at));
    all.push(another_unit(at));
    all
}

fn renamed(at: &At<'_>) -> Edit {
    Edit {
        needs_run: vec![at.0.column("Other items", "Item")],
        ..at.0.typed("Other items", "Item", 0, word("Renamed-1"))
    }
}

fn another_section(at: &At<'_>) -> Edit {
    let section = vec![at.0.column("Other items", "Section")];
    Edit {
        needs_run: [section, at.columns("Bid sections")].concat(),
        ..at.0
            .typed("Other items", "Section", 0, word("A section of its own"))
    }
}

fn row_added(at: &At<'_>) -> Edit {
    let below = at.job().job.table::<OtherItems>().rows;
    let typed = [
        ("Item", word("Added-1")),
        ("Section", word("Extra")),
        ("Description", word("A row added")),
        ("Unit", word("ea")),
        ("Times", Entry::Number(3.0)),
        ("Price", Entry::Number(99.5)),
    ];
    let cells = typed.map(|(heading, entry)| {
        let (sheet, cell) = at.0.cell("Other items", heading, below);
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
    let water = vec![at.0.column("Basins", "Standing water")];
    Some(Edit {
        needs_run: [water, at.columns("Lines"), at.columns("Bid sections")].concat(),
        ..at.0
            .typed("Basins", "Standing water", row, Entry::Number(120.0))
    })
}

/// The last shelf goes to the first basin that has none.
fn shelf_moved(at: &At<'_>) -> Option<Edit> {
    let shelves = at.job().job.table::<Shelves>();
    let of = shelves.words(Shelves::ShelfBasin.index());
    let basins = at.job().job.table::<Basins>().words(Basins::Basin.index());
    let free = basins.iter().find(|basin| !of.contains(basin))?;
    let mut edit =
        at.0.typed("Shelves", "Basin", shelves.rows.checked_sub(1)?, word(free));
    let (sheet, depth) = at.0.cell("Shelves", "Depth", shelves.rows - 1);
    edit.cells.push((sheet.clone(), depth, Entry::Number(0.1)));
    let (_, width) = at.0.cell("Shelves", "Width", shelves.rows - 1);
    edit.cells.push((sheet, width, Entry::Number(0.05)));
    edit.needs_run = [at.columns("Shelves"), at.columns("Section points")].concat();
    Some(edit)
}

fn another_unit(at: &At<'_>) -> Edit {
    let basins = at.job().job.table::<Basins>();
    let heading = Basins::TABLE.columns[Basins::BuildUp.index()]
        .heading_with(basins.unit(Basins::BuildUp.index()));
    let other = if heading.contains("(in)") {
        "Build-up (mm)"
    } else {
        "Build-up (cm)"
    };
    let column = at.0.column("Basins", "Build-up");
    let (_, _, across) = at.0.spot(column, 0);
    Edit {
        what: "a unit in a heading".to_owned(),
        cells: vec![("Basins".to_owned(), cell_name(0, across), word(other))],
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
            let (sheet, cell) = at.0.cell(table, column.heading, row);
            cells.push((sheet, cell, entry));
        }
    }
    cells
}

fn says(cells: &Cells, row: u32, column: u32) -> String {
    match &cells[&("Bid".to_owned(), row, column)] {
        Value::Text(text) => text.clone(),
        other => format!("{other:?}"),
    }
}

#[test]
fn the_bid_page_says_what_is_broken_where_a_run_would_refuse() {
    let job = sample_job("school-pond");
    let written = Written::new("school-pond", &job);
    let deep = written.typed("Shelves", "Depth", 1, Entry::Number(9.0));
    for (engine, cells) in written.recalculated(&[deep]) {
        let said = says(&cells, 9, 1);
        assert!(said.starts_with("FAULTS"), "{engine}: {said}");
        let listed: Vec<String> = (0..60)
            .filter(|row| cells.contains_key(&("Bid".to_owned(), *row, 1)))
            .map(|row| says(&cells, row, 1))
            .collect();
        let named = listed
            .iter()
            .any(|words| words.contains("the shelf is as deep as its basin"));
        assert!(named, "{engine}: {listed:?}");
    }
    let refused = [
        written.typed("Other items", "Material", 2, word("No such thing")),
        // What a spreadsheet makes of 2:1: minute 121 of the 1,440 of a day.
        written.typed("Basins", "Side slope", 0, Entry::Number(121.0 / 1440.0)),
    ];
    for edit in refused {
        for (engine, cells) in written.recalculated(std::slice::from_ref(&edit)) {
            let said = says(&cells, 9, 1);
            assert!(
                said.starts_with("FAULTS"),
                "{engine}, {}: {said}",
                edit.what
            );
        }
    }
}

#[test]
fn a_default_typed_over_asks_for_a_new_run() {
    let job = sample_job("lily-tank");
    let written = Written::new("lily-tank", &job);
    let default = Edit {
        what: "a default typed over".to_owned(),
        cells: vec![("Factors".to_owned(), "B2".to_owned(), Entry::Number(1.2))],
        needs_run: Vec::new(),
    };
    written.asks_for_a_new_run(std::slice::from_ref(&default));
    for (engine, cells) in written.recalculated(&[default]) {
        let said = says(&cells, 9, 1);
        assert!(said.starts_with("RUN AGAIN: Factors"), "{engine}: {said}");
    }
}
