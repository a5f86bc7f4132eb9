//! Pages of the workbook for programs: each block with its title, its columns and its rows.
//!
//! Always true: the pages come from the plan of the workbook, so that a page which people
//! read there is here too; every value is the engine's own. Totals are left out: a sum
//! among rows would be counted twice.

mod files;

use schemars::JsonSchema;
use serde::Serialize;

use super::fact::Fact;
use super::fixed_tables::{self, Entry, FixedColumn, FixedTable, Look};
use super::head;
use super::headings::{sentence, unit_words};
use super::layout::BookLayout;
use super::line_sources;
use super::records::{self, BidRecord};
use super::sheets::{Below, Block, Body, Fixed, SheetPlan, Show};
use crate::diagnostic::Diagnostic;
use crate::estimate::Estimate;
use crate::graph::{Cell, ColumnId, Graph, Table, words};
use crate::job::tables::JobKeys;
use crate::money;
use crate::tables::Lines;
use crate::units::{DATE, MONEY, MONEY_H, Unit};

pub use files::csv_files;

/// Every result of a job: the file `results.json` of `groundsheet export`.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Export")]
pub struct ExportRecord {
    /// The set of units that the job is taken off in.
    #[schemars(extend("enum" = ["US customary", "metric"]))]
    pub units: &'static str,
    /// The bid, as `groundsheet bid --format json` prints it; the currency of all money too.
    pub bid: BidRecord,
    /// The pages that people read in the workbook, in its order.
    pub pages: Vec<PageRecord>,
}

/// One page of the workbook.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Page")]
pub struct PageRecord {
    /// Its name.
    pub name: &'static str,
    /// What it is for.
    pub about: &'static str,
    /// Its tables, one below the other.
    pub blocks: Vec<BlockRecord>,
}

/// One table of a page.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Block")]
pub struct BlockRecord {
    /// What stands above it.
    pub title: String,
    /// The CSV file that holds the same, in the same folder.
    pub file: String,
    /// Whether page and CSV file show its one row upright: one figure a line.
    pub upright: bool,
    /// Its columns.
    pub columns: Vec<ColumnRecord>,
    /// Its rows; each has one value for each column, in the same order.
    pub rows: Vec<Vec<Value>>,
}

/// One column of a table.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Column")]
pub struct ColumnRecord {
    /// Its heading.
    pub name: String,
    /// What its values are.
    pub kind: ValueKind,
    /// The unit of its numbers, such as `ft2`; of a rate of money, what it is for. Null
    /// where a number or an amount has none.
    pub unit: Option<String>,
    /// How it is worked out, in words; null for what was measured.
    pub working: Option<String>,
    /// Where its rule is published, or what it rests on.
    pub source: Option<&'static str>,
}

/// What the values of a column are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ValueKind {
    /// A number in the unit of the column.
    Number,
    /// Money in the currency of the bid, as decimal text.
    Money,
    /// Words.
    Words,
    /// A day as year-month-day.
    Date,
}

/// One value: a number; words, money or a day as text; null where the cell is blank.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged)]
pub enum Value {
    /// A number.
    Number(f64),
    /// Words, money as decimal text, or a day as year-month-day.
    Text(String),
    /// A blank cell.
    Blank,
}

/// Every result of an estimate; `findings` are those of reading the job. Sheets that show
/// every step are there only where `working` is set.
#[must_use]
pub fn export(estimate: &Estimate, findings: &[Diagnostic], working: bool) -> ExportRecord {
    let layout = BookLayout::new(estimate);
    let maker = PageMaker {
        estimate,
        layout: &layout,
    };
    let pages = layout.sheets.iter().enumerate();
    let wanted = pages.filter(|(_, plan)| working || !plan.is_working);
    let mut pages: Vec<PageRecord> = wanted.map(|(at, plan)| maker.page(at, plan)).collect();
    pages.retain(|page| !page.blocks.is_empty());
    files::name(&mut pages);
    ExportRecord {
        units: estimate.job.system().name(),
        bid: records::bid(estimate, findings),
        pages,
    }
}

/// Makes records of the pages of one estimate.
struct PageMaker<'e> {
    estimate: &'e Estimate,
    layout: &'e BookLayout,
}

