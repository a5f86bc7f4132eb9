//! How a quantity is bought and worked: by the material and the work that a row names, or
//! by those of the usual name where it names none.
//!
//! Always true: what is bought is counted in the unit that its material is sold in, and
//! what is worked in the unit of its work, as long as the row's measures make that unit;
//! where they do not, a limit is broken.

use std::marker::PhantomData;
use std::panic::Location;

use super::amount::{Amount, by_kind, of_kind, of_no_kind};
use crate::diagnostic::Severity;
use crate::graph::key::Key;
use crate::graph::prelude::*;
use crate::graph::rule::{At, Derived};
use crate::graph::{Breach, ColumnId, Graph, Link, Table, Text};
use crate::job::tables::{Materials, ProductionRates as Works};
use crate::sources;
use crate::takeoff::book::{VOLUME, WEIGHT};
use crate::takeoff::production::{
    MATERIAL_KIND, MATERIAL_SIZE, MATERIAL_WASTE, MATERIAL_WEIGHT, WORK_KIND, WORK_SIZE,
};
use crate::units::{ONE, PERCENT};

/// What rows of the table `T` look up in the table `P` of the book, and how much of it they
/// take.
#[derive(Debug)]
pub struct Supply<T, P> {
    what: &'static str,
    name: fn() -> TextExpr,
    at: At,
    must_find: bool,
    missing: Option<&'static str>,
    waste: Waste,
    pub(super) amounts: &'static [Amount],
    written: &'static Location<'static>,
    tables: PhantomData<fn() -> (T, P)>,
}

/// How something is bought.
pub type Buying<T> = Supply<T, Materials>;
/// How something is worked.
pub type Working<T> = Supply<T, Works>;
/// A column of something that is bought or worked.
type Of<T, P> = Derived<Supply<T, P>, T>;

/// What is lost of a material.
#[derive(Clone, Copy, Debug)]
pub enum Waste {
    /// What its material says, or what is usual for it.
    OfMaterial,
    /// Only what its material says: all else is counted one by one.
    AsWritten,
    /// A column of the row's own.
    Own(fn() -> Key),
}

/// The words of a column, or the usual name where they are blank.
pub fn named_or_usual<T>(own: impl Words<T>, usual: &str) -> TextExpr {
    either(own.blank(), usual, own.words())
}

impl<T, P> Supply<T, P> {
    /// What it is called in the names of columns, such as `stone`; the name that is looked
    /// up; the cell to change where something is wrong with that; the ways that it can be
    /// counted: what is bought is counted in the first as long as it has no material.
    #[must_use]
    #[track_caller]
    pub const fn new(
        what: &'static str,
        name: fn() -> TextExpr,
        at: At,
        amounts: &'static [Amount],
    ) -> Self {
        Self {
            what,
            name,
            at,
            must_find: false,
            missing: None,
            waste: Waste::OfMaterial,
            amounts,
            written: Location::caller(),
            tables: PhantomData,
        }
    }

    /// Says what is wrong where there is something of it, and the book does not have it; it
    /// may do without where nothing is said.
    #[must_use]
    pub const fn missing(mut self, message: &'static str) -> Self {
        self.missing = Some(message);
        self
    }

    /// Says that what is written in its cell must be in the book.
    #[must_use]
    pub const fn that_must_be_found(mut self) -> Self {
        self.must_find = true;
        self
    }

    const fn column<Q>(
        &'static self,
        name: fn(&Self) -> String,
        add: fn(&'static Self, &mut Graph, &str) -> ColumnId,
    ) -> Derived<Self, T, Q> {
        Derived::new(self, name, add, self.written)
    }
}

impl<T: Table, P: Table> Supply<T, P> {
    /// The name that is looked up.
    const fn in_use(&'static self) -> Of<T, P> {
        self.column(
            |own| format!("{} in use", own.what),
            |own, graph, name| graph.rules::<T>().word_step(name, (own.name)()).id,
        )
    }

    /// Its row in the book.
    #[must_use]
    pub const fn row(&'static self) -> Derived<Self, T, P> {
        self.column(|own| format!("{} row", own.what), Self::add_row)
    }

    fn add_row(&'static self, graph: &mut Graph, name: &str) -> ColumnId {
        let in_use = Text::new(graph.read(self.in_use()));
        let row: Link<T, P> = graph.rules::<T>().link(name, in_use);
        if self.must_find {
            let written = Text::new(graph.cell_to_change(self.at));
            graph.rules::<T>().must_find(written, row);
        }
        row.id
    }

    /// Adds a limit of what is looked up.
    fn limit(&self, graph: &mut Graph, called: &str, broken: Condition, wrong: &Wrong) {
        let breach = Breach {
            severity: wrong.severity,
            code: wrong.code,
            at: graph.cell_to_change(self.at),
            message: wrong.message,
            hint: wrong.hint,
            meaning: Meaning::Plain,
        };
        let name = format!("{}{called}", self.what);
        graph.rules::<T>().limit(&name, broken, breach);
    }

