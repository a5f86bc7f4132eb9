//! Edges: the rim of a basin divided among what stands along it.
//!
//! Always true: where any part of a basin's rim is measured, the parts make its whole
//! perimeter, or a limit is broken at the part where the sum goes wrong.

use super::basis::Basis;
use super::book::factor;
use super::grades::grade_in_use;
use super::line::Line;
use super::supplied::{Supplied, waste_of};
use super::supply::{Amounts, Needed, Wanted, done, sold};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{Breach, Column, ColumnId, Graph, Link, Rules, Term, Text, pi, when};
use crate::job::tables::{Basins, Edges};
use crate::parameters::Factor;
use crate::sources;
use crate::units::{ONE, System};

/// Columns of the edges.
#[derive(Clone, Copy, Debug)]
pub struct EdgeColumns {
    name: Text<Edges>,
    supplied: Supplied<Edges>,
    arises: [ColumnId; 2],
    /// Length of the rim of each basin.
    pub perimeter: Column<Basins>,
    /// The basin of each part.
    pub basin: Link<Edges, Basins>,
    /// Length of each part.
    pub length: Column<Edges>,
    /// Length of all parts of a basin's rim.
    pub divided: Column<Basins>,
}

/// Adds the perimeter of every basin and the parts that it is divided into.
pub fn edges(graph: &mut Graph, basis: &Basis<'_>) -> EdgeColumns {
    let (inputs, system) = (basis.inputs, basis.system);
    let perimeter = perimeter(graph, basis);
    let mut rules = graph.rules::<Edges>();
    let rim_of: Link<Edges, Basins> = rules.link("basin row", inputs.words(Edges::EdgeBasin));
    let length = inputs.number(Edges::EdgeLength);
    let length = rules.from_job("length of the part", system.length(), length);
    let so_far = so_far(&mut rules, rim_of, length, system);
    let divided = divided(graph, rim_of, length, system);
    let mut rules = graph.rules::<Edges>();
    adds_up(&mut rules, basis, (rim_of, so_far), (perimeter, divided));
    EdgeColumns {
        name: inputs.words(Edges::Edge),
        supplied: supplied(&mut rules, basis, length),
        arises: [inputs.id(Edges::EdgeMaterial), inputs.id(Edges::EdgeWork)],
        perimeter,
        basin: rim_of,
        length,
        divided: divided.0,
    }
}

/// Length along the rim: of a rectangle twice length and width; of an ellipse, which a
/// circle is too, π/2 × (3 (L + W) − √((3 L + W) (L + 3 W))).
fn perimeter(graph: &mut Graph, basis: &Basis<'_>) -> Column<Basins> {
    let (shape, system) = (basis.finished, basis.system);
    let (length, width) = (shape.length, shape.width);
    let rectangle = basis.inputs.words(Basins::Shape).is("rectangle");
    let product = (3.0 * length + width) * (length + 3.0 * width);
    let root = product.number_in(system.area()).root();
    let root = root.counted_in(system.length());
    let ellipse = pi() / 2.0 * (3.0 * (length + width) - root);
    let rim = when(rectangle, 2.0 * (length + width), ellipse);
    let mut rules = graph.rules::<Basins>();
    rules.step("perimeter", system.length(), &sources::ELLIPSE, rim)
}

/// Length of the parts of a rim down to each one, and how many they are.
fn so_far(
    rules: &mut Rules<'_, Edges>,
    rim_of: Link<Edges, Basins>,
    length: Column<Edges>,
    system: System,
) -> (Column<Edges>, Column<Edges>) {
    let mut running = |name: &str, unit, first: Term<Edges>| {
        rules.running(name, unit, &sources::ARITHMETIC, |own| {
            own.row_above(rim_of, 0.0) + first
        })
    };
    (
        running("rim so far", system.length(), length.into()),
        running("parts so far", ONE, 1.0.into()),
    )
}

