//! An estimate: a job with its graph of rules and every value worked out.
//!
//! This is the library's whole engine in one place: inputs, take-off, hours, prices,
//! and the findings that limits give. It does no input or output.

use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::graph::Link;
use crate::graph::{Cell, ColumnId, Graph, Kind, Results, TableId, evaluate, words};
use crate::job::Fields;
use crate::job::tables::{Basins, JobKeys, Materials, Shelves};
use crate::job::{Job, tables::TABLES};
use crate::place::Place;
use crate::pricing::bid::{self, Priced};
use crate::pricing::lines::{self, LineColumns, Parts, Purchase};
use crate::sources;
use crate::takeoff::basins::{self, Finished};
use crate::takeoff::book::{self, SoilColumns, UnitColumns};
use crate::takeoff::excavation::{self, Balance, Dug};
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::items::{self, ItemColumns};
use crate::takeoff::job_wide::{self, JobWide};
use crate::takeoff::production::{self, Production};
use crate::takeoff::sections::{self, PointColumns};
use crate::takeoff::works::{self, WorkRows};
use crate::units::MONEY;

/// The typed columns of every rule, for those who read an estimate.
#[derive(Debug)]
pub struct Columns {
    /// The job's tables.
    pub inputs: AllInputs,
    /// Soils.
    pub soils: SoilColumns,
    /// Units.
    pub units: UnitColumns,
    /// Figures of the job as a whole.
    pub wide: JobWide,
    /// Crews, machines, works, materials.
    pub production: Production,
    /// Kinds of earthwork.
    pub works: WorkRows,
    /// Finished shape of basins.
    pub finished: Finished,
    /// Earthwork of basins.
    pub dug: Dug,
    /// The balance.
    pub balance: Balance,
    /// Other items.
    pub items: ItemColumns,
    /// Points of the cross-sections.
    pub points: PointColumns,
    /// Priced lines.
    pub lines: LineColumns,
    /// Everything after the lines.
    pub priced: Priced,
}

/// A job worked out.
#[derive(Debug)]
pub struct Estimate {
    /// The job.
    pub job: Job,
    /// The rules.
    pub graph: Graph,
    /// The columns by name.
    pub columns: Columns,
    /// The values.
    pub results: Results,
    /// What the limits found: faults, open points, warnings.
    pub findings: Vec<Diagnostic>,
}

impl Estimate {
    /// Whether points are open, so that the bid is a draft.
    #[must_use]
    pub fn is_draft(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.severity == Severity::Open)
    }

    /// Whether something is broken, so that no bid may be written.
    #[must_use]
    pub fn is_blocked(&self) -> bool {
        self.findings.iter().any(Diagnostic::blocks)
    }

    /// The sign of the job's money.
    #[must_use]
    pub fn currency(&self) -> &str {
        match self.job.word(JobKeys::Currency) {
            "" => "$",
            sign => sign,
        }
    }
}

/// Works a job out. Faults found by limits are in [`Estimate::findings`]; the values
/// stand all the same, for whoever wants to look.
#[must_use]
pub fn estimate(job: Job) -> Estimate {
    let system = job.system();
    let mut graph = Graph::new();
    let g = &mut graph;
    let inputs = AllInputs::load(g, &job);
    let soils = book::soils(g, &inputs, system);
    let shapes = book::shapes(g);
    let units = book::unit_book(g, system);
    let wide = job_wide::job_wide(g, &inputs, &soils, system);
    let production = production::production(g, &inputs, &units, system, wide.loose);
    let works = works::earthworks(g, &production, system);
    let finished = basins::finished(g, &inputs, &wide, shapes, system);
    let dug = excavation::dug(g, &inputs, &finished, &soils, system);
    let pumping = excavation::pumping(g, &inputs, &works, system);
    let balance = excavation::balance(g, &inputs, &dug, &works, wide.loose, system);
    let items = items::items(g, &inputs, &units, &production, system);
    let purchase = purchase(g, &inputs);
    let parts = Parts {
        inputs: &inputs,
        book: &units,
        production: &production,
        works: &works,
        dug: &dug,
        pumping,
        balance: &balance,
        items: &items,
        purchase: &purchase,
    };
    let lines = lines::lines(g, &parts);
    let points = sections::points(g, &inputs, &finished, &basin_rows(&job), system);
    let sections = lines::section_names(g, lines.section, &evaluate(g));
    let priced = bid::priced(g, &inputs, &wide, &production, &lines, sections);
    let results = evaluate(&graph);
    let columns = Columns {
        inputs,
        soils,
        units,
        wide,
        production,
        works,
        finished,
        dug,
        balance,
        items,
        points,
        lines,
        priced,
    };
    let findings = findings(&job, &graph, &columns, &results);
    Estimate {
        job,
        graph,
        columns,
        results,
        findings,
    }
}

