//! What courses and falls are bought as and done by, and the lines they make.

use super::{USUAL_STONE, around, courses};
use crate::graph::prelude::*;
use crate::graph::{Cell, Column, Graph, Link, Piece, Rules, Table, Text};
use crate::job::tables::{Courses, Falls, Materials, ProductionRates as Works};
use crate::sources;
use crate::takeoff::basis::Basis;
use crate::takeoff::grades::grade_in_use;
use crate::takeoff::line::{Line, fixed};
use crate::takeoff::supply::{Amounts, Bought, Needed, Wanted, bought, named_or_usual, worked};
use crate::units::{EACH, ONE, PERCENT, Unit};

/// One thing that is bought and worked, for rows of one table.
#[derive(Debug)]
pub(super) struct Taken<T> {
    pub(super) bought: Bought<T>,
    pub(super) waste: Column<T>,
    pub(super) work: Link<T, Works>,
    pub(super) worked: Column<T>,
}

impl<T> Clone for Taken<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Taken<T> {}

/// What is taken for every course and every fall.
#[derive(Clone, Copy, Debug)]
pub(super) struct AllTaken {
    stone: Taken<Courses>,
    course_grade: Text<Courses>,
    gap_fill: Taken<Falls>,
    bedding: Taken<Falls>,
    foam: Taken<Falls>,
    fall_grade: Text<Falls>,
}

/// Adds what is bought and what is worked.
pub(super) fn taken(graph: &mut Graph, basis: &Basis<'_>) -> AllTaken {
    let (inputs, usual) = (basis.inputs, basis.wide.usual_grade);
    let gaps = Column::new(graph.read(around::GAP_FILL));
    let bedding = Column::new(graph.read(around::BEDDING));
    let cans = Column::new(graph.read(around::CANS));
    let foam = Amounts {
        each: Some(cans),
        length: Some(Column::new(graph.read(around::JOINT))),
        ..Amounts::default()
    };
    let set = set_stone(graph, basis);
    let mut rules = graph.rules::<Courses>();
    let delivered = set.bought.quantity * (1.0 + set.waste);
    rules.step("stone delivered", ONE, &sources::REJECT, delivered);
    let course_grade = grade_in_use(&mut rules, inputs, usual, Courses::CourseGrade);
    let mut rules = graph.rules::<Falls>();
    let placing = named_or_usual(&mut rules, "placing", None, "Place gravel");
    let foaming = named_or_usual(&mut rules, "foaming", None, "Foam joint");
    let natural = basis.system.loose();
    let volume = |volume| Amounts {
        volume: Some(volume),
        ..Amounts::default()
    };
    let [gap_fill, bedding, foam] = BESIDE.map(|beside| {
        let (work, natural, amounts) = match beside.cell {
            Falls::GapFill => (placing, (natural, gaps), &volume(gaps)),
            Falls::FallBedding => (placing, (natural, bedding), &volume(bedding)),
            _ => (foaming, (EACH, cans), &foam),
        };
        beside_stone(&mut rules, basis, &beside, (work, natural), amounts)
    });
    AllTaken {
        stone: set,
        course_grade,
        gap_fill,
        bedding,
        foam,
        fall_grade: grade_in_use(&mut rules, inputs, usual, Falls::FallGrade),
    }
}

/// Stone is bought by weight, by the piece or by the volume of its course; its waste is
/// what fits nowhere and what the quarry's scale leaves open.
fn set_stone(graph: &mut Graph, basis: &Basis<'_>) -> Taken<Courses> {
    let inputs = basis.inputs;
    let tons = Column::new(graph.read(courses::TONS));
    let waste = Column::new(graph.read(courses::WASTE));
    let pieces = Column::new(graph.read(courses::PIECES));
    let volume = Column::new(graph.read(courses::VOLUME));
    let rules = &mut graph.rules();
    let (named, by) = (
        inputs.words(Courses::Stone),
        inputs.words(Courses::CourseWork),
    );
    let amounts = Amounts {
        each: Some(pieces),
        volume: Some(volume),
        weight: Some(tons),
        ..Amounts::default()
    };
    let wanted = Wanted {
        what: "stone",
        material: named_or_usual(rules, "stone", Some(named), USUAL_STONE),
        at: named.id,
        missing: "the stone is not in the book, so it has no price",
        natural: (basis.system.weight(), tons),
    };
    let bought = bought(rules, basis, &wanted, &amounts);
    let work = named_or_usual(rules, "setting", Some(by), "Set stone");
    let needed = Needed {
        what: "setting",
        work,
        at: by.id,
        missing: "the work that sets it is not in the book, so setting the stone is excluded",
    };
    Taken {
        bought,
        waste,
        work,
        worked: worked(rules, basis, &needed, &amounts),
    }
}

