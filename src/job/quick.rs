//! Rows that Quick measure stands for: which there are, and what their cells follow.
//!
//! A row made here is an ordinary row of its table. Its cells follow figures of the quick
//! page, so that an edit there flows; its names are fixed. Always true: a row that the job
//! has itself replaces the row made here that it refines, and never adds to it.
//!
//! Not here: what a figure comes to (`takeoff::quick`).

use std::sync::Arc;

mod keys;
mod ways;

pub use keys::key_of;
use keys::{OF_BASIN, OF_REACH};

use super::columns::Fields;
use super::tables::{Basins, Courses, Falls, Layers, Loose, QuickMeasure, Shelves, TABLES};
use super::{Entries, TableData};
use crate::diagnostic::Diagnostic;
use crate::units::System;

/// A figure of the quick page that a number follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// A key as it was filled in.
    Key(QuickMeasure),
    /// Width of the pool: its own, or the length.
    Width,
    /// Side slope of the pool: its own, or the factor.
    SideSlope,
    /// Everything between the dug and the finished surface.
    BuildUp,
    /// Width of the shelf: its own, or the factor.
    ShelfWidth,
    /// Mean of the sediment probes.
    SedimentDepth,
    /// Side of a square of the gravel bed's area.
    GravelSide,
    /// Depth of the gravel bed: its own, or the factor.
    GravelDepth,
    /// Rise of the fall: its own, or by the rods of its foot and its top.
    Rise,
    /// Length of a course: its own, or the factor.
    Face,
    /// Height of the stone that makes the rise with the courses there are.
    StoneHeight,
    /// From one face back to the next.
    Setback,
    /// Width of the stream's bed: its own, or the factor.
    StreamWidth,
    /// Up each side of the stream.
    StreamDepth,
}

/// Words of the quick page that a cell of words follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuickWords {
    /// Outline of the pool.
    Shape,
    /// Ground of the pool.
    Soil,
    /// How the page was come by.
    Grade,
}

/// What a cell of a row made from the quick page follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Follows {
    /// A number.
    Figure(Figure),
    /// Words.
    Words(QuickWords),
}

/// What the pool, its filter and the fall are called where the page does not say.
const POOL: &str = "Pool";
const FILTER: &str = "Filter";
const FALL: &str = "Fall";

/// One cell of a row to be made.
enum Made<'w> {
    Word(&'w str),
    Number(f64),
    Follows(Follows),
}

use Made::{Number, Word};

fn key<'w>(key: QuickMeasure) -> Made<'w> {
    figure(Figure::Key(key))
}

fn figure<'w>(figure: Figure) -> Made<'w> {
    Made::Follows(Follows::Figure(figure))
}

fn words<'w>(words: QuickWords) -> Made<'w> {
    Made::Follows(Follows::Words(words))
}

/// Adds the rows that the quick page stands for. Tells in which tables they stand beside
/// rows of the job that may say the same.
pub(super) fn rows(
    tables: &mut [TableData],
    system: System,
    findings: &mut Vec<Diagnostic>,
) -> Vec<&'static str> {
    let mut maker = QuickRows {
        tables,
        names: [POOL, FILTER, FALL].map(str::to_lowercase).to_vec(),
        beside: Vec::new(),
    };
    let pool = maker.word(QuickMeasure::QuickPool);
    let pool: Arc<str> = if pool.is_empty() { POOL.into() } else { pool };
    maker.names.push(pool.to_lowercase());
    if maker.has(QuickMeasure::QuickLength) {
        maker.pool(&pool);
    }
    if maker.has(QuickMeasure::QuickGravelArea) {
        maker.filter();
    }
    if maker.rises() && !maker.has(QuickMeasure::QuickCourses) {
        findings.push(maker.no_courses());
    }
    if maker.rises() || maker.has(QuickMeasure::QuickStream) {
        maker.fall(&pool);
    }
    if !findings.iter().any(Diagnostic::blocks) {
        findings.extend(maker.idle());
    }
    maker.ways(system);
    maker.beside
}

struct QuickRows<'t> {
    tables: &'t mut [TableData],
    /// What its basins and its fall are called, in lower case.
    names: Vec<String>,
    beside: Vec<&'static str>,
}

