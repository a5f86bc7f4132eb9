//! Lines of the bid: one kind of line for each row of a table.

use std::sync::Arc;

use super::supply::{Buying, Working};
use crate::graph::key::Key;
use crate::graph::prelude::*;
use crate::graph::{Cell, Graph, Piece, Table};
use crate::takeoff::grades::Graded;
use crate::takeoff::works::{self, Earthmoving};
use crate::units::{System, Unit};

/// Where one line comes from.
#[derive(Clone, Debug)]
pub struct Line {
    /// The table that it was taken off in.
    pub table: &'static str,
    /// The basin, the fall or the part of the site that it stands in; none where in none.
    pub zone: Option<Piece>,
    /// Its name, unique in the job.
    pub name: Vec<Piece>,
    /// Heading of the bid that it belongs under.
    pub section: Vec<Piece>,
    /// What it is, as it reads on the bid.
    pub description: Vec<Piece>,
    /// What it counts, buys and takes.
    pub taken: Taken,
    /// Price of one by a subcontractor or a quote.
    pub price: Option<Cell>,
    /// How its measures were come by.
    pub grade: Cell,
    /// Whether it is told of only where it comes to something.
    pub only_where_some: bool,
}

/// Words as they are.
pub(crate) fn fixed(words: impl Into<Arc<str>>) -> Piece {
    Piece::Fixed(words.into())
}

