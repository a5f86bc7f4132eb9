//! How a quantity is bought and worked: by the material and the work that a row names, or
//! by those of the usual name where it names none.
//!
//! Always true: what is bought is counted in the unit that its material is sold in, and
//! what is worked in the unit of its work, as long as the row's measures make that unit;
//! where they do not, a limit is broken.

use super::basis::Basis;
use super::book::{BANK, COUNTED, LOOSE, VOLUME, WEIGHT};
use crate::diagnostic::Code;
use crate::graph::prelude::*;
use crate::graph::{
    Breach, Column, ColumnId, Condition, Link, Rules, Table, Term, Text, TextExpr, either, when,
};
use crate::job::tables::{Materials, ProductionRates as Works};
use crate::sources;
use crate::units::{ONE, System, Unit};

/// The kinds of a length and of an area, and of a counted thing.
const LENGTH: f64 = 2.0;
const AREA: f64 = 3.0;
const EACH: f64 = COUNTED;

/// The row of another table that a row names, or the one of the usual name where it names
/// none; `what` is what it is called in the names of columns.
pub(super) fn named_or_usual<T: Table, P: Table>(
    rules: &mut Rules<'_, T>,
    what: &str,
    own: Option<Text<T>>,
    usual: &str,
) -> Link<T, P> {
    let usual = TextExpr::Fixed(usual.to_owned());
    let words = match own {
        Some(own) => either(own.blank(), usual, own.words()),
        None => usual,
    };
    let words = rules.word_step(&format!("{what} in use"), words);
    rules.link(&format!("{what} row"), words)
}

/// What a row amounts to, in each way that it can be counted.
#[derive(Debug)]
pub(super) struct Amounts<T> {
    /// Counted pieces.
    pub(super) each: Option<Column<T>>,
    /// Length.
    pub(super) length: Option<Column<T>>,
    /// Area.
    pub(super) area: Option<Column<T>>,
    /// Volume without a state of earth; it serves for a loose one and for one in the bank.
    pub(super) volume: Option<Column<T>>,
    /// Weight.
    pub(super) weight: Option<Column<T>>,
}

impl<T> Default for Amounts<T> {
    fn default() -> Self {
        Self {
            each: None,
            length: None,
            area: None,
            volume: None,
            weight: None,
        }
    }
}

impl<T: Table> Amounts<T> {
    /// Each amount as a bare number in the job's base units, with the kind of unit it serves.
    fn by_kind(&self, system: System) -> Vec<(f64, Term<T>)> {
        let base = |unit: Unit| super::book::base_of(unit, system);
        let number = |column: Column<T>, unit: Unit| column.here().number_in(base(unit));
        let volume = self.volume.map(|volume| number(volume, system.volume()));
        let all = [
            (EACH, self.each.map(|each| each.here().number_in(ONE))),
            (
                LENGTH,
                self.length.map(|length| number(length, system.length())),
            ),
            (AREA, self.area.map(|area| number(area, system.area()))),
            (VOLUME, volume.clone()),
            (LOOSE, volume.clone()),
            (BANK, volume),
            (
                WEIGHT,
                self.weight.map(|weight| number(weight, system.weight())),
            ),
        ];
        all.into_iter()
            .filter_map(|(kind, number)| Some((kind, number?)))
            .collect()
    }
}

/// The amount of the kind asked for, in units of a size; zero where there is none of it.
fn of_kind<T>(amounts: Vec<(f64, Term<T>)>, kind: &Term<T>, size: &Term<T>) -> Term<T> {
    let none: Term<T> = 0.0.into();
    amounts.into_iter().rev().fold(none, |rest, (own, number)| {
        when(kind.clone().same_as(own), number / size.clone(), rest)
    })
}

/// Whether a kind of unit is none of those there are.
fn of_no_kind<T>(amounts: &[(f64, Term<T>)], kind: &Term<T>) -> Condition {
    let mut same = amounts.iter().map(|(own, _)| kind.clone().same_as(*own));
    let first = same.next().unwrap_or_else(|| kind.clone().same_as(-1.0));
    same.fold(first, Condition::or).negate()
}

/// What a row is bought as: quantity and unit, and the row of the material.
#[derive(Debug)]
pub(super) struct Bought<T> {
    pub(super) quantity: Column<T>,
    /// What it was worked out as, in its natural unit.
    pub(super) amount: Column<T>,
    pub(super) unit: Text<T>,
    pub(super) material: Link<T, Materials>,
}

impl<T> Clone for Bought<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Bought<T> {}

/// What is bought: which material it is, and where a person would change that.
pub(super) struct Wanted<'w, T> {
    /// What it is called in the names of columns, such as `stone`.
    pub(super) what: &'w str,
    /// Row of the material.
    pub(super) material: Link<T, Materials>,
    /// The cell to change where something is wrong with it.
    pub(super) at: ColumnId,
    /// What is wrong where there is something to buy and the material is not in the book.
    pub(super) missing: &'static str,
    /// The unit it is counted in as long as it has no material; one of its amounts is in it.
    pub(super) natural: (Unit, Column<T>),
}