/// Length of all parts of each rim, and how many they are: the number of the last one.
fn divided(
    graph: &mut Graph,
    rim_of: Link<Edges, Basins>,
    length: Column<Edges>,
    system: System,
) -> (Column<Basins>, Column<Basins>) {
    let mut rules = graph.rules::<Edges>();
    let one = rules.arithmetic("one part", ONE, 1.0);
    let mut rules = graph.rules::<Basins>();
    let all = rules.geometry("rim divided", system.length(), rim_of.sum(length));
    let parts = rules.arithmetic("parts of the rim", ONE, rim_of.sum(one));
    (all, parts)
}

/// Limits: the parts of a rim are not longer than it, which is told at the part that goes
/// beyond it, nor shorter, which is told at the last part.
fn adds_up(
    rules: &mut Rules<'_, Edges>,
    basis: &Basis<'_>,
    (rim_of, (length, parts)): (Link<Edges, Basins>, (Column<Edges>, Column<Edges>)),
    (perimeter, (divided, all)): (Column<Basins>, (Column<Basins>, Column<Basins>)),
) {
    let at = basis.inputs.id(Edges::EdgeLength);
    let tolerance = factor(basis.inputs, Factor::EdgeTolerance);
    let unit = basis.system.length();
    let rim = rules.geometry("perimeter of its basin", unit, rim_of.of(perimeter));
    let most = rim * (1.0 + tolerance.clone());
    let most = rules.arithmetic("longest that parts may be", unit, most);
    let before = length - basis.inputs.number(Edges::EdgeLength);
    rules.limit(
        "parts of the rim are longer than it",
        length.here().above(most).and(most.here().at_least(before)),
        Breach::fault(
            Code::EdgesDoNotAdd,
            at,
            "the parts of the rim come to more than its perimeter",
            "check the lengths of the basin's parts, and the basin's length and width",
        ),
    );
    let last = when(parts.here().same_as(rim_of.of(all)), 1.0, 0.0);
    let last = rules.from_job("last part of its rim", ONE, last);
    let shortest = rim * (1.0 - tolerance);
    let shortest = rules.arithmetic("shortest that parts may be", unit, shortest);
    rules.limit(
        "parts of the rim are shorter than it",
        last.here()
            .above(0.0)
            .and(shortest.here().above(rim_of.of(divided))),
        Breach::open(
            Code::EdgesDoNotAdd,
            at,
            "the parts of the rim come to less than its perimeter",
            "add a row for the rest of the basin's rim, or check the lengths",
        ),
    );
}

/// What is bought and worked along a part, where it names a material or a work; no usual
/// one stands in, because other tables take most edges off.
fn supplied(
    rules: &mut Rules<'_, Edges>,
    basis: &Basis<'_>,
    length: Column<Edges>,
) -> Supplied<Edges> {
    let inputs = basis.inputs;
    let (material, work) = (
        inputs.words(Edges::EdgeMaterial),
        inputs.words(Edges::EdgeWork),
    );
    let amounts = Amounts {
        length: Some(length),
        ..Amounts::default()
    };
    let row = rules.link("material row", material);
    rules.must_find(material, row);
    let wanted = Wanted {
        what: "edge",
        material: row,
        at: material.id,
        missing: "this edge names no material",
        natural: (basis.system.length(), length),
    };
    let bought = sold(rules, basis, &wanted, &amounts);
    let row = rules.link("work row", work);
    rules.must_find(work, row);
    let needed = Needed {
        what: "edge to work",
        work: row,
        at: work.id,
        missing: "this edge names no work",
    };
    let worked = done(rules, basis, &needed, &amounts);
    let waste = waste_of(rules, basis, "edge", bought.material);
    let usual_grade = basis.wide.usual_grade;
    Supplied {
        bought,
        waste,
        work: row,
        worked,
        price: None,
        grade: grade_in_use(rules, inputs, usual_grade, Edges::EdgeGrade),
    }
}

impl EdgeColumns {
    /// Lines, in the order of the rows: the parts that name a material or a work.
    #[must_use]
    pub fn lines(&self, graph: &Graph) -> Vec<Line> {
        let named = |row: &usize| {
            let filled = |column: &ColumnId| graph.is_filled(column.at(*row));
            self.arises.iter().any(filled)
        };
        let words = ("Edge", self.name, "edge of the basin");
        let rows = 0..graph.rows(self.name.id);
        rows.filter(named)
            .map(|row| self.supplied.named_line(row, words))
            .collect()
    }
}