/// Something that lies beside the stone of a fall: the cell that names it, what it and
/// its work are called, its usual name, and what is said where it has no price or rate.
struct Beside {
    cell: Falls,
    what: &'static str,
    placed: &'static str,
    usual: &'static str,
    no_price: &'static str,
    no_rate: &'static str,
}

const BESIDE: [Beside; 3] = [
    Beside {
        cell: Falls::GapFill,
        what: "gap fill",
        placed: "gap fill placed",
        usual: "River stone",
        no_price: "the stone for the gaps is not in the book, so it has no price",
        no_rate: "the work that places it is not in the book, so filling the gaps is excluded",
    },
    Beside {
        cell: Falls::FallBedding,
        what: "bedding",
        placed: "bedding placed",
        usual: "Bedding",
        no_price: "what courses are bedded on is not in the book, so it has no price",
        no_rate: "the work that places it is not in the book, so placing the bedding is excluded",
    },
    Beside {
        cell: Falls::Foam,
        what: "foam",
        placed: "joint foamed",
        usual: "Foam",
        no_price: "the foam is not in the book, so it has no price",
        no_rate: "the work that foams them is not in the book, so foaming the joints is excluded",
    },
];

/// What is bought and worked beside the stone; its waste is that of the material.
fn beside_stone(
    rules: &mut Rules<'_, Falls>,
    basis: &Basis<'_>,
    beside: &Beside,
    (work, natural): (Link<Falls, Works>, (Unit, Column<Falls>)),
    amounts: &Amounts<Falls>,
) -> Taken<Falls> {
    let named = basis.inputs.words(beside.cell);
    let material: Link<Falls, Materials> =
        named_or_usual(rules, beside.what, Some(named), beside.usual);
    let wanted = Wanted {
        what: beside.what,
        material,
        at: named.id,
        missing: beside.no_price,
        natural,
    };
    let bought = bought(rules, basis, &wanted, amounts);
    let needed = Needed {
        what: beside.placed,
        work,
        at: named.id,
        missing: beside.no_rate,
    };
    let waste = material.of(basis.production.material_waste);
    let name = format!("{} waste", beside.what);
    Taken {
        bought,
        waste: rules.step(&name, PERCENT, &sources::WASTE, waste),
        work,
        worked: worked(rules, basis, &needed, amounts),
    }
}

/// What a line says of itself: its name in front of the row's, and what it is.
struct Said {
    table: &'static str,
    name: &'static str,
    row: Cell,
    description: Vec<Piece>,
    grade: Cell,
}

impl<T> Taken<T> {
    /// The line of one row.
    fn line(&self, row: usize, said: Said) -> Line {
        Line {
            table: said.table,
            name: vec![fixed(said.name), Piece::Cell(said.row)],
            section: vec![fixed("Stone")],
            description: said.description,
            unit: vec![Piece::Cell(self.bought.unit.id.at(row))],
            quantity: self.bought.quantity.id.at(row),
            amount: Some(self.bought.amount.id.at(row)),
            waste: Some(self.waste.id.at(row)),
            material: Some(self.bought.material.id.at(row)),
            work: Some(self.work.id.at(row)),
            worked: Some(self.worked.id.at(row)),
            price: None,
            grade: said.grade,
        }
    }
}

/// The lines of all falls: of each its courses, from the bottom up, then what lies
/// beside them.
pub(super) fn lines(
    (fall, course): (Text<Falls>, Text<Courses>),
    rows_of: &[(usize, usize)],
    taken: &AllTaken,
) -> Vec<Line> {
    let mut lines = Vec::new();
    for (row, (first, count)) in rows_of.iter().enumerate() {
        let of = fall.id.at(row);
        for row in *first..first + count {
            let own = course.id.at(row);
            let said = Said {
                table: Courses::NAME,
                name: "Stone: ",
                row: own,
                description: vec![
                    Piece::Cell(of),
                    fixed(", "),
                    Piece::Cell(own),
                    fixed(": stone, set"),
                ],
                grade: taken.course_grade.id.at(row),
            };
            lines.push(taken.stone.line(row, said));
        }
        let beside = [
            (taken.gap_fill, "Gap fill: ", ": gaps filled"),
            (taken.bedding, "Bedding: ", ": bedding under the stone"),
            (taken.foam, "Foam: ", ": joints foamed"),
        ];
        for (beside, name, what) in beside.into_iter().filter(|_| *count > 0) {
            let said = Said {
                table: Falls::NAME,
                name,
                row: of,
                description: vec![Piece::Cell(of), fixed(what)],
                grade: taken.fall_grade.id.at(row),
            };
            lines.push(beside.line(row, said));
        }
    }
    lines
}