/// The row of the basin that each shelf belongs to.
fn basin_rows(job: &Job) -> Vec<usize> {
    let basins = job.table::<Basins>().words(Basins::Basin.index());
    let named = job.table::<Shelves>().words(Shelves::ShelfBasin.index());
    named
        .iter()
        .map(|name| {
            basins
                .iter()
                .position(|basin| basin == name)
                .unwrap_or(basins.len())
        })
        .collect()
}

/// Tip fees and the imported fill, as figures of the job.
fn purchase(graph: &mut Graph, inputs: &AllInputs) -> Purchase {
    let job = &inputs.job;
    let mut rules = graph.rules::<JobKeys>();
    let fill: Link<JobKeys, Materials> =
        rules.link("imported fill row", job.words(JobKeys::FillMaterial));
    let tip_fee = rules.step(
        "tip fee in use",
        MONEY,
        &sources::JOB,
        job.number(JobKeys::TipFee).or(0.0),
    );
    let sediment_fee = rules.step(
        "sediment fee in use",
        MONEY,
        &sources::JOB,
        job.number(JobKeys::SedimentFee).or(0.0),
    );
    Purchase {
        tip_fee,
        sediment_fee,
        fill,
    }
}

fn findings(job: &Job, graph: &Graph, columns: &Columns, results: &Results) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (limit, breach) in graph.limits() {
        for (row, value) in results.numbers(limit).iter().enumerate() {
            if *value < 0.5 {
                continue;
            }
            let label = label(graph, results, graph.column(limit).table, row);
            let Kind::Limit(condition, _) = &graph.column(limit).kind else {
                continue;
            };
            let facts = words::filled_condition(graph, results, condition, row);
            let what = format!("{label}{} ({facts})", breach.message);
            let place = place_of(
                job,
                graph,
                columns,
                Cell {
                    column: breach.at,
                    row,
                },
            );
            found.push(Diagnostic {
                severity: breach.severity,
                code: breach.code,
                place,
                message: what,
                hint: Some(breach.hint.to_owned()),
            });
        }
    }
    for cell in results.unworkable(graph).into_iter().take(1) {
        if found.iter().any(Diagnostic::blocks) {
            break;
        }
        let label = label(graph, results, graph.column(cell.column).table, cell.row);
        let what = format!(
            "{label}{} cannot be worked out",
            graph.column(cell.column).name
        );
        let place = source_of(job, graph, columns, cell);
        found.push(
            Diagnostic::new(Severity::Error, Code::OutOfRange, place, what)
                .hint("check the numbers it is made from: one is far too large or too small"),
        );
    }
    found
}

fn label(graph: &Graph, results: &Results, table: TableId, row: usize) -> String {
    let label = graph
        .table(table)
        .label
        .map(|column| results.words(Cell { column, row }).to_owned());
    label
        .filter(|label| !label.is_empty())
        .map_or(String::new(), |label| format!("{label}: "))
}

/// The place of an input cell in the user's own file; `None` for a computed one.
#[must_use]
pub fn place_of(job: &Job, graph: &Graph, columns: &Columns, cell: Cell) -> Option<Place> {
    let table = graph.table(graph.column(cell.column).table).name;
    let position = TABLES.iter().position(|known| known.name == table)?;
    let column = columns
        .inputs
        .by_name(table)
        .iter()
        .position(|id| *id == cell.column)?;
    Some(job.tables()[position].place(column, cell.row))
}

/// The place of the first input that a computed cell is made from.
fn source_of(job: &Job, graph: &Graph, columns: &Columns, cell: Cell) -> Option<Place> {
    let mut queue: Vec<ColumnId> = vec![cell.column];
    let mut at = 0;
    while let Some(column) = queue.get(at).copied() {
        if let Some(place) = place_of(
            job,
            graph,
            columns,
            Cell {
                column,
                row: cell.row,
            },
        ) {
            return Some(place);
        }
        queue.extend(
            graph
                .made_from(column)
                .into_iter()
                .filter(|source| *source < column),
        );
        at += 1;
        if at > 1000 {
            break;
        }
    }
    None
}
