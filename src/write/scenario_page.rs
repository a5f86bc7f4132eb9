//! The page that a board can read: below the table of scenarios a few plain words and a chart.
//!
//! Always true: the words name scenarios and never say a figure, so that they stay true when
//! a cell is edited.

use rust_xlsxwriter::{Chart, ChartAxisLabelPosition, ChartLegendPosition, ChartType};

use super::error::WriteError;
use super::heights::{LINE, PLAIN, lines};
use super::painter::{Painter, Value};
use super::sheets::{DATA, FIRST};
use super::styles::WHOLE;
use crate::bid::scenarios;
use crate::graph::reference;
use crate::labour::compared;
use crate::tables::Compared;

/// What is said of every comparison.
const SAID: [&str; 4] = [
    "A saving is what the crew would have cost, less what partners' work takes: a lead beside them, training, set-up, gear, machines that stand, work done again, extra material. Overhead and profit stay what they are in dollars unless a scenario or a mark-up says that they follow.",
    "Hours given, and what they are worth, are never part of a saving. They are the hours that people take at their own pace, with briefing and training; their value may count toward a match.",
    "Scope and quality are the same in every scenario; where the days differ, the last column says so. What it comes to if people do not turn up stands on Scenarios in detail.",
    "Local law on volunteers, minors and wages comes first. Machines, lifting, deep cuts, confined spaces and electrical work stay with those who state their qualification for it.",
];
/// What is said where several bids are the lowest.
const OTHERS: &str = ", and of others beside it";
/// Width of the page in letters, for the height of its words.
const WIDE: f64 = 120.0;
/// Last column of the page.
const LAST: u16 = 10;

impl Painter<'_> {
    /// The words and the chart below the table of scenarios.
    pub(super) fn scenarios_for_a_board(&mut self) -> Result<(), WriteError> {
        let count = self.estimate.rows::<Compared>();
        if count == 0 {
            return Ok(());
        }
        let mut row = FIRST + DATA + u32::try_from(count).unwrap_or(0) + 1;
        self.in_use(row)?;
        self.lowest(row + 1)?;
        row += 3;
        let format = self.styles.wrapped.clone();
        for said in SAID {
            self.sheet
                .merge_range(row, 0, row, LAST, said, &format)?
                .set_row_height(row, lines(said, WIDE, PLAIN) * LINE)?;
            row += 1;
        }
        self.chart_of_scenarios(row + 1, count)
    }

    /// Which scenario this workbook is priced with.
    fn in_use(&mut self, row: u32) -> Result<(), WriteError> {
        let cell = self.estimate.graph.id(compared::NAME_IN_USE).at(0);
        let name = reference::reference(&self.estimate.graph, self.layout, self.at, cell);
        let words = format!(
            "This workbook is priced with: {}",
            self.estimate.results.words(cell)
        );
        let formula = format!("\"This workbook is priced with: \"&{name}");
        let format = self.styles.block.clone();
        self.formula(row, 0, &formula, Value::Words(&words), &format)
    }

    /// Which scenario has the lowest bid.
    fn lowest(&mut self, row: u32) -> Result<(), WriteError> {
        let graph = &self.estimate.graph;
        let bids = self.estimate.results.numbers(graph.id(scenarios::BID));
        let least = bids.iter().copied().fold(f64::INFINITY, f64::min);
        let at = bids.iter().position(|bid| *bid <= least).unwrap_or(0);
        let name = self.estimate.words(compared::NAME, at);
        let ties = bids.iter().filter(|bid| **bid <= least).count() > 1;
        let others = if ties { OTHERS } else { "" };
        let words = format!("The lowest bid is that of: {name}{others}");
        let (names, bids) = (
            self.range(graph.id(compared::NAME)),
            self.range(graph.id(scenarios::BID)),
        );
        let formula = format!(
            "\"The lowest bid is that of: \"&INDEX({names},MATCH(MIN({bids}),{bids},0))&IF(COUNTIF({bids},MIN({bids}))>1,\"{OTHERS}\",\"\")"
        );
        let format = self.styles.block.clone();
        self.formula(row, 0, &formula, Value::Words(&words), &format)
    }

    /// What is saved, what the client pays its own staff and what is given in kind, scenario by
    /// scenario: bids themselves differ too little to be seen beside one another.
    fn chart_of_scenarios(&mut self, row: u32, count: usize) -> Result<(), WriteError> {
        let graph = &self.estimate.graph;
        let mut chart = Chart::new(ChartType::Column);
        let series = [
            ("Saving of the bid", graph.id(scenarios::SAVING)),
            (
                "Pay of the client's own staff",
                graph.id(scenarios::STAFF_PAY),
            ),
            (
                "Given in kind, not part of the cost",
                graph.id(scenarios::IN_KIND),
            ),
        ];
        for (name, column) in series {
            chart
                .add_series()
                .set_name(name)
                .set_categories(self.span(graph.id(compared::NAME), 0, count))
                .set_values(self.span(column, 0, count));
        }
        chart
            .title()
            .set_name("What each scenario saves, and what is given for it");
        chart
            .y_axis()
            .set_name(self.estimate.currency())
            .set_num_format(WHOLE);
        chart
            .x_axis()
            .set_label_position(ChartAxisLabelPosition::Low);
        chart.legend().set_position(ChartLegendPosition::Bottom);
        chart.set_width(900).set_height(360);
        self.sheet.insert_chart(row, 0, &chart)?;
        Ok(())
    }
}
