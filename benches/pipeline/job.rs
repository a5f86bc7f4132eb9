//! A made-up job of any size, with every table in use: mostly items of the dimension sheet
//! and courses of stone, fewer rows of all the rest.

#[macro_use]
mod entry;
mod book;
mod built;
mod items;
mod partners;
mod site;

use std::path::Path;

use entry::Rows;
use rust_xlsxwriter::{Workbook, Worksheet, XlsxError};

use entry::Entry;

/// How many rows the tables have that grow with a job.
#[derive(Clone, Copy)]
pub(crate) struct Size {
    basins: u32,
    falls: u32,
    courses_of_a_fall: u32,
    /// Rows of each of structures, loose stone, timber and planting.
    built: u32,
    items: u32,
    scenarios: u32,
}

impl Size {
    /// A whole job of about so many measured rows: more than half are items, a quarter are
    /// courses.
    pub(crate) fn whole(rows: u32) -> Self {
        let basins = (rows / 25).clamp(1, 12);
        let (falls, courses_of_a_fall) = ((rows / 40).max(1), 10);
        let built = (rows / 100).max(1);
        // A basin has two shelves, two edges and a layer; a fall has a layer.
        let taken = basins * 6 + falls * (courses_of_a_fall + 2) + built * 4;
        Self {
            basins,
            falls,
            courses_of_a_fall,
            built,
            items: rows.saturating_sub(taken).max(1),
            scenarios: 0,
        }
    }

    /// The same job with so many scenarios.
    pub(crate) fn with_scenarios(self, scenarios: u32) -> Self {
        Self { scenarios, ..self }
    }

    /// A job of falls and little else.
    pub(crate) fn falls(falls: u32, courses_of_a_fall: u32) -> Self {
        Self {
            falls,
            courses_of_a_fall,
            ..Self::whole(0)
        }
    }
}

/// Name, headings and rows of a table.
type TableOf = (&'static str, &'static str, Rows);

/// Writes a job of a size.
pub(crate) fn write(size: Size, path: &Path) -> Result<(), XlsxError> {
    let rows = |count: u32, row: fn(u32) -> Vec<Entry>| (0..count).map(row).collect::<Rows>();
    let courses = size.falls * size.courses_of_a_fall;
    let course = |at| built::course(at / size.courses_of_a_fall, at % size.courses_of_a_fall);
    let item = |at| items::item(at, size.items);
    let mut layers = rows(size.basins, built::basin_layer);
    layers.extend(rows(size.falls, built::fall_layer));
    let tables: [TableOf; 13] = [
        ("Job", "Key|Value", site::job()),
        ("Quick measure", "Key|Value", site::quick_measure()),
        ("Basins", site::BASINS, rows(size.basins, site::basin)),
        ("Shelves", site::SHELVES, rows(size.basins * 2, site::shelf)),
        ("Edges", site::EDGES, rows(size.basins * 2, site::edge)),
        (
            "Structures",
            built::STRUCTURES,
            rows(size.built, built::structure),
        ),
        ("Liner and fabric", built::LAYERS, layers),
        (
            "Waterfalls and streams",
            built::FALLS,
            rows(size.falls, built::fall),
        ),
        (
            "Courses",
            built::COURSES,
            (0..courses).map(course).collect(),
        ),
        (
            "Gravel and loose stone",
            built::BEDS,
            rows(size.built, built::bed),
        ),
        ("Timber", built::TIMBER, rows(size.built, built::log)),
        (
            "Planting",
            built::PLANTING,
            rows(size.built, built::planting),
        ),
        (
            "Other items",
            items::ITEMS,
            (0..size.items).map(item).collect(),
        ),
    ];
    let tables = tables.into_iter().chain(book_tables(size.scenarios));
    let mut workbook = Workbook::new();
    for (name, headings, entries) in tables {
        let sheet = workbook.add_worksheet();
        sheet.set_name(name)?;
        table(sheet, headings, &entries)?;
    }
    workbook.save(path)
}

/// The price and production book, and who does what in so many scenarios.
fn book_tables(scenarios: u32) -> [TableOf; 9] {
    [
        ("Materials", book::MATERIALS, book::materials()),
        ("Crews", book::CREWS, book::crews()),
        ("Equipment", book::EQUIPMENT, book::machines()),
        ("Lift chart", book::LIFT_CHART, book::lift_chart()),
        ("Production rates", book::WORKS, book::works()),
        ("Partners", partners::PARTNERS, partners::partners()),
        (
            "Scenarios",
            partners::SCENARIOS,
            (0..scenarios).map(partners::scenario).collect(),
        ),
        (
            "Shared work",
            partners::SHARED_WORK,
            partners::shared_work(scenarios),
        ),
        ("Mark-ups", book::MARK_UPS, book::mark_ups()),
    ]
}

fn table(sheet: &mut Worksheet, headings: &str, rows: &[Vec<Entry>]) -> Result<(), XlsxError> {
    for (column, heading) in (0u16..).zip(headings.split('|')) {
        sheet.write_string(0, column, heading)?;
    }
    for (row, entries) in (1u32..).zip(rows) {
        for (column, entry) in (0u16..).zip(entries) {
            match entry {
                Entry::Blank => {}
                Entry::Number(number) => {
                    sheet.write_number(row, column, *number)?;
                }
                Entry::Words(words) => {
                    // Nothing is written for blank words.
                    sheet.write_string(row, column, words)?;
                }
            }
        }
    }
    Ok(())
}
