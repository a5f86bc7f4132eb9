//! One thing that a row is made of, bought and worked, as a line of the bid.
//!
//! Gravel, logs, soil, plants and bedding all come to the same: a material and a work,
//! each named or of the usual name, what is lost of the material, and a grade.

use super::basis::Basis;
use super::line::{Line, fixed};
use super::supply::{Amounts, Bought, Needed, Wanted, bought, named_or_usual, worked};
use crate::graph::prelude::*;
use crate::graph::{Column, ColumnId, Link, Piece, Rules, Table, Text};
use crate::job::tables::{Materials, ProductionRates as Works};
use crate::sources;
use crate::units::{PERCENT, Unit};

/// How a material or a work is found: what it is called in the names of columns, the
/// column that may name it, its usual name, the cell to change, and what is wrong where
/// the book does not have it.
pub(super) struct Found<'w, T> {
    pub(super) what: &'w str,
    pub(super) own: Option<Text<T>>,
    pub(super) usual: &'w str,
    pub(super) at: ColumnId,
    pub(super) missing: &'static str,
}

/// What is bought and worked of one thing, by columns of its table.
#[derive(Debug)]
pub(super) struct Supplied<T> {
    pub(super) bought: Bought<T>,
    pub(super) waste: Column<T>,
    pub(super) work: Link<T, Works>,
    pub(super) worked: Column<T>,
    /// Price of one, where the table has it.
    pub(super) price: Option<Column<T>>,
    pub(super) grade: Text<T>,
}

impl<T> Clone for Supplied<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Supplied<T> {}

/// Adds what is bought and worked of one thing; `natural` is the unit and the amount that
/// it is counted in as long as it has no material.
pub(super) fn supplied<T: Table>(
    rules: &mut Rules<'_, T>,
    basis: &Basis<'_>,
    (material, work): (&Found<'_, T>, &Found<'_, T>),
    (amounts, natural): (&Amounts<T>, (Unit, Column<T>)),
    grade: Text<T>,
) -> Supplied<T> {
    let row: Link<T, Materials> =
        named_or_usual(rules, material.what, material.own, material.usual);
    let wanted = Wanted {
        what: material.what,
        material: row,
        at: material.at,
        missing: material.missing,
        natural,
    };
    let bought = bought(rules, basis, &wanted, amounts);
    let row: Link<T, Works> = named_or_usual(rules, work.what, work.own, work.usual);
    let needed = Needed {
        what: work.what,
        work: row,
        at: work.at,
        missing: work.missing,
    };
    Supplied {
        bought,
        waste: waste_of(rules, basis, material.what, bought.material),
        work: row,
        worked: worked(rules, basis, &needed, amounts),
        price: None,
        grade,
    }
}

/// Adds what is lost of a material.
pub(super) fn waste_of<T: Table>(
    rules: &mut Rules<'_, T>,
    basis: &Basis<'_>,
    what: &str,
    material: Link<T, Materials>,
) -> Column<T> {
    let waste = material.of(basis.production.material_waste);
    rules.step(&format!("waste of {what}"), PERCENT, &sources::WASTE, waste)
}

impl<T: Table> Supplied<T> {
    /// The line of one row, under the heading of the bid that its table has the name of.
    pub(super) fn line(&self, row: usize, name: Vec<Piece>, description: Vec<Piece>) -> Line {
        Line {
            table: T::NAME,
            name,
            section: vec![fixed(T::NAME)],
            description,
            unit: vec![Piece::Cell(self.bought.unit.id.at(row))],
            quantity: self.bought.quantity.id.at(row),
            amount: Some(self.bought.amount.id.at(row)),
            waste: Some(self.waste.id.at(row)),
            material: Some(self.bought.material.id.at(row)),
            work: Some(self.work.id.at(row)),
            worked: Some(self.worked.id.at(row)),
            price: self.price.map(|price| price.id.at(row)),
            grade: self.grade.id.at(row),
        }
    }

    /// The line of one row that is called after the row: `Gravel: Filter bed`.
    pub(super) fn named_line(
        &self,
        row: usize,
        (before, name, said): (&'static str, Text<T>, &'static str),
    ) -> Line {
        let name = Piece::Cell(name.id.at(row));
        let called = vec![fixed(format!("{before}: ")), name.clone()];
        self.line(row, called, vec![name, fixed(format!(": {said}"))])
    }
}
