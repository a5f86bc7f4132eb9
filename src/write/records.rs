//! Results for programs: plain records that serialise to JSON and CSV.
//!
//! Money is decimal text with two places. In CSV, words that a spreadsheet program
//! would take for a formula are led by an apostrophe.

use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;

use super::head;
use crate::bid::amounts::{AMOUNT, UNIT_PRICE};
use crate::bid::lines as in_use;
use crate::bid::{CREW_HOURS, MACHINE_HOURS, MARK_UPS, WORKING_DAYS, certainty, cost};
use crate::diagnostic::{Diagnostic, Severity};
use crate::estimate::Estimate;
use crate::estimate::sensitivity::Swing;
use crate::graph::prelude::*;
use crate::labour::with_partners::InUse;
use crate::money;
use crate::pricing::costs::QUANTITY;
use crate::pricing::lines;
use crate::tables::{Grades, Lines};

/// One line of a take-off or a bid.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Line")]
pub struct LineRecord {
    /// Name of the line, unique.
    pub line: String,
    /// Section of the bid.
    pub section: String,
    /// What it is.
    pub description: String,
    /// Quantity used.
    pub quantity: f64,
    /// Unit of the quantity.
    pub unit: String,
    /// Crew hours.
    pub crew_hours: f64,
    /// Machine hours.
    pub machine_hours: f64,
    /// Cost of material.
    #[schemars(schema_with = "money_text")]
    pub material: Decimal,
    /// Cost of labor.
    #[schemars(schema_with = "money_text")]
    pub labor: Decimal,
    /// Cost of equipment.
    #[schemars(schema_with = "money_text")]
    pub equipment: Decimal,
    /// Cost of subcontracts.
    #[schemars(schema_with = "money_text")]
    pub subcontract: Decimal,
    /// Direct cost.
    #[schemars(schema_with = "money_text")]
    pub direct_cost: Decimal,
    /// Unit price with mark-ups.
    #[schemars(schema_with = "money_text")]
    pub unit_price: Decimal,
    /// Amount in the bid.
    #[schemars(schema_with = "money_text")]
    pub amount: Decimal,
}

/// What rests on measures of one grade.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Grade")]
pub struct GradeRecord {
    /// The grade.
    pub grade: String,
    /// Amount in the bid.
    #[schemars(schema_with = "money_text")]
    pub amount: Decimal,
    /// Percent of the bid.
    pub percent: f64,
}

/// A default, and what another value of it would do to the bid.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Default")]
pub struct DefaultRecord {
    /// Name of the factor.
    pub factor: &'static str,
    /// Unit of its values.
    pub unit: &'static str,
    /// The default.
    pub default: f64,
    /// The value tried.
    pub tried: f64,
    /// The bid with that value, less the bid as it is.
    #[schemars(schema_with = "money_text")]
    pub change: Decimal,
}

/// A whole bid.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Bid")]
pub struct BidRecord {
    /// The job's name.
    pub job: String,
    /// Currency sign.
    pub currency: String,
    /// `draft` where points are open, else `complete`.
    #[schemars(extend("enum" = ["draft", "complete"]))]
    pub status: &'static str,
    /// Direct cost.
    #[schemars(schema_with = "money_text")]
    pub direct_cost: Decimal,
    /// Mark-ups.
    #[schemars(schema_with = "money_text")]
    pub mark_ups: Decimal,
    /// The bid.
    #[schemars(schema_with = "money_text")]
    pub bid: Decimal,
    /// Crew hours.
    pub crew_hours: f64,
    /// Machine hours.
    pub machine_hours: f64,
    /// Working days without weather.
    pub working_days: f64,
    /// The bid by how its measures were come by, the least certain first.
    pub grades: Vec<GradeRecord>,
    /// The defaults that move the bid most, the one that moves it most first.
    pub defaults: Vec<DefaultRecord>,
    /// Every line.
    pub lines: Vec<LineRecord>,
    /// Everything found about the job.
    pub findings: Vec<Diagnostic>,
}

/// One of several jobs that were checked.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "CheckedJob")]
pub struct CheckedJob {
    /// The job, as it was named.
    pub job: String,
    /// Faults: the job is blocked.
    pub errors: usize,
    /// Points that are still open: the bid is a draft.
    pub open_points: usize,
    /// Warnings.
    pub warnings: usize,
    /// Cautions.
    pub cautions: usize,
    /// The bid; null where the job is blocked.
    #[schemars(schema_with = "money_or_none")]
    pub bid: Option<Decimal>,
    /// Currency sign; empty where the job is blocked.
    pub currency: String,
    /// Everything found about it.
    pub findings: Vec<Diagnostic>,
}