impl QuickRows<'_> {
    fn table<F: Fields>(&self) -> &TableData {
        let position = TABLES.iter().position(|table| table.name == F::NAME);
        &self.tables[position.unwrap_or(0)]
    }

    fn word(&self, field: QuickMeasure) -> Arc<str> {
        let words = self.table::<QuickMeasure>().words(field.index());
        words.first().cloned().unwrap_or_else(|| "".into())
    }

    fn number(&self, field: QuickMeasure) -> Option<f64> {
        let numbers = self.table::<QuickMeasure>().numbers(field.index());
        numbers.first().copied().filter(|number| !number.is_nan())
    }

    fn has(&self, field: QuickMeasure) -> bool {
        self.number(field).is_some()
    }

    /// Whether the fall has a rise: its own, or by rods.
    fn rises(&self) -> bool {
        let rods = [QuickMeasure::QuickFootRod, QuickMeasure::QuickTopRod];
        self.has(QuickMeasure::QuickRise) || rods.into_iter().all(|rod| self.has(rod))
    }

    /// Whether a row of the job says a word in a column.
    fn says<F: Fields>(&self, field: F, word: &str) -> bool {
        let mut said = self.table::<F>().words(field.index()).iter();
        said.any(|said| said.to_lowercase() == word.to_lowercase())
    }

    /// Whether a row of this name is to be made: not where the job has it. A basin or a fall
    /// of its own under another name may be the same one.
    fn is_wanted<F: Fields>(&mut self, name: F, word: &str) -> bool {
        if self.says(name, word) {
            return false;
        }
        let own = self.table::<F>();
        let is_other = |row: usize| {
            let own_name = own.words(name.index())[row].to_lowercase();
            !own.is_quick(row) && !self.names.contains(&own_name)
        };
        let may_be_same = [Basins::TABLE.name, Falls::TABLE.name].contains(&F::NAME);
        let beside = may_be_same && (0..own.rows).any(is_other);
        if beside && !self.beside.contains(&F::NAME) {
            self.beside.push(F::NAME);
        }
        true
    }

    /// Whether the job has a course of the quick fall with a number.
    fn has_course(&self, number: f64) -> bool {
        let own = self.table::<Courses>();
        let falls = own.words(Courses::CourseFall.index()).iter();
        let numbers = own.numbers(Courses::CourseNumber.index());
        let mut courses = falls.zip(numbers);
        courses.any(|(fall, own)| fall.eq_ignore_ascii_case(FALL) && (own - number).abs() < 0.5)
    }

    fn pool(&mut self, pool: &str) {
        use QuickMeasure as Q;
        if self.is_wanted(Basins::Basin, pool) {
            let mut cells = vec![
                (Basins::Basin, Word(pool)),
                (Basins::Shape, words(QuickWords::Shape)),
                (Basins::BasinLength, key(Q::QuickLength)),
                (Basins::BasinWidth, figure(Figure::Width)),
                (Basins::SideSlope, figure(Figure::SideSlope)),
                (Basins::BuildUp, figure(Figure::BuildUp)),
                (Basins::BasinGrade, words(QuickWords::Grade)),
            ];
            cells.extend(self.filled(&OF_BASIN));
            let probes = [Q::QuickProbe1, Q::QuickProbe2, Q::QuickProbe3];
            if probes.into_iter().any(|probe| self.has(probe)) {
                cells.push((Basins::SedimentDepth, figure(Figure::SedimentDepth)));
            }
            if !self.word(Q::QuickSoil).is_empty() {
                cells.push((Basins::BasinSoil, words(QuickWords::Soil)));
            }
            self.make(cells);
        }
        if self.has(Q::QuickShelfDepth) && !self.says(Shelves::ShelfBasin, pool) {
            self.make(vec![
                (Shelves::ShelfBasin, Word(pool)),
                (Shelves::Shelf, Word("Planted shelf")),
                (Shelves::ShelfDepth, key(Q::QuickShelfDepth)),
                (Shelves::ShelfWidth, figure(Figure::ShelfWidth)),
                (Shelves::ShelfGrade, words(QuickWords::Grade)),
            ]);
        }
        self.lined(pool, Layers::LayerBasin);
    }

    /// Those of some cells whose key is filled in.
    fn filled<F: Fields>(&self, cells: &[(F, QuickMeasure)]) -> Vec<(F, Made<'static>)> {
        let filled = cells.iter().filter(|(_, key)| self.has(*key));
        filled.map(|(field, own)| (*field, key(*own))).collect()
    }

    /// Fabric and liner of a basin or a fall, where the job lines it with nothing itself.
    fn lined(&mut self, name: &str, part: Layers) {
        if self.says(part, name) {
            return;
        }
        for (layer, material) in [("fabric", "Fabric"), ("liner", "Liner")] {
            let layer = format!("{name} {layer}");
            if self.is_wanted(Layers::Layer, &layer) {
                self.make(vec![
                    (Layers::Layer, Word(&layer)),
                    (part, Word(name)),
                    (Layers::LayerMaterial, Word(material)),
                    (Layers::LayerGrade, words(QuickWords::Grade)),
                ]);
            }
        }
    }

    fn filter(&mut self) {
        if self.is_wanted(Basins::Basin, FILTER) {
            self.make(vec![
                (Basins::Basin, Word(FILTER)),
                (Basins::Shape, Word("rectangle")),
                (Basins::BasinLength, figure(Figure::GravelSide)),
                (Basins::BasinWidth, figure(Figure::GravelSide)),
                (Basins::Depth, figure(Figure::GravelDepth)),
                (Basins::SideSlope, Number(0.0)),
                (Basins::Freeboard, Number(0.0)),
                (Basins::BasinGrade, words(QuickWords::Grade)),
            ]);
        }
        self.lined(FILTER, Layers::LayerBasin);
        let bed = format!("{FILTER} gravel");
        if !self.says(Loose::LooseBasin, FILTER) && self.is_wanted(Loose::LooseBed, &bed) {
            self.make(vec![
                (Loose::LooseBed, Word(&bed)),
                (Loose::LooseBasin, Word(FILTER)),
                (Loose::LooseArea, key(QuickMeasure::QuickGravelArea)),
                (Loose::LooseThickness, figure(Figure::GravelDepth)),
                (Loose::LooseGrade, words(QuickWords::Grade)),
            ]);
        }
    }

    fn fall(&mut self, pool: &str) {
        use QuickMeasure as Q;
        let rises = self.rises();
        if self.is_wanted(Falls::Fall, FALL) {
            let kind = if rises { "waterfall" } else { "stream" };
            let mut cells = vec![
                (Falls::Fall, Word(FALL)),
                (Falls::FallKind, Word(kind)),
                (Falls::FallGrade, words(QuickWords::Grade)),
            ];
            if self.says(Basins::Basin, pool) {
                cells.push((Falls::FallBasin, Word(pool)));
            }
            cells.extend(self.filled(&OF_REACH));
            if rises {
                cells.push((Falls::PlannedRise, figure(Figure::Rise)));
            }
            if self.has(Q::QuickStream) {
                cells.push((Falls::ReachWidth, figure(Figure::StreamWidth)));
                cells.push((Falls::ReachDepth, figure(Figure::StreamDepth)));
            }
            self.make(cells);
        }
        if rises {
            self.courses();
        }
        self.lined(FALL, Layers::LayerFall);
    }

    fn courses(&mut self) {
        use QuickMeasure as Q;
        let count = self.number(Q::QuickCourses).unwrap_or(0.0).round();
        let mut number = 1.0;
        while number <= count {
            if self.has_course(number) {
                number += 1.0;
                continue;
            }
            let name = format!("{FALL} {number}");
            let mut cells = vec![
                (Courses::Course, Word(&name)),
                (Courses::CourseFall, Word(FALL)),
                (Courses::CourseNumber, Number(number)),
                (Courses::Face, figure(Figure::Face)),
                (Courses::StoneHeight, figure(Figure::StoneHeight)),
                (Courses::CourseGrade, words(QuickWords::Grade)),
            ];
            if number > 1.0 {
                cells.push((Courses::Setback, figure(Figure::Setback)));
            } else if self.has(Q::QuickStone) {
                cells.push((Courses::Largest, key(Q::QuickStone)));
            }
            if number >= count && self.has(Q::QuickSpill) {
                cells.push((Courses::SpillWidth, key(Q::QuickSpill)));
            }
            self.make(cells);
            number += 1.0;
        }
    }

    /// Puts one row below those of its table.
    fn make<F: Fields>(&mut self, cells: Vec<(F, Made<'_>)>) {
        let position = TABLES.iter().position(|table| table.name == F::NAME);
        let data = &mut self.tables[position.unwrap_or(0)];
        let mut follows = Vec::new();
        data.blank_row(None);
        for (field, made) in cells {
            let at = field.index();
            match (made, &mut data.columns[at]) {
                (Word(word), Entries::Words(words)) => set_last(words, word.into()),
                (Number(number), Entries::Numbers(numbers)) => set_last(numbers, number),
                (Made::Follows(what), _) => follows.push((at, what)),
                _ => {}
            }
        }
        set_last(&mut data.follows, follows);
    }
}

fn set_last<V>(values: &mut [V], value: V) {
    if let Some(last) = values.last_mut() {
        *last = value;
    }
}