impl PageMaker<'_> {
    fn page(&self, at: usize, plan: &SheetPlan) -> PageRecord {
        let blocks = match &plan.body {
            Body::Bid(sections) => vec![self.block(&self.head()), self.block(sections)],
            Body::Blocks(blocks, below) => {
                let mut made: Vec<_> = blocks.iter().map(|block| self.block(block)).collect();
                if *below == Below::Defaults {
                    made.extend(self.fixed(at, Fixed::Defaults));
                }
                made
            }
            Body::Fixed(table) => self.fixed(at, *table).into_iter().collect(),
            // What was measured is the job itself.
            Body::Input(_) => Vec::new(),
        };
        PageRecord {
            name: plan.name,
            about: plan.about,
            blocks,
        }
    }

    /// Who and what the bid is for.
    fn head(&self) -> Block {
        let graph = &self.estimate.graph;
        let title = graph.column(graph.id(head::TITLE));
        Block {
            table: title.table,
            title: JobKeys::NAME.to_owned(),
            heading: 0,
            columns: head::keys().map(|key| Show::Copy(graph.id(key))).collect(),
            upright: true,
            totals: Vec::new(),
        }
    }

    /// A table that is not of the graph; none where a program has no use for it.
    fn fixed(&self, at: usize, which: Fixed) -> Option<BlockRecord> {
        let exported = fixed_tables::form(which).exported;
        if exported.is_empty() {
            return None;
        }
        let FixedTable { form, rows } = fixed_tables::table(self.estimate, self.layout, at, which);
        let columns = exported.iter().filter_map(|at| form.columns.get(*at));
        let columns: Vec<&FixedColumn> = columns.collect();
        let row = |entries: &Vec<Entry<'_>>| {
            let own = exported.iter().filter_map(|at| entries.get(*at));
            let own = own.zip(&columns);
            own.map(|(entry, column)| self.entry(entry, column.look))
                .collect()
        };
        Some(BlockRecord {
            title: form.title.to_owned(),
            file: String::new(),
            upright: false,
            rows: rows.iter().map(row).collect(),
            columns: columns
                .iter()
                .map(|column| ColumnRecord::fixed(column))
                .collect(),
        })
    }

    fn entry(&self, entry: &Entry<'_>, look: Look) -> Value {
        match entry {
            Entry::Set(Fact::Number(number)) | Entry::Live(_, Fact::Number(number)) => {
                if look == Look::Money {
                    Value::of(*number, MONEY)
                } else {
                    Value::Number(*number)
                }
            }
            Entry::Set(Fact::Words(words)) | Entry::Live(_, Fact::Words(words)) => {
                Value::words(words)
            }
            Entry::Unit(unit) => Value::words(unit.symbol()),
            Entry::Cell(cell) => value(self.estimate, *cell),
            Entry::Blank | Entry::Nothing => Value::Blank,
        }
    }

    fn block(&self, block: &Block) -> BlockRecord {
        let row = |row: usize| {
            let value = |show: &Show| self.shown(*show, row);
            block.columns.iter().map(value).collect()
        };
        BlockRecord {
            title: block.title.clone(),
            file: String::new(),
            upright: block.upright,
            columns: block
                .columns
                .iter()
                .map(|show| self.column(*show))
                .collect(),
            rows: self.rows(block).into_iter().map(row).collect(),
        }
    }

    /// The rows of a block that are told of.
    fn rows(&self, block: &Block) -> Vec<usize> {
        let graph = &self.estimate.graph;
        if graph.is::<Lines>(block.table) {
            self.estimate.lines_told().collect()
        } else {
            (0..graph.table(block.table).rows).collect()
        }
    }

    fn column(&self, show: Show) -> ColumnRecord {
        match show {
            Show::Home(id) | Show::Copy(id) => column(&self.estimate.graph, id),
            said => ColumnRecord::plain(said.heading(), ValueKind::Words),
        }
    }

    fn shown(&self, show: Show, row: usize) -> Value {
        match show {
            Show::Home(id) | Show::Copy(id) => value(self.estimate, id.at(row)),
            about => Value::words(&line_sources::about(self.estimate, self.layout, about, row)),
        }
    }
}

/// What a column of the graph is.
pub(super) fn column(graph: &Graph, id: ColumnId) -> ColumnRecord {
    let info = graph.column(id);
    let kind = if info.is_text() {
        ValueKind::Words
    } else {
        kind_of(info.unit)
    };
    let working = words::of_column(graph, id);
    ColumnRecord {
        name: sentence(&info.name),
        kind,
        unit: unit_of(info.unit),
        working: Some(working).filter(|working| !working.is_empty()),
        source: info.source.map(|source| source.text),
    }
}

/// The value of a cell.
pub(super) fn value(estimate: &Estimate, cell: Cell) -> Value {
    let info = estimate.graph.column(cell.column);
    let results = &estimate.results;
    if info.is_text() {
        return Value::words(results.words(cell));
    }
    let number = results.measured(cell).filter(|number| number.is_finite());
    number.map_or(Value::Blank, |number| Value::of(number, info.unit))
}

fn kind_of(unit: Unit) -> ValueKind {
    match unit {
        MONEY | MONEY_H => ValueKind::Money,
        DATE => ValueKind::Date,
        _ => ValueKind::Number,
    }
}

fn unit_of(unit: Unit) -> Option<String> {
    let words = match unit {
        MONEY | MONEY_H | DATE => unit_words(unit),
        other => other.symbol().to_owned(),
    };
    Some(words).filter(|words| !words.is_empty())
}

impl ColumnRecord {
    /// A column of a table that is not of the graph.
    fn fixed(column: &FixedColumn) -> Self {
        let kind = match column.look {
            Look::Money => ValueKind::Money,
            look if look.is_number() => ValueKind::Number,
            _ => ValueKind::Words,
        };
        Self::plain(column.heading, kind)
    }

    /// A column that is not one of the graph.
    fn plain(name: &str, kind: ValueKind) -> Self {
        Self {
            name: name.to_owned(),
            kind,
            unit: None,
            working: None,
            source: None,
        }
    }
}

impl Value {
    /// Words; blank where there are none.
    fn words(words: &str) -> Self {
        if words.is_empty() {
            Value::Blank
        } else {
            Value::Text(words.to_owned())
        }
    }

    /// A finite number in a unit.
    fn of(number: f64, unit: Unit) -> Self {
        // Nothing owed is not less than nothing.
        let number = number + 0.0;
        match kind_of(unit) {
            ValueKind::Money => Value::Text(decimal(number)),
            // A date column holds zero where there is no day.
            ValueKind::Date if number == 0.0 => Value::Blank,
            ValueKind::Date => Value::Text(words::day(number)),
            ValueKind::Number | ValueKind::Words => Value::Number(number),
        }
    }
}

/// Money as decimal text: cents where it is whole cents but for the dust of binary
/// fractions, else every digit of a finer price.
fn decimal(value: f64) -> String {
    let cents = money::amount(value).to_string();
    let off = cents
        .parse()
        .map_or(f64::INFINITY, |near: f64| (near - value).abs());
    if off <= 1e-9 * value.abs().max(1.0) {
        cents
    } else {
        format!("{value}")
    }
}