impl CheckedJob {
    /// What was found of a job, and its bid where nothing blocks it.
    #[must_use]
    pub fn new(job: &str, estimate: Option<&Estimate>, findings: &[Diagnostic]) -> Self {
        let count = |severity: Severity| {
            let of_it = findings
                .iter()
                .filter(|finding| finding.severity == severity);
            of_it.count()
        };
        let priced = estimate.filter(|estimate| !estimate.is_blocked());
        Self {
            job: job.to_owned(),
            errors: count(Severity::Error),
            open_points: count(Severity::Open),
            warnings: count(Severity::Warning),
            cautions: count(Severity::Caution),
            bid: priced.map(|estimate| money::amount(estimate.bid())),
            currency: priced.map_or("", Estimate::currency).to_owned(),
            findings: findings.to_vec(),
        }
    }
}

fn money_or_none(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    schemars::json_schema!({ "type": ["string", "null"], "pattern": MONEY })
}

/// How decimal text looks.
const MONEY: &str = r"^-?[0-9]+(\.[0-9]+)?$";

/// The schema of money: decimal text.
pub(super) fn money_text(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
    schemars::json_schema!({ "type": "string", "pattern": MONEY })
}

/// The lines of an estimate.
#[must_use]
pub fn lines(estimate: &Estimate) -> Vec<LineRecord> {
    let words = |column: Wording<Lines>, row| estimate.words(column, row).to_owned();
    let cost = |column: InUse<Lines>, row| money::amount(estimate.number(column, row));
    let record = |row: usize| LineRecord {
        line: words(lines::NAME, row),
        section: words(lines::SECTION, row),
        description: words(lines::DESCRIPTION, row),
        quantity: estimate.number(QUANTITY, row),
        unit: words(lines::UNIT, row),
        crew_hours: estimate.number(in_use::CREW_HOURS, row),
        machine_hours: estimate.number(in_use::MACHINE_HOURS, row),
        material: cost(in_use::MATERIAL_COST, row),
        labor: cost(in_use::LABOR_COST, row),
        equipment: cost(in_use::EQUIPMENT_COST, row),
        subcontract: cost(in_use::SUBCONTRACT_COST, row),
        direct_cost: cost(in_use::DIRECT_COST, row),
        unit_price: money::amount(estimate.number(UNIT_PRICE, row)),
        amount: money::amount(estimate.number(AMOUNT, row)),
    };
    estimate.lines_told().map(record).collect()
}

/// The bid of an estimate, with everything found; `findings` are those of reading the job.
#[must_use]
pub fn bid(estimate: &Estimate, findings: &[Diagnostic]) -> BidRecord {
    BidRecord {
        job: head::title(estimate).to_owned(),
        currency: estimate.currency().to_owned(),
        status: if estimate.is_draft() {
            "draft"
        } else {
            "complete"
        },
        direct_cost: money::amount(estimate.number(cost::DIRECT, 0)),
        mark_ups: money::amount(estimate.number(MARK_UPS, 0)),
        bid: money::amount(estimate.bid()),
        crew_hours: estimate.number(CREW_HOURS, 0),
        machine_hours: estimate.number(MACHINE_HOURS, 0),
        working_days: estimate.number(WORKING_DAYS, 0),
        grades: grades(estimate),
        defaults: defaults(estimate),
        lines: lines(estimate),
        findings: findings.iter().chain(&estimate.findings).cloned().collect(),
    }
}

fn grades(estimate: &Estimate) -> Vec<GradeRecord> {
    let record = |row: usize| GradeRecord {
        grade: estimate.words(certainty::GRADE, row).to_owned(),
        amount: money::amount(estimate.number(certainty::AMOUNT, row)),
        percent: estimate.number(certainty::SHARE, row),
    };
    (0..estimate.rows::<Grades>()).map(record).collect()
}

fn defaults(estimate: &Estimate) -> Vec<DefaultRecord> {
    let record = |swing: &Swing| DefaultRecord {
        factor: swing.factor.name(),
        unit: swing.factor.unit(estimate.job.system()).symbol(),
        default: swing.default,
        tried: swing.tried,
        change: money::amount(swing.change),
    };
    estimate.swings.iter().map(record).collect()
}

/// The lines of an estimate as CSV with a heading line.
#[must_use]
pub fn lines_csv(estimate: &Estimate) -> String {
    let lines: Vec<_> = lines(estimate).iter().map(harmless_line).collect();
    csv(&lines).unwrap_or_default()
}

/// Records as CSV with a heading line.
///
/// # Errors
///
/// Where a record cannot be written as one flat line.
pub fn csv<R: Serialize>(records: &[R]) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for record in records {
        writer.serialize(record)?;
    }
    let bytes = writer
        .into_inner()
        .map_err(|error| csv::Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Words that no spreadsheet program takes for a formula.
#[must_use]
pub fn harmless(words: &str) -> String {
    if words.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{words}")
    } else {
        words.to_owned()
    }
}

/// The same line with words that no spreadsheet program takes for a formula.
#[must_use]
pub fn harmless_line(line: &LineRecord) -> LineRecord {
    LineRecord {
        line: harmless(&line.line),
        section: harmless(&line.section),
        description: harmless(&line.description),
        unit: harmless(&line.unit),
        ..line.clone()
    }
}