/// Adds what is bought, in the unit that the material is sold in.
///
/// Limits: those of [`sold`]; the material is in the book.
pub(super) fn bought<T: Table>(
    rules: &mut Rules<'_, T>,
    basis: &Basis<'_>,
    wanted: &Wanted<'_, T>,
    amounts: &Amounts<T>,
) -> Bought<T> {
    let bought = sold(rules, basis, wanted, amounts);
    let none = wanted.material.found_none();
    rules.limit(
        &format!("{} not in the book", wanted.what),
        none.and(bought.quantity.here().above(0.0)),
        Breach::open(
            Code::MissingPrice,
            wanted.at,
            wanted.missing,
            "add a row of this name to Materials with its price, or name a material that is there",
        ),
    );
    bought
}

/// Adds what is bought, as [`bought`] does, of a thing that may do without a material.
///
/// A volume of a material sold by weight is weighed, where the material's weight is known.
/// Limit: the material is sold in a unit that the amounts make.
pub(super) fn sold<T: Table>(
    rules: &mut Rules<'_, T>,
    basis: &Basis<'_>,
    wanted: &Wanted<'_, T>,
    amounts: &Amounts<T>,
) -> Bought<T> {
    let (material, production) = (wanted.material, basis.production);
    let kind = material.of(production.material_kind);
    let size = material.of(production.material_size);
    let mut by_kind = amounts.by_kind(basis.system);
    let volume = by_kind.iter().find(|(own, _)| *own == VOLUME);
    let mut misfit = of_no_kind(&by_kind, &kind);
    if let (Some((_, volume)), None) = (volume, amounts.weight) {
        let weight = material.of(production.material_weight);
        let weighed = kind.clone().same_as(WEIGHT).and(weight.clone().above(0.0));
        misfit = misfit.and(weighed.negate());
        by_kind.push((WEIGHT, volume.clone() * weight));
    }
    let (natural, amount) = wanted.natural;
    let quantity = of_kind(by_kind, &kind, &size);
    let in_natural = amount.here().number_in(natural);
    let quantity = when(material.found_none(), in_natural, quantity);
    let name = format!("{} to buy", wanted.what);
    let quantity = rules.step(&name, ONE, &sources::UNITS, quantity);
    let symbol = TextExpr::Fixed(natural.symbol().to_owned());
    let sold_in = material.words_of(basis.inputs.words(Materials::MaterialUnit));
    let unit = either(material.found_none(), symbol, sold_in);
    let unit = rules.word_step(&format!("{} is bought in", wanted.what), unit);
    rules.limit(
        &format!("{} sold in another kind of unit", wanted.what),
        material.found_none().negate().and(misfit),
        Breach::fault(
            Code::DimensionMismatch,
            wanted.at,
            "the material is sold in a unit that these measures do not make",
            "sell it in Materials by what is measured here: piece, length, area, volume or weight; a volume bought by weight needs the material's Weight",
        ),
    );
    Bought {
        quantity,
        amount,
        unit,
        material,
    }
}

/// Work that a row needs: which row of the production rates, and where a person would
/// change that.
pub(super) struct Needed<'w, T> {
    /// What it is called in the names of columns, such as `setting`.
    pub(super) what: &'w str,
    /// Row of the work.
    pub(super) work: Link<T, Works>,
    /// The cell to change where something is wrong with it.
    pub(super) at: ColumnId,
    /// What is wrong where there is something to do and the work is not in the book.
    pub(super) missing: &'static str,
}

/// Adds what is worked, in the unit of the work; zero without a work.
///
/// Limits: those of [`done`]; the work is in the book.
pub(super) fn worked<T: Table>(
    rules: &mut Rules<'_, T>,
    basis: &Basis<'_>,
    needed: &Needed<'_, T>,
    amounts: &Amounts<T>,
) -> Column<T> {
    let worked = done(rules, basis, needed, amounts);
    let by_kind = amounts.by_kind(basis.system);
    let first = by_kind.first();
    let first = first.map_or(0.0.into(), |(_, number)| number.clone());
    rules.limit(
        &format!("{}: work not in the book", needed.what),
        needed.work.found_none().and(first.above(0.0)),
        Breach::open(
            Code::MissingRate,
            needed.at,
            needed.missing,
            "add a row of this name to Production rates, or name a work that is there",
        ),
    );
    worked
}

/// Adds what is worked, as [`worked`] does, of a thing that may do without a work.
///
/// Limit: the work is counted in a unit that the amounts make.
pub(super) fn done<T: Table>(
    rules: &mut Rules<'_, T>,
    basis: &Basis<'_>,
    needed: &Needed<'_, T>,
    amounts: &Amounts<T>,
) -> Column<T> {
    let (work, production) = (needed.work, basis.production);
    let kind = work.of(production.work_kind);
    let size = work.of(production.work_size);
    let by_kind = amounts.by_kind(basis.system);
    let misfit = of_no_kind(&by_kind, &kind);
    let worked = when(work.found_none(), 0.0, of_kind(by_kind, &kind, &size));
    let worked = rules.step(needed.what, ONE, &sources::UNITS, worked);
    rules.limit(
        &format!("{} counted in another kind of unit", needed.what),
        work.found_none().negate().and(misfit),
        Breach::fault(
            Code::DimensionMismatch,
            needed.at,
            "the work is counted in a unit that these measures do not make",
            "count the work in another unit in Production rates, or name another work",
        ),
    );
    worked
}
