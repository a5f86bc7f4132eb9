//! Planting: soil by thickness, plants by spacing.
//!
//! Soil and plants lie on the true surface: on a bank it is larger than it is seen from
//! above.

use super::basis::Basis;
use super::grades::grade_in_use;
use super::inputs::AllInputs;
use super::line::Line;
use super::measured_area::measured_area;
use super::supplied::{Found, Supplied, supplied};
use super::supply::Amounts;
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, ColumnId, Graph, Rules, Term, Text, when};
use crate::job::tables::Planting;
use crate::sources;
use crate::units::{EACH, ONE, System};

/// Columns of the planted areas.
#[derive(Clone, Copy, Debug)]
pub struct PlantingColumns {
    name: Text<Planting>,
    soil: Supplied<Planting>,
    planted: Supplied<Planting>,
    soil_arises: ColumnId,
    plants_arise: ColumnId,
    /// The area as it lies, slope counted.
    pub surface: Column<Planting>,
    /// Volume of the soil.
    pub soil_volume: Column<Planting>,
    /// Whole plants.
    pub plants: Column<Planting>,
}

/// Adds the planted areas: true surface, soil, plants.
pub fn planting(graph: &mut Graph, basis: &Basis<'_>) -> PlantingColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let mut rules = graph.rules::<Planting>();
    let surface = surface(&mut rules, inputs, system);
    let depth = inputs.number(Planting::SoilDepth);
    let soil_volume = rules.geometry("soil volume", system.volume(), surface * depth);
    let plants = plants(&mut rules, inputs, surface);
    nothing_planted(&mut rules, inputs);
    let usual_grade = basis.wide.usual_grade;
    let grade = grade_in_use(&mut rules, inputs, usual_grade, Planting::PlantingGrade);
    PlantingColumns {
        name: inputs.words(Planting::Planted),
        soil: soil_spread(&mut rules, basis, soil_volume, grade),
        planted: plants_set(&mut rules, basis, (plants, surface), grade),
        soil_arises: depth.id,
        plants_arise: inputs.id(Planting::Spacing),
        surface,
        soil_volume,
        plants,
    }
}

/// The true surface of an area on a slope: area × √(1 + 1 ÷ slope²).
fn surface(
    rules: &mut Rules<'_, Planting>,
    inputs: &AllInputs,
    system: System,
) -> Column<Planting> {
    let sides = [
        Planting::PlantingArea,
        Planting::PlantingLength,
        Planting::PlantingWidth,
    ];
    let area = measured_area(rules, inputs, sides, system);
    let slope = inputs.number(Planting::PlantingSlope);
    let longer = (1.0 + 1.0 / (slope * slope)).root();
    let longer = when(slope.here().above(0.0), longer, 1.0);
    let longer = rules.step("surface for one of area", ONE, &sources::DEVELOPED, longer);
    rules.geometry("true surface", system.area(), area * longer)
}

/// Whole plants: surface ÷ spacing², and 2 ÷ √3 times as many set out in triangles.
fn plants(
    rules: &mut Rules<'_, Planting>,
    inputs: &AllInputs,
    surface: Column<Planting>,
) -> Column<Planting> {
    let spacing = inputs.number(Planting::Spacing);
    let triangle = inputs.words(Planting::Pattern).is("triangle");
    let more = 2.0 / Term::from(3.0).root();
    let more = when(triangle, more, 1.0);
    let source = &sources::PLANT_SPACING;
    let more = rules.step("plants for one in squares", ONE, source, more);
    let plants = (surface / (spacing * spacing) * more).round_up();
    let plants = when(spacing.here().above(0.0), plants, 0.0);
    rules.step("plants", EACH, source, plants)
}

/// Limit: a planted area has soil or plants.
fn nothing_planted(rules: &mut Rules<'_, Planting>, inputs: &AllInputs) {
    let depth = inputs.number(Planting::SoilDepth);
    let spacing = inputs.number(Planting::Spacing);
    rules.limit(
        "neither soil nor plants",
        depth.blank().and(spacing.blank()),
        Breach::open(
            Code::MissingValue,
            spacing.id,
            "neither soil nor plants are measured here, so nothing is taken off",
            "write Soil depth, Spacing or both",
        ),
    );
}

/// Soil as it is bought, loose, and spread.
fn soil_spread(
    rules: &mut Rules<'_, Planting>,
    basis: &Basis<'_>,
    volume: Column<Planting>,
    grade: Text<Planting>,
) -> Supplied<Planting> {
    let own = basis.inputs.words(Planting::PlantingSoil);
    let amounts = Amounts {
        volume: Some(volume),
        ..Amounts::default()
    };
    let soil = Found {
        what: "planting soil",
        own: Some(own),
        usual: "Planting soil",
        at: own.id,
        missing: "the soil is not in Materials, so it has no price",
    };
    let spreading = Found {
        what: "spreading",
        own: None,
        usual: "Spread topsoil",
        at: basis.inputs.id(Planting::SoilDepth),
        missing: "the work that spreads soil is not in Production rates",
    };
    let natural = (basis.system.volume(), volume);
    supplied(
        rules,
        basis,
        (&soil, &spreading),
        (&amounts, natural),
        grade,
    )
}

/// Plants as they are bought, by the piece, and set.
fn plants_set(
    rules: &mut Rules<'_, Planting>,
    basis: &Basis<'_>,
    (plants, surface): (Column<Planting>, Column<Planting>),
    grade: Text<Planting>,
) -> Supplied<Planting> {
    let own = basis.inputs.words(Planting::Plant);
    let work = basis.inputs.words(Planting::PlantingWork);
    let amounts = Amounts {
        each: Some(plants),
        area: Some(surface),
        ..Amounts::default()
    };
    let bought = Found {
        what: "plants bought",
        own: Some(own),
        usual: "Plants",
        at: own.id,
        missing: "these plants are not in Materials, so they have no price",
    };
    let setting = Found {
        what: "setting plants",
        own: Some(work),
        usual: "Plant",
        at: work.id,
        missing: "the work that sets these plants is not in Production rates",
    };
    let natural = (EACH, plants);
    supplied(
        rules,
        basis,
        (&bought, &setting),
        (&amounts, natural),
        grade,
    )
}

impl PlantingColumns {
    /// Lines, in the order of the rows: soil and plants, each where it is measured.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        let mut lines = Vec::new();
        for row in 0..graph.rows(self.name.id) {
            if graph.is_filled(self.soil_arises.at(row)) {
                let words = ("Soil", self.name, "planting soil");
                lines.push(self.soil.named_line(row, words));
            }
            if graph.is_filled(self.plants_arise.at(row)) {
                let words = ("Plants", self.name, "plants");
                lines.push(self.planted.named_line(row, words));
            }
        }
        lines
    }
}