    /// Limit: the book has it.
    fn must_be_in_the_book(
        &self,
        graph: &mut Graph,
        called: &str,
        broken: Condition,
        (code, hint): (Code, &'static str),
    ) {
        if let Some(message) = self.missing {
            let wrong = Wrong {
                severity: Severity::Open,
                code,
                message,
                hint,
            };
            self.limit(graph, called, broken, &wrong);
        }
    }
}

/// What is wrong with what is looked up.
struct Wrong {
    severity: Severity,
    code: Code,
    message: &'static str,
    hint: &'static str,
}

const SOLD_OTHERWISE: Wrong = Wrong {
    severity: Severity::Error,
    code: Code::DimensionMismatch,
    message: "the material is sold in a unit that these measures do not make",
    hint: "sell it in Materials by what is measured here: piece, length, area, volume or weight; a volume bought by weight needs the material's Weight",
};

const COUNTED_OTHERWISE: Wrong = Wrong {
    severity: Severity::Error,
    code: Code::DimensionMismatch,
    message: "the work is counted in a unit that these measures do not make",
    hint: "count the work in another unit in Production rates, or name another work",
};

const NO_MATERIAL: (Code, &str) = (
    Code::MissingPrice,
    "add a row of this name to Materials with its price, or name a material that is there",
);

const NO_WORK: (Code, &str) = (
    Code::MissingRate,
    "add a row of this name to Production rates, or name a work that is there",
);

impl<T: Table> Buying<T> {
    /// Says what is lost of it; [`Waste::OfMaterial`] where nothing is said.
    #[must_use]
    pub const fn waste(mut self, waste: Waste) -> Self {
        self.waste = waste;
        self
    }

    /// What is bought, in the unit that the material is sold in: a volume of a material sold
    /// by weight is weighed, where the material's weight is known.
    ///
    /// Limits: the material is sold in a unit that the amounts make, and is in the book.
    #[must_use]
    pub const fn to_buy(&'static self) -> Of<T, Materials> {
        self.column(|own| format!("{} to buy", own.what), Self::add_to_buy)
    }

    fn add_to_buy(&'static self, graph: &mut Graph, name: &str) -> ColumnId {
        let (system, material) = (graph.system(), self.row());
        let (kind, size) = (material.of(MATERIAL_KIND), material.of(MATERIAL_SIZE));
        let mut amounts = by_kind(self.amounts, system);
        let mut misfit = of_no_kind(&amounts, &kind);
        let volume = amounts.iter().find(|(own, _)| matches!(*own, VOLUME));
        let has_weight = amounts.iter().any(|(own, _)| matches!(*own, WEIGHT));
        if let (Some((_, volume)), false) = (volume, has_weight) {
            let weight = material.of(MATERIAL_WEIGHT);
            let weighed = kind.clone().same_as(WEIGHT).and(weight.clone().above(0.0));
            misfit = misfit.and(weighed.negate());
            amounts.push((WEIGHT, volume.clone() * weight));
        }
        let natural: Term<T> = match self.amounts.first() {
            Some(first) => first.number(system),
            None => 0.0.into(),
        };
        let to_buy = of_kind(amounts, &kind, &size);
        let to_buy = when(material.found_none(), natural, to_buy);
        let mut rules = graph.rules::<T>();
        let to_buy = rules.step(name, ONE, &sources::UNITS, to_buy);
        let misfit = material.found().and(misfit);
        let called = " sold in another kind of unit";
        self.limit(graph, called, misfit, &SOLD_OTHERWISE);
        let missing = material.found_none().and(to_buy.above(0.0));
        self.must_be_in_the_book(graph, " not in the book", missing, NO_MATERIAL);
        to_buy.id
    }

    /// The unit that it is bought in.
    #[must_use]
    pub const fn bought_in(&'static self) -> Of<T, Materials> {
        self.column(
            |own| format!("{} is bought in", own.what),
            |own, graph, name| {
                let material = own.row();
                let first = own.amounts.first();
                let symbol = first.map_or("", |first| (first.unit)(graph.system()).symbol());
                let sold_in = material.words_of(Materials::MaterialUnit);
                let unit = either(material.found_none(), symbol, sold_in);
                graph.rules::<T>().word_step(name, unit).id
            },
        )
    }

    /// What is lost of it.
    pub(super) fn lost(&'static self, graph: &mut Graph) -> ColumnId {
        match self.waste {
            Waste::Own(own) => graph.reached(&own()),
            Waste::OfMaterial | Waste::AsWritten => graph.read(self.waste_of()),
        }
    }

    const fn waste_of(&'static self) -> Of<T, Materials> {
        self.column(
            |own| format!("waste of {}", own.what),
            |own, graph, name| {
                let (waste, source) = match own.waste {
                    Waste::AsWritten => (own.row().of(Materials::MaterialWaste), &sources::JOB),
                    _ => (own.row().of(MATERIAL_WASTE), &sources::WASTE),
                };
                graph.rules::<T>().step(name, PERCENT, source, waste).id
            },
        )
    }
}

impl<T: Table> Working<T> {
    /// What is worked, in the unit of the work; zero without a work.
    ///
    /// Limits: the work is counted in a unit that the amounts make, and is in the book.
    #[must_use]
    pub const fn to_do(&'static self) -> Of<T, Works> {
        self.column(|own| own.what.to_owned(), Self::add_to_do)
    }

    fn add_to_do(&'static self, graph: &mut Graph, name: &str) -> ColumnId {
        let (system, work) = (graph.system(), self.row());
        let (kind, size) = (work.of(WORK_KIND), work.of(WORK_SIZE));
        let amounts = by_kind(self.amounts, system);
        let misfit = work.found().and(of_no_kind(&amounts, &kind));
        let to_do = when(work.found_none(), 0.0, of_kind(amounts, &kind, &size));
        let mut rules = graph.rules::<T>();
        let to_do = rules.step(name, ONE, &sources::UNITS, to_do);
        let called = " counted in another kind of unit";
        self.limit(graph, called, misfit, &COUNTED_OTHERWISE);
        let some = self.amounts.first().map(|first| first.number::<T>(system));
        let missing = some.map(|some| work.found_none().and(some.above(0.0)));
        if let Some(missing) = missing {
            self.must_be_in_the_book(graph, ": work not in the book", missing, NO_WORK);
        }
        to_do.id
    }
}
