//! Charts over live cells: sections of basins, long sections of falls, and the balance of
//! earthwork.

use rust_xlsxwriter::{
    Chart, ChartAxisLabelPosition, ChartFormat, ChartLegendPosition, ChartLine, ChartLineDashType,
    ChartType, Color,
};

use super::error::WriteError;
use super::painter::Painter;
use super::styles::WHOLE;
use crate::graph::home::Layout;
use crate::graph::{Cell, ColumnId};
use crate::takeoff::balance;
use crate::takeoff::falls::profile;
use crate::takeoff::sections;

/// More basins than this are not drawn: their points stand on the sheet all the same.
const DRAWN: usize = 12;
/// Rows that one chart takes on the sheet.
const CHART_ROWS: u32 = 18;

const GROUND: Color = Color::RGB(0x8A_6D_3B);
const DUG: Color = Color::RGB(0xB0_A0_90);
const WATER: Color = Color::RGB(0x2E_7D_B3);
const SOLID: ChartLineDashType = ChartLineDashType::Solid;
const DASHED: ChartLineDashType = ChartLineDashType::Dash;

impl Painter<'_> {
    /// The live cells of some rows of a column, as a chart names them.
    pub(super) fn span(
        &self,
        column: ColumnId,
        first: usize,
        rows: usize,
    ) -> (&'static str, u32, u16, u32, u16) {
        let home = self.layout.home(column);
        let sheet = self.layout.sheets[home.sheet].name;
        let first = home.row + u32::try_from(first).unwrap_or(0);
        let last = first + u32::try_from(rows).unwrap_or(1).max(1) - 1;
        let at = u16::try_from(home.column).unwrap_or(0);
        (sheet, first, at, last, at)
    }

    /// One chart a basin: finished surface, dug surface, water.
    pub(super) fn section_charts(&mut self) -> Result<(), WriteError> {
        let estimate = self.estimate;
        let graph = &estimate.graph;
        let unit = estimate.job.system().length();
        let (across, cut_across) = (graph.id(sections::ACROSS), graph.id(sections::CUT_ACROSS));
        let shore = graph.id(sections::WATER_ACROSS);
        let points = sections::POINTS.gathered(graph);
        let mut first = 0;
        for (position, of_basin) in points
            .chunk_by(|one, next| one.basin == next.basin)
            .take(DRAWN)
            .enumerate()
        {
            let rows = of_basin.len();
            let mut chart = self.drawing(graph.id(sections::BASIN).at(first));
            let surfaces = [
                (
                    "Finished surface",
                    (across, sections::FINISHED, rows),
                    (GROUND, 2.25, SOLID),
                ),
                (
                    "Cut",
                    (cut_across, sections::CUT, rows),
                    (DUG, 1.25, DASHED),
                ),
                ("Water", (shore, sections::WATER, 2), (WATER, 1.25, SOLID)),
            ];
            for (name, (across, depth, rows), style) in surfaces {
                let of = (across, graph.id(depth), rows);
                self.line(&mut chart, name, first, of, style);
            }
            first += rows;
            chart
                .x_axis()
                .set_name(&format!("Across the width, {unit}"))
                .set_num_format("0");
            chart
                .y_axis()
                .set_name(&format!("Below the rim, {unit}"))
                .set_reverse()
                .set_label_position(ChartAxisLabelPosition::Low)
                .set_num_format("0.0");
            self.hang(&chart, position, 8)?;
        }
        Ok(())
    }

    /// One chart a fall: courses of stone as steps, their beds, water.
    pub(super) fn fall_charts(&mut self) -> Result<(), WriteError> {
        let estimate = self.estimate;
        let graph = &estimate.graph;
        let unit = estimate.job.system().length();
        let distance = graph.id(profile::DISTANCE);
        let drawn = profile::rows_of(graph).into_iter();
        let drawn = drawn.filter(|(_, rows)| *rows > 0);
        for (position, (first, rows)) in drawn.take(DRAWN).enumerate() {
            let mut chart = self.drawing(graph.id(profile::FALL).at(first));
            let lines = [
                ("Stone", profile::STONE, (GROUND, 2.25, SOLID)),
                ("Bed", profile::BED, (DUG, 1.25, DASHED)),
                ("Water", profile::WATER, (WATER, 1.25, SOLID)),
            ];
            for (name, height, style) in lines {
                let of = (distance, graph.id(height), rows);
                self.line(&mut chart, name, first, of, style);
            }
            chart
                .x_axis()
                .set_name(&format!("Back from the first face, {unit}"))
                .set_num_format("0");
            chart
                .y_axis()
                .set_name(&format!("Elevation, {unit}"))
                .set_label_position(ChartAxisLabelPosition::Low)
                .set_num_format("0.0");
            self.hang(&chart, position, 6)?;
        }
        Ok(())
    }

    /// A drawing with straight lines between points, named by a cell's words.
    fn drawing(&self, name: Cell) -> Chart {
        let mut chart = Chart::new(ChartType::ScatterStraight);
        chart.title().set_name(self.estimate.results.words(name));
        chart.legend().set_position(ChartLegendPosition::Bottom);
        chart.set_width(620).set_height(330);
        chart
    }

    /// One line of a drawing, over the live cells of two columns from a first row on.
    fn line(
        &self,
        chart: &mut Chart,
        name: &str,
        first: usize,
        (x, y, rows): (ColumnId, ColumnId, usize),
        (color, width, dash): (Color, f64, ChartLineDashType),
    ) {
        let mut line = ChartLine::new();
        line.set_color(color).set_width(width).set_dash_type(dash);
        chart
            .add_series()
            .set_name(name)
            .set_categories(self.span(x, first, rows))
            .set_values(self.span(y, first, rows))
            .set_format(ChartFormat::new().set_line(&line));
    }

    /// Puts a drawing beside the table, below those before it.
    fn hang(&mut self, chart: &Chart, position: usize, column: u16) -> Result<(), WriteError> {
        let at = u32::try_from(position).unwrap_or(0);
        self.sheet
            .insert_chart(3 + at * CHART_ROWS, column, chart)?;
        Ok(())
    }

    /// Dug and brought in against filled and taken away.
    pub(super) fn balance_chart(&mut self, below: u32) -> Result<(), WriteError> {
        let volume = self.estimate.job.system().bank();
        let mut chart = Chart::new(ChartType::Column);
        let parts = [
            ("Dug", balance::DUG),
            ("Brought in", balance::BROUGHT),
            ("Filled", balance::FILLED),
            ("Surplus", balance::SURPLUS),
        ];
        for (name, step) in parts {
            let column = self.estimate.graph.id(step);
            chart
                .add_series()
                .set_name(name)
                .set_values(self.span(column, 0, 1));
        }
        chart.title().set_name("Earthwork balance");
        chart.x_axis().set_hidden(true);
        chart
            .y_axis()
            .set_name(&volume.to_string())
            .set_num_format(WHOLE)
            .set_min(0.0);
        chart.legend().set_position(ChartLegendPosition::Bottom);
        chart.set_width(560).set_height(320);
        self.sheet.set_page_breaks(&[below])?;
        self.sheet.insert_chart(below, 0, &chart)?;
        Ok(())
    }
}
