//! An estimate: a job with its graph of rules and every value worked out.
//!
//! This is the library's whole engine in one place: inputs, take-off, hours, prices,
//! and the findings that limits give. It does no input or output.

mod findings;

pub use findings::place_of;

use crate::diagnostic::{Diagnostic, Severity};
use crate::graph::{Graph, Results, evaluate};
use crate::job::Fields;
use crate::job::Job;
use crate::job::tables::{Basins, JobKeys, Shelves};
use crate::pricing::bid::{self, Priced};
use crate::pricing::lines::{self, LineColumns, Parts};
use crate::pricing::purchase::purchase;
use crate::takeoff::balance::{self, Balance};
use crate::takeoff::basins::{self, Finished};
use crate::takeoff::book::{self, SoilColumns, UnitColumns};
use crate::takeoff::excavation::{self, Dug};
use crate::takeoff::inputs::AllInputs;
use crate::takeoff::items::{self, ItemColumns};
use crate::takeoff::job_wide::{self, JobWide};
use crate::takeoff::production::{self, Production};
use crate::takeoff::sections::{self, PointColumns};
use crate::takeoff::works::{self, WorkRows};

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
            sign => sign.split_whitespace().next().unwrap_or("$"),
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
    let works = works::earthworks(g, &inputs, &units, &production, system);
    let finished = basins::finished(g, &inputs, &wide, shapes, system);
    let dug = excavation::dug(g, &inputs, &finished, &soils, system);
    let pumping = balance::pumping(g, &inputs, &works, system);
    let balance = balance::balance(g, &inputs, &dug, &works, &wide, system);
    let items = items::items(g, &inputs, &units, &production, system);
    let bought = purchase(g, &inputs, &production, &balance);
    let so_far = evaluate(g);
    let parts = Parts {
        inputs: &inputs,
        book: &units,
        production: &production,
        works: &works,
        dug: &dug,
        pumping,
        balance: &balance,
        items: &items,
        purchase: &bought,
        so_far: &so_far,
    };
    let lines = lines::lines(g, &parts);
    let points = sections::points(g, &inputs, (&finished, &dug), &basin_rows(&job), system);
    let sections = lines::section_names(g, lines.section, &so_far);
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
    let mut findings = findings::findings(&job, &graph, &columns, &results);
    findings.extend(findings::usual_cautions(&graph));
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
