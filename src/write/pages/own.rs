//! Pages that are not made of columns of the graph alone: the bid page, factors, checks,
//! cautions, sources, and the defaults that move the bid most.

use super::{BlockRecord, ColumnRecord, Maker, Value, ValueKind, value};
use crate::graph::Table;
use crate::job::tables::JobKeys;
use crate::parameters::Factor;
use crate::sources;
use crate::units::MONEY;
use crate::write::checks::kind;
use crate::write::fixed_pages::CAUTIONS;
use crate::write::sheets::{Block, Show};

/// What the head of the bid page says.
const HEAD: [JobKeys; 8] = [
    JobKeys::JobName,
    JobKeys::Client,
    JobKeys::Site,
    JobKeys::PreparedBy,
    JobKeys::BidDate,
    JobKeys::ValidDays,
    JobKeys::BidKind,
    JobKeys::JobNote,
];

/// A block of columns that are named here.
fn block(title: &str, columns: &[(&str, ValueKind)], rows: Vec<Vec<Value>>) -> BlockRecord {
    let column = |(name, kind): &(&str, ValueKind)| ColumnRecord::plain(name, *kind);
    BlockRecord {
        title: title.to_owned(),
        file: String::new(),
        upright: false,
        columns: columns.iter().map(column).collect(),
        rows,
    }
}

/// The usual cautions.
pub(super) fn cautions() -> BlockRecord {
    let columns = [("Work", ValueKind::Words), ("Caution", ValueKind::Words)];
    let row = |(what, said): &(&str, &str)| vec![Value::words(what), Value::words(said)];
    block("Cautions", &columns, CAUTIONS.iter().map(row).collect())
}

/// Every source that rules and defaults name.
pub(super) fn sources() -> BlockRecord {
    let columns = [("Standing", ValueKind::Words), ("Source", ValueKind::Words)];
    let rows = sources::ALL.iter().map(|source| {
        vec![
            Value::words(source.standing.words()),
            Value::words(source.text),
        ]
    });
    block("Sources", &columns, rows.collect())
}

impl Maker<'_> {
    /// Who and what the bid is for.
    pub(super) fn about_the_bid(&self) -> BlockRecord {
        let inputs = &self.estimate.columns.inputs;
        let columns = HEAD.map(|key| Show::Copy(inputs.id(key))).to_vec();
        let table = self
            .estimate
            .graph
            .column(inputs.id(JobKeys::JobName))
            .table;
        self.block(&Block {
            table,
            title: JobKeys::NAME.to_owned(),
            heading: 0,
            columns,
            upright: true,
            totals: Vec::new(),
        })
    }

    /// The sections of the bid, which have no title on its page.
    pub(super) fn sections(&self, sections: &Block) -> BlockRecord {
        BlockRecord {
            title: "Sections".to_owned(),
            ..self.block(sections)
        }
    }

    /// The factors: default, what is in use, why, and the source.
    pub(super) fn factors(&self) -> BlockRecord {
        let columns = [
            ("Factor", ValueKind::Words),
            ("Unit", ValueKind::Words),
            ("Default", ValueKind::Number),
            ("In use", ValueKind::Number),
            ("Reason", ValueKind::Words),
            ("Standing", ValueKind::Words),
            ("Source", ValueKind::Words),
        ];
        let estimate = self.estimate;
        let system = estimate.job.system();
        let row = |factor: &Factor| {
            let in_use = estimate.columns.inputs.factors.of(*factor);
            vec![
                Value::words(factor.name()),
                Value::words(factor.unit(system).symbol()),
                Value::Number(factor.default(system)),
                value(estimate, in_use.id.at(0)),
                Value::words(&estimate.job.factor(*factor).reason),
                Value::words(factor.source().standing.words()),
                Value::words(factor.source().text),
            ]
        };
        block("Factors", &columns, Factor::ALL.iter().map(row).collect())
    }

    /// Every limit: how many rows break it, and the first of them.
    pub(super) fn checks(&self) -> BlockRecord {
        let columns = [
            ("Check", ValueKind::Words),
            ("Kind", ValueKind::Words),
            ("What it means", ValueKind::Words),
            ("Rows", ValueKind::Number),
            ("First", ValueKind::Words),
            ("What to do", ValueKind::Words),
        ];
        let (graph, results) = (&self.estimate.graph, &self.estimate.results);
        let rows = graph.limits().map(|(id, breach)| {
            let table = graph.table(graph.column(id).table);
            let numbers = results.numbers(id);
            let first = numbers.iter().position(|number| *number > 0.5);
            let label = first.zip(table.label);
            let label = label.map_or("", |(row, label)| results.words(label.at(row)));
            vec![
                Value::words(&format!("{}: {}", table.name, graph.column(id).name)),
                Value::words(kind(breach.severity)),
                Value::words(breach.message),
                Value::Number(numbers.iter().sum()),
                Value::words(label),
                Value::words(breach.hint),
            ]
        });
        block("Checks", &columns, rows.collect())
    }

    /// The defaults that move the bid most.
    pub(super) fn defaults(&self) -> BlockRecord {
        let columns = [
            ("Default", ValueKind::Words),
            ("Unit", ValueKind::Words),
            ("As it is", ValueKind::Number),
            ("Tried", ValueKind::Number),
            ("Change of the bid", ValueKind::Money),
            ("Where the default comes from", ValueKind::Words),
        ];
        let system = self.estimate.job.system();
        let rows = self.estimate.swings.iter().map(|swing| {
            vec![
                Value::words(swing.factor.name()),
                Value::words(swing.factor.unit(system).symbol()),
                Value::Number(swing.default),
                Value::Number(swing.tried),
                Value::of(swing.change, MONEY),
                Value::words(swing.factor.source().text),
            ]
        });
        block("Defaults that move the bid most", &columns, rows.collect())
    }
}