/// A part of the words of a line.
#[derive(Clone, Copy, Debug)]
pub enum Part {
    /// Words as they are.
    Fixed(&'static str),
    /// The symbol of a unit.
    Symbol(fn(System) -> Unit),
    /// The words of the row in a column.
    Of(fn() -> Key),
    /// The words of the row in the first of two columns, or in the second where that is blank.
    FirstOf(fn() -> Key, fn() -> Key),
}

impl Part {
    fn piece(self, graph: &mut Graph, row: usize) -> Piece {
        let column = match self {
            Part::Fixed(words) => return fixed(words),
            Part::Symbol(unit) => return fixed(unit(graph.system()).symbol()),
            Part::Of(column) => graph.reached(&column()),
            Part::FirstOf(first, second) => {
                let first = graph.reached(&first());
                if graph.is_filled(first.at(row)) {
                    first
                } else {
                    graph.reached(&second())
                }
            }
        };
        Piece::Cell(column.at(row))
    }
}

fn words(graph: &mut Graph, parts: &[Part], row: usize) -> Vec<Piece> {
    parts.iter().map(|part| part.piece(graph, row)).collect()
}

/// What a line counts, buys and takes.
#[derive(Debug)]
pub enum Counted<T: 'static> {
    /// Something that is bought, and worked where there is a work for it.
    Bought(&'static Buying<T>, Option<&'static Working<T>>),
    /// Something that is worked and not bought.
    Done(&'static Working<T>),
    /// The same in another quantity and unit.
    BoughtAs {
        /// How it is bought.
        bought: &'static Buying<T>,
        /// How it is worked.
        worked: &'static Working<T>,
        /// Its quantity.
        quantity: Step<T>,
        /// The unit of that.
        unit: Wording<T>,
    },
    /// A kind of earthwork: how much of it there is.
    Earth(Earthmoving, fn() -> Key),
    /// Whatever finds what it takes by itself.
    ByColumns(Columns),
}

/// The columns of a line that finds what it takes by itself.
#[derive(Clone, Copy, Debug)]
pub struct Columns {
    /// Its quantity.
    pub quantity: fn() -> Key,
    /// The unit of that.
    pub unit: Part,
    /// What is lost of its material.
    pub waste: Option<fn() -> Key>,
    /// The row of its material.
    pub material: Option<fn() -> Key>,
    /// The row of its work.
    pub work: Option<fn() -> Key>,
}

/// What a line counts, buys and takes, as cells.
#[derive(Clone, Debug)]
pub struct Taken {
    /// Unit of its quantity, by its symbol.
    pub unit: Vec<Piece>,
    /// Its quantity.
    pub quantity: Cell,
    /// What it was worked out as, before it was counted in the unit that it is sold in: its
    /// rule is shown beside the line. The quantity itself where there is none.
    pub amount: Option<Cell>,
    /// What is bought beyond it.
    pub waste: Option<Cell>,
    /// Row of the material that it is bought as.
    pub material: Option<Cell>,
    /// Row of the work that it is done by.
    pub work: Option<Cell>,
    /// What is worked, in the work's own unit; the quantity itself where there is none.
    pub worked: Option<Cell>,
}

impl<T: Table> Counted<T> {
    fn taken(&self, graph: &mut Graph, row: usize) -> Taken {
        match self {
            Counted::Bought(bought, worked) => bought_and_worked(graph, bought, *worked, row),
            Counted::BoughtAs {
                bought,
                worked,
                quantity,
                unit,
            } => Taken {
                quantity: graph.read(*quantity).at(row),
                unit: vec![Piece::Cell(graph.read(*unit).at(row))],
                ..bought_and_worked(graph, bought, Some(worked), row)
            },
            Counted::Done(worked) => {
                let amount = worked.amounts[0];
                let unit = fixed((amount.unit)(graph.system()).symbol());
                let quantity = graph.reached(&(amount.of)()).at(row);
                Taken {
                    work: Some(graph.read(worked.row()).at(row)),
                    worked: Some(graph.read(worked.to_do()).at(row)),
                    ..Taken::plain(vec![unit], quantity)
                }
            }
            Counted::Earth(work, quantity) => {
                let unit = work.unit(graph.system());
                let quantity = graph.reached(&quantity()).at(row);
                Taken {
                    work: Some(work.at(graph.read(works::LINK))),
                    ..Taken::plain(vec![fixed(unit)], quantity)
                }
            }
            Counted::ByColumns(columns) => columns.taken(graph, row),
        }
    }
}

/// What is bought in the unit of its material, and worked in the unit of its work.
fn bought_and_worked<T: Table>(
    graph: &mut Graph,
    bought: &'static Buying<T>,
    worked: Option<&'static Working<T>>,
    row: usize,
) -> Taken {
    let amount = bought.amounts.first();
    let amount = amount.map(|amount| graph.reached(&(amount.of)()).at(row));
    Taken {
        unit: vec![Piece::Cell(graph.read(bought.bought_in()).at(row))],
        quantity: graph.read(bought.to_buy()).at(row),
        amount,
        waste: Some(bought.lost(graph).at(row)),
        material: Some(graph.read(bought.row()).at(row)),
        work: worked.map(|worked| graph.read(worked.row()).at(row)),
        worked: worked.map(|worked| graph.read(worked.to_do()).at(row)),
    }
}

impl Columns {
    fn taken(&self, graph: &mut Graph, row: usize) -> Taken {
        let unit = vec![self.unit.piece(graph, row)];
        let mut cell = |key: fn() -> Key| graph.reached(&key()).at(row);
        let quantity = cell(self.quantity);
        Taken {
            waste: self.waste.map(&mut cell),
            material: self.material.map(&mut cell),
            work: self.work.map(&mut cell),
            ..Taken::plain(unit, quantity)
        }
    }
}

impl Taken {
    /// A quantity in a unit, and nothing else.
    #[must_use]
    pub fn plain(unit: Vec<Piece>, quantity: Cell) -> Self {
        Self {
            unit,
            quantity,
            amount: None,
            waste: None,
            material: None,
            work: None,
            worked: None,
        }
    }
}

/// One kind of line, for each row of the table `T` where it arises.
#[derive(Debug)]
pub struct BidLine<T: 'static> {
    /// Whether there is a line for a row.
    pub arises: fn(&Graph, usize) -> bool,
    /// Heading of the bid that it belongs under.
    pub section: Part,
    /// Where it stands; nowhere in particular where nothing is said.
    pub zone: Option<Part>,
    /// Its name.
    pub name: &'static [Part],
    /// What it is.
    pub says: &'static [Part],
    /// What it counts, buys and takes.
    pub counted: Counted<T>,
    /// Price of one, where its table has it.
    pub price: Option<fn() -> Key>,
    /// How its measures were come by.
    pub grade: fn() -> Key,
    /// Whether it is told of only where it comes to something.
    pub only_where_some: bool,
}

impl<T: Graded> BidLine<T> {
    /// A line for each row, under the table's own heading, that stands nowhere in
    /// particular and takes its price from the book: its name, what it is, and what it
    /// counts, buys and takes.
    #[must_use]
    pub const fn of_each_row(
        name: &'static [Part],
        says: &'static [Part],
        counted: Counted<T>,
    ) -> Self {
        Self {
            arises: |_, _| true,
            section: Part::Fixed(T::NAME),
            zone: None,
            name,
            says,
            counted,
            price: None,
            grade: || T::GRADE_IN_USE.key(),
            only_where_some: false,
        }
    }
}

impl<T: Table> BidLine<T> {
    /// The line of a row, told under a table.
    pub(super) fn of_row(&self, graph: &mut Graph, table: &'static str, row: usize) -> Line {
        Line {
            table,
            section: vec![self.section.piece(graph, row)],
            zone: self.zone.map(|zone| zone.piece(graph, row)),
            name: words(graph, self.name, row),
            description: words(graph, self.says, row),
            taken: self.counted.taken(graph, row),
            price: self.price.map(|price| graph.reached(&price()).at(row)),
            grade: graph.reached(&(self.grade)()).at(row),
            only_where_some: self.only_where_some,
        }
    }
}
